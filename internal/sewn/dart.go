package sewn

import (
	"math"

	"hembook/internal/shape"
)

// closed is a part of a level with the darts that it crosses closed, and the pleats
// that are stitched there.
func (s *Surface) closed(p *Piece, ch Chord) Chord {
	ch.Length = math.Hypot(ch.To.X-ch.From.X, ch.To.Y-ch.From.Y)
	for i := range p.Darts {
		d := &p.Darts[i]
		if takes := d.takes(ch.Y, ch.From.X, ch.To.X); takes > 0 && !s.endsOn(&ch, d) {
			ch.Darts, ch.Taken = append(ch.Darts, takes), ch.Taken+takes
		}
	}
	for i := range p.Pleats {
		if takes := p.Pleats[i].takes(ch.Y, ch.From.X, ch.To.X); takes > 0 {
			ch.Pleats, ch.Taken = append(ch.Pleats, takes), ch.Taken+takes
		}
	}
	ch.Length = max(ch.Length-ch.Taken, 0)
	return ch
}

// endsOn reports whether a level runs out through the edge that a dart opens
// on. At a corner it does where the mouth is upright.
func (s *Surface) endsOn(ch *Chord, d *Dart) bool {
	mouth := d.End.Sub(d.Begin)
	for _, places := range ch.ends {
		for _, p := range places {
			if s.Sides[p.Side].Edge == d.Edge && (len(places) == 1 || math.Abs(mouth.Y) > math.Abs(mouth.X)) {
				return true
			}
		}
	}
	return false
}

// takes is what a dart takes out of a level between two places. Closed, the two
// legs lie on each other: a level that meets a leg a part of the way from the
// point to the mouth goes on from the other leg as far down, so that it loses
// that part of what the mouth measures across: at the waist, the gap between the
// legs. Where it runs out through the edge that the dart opens on it goes on
// higher or lower by just so much that it loses nothing, the edge being straight
// there; a level that meets one leg only runs out through the mouth itself.
func (d *Dart) takes(y, from, to float64) float64 {
	a, one := onLeg(d.Point, d.Begin, y)
	b, two := onLeg(d.Point, d.End, y)
	inside := func(end shape.Point, part float64) bool {
		x := d.Point.X + part*(end.X-d.Point.X)
		return x >= from-touch && x <= to+touch
	}
	if one && two && inside(d.Begin, a) && inside(d.End, b) {
		return (a + b) / 2 * math.Abs(d.End.X-d.Begin.X)
	}
	return 0
}

// onLeg is where on a leg, in parts of the way from the dart's point to its
// mouth, a level meets it.
func onLeg(point, end shape.Point, y float64) (part float64, meets bool) {
	if (point.Y <= y) == (end.Y <= y) {
		return 0, false
	}
	return (y - point.Y) / (end.Y - point.Y), true
}

// takes is what a stitched fold takes out of a level between two places. Below the
// stitching the pleat is open, and walked so.
func (p *Pleat) takes(y, from, to float64) float64 {
	a, one := onLine(p.Place, y)
	b, two := onLine(p.Outer, y)
	if one && two && min(a, b) >= from-touch && max(a, b) <= to+touch {
		return math.Abs(a - b)
	}
	return 0
}

// onLine is the x at which a line crosses a level, its ends counted.
func onLine(l shape.Line, y float64) (x float64, meets bool) {
	for k := 0; k+1 < len(l); k++ {
		low, high := l[k], l[k+1]
		if low.Y > high.Y {
			low, high = high, low
		}
		if y >= low.Y-touch && y <= high.Y+touch && high.Y-low.Y >= touch {
			return low.X + (y-low.Y)/(high.Y-low.Y)*(high.X-low.X), true
		}
	}
	return 0, false
}
