package tracing

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"

	"hembook/internal/drawing"
	"hembook/internal/fault"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/shape/trace"
)

// A Drawn is what is drawn on the paper or cut into it, as far as it can be told.
type Drawn struct {
	Is   DrawnKind
	Edge int           // which edge from corner to corner it begins at, or runs beside; -1 for none
	At   float64       // how far along that edge it begins, in millimetres; of a dart its middle, of a line beside an edge how far inside that
	Line []shape.Point // from end to end; of a dart from leg to point to leg
	Word string        // what it is called in the pattern file, as "dart 1" or "slit cuff"; "" where it is left out
}

// A DrawnKind is what a mark is.
type DrawnKind uint8

// The kinds of mark. Dart, Grain and Cut are told by the program; a line may be anything.
const (
	Dart     DrawnKind = iota // two lines from one edge to a point
	Grain                     // the longest line that no edge meets
	Cut                       // a line lighter than the paper: the table seen through a slit
	FromEdge                  // a line from an edge inwards: a slit, or drawn
	Inner                     // any other line
	Beside                    // a line that runs along inside an edge
	Across                    // a line from edge to edge
)

// Long is how long a mark is, in millimetres; a dart from the middle of its mouth.
func (m Drawn) Long() float64 {
	if m.Is == Dart {
		a, b := m.Line[0], m.Line[2]
		return apart(m.Line[1], shape.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2})
	}
	return apart(m.Line[0], m.Line[len(m.Line)-1])
}

// Wide is how wide the mouth of a dart is, in millimetres.
func (m Drawn) Wide() float64 { return apart(m.Line[0], m.Line[len(m.Line)-1]) }

// Said is what a mark is in words, with the edges' names.
func (m Drawn) Said(edges []Length) string {
	of := ""
	if m.Edge >= 0 && m.Edge < len(edges) {
		of = edges[m.Edge].Name
	}
	switch m.Is {
	case Dart:
		return say.Of("tracing.a-dart-at-mm-along-it-wide", of, fmt.Sprintf("%.0f", m.At), fmt.Sprintf("%.0f", m.Wide()), fmt.Sprintf("%.0f", m.Long()))
	case Grain:
		return say.Of("tracing.the-grain-a-line-of-mm", fmt.Sprintf("%.0f", m.Long()))
	case Cut:
		return say.Of("tracing.a-slit-from-mm-along-it-long", of, fmt.Sprintf("%.0f", m.At), fmt.Sprintf("%.0f", m.Long()))
	case FromEdge:
		return say.Of("tracing.a-line-from-mm-along-it-long", of, fmt.Sprintf("%.0f", m.At), fmt.Sprintf("%.0f", m.Long()))
	case Beside:
		return say.Of("tracing.a-line-mm-inside", fmt.Sprintf("%.0f", m.At), of)
	case Across:
		return say.Of("tracing.a-line-from-edge-to-edge", fmt.Sprintf("%.0f", m.Long()))
	}
	return say.Of("tracing.a-line-of-mm", fmt.Sprintf("%.0f", m.Long()))
}

// How marks are told: our own choice, no source.
const (
	meetsEdge  = 8.0   // mm from an edge at which a line ends that meets it
	meetsPoint = 6.0   // mm from the point of a dart at which its legs end
	melts      = 4.0   // mm apart at which two lines are seen as one
	leastMouth = 4.0   // mm
	mostMouth  = 160.0 // mm
	leastGrain = 60.0  // mm
	grainShare = 0.2   // of the piece's longer side
	besideMost = 45.0  // mm inside an edge at which its sewing line may run
	besideEven = 1.2   // mm by which it may stray
	besideLong = 0.6   // share of the edge that it runs along
)

// An inked is a stroke with what its ends meet.
type inked struct {
	Stroke
	edge [2]int     // that the ends meet, -1 for none
	at   [2]float64 // where along it
}

// marks tells what the strokes on the paper are.
func (t *Traced) marks(strokes []Stroke) (out []Drawn) {
	lines := t.edgeLines()
	var left []inked
	for _, s := range strokes {
		if edge, inside, ok := beside(s, lines); ok {
			out = append(out, Drawn{Is: Beside, Edge: edge, At: inside, Line: []shape.Point{s.From, s.To}})
			continue
		}
		left = append(left, meeting(s, lines))
	}
	darts, left := pairs(left)
	out = append(out, darts...)
	out = append(out, t.singles(left)...)
	slices.SortStableFunc(out, func(a, b Drawn) int {
		return cmp.Or(cmp.Compare(a.Is, b.Is), cmp.Compare(a.Edge, b.Edge), cmp.Compare(a.At, b.At))
	})
	darted := 0
	for i := range out {
		switch m := &out[i]; m.Is {
		case Dart:
			darted++
			m.Word = say.Of("tracing.dart", strconv.Itoa(darted))
		case Grain:
			m.Word = "grain"
		case Cut:
			m.Word = trace.SpellLine(say.Of("tracing.slit", strconv.Itoa(i+1)), trace.SlitLine)
		}
	}
	return out
}

