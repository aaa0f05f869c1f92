package shape

import (
	"errors"
	"fmt"
	"math"

	"hembook/internal/say"
)

// A FlawKind says what is wrong with an outline.
type FlawKind uint8

// The kinds of flaw, in the order in which they are looked for.
const (
	NoEdges FlawKind = iota + 1
	TooManyEdges
	NotANumber // a coordinate that is no number or lies beyond Reach
	NoLength   // an edge without length
	Open       // the last edge does not end where the outline begins
	BentFold   // an edge on the fold that is curved
	SameName   // two edges that do not adjoin have one name
	Crossing   // the outline crosses or touches itself
	OverFold   // the piece reaches across the line of its fold
	NoArea
	Clockwise // the inside lies to the right
)

// A Flaw is one thing wrong with an outline. Edge is the index of the
// edge at fault, or −1 when it is the outline as a whole; Other is the
// second edge of a crossing or a double name, else −1; At is the place.
// It is none of the one form of faults: an outline knows no file, and its flaws are
// asked by kind and place. Whoever knows the record makes a fault of it.
type Flaw struct {
	Kind        FlawKind
	Edge, Other int
	At          Point
	Text        string // lower case, no full stop

	far float64 // the length it speaks of, mm; 0 where it speaks of none
	who string  // the edge or edges, where its words have a length or a place in them
}

// Told is the text with its lengths as another prints millimetres, with their unit and
// as bare numbers.
func (f Flaw) Told(length, number func(mm float64) string) string {
	if f.who == "" {
		return f.Text
	}
	return f.worded(length, number)
}

// worded is what a flaw says whose words have a length or a place in them.
func (f Flaw) worded(length, number func(mm float64) string) string {
	switch f.Kind {
	case Open:
		return say.Of("shape.the-outline-does-not-close-ends-from", f.who, length(f.far))
	case OverFold:
		return say.Of("shape.the-piece-reaches-across-its-fold", length(f.far), f.who)
	}
	return say.Of("shape.at", f.who, number(f.At.X+0), number(f.At.Y+0))
}

func plainFlaw(kind FlawKind, edge, other int, at Point, text string) Flaw {
	return Flaw{Kind: kind, Edge: edge, Other: other, At: at, Text: text}
}

// measuredFlaw is a flaw whose words have a length or a place in them, in millimetres.
func measuredFlaw(kind FlawKind, edge, other int, at Point, far float64, who string) Flaw {
	f := Flaw{Kind: kind, Edge: edge, Other: other, At: at, far: far, who: who}
	f.Text = f.worded(func(mm float64) string { return fmt.Sprintf("%.4g mm", mm) }, func(mm float64) string { return fmt.Sprintf("%.1f", mm) })
	return f
}

func (f Flaw) Error() string { return f.Text }

const (
	// mostEdges bounds the work an outline may ask for.
	mostEdges = 4096
	// closeEnough is how far, in millimetres, the end of an outline may
	// lie from its beginning.
	closeEnough = 1e-3
	// mostCrossings is how many pairs of crossing edges are named.
	mostCrossings = 12
	// flawTolerance is how closely curves are followed, in millimetres,
	// when looking for crossings.
	flawTolerance = 0.01
)

// Check returns the flaws of the outline as one error, or nil. An outline
// that runs clockwise is not refused: its sign tells in [Outline.Area].
func (o Outline) Check() error {
	var all []error
	for _, f := range o.Flaws() {
		if f.Kind != Clockwise {
			all = append(all, f)
		}
	}
	return errors.Join(all...)
}

// Flaws returns everything wrong with the outline, nil when it is sound.
func (o Outline) Flaws() []Flaw {
	if f := o.unmeasurable(); f != nil {
		return f
	}
	flaws := append(o.edgeFlaws(), o.nameFlaws()...)
	for _, f := range flaws {
		if f.Kind == Open || f.Kind == NoLength {
			return flaws // its crossings would only confuse
		}
	}
	ring, of := o.Flatten(flawTolerance)
	flaws = append(flaws, o.crossingFlaws(ring, of)...)
	flaws = append(flaws, o.foldFlaws(ring)...)
	return append(flaws, o.areaFlaws(len(flaws) > 0)...)
}

// unmeasurable finds what forbids looking any further.
func (o Outline) unmeasurable() []Flaw {
	switch n := len(o.Edges); {
	case n == 0:
		return []Flaw{plainFlaw(NoEdges, -1, -1, o.From, say.Of("shape.the-outline-has-no-edges"))}
	case n > mostEdges:
		return []Flaw{plainFlaw(TooManyEdges, -1, -1, o.From,
			say.Of("shape.the-outline-has-edges-at-most-are", n, mostEdges))}
	}
	var flaws []Flaw
	if !o.From.finite() {
		flaws = append(flaws, plainFlaw(NotANumber, -1, -1, Point{},
			say.Of("shape.the-outline-begins-at-a-point-that", reach/1000)))
	}
	for i, e := range o.Edges {
		if !e.To.finite() || e.Curved && !(e.C1.finite() && e.C2.finite()) {
			flaws = append(flaws, plainFlaw(NotANumber, i, -1, Point{},
				say.Of("shape.has-a-point-that-is-not-a", o.called(i), reach/1000)))
		}
	}
	return flaws
}

