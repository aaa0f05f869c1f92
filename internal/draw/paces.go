package draw

import (
	"math"

	"hembook/internal/drawing"
)

// paces measure along a line of straight stretches, each of which is measured once.
// Their room is used again for the next line.
type paces struct {
	line  []drawing.Point
	steps []pace
	total float64
}

// A pace is the direction of a stretch, and how far it goes.
type pace struct{ ux, uy, long float64 }

// of takes the measure of a line, which is not empty.
func (p *paces) of(line []drawing.Point) *paces {
	p.line, p.steps, p.total = line, p.steps[:0], 0
	for i := 1; i < len(line); i++ {
		ux, uy, long := toward2(line[i-1], line[i])
		p.steps = append(p.steps, pace{ux, uy, long})
		p.total += long
	}
	return p
}

// at is the place a part of the way along.
func (p *paces) at(part float64) drawing.Point {
	left := p.total * part
	for i := range p.steps {
		s := &p.steps[i]
		if left <= s.long {
			return drawing.Point{X: p.line[i].X + float64(s.ux*left), Y: p.line[i].Y + float64(s.uy*left)}
		}
		left -= s.long
	}
	return p.line[len(p.line)-1]
}

// even is the line as points that lie equally far apart, about so far.
func (p *paces) even(step float64) []drawing.Point {
	n := max(int(math.Round(p.total/step)), 1)
	out := make([]drawing.Point, n+1)
	for i := range out {
		out[i] = p.at(float64(i) / float64(n))
	}
	return out
}
