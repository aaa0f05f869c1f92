package shape

import "math"

// A Ring is a closed polygon; the last point joins the first. Its inside
// lies to the left (counter-clockwise) unless said otherwise.
type Ring []Point

// Area returns the area inside the ring in square millimetres, negative
// when it runs clockwise.
func (r Ring) Area() float64 {
	if len(r) < 3 {
		return 0
	}
	sum := 0.0
	for i := 1; i+1 < len(r); i++ {
		sum += cross(r[i].Sub(r[0]), r[i+1].Sub(r[0]))
	}
	return sum / 2
}

// perimeter returns the length of the ring in millimetres.
func (r Ring) perimeter() float64 {
	sum := 0.0
	for i := range r {
		sum += distance(r[i], r[(i+1)%len(r)])
	}
	return sum
}

// Bounds returns the least and the greatest x and y.
func (r Ring) Bounds() (least, most Point) {
	if len(r) == 0 {
		return Point{}, Point{}
	}
	least, most = r[0], r[0]
	for _, p := range r[1:] {
		least, most = widen(least, most, p)
	}
	return least, most
}

// Contains reports whether p lies inside the ring (even–odd rule); a point
// on the ring itself may count either way.
func (r Ring) Contains(p Point) bool {
	inside := false
	for i, a := range r {
		b := r[(i+1)%len(r)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			inside = !inside
		}
	}
	return inside
}

// Off is how far a point lies from the line of a ring of at least two points, inside or out.
func (r Ring) Off(p Point) float64 {
	least := math.Inf(1)
	for i, a := range r {
		way := r[(i+1)%len(r)].Sub(a)
		share := 0.0
		if far := float64(way.X*way.X) + float64(way.Y*way.Y); far > 0 {
			share = min(1, max(0, (float64((p.X-a.X)*way.X)+float64((p.Y-a.Y)*way.Y))/far))
		}
		least = min(least, distance(p, Point{a.X + float64(way.X*share), a.Y + float64(way.Y*share)}))
	}
	return least
}

// leastTolerance bounds how finely a curve may be asked for, in
// millimetres.
const leastTolerance = 1e-4

// leastStep is the shortest stretch, in millimetres, that a flattened
// curve keeps between two of its inner points: shorter ones have no
// direction worth the name.
const leastStep = 1e-3

// Flatten turns the outline into a polygon that stays within tol
// millimetres of it, all points on the outline itself, and says for each
// segment (from point k to the next) the index of the edge it belongs to.
func (o Outline) Flatten(tol float64) (Ring, []int) {
	if !(tol >= leastTolerance) {
		tol = leastTolerance
	}
	size := 0
	for i, e := range o.Edges {
		size++
		if e.Curved {
			size += o.cubic(i).pieces(tol)
		}
	}
	ring, of := make(Ring, 0, size), make([]int, 0, size)
	for i, e := range o.Edges {
		ring, of = append(ring, o.Start(i)), append(of, i)
		if e.Curved {
			c := o.cubic(i)
			ring, of = appendCurve(ring, of, c, i, c.pieces(tol))
		}
	}
	return ring, of
}

// appendCurve adds the inner points of a curve cut into n equal steps of
// its parameter.
func appendCurve(ring Ring, of []int, c cubic, edge, n int) (Ring, []int) {
	for k := 1; k < n; k++ {
		p := c.at(float64(k) / float64(n))
		if nearer(p, ring[len(ring)-1], leastStep) || nearer(p, c[3], leastStep) {
			continue
		}
		ring, of = append(ring, p), append(of, edge)
	}
	return ring, of
}

func nearer(a, b Point, limit float64) bool {
	return math.Abs(a.X-b.X) < limit && math.Abs(a.Y-b.Y) < limit
}
