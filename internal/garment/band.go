package garment

import (
	"math"
	"slices"

	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/sewn"
	"hembook/internal/shape"
	"hembook/internal/words"
)

// A crossedAt is where a seam of what a band is sewn to meets it, mm along its edge as the
// outline runs.
type crossedAt struct {
	edge  string
	along float64
}

// band is the band that a piece is, or is like; nil of others.
func (p *Piece) band() *record.BandSpec { return p.form.band }

// foldedOver reports whether a piece is a band whose inside is cut in one with its
// outside.
func (p *Piece) foldedOver() bool { return p.band() != nil && p.band().Folded.V }

// isTop reports whether an edge is the far one of a band.
func (e *PieceEdge) isTop() bool { return e.piece.form.is(e, "top") }

// drawable parts pieces into those that can be drawn now, and bands and blocks that rest on
// what is not drawn yet; where no piece can, all are drawn as they are.
func (w *derivation) drawable(list []*Piece) (ready, later []*Piece) {
	waits := map[*Piece]bool{}
	for _, p := range list {
		if w.bandWaits(p) || w.blockWaits(p) {
			waits[p] = true
		}
	}
	if len(waits) == 0 || len(waits) == len(list) {
		return list, nil
	}
	for _, p := range list {
		if waits[p] {
			later = append(later, p)
		} else {
			ready = append(ready, p)
		}
	}
	return ready, later
}

// bandWaits reports whether a piece is, or is like, a band as long as what is not drawn yet.
func (w *derivation) bandWaits(p *Piece) bool {
	for n := 0; p != nil && n <= len(w.g.Pieces); n++ {
		if p.Record.Band != nil {
			return !p.Record.Band.Length.Given() && slices.ContainsFunc(w.b.BandAlong(p.Record), func(e record.EdgeRef) bool {
				of := w.named[e.Piece]
				return of != nil && of.form.state != done
			})
		}
		p = w.named[p.Record.Like.V]
	}
	return false
}

// drawBand draws a band as long as what it is sewn to.
func (w *derivation) drawBand(p *Piece) {
	r := p.Record.Band
	if !r.Width.Given() {
		p.form.why = say.Of("garment.its-width-could-not-be-read")
		return
	}
	long, why := w.bandLength(p)
	if why == "" && (!long.Known() || long.MM() <= 0) {
		why = say.Of("garment.what-it-is-sewn-to-is-not")
	}
	if why != "" {
		p.form.why = why
		return
	}
	w.oneForTwo(p)
	wide := r.Width.V.MM()
	if r.Folded.V {
		wide *= 2
	}
	o, err := shape.Rectangle(long.MM(), wide)
	w.regular(p, r.At, o, err)
	p.form.band = r
}

// oneForTwo warns of a cuff that is cut once and sewn to two limbs.
func (w *derivation) oneForTwo(p *Piece) {
	along := w.b.BandAlong(p.Record)
	if p.bandTimes() > 1 || p.Record.Band.Length.Given() || len(along) != 1 {
		return
	}
	u, ok := w.use(along[0])
	if ok && u.Times() == 2 && !u.Piece.OnFold && (words.AnyOf(p.Name, limbPieces) || words.AnyOf(u.Piece.Name, limbPieces)) {
		f := w.faults.LookAgain(p.Record.At, say.Of("garment.add-cut-2"), say.Of("garment.is-cut-once-and-sewn-to-which", p.Name, u.Edge.ref))
		if cut := p.Record.Cut; cut.Given() {
			f.At, f.Hint = cut.At, say.Of("garment.write-cut-2")
			f.Instead("", "2")
		} else {
			f.Set(p.Record.At, "", "cut: 2")
		}
	}
}

// bandTimes is how many of a band are cut in a cloth.
func (p *Piece) bandTimes() int { return max(p.Record.Cut.V.N, 1) }

// bandLength is how long a band is; why says why that is not known.
func (w *derivation) bandLength(p *Piece) (t figure.Term, why string) {
	r := p.Record.Band
	if r.Length.Given() {
		return w.Length("length", r.Length), ""
	}
	s, line := w.b.BandSeam(p.Record)
	if s == nil || len(s.Join[line]) > 1 {
		return t, say.Of("garment.its-length-does-not-follow") // told by the reader
	}
	var terms []figure.Term
	both := false // left and right of what it is sewn to, which then lie in all of the band
	for _, ref := range w.b.BandAlong(p.Record) {
		_, _, handed := record.Handed(ref.Piece)
		uses, _ := w.usesOf(ref)
		for _, u := range uses {
			both = both || u.Hand == "" && !handed
			terms = append(terms, w.sewn(u.Edge).By(float64(u.Times())))
		}
	}
	if len(terms) == 0 {
		w.bandCircle(p)
		return t, say.Of("garment.what-it-is-sewn-to-is-not-2")
	}
	t = w.Sum(terms...)
	if n := p.bandTimes(); n > 1 && both {
		t = t.Part(float64(n))
	}
	switch {
	case s.Gather.Given():
		t = t.Over(w.Written("gather", float64(s.Gather.V), measure.UnitCount, s.Gather.At))
	case s.Ease.Given():
		t = t.Minus(w.Length("ease", s.Ease))
	}
	if r.Share.Given() {
		t = t.Times(w.Written("share", float64(r.Share.V), measure.UnitRatio, r.Share.At))
	}
	if r.Lap.Given() {
		t = t.Plus(w.Length("lap", r.Lap))
	}
	return t, ""
}

