package lay

import (
	"cmp"
	"math"
	"slices"
	"sort"
)

// A stretch is an open interval of x that a placed item forbids.
type stretch struct{ from, to float64 }

// A starter builds a first valid arrangement: the largest items first, each
// as far to the start as the cloth and the items before it allow.
type starter struct {
	m       *model
	fixed   []fixture // flaws and everything placed so far
	blocked []stretch
	reached map[int]float64 // by first shape: how far the copy before reached
}

// start places the items one by one, the given one first, then what lies on a crosswise
// fold, then the largest; those that found no place have shape -1.
func start(m *model, items []item, fixed []fixture, first int) []spot {
	st := &starter{m: m, fixed: append([]fixture(nil), fixed...), reached: map[int]float64{}}
	order := make([]int, len(items))
	for i := range order {
		order[i] = i
	}
	rank := func(i int) float64 {
		switch s := &m.shapes[items[i].shapes[0]]; {
		case i == first:
			return math.Inf(1)
		case s.onFold && s.zone.OnFrom:
			return items[i].area + m.area
		}
		return items[i].area
	}
	sort.SliceStable(order, func(i, j int) bool { return rank(order[i]) > rank(order[j]) })
	at := make([]spot, len(items))
	for _, i := range order {
		at[i] = st.lay(&items[i])
		if at[i].shape >= 0 {
			s := &m.shapes[at[i].shape]
			st.fixed = append(st.fixed, fixture{s.base, s.way, at[i].x, at[i].y})
		}
	}
	return at
}

// lay finds the spot that reaches least far.
func (st *starter) lay(it *item) spot {
	best, reach := spot{shape: -1}, math.Inf(1)
	before := st.reached[it.shapes[0]] // where a copy found no room, the next need not look
	for _, k := range it.shapes {
		s := &st.m.shapes[k]
		for _, y := range st.levels(s) {
			if x, ok := st.leftmost(s, y, before-s.box.maxX, reach-s.box.maxX); ok && x+s.box.maxX < reach-1e-12 {
				best, reach = spot{k, x, y}, x+s.box.maxX
			}
		}
	}
	st.reached[it.shapes[0]] = reach
	return best
}

// levels are the y worth trying: evenly spread, and flush with what lies there.
func (st *starter) levels(s *shape) []float64 {
	d, ok := s.domain(math.Inf(1))
	lo, hi := d.minY, d.maxY
	switch {
	case !ok:
		return nil
	case hi <= lo:
		return []float64{lo}
	case s.stepY > 0:
		var out []float64
		count := int((hi-lo)/s.stepY) + 1
		skip := max(1, count/200)
		for k := 0; k <= count; k += skip {
			out = append(out, settleOn(lo+float64(float64(k)*s.stepY), lo, hi, s.stepY))
		}
		return out
	}
	const spread = 24
	var out []float64
	for k := 0; k <= spread; k++ {
		out = append(out, lo+float64((hi-lo)*float64(k))/spread)
	}
	for i := max(0, len(st.fixed)-12); i < len(st.fixed); i++ {
		f := &st.fixed[i]
		b := f.way.applyBox(boxOf(st.m.bases[f.base].pts))
		for _, y := range [2]float64{f.y + b.maxY - s.box.minY, f.y + b.minY - s.box.maxY} {
			if y > lo && y < hi {
				out = append(out, y)
			}
		}
	}
	return out
}

// leftmost is the least x at level y, from the given one on, where the shape
// meets nothing.
func (st *starter) leftmost(s *shape, y, from, below float64) (float64, bool) {
	d, _ := s.domain(math.Inf(1))
	x := math.Max(from, d.minX)
	st.blocked = st.blocked[:0]
	for i := range st.fixed {
		st.block(s, &st.fixed[i], y, x)
	}
	slices.SortFunc(st.blocked, func(a, b stretch) int {
		return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.to, b.to))
	})
	settle := func(x float64) float64 {
		if s.stepX > 0 {
			return s.phaseX + float64(math.Ceil((x-s.phaseX)/s.stepX-1e-9)*s.stepX)
		}
		return x
	}
	x = settle(x)
	for _, b := range st.blocked {
		if b.from >= x {
			break // everything further starts beyond
		}
		if b.to > x+tolerance {
			x = settle(b.to)
		}
		if x >= below {
			return 0, false
		}
	}
	return x, x+s.box.maxX <= st.m.maxLength+1e-11 && x <= d.maxX+1e-11
}

// block adds the stretches beyond x that one fixture forbids at level y.
func (st *starter) block(s *shape, f *fixture, y, x float64) {
	fd, t := st.m.partsOf(s.base, s.way, f.base, f.way)
	r := t.inverse().applyBox(fd.box)
	if y-f.y <= r.minY || y-f.y >= r.maxY || f.x+r.maxX <= x {
		return
	}
	ax, ay := t.apply(-f.x, y-f.y)
	dx, dy := t.apply(1, 0)
	for k := range fd.parts {
		q := &fd.parts[k]
		if dx == 0 && (ax <= q.box.minX || ax >= q.box.maxX) || dy == 0 && (ay <= q.box.minY || ay >= q.box.maxY) {
			continue
		}
		lo, hi := math.Inf(-1), math.Inf(1)
		for _, e := range q.planes {
			at, slope := e.outside(ax, ay)+tolerance/2, dot(e.nx, e.ny, dx, dy)
			switch {
			case math.Abs(slope) < 1e-15:
				if at >= 0 {
					lo, hi = 1, 0
				}
			case slope > 0:
				hi = math.Min(hi, -at/slope)
			default:
				lo = math.Max(lo, -at/slope)
			}
		}
		if lo < hi && hi > x {
			st.blocked = append(st.blocked, stretch{lo, hi})
		}
	}
}
