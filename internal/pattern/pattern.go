// Package pattern sets the pieces of a garment on paper as one cuts them: at
// full size over as many sheets as they need.
//
// It promises true measures: a drawing's millimetre is a millimetre of the
// piece. What is not known of a piece is said, never guessed.
//
// It derives no figures and writes no files.
package pattern

import (
	"strconv"

	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/paper"
	"hembook/internal/say"
)

// Style says how pieces are drawn.
type Style struct {
	Measure measure.Style
	Build   string // the garment's name, written on each piece; may be empty
}

// known reports whether a piece can be drawn, and why not.
func known(p *garment.Piece) (why string, ok bool) {
	if len(p.Outline.Edges) > 0 {
		return "", true
	}
	why = p.Height.Value.Why
	if why == "" {
		why = say.Of("pattern.it-has-no-outline")
	}
	return why, false
}

// drawPiece is a piece as it is cut: one half of it where it is cut on the fold.
// Area is the outline of what is cut, in the drawing.
func drawPiece(p *garment.Piece, style Style) (d *drawing.Drawing, area []drawing.Point) {
	wide := func(l drawing.Label) float64 { return paper.LabelWide(l, &drawing.FullSize) }
	d = draw.Piece(p, draw.PieceStyle{Scale: 1, Parts: draw.AtFullSize, Measure: style.Measure, Build: style.Build, Wide: wide})
	d.Title = altOf(p)
	ring := p.Cut.Ring
	if len(ring) < 3 {
		ring, _ = p.Outline.Flatten(0.1)
	}
	least, most := p.Bounds()
	for _, q := range ring {
		area = append(area, drawing.Point{X: q.X - least.X, Y: most.Y - q.Y})
	}
	return d, area
}

// length is a figure as a drawing shows it: in one unit, not two.
func (s Style) length(f figure.Figure) string {
	style := s.Measure
	if style.System == measure.Both {
		style.System = measure.Metric
	}
	return style.Quantity(f.Value.Quantity)
}

// altOf says in words what a drawing of a piece shows.
func altOf(p *garment.Piece) string {
	s := say.Of("pattern.cut-line-and-sewing-line-edges", p.Name, p.CutWords())
	for i := range p.Edges {
		if i > 0 {
			s += ","
		}
		s += " " + p.Edges[i].Name
	}
	switch n := len(p.Darts); {
	case n == 1:
		s += say.Of("pattern.1-dart")
	case n > 1:
		s += say.Of("pattern.darts", strconv.Itoa(n))
	}
	switch n := p.PleatCount(); {
	case n == 1:
		s += say.Of("pattern.1-pleat")
	case n > 1:
		s += say.Of("pattern.pleats", strconv.Itoa(n))
	}
	for _, r := range p.Gathered {
		s += say.Of("pattern.gathered-rows", r.Edge, strconv.Itoa(r.Rows))
	}
	for _, said := range append(p.BesideWords(), p.LaidWords()...) {
		s += ". " + said
	}
	if r := p.Rolled; r != nil {
		s += say.Of("pattern.rolled-over", r.UnderName())
	}
	switch n := p.ButtonCount(); {
	case n == 1:
		s += say.Of("pattern.place-of-1-button")
	case n > 1:
		s += say.Of("pattern.places-of-buttons", strconv.Itoa(n))
	}
	for i := range p.Lines {
		if p.Lines[i].Again {
			continue
		}
		s += ". " + p.Lines[i].Kind() + " " + p.Lines[i].Name
	}
	return s + "."
}
