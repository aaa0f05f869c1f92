package garment

import (
	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// Brought is the seam or finish whose type brings a piece, as a placket its strips, or the
// piece that it is a ply of; "" of a piece of the record.
func (p *Piece) Brought() string { return p.brought }

// widened lists by how much the plackets of slits that are cut from an edge make it longer,
// or shorter.
func (w *derivation) widened(p *Piece, e *PieceEdge) (terms []figure.Term, source trade.Source) {
	source = figure.Derived
	for i := range w.b.Finishes {
		r := &w.b.Finishes[i]
		kind := w.t.types[r.Type.V]
		if kind == nil || !kind.Widens.Given() {
			continue
		}
		for _, ref := range r.Of {
			if ref.Piece != p.Name || !p.slitFrom(ref.Edge, e) {
				continue
			}
			told := w.faults
			given := w.given(kind, r.With)
			w.faults = told // it is told where the finish is
			m := &measures{kind: kind, params: kind.filled(given), written: r.With}
			terms, source = append(terms, w.formula(kind.Widens, m)), kind.Source
		}
	}
	e.widened = len(terms) > 0
	return terms, source
}

// slitFrom reports whether a line of a piece is a slit that is cut from an edge.
func (p *Piece) slitFrom(line string, e *PieceEdge) bool {
	l := p.lineCalled(line)
	if l == nil || !l.Slit {
		return false
	}
	return e.is(l.Record.From.V.Edge) || e.is(l.Record.To.V.Edge)
}

// bringPieces makes pieces of what the types of seams and finishes bring, so that they are
// laid, printed and counted as those of the record are.
func (w *derivation) bringPieces() {
	anchors := words.NamesFor(len(w.g.Pieces) + 4)
	for _, p := range w.g.Pieces {
		anchors.Unique(p.Name)
	}
	w.trimPlies(anchors)
	w.drawBackings()
	for _, s := range w.g.Seams {
		for i := range s.Strips {
			w.bring(&s.Strips[i], s.Record.At, anchors)
		}
	}
	for _, f := range w.g.Finishes {
		for i := range f.Strips {
			w.bring(&f.Strips[i], f.Record.At, anchors)
		}
	}
}

// bring makes one piece, cut to measure with its allowances.
func (w *derivation) bring(n *StripNeed, at fault.Pos, anchors *words.Names) {
	if !n.Piece() || n.Count < 1 || !n.Cut.Value.Known() || !n.Each.Value.Known() {
		return
	}
	wide, long := n.Cut.Value.Number, n.Each.Value.Number
	nothing := record.Length{At: at}
	r := &record.Piece{At: at, Name: record.Text{V: say.Of("garment.of", n.What, n.of), At: at},
		Cut: record.Val[record.Cut]{V: record.Cut{N: n.Count, Alike: true}, At: at}, Allowance: nothing}
	r.Of = record.List[record.Text]{{V: n.Cloth, At: at}}
	if n.rule.Grain != "" { // else as the cloth lies
		r.Grain = record.Text{V: n.rule.Grain, At: at}
	}
	p := &Piece{Record: r, Name: r.Name.V, brought: n.of}
	p.form.anchor = anchors.Unique(p.Name)
	p.Anchor = w.Join("piece-", p.form.anchor)
	o, err := shape.Rectangle(wide, long)
	w.regular(p, at, o, err)
	p.form.takeOwn(r)
	for i, fold := range n.rule.Folds {
		if v, err := fold.Value(n.params); err == nil && v > 0 && v < wide {
			p.form.lines = append(p.form.lines, foldAt(i, v, at))
		}
	}
	p.form.state = done
	w.layLines(p, true)
	w.settle(p)
	for k := range p.Edges {
		e := &p.Edges[k]
		e.SewnBy = n.of
		e.rule = broughtRule
		w.allowance(p, e)
	}
	w.cutOut(p)
	w.pieceFigures(p)
	w.g.Pieces = append(w.g.Pieces, p)
}

// foldAt is a fold line of a brought piece, so far from its left side.
func foldAt(i int, from float64, at fault.Pos) record.LineSpec {
	name := "fold"
	if i > 0 {
		name = say.Of("garment.fold", countWord(i+1))
		if i == 1 {
			name = say.Of("garment.second-fold")
		}
	}
	return record.LineSpec{At: at, Name: record.Text{V: name, At: at}, Fold: record.Flag{V: true, At: at},
		Along: record.Val[record.Beside]{V: record.Beside{Edge: "left", By: measure.MM(from)}, At: at}}
}
