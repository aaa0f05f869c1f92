package press

import (
	"bytes"
	"strings"
	"testing"

	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/notebook"
	"hembook/internal/prose"
	"hembook/internal/trade"
)

const leafRoom = 40_000

// long is a figure of so many millimetres, reached by a sum.
func long(mm float64, rule string, source trade.Source) *figure.Figure {
	p := &figure.Pad{}
	f := p.Figure("x", "length", "", p.Constant(mm, measure.UnitMM).Plus(p.Constant(1, measure.UnitMM)), measure.UnitMM, rule, source)
	return &f
}

// TestRulesAreSaidOnce: a long rule that three figures rest on is written out at
// the foot with its source; one that two rest on, or a short one, stays.
func TestRulesAreSaidOnce(t *testing.T) {
	book := &ruleBook{}
	w := &paper{rules: book}
	rule := "what the seam needs, as nothing is written at the edge or the piece, however long it may be"
	for range 3 {
		w.figure(long(15, rule, "a table of seams"))
	}
	w.figure(long(1, "a", "common practice"))
	w.figure(long(2, "the other, which is long as well but is needed only this one time", "geometry"))
	parts, rules := book.fill([]leafPart{{&buildPart{id: "x"}, [][]byte{w.b}}})
	foot, got := string(rules), string(parts[0].HTML)
	if n := strings.Count(got, `<a href="#rule-1">what the seam needs</a>`); n != 3 {
		t.Errorf("%d of 3 figures lead to the rule: %s", n, got)
	}
	if strings.Count(got+foot, rule) != 1 || strings.Count(got+foot, "a table of seams") != 1 || !strings.Contains(foot, `<li id="rule-1">`+rule+" <cite>a table of seams</cite>") {
		t.Errorf("the rule is not said once, at the foot: %s", foot)
	}
	for _, stays := range []string{"<p>a<br>= 1 mm + 1 mm = 2 mm<br><cite>common practice</cite></p>", "the other, which is long as well but is needed only this one time<br>= 2 mm + 1 mm = 3 mm<br><cite>geometry</cite>"} {
		if !strings.Contains(got, stays) {
			t.Errorf("%q does not stand at its figure: %s", stays, got)
		}
	}
	if strings.ContainsAny(got+foot, "\x01\x02") {
		t.Error("a mark is left")
	}
}

// TestLoadIsTheWeight: what a load says a page will weigh is what it weighs, or
// a little more.
func TestLoadIsTheWeight(t *testing.T) {
	book := &ruleBook{}
	w := &paper{rules: book}
	for i := range 60 {
		w.figure(long(float64(i), "straight edge: √((x₂ − x₁)² + (y₂ − y₁)²), to a hundredth", "geometry"))
		if i%2 == 0 {
			w.figure(long(float64(i), "another rule", "derived"))
		}
	}
	says := load{book: book}
	says.add(w.b)
	parts, foot := book.fill([]leafPart{{&buildPart{}, [][]byte{w.b}}})
	is := len(parts[0].HTML) + len(foot)
	if says.bytes() < is || says.bytes() > is+is/10 {
		t.Errorf("a load of %d for a page of %d bytes", says.bytes(), is)
	}
}

// TestNoMarkFromTheRecord: a text that holds the byte of a mark neither stops the
// press nor is taken for one.
func TestNoMarkFromTheRecord(t *testing.T) {
	f := many(1)
	f["content/builds/build-00000/notes.md"] = "A \x01r999\x01 and `\x01s0\x01` and \x01.\n"
	for name, text := range pressed(t, room(t, f), t.TempDir()+"/x") {
		if strings.HasSuffix(name, ".html") && strings.Contains(text, "\x01") {
			t.Errorf("%s holds a mark", name)
		}
		if name == "builds/build-00000.html" && !strings.Contains(text, "A r999 and <code>s0</code> and .") {
			t.Errorf("%s: the text is not whole", name)
		}
	}
	for _, text := range []string{"\x01", "\x01r", "\x01r1", "\x01rx\x01", "\x01\x01"} {
		eachMark([]byte(text), func(at, end int, _ byte, _ int) { t.Errorf("%q: a mark from %d to %d", text, at, end) })
	}
}

