package garment

import (
	"math"
	"strings"
	"unicode"

	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/words"
)

// halfOf tells which half a piece's name says it is, "left" or "right", and
// what it is a half of; side is empty where it says neither.
func halfOf(name string) (whole, side string) {
	name = strings.ToLower(name)
	if !strings.Contains(name, "left") && !strings.Contains(name, "right") {
		return name, "" // most pieces, and asked of each again and again
	}
	words := strings.FieldsFunc(name, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	var rest []string
	for _, word := range words {
		switch {
		case word != "left" && word != "right":
			rest = append(rest, word)
		case side != "":
			return "", ""
		default:
			side = word
		}
	}
	return strings.Join(rest, " "), side
}

// halves holds left and right halves that are drawn apart to one grain: as
// their grain says, and where one is the other's mirror image, as it is drawn.
func (w *truer) halves() {
	ids := words.NamesFor(len(w.g.Pieces))
	for k, right := range w.g.Pieces {
		whole, side := halfOf(right.Name)
		for _, left := range w.g.Pieces[:k] {
			if of, other := halfOf(left.Name); side == "" || other == "" || other == side || of != whole {
				continue
			}
			w.oneGrain(left, right, w.Join("truing.", ids.Unique(say.Of("garment.halves-of", whole)), ".grain"))
		}
	}
}

func (w *truer) oneGrain(a, b *Piece, id string) {
	one, ok1 := grainOf(a)
	two, ok2 := grainOf(b)
	if !ok1 || !ok2 || !a.sound() || !b.sound() {
		return // one of them may lie any way
	}
	c := Check{Kind: "grain", What: say.Of("garment.and", a.Name, b.Name), Judged: true, At: b.grainAt(), halves: true}
	t := w.grainsApart(a, b, one, two)
	w.Note(w.lim.grain.Term(w.Pad, "limit", measure.UnitDegree))
	off := math.Abs(one - two)
	rule := say.Of("garment.the-angle-between-the-grain-of-both-2")
	c.Mend = say.Of("garment.give-both-the-same-grain")
	if turn, ok := turnedBy(a, b); ok && one == two {
		off = turn
		rule = say.Of("garment.the-angle-by-which-one-half-must")
		c.Mend = say.Of("garment.turn-by-or-the-other-half", b.Name, degrees(off))
		t = w.Found(say.Of("garment.mean-over-the-edges-of-one-name"), off, measure.UnitDegree)
	}
	c.Off = w.Figure(id, say.Of("garment.grains-apart"), c.What, t, measure.UnitDegree, rule, w.lim.grain.Source)
	c.Good, c.Limit, c.Most = off <= w.lim.grain.V+1e-6, atMost(w.lim.grain), w.lim.grain.V
	w.g.hold(c)
}

// likeLength is how much an edge of one half may be longer than that of the
// other, in parts of it, for them to count as images of each other.
const likeLength = 0.02

// turnedBy is the angle, from 0° to 90°, by which a half must be turned to be
// the image of the other, mirrored or as it is; false where it is no image.
func turnedBy(a, b *Piece) (degrees float64, ok bool) {
	var mirrored, alike turning
	for k := range a.Edges {
		e := &a.Edges[k]
		other := b.edgeCalled(e.Name)
		if other == nil || len(a.Edges) != len(b.Edges) {
			return 0, false
		}
		one, two := e.corner(true).Sub(e.corner(false)), other.corner(true).Sub(other.corner(false))
		long := math.Hypot(one.X, one.Y)
		if math.Abs(math.Hypot(two.X, two.Y)-long) > likeLength*long+1 {
			return 0, false
		}
		alike.add(one, two)
		// Both run against the clock, so that the image of an edge runs backwards.
		mirrored.add(one, shape.Point{X: two.X, Y: -two.Y})
	}
	best := mirrored
	if alike.spread() < mirrored.spread() {
		best = alike
	}
	if best.spread() > 0.05 {
		return 0, false
	}
	turn := math.Abs(math.Atan2(best.sin, best.cos)) * 180 / math.Pi
	return min(turn, 180-turn), true // upside down the grain is the same
}

// A turning gathers by how much the edges of two pieces are turned against each
// other, long ones counting for more.
type turning struct{ sin, cos, most float64 }

func (t *turning) add(a, b shape.Point) {
	t.sin += float64(a.X*b.Y) - float64(a.Y*b.X)
	t.cos += float64(a.X*b.X) + float64(a.Y*b.Y)
	t.most += math.Hypot(a.X, a.Y) * math.Hypot(b.X, b.Y)
}

// spread is 0 where all edges are turned alike, up to 1 where they are not.
func (t *turning) spread() float64 {
	if !(t.most > 0) {
		return 1
	}
	return 1 - math.Hypot(t.sin, t.cos)/t.most
}
