package garment

import (
	"math"
	"slices"

	"hembook/internal/figure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// A bandWidth is how wide the band of a seam is when it is done: as its record says, or
// half of a rectangle that is folded over.
type bandWidth struct {
	written record.Length
	half    bool
}

func (b *bandWidth) mm() float64 {
	if b.half {
		return b.written.V.MM() / 2
	}
	return b.written.V.MM()
}

// term is the width as a term of a sum.
func (b *bandWidth) term(w *desk, title string) figure.Term {
	if b.half {
		return w.Length(say.Of("garment.the-rectangle-it-is-folded-from"), b.written).Part(2)
	}
	return w.Length(title, b.written)
}

// bandRank is how surely a line of edges is that of a band: a band by its form, or a piece
// that is called like one; 0 for all else.
func bandRank(line []EdgeUse) int {
	rank := 0
	for _, u := range line {
		switch {
		case u.Piece.band() != nil:
			rank = max(rank, 2)
		case words.AnyOf(u.Piece.Name, bandNames):
			rank = max(rank, 1)
		}
	}
	return rank
}

// bandsSide is the side of a seam that is its band: by form or name, else the one that is
// longer by what the seam overlaps; −1 where that cannot be told.
func (s *Seam) bandsSide() int {
	a, b := bandRank(s.Sides[0].Edges), bandRank(s.Sides[1].Edges)
	switch {
	case a > b:
		return 0
	case b > a:
		return 1
	case !s.Record.Overlap.Given():
		return -1
	}
	first, second := s.offIfLaps(0), s.offIfLaps(1)
	switch {
	case first < second-1e-6:
		return 0
	case second < first-1e-6:
		return 1
	}
	return -1
}

// offIfLaps is how far the sides of a seam are, in mm, from what they are meant to be if
// this one is the longer by its overlap.
func (s *Seam) offIfLaps(side int) float64 {
	laps, other := sewnOf(s.Sides[side].Edges), sewnOf(s.Sides[1-side].Edges)
	if !s.isRun() {
		laps, other = s.Sides[side].Edges[0].Edge.sewn, s.Sides[1-side].Edges[0].Edge.sewn
	}
	laps -= s.Record.Overlap.V.MM()
	switch r := s.Record; {
	case r.Gather.Given():
		return math.Abs(other - float64(r.Gather.V)*laps)
	case r.Ease.Given():
		return math.Abs(math.Abs(laps-other) - math.Abs(r.Ease.V.MM()))
	}
	return math.Abs(laps - other)
}

// settleBand finds the band of a seam, whichever of its sides the record names first, and
// puts the sides in the order that the seam's type has them in.
func (s *Seam) settleBand() {
	if s.broken {
		return
	}
	on := s.bandsSide()
	if want := -1; s.kind != nil {
		if want = s.kind.Band.On(); want >= 0 && on >= 0 && on != want {
			s.Sides[0], s.Sides[1] = s.Sides[1], s.Sides[0]
			for i := range s.Plies {
				s.Plies[i].With = 1 - s.Plies[i].With
			}
			on = want
		}
	}
	s.lapOn = max(on, 0)
	s.findBand()
	for i := range s.Plies {
		if p := &s.Plies[i]; s.band != nil && len(p.Edges) == 1 && p.Edges[0].Piece == s.band {
			p.With, p.Along = s.bandSide, s.Sides[s.bandSide].Edges
		}
	}
}

// folded is the edge by which a seam sews on a band that is folded over, and the inner
// edge of that, which lies opposite; nil where there is none.
func (s *Seam) folded() (outer, inner *PieceEdge) {
	for side := range s.Sides {
		if list := s.Sides[side].Edges; len(list) == 1 && list[0].Piece.foldedOver() && list[0].Piece.form.is(list[0].Edge, "bottom") {
			return list[0].Edge, list[0].Edge.beside(2)
		}
	}
	if s.broken || s.set || s.kind == nil || s.kind.Band == nil || s.kind.Band.Width == "" {
		return nil, nil
	}
	side := s.Sides[max(s.kind.Band.On(), 0)].Edges
	if len(side) != 1 || side[0].Piece.Record.Rectangle == nil || side[0].Piece.Doubled() || len(side[0].Piece.Edges) != 4 {
		return nil, nil
	}
	outer = side[0].Edge
	if inner = outer.beside(2); inner.seam != nil && inner.seam != s {
		return nil, nil
	}
	return outer, inner
}

// sideOfBand is the side of a seam that its folded band stands on.
func (s *Seam) sideOfBand() sewnSide {
	outer, _ := s.folded()
	if outer != nil && s.usesOn(outer, 1) {
		return sewnSide{s, 1}
	}
	return sewnSide{s, 0}
}

// innerEdges finds the inner edges of folded bands, and the seams that take them.
func (w *derivation) innerEdges() {
	for _, s := range w.g.Seams {
		w.measureBand(s)
		outer, inner := s.folded()
		if inner == nil || inner.Fold || inner.inner != nil {
			continue
		}
		inner.inner = s
		if inner.seam == nil && inner.finish == nil {
			w.sewInner(s, outer, inner)
		}
	}
}

// ownInner reports whether a ply is the inner edge of the seam's own folded band.
func (s *Seam) ownInner(p *SeamPly) bool {
	return len(p.Edges) == 1 && p.Edges[0].Edge.inner == s
}

// takenBy is the seam that sews the inner edge of a folded band with its outer one; nil
// where none does, and of all other edges.
func (e *PieceEdge) takenBy() *Seam {
	if s := e.inner; s != nil && e.finish == nil && (e.seam == s || e.seam == nil && s.kind != nil && s.kind.Band.Takes()) {
		return s
	}
	return nil
}

// AtFold reports whether an edge is the inner one of a folded band: what the band goes
// round opens at its fold.
func (e *PieceEdge) AtFold() bool { return e.inner != nil }

// sewInner sews the inner edge of a folded band with the seam at its outer edge, or tells
// that nothing sews it.
func (w *derivation) sewInner(s *Seam, outer, inner *PieceEdge) {
	switch {
	case s.kind == nil:
	case inner.takenBy() != nil:
		inner.SewnBy = s.Name
	default:
		w.untakenInner(s, outer, inner)
	}
}

// untakenInner tells of a folded band of which nothing sews the inner edge, and how it
// could be sewn.
func (w *derivation) untakenInner(s *Seam, outer, inner *PieceEdge) {
	now, does := "band", say.Of("garment.turns-it-in-and-stitches-it-down")
	if s.stretches() {
		now, does = "overlocked", say.Of("garment.sews-both-edges-of-the-band-at")
	}
	f := w.faults.LookAgain(s.Record.At, say.Of("garment.write-type-which-or-say-under-finishes", now, does, inner.ref),
		say.Of("garment.is-folded-over-and-nothing-sews-its", s.Name, outer.piece.Name))
	if s.Record.Type.At != s.Record.At {
		f.InsteadAt(s.Record.Type.At, s.Record.Type.V, now)
		return
	}
	s.seamWord(f, "type: "+now)
}

// measureBand gives the measure of a seam type that is as wide as its band that width.
func (w *derivation) measureBand(s *Seam) {
	outer, inner := s.folded()
	if s.kind == nil || s.kind.Band == nil || s.kind.Band.Width == "" || outer == nil {
		return
	}
	name := s.kind.Band.Width
	wide := w.widthOf(outer, inner)
	k := slices.IndexFunc(s.Record.With, func(e record.Named[record.Length]) bool { return e.Name.V == name })
	if k >= 0 {
		if said := s.Record.With[k].V; said.Given() && math.Abs(said.V.MM()-wide.mm()) > 0.5 {
			w.faults.LookAgain(said.At, say.Of("garment.leave-it-out-the-seam-follows-the"), say.Of("garment.its-band-is-wide-and-says", s.Name, w.tape().About(wide.mm()), name, w.tape().About(said.V.MM()))).Without(said.At)
		}
		return
	}
	if s.given == nil {
		s.given = trade.Params{}
	}
	s.given[name], s.bandWide = wide.mm(), wide
}

// widthOf is how wide a folded band is from the edge that is sewn on to its fold.
func (w *derivation) widthOf(outer, inner *PieceEdge) *bandWidth {
	p := outer.piece
	if b := p.band(); b != nil {
		return &bandWidth{written: b.Width}
	}
	r := p.Record.Rectangle
	if outer.index()%2 == 0 { // bottom or top
		return &bandWidth{r.Along, true}
	}
	return &bandWidth{r.Across, true}
}