func TestHeavyLeafIsContinued(t *testing.T) {
	part := &buildPart{id: "pieces", name: "Pieces"}
	var all []stretch
	var sum int
	for i := range 9 {
		html := []byte(`<a href="#p` + string(rune('8'-i)) + `">x</a><p id="p` + string(rune('0'+i)) + `">` + strings.Repeat("x", 15_000) + "</p>")
		all = append(all, stretch{part, html, i == 0})
		sum += len(html)
	}
	build := &notebook.BuildPage{Head: notebook.Head{Address: "builds/a.html", Title: "A"}}
	var pages []leafPage
	for i, parts := range spread(all, &ruleBook{}, leafRoom) {
		pages = append(pages, leafPage{build.Leaf("pieces", i+1), parts})
	}
	if len(pages) != 5 || pages[4].leaf.Address != "builds/a/pieces-5.html" {
		t.Fatalf("%d pages, the last at %s", len(pages), pages[len(pages)-1].leaf.Address)
	}
	for _, p := range pages {
		n := 0
		for _, had := range p.parts {
			n += len(bytes.Join(had.html, nil))
		}
		if sum -= n; n > leafRoom || len(p.parts) != 1 || p.parts[0].part != part {
			t.Errorf("%s: %d bytes in %d parts", p.leaf.Address, n, len(p.parts))
		}
	}
	if sum != 0 {
		t.Errorf("%d bytes were lost", sum)
	}
	relink(pages)
	if html := string(bytes.Join(pages[0].parts[0].html, nil)); !strings.Contains(html, `href="pieces-5.html#p8"`) {
		t.Errorf("a link within the leaf was not mended: %.80s", html)
	}
	if html := string(bytes.Join(pages[2].parts[0].html, nil)); !strings.Contains(html, `href="#p4"`) {
		t.Errorf("a link within one page was changed: %.80s", html)
	}
}

func TestRecordPages(t *testing.T) {
	text := prose.YAML(nil, []byte(strings.Repeat("pieces:\n  - {name: x, to: [1, 2]}\n  - {name: y}\n", 1500)))
	pages := recordPages(text, leafRoom)
	if !bytes.Equal(bytes.Join(pages, nil), text) {
		t.Error("the pages together are not the record")
	}
	for i, p := range pages {
		if len(p) > leafRoom || i < len(pages)-1 && p[len(p)-1] != '\n' || !bytes.HasPrefix(p, []byte(`<span class="nt">pieces`)) {
			t.Errorf("page %d has %d bytes and begins %.40q", i, len(p), p)
		}
	}
	if one := recordPages(nil, leafRoom); len(one) != 1 {
		t.Errorf("an empty record has %d pages", len(one))
	}
	if one := recordPages(bytes.Repeat([]byte("x"), 2*leafRoom), leafRoom); len(one) != 1 {
		t.Errorf("a record of one line has %d pages", len(one))
	}
}

// TestEveryWorkingIsReached: whatever leaf a figure stands on, its working
// stands there too, and each rule it names is on the same page.
func TestEveryWorkingIsReached(t *testing.T) {
	for name, text := range pressed(t, room(t, many(1)), t.TempDir()+"/x") {
		if !strings.HasPrefix(name, "builds/") {
			continue
		}
		if strings.Count(text, "<summary>") != strings.Count(text, "</summary><p>") {
			t.Errorf("%s: a figure without a working", name)
		}
		eachName([]byte(text), hereStart, func(_ int, id []byte) {
			if !strings.Contains(text, ` id="`+string(id)+`"`) {
				t.Errorf("%s: #%s is not on the page", name, id)
			}
		})
	}
}
