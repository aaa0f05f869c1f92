package lay

import "sort"

// convexParts cuts a simple counter-clockwise polygon into convex parts:
// ears first, then every cut that is not needed for convexity is taken
// out again, the longest first.
func convexParts(pts []Point) [][]Point {
	tris := triangles(pts)
	rings := joinConvex(pts, tris)
	out := make([][]Point, 0, len(rings))
	for _, r := range rings {
		ring := make([]Point, len(r))
		for i, v := range r {
			ring[i] = pts[v]
		}
		if signedArea(ring) > 0 {
			out = append(out, ring)
		}
	}
	return out
}

// triangles cuts ears off a counter-clockwise polygon; entries index pts.
// Among the ears the one with the shortest cut goes first, which keeps the
// triangles fat. Touching vertices (the bridges of holes) are allowed.
func triangles(pts []Point) [][3]int {
	n := len(pts)
	idx := make([]int, n)
	for i := range idx {
		idx[i] = i
	}
	var out [][3]int
	for len(idx) > 3 {
		best, bestLen := -1, 0.0
		for i := range idx {
			a, b, c := around(idx, i)
			if turnOf(pts[a], pts[b], pts[c]) <= 0 {
				continue
			}
			d := distance(pts[a], pts[c])
			if (best < 0 || d < bestLen) && isEar(pts, idx, a, b, c) {
				best, bestLen = i, d
			}
		}
		if best < 0 {
			best = flattest(pts, idx)
		}
		a, b, c := around(idx, best)
		if turnOf(pts[a], pts[b], pts[c]) > 0 {
			out = append(out, [3]int{a, b, c})
		}
		idx = append(idx[:best], idx[best+1:]...)
	}
	if len(idx) == 3 && turnOf(pts[idx[0]], pts[idx[1]], pts[idx[2]]) > 0 {
		out = append(out, [3]int{idx[0], idx[1], idx[2]})
	}
	return out
}

func around(idx []int, i int) (a, b, c int) {
	n := len(idx)
	return idx[(i+n-1)%n], idx[i], idx[(i+1)%n]
}

func isEar(pts []Point, idx []int, a, b, c int) bool {
	pa, pb, pc := pts[a], pts[b], pts[c]
	for _, v := range idx {
		p := pts[v]
		if v == a || v == b || v == c || p == pa || p == pb || p == pc {
			continue
		}
		if turnOf(pa, pb, p) >= 0 && turnOf(pb, pc, p) >= 0 && turnOf(pc, pa, p) >= 0 {
			return false
		}
	}
	return true
}

// flattest picks the vertex whose removal changes least; the way out when
// rounding or doubled points leave no proper ear.
func flattest(pts []Point, idx []int) int {
	best, bestTurn := 0, 0.0
	for i := range idx {
		a, b, c := around(idx, i)
		t := turnOf(pts[a], pts[b], pts[c])
		if t < 0 {
			t = -t
		}
		if i == 0 || t < bestTurn {
			best, bestTurn = i, t
		}
	}
	return best
}

type diagonal struct {
	a, b int
	len  float64
}

// joinConvex merges triangles across cuts while the union stays convex.
func joinConvex(pts []Point, tris [][3]int) [][]int {
	owner := map[[2]int]int{} // directed edge to the ring that holds it
	rings := make([][]int, len(tris))
	var cuts []diagonal
	for k, t := range tris {
		rings[k] = t[:]
		for i := range 3 {
			a, b := t[i], t[(i+1)%3]
			owner[[2]int{a, b}] = k
			if _, twin := owner[[2]int{b, a}]; twin {
				cuts = append(cuts, diagonal{a, b, distance(pts[a], pts[b])})
			}
		}
	}
	sort.SliceStable(cuts, func(i, j int) bool { return cuts[i].len > cuts[j].len })
	for _, c := range cuts {
		p, okP := owner[[2]int{c.a, c.b}]
		q, okQ := owner[[2]int{c.b, c.a}]
		if !okP || !okQ || p == q {
			continue
		}
		joined := join(rings[p], rings[q], c.a, c.b)
		if !isConvex(pts, joined) {
			continue
		}
		rings[p], rings[q] = joined, nil
		delete(owner, [2]int{c.a, c.b})
		delete(owner, [2]int{c.b, c.a})
		for i, v := range joined {
			owner[[2]int{v, joined[(i+1)%len(joined)]}] = p
		}
	}
	out := rings[:0]
	for _, r := range rings {
		if r != nil {
			out = append(out, r)
		}
	}
	return out
}

// join glues ring p (holding edge a→b) and ring q (holding b→a).
func join(p, q []int, a, b int) []int {
	out := make([]int, 0, len(p)+len(q)-2)
	at := func(r []int, v, w int) int {
		for i := range r {
			if r[i] == v && r[(i+1)%len(r)] == w {
				return i
			}
		}
		return 0
	}
	i := at(p, a, b)
	for k := 1; k <= len(p); k++ { // from b round to a
		out = append(out, p[(i+k)%len(p)])
	}
	j := at(q, b, a)
	for k := 2; k < len(q); k++ { // after a, before b
		out = append(out, q[(j+k)%len(q)])
	}
	return out
}

func isConvex(pts []Point, ring []int) bool {
	for i := range ring {
		a, b, c := around(ring, i)
		if turnOf(pts[a], pts[b], pts[c]) < 0 {
			return false
		}
	}
	return true
}

// sumConvex is the Minkowski sum of two convex counter-clockwise polygons.
func sumConvex(p, q []Point) []Point {
	p, q = fromLowest(p), fromLowest(q)
	out := make([]Point, 0, len(p)+len(q))
	i, j := 0, 0
	for i < len(p) || j < len(q) {
		a, b := p[i%len(p)], q[j%len(q)]
		out = append(out, Point{a.X + b.X, a.Y + b.Y})
		na, nb := p[(i+1)%len(p)], q[(j+1)%len(q)]
		c := cross(na.X-a.X, na.Y-a.Y, nb.X-b.X, nb.Y-b.Y)
		switch {
		case i >= len(p):
			j++
		case j >= len(q):
			i++
		case c > 0:
			i++
		case c < 0:
			j++
		default:
			i++
			j++
		}
	}
	return out
}

func fromLowest(p []Point) []Point {
	k := 0
	for i := range p {
		if p[i].Y < p[k].Y || p[i].Y == p[k].Y && p[i].X < p[k].X {
			k = i
		}
	}
	return append(append(make([]Point, 0, len(p)), p[k:]...), p[:k]...)
}
