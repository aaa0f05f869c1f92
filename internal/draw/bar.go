package draw

import (
	"strconv"

	"hembook/internal/drawing"
	"hembook/internal/measure"
	"hembook/internal/say"
)

// A scaleBar is a stretch of tape beside a drawing that tells its scale
// however large the drawing is shown.
type scaleBar struct {
	length float64
	parts  int // ticks divide it into so many parts
	label  string
}

// barLong is how long a bar is at most, in millimetres of the drawing.
const barLong = 26

// barFor chooses a round length that suits drawings in which a millimetre of the thing is
// k long: the same for all of one scale, so that they can be told to be of one.
func barFor(k float64, style measure.Style) scaleBar {
	want := barLong / k // millimetres of the thing
	if style.System == measure.Imperial {
		return inchBar(want, k)
	}
	best := scaleBar{length: 10 * k, parts: 2, label: say.Of("draw.1-cm")}
	for _, cm := range []int{2, 5, 10, 20, 50, 100} {
		if mm := float64(cm) * 10; mm <= want {
			parts := 2
			if cm == 5 || cm == 50 {
				parts = 5
			}
			best = scaleBar{mm * k, parts, strconv.Itoa(cm) + " cm"}
		}
	}
	return best
}

func inchBar(want, k float64) scaleBar {
	best := scaleBar{25.4 * k, 2, say.Of("draw.1-in")}
	for _, in := range []int{2, 4, 8, 12, 24, 36} {
		if mm := float64(in) * 25.4; mm <= want {
			best = scaleBar{mm * k, 2, strconv.Itoa(in) + " in"}
		}
	}
	return best
}

// wide is how wide a drawing is, at least, with the bar and its words.
func (b scaleBar) wide() float64 { return b.length + letters(b.label)*smallWide + 2*gap }

// draw adds the bar with its left end at (x, y).
func (b scaleBar) draw(d *drawing.Drawing, x, y float64) {
	p := d.Draw(drawing.ScaleBar)
	p.Move(x, y).Line(x+b.length, y)
	for i := 0; i <= b.parts; i++ {
		at := x + b.length*float64(i)/float64(b.parts)
		high := tick
		if i != 0 && i != b.parts {
			high = tick / 2
		}
		p.Move(at, y-high).Line(at, y)
	}
	write(d, drawing.Small, drawing.Begin, x+b.length+gap, y+0.2, b.label)
}
