package shape

import (
	"errors"
	"math"

	"hembook/internal/say"
)

// A Reshaped is an outline out of which a dart was turned or folded. From
// says of each of its edges which edge of the old outline it is of, or −1 for
// the mouth of a dart that was opened.
type Reshaped struct {
	Outline Outline
	From    []int
	// Opened is the dart that was opened; At, Width and Length as in [Dart].
	Opened Dart
	// Step is by how many millimetres the legs differ up to the far edge, where
	// a dart was folded out.
	Step float64

	about    Point
	cos, sin float64
}

// Swung is where a point of the part that was turned has come to.
func (r *Reshaped) Swung(p Point) Point {
	d := p.Sub(r.about)
	return snap(r.about.Add(Point{float64(d.X*r.cos) - float64(d.Y*r.sin), float64(d.X*r.sin) + float64(d.Y*r.cos)}))
}

// DartTurned closes a dart and opens it at s millimetres along another edge:
// the piece is slashed from there to the dart's point, and the part that does
// not hold the fold (the smaller part where none does) is turned about the
// point until the dart's legs meet. No length but that of the two edges
// changes: the angle at the point stays the same.
func (o Outline) DartTurned(d DartPlan, edge, to string, s float64) (Reshaped, error) {
	at, _, ok := o.PointOn(to, s)
	if !ok {
		return Reshaped{}, errors.New(say.Of("shape.the-outline-has-no-such-edge"))
	}
	if distance(at, d.Point) < 1 {
		return Reshaped{}, errors.New(say.Of("shape.the-point-of-the-dart-lies-there"))
	}
	for _, t := range [...]float64{0.05, 0.25, 0.5, 0.75, 0.95} {
		if !o.Contains(lerp(d.Point, at, t)) {
			return Reshaped{}, errors.New(say.Of("shape.the-slash-from-there-to-its-point"))
		}
	}
	c := cutUp{o, indices(len(o.Edges))}
	begin, end := c.vertex(d.Begin), c.vertex(d.End)
	if begin != nil || end != nil || c.vertex(at) != nil {
		return Reshaped{}, errors.New(say.Of("shape.its-legs-or-the-new-place-do"))
	}
	one, two := c.stretch(d.End, at), c.stretch(at, d.Begin)
	mouthOf := c.stretch(d.Begin, d.End)
	inMouth := mouthOf == nil
	for k := 0; !inMouth && k < len(mouthOf.Edges)-1; k++ {
		inMouth = distance(mouthOf.Edges[k].To, at) < sameCorner
	}
	if one == nil || two == nil || inMouth {
		return Reshaped{}, errors.New(say.Of("shape.the-new-place-lies-within-the-dart"))
	}
	turn := one.turns(two)
	still, from, onto := two, d.End, d.Begin
	if !turn {
		still, from, onto = one, d.Begin, d.End
	}
	moving := one
	if !turn {
		moving = two
	}
	by := turning(d.Point, from, onto)
	moving.through(by.Swung)
	mouth := stretch{Edges: []Edge{{Name: to, To: at}}, From: []int{-1}, Start: moving.last()}
	list := []stretch{*moving, mouth, *still}
	if !turn {
		mouth = stretch{Edges: []Edge{{Name: to, To: moving.Start}}, From: []int{-1}, Start: at}
		list = []stretch{*still, mouth, *moving}
	}
	r := endToEnd(list)
	r.about, r.cos, r.sin = by.about, by.cos, by.sin
	wide := distance(mouth.Start, mouth.Edges[0].To)
	leg := distance(at, d.Point)
	r.Opened = Dart{Edge: to, Width: wide, Length: math.Sqrt(max(leg*leg-wide*wide/4, 0)), At: r.along(to) + wide/2}
	return r, nil
}

