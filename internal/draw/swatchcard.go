package draw

import "hembook/internal/drawing"

// Of a card for swatches and threads, in millimetres.
const (
	swatchWide  = 36.0 // four in a row of a sheet
	swatchHigh  = 32.0
	threadHigh  = 12.0
	swatchGap   = 6.0
	pinkDepth   = 1.6 // of the zigzag that a swatch is cut in
	notchPitch  = 4.0
	swatchWords = 2.6 // size of the words below a place
	swatchLine  = 6.0 // from a place to the next row
)

// A SwatchCard is where swatches of the cloths are sewn on and the threads wound, to be
// kept with the garment.
type SwatchCard struct {
	Cloths, Threads []string                      // what each is
	Wide            float64                       // of the card
	Fits            func(l drawing.Label) float64 // how wide words are set
}

// Swatches draws the card: places with pinked edges for cloth, notched ones for thread.
func Swatches(c SwatchCard) *drawing.Drawing {
	d := drawing.New("label")
	rim := swatchGap
	inRow := max(1, int((c.Wide-2*rim+swatchGap)/(swatchWide+swatchGap)))
	y := rim
	place := func(list []string, high float64, outline func(p *drawing.Path, x, y float64)) {
		for i, words := range list {
			col := i % inRow
			if i > 0 && col == 0 {
				y += high + swatchLine
			}
			x := rim + float64(col)*(swatchWide+swatchGap)
			outline(d.Draw(drawing.ClothEdge), x, y)
			l := drawing.Label{X: x, Y: y + high + swatchWords + 0.6, Words: words, Size: swatchWords}
			if wide := c.Fits(l); wide > swatchWide {
				l.Size = max(1.9, l.Size*swatchWide/wide)
			}
			d.Say(l)
		}
		if len(list) > 0 {
			y += high + swatchLine
		}
	}
	place(c.Cloths, swatchHigh, pinked)
	place(c.Threads, threadHigh, notched)
	d.Box = drawing.Box{Right: c.Wide, Bottom: y + rim - swatchLine + swatchWords}
	d.Draw(drawing.LeftOver).Rect(0, 0, d.Box.Right, d.Box.Bottom)
	return d
}

// pinked is the edge of a swatch, as pinking shears cut it.
func pinked(p *drawing.Path, x, y float64) {
	const across, down = 19, 16 // teeth
	p.Move(x, y)
	for i := range across {
		step := swatchWide / across
		p.Line(x+(float64(i)+0.5)*step, y+pinkDepth).Line(x+float64(i+1)*step, y)
	}
	for i := range down {
		step := swatchHigh / down
		p.Line(x+swatchWide-pinkDepth, y+(float64(i)+0.5)*step).Line(x+swatchWide, y+float64(i+1)*step)
	}
	for i := range across {
		step := swatchWide / across
		p.Line(x+swatchWide-(float64(i)+0.5)*step, y+swatchHigh-pinkDepth).Line(x+swatchWide-float64(i+1)*step, y+swatchHigh)
	}
	for i := range down {
		step := swatchHigh / down
		p.Line(x+pinkDepth, y+swatchHigh-(float64(i)+0.5)*step).Line(x, y+swatchHigh-float64(i+1)*step)
	}
}

// notched is a place to wind thread on: cut into at both ends so that it stays.
func notched(p *drawing.Path, x, y float64) {
	p.Move(x, y).Line(x+swatchWide, y)
	for at := 0.0; at+notchPitch <= threadHigh; at += notchPitch {
		p.Line(x+swatchWide-pinkDepth, y+at+notchPitch/2).Line(x+swatchWide, y+at+notchPitch)
	}
	p.Line(x, y+threadHigh)
	for at := threadHigh; at-notchPitch >= 0; at -= notchPitch {
		p.Line(x+pinkDepth, y+at-notchPitch/2).Line(x, y+at-notchPitch)
	}
}
