// Package draw composes the drawings that pages, sheets and prints show: pieces,
// cross-sections of seams and finishes, lays, lines of time, swatches of
// cloth, the spread of a rate.
//
// It promises one hand: the same arrow, the same label, the same scale bar
// and the same few kinds of line in every drawing, measured in this file and, by
// how large a piece is drawn, in piece.go;
// what a line means is said, and how it looks is not. Each drawing says in
// words what it shows.
//
// It knows nothing of pages or templates, and derives no figures.
package draw

import "hembook/internal/drawing"

// The measures of a drawing, in millimetres on paper.
const (
	textHeight  = 2.9 // height of the letters' body
	textWide    = 1.7 // how wide a letter is taken to be
	nameHeight  = 3.8
	nameWide    = 2.1
	smallHeight = 2.4
	smallWide   = 1.4

	margin    = 1.4 // free space round a drawing
	gap       = 1.2 // between a line and its label
	arrowLong = 2.2 // of an arrow head
	tick      = 1.4 // the end tick of a scale bar or a measured distance
	cross     = 0.9 // half of the cross at a dart's point
	foldInset = 2.6 // how far the fold bracket stands inside the fold
	barTop    = 3.0 // space between a drawing and its scale bar
)

// write adds words, if there are any.
func write(d *drawing.Drawing, v drawing.Voice, a drawing.Anchor, x, y float64, words string) {
	d.Say(drawing.Label{X: x, Y: y, Words: words, Voice: v, Anchor: a})
}

// letters is how many letters a text has.
func letters(s string) float64 {
	n := 0
	for range s {
		n++
	}
	return float64(n)
}
