package sewn

import (
	"math"
	"slices"

	"hembook/internal/shape"
)

// twin is the storey that is worn on the other side of the body and is the mirror image
// of one, as the right sleeve is of the left; −1 where there is none that is not laid.
func (t *netting) twin(number int, all []*storey, in []bool) int {
	found := -1
	for i, st := range all {
		if i == number || in[i] || !t.mirrors(all[number], st) {
			continue
		}
		if found >= 0 { // two of them: neither is the other half of a pair
			return -1
		}
		found = i
	}
	return found
}

// mirrors reports whether two storeys are worn on either side and of the same pieces,
// cut the other way round.
func (t *netting) mirrors(a, b *storey) bool {
	if len(a.laid) != len(b.laid) || t.side(a)*t.side(b) != -1 {
		return false
	}
	one, two := t.cutIn(a, 1), t.cutIn(b, -1)
	if !slices.Equal(one, two) {
		return false
	}
	al, ah := a.bounds()
	bl, bh := b.bounds()
	off := ah.Sub(al).Sub(bh.Sub(bl))
	return math.Abs(off.X) < within && math.Abs(off.Y) < within
}

// side is the side of the body a storey is worn on: −1 for the left, 1 for the right,
// 0 where it is not known.
func (t *netting) side(st *storey) int {
	side := 0
	for i := range st.laid {
		switch t.worn[st.laid[i].Copy] {
		case LeftSide:
			side--
		case RightSide:
			side++
		}
	}
	return min(max(side, -1), 1)
}

// cutIn lists the pieces of a storey with the hands of their copies times a sign.
func (t *netting) cutIn(st *storey, sign int) []int {
	var out []int
	for i := range st.laid {
		c := &t.s.Copies[st.laid[i].Copy]
		out = append(out, 2*c.Piece+(1+sign*int(c.Hand))/2)
	}
	slices.Sort(out)
	return out
}

// A pair is two storeys that are laid as each other's mirror image about the middle of
// the net, the one on the left first.
type pair struct {
	of     [2]*storey
	here   [2]chord // what of each is sewn to what is laid
	there  [2]chord // and where that is
	start  [2]shape.Point
	placed [2]*body
}

// seatPair lays a pair beside what is laid: above it, below it, or one on either side.
// It reports false where one of them is sewn to nothing that is laid.
func (t *netting) seatPair(numbers [2]int, all []*storey, in []bool, of map[int]int, runs []tie) bool {
	laid := t.groups[Body]
	if len(laid) == 0 {
		return false
	}
	p := pair{of: [2]*storey{all[numbers[0]], all[numbers[1]]}}
	for k := range p.of {
		met := false
		if p.here[k], p.there[k], met = t.between(numbers[k], p.of[k], in, of, runs); !met {
			return false
		}
	}
	if off := p.there[0].mid.X - p.there[1].mid.X; off > t.net.Gap || off > -t.net.Gap && t.side(p.of[0]) > 0 {
		p.swap()
	}
	low, high := boundsOf(laid)
	p.begin(float64(0.5*(low.X+high.X)), t.net.Gap)
	size := sizeOf(low, high)
	var best [2]shape.Point
	least := math.Inf(1)
	for _, ways := range [...][2]shape.Point{{{Y: 1}, {Y: 1}}, {{Y: -1}, {Y: -1}}, {{X: -1}, {X: 1}}} {
		moved := p.push(ways, laid, t.net.Gap)
		cost := 0.0
		for k := range moved {
			cost += long(moved[k].Add(p.start[k])) + float64(0.3*size*(1+dot(p.here[k].out, ways[k])))
			a, z := p.placed[k].bounds()
			a.X, a.Y, z.X, z.Y = min(a.X, low.X), min(a.Y, low.Y), max(z.X, high.X), max(z.Y, high.Y)
			cost += float64(0.8 * (sizeOf(a, z) - size))
		}
		if cost < least-1 {
			best, least = moved, cost
		}
	}
	for k, st := range p.of {
		st.move(best[k])
	}
	return true
}

func (p *pair) swap() {
	p.of[0], p.of[1] = p.of[1], p.of[0]
	p.here[0], p.here[1] = p.here[1], p.here[0]
	p.there[0], p.there[1] = p.there[1], p.there[0]
}

// begin moves both to where they are sewn, each as far from the middle and as high as
// the other, and apart. start is how far each then lies from what it is sewn to.
func (p *pair) begin(middle, gap float64) {
	var to [2]shape.Point // where the middles of both would lie best
	half := 0.0
	for k, st := range p.of {
		low, high := st.bounds()
		to[k] = shape.Point{X: float64(0.5 * (low.X + high.X)), Y: float64(0.5 * (low.Y + high.Y))}.Add(p.there[k].mid.Sub(p.here[k].mid))
		half = max(half, float64(0.5*(high.X-low.X)))
	}
	off := max(float64(0.5*(to[1].X-to[0].X)), half+gap/2)
	y := float64(0.5 * (to[0].Y + to[1].Y))
	for k, st := range p.of {
		low, high := st.bounds()
		at := shape.Point{X: middle + off*float64(2*k-1), Y: y}
		st.move(at.Sub(shape.Point{X: float64(0.5 * (low.X + high.X)), Y: float64(0.5 * (low.Y + high.Y))}))
		p.start[k] = at.Sub(to[k])
	}
}

// push moves copies of both on, step by step together, until both keep clear of what is
// laid, and says how far.
func (p *pair) push(ways [2]shape.Point, laid []*body, gap float64) (moved [2]shape.Point) {
	p.placed = [2]*body{p.of[0].copy(), p.of[1].copy()}
	for range mostPushes {
		if p.placed[0].clearOf(laid, gap) && p.placed[1].clearOf(laid, gap) {
			break
		}
		for k, b := range p.placed {
			by := shape.Point{X: float64(ways[k].X * gap / 2), Y: float64(ways[k].Y * gap / 2)}
			b.move(by)
			moved[k] = moved[k].Add(by)
		}
	}
	return moved
}
