package camera

import (
	"errors"
	"math"
	"slices"

	"hembook/internal/shape"
)

// A Body is a flat thing with points that are seen: where each lies on it, millimetres
// from its middle, and which way it goes where the ink of the thing is spread by one.
type Body struct {
	Points []shape.Point
	Spread []shape.Point // as many, or none where nothing spreads
}

// A Sighting is a body as one photograph shows it: where each of its points is seen.
type Sighting struct {
	Photo, Body int
	Seen        []shape.Point
}

// A Photo is one photograph's size, and which of the lenses it was taken with.
type Photo struct{ Wide, High, Lens int }

// A Distance is a length that was measured between the middles of two bodies.
type Distance struct {
	From, To int
	MM       float64
}

// A Survey is all that is known before.
type Survey struct {
	Photos    []Photo
	Bodies    []Body
	Sightings []Sighting
	Distances []Distance
	Scale     float64 // how large the bodies are for what they should be; 0 for 1
	Loose     float64 // how far that may be wrong, as a share; 0 for not at all
}

// A Lie is where a body lies on the plane: its middle, and how far it is turned against
// the clock, in radians.
type Lie struct{ X, Y, Turn float64 }

// At is where a point of a body lies on the plane.
func (l Lie) At(p shape.Point) shape.Point {
	s, c := math.Sincos(l.Turn)
	return shape.Point{X: l.X + c*p.X - s*p.Y, Y: l.Y + s*p.X + c*p.Y}
}

// A Found is what comes of a survey.
type Found struct {
	Views  []View    // of each photograph
	Lies   []Lie     // of each body
	Scale  float64   // how large the bodies are for what they should be
	Spread float64   // millimetres by which their ink goes further
	Off    []float64 // how far each sighting's points lie from where they should be seen: root mean square, in pixels
}

// What is thought of a lens and of a print before any photograph is looked at: our own
// choice, no source. The numbers are standard deviations, and wide: a good photograph
// overrules them.
const (
	usualF     = 0.8  // focal length for the longer side of the picture
	strayF     = 0.25 // as a share
	strayMid   = 0.01 // of the picture's longer side
	strayK1    = 0.2
	strayK2    = 0.2
	straySeen  = 0.1  // pixels
	strayInk   = 0.25 // mm
	strayTape  = 0.4  // mm: a tape read to the half millimetre at both ends
	notAtAll   = 1e-7
	mostRounds = 60
)

// ErrUnsettled says that no place of the camera explains what is seen.
var ErrUnsettled = errors.New("the photographs do not agree with any place of the camera")

// Adjust finds the views of all photographs and the lies of all bodies. The first body
// lies at the plane's origin, not turned. Each photograph must have a sighting, and
// share a body with one before it.
func Adjust(s Survey) (*Found, error) {
	if s.Scale == 0 {
		s.Scale = 1
	}
	best, cost := state{}, math.Inf(1)
	for _, tilt := range tilts {
		st, ok := s.begin(tilt)
		if !ok {
			continue
		}
		a := adjustment{Survey: s, fixedLens: true}
		if st, c := a.solve(st, 25); c < cost {
			best, cost = st, c
		}
	}
	if math.IsInf(cost, 1) {
		return nil, ErrUnsettled
	}
	a := adjustment{Survey: s}
	best, cost = a.solve(best, mostRounds)
	if math.IsNaN(cost) || math.IsInf(cost, 1) {
		return nil, ErrUnsettled
	}
	return a.found(best), nil
}

// tilts are the ways in which the table may lean before the camera at first: from above,
// and by 30 degrees to each side. Turned about the camera's x and y.
var tilts = func() (out [][3]float64) {
	out = append(out, [3]float64{})
	for i := range 6 {
		s, c := math.Sincos(float64(i) * math.Pi / 3)
		out = append(out, [3]float64{0.5 * c, 0.5 * s, 0})
	}
	return out
}()

// A state is one guess at everything.
type state struct {
	lenses []Lens
	poses  []Pose
	lies   []Lie
	scale  float64
	spread float64
}

func (st state) clone() state {
	st.lenses, st.poses, st.lies = slices.Clone(st.lenses), slices.Clone(st.poses), slices.Clone(st.lies)
	return st
}

func (st *state) view(s *Survey, photo int) View {
	return View{st.lenses[s.Photos[photo].Lens], st.poses[photo]}
}

