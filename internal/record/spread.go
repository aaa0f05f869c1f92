package record

import (
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/say"
)

// spreadSets puts the edges of all its pieces in the place of an edge of a set, as
// front lining.hem and back lining.hem for lining.hem, and what a seam joins in the
// place of its name.
func (b *Build) spreadSets() {
	b.like.written = map[fault.Pos]string{}
	for i := range b.Seams {
		for k := range b.Seams[i].Join {
			if !b.setTwice(&b.Seams[i], k) {
				b.Seams[i].Join[k] = b.ofAll(b.Seams[i].Join[k])
			}
		}
	}
	for i := range b.Finishes {
		b.Finishes[i].Of = b.ofAll(b.Finishes[i].Of)
	}
	for i := range b.Lengths {
		b.Lengths[i].Along = b.ofAll(b.Lengths[i].Along)
	}
	for i := range b.Hang {
		b.Hang[i].Of = b.ofAll(b.Hang[i].Of)
	}
	for i := range b.Notions {
		b.alongSeam(&b.Notions[i])
	}
	for i := range b.Fittings {
		b.Fittings[i].Change = b.changedAll(b.Fittings[i].Change)
	}
}

// ofAll are edges with those of sets spread.
func (b *Build) ofAll(edges List[EdgeRef]) List[EdgeRef] {
	if !slices.ContainsFunc(edges, func(e EdgeRef) bool { return len(b.setOf(e)) > 0 }) {
		return edges
	}
	var out List[EdgeRef]
	for _, e := range edges {
		set := b.setOf(e)
		if len(set) == 0 {
			out = append(out, e)
			continue
		}
		b.like.written[e.At] = e.Piece
		for _, piece := range set {
			one := e
			one.Piece = piece
			out = append(out, one)
		}
	}
	return out
}

// setTwice reports whether another side of a seam names the same set: which of its
// pieces stands on which side is not told then.
func (b *Build) setTwice(s *Seam, k int) bool {
	for other, side := range s.Join {
		for _, e := range side {
			if other != k && len(b.setOf(e)) > 0 && slices.ContainsFunc(s.Join[k], func(own EdgeRef) bool { return own.Piece == e.Piece }) {
				return true
			}
		}
	}
	return false
}

// setOf are the pieces that the name before an edge stands for; none, where it is that
// of one piece.
func (b *Build) setOf(e EdgeRef) []string {
	set := b.like.pieces[e.Piece]
	if len(set) > 0 && slices.ContainsFunc(b.Pieces, func(p Piece) bool { return p.Name.V == e.Piece }) {
		return nil
	}
	return set
}

// alongSeam puts an edge in the place of the seam or finish that a notion lies along:
// the first that it joins, which the others are sewn to, or the only one it works.
func (b *Build) alongSeam(n *Notion) {
	along := &n.Along.V
	if !n.Along.Given() || along.Piece != "" {
		return
	}
	put := func(edges List[EdgeRef]) {
		if len(edges) == 1 && edges[0].Part.Whole() {
			along.Piece, along.Edge = edges[0].Piece, edges[0].Edge
		}
	}
	for i := range b.Seams {
		if s := &b.Seams[i]; s.Name.V == along.Edge && len(s.Join) > 0 {
			for _, side := range s.Join {
				if put(side); along.Piece != "" {
					return
				}
			}
		}
	}
	for i := range b.Finishes {
		if f := &b.Finishes[i]; f.Name.V == along.Edge {
			put(f.Of)
		}
	}
}

// changedAll are the changes of a round with those of a seam as a whole, and of an edge
// of a set, made of each edge.
func (b *Build) changedAll(list []Change) []Change {
	var out []Change
	for i := range list {
		c := &list[i]
		if b.setOnSeam(c.Edge.V) != nil {
			c.SetOn, c.Edge = c.Edge, Text{}
			out = append(out, *c)
			continue
		}
		edges := b.changedEdges(c.Edge)
		if len(edges) == 0 {
			out = append(out, *c)
			continue
		}
		for _, name := range edges {
			one := *c
			one.Edge.V = name
			out = append(out, one)
		}
	}
	return out
}

