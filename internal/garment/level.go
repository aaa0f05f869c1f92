package garment

import (
	"cmp"
	"math"
	"slices"
	"unicode"
	"unicode/utf8"

	"hembook/internal/figure"
	"hembook/internal/meant"
	"hembook/internal/record"
	"hembook/internal/shape"
	"hembook/internal/words"
)

// bodyOrder is how levels are listed: from the top of the body down, then the
// limbs.
var bodyOrder = []string{
	"head", "neck", "shoulder", "across back", "chest", "bust", "underbust", "waist", "high hip", "hip", "seat",
	"hem", "upper arm", "elbow", "wrist", "sleeve hem", "thigh", "knee", "calf", "ankle", "leg hem",
}

// limbs are levels that go round one of two limbs.
var limbs = []string{"upper arm", "biceps", "elbow", "wrist", "sleeve hem", "cuff", "thigh", "knee", "calf", "ankle", "leg hem"}

// A crossing is a piece's share of a level.
type crossing struct {
	piece *Piece
	edge  *PieceEdge // where an edge lies at the level
	y     record.Length
	width float64 // of one whole piece, or of one occurrence of the edge
	times int
	fig   *figure.Figure
}

// widths works out how wide a piece is at the heights its levels name.
func (w *work) widths(p *Piece) {
	f := &p.form
	for i := range f.levels {
		name, y := f.levels[i].Name.V, f.levels[i].V
		id := w.Join("piece.", f.anchor, ".level.", p.levelSlugs().Unique(name))
		of := w.Join(p.Name, " at ", name)
		w.Note(w.Length("height", y))
		w.drawnFrom(p)
		t := w.Unknown(f.why)
		switch {
		case f.why != "":
		case !y.Given():
			t = w.Unknown("its height could not be read")
		default:
			t = w.widthAt(p, y)
		}
		p.AtLevels = append(p.AtLevels, LevelWidth{name, y.V.MM(), w.Figure(id, "width of one whole piece", of, t, mm, widthRule, figure.Derived)})
	}
}

const widthRule = "stretches of the level line inside the outline − what darts that cross it take in, both halves where cut on fold"

func (p *Piece) levelSlugs() *words.Names {
	if p.form.levelNames == nil {
		p.form.levelNames = words.NamesFor(len(p.form.levels))
	}
	return p.form.levelNames
}

// widthAt is the sewn width of one whole piece at a height.
func (w *work) widthAt(p *Piece, y record.Length) figure.Term {
	if f := p.form.fold; p.OnFold && math.Abs(p.Outline.Start(f).X-p.Outline.Edges[f].To.X) > 1e-6 {
		return w.Unknown("the fold does not run straight up the outline")
	}
	spans := p.Outline.WidthsAt(y.V.MM())
	if len(spans) == 0 {
		if p.own(len(p.Record.Levels) > 0) {
			w.faults.Errorf(y.At, "a level is a height of the outline: its y", "%q has no width at a height of %s", p.Name, words.MM(y.V.MM()))
		}
		return w.Unknown("the outline does not reach that height")
	}
	if edge, met := p.sideDart(y.V.MM()); met {
		return w.Unknown(w.Join("the dart on ", edge, " opens here from the side, and how wide the piece is once it is sewn is not worked out yet: measure the paper with the dart closed"))
	}
	var t figure.Term
	for _, s := range spans {
		t = t.Plus(w.Constant(s.To, mm).Minus(w.Constant(s.From, mm)))
	}
	for i := range p.Darts {
		if taken := dartAt(&p.Darts[i].Plan, y.V.MM()); taken > 0 {
			t = t.Minus(w.Found("dart", taken, mm))
		}
	}
	if p.OnFold {
		t = w.Number(2).Times(t)
	}
	return t
}

// dartAt is what a dart takes out of a level line that crosses it.
func dartAt(d *shape.DartPlan, y float64) float64 {
	corners := [3]shape.Point{d.Begin, d.End, d.Point}
	least, most, hits := math.Inf(1), math.Inf(-1), 0
	for i, a := range corners {
		b := corners[(i+1)%3]
		if (a.Y <= y) == (b.Y <= y) {
			continue
		}
		x := a.X + (y-a.Y)/(b.Y-a.Y)*(b.X-a.X)
		least, most, hits = min(least, x), max(most, x), hits+1
	}
	if hits < 2 {
		return 0
	}
	return most - least
}

