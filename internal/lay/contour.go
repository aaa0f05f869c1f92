package lay

import (
	"math"
	"sort"
)

// outlines traces every connected free region; regions that surround
// something are cut in two first.
func (s *gaps) outlines() [][]Point {
	label := make([]int, len(s.free))
	next := 0
	var out [][]Point
	for i := range s.free {
		if s.free[i] && label[i] == 0 {
			next++
			cells := s.flood(i, label, next)
			out = append(out, s.simplePolygons(cells)...)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return signedArea(out[i]) > signedArea(out[j]) })
	return out
}

// flood collects the free squares connected to square i by their sides.
func (s *gaps) flood(i int, label []int, mark int) []int {
	label[i] = mark
	cells := []int{i}
	for k := 0; k < len(cells); k++ {
		c := cells[k]
		x, y := c%s.nx, c/s.nx
		for _, d := range [4][2]int{{1, 0}, {0, 1}, {-1, 0}, {0, -1}} {
			u, v := x+d[0], y+d[1]
			if u < 0 || v < 0 || u >= s.nx || v >= s.ny {
				continue
			}
			if n := v*s.nx + u; s.free[n] && label[n] == 0 {
				label[n] = mark
				cells = append(cells, n)
			}
		}
	}
	return cells
}

// simplePolygons is the border of a set of squares as one ring, or, when it
// has holes, of its halves left and right of the first hole.
func (s *gaps) simplePolygons(cells []int) [][]Point {
	in := map[int]bool{}
	for _, c := range cells {
		in[c] = true
	}
	rings := s.trace(cells, in)
	var outer []Point
	for _, r := range rings {
		if signedArea(r) < 0 {
			return s.cutAt(cells, r)
		}
		if outer == nil || signedArea(r) > signedArea(outer) {
			outer = r
		}
	}
	outer = thinned(outer, s.h*0.9)
	if len(outer) < 3 {
		return nil
	}
	return [][]Point{outer}
}

// cutAt divides the squares by the line through the middle of a hole.
func (s *gaps) cutAt(cells []int, hole []Point) [][]Point {
	b := boxOf(hole)
	column := int(math.Floor(((b.minX+b.maxX)/2 - s.origin.X) / s.h))
	part := &gaps{origin: s.origin, h: s.h, nx: s.nx, ny: s.ny, free: make([]bool, len(s.free))}
	var out [][]Point
	for side := range 2 {
		clear(part.free)
		for _, c := range cells {
			part.free[c] = (c%s.nx < column) == (side == 0)
		}
		out = append(out, part.outlines()...)
	}
	return out
}

// trace walks the borders with the squares on the left: outer rings come
// counter-clockwise, holes clockwise.
func (s *gaps) trace(cells []int, in map[int]bool) [][]Point {
	type edge struct{ x, y, dx, dy int }
	from := map[[2]int][]edge{}
	var order []edge
	add := func(e edge) {
		from[[2]int{e.x, e.y}] = append(from[[2]int{e.x, e.y}], e)
		order = append(order, e)
	}
	for _, c := range cells {
		x, y := c%s.nx, c/s.nx
		if y == 0 || !in[c-s.nx] {
			add(edge{x, y, 1, 0})
		}
		if x == s.nx-1 || !in[c+1] {
			add(edge{x + 1, y, 0, 1})
		}
		if y == s.ny-1 || !in[c+s.nx] {
			add(edge{x + 1, y + 1, -1, 0})
		}
		if x == 0 || !in[c-1] {
			add(edge{x, y + 1, 0, -1})
		}
	}
	used := map[edge]bool{}
	var rings [][]Point
	for _, e := range order {
		var ring []Point
		for !used[e] {
			used[e] = true
			ring = append(ring, Point{s.origin.X + float64(float64(e.x)*s.h), s.origin.Y + float64(float64(e.y)*s.h)})
			options := from[[2]int{e.x + e.dx, e.y + e.dy}]
			next := options[0]
			for _, o := range options { // at a corner point shared by two squares turn left, staying on this one
				if len(options) > 1 && o.dx == -e.dy && o.dy == e.dx {
					next = o
				}
			}
			e = next
		}
		if len(ring) >= 4 {
			rings = append(rings, tidy(ring))
		}
	}
	return rings
}

// thinned leaves out points that stand less than near off the line between
// the points kept beside them (Douglas and Peucker 1973).
func thinned(ring []Point, near float64) []Point {
	if len(ring) < 5 {
		return ring
	}
	far := 0
	for i, q := range ring {
		if distance(q, ring[0]) > distance(ring[far], ring[0]) {
			far = i
		}
	}
	closed := append(append([]Point(nil), ring...), ring[0])
	out := append(thinLine(closed[:far+1], near), thinLine(closed[far:], near)[1:]...)
	return out[:len(out)-1]
}

func thinLine(line []Point, near float64) []Point {
	worst, at := near, -1
	a, b := line[0], line[len(line)-1]
	for i := 1; i+1 < len(line); i++ {
		if d := distanceToSegment(line[i], a, b); d > worst {
			worst, at = d, i
		}
	}
	if at < 0 {
		return []Point{a, b}
	}
	return append(thinLine(line[:at+1], near), thinLine(line[at:], near)[1:]...)
}
