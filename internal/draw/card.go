package draw

import "hembook/internal/drawing"

// The picture that stands for a page, by its pixels: cloth, a measuring tape
// along the top, a sheet of tissue, and free space about what lies on it.
const (
	cardTape = 36
	cardRim  = 36 // between the cloth's edge and the tissue
	cardFree = 72 // between the cloth's edge and what is drawn
)

// Card is a drawing laid on tissue on the table, in the shape of a picture of
// so many pixels, which the drawing fills as far as it may.
func Card(of *drawing.Drawing, wide, high float64) *drawing.Drawing {
	k := min((wide-2*cardFree)/of.Wide(), (high-cardTape-2*cardFree)/of.High())
	left := (of.Box.Left+of.Box.Right)/2 - wide/2/k
	top := (of.Box.Top+of.Box.Bottom)/2 - (high+cardTape)/2/k
	d := drawing.New("card")
	d.Box = drawing.Box{Left: left, Top: top, Right: left + wide/k, Bottom: top + high/k}
	rect := func(p *drawing.Path, x1, y1, x2, y2 float64) { p.Rect(left+x1/k, top+y1/k, left+x2/k, top+y2/k) }
	rect(d.Draw(drawing.Table), 0, 0, wide, high)
	rect(d.Draw(drawing.Tissue), cardRim, cardTape+cardRim, wide-cardRim, high-cardRim)
	x, y := wide/2, (cardTape+high)/2
	rect(d.Draw(drawing.Crease), x-1, cardTape+cardRim, x+1, high-cardRim)
	rect(d.Draw(drawing.Crease), cardRim, y-1, wide-cardRim, y+1)
	rect(d.Draw(drawing.Tape), 0, 0, wide, cardTape)
	ticks := d.Draw(drawing.TapeTick)
	for i, x := 0, 0.0; x < wide; i, x = i+1, x+15 {
		long := 10.0
		if i%5 == 0 {
			long = 24
		}
		rect(ticks, x, cardTape-long, x+2, cardTape)
	}
	rect(ticks, 0, cardTape, wide, cardTape+2)
	d.Add(of)
	return d
}
