package phrase

import (
	"strings"
	"testing"

	"hembook/internal/fault"
	"hembook/internal/measure"
)

func mm(n float64) measure.Length { return measure.MM(n) }

func TestWhere(t *testing.T) {
	for _, c := range []struct {
		text string
		unit measure.Unit
		want Where
	}{
		{"75", measure.UnitMM, Where{By: mm(75)}},
		{"75 from underarm back", measure.UnitMM, Where{From: "underarm back", By: mm(75)}},
		{"1 1/4 in from neck", measure.UnitMM, Where{From: "neck", By: mm(31.75)}},
		{"  2   from  neck ", measure.UnitCM, Where{From: "neck", By: mm(20)}},
		{"3/4 from neck", measure.UnitIn, Where{From: "neck", By: mm(19.05)}},
		{"middle", measure.UnitMM, Where{Middle: true}},
		{"rib", measure.UnitMM, Where{From: "rib"}},
		{"fly end", measure.UnitMM, Where{From: "fly end"}},
		{"1.5 cm", measure.UnitMM, Where{By: mm(15)}},
	} {
		if got, f := ReadWhere(c.text, c.unit); f != nil || got != c.want {
			t.Errorf("%q: %+v, %v; want %+v", c.text, got, f, c.want)
		}
	}
}

func TestLine(t *testing.T) {
	for _, c := range []struct {
		text string
		want Line
	}{
		{"front.side", Line{Name: "front.side"}},
		{"side", Line{Name: "side"}},
		{"front lining.neck right", Line{Name: "front lining.neck right"}},
		{"front.rise from waist to fly end", Line{Name: "front.rise", Part: Stretch{From: "waist", To: "fly end"}}},
		{"front.rise from waist for 250", Line{Name: "front.rise", Part: Stretch{From: "waist", For: mm(250)}}},
		{"front.rise from waist for 9 1/2 in", Line{Name: "front.rise", Part: Stretch{From: "waist", For: mm(241.3)}}},
		{"left side from waist", Line{Name: "left side", Part: Stretch{From: "waist"}}},
		{"18 inside front edge", Line{Name: "front edge", At: 10, Inside: mm(18)}},
		{"4 inside centre back.right from waist to hip", Line{Name: "centre back.right", At: 9, Inside: mm(4), Part: Stretch{From: "waist", To: "hip"}}},
	} {
		c.want.Text = c.text
		if i := strings.Index(c.text, "from "); i >= 0 {
			c.want.Part.text = c.text[i:]
		}
		if got, f := ReadLine(c.text, measure.UnitMM); f != nil || got != c.want {
			t.Errorf("%q: %+v, %v; want %+v", c.text, got, f, c.want)
		}
	}
}

func TestBetween(t *testing.T) {
	for _, c := range [][4]string{
		{"8 from front to top", "8", "front", "top"},
		{"1 1/4 in from front to top", "1 1/4 in", "front", "top"},
		{"26", "26", "", ""},
		{"12 from side mark", "12", "side mark", ""},
		{"1.2 to end", "1.2", "", "end"},
	} {
		amount, from, to, f := ReadBetween(c[0])
		if f != nil || amount != c[1] || from != c[2] || to != c[3] {
			t.Errorf("%q: %q, %q, %q, %v", c[0], amount, from, to, f)
		}
	}
}

