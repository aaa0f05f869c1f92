package shape

import (
	"fmt"
	"math"
)

// turned returns the outline turned counter-clockwise about the origin by
// an angle in degrees; quarter turns are exact.
func (o Outline) turned(degrees float64) Outline {
	sin, cos := sincosDegrees(degrees)
	return o.moved(func(p Point) Point {
		return Point{float64(p.X*cos) - float64(p.Y*sin), float64(p.X*sin) + float64(p.Y*cos)}
	})
}

// sincosDegrees is exact for quarter turns.
func sincosDegrees(degrees float64) (sin, cos float64) {
	switch math.Mod(math.Mod(degrees, 360)+360, 360) {
	case 0:
		return 0, 1
	case 90:
		return 1, 0
	case 180:
		return 0, -1
	case 270:
		return -1, 0
	}
	return math.Sincos(degrees * math.Pi / 180)
}

// oriented returns the outline run counter-clockwise.
func (o Outline) oriented() Outline {
	if o.Area() < 0 {
		return o.Reversed()
	}
	return o
}

// mirroredName is what an edge is called in the half that [Outline.unfolded]
// adds.
func mirroredName(name string) string {
	if name == "" {
		return ""
	}
	return name + " mirrored"
}

// unfolded opens a piece cut on the fold about edge i into the whole
// piece. The edges of the half drawn keep their names and their order,
// beginning after the fold; those of the other half follow, named by
// mirroredName. It fails when the edge is curved or the whole piece
// would cross itself.
func (o Outline) unfolded(i int) (Outline, error) {
	if i < 0 || i >= len(o.Edges) {
		return Outline{}, fmt.Errorf("the outline has no edge %d to unfold about", i+1)
	}
	if err := o.Check(); err != nil {
		return Outline{}, err
	}
	if o.Edges[i].Curved {
		return Outline{}, fmt.Errorf("%s is curved, so the piece cannot be unfolded about it", o.called(i))
	}
	half := o.openedAt(i)
	a, b := o.Edges[i].To, o.Start(i)
	other := half.moved(func(p Point) Point { return reflected(p, a, b) }).Reversed()
	for k := range other.Edges {
		other.Edges[k].Name = mirroredName(other.Edges[k].Name)
	}
	half.Edges = append(half.Edges, other.Edges...)
	half.Edges[len(half.Edges)-1].To = half.From
	if err := half.Check(); err != nil {
		return Outline{}, fmt.Errorf("unfolded about %s: %w", o.called(i), err)
	}
	return half, nil
}

// openedAt returns the outline without edge i, from its end to its
// beginning.
func (o Outline) openedAt(i int) Outline {
	n := len(o.Edges)
	open := Outline{From: o.Edges[i].To, Edges: make([]Edge, 0, 2*n)}
	for k := 1; k < n; k++ {
		open.Edges = append(open.Edges, o.Edges[(i+k)%n])
	}
	return open
}

// reflected returns p mirrored about the line through a and b; points of
// the line stay where they are.
func reflected(p, a, b Point) Point {
	way := b.Sub(a)
	out := way.left()
	return p.Sub(out.times(2 * dot(p.Sub(a), out) / dot(way, way)))
}

// shifted returns the outline shifted by x and y millimetres.
func (o Outline) shifted(x, y float64) Outline {
	return o.moved(func(p Point) Point { return p.Add(Point{x, y}) })
}
