package garment

import (
	"math"
	"slices"

	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// Turn of cloth: what is rolled over together with what lies under it needs more than that,
// for it lies farther out. Outlines are never changed for it; what is short is told.

// A Rolled is a piece that is rolled over together with what lies under it.
type Rolled struct {
	Piece *Piece
	Under *Piece         // what lies under it; nil where that is its own inner ply
	Angle float64        // how far it is rolled over, degrees
	Apart figure.Figure  // from the middle of its outer ply to the middle of the inner one
	Needs figure.Figure  // how much more the outer ply needs over the roll
	Has   figure.Figure  // how much more it has; not known where nothing tells where to measure
	Line  [2]shape.Point // from where to where it is measured on the piece; both the same where it is not
}

// UnderName is what lies under a piece that is rolled over.
func (r *Rolled) UnderName() string {
	if r.Under == nil {
		return say.Of("garment.its-inner-ply")
	}
	return r.Under.Name
}

// A roller works out turn of cloth, and tells where a piece has too little or too much of it.
type roller struct {
	*index
}

// By how much the outer ply may have less than it needs, and more, mm (common practice, no
// source: what is cut with shears is cut no more exactly, and what is over by more stands off).
const (
	rollShort = 1
	rollOver  = 3
)

var (
	apartRule  = say.Of("garment.half-the-outer-cloth-all-that-lies")
	needsRule  = say.Of("garment.angle-as-part-of-a-half-turn")
	hasRule    = say.Of("garment.length-across-the-roll-that-of-what")
	samePly    = say.Of("garment.both-plies-are-cut-to-one-outline")
	foundTwice = say.Of("garment.as-rolling-two-samples-showed")
)

// rollSource is where the arc of a rolled ply is from.
const rollSource = figure.Derived

func (w *roller) reckon() {
	for _, p := range w.g.Pieces {
		if t := p.Record.Turn; t != nil && t.Angle.Given() && p.form.why == "" {
			w.roll(p, t)
		}
	}
}

// roll works out what one piece needs, and tells of what it lacks.
func (w *roller) roll(p *Piece, t *record.TurnSpec) {
	under, ok := w.under(p, t)
	if !ok {
		return
	}
	r := &Rolled{Piece: p, Under: under, Angle: t.Angle.V}
	base := w.Join("piece.", p.form.anchor, ".turn-of-cloth")
	r.Apart = w.Figure(w.Join(base, ".apart"), say.Of("garment.between-the-middles-of-the-two-cloths"), p.Name, w.apart(p, under), mm, apartRule, figure.Derived)
	w.needs(r, t, base)
	w.has(r, t, base)
	p.Rolled = r
	w.judge(r, t)
}

// under is what lies under a piece: nil for its own inner ply. ok is false where nothing is
// known to, which is told.
func (w *roller) under(p *Piece, t *record.TurnSpec) (under *Piece, ok bool) {
	if t.Over.Given() {
		q := w.named[t.Over.V]
		return q, q != nil && q.form.why == "" // one that is not there was told
	}
	if p.Doubled() || p.foldedOver() {
		return nil, true
	}
	for _, s := range w.g.Seams {
		if s.kind == nil || !s.kind.Turns || !s.joins(p) {
			continue
		}
		for u := range s.all() {
			if u.Piece != p && (alike(u.Piece, p) || u.Edge.Name == w.edgeIn(s, p)) {
				return u.Piece, true
			}
		}
	}
	w.faults.Wrong(t.At, say.Of("garment.say-over-and-the-name-of-the"), say.Of("garment.nothing-tells-what-lies-under-where-it", p.Name))
	return nil, false
}

// rollsOver reports whether the longer side of a seam is that of a piece that is rolled over
// the other one, which needs so much more.
func (s *Seam) rollsOver(a, b float64) bool {
	long, short := s.Sides[0].Edges, s.Sides[1].Edges
	if b > a {
		long, short = short, long
	}
	if len(long) != 1 || len(short) != 1 || long[0].Piece == short[0].Piece || !alike(long[0].Piece, short[0].Piece) {
		return false
	}
	t := long[0].Piece.Record.Turn
	return t != nil && t.Angle.Given()
}

// edgeIn is the name of the first edge of a piece in a seam.
func (w *roller) edgeIn(s *Seam, p *Piece) string {
	for u := range s.all() {
		if u.Piece == p {
			return u.Edge.Name
		}
	}
	return ""
}

// apart is how far the middle of the outer cloth lies from that of the inner one.
func (w *roller) apart(p, under *Piece) figure.Term {
	outer, between := w.cloths(p)
	inner := outer
	if under != nil {
		var more []string
		inner, more = w.cloths(under)
		between = append(between, more...)
	}
	terms := []figure.Term{w.thick(outer).Part(2)}
	for _, part := range between {
		terms = append(terms, w.thick(part))
	}
	return w.Sum(append(terms, w.thick(inner).Part(2))...)
}

// cloths are the outermost cloth of a piece, and what lies behind it: its plies that are not
// sewn by themselves, and whole pieces of such cloth that are cut like it.
func (w *roller) cloths(p *Piece) (outer string, behind []string) {
	for _, part := range p.Of {
		switch {
		case outer == "":
			outer = part
		case !sewnApart(part):
			behind = append(behind, part)
		}
	}
	for _, q := range w.g.Pieces {
		backs := q.brought == p.Name || q.Record.Like.V == p.Name && q.Record.Border == nil
		if backs && q != p && len(q.Of) > 0 && !slices.ContainsFunc(q.Of, sewnApart) {
			behind = append(behind, q.Of...)
		}
	}
	return outer, behind
}

// thick is the thickness of the cloth of a part.
func (w *roller) thick(part string) figure.Term { return w.g.thickOf(w.Pad, part) }

// needs works out how much more the outer ply needs.
func (w *roller) needs(r *Rolled, t *record.TurnSpec, base string) {
	id, title := w.Join(base, ".needs"), say.Of("garment.more-the-outer-ply-needs-over-the")
	if t.More.Given() {
		r.Needs = w.Figure(id, title, r.Piece.Name, w.Length("more", t.More), mm, foundTwice, figure.Recorded)
		return
	}
	arc := w.Written("angle", t.Angle.V, measure.UnitDegree, t.Angle.At).Over(w.Constant(180, measure.UnitDegree)).Times(w.Pi())
	r.Needs = w.Figure(id, title, r.Piece.Name, arc.Times(w.Of(say.Of("garment.between-the-middles"), &r.Apart)), mm, needsRule, rollSource)
}

// has works out how much longer the piece is over the roll than what lies under it.
func (w *roller) has(r *Rolled, t *record.TurnSpec, base string) {
	id, title := w.Join(base, ".has"), say.Of("garment.more-the-outer-ply-has-over-the")
	if r.Under == nil {
		w.Remark(figure.Written, "plies", figure.AsItStands, r.Piece.Record.At, "")
		r.Has = w.Figure(id, title, r.Piece.Name, w.Constant(0, mm), mm, samePly, figure.Derived)
		return
	}
	a, okA := w.across(r.Piece, t)
	b, okB := w.across(r.Under, t)
	if !okA || !okB {
		name := r.Piece.Name
		if okA {
			name = r.Under.Name
		}
		why := say.Of("garment.nothing-tells-where-is-measured-over", name)
		r.Has = w.Figure(id, title, r.Piece.Name, w.Unknown(why), mm, hasRule, figure.Derived)
		if okA || !t.Across.Given() { // what is wrong on the piece itself is told where it stands
			w.faults.LookAgain(t.At, say.Of("garment.say-from-where-to-where-as-across"), why)
		}
		return
	}
	r.Line = a
	w.drawnFrom(r.Piece)
	w.drawnFrom(r.Under)
	term := w.Apart(a[0].X, a[0].Y, a[1].X, a[1].Y).Minus(w.Apart(b[0].X, b[0].Y, b[1].X, b[1].Y))
	r.Has = w.Figure(id, title, r.Piece.Name, term, mm, hasRule, figure.Derived)
}

// across is from where to where a piece is measured over its roll: as is written, else along
// its edge on the fold.
func (w *roller) across(p *Piece, t *record.TurnSpec) (line [2]shape.Point, ok bool) {
	if !t.Across.Given() {
		i := p.Outline.FoldEdge()
		if i < 0 {
			return line, false
		}
		return [2]shape.Point{p.Outline.Start(i), p.Outline.Edges[i].To}, true
	}
	for k, end := range t.Across.V {
		if line[k], ok = w.spotOf(p, end, t); !ok {
			return line, false
		}
	}
	return line, true
}

// spotOf is where on the outline of a piece a place on one of its edges lies.
func (w *roller) spotOf(p *Piece, end record.Spot, t *record.TurnSpec) (at shape.Point, ok bool) {
	along := record.Length{V: end.Where.By, At: t.Across.At}
	if !end.Where.Plain() {
		along = w.alongIn(p, &p.form, end.Edge, record.Where{V: end.Where, At: t.Across.At}, true)
	}
	edge := p.form.called(end.Edge)
	if length, there := p.Outline.LengthOf(edge); !there || !along.Given() || along.V.MM() > length+touches {
		return at, false
	}
	at, _, ok = p.Outline.PointOn(edge, p.form.inner(p.Outline, edge, along.V.MM()))
	return at, ok
}

// judge holds what a piece has against what it needs.
func (w *roller) judge(r *Rolled, t *record.TurnSpec) {
	c := Check{Kind: say.Of("garment.turn-of-cloth"), What: say.Of("garment.over", r.Piece.Name, r.UnderName()), At: t.At}
	c.Off = r.Has
	switch needs := r.Needs.Value; {
	case !needs.Known():
		w.faults.LookAgain(t.At, say.Of("garment.say-thick-in-the-file-of-each"), say.Of("garment.what-it-needs-for-its-turn-of", r.Piece.Name, needs.Why))
	case r.Has.Value.Known():
		least, most := needs.Number-rollShort, needs.Number+rollOver
		c.Judged, c.Good = true, r.Has.Value.Number >= least-1e-6 && r.Has.Value.Number <= most+1e-6
		c.Limit = say.With("garment.to", w.tape().Number(math.Max(least, 0)), w.tape().Exact(most))
		if c.Mend = w.mend(r, t); !c.Good {
			w.faults.LookAgain(t.At, c.Mend, say.Of("garment.rolled-over-by-it-needs-more", r.Piece.Name, w.beside(r), degrees(r.Angle), w.tape().Exact(tenth(needs.Number))))
		}
	}
	w.g.hold(c)
}

// tenth rounds to a tenth of a millimetre.
func tenth(mm float64) float64 { return math.Round(mm*10) / 10 }

// beside says how large a piece is beside what lies under it.
func (w *roller) beside(r *Rolled) string {
	switch d := tenth(r.Has.Value.Number); {
	case r.Under == nil:
		return say.Of("garment.both-its-plies-are-cut-alike")
	case d == 0:
		return say.Of("garment.it-is-cut-as-large-as", r.Under.Name)
	case d < 0:
		return say.Of("garment.it-is-smaller-than", w.tape().Exact(-d), r.Under.Name)
	default:
		return say.Of("garment.it-is-larger-than", w.tape().Exact(d), r.Under.Name)
	}
}

// mend says what would give the outer ply what it needs.
func (w *roller) mend(r *Rolled, t *record.TurnSpec) string {
	by := tenth(r.Needs.Value.Number - r.Has.Value.Number)
	edge := say.Of("garment.outer-edge")
	if t.Across.Given() {
		edge = t.Across.V[1].Edge
	}
	switch {
	case r.Under == nil && r.Piece.foldedOver():
		return say.Of("garment.fold-it-off-its-middle-so-that", w.tape().Exact(tenth(by/2)))
	case r.Under == nil:
		return say.Of("garment.cut-the-inner-ply-as-a-piece")
	case by < 0:
		return say.Of("garment.take-off-it-at-its", w.tape().Exact(-by), edge)
	case r.Under.Record.Like.V == r.Piece.Name && t.Across.Given():
		return say.Of("garment.make-smaller-as-change", r.Under.Name, edge, w.written(-by))
	case r.Piece.Record.Like.V == r.Under.Name && t.Across.Given():
		return say.Of("garment.make-it-larger-as-change", edge, w.written(by))
	}
	return say.Of("garment.make-smaller-at-its", r.Under.Name, w.tape().Exact(by), edge)
}
