package draw

import (
	"math"
	"slices"
	"strconv"

	"hembook/internal/drawing"
)

// A bodyView is one figure somebody is shown by.
type bodyView uint8

const (
	fromFront bodyView = iota
	fromSide
	fromBack
	onChair
)

// A taping is where the tape goes on a figure: round it, or from one point to another,
// in hundredths of the height.
type taping struct {
	view       bodyView
	round      bool
	x, y       float64 // the middle of the round, or where it begins
	half       float64 // of the round's width
	toX, toY   float64 // where it ends
	overX      float64 // and what it goes over on its way; 0 where it goes straight
	overY      float64
	tilt       float64 // of the round, degrees against the clock
	outerRight bool    // its number stands to the right
}

// tapings are by the names of measurements: where ISO 8559-1 puts them, as far as it is
// known from handbooks; the rest is common practice, no source.
var tapings = map[string]taping{
	"head":              {view: fromFront, round: true, y: 4.6, half: 4.4, outerRight: true},
	"neck":              {view: fromFront, round: true, y: 14.2, half: 2.5},
	"bust":              {view: fromFront, round: true, y: 26.2, half: 8.8},
	"chest":             {view: fromFront, round: true, y: 26.2, half: 8.8},
	"underbust":         {view: fromFront, round: true, y: 30.2, half: 8.4, outerRight: true},
	"waist":             {view: fromFront, round: true, y: 38.2, half: 7.6, outerRight: true},
	"hip":               {view: fromFront, round: true, y: 50.5, half: 10, outerRight: true},
	"thigh":             {view: fromFront, round: true, x: -5.3, y: 58, half: 4.3},
	"knee":              {view: fromFront, round: true, x: -4.75, y: 73, half: 2.3},
	"upper arm":         {view: fromFront, round: true, x: 11.1, y: 27.5, half: 1.5, tilt: 12, outerRight: true},
	"wrist":             {view: fromFront, round: true, x: 15.4, y: 46.6, half: 1.1, tilt: 14, outerRight: true},
	"inside leg":        {view: fromFront, x: 0, y: 54, toX: 0, toY: 99.6, outerRight: true},
	"shoulder length":   {view: fromBack, x: 2.7, y: 15, toX: 9.6, toY: 18, outerRight: true},
	"back waist length": {view: fromBack, x: 0, y: 14.6, toX: 0, toY: 38.2},
	"arm length":        {view: fromBack, x: 10.6, y: 18.4, toX: 15.2, toY: 47.5, outerRight: true},
	"reach":             {view: fromBack, x: 0, y: 14.6, overX: -9.6, overY: 18, toX: -15.2, toY: 47.5},
	"skirt length":      {view: fromFront, x: -4, y: 38.9, toX: -4, toY: 72},
	"height":            {view: fromSide, x: 8.6, y: 0, toX: 8.6, toY: 100, outerRight: true},
	"outside leg":       {view: fromSide, x: 0.4, y: 38.8, toX: 0.2, toY: 99.6},
	"rise":              {view: onChair, x: 0.6, y: 38.8, toX: 0.6, toY: 56.6, outerRight: true},
}

// CanTape reports whether there is a place on the figures for a measurement.
func CanTape(name string) bool { _, ok := tapings[name]; return ok }

// Sizes of the figures, in millimetres.
const (
	bodyScale = 0.86 // for a hundredth of the height
	bodyLarge = 1.5  // the same at most where the figures fill a page …
	bodyRoom  = 174. // … as wide as its words
	bodyApart = 52.0 // from figure to figure, in hundredths
	ringReach = 22.5 // of a number from the middle of its figure, in hundredths
)

