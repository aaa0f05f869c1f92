package shape

import (
	"errors"
	"math"

	"hembook/internal/say"
)

// A Corner says how the allowance of an edge ends at both its corners.
// Where the outline turns inward the allowances simply meet, and at a fold
// the allowance always ends on the line of the fold. The zero Corner is Mitre.
type Corner struct {
	rule  rule
	turns [mostFolds]float64 // of a mirrored edge that is turned more than once
}

// mostFolds is how often an allowance may be turned: a turn-up has three.
const mostFolds = 3

type rule uint8

const (
	mitre rule = iota
	square
	mirror
)

var (
	// Mitre extends the two lines of the allowances until they meet. A
	// point longer than four times the wider allowance is cut off square
	// there (common practice, no source).
	Mitre = Corner{rule: mitre}
	// Square ends the edge's allowance at a right angle to the edge, where
	// the edge's own line reaches the neighbour's cut line.
	Square = Corner{rule: square}
	// Mirror shapes the edge's allowance, which will be turned up, as the
	// mirror image of the piece about the line of the edge, so that the
	// turned hem lies flat on the piece. The neighbour is taken as straight
	// for the depth of the hem. Two mirrored neighbours, or two squared
	// ones, meet in a mitre.
	Mirror = Corner{rule: mirror}
)

// Folded is Mirror for an allowance that is turned several times, each turn so
// deep, in millimetres from the finished edge on: it is mirrored at each fold,
// so that every layer lies on what it is folded over. What the allowance has
// beyond the turns belongs to the last.
func Folded(turns ...float64) Corner {
	c := Mirror
	if len(turns) > 1 {
		copy(c.turns[:], turns)
	}
	return c
}

// heights are the depths of an allowance at which it is folded once more, its
// raw edge last, and how far above the edge each lies when all is folded.
func (c Corner) heights(allow float64) (depth, height [mostFolds]float64, n int) {
	done, at, up := 0.0, 0.0, 1.0
	for i, turn := range c.turns {
		if turn <= 0 || turn >= allow-done || i == mostFolds-1 || c.turns[i+1] <= 0 {
			turn = allow - done
		}
		done, at, up = done+turn, at+up*turn, -up
		depth[n], height[n] = done, at
		n++
		if done >= allow {
			break
		}
	}
	return depth, height, n
}

// An EdgeAllowance is what one edge, with all its parts, gets: the
// allowance, the length of the sewing line and the length of the cut line
// beside it, in millimetres. CutLength counts what the corners add or take
// away, but not the short ends of squared, mirrored or blunted corners.
type EdgeAllowance struct {
	Name                         string
	Allowance, Length, CutLength float64
}

// A Cut is a cut outline: an outline with its allowances.
type Cut struct {
	// Ring is the line to cut along, counter-clockwise, curves followed
	// within 0.05 mm. Of gives for each of its segments the index of the
	// edge whose allowance it bounds, or −1 at the end of a corner.
	Ring Ring
	Of   []int
	// Holes are the places, clockwise, that allowances surround without
	// covering them: a notch narrower at its mouth than its allowances.
	Holes []Ring
	// Area is the area to be cut and AllowanceArea the allowances' part of
	// it, in square millimetres, without the holes. Both are exact for
	// straight edges; Area is the exact area of a curved outline plus
	// AllowanceArea, so it differs a little from the area of Ring.
	Area, AllowanceArea float64
	PerEdge             []EdgeAllowance
}

const (
	// mostAllowance is the widest allowance that is answered, in
	// millimetres.
	mostAllowance = 1000
	// mitreLimit is how far from the corner, in wider allowances, a mitre
	// may reach (common practice, no source).
	mitreLimit = 4
	// cutTolerance is how far the flattened sewing line and, at the joints
	// of its chords, the cut line may each stray, in millimetres.
	cutTolerance = 0.0125
)

