package record

import (
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/say"
)

// A likeness is what is said once for several and was written out: the names of
// the pieces or seams that came of it, and where it could not be.
type likeness struct {
	pieces map[string][]string // by the name of the set
	seams  map[string][]string // by the name they stand under
	lost   []missed

	unread  bool                 // a file that may draw several could not be read, which is told
	written map[fault.Pos]string // what stands where the edges of a set were put: its name
	told    map[fault.Pos]bool   // of which it was told that one lacks the edge
}

// A missed is an edge that no piece like its own has, or a seam that is not there.
type missed struct {
	seam      string // under which it stands
	of        Text   // the seam it was to be like
	edge      EdgeRef
	otherwise string // the piece that lacks the edge; empty where there is no piece
}

// liken writes out what is said once for several: a piece that is like several
// becomes a piece for each, and a seam that is like others a seam for each.
func (b *Build) liken() {
	if b.like.pieces == nil {
		b.like.pieces = map[string][]string{}
	}
	b.like.seams = map[string][]string{}
	b.likenPieces()
	b.likenSeams()
}

// likenPieces makes of "lining: {like: [front, back]}" the pieces front lining and
// back lining.
func (b *Build) likenPieces() {
	out := make([]Piece, 0, len(b.Pieces))
	for _, p := range b.Pieces {
		all := b.likeEach(p.LikeAll)
		if len(all) == 1 && len(p.LikeAll) == 1 {
			p.Like = all[0]
		}
		if len(all) < 2 {
			out = append(out, p)
			continue
		}
		for _, of := range all {
			one := p
			one.set = p.Name.V
			one.Like, one.Name = of, Text{of.V + " " + p.Name.V, p.Name.At}
			one.Darts, one.Notches, one.Pleats, one.Gathers = slices.Clone(p.Darts), slices.Clone(p.Notches), slices.Clone(p.Pleats), slices.Clone(p.Gathers)
			one.Lines = slices.Clone(p.Lines)
			out = append(out, one)
			b.like.pieces[p.Name.V] = append(b.like.pieces[p.Name.V], one.Name.V)
		}
	}
	b.Pieces = out
}

// likeEach are the pieces that a piece is like, those of a set in its place.
func (b *Build) likeEach(names List[Text]) List[Text] {
	var out List[Text]
	for _, n := range names {
		set := b.setOf(EdgeRef{Piece: n.V})
		if len(set) == 0 {
			out = append(out, n)
		}
		for _, one := range set {
			out = append(out, Text{one, n.At})
		}
	}
	return out
}

// likenSeams makes of "lining: {like: [sides, shoulders]}" the seams lining sides and
// lining shoulders.
func (b *Build) likenSeams() {
	out := make([]Seam, 0, len(b.Seams))
	for _, s := range b.Seams {
		if len(s.Like) == 0 || len(s.Join) > 0 {
			out = append(out, s)
			continue
		}
		for _, of := range s.Like {
			k := slices.IndexFunc(b.Seams, func(q Seam) bool { return q.Name.V == of.V && len(q.Like) == 0 })
			if k < 0 {
				b.like.lost = append(b.like.lost, missed{seam: s.Name.V, of: of})
				continue
			}
			one := b.seamLike(&s, &b.Seams[k], of)
			out = append(out, one)
			b.like.seams[s.Name.V] = append(b.like.seams[s.Name.V], one.Name.V)
		}
	}
	b.Seams = out
}

// seamLike is one seam as another is, among the pieces that are like those it joins;
// what the set says itself comes first.
func (b *Build) seamLike(set, other *Seam, of Text) Seam {
	s := *other
	s.With = slices.Clone(other.With)
	s.At, s.Name, s.Note, s.Join = of.At, Text{set.Name.V + " " + of.V, of.At}, set.Note, nil
	for _, side := range other.Join {
		var edges List[EdgeRef]
		for _, e := range side {
			piece, lacks := b.pieceLike(e, set.Name.V)
			if piece == "" {
				b.like.lost = append(b.like.lost, missed{set.Name.V, of, e, lacks})
				continue
			}
			edges = append(edges, EdgeRef{At: of.At, Piece: piece, Edge: e.Edge, Part: e.Part})
		}
		if len(edges) > 0 {
			s.Join = append(s.Join, edges)
		}
	}
	if len(s.Join) < len(other.Join) {
		s.Join = nil
	}
	s.likened = true
	s.Topstitch, s.EdgeStitch = set.Topstitch, set.EdgeStitch // what is seen outside a lining does without
	s.sewnAs(set)
	return s
}

// sewnAs takes what a set says of how its seams are sewn. Another type has measures,
// strip, stitch and page of its own.
func (s *Seam) sewnAs(set *Seam) {
	if set.Type.Given() {
		s.Type, s.With, s.Strip, s.Stitch, s.Technique = set.Type, nil, Text{}, Text{}, Text{}
	}
	for _, w := range set.With {
		s.With = slices.DeleteFunc(s.With, func(had Named[Length]) bool { return had.Name.V == w.Name.V })
		s.With = append(s.With, w)
	}
	s.Thread, s.Strip = set.Thread.otherwise(s.Thread), set.Strip.otherwise(s.Strip)
	s.Stitch, s.Technique = set.Stitch.otherwise(s.Stitch), set.Technique.otherwise(s.Technique)
	if e, g := &set.Eased, &set.Gathered; e.Whole.Given() || g.Whole.Given() || len(e.Parts)+len(g.Parts) > 0 {
		s.Eased, s.Gathered = *e, *g
	}
	if set.Overlap.Given() {
		s.Overlap = set.Overlap
	}
	if set.Tolerance.Given() {
		s.Tolerance = set.Tolerance
	}
}