// called names edge i in a sentence.
func (o Outline) called(i int) string {
	if o.Edges[i].Name == "" {
		return say.Of("shape.edge", i+1)
	}
	return say.Of("shape.edge-2", say.Quoted(o.Edges[i].Name))
}

func (o Outline) edgeFlaws() []Flaw {
	var flaws []Flaw
	for i, e := range o.Edges {
		if o.without(i) {
			flaws = append(flaws, plainFlaw(NoLength, i, -1, e.To, say.Of("shape.has-no-length", o.called(i))))
		}
		if e.Fold && e.Curved {
			flaws = append(flaws, plainFlaw(BentFold, i, -1, e.To, say.Of("shape.lies-on-the-fold-but-is-curved", o.called(i))))
		}
	}
	last := len(o.Edges) - 1
	if gap := distance(o.Edges[last].To, o.From); gap > closeEnough {
		flaws = append(flaws, measuredFlaw(Open, last, -1, o.Edges[last].To, gap, o.called(last)))
	}
	return flaws
}

// without reports whether edge i is without length.
func (o Outline) without(i int) bool {
	a, e := o.Start(i), o.Edges[i]
	near := distance(a, e.To) < 2*leastStep
	return near && (!e.Curved || distance(a, e.C1) < 2*leastStep && distance(a, e.C2) < 2*leastStep)
}

// nameFlaws finds names borne by edges that do not adjoin.
func (o Outline) nameFlaws() []Flaw {
	var flaws []Flaw
	seen := make(map[string]int, len(o.Edges))
	for _, s := range o.sideStarts() {
		name := o.Edges[s].Name
		if name == "" {
			continue
		}
		if other, twice := seen[name]; twice {
			flaws = append(flaws, plainFlaw(SameName, s, other, o.Start(s),
				say.Of("shape.two-edges-that-do-not-adjoin-are", say.Quoted(name))))
		}
		seen[name] = s
	}
	return flaws
}

// sideStarts lists the edges that are not further parts of the one before.
func (o Outline) sideStarts() []int {
	var starts []int
	for i := range o.Edges {
		if !o.continues(i) {
			starts = append(starts, i)
		}
	}
	return starts
}

func (o Outline) crossingFlaws(ring Ring, of []int) []Flaw {
	var flaws []Flaw
	seen := map[[2]int]bool{}
	ring.crossings(func(i, j int) bool {
		pair := [2]int{of[i], of[j]}
		if !seen[pair] {
			seen[pair] = true
			flaws = append(flaws, o.crossing(pair[0], pair[1], ring.crossingPoint(i, j)))
		}
		return len(flaws) < mostCrossings
	})
	return flaws
}

func (o Outline) crossing(a, b int, at Point) Flaw {
	who := say.Of("shape.crosses-or-touches-itself", o.called(a))
	if a != b {
		who = say.Of("shape.and-cross-or-touch", o.called(a), o.called(b))
	}
	return measuredFlaw(Crossing, a, b, at, 0, who)
}

// foldFlaws finds folds that the piece reaches across: opened, it would
// lie over itself.
func (o Outline) foldFlaws(ring Ring) []Flaw {
	var flaws []Flaw
	for i, e := range o.Edges {
		if !e.Fold || e.Curved {
			continue
		}
		out := unit(e.To.Sub(o.Start(i))).right()
		if ring.Area() < 0 {
			out = out.times(-1)
		}
		far, at := 0.0, Point{}
		for _, p := range ring {
			if d := dot(p.Sub(e.To), out); d > far {
				far, at = d, p
			}
		}
		if far > 2*flawTolerance {
			flaws = append(flaws, measuredFlaw(OverFold, i, -1, at, far, o.called(i)))
		}
	}
	return flaws
}

// leastArea is the smallest area, in square millimetres, a piece may have.
const leastArea = 1e-3

func (o Outline) areaFlaws(flawed bool) []Flaw {
	switch area := o.Area(); {
	case !(math.Abs(area) >= leastArea):
		if flawed {
			return nil // whatever else is wrong says it better
		}
		return []Flaw{plainFlaw(NoArea, -1, -1, o.From, say.Of("shape.the-outline-encloses-no-area"))}
	case area < 0:
		return []Flaw{plainFlaw(Clockwise, -1, -1, o.From, say.Of("shape.the-outline-runs-clockwise"))}
	}
	return nil
}
