package cutting

import (
	"errors"
	"fmt"
	"math"

	"hembook/internal/fault"
	"hembook/internal/garment"
	"hembook/internal/lay"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// tooWide names the pieces that no allowed turn brings within the cloth, with
// what would help.
func (p *Problem) tooWide(c *record.Cloth, u *usual) []Misfit {
	var out []Misfit
	for i := range p.Lay.Pieces {
		piece := &p.Lay.Pieces[i]
		outline, least := piece.Unfold(), math.Inf(1)
		for _, t := range turnsOf(piece) {
			least = min(least, acrossAt(outline, t))
		}
		if least <= p.Lay.Cloth.Width*(1+1e-9) {
			continue
		}
		r := Misfit{Fault: fault.Wrong(fault.Pos{}, p.tape.widthHint(least, c), say.Of("cutting.wide-the-cloth-has", p.tape.about(least), p.tape.about(p.Lay.Cloth.Width)))}
		r.Of = piece.Name
		if !p.Lay.Cloth.OneWay { // there a turn would show
			r.Or = append(r.Or, turnHint(outline, p.Lay.Cloth.Width)...)
		}
		if g := p.Pieces[i]; g != nil && g.Ring != nil {
			r.Or = append(r.Or, p.tape.panelHint(g, p.Lay.Cloth.Width)...)
		} else if g != nil {
			r.Or = append(r.Or, p.tape.joinHint(g, outline, p.Lay.Cloth.Width, u.allowance.V.MM())...)
		}
		out = append(out, r)
	}
	return out
}

// turnsOf are the turns by which a piece may lie, as far as its width goes:
// a turn and its opposite are as wide.
func turnsOf(p *lay.Piece) []float64 {
	switch {
	case p.Turns != nil:
		return p.Turns
	case p.Grain == lay.Bias:
		return []float64{45, 135}
	case p.Grain == lay.AnyWay:
		return []float64{0, 30, 45, 60, 90, 120, 135, 150}
	}
	return []float64{0}
}

// acrossAt is how far an outline reaches across the cloth when turned.
func acrossAt(pts []lay.Point, degrees float64) float64 {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	if math.Mod(degrees, 90) == 0 {
		sin, cos = math.Round(sin), math.Round(cos)
	}
	least, most := math.Inf(1), math.Inf(-1)
	for _, q := range pts {
		y := float64(q.X*sin) + float64(q.Y*cos)
		least, most = min(least, y), max(most, y)
	}
	return most - least
}

func (t tape) widthHint(least float64, c *record.Cloth) string {
	full := least/(1-float64(c.Shrink.Across.V)/100) + 2*c.Selvedge.V.MM()
	return say.Of("cutting.cloth-of-would-do-selvedges-and", t.about(t.up(full)))
}

// turnHint names a turn that fits: across the grain, on the bias, or the
// smallest other one.
func turnHint(outline []lay.Point, width float64) []string {
	fits := func(t float64) bool { return acrossAt(outline, t) <= width }
	switch {
	case fits(90):
		return []string{say.Of("cutting.with-a-quarter-turn-it-fits-grain")}
	case fits(45), fits(135):
		return []string{say.Of("cutting.turned-by-45-it-fits-grain-bias")}
	}
	for t := 1.0; t < 90; t++ {
		if fits(t) || fits(180-t) {
			return []string{say.Of("cutting.turned-by-it-fits-grain-any", fmt.Sprintf("%g", t))}
		}
	}
	return nil
}

// panelHint says how many panels of a ring skirt would fit.
func (t tape) panelHint(p *garment.Piece, width float64) []string {
	r := p.Ring
	for n := r.Panels + 1; n <= 60; n++ {
		skirt, err := shape.NewRingSkirt(r.Turns, r.Waist, r.Length, n)
		if err != nil {
			continue
		}
		cut, err := skirt.Panel.CutOutline(allowancesOf(p, skirt.Panel), nil)
		if err != nil {
			continue
		}
		if least, most := cut.Ring.Bounds(); most.X-least.X <= width {
			return []string{say.Of("cutting.in-panels-it-fits-each-wide-as", n, t.about(most.X-least.X))}
		}
	}
	return nil
}

// allowancesOf gives the edges of another panel the allowances of a piece's
// edges of the same name; a piece without sides takes those of its waist.
func allowancesOf(p *garment.Piece, o shape.Outline) []float64 {
	known := map[string]float64{}
	for i := range p.Edges {
		e := &p.Edges[i]
		known[p.Outline.Edges[e.Index].Name] = e.Allowance.Value.Number
		known[e.Name] = e.Allowance.Value.Number
	}
	out := make([]float64, len(o.Edges))
	for i, e := range o.Edges {
		out[i] = known[e.Name]
	}
	return out
}

// joinHint says where a join along the grain could go, and what it costs.
func (t tape) joinHint(p *garment.Piece, outline []lay.Point, width, allowance float64) []string {
	if p.Grain != "along" {
		return nil
	}
	least, most := math.Inf(1), math.Inf(-1)
	for _, q := range outline {
		least, most = min(least, q.Y), max(most, q.Y)
	}
	whole := most - least
	if width <= 2*allowance {
		return nil
	}
	n := 2
	for ; partWidth(whole, allowance, n) > width; n++ {
	}
	long := 0.0
	for k := 1; k < n; k++ {
		long += lengthAt(outline, least+whole*float64(k)/float64(n))
	}
	if n == 2 && p.OnFold {
		return []string{say.Of("cutting.with-a-centre-seam-it-fits-cut", t.about(long))}
	}
	what, where := say.Of("cutting.a-join"), say.Of("cutting.in-the-middle")
	if n > 2 {
		what, where = say.Of("cutting.joins", n-1), say.Of("cutting.every-across", t.about(whole/float64(n)))
	}
	return []string{say.Of("cutting.with-along-the-grain-it-fits-more", what, where, t.about(long))}
}

// partWidth is how wide the widest of n equal parts of a piece is with the
// allowances of the joins: one at each end part, two at those between.
func partWidth(whole, allowance float64, n int) float64 {
	if n == 2 {
		return whole/2 + allowance
	}
	return whole/float64(n) + 2*allowance
}

// lengthAt is how much of a line along the cloth lies in an outline, the line
// running at y across it.
func lengthAt(pts []lay.Point, y float64) float64 {
	sum := 0.0
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		if (a.Y > y) == (b.Y > y) {
			continue
		}
		x := a.X + float64((y-a.Y)/(b.Y-a.Y)*(b.X-a.X))
		if b.Y > a.Y {
			sum += x
		} else {
			sum -= x
		}
	}
	return math.Abs(sum)
}

// misfitsOf lists what the engine refuses.
func misfitsOf(err error) []Misfit {
	var faults fault.List
	if !errors.As(err, &faults) || len(faults) == 0 {
		return []Misfit{{Fault: fault.Wrong(fault.Pos{}, "", err.Error())}}
	}
	out := make([]Misfit, len(faults))
	for i, f := range faults {
		out[i].Fault = f
	}
	return out
}