// levels works out every finished dimension (figure 6) and the reserve for
// letting it out (figure 7).
func (w *work) levels() {
	list := w.levelNames()
	room := make([]Level, len(list))
	slugs := words.NamesFor(len(list))
	for i, name := range list {
		l := &room[i]
		l.Name, l.Title, l.Slug = name, title(name), slugs.Unique(name)
		base := w.Join("level.", l.Slug)
		w.finished(l, base)
		w.g.Levels = append(w.g.Levels, l)
		w.letOut(l, base)
	}
}

func title(name string) string {
	first, size := utf8.DecodeRuneInString(name)
	if size == 0 || first == utf8.RuneError {
		return name
	}
	return string(unicode.ToUpper(first)) + name[size:]
}

// levelNames lists the levels anything is known of, from the top down.
func (w *work) levelNames() []string {
	var list []string
	add := func(name string) {
		if name != "" && !slices.Contains(list, name) {
			list = append(list, name)
		}
	}
	for _, p := range w.g.Pieces {
		for k := range p.Edges {
			add(p.Edges[k].Level)
		}
		for i := range p.form.levels {
			add(p.form.levels[i].Name.V)
		}
	}
	w.checkLevels(list)
	for i := range w.b.Levels {
		add(w.b.Levels[i].Name.V)
	}
	for i := range w.b.Measured {
		if name := w.b.Measured[i].Name.V; !w.hasLength(name) {
			add(name)
		}
	}
	rank := func(name string) int {
		if i := slices.Index(bodyOrder, words.Plain(name)); i >= 0 {
			return i
		}
		return len(bodyOrder)
	}
	slices.SortStableFunc(list, func(a, b string) int { return cmp.Compare(rank(a), rank(b)) })
	return list
}

func (w *work) hasLength(name string) bool {
	return slices.ContainsFunc(w.b.Lengths, func(l record.LengthLine) bool { return l.Name.V == name })
}

// checkLevels warns of names that stand for no level of the garment: slips of
// the pen would otherwise be levels of their own.
func (w *work) checkLevels(marked []string) {
	known := slices.Clone(marked)
	for i := range w.b.Levels {
		l := &w.b.Levels[i]
		if !l.V.Width.Given() && !slices.Contains(marked, l.Name.V) {
			w.faults.Warnf(l.Name.At, meant.Or(l.Name.V, marked, "mark it on an outline, or write its width:"), "no outline marks the level %q and it has no width", l.Name.V)
			continue
		}
		known = append(known, l.Name.V)
	}
	for i := range w.b.Measured {
		name := w.b.Measured[i].Name
		if w.hasLength(name.V) || slices.Contains(known, name.V) {
			continue
		}
		w.faults.Warnf(name.At, meant.Or(name.V, known, "mark the level on an outline, or declare it under levels: or lengths:"),
			"%q was measured, but no outline marks it and nothing declares it", name.V)
	}
	for _, list := range [...]record.Dict[record.Length]{w.b.DraftedFor, w.b.Usual.LeastEase} {
		for i := range list {
			name := list[i].Name
			if _, ok := w.t.body[words.Plain(name.V)]; !ok && !slices.Contains(known, name.V) {
				w.faults.Warnf(name.At, meant.Or(name.V, append(known, w.t.measurements...), ""), "%q is neither a level of this build nor a body measurement", name.V)
			}
		}
	}
}

// finished adds up the sewn widths of the pieces that cross a level.
func (w *work) finished(l *Level, base string) {
	spec, _ := w.b.Levels.Get(l.Name)
	id, title := w.Join(base, ".finished"), "finished width"
	cross, why := w.crossings(l.Name)
	l.cross = cross
	if len(cross) == 0 && why == "" {
		w.declared(l, &spec, id, title)
		return
	}
	t, rule := w.across(l, cross, spec.Overlap)
	if why == "" {
		why = w.widthUnsure(l)
	}
	switch {
	case why != "":
		t = t.Unless(why)
	case t.Known() && t.MM() <= 0:
		t = t.Unless("the overlap leaves nothing")
		w.faults.Errorf(spec.Overlap.At, "", "the overlap at %q is more than there is", l.Name)
	}
	l.Finished = w.Figure(id, title, l.Name, t, mm, rule, figure.Derived)
	v, sum := l.Finished.Value, l.Finished.Value.Number
	if spec.Width.Given() && v.Known() && math.Abs(spec.Width.V.MM()-sum) > w.t.usual.within.V {
		w.faults.Warnf(spec.Width.At, "leave it out: the outlines tell it", "%q is declared to be %s wide, but the outlines make %s", l.Name, words.MM(spec.Width.V.MM()), words.Tenth(sum))
	}
}

