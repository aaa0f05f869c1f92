package cutting

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"hembook/internal/garment"
	"hembook/internal/lay"
	"hembook/internal/record"
	"hembook/internal/sewn"
	"hembook/internal/shape"
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

// straight is how far a line may bend or two may differ and count as one, mm.
const straight = 0.5

// samples is how many parts of a seam are looked at.
const samples = 24

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
		p.Notes = append(p.Notes, "the cloth has a repeat, and nothing is matched in it: see match")
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
	return m.sideName(a) + " to " + m.sideName(b)
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

// bend is how far the points of one side lie from the straight line between their ends.
func (m *matcher) bend(pairs [][2]lay.TiedPoint, side int) float64 {
	a, b := pairs[0][side].At, pairs[len(pairs)-1][side].At
	l, far := math.Hypot(b.X-a.X, b.Y-a.Y), 0.0
	for _, p := range pairs {
		q := p[side].At
		if l > 0 {
			far = max(far, math.Abs(float64((b.X-a.X)*(q.Y-a.Y))-float64((b.Y-a.Y)*(q.X-a.X)))/l)
		}
	}
	return far
}

// onFold reports whether either of two points lies on the fold of its piece.
func (m *matcher) onFold(pair [2]lay.TiedPoint) bool {
	for _, t := range pair {
		piece := m.p.Pieces[t.Piece]
		if a, b, ok := foldLine(piece); ok && offLine(shape.Point{X: t.At.Y, Y: t.At.X}, a, b) < straight {
			return true
		}
	}
	return false
}

func foldLine(p *garment.Piece) (a, b shape.Point, ok bool) {
	k := p.Outline.FoldEdge()
	if !p.OnFold || k < 0 {
		return a, b, false
	}
	return p.Outline.Start(k), p.Outline.Edges[k].To, true
}

func offLine(p, a, b shape.Point) float64 {
	w, d := b.Sub(a), p.Sub(a)
	return math.Abs(float64(w.X*d.Y)-float64(w.Y*d.X)) / math.Hypot(w.X, w.Y)
}

// spotter turns points of a copy as drawn into points of its outline in the problem; nil
// where the copy is not cut from this cloth with its grain along it.
func (m *matcher) spotter(id sewn.CopyID) func(shape.Point) lay.TiedPoint {
	c := &m.g.Sewn.Copies[id]
	i, ok := m.index[c.Name]
	if !ok || c.Layer != garment.LayerOf(m.p.Part) {
		return nil
	}
	piece := m.p.Pieces[i]
	at := m.copyOf(i, c.Number, c.Hand)
	turn := func(q shape.Point) shape.Point { return q }
	if a, b, fold := foldLine(piece); fold && c.Hand < 0 {
		turn = func(q shape.Point) shape.Point { return reflected(q, a, b) }
	} else if !fold && (c.Hand < 0) != (m.p.Lay.Pieces[i].Mirrored && at%2 == 1) {
		least, most := piece.Outline.Bounds() // its own mirror image
		turn = func(q shape.Point) shape.Point { return shape.Point{X: least.X + most.X - q.X, Y: q.Y} }
	}
	return func(q shape.Point) lay.TiedPoint {
		q = turn(q)
		return lay.TiedPoint{Piece: i, Copy: at, At: lay.Point{X: q.Y, Y: q.X}}
	}
}

// copyOf is the copy in the lay of a copy of the garment put together, its outermost ply.
func (m *matcher) copyOf(i, number int, hand int8) int {
	plies := max(1, m.p.Pieces[i].PliesIn(m.p.Part))
	at := (number - 1) * plies
	if plies == 2 && hand < 0 {
		at++
	}
	return min(at, max(1, m.p.Lay.Pieces[i].Quantity)-1)
}

func reflected(p, a, b shape.Point) shape.Point {
	w, d := b.Sub(a), p.Sub(a)
	t := (float64(d.X*w.X) + float64(d.Y*w.Y)) / (float64(w.X*w.X) + float64(w.Y*w.Y))
	return shape.Point{X: 2*(a.X+float64(t*w.X)) - p.X, Y: 2*(a.Y+float64(t*w.Y)) - p.Y}
}

