package sewn

import (
	"slices"

	"hembook/internal/shape"
)

// A Net is a layer laid flat: its single pieces side by side with their right
// side up, as they are seen from outside, so that what is sewn together faces
// each other. y runs up.
type Net struct {
	Layer     string
	Gap       float64 // what lies between two pieces at least, mm
	Laid      []Laid  // every copy of the layer, by its number
	Meetings  []Meeting
	Openings  []Loop // zips and buttons open, those of single pieces that nothing is sewn to left out
	Low, High shape.Point

	drawn map[Span][]shape.Point // of what meets and stays open, on the outlines as they are drawn
}

// A Laid is where a copy lies.
type Laid struct {
	Copy  CopyID
	Turn  float64     // against the clock, in radians, once it is turned over where it is mirrored
	Shift shape.Point // then
	Group Group
	Side  Wearer

	over bool // it is turned over
	ring netRing
}

// A Group is a part of a net with a place of its own.
type Group int8

// The groups.
const (
	Body  Group = iota // what hangs together
	Back               // facings and second plies: they lie behind the body
	Onto               // what is sewn onto the face of other pieces, as pockets are
	Apart              // what no seam joins
	groups
)

// A Wearer is a side of the body as whoever wears the garment calls it.
type Wearer int8

// The sides of the body.
const (
	NoSide Wearer = iota
	LeftSide
	RightSide
)

// A Meeting is a join as a net shows it.
type Meeting struct {
	Join JoinID
	Pair string  // a, b … among the joins of its seam; "" where there is but one
	Far  bool    // its lines do not face each other across a gap
	Here [2]bool // which of its sides, A and B, lie in the net
}

// At is where a point of the copy's outline lies.
func (l *Laid) At(p shape.Point) shape.Point {
	if l.over {
		p.X = -p.X
	}
	return spun(p, l.Turn).Add(l.Shift)
}

// Line is where a stretch lies, as points from its beginning to its end.
func (n *Net) Line(s *Surface, sp Span) []shape.Point {
	l := n.of(s.Sides[sp.Side].Copy)
	if l == nil {
		return nil
	}
	drawn, ok := n.drawn[sp]
	if !ok {
		drawn = s.drawn(sp)
	}
	out := make([]shape.Point, len(drawn))
	for i, p := range drawn {
		out[i] = l.At(p)
	}
	return out
}

// keep works out a stretch that every drawing of the net asks for.
func (n *Net) keep(s *Surface, sp Span) {
	if n.drawn == nil {
		n.drawn = map[Span][]shape.Point{}
	}
	if _, ok := n.drawn[sp]; !ok && n.has(s, sp) {
		n.drawn[sp] = s.drawn(sp)
	}
}

func (n *Net) of(id CopyID) *Laid {
	i, ok := slices.BinarySearchFunc(n.Laid, id, func(l Laid, id CopyID) int { return int(l.Copy) - int(id) })
	if !ok {
		return nil
	}
	return &n.Laid[i]
}

// drawn is a stretch as points on the outline as it is drawn, from its beginning
// to its end against the clock; at a dart it goes across the mouth.
func (s *Surface) drawn(sp Span) []shape.Point {
	side := &s.Sides[sp.Side]
	c := &s.Copies[side.Copy]
	ps := &s.shapes[c.Piece].sides[side.Index]
	from, to := ps.drawnAt(s.along(sp.Side, sp.From)), ps.drawnAt(s.along(sp.Side, sp.To))
	back := from > to
	if back {
		from, to = to, from
	}
	const parts = 12 // of each part of an edge: enough for what a net shows
	at := []float64{from}
	for k, begin := range ps.before {
		end := ps.length
		if k+1 < len(ps.before) {
			end = ps.before[k+1]
		}
		a, b := max(begin, from), min(end, to)
		if b <= a {
			continue
		}
		n := 1
		if o := &s.Plan.Pieces[c.Piece].Outline; o.Edges[(ps.first+k)%len(o.Edges)].Curved {
			n = parts
		}
		for i := 1; i <= n; i++ {
			at = append(at, a+float64((b-a)*float64(i)/float64(n)))
		}
	}
	out := s.Plan.Pieces[c.Piece].Outline.PointsOn(side.Edge, at)
	if back {
		slices.Reverse(out)
	}
	return out
}

