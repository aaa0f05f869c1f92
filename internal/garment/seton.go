package garment

import (
	"math"
	"slices"

	"hembook/internal/figure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/words"
)

// setOnLine reports whether one side of a seam is a line on a piece.
func (s *Seam) setOnLine() bool {
	for u := range s.all() {
		if u.Edge.line != nil {
			return true
		}
	}
	return false
}

// SetsOn reports whether the seam sews a piece onto the face of another, along a line or
// all round a place there.
func (s *Seam) SetsOn() bool { return s.set && !s.broken }

// setTimes counts how often a seam on the face of a piece is sewn: as often as what is
// set on is there. Fewer places than that are told.
func (w *derivation) setTimes(s *Seam) (why string) {
	var often [2]int
	for i := range s.Sides {
		for _, u := range s.Sides[i].Edges {
			if n := u.Times(); often[i] == 0 || n < often[i] {
				often[i] = n
			}
		}
	}
	a, b := s.Sides[0].Edges[0].Edge, s.Sides[1].Edges[0].Edge
	switch {
	case a.line != nil && b.line == nil:
		a, b, often[0], often[1] = b, a, often[1], often[0]
	case a.line != nil && often[1] < often[0]:
		often[0] = often[1]
	}
	s.Times = often[0]
	if often[0] > often[1] {
		w.faults.Wrong(s.Record.At, say.Of("garment.cut-fewer-of-them-or-draw-a"), say.Of("garment.is-there-2", s.Name, a.ref, times(often[0]), b.ref, times(often[1])))
		return say.Of("garment.is-there-more-often-than-the-line", a.ref)
	}
	return ""
}

// apartUnset are the pieces that no seam has, those that are set on others left out.
func (w *index) apartUnset(list []string) []string {
	return slices.DeleteFunc(slices.Clone(list), func(name string) bool {
		return slices.ContainsFunc(w.g.Seams, func(s *Seam) bool { return s.set && s.joins(w.named[name]) })
	})
}

// setBy is what closes an edge that is sewn on the face of another piece; "" of others.
func (e *PieceEdge) setBy() string {
	if e.seam != nil && e.seam.set {
		return e.seam.Name
	}
	return ""
}

// setPieces sets whole pieces on others: what nothing else is said of is sewn, and its
// outline is drawn where it lies.
func (w *derivation) setPieces() {
	for _, s := range w.g.Seams {
		r := s.Record
		if !s.at || len(r.Join) != 2 || len(r.Join[0]) != 1 || len(r.Join[1]) != 1 {
			continue
		}
		on, under := w.named[r.Join[0][0].Piece], w.named[r.Join[1][0].Piece]
		hand := ""
		if h, piece, ok := record.Handed(r.Join[1][0].Piece); ok && under == nil {
			hand, under = string(h), w.named[piece]
		}
		if on == nil || under == nil || on.form.why != "" || under.form.why != "" {
			continue // told by the reader
		}
		var edges []EdgeUse
		for k := range on.Edges {
			if e := &on.Edges[k]; e.seam == nil && e.finish == nil && !e.Fold {
				e.seam, e.SewnBy = s, s.Name
				edges = append(edges, EdgeUse{Piece: on, Edge: e})
			}
		}
		if len(edges) == 0 {
			w.faults.Wrong(r.At, say.Of("garment.leave-one-of-its-edges-to-be"), say.Of("garment.every-edge-of-is-sewn-or-finished", s.Name, on.Name))
			continue
		}
		if len(edges) == len(on.Edges) && words.AnyOf(on.Name, []string{"pocket", "pouch"}) {
			w.tellShut(s, on)
		}
		if place := w.placeOf(s, on, under, hand); place != nil {
			s.Sides[0].Edges, s.Sides[1].Edges, s.broken = edges, []EdgeUse{{Piece: under, Edge: place}}, false
		}
	}
}

// tellShut warns of a pocket that is sewn down all round.
func (w *derivation) tellShut(s *Seam, on *Piece) {
	top, round := &on.Edges[0], 0.0
	for k := range on.Edges {
		e := &on.Edges[k]
		round += e.sewn
		if e.corner(false).Y+e.corner(true).Y > top.corner(false).Y+top.corner(true).Y {
			top = e
		}
	}
	w.faults.LookAgain(s.Record.At, say.Of("garment.finish-its-top-under-finishes-as-top", on.Name, top.ref),
		say.Of("garment.is-sewn-down-all-round-and-no", on.Name, w.tape().About(round)))
}

// placeOf draws a piece where it is set on another; nil where it cannot lie there, which is
// told.
func (w *derivation) placeOf(s *Seam, on, under *Piece, hand string) *PieceEdge {
	r := s.Record
	at, _, ok := w.spotOn(under, r.Place, true)
	if !ok {
		return nil
	}
	line := under.setAsDrawn(on, at, r)
	if edge, by := under.Outline.Over(line, under.OnFold); by > overSet {
		w.faults.Wrong(r.Place.At, say.Of("garment.move-it-inwards-or-make-it-smaller"), say.Of("garment.reaches-over", s.Name, w.tape().About(by), under.Name, edge))
		return nil
	}
	spec := &record.LineSpec{At: r.At, Name: r.Name}
	under.Lines = append(under.Lines, PieceLine{Record: spec, Name: s.Name, Points: line, Place: on.Name, Hand: hand})
	l := &under.Lines[len(under.Lines)-1]
	names := words.NamesFor(len(under.Lines))
	base := ""
	for i := range under.Lines {
		base = w.Join("piece.", under.form.anchor, ".line.", names.Unique(under.Lines[i].Name))
	}
	w.drawnFrom(on)
	w.Remark(figure.Written, "at", figure.AsItStands, r.Place.At, "")
	ref := w.Join(under.Name, ", the place of ", s.Name)
	l.Length = w.Figure(w.Join(base, ".length"), "length", ref, w.Found(s.Name, line.Length(), mm), mm, say.Of("garment.round-the-piece-that-is-set-there"), figure.Derived)
	times := under.Count
	switch {
	case hand != "":
		times /= 2
	case under.OnFold:
		times *= 2
	}
	l.Edge = &PieceEdge{Name: l.Name, Index: -1, Times: max(times, 1), Length: l.Length, Sewn: l.Length, sewn: line.Length(), SewnBy: s.Name,
		piece: under, note: &edgeNote{name: l.Name, at: r.At, to: r.At}, base: base, ref: ref, line: l, seam: s, side: 1}
	return l.Edge
}

// setAsDrawn lays the line of a piece where it is set on another. Of one of a pair the place
// is given as the record draws it, and turned over with it.
func (p *Piece) setAsDrawn(on *Piece, at shape.Point, r *record.Seam) shape.Line {
	angle := r.Angle.V * math.Pi / 180
	line := on.wholeLine()
	if on.form.pair && on.form.turned {
		line = mirroredLine(line)
	}
	if !p.form.pair || !p.form.turned {
		return line.Set(at, angle)
	}
	if r.Place.V.Edge != "" { // where the edge lies now
		at = mirroredPoint(at)
	}
	return mirroredLine(line.Set(at, angle))
}

// overSet is how far a piece that is set on another may reach over its edge, mm: what a
// figure is rounded by.
const overSet = 0.1

// wholeLine is the sewing line of a piece all round, the other half of one that is cut on
// the fold with it.
func (p *Piece) wholeLine() shape.Line {
	return p.Outline.Round(p.OnFold)
}
