package shape

import (
	"math"
	"testing"
)

// A skirt front of 600 × 560, its waist at the top, run from right to left.
func pleatPanel(t *testing.T) Outline {
	o, err := Rectangle(600, 560)
	if err != nil {
		t.Fatal(err)
	}
	return o
}

// TestPleatedPanel: a hem of 60 cm with one box pleat 12 cm deep takes 60 + 4·12 = 108 cm
// of cloth, a back of 66 with an inverted pleat 6.5 deep 66 + 4·6.5 = 92, and a section
// of 92 with 18 knife pleats 4 deep 92 + 2·4·18 = 236 (CITS Dress Making, Trade Practical
// vol. 2, National Instructional Media Institute, pages 203 and 204).
func TestPleatedPanel(t *testing.T) {
	knives := func(section, depth float64, n int) (out []PleatFold) {
		for k := range n {
			out = append(out, PleatFold{Along: section * (float64(k) + 0.5) / float64(n), Depth: depth})
		}
		return out
	}
	for name, c := range map[string]struct {
		section float64
		folds   []PleatFold
		want    float64
	}{
		"box":      {600, []PleatFold{{Along: 180, Depth: 120, Onward: true}, {Along: 420, Depth: 120}}, 1080},
		"inverted": {660, []PleatFold{{Along: 330, Depth: 65}, {Along: 330, Depth: 65, Onward: true}}, 920},
		"knife":    {920, knives(920, 40, 18)[1:], 920 + 2*40*17},
	} {
		o, _ := Rectangle(c.section, 560)
		p, err := o.Pleated("top", Point{0, -1}, c.folds)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		top, _ := p.Outline.LengthOf("top")
		bottom, _ := p.Outline.LengthOf("bottom")
		if math.Abs(top-c.want) > 1e-6 || math.Abs(bottom-c.want) > 1e-6 || math.Abs(p.Outline.Area()-c.want*560) > 1e-3 {
			t.Errorf("%s: top %v, bottom %v, area %v; want %v", name, top, bottom, p.Outline.Area(), c.want)
		}
		if len(p.Outline.Flaws()) > 0 {
			t.Errorf("%s: %v", name, p.Outline.Flaws())
		}
	}
}

// TestPleatLines: an inverted pleat 20 deep at the middle of a top edge of 600, which
// runs from right to left. Laid open the top is 680. What lies right of it stands where
// the outline begins, so that its first fold lies at x 300 and, 20, 40, 60 and 80
// farther on, inner fold, place, inner fold and the other fold: two folds and one place
// in common (the same book, page 202).
func TestPleatLines(t *testing.T) {
	p, err := pleatPanel(t).Pleated("top", Point{0, -1}, []PleatFold{{Along: 300, Depth: 20}, {Along: 300, Depth: 20, Onward: true}})
	if err != nil {
		t.Fatal(err)
	}
	least, most := p.Outline.Bounds()
	if most.X-least.X != 680 {
		t.Errorf("it is %v wide", most.X-least.X)
	}
	xs := func(l PleatLines) [3]float64 { return [3]float64{l.Outer[0].X, l.Inner[0].X, l.Place[0].X} }
	at := least.X + 300
	if got, want := xs(p.Lines[1]), [3]float64{at, at + 20, at + 40}; got != want {
		t.Errorf("fold, inner fold and place lie at %v, want %v", got, want)
	}
	if got, want := xs(p.Lines[0]), [3]float64{at + 80, at + 60, at + 40}; got != want {
		t.Errorf("fold, inner fold and place lie at %v, want %v", got, want)
	}
	if p.Lines[0].Mouth != [2]float64{300, 340} || p.Lines[1].Mouth != [2]float64{340, 380} || p.Lines[0].Far != "bottom" {
		t.Errorf("%+v", p.Lines)
	}
	open, err := p.Outline.PleatLines("top", Point{0, -1}, PleatFold{Along: 340, Depth: 20, Onward: true})
	if err != nil || open.Outer[0] != p.Lines[1].Outer[0] || open.Outer[1] != p.Lines[1].Outer[1] || open.Mouth != p.Lines[1].Mouth {
		t.Errorf("drawn open: %+v, %v", open, err)
	}
}

