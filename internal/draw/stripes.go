package draw

import (
	"strconv"

	"hembook/internal/cutting"
	"hembook/internal/drawing"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// stripesApart is how far apart on paper stripes are drawn at least, in mm; of finer ones
// every second or third is.
const stripesApart = 1

// stripes draws the stripes that lie within rings, to scale; k is how much of a millimetre
// of theirs is one on paper.
func stripes(d *drawing.Drawing, f drawing.Frame, all []shape.Stripes, rings ...shape.Ring) {
	for _, s := range all {
		s, _ := s.Sparser(stripesApart / f.K)
		lines := s.Within(rings...)
		if len(lines) == 0 {
			continue
		}
		p := d.Draw(drawing.Pattern)
		for i, l := range lines {
			if i%2 == 1 { // back and forth, so that they are light to write
				l[0], l[1] = l[1], l[0]
			}
			p.Move(f.At(l[0])).Line(f.At(l[1]))
		}
	}
}

// stripCuts draws where a piece that is cloth for bias strip is cut.
func stripCuts(d *drawing.Drawing, f drawing.Frame, s shape.Stripes, ring shape.Ring) {
	s, _ = s.Sparser(stripesApart / f.K)
	lines := s.Within(ring)
	if len(lines) == 0 {
		return
	}
	p := d.Draw(drawing.StripCut)
	for _, l := range lines {
		p.Move(f.At(l[0])).Line(f.At(l[1]))
	}
}

// stripesOnLay draws the stripes of a lay's cloth between two places along it. They run over
// the pieces, so that one sees where they meet.
func stripesOnLay(d *drawing.Drawing, f drawing.Frame, l *cutting.Lay, from, to float64) {
	wide := l.Plan.Width
	cloth := shape.Ring{{X: from}, {X: to}, {X: to, Y: wide}, {X: from, Y: wide}}
	all := l.Stripes()
	for i := range all {
		all[i].Way.Y = -all[i].Way.Y // as frames have it
	}
	stripes(d, f, all, upright(cloth))
}

// AllStripes is what StripesDrawn says where none is left out.
var AllStripes = say.Of("draw.the-stripes")

// StripesDrawn says which of the stripes a drawing shows, at so many mm for one on paper: "the
// stripes", "every second stripe".
func StripesDrawn(all []shape.Stripes, scale float64) string {
	most := 1
	for _, s := range all {
		_, n := s.Sparser(stripesApart * scale)
		most = max(most, n)
	}
	switch most {
	case 1:
		return AllStripes
	case 2:
		return say.Of("draw.every-second-stripe")
	case 3:
		return say.Of("draw.every-third-stripe")
	}
	return say.Of("draw.one-stripe-of", strconv.Itoa(most))
}
