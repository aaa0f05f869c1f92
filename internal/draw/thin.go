package draw

import "hembook/internal/shape"

// thin adds the ring to the pen as a closed line, leaving out points that lie
// within straighten units of the line drawn without them (the method of
// Douglas and Peucker, 1973).
func (p *pen) thin(r shape.Ring, s sheet, scratch *scratch) {
	n := len(r)
	if n < 3 {
		return
	}
	keep := scratch.marks(n + 1)
	far := 0
	for i := range r { // split the ring at the point farthest from the first
		if apart(r[i], r[0]) > apart(r[far], r[0]) {
			far = i
		}
	}
	keep[0], keep[far], keep[n] = true, true, true
	limit := straighten / s.k
	scratch.spans = append(scratch.spans[:0], [2]int{0, far}, [2]int{far, n})
	for len(scratch.spans) > 0 {
		last := scratch.spans[len(scratch.spans)-1]
		scratch.spans = scratch.spans[:len(scratch.spans)-1]
		if worst := bulge(r, last[0], last[1], limit*limit); worst > 0 {
			keep[worst] = true
			scratch.spans = append(scratch.spans, [2]int{last[0], worst}, [2]int{worst, last[1]})
		}
	}
	for i := range r {
		if !keep[i] {
			continue
		}
		if x, y := s.at(r[i]); i == 0 {
			p.move(x, y)
		} else {
			p.line(x, y)
		}
	}
	p.close()
}

// bulge is the point between two that strays farthest from the line between
// them, 0 where none strays by more than the limit (squared).
func bulge(r shape.Ring, from, to int, limit float64) int {
	a, b := r[from], r[to%len(r)]
	dx, dy := b.X-a.X, b.Y-a.Y
	length := dx*dx + dy*dy
	worst, most := 0, limit
	for i := from + 1; i < to; i++ {
		px, py := r[i].X-a.X, r[i].Y-a.Y
		var stray float64
		if t := px*dx + py*dy; t <= 0 || length == 0 {
			stray = px*px + py*py
		} else if t >= length {
			stray = (px-dx)*(px-dx) + (py-dy)*(py-dy)
		} else {
			c := px*dy - py*dx
			stray = c * c / length
		}
		if stray > most {
			worst, most = i, stray
		}
	}
	return worst
}

func apart(a, b shape.Point) float64 {
	dx, dy := a.X-b.X, a.Y-b.Y
	return dx*dx + dy*dy
}

// scratch is room that drawings use again.
type scratch struct {
	keep  []bool
	spans [][2]int
}

func (s *scratch) marks(n int) []bool {
	if cap(s.keep) < n {
		s.keep = make([]bool, n)
	}
	s.keep = s.keep[:n]
	clear(s.keep)
	return s.keep
}
