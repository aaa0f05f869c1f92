package garment

import (
	"hembook/internal/figure"
	"hembook/internal/say"
)

var (
	spareRule      = say.Of("garment.what-the-seam-keeps-of-the-allowance-3")
	sparePlainRule = say.Of("garment.what-the-seam-keeps-of-the-allowance-4")
	letDownRule    = say.Of("garment.what-the-finish-keeps-of-the-allowance")
)

// spares is what each edge can give where it is sewn or made neat: its own part
// of what a level that crosses it can be let out.
func (w *letOuts) spares() {
	for _, p := range w.g.Pieces {
		for k := range p.Edges {
			e := &p.Edges[k]
			switch {
			case e.Fold:
			case e.seam != nil:
				w.spareInSeam(e)
			case e.finish != nil && e.finish.kind != nil:
				w.spareInFinish(e)
			}
		}
	}
}

func (w *letOuts) spareInSeam(e *PieceEdge) {
	why := w.heldAlong(e.seam, e)
	e.Spare, e.SparePlain = w.spareOn(e, e.side, "spare", why)
	if s := e.seam; s.usesOn(e, 0) && s.usesOn(e, 1) { // a left and a right of it are sewn together
		e.SpareOther, e.SpareOtherPlain = w.spareOn(e, 1-e.side, "spare-other", why)
	}
}

// spareOn is what an edge can give on a side of its seam, and as a plain seam
// where that is more.
func (w *letOuts) spareOn(e *PieceEdge, side int, name, why string) (own, plain figure.Figure) {
	id := w.Join(e.base, ".", name)
	if why != "" {
		return w.Figure(id, say.Of("garment.can-give"), e.ref, w.Unknown(why), mm, spareRule, figure.Practice), plain
	}
	s := givingSide{edge: e, seam: e.seam, side: side, times: 1, held: w.liesIn(e)}
	rule := spareRule
	if e.Holds = s.held; s.held != "" {
		rule = w.Join("nothing, for it holds ", s.held)
	}
	own = w.Figure(id, say.Of("garment.can-give"), e.ref, w.spare(s, false), mm, rule, figure.Practice)
	if t := w.spare(s, true); s.held == "" && own.Value.Known() && t.Known() && t.MM() > own.Value.Number+1e-6 {
		plain = w.Figure(w.Join(e.base, ".", name, "-plain"), say.Of("garment.can-give-sewn-again-as-a-plain"), e.ref, t, mm, w.Join(sparePlainRule, rowsShow([]givingSide{s})), figure.Practice)
	}
	return own, plain
}

func (w *letOuts) spareInFinish(e *PieceEdge) {
	f := e.finish
	id := w.Join(e.base, ".spare")
	if !f.kind.Told() || !f.Takes.Value.Known() {
		e.Spare = w.Figure(id, say.Of("garment.can-give"), e.ref, w.Unknown(say.Of("garment.nothing-is-known-of-what-keeps", f.Name)), mm, letDownRule, figure.Practice)
		return
	}
	m := finishMeasures(f).left(e, 0, w.margin)
	keeps := w.formula(f.kind.Keeps.A, m)
	holds, err := w.holdsOf(f.kind, 0, e, f.Params)
	if err != nil {
		e.Spare = w.Figure(id, say.Of("garment.can-give"), e.ref, w.Unknown(err.Error()), mm, letDownRule, figure.Practice)
		return
	}
	e.Spare = w.Figure(id, say.Of("garment.can-give"), e.ref, w.AtLeastNothing(keeps.Minus(w.formula(holds, m))), mm, letDownRule, figure.Practice)
}
