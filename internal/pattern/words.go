package pattern

import (
	"math"
	"strconv"

	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/paper"
	"hembook/internal/shape"
)

// length is a figure as a drawing shows it: in one unit, not two.
func (s Style) length(f figure.Figure) string {
	style := s.Measure
	if style.System == measure.Both {
		style.System = measure.Metric
	}
	return style.Quantity(f.Value.Quantity)
}

// grainWords are said of a grain that its arrow does not show by itself.
func grainWords(grain string) string {
	switch grain {
	case "bias":
		return "on the bias"
	case "any":
		return "grain any way"
	}
	return ""
}

// altOf says in words what a drawing of a piece shows.
func altOf(p *garment.Piece) string {
	s := p.Name + ": " + p.CutWords() + ". Cut line and sewing line. Edges:"
	for i := range p.Edges {
		if i > 0 {
			s += ","
		}
		s += " " + p.Edges[i].Name
	}
	switch n := len(p.Darts); {
	case n == 1:
		s += ". 1 dart"
	case n > 1:
		s += ". " + strconv.Itoa(n) + " darts"
	}
	return s + "."
}

// grainAndName draws the grain's arrow and, to its right, the piece's name,
// how often it is cut and of what garment it is; smaller, or upright beside
// the arrow, where the piece is narrow.
func (w *work) grainAndName() {
	span, y, high := w.widest()
	left, cy := w.at(shape.Point{X: span.From, Y: y})
	wide, tall := span.Width()*w.k, high*w.k
	upright := wide < 45 && tall > 1.5*wide
	w.grain(left, cy, wide, tall, upright)
	lines := []paper.Label{{Text: w.p.Name, Size: nameText, Strong: true}, {Text: w.p.CutWords(), Size: smallText}}
	for _, text := range []string{grainWords(w.p.Grain), w.style.Build} {
		if text != "" {
			lines = append(lines, paper.Label{Text: text, Size: smallText, Ink: paper.Faded})
		}
	}
	needWide, needTall := 0.0, 0.0
	for _, l := range lines {
		needWide, needTall = math.Max(needWide, paper.LabelWide(l)), needTall+l.Size*0.3528*1.35
	}
	const rimHere = 4.0
	if upright {
		k := min(1, (tall*0.7)/needWide, (wide*0.5-rimHere)/needTall)
		w.block(lines, k, left+wide*0.5+rimHere/2, cy+needWide*k/2, true)
		return
	}
	x := left + wide*grainPlace + rimHere
	k := min(1, (wide*(1-grainPlace)-2*rimHere)/needWide, tall*0.5/needTall)
	w.block(lines, k, x, w.clearOf(cy, needTall*k, tall), false)
}

// grainPlace is where on the widest stretch an upright grain arrow stands.
const grainPlace = 0.4

// block writes lines under each other from an upper left corner, or from left
// to right with their letters lying.
func (w *work) block(lines []paper.Label, k, x, y float64, upright bool) {
	for _, l := range lines {
		l.Size *= k
		step := l.Size * 0.3528 * 1.35
		if upright {
			x += step
			l.At, l.Turn = paper.Point{X: x - step*0.25, Y: y}, 90
		} else {
			y += step
			l.At = paper.Point{X: x, Y: y - step*0.25}
		}
		w.say(l)
	}
}

// clearOf is a height for a block of words that keeps off level lines and
// darts, near cy.
func (w *work) clearOf(cy, tall, room float64) float64 {
	for _, part := range []float64{0, -0.08, 0.08, -0.16, 0.16, -0.24, 0.24} {
		y := cy - tall/2 + part*room
		ok := true
		for _, l := range w.p.AtLevels {
			_, ly := w.at(shape.Point{Y: l.Y})
			ok = ok && (ly < y-4 || ly > y+tall+1)
		}
		for _, d := range w.p.Darts {
			_, a := w.at(d.Plan.Begin)
			_, b := w.at(d.Plan.End)
			_, c := w.at(d.Plan.Point)
			ok = ok && (max(a, b, c) < y-2 || min(a, b, c) > y+tall+2)
		}
		if ok {
			return y
		}
	}
	return cy - tall/2
}

// grain draws the arrow along the grain of the cloth, headed at both ends.
func (w *work) grain(left, cy, wide, tall float64, upright bool) {
	if w.p.Grain == "any" {
		return
	}
	ux, uy, room := 0.0, -1.0, tall
	x := left + wide*grainPlace
	switch w.p.Grain {
	case "across":
		ux, uy, room, x = 1, 0, wide, left+wide/2
		cy += 0.22 * tall
	case "bias":
		ux, uy, room = math.Sqrt2/2, -math.Sqrt2/2, min(wide*grainPlace*2.4, tall)
		x = left + wide*grainPlace*0.8
	}
	if upright && w.p.Grain != "across" {
		x = left + wide*0.3
	}
	half := min(max(room*0.3, 6), 150)
	var p paper.Path
	p.Move(x-ux*half, cy-uy*half).Line(x+ux*half, cy+uy*half)
	p.Arrow(x+ux*half, cy+uy*half, ux, uy, arrowLong).Arrow(x-ux*half, cy-uy*half, -ux, -uy, arrowLong)
	w.draw(p, paper.Pen{Weight: markWeight, Ink: paper.Dark})
}
