package sewn

import (
	"math"
	"slices"
	"strings"
)

// How two lines lie to each other is judged by what is set against each other
// along them. All costs are millimetres, or set beside millimetres.
const (
	samples   = 96
	outOfTurn = 30 // the first edge named should meet the first
	strangers = 40 // front meets front where both names say so
	twins     = 20 // what is like a piece meets the other hand of it
)

// cost says how badly two lines lie to each other: edges named first should
// meet, both should rise and fall along the grain alike, joints should meet
// joints and notches notches of their name.
func (b *builder) cost(r *run, m *meeting) float64 {
	one, two := b.line(r, 0, m.one, false), b.line(r, 1, m.two, true)
	sum, rise := 0.0, make([]float64, samples)
	mean := 0.0
	last, strange := [2]int{-1, -1}, 0.0
	for k := range samples {
		at := (float64(k) + 0.5) / samples
		x, y := one.at(at), two.at(at)
		sum += outOfTurn * math.Abs(one.order[x]-two.order[y]) / samples
		if last != [2]int{x, y} {
			last, strange = [2]int{x, y}, b.strange(m.one[x].Side, m.two[y].Side)
		}
		sum += strange / samples
		rise[k] = one.rise(at) - two.rise(at)
		mean += rise[k] / samples
	}
	for _, d := range rise {
		sum += math.Abs(d-mean) / samples
	}
	return sum + jointsApart(&one, &two) + notchesApart(&one, &two)
}

// strange says how badly two sides go together by their names and hands.
func (b *builder) strange(x, y SideID) float64 {
	one, two := b.s.piece(x), b.s.piece(y)
	cost := 0.0
	a, c := b.faces(x), b.faces(y)
	if a != "" && c != "" && a != c {
		cost += strangers
	}
	like := one.Name == two.Like || two.Name == one.Like || one.Like != "" && one.Like == two.Like
	if like && b.s.Copies[b.s.Sides[x].Copy].Hand == b.s.Copies[b.s.Sides[y].Copy].Hand && b.s.Sides[x].Edge == b.s.Sides[y].Edge {
		cost += twins
	}
	return cost
}

// faces is which of front and back the names of a side say.
func (b *builder) faces(id SideID) string {
	s := &b.s.Sides[id]
	return b.s.shapes[b.s.Copies[s.Copy].Piece].sides[s.Index].faces
}

// sideWords is which of front and back a name says; "" for none or both.
func sideWords(name string) string {
	found := ""
	for w := range strings.FieldsSeq(strings.ToLower(name)) {
		if w == "front" || w == "back" {
			if found != "" && found != w {
				return ""
			}
			found = w
		}
	}
	return found
}

// A line is one side of a meeting as it is walked, its places counted from
// nought to one.
type line struct {
	ends    []float64 // where each part ends, mm
	total   float64
	order   []float64   // of each part: where its edge is named in its list, nought to one
	ways    [][]float64 // of each part: heights along it, mm, at equal steps
	before  []float64   // how much the line has risen where each part begins
	notches []lineNotch
}

type lineNotch struct {
	name string
	at   float64 // nought to one
}

// heights is how many places of a part its height is taken at.
const heights = 24

// line walks one side of a meeting; backwards says that its parts are walked
// with the clock.
func (b *builder) line(r *run, side int, parts []Span, backwards bool) line {
	var out line
	risen := 0.0
	for _, p := range parts {
		begin := out.total
		out.total += p.Length()
		out.ends = append(out.ends, out.total)
		place := 0
		s := &b.s.Sides[p.Side]
		for k, key := range r.edges[side] {
			if key.piece == b.s.Copies[s.Copy].Piece && key.side == s.Index {
				place = k
			}
		}
		out.order = append(out.order, float64(place)/math.Max(1, float64(len(r.edges[side])-1)))
		way := b.heightsOf(p)
		if backwards {
			slices.Reverse(way)
		}
		out.ways = append(out.ways, way)
		out.before = append(out.before, risen-way[0])
		risen += way[heights] - way[0]
		out.addNotches(b, p, begin, backwards)
	}
	for i := range out.notches {
		if out.total > 0 {
			out.notches[i].at /= out.total
		}
	}
	return out
}

