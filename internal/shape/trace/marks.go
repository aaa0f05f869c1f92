package trace

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"hembook/internal/say"
	"hembook/internal/shape"
)

// marks places darts, notches and levels on the finished outline.
func (w *assembly) marks() {
	if len(w.by[DartLine])+len(w.by[NotchMark])+len(w.by[PleatLine]) > 0 {
		e := newEdges(w.piece.Outline)
		for _, d := range mergeLegs(w.by[DartLine]) {
			w.dart(e, d)
		}
		w.pleats(e, w.by[PleatLine])
		for _, n := range w.by[NotchMark] {
			w.notch(e, n)
		}
	}
	for _, role := range [...]Role{InnerLine, SlitLine, Crease, TapeLine, BoneLine, DrawLine, CordLine} {
		for _, s := range w.by[role] {
			w.line(s, role)
		}
	}
	for _, l := range w.by[LevelLine] {
		w.level(l)
	}
	w.places()
}

// edges measures along the named edges of an outline.
type edges struct {
	*ruler
	sides []shape.NamedEdge
	side  []int     // by part: the side it belongs to
	from  []float64 // by side: where on the outline it begins
	whole float64
}

func newEdges(o shape.Outline) *edges {
	e := &edges{ruler: newRuler(o, true), sides: o.Sides(), side: make([]int, len(o.Edges))}
	for k, s := range e.sides {
		for i := range s.Count {
			e.side[(s.First+i)%len(o.Edges)] = k
		}
		e.from = append(e.from, e.first[s.First])
	}
	e.whole = e.first[len(o.Edges)]
	return e
}

// alongSide is how far along its side a hit lies.
func (e *edges) alongSide(h hit) float64 {
	along := h.along - e.from[e.side[h.part]]
	if along < -1e-9 {
		along += e.whole
	}
	return along
}

// mergeLegs joins two straight legs of one name into one dart.
func mergeLegs(list []*Stroke) []Stroke {
	var out []Stroke
	for _, s := range list {
		if len(s.Parts) == 0 {
			continue
		}
		if last := len(out) - 1; last >= 0 && len(s.Parts) == 1 && len(out[last].Parts) == 1 && out[last].Name == s.Name {
			if both, ok := joinLegs(out[last], *s); ok {
				out[last] = both
				continue
			}
		}
		out = append(out, *s)
	}
	return out
}

func joinLegs(a, b Stroke) (Stroke, bool) {
	for _, a := range []Stroke{a, a.backward()} {
		for _, b := range []Stroke{b, b.backward()} {
			if apart(a.end(), b.From) <= joins {
				a.Parts = append(append([]shape.Edge(nil), a.Parts...), b.Parts...)
				return a, true
			}
		}
	}
	return a, false
}

// A leg of a dart may end so far from its edge, in millimetres: it is drawn to it, and
// from the lesser on that is told (own choice, no source).
const offLeg, tellLeg = 3.0, 0.5

const alike = 0.01 // millimetres the legs of a dart may differ that is drawn with equal ones

func (w *assembly) dart(e *edges, s Stroke) {
	mouth, ok := w.mouth(e, &s)
	if !ok {
		return
	}
	two := e.nearestSide(mouth[0], mouth[1])
	one := e.onSide(mouth[0], e.side[two.part])
	away := max(one.away, two.away)
	if away > offLeg {
		w.fault(s.At, say.Of("trace.let-both-its-legs-end-on-one"), say.Of("trace.the-dart-does-not-open-on-an", e.beside(one), e.beside(two)))
		return
	}
	if away >= tellLeg {
		leg := one
		if two.away > one.away {
			leg = two
		}
		w.warn(s.At, say.Of("trace.let-its-legs-end-on-the-edge"), say.Of("trace.a-leg-of-the-dart-ends-and", e.beside(leg)))
	}
	a, b := e.alongSide(one), e.alongSide(two)
	point := mouth[2]
	middle := shape.Point{X: (one.at.X + two.at.X) / 2, Y: (one.at.Y + two.at.Y) / 2}
	d := Dart{Name: s.Name, Edge: e.sides[e.side[two.part]].Name, At: (a + b) / 2, Width: math.Abs(b - a), Length: apart(middle, point)}
	if d.Width < 0.1 || d.Length < 0.1 {
		w.fault(s.At, say.Of("trace.draw-it-as-a-v-from-leg"), say.Of("trace.the-dart-has-no-width-or-no"))
		return
	}
	d.Slanted, d.Point = math.Abs(apart(one.at, point)-apart(two.at, point)) > alike, point
	w.piece.Darts = append(w.piece.Darts, d)
}

// beside says how far from its side a place lies, and where along it.
func (e *edges) beside(h hit) string {
	name := e.sides[e.side[h.part]].Name
	if name == "" {
		name = say.Of("trace.the-nearest-edge")
	}
	return say.Of("trace.mm-from-mm-along-it", fmt.Sprintf("%.1f", h.away), name, fmt.Sprintf("%.1f", e.alongSide(h)))
}

// nearestSide is the point nearest to q on the side that lies nearest to both.
func (e *edges) nearestSide(p, q shape.Point) hit {
	best, sum := hit{part: -1}, math.Inf(1)
	for k := range e.sides {
		one, two := e.onSide(p, k), e.onSide(q, k)
		if one.away+two.away < sum-1e-9 {
			best, sum = two, one.away+two.away
		}
	}
	return best
}