// DartFolded folds a dart out of a piece that does not reach its point, as a
// facing: both legs run from the dart's edge to the far one, and the smaller
// part (not the one with the fold) is turned about the point until they meet.
// Where the far edge would be left with a step, its two ends meet half way.
func (o Outline) DartFolded(d DartPlan) (Reshaped, error) {
	if o.Contains(d.Point) {
		return Reshaped{}, errors.New(say.Of("shape.its-point-lies-inside-the-piece-so"))
	}
	far1, ok1 := o.exit(d.Begin, d.Point)
	far2, ok2 := o.exit(d.End, d.Point)
	if !ok1 || !ok2 {
		return Reshaped{}, errors.New(say.Of("shape.its-legs-do-not-run-through-the"))
	}
	c := cutUp{o, indices(len(o.Edges))}
	for _, p := range [...]Point{d.Begin, d.End, far1, far2} {
		if err := c.vertex(p); err != nil {
			return Reshaped{}, err
		}
	}
	one, two := c.stretch(d.End, far2), c.stretch(far1, d.Begin)
	if one == nil || two == nil {
		return Reshaped{}, errors.New(say.Of("shape.its-legs-cross"))
	}
	by, moving := turning(d.Point, d.End, d.Begin), one
	if !one.turns(two) {
		by, moving = turning(d.Point, d.Begin, d.End), two
	}
	moving.through(by.Swung)
	by.Step = math.Abs(distance(d.Begin, far1) - distance(d.End, far2))
	meet := lerp(one.last(), two.Start, 0.5)
	follow(&one.Edges[len(one.Edges)-1], meet.Sub(one.last()), 1.0/3, 2.0/3)
	one.Edges[len(one.Edges)-1].To = meet
	follow(&two.Edges[0], meet.Sub(two.Start), 2.0/3, 1.0/3)
	two.Start = meet
	r := endToEnd([]stretch{*one, *two})
	r.Step, r.about, r.cos, r.sin = by.Step, by.about, by.cos, by.sin
	return r, nil
}

// A cutUp is an outline that gets further corners, each edge knowing the old
// one it is of.
type cutUp struct {
	o    Outline
	from []int
}

