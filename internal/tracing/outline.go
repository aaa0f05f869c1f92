package tracing

import (
	"cmp"
	"math"
	"slices"

	"hembook/internal/camera"
	"hembook/internal/shape"
)

// outline takes the rim apart into edges and lays the piece as it lay in the photograph,
// made straight.
func (t *Traced) outline(r *rim, view camera.View) {
	w := &walk{rim: r, skip: make([]bool, len(r.at)), turns: map[int]float64{}}
	dents := w.findNotches()
	w.findCorners()
	edges := w.edges()
	var o shape.Outline
	var seen []Seen
	o.From = edges[0].from
	for _, e := range edges {
		for k, c := range e.curves {
			o.Edges = append(o.Edges, shape.Edge{To: c.p3, C1: c.p1, C2: c.p2, Curved: !e.straight})
			seen = append(seen, Seen{Corner: k == 0 && e.corner, Off: e.off})
		}
	}
	lay := layOf(o, seen, view)
	o, shift := lay.outline(o)
	seen = append(append([]Seen(nil), seen[shift:]...), seen[:shift]...)
	t.Outline, t.Edges, t.still = o, seen, lay.back
	for _, p := range r.at {
		t.Seen = append(t.Seen, lay.at(p))
	}
	for _, d := range dents {
		t.Notches = append(t.Notches, t.notchAt(lay.at(r.at[d])))
	}
	slices.SortFunc(t.Notches, func(a, b Notch) int { return cmp.Or(cmp.Compare(a.Edge, b.Edge), cmp.Compare(a.At, b.At)) })
	t.Mirror = mirrorOff(t.Seen, o)
}

// notchAt is the notch nearest to a place on the outline.
func (t *Traced) notchAt(p shape.Point) (out Notch) {
	least := math.Inf(1)
	for i := range t.Outline.Edges {
		line := shape.LineOf(t.Outline.Start(i), t.Outline.Edges[i:i+1])
		if along, off := line.Nearest(p); off < least {
			least, out.Edge, out.At = off, i, along
		}
	}
	return out
}

// A cubic is a cubic Bézier curve.
type cubic struct{ p0, p1, p2, p3 shape.Point }

func (c cubic) at(t float64) shape.Point {
	u := 1 - t
	a, b, d, e := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
	return shape.Point{X: a*c.p0.X + b*c.p1.X + d*c.p2.X + e*c.p3.X, Y: a*c.p0.Y + b*c.p1.Y + d*c.p2.Y + e*c.p3.Y}
}

func (c cubic) way(t float64) shape.Point {
	u := 1 - t
	a, b, d := 3*u*u, 6*u*t, 3*t*t
	return shape.Point{X: a*(c.p1.X-c.p0.X) + b*(c.p2.X-c.p1.X) + d*(c.p3.X-c.p2.X), Y: a*(c.p1.Y-c.p0.Y) + b*(c.p2.Y-c.p1.Y) + d*(c.p3.Y-c.p2.Y)}
}

// straightCubic is a straight line as a curve.
func straightCubic(a, b shape.Point) cubic {
	third := func(k float64) shape.Point {
		return shape.Point{X: a.X + k*(b.X-a.X)/3, Y: a.Y + k*(b.Y-a.Y)/3}
	}
	return cubic{a, third(1), third(2), b}
}

// An edgeFound is a stretch of the rim from one corner to the next.
type edgeFound struct {
	from, to shape.Point
	points   []shape.Point
	straight bool
	line     bow // of a straight one
	curves   []cubic
	corner   bool // it begins at a corner
	off      float64
}

// mostBow is how far the middle of an edge may lie beside the straight line between its
// ends and still be straight, in millimetres.
const mostBow = 0.4

