package garment

import (
	"slices"
	"strconv"

	"hembook/internal/figure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/words"
)

// clothRule says where the allowance of what is cut from such a cloth comes from.
var clothRule = say.Of("garment.the-allowance-that-its-cloth-has-in")

// clothAllowance is the allowance of all that is cut from the one cloth of a piece, where
// the record gives that cloth one.
func (w *index) clothAllowance(p *Piece) record.Length {
	if len(p.Of) == 0 {
		return record.Length{}
	}
	for _, part := range p.Of[1:] {
		if part != p.Of[0] {
			return record.Length{}
		}
	}
	use, _ := w.uses.Get(p.Of[0])
	return use.Allowance
}

// trimPlies makes pieces of the plies that are cut from a cloth with an allowance of its own,
// as fusing that stays out of the seams: they are cut, laid, printed and counted by
// themselves, and the piece they back keeps its other plies.
func (w *derivation) trimPlies(anchors *words.Names) {
	for _, p := range slices.Clone(w.g.Pieces) {
		if p.brought != "" || w.clothAllowance(p).Given() {
			continue
		}
		for i := range w.uses {
			part, use := w.uses[i].Name.V, &w.uses[i].V
			if use.Allowance.Given() && cutIn(p, part) {
				w.trimPly(p, part, use.Allowance, anchors)
			}
		}
	}
}

// trimPly makes a piece of the plies of one cloth.
func (w *derivation) trimPly(p *Piece, part string, allow record.Length, anchors *words.Names) {
	name := say.Of("garment.of", part, p.Name)
	if w.named[name] != nil || p.form.why != "" {
		return
	}
	r := &record.Piece{At: allow.At, Name: record.Text{V: name, At: allow.At},
		Cut: record.Val[record.Cut]{V: record.Cut{N: p.CutIn(part), OnFold: p.OnFold, Alike: !p.Pairs}, At: p.Record.At}}
	r.Of = record.List[record.Text]{{V: part, At: allow.At}}
	r.Grain = record.Text{V: p.Grain, At: allow.At}
	q := &Piece{Record: r, Name: name, brought: p.Name}
	f := &q.form
	f.anchor = anchors.Unique(name)
	q.Anchor = w.Join("piece-", f.anchor)
	f.outline, f.notes = p.form.outline, slices.Clone(p.form.notes)
	f.outline.Edges = slices.Clone(p.form.outline.Edges)
	f.darts, f.slit, f.skirt, f.ring, f.panels = p.form.darts, p.form.slit, p.form.skirt, p.form.ring, p.form.panels
	for i := range f.notes {
		f.notes[i].moved = f.notes[i].moved || len(f.notes[i].altered) > 0
		f.notes[i].allowance, f.notes[i].level, f.notes[i].altered = record.Length{}, record.Text{}, nil
	}
	f.takeOwn(r)
	f.state = done
	w.settle(q)
	for k := range q.Edges {
		e := &q.Edges[k]
		e.SewnBy = p.Name
		if w.fixed(q, e); e.rule == clothRule {
			e.allow = min(allow.V.MM(), p.Edges[k].allow)
		}
		w.plyAllowance(e, &p.Edges[k], allow)
	}
	w.cutOut(q)
	w.pieceFigures(q)
	p.Of = slices.DeleteFunc(slices.Clone(p.Of), func(of string) bool { return of == part })
	w.g.Pieces = append(w.g.Pieces, q)
}

// plyAllowance is the allowance of an edge of a ply: that of its cloth, but no more than the
// edge it lies behind has.
func (w *derivation) plyAllowance(e, behind *PieceEdge, allow record.Length) {
	if e.rule != clothRule {
		w.allowance(e.piece, e)
		return
	}
	t := w.Length(say.Of("garment.allowance-of-its-cloth"), allow)
	if behind.allow < allow.V.MM() {
		t = w.Of(say.Of("garment.allowance-of", behind.ref), &behind.Allowance)
	}
	e.Allowance = w.Figure(w.Join(e.base, ".allowance"), say.Of("garment.allowance-of-the-edge"), e.ref, t, mm, e.rule, figure.Recorded)
	e.Allowance.Value.Exact = true
}

