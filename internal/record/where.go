package record

import (
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/record/phrase"
	"hembook/internal/say"
)

// where checks what a place on an edge is measured from.
func (c *buildCheck) where(edge string, w Where, p *Piece) {
	switch {
	case !w.Given() || w.V.From == "":
	case w.V.By != 0:
		c.placeOn(edge, Text{w.V.From, w.At}, p) // so far from the middle is not said
	default:
		c.placeOn(edge, Text{w.V.From, w.At}, p, "middle")
	}
}

// placeOn checks a name that stands for a place on an edge: the edge that it meets
// at a corner, a notch on it, a line or a level; also are further words that may have been meant.
func (c *buildCheck) placeOn(edge string, name Text, p *Piece, also ...string) {
	round := c.round(p, 0)
	k := slices.IndexFunc(round, func(names []string) bool { return slices.Contains(names, edge) })
	if k < 0 {
		return // the edge is at fault, which is told there
	}
	n := len(round)
	meets := slices.Concat(round[(k+1)%n], round[(k+n-1)%n])
	notches, levels := c.notchesOn(p, edge), slices.Concat(c.linesOf(p), c.levelsOf(p))
	if slices.Contains(meets, name.V) || slices.Contains(notches, name.V) || slices.Contains(levels, name.V) {
		return
	}
	if all := slices.Concat(round...); slices.Contains(all, name.V) {
		c.faults.Wrong(name.At, say.Of("record.it-meets-measure-from-one-of-these", meant.List([]string{round[(k+n-1)%n][0], round[(k+1)%n][0]}, "and")),
			say.Of("record.does-not-meet", p.Name.V, edge, fault.Shorten(name.V)))
		return
	}
	var edges []string
	for _, names := range round {
		edges = append(edges, names[0])
	}
	all := slices.Concat(edges, notches, levels, also)
	if now := placeMeant(name.V, p.Name.V, all); now != "" {
		c.faults.Wrong(name.At, say.Of("record.write", now), say.Of("record.is-no-edge-notch-line-or-level", say.Quoted(fault.Shorten(name.V)), p.Name.V)).Instead(name.V, now)
		return
	}
	if name.V != "" && isFigure(name.V[0]) && len(also) == 0 {
		c.faults.Wrong(name.At, say.Of("record.a-name-comes-after-to-a-length", fault.Shorten(name.V)), say.Of("record.is-no-edge-notch-line-or-level", say.Quoted(fault.Shorten(name.V)), p.Name.V))
		return
	}
	c.faults.Wrong(name.At, meant.Among(name.V, all, say.Of("record.it-has")), say.Of("record.is-no-edge-notch-line-or-level", say.Quoted(fault.Shorten(name.V)), p.Name.V)).
		Instead(name.V, meant.Nearest(name.V, all))
}

// placeMeant is a name among all that is written with its piece, or "the", before it,
// or called otherwise; "" where there is none.
func placeMeant(name, piece string, all []string) string {
	plain := strings.TrimPrefix(strings.TrimPrefix(strings.TrimPrefix(name, "the "), piece+"."), piece+" ")
	switch plain {
	case "centre", "center", "centre line", "center line", "half", "halfway", "half way", "mid", "midpoint":
		if slices.Contains(all, "middle") {
			plain = "middle"
			break
		}
		for _, n := range all {
			if plain[0] == 'c' && strings.Contains(n, "centre") {
				return n
			}
		}
	}
	if plain != name && slices.Contains(all, plain) {
		return plain
	}
	return ""
}

// round lists the edges of a piece in their order, each by all the names it has had,
// the latest first.
func (c *buildCheck) round(p *Piece, deep int) [][]string {
	var out [][]string
	switch forms := p.forms(); {
	case len(forms) != 1 || deep > len(c.b.Pieces):
		return nil
	case p.Outline != nil:
		for i := range p.Outline.Edges {
			if name := p.Outline.Edges[i].Name.V; len(out) == 0 || out[len(out)-1][0] != name {
				out = append(out, []string{name})
			}
		}
	case p.Like.Given():
		if from := c.pieces[p.Like.V]; from != nil {
			out = c.round(from, deep+1)
		}
	default:
		for _, name := range regularEdges[forms[0]] {
			out = append(out, []string{name})
		}
	}
	for i := range p.Edges {
		better := p.Edges[i].V.Name
		k := slices.IndexFunc(out, func(names []string) bool { return slices.Contains(names, p.Edges[i].Name.V) })
		if better.Given() && k >= 0 {
			out[k] = append([]string{better.V}, out[k]...)
		}
	}
	return out
}

// notchesOn are the names of the notches on an edge: the piece's own, or those of
// the piece it is like.
func (c *buildCheck) notchesOn(p *Piece, edge string) (out []string) {
	for n := 0; p != nil && n <= len(c.b.Pieces); n++ {
		for i := range p.Notches {
			if name := p.Notches[i].Name; name.Given() && p.Notches[i].Edge.V == edge {
				out = append(out, name.V)
			}
		}
		if len(p.Notches) > 0 || !p.Like.Given() {
			break
		}
		p = c.pieces[p.Like.V]
	}
	return out
}

// levelsOf are the names of a piece's levels, or of those of the piece it is like.
func (c *buildCheck) levelsOf(p *Piece) []string {
	for n := 0; p != nil && n <= len(c.b.Pieces); n++ {
		if len(p.Levels) > 0 || !p.Like.Given() {
			return p.Levels.Names()
		}
		p = c.pieces[p.Like.V]
	}
	return nil
}

// smallWords tells of names that hold one of the words that make phrases.
func (c *buildCheck) smallWords() {
	see := func(names ...Text) {
		for _, n := range names {
			word, instead := phrase.NameFault(n.V)
			if !n.Given() || word == "" {
				continue
			}
			hint := say.Of("record.give-it-another-name")
			if instead != "" {
				hint = say.Of("record.call-it-here-and-where-it-is", instead)
			}
			c.faults.Wrong(n.At, hint, say.Of("record.a-name-cannot-contain", say.Quoted(word), fault.Shorten(n.V)))
		}
	}
	for i := range c.b.Pieces {
		p := &c.b.Pieces[i]
		see(p.Name)
		if p.Outline != nil {
			for k := range p.Outline.Edges {
				if k == 0 || p.Outline.Edges[k].Name != p.Outline.Edges[k-1].Name {
					see(p.Outline.Edges[k].Name)
				}
			}
		}
		for k := range p.Edges {
			see(p.Edges[k].V.Name)
		}
		for k := range p.Darts {
			see(p.Darts[k].Name)
		}
		for k := range p.Notches {
			see(p.Notches[k].Name)
		}
		for k := range p.Levels {
			see(p.Levels[k].Name)
		}
		for k := range p.Lines {
			see(p.Lines[k].Name)
		}
	}
	for i := range c.b.Seams {
		see(c.b.Seams[i].Name)
	}
	for i := range c.b.Finishes {
		see(c.b.Finishes[i].Name)
	}
	for i := range c.b.Notions {
		see(c.b.Notions[i].Name)
	}
}
