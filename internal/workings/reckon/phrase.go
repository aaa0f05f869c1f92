package reckon

import (
	"errors"
	"fmt"
	"math"
)

// Some of what is reckoned has no sign that a maker knows, and is said in
// words: up to the next, to the nearest, least of, along the curve.

// rounded reads what may stand behind a sum: ", up to the next 100 mm".
func (p *parser) rounded(a Amount) (Amount, error) {
	for {
		var way func(steps float64) float64
		switch {
		case p.words(",", "up", "to", "the", "next"):
			way = func(n float64) float64 { return math.Ceil(n - 1e-9) }
		case p.words(",", "to", "the", "nearest"):
			way = math.Round
		case p.words(",", "less", "whole", "turns", "of"):
			way = nil
		default:
			return a, nil
		}
		step, err := p.product()
		switch {
		case err != nil:
			return a, err
		case step.Dim != a.Dim:
			return a, unitsError{kindOf(a, step), "the step is of another kind than what is rounded"}
		case step.Value <= 0:
			return a, errors.New("the step is nothing")
		}
		a = toStep(a, step, way)
	}
}

// kindOf is what is wrong where two amounts do not go together.
func kindOf(a, b Amount) Kind {
	if a.Unit && b.Unit {
		return UnitsMixed
	}
	return UnitsMissing
}

// toStep rounds to whole steps, or takes whole steps off where no way is given.
func toStep(a, step Amount, way func(float64) float64) Amount {
	out := Amount{Dim: a.Dim, Factor: a.Factor, Unit: a.Unit}
	n := a.Value / step.Value
	if way == nil {
		turns := math.Floor(n + 1e-9)
		out.Value, out.Err = a.Value-turns*step.Value, a.Err+math.Abs(turns)*step.Err
		return out
	}
	out.Value = way(n) * step.Value
	if e := a.Err / step.Value; way(n-e) != way(n+e) {
		out.Err = step.Value // the numbers as printed do not tell which step
	}
	return out
}

// words takes a run of words and signs.
func (p *parser) words(list ...string) bool {
	if !p.ahead(list...) {
		return false
	}
	p.at += len(list)
	return true
}

func (p *parser) ahead(list ...string) bool {
	if p.at+len(list) > len(p.toks) {
		return false
	}
	for i, w := range list {
		if p.toks[p.at+i].text != w {
			return false
		}
	}
	return true
}

// curve reads "(0, 0) (10, 0) (20, 5) (20, 15) mm": the control points of a
// cubic, all in one unit. Its value is its length.
func (p *parser) curve() (Amount, error) {
	var pts [8]float64
	half := 0.0
	for i := range pts {
		open, shut := "(", ","
		if i%2 == 1 {
			open, shut = "", ")"
		}
		if open != "" && !p.take(open) {
			return Amount{}, errors.New("a curve has four points")
		}
		a, err := p.sum()
		if err != nil {
			return a, err
		}
		if a.Unit {
			return a, errors.New("the unit of a curve stands behind its points")
		}
		if !p.take(shut) {
			return a, fmt.Errorf("%q is missing", shut)
		}
		pts[i], half = a.Value, max(half, a.Err)
	}
	u, ok := unitOf(p.peek().text)
	if !ok || u.dim != (Dim{Length: 1}) {
		return Amount{}, unitsError{UnitsMissing, "a curve without its unit"}
	}
	p.at++
	v := cubic(pts, 0, 1, 12)
	return Amount{Value: v * u.factor, Dim: u.dim, Err: 3 * max(half, 0.0005) * u.factor, Factor: u.factor, Unit: true}, nil
}

// cubic is the length of a part of a curve, by Simpson's rule on halves of
// halves.
func cubic(p [8]float64, from, to float64, depth int) float64 {
	speed := func(t float64) float64 {
		s := 1 - t
		x := 3*s*s*(p[2]-p[0]) + 6*s*t*(p[4]-p[2]) + 3*t*t*(p[6]-p[4])
		y := 3*s*s*(p[3]-p[1]) + 6*s*t*(p[5]-p[3]) + 3*t*t*(p[7]-p[5])
		return math.Hypot(x, y)
	}
	simpson := func(a, b float64) float64 { return (b - a) / 6 * (speed(a) + 4*speed((a+b)/2) + speed(b)) }
	mid := (from + to) / 2
	whole, halves := simpson(from, to), simpson(from, mid)+simpson(mid, to)
	if depth == 0 || depth < 9 && math.Abs(whole-halves) < 1e-9 {
		return halves
	}
	return cubic(p, from, mid, depth-1) + cubic(p, mid, to, depth-1)
}
