package draw

import (
	"math"

	"hembook/internal/drawing"
	"hembook/internal/shape"
)

// An edgeLabel is the name of an edge beside it.
type edgeLabel struct {
	name, allowance string
	leads           string  // to the place that tells of it; "" where none does
	first           int     // of its edges in the outline
	x, y            float64 // of the middle of its base line
	half            float64 // of its width
}

// labelEdges finds places for the names of the edges, outside the cut line,
// and widens the box for them.
func (d *pieceDrawing) labelEdges() {
	o := d.p.Outline
	d.labels = make([]edgeLabel, 0, len(d.p.Edges))
	for i := range d.p.Edges {
		e := &d.p.Edges[i]
		if e.Index < 0 || e.Index >= len(o.Edges) || e.Fold {
			continue
		}
		at, along := middle(o, e.Index)
		nx, ny := along.Y, along.X // outward, with y down
		l := edgeLabel{name: e.Name, first: e.Index}
		if d.style.Leads != nil {
			l.leads = d.style.Leads(e)
		}
		out := gap
		if e.Allowance.Value.Known() {
			if l.allowance = d.number(e.Allowance); l.allowance == "0 mm" {
				l.allowance = ""
			}
			out += e.Allowance.Value.Number * d.f.K
		}
		out += d.hollow(e.Index, at, along)
		x, y := d.f.At(at)
		d.place(&l, x+nx*out, y+ny*out, nx, ny)
		d.labels = append(d.labels, l)
	}
}

// edgesBeside writes the names of the edges where they have their places.
func (d *pieceDrawing) edgesBeside() {
	for _, l := range d.labels {
		words := drawing.Label{X: l.x, Y: l.y, Words: l.name, Aside: l.allowance, Anchor: drawing.Middle}
		if l.leads != "" {
			words.Leads = l.leads
			d.Leading(l.leads).Edges(d.f, d.p.Outline, l.first, d.edgesLike(l.first))
		}
		d.Say(words)
	}
}

// edgesLike is how many edges of the outline follow each other under the name of one.
func (d *pieceDrawing) edgesLike(first int) int {
	o, n := d.p.Outline, 1
	for name := o.Edges[first].Name; n < len(o.Edges) && name != "" && o.Edges[(first+n)%len(o.Edges)].Name == name; n++ {
	}
	return n
}

// place puts a label so that the whole of it lies beyond the point, seen from
// the edge whose outward direction is (nx, ny).
func (d *pieceDrawing) place(l *edgeLabel, x, y, nx, ny float64) {
	wide := letters(l.name) * textWide
	if l.allowance != "" {
		wide += (letters(l.allowance) + 1) * smallWide
	}
	half, high := wide/2, textHeight/2
	x += nx * (half*math.Abs(nx) + high*math.Abs(ny))
	y += ny * (half*math.Abs(nx) + high*math.Abs(ny))
	l.x, l.y, l.half = x, y+textHeight*0.36, half
	for range mostSteps {
		if !d.covers(l) {
			break
		}
		l.x, l.y = l.x+nx*high, l.y+ny*high
	}
	y = l.y - textHeight*0.36
	d.Box.Add(l.x-half, y-high)
	d.Box.Add(l.x+half, y+high)
}

// mostSteps is how often a label that would lie on another one is moved away
// from its edge, by half its height.
const mostSteps = 6

// covers reports whether a label would lie on one that has its place.
func (d *pieceDrawing) covers(l *edgeLabel) bool {
	for i := range d.labels {
		o := &d.labels[i]
		if math.Abs(l.x-o.x) < l.half+o.half+smallWide && math.Abs(l.y-o.y) < textHeight {
			return true
		}
	}
	return false
}

// hollow is how deep an edge curves into the piece, in the drawing: its label stands
// before the hollow, not in it.
func (d *pieceDrawing) hollow(first int, at, along shape.Point) float64 {
	o := d.p.Outline
	n := len(o.Edges)
	last := first
	for name := o.Edges[first].Name; (last+1)%n != first && name != "" && o.Edges[(last+1)%n].Name == name; {
		last = (last + 1) % n
	}
	a, b := o.Start(first), o.Edges[last].To
	mid := shape.Point{X: (a.X+b.X)/2 - at.X, Y: (a.Y+b.Y)/2 - at.Y}
	return max(0, mid.X*along.Y-mid.Y*along.X) * d.f.K
}

// middle is a point about half along an edge with all its parts, and the
// direction in which the edge runs there.
func middle(o shape.Outline, first int) (at, along shape.Point) {
	n := len(o.Edges)
	parts := 1
	for name := o.Edges[first].Name; parts < n && name != "" && o.Edges[(first+parts)%n].Name == name; parts++ {
	}
	i := (first + parts/2) % n
	if parts%2 == 0 {
		return curvePoint(o, i, 0)
	}
	return curvePoint(o, i, 0.5)
}

// curvePoint is the point at parameter t of edge i and the unit tangent there.
func curvePoint(o shape.Outline, i int, t float64) (at, along shape.Point) {
	a, e := o.Start(i), o.Edges[i]
	c1, c2 := e.C1, e.C2
	if !e.Curved {
		c1, c2 = a, e.To
	}
	u := 1 - t
	mix := func(a, b, c, d float64) float64 { return u*u*u*a + 3*u*u*t*b + 3*u*t*t*c + t*t*t*d }
	slope := func(a, b, c, d float64) float64 { return u*u*(b-a) + 2*u*t*(c-b) + t*t*(d-c) }
	at = shape.Point{X: mix(a.X, c1.X, c2.X, e.To.X), Y: mix(a.Y, c1.Y, c2.Y, e.To.Y)}
	along = shape.Point{X: slope(a.X, c1.X, c2.X, e.To.X), Y: slope(a.Y, c1.Y, c2.Y, e.To.Y)}
	if along == (shape.Point{}) {
		along = e.To.Sub(a)
	}
	length := math.Sqrt(along.X*along.X + along.Y*along.Y)
	if length == 0 {
		return at, shape.Point{X: 1}
	}
	return at, shape.Point{X: along.X / length, Y: along.Y / length}
}
