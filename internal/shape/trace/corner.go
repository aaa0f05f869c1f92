package trace

import (
	"math"

	"hembook/internal/shape"
)

// onLine is how far, in millimetres, a mark may lie from the line it marks.
const onLine = 2.0

// cut takes a line apart at its corners. A closed line without any is one
// side; an open one keeps its ends.
func (w *assembly) cut(s Stroke, closed bool) []Stroke {
	at := w.corners(&s, closed)
	if len(at) == 0 {
		return []Stroke{s}
	}
	if closed {
		s.Name = "" // it named the whole line
	}
	n := len(s.Parts)
	if !closed && at[0] != 0 {
		at = append([]int{0}, at...)
	}
	var out []Stroke
	for k, first := range at {
		next := n
		if k+1 < len(at) {
			next = at[k+1]
		} else if closed {
			next = at[0] + n
		}
		side := s
		side.From, side.Closed, side.Parts = s.start(first), closed && len(at) == 1, nil
		for i := first; i < next; i++ {
			side.Parts = append(side.Parts, s.Parts[i%n])
		}
		out = append(out, side)
	}
	return out
}

// corners lists the parts that begin at a corner, splitting parts where a
// mark asks for one.
func (w *assembly) corners(s *Stroke, closed bool) []int {
	turns := w.onStroke(s, w.by[Turn], joins)
	marked := turns
	if len(turns) == 0 {
		marked = w.onStroke(s, w.by[Corner], onLine)
	}
	marks := make([]shape.Point, len(marked))
	for i, m := range marked {
		marks[i] = w.splitAt(s, m)
	}
	var out []int
	for i := range s.Parts {
		if i == 0 && !closed {
			continue
		}
		p := s.start(i)
		is := false
		for _, m := range marks {
			is = is || apart(m, p) < leastPart
		}
		if is || len(turns) == 0 && w.sharp(s, i) {
			out = append(out, i)
		}
	}
	return out
}

// sharp reports whether the line has a corner where part i begins.
func (w *assembly) sharp(s *Stroke, i int) bool {
	in := arriving(s.start((i+len(s.Parts)-1)%len(s.Parts)), s.Parts[(i+len(s.Parts)-1)%len(s.Parts)])
	out := leaving(s.start(i), s.Parts[i])
	cos := float64(in.X*out.X) + float64(in.Y*out.Y)
	return cos < math.Cos(w.opt.Corner*math.Pi/180)
}

// leaving and arriving are the directions of a part at its two ends.
func leaving(from shape.Point, e shape.Edge) shape.Point {
	if e.Curved {
		for _, p := range []shape.Point{e.C1, e.C2} {
			if apart(from, p) > leastPart {
				return unit(p.Sub(from))
			}
		}
	}
	return unit(e.To.Sub(from))
}

func arriving(from shape.Point, e shape.Edge) shape.Point {
	if e.Curved {
		for _, p := range []shape.Point{e.C2, e.C1} {
			if apart(e.To, p) > leastPart {
				return unit(e.To.Sub(p))
			}
		}
	}
	return unit(e.To.Sub(from))
}

// onStroke are the marks that lie on a line.
func (w *assembly) onStroke(s *Stroke, marks []*Stroke, within float64) []shape.Point {
	if len(marks) == 0 {
		return nil
	}
	r := newRuler(shape.Outline{From: s.From, Edges: s.Parts}, s.Closed)
	var out []shape.Point
	for _, m := range marks {
		if p := middle(m); r.nearest(p).away <= within {
			out = append(out, p)
		}
	}
	return out
}

// splitAt makes the point of a line nearest to p the beginning of a part, and
// returns it. A part that begins near by is taken as it is.
func (w *assembly) splitAt(s *Stroke, p shape.Point) shape.Point {
	for i := range s.Parts {
		if q := s.start(i); apart(p, q) <= joins {
			return q
		}
	}
	if apart(p, s.end()) <= joins {
		return s.end()
	}
	o := shape.Outline{From: s.From, Edges: s.Parts}
	hit := newRuler(o, s.Closed).nearest(p)
	o = o.Split(hit.part, hit.inPart, "", "")
	s.Parts = o.Edges
	return o.Edges[hit.part].To
}

// middle is where a mark lies: the point, or the middle of the box about it.
func middle(s *Stroke) shape.Point {
	if len(s.Parts) == 0 {
		return s.From
	}
	least, most := shape.Outline{From: s.From, Edges: s.Parts}.Bounds()
	return shape.Point{X: (least.X + most.X) / 2, Y: (least.Y + most.Y) / 2}
}

// A ruler measures along a line followed closely by straight segments.
type ruler struct {
	ring   shape.Ring // its points, one more than segments
	of     []int      // the part each segment belongs to
	before []float64  // length of the line before each segment
	first  []float64  // length of the line before each part
}

// rulerTolerance is how closely curves are followed, in millimetres.
const rulerTolerance = 1e-3

func newRuler(o shape.Outline, closed bool) *ruler {
	if !closed { // what flattens takes every line for closed: its last point is its first again
		o.Edges = append(append([]shape.Edge(nil), o.Edges...), shape.Edge{To: o.From})
	}
	ring, of := o.Flatten(rulerTolerance)
	if len(ring) > 0 && closed {
		ring = append(ring, ring[0])
	} else if n := len(ring); n > 0 {
		of = of[:n-1]
	}
	r := &ruler{ring: ring, of: of, before: make([]float64, len(of)), first: make([]float64, len(o.Edges)+1)}
	sum, last := 0.0, -1
	for k := range of {
		for ; last < of[k]; last++ {
			r.first[last+1] = sum
		}
		r.before[k] = sum
		sum += apart(ring[k], ring[k+1])
	}
	for last++; last < len(r.first); last++ {
		r.first[last] = sum
	}
	return r
}

// A hit is the point of a line nearest to another.
type hit struct {
	part   int
	along  float64 // from the line's beginning
	inPart float64 // from the part's
	away   float64
	at     shape.Point
}

func (r *ruler) nearest(p shape.Point) hit { return r.nearestOf(p, func(int) bool { return true }) }

// nearestOf looks at those parts only that are wanted.
func (r *ruler) nearestOf(p shape.Point, want func(part int) bool) hit {
	best := hit{part: -1, away: math.Inf(1)}
	for k, part := range r.of {
		if !want(part) {
			continue
		}
		a, way := r.ring[k], r.ring[k+1].Sub(r.ring[k])
		size := float64(way.X*way.X) + float64(way.Y*way.Y)
		t := 0.0
		if size > 0 {
			d := p.Sub(a)
			t = min(max((float64(d.X*way.X)+float64(d.Y*way.Y))/size, 0), 1)
		}
		q := shape.Point{X: a.X + float64(way.X*t), Y: a.Y + float64(way.Y*t)}
		if away := apart(p, q); away < best.away {
			along := r.before[k] + float64(t*math.Sqrt(size))
			best = hit{part, along, along - r.first[part], away, q}
		}
	}
	return best
}
