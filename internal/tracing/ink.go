package tracing

import (
	"cmp"
	"math"
	"slices"

	"hembook/internal/photo"
	"hembook/internal/shape"
)

// A Stroke is a straight line on the paper, drawn or cut, in the outline's own frame.
type Stroke struct {
	From, To shape.Point
	Light    bool // lighter than the paper: no pencil, but the table through a cut
}

func (s Stroke) long() float64 { return apart(s.From, s.To) }

func apart(a, b shape.Point) float64 { return math.Hypot(b.X-a.X, b.Y-a.Y) }

// How lines on paper are looked for: our own choice, measured on made-up photographs.
const (
	inkFinest  = 0.5   // mm, side of the squares that are looked at
	inkCoarse  = 1.2   // and at most
	inkRim     = 1.8   // mm about the edge of the paper that are not looked at
	inkGround  = 6.0   // mm about a square whose mean light is its paper's
	inkLeast   = 0.025 // how much darker a line must be, of its paper, spread over the bell
	inkNoise   = 6.0   // and so many times what noise makes
	inkGap     = 6.0   // mm that a line may break off
	inkBeside  = 1.0   // mm that a point may lie beside its line
	inkAskew   = 18 * math.Pi / 180
	leastInk   = 20.0 // mm of the shortest line
	leastThere = 0.5  // share of a line that must be seen
)

// A crest is a point of a line that is darker or lighter than what lies on both sides.
type crest struct {
	at     shape.Point
	way    shape.Point // along the line
	strong float64     // how much darker; less than 0 for lighter
	used   bool
}

// An inkField is the paper in small squares, seen from above: how much lighter each is
// than the paper about it, as a share of that.
type inkField struct {
	left, low  float64 // of the first square
	step       float64
	wide, high int
	of         []float32
	in         []bool // far enough from the edge of the paper
}

// ink finds the straight lines on the paper.
func (t *Traced) ink(s *shot) []Stroke {
	f := t.inkField(s)
	crests, at := f.crests()
	order := make([]int, len(crests))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(math.Abs(crests[b].strong), math.Abs(crests[a].strong))
	})
	var out []Stroke
	for _, i := range order {
		if crests[i].used {
			continue
		}
		if line, ok := f.grow(crests, at, i); ok && !slices.ContainsFunc(out, line.besideOf) {
			out = append(out, line)
		}
	}
	return out
}

// besideOf reports whether a line is but the paper beside a stronger one, which seems the
// other way off where the mean about it has both.
func (s Stroke) besideOf(stronger Stroke) bool {
	on := shape.Line{stronger.From, stronger.To}
	_, a := on.Nearest(s.From)
	_, b := on.Nearest(s.To)
	return s.Light != stronger.Light && max(a, b) < inkGround+inkBeside
}

// inkField looks at the paper within the outline.
func (t *Traced) inkField(s *shot) *inkField {
	wide, high := t.Size()
	f := &inkField{step: min(max(inkFinest, s.view.Finest(t.still(shape.Point{X: wide / 2, Y: high / 2}))), inkCoarse)}
	least, _ := t.Outline.Bounds()
	f.left, f.low = least.X-2*f.step, least.Y-2*f.step
	f.wide, f.high = int(wide/f.step)+5, int(high/f.step)+5
	f.mask(t.Outline)
	light := photo.Of(s.img, photo.Brightness)
	f.of = make([]float32, f.wide*f.high)
	for i, in := range f.in {
		if !in {
			continue
		}
		if at, ok := s.view.See(t.still(f.middle(i))); ok {
			f.of[i] = float32(light.At(at.X, at.Y))
		}
	}
	f.level()
	return f
}

func (f *inkField) middle(i int) shape.Point {
	return shape.Point{X: f.left + (float64(i%f.wide)+0.5)*f.step, Y: f.low + (float64(i/f.wide)+0.5)*f.step}
}

// mask marks the squares that lie in the outline and not close to it.
func (f *inkField) mask(o shape.Outline) {
	ring, _ := o.Flatten(0.1)
	f.in = make([]bool, f.wide*f.high)
	var at []float64
	for y := range f.high {
		v := f.low + (float64(y)+0.5)*f.step
		at = at[:0]
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			if (a.Y <= v) != (b.Y <= v) {
				at = append(at, a.X+(v-a.Y)/(b.Y-a.Y)*(b.X-a.X))
			}
		}
		slices.Sort(at)
		for k := 0; k+1 < len(at); k += 2 {
			from, to := int(math.Ceil((at[k]-f.left)/f.step-0.5)), int(math.Floor((at[k+1]-f.left)/f.step-0.5))
			for x := max(from, 0); x <= min(to, f.wide-1); x++ {
				f.in[y*f.wide+x] = true
			}
		}
	}
	reach := int(math.Ceil(inkRim / f.step))
	even := evenly(ring, f.step)
	for _, p := range even {
		x, y := int((p.X-f.left)/f.step), int((p.Y-f.low)/f.step)
		for dy := -reach; dy <= reach; dy++ {
			for dx := -reach; dx <= reach; dx++ {
				if u, v := x+dx, y+dy; dx*dx+dy*dy <= reach*reach && u >= 0 && v >= 0 && u < f.wide && v < f.high {
					f.in[v*f.wide+u] = false
				}
			}
		}
	}
}