// roles are what marks may be called in a pattern file, and how each is drawn there.
var roles = map[trace.Role]drawing.Meaning{trace.DartLine: drawing.DartLeg, trace.Grain: drawing.GrainLine, trace.InnerLine: drawing.InnerLine,
	trace.SlitLine: drawing.SlitLine, trace.Crease: drawing.CreaseLine, trace.LevelLine: drawing.LevelLine}

// Call says what a mark is, in the words of a pattern file: "slit cuff", "line pocket",
// "grain"; "no" leaves it out.
func (m *Drawn) Call(words string) error {
	if words == "no" {
		m.Word = ""
		return nil
	}
	is := trace.MeaningOf(words)
	_, known := roles[is.Role]
	switch {
	case !is.Told || !known:
		return fault.Refusing(say.Of("tracing.dart-grain-line-name-slit-name-crease"), say.Of("tracing.is-none-of-what-may-be-drawn", say.Quoted(words)))
	case (is.Role == trace.DartLine) != (m.Is == Dart):
		return fault.Refusing(say.Of("tracing.line-name-slit-name-or-no"), say.Of("tracing.cannot-be-a-dart-is-two-lines", say.Quoted(words)))
	case is.Name == "" && is.Role != trace.DartLine && is.Role != trace.Grain:
		return fault.Refusing(say.Of("tracing.and-a-name-cuff", words), say.Of("tracing.has-no-name", say.Quoted(words)))
	}
	m.Word = words
	return nil
}

// drawMark draws a mark into the drawing of the piece, each end that meets an edge on it.
func (t *Traced) drawMark(d *drawing.Drawing, f drawing.Frame, m Drawn) {
	line, lines := slices.Clone(m.Line), t.edgeLines()
	onto := func(end, from shape.Point) shape.Point {
		best, at := math.Inf(1), end
		far := apart(end, from)
		reach := shape.Line{from, {X: end.X + 40*(end.X-from.X)/far, Y: end.Y + 40*(end.Y-from.Y)/far}}
		for _, l := range lines {
			if u, ok := reach.Crosses(l); ok && u < best {
				best = u
				at = shape.Point{X: from.X + u*(end.X-from.X)/far, Y: from.Y + u*(end.Y-from.Y)/far}
			}
		}
		return at
	}
	switch m.Is {
	case Dart:
		line[0], line[2] = onto(line[0], line[1]), onto(line[2], line[1])
	case FromEdge, Cut:
		line[0] = onto(line[0], line[1])
	case Across:
		line[0], line[1] = onto(line[0], line[1]), onto(line[1], line[0])
	}
	d.Named(roles[trace.MeaningOf(m.Word).Role], m.Word).Lines(f, line)
}

// edgeLines are the edges from corner to corner as lines.
func (t *Traced) edgeLines() (out []shape.Line) {
	for _, span := range t.spans() {
		var edges []shape.Edge
		for k := range span[1] {
			edges = append(edges, t.Outline.Edges[(span[0]+k)%len(t.Outline.Edges)])
		}
		out = append(out, shape.LineOf(t.Outline.Start(span[0]), edges))
	}
	return out
}

// beside reports whether a stroke runs along inside an edge, and how far.
func beside(s Stroke, lines []shape.Line) (edge int, inside float64, ok bool) {
	for k, l := range lines {
		if s.long() < besideLong*l.Length() {
			continue
		}
		least, most := math.Inf(1), math.Inf(-1)
		for i := range 9 {
			share := float64(i) / 8
			_, off := l.Nearest(shape.Point{X: s.From.X + share*(s.To.X-s.From.X), Y: s.From.Y + share*(s.To.Y-s.From.Y)})
			least, most = min(least, off), max(most, off)
		}
		if most < besideMost && most-least < besideEven {
			return k, (least + most) / 2, true
		}
	}
	return 0, 0, false
}

// meeting is a stroke with its ends drawn on to the edges they meet.
func meeting(s Stroke, lines []shape.Line) inked {
	out := inked{Stroke: s, edge: [2]int{-1, -1}}
	ends := [2]*shape.Point{&out.From, &out.To}
	for i, end := range ends {
		other := ends[1-i]
		long := max(apart(*other, *end), 1e-9)
		way := shape.Point{X: (end.X - other.X) / long, Y: (end.Y - other.Y) / long}
		on := shape.Line{*other, {X: end.X + meetsEdge*way.X, Y: end.Y + meetsEdge*way.Y}}
		best := math.Inf(1)
		for k, l := range lines {
			if u, ok := on.Crosses(l); ok && u > long-meetsEdge && u < best {
				p := shape.Point{X: other.X + u*way.X, Y: other.Y + u*way.Y}
				along, _ := l.Nearest(p)
				best, out.edge[i], out.at[i] = u, k, along
			}
		}
		if out.edge[i] >= 0 {
			*end = shape.Point{X: other.X + best*way.X, Y: other.Y + best*way.Y}
		}
	}
	return out
}

