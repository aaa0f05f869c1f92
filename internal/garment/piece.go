package garment

import (
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/shape"
)

// settle turns a piece's form into edges, darts and counts.
func (w *work) settle(p *Piece) {
	f := &p.form
	p.Grain = f.grain.Or("along")
	p.Of = w.parts(f.of)
	w.count(p)
	p.Ring = f.skirt
	f.fold = -1
	if f.why != "" {
		return
	}
	p.Outline = f.outline
	w.findFold(p)
	f.kept = w.t.keeper.outline(f.outline)
	sides := f.kept.sides
	p.Edges = make([]PieceEdge, len(sides))
	slugs := namesFor(len(sides))
	for k, s := range sides {
		w.edge(p, &p.Edges[k], s, slugs)
	}
	w.darts(p)
	for k := range p.Edges {
		w.sewnLength(p, &p.Edges[k])
	}
}

// count says how many of a piece are cut, and how.
func (w *work) count(p *Piece) {
	f := &p.form
	c := f.cut.Or(record.Cut{N: 1})
	p.Count, p.OnFold, p.Mirrored = max(c.N, 1), c.OnFold, c.Mirrored
	if f.skirt == nil {
		if f.panels > 0 && !p.Record.Cut.Given() {
			p.Count = f.panels
		}
		return
	}
	if f.cut.Given() && f.ring.Panels.Given() && c.N != f.skirt.Panels && c.N != 1 {
		w.faults.Errorf(f.cut.At, "leave cut: out: the panels are counted", "%q is cut %d times, but its ring has %d panels", p.Name, c.N, f.skirt.Panels)
	}
	p.Count = f.skirt.Panels
}

// findFold finds the edge on the fold and faults a fold that goes with no cut.
func (w *work) findFold(p *Piece) {
	f := &p.form
	f.fold = p.Outline.FoldEdge()
	switch {
	case p.OnFold && f.fold < 0:
		if p.Record.Outline == nil { // for a drawn outline the reader says it
			w.faults.Errorf(f.cut.At, "add fold: true to the edge that lies on the fold", "%q is cut on fold but no edge is its fold", p.Name)
		}
		p.OnFold = false
	case !p.OnFold && f.fold >= 0:
		// A piece that is cut as the one it is like has been told there.
		if !p.Record.Like.Given() || p.Record.Cut.Given() {
			w.faults.Warnf(f.notes[f.fold].at, "write cut: 1 on fold", "%s.%s lies on a fold, but %q is not cut on fold", p.Name, f.notes[f.fold].name, p.Name)
		}
		f.fold = -1
	}
}

