package trade

import "math"

// A drawer evaluates rules and remembers the first thing that went wrong. What
// lies across the seam is worked out with aside, what lies through the layers
// with p: they differ in how thick a ply is.
type drawer struct {
	p, aside Params
	err      error
}

func (d *drawer) value(e Expr) float64 { return d.with(e, d.aside) }

func (d *drawer) with(e Expr, p Params) float64 {
	v, err := e.Value(p)
	if err != nil && d.err == nil {
		d.err = err
	}
	return v
}

func (d *drawer) point(r PointRule) Pt { return Pt{d.value(r.X), d.with(r.Y, d.p)} }

func (d *drawer) layer(r LayerRule) Layer {
	l := Layer{Role: r.Of, Start: r.Start, End: r.End, Path: d.path(r.Path)}
	if l.Start == "" {
		l.Start = GoesOn
	}
	if l.End == "" {
		l.End = RawEdge
	}
	return l
}

// face is where the right side of a ply lies: up, where the garment goes on, and down
// where the ply lies behind it. It stays on that side of the path through every fold.
// Strips and cords do not go on, and have none.
func (l *Layer) face(behind bool) Face {
	n := len(l.Path)
	if n < 2 || l.Role != ClothA && l.Role != ClothB {
		return 0
	}
	along := 0.0
	switch {
	case l.Start == GoesOn:
		along = l.Path[1].X - l.Path[0].X
	case l.End == GoesOn:
		along = l.Path[n-1].X - l.Path[n-2].X
	}
	switch {
	case along == 0:
		return 0
	case along > 0 != behind:
		return faceLeft
	}
	return faceRight
}

// path evaluates the points, lays out arcs and rounds the folds.
func (d *drawer) path(rules []PointRule) []Pt {
	var out, straight []Pt
	flush := func() {
		out = append(out, d.rounded(straight)...)
		straight = nil
	}
	for _, r := range rules {
		if r.Arc == nil {
			straight = append(straight, d.point(r))
			continue
		}
		arc := d.arc(r)
		straight = append(straight, arc[0])
		flush()
		out = append(out, arc[1:]...)
		straight = []Pt{arc[len(arc)-1]}
	}
	if len(straight) > 1 || len(out) == 0 {
		if len(out) > 0 {
			out = out[:len(out)-1]
		}
		flush()
	}
	return out
}

// rounded rounds the folds of a stretch: as wide sideways as cloth is thick
// there, and as high as a ply is high.
func (d *drawer) rounded(pts []Pt) []Pt {
	thin, high := d.aside[plyName], d.p[plyName]
	if !(thin > 0 && high > 0) {
		return pts
	}
	plies := make([]Pt, len(pts))
	for i, q := range pts {
		plies[i] = Pt{q.X / thin, q.Y / high}
	}
	plies = roundCorners(plies, 1.5)
	for i, q := range plies {
		plies[i] = Pt{q.X * thin, q.Y * high}
	}
	return plies
}

func (d *drawer) arc(r PointRule) []Pt {
	const steps = 24
	cx, cy, radius := d.value(r.Arc[0]), d.with(r.Arc[1], d.p), d.with(r.Arc[2], d.p)
	from, to := d.value(r.Arc[3]), d.value(r.Arc[4])
	pts := make([]Pt, steps+1)
	for i := range pts {
		a := (from + (to-from)*float64(i)/steps) * math.Pi / 180
		pts[i] = Pt{cx + radius*math.Cos(a), cy + radius*math.Sin(a)}
	}
	return pts
}

func (d *drawer) dim(r DimRule) Dim {
	dim := Dim{From: d.point(r.From), To: d.point(r.To), Name: r.Text}
	dim.Value = distance(dim.From, dim.To)
	dim.Text = r.Text + " " + millimetres(dim.Value)
	return dim
}

func distance(a, b Pt) float64 {
	dx, dy := a.X-b.X, a.Y-b.Y
	return math.Sqrt(dx*dx + dy*dy)
}

// roundCorners replaces every corner of a polyline by a quarter-circle-like
// curve, as wide as its neighbours allow and never wider than most.
func roundCorners(pts []Pt, most float64) []Pt {
	if len(pts) < 3 {
		return pts
	}
	if n := len(pts); n > 3 && distance(pts[0], pts[n-1]) < 1e-9 {
		// a loop: begin half-way along a side, so that every corner is rounded
		half := toward(pts[0], pts[1], distance(pts[0], pts[1])/2)
		loop := append([]Pt{half}, pts[1:]...)
		pts = append(loop, half)
	}
	out := []Pt{pts[0]}
	for i := 1; i < len(pts)-1; i++ {
		in, next := distance(pts[i-1], pts[i]), distance(pts[i], pts[i+1])
		if i > 1 {
			in /= 2
		}
		if i < len(pts)-2 {
			next /= 2
		}
		r := math.Min(most, math.Min(in, next))
		out = append(out, corner(pts[i-1], pts[i], pts[i+1], r)...)
	}
	return append(out, pts[len(pts)-1])
}

// corner is the curve that leaves the line a–b at distance r before b and
// joins b–c at distance r after it: a cubic close to a circular arc.
func corner(a, b, c Pt, r float64) []Pt {
	const steps = 6
	const k = 0.5523 // cubic control distance for a quarter circle
	if r <= 1e-9 {
		return []Pt{b}
	}
	from, to := toward(b, a, r), toward(b, c, r)
	c1, c2 := toward(from, b, k*r), toward(to, b, k*r)
	pts := make([]Pt, 0, steps+1)
	for i := 0; i <= steps; i++ {
		t := float64(i) / steps
		u := 1 - t
		w0, w1, w2, w3 := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
		pts = append(pts, Pt{
			w0*from.X + w1*c1.X + w2*c2.X + w3*to.X,
			w0*from.Y + w1*c1.Y + w2*c2.Y + w3*to.Y,
		})
	}
	return pts
}

// toward is the point at distance d from a on the way to b.
func toward(a, b Pt, d float64) Pt {
	l := distance(a, b)
	if l == 0 {
		return a
	}
	return Pt{a.X + (b.X-a.X)*d/l, a.Y + (b.Y-a.Y)*d/l}
}