// drawBackings draws on each piece what lies behind it: blocks, and the inner edges of strips
// of fusing.
func (w *derivation) drawBackings() {
	for _, p := range w.g.Pieces {
		switch {
		case p.form.why != "":
		case p.Record.Block != nil:
			for i, s := range w.blockSpots(p.Record.Block) {
				if i == 0 {
					w.overBlock(p, &s)
				}
				w.drawBacking(p, &s)
			}
		case p.Record.Border != nil && len(p.Of) > 0 && !slices.ContainsFunc(p.Of, sewnApart):
			if under := w.named[p.Record.Like.V]; under != nil && under.form.why == "" && !under.letIn() {
				w.drawBacking(p, &blockSpot{on: under, at: innerLine(&p.Outline)})
			}
		}
	}
}

// innerLine is the edge of a border that lies inside the piece.
func innerLine(o *shape.Outline) shape.Line {
	side, ok := o.Side("inner")
	if !ok {
		return nil
	}
	var edges []shape.Edge
	for k := range side.Count {
		edges = append(edges, o.Edges[(side.First+k)%len(o.Edges)])
	}
	return shape.LineOf(o.Start(side.First), edges)
}

// overBlock warns of a block that reaches over the cut edge of its piece.
func (w *derivation) overBlock(p *Piece, s *blockSpot) {
	edge, by := s.on.Outline.Over(s.at, s.on.OnFold)
	e := s.on.edgeCalled(edge)
	if e == nil || by <= e.allow+overSet {
		return
	}
	r := p.Record.Block
	at := r.At
	if r.Beyond.Given() {
		at = r.Beyond.At
	}
	w.faults.LookAgain(at, say.Of("garment.let-it-reach-less-far-as-beyond", w.written(max(beyondOf(r).MM()-by+e.allow, 0))), say.Of("garment.reaches-over-the-cut-edge-of", p.Name, w.tape().About(by-e.allow), s.on.Name, edge))
}

// drawBacking draws one line of what lies behind a piece.
func (w *derivation) drawBacking(p *Piece, s *blockSpot) {
	under, line := s.on, s.at
	if len(line) < 2 {
		return
	}
	at, nth := p.Record.At, 1
	names := words.NamesFor(len(under.Lines) + 1)
	for i := range under.Lines {
		names.Unique(under.Lines[i].Name)
		if under.Lines[i].Place == p.Name {
			nth++
		}
	}
	name := p.Name
	if nth > 1 {
		name += " " + strconv.Itoa(nth) // a file has lines by their names
	}
	anchor := names.Unique(name)
	under.Lines = append(under.Lines, PieceLine{Record: &record.LineSpec{At: at, Name: record.Text{V: name, At: at}}, Name: name, Points: line, Place: p.Name, Hand: s.hand, Again: nth > 1})
	l := &under.Lines[len(under.Lines)-1]
	base := w.Join("piece.", under.form.anchor, ".line.", anchor)
	ref := w.Join(under.Name, ", the place of ", p.Name)
	w.drawnFrom(p)
	w.Remark(figure.Written, p.Name, figure.AsItStands, at, "")
	l.Length = w.Figure(w.Join(base, ".length"), "length", ref, w.Found(p.Name, line.Length(), mm), mm, say.Of("garment.along-what-lies-behind-it"), figure.Derived)
	l.Edge = &PieceEdge{Name: l.Name, Index: -1, Times: under.copies(), Length: l.Length, Sewn: l.Length, sewn: line.Length(),
		piece: under, note: &edgeNote{name: l.Name, at: at, to: at}, base: base, ref: ref, line: l}
}
