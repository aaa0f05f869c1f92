package shape

import (
	"math"
	"slices"
)

// An Oblong is a rectangle with its sides along x and y.
type Oblong struct{ Least, Most Point }

// Area is that of the rectangle.
func (r Oblong) Area() float64 {
	return float64((r.Most.X - r.Least.X) * (r.Most.Y - r.Least.Y))
}

// LargestRectangle is a rectangle of the greatest area that lies within a ring and clear of
// the holes in it, its sides along x and y. It is the largest of all where the ring's edges run along x and y; else of
// those whose sides across x lie at corners of the ring or at even steps between, a
// hundredth of its length or less apart. It is empty where the ring holds none.
func LargestRectangle(ring Ring, holes ...Ring) Oblong {
	rings := append([]Ring{ring}, holes...)
	at := uprights(rings)
	var columns [][]reachUp
	for i := 1; i < len(at); i++ {
		columns = append(columns, free(rings, at[i-1], at[i]))
	}
	best := Oblong{}
	for i := range columns {
		best = largestFrom(best, at, columns, i)
	}
	return best
}

// largestFrom is the better of a rectangle and those that begin at one column.
func largestFrom(best Oblong, at []float64, columns [][]reachUp, from int) Oblong {
	open := columns[from]
	for k := from; k < len(columns) && len(open) > 0; k++ {
		if k > from {
			open = both(open, columns[k])
		}
		for _, r := range open {
			if one := (Oblong{Point{at[from], r.low}, Point{at[k+1], r.high}}); one.Area() > best.Area()*(1+1e-9) {
				best = one
			}
		}
	}
	return best
}

// mostColumns is how many even steps a ring is divided into.
const mostColumns = 100

// uprights are the x at which a rectangle within the first of some rings and clear of the
// others may begin and end, in order.
func uprights(rings []Ring) []float64 {
	least, most := rings[0].Bounds()
	if len(rings[0]) < 3 || !(most.X > least.X) {
		return nil
	}
	var at []float64
	slanted := false
	for _, ring := range rings {
		for i, q := range ring {
			at = append(at, q.X)
			next := ring[(i+1)%len(ring)]
			slanted = slanted || q.X != next.X && q.Y != next.Y
		}
	}
	for k := 1; slanted && k < mostColumns; k++ {
		at = append(at, least.X+float64((most.X-least.X)*float64(k)/mostColumns))
	}
	slices.Sort(at)
	return slices.Compact(at)
}

// A reachUp is how far one gets up and down without leaving a ring.
type reachUp struct{ low, high float64 }

// free are the stretches of y that lie within the first ring and in none of the others all
// the way from one x to another, between which none has a corner.
func free(rings []Ring, from, to float64) []reachUp {
	type wall struct{ mid, low, high float64 }
	var walls []wall
	middle := (from + to) / 2
	for _, r := range rings {
		for i, a := range r {
			b := r[(i+1)%len(r)]
			if (a.X > middle) == (b.X > middle) {
				continue
			}
			y := func(x float64) float64 { return a.Y + float64((b.Y-a.Y)*((x-a.X)/(b.X-a.X))) }
			walls = append(walls, wall{y(middle), min(y(from), y(to)), max(y(from), y(to))})
		}
	}
	slices.SortFunc(walls, func(a, b wall) int { return int(math.Copysign(1, a.mid-b.mid)) })
	var out []reachUp
	for i := 0; i+1 < len(walls); i += 2 {
		if low, high := walls[i].high, walls[i+1].low; high > low {
			out = append(out, reachUp{low, high})
		}
	}
	return out
}

// both are the stretches that lie in one of each list.
func both(a, b []reachUp) []reachUp {
	var out []reachUp
	for _, p := range a {
		for _, q := range b {
			if low, high := max(p.low, q.low), min(p.high, q.high); high > low {
				out = append(out, reachUp{low, high})
			}
		}
	}
	return out
}