// begin guesses a state from where bodies are seen, with all planes leaning alike.
func (s *Survey) begin(tilt [3]float64) (state, bool) {
	st := state{scale: s.Scale, lies: make([]Lie, len(s.Bodies)), poses: make([]Pose, len(s.Photos))}
	for _, p := range s.Photos {
		for len(st.lenses) <= p.Lens {
			st.lenses = append(st.lenses, Lens{})
		}
		longer := float64(max(p.Wide, p.High))
		st.lenses[p.Lens] = Lens{F: usualF * longer, CX: float64(p.Wide) / 2, CY: float64(p.High) / 2}
	}
	placed := make([]bool, len(s.Bodies))
	placed[0] = true
	for photo := range s.Photos {
		first := slices.IndexFunc(s.Sightings, func(o Sighting) bool { return o.Photo == photo && placed[o.Body] })
		if first < 0 {
			return st, false
		}
		st.poses[photo] = s.poseOf(st, s.Sightings[first], tilt)
		view := st.view(s, photo)
		for _, o := range s.Sightings {
			if o.Photo != photo || placed[o.Body] {
				continue
			}
			lie, ok := s.lieOf(view, o)
			if !ok {
				return st, false
			}
			st.lies[o.Body], placed[o.Body] = lie, true
		}
	}
	return st, !slices.Contains(placed, false)
}

// poseOf is the pose in which a body whose lie is known is seen where it is, about as
// large and turned as it is.
func (s *Survey) poseOf(st state, o Sighting, tilt [3]float64) Pose {
	lens, lie := st.lenses[s.Photos[o.Photo].Lens], st.lies[o.Body]
	var on []shape.Point
	for _, p := range s.Bodies[o.Body].Points {
		q := lie.At(p)
		on = append(on, shape.Point{X: q.X, Y: -q.Y})
	}
	m, mid, seen := likeness(on, o.Seen)
	far := lens.F / max(math.Hypot(m[0], m[1]), 1e-9)
	turn := math.Atan2(m[1], m[0])
	p := Pose{R: [9]float64{1, 0, 0, 0, 1, 0, 0, 0, 1}}.turnedBy([3]float64{0, 0, turn}).turnedBy(tilt)
	ray := [3]float64{(seen.X - lens.CX) / lens.F * far, (seen.Y - lens.CY) / lens.F * far, far}
	for i := range 3 {
		p.T[i] = ray[i] - p.R[3*i]*mid.X - p.R[3*i+1]*mid.Y
	}
	return p
}

// lieOf is where a body lies that a view shows.
func (s *Survey) lieOf(v View, o Sighting) (Lie, bool) {
	var on []shape.Point
	for _, at := range o.Seen {
		p, ok := v.OnPlane(at)
		if !ok {
			return Lie{}, false
		}
		on = append(on, p)
	}
	m, mid, at := likeness(s.Bodies[o.Body].Points, on)
	lie := Lie{Turn: math.Atan2(m[1], m[0])}
	back := lie.At(mid)
	lie.X, lie.Y = at.X-back.X, at.Y-back.Y
	return lie, true
}

// likeness is the turn and scale (c, s) by which points come nearest to others, about
// the middles of both.
func likeness(from, to []shape.Point) (m [2]float64, a, b shape.Point) {
	n := float64(len(from))
	for i := range from {
		a.X, a.Y = a.X+from[i].X/n, a.Y+from[i].Y/n
		b.X, b.Y = b.X+to[i].X/n, b.Y+to[i].Y/n
	}
	sum := 0.0
	for i := range from {
		x, y, u, v := from[i].X-a.X, from[i].Y-a.Y, to[i].X-b.X, to[i].Y-b.Y
		m[0] += x*u + y*v
		m[1] += x*v - y*u
		sum += x*x + y*y
	}
	m[0], m[1] = m[0]/sum, m[1]/sum
	return m, a, b
}

// An adjustment works a survey out.
type adjustment struct {
	Survey
	fixedLens bool // as guessed, for the first steps
}

// Steps of each unknown that a derivative is taken over.
const (
	turnBit = 1e-6 // radians
	moveBit = 1e-3 // mm
	lensBit = 1e-6
)

// unknowns is how many there are, and moved the state with one of them changed.
func (a *adjustment) unknowns(st *state) int {
	return 2 + 5*len(st.lenses) + 6*len(st.poses) + 3*(len(st.lies)-1)
}

