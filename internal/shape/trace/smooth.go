package trace

import (
	"math"

	"hembook/internal/shape"
)

const (
	// closely is how far, in millimetres, a curve may lie from the short
	// straight parts it stands for.
	closely = 0.005
	// fewest is how many straight parts a curve stands for at least.
	fewest = 4
)

// smooth draws runs of many short straight parts, as formats without curves
// write them, as curves again wherever one follows them within closely;
// everything else stays as it is in the file.
func (w *assembly) smooth() {
	for i := range w.sides {
		s := &w.sides[i]
		var out []shape.Edge
		from := s.From
		for k := 0; k < len(s.Parts); {
			run := []shape.Point{from}
			for k < len(s.Parts) && !s.Parts[k].Curved {
				run = append(run, s.Parts[k].To)
				k++
			}
			out = append(out, fitted(run)...)
			if k < len(s.Parts) {
				out = append(out, s.Parts[k])
				k++
			}
			if n := len(out); n > 0 {
				from = out[n-1].To
			}
		}
		s.Parts = out
	}
	w.set()
}

// fitted draws a line through points: straight where it is straight, curved
// where a cubic follows it, else part by part.
func fitted(line []shape.Point) []shape.Edge {
	n := len(line) - 1
	switch {
	case n < 1:
		return nil
	case n == 1 || straight(line):
		return []shape.Edge{{To: line[n]}}
	}
	if n >= fewest {
		if c1, c2, ok := fit(line); ok {
			return []shape.Edge{{To: line[n], C1: round(c1), C2: round(c2), Curved: true}}
		}
	}
	if n < 2*fewest {
		return chords(line)
	}
	half := n / 2
	one, two := fitted(line[:half+1]), fitted(line[half:])
	if !anyCurved(one) && !anyCurved(two) {
		return chords(line)
	}
	return append(one, two...)
}

// chords draws a line part by part, leaving out points on a straight stretch.
func chords(line []shape.Point) []shape.Edge {
	var out []shape.Edge
	for begin := 0; begin < len(line)-1; {
		end := begin + 1
		for end+1 < len(line) && end-begin < 64 && straight(line[begin:end+2]) {
			end++
		}
		out = append(out, shape.Edge{To: line[end]})
		begin = end
	}
	return out
}

func anyCurved(list []shape.Edge) bool {
	for _, e := range list {
		if e.Curved {
			return true
		}
	}
	return false
}

// straight reports whether the points lie on one straight stretch, in order.
func straight(line []shape.Point) bool {
	const off = 1e-4
	a, b := line[0], line[len(line)-1]
	way := unit(b.Sub(a))
	if way == (shape.Point{}) {
		return false
	}
	last := 0.0
	for _, p := range line[1:] {
		d := p.Sub(a)
		along := float64(way.X*d.X) + float64(way.Y*d.Y)
		if math.Abs(float64(way.X*d.Y)-float64(way.Y*d.X)) > off || along <= last {
			return false
		}
		last = along
	}
	return true
}

const rounds = 12 // of improving where on the curve each point lies

// fit finds the control points of a cubic through the ends of a line that
// follows all of it closely: least squares for the control points, Newton's
// method for the parameters, by turns (after Schneider 1990, "An algorithm for
// automatically fitting digitized curves", from memory; here the directions at
// the ends are free).
//
// Programs that flatten a curve mostly take equal steps of its parameter, so
// that is where the points are looked for first, and by length only then.
func fit(line []shape.Point) (c1, c2 shape.Point, ok bool) {
	if c1, c2, ok = fitFrom(line, equalSteps(line)); ok {
		return c1, c2, true
	}
	return fitFrom(line, chordLengths(line))
}

func equalSteps(line []shape.Point) []float64 {
	t := make([]float64, len(line))
	for i := range t {
		t[i] = float64(i) / float64(len(line)-1)
	}
	return t
}

// fitFrom fits from a first guess of where on the curve each point lies.
func fitFrom(line []shape.Point, t []float64) (c1, c2 shape.Point, ok bool) {
	for range rounds {
		if c1, c2, ok = leastSquares(line, t); !ok {
			return c1, c2, false
		}
		c := [4]shape.Point{line[0], c1, c2, line[len(line)-1]}
		worst := 0.0
		for i, p := range line {
			worst = max(worst, apart(p, pointAt(c, t[i])))
		}
		if worst <= closely/2 && follows(c, line, t) {
			return c1, c2, true
		}
		if worst > 50 { // nothing like a curve
			return c1, c2, false
		}
		improve(c, line, t)
	}
	return c1, c2, false
}