// TestPleatUnderSlope: below a pleat of an edge that falls by 1 in 10, the cloth that goes
// under has that edge too, back and forth, so that folded it lies on it.
func TestPleatUnderSlope(t *testing.T) {
	o := Outline{From: Point{0, 0}, Edges: []Edge{{Name: "hem", To: Point{200, 20}}, {Name: "side", To: Point{200, 300}}, {Name: "waist", To: Point{0, 300}}, {Name: "centre", To: Point{0, 0}, Fold: true}}}
	p, err := o.Pleated("waist", Point{0, -1}, []PleatFold{{Along: 100, Depth: 30, Onward: true}})
	if err != nil {
		t.Fatal(err)
	}
	l := p.Lines[0]
	// The closed hem lies at 10 at the place and at 7 below the inner fold, 30 nearer to the centre.
	if math.Abs(l.Place[1].Y-10) > 1e-6 || math.Abs(l.Inner[1].Y-7) > 1e-6 || math.Abs(l.Outer[1].Y-10) > 1e-6 {
		t.Errorf("%+v", l)
	}
	hem, _ := p.Outline.LengthOf("hem")
	if want := math.Hypot(200, 20) * 260 / 200; math.Abs(hem-want) > 1e-6 {
		t.Errorf("the hem is %v, want %v", hem, want)
	}
	if p.Along("waist", 150) != 210 || p.Along("waist", 50) != 50 {
		t.Errorf("%v %v", p.Along("waist", 150), p.Along("waist", 50))
	}
}

// TestPleatAtFold: half of a box pleat 20 deep at the fold of a back: its face is 20 wide
// in the half, and the half gets 40 wider; the fold stays on the fold.
func TestPleatAtFold(t *testing.T) {
	o := Outline{From: Point{0, 0}, Edges: []Edge{{Name: "hem", To: Point{300, 0}}, {Name: "side", To: Point{300, 600}}, {Name: "yoke", To: Point{0, 600}}, {Name: "centre", To: Point{0, 0}, Fold: true}}}
	for name, f := range map[string]PleatFold{"box": {Along: 280, Depth: 20, Onward: true}, "inverted": {Along: 300, Depth: 20}} {
		p, err := o.Pleated("yoke", Point{0, -1}, []PleatFold{f})
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		yoke, _ := p.Outline.LengthOf("yoke")
		i := p.Outline.FoldEdge()
		if yoke != 340 || i < 0 || p.Outline.Start(i).X != p.Outline.Edges[i].To.X || len(p.Outline.Flaws()) > 0 {
			t.Errorf("%s: yoke %v, %+v", name, yoke, p.Outline)
		}
		// What lies at the side has moved by all that was let in, and the lines lie on the cloth:
		// the box has its face of 20, then its place is under 20 to the right of its fold; of the
		// inverted one the place is the fold of the cloth.
		if at := p.At(Point{250, 100}); at != (Point{290, 100}) {
			t.Errorf("%s: a place of the half lies at %v", name, at)
		}
		want := map[string][3]float64{"box": {60, 40, 20}, "inverted": {0, 20, 40}}[name]
		if l := p.Lines[0]; l.Place[0].X != want[0] || l.Inner[0].X != want[1] || l.Outer[0].X != want[2] {
			t.Errorf("%s: place, inner and outer fold are %v, want x %v", name, l, want)
		}
	}
	if _, err := o.Pleated("yoke", Point{0, -1}, []PleatFold{{Along: 290, Depth: 20, Onward: true}}); err != ErrPleatBeyond {
		t.Errorf("a pleat that goes under more than there is: %v", err)
	}
}
