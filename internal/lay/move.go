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
