package lay

import "math"

// A Point is a position in the plane; any one unit throughout a problem.
type Point struct{ X, Y float64 }

// The products below are rounded one by one (float64(x*y)) so that no
// compiler may fuse them: a plan must not depend on the processor.

func dot(ax, ay, bx, by float64) float64   { return float64(ax*bx) + float64(ay*by) }
func cross(ax, ay, bx, by float64) float64 { return float64(ax*by) - float64(ay*bx) }

// turnOf is positive when a, b, c turn left.
func turnOf(a, b, c Point) float64 {
	return cross(b.X-a.X, b.Y-a.Y, c.X-a.X, c.Y-a.Y)
}

func distance(a, b Point) float64 {
	dx, dy := a.X-b.X, a.Y-b.Y
	return math.Sqrt(dot(dx, dy, dx, dy))
}

// signedArea is positive for an outline that runs counter-clockwise.
func signedArea(pts []Point) float64 {
	sum := 0.0
	if len(pts) < 3 {
		return 0
	}
	o := pts[0]
	for i := 1; i+1 < len(pts); i++ {
		sum += turnOf(o, pts[i], pts[i+1])
	}
	return sum / 2
}

type box struct{ minX, minY, maxX, maxY float64 }

func boxOf(pts []Point) box {
	b := box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, p := range pts {
		b.minX, b.maxX = math.Min(b.minX, p.X), math.Max(b.maxX, p.X)
		b.minY, b.maxY = math.Min(b.minY, p.Y), math.Max(b.maxY, p.Y)
	}
	return b
}

func (b box) width() float64  { return b.maxX - b.minX }
func (b box) height() float64 { return b.maxY - b.minY }

// reversed returns the points in the opposite order.
func reversed(pts []Point) []Point {
	out := make([]Point, len(pts))
	for i, p := range pts {
		out[len(pts)-1-i] = p
	}
	return out
}

// distanceToSegment is the distance from p to the segment ab.
func distanceToSegment(p, a, b Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	len2 := dot(dx, dy, dx, dy)
	t := 0.0
	if len2 > 0 {
		t = dot(p.X-a.X, p.Y-a.Y, dx, dy) / len2
		t = math.Max(0, math.Min(1, t))
	}
	return distance(p, Point{a.X + float64(t*dx), a.Y + float64(t*dy)})
}

// sinCosDegrees is exact at multiples of 90°.
func sinCosDegrees(deg float64) (sin, cos float64) {
	deg = normalTurn(deg)
	switch deg {
	case 0:
		return 0, 1
	case 90:
		return 1, 0
	case 180:
		return 0, -1
	case 270:
		return -1, 0
	}
	return math.Sincos(float64(deg * math.Pi / 180))
}

// normalTurn brings a turn into [0, 360).
func normalTurn(deg float64) float64 {
	deg = math.Mod(deg, 360)
	if deg < 0 {
		deg += 360
	}
	if deg >= 360 {
		deg = 0
	}
	return deg
}

// turned returns pts mirrored (y changes sign, so that the grain keeps its
// direction) when asked, then turned counter-clockwise about the origin.
func turned(pts []Point, deg float64, mirrored bool) []Point {
	sin, cos := sinCosDegrees(deg)
	out := make([]Point, len(pts))
	for i, p := range pts {
		if mirrored {
			p.Y = -p.Y
		}
		out[i] = Point{float64(p.X*cos) - float64(p.Y*sin), float64(p.X*sin) + float64(p.Y*cos)}
	}
	if mirrored {
		return reversed(out)
	}
	return out
}

func moved(pts []Point, dx, dy float64) []Point {
	out := make([]Point, len(pts))
	for i, p := range pts {
		out[i] = Point{p.X + dx, p.Y + dy}
	}
	return out
}

func scaled(pts []Point, k float64) []Point {
	out := make([]Point, len(pts))
	for i, p := range pts {
		out[i] = Point{p.X * k, p.Y * k}
	}
	return out
}

// tidy drops repeated and exactly collinear points.
func tidy(pts []Point) []Point {
	out := make([]Point, 0, len(pts))
	for i, p := range pts {
		if p != pts[(i+1)%len(pts)] {
			out = append(out, p)
		}
	}
	for changed := true; changed && len(out) >= 3; {
		changed = false
		for i := 0; i < len(out) && len(out) >= 3; {
			n := len(out)
			prev, next := out[(i+n-1)%n], out[(i+1)%n]
			if out[i] != next && turnOf(prev, out[i], next) != 0 {
				i++
				continue
			}
			out = append(out[:i], out[i+1:]...)
			changed = true
		}
	}
	return out
}
