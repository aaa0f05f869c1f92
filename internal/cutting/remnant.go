package cutting

import (
	"context"
	"fmt"
	"math"

	"hembook/internal/figure"
	"hembook/internal/lay"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// remnants are what a plan leaves that is worth keeping, as a record has
// them. Of folded cloth each is left twice, once in each layer; what lies on
// the fold is one remnant, opened out.
func (l *Lay) remnants() []Remnant {
	var out []Remnant
	for _, ring := range l.Plan.Remnants {
		r := Remnant{On: pointsOf(ring)}
		if z := l.zoneOf(ring); z.Double {
			if whole := openedOn(ring, z); whole != nil {
				ring = whole
			} else {
				r.Folded = true
			}
		}
		x, _, y, _ := extent(ring)
		for _, q := range ring {
			r.Outline = append(r.Outline, shape.Point{X: tenth(q.Y - y), Y: tenth(q.X - x)})
		}
		r.Name = say.Of("cutting.remnant", len(out)+1)
		r.Largest = l.Problem.tape.within(shape.LargestRectangle(pointsOf(ring)))
		area := areaOf(ring)
		l.pad.Note(l.lengthTerm())
		t := l.pad.Found(say.Of("cutting.within-its-corners"), area, measure.UnitMM2)
		r.Area = l.figure(fmt.Sprintf("remnant-%d", len(out)+1), say.Of("cutting.holds-a-rectangle-of-times-area", r.Name, l.pad.Tape(r.Across()), l.pad.Tape(r.Along())), t, measure.UnitCM2,
			say.Of("cutting.area-of-the-empty-cloth-at-least"), figure.Derived)
		out = append(out, r)
	}
	return out
}

// Across is how far the largest rectangle in a remnant goes across the cloth, and Along how
// far along it, mm.
func (r *Remnant) Across() float64 { return r.Largest.Most.Y - r.Largest.Least.Y }

// Along: see Across.
func (r *Remnant) Along() float64 { return r.Largest.Most.X - r.Largest.Least.X }

// Nought is added so that none is written as -0.
func tenth(v float64) float64 { return math.Round(v*10)/10 + 0 }

// zoneOf is the part of the cloth that what is left lies in.
func (l *Lay) zoneOf(ring []lay.Point) lay.Zone {
	x, xTo, y, yTo := extent(ring)
	zones := l.Plan.Zones(l.Problem.Lay.Cloth.Width)
	for _, z := range zones {
		if mx, my := (x+xTo)/2, (y+yTo)/2; mx >= z.From && mx <= z.To && my >= z.Near && my <= z.Far {
			return z
		}
	}
	return zones[0]
}

// openedOn is what is left in a zone with its mirror image beyond the fold; nil where it
// does not lie on one.
func openedOn(ring []lay.Point, z lay.Zone) []lay.Point {
	turn := func(q lay.Point) lay.Point { return q } // the fold where the engine has it, and back
	switch {
	case z.OnFrom:
		turn = func(q lay.Point) lay.Point { return lay.Point{X: q.Y, Y: q.X} }
	case z.OnFar:
		turn = func(q lay.Point) lay.Point { return lay.Point{X: q.X, Y: z.Far - q.Y} }
	}
	out := make([]lay.Point, len(ring))
	for i, q := range ring {
		out[i] = turn(q)
	}
	out = openedOut(out)
	for i, q := range out {
		out[i] = turn(q)
	}
	return out
}

// openedOut is a remnant of folded cloth with its mirror image beyond the
// fold; nil where it does not lie on the fold along just one stretch.
func openedOut(ring []lay.Point) []lay.Point {
	n, begin := len(ring), -1
	on := func(q lay.Point) bool { return math.Abs(q.Y) < tolerance }
	for i := range ring {
		if on(ring[i]) && !on(ring[(i+1)%n]) {
			if begin >= 0 {
				return nil
			}
			begin = i
		}
	}
	if begin < 0 {
		return nil
	}
	var half []lay.Point
	for k := range n {
		q := ring[(begin+k)%n]
		half = append(half, q)
		if k > 0 && on(q) {
			break
		}
	}
	if math.Abs(half[0].X-half[len(half)-1].X) < tolerance {
		return nil
	}
	for i := len(half) - 2; i > 0; i-- {
		half = append(half, lay.Point{X: half[i].X, Y: -half[i].Y})
	}
	return half
}

// onShelf tries the remnants of the cloth that are there already: a lay that
// fits one of them needs nothing from the bolt. They were washed with the
// cloth they come from and do not shrink again.
func (c *Cutter) onShelf(ctx context.Context, l *Lay) []OnShelf {
	if l.Problem == nil || l.Cloth.Cloth == nil {
		return nil
	}
	var out []OnShelf
	for i := range l.Cloth.Cloth.Remnants {
		r := &l.Cloth.Cloth.Remnants[i]
		if r.IsOver(l.build.Slug) || r.From.V == l.build.Slug {
			continue
		}
		one := OnShelf{Remnant: r, Name: r.Name.V}
		corners, holes := remnantOf(r)
		whole, lost := r.Areas()
		if have := whole - lost; have < l.Problem.Area {
			one.Why = say.Of("cutting.it-has-and-are-cut", l.Problem.tape.area(have, 0), l.Problem.tape.area(l.Problem.Area, 0))
		} else {
			one.Problem, one.Plan, one.Why = c.within(ctx, l.Problem, corners, holes...)
		}
		out = append(out, one)
	}
	return out
}

// remnantOf is a remnant's outline and the holes in it in the engine's coordinates.
func remnantOf(r *record.Remnant) (outline []lay.Point, holes [][]lay.Point) {
	for i := range r.Holes {
		holes = append(holes, cornersOf(r.Holes[i].Outline, 0))
	}
	return cornersOf(r.Outline, 0), holes
}

// within tries to lay all pieces in a remnant.
func (c *Cutter) within(ctx context.Context, p *Problem, corners []lay.Point, holes ...[]lay.Point) (*lay.Problem, *lay.Plan, string) {
	at := p.within(corners, holes...)
	plan, err := c.plan(ctx, at, nil)
	switch {
	case err != nil:
		return at, nil, err.Error()
	case !plan.Fits || len(plan.Unplaced) > 0:
		return at, nil, say.Of("cutting.no-lay-was-found-that-holds-all")
	}
	return at, plan, ""
}

// within is the same cutting from a remnant, its outline and holes in the
// engine's coordinates. A remnant is laid open.
func (p *Problem) within(outline []lay.Point, holes ...[]lay.Point) *lay.Problem {
	out := p.Lay
	out.Cloth.Fold, out.Cloth.Width, out.Cloth.Length = lay.Open, 0, 0
	out.Cloth.Outline, out.Cloth.Holes, out.Cloth.Flaws = outline, holes, nil
	return &out
}
