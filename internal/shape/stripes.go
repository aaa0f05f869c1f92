package shape

import (
	"cmp"
	"math"
	"slices"
)

// Stripes are parallel lines without end, each as far from the next: the points whose
// distance along Way, a direction of length 1, is First, First + Every, First + 2·Every
// and so on, in mm.
type Stripes struct {
	Way          Point
	First, Every float64
}

// Moved are the stripes once what they lie on is moved by a rigid motion, turned over
// or not.
func (s Stripes) Moved(move func(Point) Point) Stripes {
	o := move(Point{})
	x, y := move(Point{X: 1}).Sub(o), move(Point{Y: 1}).Sub(o)
	way := x.times(s.Way.X).Add(y.times(s.Way.Y))
	return Stripes{way, s.First + dotted(way, o), s.Every}
}

// Back are the stripes on what a rigid motion brings under them, before it is moved.
func (s Stripes) Back(move func(Point) Point) Stripes {
	o := move(Point{})
	x, y := move(Point{X: 1}).Sub(o), move(Point{Y: 1}).Sub(o)
	return Stripes{Point{X: dotted(s.Way, x), Y: dotted(s.Way, y)}, s.First - dotted(s.Way, o), s.Every}
}

// Sparser are the stripes with no more of them drawn than keep so far apart, and which of
// them are: every one, every second …
func (s Stripes) Sparser(least float64) (Stripes, int) {
	if !(s.Every > 0) || s.Every >= least {
		return s, 1
	}
	n := math.Ceil(least/s.Every - 1e-9)
	s.Every *= n
	return s, int(n)
}

// Within are the parts of the stripes that lie within rings: inside an odd number of
// them.
func (s Stripes) Within(rings ...Ring) [][2]Point {
	if !(s.Every > 0) {
		return nil
	}
	var met []crossing
	for _, ring := range rings {
		for i, a := range ring {
			met = s.crossings(met, a, ring[(i+1)%len(ring)])
		}
	}
	slices.SortFunc(met, func(a, b crossing) int { return cmp.Or(a.line-b.line, cmp.Compare(a.along, b.along)) })
	var out [][2]Point
	for i := 0; i+1 < len(met); i += 2 {
		if met[i+1].along > met[i].along {
			out = append(out, [2]Point{met[i].at, met[i+1].at})
		}
	}
	return out
}

// A crossing is where a stripe meets an edge.
type crossing struct {
	line  int     // of the stripes
	along float64 // where on it
	at    Point
}

// crossings adds where the stripes meet a straight edge; one that begins on a stripe meets
// it where it goes on beyond.
func (s Stripes) crossings(met []crossing, a, b Point) []crossing {
	from, to := (dotted(s.Way, a)-s.First)/s.Every, (dotted(s.Way, b)-s.First)/s.Every
	low, high := min(from, to), max(from, to)
	for k := math.Floor(low) + 1; k <= high; k++ {
		part := (k - from) / (to - from)
		at := a.Add(b.Sub(a).times(part))
		met = append(met, crossing{int(k), dotted(s.Way.left(), at), at})
	}
	return met
}

// dotted is how far a point lies in a direction.
func dotted(way, p Point) float64 { return float64(way.X*p.X) + float64(way.Y*p.Y) }
