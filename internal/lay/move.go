package lay

import "math"

// How many places are tried for one move.
const (
	keepSeeds  = 2
	nearPlaces = 14 // near where the item lies
	mostShapes = 4  // ways to lie tried in one move

	nearReach = 0.25 // spread of the near places, in sizes of the item
	firstStep = 0.08 // of the walk downhill, in sizes of the item
	lastStep  = 0.01 // finer than this is left to the linear programme
)

// A seed is a promising place.
type seed struct {
	shape int // index into hoods
	x, y  float64
	price float64
}

// hoodOf readies the neighbours of item i lying as its k-th shape.
func (b *board) hoodOf(i, k int) *hood {
	h := &b.hoods[k]
	if h.ready {
		return h
	}
	h.ready = true
	h.shape = b.items[i].shapes[k]
	s := &b.m.shapes[h.shape]
	h.domain, h.fits = b.domain(s)
	h.list = h.list[:0]
	n := len(b.items)
	for j := range b.items {
		if j != i {
			q := &b.at[j]
			b.addNeighbour(h, b.pairingOf(h.shape, q.shape), q.x, q.y, b.weight[i*n+j]*b.scale[i]*b.scale[j])
		}
	}
	for j, f := range b.fixed {
		p := b.m.pairing(s.base, s.way, f.base, f.way)
		b.addNeighbour(h, &p, f.x, f.y, b.wFix[i*len(b.fixed)+j])
	}
	b.fillColumns(h)
	return h
}

func (b *board) addNeighbour(h *hood, p *pairing, x, y, weight float64) {
	r, d := &p.reach, &h.domain
	minX, maxX, minY, maxY := x+r.minX, x+r.maxX, y+r.minY, y+r.maxY
	if maxX <= d.minX || minX > d.maxX || maxY <= d.minY || minY > d.maxY {
		return
	}
	f := p.f
	h.list = append(h.list, neighbour{minX: minX, maxX: maxX, minY: minY, maxY: maxY,
		gxx: p.t.a * f.invH, gxy: p.t.b * f.invH, gyx: p.t.c * f.invH, gyy: p.t.d * f.invH,
		cell: f.cell, nx: f.nx, perUnit: weight * f.unit, weight: weight, t: p.t, f: f})
	nb := &h.list[len(h.list)-1]
	nb.x, nb.y = p.t.apply(-x, -y)
	nb.gx, nb.gy = (nb.x-f.box.minX)*f.invH, (nb.y-f.box.minY)*f.invH
}

func (b *board) fillColumns(h *hood) {
	count := min(48, 1+len(h.list)/2)
	for len(h.columns) < count {
		h.columns = append(h.columns, nil)
	}
	for c := range count {
		h.columns[c] = h.columns[c][:0]
	}
	span := h.domain.width()
	h.inv = 0
	if span > 0 {
		h.inv = float64(count) / span * (1 - 1e-9)
	}
	for k := range h.list {
		nb := &h.list[k]
		lo := int(max(0, (nb.minX-h.domain.minX)*h.inv))
		hi := int(min(float64(count-1), (nb.maxX-h.domain.minX)*h.inv))
		for c := lo; c <= hi; c++ {
			h.columns[c] = append(h.columns[c], int32(k))
		}
	}
}

// priceAt is the weighted overlap at a place; once it reaches limit the
// exact figure no longer matters.
func (b *board) priceAt(h *hood, x, y, limit float64) float64 {
	b.tried++
	sum := 0.0
	for _, k := range h.columns[int((x-h.domain.minX)*h.inv)] {
		nb := &h.list[k]
		if x <= nb.minX || x >= nb.maxX || y <= nb.minY || y >= nb.maxY {
			continue
		}
		gx := float64(nb.gxx*x) + float64(nb.gxy*y) + nb.gx
		gy := float64(nb.gyx*x) + float64(nb.gyy*y) + nb.gy
		ix, iy := int(gx), int(gy)
		c := nb.cell[iy*nb.nx+ix]
		switch uint16(c) {
		case outMark:
			continue
		case exactMark:
			// the turn only changes places and signs: nothing is rounded
			dx := float64(nb.t.a*x) + float64(nb.t.b*y) + nb.x
			dy := float64(nb.t.c*x) + float64(nb.t.d*y) + nb.y
			sum += float64(nb.weight * nb.f.depthInCell(int(c>>32), dx, dy))
		default:
			sum += float64(nb.perUnit * c.between(gx-float64(ix), gy-float64(iy)))
		}
		if sum >= limit {
			return sum
		}
	}
	return sum
}

