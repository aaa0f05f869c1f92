package shape

import "math"

// imageWithin is how nearly an outline must be its own mirror image, mm.
const imageWithin = 0.01

// An OwnImage is one way in which an outline is its own mirror image: edge i
// lies on edge Onto[i], which it runs backwards.
type OwnImage struct{ Onto []int }

// OwnImages finds how an outline is its own mirror image, about an upright or a
// level line: so that a copy may be turned over without anybody seeing it.
func (o Outline) OwnImages() []OwnImage {
	n := len(o.Edges)
	if n == 0 {
		return nil
	}
	least, most := o.Bounds()
	var out []OwnImage
	for _, image := range [...]func(Point) Point{
		func(p Point) Point { return Point{least.X + most.X - p.X, p.Y} },
		func(p Point) Point { return Point{p.X, least.Y + most.Y - p.Y} },
	} {
		for sum := range n {
			if o.ontoItself(image, sum) {
				onto := make([]int, n)
				for i := range onto {
					onto[i] = (sum - i + n) % n
				}
				out = append(out, OwnImage{onto})
			}
		}
	}
	return out
}

// ontoItself reports whether the image of each edge i is the edge sum−i, run
// backwards.
func (o Outline) ontoItself(image func(Point) Point, sum int) bool {
	near := func(p, q Point) bool {
		return math.Abs(p.X-q.X) <= imageWithin && math.Abs(p.Y-q.Y) <= imageWithin
	}
	n := len(o.Edges)
	for i := range n {
		k := (sum - i + n) % n
		e, f := &o.Edges[i], &o.Edges[k]
		if e.Curved != f.Curved || !near(image(o.Start(i)), f.To) || !near(image(e.To), o.Start(k)) ||
			e.Curved && !(near(image(e.C1), f.C2) && near(image(e.C2), f.C1)) {
			return false
		}
	}
	return true
}

// MirrorsOf are the mirror lines, upright or level, about which an outline is its own
// image in a way that was found.
func (o Outline) MirrorsOf(image *OwnImage) (out []func(Point) Point) {
	least, most := o.Bounds()
	for _, mirror := range [...]func(Point) Point{
		func(p Point) Point { return Point{least.X + most.X - p.X, p.Y} },
		func(p Point) Point { return Point{p.X, least.Y + most.Y - p.Y} },
	} {
		if len(image.Onto) > 0 && o.ontoItself(mirror, image.Onto[0]) {
			out = append(out, mirror)
		}
	}
	return out
}
