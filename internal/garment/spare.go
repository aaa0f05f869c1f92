package garment

import (
	"hembook/internal/figure"
	"hembook/internal/trade"
)

// spare is what an edge can give when its seam is made again in its own way:
// what the seam keeps of the allowance, less what must stay of it.
func (w *work) spare(e *PieceEdge) figure.Term {
	s := e.seam
	if s.kind == nil || s.err != nil || !s.kind.Told() {
		return w.Unknown(w.Join("nothing is known of how ", s.Name, " is sewn"))
	}
	m := w.seamMeasures(s)
	m.edge = e
	keeps := w.formula(s.kind.Keeps.Of(e.side), m)
	holds, err := w.holds(e)
	if err != nil {
		return keeps.Unless(err.Error())
	}
	return w.AtLeastNothing(keeps.Minus(w.formula(holds, m)))
}

// holds is the formula of what must stay of an edge's allowance: of several the
// one that asks for most.
func (w *work) holds(e *PieceEdge) (trade.Expr, error) {
	kind := e.seam.kind
	p := trade.Params{trade.CutName: e.allow, trade.MarginName: w.t.usual.margin.V}
	for name, v := range e.seam.Params {
		p[name] = v
	}
	keeps, err := kind.Keeps.Of(e.side).Value(p)
	if err != nil {
		return trade.Expr{}, err
	}
	p[trade.AllName] = keeps
	most, _, err := kind.Holds.Of(e.side).Largest(p)
	return most, err
}
