package cutting

import (
	"cmp"
	"math"

	"hembook/internal/garment"
	"hembook/internal/lay"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/sewn"
	"hembook/internal/shape"
)

// straight is how far a line may bend or two may differ and count as one, mm.
const straight = 0.5

// samples is how many parts of a seam are looked at.
const samples = 24

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
		match := Match{What: e.Of, Lines: say.Of("cutting.on", l.Place, under.Name), entry: e, pairs: [][2]lay.TiedPoint{{
			{Piece: i, Copy: at, At: lay.Point{X: top, Y: from}}, {Piece: k, Copy: on, At: lay.Point{X: y, Y: x}}}}}
		if a := s.Record.Angle.V; a != 0 {
			match.never(say.Of("cutting.it-is-turned-by", number(a, 1)))
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
		match.never(say.Of("cutting.it-is-not-cut-along-the-grain"))
	case !upright && !level:
		match.never(say.Of("cutting.it-leans-against-the-grain"))
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

var noLine = say.Of("cutting.the-cloths-file-does-not-say-where")

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
