package trace

import (
	"fmt"
	"math"

	"hembook/internal/fault"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// Options are what the maker says beside the file.
type Options struct {
	Names     []string // names of the edges in order, against the clock from the lower left; nil where the file names them
	Corner    float64  // degrees; a line that turns by more has a corner there; 0: 20
	Boundary  bool     // the boundary is the sewing line
	KeepGrain bool     // the maker says how the piece lies: a grain line is not followed
}

const (
	usualCorner = 20.0 // degrees; our own choice: flatter turns are bends of a digitised curve
	joins       = 0.5  // millimetres; ends nearer than this are one point
	mostParts   = 20_000
)

// Assemble makes the piece of what is drawn. The piece is only to be used
// where none of the faults is more than a warning.
func (d *Drawn) Assemble(opt Options) (*Piece, []fault.Fault) {
	w := &assembly{d: d, opt: opt, piece: &Piece{Name: d.Name}}
	if w.opt.Corner == 0 {
		w.opt.Corner = usualCorner
	}
	w.doubles()
	w.sort()
	w.outline()
	if w.failed() {
		return w.piece, w.faults
	}
	w.lie()
	w.nameEdges()
	w.folds()
	if w.failed() {
		return w.piece, w.faults
	}
	w.smooth()
	w.marks()
	w.piece.Drawn = make(map[string]Where, len(w.sides))
	for i := range w.sides {
		w.piece.Drawn[w.sides[i].Name] = w.sides[i].At
	}
	return w.piece, w.faults
}

// mostDoubles is how many ids that stand twice are told of one piece.
const mostDoubles = 3

// doubles tells of ids that stand twice in the file: to references only the first is there.
func (w *assembly) doubles() {
	for _, two := range w.d.Doubled[:min(len(w.d.Doubled), mostDoubles)] {
		w.warn(two.At, "an id stands once in a file; name it by a title in it: <title>"+two.ID+"</title>", say.Of("trace.its-id-is-that-of-line-too", say.Quoted(two.ID), two.First))
	}
}

// An assembly is the work on one piece.
type assembly struct {
	d      *Drawn
	opt    Options
	piece  *Piece
	by     [Aside + 1][]*Stroke
	sides  []Stroke // the outline's edges in order, against the clock
	named  bool     // the file names at least one of them
	faults []fault.Fault
}

// orShow is a hint for a piece that lacks a line, which may be one that is not
// shown.
func (w *assembly) orShow(hint string) string {
	if len(w.d.Unseen) == 0 {
		return hint
	}
	return say.Of("trace.show-the-layer-of-which-nothing-is", say.Quoted(w.d.Unseen[0]), hint)
}

func (w *assembly) fault(at Where, hint, message string) {
	w.faults = append(w.faults, FaultAt(at, hint, message))
}

func (w *assembly) warn(at Where, hint, message string) {
	f := FaultAt(at, hint, message)
	f.Severity = fault.Warning
	w.faults = append(w.faults, f)
}

func (w *assembly) failed() bool {
	for _, f := range w.faults {
		if f.Severity == fault.Error {
			return true
		}
	}
	return false
}

func (w *assembly) sort() {
	parts := 0
	for i := range w.d.Strokes {
		s := &w.d.Strokes[i]
		parts += len(s.Parts)
		w.by[s.Role] = append(w.by[s.Role], s)
	}
	if parts > mostParts {
		w.fault(w.d.At, "", say.Of("trace.the-piece-is-drawn-in-parts-at", parts, mostParts))
	}
}

// outline finds the strokes that are the sewing line, in order.
func (w *assembly) outline() {
	lines := drawnLines(w.by[Sewing])
	if len(lines) == 0 || w.opt.Boundary && len(w.by[Boundary]) > 0 {
		boundary := drawnLines(w.by[Boundary])
		switch {
		case len(boundary) == 0:
			w.fault(w.d.At, w.orShow(say.Of("trace.draw-its-sewing-line-as-one-closed")), say.Of("trace.no-sewing-line-is-drawn"))
			return
		case !w.opt.Boundary:
			w.warn(boundary[0].At, say.Of("trace.if-it-is-the-boundary-line-boundary"), say.Of("trace.no-sewing-line-is-drawn-its-boundary"))
		}
		lines = boundary
	}
	if len(lines) == 1 {
		w.single(lines[0])
		return
	}
	for i, s := range lines {
		if s.Closed {
			other := lines[0]
			if i == 0 {
				other = lines[1]
			}
			w.fault(s.At, say.Of("trace.one-line-or-one-for-each-edge"), say.Of("trace.it-is-a-closed-line-but-the", other.At))
			return
		}
	}
	w.chain(lines)
}

// drawnLines are the strokes that have a length, parts without any dropped.
func drawnLines(list []*Stroke) []Stroke {
	var out []Stroke
	for _, s := range list {
		line := *s
		line.Parts = withLength(s.From, s.Parts)
		if len(line.Parts) == 0 {
			continue
		}
		if !line.Closed && len(line.Parts) > 1 && apart(line.From, line.end()) <= joins {
			line.Closed = true
		}
		if line.Closed {
			line.close()
		}
		out = append(out, line)
	}
	return out
}

// leastPart is the shortest part that is kept, in millimetres.
const leastPart = 1e-3

func withLength(from shape.Point, parts []shape.Edge) []shape.Edge {
	var out []shape.Edge
	for _, e := range parts {
		if apart(from, e.To) < leastPart && (!e.Curved || apart(from, e.C1) < leastPart && apart(from, e.C2) < leastPart) {
			continue
		}
		e.Name = ""
		out, from = append(out, e), e.To
	}
	return out
}

// close lets a closed stroke end where it begins: an end that nearly does is
// moved there, another is joined by a straight part.
func (s *Stroke) close() {
	end := &s.Parts[len(s.Parts)-1]
	if apart(end.To, s.From) <= joins/10 || apart(end.To, s.From) <= joins && len(s.Parts) > 2 {
		end.To = s.From
		return
	}
	s.Parts = append(s.Parts, shape.Edge{To: s.From})
}

func apart(a, b shape.Point) float64 {
	d := b.Sub(a)
	return math.Sqrt(float64(d.X*d.X) + float64(d.Y*d.Y))
}

// single takes one closed line apart at its corners.
func (w *assembly) single(s Stroke) {
	if !s.Closed {
		w.fault(s.At, w.orShow(say.Of("trace.close-the-line-or-draw-the-edges")), say.Of("trace.the-sewing-line-is-open-it-ends", fmt.Sprintf("%.1f", apart(s.From, s.end())), w.inFile(s.end())))
		return
	}
	w.sides = []Stroke{s}
	if w.clockwise() {
		w.sides[0] = s.backward()
	}
	w.sides = w.cut(w.sides[0], true)
}

func spot(p shape.Point) string { return fmt.Sprintf("(%.1f, %.1f)", p.X+0, p.Y+0) }

// inFile is a place as the file has it, but in millimetres.
func (w *assembly) inFile(p shape.Point) string {
	if w.d.Down {
		p.Y = -p.Y
	}
	return spot(p)
}

func (w *assembly) clockwise() bool {
	o := shape.Outline{From: w.sides[0].From}
	for _, s := range w.sides {
		o.Edges = append(o.Edges, s.Parts...)
	}
	return o.Area() < 0
}

// chain joins open lines end to end into one that is closed.
func (w *assembly) chain(lines []Stroke) {
	order := []Stroke{lines[0]}
	left := append([]Stroke(nil), lines[1:]...)
	for len(left) > 0 {
		end := order[len(order)-1].end()
		best, gap, turned := -1, math.Inf(1), false
		for i := range left {
			if g := apart(end, left[i].From); g < gap {
				best, gap, turned = i, g, false
			}
			if g := apart(end, left[i].end()); g < gap {
				best, gap, turned = i, g, true
			}
		}
		if !(gap <= joins) {
			w.gap(order[len(order)-1], left, gap)
			return
		}
		next := left[best]
		if turned {
			next = next.backward()
		}
		next.From = end
		order, left = append(order, next), append(left[:best:best], left[best+1:]...)
	}
	last, first := &order[len(order)-1], order[0].From
	if gap := apart(last.end(), first); gap > joins {
		w.gap(*last, order[:1], gap)
		return
	}
	last.Parts[len(last.Parts)-1].To = first
	w.sides = order
	if w.clockwise() {
		w.turnRound()
	}
	w.divide()
}

func (w *assembly) gap(s Stroke, left []Stroke, gap float64) {
	near := left[0]
	for _, l := range left {
		if min(apart(s.end(), l.From), apart(s.end(), l.end())) <= gap {
			near = l
			break
		}
	}
	w.fault(s.At, say.Of("trace.let-the-two-meet-ends-within-mm", joins),
		say.Of("trace.the-sewing-line-is-open-it-ends-2", w.inFile(s.end()), near.At, fmt.Sprintf("%.1f", gap)))
}

// turnRound reverses the chain, keeping which edge comes first.
func (w *assembly) turnRound() {
	n := len(w.sides)
	round := make([]Stroke, n)
	for i := range round {
		round[i] = w.sides[(n-i)%n].backward()
	}
	w.sides = round
}

// divide takes the runs of lines that nobody named apart at their corners.
func (w *assembly) divide() {
	for _, s := range w.sides {
		w.named = w.named || s.Name != ""
	}
	var out []Stroke
	if !w.named {
		whole := w.sides[0]
		whole.Parts = append([]shape.Edge(nil), whole.Parts...)
		for _, s := range w.sides[1:] {
			whole.Parts = append(whole.Parts, s.Parts...)
			whole.Fold = whole.Fold && s.Fold
		}
		whole.Closed = true
		w.sides = w.cut(whole, true)
		return
	}
	for _, s := range w.sides {
		if s.Name != "" {
			out = append(out, s)
			continue
		}
		out = append(out, w.cut(s, false)...)
	}
	w.sides = out
}

// folds marks the edges that lie on the line the piece is mirrored about.
func (w *assembly) folds() {
	for _, m := range w.by[Mirror] {
		if len(m.Parts) == 0 {
			continue
		}
		r := newRuler(shape.Outline{From: m.From, Edges: m.Parts}, false)
		off := func(p shape.Point) float64 { return r.nearest(p).away }
		for i := range w.sides {
			s := &w.sides[i]
			if len(s.Parts) == 1 && !s.Parts[0].Curved && off(s.From) <= joins && off(s.end()) <= joins {
				s.Fold = true
			}
		}
	}
}

func unit(p shape.Point) shape.Point {
	length := apart(shape.Point{}, p)
	if !(length > 0) {
		return shape.Point{}
	}
	return shape.Point{X: p.X / length, Y: p.Y / length}
}

// set writes the sides down as the outline.
func (w *assembly) set() {
	o := shape.Outline{From: w.sides[0].From}
	for _, s := range w.sides {
		for _, e := range s.Parts {
			e.Name, e.Fold = s.Name, s.Fold
			o.Edges = append(o.Edges, e)
		}
	}
	w.piece.Outline = o
}
