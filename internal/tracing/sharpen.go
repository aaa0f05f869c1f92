package tracing

import (
	"math"

	"hembook/internal/photo"
	"hembook/internal/shape"
)

// A rim is the edge of the paper as it was seen: base is a line near it, every millimetre
// or so, and at are the places on it that were measured.
type rim struct {
	at   []shape.Point
	each float64 // millimetres from one to the next along the base
}

// sharpen finds the rim to a small part of a millimetre: first the line near the coarse
// one along which light changes most, then for each point the place where it is half way.
func (p *sheetOfPaper) sharpen(shots []*shot) *rim {
	lights := make([]*photo.Light, len(shots))
	for i, s := range shots {
		lights[i] = photo.Of(s.img, p.mix)
	}
	base := p.rim
	for _, reach := range []float64{max(3.5*p.step, 4), 2} {
		base = evenly(smoothed(p.drawnTo(base, shots[0], lights[0], reach), 1), 1)
	}
	out := &rim{each: roundLength(base) / float64(len(base))}
	ways := outwards(base, 2)
	off := p.best(base, ways, shots[0], lights[0], 2)
	for i, b := range base {
		sum, n := 0.0, 0.0
		for k, s := range shots {
			bounds := s.img.Bounds()
			start := shape.Point{X: b.X + off[i]*ways[i].X, Y: b.Y + off[i]*ways[i].Y}
			if at, ok := s.view.See(start); !ok || !s.inside(at, bounds.Dx(), bounds.Dy()) {
				continue
			}
			if d, ok := halfWay(s, lights[k], start, ways[i]); ok {
				w := 1 / s.view.Finest(start)
				sum, n = sum+w*d, n+w
			}
		}
		d := off[i]
		if n > 0 {
			d += sum / n
		}
		out.at = append(out.at, shape.Point{X: b.X + d*ways[i].X, Y: b.Y + d*ways[i].Y})
	}
	return out
}

// drawnTo is a line drawn to where light changes most within reach of it.
func (p *sheetOfPaper) drawnTo(base []shape.Point, s *shot, light *photo.Light, reach float64) []shape.Point {
	ways := outwards(base, 3)
	out := make([]shape.Point, len(base))
	for i, d := range p.best(base, ways, s, light, reach) {
		out[i] = shape.Point{X: base[i].X + d*ways[i].X, Y: base[i].Y + d*ways[i].Y}
	}
	return out
}

// How finely places beside a line are tried, and what a jump from one point to the next
// costs for each such step: our own choice.
const (
	tryEach  = 0.25 // mm
	tryJump  = 6    // steps at most
	jumpCost = 0.08 // of the contrast between paper and table
)

// best is how far from each point of a closed line the rim lies: of all lines within
// reach the one that has the most change of light along it and jumps least (dynamic
// programming; A. Amini, T. Weymouth and R. Jain, "Using dynamic programming for solving
// variational problems in vision", 1990).
func (p *sheetOfPaper) best(base, ways []shape.Point, s *shot, light *photo.Light, reach float64) []float64 {
	const lead = 40 // points gone round twice, so that the end meets the beginning
	k := 2*int(reach/tryEach) + 1
	n := len(base)
	cost := make([]float64, k)
	from := make([][]int16, n+lead)
	for i := range n + lead {
		at := i % n
		gain := p.gains(base[at], ways[at], s, light, k)
		next := make([]float64, k)
		from[i] = make([]int16, k)
		for j := range k {
			best, least := j, math.Inf(1)
			for b := max(j-tryJump, 0); b <= min(j+tryJump, k-1); b++ {
				if c := cost[b] + jumpCost*math.Abs(float64(b-j)); c < least {
					best, least = b, c
				}
			}
			next[j], from[i][j] = least-gain[j], int16(best)
		}
		cost = next
	}
	j := 0
	for b := range cost {
		if cost[b] < cost[j] {
			j = b
		}
	}
	out := make([]float64, n)
	for i := n + lead - 1; i >= lead/2; i-- {
		if at := i % n; i < n+lead/2 {
			out[at] = (float64(j) - float64(k-1)/2) * tryEach
		}
		j = int(from[i][j])
	}
	return out
}

// gains are how much light falls from the inside to the outside at each place beside a
// point, as a share of the contrast.
func (p *sheetOfPaper) gains(at, way shape.Point, s *shot, light *photo.Light, k int) []float64 {
	half := max(0.5, s.view.Finest(at))
	pad := int(half/tryEach + 0.5)
	values := make([]float64, k+2*pad)
	seen := lineOfSight(s, at, way, float64(k/2+pad)*tryEach)
	for j := range values {
		x, y := seen((float64(j) - float64(k/2+pad)) * tryEach)
		values[j] = light.At(x, y)
	}
	out := make([]float64, k)
	for j := range out {
		out[j] = min(max((values[j]-values[j+2*pad])/p.tell, 0), 1.2)
	}
	return out
}

// lineOfSight is where in the picture the places beside a point are seen, at a distance
// in millimetres along a way. It is straight over so short a line.
func lineOfSight(s *shot, at, way shape.Point, reach float64) func(t float64) (x, y float64) {
	a, _ := s.view.See(shape.Point{X: at.X - reach*way.X, Y: at.Y - reach*way.Y})
	m, _ := s.view.See(at)
	b, _ := s.view.See(shape.Point{X: at.X + reach*way.X, Y: at.Y + reach*way.Y})
	return func(t float64) (x, y float64) {
		k := t / reach // a parabola through the three
		ax, ay := (a.X+b.X)/2-m.X, (a.Y+b.Y)/2-m.Y
		return m.X + k*(b.X-a.X)/2 + k*k*ax, m.Y + k*(b.Y-a.Y)/2 + k*k*ay
	}
}

// halfWay is how far from a point on the rim, along the way out, the light is half way
// between that of the paper and that of the table close by. It looks along three lines
// beside each other, so that noise counts less.
func halfWay(s *shot, light *photo.Light, at, way shape.Point) (off float64, ok bool) {
	const each, beside = 0.1, 0.45
	fine := s.view.Finest(at)
	near := max(0.9, 2*fine) // where the blur has ended
	far := near + max(0.7, 1.2*fine)
	n := int(math.Ceil(far/each)) + 1
	values := make([]float64, 2*n+1)
	for side := -1.0; side <= 1; side++ {
		p := shape.Point{X: at.X - side*beside*way.Y, Y: at.Y + side*beside*way.X}
		seen := lineOfSight(s, p, way, far)
		for i := range values {
			x, y := seen(float64(i-n) * each)
			values[i] += light.At(x, y) / 3
		}
	}
	level := func(from, to float64) (sum float64) {
		a, b := n+int(math.Round(from/each)), n+int(math.Round(to/each))
		for i := a; i <= b; i++ {
			sum += values[i] / float64(b-a+1)
		}
		return sum
	}
	in, out := level(-far, -near), level(near, far)
	if in <= out {
		return 0, false
	}
	half := (in + out) / 2
	best, found := math.Inf(1), false
	for i := 0; i+1 < len(values); i++ {
		if values[i] >= half && values[i+1] < half {
			t := each * (float64(i-n) + (values[i]-half)/(values[i]-values[i+1]))
			if math.Abs(t) < math.Abs(best) {
				best, found = t, math.Abs(t) < near
			}
		}
	}
	return best, found
}
