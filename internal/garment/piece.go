package garment

import (
	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/words"
)

// settle turns a piece's form into edges, darts and counts.
func (w *derivation) settle(p *Piece) {
	f := &p.form
	p.Grain = f.grain.Or("along")
	p.Of = w.parts(f.of)
	p.Ring = f.skirt
	w.count(p)
	f.fold = -1
	if f.why != "" {
		return
	}
	p.Outline = f.outline
	w.findFold(p)
	f.kept = w.t.keeper.outline(f.outline)
	sides := f.kept.sides
	p.Edges = make([]PieceEdge, len(sides))
	slugs := words.NamesFor(len(sides))
	for k, s := range sides {
		w.edge(p, &p.Edges[k], s, slugs)
	}
	p.PleatFolds = f.folds
	w.settleLines(p)
	w.darts(p)
	for k := range p.Edges {
		w.sewnLength(p, &p.Edges[k])
	}
}

// findFold finds the edge on the fold and faults a fold that goes with no cut.
func (w *derivation) findFold(p *Piece) {
	f := &p.form
	f.fold = p.Outline.FoldEdge()
	switch {
	case p.OnFold && f.fold < 0:
		if p.Record.Outline == nil { // for a drawn outline the reader says it
			w.faults.Wrong(f.cut.At, say.Of("garment.write-fold-true-at-that-edge-as"), say.Of("garment.is-cut-on-the-fold-which-edge", p.Name))
		}
		p.OnFold = false
	case !p.OnFold && f.fold >= 0:
		// A piece that is cut as the one it is like has been told there.
		if !p.Record.Like.Given() || p.Record.Cut.Given() {
			p.unfolded = &f.notes[f.fold]
		}
		f.fold = -1
	}
}

// edge fills in what is known of an edge before its seams are looked at.
func (w *derivation) edge(p *Piece, e *PieceEdge, s shape.NamedEdge, slugs *words.Names) {
	f := &p.form
	e.piece, e.note = p, &f.notes[s.First]
	e.Name, e.Index, e.Fold, e.Level = s.Name, s.First, s.Fold, e.note.level.V
	e.ref = w.Join(p.Name, ".", s.Name)
	e.base = w.Join("piece.", f.anchor, ".edge.", slugs.Unique(s.Name))
	switch {
	case e.Fold && p.OnFold:
		e.Times = 0
	case p.OnFold:
		e.Times = 2 * p.Count
	default:
		e.Times = p.Count
	}
	e.sewn = s.Length
	w.edgeLength(p, e, s)
}

// The rules by which the length of an edge is told.
var (
	straightRule = say.Of("garment.straight-edge-x-x-y-y")
	partsRule    = say.Of("garment.the-lengths-of-the-edges-parts-curves")
	curveRule    = say.Of("garment.curve-the-length-of-the-cubic-through")
)

// edgeLength works out the length along the sewing line (figure 4).
func (w *derivation) edgeLength(p *Piece, e *PieceEdge, s shape.NamedEdge) {
	o := &p.Outline
	rule := straightRule
	switch {
	case s.Count > 1:
		rule = partsRule
	case o.Edges[s.First].Curved:
		rule = curveRule
	}
	end := o.Edges[(s.First+s.Count-1)%len(o.Edges)].To
	n := len(p.form.notes)
	if len(e.note.altered) > 0 || p.Record.Outline == nil || e.note.whole != "" || len(p.form.pleats) > 0 {
		w.drawnFrom(p)
	}
	if e.note.part.Given() {
		w.Remark(figure.Written, "part", s.Name, e.note.part, "")
	}
	w.corner(e, "from", o.Start(s.First), &p.form.notes[(s.First+n-1)%n])
	w.corner(e, "to", end, e.note)
	for _, a := range e.note.altered {
		w.Remark(figure.Written, a.name(), a.words(w.t.room.Workroom.Style().One()), a.Change.At, "")
	}
	e.Length = w.Figure(w.Join(e.base, ".length"), "length", e.ref, w.sideLength(o, s), mm, rule, figure.Derived)
}

// corner notes where an edge begins or ends, unless the fittings have moved it
// or the form alone gives it: then the sum alone tells.
func (w *desk) corner(e *PieceEdge, name string, at shape.Point, by *edgeNote) {
	switch {
	case len(e.note.altered) > 0 || by.to == by.at:
		return
	case by.moved:
		w.Remark(figure.Written, name, figure.AsItStands, by.to, "")
		return
	}
	w.Shown(figure.Written, name, w.point(at), by.to, "")
}

// sideLength is the sum of a side's parts.
func (w *derivation) sideLength(o *shape.Outline, s shape.NamedEdge) figure.Term {
	if s.Count == 1 {
		return w.partLength(o, s.First, s.Length)
	}
	parts := make([]figure.Term, s.Count)
	for k := range parts {
		i := (s.First + k) % len(o.Edges)
		words := "straight"
		if o.Edges[i].Curved {
			words = "curve"
		}
		parts[k] = w.Found(words, o.EdgeLength(i), mm)
	}
	return w.NamedSum(parts...)
}