func indices(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

// sameCorner is how close two points are taken to be one.
const sameCorner = 1e-5

// vertex makes a corner of the outline at a point that lies on it.
func (c *cutUp) vertex(p Point) error {
	for i := range c.o.Edges {
		if distance(c.o.Start(i), p) < sameCorner {
			return nil
		}
	}
	for i, e := range c.o.Edges {
		s, off := c.o.cubic(i).nearest(p, e.Curved)
		if off > 1e-3 {
			continue
		}
		split := c.o.Split(i, s, e.Name, e.Name)
		if len(split.Edges) == len(c.o.Edges) {
			continue
		}
		setStart(&split, (i+1)%len(split.Edges), p)
		c.o = split
		c.from = append(c.from[:i+1], append([]int{c.from[i]}, c.from[i+1:]...)...)
		return nil
	}
	return errors.New(say.Of("shape.its-legs-do-not-lie-on-the"))
}

// nearest is how far along the curve its point nearest to p lies, and how far
// p is off it.
func (c cubic) nearest(p Point, curved bool) (s, off float64) {
	t, off := c.closest(p)
	if !curved {
		return distance(c[0], c.at(t)), off
	}
	return c.lengthTo(t), off
}

// closest is the parameter at which the curve is nearest to p, and how far p is off it.
func (c cubic) closest(p Point) (t, off float64) {
	const steps = 400
	best := math.Inf(1)
	for k := range steps + 1 {
		if d := distance(c.at(float64(k)/steps), p); d < best {
			best, t = d, float64(k)/steps
		}
	}
	lo, hi := max(t-1.0/steps, 0), min(t+1.0/steps, 1)
	for range 60 {
		a, b := lo+(hi-lo)/3, hi-(hi-lo)/3
		if distance(c.at(a), p) < distance(c.at(b), p) {
			hi = b
		} else {
			lo = a
		}
	}
	t = (lo + hi) / 2
	return t, distance(c.at(t), p)
}

// exit is where the way from a point of the outline towards another first
// leaves the piece.
func (o Outline) exit(a, towards Point) (Point, bool) {
	way := towards.Sub(a)
	dir := unit(way)
	off := func(p Point) float64 { return cross(dir, p.Sub(a)) }
	best, found := distance(a, towards), false
	for i := range o.Edges {
		c := o.cubic(i)
		const steps = 64
		for k := range steps {
			lo, hi := float64(k)/steps, float64(k+1)/steps
			if (off(c.at(lo)) <= 0) == (off(c.at(hi)) <= 0) {
				continue
			}
			rising := off(c.at(lo)) <= 0
			for range 60 {
				if mid := (lo + hi) / 2; (off(c.at(mid)) <= 0) == rising {
					lo = mid
				} else {
					hi = mid
				}
			}
			if d := dot(dir, c.at((lo+hi)/2).Sub(a)); d > 1 && d < best {
				best, found = d, true
			}
		}
	}
	return a.Add(dir.times(best)), found
}

// A stretch is a stretch of an outline.
type stretch struct {
	Start Point
	Edges []Edge
	From  []int
}

func (r *stretch) last() Point { return r.Edges[len(r.Edges)-1].To }

// stretch is the stretch from one corner to another, against the clock; nil where
// either is no corner.
func (c *cutUp) stretch(from, to Point) *stretch {
	n, first := len(c.o.Edges), -1
	for i := range n {
		if distance(c.o.Start(i), from) < sameCorner {
			first = i
		}
	}
	if first < 0 {
		return nil
	}
	r := &stretch{Start: c.o.Start(first)}
	for k := range n {
		i := (first + k) % n
		r.Edges, r.From = append(r.Edges, c.o.Edges[i]), append(r.From, c.from[i])
		if distance(c.o.Edges[i].To, to) < sameCorner {
			return r
		}
	}
	return nil
}

// turns reports whether this run is the one to turn, and the other stays.
func (r *stretch) turns(other *stretch) bool {
	a, b := r.holdsFold(), other.holdsFold()
	if a != b {
		return b
	}
	return r.length() < other.length()
}

func (r *stretch) holdsFold() bool {
	for _, e := range r.Edges {
		if e.Fold {
			return true
		}
	}
	return false
}

func (r *stretch) length() float64 {
	sum, p := 0.0, r.Start
	for _, e := range r.Edges {
		sum, p = sum+distance(p, e.To), e.To
	}
	return sum
}

// turning is the turn about a point by which one point comes onto another.
func turning(about, from, onto Point) Reshaped {
	a, b := unit(from.Sub(about)), unit(onto.Sub(about))
	return Reshaped{about: about, cos: dot(a, b), sin: cross(a, b)}
}

// through puts every point of the run through f.
func (r *stretch) through(f func(Point) Point) {
	r.Start = f(r.Start)
	for i := range r.Edges {
		e := &r.Edges[i]
		e.To = f(e.To)
		if e.Curved {
			e.C1, e.C2 = f(e.C1), f(e.C2)
		}
	}
}

// endToEnd sets runs end to end into an outline that begins with its old first
// edge, where that is left.
func endToEnd(list []stretch) Reshaped {
	var r Reshaped
	for _, part := range list {
		r.Outline.Edges = append(r.Outline.Edges, part.Edges...)
		r.From = append(r.From, part.From...)
	}
	n := len(r.From)
	first := 0
	for k := range n {
		if r.From[k] == 0 && r.From[(k+n-1)%n] != 0 {
			first = k
		}
	}
	r.Outline.Edges = append(append([]Edge(nil), r.Outline.Edges[first:]...), r.Outline.Edges[:first]...)
	r.From = append(append([]int(nil), r.From[first:]...), r.From[:first]...)
	r.Outline.From = r.Outline.Edges[n-1].To
	return r
}

// along is how far along its named edge the mouth that was opened begins.
func (r *Reshaped) along(name string) float64 {
	side, _ := r.Outline.Side(name)
	s := 0.0
	for k := range side.Count {
		i := (side.First + k) % len(r.Outline.Edges)
		if r.From[i] < 0 {
			return s
		}
		s += r.Outline.EdgeLength(i)
	}
	return s
}