func chordLengths(line []shape.Point) []float64 {
	t := make([]float64, len(line))
	for i := 1; i < len(line); i++ {
		t[i] = t[i-1] + apart(line[i-1], line[i])
	}
	for i := range t {
		t[i] /= t[len(t)-1]
	}
	return t
}

func leastSquares(line []shape.Point, t []float64) (c1, c2 shape.Point, ok bool) {
	a, b := line[0], line[len(line)-1]
	var s11, s12, s22 float64
	var r1, r2 shape.Point
	for i, p := range line {
		u := 1 - t[i]
		b0, b1, b2, b3 := u*u*u, 3*u*u*t[i], 3*u*t[i]*t[i], t[i]*t[i]*t[i]
		rest := shape.Point{X: p.X - float64(b0*a.X) - float64(b3*b.X), Y: p.Y - float64(b0*a.Y) - float64(b3*b.Y)}
		s11, s12, s22 = s11+float64(b1*b1), s12+float64(b1*b2), s22+float64(b2*b2)
		r1 = shape.Point{X: r1.X + float64(b1*rest.X), Y: r1.Y + float64(b1*rest.Y)}
		r2 = shape.Point{X: r2.X + float64(b2*rest.X), Y: r2.Y + float64(b2*rest.Y)}
	}
	det := float64(s11*s22) - float64(s12*s12)
	if !(math.Abs(det) > 1e-12) {
		return c1, c2, false
	}
	c1 = shape.Point{X: (float64(r1.X*s22) - float64(r2.X*s12)) / det, Y: (float64(r1.Y*s22) - float64(r2.Y*s12)) / det}
	c2 = shape.Point{X: (float64(r2.X*s11) - float64(r1.X*s12)) / det, Y: (float64(r2.Y*s11) - float64(r1.Y*s12)) / det}
	return c1, c2, math.Abs(c1.X+c1.Y+c2.X+c2.Y) < 1e7
}

func pointAt(c [4]shape.Point, t float64) shape.Point {
	u := 1 - t
	b0, b1, b2, b3 := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
	return shape.Point{
		X: float64(b0*c[0].X) + float64(b1*c[1].X) + float64(b2*c[2].X) + float64(b3*c[3].X),
		Y: float64(b0*c[0].Y) + float64(b1*c[1].Y) + float64(b2*c[2].Y) + float64(b3*c[3].Y),
	}
}

// follows reports whether the curve stays close to every chord, too, and runs
// past the points in order.
func follows(c [4]shape.Point, line []shape.Point, t []float64) bool {
	for i := 1; i < len(line); i++ {
		if !(t[i] > t[i-1]) {
			return false
		}
		a, way := line[i-1], unit(line[i].Sub(line[i-1]))
		for _, part := range []float64{0.25, 0.5, 0.75} {
			d := pointAt(c, t[i-1]+(t[i]-t[i-1])*part).Sub(a)
			if math.Abs(float64(way.X*d.Y)-float64(way.Y*d.X)) > closely {
				return false
			}
		}
	}
	return true
}

// improve moves every parameter to where the curve is nearest to its point.
func improve(c [4]shape.Point, line []shape.Point, t []float64) {
	for i := 1; i < len(line)-1; i++ {
		d := pointAt(c, t[i]).Sub(line[i])
		v, a := derivatives(c, t[i])
		by := float64(v.X*v.X) + float64(v.Y*v.Y) + float64(d.X*a.X) + float64(d.Y*a.Y)
		if by == 0 {
			continue
		}
		t[i] = min(max(t[i]-(float64(d.X*v.X)+float64(d.Y*v.Y))/by, 0), 1)
	}
}

func derivatives(c [4]shape.Point, t float64) (first, second shape.Point) {
	u := 1 - t
	p, q, r := c[1].Sub(c[0]), c[2].Sub(c[1]), c[3].Sub(c[2])
	k0, k1, k2 := 3*u*u, 6*u*t, 3*t*t
	first = shape.Point{X: float64(k0*p.X) + float64(k1*q.X) + float64(k2*r.X), Y: float64(k0*p.Y) + float64(k1*q.Y) + float64(k2*r.Y)}
	pq, qr := q.Sub(p), r.Sub(q)
	return first, shape.Point{X: 6 * (float64(u*pq.X) + float64(t*qr.X)), Y: 6 * (float64(u*pq.Y) + float64(t*qr.Y))}
}
