package lay

import (
	"maps"
	"math"
	"slices"

	"hembook/internal/fault"
)

// match gives every tied item shapes of its own that keep to the pattern, and settles
// where in the pattern each group of tied items lies: of the places at which one of its
// items lies flush with the cut end or the selvedge, that with the shortest first
// arrangement, or that of a plan to begin from that is shorter still.
//
// Along the cloth a leading line is taken to run along the cut end, as it may be cut
// anywhere; across it at p.Cloth.Line.
func (m *model) match(p *Problem, begin []*Plan) fault.List {
	m.along, m.across = m.knotOf(p, false), m.knotOf(p, true)
	m.line = p.Cloth.Line * m.scale
	any := false
	for i := range m.items {
		if m.along.of[i].root >= 0 || m.across.of[i].root >= 0 {
			m.ownShapes(p, i)
			any = true
		}
	}
	if !any {
		return nil
	}
	c := chooser{m: m, best: choice{phases{}, phases{}, math.Inf(1), nil}}
	if !c.choose(m.along) || !c.choose(m.across) {
		c.best.length = math.Inf(1)
	}
	c.plans(p, begin)
	if math.IsInf(c.best.length, 1) {
		return fault.List{{Severity: fault.Error, Message: "the pattern cannot be matched on this cloth", Hint: "it has no room for every piece at its place in the repeat"}}
	}
	m.settle(c.best.along, c.best.across)
	m.first = c.best.at
	return nil
}

// ownShapes leaves a tied item the ways to lie that show its pattern upright, as copies
// of its own.
func (m *model) ownShapes(p *Problem, i int) {
	it := &m.items[i]
	mirrored := p.Pieces[it.piece].Mirrored && it.copy%2 == 1
	about := p.Cloth.Lined || m.across.of[i].root < 0
	shown := p.Pieces[it.piece].Shown
	if mirrored {
		shown = -shown
	}
	var own []int
	for _, k := range it.shapes {
		s := m.shapes[k]
		s.about = s.turn != normalTurn(shown)
		if s.mirrored == mirrored && (!s.about || s.turn == normalTurn(shown+180) && about) {
			m.shapes = append(m.shapes, s)
			own = append(own, len(m.shapes)-1)
		}
	}
	it.shapes = own
}

// phases are places in the pattern, by the root of a group.
type phases map[int]float64

// A choice is a place in the pattern for every group, with a lay there.
type choice struct {
	along, across phases
	length        float64          // +Inf where there is no room for all
	at            map[copyKey]spot // nil where some found no place
}

// A chooser tries places in the pattern and keeps the best.
type chooser struct {
	m    *model
	best choice
}

// mostChoices bounds how many places in the pattern are tried in one direction.
const mostChoices = 60

// choose tries the places of each group of one direction in turn; false where one has none.
func (c *chooser) choose(k *knot) bool {
	tried := 0
	for i, w := range k.of {
		if w.root != i {
			continue
		}
		c.best.length = math.Inf(1) // of a lay that keeps to this group too
		from := choice{along: c.best.along, across: c.best.across}
		for _, one := range c.candidates(k, i) {
			if tried++; tried > mostChoices && !math.IsInf(c.best.length, 1) {
				break
			}
			c.try(from, k, i, one)
		}
		if math.IsInf(c.best.length, 1) {
			return false
		}
	}
	return true
}

// A candidate is a phase worth trying, and the item that lies flush there; −1 for none.
type candidate struct {
	phase float64
	flush int
}

// candidates are the places of a group worth trying.
func (c *chooser) candidates(k *knot, root int) []candidate {
	if f, ok := k.fixed[root]; ok {
		out := []candidate{{f.at, -1}}
		if f.either {
			out = append(out, candidate{f.at + k.repeat/2, -1})
		}
		return out
	}
	var out []candidate
	for i, w := range k.of {
		if w.root != root {
			continue
		}
		for _, n := range c.m.items[i].shapes {
			flush := c.m.phaseAt(k, spot{n, -c.m.shapes[n].box.minX, -c.m.shapes[n].box.minY})
			v := float64(w.sign * (flush - w.off))
			if !slices.ContainsFunc(out, func(o candidate) bool { return k.same(v, o.phase, k.repeat) }) {
				out = append(out, candidate{v, i})
			}
		}
	}
	return out
}

