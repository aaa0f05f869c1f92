package lay

import "math"

// effort says how long an untangling goes on without progress.
type effort struct {
	quiet    int         // passes without progress before a setback
	setbacks int         // setbacks without progress before giving up
	over     func() bool // tells when to stop at once
}

// fullQuiet is the patience where one untangling decides whether the pieces
// fit at all.
const fullQuiet = 200

// untangle moves overlapping items until none overlap, weighting pairs that
// keep colliding. It returns whether it succeeded; either way the board
// holds the best arrangement met.
func (b *board) untangle(e effort, mend func() bool) bool {
	b.resetWeights()
	best := append([]spot(nil), b.at...)
	bestOver := b.overlap()
	mended := math.Inf(1)   // overlap at the last attempt to mend
	b.tried += len(b.items) // even one that ends at once is work, so that a search comes to an end
	if bestOver == 0 || !b.inside() {
		return bestOver == 0 && b.inside()
	}
	for setback := 0; setback < e.setbacks; setback++ {
		start := bestOver
		for quiet := 0; quiet < e.quiet; quiet++ {
			b.pass()
			over := b.overlap()
			if over == 0 {
				return true
			}
			if over < bestOver {
				if over < bestOver*0.98 {
					quiet = -1
				}
				bestOver = over
				copy(best, b.at)
				if mend != nil && over < b.nearlyFree() && over < mended*0.7 {
					mended = over
					if mend() {
						return true
					}
				}
			}
			b.reweigh()
			if e.over() {
				b.restore(best)
				return false
			}
		}
		if bestOver < start*0.98 {
			setback = -1
		}
		b.restore(best)
	}
	return false
}

// repair makes a first arrangement valid should rounding have left a hair of
// overlap in it, on a longer strip if need be.
func (b *board) repair(work int) {
	until := b.tried + work
	over := func() bool { return b.tried >= until }
	for b.overlap() > 0 && !over() {
		if b.untangle(effort{quiet: fullQuiet, setbacks: 1, over: over}, b.mend) {
			return
		}
		b.set(b.at, b.length*1.1)
	}
}

// nearlyFree is the overlap below which shifting everything at once (mend)
// has a fair chance.
func (b *board) nearlyFree() float64 {
	size := 0.0
	for i := range b.items {
		size += b.items[i].size
	}
	return 0.05 * size / float64(len(b.items))
}

func (b *board) restore(at []spot) {
	copy(b.at, at)
	b.refreshAll()
}

// pass moves every colliding item once, in random order.
func (b *board) pass() {
	b.order = b.order[:0]
	for i := range b.items {
		if b.collides(i) {
			b.order = append(b.order, i)
		}
	}
	b.rng.shuffle(b.order)
	for _, i := range b.order {
		if b.collides(i) {
			b.improve(i)
		}
	}
}

const (
	weightGrowthLeast = 1.2
	weightGrowthMost  = 2.0
	weightDecay       = 0.95
)

// reweigh makes pairs that overlap dearer, the worst most, and lets the
// others fade back.
func (b *board) reweigh() {
	n := len(b.items)
	worst := 0.0
	for _, d := range b.over {
		if d > worst {
			worst = d
		}
	}
	for _, d := range b.overFix {
		worst = max(worst, d)
	}
	if worst == 0 {
		return
	}
	for i := range n {
		over := b.over[i*n : i*n+i]
		for j, w := range b.weight[i*n : i*n+i] {
			if d := over[j]; d > 0 || w > 1 { // few are
				w = newWeight(w, d, worst)
				b.weight[i*n+j], b.weight[j*n+i] = w, w
			}
		}
	}
	for k, d := range b.overFix {
		b.wFix[k] = newWeight(b.wFix[k], d, worst)
	}
}

func newWeight(w, over, worst float64) float64 {
	if over <= 0 {
		return max(1, w*weightDecay)
	}
	return w * (weightGrowthLeast + float64(over/worst*(weightGrowthMost-weightGrowthLeast)))
}