// partLength is the length of one part of an outline.
func (w *derivation) partLength(o *shape.Outline, i int, length float64) figure.Term {
	a, e := o.Start(i), &o.Edges[i]
	if !e.Curved {
		return w.Apart(a.X, a.Y, e.To.X, e.To.Y)
	}
	return w.Curve([8]float64{a.X, a.Y, e.C1.X, e.C1.Y, e.C2.X, e.C2.Y, e.To.X, e.To.Y}, length)
}

// point writes a point of an outline in the units of the room.
func (w *desk) point(p shape.Point) string { return w.Point(p.X, p.Y) }

// sewnLength takes darts and pleats off an edge's length, and adds what plackets do.
func (w *derivation) sewnLength(p *Piece, e *PieceEdge) {
	terms, at := w.intake(p, e)
	more, source := w.widened(p, e)
	e.Sewn = e.Length
	if len(terms)+len(more) == 0 {
		return
	}
	sewn, rule := w.Of("length", &e.Length), "length"
	if len(terms) > 0 {
		if len(p.form.pleats) > 0 { // how deep they run hangs on the whole piece
			w.drawnFrom(p)
		}
		e.Intake = w.Figure(w.Join(e.base, ".intake"), say.Of("garment.take-in-of-darts-pleats-and-gathers"), e.ref, w.Sum(terms...), mm,
			p.form.intakeRule(e), figure.Derived)
		sewn, rule = w.Of("length", &e.Length).Minus(w.Of("intake", &e.Intake)), say.Of("garment.take-in", rule)
	}
	if len(more) > 0 {
		sewn, rule = sewn.Plus(w.Sum(more...)), say.Of("garment.what-the-placket-of-each-slit-in", rule)
	}
	if sewn.MM() <= 0 {
		if p.own(len(p.Record.Darts)+len(p.Record.Pleats) > 0) {
			w.faults.Wrong(at, say.Of("garment.take-in-less-or-lengthen-the-edge"), say.Of("garment.is-long-its-darts-and-pleats-take", e.ref, w.tape().About(e.Length.Value.Number), w.tape().About(e.Intake.Value.Number)))
		}
		sewn = sewn.Unless(say.Of("garment.darts-and-pleats-take-in-more-than"))
	}
	e.Sewn = w.Figure(w.Join(e.base, ".sewn"), say.Of("garment.sewn-length"), e.ref, sewn, mm, rule, source)
	e.sewn = max(e.Sewn.Value.Number, 0)
}

// intake lists what darts and pleats take in on an edge; at is where the last
// of them stands.
func (w *derivation) intake(p *Piece, e *PieceEdge) (terms []figure.Term, at fault.Pos) {
	f := &p.form
	for i := range f.darts {
		if d := &f.darts[i]; f.is(e, d.Edge.V) {
			terms, at = append(terms, w.Length(say.Of("garment.width-of-the-dart"), d.Width)), d.At
		}
	}
	if pleats, last := w.pleatTerms(p, e); len(pleats) > 0 {
		terms, at = append(terms, pleats...), last
	}
	if g := p.form.gathersOn(e); g != nil {
		terms, at = append(terms, w.gatherTerm(p, e, g)), g.At
	}
	return terms, at
}

// own reports whether what is wrong with a piece is to be told of it, and not
// of the piece it is like: it is drawn, or changed, or said so itself.
func (p *Piece) own(said bool) bool {
	return said || !p.Record.Like.Given() || len(p.Record.Change) > 0 || p.refitted
}

// is reports whether a name means this edge.
func (f *form) is(e *PieceEdge, name string) bool {
	return name != "" && (name == e.Name || name == e.note.before)
}

// Ref is the edge's name with its piece's, as "front.side".
func (e *PieceEdge) Ref() string { return e.ref }

// Drawn reports whether the piece has an outline.
func (p *Piece) Drawn() bool { return p.form.why == "" }

// Fold is the index of the outline's edge that lies on a fold; -1 where none does.
func (p *Piece) Fold() int { return p.form.fold }

// edgeCalled finds a piece's edge by its name or the one it had before.
func (p *Piece) edgeCalled(name string) *PieceEdge {
	for k := range p.Edges {
		if p.form.is(&p.Edges[k], name) {
			return &p.Edges[k]
		}
	}
	return nil
}

// cutPieces gives every piece its cut outline and its own figures.
func (w *derivation) cutPieces() {
	for _, p := range w.g.Pieces {
		w.cutOut(p)
		w.pieceFigures(p)
		w.extraFigures(p)
		w.widths(p)
	}
}

var (
	areaRule     = say.Of("garment.area-within-the-sewing-line")
	twiceRule    = say.Of("garment.twice-the-half-drawn-which-is-cut")
	wholeCutRule = say.Of("garment.area-within-the-cut-outline-each-edge")
)