// phaseAt is the phase that a shape has at a place.
func (m *model) phaseAt(k *knot, at spot) float64 {
	s := &m.shapes[at.shape]
	v := at.x + s.offX
	if k == m.across {
		v = at.y + s.offY - m.line
	}
	if s.about {
		return -v
	}
	return v
}

// try keeps a place of one group if a first arrangement there is shorter, the largest
// items laid first, or the one that lies flush.
func (c *chooser) try(from choice, k *knot, root int, one candidate) {
	along, across := maps.Clone(from.along), maps.Clone(from.across)
	if k == c.m.along {
		along[root] = one.phase
	} else {
		across[root] = one.phase
	}
	c.m.settle(along, across)
	if !c.m.room() {
		return
	}
	for _, first := range []int{-1, one.flush} {
		at := start(c.m, c.m.items, c.m.fixed, first)
		now := choice{along, across, mostLength, nil}
		if !slices.ContainsFunc(at, func(s spot) bool { return s.shape < 0 }) {
			now.length, now.at = usedBy(c.m, at), map[copyKey]spot{}
			for i, it := range c.m.items {
				now.at[copyKey{it.piece, it.copy}] = at[i]
			}
		}
		if now.length < c.best.length*(1-1e-12) {
			c.best = now
		}
	}
}

// mostLength stands for the length of an arrangement on cloth that ends which leaves some
// out.
const mostLength = 1e9

// plans tries the places in the pattern that plans to begin from have.
func (c *chooser) plans(p *Problem, begin []*Plan) {
	for _, plan := range begin {
		c.m.settle(nil, nil)
		for _, at := range c.m.known(p, []*Plan{plan}) {
			c.plan(at)
		}
	}
}

// plan tries the place in the pattern of one plan.
func (c *chooser) plan(at map[copyKey]spot) {
	now := choice{phases{}, phases{}, 0, at}
	for i, it := range c.m.items {
		s := at[copyKey{it.piece, it.copy}]
		now.length = max(now.length, usedBy(c.m, []spot{s}))
		if w := c.m.along.of[i]; w.root == i {
			now.along[i] = float64(w.sign * (c.m.phaseAt(c.m.along, s) - w.off))
		}
		if w := c.m.across.of[i]; w.root == i {
			now.across[i] = float64(w.sign * (c.m.phaseAt(c.m.across, s) - w.off))
		}
	}
	c.m.settle(now.along, now.across)
	for i, it := range c.m.items {
		s := at[copyKey{it.piece, it.copy}]
		for _, k := range []*knot{c.m.along, c.m.across} {
			w, of := k.of[i], now.along
			if k == c.m.across {
				of = now.across
			}
			if w.root >= 0 && !k.same(c.m.phaseAt(k, s), float64(w.sign*of[w.root])+w.off, k.repeat) {
				return
			}
		}
	}
	if now.length < c.best.length {
		c.best = now
	}
}

// room reports whether every item has some place at its phase.
func (m *model) room() bool {
	for i := range m.items {
		if !slices.ContainsFunc(m.items[i].shapes, func(n int) bool {
			_, fits := m.shapes[n].domain(m.maxLength)
			return fits
		}) {
			return false
		}
	}
	return true
}

// settle puts every group at its place in the pattern, or where none is given, sets its
// shapes free.
func (m *model) settle(along, across phases) {
	for i := range m.items {
		for _, n := range m.items[i].shapes {
			s := &m.shapes[n]
			if w := m.along.of[i]; w.root >= 0 {
				s.stepX, s.phaseX = m.along.step(w, along, s.about)
				s.phaseX -= s.offX
			}
			if w := m.across.of[i]; w.root >= 0 {
				s.stepY, s.phaseY = m.across.step(w, across, s.about)
				s.phaseY += m.line - s.offY
			}
		}
	}
}

// step is the repeat that a tied item keeps to and where in it its origin lies, turned
// about or not; 0 where its group has no place yet.
func (k *knot) step(w swing, at phases, about bool) (step, phase float64) {
	root, ok := at[w.root]
	if !ok {
		return 0, 0
	}
	phase = float64(w.sign*root) + w.off
	if about {
		phase = -phase
	}
	return k.repeat, phase
}
