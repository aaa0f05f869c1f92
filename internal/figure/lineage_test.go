package figure

import (
	"fmt"
	"strings"
	"testing"

	"hembook/internal/fault"
)

// TestLineage: d = b + c, b = 2a, e = d + a, f = x, which is in no list.
func TestLineage(t *testing.T) {
	p := &Pad{}
	a := p.Figure("a", "", "", p.Written("a", 1, mm, at(1)), mm, "", Recorded)
	b := p.Figure("b", "", "", p.Of("a", &a).By(2), mm, "", Derived)
	c := p.Figure("c", "", "", p.Written("c", 2, mm, at(2)), mm, "", Recorded)
	d := p.Figure("d", "", "", p.Of("b", &b).Plus(p.Of("c", &c)), mm, "", Derived)
	e := p.Figure("e", "", "", p.Of("d", &d).Plus(p.Of("a", &a)).Plus(p.Of("a", &a)), mm, "", Derived)
	x := p.Figure("x", "", "", p.Written("x", 1, mm, at(3)), mm, "", Recorded)
	p.Note(p.Of("x", &x))
	f := p.Figure("f", "", "", p.Of("c", &c), mm, "", Derived)
	l := NewLineage([]Figure{e, d, c}, []Figure{b, a, f, d})
	say := func(list []Dependant) string {
		var out []string
		for _, one := range list {
			out = append(out, fmt.Sprint(one.Figure.ID, one.Far, one.Through))
		}
		return strings.Join(out, " ")
	}
	lines := func(file string, first, last int32) func(fault.Pos, bool) bool {
		return func(at fault.Pos, _ bool) bool { return at.File() == file && at.Line >= first && at.Line <= last }
	}
	for _, c := range []struct{ what, got, want string }{
		{"of a", say(l.Of("a")), "e1a b1a d2b"}, // e before b, as in the list; d through b, since e is nothing of d
		{"of b", say(l.Of("b")), "d1b e2d"},
		{"of c", say(l.Of("c")), "d1c f1c e2d"},
		{"of e", say(l.Of("e")), ""},
		{"of x", say(l.Of("x")), "f1x"},
		{"of what there is none", say(l.Of("y")), ""},
		{"of line 1", say(l.OfPlaces(lines("content/builds/x/build.yaml", 1, 1))), "a1 e2a b2a d3b"},
		{"of lines 1 and 2", say(l.OfPlaces(lines("content/builds/x/build.yaml", 1, 2))), "c1 a1 e2a d2c b2a f2c"},
		{"of line 9", say(l.OfPlaces(lines("content/builds/x/build.yaml", 9, 9))), ""},
		{"of another file", say(l.OfPlaces(lines("other.yaml", 1, 2))), ""},
	} {
		if c.got != c.want {
			t.Errorf("%s: %q, want %q", c.what, c.got, c.want)
		}
	}
	if len(l.Figures()) != 6 || l.Figure("x") != nil || l.Figure("b").ID != "b" {
		t.Errorf("%d figures", len(l.Figures()))
	}
}
