package verify

import (
	"math"
	"slices"

	"hembook/internal/lay"
)

// matched checks that tied points meet in the pattern, those apart of which the plan
// says that the others leave them no room.
func (c *checker) matched() {
	cloth := &c.p.Cloth
	for n := range c.p.Ties {
		if slices.Contains(c.plan.Untied, n) {
			continue
		}
		t := &c.p.Ties[n]
		repeat := cloth.RepeatAlong
		if t.Across {
			repeat = cloth.RepeatAcross
		}
		if repeat <= 0 {
			continue
		}
		a, ok := c.seen(&t.A, t.Across)
		if !ok {
			continue
		}
		want := 0.0
		if t.Kind != lay.OnLine {
			if want, ok = c.seen(&t.B, t.Across); !ok {
				continue
			}
			if t.Kind == lay.Mirror {
				want = -want
			}
		}
		if off := math.Abs(math.Remainder(a-want, repeat)); off > c.tol+1e-6*repeat {
			c.say("tie %d is off the pattern by %.3g", n+1, off)
		}
	}
}

// seen is how far beyond a leading line a tied point lies, seen as its piece is worn;
// false where its copy is not laid.
func (c *checker) seen(t *lay.TiedPoint, across bool) (float64, bool) {
	for i, at := range c.plan.Placements {
		if at.Piece != t.Piece || at.Copy != t.Copy && !(at.Pair && at.Copy == t.Copy-1) {
			continue
		}
		shown, x, y := c.p.Pieces[at.Piece].Shown, t.At.X, t.At.Y
		if at.Mirrored {
			shown, y = -shown, -y
		}
		turned := math.Abs(math.Remainder(at.Turn-shown-180, 360)) < 1e-9
		if !turned && math.Abs(math.Remainder(at.Turn-shown, 360)) > 1e-9 {
			c.say("%s is tied to the pattern and turned by %g", c.name(i), at.Turn)
			return 0, false
		}
		if across && (turned && !c.p.Cloth.Lined || at.Pair) {
			c.say("%s lies so that nobody knows its place in the pattern", c.name(i))
			return 0, false
		}
		sin, cos := math.Sincos(shown * math.Pi / 180)
		v := at.X + upright(float64(x*cos)-float64(y*sin), turned)
		if across {
			v = at.Y + upright(float64(x*sin)+float64(y*cos), turned) - c.p.Cloth.Line
		}
		return upright(v, turned), true
	}
	return 0, false
}

func upright(v float64, turned bool) float64 {
	if turned {
		return -v
	}
	return v
}
