package record

import (
	"slices"

	"hembook/internal/say"
)

// A BorderSpec is a strip that is shaped like edges of another piece, as a facing.
type BorderSpec struct {
	Along List[EdgeRef] `yaml:"along" must:"yes" short:"both" about:"the edges it runs along, of one piece, beside each other" eg:"[front.front edge, front.neck]"`
	Width Length        `yaml:"width" must:"yes" min:"1" seldom:"250" about:"how wide it is, from those edges inwards" eg:"60"`
}

// innerEdge is what the edge of a border is called that lies inside the other piece.
const innerEdge = "inner"

// settleBorders lets borders be like the piece that they run along.
func (b *Build) settleBorders() {
	for i := range b.Pieces {
		p := &b.Pieces[i]
		if along := p.Border.alongOne(); along != nil && len(p.LikeAll) == 0 {
			p.LikeAll = List[Text]{{along.Piece, along.At}}
		}
	}
}

// alongOne is the first of its edges where all are of one piece; nil where they are not.
func (s *BorderSpec) alongOne() *EdgeRef {
	if s == nil || len(s.Along) == 0 {
		return nil
	}
	for _, e := range s.Along {
		if e.Piece != s.Along[0].Piece {
			return nil
		}
	}
	return &s.Along[0]
}

// likeBorder reports whether a piece is like another because it is a border of it.
func (p *Piece) likeBorder() bool {
	along := p.Border.alongOne()
	return along != nil && p.Like.At == along.At
}

// border checks what a border runs along.
func (c *buildCheck) border(p *Piece) {
	if p.Border == nil {
		return
	}
	for _, e := range p.Border.Along {
		switch {
		case e.Piece == p.Name.V && e.At.Given():
			c.faults.Wrong(e.At, say.Of("record.name-edges-of-another-piece"), say.Of("record.cannot-run-along-itself", p.Name.V))
		case e.Piece != p.Border.Along[0].Piece:
			c.faults.Wrong(e.At, say.Of("record.make-a-piece-for-each-and-sew"), say.Of("record.runs-along-edges-of-two-pieces-and", p.Name.V, p.Border.Along[0].Piece, e.Piece))
			return
		case c.pieces[e.Piece] != nil:
			c.wholeEdge(e)
		}
	}
}

// borderEdges are the edges of a border: those it runs along, what it keeps of the two
// beside them, and its own.
func (c *buildCheck) borderEdges(p *Piece, seen map[string]bool) ([]string, bool) {
	along := p.Border.alongOne()
	if along == nil || along.Piece == p.Name.V {
		return nil, false // told by border
	}
	all, ok := c.likeEdges(p, seen)
	if of := c.pieces[along.Piece]; ok && !slices.ContainsFunc(of.Edges, func(e Named[EdgeSpec]) bool { return e.V.Name.Given() }) {
		all = p.Border.keeps(all)
	}
	return append(slices.Clip(all), innerEdge), ok
}

// keeps are those of the edges of a piece, in their order, of which a border keeps
// something; all where it names one that is not there.
func (s *BorderSpec) keeps(all []string) []string {
	n := len(all)
	keep := make([]bool, n)
	for _, e := range s.Along {
		k := slices.Index(all, e.Edge)
		if k < 0 {
			return all
		}
		keep[(k+n-1)%n], keep[k], keep[(k+1)%n] = true, true, true
	}
	var out []string
	for k, name := range all {
		if keep[k] {
			out = append(out, name)
		}
	}
	return out
}