// bandCircle tells of bands of which each is as long as another.
func (w *derivation) bandCircle(p *Piece) {
	for _, ref := range w.b.BandAlong(p.Record) {
		if of := w.named[ref.Piece]; of != nil && of.form.state != done && of.Record.Band != nil {
			w.faults.Wrong(p.Record.Band.At, say.Of("garment.write-length-of-one-of-them-as", w.written(p.Record.Band.Width.V.MM())),
				say.Of("garment.is-as-long-as-and-that-as", p.Name, of.Name))
			return
		}
	}
}

// bandFigures says how long a band is, and why.
func (w *derivation) bandFigures(p *Piece) {
	if p.form.why != "" {
		return
	}
	rule, source := say.Of("garment.sewn-length-times-times-of-what-it"), figure.Derived
	if p.Record.Band.Length.Given() {
		rule, source = say.Of("garment.as-the-record-says"), figure.Recorded
	}
	t, _ := w.bandLength(p)
	w.extra(p, "band-length", say.Of("garment.length-of-the-band"), t, mm, rule, source)
}

// findBand finds the band that a seam sews on by its bottom.
func (s *Seam) findBand() {
	for side := range s.Sides {
		list := s.Sides[side].Edges
		if len(list) == 1 && list[0].Piece.Record.Band != nil && list[0].Piece.form.is(list[0].Edge, "bottom") {
			s.band, s.bandSide, s.lapOn = list[0].Piece, side, side
			return
		}
	}
}

// stretches reports whether a seam stretches a shorter band along its edge.
func (s *Seam) stretches() bool { return s.band != nil && s.band.Record.Band.Share.Given() }

// StretchedTo is how long a shorter band is while a seam sews it on, mm; 0 where none is
// stretched.
func (s *Seam) StretchedTo() float64 {
	if !s.stretches() || !s.Length.Value.Known() {
		return 0
	}
	return s.Length.Value.In(mm).Number
}

// lapping is by how much each side of a seam is longer for its closure, mm.
func (s *Seam) lapping() (out [2]float64) {
	out[s.lapSide()] = s.closure().V.MM()
	return out
}

// meantBand is how far a band is from its share of what it is sewn to; its lap is taken
// off already.
func (w *derivation) meantBand(s *Seam, sides [2]figure.Term, m meaning) meaning {
	share := s.band.Record.Band.Share
	edge := sides[1-s.bandSide].Times(w.Written("share", float64(share.V), measure.UnitRatio, share.At))
	m.off = sides[s.bandSide].Minus(edge).Size()
	m.rule = say.Of("garment.band-share-times-edge-without-its-sign")
	return m
}

// drawnByBands tells of edges that a shorter band draws in.
func (w *derivation) drawnByBands() {
	for _, s := range w.g.Seams {
		if !s.stretches() || s.broken {
			continue
		}
		share := s.band.Record.Band.Share
		for _, u := range s.Sides[1-s.bandSide].Edges {
			if e := u.Edge; e.Drawn.ID == "" {
				e.Drawn = w.Figure(w.Join(e.base, ".drawn"), say.Of("garment.drawn-in-to"), s.band.Name, w.Written("share", float64(share.V), measure.UnitRatio, share.At), measure.UnitRatio, say.Of("garment.as-the-record-says"), figure.Recorded)
			}
		}
	}
}

// markBands notes where seams of what bands are sewn to meet them.
func (w *derivation) markBands() {
	for _, seam := range w.g.Seams {
		p := seam.band
		if p == nil || seam.broken || p.crossed != nil {
			continue
		}
		e := seam.Sides[seam.bandSide].Edges[0].Edge
		for i := range w.g.Sewn.Joins {
			j := &w.g.Sewn.Joins[i]
			for _, span := range [...]sewn.Span{j.A, j.B} {
				if w.firstCopy(span.Side, e) {
					p.crossAt(e, span.From)
					p.crossAt(e, span.To)
				}
			}
		}
		slices.SortFunc(p.crossed, func(a, b crossedAt) int { return sign(a.along - b.along) })
	}
}

// firstCopy reports whether a side is that of an edge on the first copy of its piece in
// the outer layer.
func (w *index) firstCopy(id sewn.SideID, e *PieceEdge) bool {
	s := w.g.Sewn
	side := &s.Sides[id]
	c := &s.Copies[side.Copy]
	return c.Name == e.piece.Name && side.Edge == e.Name && !slices.ContainsFunc(s.Copies[:side.Copy], func(o sewn.Copy) bool { return o.Name == c.Name })
}

// crossAt adds a place on a band that is none of its ends, once.
func (p *Piece) crossAt(e *PieceEdge, along float64) {
	const apart = 1 // mm: nearer to an end or to each other nobody notches them (own choice, no source)
	if along < apart || along > e.sewn-apart || slices.ContainsFunc(p.crossed, func(c crossedAt) bool { return math.Abs(c.along-along) < apart }) {
		return
	}
	p.crossed = append(p.crossed, crossedAt{e.Name, along})
}