// pieceFigures works out areas and extents (figure 2).
func (w *derivation) pieceFigures(p *Piece) {
	base := w.Join("piece.", p.form.anchor)
	why := p.form.why
	rule := areaRule
	whole := func(t figure.Term) figure.Term {
		if p.OnFold {
			t = w.Number(2).Times(t)
		}
		return t.Unless(why)
	}
	if p.OnFold {
		rule = twiceRule
	}
	w.drawnFrom(p)
	p.Area = w.Figure(w.Join(base, ".area"), say.Of("garment.area-of-one-whole-piece"), p.Name, whole(w.areaWithin(&p.Outline)), measure.UnitCM2, rule, figure.Derived)
	w.drawnFrom(p)
	for k := range p.Edges {
		w.Note(w.Of(w.Join("allowance of ", p.Edges[k].Name), &p.Edges[k].Allowance))
	}
	p.CutArea = w.Figure(w.Join(base, ".cut-area"), say.Of("garment.area-of-one-whole-piece-as-cut"), p.Name, whole(w.cutArea(p)), measure.UnitCM2, wholeCutRule, figure.Derived)
	p.Allowance = w.Figure(w.Join(base, ".allowance"), say.Of("garment.area-of-its-allowances"), p.Name,
		w.Of(say.Of("garment.area-as-cut"), &p.CutArea).Minus(w.Of("area", &p.Area)), measure.UnitCM2, say.Of("garment.area-as-cut-area"), figure.Derived)
	p.Share = w.share(w.Join(base, ".share"), p.Name, &p.Allowance, &p.CutArea)
	w.extent(p, base, why)
}

// drawnFrom notes what the outline of a piece comes from: what is written of it, of the
// pieces it is like or lies behind and of those that say how long it is as a band, and what
// altered it since.
func (w *index) drawnFrom(p *Piece) { w.drawnOf(p, "outline", len(w.g.Pieces), true) }

// drawnOf is drawnFrom under a name; most bounds how many pieces follow from each other, and
// altered tells to note what altered it: what another is like has handed that on to it.
func (w *index) drawnOf(p *Piece, name string, most int, altered bool) {
	if p == nil || most < 0 {
		return
	}
	w.Remark(figure.Written, name, figure.AsItStands, p.Record.At, "")
	switch {
	case p.brought != "":
		w.drawnOf(w.named[p.brought], w.Join("outline of ", p.brought), most-1, true)
	case p.Record.Like.Given():
		w.drawnOf(w.named[p.Record.Like.V], w.Join("outline of ", p.Record.Like.V), most-1, false)
	case p.Record.Band != nil && !p.Record.Band.Length.Given():
		w.alongBand(p, most-1)
	}
	if !altered {
		return
	}
	for i := range p.form.pleats {
		w.Remark(figure.Written, "pleats", figure.AsItStands, p.form.pleats[i].At, "")
	}
	for i := range p.form.altered {
		a := &p.form.altered[i]
		w.Remark(figure.Written, a.name(), figure.AsItStands, a.Change.At, "")
	}
}

// alongBand notes the pieces that a band is as long as, and the seam that sews it on.
func (w *index) alongBand(p *Piece, most int) {
	if s, _ := w.g.Build.BandSeam(p.Record); s != nil {
		w.Remark(figure.Written, s.Name.V, figure.AsItStands, s.At, "")
	}
	for _, e := range w.g.Build.BandAlong(p.Record) {
		w.drawnOf(w.named[e.Piece], w.Join("outline of ", e.Piece), most, true)
	}
}

// share is the allowances' part of what is cut.
func (w *desk) share(id, name string, allowance, cut *figure.Figure) figure.Figure {
	t := w.Of("allowances", allowance).Over(w.Of(say.Of("garment.as-cut"), cut))
	switch {
	case !cut.Value.Known():
		t = t.Unless(say.Of("garment.the-area-as-cut-is-not-known"))
	case !allowance.Value.Known():
		t = t.Unless(say.Of("garment.the-area-of-its-allowances-is-not"))
	}
	return w.Figure(id, say.Of("garment.share-of-the-allowances"), name, t, measure.UnitPercent, say.Of("garment.allowances-by-area-as-cut"), figure.Derived)
}

func (w *derivation) extent(p *Piece, base, why string) {
	if why == "" && len(p.CutWhole) == 0 {
		why = say.Of("garment.the-half-meets-its-fold-more-than")
	}
	least, most := p.CutWhole.Bounds()
	p.Width = w.span(p, w.Join(base, ".width"), say.Of("garment.width-across-the-grain-as-cut"), say.Of("garment.greatest-x-least-x-of-the-cut"), least.X, most.X, why)
	p.Height = w.span(p, w.Join(base, ".height"), say.Of("garment.height-along-the-grain-as-cut"), say.Of("garment.greatest-y-least-y-of-the-cut"), least.Y, most.Y, why)
}

func (w *derivation) span(p *Piece, id, title, rule string, least, most float64, why string) figure.Figure {
	w.Note(w.Of(say.Of("garment.area-as-cut"), &p.CutArea))
	t := w.Constant(most, mm).Minus(w.Constant(least, mm)).Unless(why)
	return w.Figure(id, title, p.Name, t, mm, rule, figure.Derived)
}
