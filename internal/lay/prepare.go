package lay

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"hembook/internal/fault"
)

// A bed is the cloth as it lies, and which of the copies are laid on it.
type bed struct {
	Folding
	from float64 // nothing lies nearer to the cut end
	of   copies
}

// Copies are those of a problem that are laid on a bed.
type copies int

const (
	allCopies copies = iota
	inPairs          // those that two layers give, or the fold
	singles          // the others
)

// folding is how the cloth is folded where pairs are cut: of singles by themselves, beside
// them.
func (b *bed) folding(p *Problem) Folding {
	if b.of == singles {
		return Folding{Fold: Lengthwise, Near: p.Cloth.Width / 2}
	}
	return b.Folding
}

// newModel makes a problem ready for a lay on one bed. The error is of type [fault.List].
func newModel(p *Problem, on bed, begin []*Plan) (*model, error) {
	m := &model{bed: on, width: on.Across(p.Cloth.Width), maxLength: math.Inf(1), scale: 1, shared: p.fields}
	if m.shared == nil {
		m.shared = new(fieldStore)
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
	m.addZones(p)
	var fs fault.List
	for i := range p.Pieces {
		m.stages = append(m.stages, p.Pieces[i].Stage)
		fs = append(fs, m.addPiece(p, i)...)
	}
	if len(fs) > 0 {
		return nil, fs
	}
	m.addCloth(p, origin)
	m.makeSlots()
	if fs = m.match(p, begin); len(fs) > 0 {
		return nil, fs
	}
	return m, nil
}

// addZones notes the parts of the bed, and whether pieces that are cut once have one of
// their own.
func (m *model) addZones(p *Problem) {
	m.zones = m.bed.Zones(p.Cloth.Width)
	if p.Cloth.Outline != nil {
		m.zones[0].Far = m.width / m.scale
	}
	for k := range m.zones {
		z := &m.zones[k]
		z.From = max(z.From, m.bed.from) * m.scale
		z.To, z.Near, z.Far = z.To*m.scale, z.Near*m.scale, z.Far*m.scale
	}
}

// zonesFor are the zones with one layer or with two.
func (m *model) zonesFor(double bool) []Zone {
	var out []Zone
	for _, z := range m.zones {
		if z.Double == double {
			out = append(out, z)
		}
	}
	return out
}

// addPiece makes the items of one piece with every way they may lie.
func (m *model) addPiece(p *Problem, i int) fault.List {
	piece := &p.Pieces[i]
	if piece.OnFold && (m.bed.Folded() || m.bed.of == singles) {
		if m.addHalves(p, i) {
			return nil
		}
	}
	out := m.outlineOf(p, i, false)
	quantity := max(1, piece.Quantity)
	pairs := p.pairsOn(i, m.bed.folding(p))
	if pairs > 0 && m.bed.of != singles {
		shapes := m.shapesOf(p, i, out, m.zonesFor(true), false)
		if len(shapes) == 0 {
			return fault.List{tooWide(pieceName(piece, i), out.ring, m.width/m.scale, turnsOf(&p.Cloth, piece, false))}
		}
		m.addItems(i, out, shapes, shapes, 0, 2*pairs, true)
	}
	if 2*pairs == quantity || m.bed.of == inPairs {
		return nil
	}
	alone := m.zonesFor(false)
	if len(alone) == 0 {
		alone = m.zones // and what lies under them is left over
	}
	plain := m.shapesOf(p, i, out, alone, false)
	mirror := plain
	if piece.Mirrored && pairs == 0 && !p.Cloth.Reversible {
		mirror = m.shapesOf(p, i, out, alone, true)
	}
	if len(plain) == 0 || len(mirror) == 0 {
		if m.bed.Folded() && piece.OnFold {
			return fault.List{{Of: pieceName(piece, i), Severity: fault.Error, Message: "no allowed turn brings its fold edge onto the fold",
				Hint: "the fold edge must run along the grain line"}}
		}
		return fault.List{tooWide(pieceName(piece, i), out.ring, m.width/m.scale, turnsOf(&p.Cloth, piece, piece.Mirrored))}
	}
	m.addItems(i, out, plain, mirror, 2*pairs, quantity, false)
	return nil
}

// addHalves adds the copies of a piece that lie on a fold as halves, and reports whether
// there is one on which they do.
func (m *model) addHalves(p *Problem, i int) bool {
	piece := &p.Pieces[i]
	if m.bed.of == singles {
		return p.onFold(i, m.bed.folding(p))
	}
	half := m.outlineOf(p, i, true)
	shapes := m.shapesOf(p, i, half, m.zonesFor(true), false)
	if len(shapes) > 0 {
		m.addItems(i, half, shapes, shapes, 0, max(1, piece.Quantity), false)
	}
	return len(shapes) > 0
}

// A drawn is an outline of a piece ready to be laid.
type drawn struct {
	ring   []Point // in outer units, counter-clockwise
	inner  []Point // in inner ones, about the middle of its box
	centre Point   // of the box
	size   float64 // its longer side
	area   float64
	half   bool // it lies on a fold
}

func (m *model) outlineOf(p *Problem, i int, half bool) drawn {
	outline := p.Pieces[i].Outline
	if !half {
		outline = p.Pieces[i].Unfold()
	}
	d := drawn{ring: tidy(outline), half: half}
	if signedArea(d.ring) < 0 {
		d.ring = reversed(d.ring)
	}
	key := outlineKey{i, half, m.scale}
	if d.inner = p.thinned[key]; d.inner == nil {
		exact := scaled(d.ring, m.scale)
		if d.inner = simplified(exact, len(p.Pieces)); m.onlyExact(exact, d.inner) {
			d.inner = exact
		}
		if p.thinned != nil {
			p.thinned[key] = d.inner
		}
	}
	b := boxOf(d.inner)
	d.centre = Point{(b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2}
	d.inner = moved(d.inner, -d.centre.X, -d.centre.Y)
	d.size = math.Max(b.width(), b.height())
	d.area = math.Abs(signedArea(outline)) * m.scale * m.scale
	return d
}

// onlyExact reports whether a piece lies within the width of the cloth and its outline with
// fewer points, which is never smaller, does not.
func (m *model) onlyExact(exact, fewer []Point) bool {
	a, b := boxOf(exact), boxOf(fewer)
	return a.height() <= m.width && b.height() > m.width || a.width() <= m.width && b.width() > m.width
}

// addItems adds the copies of a piece from one to another; the second of a pair is given
// by the lower layer, every second one by itself is mirrored.
func (m *model) addItems(i int, d drawn, plain, mirror []int, from, to int, pair bool) {
	for c := from; c < to; c++ {
		it := item{piece: i, copy: c, stage: m.stages[i], shapes: plain, area: d.area, size: d.size, pair: pair, half: d.half}
		if pair {
			c++
		} else if c%2 == 1 {
			it.shapes = mirror
		}
		m.items = append(m.items, it)
		m.area += d.area
	}
}

// shapesOf lists the ways a piece may lie in some zones; ways that look alike are kept
// once.
func (m *model) shapesOf(p *Problem, i int, d drawn, zones []Zone, mirrored bool) []int {
	var out []int
	piece, tied := &p.Pieces[i], p.tied(i)
	for _, z := range zones {
		seen := map[string]int{}
		for _, t := range turnsOf(&p.Cloth, piece, mirrored) {
			s := m.addShape(d.inner, d.centre, t.turn, t.mirrored)
			s.zone = z
			if d.half && !s.putOnFold(piece, t) || !m.fits(&s) {
				continue
			}
			if !tied {
				key := lookOf(s.way.applyAll(m.bases[s.base].pts), s.zone)
				if k, ok := seen[key]; ok {
					m.shapes[k].alike = append(m.shapes[k].alike, seenAs{s.turn, s.mirrored, s.offX, s.offY})
					continue
				}
				seen[key] = len(m.shapes)
			}
			m.shapes = append(m.shapes, s)
			out = append(out, len(m.shapes)-1)
		}
	}
	return out
}

// putOnFold keeps a half to a fold of its zone, if it is turned so that its fold edge
// lies there. The zone's other folds are no longer its own.
func (s *shape) putOnFold(piece *Piece, t turnOfPiece) bool {
	z := &s.zone
	z.OnNear = z.OnNear && liesTowards(piece, t, 0, -1)
	z.OnFar = z.OnFar && !z.OnNear && liesTowards(piece, t, 0, 1)
	z.OnFrom = z.OnFrom && liesTowards(piece, t, -1, 0)
	s.onFold = z.OnNear || z.OnFar || z.OnFrom
	return s.onFold
}

// lookOf is the same for two outlines of a zone that cover the same ground.
func lookOf(pts []Point, in Zone) string {
	at := append([]Point(nil), pts...)
	sort.Slice(at, func(i, j int) bool {
		return at[i].X < at[j].X || at[i].X == at[j].X && at[i].Y < at[j].Y
	})
	return fmt.Sprint(at, signedArea(pts), in)
}

// liesTowards tells whether the turn lays the fold edge along the side of the outline
// that is furthest in one direction.
func liesTowards(piece *Piece, t turnOfPiece, dx, dy float64) bool {
	n := len(piece.Outline)
	pts := append([]Point{piece.Outline[piece.FoldEdge], piece.Outline[(piece.FoldEdge+1)%n]}, piece.Outline...)
	pts = turned(pts, t.turn, t.mirrored)
	if t.mirrored { // which reverses a ring
		slices.Reverse(pts)
	}
	b := boxOf(pts)
	slack := 1e-6 * math.Max(b.width(), b.height())
	far := math.Inf(-1)
	for _, q := range pts {
		far = max(far, dot(q.X, q.Y, dx, dy))
	}
	return far-dot(pts[0].X, pts[0].Y, dx, dy) <= slack && far-dot(pts[1].X, pts[1].Y, dx, dy) <= slack
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
func (m *model) addCloth(p *Problem, origin Point) {
	c := &p.Cloth
	inner := func(ring []Point) []Point {
		out := tidy(scaled(moved(ring, -origin.X, -origin.Y), m.scale))
		if signedArea(out) < 0 {
			out = reversed(out)
		}
		return out
	}
	for _, ring := range slices.Concat(c.Flaws, c.Holes) {
		for _, lying := range c.asItLies(m.bed.Folding, ring) {
			m.addFixture(inner(lying))
		}
	}
	if c.Outline != nil {
		m.addFixture(outsideOf(inner(c.Outline)))
	}
}

// asItLies is a flaw where it is met in the layers of folded cloth.
func (c *Cloth) asItLies(f Folding, ring []Point) [][]Point {
	if c.Outline != nil {
		return [][]Point{ring}
	}
	var out [][]Point
	for _, z := range f.Zones(c.Width) {
		for _, l := range f.plies(z, c.Width, 0) {
			lying := l.folded(ring)
			if b := boxOf(lying); b.maxY <= z.Near || b.minY >= z.Far || b.maxX <= z.From || b.minX >= z.To {
				continue
			}
			if !slices.ContainsFunc(out, func(o []Point) bool { return samePoints(o, lying) }) {
				out = append(out, lying)
			}
		}
	}
	return out
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
