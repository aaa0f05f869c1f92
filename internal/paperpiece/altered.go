package paperpiece

import (
	"fmt"
	"math"
	"slices"

	"hembook/internal/fault"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/tracing"
)

// An Alteration is what was done to a piece on paper, as changes of its edges.
type Alteration struct {
	Changes []Change
	Over    bool          // the paper lay face down
	Doubt   bool          // it may lie otherwise too: the piece is much alike both ways round
	Off     float64       // how far the outline with the changes made strays from what was seen, at most, in millimetres
	Now     shape.Outline // what was seen, laid on the outline of the record
}

// A Change is what was done to one edge, in millimetres. Its points are in the frame of
// the piece.
type Change struct {
	Edge       string
	Start, End float64       // how far its ends slid outwards along the edges beside it
	Bends      []shape.Point // drawn anew; none where it was not
	Was, Is    float64       // how long it was and is
	Moved      float64       // how far it moved at most
}

// How alterations are told: our own choice.
const (
	stayed     = 1.0  // mm by which a corner may seem to have moved and not have
	stillBent  = 0.8  // mm by which an edge may seem to be bent otherwise and not be
	mostAstray = 1.5  // mm that the outline with its changes may stray from the paper
	mostMoved  = 90.0 // mm that a corner may have moved
	roundTo    = 0.5  // mm
)

// Altered tells what was done to a piece: old is its outline as the record has it, seen
// what was traced from its altered paper.
func Altered(old shape.Outline, seen *tracing.Traced) (*Alteration, error) {
	laid, share, doubt := lay(old, seen.Outline)
	if share < liesLeast {
		return nil, fault.Refusing(say.Of("paperpiece.look-whether-it-is-the-right-piece"), say.Of("paperpiece.only-of-the-outline-lies-where-it", fmt.Sprintf("%.0f", 100*share)))
	}
	w := &alteration{old: old, sides: old.Sides(), now: placed(turnedOver(seen.Outline, laid.over), laid)}
	for _, c := range seen.Corners() {
		w.corners = append(w.corners, laid.at(c))
	}
	w.line = closed(w.now)
	if err := w.meet(); err != nil {
		return nil, err
	}
	if err := w.solve(); err != nil {
		return nil, err
	}
	a := w.told()
	a.Over, a.Doubt, a.Now = laid.over, doubt, w.now
	if a.Off > mostAstray {
		return nil, fault.Refusing(say.Of("paperpiece.trace-it-as-a-new-piece-name"), say.Of("paperpiece.what-was-done-at-cannot-be-written", w.worst, fmt.Sprintf("%.1f", a.Off)))
	}
	return a, nil
}

// placed is an outline laid elsewhere.
func placed(o shape.Outline, p placing) shape.Outline {
	out := shape.Outline{From: p.at(o.From)}
	for _, e := range o.Edges {
		e.To, e.C1, e.C2 = p.at(e.To), p.at(e.C1), p.at(e.C2)
		out.Edges = append(out.Edges, e)
	}
	return out
}

// An alteration is one on its way to be told.
type alteration struct {
	old     shape.Outline
	sides   []shape.NamedEdge
	now     shape.Outline
	line    shape.Line // of now
	corners []shape.Point

	to         []shape.Point // where the corner lies now at which each side begins
	moved      []bool        // whether it moved
	start, end []float64     // of each side
	bends      [][]shape.Point
	made       shape.Outline
	worst      string
}

// meet finds where each corner lies now.
func (w *alteration) meet() error {
	n := len(w.sides)
	w.to, w.moved = make([]shape.Point, n), make([]bool, n)
	w.start, w.end, w.bends = make([]float64, n), make([]float64, n), make([][]shape.Point, n)
	taken := make([]int, len(w.corners))
	for k, s := range w.sides {
		was := w.old.Start(s.First)
		w.to[k] = was
		if turnAt(w.old, s.First) < realTurn { // nothing marks it on the paper
			along, off := w.line.Nearest(was)
			if off > stayed {
				w.to[k], _ = w.line.At(along)
				w.moved[k] = true
			}
			continue
		}
		best, least := -1, mostMoved
		for i, c := range w.corners {
			if d := math.Hypot(c.X-was.X, c.Y-was.Y); d < least {
				best, least = i, d
			}
		}
		before := w.sides[(k+n-1)%n].Name
		if best < 0 {
			return fault.Refusing(say.Of("paperpiece.look-at-the-paper-there-a-new"), say.Of("paperpiece.where-and-meet-no-corner-is-seen", before, s.Name))
		}
		if taken[best]++; taken[best] > 1 {
			return fault.Refusing(say.Of("paperpiece.trace-it-as-a-new-piece-and"), say.Of("paperpiece.the-corner-of-and-cannot-be-told", before, s.Name))
		}
		if least > stayed {
			w.to[k], w.moved[k] = w.corners[best], true
		}
	}
	return nil
}

