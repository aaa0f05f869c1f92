package proof

import (
	"slices"
	"testing"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
)

func secretsOf(list ...record.Secret) *Secrets {
	var kept []record.Private[record.Secret]
	for i := range list {
		list[i].At = fault.Pos{Source: &fault.Source{Path: "r.yaml"}, Line: int32(i + 1), Column: 1}
		kept = append(kept, record.Keep(list[i]))
	}
	return New(kept)
}

// TestFindsEveryForm: a value, a file it stands in or not, and whether it is found.
func TestFindsEveryForm(t *testing.T) {
	name := record.Secret{Name: "name", Text: "Adéla Wren"}
	waist := record.Secret{Name: "waist", Text: "75.5", Length: measure.MM(755)}
	post := record.Secret{Name: "post", Text: "7.50 EUR"}
	for _, row := range []struct {
		secret     record.Secret
		file, text string
		found      bool
	}{
		{name, "a.html", "<p>for Adéla\u00a0Wren</p>", true},
		{name, "a.html", "<p>for <b>Adéla</b>\n <i>WREN</i></p>", true},
		{name, "a.html", `<p title="Ad&#233;la Wren">`, true},
		{name, "a.html", `<a href="/x?q=Ad%C3%A9la%20Wren">`, true},
		{name, "a.html", `<script type="application/ld+json">{"name":"Ad\u00e9la Wren"}</script>`, true},
		{name, "builds/adéla-wren.html", "", true},
		{name, "a.css", "/* Adéla Wren */", true},
		{name, "a.html", "<p>Adéla Wrens</p>", false},
		{name, "a.html", "<p>Wren, Adéla</p>", false},
		{waist, "a.html", "<td>Waist</td><td>75.5 cm</td>", true},
		{waist, "a.html", "<span>waist</span>: <span>755</span> mm", true},
		{waist, "a.html", "waist 29 3/4 in", true},
		{waist, "a.html", "waist 75,5 cm", true},
		{waist, "a.html", "waist 175.5 cm", false},
		{waist, "a.html", "waist 75.55 cm", false},
		{waist, "a.html", "hip 75.5 cm", false},
		{waist, "a.html", `<path d="M75.5 755">`, false},
		{record.Secret{Name: "height", Text: "169"}, "a.html", `<svg height="169">`, false},
		{record.Secret{Name: "height", Text: "169"}, "a.html", `height 169`, true},
		{post, "a.html", "<p>7.5 EUR</p>", true},
		{post, "a.html", "<p>€ 7.50</p>", true},
		{post, "a.html", "<p>7.50 m</p>", false},
		{post, "a.html", "<p>17.50 EUR</p>", false},
		{record.Secret{Name: "x", Text: "7993.61"}, "a.html", "<p>it was 7993.61</p>", true},
		{record.Secret{Name: "x", Text: "7"}, "a.html", "<p>x 7</p>", false},
		{record.Secret{Name: "taken", Text: "2026-07-18"}, "a.html", "<p>taken 18 July 2026</p>", true},
		{record.Secret{Name: "taken", Text: "2026-07-18"}, "a.html", "<p>begun 18 July 2026</p>", false},
		{record.Secret{Name: "wearer", Text: "contralto"}, "a.html", "<p>wearer: contralto</p>", true},
		{record.Secret{Name: "wearer", Text: "contralto"}, "a.html", "<p>a contralto</p>", false},
		{record.Secret{Name: "by", Text: "Robin"}, "a.html", "<p>Robin saw it</p>", true},
		{record.Secret{Name: "by", Text: "Robin"}, "a.html", "<p>a robin saw it</p>", false},
		{record.Secret{Name: "note", Text: "stands with her weight on the left leg and breathes low when she sings"}, "a.html", "<p>weight on the left leg and breathes low when she sings</p>", true},
		{record.Secret{Name: "name", Text: "山田花子"}, "a.html", "<p>これは山田花子です</p>", true},
		{record.Secret{Name: "contact", Text: "me@here.example"}, "a.html", `<a href="mailto:me@here.example">`, true},
	} {
		if got := len(secretsOf(row.secret).Find(row.file, []byte(row.text))) > 0; got != row.found {
			t.Errorf("%q in %s %q: found %v", row.secret.Text, row.file, row.text, got)
		}
	}
}