// pieceLike is the piece that stands for another under a name: that of both names, as
// front lining for front under lining, or else the only one that is like it.
// Where there is none it may be that a piece lacks the edge.
func (b *Build) pieceLike(e EdgeRef, under string) (piece, lacks string) {
	if hand, of, ok := Handed(e.Piece); ok && b.pieceCalled(e.Piece) == nil && b.pieceCalled(of) != nil { // one of a pair
		e.Piece = of
		if piece, lacks = b.pieceLike(e, under); piece != "" {
			piece = hand.of(piece)
		}
		return piece, lacks
	}
	var like []string
	for i := range b.Pieces {
		p := &b.Pieces[i]
		if p.Name.V == e.Piece+" "+under {
			if p.Outline != nil && !slices.ContainsFunc(p.Outline.Edges, func(l EdgeLine) bool { return l.Name.V == e.Edge }) && !p.Outline.File.Given() {
				return "", p.Name.V
			}
			return p.Name.V, ""
		}
		if p.Like.V == e.Piece && p.Like.Given() {
			like = append(like, p.Name.V)
		}
	}
	if len(like) == 1 {
		return like[0], ""
	}
	return "", ""
}

// checkLike tells what could not be written out for each.
func (c *buildCheck) checkLike() {
	for _, m := range c.b.like.lost {
		switch {
		case m.edge.Piece == "":
			known(m.of, listed{"seam", say.Of("record.in-this-garment"), c.seamNames()}, c.faults)
		case c.badLike(): // told where the piece is said to be like another
		case c.pieces[m.edge.Piece] == nil: // told where the seam itself stands
		case m.otherwise != "":
			c.faults.Wrong(m.of.At, say.Of("record.leave-out-or-write-that-seam-out", m.of.V), say.Of("record.has-no", m.seam, m.otherwise, m.edge.Edge))
		default:
			c.faults.Wrong(m.of.At, say.Of("record.call-one-or-write-that-seam-out", m.edge.Piece, m.seam), say.Of("record.which-piece-is-like-is-not-told", m.seam, m.edge.Piece))
		}
	}
}

// ofLost reports whether a name may be that of a seam that could not be written out
// for a set, or of the set: that is told where the set stands.
func (c *buildCheck) ofLost(name string) bool {
	return slices.ContainsFunc(c.b.like.lost, func(m missed) bool { return name == m.seam || strings.HasPrefix(name, m.seam+" ") })
}

func (c *buildCheck) seamNames() []string {
	var out []string
	for i := range c.b.Seams {
		out = append(out, c.b.Seams[i].Name.V)
	}
	return out
}

// isPiece checks that a name is that of a piece; of a set it says which pieces it is,
// and with an edge how each is written.
func (c *buildCheck) isPiece(name Text, edge string) bool {
	set := slices.Clone(c.b.like.pieces[name.V])
	if c.pieces[name.V] == nil && len(set) == 0 && c.pieceElsewhere(name, edge) {
		return false
	}
	if len(set) == 0 || c.pieces[name.V] != nil {
		return known(name, c.pieceList(), c.faults)
	}
	for i := range set {
		if edge != "" {
			set[i] += "." + edge
		}
	}
	c.faults.Wrong(name.At, say.Of("record.it-stands-for-several-pieces"), say.Of("record.is-a-set-say", fault.Shorten(name.V), meant.List(set, "or")))
	return false
}

// writtenOut are the seams that a name of several stands for, else the name itself.
func (b *Build) writtenOut(names List[Text]) List[Text] {
	var out List[Text]
	for _, n := range names {
		all := b.like.seams[n.V]
		if len(all) == 0 {
			out = append(out, n)
		}
		for _, one := range all {
			out = append(out, Text{one, n.At})
		}
	}
	return out
}

// badLike reports whether a piece is said to be like one that is not there.
func (c *buildCheck) badLike() bool {
	return slices.ContainsFunc(c.b.Pieces, func(p Piece) bool { return p.Like.Given() && c.pieces[p.Like.V] == nil })
}

// pieceElsewhere answers the name of a piece that is not there where it can be told
// why: its words are the other way round, several names stand in a row, or the reason
// is told elsewhere already.
func (c *buildCheck) pieceElsewhere(name Text, edge string) bool {
	words := strings.Fields(name.V)
	if len(words) == 2 {
		if now := words[1] + " " + words[0]; c.pieces[now] != nil {
			c.faults.Wrong(name.At, say.Of("record.write", now), say.Of("record.there-is-no-piece-in-this-garment", say.Quoted(fault.Shorten(name.V)))).Instead(name.V, now)
			return true
		}
	}
	if row := betweenEdges.Split(name.V, -1); edge == "" && len(row) > 1 {
		for _, one := range row {
			if c.pieces[one] == nil {
				return false
			}
		}
		now := "[" + strings.Join(row, ", ") + "]"
		c.faults.Wrong(name.At, say.Of("record.write", now), say.Of("record.several-pieces-stand-in-square-brackets")).Instead(name.V, now)
		return true
	}
	near := meant.Nearest(name.V, c.pieceList().names)
	switch {
	case c.b.like.unread && near == "": // it may be drawn there
		return true
	case c.b.doubled && near == "": // one of the two is it, which is told there
		return true
	case c.badLike(): // it may be one that comes of a set
		for i := range c.b.Pieces {
			p := &c.b.Pieces[i]
			if p.set != "" && strings.HasSuffix(name.V, " "+p.set) && p.Like.V != "" {
				return true
			}
			if len(p.LikeAll) < 2 && betweenEdges.MatchString(p.Like.V) && strings.HasSuffix(name.V, " "+p.Name.V) {
				return true
			}
		}
	}
	return false
}
