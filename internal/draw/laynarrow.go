package draw

import (
	"math"
	"strconv"
	"strings"

	"hembook/internal/cutting"
	"hembook/internal/drawing"
	"hembook/internal/lay"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// Of a lay on a narrow screen, in mm.
const (
	narrowWide   = 88  // as wide as a phone is
	narrowLetter = 3.5 // how high its letters are set, so that they can be read where it is made smaller
	narrowLeft   = 10  // beside the cloth
	narrowEnds   = 6   // before and behind it
)

// LayNarrow draws a lay for a narrow screen: the cloth with its cut end below and its left
// selvedge (or the fold) at the left, as one stands before it; of words the numbers of
// pieces and remnants alone. Nil for a lay without a plan.
func LayNarrow(l *cutting.Lay, m measure.Style) *drawing.Drawing {
	if l == nil || l.Plan == nil || !(l.Plan.Length > 0) || !(l.Plan.Width > 0) {
		return nil
	}
	d := &narrowLay{Drawing: drawing.New("lay"), l: l}
	k := (narrowWide - narrowLeft - margin) / l.Plan.Width
	d.end = l.Plan.Length / l.Plan.Layers()
	d.f = drawing.Frame{Top: d.end, K: k}
	d.wide, d.long = l.Plan.Width*k, d.end*k
	d.Box = drawing.Box{Left: -narrowLeft, Top: -narrowEnds, Right: d.wide + margin, Bottom: d.long + narrowEnds}
	d.Title = say.Of("draw.lay-plan-its-cut-end-below")
	d.cloth()
	d.tape(m)
	d.pieces()
	return d.Drawing
}

// A narrowLay is a lay being drawn for a narrow screen.
type narrowLay struct {
	*drawing.Drawing
	l          *cutting.Lay
	f          drawing.Frame
	end        float64 // how long the cloth is as it lies
	wide, long float64 // of the cloth, on paper
}

// upLay is an outline as the frame wants it: x across the cloth, y along it.
func upLay(pts []shape.Point) shape.Ring {
	out := make(shape.Ring, len(pts))
	for i, q := range pts {
		out[i] = shape.Point{X: q.Y, Y: q.X}
	}
	return out
}

func (d *narrowLay) cloth() {
	whole := &layDrawing{l: d.l, long: d.end}
	for _, b := range whole.borders() {
		d.Draw(b.as).Move(b.across*d.f.K, d.long-b.from*d.f.K).Line(b.across*d.f.K, d.long-b.to*d.f.K)
	}
	d.Draw(drawing.ClothEdge).Move(0, 0).Line(d.wide, 0)
	d.Draw(drawing.Selvedge).Move(0, d.long).Line(d.wide, d.long)
	left, right := say.Of("draw.left-selvedge"), say.Of("draw.right-selvedge")
	switch d.l.Plan.Fold {
	case lay.Lengthwise:
		left, right = "fold", "selvedges"
	case lay.BothSelvedges:
		left, right = "fold", "fold"
	case lay.PartWidth, lay.PartLength:
		left = "fold"
	}
	write(d.Drawing, drawing.Plain, drawing.Begin, 0, -gap, left)
	write(d.Drawing, drawing.Plain, drawing.End, d.wide, -gap, right)
	write(d.Drawing, drawing.Plain, drawing.Middle, d.wide/2, d.long+narrowLetter+gap/2, strings.TrimPrefix(cutting.AlongFrom(d.l.Plan.Folding), "the "))
}

// tape draws a tape along the cloth.
func (d *narrowLay) tape(m measure.Style) {
	minor, unit, every := 100.0, 10.0, 5
	if m.System == measure.Imperial {
		minor, unit, every = 3*25.4, 25.4, 6
	}
	p := d.Draw(drawing.Ruler)
	for i := 0; float64(i)*minor <= d.end+1e-9; i++ {
		y := d.long - float64(i)*minor*d.f.K
		long := tick * 0.8
		if i%every == 0 {
			long = tick * 1.6
			write(d.Drawing, drawing.Plain, drawing.End, -tick*1.6-0.8, y+narrowLetter*0.35, strconv.Itoa(int(math.Round(float64(i)*minor/unit))))
		}
		p.Move(-0.6, y).Line(-0.6-long, y)
	}
}

// pieces draws remnants and pieces, the stripes over them, and their numbers.
func (d *narrowLay) pieces() {
	for i := range d.l.Left {
		d.Draw(drawing.LeftOver).Thinned(d.f, upLay(d.l.Left[i].On))
	}
	if p := d.l.Problem; p != nil && !d.l.Plan.Folded() {
		for _, f := range p.Lay.Cloth.Flaws {
			ring := make([]shape.Point, len(f))
			for k, q := range f {
				ring[k] = shape.Point{X: q.X, Y: min(max(q.Y, 0), d.l.Plan.Width)}
			}
			d.Draw(drawing.Flaw).Thinned(d.f, upLay(ring))
		}
	}
	for i := range d.l.Chalked {
		ring := upLay(d.l.Chalked[i].Outline)
		d.Draw(drawing.CutLine).Thinned(d.f, ring)
		d.corner(&d.l.Chalked[i])
		cuts := d.l.Chalked[i].StripCuts()
		cuts.Way.X, cuts.Way.Y = cuts.Way.Y, cuts.Way.X
		stripCuts(d.Drawing, d.f, cuts, ring)
	}
	all := d.l.Stripes()
	for i := range all {
		all[i].Way.X, all[i].Way.Y = all[i].Way.Y, all[i].Way.X
	}
	stripes(d.Drawing, d.f, all, shape.Ring{{}, {X: d.l.Plan.Width}, {X: d.l.Plan.Width, Y: d.end}, {Y: d.end}})
	for i := range d.l.Left {
		d.number("R"+strconv.Itoa(i+1), roomiest(d.l.Left[i].On))
	}
	for i := range d.l.Chalked {
		d.number(strconv.Itoa(d.l.Chalked[i].Number), roomiest(d.l.Chalked[i].Outline))
	}
}

// corner marks the corner of the box round a piece that its distances lead to.
func (d *narrowLay) corner(q *cutting.Position) {
	x, y := d.f.At(shape.Point{X: q.Side, Y: q.End})
	d.Draw(drawing.ChalkCorner).Move(x+cornerLong, y).Line(x, y).Line(x, y-cornerLong)
}

// number writes a number where there is room for it.
func (d *narrowLay) number(words string, s spot) {
	if 2*s.free*d.f.K < 0.7*narrowLetter {
		return
	}
	x, y := d.f.At(shape.Point{X: s.at.Y, Y: s.at.X})
	write(d.Drawing, drawing.Plain, drawing.Middle, x, y+narrowLetter*0.35, words)
}