// Net lays a layer flat. What lies where depends on the garment alone: the same
// garment gives the same net to the last bit, whatever the order in which it was
// told, and its mirror image the mirror image of the net; what lies aside from the
// body is listed from the left all the same.
func (s *Surface) Net(layer string) *Net {
	n := &Net{Layer: layer}
	worn := s.Wearers()
	t := &netting{s: s, net: n, worn: worn}
	t.measure()
	for times := 1; ; times++ {
		t.cutApart()
		t.together()
		if times == mostGaps || !t.widen() {
			break
		}
	}
	for g := range t.groups {
		for _, b := range t.groups[g] {
			for _, l := range b.laid {
				l.Group, l.Side = Group(g), worn[l.Copy]
				n.Laid = append(n.Laid, l)
			}
		}
	}
	slices.SortFunc(n.Laid, func(a, b Laid) int { return int(a.Copy) - int(b.Copy) })
	for i := range n.Laid {
		low, high := n.Laid[i].ring.low, n.Laid[i].ring.high
		if i == 0 {
			n.Low, n.High = low, high
		}
		n.Low.X, n.Low.Y = min(n.Low.X, low.X), min(n.Low.Y, low.Y)
		n.High.X, n.High.Y = max(n.High.X, high.X), max(n.High.Y, high.Y)
	}
	n.meet(s)
	n.opened(s)
	return n
}

// meet lists the joins of the net, each once.
func (n *Net) meet(s *Surface) {
	perSeam := map[int]int{}
	for i := range s.Joins {
		j := &s.Joins[i]
		m := Meeting{Join: JoinID(i), Here: [2]bool{n.has(s, j.A), n.has(s, j.B)}}
		if j.Kind == Fold || !m.Here[0] && !m.Here[1] {
			continue
		}
		n.keep(s, j.A)
		n.keep(s, j.B)
		m.Far = !m.Here[0] || !m.Here[1] || n.far(n.Line(s, j.A), n.Line(s, j.B))
		if s.ShowsSeam(j) {
			m.Pair = pairName(perSeam[j.Seam])
			perSeam[j.Seam]++
		}
		n.Meetings = append(n.Meetings, m)
	}
	for i := range n.Meetings {
		if at := s.Joins[n.Meetings[i].Join].Seam; at >= 0 && perSeam[at] == 1 {
			n.Meetings[i].Pair = ""
		}
	}
}

func (n *Net) has(s *Surface, sp Span) bool { return n.of(s.Sides[sp.Side].Copy) != nil }

// In reports whether a stretch lies in what hangs together of the net.
func (n *Net) In(s *Surface, sp Span) bool {
	l := n.of(s.Sides[sp.Side].Copy)
	return l != nil && l.Group == Body
}

// FinishOf is what makes a side neat; "" where nothing does.
func (s *Surface) FinishOf(id SideID) string { return s.known(id).Finish }

// known is what is known of a side's edge beside its form.
func (s *Surface) known(id SideID) Edge {
	edges := s.piece(id).Edges
	for i := range edges {
		if edges[i].Name == s.Sides[id].Edge {
			return edges[i]
		}
	}
	return Edge{}
}

// pairName is a, b … z, aa, ab …
func pairName(i int) string {
	if i < 26 {
		return string(rune('a' + i))
	}
	return pairName(i/26-1) + string(rune('a'+i%26))
}

// far reports whether two lines do not face each other across a gap.
func (n *Net) far(a, b []shape.Point) bool {
	if len(a) < 2 || len(b) < 2 {
		return true
	}
	one, two := chordOf(a), chordOf(b)
	across := two.mid.Sub(one.mid)
	wide := long(across)
	if wide > 3.2*n.Gap || dot(one.out, two.out) > -0.5 {
		return true
	}
	return wide > 0 && dot(one.out, across) < 0.5*wide
}

// opened lists the openings, those apart of single pieces that nothing joins.
func (n *Net) opened(s *Surface) {
	for _, l := range s.Loops(n.Layer, false) {
		if n.In(s, l.Spans[0]) {
			n.Openings = append(n.Openings, l)
			for _, sp := range l.Spans {
				n.keep(s, sp)
			}
		}
	}
}
