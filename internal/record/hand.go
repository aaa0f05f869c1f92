package record

import (
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// A Hand is which of a pair is meant, as the wearer says it; "" for both.
type Hand string

// The two of a pair.
const (
	Left  Hand = "left"
	Right Hand = "right"
)

var bothHands = [...]Hand{Left, Right}

// of names the one of a pair.
func (h Hand) of(name string) string { return string(h) + " " + name }

// Handed is a name of one of a pair, as left front: its hand and its piece.
func Handed(name string) (hand Hand, piece string, ok bool) {
	word, piece, ok := strings.Cut(name, " ")
	hand = Hand(word)
	return hand, piece, ok && (hand == Left || hand == Right)
}

// cutOf is how a piece is cut: as it says, or the piece it is like does; else as its form
// tells.
func (b *Build) cutOf(p *Piece) Cut {
	for q, n := p, 0; q != nil && n <= len(b.Pieces); q, n = b.pieceCalled(q.Like.V), n+1 {
		switch {
		case q.Cut.Given():
			return q.Cut.V
		case q.hasFold():
			return Cut{N: 1, OnFold: true}
		case strings.Contains(" "+q.Name.V+" ", " left ") || strings.Contains(" "+q.Name.V+" ", " right "):
			return Cut{N: 1}
		case q.Like.Given():
		case q.Outline == nil || len(q.Outline.line().OwnImages()) > 0:
			return Cut{N: 1}
		default:
			return Cut{N: 2}
		}
	}
	return Cut{N: 1}
}

// hasFold reports whether an edge of a piece is said to lie on the fold.
func (p *Piece) hasFold() bool {
	return p.Outline != nil && slices.ContainsFunc(p.Outline.Edges, func(e EdgeLine) bool { return e.Fold.V }) ||
		slices.ContainsFunc(p.Edges, func(e Named[EdgeSpec]) bool { return e.V.Fold.V })
}

// line is an outline as it is drawn.
func (o *OutlineSpec) line() shape.Outline {
	out := shape.Outline{From: shape.Point(o.From.V)}
	for i := range o.Edges {
		e := &o.Edges[i]
		one := shape.Edge{Name: e.Name.V, To: shape.Point(e.To.V), Curved: e.Curve.Given()}
		one.C1, one.C2 = shape.Point(e.Curve.V[0]), shape.Point(e.Curve.V[1])
		out.Edges = append(out.Edges, one)
	}
	return out
}

// Pair reports whether a left and a right of a piece are cut.
func (c Cut) pair() bool { return c.N > 0 && c.N%2 == 0 && !c.OnFold && !c.Alike }

// pieceMeant is the piece called so, or the one of which that is the left or the right
// one; nil where there is none.
func (c *buildCheck) pieceMeant(name string) *Piece {
	if p := c.pieces[name]; p != nil {
		return p
	}
	if _, piece, ok := Handed(name); ok {
		return c.pieces[piece]
	}
	return nil
}

// oneOfPair is the piece of which a name means one alone, as left front. told says that
// there is none, or no such one, and that the maker was told.
func (c *buildCheck) oneOfPair(e EdgeRef) (p *Piece, told bool) {
	name := Text{e.Piece, e.At}
	hand, piece, ok := Handed(e.Piece)
	if !ok || c.pieces[piece] == nil && meant.Nearest(piece, c.pieceList().names) == "" {
		return nil, c.handSaidOtherwise(name)
	}
	if p = c.pieces[piece]; p == nil {
		now := hand.of(meant.Nearest(piece, c.pieceList().names))
		c.faults.Wrong(e.At, say.Of("record.did-you-mean", now), say.Of("record.there-is-no-piece-in-this-garment", say.Quoted(fault.Shorten(e.Piece)))).Instead(e.Piece, now)
		return nil, true
	}
	whole := piece
	if e.Edge != "" {
		whole += "." + e.Edge
	}
	switch cut := c.b.cutOf(p); {
	case len(p.forms()) != 1 || cut.pair():
		return p, false
	case cut.OnFold:
		c.faults.Wrong(e.At, say.Of("record.for-both-halves-write-to-alter-one", whole),
			say.Of("record.is-cut-on-the-fold-and-its", piece))
	case cut.Alike:
		c.faults.Wrong(e.At, say.Of("record.where-they-are-a-left-and-a"), say.Of("record.is-cut-times-alike-and-none-of", piece, cut.N, hand)).
			InsteadAt(p.Cut.At, "", "2")
	default:
		c.faults.Wrong(e.At, say.Of("record.write-or-cut-2-where-there-are", whole), say.Of("record.is-cut-once-so-there-is-no", piece, e.Piece)).Instead(e.Piece, piece)
	}
	return nil, true
}

// handInEdge answers an edge that has the word for its hand, as front.left side for left
// front.side; false for all else.
func (c *buildCheck) handInEdge(e EdgeRef, p *Piece, edges []string) bool {
	hand, edge, ok := Handed(e.Edge)
	if !ok || e.Piece != p.Name.V || slices.Contains(edges, e.Edge) || !slices.Contains(edges, edge) || !c.b.cutOf(p).pair() {
		return false
	}
	now := hand.of(e.Piece) + "." + edge
	c.faults.Wrong(e.At, say.Of("record.write", now), say.Of("record.is-a-pair-and-its-edge-has", e.Piece)).Instead(e.Piece+"."+e.Edge, now)
	return true
}

// handWithoutEdge answers one of a pair that is changed where an edge of it must be named,
// and a seam at one side; false for all else.
func (c *buildCheck) handWithoutEdge(name Text) bool {
	hand, rest, ok := Handed(name.V)
	if !ok {
		return false
	}
	var at []string
	for _, e := range c.b.sewnTogether(rest) {
		if p := c.pieces[e.Piece]; p != nil && c.b.cutOf(p).pair() {
			at = append(at, hand.of(e.Piece)+"."+e.Edge)
		}
	}
	if len(at) > 0 {
		slices.Sort(at)
		c.faults.Wrong(name.At, say.Of("record.name-what-moves", meant.List(slices.Compact(at), "and")), say.Of("record.is-sewn-at-both-sides-and-a", rest))
		return true
	}
	for i := range c.b.Pieces {
		p := c.b.Pieces[i].Name.V
		switch edge, found := strings.CutPrefix(rest, p+" "); {
		case p == rest:
			c.faults.Wrong(name.At, say.Of("record.which-edge-of-it-it-has", meant.List(c.edges[p], "and")), say.Of("record.does-not-name-an-edge-of-a", say.Quoted(fault.Shorten(name.V))))
			return true
		case found && slices.Contains(c.edges[p], edge):
			now := p + "." + edge // of one that is no pair both halves change
			if c.b.cutOf(c.pieces[p]).pair() {
				now = hand.of(p) + "." + edge
			}
			c.faults.Wrong(name.At, say.Of("record.write", now), say.Of("record.does-not-name-an-edge-of-a", say.Quoted(fault.Shorten(name.V)))).Instead(name.V, now)
			return true
		}
	}
	return false
}

// handSaidOtherwise answers one of a pair that is said in another way, as front left, or
// left-hand front; false for all else.
func (c *buildCheck) handSaidOtherwise(name Text) bool {
	now := ""
	for i := range c.b.Pieces {
		if piece := c.b.Pieces[i].Name.V; now == "" && piece != "" {
			now = handIn(name.V, piece)
		}
	}
	if now == "" {
		return false
	}
	c.faults.Wrong(name.At, say.Of("record.write", now), say.Of("record.there-is-no-piece-in-this-garment", say.Quoted(fault.Shorten(name.V)))).Instead(name.V, now)
	return true
}

// handWords are ways to say that a left or a right one is meant; what is for both needs
// no word.
var handWords = map[string]string{
	"left": say.Of("record.left"), "l": say.Of("record.left"), "lh": say.Of("record.left"), "l.h.": say.Of("record.left"), "left-hand": say.Of("record.left"), "lefthand": say.Of("record.left"),
	"right": say.Of("record.right"), "r": say.Of("record.right"), "rh": say.Of("record.right"), "r.h.": say.Of("record.right"), "right-hand": say.Of("record.right"), "righthand": say.Of("record.right"),
	"both": "", "each": "", "every": "",
}

// handIn is how one of a pair is named, of a piece that a name has in it with such a word
// before or behind it; "" where it has none.
func handIn(name, piece string) string {
	said := strings.ToLower(strings.NewReplacer("_", " ", ".", " ", "'s", "", "’s", "", "(", "", ")", "", ",", "", "left hand", "left-hand", "right hand", "right-hand").Replace(name))
	if !strings.Contains(said, piece) {
		if said = strings.ReplaceAll(said, "-", " "); !strings.Contains(said, piece) {
			return ""
		}
	}
	out, found := "", false
	for _, word := range strings.FieldsFunc(strings.Replace(said, piece, " ", 1), func(r rune) bool { return r == ' ' || r == '-' && !strings.Contains(said, "hand") }) {
		hand, is := handWords[word]
		switch {
		case is && !found:
			out, found = hand+piece, true
		case is, word != "the" && word != "wearer" && word != "one" && word != "hers" && word != "her" && word != "his" && word != "side" && word != "s":
			return ""
		}
	}
	return out
}

// Meets reports whether two mean one in common.
func (h Hand) Meets(o Hand) bool { return h == "" || o == "" || h == o }

// AtLevel is what is said of a level; of one at a side of the body, as left bicep, else what
// is said of both.
func AtLevel[T any](d Dict[T], level string) (T, bool) {
	v, ok := d.Get(level)
	if _, both, handed := Handed(level); !ok && handed {
		return d.Get(both)
	}
	return v, ok
}