// make is the old outline with the changes made, in the order they are written.
func (w *alteration) make(start, end []float64, bends [][]shape.Point) (shape.Outline, error) {
	o, err := w.old, error(nil)
	for k, s := range w.sides {
		if bends[k] != nil {
			o = o.Redrawn(s.First, bends[k])
		}
		if start[k] == 0 && end[k] == 0 {
			continue
		}
		if o, err = o.EndsMoved(s.First, s.Count, start[k], end[k]); err != nil {
			return o, fault.Refusing(say.Of("paperpiece.trace-it-as-a-new-piece-and"), say.Of("paperpiece.what-was-done-at-cannot-be-written-2", s.Name, err))
		}
	}
	return o, nil
}

// solve finds the changes: how far ends slid, so that corners come to lie where they lie
// now, and the curves of what is bent otherwise.
func (w *alteration) solve() error {
	for range 4 {
		if err := w.slide(); err != nil {
			return err
		}
		if done, err := w.bend(); done || err != nil {
			return err
		}
	}
	return nil
}

// slide finds by Newton's method how far the ends at each moved corner slid.
func (w *alteration) slide() error {
	var at []int
	for k, m := range w.moved {
		if m {
			at = append(at, k)
		}
	}
	n := len(w.sides)
	value := func(k int) *float64 { // two for each corner: the end before it, the start after
		if c := at[k/2]; k%2 == 0 {
			return &w.end[(c+n-1)%n]
		}
		return &w.start[at[k/2]]
	}
	off := func() ([]float64, error) {
		o, err := w.make(w.start, w.end, w.bends)
		if err != nil {
			return nil, err
		}
		var out []float64
		for _, c := range at {
			p := o.Start(w.sides[c].First)
			out = append(out, w.to[c].X-p.X, w.to[c].Y-p.Y)
		}
		return out, nil
	}
	const little = 0.05
	for range 6 {
		left, err := off()
		if err != nil {
			return err
		}
		rows := make([][]float64, len(left))
		for r := range rows {
			rows[r] = make([]float64, len(left)+1)
			rows[r][len(left)] = left[r]
		}
		for c := range left {
			*value(c) += little
			then, err := off()
			*value(c) -= little
			if err != nil {
				return err
			}
			for r := range rows {
				rows[r][c] = (left[r] - then[r]) / little
			}
		}
		for c, by := range solved(rows) {
			*value(c) += min(max(by, -40), 40)
		}
	}
	for k := range w.sides {
		w.start[k], w.end[k] = rounded(w.start[k], roundTo), rounded(w.end[k], roundTo)
	}
	return nil
}

func rounded(v, to float64) float64 { return math.Round(v/to) * to }

// solved are the answers of rows of equations, each with what it equals at its end; an
// unknown that no row tells of is 0.
func solved(m [][]float64) []float64 {
	n := len(m)
	out := make([]float64, n)
	for c := range n {
		best := c
		for r := c; r < n; r++ {
			if math.Abs(m[r][c]) > math.Abs(m[best][c]) {
				best = r
			}
		}
		m[c], m[best] = m[best], m[c]
		if math.Abs(m[c][c]) < 1e-9 {
			clear(m[c])
			continue
		}
		for r := range n {
			if r == c {
				continue
			}
			k := m[r][c] / m[c][c]
			for j := c; j <= n; j++ {
				m[r][j] -= k * m[c][j]
			}
		}
	}
	for c := range n {
		if m[c][c] != 0 {
			out[c] = m[c][n] / m[c][c]
		}
	}
	return out
}

// bend draws the sides anew that run otherwise than the paper does, so that with all
// changes made they run as it does. done is false where a curve has been begun, which
// lets corners slide otherwise.
func (w *alteration) bend() (done bool, err error) {
	if w.made, err = w.make(w.start, w.end, w.bends); err != nil {
		return true, err
	}
	begun := false
	for k, s := range w.sides {
		if w.bends[k] == nil && w.strays(k) > stillBent {
			w.bends[k], begun = drawn(w.made, s), true
		}
	}
	for range 12 {
		for k, s := range w.sides {
			if w.bends[k] == nil {
				continue
			}
			want, is := w.wanted(k), drawn(w.made, s)
			for i := range want {
				w.bends[k][i] = w.bends[k][i].Add(want[i].Sub(is[i]))
			}
		}
		if w.made, err = w.make(w.start, w.end, w.bends); err != nil {
			return true, err
		}
	}
	for k := range w.bends {
		for i, p := range w.bends[k] {
			w.bends[k][i] = shape.Point{X: rounded(p.X, 0.1), Y: rounded(p.Y, 0.1)}
		}
	}
	w.made, err = w.make(w.start, w.end, w.bends)
	return !begun, err
}