// level makes of light how much lighter each square is than the mean of those about it.
func (f *inkField) level() {
	reach := int(inkGround / f.step)
	weight := make([]float32, len(f.of))
	for i, in := range f.in {
		if in {
			weight[i] = 1
		}
	}
	sum := f.boxed(f.of, reach)
	count := f.boxed(weight, reach)
	for i, in := range f.in {
		if !in || sum[i] <= 0 {
			f.of[i] = 0
			continue
		}
		f.of[i] = f.of[i]*count[i]/sum[i] - 1
	}
}

// boxed are the sums over the squares within reach, across and up.
func (f *inkField) boxed(of []float32, reach int) []float32 {
	pass := func(of []float32, count, long, jump, next int) []float32 {
		out := make([]float32, len(of))
		for c := range count {
			sum := float64(0)
			for k := -reach; k < long; k++ {
				if k+reach < long {
					sum += float64(of[c*next+(k+reach)*jump])
				}
				if k-reach-1 >= 0 {
					sum -= float64(of[c*next+(k-reach-1)*jump])
				}
				if k >= 0 {
					out[c*next+k*jump] = float32(sum)
				}
			}
		}
		return out
	}
	return pass(pass(of, f.high, f.wide, 1, f.wide), f.wide, f.high, f.wide, 1)
}

// bell spreads the field as a bell of so many squares does.
func (f *inkField) bell(sigma float64) []float32 {
	reach := int(3*sigma) + 1
	weights, sum := make([]float32, reach+1), float32(0)
	for i := range weights {
		weights[i] = float32(math.Exp(-float64(i*i) / (2 * sigma * sigma)))
		sum += weights[i]
		if i > 0 {
			sum += weights[i]
		}
	}
	pass := func(of []float32, count, long, jump, next int) []float32 {
		out := make([]float32, len(of))
		for c := range count {
			for k := range long {
				v := weights[0] * of[c*next+k*jump]
				for d := 1; d <= reach; d++ {
					v += weights[d] * (of[c*next+max(k-d, 0)*jump] + of[c*next+min(k+d, long-1)*jump])
				}
				out[c*next+k*jump] = v / sum
			}
		}
		return out
	}
	return pass(pass(f.of, f.high, f.wide, 1, f.wide), f.wide, f.high, f.wide, 1)
}

// crests are the points along which the paper is darkest or lightest, each to a part of a
// square (C. Steger, "An unbiased detector of curvilinear structures", IEEE Transactions
// on Pattern Analysis and Machine Intelligence 20, 1998), and for each square its crest, or -1.
func (f *inkField) crests() (out []crest, at []int32) {
	sigma := max(0.8/f.step, 1)
	of := f.bell(sigma)
	at = make([]int32, len(of))
	strong := make([]float32, len(of))
	var some []float64
	for i := range of {
		at[i] = -1
		x, y := i%f.wide, i/f.wide
		if x == 0 || y == 0 || x+1 == f.wide || y+1 == f.high || !f.in[i] {
			continue
		}
		k, _, _ := f.bend(of, i)
		strong[i] = float32(k * sigma * sigma)
		if i%11 == 0 {
			some = append(some, math.Abs(k*sigma*sigma))
		}
	}
	least := max(inkLeast, inkNoise*median(some))
	for i, s := range strong {
		if math.Abs(float64(s)) < least {
			continue
		}
		k, nx, ny := f.bend(of, i)
		gx, gy := float64(of[i+1]-of[i-1])/2, float64(of[i+f.wide]-of[i-f.wide])/2
		off := -(gx*nx + gy*ny) / k
		if math.Abs(off*nx) > 0.6 || math.Abs(off*ny) > 0.6 {
			continue
		}
		m := f.middle(i)
		at[i] = int32(len(out))
		out = append(out, crest{at: shape.Point{X: m.X + off*nx*f.step, Y: m.Y + off*ny*f.step}, way: shape.Point{X: -ny, Y: nx}, strong: float64(s)})
	}
	return out, at
}