// Taped draws somebody with the tape where each measurement is taken, numbered in the
// order of the names; large fills the width of a page. A name that has no place is left out. Captions are said below each
// figure: from the front, the side, the back, and sitting.
func Taped(names []string, large bool, captions [4]string) *drawing.Drawing {
	var shown []bodyView
	for _, view := range []bodyView{fromFront, fromBack, fromSide, onChair} {
		if slices.ContainsFunc(names, func(n string) bool { t, ok := tapings[n]; return ok && t.view == view }) {
			shown = append(shown, view)
		}
	}
	if len(shown) == 0 {
		return nil
	}
	d := drawing.New("body")
	scale := bodyScale
	if wide := bodyApart * float64(len(shown)); large {
		scale = max(scale, min(bodyLarge, bodyRoom/wide))
	}
	wide := bodyApart * float64(len(shown)) * scale
	d.Box = drawing.Box{Right: wide, Bottom: 108 * scale}
	for i, view := range shown {
		f := bodyFigure{d: d, middle: bodyApart * (float64(i) + 0.5), crown: -1, scale: scale}
		f.body(view)
		d.Say(drawing.Label{X: f.middle * scale, Y: 106 * scale, Words: captions[view], Anchor: drawing.Middle, Voice: drawing.NetSmall})
		f.tapes(view, names)
	}
	return d
}

// A bodyFigure draws one figure about its middle.
type bodyFigure struct {
	d             *drawing.Drawing
	middle, crown float64 // where the drawing has its middle, and at what height it begins; in hundredths of the figure's height
	scale         float64 // millimetres for a hundredth
	right         bool    // seen from the other side
	reaches       bool    // its arms are held out before it
}

func (f bodyFigure) at(x, y float64) (float64, float64) {
	if f.right {
		x = -x
	}
	return (f.middle + x) * f.scale, (y - f.crown) * f.scale
}

// curves draws a line of cubic curves.
func (f bodyFigure) curves(m drawing.Meaning, line []float64, closed bool) {
	p := f.d.Draw(m)
	p.Move(f.at(line[0], line[1]))
	for k := 2; k+5 < len(line); k += 6 {
		ax, ay := f.at(line[k], line[k+1])
		bx, by := f.at(line[k+2], line[k+3])
		x, y := f.at(line[k+4], line[k+5])
		p.Curve(ax, ay, bx, by, x, y)
	}
	if closed {
		p.Close()
	}
}

// body draws somebody with a head.
func (f bodyFigure) body(view bodyView) {
	f.trunk(view)
	head := 4.5
	if view == fromSide || view == onChair {
		head = 5
	}
	f.ellipse(drawing.NetPiece, 0, 6.3, head, 6.3, 0, 0, 360)
	if view == fromBack { // where the neck begins, and the back's middle
		p := f.d.Draw(drawing.ClothEdge)
		p.Move(f.at(0, 15)).Line(f.at(0, 46))
	}
}

// trunk draws somebody from the neck down.
func (f bodyFigure) trunk(view bodyView) {
	switch view {
	case fromFront, fromBack:
		f.curves(drawing.NetPiece, bodyFront, true)
	case fromSide:
		f.curves(drawing.NetPiece, bodySide, true)
		if f.reaches {
			f.curves(drawing.NetPiece, heldOut(bodySideArm), false)
		} else {
			f.curves(drawing.LeftOver, bodySideArm, false)
		}
	case onChair:
		p := f.d.Draw(drawing.ClothEdge)
		for k, q := range [][2]float64{{-11, 57}, {8.6, 57}, {8.6, 58.6}, {-11, 58.6}, {-11, 57}, {-9.6, 58.6}, {-9.6, 84}, {7.2, 58.6}, {7.2, 84}, {8.2, 57}, {10.6, 34}} {
			x, y := f.at(q[0], q[1])
			if k == 0 || k == 5 || k == 7 || k == 9 {
				p.Move(x, y)
			} else {
				p.Line(x, y)
			}
		}
		f.curves(drawing.NetPiece, bodySitting, true)
		f.curves(drawing.LeftOver, bodySittingArm, false)
	}
}

// heldOut are lines of an arm that hangs turned about the shoulder, so that it is held
// forward and a little up.
func heldOut(arm []float64) []float64 {
	const shoulderX, shoulderY, turn = 0.2, 20, 100 * math.Pi / 180
	sin, cos := math.Sincos(turn)
	out := make([]float64, len(arm))
	for k := 0; k+1 < len(arm); k += 2 {
		dx, dy := arm[k]-shoulderX, arm[k+1]-shoulderY
		out[k], out[k+1] = shoulderX+dx*cos-dy*sin, shoulderY+dx*sin+dy*cos
	}
	return out
}