// moved is a state changed by a step in every unknown, in units of its bit.
func (a *adjustment) moved(st state, by []float64) state {
	out := st.clone()
	out.scale += by[0] * lensBit
	out.spread += by[1] * moveBit
	k := 2
	for i := range out.lenses {
		if l := &out.lenses[i]; !a.fixedLens {
			longer := a.longer(i)
			l.F *= math.Exp(by[k] * lensBit)
			l.CX += by[k+1] * lensBit * longer
			l.CY += by[k+2] * lensBit * longer
			l.K1 += by[k+3] * lensBit
			l.K2 += by[k+4] * lensBit
		}
		k += 5
	}
	for i := range out.poses {
		p := out.poses[i].turnedBy([3]float64{by[k] * turnBit, by[k+1] * turnBit, by[k+2] * turnBit})
		for c := range 3 {
			p.T[c] += by[k+3+c] * moveBit
		}
		out.poses[i] = p
		k += 6
	}
	for i := 1; i < len(out.lies); i++ {
		l := &out.lies[i]
		l.X, l.Y, l.Turn = l.X+by[k]*moveBit, l.Y+by[k+1]*moveBit, l.Turn+by[k+2]*turnBit
		k += 3
	}
	return out
}

// longer is the longer side of the pictures of a lens.
func (a *adjustment) longer(lens int) float64 {
	for _, p := range a.Photos {
		if p.Lens == lens {
			return float64(max(p.Wide, p.High))
		}
	}
	return 1
}

// residuals are how far a state is from all that was seen and thought, each in its
// standard deviations; behind the camera is very far.
func (a *adjustment) residuals(st *state, out []float64) []float64 {
	out = out[:0]
	for _, o := range a.Sightings {
		v, lie, body := st.view(&a.Survey, o.Photo), st.lies[o.Body], &a.Bodies[o.Body]
		for i := range body.Points {
			at, ok := v.See(lie.At(st.point(body, i)))
			if !ok {
				at = shape.Point{X: 1e7, Y: 1e7}
			}
			out = append(out, (at.X-o.Seen[i].X)/straySeen, (at.Y-o.Seen[i].Y)/straySeen)
		}
	}
	for _, d := range a.Distances {
		f, t := st.lies[d.From], st.lies[d.To]
		out = append(out, (math.Hypot(f.X-t.X, f.Y-t.Y)-d.MM)/strayTape)
	}
	out = append(out, (st.scale-a.Scale)/max(a.Loose, notAtAll), st.spread/a.ink())
	for i, l := range st.lenses {
		longer := a.longer(i)
		x, y := a.middle(i)
		out = append(out, math.Log(l.F/(usualF*longer))/strayF, (l.CX-x)/(strayMid*longer), (l.CY-y)/(strayMid*longer), l.K1/strayK1, l.K2/strayK2)
	}
	return out
}

// point is where a point of a body lies on it, its print and ink as the state has them.
func (st *state) point(b *Body, i int) shape.Point {
	p := b.Points[i]
	p.X, p.Y = p.X*st.scale, p.Y*st.scale
	if len(b.Spread) > 0 {
		p.X, p.Y = p.X+st.spread*b.Spread[i].X, p.Y+st.spread*b.Spread[i].Y
	}
	return p
}

// ink is how far ink may spread: not at all where no body has any.
func (a *adjustment) ink() float64 {
	for i := range a.Bodies {
		if len(a.Bodies[i].Spread) > 0 {
			return strayInk
		}
	}
	return notAtAll
}

func (a *adjustment) middle(lens int) (x, y float64) {
	for _, p := range a.Photos {
		if p.Lens == lens {
			return float64(p.Wide) / 2, float64(p.High) / 2
		}
	}
	return 0, 0
}

// found is what a state says.
func (a *adjustment) found(st state) *Found {
	out := &Found{Lies: st.lies, Scale: st.scale, Spread: st.spread}
	for i := range a.Photos {
		out.Views = append(out.Views, st.view(&a.Survey, i))
	}
	for _, o := range a.Sightings {
		sum := 0.0
		for i := range o.Seen {
			at, _ := out.Views[o.Photo].See(st.lies[o.Body].At(st.point(&a.Bodies[o.Body], i)))
			sum += (at.X-o.Seen[i].X)*(at.X-o.Seen[i].X) + (at.Y-o.Seen[i].Y)*(at.Y-o.Seen[i].Y)
		}
		out.Off = append(out.Off, math.Sqrt(sum/float64(len(o.Seen))))
	}
	return out
}
