package garment

import (
	"strconv"

	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/say"
)

// A RowThrough is a row with what its needle passes.
type RowThrough struct {
	Row       *Row
	Plies     figure.Figure // how many layers
	Thickness figure.Figure // of all of them together, mm
}

var (
	pliesRule = say.Of("garment.layers-a-piece-that-is-backed-is")
	thickRule = say.Of("garment.thickness-of-each-layer-as-its-cloths")
)

// Through works out what the needle of every row passes.
func (t *Tailor) Through(g *Garment) []RowThrough {
	k := figure.NewPad(t.room.Workroom.Style())
	out := make([]RowThrough, len(g.Rows))
	for i := range g.Rows {
		r := &g.Rows[i]
		base := k.Join("row.", strconv.Itoa(i+1))
		out[i] = RowThrough{
			Row:       r,
			Plies:     k.Figure(k.Join(base, ".plies"), "plies", r.Called(), pliesTerm(k, r), measure.UnitCount, pliesRule, figure.Derived),
			Thickness: k.Figure(k.Join(base, ".thickness"), "thickness", r.Called(), g.thickTerm(k, r), mm, thickRule, figure.Derived),
		}
	}
	return out
}

var untoldPlies = say.Of("garment.its-type-does-not-tell-which-plies")

func pliesTerm(k *figure.Pad, r *Row) figure.Term {
	var terms []figure.Term
	for _, p := range r.plies {
		switch {
		case p.piece == nil:
			terms = append(terms, k.Found(p.strip, 1, measure.UnitCount))
		default:
			terms = append(terms, k.Found(p.piece.Name, float64(max(len(p.piece.together()), 1)), measure.UnitCount))
		}
	}
	return k.SumOr(untoldPlies, terms)
}

func (g *Garment) thickTerm(k *figure.Pad, r *Row) figure.Term {
	var terms []figure.Term
	for _, p := range r.plies {
		if p.piece == nil {
			terms = append(terms, k.Unknown(say.Of("garment.nothing-tells-how-thick-its-is", p.strip)))
			continue
		}
		for _, part := range p.piece.together() {
			terms = append(terms, g.thickOf(k, part))
		}
	}
	return k.SumOr(untoldPlies, terms)
}

// thickOf is the thickness of the cloth of a part.
func (g *Garment) thickOf(k *figure.Pad, part string) figure.Term {
	for _, c := range g.Cloths {
		if c.Part == part && c.Cloth != nil && c.Cloth.Thick.Given() {
			return k.Length(part, c.Cloth.Thick)
		}
	}
	return k.Unknown(say.Of("garment.the-thickness-of-the-is-not-written", part))
}