// ellipse draws a part of an ellipse, from one angle to another in degrees.
func (f bodyFigure) ellipse(m drawing.Meaning, x, y, a, b, tilt, from, to float64) {
	p := f.d.Draw(m)
	const steps = 36
	sinT, cosT := math.Sincos(tilt * math.Pi / 180)
	for k := 0; k <= steps; k++ {
		sin, cos := math.Sincos((from + (to-from)*float64(k)/steps) * math.Pi / 180)
		dx, dy := a*cos, b*sin
		px, py := f.at(x+dx*cosT+dy*sinT, y-dx*sinT+dy*cosT)
		if k == 0 {
			p.Move(px, py)
		} else {
			p.Line(px, py)
		}
	}
	if to-from == 360 {
		p.Close()
	}
}

// tapes draws the tapes of a figure and their numbers: those of a side below each other,
// in the order of where they lead, none on another.
func (f bodyFigure) tapes(view bodyView, names []string) {
	type ring struct {
		number     int
		y, toX, to float64
	}
	var left, right []ring
	for i, name := range names {
		t, ok := tapings[name]
		if !ok || t.view != view {
			continue
		}
		f.tape(t)
		r := ring{i + 1, t.y, t.x, t.y}
		if !t.round {
			line := t.line()
			from := line[len(line)-2]
			r.toX, r.to = (from[0]+t.toX)/2, (from[1]+t.toY)/2
			if name == "inside leg" {
				r.to = t.y + (t.toY-t.y)*0.7
			}
			r.y = r.to
		}
		if t.outerRight {
			r.toX += t.half
			right = append(right, r)
		} else {
			r.toX -= t.half
			left = append(left, r)
		}
	}
	for side, list := range [][]ring{left, right} {
		slices.SortFunc(list, func(a, b ring) int { return int(math.Copysign(1, a.y-b.y)) })
		for k := range list {
			if k > 0 {
				list[k].y = max(list[k].y, list[k-1].y+7)
			}
			x := ringReach * float64(side*2-1)
			ax, ay := f.at(x, list[k].y)
			p := f.d.Draw(drawing.NetTie)
			p.Move(ax, ay).Line(f.at(list[k].toX, list[k].to))
			ringed(f.d, ax, ay, strconv.Itoa(list[k].number))
		}
	}
}

// tape draws one tape: dark where it is seen, dotted behind; an arrow at either end of
// one that is no round.
func (f bodyFigure) tape(t taping) {
	if t.round {
		deep := max(0.45, t.half*0.14)
		f.ellipse(drawing.Basting, t.x, t.y, t.half, deep, t.tilt, 180, 360)
		f.ellipse(drawing.NetNow, t.x, t.y, t.half, deep, t.tilt, 0, 180)
		return
	}
	p := f.d.Draw(drawing.NetNow)
	line := t.line()
	for k, q := range line {
		if x, y := f.at(q[0], q[1]); k == 0 {
			p.Move(x, y)
		} else {
			p.Line(x, y)
		}
	}
	f.arrowAt(p, line[0], line[1])
	f.arrowAt(p, line[len(line)-1], line[len(line)-2])
}

// line is what a tape that is no round goes along.
func (t taping) line() [][2]float64 {
	if t.overX != 0 {
		return [][2]float64{{t.x, t.y}, {t.overX, t.overY}, {t.toX, t.toY}}
	}
	return [][2]float64{{t.x, t.y}, {t.toX, t.toY}}
}

// arrowAt draws the head of an arrow at an end of a tape that comes from another point.
func (f bodyFigure) arrowAt(p *drawing.Path, end, from [2]float64) {
	x, y := f.at(end[0], end[1])
	fx, fy := f.at(from[0], from[1])
	ux, uy := fx-x, fy-y
	long := math.Hypot(ux, uy)
	ux, uy = 1.8*ux/long, 1.8*uy/long
	p.Move(x+ux-0.45*uy, y+uy+0.45*ux).Line(x, y).Line(x+ux+0.45*uy, y+uy-0.45*ux)
}

// ringed draws a number in a ring about a point.
func ringed(d *drawing.Drawing, x, y float64, number string) {
	d.Draw(drawing.NetRing).Disc(x, y, discRim)
	d.Say(drawing.Label{X: x, Y: y + discSize*0.36, Words: number, Voice: drawing.RingNumber, Anchor: drawing.Middle})
}
