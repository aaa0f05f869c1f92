package garment

import (
	"strconv"

	"hembook/internal/figure"
	"hembook/internal/meant"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/trade"
)

// finishes works out what every finish takes.
func (w *derivation) finishes() {
	w.drawnAlong()
	w.drawnByBands()
	for _, f := range w.g.Finishes {
		base := w.Join("finish.", f.anchor)
		w.finishLength(f, base)
		w.finishTakes(f, base)
		if f.kind != nil {
			w.wanted(f.kind, f.Name, f.Record.Of)
			w.broken(f.kind, f.Name, f.Params, f.Record.With, f.Record.Type.At)
			f.Strips = w.finishStrips(f, base)
			w.rows.knownStitch(f.Record.Stitch)
			w.rows.rowsOf(f.kind, Row{Kind: FinishRow, Of: f.Name, Thread: w.rows.threadName(f.Record.Thread.V), Length: &f.Total, what: f.Name}, f.Record.Stitch.V, f.Params, f.firstPiece())
			w.besideFinish(f)
			w.rows.rowsBeside(&f.Type, f.kind, Row{Kind: FinishRow, Of: f.Name, Thread: w.rows.threadName(f.Record.Thread.V), Length: &f.Total, what: f.Name}, f.besides, f.Params, f.firstPiece())
		} else {
			w.rows.sewsRow(Row{Kind: FinishRow, Of: f.Name, Length: &f.Total, what: f.Name, Lasting: true})
		}
	}
}

// rowsOnly reports whether a finish is rows of stitching that make no edge neat.
func (f *Finish) rowsOnly() bool { return f.kind != nil && f.kind.RowsOnly }

// onLines names the finishes that go on a line and turn nothing in.
func (t *Tailor) onLines() string {
	var names []string
	for i := range t.list {
		if s := &t.list[i]; s.Kind == trade.Finish && s.RowsOnly && s.Wants.Take(trade.OnLine) {
			names = append(names, s.Name)
		}
	}
	return meant.List(names, "or")
}

// firstPiece is the piece whose edge a finish makes neat first, as side a.
func (f *Finish) firstPiece() (out [2][]*Piece) {
	if len(f.Edges) > 0 {
		out[0] = []*Piece{f.Edges[0].Piece}
	}
	return out
}

func (w *derivation) finishLength(f *Finish, base string) {
	terms := make([]figure.Term, len(f.Edges))
	for i, u := range f.Edges {
		w.timesCut(u.Piece)
		terms[i] = w.sewn(u.Edge).By(float64(u.Times() * u.Piece.sets()))
	}
	t := w.Unknown(say.Of("garment.no-edge-of-it-is-there"))
	if len(terms) > 0 {
		t = w.Sum(terms...)
	}
	f.Total = w.Figure(w.Join(base, ".total"), "length", f.Name, t, measure.UnitM, say.Of("garment.sum-of-sewn-length-times-times-the"), figure.Derived)
}

// sewn is the sewn length of an edge as a term.
func (w *desk) sewn(e *PieceEdge) figure.Term { return e.SewnOn(w.Pad) }

// timesCut notes where it is written how often a piece is cut, for what is counted as often.
func (w *desk) timesCut(p *Piece) {
	if c := p.form.cut; c.Given() && p.brought == "" {
		w.Remark(figure.Written, w.Join(p.Name, " is cut"), strconv.Itoa(c.V.N), c.At, "")
	}
}

// SewnOn is the edge's sewn length as a term of another figure.
func (e *PieceEdge) SewnOn(pad *figure.Pad) figure.Term {
	t := pad.Of(e.ref, &e.Sewn)
	if !e.Sewn.Value.Known() {
		return t.Unless(say.Of("garment.the-length-of-is-not-known", e.ref))
	}
	return t
}

func (w *derivation) finishTakes(f *Finish, base string) {
	title, wide, said := say.Of("garment.allowance-used"), say.Of("garment.finished-width"), say.Of("garment.as-the-finish-says")
	takes, width := w.Join(base, ".takes"), w.Join(base, ".width")
	if f.kind == nil || w.worksOut(f) != nil {
		f.Takes = w.Figure(takes, title, f.Name, w.Unknown(say.Of("garment.the-finish-is-not-known")), mm, said, figure.Derived)
		f.Width = w.Figure(width, wide, f.Name, w.Unknown(say.Of("garment.the-finish-is-not-known")), mm, said, figure.Derived)
		return
	}
	m := finishMeasures(f)
	f.Takes = w.Figure(takes, title, f.Name, w.formula(f.kind.Gives.A, m), mm, w.prettyRule(f.kind.Gives.A), f.kind.Source)
	f.Width = w.Figure(width, wide, f.Name, w.formula(f.kind.SeamType.Width, m), mm, w.prettyRule(f.kind.SeamType.Width), f.kind.Source)
	need := f.Takes.Value.Number
	for _, u := range f.Edges {
		if e := u.Edge; e.line != nil && need > 1e-6 {
			w.faults.Wrong(f.Record.At, say.Of("garment.a-finish-that-turns-nothing-in-as", w.t.onLines()), say.Of("garment.it-turns-in-and-beyond-lies-no", f.Name, w.tape().Exact(need), e.ref))
		} else if !e.Fold && need > e.allow+1e-6 {
			bad := w.faults.Wrong(f.Record.At, say.Of("garment.allowance-at-the-edge-or-a-narrower", w.writtenUp(need)), say.Of("garment.it-uses-has", f.Name, w.tape().Exact(need), e.ref, w.tape().Exact(e.allow)))
			w.allowanceOf(bad, e, need)
		}
	}
}

// worksOut faults a finish whose formulas come to nothing.
func (w *derivation) worksOut(f *Finish) error {
	_, err := f.kind.Gives.A.Eval(f.Params)
	if err == nil {
		_, err = f.kind.SeamType.Width.Eval(f.Params)
	}
	if err != nil {
		w.faults.Errorf(f.Record.Type.At, "", "%q: %s", f.Name, err)
	}
	return err
}