// TestTwoOfOneHouse: what is written for two is found once, and stands at both places.
func TestTwoOfOneHouse(t *testing.T) {
	home := record.Secret{Name: "address", Text: "The Upper Lock, Fossgate 9"}
	s := secretsOf(home, record.Secret{Name: "name", Text: "Adéla Wren"}, home)
	finds := s.Find("a.html", []byte("<p>The Upper Lock, Fossgate 9</p>"))
	if len(finds) != 1 {
		t.Fatalf("%d finds", len(finds))
	}
	if at := s.Written(finds[0]); len(at) != 2 || at[0].Line != 1 || at[1].Line != 3 {
		t.Errorf("written at %v", at)
	}
	if at := s.Written(s.Find("a.html", []byte("Adéla Wren"))[0]); len(at) != 1 || at[0].Line != 2 {
		t.Errorf("the name is written at %v", at)
	}
}

// TestNameInAnEmail: whose e-mail is shown is named by it, there and nowhere else.
func TestNameInAnEmail(t *testing.T) {
	s := secretsOf(record.Secret{Name: "name", Text: "Adela Wren"}, record.Secret{Name: "contact", Text: "adela@wren.example"}, record.Secret{Name: "name", Text: "Ruth Wren"})
	finds := s.Find("a.html", []byte("<p>adela@wren.example, Ruth Wren</p>"))
	if len(finds) != 3 {
		t.Fatal(finds)
	}
	lines := func(finds []Find) (out []int32) {
		for _, f := range finds {
			out = append(out, f.At.Line)
		}
		return out
	}
	mail := s.Written(finds[1])
	if got := lines(s.Private(finds, s.Texts(mail))); !slices.Equal(got, []int32{3}) {
		t.Errorf("beside the e-mail, lines %v are private", got)
	}
	if got := lines(s.Private(finds, s.Texts(nil))); !slices.Equal(got, []int32{1, 2, 3}) {
		t.Errorf("with nothing shown, lines %v are private", got)
	}
}

// TestFigureAsItsReaderWritesIt: 297 mm are 29,7 cm in German, and a waist of 755 mm is
// 29.7 in, so that the one is found for the other.
func TestFigureAsItsReaderWritesIt(t *testing.T) {
	s := secretsOf(record.Secret{Name: "waist", Text: "75.5", Length: measure.MM(755)})
	finds := s.Find("a.html", []byte("<p>waist 29,7 cm</p>"))
	if len(finds) != 1 {
		t.Fatal(finds)
	}
	for _, c := range []struct {
		mm   float64
		left int
	}{{297, 0}, {298, 1}} {
		edge := figure.Figure{Value: figure.Value{Quantity: measure.Quantity{Number: c.mm, Unit: measure.UnitMM}}}
		if left := s.NotOf(finds, func(say func(string)) { SayFigure(&edge, say) }); len(left) != c.left {
			t.Errorf("beside a figure of %g mm: %v", c.mm, left)
		}
	}
}

// TestWhatIsPublicElsewhere tells apart.
func TestWhatIsPublicElsewhere(t *testing.T) {
	s := secretsOf(record.Secret{Name: "country", Text: "Ireland"}, record.Secret{Name: "name", Text: "Adela Wren"}, record.Secret{Name: "waist", Text: "75.5"})
	finds := s.Find("a.html", []byte("<p>Ireland, Adela Wren, waist 75.5</p>"))
	if len(finds) != 3 {
		t.Fatal(finds)
	}
	left := s.Private(finds, func(say func(string)) { say("summary made in ireland"); say("Adela"); say("Wren") })
	if len(left) != 2 || left[0].At.Line != 2 || left[1].At.Line != 3 {
		t.Errorf("left %v", left)
	}
	left = s.NotOf(left, func(say func(string)) { say("71 + 75.5 = 146.5"); say("Adela Wren") })
	if len(left) != 1 || left[0].At.Line != 2 {
		t.Errorf("left %v", left)
	}
}