// CutOutline gives each edge its allowance, in millimetres, and returns the
// line to cut along. allow has one value for each edge; an edge on the fold
// gets none, whatever is asked for. corners has the rule of each edge, or
// is nil for mitres everywhere. An outline with flaws other than running
// clockwise is refused.
//
// The cut outline is the piece, a strip beside each edge as wide as its
// allowance, and the corners' points, all taken together. It is found by
// offsetting the edges directly and proving the result; where the proof
// fails (a notch narrower than its allowances, a curve tighter than its
// allowance) it is the union of those parts.
func (o Outline) CutOutline(allow []float64, corners []Corner) (Cut, error) {
	if err := o.cuttable(allow, corners); err != nil {
		return Cut{}, err
	}
	reversed := o.Area() < 0
	if reversed {
		o, allow, corners = o.Reversed(), backward(allow), backward(corners)
	}
	b, ok := o.border(allow, corners)
	if !ok {
		return Cut{}, o.crossingFlaws(b.base, b.of)[0]
	}
	if over := o.foldFlaws(b.base); over != nil {
		return Cut{}, over[0]
	}
	cut, ok := b.offset()
	if !ok {
		var err error
		if cut, err = b.union(); err != nil {
			return Cut{}, err
		}
	}
	b.foldIn(&cut)
	o.sum(&cut, b)
	if reversed {
		cut.renumber(len(o.Edges))
	}
	return cut, nil
}

// cuttable checks what can be checked without following the curves.
func (o Outline) cuttable(allow []float64, corners []Corner) error {
	if flaws := o.unmeasurable(); flaws != nil {
		return flaws[0]
	}
	for i := range o.Edges {
		if o.without(i) || i == len(o.Edges)-1 && distance(o.Edges[i].To, o.From) > closeEnough ||
			o.Edges[i].Fold && o.Edges[i].Curved {
			return o.Check()
		}
	}
	if len(allow) != len(o.Edges) {
		return errors.New(say.Of("shape.the-outline-has-edges-but-there-are", len(o.Edges), len(allow)))
	}
	if corners != nil && len(corners) != len(o.Edges) {
		return errors.New(say.Of("shape.the-outline-has-edges-but-there-are-2", len(o.Edges), len(corners)))
	}
	for i, a := range allow {
		if !(a >= 0 && a <= mostAllowance) {
			return errors.New(say.Of("shape.the-allowance-of-must-lie-between-0", o.called(i), mostAllowance, a))
		}
	}
	if !(math.Abs(o.Area()) >= leastArea) {
		return errors.New(say.Of("shape.the-outline-encloses-no-area"))
	}
	return nil
}

func backward[T any](list []T) []T {
	if list == nil {
		return nil
	}
	turned := make([]T, len(list))
	for i, v := range list {
		turned[len(list)-1-i] = v
	}
	return turned
}

// sum works out the areas and the figures of the edges.
func (o Outline) sum(c *Cut, b *border) {
	ring := c.Ring.Area()
	for _, h := range c.Holes {
		ring += h.Area() // clockwise: negative
	}
	c.AllowanceArea = ring - b.base.Area()
	c.Area = o.Area() + c.AllowanceArea
	lengths := make([]float64, len(o.Edges))
	for k, i := range c.Of {
		if i >= 0 {
			lengths[i] += distance(c.Ring[k], c.Ring.at(k+1))
		}
	}
	sides := o.Sides()
	c.PerEdge = make([]EdgeAllowance, len(sides))
	for k, s := range sides {
		e := EdgeAllowance{Name: s.Name, Allowance: b.edgeAllow[s.First], Length: s.Length}
		for part := range s.Count {
			e.CutLength += lengths[(s.First+part)%len(o.Edges)]
		}
		c.PerEdge[k] = e
	}
}

// renumber turns edge indices of the reversed outline into those of the
// outline as it was given.
func (c *Cut) renumber(edges int) {
	for k, i := range c.Of {
		if i >= 0 {
			c.Of[k] = edges - 1 - i
		}
	}
	for i, j := 0, len(c.PerEdge)-1; i < j; i, j = i+1, j-1 {
		c.PerEdge[i], c.PerEdge[j] = c.PerEdge[j], c.PerEdge[i]
	}
}
