package cutting

import (
	"math"
	"strings"
	"testing"

	"hembook/internal/sewn"
	"hembook/internal/shape"
)

// stripeAt is how far a point lies beyond the nearest of the stripes that run up the piece,
// or of those across it, and whether there are such.
func stripeAt(all []shape.Stripes, upright bool, q shape.Point) (float64, bool) {
	for _, s := range all {
		if (math.Abs(s.Way.X) > 0.99) == upright {
			sign := math.Copysign(1, s.Way.X+s.Way.Y)
			return sign * math.Remainder(q.X*s.Way.X+q.Y*s.Way.Y-s.First, s.Every), true
		}
	}
	return 0, false
}

// A front of 300 by 400 on cloth of 640, cut open with stripes every 50 from 30 beside the
// selvedge: where it lies 0 from the selvedge its own left edge is 30 before a stripe.
func TestStripesOnAPieceAreThoseUnderIt(t *testing.T) {
	b := benchWith(t, "width: 640\none-way: true\nrepeat: {across: 50, along: 70, line: 30}\n",
		"")
	b.file("content/builds/test/build.yaml", "name: Test\ngarment: dress\nstate: cutting\ncloth: {shell: {use: linen, fold: open}}\npieces:\n  panel: {cut: 1, allowance: 0, rectangle: [300, 400]}\n")
	c := b.cut()
	on := c.Striping().OnPiece("panel")
	if len(on) != 2 {
		t.Fatalf("stripes %+v, want those along and those across", on)
	}
	q := c.Lays[0].Chalked[0]
	least, _ := c.Lays[0].Problem.Pieces[0].Outline.Bounds()
	if off, _ := stripeAt(on, true, shape.Point{X: least.X + 30 - q.Side}); math.Abs(off) > 1e-6 {
		t.Errorf("30 from the selvedge there is no stripe: %g off", off)
	}
	if off, _ := stripeAt(on, false, shape.Point{Y: least.Y + 70 - q.End}); math.Abs(off) > 1e-6 {
		t.Errorf("70 from the cut end there is no stripe: %g off", off)
	}
}

// What meets by the figures of the lay meets in the stripes of the garment put together:
// along the side seam of two straight edges, the stripes of the one copy go on on the other.
func TestStripesMeetOnTheGarment(t *testing.T) {
	for _, slope := range []string{"150, 400", "120, 400"} { // straight, and slanted alike on both
		b := benchWith(t, "width: 700\nrepeat: {along: 90, across: 40, line: 20}\n", "match: [sides]\nseams:\n  sides: {join: [front.side, back.side]}\npieces:\n"+
			"  front:\n    cut: 1 on fold\n    allowance: 0\n    outline: {from: [0, 0], hem: {to: [150, 0], allowance: 40}, side: ["+slope+"], waist: [0, 400], centre: fold}\n"+
			"  back:\n    cut: 1 on fold\n    allowance: 0\n    outline: {from: [0, 0], hem: {to: [150, 0], allowance: 15}, side: ["+slope+"], waist: [0, 400], centre: fold}\n")
		c := b.cut()
		l, g, on := c.Lays[0], c.Garment.Garment, c.Striping()
		if l.Plan == nil {
			t.Fatal(l.Why)
		}
		met := 0
		for id := range g.Sewn.Joins {
			j := &g.Sewn.Joins[id]
			if j.Kind != sewn.Sewn {
				continue
			}
			one, two := g.Sewn.Sides[j.A.Side].Copy, g.Sewn.Sides[j.B.Side].Copy
			for k := range 9 {
				p, q := g.Sewn.Facing(sewn.JoinID(id), float64(k)/8, float64(k)/8)
				for _, upright := range []bool{false, true} {
					a, ok := stripeAt(on.OnCopy(one), upright, p)
					b, has := stripeAt(on.OnCopy(two), upright, q)
					if !ok || !has {
						t.Fatalf("no stripes on copies %d and %d", one, two)
					}
					repeat := 90.0
					if upright {
						repeat = 40
					}
					same := math.Abs(math.Remainder(a-b, repeat)) < 1
					image := upright && math.Abs(math.Remainder(a+b, repeat)) < 1 // a seam of a left and a right edge
					if !same && !image {
						t.Errorf("%s, upright %v: a stripe lies %.2f before the seam and %.2f behind it", slope, upright, a, b)
					}
					met++
				}
			}
		}
		if met == 0 {
			t.Error("nothing is joined")
		}
	}
}

// The same on the bias: at every place of both side seams of a skirt, and of the centre
// seam of two fronts, a stripe goes on into one of the other copy, or into its mirror image.
func TestBiasStripesMeetOnTheGarment(t *testing.T) {
	skirt := strings.ReplaceAll(straightSkirt, "    cut: 1 on fold\n", "    cut: 1 on fold\n    grain: bias\n")
	for name, c := range map[string]struct{ cloth, build string }{
		"sides":  {"one-way: true\nrepeat: {along: 60}\n", "match: [sides]\n" + strings.ReplaceAll(skirt, "[140,", "[150,")},
		"centre": {"repeat: {across: 24, line: 12}\n", "match: [centre]\n" + biasFronts},
	} {
		b := benchWith(t, "width: 900\n"+c.cloth, c.build)
		cut := b.cut()
		g, on := cut.Garment.Garment, cut.Striping()
		if cut.Lays[0].Plan == nil {
			t.Fatal(name, cut.Lays[0].Why)
		}
		met := 0
		for id := range g.Sewn.Joins {
			j := &g.Sewn.Joins[id]
			if j.Kind != sewn.Sewn {
				continue
			}
			one, two := on.OnCopy(g.Sewn.Sides[j.A.Side].Copy), on.OnCopy(g.Sewn.Sides[j.B.Side].Copy)
			if len(one) != 1 || len(two) != 1 {
				t.Fatalf("%s: stripes %v and %v", name, one, two)
			}
			if lean := math.Abs(one[0].Way.X); math.Abs(lean-math.Sqrt2/2) > 1e-9 {
				t.Errorf("%s: the stripes lie at %v on the piece, not at 45°", name, one[0].Way)
			}
			for k := range 9 {
				p, q := g.Sewn.Facing(sewn.JoinID(id), float64(k)/8, float64(k)/8)
				off := math.Abs(beyond(one[0], p)) - math.Abs(beyond(two[0], q)) // either way round
				if math.Abs(off) > 0.5 {
					t.Errorf("%s: at %d of 8 a stripe lies %.2f before the seam and %.2f behind it", name, k, beyond(one[0], p), beyond(two[0], q))
				}
				met++
			}
		}
		if met == 0 {
			t.Errorf("%s: nothing is joined", name)
		}
	}
}

// beyond is how far a point lies beyond the nearest of some stripes.
func beyond(s shape.Stripes, q shape.Point) float64 {
	return math.Remainder(q.X*s.Way.X+q.Y*s.Way.Y-s.First, s.Every)
}