// pairs makes darts of two lines each that begin at one edge and meet inside.
func pairs(all []inked) (darts []Drawn, left []inked) {
	type pair struct {
		a, b  int
		point shape.Point
		off   float64
	}
	var may []pair
	for a := range all {
		for b := a + 1; b < len(all); b++ {
			if p, off, ok := pointOf(all[a], all[b]); ok {
				may = append(may, pair{a, b, p, off})
			}
		}
	}
	slices.SortStableFunc(may, func(x, y pair) int { return cmp.Compare(x.off, y.off) })
	taken := make([]bool, len(all))
	for _, m := range may {
		if taken[m.a] || taken[m.b] {
			continue
		}
		taken[m.a], taken[m.b] = true, true
		a, edge, u := outerEnd(all[m.a])
		b, _, v := outerEnd(all[m.b])
		if v < u {
			a, b = b, a
		}
		darts = append(darts, Drawn{Is: Dart, Edge: edge, At: (u + v) / 2, Line: []shape.Point{a, m.point, b}})
	}
	for i, s := range all {
		if !taken[i] && !slices.ContainsFunc(darts, func(d Drawn) bool { return meltsInto(s, d) }) {
			left = append(left, s)
		}
	}
	return darts, left
}

// outerEnd is where a line meets an edge, where just one end of it does.
func outerEnd(s inked) (p shape.Point, edge int, at float64) {
	switch {
	case s.edge[0] >= 0 && s.edge[1] < 0:
		return s.From, s.edge[0], s.at[0]
	case s.edge[1] >= 0 && s.edge[0] < 0:
		return s.To, s.edge[1], s.at[1]
	}
	return shape.Point{}, -1, 0
}

func innerEnd(s inked) shape.Point {
	if s.edge[0] >= 0 {
		return s.To
	}
	return s.From
}

// pointOf is where two lines meet as the legs of a dart do, and how far from it they end.
func pointOf(a, b inked) (p shape.Point, off float64, ok bool) {
	pa, ea, ua := outerEnd(a)
	pb, eb, ub := outerEnd(b)
	if ea < 0 || ea != eb || a.Light != b.Light {
		return p, 0, false
	}
	if mouth := math.Abs(ua - ub); mouth < leastMouth || mouth > mostMouth {
		return p, 0, false
	}
	qa, qb := innerEnd(a), innerEnd(b)
	v, w := qa.Sub(pa), qb.Sub(pb)
	det := v.X*w.Y - v.Y*w.X
	if math.Abs(det) < 0.02*a.long()*b.long() {
		return p, 0, false
	}
	d := pb.Sub(pa)
	k := (d.X*w.Y - d.Y*w.X) / det
	p = shape.Point{X: pa.X + k*v.X, Y: pa.Y + k*v.Y}
	off = max(apart(p, qa), apart(p, qb))
	return p, off, k > 0 && off < min(pointReach(pa, p, pb), 0.4*min(apart(p, pa), apart(p, pb)))
}

// pointReach is how far from the point of a dart its legs may seem to end: where they are
// close together they are seen as one line.
func pointReach(a, point, b shape.Point) float64 {
	v, w := a.Sub(point), b.Sub(point)
	return meetsPoint + melts*math.Hypot(v.X, v.Y)*math.Hypot(w.X, w.Y)/max(math.Abs(v.X*w.Y-v.Y*w.X), 1e-9)
}

// meltsInto reports whether a line is what is seen at the point of a dart, where its legs
// are one.
func meltsInto(s inked, dart Drawn) bool {
	reach := pointReach(dart.Line[0], dart.Line[1], dart.Line[2]) + meetsPoint
	return apart(s.From, dart.Line[1]) < reach && apart(s.To, dart.Line[1]) < reach
}

// singles tells what lines are that are no dart.
func (t *Traced) singles(all []inked) (out []Drawn) {
	wide, high := t.Size()
	grain, long := -1, max(leastGrain, grainShare*max(wide, high))
	for i, s := range all {
		if s.edge == [2]int{-1, -1} && s.long() > long {
			grain, long = i, s.long()
		}
	}
	for i, s := range all {
		m := Drawn{Is: Inner, Edge: -1, Line: []shape.Point{s.From, s.To}}
		_, edge, at := outerEnd(s)
		switch {
		case i == grain:
			m.Is = Grain
		case s.edge[0] >= 0 && s.edge[1] >= 0:
			m.Is = Across
		case edge >= 0:
			m.Is, m.Edge, m.At = FromEdge, edge, at
			if s.Light {
				m.Is = Cut
			}
			if s.edge[1] >= 0 {
				m.Line[0], m.Line[1] = m.Line[1], m.Line[0]
			}
		}
		out = append(out, m)
	}
	return out
}