func (e *edges) onSide(p shape.Point, side int) hit {
	return e.nearestOf(p, func(part int) bool { return e.side[part] == side })
}

// mouth finds the two ends of a dart on the sewing line and its point.
func (w *assembly) mouth(e *edges, s *Stroke) ([3]shape.Point, bool) {
	points := []shape.Point{s.From}
	for _, part := range s.Parts {
		points = append(points, part.To)
	}
	if n := len(points); s.Closed && n > 1 && apart(points[0], points[n-1]) < joins {
		points = points[:n-1]
	}
	if len(points) < 3 {
		w.fault(s.At, say.Of("trace.draw-it-as-a-v-from-leg"), say.Of("trace.a-dart-needs-two-legs-and-a"))
		return [3]shape.Point{}, false
	}
	if s.Closed && len(points) == 3 { // a triangle: its point is the corner that lies deepest
		deep, far := 0, -1.0
		for i, p := range points {
			if away := e.nearest(p).away; away > far {
				deep, far = i, away
			}
		}
		return [3]shape.Point{points[(deep+2)%3], points[(deep+1)%3], points[deep]}, true
	}
	a, b := points[0], points[len(points)-1]
	point, far := points[1], -1.0
	for _, p := range points[1 : len(points)-1] {
		if d := apart(a, p) + apart(b, p); d > far {
			point, far = p, d
		}
	}
	return [3]shape.Point{a, b, point}, true
}

const offNotch = 30.0 // millimetres a notch may lie off the sewing line: it may be drawn on the cut line

func (w *assembly) notch(e *edges, s *Stroke) {
	best := hit{away: math.Inf(1)}
	points := []shape.Point{middle(s)}
	if len(s.Parts) > 0 && !s.Closed {
		points = []shape.Point{s.From, s.end()}
	}
	for _, p := range points {
		if h := e.nearest(p); h.away < best.away {
			best = h
		}
	}
	if best.away > offNotch {
		w.warn(s.At, say.Of("trace.let-it-lie-on-an-edge"), say.Of("trace.the-notch-lies-mm-from-the-sewing", fmt.Sprintf("%.1f", best.away)))
		return
	}
	side := e.side[best.part]
	w.piece.Notches = append(w.piece.Notches, Notch{Name: s.Name, Edge: e.sides[side].Name, At: e.alongSide(best)})
}

func (w *assembly) level(s *Stroke) {
	if s.Name == "" {
		w.fault(s.At, say.Of("trace.name-it-after-its-level-as-level"), say.Of("trace.the-level-has-no-name"))
		return
	}
	if a, b := s.From, s.end(); len(s.Parts) > 0 && !s.Closed && math.Abs(a.Y-b.Y) > math.Abs(a.X-b.X)*0.02 {
		w.fault(s.At, say.Of("trace.a-level-lies-square-to-the-grain"), say.Of("trace.the-level-slopes-by-mm-from-end", say.Quoted(s.Name), fmt.Sprintf("%.1f", math.Abs(a.Y-b.Y))))
		return
	}
	name := strings.TrimSpace(s.Name)
	for _, l := range w.piece.Levels {
		if l.Name == name {
			w.fault(s.At, say.Of("trace.keep-one-of-them"), say.Of("trace.the-level-is-drawn-twice", say.Quoted(name)))
			return
		}
	}
	w.piece.Levels = append(w.piece.Levels, Level{name, round(middle(s)).Y})
}

// line reads a line on the piece; one that has no name is called after what it is, and
// numbered where there are several.
func (w *assembly) line(s *Stroke, of Role) {
	if len(s.Parts) == 0 {
		w.warn(s.At, say.Of("trace.draw-it-from-end-to-end"), say.Of("trace.the-is-a-point-and-is-left", lineWords[of]))
		return
	}
	name := strings.TrimSpace(s.Name)
	switch _, err := strconv.Atoi(name); {
	case name == "":
		name = lineWords[of]
	case of < TapeLine || strings.Contains(name, lineWords[of]):
	case err == nil:
		name = lineWords[of] + " " + name
	default: // an edge may be called so
		name += " " + lineWords[of]
	}
	taken := func(name string) bool {
		return slices.ContainsFunc(w.piece.Lines, func(l Line) bool { return l.Name == name })
	}
	for n := 2; taken(name); n++ {
		if s.Name != "" {
			w.fault(s.At, say.Of("trace.give-one-of-them-another-name"), say.Of("trace.two-lines-are-called", say.Quoted(name)))
			return
		}
		name = lineWords[of] + " " + strconv.Itoa(n)
	}
	w.piece.Lines = append(w.piece.Lines, Line{name, of, shape.LineOf(s.From, s.Parts)})
}

var lineWords = map[Role]string{InnerLine: "line", SlitLine: "slit", Crease: "crease", TapeLine: "tape", BoneLine: "boning", DrawLine: "elastic", CordLine: "cord"}

// Kind is what a line is, in a word: "slit", "tape".
func (l *Line) Kind() string { return lineWords[l.Of] }

// Laid reports whether it is where something lies on the piece: a tape, boning, elastic, a
// cord.
func (l *Line) Laid() bool { return l.Of >= TapeLine && l.Of <= CordLine }