// TestFaults: where each begins, what is wrong and what can be written.
func TestFaults(t *testing.T) {
	where := func(text string) *fault.Fault { _, f := ReadWhere(text, measure.UnitMM); return f }
	line := func(text string) *fault.Fault { _, f := ReadLine(text, measure.UnitMM); return f }
	between := func(text string) *fault.Fault { _, _, _, f := ReadBetween(text); return f }
	for _, c := range []struct {
		read    func(string) *fault.Fault
		text    string
		offset  int
		message string
		hint    string
	}{
		{where, "75 from", 3, `nothing stands after "from"`, "write a name: 75 from waist"},
		{where, "from waist", 0, `a length is missing before "from"`, "write it, as 75 from waist"},
		{where, "75 from waist to hem", 14, `"to" has no place here`, "a place is 75 from waist, middle, or a name"},
		{where, "75 from waist from hem", 14, `"from" stands here twice`, "keep one of them"},
		{where, "75 mum from waist", 3, `unknown unit "mum"`, "did you mean 75 mm?"},
		{where, "", 0, "this does not say where", "write how far along, as 75, or 75 from and a name"},
		{line, "from waist to hem", 0, `nothing stands before "from"`, "write the edge first: front.side from waist to hem"},
		{line, "front.rise from", 11, `nothing stands after "from"`, "write a name: front.rise from waist"},
		{line, "front.rise to hem", 11, `"front.rise to hem" does not say where it begins`, "write front.rise from a name to hem"},
		{line, "front.rise from waist to", 22, `nothing stands after "to"`, "write a name: front.rise from waist to hem"},
		{line, "front.rise from waist for", 22, `nothing stands after "for"`, "write a length: front.rise from waist for 200"},
		{line, "front.rise from waist for 0", 26, "a part of an edge is longer than nothing", "write how long it is: front.rise from waist for 200"},
		{line, "inside front.side", 0, `a length is missing before "inside"`, "write it, as 18 inside front edge"},
		{line, "18 inside", 3, `nothing stands after "inside"`, "write a name: 18 inside waist"},
		{line, "wrist at 75 from hem", 6, `"wrist at 75 from hem" is a place; name an edge here`, "write the edge alone, or a part of it: wrist from waist for 100"},
		{line, "  ", 0, "this names no edge", "write piece.edge, as front.side"},
		{between, "from front to top", 0, `"from front to top" does not say how much`, "say how much first: 8 from front to top"},
		{between, "8 to top from front", 2, "to comes before from", "say how much, from which notch to which: 8 from front to top"},
	} {
		f := c.read(c.text)
		if f == nil {
			t.Errorf("%q was read", c.text)
			continue
		}
		if f.Offset() != c.offset || f.Message != c.message || f.Hint != c.hint {
			t.Errorf("%q: %d, %s\n    %s\nwant %d, %s\n    %s", c.text, f.Offset(), f.Message, f.Hint, c.offset, c.message, c.hint)
		}
	}
}

// A length with a slip in it is put right within its phrase.
func TestMeantLength(t *testing.T) {
	for _, c := range [][2]string{
		{"75 mum from waist", "75 mm from waist"},
		{"front.rise from waist for 1,5 cm", "front.rise from waist for 1.5 cm"},
		{"18 mn inside  front.side", "18 mm inside front.side"},
		{"75 from", ""},
	} {
		_, f := ReadWhere(c[0], measure.UnitMM)
		if strings.Contains(c[0], ".") {
			_, f = ReadLine(c[0], measure.UnitMM)
		}
		if f == nil || f.Meant() != c[1] {
			t.Errorf("%q: meant %+v, want %q", c[0], f, c[1])
		}
	}
}

func TestNameFault(t *testing.T) {
	for _, c := range [][3]string{{"front", "", "front"}, {"waist to hem", "to", "waist and hem"}, {"at", "at", ""}, {"top", "", "top"}, {"fortune", "", "fortune"}} {
		if word, instead := NameFault(c[0]); word != c[1] || instead != c[2] {
			t.Errorf("%q: %q, %q", c[0], word, instead)
		}
	}
}

// FuzzPhrase: no text stops the reader; what it reads holds names alone, and is
// read again to the same from what was kept of it.
func FuzzPhrase(f *testing.F) {
	for _, s := range []string{"75 from underarm back", "middle", "front.rise from waist to fly end", "18 inside front edge", "front.rise from waist for 1 1/4 in", "8 from front to top", "at to for", "½ from ½", "\u00a0from\u2003to", "-3 from x"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		size := len([]rune(text))
		names := func(list ...string) {
			for _, n := range list {
				if word, _ := NameFault(n); word != "" {
					t.Errorf("%q was read to the name %q", text, n)
				}
			}
		}
		bad := func(f *fault.Fault) bool {
			if f == nil {
				return false
			}
			if f.Message == "" || f.Offset() < 0 || f.Offset() > size {
				t.Errorf("%q: %+v", text, f)
			}
			return true
		}
		if w, f := ReadWhere(text, measure.UnitMM); !bad(f) {
			names(w.From)
			if w.By < 0 {
				t.Errorf("%q lies %v along", text, w.By)
			}
		}
		if l, f := ReadLine(text, measure.UnitMM); !bad(f) {
			names(l.Name, l.Part.From, l.Part.To)
			again, f := ReadLine(l.Text, measure.UnitMM)
			l.At, again.At = 0, 0
			if f != nil || again != l {
				t.Errorf("%q: %+v, again %+v, %v", text, l, again, f)
			}
		}
		if _, from, to, f := ReadBetween(text); !bad(f) {
			names(from, to)
		}
	})
}
