package garment

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"unicode"
	"unicode/utf8"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/meant"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/sewn"
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

// edgeLevels are the levels that edges are called after (terms of the trade). An
// edge called neck or shoulder is a neckline or a seam and lies at no such level.
var edgeLevels = []string{
	"chest", "bust", "underbust", "waist", "high hip", "hip", "seat", "hem",
	"upper arm", "biceps", "elbow", "wrist", "sleeve hem", "thigh", "knee", "calf", "ankle", "leg hem",
}

// noLevel is written as the level of an edge that lies at none.
const noLevel = "none"

// nameLevels lets edges that are called as a level lie at it, where nothing else is
// said of them, they are sewn and the piece does not mark that level elsewhere.
func (f *form) nameLevels() {
	for i := range f.notes {
		n := &f.notes[i]
		if n.level.V == noLevel {
			n.level, n.noLevel = record.Text{}, true
		}
		if n.called { // of the piece it is like, where it may have had another name
			n.level, n.called = record.Text{}, false
		}
		name := words.Plain(n.name)
		if n.level.Given() || n.noLevel || f.outline.Edges[i].Fold || !slices.Contains(edgeLevels, name) || f.isLevel(name) {
			continue
		}
		n.level, n.called = record.Text{V: name, At: n.at}, true
	}
}

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
func (w *derivation) widths(p *Piece) {
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
			t = w.Unknown(say.Of("garment.its-height-could-not-be-read"))
		default:
			t = w.widthAt(p, name, y)
		}
		p.AtLevels = append(p.AtLevels, LevelWidth{name, p.heightOf(name, y.V.MM()), w.Figure(id, say.Of("garment.width-of-one-whole-piece"), of, t, mm, widthRule, figure.Derived)})
	}
}

var widthRule = say.Of("garment.parts-of-the-level-line-inside-the")

func (p *Piece) levelSlugs() *words.Names {
	if p.form.levelNames == nil {
		p.form.levelNames = words.NamesFor(len(p.form.levels))
	}
	return p.form.levelNames
}

// widthAt is the sewn width of one whole piece at a level.
func (w *derivation) widthAt(p *Piece, level string, y record.Length) figure.Term {
	if f := p.form.fold; p.OnFold && math.Abs(p.Outline.Start(f).X-p.Outline.Edges[f].To.X) > 1e-6 {
		return w.Unknown(say.Of("garment.the-fold-does-not-run-straight-up"))
	}
	chords := slices.DeleteFunc(w.g.Sewn.Across(p.Name, level), func(ch sewn.Chord) bool { return ch.Edge != "" })
	if len(chords) == 0 {
		if p.own(len(p.Record.Levels) > 0) && len(p.Outline.WidthsAt(y.V.MM())) == 0 {
			w.faults.Wrong(y.At, say.Of("garment.a-level-is-a-height-of-the"), say.Of("garment.has-no-width-at-a-height-of", say.Quoted(p.Name), w.tape().Exact(y.V.MM())))
		}
		return w.Unknown(say.Of("garment.the-outline-does-not-reach-that-height"))
	}
	var t figure.Term
	for i := range chords {
		t = t.Plus(w.chordTerm(&chords[i]))
	}
	if p.OnFold {
		t = w.Number(2).Times(t)
	}
	return t
}

// heightOf is where a level lies on the outline now: at the corner it belonged
// to when it was drawn, else at the height written.
func (p *Piece) heightOf(level string, y float64) float64 {
	if corners := p.form.corners[level]; len(corners) > 0 {
		if e := p.edgeCalled(corners[0]); e != nil {
			return p.Outline.Start(e.Index).Y
		}
	}
	return y
}

