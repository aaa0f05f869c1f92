package garment

import (
	"math"

	"hembook/internal/record"
)

const mostPanels = 24

// fewestPanels is the least number of equal panels of a ring skirt that lie
// within the width of its cloth.
func (w *derivation) fewestPanels(p *Piece) int {
	r := p.Record.Ring
	turns, waist, length := float64(r.Turns.V), r.Waist.V.MM(), r.Length.V.MM()
	least := int(math.Floor(turns)) + 1 // a whole turn has no room for allowances
	cloth := w.clothOf(p)
	if cloth == nil || !(turns > 0) {
		return min(max(least, 1), mostPanels)
	}
	usable := UsableWidth(cloth)
	outer := waist/(2*math.Pi*turns) + length + w.ringAllowance(p, "hem")
	side := max(w.ringAllowance(p, "left"), w.ringAllowance(p, "right"))
	for n := least; n < mostPanels; n++ {
		if panelBox(outer, side, 2*math.Pi*turns/float64(n)) <= usable {
			return n
		}
	}
	return min(max(least, 1), mostPanels)
}

// panelBox is how wide a panel of a ring lies across the cloth, its middle
// along the grain: its outer corners are where the outer circle meets the
// lines of the sides.
func panelBox(outer, side, angle float64) float64 {
	half := angle / 2
	if side >= outer {
		side = 0
	}
	if half >= math.Pi/2 {
		return 2 * outer
	}
	sin, cos := math.Sincos(half)
	corner := math.Sqrt(outer*outer-side*side)*sin + side*cos
	return 2 * min(corner, outer)
}

// ringAllowance is what an edge of a ring will get, as far as can be told
// before its seams are looked at.
func (w *derivation) ringAllowance(p *Piece, edge string) float64 {
	for i := range p.Record.Edges {
		if e := &p.Record.Edges[i]; e.Name.V == edge && e.V.Allowance.Given() {
			return e.V.Allowance.V.MM()
		}
	}
	if p.Record.Allowance.Given() {
		return p.Record.Allowance.V.MM()
	}
	return w.usualAllowance().V
}

// parts lists the parts of the garment a piece is cut in.
func (w *index) parts(of record.List[record.Text]) []string {
	if len(of) == 0 {
		if len(w.uses) == 0 {
			return nil
		}
		return []string{w.uses[0].Name.V}
	}
	out := make([]string, len(of))
	for i := range of {
		out[i] = of[i].V
	}
	return out
}

// ClothOf is the first cloth a piece is cut in; nil where it is not known.
func (g *Garment) ClothOf(p *Piece) *record.Cloth {
	for _, c := range g.Cloths {
		if len(p.Of) > 0 && c.Part == p.Of[0] {
			return c.Cloth
		}
	}
	return nil
}

// clothOf is the first cloth a piece is cut in; nil where it is not known.
func (w *index) clothOf(p *Piece) *record.Cloth {
	of := p.Record.Of
	if len(of) == 0 {
		of = p.form.of
	}
	for _, part := range w.parts(of) {
		return w.clothIn(part)
	}
	return nil
}

// clothIn is the cloth used in a part; nil where it is not known.
func (w *index) clothIn(part string) *record.Cloth {
	use, ok := w.uses.Get(part)
	if !ok {
		return nil
	}
	c, _ := w.shelf.Cloth(use.Use.V)
	return c
}
