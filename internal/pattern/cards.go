package pattern

import (
	"strconv"

	"hembook/internal/card"
	"hembook/internal/document"
	"hembook/internal/drawing"
	"hembook/internal/paper"
	"hembook/internal/say"
)

// Cards sets the cards that are laid beside a paper piece on one page, at full size.
func Cards(size document.Size, author string) ([]byte, error) {
	name := say.Of("pattern.cards-print-at-100-cut-along-the")
	plan, err := paper.PlanTiles([]paper.Large{{Name: name, Drawing: drawCards(), Fixed: true}}, paper.StockOf(size))
	if err != nil {
		return nil, err
	}
	return plan.PDF(document.Book{Title: say.Of("pattern.cards-for-photographs-of-paper-pieces"), Author: author, Language: "en"}, paper.Options{})
}

// drawCards draws all cards in two columns, with the lines to cut along.
func drawCards() *drawing.Drawing {
	const across = 2
	down := (card.Count + across - 1) / across
	d := drawing.New("cards")
	d.Title = say.Of("pattern.ten-cards-numbered-to-be-laid-beside")
	d.Box = drawing.Box{Right: across * card.Wide, Bottom: float64(down) * card.High}
	for n := range card.Count {
		drawCard(d, n+1, card.Wide*(0.5+float64(n%across)), card.High*(0.5+float64(n/across)))
	}
	lines := d.Draw(drawing.GrainLine)
	for x := range across + 1 {
		lines.Move(float64(x)*card.Wide, 0).Line(float64(x)*card.Wide, d.Box.Bottom)
	}
	for y := range down + 1 {
		lines.Move(0, float64(y)*card.High).Line(d.Box.Right, float64(y)*card.High)
	}
	return d
}

// drawCard draws one card about its middle.
func drawCard(d *drawing.Drawing, number int, x, y float64) {
	corners := card.Corners()
	dark := d.Draw(drawing.CodeSquare)
	for _, first := range []int{0, 4} {
		low, high := corners[first], corners[first+2]
		dark.Rect(x+low.X, y-high.Y, x+high.X, y-low.Y)
	}
	light := d.Draw(drawing.CodeGround)
	for _, at := range card.Pips(number) {
		light.Circle(x+at.X, y-at.Y, card.PipRound)
	}
	d.Say(drawing.Label{X: x, Y: y - 8, Words: strconv.Itoa(number), Voice: drawing.Name, Anchor: drawing.Middle})
	const cross, tick = 3.0, 1.5
	at := y + card.LineBelow
	fine := d.Draw(drawing.SquareMM)
	fine.Move(x-cross, y).Line(x+cross, y).Move(x, y-cross).Line(x, y+cross)
	fine.Move(x-card.Apart/2, at).Line(x+card.Apart/2, at)
	for _, end := range []float64{x - card.Apart/2, x + card.Apart/2} {
		fine.Move(end, at-tick).Line(end, at+tick)
	}
	d.Say(drawing.Label{X: x, Y: at + 4, Words: say.Of("pattern.50-mm"), Voice: drawing.TestMM, Anchor: drawing.Middle})
}