// edges are the stretches between corners, with the curves that run along them.
func (w *walk) edges() []edgeFound {
	breaks, cornered := w.corners, true
	if len(breaks) == 0 {
		breaks, cornered = []int{0}, false
	}
	out := make([]edgeFound, len(breaks))
	for k, c := range breaks {
		e := &out[k]
		e.corner = cornered
		n := w.wrap(breaks[(k+1)%len(breaks)] - c)
		if n == 0 {
			n = len(w.at)
		}
		gap := cornerGap
		if !cornered {
			gap = 0
		}
		for i := gap; i <= n-gap; i++ {
			if at := w.wrap(c + i); !w.skip[at] {
				e.points = append(e.points, w.at[at])
			}
		}
		if len(e.points) < 2 {
			e.points = []shape.Point{w.at[c], w.at[w.wrap(c+n)]}
		}
		e.line, e.straight = straightThrough(e.points)
		e.straight = e.straight && cornered && len(breaks) > 1
	}
	for k := range out {
		before := &out[(k+len(out)-1)%len(out)]
		out[k].from = w.corner(breaks[k], before, &out[k])
	}
	for k := range out {
		e := &out[k]
		e.to = out[(k+1)%len(out)].from
		e.fit()
	}
	return out
}

// straightThrough is the straight line along points, and whether they are straight.
func straightThrough(at []shape.Point) (bow, bool) {
	m := middleOf(at)
	var xx, xy, yy float64
	for _, p := range at {
		x, y := p.X-m.X, p.Y-m.Y
		xx, xy, yy = xx+x*x, xy+x*y, yy+y*y
	}
	s, c := math.Sincos(math.Atan2(2*xy, xx-yy) / 2)
	first, last := at[0], at[len(at)-1]
	if c*(last.X-first.X)+s*(last.Y-first.Y) < 0 {
		s, c = -s, -c
	}
	line := bow{p: m, v: shape.Point{X: c, Y: s}}
	rows := newParabola() // how the points bow
	least, most := math.Inf(1), math.Inf(-1)
	var offs []float64
	for _, p := range at {
		u, off := c*(p.X-m.X)+s*(p.Y-m.Y), c*(p.Y-m.Y)-s*(p.X-m.X)
		least, most = min(least, u), max(most, u)
		offs = append(offs, math.Abs(off))
		rows.add(u, off)
	}
	bows := rows.solved()
	half := (most - least) / 2
	slices.Sort(offs)
	return line, math.Abs(bows[2])*half*half < mostBow && offs[len(offs)*95/100] < 1.2*mostBow
}

// corner is where two edges meet: the lines along them, drawn on to each other.
func (w *walk) corner(i int, before, after *edgeFound) shape.Point {
	if !after.corner {
		return w.at[i]
	}
	a, b := before.line, after.line
	if !before.straight {
		a = w.wayOut(i, -1)
	}
	if !after.straight {
		b = w.wayOut(i, 1)
	}
	u, v := nearestU(a, w.at[i]), nearestU(b, w.at[i])
	for range 20 {
		p, q, av, bv := a.at(u), b.at(v), a.way(u), b.way(v)
		det := -av.X*bv.Y + av.Y*bv.X
		if math.Abs(det) < 0.05*math.Hypot(av.X, av.Y)*math.Hypot(bv.X, bv.Y) {
			break
		}
		x, y := q.X-p.X, q.Y-p.Y
		du, dv := (-x*bv.Y+y*bv.X)/det, (av.X*y-av.Y*x)/det
		u, v = u+min(max(du, -8), 8), v+min(max(dv, -8), 8)
	}
	p, q := a.at(u), b.at(v)
	out := shape.Point{X: (p.X + q.X) / 2, Y: (p.Y + q.Y) / 2}
	if math.Hypot(out.X-w.at[i].X, out.Y-w.at[i].Y) > 8 || math.IsNaN(out.X) {
		return w.at[i]
	}
	return out
}

// nearestU is where along a bow it is nearest to a point, to begin with.
func nearestU(b bow, p shape.Point) float64 {
	return ((p.X-b.p.X)*b.v.X + (p.Y-b.p.Y)*b.v.Y) / max(b.v.X*b.v.X+b.v.Y*b.v.Y, 1e-12)
}
