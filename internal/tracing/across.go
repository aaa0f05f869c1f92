package tracing

import (
	"fmt"
	"math"
	"slices"

	"hembook/internal/fault"
	"hembook/internal/photo"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// How a gap between two sheets is told from a line: our own choice, measured on made-up
// photographs. Blur makes either wider and fainter, and leaves the product as it was.
const (
	mostAcross  = 1.2 // mm that a line as dark as the table may be wide
	acrossReach = 6.0 // mm looked at on each side
	acrossRim   = 9.0 // mm up to which the paper beside it is looked at
	acrossEach  = 0.25
	acrossMany  = 25 // places along it
)

// touch refuses two sheets of paper that lie so close that they were taken for one: the
// table is seen between them, from edge to edge.
func (t *Traced) touch(p *sheetOfPaper, s *shot, strokes []Stroke) error {
	lines := t.edgeLines()
	var light *photo.Light
	for _, stroke := range strokes {
		across := meeting(stroke, lines)
		if across.edge[0] < 0 || across.edge[1] < 0 {
			continue
		}
		if light == nil {
			light = photo.Of(s.img, p.mix)
		}
		if wide := t.tableWithin(p, s, light, across.Stroke); wide > mostAcross {
			return fault.Refusing(say.Of("tracing.leave-one-piece-on-the-table-and"), say.Of("tracing.two-pieces-of-paper-touch", fmt.Sprintf("%.0f", across.long())))
		}
	}
	return nil
}

// tableWithin is how wide a strip of table would have to be to make a line so dark, or so
// light: the middle one of many places along it, in millimetres.
func (t *Traced) tableWithin(p *sheetOfPaper, s *shot, light *photo.Light, line Stroke) float64 {
	long := line.long()
	square := shape.Point{X: -(line.To.Y - line.From.Y) / long, Y: (line.To.X - line.From.X) / long}
	var wides []float64
	for i := range acrossMany {
		k := 0.1 + 0.8*(float64(i)+0.5)/acrossMany
		m := shape.Point{X: line.From.X + k*(line.To.X-line.From.X), Y: line.From.Y + k*(line.To.Y-line.From.Y)}
		at := func(off float64) float64 {
			q, _ := s.view.See(t.still(shape.Point{X: m.X + off*square.X, Y: m.Y + off*square.Y}))
			return light.At(q.X, q.Y)
		}
		var beside []float64
		for off := acrossReach; off <= acrossRim; off += acrossEach {
			beside = append(beside, at(off), at(-off))
		}
		is := median(beside)
		shade := is / p.light // less where a shadow falls
		sum := 0.0
		for off := -acrossReach; off <= acrossReach; off += acrossEach {
			sum += min((is-at(off))/(p.tell*shade), 1) * acrossEach
		}
		wides = append(wides, sum)
	}
	slices.Sort(wides)
	return math.Abs(wides[len(wides)/2])
}