// across adds up the widths of the pieces at a level.
func (w *work) across(l *Level, cross []crossing, overlap record.Length) (t figure.Term, rule string) {
	t, rule = w.crossed(cross), "Σ sewn width × times cut"
	if overlap.Given() {
		t, rule = t.Minus(w.Length("overlap", overlap)), "Σ sewn width × times cut − overlap"
	}
	if slices.Contains(limbs, words.Plain(l.Name)) && evenly(cross) {
		t, rule = t.Part(2), rule+", ÷ 2: there are two of them"
	}
	return t, rule
}

func evenly(cross []crossing) bool {
	for i := range cross {
		if cross[i].times%2 != 0 {
			return false
		}
	}
	return true
}

// declared takes a width from the record where no outline marks the level.
func (w *work) declared(l *Level, spec *record.LevelSpec, id, title string) {
	if !spec.Width.Given() {
		l.Finished = w.Figure(id, title, l.Name, w.Unknown("no outline marks this level and the record declares no width for it"), mm, "Σ sewn width × times cut", figure.Derived)
		return
	}
	t, rule := w.Length("declared width", spec.Width), "as the record declares it, for no outline marks this level"
	if spec.Overlap.Given() {
		t, rule = t.Minus(w.Length("overlap", spec.Overlap)), rule+"; less the overlap"
	}
	l.Finished = w.Figure(id, title, l.Name, t, mm, rule, figure.Recorded)
}

// crossings finds the pieces that cross a level: those of the first cloth that
// has any, so that a lining is not added to its shell. Of two edges joined to
// each other at the level only the first counts.
func (w *work) crossings(level string) ([]crossing, string) {
	for _, part := range w.mainParts() {
		var out []crossing
		why := ""
		for _, p := range w.g.Pieces {
			if part != "" && !cutIn(p, part) {
				continue
			}
			out, why = w.crossing(out, p, level, why)
		}
		if len(out) > 0 || why != "" {
			return out, why
		}
	}
	return nil, ""
}

// mainParts lists the cloths a level may be counted over, the shell first.
func (w *work) mainParts() []string {
	parts := make([]string, 0, len(w.b.Cloth)+1)
	for _, shell := range [2]bool{true, false} {
		for i := range w.b.Cloth {
			if name := w.b.Cloth[i].Name.V; sewnApart(name) && (name == "shell") == shell {
				parts = append(parts, name)
			}
		}
	}
	if len(parts) == 0 {
		parts = append(parts, "")
	}
	return parts
}

func (w *work) crossing(out []crossing, p *Piece, level, why string) ([]crossing, string) {
	marked := false
	for k := range p.Edges {
		e := &p.Edges[k]
		if e.Level != level {
			continue
		}
		marked = true
		if e.secondAt(level) || e.Times == 0 {
			continue
		}
		if !e.Sewn.Value.Known() {
			why = "the length of " + e.ref + " is not known"
		}
		out = append(out, crossing{piece: p, edge: e, width: e.sewn, times: e.Times, fig: &e.Sewn})
	}
	if marked {
		return out, why
	}
	for i := range p.AtLevels {
		a := &p.AtLevels[i]
		if a.Level != level {
			continue
		}
		if !a.Width.Value.Known() {
			why = "the width of " + a.Width.Of + " is not known: " + a.Width.Value.Why
		}
		out = append(out, crossing{piece: p, y: p.form.levels[i].V, width: a.Width.Value.Number, times: p.Count, fig: &a.Width})
	}
	return out, why
}

// secondAt reports whether the edge is the second side of a seam whose first
// side lies at the same level.
func (e *PieceEdge) secondAt(level string) bool {
	if e.seam == nil || e.side != 1 || e.seam.broken {
		return false
	}
	for _, u := range e.seam.Sides[0].Edges {
		if u.Edge.Level == level {
			return true
		}
	}
	return false
}
