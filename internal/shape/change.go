package shape

import (
	"errors"
	"fmt"
	"math"

	"hembook/internal/say"
)

// Lengthened returns the outline with edge i carried on by d millimetres at its
// end, or at its beginning, along its own line: straight on where it is
// straight, as the same cubic where it is curved, so that its length grows by
// just d. A negative d cuts it shorter. The edge beside it begins there; where
// that is curved, its control points follow by two thirds and one third.
func (o Outline) Lengthened(i int, d float64, atStart bool) (Outline, error) {
	n := len(o.Edges)
	if n < 3 {
		return o, errors.New(say.Of("shape.the-outline-has-too-few-edges"))
	}
	c := o.cubic(i)
	if atStart {
		c = c.backwards()
	}
	longer, err := c.carriedOn(d, o.Edges[i].Curved)
	if err != nil {
		return o, err
	}
	by := longer[3].Sub(c[3])
	if atStart {
		longer = longer.backwards()
	}
	out := Outline{From: o.From, Edges: append([]Edge(nil), o.Edges...)}
	out.Edges[i].C1, out.Edges[i].C2 = o.Edges[i].C1, o.Edges[i].C2
	if o.Edges[i].Curved {
		out.Edges[i].C1, out.Edges[i].C2 = longer[1], longer[2]
	}
	beside := (i + 1) % n
	if atStart {
		beside = (i + n - 1) % n
		setStart(&out, i, longer[0])
		follow(&out.Edges[beside], by, 1.0/3, 2.0/3)
	} else {
		setStart(&out, beside, longer[3])
		follow(&out.Edges[beside], by, 2.0/3, 1.0/3)
	}
	if turnedRound(o, out, beside) {
		return o, errors.New(say.Of("shape.the-edge-beside-it-would-be-turned"))
	}
	return out, nil
}

func (c cubic) backwards() cubic { return cubic{c[3], c[2], c[1], c[0]} }

// farthestOn is how far, as a parameter, a curve may be carried on beyond its
// end: farther out a cubic bends as nobody drew it.
const farthestOn = 2

// carriedOn is the curve with d millimetres more at its end.
func (c cubic) carriedOn(d float64, curved bool) (cubic, error) {
	length := distance(c[0], c[3])
	if curved {
		length = c.length()
	}
	if !(length+d > leastStep) {
		return c, errors.New(say.Of("shape.it-is-only-mm-long", fmt.Sprintf("%.1f", length)))
	}
	if !curved {
		c[3] = c[0].Add(c[3].Sub(c[0]).times((length + d) / length))
		return c, nil
	}
	lo, hi := 0.0, 1.0
	if d > 0 {
		lo, hi = 1, farthestOn
		if c.lengthTo(hi) < length+d {
			return c, errors.New(say.Of("shape.it-is-a-curve-and-how-it"))
		}
	}
	for range 60 {
		mid := (lo + hi) / 2
		if c.lengthTo(mid) < length+d {
			lo = mid
		} else {
			hi = mid
		}
	}
	first, _ := c.split((lo + hi) / 2)
	return first, nil
}

// EndsMoved returns the outline with an edge of count parts, from part first
// on, moved outwards by start millimetres where it begins and by end where it
// ends; each corner slides along the edge beside it, which grows or shrinks by
// as much, and what lies between follows in proportion.
func (o Outline) EndsMoved(first, count int, start, end float64) (Outline, error) {
	n := len(o.Edges)
	if count >= n || n < 3 {
		return o, errors.New(say.Of("shape.it-is-the-whole-outline"))
	}
	line := controlLine(o, first, count)
	before, after := (first+n-1)%n, (first+count)%n
	out, err := o, error(nil)
	if start != 0 {
		if out, err = out.slid(before, false, leaving(line), start); err != nil {
			return o, err
		}
	}
	if end != 0 {
		if out, err = out.slid(after, true, arriving(line), end); err != nil {
			return o, err
		}
	}
	// Lengthened lets only the part beside the corner follow; here the whole
	// edge does, each point by its place along it.
	moved := controlLine(out, first, count)
	s, e := moved[0].Sub(line[0]), moved[len(moved)-1].Sub(line[len(line)-1])
	bend(line, s, e)
	k := 1
	for part := range count {
		i := (first + part) % n
		if out.Edges[i].Curved {
			out.Edges[i].C1, out.Edges[i].C2 = line[k], line[k+1]
			k += 2
		}
		if part < count-1 {
			setStart(&out, (i+1)%n, line[k])
		}
		k++
	}
	for part := range count {
		if turnedRound(o, out, (first+part)%n) {
			return o, errors.New(say.Of("shape.it-would-be-turned-round"))
		}
	}
	return out, nil
}