// levels works out every finished dimension (figure 6) and the reserve for
// letting it out (figure 7).
func (w *levelReckoner) levels() {
	list := w.levelNames()
	room := make([]Level, len(list))
	slugs := words.NamesFor(len(list))
	for i, name := range list {
		l := &room[i]
		l.Name, l.Title, l.Slug = name, title(name), slugs.Unique(name)
		base := w.Join("level.", l.Slug)
		w.finished(l, base)
		w.stretched(l, base)
		w.g.Levels = append(w.g.Levels, l)
		w.outs.letOut(l, base)
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
func (w *levelReckoner) levelNames() []string {
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
	w.checkMarks()
	either := sideless(list)
	w.checkLevels(append(slices.Clone(list), either...))
	for i := range w.b.Levels {
		if name := w.b.Levels[i].Name.V; !slices.Contains(either, name) {
			add(name)
		}
	}
	for i := range w.b.Measured {
		if name := w.b.Measured[i].Name.V; !w.hasLength(name) && !slices.Contains(either, name) {
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

func (w *levelReckoner) hasLength(name string) bool {
	return slices.ContainsFunc(w.b.Lengths, func(l record.LengthLine) bool { return l.Name.V == name })
}

// checkLevels warns of names that stand for no level of the garment: slips of
// the pen would otherwise be levels of their own.
func (w *levelReckoner) checkLevels(marked []string) {
	known := slices.Clone(marked)
	for i := range w.b.Levels {
		l := &w.b.Levels[i]
		if !l.V.Width.Given() && !slices.Contains(marked, l.Name.V) {
			w.faults.LookAgain(l.Name.At, meant.Or(l.Name.V, marked, say.Of("garment.mark-it-on-an-outline-or-write")), say.Of("garment.no-piece-says-where-is-and-it", say.Quoted(l.Name.V))).Instead(l.Name.V, meant.Nearest(l.Name.V, marked))
			continue
		}
		known = append(known, l.Name.V)
	}
	measured := slices.Clone(w.b.Measured)
	for i := range w.b.Later {
		measured = append(measured, w.b.Later[i].Measured...)
	}
	for i := range measured {
		name := measured[i].Name
		if w.hasLength(name.V) || slices.Contains(known, name.V) {
			continue
		}
		w.faults.LookAgain(name.At, meant.Or(name.V, known, say.Of("garment.write-it-under-levels-or-lengths")),
			say.Of("garment.was-measured-but-nothing-says-what-was", name.V)).Instead(name.V, meant.Nearest(name.V, known))
	}
	for _, list := range [...]record.Dict[record.Length]{w.b.DraftedFor, w.b.Usual.LeastEase} {
		for i := range list {
			name := list[i].Name
			if _, ok := w.body[words.Plain(name.V)]; !ok && !slices.Contains(known, name.V) {
				w.faults.LookAgain(name.At, meant.Or(name.V, append(known, w.measurements...), ""), say.Of("garment.is-neither-a-level-of-this-garment", say.Quoted(name.V))).
					Instead(name.V, meant.Nearest(name.V, append(known, w.measurements...)))
			}
		}
	}
}

// finished adds up the sewn widths of the pieces that cross a level.
func (w *levelReckoner) finished(l *Level, base string) {
	spec, _ := record.AtLevel(w.b.Levels, l.Name)
	id, title := w.Join(base, ".finished"), say.Of("garment.finished-width")
	l.Girths = w.girths(l.Name)
	cross, why := w.crossings(l.Name, l.Girths)
	l.cross = cross
	if slices.ContainsFunc(cross, func(c crossing) bool { return c.piece.pleatsWrong }) {
		w.g.doubtful = append(w.g.doubtful, l.Name)
	}
	if len(cross) == 0 {
		why = w.undrawn(l.Name)
	}
	l.Limbs = limbsOf(l, w.g.Sewn)
	w.tellLevels(l)
	if len(cross) == 0 && why == "" {
		w.declared(l, &spec, id, title)
		return
	}
	laps, lapAt := w.lapsAt(l)
	t, rule := w.across(l, cross, laps)
	t, rule = w.laced(l, spec.Gap, base, t, rule)
	w.asCalled(cross)
	w.besides(l)
	if why == "" {
		why = w.girthUnsure(l)
	}
	switch {
	case why != "":
		t = t.Unless(why)
	case t.Known() && t.MM() <= 0:
		t = t.Unless(say.Of("garment.the-overlap-leaves-nothing"))
		w.faults.Wrong(lapAt, "", say.Of("garment.the-lap-is-longer-than-the", l.Name))
	}
	l.Finished = w.Figure(id, title, l.Name, t, mm, rule, figure.Derived)
	v, sum := l.Finished.Value, l.Finished.Value.Number
	if spec.Width.Given() && v.Known() && math.Abs(spec.Width.V.MM()-sum) > w.within.V {
		w.faults.LookAgain(spec.Width.At, say.Of("garment.leave-it-out-the-outlines-tell-it"), say.Of("garment.you-wrote-the-outlines-make", l.Name, w.tape().Exact(spec.Width.V.MM()), w.tape().Tenth(sum))).
			Without(spec.Width.At)
	}
}

// asCalled notes of edges that lie at a level by their names alone that they do.
func (w *levelReckoner) asCalled(cross []crossing) {
	for i := range cross {
		if e := cross[i].edge; e != nil && e.note.called {
			w.Remark(figure.Default, w.Join("level of ", e.ref), say.Of("garment.as-the-edge-is-called"), fault.Pos{}, "default")
		}
	}
}

// besides notes the edges at a level that lie on those that are counted: of two lines
// that are sewn to each other the shorter counts.
func (w *girthWalk) besides(l *Level) {
	counted := func(e *PieceEdge) bool {
		return slices.ContainsFunc(l.cross, func(c crossing) bool { return c.edge == e })
	}
	for _, p := range w.g.Pieces {
		for k := range p.Edges {
			e := &p.Edges[k]
			if e.Level != l.Name || e.seam == nil || counted(e) || !e.Sewn.Value.Known() {
				continue
			}
			if slices.ContainsFunc(e.opposite(), func(u EdgeUse) bool { return counted(u.Edge) }) {
				w.Note(w.Of(e.ref, &e.Sewn))
			}
		}
	}
}

// across adds up the widths of the pieces at a level.
func (w *levelReckoner) across(l *Level, cross []crossing, laps []figure.Term) (t figure.Term, rule string) {
	rule = say.Of("garment.sewn-width-times-times-cut")
	if drawn, rest := w.drawnUp(cross); len(drawn) > 0 {
		if len(rest) > 0 {
			drawn = append(drawn, w.crossed(rest))
		}
		t, rule = w.Sum(drawn...), say.Of("garment.sewn-width-times-times-cut-what-is")
	} else {
		t = w.crossed(cross)
	}
	for _, lap := range laps {
		t = t.Minus(lap)
	}
	if len(laps) > 0 {
		rule += say.Of("garment.overlap")
	}
	if slices.ContainsFunc(cross, func(c crossing) bool { return c.drawn() != nil }) {
		l.Drawn, rule = true, say.Of("garment.each-times-what-elastic-or-ribbing", rule)
	}
	if l.Limbs > 1 {
		t, rule = t.Part(float64(l.Limbs)), say.Of("garment.by-there-are-of-them", rule, strconv.Itoa(l.Limbs), countWord(l.Limbs))
	}
	return t, rule
}

func countWord(n int) string {
	if n == 2 {
		return "two"
	}
	return strconv.Itoa(n)
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
func (w *levelReckoner) declared(l *Level, spec *record.LevelSpec, id, title string) {
	if spec.Gap.Given() {
		w.faults.Wrong(spec.Gap.At, say.Of("garment.mark-the-level-on-what-is-laced"), say.Of("garment.no-outline-marks-so-its-gap-is-not-known", l.Name)).Without(spec.Gap.At)
	}
	if !spec.Width.Given() {
		l.Finished = w.Figure(id, title, l.Name, w.Unknown(say.Of("garment.no-outline-marks-this-level-and-no")), mm, say.Of("garment.sewn-width-times-times-cut"), figure.Derived)
		return
	}
	t, rule := w.Length(say.Of("garment.width-as-written"), spec.Width), say.Of("garment.as-the-record-says-for-no-outline")
	l.Finished = w.Figure(id, title, l.Name, t, mm, rule, figure.Recorded)
}