func (l *line) addNotches(b *builder, p Span, begin float64, backwards bool) {
	side := &b.s.shapes[b.s.Copies[b.s.Sides[p.Side].Copy].Piece].sides[b.s.Sides[p.Side].Index]
	for _, n := range side.note.Notches {
		at := b.s.along(p.Side, side.closedAt(n.Along)) - p.From
		if n.Name == "" || at < -touch || at > p.Length()+touch {
			continue
		}
		if backwards {
			at = p.Length() - at
		}
		l.notches = append(l.notches, lineNotch{n.Name, begin + at})
	}
}

// heightsOf are the heights of the outline along a part, against the clock.
func (b *builder) heightsOf(p Span) []float64 {
	s := &b.s.Sides[p.Side]
	piece := b.s.Copies[s.Copy].Piece
	side := &b.s.shapes[piece].sides[s.Index]
	if side.heights == nil {
		at := make([]float64, heights+1)
		for k := range at {
			at[k] = side.drawnAt(side.closed * float64(k) / heights)
		}
		side.heights = make([]float64, len(at))
		for k, pt := range b.s.Plan.Pieces[piece].Outline.PointsOn(s.Edge, at) {
			side.heights[k] = pt.Y
		}
	}
	out := make([]float64, heights+1)
	for k := range out {
		along := b.s.along(p.Side, p.From+p.Length()*float64(k)/heights)
		out[k] = steps(side.heights, along/max(side.closed, touch))
	}
	return out
}

// steps is the value at a place, nought to one, between values at equal steps.
func steps(list []float64, place float64) float64 {
	step := min(max(place, 0), 1) * float64(len(list)-1)
	i := min(int(step), len(list)-2)
	part := step - float64(i)
	return float64(list[i]*(1-part)) + float64(list[i+1]*part)
}

// drawnAt is where on the edge as drawn a place of the closed side lies; at a
// dart, beyond it.
func (s *pieceSide) drawnAt(closed float64) float64 {
	if s.closed <= touch {
		return 0
	}
	at := closed * s.flat() / s.closed
	for _, m := range s.mouths {
		if at >= m.from {
			at += max(m.to-m.from, 0)
		}
	}
	return min(at, s.length)
}

// at is the part in which a place lies.
func (l *line) at(place float64) int {
	for k, end := range l.ends {
		if place*l.total <= end {
			return k
		}
	}
	return len(l.ends) - 1
}

// rise is how far the line has risen along the grain, pieces set end to end.
func (l *line) rise(place float64) float64 {
	k := l.at(place)
	begin := 0.0
	if k > 0 {
		begin = l.ends[k-1]
	}
	length := l.ends[k] - begin
	if length <= 0 {
		return l.before[k] + l.ways[k][0]
	}
	return l.before[k] + steps(l.ways[k], (place*l.total-begin)/length)
}

// jointsApart is how far the joints of the shorter list lie from joints of the
// other, on the mean, mm.
func jointsApart(one, two *line) float64 {
	if len(one.ends) > len(two.ends) {
		one, two = two, one
	}
	n := len(one.ends) - 1
	if n < 1 || one.total <= 0 || two.total <= 0 {
		return 0
	}
	sum := 0.0
	for _, end := range one.ends[:n] {
		least := math.Inf(1)
		for _, other := range two.ends {
			least = min(least, math.Abs(end/one.total-other/two.total)*two.total)
		}
		sum += least / float64(n)
	}
	return sum
}

// notchesApart is how far notches of one name lie from each other, on the mean.
func notchesApart(one, two *line) float64 {
	sum, n := 0.0, 0.0
	for _, x := range one.notches {
		least := math.Inf(1)
		for _, y := range two.notches {
			if x.name == y.name {
				least = min(least, math.Abs(x.at-y.at)*two.total)
			}
		}
		if !math.IsInf(least, 1) {
			sum, n = sum+least, n+1
		}
	}
	if n == 0 {
		return 0
	}
	return sum / n
}