// drawn are the points that draw a side, as a change has them: those of a straight part a
// third and two thirds along it.
func drawn(o shape.Outline, s shape.NamedEdge) (out []shape.Point) {
	for k := range s.Count {
		i := (s.First + k) % len(o.Edges)
		a, e := o.Start(i), o.Edges[i]
		if k > 0 {
			out = append(out, a)
		}
		if !e.Curved {
			e.C1, e.C2 = between([2]shape.Point{a, e.To}, 1.0/3), between([2]shape.Point{a, e.To}, 2.0/3)
		}
		out = append(out, e.C1, e.C2)
	}
	return out
}

// wanted are the points that would draw a side along the paper's edge.
func (w *alteration) wanted(k int) []shape.Point {
	s := w.sides[k]
	from, to := w.made.Start(s.First), w.made.Edges[(s.First+s.Count-1)%len(w.made.Edges)].To
	o := shape.Outline{From: from, Edges: tracing.Curves(from, to, w.stretch(from, to), s.Count)}
	return drawn(o, shape.NamedEdge{Count: s.Count})
}

// stretch are the points of the paper's edge from near one point to near another, the way
// it runs.
func (w *alteration) stretch(from, to shape.Point) (out []shape.Point) {
	const step, beside = 1.5, 2.0
	a, _ := w.line.Nearest(from)
	b, _ := w.line.Nearest(to)
	long := w.line.Length()
	if b <= a {
		b += long
	}
	for s := a + beside; s < b-beside; s += step {
		p, _ := w.line.At(math.Mod(s, long))
		out = append(out, p)
	}
	return out
}

// strays is how far a side as it is made strays from the paper's edge, both ways.
func (w *alteration) strays(k int) (most float64) {
	s := w.sides[k]
	var edges []shape.Edge
	for i := range s.Count {
		edges = append(edges, w.made.Edges[(s.First+i)%len(w.made.Edges)])
	}
	from := w.made.Start(s.First)
	side := shape.LineOf(from, edges)
	for _, p := range walked(side, lieStep) {
		_, off := w.line.Nearest(p)
		most = max(most, off)
	}
	for _, p := range w.stretch(from, edges[len(edges)-1].To) {
		_, off := side.Nearest(p)
		most = max(most, off)
	}
	return most
}

// told are the changes of the sides that changed.
func (w *alteration) told() *Alteration {
	a := &Alteration{}
	now := w.made.Sides()
	for k, s := range w.sides {
		if off := w.strays(k); off >= a.Off {
			a.Off, w.worst = off, s.Name
		}
		if w.start[k] == 0 && w.end[k] == 0 && w.bends[k] == nil {
			continue
		}
		c := Change{Edge: s.Name, Start: w.start[k], End: w.end[k], Bends: w.bends[k], Was: s.Length}
		if i := slices.IndexFunc(now, func(n shape.NamedEdge) bool { return n.Name == s.Name }); i >= 0 {
			c.Is = now[i].Length
		}
		old := shape.LineOf(w.old.Start(s.First), w.edgesOf(w.old, s))
		for _, p := range walked(shape.LineOf(w.made.Start(s.First), w.edgesOf(w.made, s)), lieStep) {
			_, off := old.Nearest(p)
			c.Moved = max(c.Moved, off)
		}
		a.Changes = append(a.Changes, c)
	}
	return a
}

func (w *alteration) edgesOf(o shape.Outline, s shape.NamedEdge) (out []shape.Edge) {
	for i := range s.Count {
		out = append(out, o.Edges[(s.First+i)%len(o.Edges)])
	}
	return out
}

// Said is a change in words.
func (c Change) Said() string {
	return say.Of("paperpiece.moved-by-up-to-mm-mm-long", c.Edge, fmt.Sprintf("%.1f", c.Moved), fmt.Sprintf("%.1f", c.Was), fmt.Sprintf("%.1f", c.Is))
}

// FoldOn says which edge of a traced piece is the one on the fold: of the straight ones
// that whose length is nearest to it. It has no allowance.
func FoldOn(seen *tracing.Traced, old shape.Outline) []tracing.EdgeName {
	names := make([]tracing.EdgeName, seen.Count())
	fold := old.FoldEdge()
	if fold < 0 {
		return names
	}
	best, least := -1, math.Inf(1)
	for i, e := range seen.Named(nil) {
		if off := math.Abs(e.MM - old.EdgeLength(fold)); e.Straight && off < least {
			best, least = i, off
		}
	}
	if best >= 0 {
		names[best].Fold = true
	}
	return names
}
