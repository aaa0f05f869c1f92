package figure

import (
	"math"

	"hembook/internal/measure"
)

// settle finds how many decimals the numbers need for the result to come out.
func (pr *printer) settle(at int32, unit measure.Unit) int {
	n, most := pr.pad.nodes.at(at), pr.decimals(unit)
	if n.dim == (dim{money: 1}) {
		most = int(measure.MinorUnits(pr.currency(at)))
	}
	for ; pr.more <= mostMore; pr.more++ {
		got := pr.rounded(n)
		for d := most; d >= max(most-1, 0) && (d == most || n.dim.money == 0); d-- {
			if same(got/scaleOf(unit), n.v/scaleOf(unit), d) {
				return d
			}
		}
	}
	pr.more = mostMore
	return max(most-2, 0)
}

// same reports whether two numbers print alike.
func same(a, b float64, decimals int) bool {
	p := math.Pow10(decimals)
	return math.Round(a*p) == math.Round(b*p)
}

// resultUnit is the unit a result is printed in: the figure's own, or its
// neighbour in the system of the room.
func (w Working) resultUnit(n *node) measure.Unit {
	if n.dim == (dim{money: 1}) {
		return measure.NoUnit
	}
	return w.pad.shown(w.unit)
}

// shown is the unit of the room that stands for a unit.
func (p *Pad) shown(u measure.Unit) measure.Unit {
	switch {
	case p.imperial:
		return u.Imperial()
	case u == measure.UnitMM && p.length != measure.NoUnit:
		return p.length
	}
	return u
}

// decimals is how many decimals a unit's numbers have at the most.
func (pr *printer) decimals(u measure.Unit) int {
	switch u {
	case measure.UnitM2, measure.UnitYd2, measure.UnitCM:
		return 4
	}
	return 3
}

// rounded is what the numbers shown come to.
func (pr *printer) rounded(n *node) float64 {
	p := pr.pad
	one := func() float64 { return pr.rounded(p.nodes.at(n.a)) }
	two := func() float64 { return pr.rounded(p.nodes.at(n.b)) }
	switch n.op {
	case opNumber:
		if n.v == math.Pi {
			return n.v
		}
		return pr.shortened(n)
	case opInput, opFound:
		return pr.shortened(n)
	case opSize:
		return math.Abs(one())
	case opSquare:
		v := one()
		return v * v
	case opRoot:
		return math.Sqrt(one())
	case opSine:
		return math.Sin(one() * math.Pi / 180)
	case opAdd:
		return one() + two()
	case opTake:
		return one() - two()
	case opTimes:
		return one() * two()
	case opOver:
		return one() / two()
	case opRest:
		return math.Mod(one(), two())
	case opUp:
		b := two()
		return math.Ceil(one()/b-hair) * b
	case opNearest:
		return nearest(one(), two())
	case opSum, opNamedSum, opMost, opLeast:
		return pr.roundedFold(n)
	}
	if n.op == opCurve {
		return pr.curveLength(n)
	}
	return n.v
}

func (pr *printer) roundedFold(n *node) float64 {
	out := 0.0
	for i, k := range (span{n.a, n.b}).of(pr.pad.kids) {
		v := pr.rounded(pr.pad.nodes.at(k))
		switch {
		case i == 0:
			out = v
		case n.op == opMost:
			out = max(out, v)
		case n.op == opLeast:
			out = min(out, v)
		default:
			out += v
		}
	}
	return out
}

// shortened is a number as it is printed.
func (pr *printer) shortened(n *node) float64 {
	u := pr.printed(n)
	s := scaleOf(u)
	p := math.Pow10(pr.decimals(u) + pr.more)
	x := n.v / s
	if u == measure.UnitIn && math.Abs(x*16-math.Round(x*16)) <= 1e-6 {
		return n.v
	}
	return math.Round(x*p) / p * s
}

// curveLength is the length of a cubic through its points as they are printed,
// by Simpson's rule.
func (pr *printer) curveLength(n *node) float64 {
	s := scaleOf(pr.printed(n))
	var p [8]float64
	for i := range p {
		p[i] = math.Round(pr.pad.points[int(n.a)+i]/s*1e3) / 1e3 * s
	}
	speed := func(t float64) float64 {
		along := func(k int) float64 {
			a, b, c := p[k+2]-p[k], p[k+4]-p[k+2], p[k+6]-p[k+4]
			u := 1 - t
			return 3 * (float64(u*u*a) + float64(2*u*t*b) + float64(t*t*c))
		}
		return math.Hypot(along(0), along(1))
	}
	const steps = 128
	sum := speed(0) + speed(1)
	for i := 1; i < steps; i++ {
		w := 2.0
		if i%2 == 1 {
			w = 4
		}
		sum += float64(w * speed(float64(i)/steps))
	}
	return sum / (3 * steps)
}
