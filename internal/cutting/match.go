package cutting

import (
	"math"
	"slices"
	"strings"

	"hembook/internal/garment"
	"hembook/internal/lay"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/sewn"
)

// A Match is two lines of pieces that must meet in the pattern of the cloth.
type Match struct {
	What   string // as the record names it
	Lines  string // "front.side to back.side"
	Along  Met    // by the repeat along the cloth
	Across Met    // by the repeat across it

	entry *record.Matching
	pairs [][2]lay.TiedPoint // points that are sewn to each other, from where they meet on
}

// A Met is how two lines meet in one direction.
type Met struct {
	Asked  bool    // the cloth has a repeat there, and the record wants it met
	Why    string  // why they cannot meet all the way, or at all; "" where they do
	Never  bool    // they are not tied at all
	Mirror bool    // they meet as mirror images, as slanted seams do
	OnLine bool    // the line lies on a leading line of the pattern
	Off    float64 // how far they are off at most, mm; of what meets at one point only, there
	All    float64 // how far they are off at most all along, mm
	tie    int     // into the problem's; −1 where none is
}

// A matcher collects what must meet in the pattern of one cloth.
type matcher struct {
	p     *Problem
	g     *garment.Garment
	c     *garment.Cloth
	index map[string]int // of a piece in the problem
	even  bool           // the pattern is the same from both sides, and one knows where a leading line runs
}

func newMatcher(p *Problem, g *garment.Garment, c *garment.Cloth) *matcher {
	m := &matcher{p: p, g: g, c: c, index: map[string]int{}, even: p.Lay.Cloth.Lined && !c.Cloth.Uneven.V}
	for i, piece := range p.Pieces {
		if piece != nil {
			m.index[piece.Name] = i
		}
	}
	return m
}

// match ties the pieces of cloth with a repeat to each other, as the record wants them
// to meet.
func (p *Problem) match(g *garment.Garment, c *garment.Cloth) {
	cloth := &p.Lay.Cloth
	if cloth.RepeatAlong == 0 && cloth.RepeatAcross == 0 {
		return
	}
	m := newMatcher(p, g, c)
	for i := range g.Build.Match {
		m.entry(&g.Build.Match[i])
	}
	p.pointAlike()
	if len(p.Matches) == 0 {
		p.Notes = append(p.Notes, say.Of("cutting.the-cloth-has-a-repeat-and-nothing"))
	}
}

// entry matches one thing that the record names.
func (m *matcher) entry(e *record.Matching) {
	if e.Edge != "" {
		m.line(e, record.EdgeRef{Piece: e.Piece, Edge: e.Edge})
		return
	}
	for _, s := range m.g.Seams {
		if s.Record.Name.V == e.Of {
			m.seam(e, s)
			return
		}
	}
	if n := m.g.Build.NotionOf(e.Of); n != nil {
		m.line(e, n.Along.V)
		if n.HolesOn.Given() {
			m.line(e, n.HolesOn.V)
		}
	}
}

// seam matches the two sides of a seam, or a piece that is set on another.
func (m *matcher) seam(e *record.Matching, s *garment.Seam) {
	for i, under := range m.g.Pieces {
		for k := range under.Lines {
			if l := &m.g.Pieces[i].Lines[k]; l.Name == s.Name && l.Place != "" {
				m.setOn(e, under, l, s)
			}
		}
	}
	var joins []sewn.JoinID
	for id := range m.g.Sewn.Joins {
		if j := &m.g.Sewn.Joins[id]; j.Kind == sewn.Sewn && m.g.SeamOf(j.Seam) == s {
			joins = append(joins, sewn.JoinID(id))
		}
	}
	slices.SortStableFunc(joins, func(a, b sewn.JoinID) int { return m.rank(a) - m.rank(b) })
	var met []matchedJoin
	for _, id := range joins {
		if one, ok := m.join(e, id); ok {
			met = append(met, one)
		}
	}
	for i := range met {
		m.lean(met, &met[i].Match)
		m.add(met[i].Match, met[i].darted, met[i].bent)
	}
}

// A matchedJoin is a match of one join of a seam.
type matchedJoin struct {
	Match
	darted, bent bool
}

// rank puts what lies at the back last: where not all can meet, the front does (common
// practice, no source).
func (m *matcher) rank(id sewn.JoinID) int {
	if strings.Contains(m.lines(id), "back") {
		return 1
	}
	return 0
}

func (m *matcher) lines(id sewn.JoinID) string {
	j := &m.g.Sewn.Joins[id]
	a, b := j.A.Side, j.B.Side
	if s := m.g.SeamOf(j.Seam); !s.Has(0, m.pieceOf(a)) || s.Has(0, m.pieceOf(b)) && a > b {
		a, b = b, a
	}
	return say.Of("cutting.to", m.sideName(a), m.sideName(b))
}

func (m *matcher) sideName(id sewn.SideID) string {
	return m.pieceOf(id) + "." + m.g.Sewn.Sides[id].Edge
}

func (m *matcher) pieceOf(id sewn.SideID) string {
	return m.g.Sewn.Copies[m.g.Sewn.Sides[id].Copy].Name
}

