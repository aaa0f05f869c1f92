package lay

import "math"

// domain is where the shape's place may be on a strip: a box whose ends lie
// on the repeat where the shape is matched to one, and no wider than a line where a half
// lies on a fold. It is not ok when there
// is no such place; the box then is the one place furthest to the start.
func (s *shape) domain(length float64) (d box, ok bool) {
	const slack = 1e-11
	z := &s.zone
	d = box{z.From - s.box.minX, z.Near - s.box.minY, min(length, z.To) - s.box.maxX, z.Far - s.box.maxY}
	if s.onFold && z.OnFrom {
		d.maxX = math.Min(d.maxX, d.minX)
	}
	if s.onFold && z.OnNear {
		d.maxY = math.Min(d.maxY, d.minY)
	}
	if s.onFold && z.OnFar {
		d.minY = math.Max(d.maxY, d.minY)
	}
	if s.stepX > 0 {
		d.minX, d.maxX = phasesIn(d.minX, d.maxX, s.stepX, s.phaseX)
	}
	if s.stepY > 0 {
		d.minY, d.maxY = phasesIn(d.minY, d.maxY, s.stepY, s.phaseY)
	}
	ok = d.maxX >= d.minX-slack && d.maxY >= d.minY-slack
	d.maxX, d.maxY = math.Max(d.minX, d.maxX), math.Max(d.minY, d.maxY)
	return d, ok
}

// bring moves a place into a domain and onto the repeat.
func (s *shape) bring(d *box, x, y float64) (float64, float64) {
	x = max(d.minX, min(d.maxX, x))
	y = max(d.minY, min(d.maxY, y))
	if s.stepX > 0 {
		x = settleOn(x, d.minX, d.maxX, s.stepX)
	}
	if s.stepY > 0 {
		y = settleOn(y, d.minY, d.maxY, s.stepY)
	}
	return x, y
}

// leastReach is the shortest strip that holds the shape; +Inf when none
// does, because across the cloth no place is on the repeat.
func (s *shape) leastReach() float64 {
	d, ok := s.domain(math.Inf(1))
	if !ok {
		return math.Inf(1)
	}
	return d.minX + s.box.maxX
}

// phasesIn are the first and the last phase of a repeat from lo to hi.
func phasesIn(lo, hi, step, phase float64) (first, last float64) {
	const slack = 1e-9 // of a repeat
	first = phase + float64(math.Ceil((lo-phase)/step-slack)*step)
	last = phase + float64(math.Floor((hi-phase)/step+slack)*step)
	return first, last
}

// settleOn moves v to the nearest phase of a repeat between two phases.
func settleOn(v, first, last, step float64) float64 {
	return min(last, first+float64(math.Round((v-first)/step)*step))
}
