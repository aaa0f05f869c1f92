package draw

import (
	"strconv"

	"hembook/internal/measure"
)

// A scaleBar is a stretch of tape beside a drawing that tells its scale
// however large the drawing is shown.
type scaleBar struct {
	length float64 // units
	parts  int     // ticks divide it into so many parts
	label  string
}

// bar chooses a round length that suits the width of the drawing.
func (d *pieceDrawing) bar(wide float64) scaleBar {
	want := max(min(wide*0.4, 300), 60) / d.s.k // millimetres
	if d.style.Measure.System == measure.Imperial {
		return inchBar(want, d.s.k)
	}
	best := scaleBar{length: 10 * d.s.k, parts: 2, label: "1 cm"}
	for _, cm := range []int{2, 5, 10, 20, 50, 100} {
		if mm := float64(cm) * 10; mm <= want {
			parts := 2
			if cm == 5 || cm == 50 {
				parts = 5
			}
			best = scaleBar{mm * d.s.k, parts, strconv.Itoa(cm) + " cm"}
		}
	}
	return best
}

func inchBar(want, k float64) scaleBar {
	best := scaleBar{25.4 * k, 2, "1 in"}
	for _, in := range []int{2, 4, 8, 12, 24, 36} {
		if mm := float64(in) * 25.4; mm <= want {
			best = scaleBar{mm * k, 2, strconv.Itoa(in) + " in"}
		}
	}
	return best
}

// draw adds the bar with its left end at (x, y).
func (b scaleBar) draw(dst []byte, x, y float64) []byte {
	p := pen{dst: append(dst, `<path class="bar" d="`...)}
	p.move(x, y)
	p.line(x+b.length, y)
	for i := 0; i <= b.parts; i++ {
		at := x + b.length*float64(i)/float64(b.parts)
		high := float64(tick)
		if i != 0 && i != b.parts {
			high = tick / 2
		}
		p.move(at, y-high)
		p.line(at, y)
	}
	dst = append(p.dst, `"/>`...)
	return text(dst, "small", 0, x+b.length+gap, y+2, b.label)
}