// join matches one join, from where it is to meet: at a notch of a curved seam, at a
// fold, else at its lower end.
func (m *matcher) join(e *record.Matching, id sewn.JoinID) (matchedJoin, bool) {
	s := m.g.Sewn
	j := &s.Joins[id]
	one, two := s.Sides[j.A.Side].Copy, s.Sides[j.B.Side].Copy
	a, b := m.spotter(one), m.spotter(two)
	if a == nil || b == nil {
		return matchedJoin{}, false
	}
	pair := func(x, y float64) [2]lay.TiedPoint {
		p, q := s.Facing(id, x, y)
		return [2]lay.TiedPoint{a(p), b(q)}
	}
	match := Match{What: e.Of, Lines: m.lines(id), entry: e}
	for k := range samples + 1 {
		at := float64(k) / samples
		match.pairs = append(match.pairs, pair(at, at))
	}
	if first, last := match.pairs[0], match.pairs[samples]; last[0].At.X < first[0].At.X-straight {
		slices.Reverse(match.pairs) // from the hem up
	}
	bent := math.Max(m.bend(match.pairs, 0), m.bend(match.pairs, 1)) > 3
	if x, y, ok := s.Notched(id); ok && bent {
		match.pairs = append([][2]lay.TiedPoint{pair(x, y)}, match.pairs...)
	} else if m.onFold(match.pairs[samples]) && !m.onFold(match.pairs[0]) {
		slices.Reverse(match.pairs)
	}
	return matchedJoin{match, m.g.Sewn.Darted(id), bent}, true
}

// never says that two lines cannot meet at all, and why.
func (m *Match) never(why string) {
	m.Along.Never, m.Across.Never = true, true
	m.Along.Why, m.Across.Why = why, why
}

// asks reports whether the cloth repeats in a direction and the record wants it met there.
func (m *matcher) asks(e *record.Matching, across bool) bool {
	repeat, way := m.p.Lay.Cloth.RepeatAlong, "along"
	if across {
		repeat, way = m.p.Lay.Cloth.RepeatAcross, "across"
	}
	return repeat > 0 && (e.Way == "" || e.Way == way)
}

// add adds a match with the ties it needs.
func (m *matcher) add(one Match, darted, bent bool) {
	one.Along.Asked, one.Across.Asked = m.asks(one.entry, false), m.asks(one.entry, true)
	m.onGrain(&one)
	if !one.Along.Never {
		one.Along.Why = m.unlike(one.pairs, false, 1, darted, bent)
		m.across(&one, darted, bent)
		one.Across.Never = one.Across.Why != ""
	}
	m.tie(&one, &one.Along, false)
	m.tie(&one, &one.Across, true)
	m.keep(one)
}

// across says how two lines meet across the cloth.
func (m *matcher) across(one *Match, darted, bent bool) {
	why := m.unlike(one.pairs, true, 1, darted, bent)
	switch {
	case why == "":
	case m.unlike(one.pairs, true, -1, darted, bent) != "":
		one.Across.Why = why
	case m.c.Cloth.Uneven.V:
		one.Across.Why = say.Of("cutting.meet-as-mirror-images-and-an-uneven", m.slanted(one))
	case !m.even:
		one.Across.Why = say.Of("cutting.meet-as-mirror-images-and", m.slanted(one), noLine)
	default:
		one.Across.Mirror = true
	}
}

// unlike says why two lines that meet at one point do not all along: way is 1 where the
// pattern goes on, −1 where it meets its mirror image.
func (m *matcher) unlike(pairs [][2]lay.TiedPoint, across bool, way float64, darted, bent bool) string {
	switch {
	case m.spread(pairs, across, way) <= 2*straight:
		return ""
	case darted:
		return say.Of("cutting.a-dart-or-pleat-breaks-the-line")
	case bent:
		return say.Of("cutting.the-seam-is-curved")
	}
	a, b := m.slant(pairs, 0), m.slant(pairs, 1)
	if math.Abs(a-b) < 0.5 {
		return say.Of("cutting.both-lean", number(a, 0))
	}
	return say.Of("cutting.one-leans-the-other", number(a, 0), number(b, 0))
}

// spread is how far two lines that meet at one point are off all along, at most.
func (m *matcher) spread(pairs [][2]lay.TiedPoint, across bool, way float64) float64 {
	off := func(k int) float64 { return m.worn(&pairs[k][0], across) - float64(way*m.worn(&pairs[k][1], across)) }
	far := 0.0
	for k := range pairs {
		far = max(far, math.Abs(off(k)-off(0)))
	}
	return far
}

// slant is by how many degrees one side of a seam leans from the grain.
func (m *matcher) slant(pairs [][2]lay.TiedPoint, side int) float64 {
	a, b := pairs[0][side].At, pairs[len(pairs)-1][side].At
	return math.Atan2(math.Abs(b.Y-a.Y), math.Abs(b.X-a.X)) * 180 / math.Pi
}

// worn is how far a point lies along or across its piece as it is worn.
func (m *matcher) worn(t *lay.TiedPoint, across bool) float64 {
	q := &m.p.Lay.Pieces[t.Piece]
	sin, cos := math.Sincos(q.Shown * math.Pi / 180)
	x, y := t.At.X, t.At.Y
	if q.Shown != 0 {
		x, y = float64(x*cos)-float64(y*sin), float64(x*sin)+float64(y*cos)
	}
	switch {
	case !across:
		return x
	case q.Mirrored && t.Copy%2 == 1:
		return -y
	}
	return y
}

// tie ties two points in one direction where that is asked.
func (m *matcher) tie(one *Match, met *Met, across bool) {
	met.tie = -1
	if !met.Asked || met.Never {
		return
	}
	t := lay.Tie{A: one.pairs[0][0], B: one.pairs[0][1], Across: across}
	switch {
	case met.OnLine:
		t.Kind = lay.OnLine
	case met.Mirror:
		t.Kind = lay.Mirror
	case t.A.Piece == t.B.Piece && t.A.Copy == t.B.Copy:
		return
	}
	met.tie = len(m.p.Lay.Ties)
	m.p.Lay.Ties = append(m.p.Lay.Ties, t)
}

func (m *matcher) keep(one Match) {
	if one.Along.Asked || one.Across.Asked {
		m.p.Matches = append(m.p.Matches, one)
	}
}