// bend is how much the field bends most at a square, and in which direction: more than 0
// in a hollow.
func (f *inkField) bend(of []float32, i int) (k, nx, ny float64) {
	w := f.wide
	xx := float64(of[i+1] - 2*of[i] + of[i-1])
	yy := float64(of[i+w] - 2*of[i] + of[i-w])
	xy := float64(of[i+w+1]-of[i+w-1]-of[i-w+1]+of[i-w-1]) / 4
	half, mean := math.Hypot((xx-yy)/2, xy), (xx+yy)/2
	turn := math.Atan2(2*xy, xx-yy) / 2
	if k = mean + half; mean < 0 {
		k, turn = mean-half, turn+math.Pi/2
	}
	ny, nx = math.Sincos(turn)
	return k, nx, ny
}

// grow follows a line from one of its points both ways as long as it is seen, and takes
// its points out.
func (f *inkField) grow(crests []crest, at []int32, from int) (Stroke, bool) {
	p, way := crests[from].at, crests[from].way
	of := []shape.Point{p}
	ends := [2]float64{} // how far it goes on, against its way and along it
	for side, sign := range []float64{-1, 1} {
		gap := 0.0
		for u := f.step; gap <= inkGap; u += f.step {
			k := f.next(crests, at, from, shape.Point{X: p.X + sign*u*way.X, Y: p.Y + sign*u*way.Y}, way)
			if k < 0 {
				gap += f.step
				continue
			}
			gap, ends[side] = 0, u
			of = append(of, crests[k].at)
			if len(of)%8 == 0 {
				if m, v, ok := lineThrough(of, way); ok {
					along := (p.X-m.X)*v.X + (p.Y-m.Y)*v.Y
					p, way = shape.Point{X: m.X + along*v.X, Y: m.Y + along*v.Y}, v
				}
			}
		}
	}
	line := Stroke{From: shape.Point{X: p.X - ends[0]*way.X, Y: p.Y - ends[0]*way.Y}, To: shape.Point{X: p.X + ends[1]*way.X, Y: p.Y + ends[1]*way.Y}, Light: crests[from].strong < 0}
	long := ends[0] + ends[1]
	ok := long >= leastInk && float64(len(of))*f.step >= leastThere*long
	crests[from].used = true
	if ok {
		f.take(crests, at, line, way)
	}
	return line, ok
}

// next is the point of a line nearest to a place on it, or -1.
func (f *inkField) next(crests []crest, at []int32, from int, p, way shape.Point) int {
	best, least := -1, inkBeside
	reach := int(math.Ceil(inkBeside / f.step))
	x, y := int((p.X-f.left)/f.step), int((p.Y-f.low)/f.step)
	for v := max(y-reach, 0); v <= min(y+reach, f.high-1); v++ {
		for u := max(x-reach, 0); u <= min(x+reach, f.wide-1); u++ {
			k := at[v*f.wide+u]
			if k < 0 || crests[k].used || (crests[k].strong < 0) != (crests[from].strong < 0) {
				continue
			}
			c := crests[k]
			if math.Abs(c.way.X*way.Y-c.way.Y*way.X) > math.Sin(inkAskew) {
				continue
			}
			dx, dy := c.at.X-p.X, c.at.Y-p.Y
			along := math.Abs(dx*way.X + dy*way.Y)
			if off := math.Abs(dx*way.Y - dy*way.X); off < least && along <= f.step {
				best, least = int(k), off
			}
		}
	}
	return best
}

// take marks the points of a line, so that it is found once.
func (f *inkField) take(crests []crest, at []int32, line Stroke, way shape.Point) {
	reach := int(math.Ceil(1.5 * inkBeside / f.step))
	n := int(line.long()/f.step) + 1
	for i := range n + 1 {
		k := float64(i) / float64(n)
		x, y := int((line.From.X+k*(line.To.X-line.From.X)-f.left)/f.step), int((line.From.Y+k*(line.To.Y-line.From.Y)-f.low)/f.step)
		for v := max(y-reach, 0); v <= min(y+reach, f.high-1); v++ {
			for u := max(x-reach, 0); u <= min(x+reach, f.wide-1); u++ {
				if c := at[v*f.wide+u]; c >= 0 && math.Abs(crests[c].way.X*way.Y-crests[c].way.Y*way.X) < math.Sin(2*inkAskew) {
					crests[c].used = true
				}
			}
		}
	}
}

// lineThrough is the straight line nearest to points, its way nearly that of another.
func lineThrough(at []shape.Point, way shape.Point) (m, v shape.Point, ok bool) {
	m = middleOf(at)
	var xx, xy, yy float64
	for _, p := range at {
		x, y := p.X-m.X, p.Y-m.Y
		xx, xy, yy = xx+x*x, xy+x*y, yy+y*y
	}
	v.Y, v.X = math.Sincos(math.Atan2(2*xy, xx-yy) / 2)
	if v.X*way.X+v.Y*way.Y < 0 {
		v.X, v.Y = -v.X, -v.Y
	}
	return m, v, v.X*way.X+v.Y*way.Y > 0.7
}
