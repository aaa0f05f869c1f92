package lay

import (
	"fmt"
	"math"
	"sort"

	"hembook/internal/fault"
)

// newModel makes a problem ready for an open or a folded lay. The error is
// of type [fault.List].
func newModel(p *Problem, folded bool, begin []*Plan) (*model, error) {
	m := &model{width: p.Cloth.Width, maxLength: math.Inf(1), scale: 1}
	if folded {
		m.width /= 2
	}
	origin := p.Cloth.origin()
	if p.Cloth.Outline != nil {
		b := boxOf(p.Cloth.Outline)
		m.width, m.maxLength = b.height(), b.width()
	}
	_, exp := math.Frexp(m.width)
	m.scale = math.Ldexp(1, 1-exp) // the width comes to lie in [1, 2)
	m.width *= m.scale
	m.maxLength *= m.scale
	m.clearance = p.Cloth.Clearance * m.scale
	var fs fault.List
	for i := range p.Pieces {
		fs = append(fs, m.addPiece(p, i, folded)...)
	}
	if len(fs) > 0 {
		return nil, fs
	}
	m.addCloth(p, origin, folded)
	m.makeSlots()
	if fs = m.match(p, begin, folded); len(fs) > 0 {
		return nil, fs
	}
	return m, nil
}

// addPiece makes the items of one piece with every way they may lie.
func (m *model) addPiece(p *Problem, i int, folded bool) fault.List {
	piece := &p.Pieces[i]
	outline := piece.Outline
	if !folded {
		outline = piece.Unfold()
	}
	ring := tidy(outline)
	if signedArea(ring) < 0 {
		ring = reversed(ring)
	}
	inner := simplified(scaled(ring, m.scale), len(p.Pieces))
	b := boxOf(inner)
	centre := Point{(b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2}
	inner = moved(inner, -centre.X, -centre.Y)
	quantity, pairs := max(1, piece.Quantity), 0
	if folded && !piece.OnFold {
		pairs = quantity / 2
		if !p.pairable(i) {
			pairs = 0
		}
	}
	plain := m.shapesOf(p, i, inner, centre, folded, false)
	mirror := plain
	if piece.Mirrored && pairs == 0 && !p.Cloth.Reversible {
		mirror = m.shapesOf(p, i, inner, centre, folded, true)
	}
	if len(plain) == 0 || len(mirror) == 0 {
		if folded && piece.OnFold {
			return fault.List{{Of: pieceName(piece, i), Severity: fault.Error, Message: "no allowed turn brings its fold edge onto the fold",
				Hint: "the fold edge must run along the grain line"}}
		}
		return fault.List{tooWide(pieceName(piece, i), ring, m.width/m.scale, turnsOf(&p.Cloth, piece, piece.Mirrored))}
	}
	area := math.Abs(signedArea(outline)) * m.scale * m.scale
	for c := 0; c < quantity; c++ {
		it := item{piece: i, copy: c, stage: piece.Stage, shapes: plain, area: area,
			size: math.Max(b.width(), b.height()), unfolded: piece.OnFold && !folded}
		if it.pair = c < 2*pairs; it.pair {
			c++ // which the lower layer gives
		} else if c%2 == 1 {
			it.shapes = mirror
		}
		m.items = append(m.items, it)
		m.area += area
	}
	return nil
}

// shapesOf lists the ways a piece may lie; ways that look alike are kept once.
func (m *model) shapesOf(p *Problem, i int, inner []Point, centre Point, folded, mirrored bool) []int {
	var out []int
	piece, tied := &p.Pieces[i], p.tied(i)
	seen := map[string]int{}
	for _, t := range turnsOf(&p.Cloth, piece, mirrored) {
		s := m.addShape(inner, centre, t.turn, t.mirrored)
		if folded && piece.OnFold {
			if !m.liesOnFold(piece, t) {
				continue
			}
			s.onFold = true
		}
		if !m.fits(&s) {
			continue
		}
		if !tied {
			key := lookOf(s.way.applyAll(m.bases[s.base].pts))
			if k, ok := seen[key]; ok {
				m.shapes[k].alike = append(m.shapes[k].alike, seenAs{s.turn, s.mirrored, s.offX, s.offY})
				continue
			}
			seen[key] = len(m.shapes)
		}
		m.shapes = append(m.shapes, s)
		out = append(out, len(m.shapes)-1)
	}
	return out
}

// lookOf is the same for two outlines that cover the same ground.
func lookOf(pts []Point) string {
	at := append([]Point(nil), pts...)
	sort.Slice(at, func(i, j int) bool {
		return at[i].X < at[j].X || at[i].X == at[j].X && at[i].Y < at[j].Y
	})
	return fmt.Sprint(at, signedArea(pts))
}

// liesOnFold tells whether the turn lays the fold edge along the lower side.
func (m *model) liesOnFold(piece *Piece, t turnOfPiece) bool {
	n := len(piece.Outline)
	pts := make([]Point, 0, n+2)
	pts = append(pts, piece.Outline[piece.FoldEdge], piece.Outline[(piece.FoldEdge+1)%n])
	pts = append(pts, piece.Outline...)
	if t.mirrored { // turned reverses mirrored rings; the two come last then
		pts = turned(pts, t.turn, true)
		pts[0], pts[1], pts[len(pts)-1], pts[len(pts)-2] = pts[len(pts)-1], pts[len(pts)-2], pts[0], pts[1]
	} else {
		pts = turned(pts, t.turn, false)
	}
	b := boxOf(pts)
	slack := 1e-6 * math.Max(b.width(), b.height())
	return pts[0].Y-b.minY <= slack && pts[1].Y-b.minY <= slack
}

// turnsOf lists the turns and sides allowed on this cloth. A piece that may
// lie any way is tried at sixteen turns.
func turnsOf(c *Cloth, piece *Piece, mirrored bool) []turnOfPiece {
	turns := piece.Turns
	if turns == nil {
		switch piece.Grain {
		case Bias:
			turns = []float64{45, 135, 225, 315}
		case AnyWay:
			for t := 0.0; t < 360; t += 90 {
				turns = append(turns, t, t+30, t+45, t+60)
			}
			if c.OneWay {
				turns = []float64{0, 30, 45, 60, 300, 315, 330}
			}
		default:
			turns = []float64{0, 180}
		}
	}
	var kept []float64
	for _, t := range turns {
		t = normalTurn(t)
		skip := false
		for _, k := range kept {
			opposite := math.Abs(math.Abs(k-t)-180) < 1e-9
			skip = skip || k == t || c.OneWay && opposite
		}
		if !skip {
			kept = append(kept, t)
		}
	}
	var out []turnOfPiece
	for _, t := range kept {
		out = append(out, turnOfPiece{t, mirrored})
	}
	if c.Reversible || piece.OnFold {
		for _, t := range kept {
			out = append(out, turnOfPiece{t, !mirrored})
		}
	}
	return out
}

// addCloth makes flaws and everything outside a remnant into fixtures.
func (m *model) addCloth(p *Problem, origin Point, folded bool) {
	c := &p.Cloth
	onto := func(ring []Point, mirror bool) []Point {
		out := make([]Point, len(ring))
		for i, q := range ring {
			q = Point{(q.X - origin.X) * m.scale, (q.Y - origin.Y) * m.scale}
			if folded {
				q.Y -= m.width
			}
			if mirror {
				q.Y = -q.Y
			}
			out[i] = q
		}
		out = tidy(out)
		if signedArea(out) < 0 {
			out = reversed(out)
		}
		return out
	}
	for _, ring := range append(append([][]Point(nil), c.Flaws...), c.Holes...) {
		m.addFixture(onto(ring, false))
		if folded {
			m.addFixture(onto(ring, true))
		}
	}
	if c.Outline != nil {
		m.addFixture(outsideOf(onto(c.Outline, false)))
	}
}

func (m *model) addFixture(ring []Point) {
	b := boxOf(ring)
	cx, cy := (b.minX+b.maxX)/2, (b.minY+b.maxY)/2
	k := m.addBase(moved(ring, -cx, -cy), true)
	m.fixed = append(m.fixed, fixture{base: k, way: squares[0], x: cx, y: cy})
}

// outsideOf is a frame round a remnant as one ring: the frame, a bridge to
// the rightmost point of the remnant, its outline backwards, and back.
func outsideOf(ring []Point) []Point {
	b := boxOf(ring)
	g := math.Max(b.width(), b.height()) / 4
	k := 0
	for i, q := range ring {
		if q.X > ring[k].X || q.X == ring[k].X && q.Y > ring[k].Y {
			k = i
		}
	}
	door := Point{b.maxX + g, ring[k].Y}
	out := []Point{door, {b.maxX + g, b.maxY + g}, {b.minX - g, b.maxY + g}, {b.minX - g, b.minY - g}, {b.maxX + g, b.minY - g}, door}
	for i := range ring {
		out = append(out, ring[((k-i)%len(ring)+len(ring))%len(ring)])
	}
	return append(out, ring[k])
}