// edge fills in what is known of an edge before its seams are looked at.
func (w *work) edge(p *Piece, e *PieceEdge, s shape.Side, slugs *names) {
	f := &p.form
	e.piece, e.note = p, &f.notes[s.First]
	e.Name, e.Index, e.Fold, e.Level = s.Name, s.First, s.Fold, e.note.level.V
	e.ref = w.join(p.Name, ".", s.Name)
	e.base = w.join("piece.", f.anchor, ".edge.", slugs.unique(s.Name))
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

const (
	straightRule = "straight edge: √((x₂ − x₁)² + (y₂ − y₁)²)"
	partsRule    = "the lengths of the edge's parts, curves followed to a hundredth of a millimetre"
	curveRule    = "curve: the length of the cubic through its control points, ∫|B′(t)| dt, to a hundredth of a millimetre"
	arcRule      = "arc: radius × angle"
)

// edgeLength works out the length along the sewing line (figure 4).
func (w *work) edgeLength(p *Piece, e *PieceEdge, s shape.Side) {
	a, b := p.Outline.Start(s.First), p.Outline.Edges[s.First]
	rule := straightRule
	switch {
	case s.Count > 1:
		rule = partsRule
		w.i(s.Count).s(" parts = ").mm(s.Length)
	case b.Curved:
		rule = curveRule
		w.s("∫|B′(t)| dt = ").mm(s.Length)
	default:
		w.s("√((").n(b.To.X).less(a.X).s(")² + (").n(b.To.Y).less(a.Y).s(")²) = ").mm(s.Length)
	}
	sum := w.end()
	end := p.Outline.Edges[(s.First+s.Count-1)%len(p.Outline.Edges)].To
	w.note(Input{Name: "from", Value: w.place(a), At: e.note.at})
	w.note(Input{Name: "to", Value: w.place(end), At: e.note.to})
	for _, a := range e.note.altered {
		w.note(Input{Name: a.name(), Value: a.words(), At: a.change.At})
	}
	w.s(sum)
	e.Length = w.figure(w.join(e.base, ".length"), "length of the edge", e.ref, inMM(s.Length), rule, derived)
}

func (w *work) place(p shape.Point) string {
	return w.s("(").n(p.X).s(", ").n(p.Y).s(")").end()
}

// sewnLength takes darts and pleats off an edge's length.
func (w *work) sewnLength(p *Piece, e *PieceEdge) {
	intake, at, any := w.intake(p, e)
	e.Sewn = e.Length
	if !any {
		return
	}
	text := w.s(" = ").mm(intake).end()
	w.intakeInputs(&p.form, e)
	w.s(text)
	e.Intake = w.figure(w.join(e.base, ".intake"), "taken in by darts and pleats", e.ref, inMM(intake),
		"widths of the darts + 2 × depth of each pleat", derived)
	e.sewn -= intake
	w.figureIn("length", &e.Length).figureIn("intake", &e.Intake)
	v := inMM(e.sewn)
	if e.sewn <= 0 {
		if p.own(len(p.Record.Darts)+len(p.Record.Pleats) > 0) {
			w.faults.Errorf(at, "take in less, or lengthen the edge", "darts and pleats take %s out of %s, which is only %s long",
				text1(intake), e.ref, text1(e.Length.Value.Number))
		}
		v, e.sewn = unknown("darts and pleats take in more than there is"), 0
	} else {
		w.n(e.Length.Value.Number).s(" − ").n(intake).s(" = ").mm(e.sewn)
	}
	e.Sewn = w.figure(w.join(e.base, ".sewn"), "sewn length of the edge", e.ref, v, "length − intake", derived)
}

// intake adds up what darts and pleats take in on an edge, writing the terms
// of the sum; at is where the last of them stands.
func (w *work) intake(p *Piece, e *PieceEdge) (sum float64, at record.Pos, any bool) {
	f := &p.form
	plus := func() {
		if any {
			w.s(" + ")
		}
		any = true
	}
	for i := range f.darts {
		if d := &f.darts[i]; f.is(e, d.Edge.V) {
			plus()
			w.n(d.Width.V.MM())
			sum, at = sum+d.Width.V.MM(), d.At
		}
	}
	for i := range f.pleats {
		if d := &f.pleats[i]; f.is(e, d.Edge.V) {
			n := max(d.Count.Or(1), 1)
			plus()
			w.i(n).s(" × 2 × ").n(d.Depth.V.MM())
			sum, at = sum+float64(n)*2*d.Depth.V.MM(), d.At
		}
	}
	return sum, at, any
}

// own reports whether what is wrong with a piece is to be told of it, and not
// of the piece it is like: it is drawn, or changed, or said so itself.
func (p *Piece) own(said bool) bool {
	return said || !p.Record.Like.Given() || len(p.Record.Change) > 0 || p.refitted
}

func (w *work) intakeInputs(f *form, e *PieceEdge) {
	for i := range f.darts {
		if d := &f.darts[i]; f.is(e, d.Edge.V) {
			w.lengthIn("width of the dart", d.Width)
		}
	}
	for i := range f.pleats {
		if d := &f.pleats[i]; f.is(e, d.Edge.V) {
			w.lengthIn("depth of the pleats", d.Depth)
		}
	}
}

// is reports whether a name means this edge.
func (f *form) is(e *PieceEdge, name string) bool {
	return name != "" && (name == e.Name || name == e.note.before)
}

// edgeCalled finds a piece's edge by its name or the one it had before.
func (p *Piece) edgeCalled(name string) *PieceEdge {
	for k := range p.Edges {
		if p.form.is(&p.Edges[k], name) {
			return &p.Edges[k]
		}
	}
	return nil
}

// text1 prints a length in a fault: to a tenth of a millimetre, always.
func text1(mm float64) string {
	text := appendNumber(nil, mm, 1)
	if n := len(text); n < 2 || text[n-2] != '.' {
		text = append(text, ".0"...)
	}
	return string(append(text, " mm"...))
}

// cutPieces gives every piece its cut outline and its own figures.
func (w *work) cutPieces() {
	for _, p := range w.g.Pieces {
		w.cutOut(p)
		w.pieceFigures(p)
		w.extraFigures(p)
		w.widths(p)
	}
}

const (
	areaRule  = "area within the sewing line, by Green's theorem: ½∮(x dy − y dx)"
	twiceRule = "twice the half drawn, which is cut on the fold; area within the sewing line by Green's theorem: ½∮(x dy − y dx)"
)

// pieceFigures works out areas and extents (figure 2).
func (w *work) pieceFigures(p *Piece) {
	base := w.join("piece.", p.form.anchor)
	why := p.form.why
	rule, times := areaRule, 1.0
	if p.OnFold {
		rule, times = twiceRule, 2
	}
	area := times * p.Outline.Area()
	value := func(v Value) Value {
		if why != "" {
			return unknown(why)
		}
		return v
	}
	w.note(Input{Name: "outline", Value: w.i(len(p.Edges)).s(" edges").end(), At: p.Record.At})
	if p.OnFold {
		w.s("2 × ½∮(x dy − y dx) = 2 × ").n(area / 200).s(" = ").n(area / 100).s(" cm²")
	} else {
		w.s("½∮(x dy − y dx) = ").n(area / 100).s(" cm²")
	}
	p.Area = w.figure(w.join(base, ".area"), "area of one whole piece", p.Name, value(inCM2(area)), rule, derived)
	w.figureIn("area", &p.Area)
	allowance, cut := times*p.Cut.AllowanceArea, times*p.Cut.Area
	w.s("area between sewing line and cut outline = ").n(allowance / 100).s(" cm²")
	p.Allowance = w.figure(w.join(base, ".allowance"), "area of its allowances", p.Name, value(inCM2(allowance)),
		"each edge offset by its allowance, corners as they are turned; cut outline − sewing line", derived)
	w.figureIn("area", &p.Area).figureIn("allowances", &p.Allowance)
	w.n(area / 100).s(" + ").n(allowance / 100).s(" = ").n(cut / 100).s(" cm²")
	p.CutArea = w.figure(w.join(base, ".cut-area"), "area of one whole piece as cut", p.Name, value(inCM2(cut)), "area + allowances", derived)
	p.Share = w.share(w.join(base, ".share"), p.Name, &p.Allowance, &p.CutArea)
	w.extent(p, base, why)
}

// share is the allowances' part of what is cut.
func (w *work) share(id, name string, allowance, cut *Figure) Figure {
	w.figureIn("allowances", allowance).figureIn("as cut", cut)
	const title, rule = "share of the allowances", "allowances ÷ area as cut"
	if !cut.Value.Known() || !allowance.Value.Known() || cut.Value.Number <= 0 {
		return w.figure(id, title, name, unknown("the area as cut is not known"), rule, derived)
	}
	v := 100 * allowance.Value.Number / cut.Value.Number
	w.n4(allowance.Value.Number).s(" ÷ ").n4(cut.Value.Number).s(" = ").n(v).s(" %")
	return w.figure(id, title, name, valueIn(v, measure.UnitPercent), rule, derived)
}

func (w *work) extent(p *Piece, base, why string) {
	if why == "" && len(p.CutWhole) == 0 {
		why = "the half meets its fold more than once"
	}
	least, most := p.CutWhole.Bounds()
	p.Width = w.span(p, w.join(base, ".width"), "width across the grain, as cut", "greatest x − least x of the cut outline", least.X, most.X, why)
	p.Height = w.span(p, w.join(base, ".height"), "height along the grain, as cut", "greatest y − least y of the cut outline", least.Y, most.Y, why)
}

func (w *work) span(p *Piece, id, title, rule string, least, most float64, why string) Figure {
	w.figureIn("area as cut", &p.CutArea)
	v := inMM(most - least)
	if why != "" {
		v = unknown(why)
	}
	w.n(most).less(least).s(" = ").mm(most - least)
	return w.figure(id, title, p.Name, v, rule, derived)
}