// changedEdges are the edges that a change of a seam, or of an edge of a set, is of;
// none, where it is of one edge.
func (b *Build) changedEdges(name Text) []string {
	var out []string
	if e, ok := partNamed(name); ok {
		for _, piece := range b.setOf(e) {
			out = append(out, piece+"."+e.Edge)
		}
		if len(out) > 0 {
			b.like.written[name.At] = e.Piece
		}
		return out
	}
	for _, e := range b.sewnTogether(name.V) {
		if !e.Part.Whole() {
			return nil
		}
		if one := e.Piece + "." + e.Edge; !slices.Contains(out, one) {
			out = append(out, one)
		}
	}
	return out
}

// sewnTogether are the edges of the seam of this name, or of all the seams that came
// of a set.
func (b *Build) sewnTogether(name string) []EdgeRef {
	var out []EdgeRef
	for i := range b.Seams {
		if s := &b.Seams[i]; s.Name.V == name || slices.Contains(b.like.seams[name], s.Name.V) {
			for _, side := range s.Join {
				out = append(out, side...)
			}
		}
	}
	return out
}

// changedWhole tells of a change of what is no edge, and by what it is said today.
func (c *buildCheck) changedWhole(name Text) bool {
	if edges := c.b.sewnTogether(name.V); len(edges) > 0 {
		var all []string
		for _, e := range edges {
			if now := e.Piece + "." + e.Edge; !slices.Contains(all, now) {
				all = append(all, now)
			}
		}
		c.faults.Wrong(name.At, say.Of("record.change-the-edges-themselves", meant.List(all, "and")), say.Of("record.not-yet-a-change-of-a-seam", fault.Shorten(name.V)))
		return true
	}
	return false
}

// lacksEdge tells once of an edge of a set that one of its pieces, or none, has; false
// where the name before the edge is that of one piece.
func (c *buildCheck) lacksEdge(e EdgeRef) bool {
	set, spread := c.b.like.written[e.At]
	if !spread || c.pieces[e.Piece] == nil {
		return false
	}
	edges, ok := c.edges[e.Piece]
	if !ok || slices.Contains(edges, e.Edge) || slices.Contains(c.linesOf(c.pieces[e.Piece]), e.Edge) {
		return false
	}
	if c.b.like.told[e.At] {
		return true
	}
	c.b.like.tell(e.At)
	at := e.At
	at.Column += int32(len([]rune(set))) + 1
	near := meant.Nearest(e.Edge, edges)
	c.faults.Wrong(at, meant.Among(e.Edge, edges, say.Of("record.there-are")), say.Of("record.of-has-no-edge", fault.Shorten(set), e.Piece, say.Quoted(fault.Shorten(e.Edge)))).Instead(e.Edge, near)
	return true
}

func (l *likeness) tell(at fault.Pos) {
	if l.told == nil {
		l.told = map[fault.Pos]bool{}
	}
	l.told[at] = true
}

// alongAll tells of a notion along a seam or finish that is not one edge alone.
func (c *buildCheck) alongAll(n *Notion) bool {
	along := n.Along.V
	if along.Piece != "" {
		return false
	}
	of := []string{}
	for _, e := range c.b.sewnTogether(along.Edge) {
		of = append(of, e.String())
	}
	if len(of) == 0 {
		for i := range c.b.Finishes {
			if f := &c.b.Finishes[i]; f.Name.V == along.Edge {
				for _, e := range f.Of {
					of = append(of, e.String())
				}
			}
		}
	}
	if len(of) > 0 {
		c.faults.Wrong(along.At, say.Of("record.name-one-what-lies-in-its-channel", meant.List(slices.Compact(of), "or"), along.Edge), say.Of("record.not-yet-along-several-edges-in-a", fault.Shorten(along.Edge)))
		return true
	}
	names := strings.Join(slices.DeleteFunc(c.b.sewn(), func(s string) bool { return s == "" }), ", ")
	if near := meant.Nearest(along.Edge, c.b.sewn()); near != "" {
		c.faults.Wrong(along.At, say.Of("record.did-you-mean", near), say.Of("record.is-no-edge-of-a-piece-seam", say.Quoted(fault.Shorten(along.Edge)))).Instead(along.Edge, near)
		return true
	}
	c.faults.Wrong(along.At, say.Of("record.name-the-edge-as-front-side-or", fault.Shorten(names)), say.Of("record.is-no-edge-of-a-piece-seam", say.Quoted(fault.Shorten(along.Edge))))
	return true
}