// setOn matches a piece that is set on another, at its upper left corner.
func (m *matcher) setOn(e *record.Matching, under *garment.Piece, l *garment.PieceLine, s *garment.Seam) {
	i, ok := m.index[l.Place]
	k, has := m.index[under.Name]
	if !ok || !has {
		return
	}
	left, top := corner(m.p.Pieces[i].Outline.Round(m.p.Pieces[i].OnFold))
	x, y := corner(l.Points)
	for at := range max(1, m.p.Lay.Pieces[i].Quantity) {
		on := at
		if l.Hand == "right" {
			on = 1
		}
		if on >= max(1, m.p.Lay.Pieces[k].Quantity) {
			break
		}
		from := left
		if m.p.Lay.Pieces[k].Mirrored && on%2 == 1 && !(m.p.Lay.Pieces[i].Mirrored && at%2 == 1) {
			_, most := m.p.Pieces[i].Outline.Bounds() // its other corner lies there
			from = most.X
		}
		match := Match{What: e.Of, Lines: l.Place + " on " + under.Name, entry: e, pairs: [][2]lay.TiedPoint{{
			{Piece: i, Copy: at, At: lay.Point{X: top, Y: from}}, {Piece: k, Copy: on, At: lay.Point{X: y, Y: x}}}}}
		if a := s.Record.Angle.V; a != 0 {
			match.never("it is turned by " + number(a, 1) + "°")
		}
		m.add(match, false, false)
	}
}

// corner is the upper left corner of the box about a line.
func corner(l shape.Line) (left, top float64) {
	left, top = math.Inf(1), math.Inf(-1)
	for _, q := range l {
		left, top = min(left, q.X), max(top, q.Y)
	}
	return left, top
}

// line matches a line of one piece: upright, with a leading line of the pattern where one
// knows where that runs, else from copy to copy; level, with one that runs across. It may
// lie so far inside an edge.
func (m *matcher) line(e *record.Matching, at record.EdgeRef) {
	i, ok := m.index[at.Piece]
	if !ok {
		return
	}
	points := lineOf(m.p.Pieces[i], at.Edge, at.Inside.MM())
	if len(points) < 2 {
		return
	}
	low, high := points[0], points[0]
	for _, q := range points {
		low = shape.Point{X: min(low.X, q.X), Y: min(low.Y, q.Y)}
		high = shape.Point{X: max(high.X, q.X), Y: max(high.Y, q.Y)}
	}
	match := Match{What: cmp.Or(e.Of, at.Piece+"."+at.Edge), Lines: at.Piece + "." + at.Edge, entry: e}
	upright, level := high.X-low.X <= straight, high.Y-low.Y <= straight
	plies := max(1, m.p.Pieces[i].PliesIn(m.p.Part))
	var copies []lay.TiedPoint
	for at := 0; at < max(1, m.p.Lay.Pieces[i].Quantity); at += plies {
		copies = append(copies, lay.TiedPoint{Piece: i, Copy: at, At: lay.Point{X: low.Y, Y: low.X}})
	}
	cloth := &m.p.Lay.Cloth
	grain := m.p.Pieces[i].Grain
	switch {
	case grain != "along":
		match.never("it is not cut along the grain")
	case !upright && !level:
		match.never("it leans against the grain")
	case level:
		match.Along.OnLine = true
	case cloth.Lined:
		match.Across.OnLine = true
	case len(copies) == 1:
		match.Across.Never, match.Across.Why = true, noLine
	default: // the copies meet each other
		copies = append(copies[1:], copies[0])
	}
	for k, c := range copies {
		one, other := match, copies[0]
		if !match.Across.OnLine {
			other = copies[len(copies)-1]
		}
		one.pairs = [][2]lay.TiedPoint{{c, other}}
		alone := c == other
		one.Along.Asked = m.asks(e, false) && (match.Along.OnLine || match.Along.Never && k == 0 || upright && !alone && !match.Along.Never)
		one.Across.Asked = m.asks(e, true) && (match.Across.OnLine || match.Across.Never && k == 0 || upright && !alone && !match.Across.Never)
		m.tie(&one, &one.Along, false)
		m.tie(&one, &one.Across, true)
		m.keep(one)
	}
}

// never says that two lines cannot meet at all, and why.
func (m *Match) never(why string) {
	m.Along.Never, m.Across.Never = true, true
	m.Along.Why, m.Across.Why = why, why
}

const noLine = "the cloth's file does not say where a leading line runs, as repeat: {line: 12}"

// lineOf is a line of a piece, or one so far inside an edge.
func lineOf(p *garment.Piece, name string, inside float64) shape.Line {
	for i := range p.Lines {
		if p.Lines[i].Name == name {
			return p.Lines[i].Points
		}
	}
	line, err := p.Outline.Beside(name, inside)
	if err != nil {
		return nil
	}
	return line
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
		one.Across.Why = m.slanted(one) + " meet as mirror images, and an uneven pattern has none"
	case !m.even:
		one.Across.Why = m.slanted(one) + " meet as mirror images, and " + noLine
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
		return "a dart or pleat breaks the line"
	case bent:
		return "the seam is curved"
	}
	a, b := m.slant(pairs, 0), m.slant(pairs, 1)
	if math.Abs(a-b) < 0.5 {
		return "both lean " + number(a, 0) + "°"
	}
	return "one leans " + number(a, 0) + "°, the other " + number(b, 0) + "°"
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