// improve looks for a better place for item i and moves it there. It tells
// whether the item moved.
func (b *board) improve(i int) bool {
	it := &b.items[i]
	for k := range it.shapes {
		b.hoods[k].ready = false
	}
	now := b.at[i]
	here := 0
	for k, s := range it.shapes {
		if s == now.shape {
			here = k
		}
	}
	h := b.hoodOf(i, here)
	price := b.priceAt(h, now.x, now.y, math.Inf(1))
	for k := range b.seeds {
		b.seeds[k] = seed{price: math.Inf(1)}
	}
	b.scatter(i, here, now)
	best := seed{shape: here, x: now.x, y: now.y, price: price}
	for k := range b.seeds {
		if math.IsInf(b.seeds[k].price, 1) {
			continue
		}
		s := b.descend(b.seeds[k], it.size*firstStep, it.size*lastStep)
		if s.price < best.price {
			best = s
		}
	}
	if best.price >= price {
		return false
	}
	b.at[i] = spot{b.hoods[best.shape].shape, best.x, best.y}
	b.refresh(i)
	return true
}

// scatter tries places near the item and those a survey of the strip finds,
// and keeps the best few.
func (b *board) scatter(i, here int, now spot) {
	it := &b.items[i]
	ways := min(mostShapes, len(it.shapes))
	var pick [mostShapes]int
	for k := range ways {
		pick[k] = k
		if len(it.shapes) > mostShapes {
			pick[k] = b.rng.below(len(it.shapes))
		}
	}
	reach := it.size * nearReach
	for range nearPlaces {
		k := here
		if ways > 1 && b.rng.below(2) == 0 {
			k = pick[b.rng.below(ways)]
		}
		h := b.hoodOf(i, k)
		b.consider(h, k, now.x+float64(b.rng.bell()*reach), now.y+float64(b.rng.bell()*reach))
	}
	for _, k := range pick[:ways] {
		b.survey(b.hoodOf(i, k), k, it.size/surveyLines)
	}
}

func (b *board) consider(h *hood, k int, x, y float64) {
	if !h.fits {
		return
	}
	x, y = b.m.shapes[h.shape].bring(&h.domain, x, y)
	worst := 0
	for q := range b.seeds {
		if b.seeds[q].price > b.seeds[worst].price {
			worst = q
		}
	}
	if p := b.priceAt(h, x, y, b.seeds[worst].price); p < b.seeds[worst].price {
		b.seeds[worst] = seed{k, x, y, p}
	}
}

// descend walks downhill from a place with steps that grow on success and
// shrink on failure, along the axes and the diagonals.
func (b *board) descend(s seed, step, least float64) seed {
	h := &b.hoods[s.shape]
	own, d := &b.m.shapes[h.shape], &h.domain
	sx, sy := step, step
	for s.price > 0 && (sx > least || sy > least) {
		var dx, dy float64
		way := b.rng.below(4)
		switch way {
		case 0:
			dx = sx
		case 1:
			dy = sy
		case 2:
			dx, dy = sx, sy
		default:
			dx, dy = sx, -sy
		}
		x1, y1 := own.bring(d, s.x+dx, s.y+dy)
		x2, y2 := own.bring(d, s.x-dx, s.y-dy)
		p1 := b.priceAt(h, x1, y1, s.price)
		p2 := b.priceAt(h, x2, y2, min(s.price, p1))
		better := false
		if p1 < s.price {
			s.x, s.y, s.price, better = x1, y1, p1, true
		}
		if p2 < s.price {
			s.x, s.y, s.price, better = x2, y2, p2, true
		}
		k := 0.5
		if better {
			k = 1.2
		}
		if way != 1 {
			sx *= k
		}
		if way != 0 {
			sy *= k
		}
	}
	return s
}