// slid moves the corner at the end (or the beginning) of the edge beside one
// that runs along dir there, so that the corner comes to lie outside it.
func (o Outline) slid(beside int, atStart bool, dir Point, d float64) (Outline, error) {
	line := controlLine(o, beside, 1)
	way := arriving(line)
	if atStart {
		way = Point{}.Sub(leaving(line))
	}
	out := dot(way, dir.right())
	if math.Abs(out) < 0.1 {
		return o, errors.New(say.Of("shape.the-edge-beside-it-runs-on-nearly"))
	}
	return o.Lengthened(beside, math.Copysign(1, out)*d, atStart)
}

// Redrawn returns the outline with the edge that begins with part first drawn as cubic
// curves between the same ends: at are the two control points of each of its parts, and
// between those of two parts the point where these meet.
func (o Outline) Redrawn(first int, at []Point) Outline {
	out := Outline{From: o.From, Edges: append([]Edge(nil), o.Edges...)}
	for k := 0; k+1 < len(at); k += 3 {
		i := (first + k/3) % len(out.Edges)
		e := &out.Edges[i]
		e.Curved, e.C1, e.C2 = true, at[k], at[k+1]
		if k+2 < len(at) {
			setStart(&out, (i+1)%len(out.Edges), at[k+2])
		}
	}
	return out
}

// mostSteps bounds the search for an outline as it was.
const mostSteps = 200

// Before returns the outline from which a change makes this one, within a
// millionth of a millimetre: the change undone. It fails where the change
// cannot be undone.
//
// A change mostly moves points by much less than it moves with them, so that
// taking off what the change adds, again and again, settles on the outline
// looked for; where that overshoots, as at the end of a tight curve, smaller
// parts of it are taken off.
func (o Outline) Before(change func(Outline) (Outline, error)) (Outline, error) {
	x, part := o, 1.0
	best, bestOff := o, math.Inf(1)
	for range mostSteps {
		y, err := change(x)
		if err == nil && len(y.Edges) != len(o.Edges) {
			return o, errors.New(say.Of("shape.it-alters-which-edges-there-are"))
		}
		if err != nil && math.IsInf(bestOff, 1) {
			return o, err
		}
		off := math.Inf(1)
		if err == nil {
			off = pointsApart(o, y)
		}
		if off < 1e-8 {
			return x, nil
		}
		if off >= bestOff {
			if part /= 2; part < leastPart {
				break
			}
			if y, err = change(best); err != nil {
				return o, err
			}
			x = towards(o, best, y, part)
			continue
		}
		best, bestOff = x, off
		x = towards(o, x, y, part)
	}
	return o, errors.New(say.Of("shape.no-outline-is-found-from-which-it"))
}

// leastPart is the least part of what is lacking that is worth trying.
const leastPart = 1.0 / 1024

// pointsApart is how far apart, along x or y, two outlines' points lie at most.
func pointsApart(a, b Outline) float64 {
	off := apart(a.From, b.From)
	for i, e := range a.Edges {
		f := b.Edges[i]
		off = max(off, apart(e.To, f.To))
		if e.Curved {
			off = max(off, apart(e.C1, f.C1), apart(e.C2, f.C2))
		}
	}
	return off
}

func apart(p, q Point) float64 { return max(math.Abs(p.X-q.X), math.Abs(p.Y-q.Y)) }

// towards moves x by a part of what y lacks of o.
func towards(o, x, y Outline, part float64) Outline {
	fix := func(x, want, got Point) Point {
		return Point{x.X + float64(part*(want.X-got.X)), x.Y + float64(part*(want.Y-got.Y))}
	}
	out := Outline{From: fix(x.From, o.From, y.From), Edges: append([]Edge(nil), x.Edges...)}
	for i := range out.Edges {
		e := &out.Edges[i]
		e.To = fix(e.To, o.Edges[i].To, y.Edges[i].To)
		if e.Curved {
			e.C1, e.C2 = fix(e.C1, o.Edges[i].C1, y.Edges[i].C1), fix(e.C2, o.Edges[i].C2, y.Edges[i].C2)
		}
	}
	return out
}
