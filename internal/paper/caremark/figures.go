package caremark

import (
	"math"

	"hembook/internal/drawing"
)

// figures draws figures and letters in strokes, their middle at x, their
// upper edge at y.
func (s *sign) figures(text string, x, y, high float64) {
	const between = 0.24
	wide := -between
	for _, r := range text {
		wide += strokeWidth(r) + between
	}
	x -= wide * high / 2
	for _, r := range text {
		p := brush{to: &s.lines, x: x, y: y, k: high}
		p.figure(r)
		x += (strokeWidth(r) + between) * high
	}
}

// strokeWidth is how wide a figure is, against its height.
func strokeWidth(r rune) float64 {
	switch r {
	case 'W':
		return 0.96
	case 'P', 'F':
		return 0.54
	}
	return 0.56
}

// A brush draws in a box one unit high.
type brush struct {
	to      *drawing.Path
	x, y, k float64
}

func (p brush) move(x, y float64) { p.to.Move(p.x+x*p.k, p.y+y*p.k) }
func (p brush) line(x, y float64) { p.to.Line(p.x+x*p.k, p.y+y*p.k) }
func (p brush) curve(x1, y1, x2, y2, x, y float64) {
	p.to.Curve(p.x+x1*p.k, p.y+y1*p.k, p.x+x2*p.k, p.y+y2*p.k, p.x+x*p.k, p.y+y*p.k)
}

// arc goes on along an ellipse from one angle to another, in degrees
// clockwise from three o'clock, in curves of at most a quarter each.
func (p brush) arc(cx, cy, rx, ry, from, to float64) {
	n := math.Ceil(math.Abs(to-from) / 90)
	step := (to - from) / n * math.Pi / 180
	k := 4.0 / 3 * math.Tan(step/4)
	a := from * math.Pi / 180
	for range int(n) {
		b := a + step
		p.curve(cx+rx*(math.Cos(a)-k*math.Sin(a)), cy+ry*(math.Sin(a)+k*math.Cos(a)),
			cx+rx*(math.Cos(b)+k*math.Sin(b)), cy+ry*(math.Sin(b)-k*math.Cos(b)),
			cx+rx*math.Cos(b), cy+ry*math.Sin(b))
		a = b
	}
}

// begin moves to where an arc begins.
func (p brush) begin(cx, cy, rx, ry, from float64) {
	a := from * math.Pi / 180
	p.move(cx+rx*math.Cos(a), cy+ry*math.Sin(a))
}

func (p brush) figure(r rune) {
	switch r {
	case '0':
		p.begin(0.28, 0.5, 0.28, 0.5, -90)
		p.arc(0.28, 0.5, 0.28, 0.5, -90, 270)
		p.to.Close()
	case '3':
		p.begin(0.27, 0.255, 0.24, 0.255, -155)
		p.arc(0.27, 0.255, 0.24, 0.255, -155, 90)
		p.arc(0.27, 0.755, 0.28, 0.245, -90, 155)
	case '4':
		p.move(0.42, 1)
		p.line(0.42, 0)
		p.line(0, 0.69)
		p.line(0.58, 0.69)
	case '5':
		p.move(0.5, 0)
		p.line(0.1, 0)
		p.line(0.03, 0.474) // where the bowl begins
		p.arc(0.26, 0.68, 0.3, 0.32, -140, 150)
	case '6':
		p.move(0.44, 0)
		p.curve(0.2, 0.14, 0, 0.4, 0, 0.7)
		p.arc(0.28, 0.7, 0.28, 0.3, 180, 540)
	case '7':
		p.move(0, 0)
		p.line(0.56, 0)
		p.line(0.18, 1)
	case '9':
		p.move(0.12, 1)
		p.curve(0.36, 0.86, 0.56, 0.6, 0.56, 0.3)
		p.arc(0.28, 0.3, 0.28, 0.3, 0, 360)
	case 'P':
		p.move(0, 1)
		p.line(0, 0)
		p.line(0.26, 0)
		p.arc(0.26, 0.28, 0.28, 0.28, -90, 90)
		p.line(0, 0.56)
	case 'F':
		p.move(0.54, 0)
		p.line(0, 0)
		p.line(0, 1)
		p.move(0, 0.47)
		p.line(0.44, 0.47)
	case 'W':
		p.move(0, 0)
		p.line(0.24, 1)
		p.line(0.48, 0.22)
		p.line(0.72, 1)
		p.line(0.96, 0)
	}
}
