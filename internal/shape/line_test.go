package shape

import (
	"errors"
	"math"
	"testing"
)

// Lines inside edges, worked by hand (geometry, exact). Inside the right side of a
// rectangle of 200 by 300 a line is as long as the side. A trapezoid's side from (200, 0)
// to (160, 300) leans by 40 in 300: 18 inside it a line begins 18 × √(300² + 40²) ÷ 300
// from its lower corner, and is as long as the side, between two level edges. A quarter of
// a circle of radius 100 has a quarter of a circle of radius 90 inside it, 45 π long.
func TestBeside(t *testing.T) {
	lean := math.Hypot(300, 40)
	k := 100 * 0.5522847498307936
	quarter := Outline{Edges: []Edge{{Name: "right", To: Point{100, 0}}, {Name: "arc", To: Point{0, 100}, Curved: true, C1: Point{100, k}, C2: Point{k, 100}}, {Name: "left", To: Point{0, 0}}}}
	for _, c := range []struct {
		name, edge   string
		o            Outline
		inside, long float64
		from         Point
		within       float64
	}{
		{"rectangle", "right", box(200, 300), 18, 300, Point{182, 0}, 1e-6},
		{"trapezoid", "right", Outline{Edges: []Edge{{Name: "bottom", To: Point{200, 0}}, {Name: "right", To: Point{160, 300}}, {Name: "top", To: Point{0, 300}}, {Name: "left", To: Point{0, 0}}}},
			18, lean, Point{200 - 18*lean/300, 0}, 1e-6},
		{"arc", "arc", quarter, 10, 45 * math.Pi, Point{90, 0}, 0.05},
	} {
		line, err := c.o.Beside(c.edge, c.inside)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if got := line.Length(); math.Abs(got-c.long) > c.within || line[0].Apart(c.from) > c.within {
			t.Errorf("%s: %v long from %v, want %v from %v", c.name, got, line[0], c.long, c.from)
		}
		if c.name != "arc" && len(line) != 2 {
			t.Errorf("%s: %d points in a straight line", c.name, len(line))
		}
	}
	if _, err := quarter.Beside("arc", 101); !errors.Is(err, errLineCrossed) {
		t.Errorf("a line beyond the centre of its arc: %v", err)
	}
	if _, err := box(200, 300).Beside("right", 220); !errors.Is(err, errLineOutside) {
		t.Errorf("a line beyond the other side: %v", err)
	}
}

func box(w, h float64) Outline {
	return Outline{Edges: []Edge{{Name: "bottom", To: Point{w, 0}}, {Name: "right", To: Point{w, h}}, {Name: "top", To: Point{0, h}}, {Name: "left", To: Point{0, 0}}}}
}

// A line up from the middle of the bottom of a piece that is 300 high leaves it there; one
// to its top does not.
func TestLeaves(t *testing.T) {
	o := box(200, 300)
	if far, leaves := o.Leaves(Line{{100, 0}, {100, 340}}); !leaves || math.Abs(far-300) > 1e-6 {
		t.Errorf("leaves after %v: %v", far, leaves)
	}
	if far, leaves := o.Leaves(Line{{100, 0}, {100, 300}}); leaves {
		t.Errorf("a line from edge to edge leaves after %v", far)
	}
	if far, leaves := o.Leaves(Line{{-5, 20}, {100, 300}}); !leaves || far != 0 {
		t.Errorf("a line that begins outside leaves after %v: %v", far, leaves)
	}
	if at, ok := o.MetBy("right", Line{{100, 120}, {260, 120}}); !ok || math.Abs(at-120) > 1e-6 {
		t.Errorf("the line meets the right side %v along: %v", at, ok)
	}
	if _, ok := o.MetBy("left", Line{{100, 120}, {260, 120}}); ok {
		t.Error("a line that does not reach the left side meets it")
	}
}

// TestNearest: on a line that runs 100 to the right and then 50 up, (30, 4) lies 30 along and
// 4 beside it, (110, 20) 120 along and 10 beside, and what lies beyond its end lies at its end.
func TestNearest(t *testing.T) {
	l := Line{{0, 0}, {100, 0}, {100, 50}}
	for at, want := range map[Point][2]float64{{30, 4}: {30, 4}, {110, 20}: {120, 10}, {103, 54}: {150, 5}, {-3, -4}: {0, 5}} {
		if along, beside := l.Nearest(at); math.Abs(along-want[0]) > 1e-9 || math.Abs(beside-want[1]) > 1e-9 {
			t.Errorf("%v lies %v along and %v beside, want %v", at, along, beside, want)
		}
		if _, ok := l.Holds(at); ok {
			t.Errorf("%v lies on the line", at)
		}
	}
	if along, ok := l.Holds(Point{100, 20}); !ok || along != 120 {
		t.Errorf("a point on the line lies %v along, %v", along, ok)
	}
}
