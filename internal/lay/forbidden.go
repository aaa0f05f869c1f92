package lay

import (
	"cmp"
	"math"
	"slices"
)

// tolerance is how far, in inner units (the cloth is one to two units wide),
// two outlines may share ground before they count as overlapping. On cloth
// of 1500 mm it is below a millionth of a millimetre.
const tolerance = 1e-10

// A plane is the line n·p = c with n of length one pointing out of a part.
type plane struct{ nx, ny, c float64 }

func (e plane) outside(x, y float64) float64 { return dot(e.nx, e.ny, x, y) - e.c }

// A convexPart is one convex piece of a forbidden region.
type convexPart struct {
	planes []plane
	verts  []Point
	box    box
}

// A border is one stretch of the outline of a forbidden region.
type border struct {
	ax, ay, dx, dy float64
	inv            float64 // one over the squared length
}

func (s border) dist2(x, y float64) float64 {
	px, py := x-s.ax, y-s.ay
	t := dot(px, py, s.dx, s.dy) * s.inv
	if t > 0 {
		if t > 1 {
			t = 1
		}
		px -= float64(t * s.dx)
		py -= float64(t * s.dy)
	}
	return dot(px, py, px, py)
}

// forbiddenParts returns the places a shape may not take relative to
// another: all d with (moving + d) and fixed sharing ground, as convex
// parts. Their union is the no-fit polygon of the literature.
func forbiddenParts(moving, fixed [][]Point, clearance float64) []convexPart {
	var out []convexPart
	var disc []Point
	if clearance > 0 {
		disc = discAround(clearance)
	}
	for _, m := range moving {
		neg := make([]Point, len(m))
		for i, p := range m {
			neg[i] = Point{-p.X, -p.Y}
		}
		for _, f := range fixed {
			sum := sumConvex(f, neg)
			if disc != nil {
				sum = sumConvex(sum, disc)
			}
			out = append(out, newPart(sum))
		}
	}
	return out
}

// discAround is a polygon that holds the disc of the given radius.
func discAround(r float64) []Point {
	const sides = 16
	out := make([]Point, sides)
	_, cos := sinCosDegrees(180.0 / sides)
	for i := range out {
		s, c := sinCosDegrees((float64(i) + 0.5) * 360 / sides) // flat sides along the axes
		out[i] = Point{r / cos * c, r / cos * s}
	}
	return out
}

func newPart(ring []Point) convexPart {
	p := convexPart{box: boxOf(ring)}
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		dx, dy := b.X-a.X, b.Y-a.Y
		l := math.Sqrt(dot(dx, dy, dx, dy))
		if l < 1e-13 {
			continue
		}
		nx, ny := dy/l, -dx/l
		c := dot(nx, ny, a.X, a.Y)
		if n := len(p.planes); n > 0 && p.planes[n-1] == (plane{nx, ny, c}) {
			continue // collinear edges of the two summands
		}
		p.planes = append(p.planes, plane{nx, ny, c})
		p.verts = append(p.verts, a)
	}
	return p
}

// inside is positive within the part: the distance to its nearest edge line.
func (p *convexPart) inside(x, y float64) float64 {
	depth := math.Inf(1)
	for i := range p.planes {
		if d := -p.planes[i].outside(x, y); d < depth {
			depth = d
			if d < 0 {
				return d
			}
		}
	}
	return depth
}

// covered returns the stretch [t0, t1] of the segment a + t·(dx, dy) that
// lies strictly inside the part; t0 >= t1 when there is none.
func (p *convexPart) covered(a Point, dx, dy float64) (t0, t1 float64) {
	t0, t1 = 0, 1
	for _, e := range p.planes {
		at := e.outside(a.X, a.Y) + tolerance // must become negative
		slope := dot(e.nx, e.ny, dx, dy)
		switch {
		case math.Abs(slope) < 1e-15:
			if at >= 0 {
				return 1, 0
			}
		case slope > 0:
			t1 = min(t1, -at/slope)
		default:
			t0 = max(t0, -at/slope)
		}
		if t0 >= t1 {
			return 1, 0
		}
	}
	return t0, t1
}

// borders returns the outline of the union of the parts: every stretch of
// every edge that no part holds strictly inside. Slits, where a piece just
// fits between two others, stay in as two coincident stretches.
func borders(parts []convexPart) []border {
	var out []border
	seen := map[[4]float64]bool{}
	var spans []stretch
	near := make([]*convexPart, 0, len(parts))
	for i := range parts {
		p := &parts[i]
		near = near[:0]
		for j := range parts {
			if j != i && touches(p.box, parts[j].box) {
				near = append(near, &parts[j])
			}
		}
		for k, a := range p.verts {
			b := p.verts[(k+1)%len(p.verts)]
			dx, dy := b.X-a.X, b.Y-a.Y
			var whole bool
			spans, whole = coverOf(spans[:0], near, a, dx, dy)
			if whole {
				continue
			}
			slices.SortFunc(spans, func(x, y stretch) int {
				return cmp.Or(cmp.Compare(x.from, y.from), cmp.Compare(x.to, y.to))
			})
			from := 0.0
			for _, s := range append(spans, stretch{1, 1}) {
				if b, ok := borderOf(a, dx, dy, from, s.from); ok {
					if key := [4]float64{b.ax, b.ay, b.dx, b.dy}; !seen[key] {
						seen[key] = true
						out = append(out, b)
					}
				}
				from = max(from, s.to)
			}
		}
	}
	return out
}

// coverOf collects the stretches of an edge that lie strictly inside parts;
// whole tells that one part holds all of it.
func coverOf(spans []stretch, parts []*convexPart, a Point, dx, dy float64) (_ []stretch, whole bool) {
	e := box{min(a.X, a.X+dx), min(a.Y, a.Y+dy), max(a.X, a.X+dx), max(a.Y, a.Y+dy)}
	for n, q := range parts {
		if !touches(q.box, e) {
			continue
		}
		t0, t1 := q.covered(a, dx, dy)
		if t0 >= t1 {
			continue
		}
		if t0 <= 0 && t1 >= 1 {
			copy(parts[1:n+1], parts[:n]) // it will likely hold the next edge too
			parts[0] = q
			return spans, true
		}
		spans = append(spans, stretch{t0, t1})
	}
	return spans, false
}

// borderOf is the stretch of an edge between two shares of it, unless it is
// too short to matter.
func borderOf(a Point, dx, dy, from, to float64) (border, bool) {
	l := to - from
	if l <= 0 || float64(l*l)*dot(dx, dy, dx, dy) < 1e-24 {
		return border{}, false
	}
	s := border{ax: a.X + float64(from*dx), ay: a.Y + float64(from*dy), dx: float64(l * dx), dy: float64(l * dy)}
	s.inv = 1 / dot(s.dx, s.dy, s.dx, s.dy)
	return s, true
}

// touches tells whether two boxes share at least a point; an edge along an
// axis has a box without area.
func touches(a, b box) bool {
	return a.minX <= b.maxX && b.minX <= a.maxX && a.minY <= b.maxY && b.minY <= a.maxY
}
