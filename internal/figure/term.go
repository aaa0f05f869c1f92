package figure

import (
	"math"

	"hembook/internal/measure"
)

// why is the reason of the first operand that is not known.
func why(a, b *node) int32 {
	if a.why > 0 {
		return a.why
	}
	return b.why
}

func (t Term) pair(o op, u Term, v float64, d dim) Term {
	a, b := t.node(), u.node()
	return t.pad.add(node{op: o, v: v, a: t.at, b: u.at, why: why(a, b), dim: d})
}

// alike makes sure that two terms may be added.
func (t Term) alike(r Term, u Term) Term {
	a, b := t.node(), u.node()
	if a.why == 0 && b.why == 0 && a.dim != b.dim {
		return r.Unless(unfit(a.dim, b.dim))
	}
	return r
}

// kept is the dimension of a sum, taken from an operand that has one.
func kept(a, b *node) dim {
	if a.why > 0 {
		return b.dim
	}
	return a.dim
}

// Plus is t + u; an absent term adds nothing.
func (t Term) Plus(u Term) Term {
	switch {
	case !u.Given():
		return t
	case !t.Given():
		return u
	}
	a, b := t.node(), u.node()
	return t.alike(t.pair(opAdd, u, a.v+b.v, kept(a, b)), u)
}

// Minus is t − u; an absent term takes nothing.
func (t Term) Minus(u Term) Term {
	if !u.Given() {
		return t
	}
	a, b := t.node(), u.node()
	return t.alike(t.pair(opTake, u, a.v-b.v, kept(a, b)), u)
}

// Times is t × u.
func (t Term) Times(u Term) Term {
	a, b := t.node(), u.node()
	return t.pair(opTimes, u, a.v*b.v, a.dim.times(b.dim))
}

// By is t × n, a bare number.
func (t Term) By(n float64) Term { return t.Times(t.pad.Number(n)) }

// Over is t ÷ u, not known where u is nothing.
func (t Term) Over(u Term) Term {
	a, b := t.node(), u.node()
	if b.v == 0 {
		return t.pair(opOver, u, 0, a.dim.over(b.dim)).Unless("there is nothing to divide by")
	}
	return t.pair(opOver, u, a.v/b.v, a.dim.over(b.dim))
}

// Part is t ÷ n, a bare number.
func (t Term) Part(n float64) Term { return t.Over(t.pad.Number(n)) }

// Rest is what is left of t after whole turns of u.
func (t Term) Rest(u Term) Term {
	a, b := t.node(), u.node()
	if b.v == 0 {
		return t
	}
	return t.alike(t.pair(opRest, u, math.Mod(a.v, b.v), a.dim), u)
}

// hair is how much more than a whole number still counts as that number, in
// parts of one: what binary arithmetic loses.
const hair = 1e-8

// Up is t, up to the next whole u.
func (t Term) Up(u Term) Term {
	a, b := t.node(), u.node()
	if !(b.v > 0) {
		return t
	}
	return t.alike(t.pair(opUp, u, math.Ceil(a.v/b.v-hair)*b.v, a.dim), u)
}

// Nearest is t, to the nearest whole u.
func (t Term) Nearest(u Term) Term {
	a, b := t.node(), u.node()
	if !(b.v > 0) {
		return t
	}
	return t.alike(t.pair(opNearest, u, nearest(a.v, b.v), a.dim), u)
}

// nearest is v to the nearest whole u. What lies a hair below a half is one:
// 10.5 in are three and a half times 3 in, though not in binary millimetres.
func nearest(v, u float64) float64 {
	times := v / u
	return math.Round(times+math.Copysign(hair, times)) * u
}

func (t Term) single(o op, v float64, d dim) Term {
	return t.pad.add(node{op: o, v: v, a: t.at, why: t.node().why, dim: d})
}

// Size is t without its sign.
func (t Term) Size() Term { return t.single(opSize, math.Abs(t.node().v), t.node().dim) }

// Squared is t².
func (t Term) Squared() Term {
	n := t.node()
	return t.single(opSquare, n.v*n.v, n.dim.times(n.dim))
}

// Root is √t.
func (t Term) Root() Term { return t.single(opRoot, math.Sqrt(t.node().v), t.node().dim.half()) }

// Sine is the sine of an angle.
func (t Term) Sine() Term { return t.single(opSine, math.Sin(t.node().v*math.Pi/180), dim{}) }

func (p *Pad) fold(o op, list []Term, join func(a, b float64) float64) Term {
	if len(list) == 1 {
		return list[0]
	}
	n := node{op: o, a: int32(len(p.kids)), b: int32(len(list))}
	mixed := dim{}
	for i, t := range list {
		k := t.node()
		p.kids = append(p.kids, t.at)
		switch {
		case n.why > 0:
		case k.why > 0:
			n.why = k.why
		case i == 0:
			n.v, n.dim = k.v, k.dim
		case k.dim != n.dim:
			mixed = k.dim
		default:
			n.v = join(n.v, k.v)
		}
	}
	t := p.add(n)
	if n.why == 0 && mixed != (dim{}) {
		return t.Unless(unfit(n.dim, mixed))
	}
	return t
}

func plus(a, b float64) float64 { return a + b }

// Sum is Σ of terms; of none it is a bare nothing, which the caller gives a
// reason to be not known.
func (p *Pad) Sum(list ...Term) Term { return p.fold(opSum, list, plus) }

// NamedSum is Σ of terms, each shown with its name.
func (p *Pad) NamedSum(list ...Term) Term { return p.fold(opNamedSum, list, plus) }

// Greatest is the greatest of terms.
func (p *Pad) Greatest(list ...Term) Term {
	return p.fold(opMost, list, func(a, b float64) float64 { return max(a, b) })
}

// Least is the least of terms.
func (p *Pad) Least(list ...Term) Term {
	return p.fold(opLeast, list, func(a, b float64) float64 { return min(a, b) })
}

// Curve is the length of a cubic, which its four control points tell. Points
// and length are in mm.
func (p *Pad) Curve(points [8]float64, length float64) Term {
	p.points = append(p.points, points[:]...)
	return p.add(node{op: opCurve, v: length, a: int32(len(p.points) - 8), dim: dim{length: 1}, unit: measure.UnitMM})
}

// Apart is the straight line between two points, in mm. What does not change
// is left out of its sum.
func (p *Pad) Apart(x1, y1, x2, y2 float64) Term {
	mm := func(v float64) Term { return p.Constant(v, measure.UnitMM) }
	along := func(a, b float64) Term { return mm(b).Minus(mm(a)) }
	switch {
	case x1 == x2 && y2 >= y1:
		return along(y1, y2)
	case x1 == x2:
		return along(y2, y1)
	case y1 == y2 && x2 >= x1:
		return along(x1, x2)
	case y1 == y2:
		return along(x2, x1)
	}
	return along(x1, x2).Squared().Plus(along(y1, y2).Squared()).Root()
}
