// Package card holds the cards that are laid beside a paper piece before it is
// photographed: how each is made, and how they are found again in a photograph.
//
// A card bears two black squares whose middles are exactly [Apart] from each other.
// The left one has up to sixteen white pips, which tell the card's number and which way
// round it lies; the right one is plain. That there are two makes the scale certain:
// ink that runs and light that spreads move the sides of a square, and never its middle.
//
// It promises corners to a tenth of a pixel where a picture is sharp, and to find no
// card where none is. It knows no camera, no garment and no file.
package card

import "hembook/internal/shape"

// How a card is made, in millimetres. It is our own design.
const (
	Wide, High = 94.0, 50.0 // ten of them fit on A4 and on Letter
	Square     = 30.0       // side of each black square
	Apart      = 50.0       // from the middle of the left square to that of the right one
	PipStep    = 6.0        // from the middle of a pip to that of the next
	PipRound   = 2.0        // radius of a pip
	LineBelow  = 19.5       // how far below the card's middle the line of 50 mm runs
	pipsAcross = 4
)

// Count is how many cards there are; they are numbered from 1.
const Count = 10

// codes are the pips of the cards: bit 0 is the upper left one, bit 3 the upper right
// one, bit 15 the lower right one. They come from a random search: in whichever of four
// ways two cards are held, at least six pips differ, and so they do between a card and
// itself turned.
var codes = [Count]uint16{0x44cb, 0x3c5f, 0xf1ca, 0x885c, 0xa286, 0x0b6d, 0x04b6, 0x3aee, 0x4877, 0x8546}

// Pips are the middles of the white pips of a card, from the card's middle, x to the
// right and y up.
func Pips(number int) (at []shape.Point) {
	for bit := range pipsAcross * pipsAcross {
		if codes[number-1]>>bit&1 == 1 {
			at = append(at, pipAt(bit))
		}
	}
	return at
}

// pipAt is where the pip of a bit lies, from the card's middle.
func pipAt(bit int) shape.Point {
	const first = PipStep * (pipsAcross - 1) / 2
	return shape.Point{X: -Apart/2 - first + PipStep*float64(bit%pipsAcross), Y: first - PipStep*float64(bit/pipsAcross)}
}

// Corners are the corners of both squares from the card's middle, x to the right and y
// up: four of the left square against the clock from the lower left, then four of the
// right one.
func Corners() (at [8]shape.Point) {
	const h = Square / 2
	for i, q := range [4]shape.Point{{X: -h, Y: -h}, {X: h, Y: -h}, {X: h, Y: h}, {X: -h, Y: h}} {
		at[i] = shape.Point{X: q.X - Apart/2, Y: q.Y}
		at[i+4] = shape.Point{X: q.X + Apart/2, Y: q.Y}
	}
	return at
}
