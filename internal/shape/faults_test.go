package shape

import (
	"math"
	"strings"
	"testing"
)

// path draws straight edges a, b, c … through the points and back to the
// first.
func path(points ...Point) Outline {
	o := Outline{From: points[0]}
	for k := range points {
		o.Edges = append(o.Edges, Edge{Name: string(rune('a' + k)), To: points[(k+1)%len(points)]})
	}
	return o
}

func TestFaults(t *testing.T) {
	square := path(Point{0, 0}, Point{100, 0}, Point{100, 100}, Point{0, 100})
	with := func(change func(o *Outline)) Outline {
		o := square
		o.Edges = append([]Edge{}, square.Edges...)
		change(&o)
		return o
	}
	for _, c := range []struct {
		name string
		o    Outline
		kind FlawKind
		text string // all of it, or a part
	}{
		{"no edges", Outline{}, NoEdges, "the outline has no edges"},
		{"open", with(func(o *Outline) { o.Edges[3].To.Y = 4 }), Open,
			`the outline does not close: edge "d" ends 4 mm from where it began`},
		{"no length", with(func(o *Outline) { o.Edges[1].To = o.Edges[0].To }), NoLength, `edge "b" has no length`},
		{"not a number", with(func(o *Outline) { o.Edges[1].To.X = math.NaN() }), NotANumber, `edge "b" has a point that is not a number`},
		{"too far", with(func(o *Outline) { o.Edges[2].To.Y = 1e300 }), NotANumber, "beyond 100 m"},
		{"control point", with(func(o *Outline) { o.Edges[2].Curved, o.Edges[2].C2.X = true, math.Inf(-1) }), NotANumber, `edge "c"`},
		{"same name", with(func(o *Outline) { o.Edges[2].Name = "a" }), SameName,
			`two edges that do not adjoin are both named "a"`},
		{"bow tie", path(Point{0, 0}, Point{100, 100}, Point{100, 0}, Point{0, 120}), Crossing,
			`edge "a" and edge "c" cross or touch at 54.5, 54.5`},
		{"touching", path(Point{0, 0}, Point{100, 0}, Point{100, 100}, Point{50, 0}, Point{0, 100}), Crossing,
			`edge "a" and edge "c" cross or touch at 50.0, 0.0`},
		{"turning straight back", path(Point{0, 0}, Point{100, 0}, Point{100, 100}, Point{150, 100}, Point{50, 100}), Crossing,
			`edge "b" and edge "d" cross or touch at 100.0, 100.0`},
		{"loop in a curve", with(func(o *Outline) {
			o.Edges[0].Curved, o.Edges[0].C1, o.Edges[0].C2 = true, Point{300, -300}, Point{-200, -300}
		}), Crossing, `edge "a" crosses or touches itself`},
		{"bent fold", with(func(o *Outline) {
			o.Edges[3].Curved, o.Edges[3].Fold, o.Edges[3].C1, o.Edges[3].C2 = true, true, Point{-9, 60}, Point{-9, 40}
		}), BentFold, `edge "d" lies on the fold but is curved`},
		{"clockwise", square.Reversed(), Clockwise, "the outline runs clockwise"},
	} {
		faults := c.o.Flaws()
		if len(faults) == 0 || faults[0].Kind != c.kind || !strings.Contains(faults[0].Text, c.text) {
			t.Errorf("%s: got %v, want %q", c.name, faults, c.text)
		}
		if err := c.o.Check(); (err == nil) != (c.kind == Clockwise) {
			t.Errorf("%s: check says %v", c.name, err)
		}
	}
	if f := square.Flaws(); f != nil {
		t.Errorf("a sound square: %v", f)
	}
	if f := bodice().Flaws(); f != nil {
		t.Errorf("a sound bodice: %v", f)
	}
}

func TestFaultsNameEveryCrossing(t *testing.T) {
	star := path(Point{0, 100}, Point{-59, -81}, Point{95, 31}, Point{-95, 31}, Point{59, -81})
	if got := star.Flaws(); len(got) != 5 {
		t.Errorf("a five-pointed star crosses itself five times, not %d: %v", len(got), got)
	}
}

func TestOrientedKeepsNames(t *testing.T) {
	o := bodice()
	r := o.Reversed()
	if r.Area() >= 0 {
		t.Fatalf("reversed: area %g", r.Area())
	}
	back := r.oriented()
	for _, s := range o.Sides() {
		length, ok := back.LengthOf(s.Name)
		if !ok || math.Abs(length-s.Length) > 1e-9 {
			t.Errorf("%s: %g became %g", s.Name, s.Length, length)
		}
	}
	near(t, "area", back.Area(), o.Area(), 1e-9)
}

// simpleSlowly is the obvious version: every pair of segments.
func (r Ring) simpleSlowly() bool {
	for i := range r {
		for j := i + 1; j < len(r); j++ {
			if r.meet(i, j) && !(search{ring: r}).apart(chain{i, i + 1}, chain{j, j + 1}) {
				return false
			}
		}
	}
	return true
}
