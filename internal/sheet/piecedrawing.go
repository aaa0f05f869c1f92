package sheet

import (
	"math"
	"slices"
	"strconv"

	"hembook/internal/cutting"
	"hembook/internal/garment"
	"hembook/internal/paper"
	"hembook/internal/shape"
)

// Drawings of pieces and lays, in millimetres on paper.
const (
	pieceWide, pieceHigh = 54.0, 78.0  // room for one piece
	layWide, layHigh     = 170.0, 88.0 // room for one lay
	cutWeight            = 0.35
	sewWeight            = 0.2
	labelSize            = 7.0 // points
)

var scales = []float64{2, 4, 5, 8, 10, 15, 20, 25, 40, 50, 80, 100}

func scaleFor(wide, high, roomWide, roomHigh float64) float64 {
	for _, s := range scales {
		if wide/s <= roomWide && high/s <= roomHigh {
			return s
		}
	}
	return scales[len(scales)-1]
}

// pieceDrawings shows every piece, three in a row, each as large as there is
// room.
func (c *composer) pieceDrawings() []paper.Block {
	var cells []paper.Block
	for _, p := range c.garment.Pieces {
		if len(p.Cut.Ring) < 3 {
			continue
		}
		least, most := p.Cut.Ring.Bounds()
		scale := scaleFor(most.X-least.X, most.Y-least.Y, pieceWide, pieceHigh)
		caption := p.Name + " · " + c.cutWords(p) + " · 1" + gap + ":" + gap + strconv.FormatFloat(scale, 'f', -1, 64)
		cells = append(cells, paper.Sketch{Drawing: c.pieceDrawing(p, scale), Caption: caption})
	}
	if len(cells) == 0 {
		return nil
	}
	out := []paper.Block{paper.Text{Phrase: paper.Aside(c.t.say("remake.drawn"))}} // before the drawings: it would be left alone after them
	for len(cells) > 0 {
		n := min(3, len(cells))
		row := paper.Columns{}
		for i := range 3 {
			var cell []paper.Block
			if i < n {
				cell = cells[i : i+1]
			}
			row.Blocks = append(row.Blocks, cell)
		}
		out = append(out, row)
		cells = cells[n:]
	}
	return out
}

// A place puts millimetres of a piece onto paper, up being away from the hem.
type place struct {
	left, top, scale float64
}

func (p place) at(q shape.Point) (x, y float64) {
	return (q.X - p.left) / p.scale, (p.top - q.Y) / p.scale
}

func ringPath(path *paper.Path, ring shape.Ring, p place) {
	last := shape.Point{X: math.Inf(1)}
	for i, q := range ring {
		if i > 0 && math.Abs(q.X-last.X)+math.Abs(q.Y-last.Y) < p.scale*0.05 {
			continue // closer than a twentieth of a millimetre on paper
		}
		x, y := p.at(q)
		if i == 0 {
			path.Move(x, y)
		} else {
			path.Line(x, y)
		}
		last = q
	}
	path.Close()
}

// pieceDrawing draws one piece: cut line, sewing line, darts, grain.
func (c *composer) pieceDrawing(p *garment.Piece, scale float64) paper.Drawing {
	least, most := p.Cut.Ring.Bounds()
	at := place{least.X, most.Y, scale}
	d := paper.Drawing{Wide: (most.X-least.X)/scale + 1, High: (most.Y-least.Y)/scale + 1, Alt: p.Name + ": " + c.allowances(p)}
	cut := paper.Path{Pen: paper.Pen{Weight: cutWeight, Ink: paper.Dark}, Fill: paper.Tissue}
	ringPath(&cut, p.Cut.Ring, at)
	sew := paper.Path{Pen: paper.Pen{Weight: sewWeight, Ink: paper.Thread, Dash: []float64{1.2, 0.7}}}
	outlinePath(&sew, p.Outline, at)
	darts := paper.Path{Pen: paper.Pen{Weight: sewWeight, Ink: paper.Dark}}
	for _, dart := range p.Darts {
		ax, ay := at.at(dart.Plan.Begin)
		bx, by := at.at(dart.Plan.Point)
		cx, cy := at.at(dart.Plan.End)
		darts.Move(ax, ay).Line(bx, by).Line(cx, cy)
	}
	grainLine(&darts, p.Grain, d.Wide, d.High)
	d.Marks = []paper.Mark{cut, sew, darts}
	for i := range p.Edges {
		if p.Edges[i].Fold {
			d.Marks = append(d.Marks, foldMark(p, i, at))
		}
	}
	return d
}

func outlinePath(path *paper.Path, o shape.Outline, p place) {
	x, y := p.at(o.From)
	path.Move(x, y)
	for _, e := range o.Edges {
		x, y := p.at(e.To)
		if e.Curved {
			x1, y1 := p.at(e.C1)
			x2, y2 := p.at(e.C2)
			path.Curve(x1, y1, x2, y2, x, y)
			continue
		}
		path.Line(x, y)
	}
	path.Close()
}

// grainLine draws the arrow along the grain through the middle of a piece.
func grainLine(path *paper.Path, grain string, wide, high float64) {
	dx, dy := 0.0, -1.0
	switch grain {
	case "across":
		dx, dy = 1, 0
	case "bias":
		dx, dy = math.Sqrt2/2, -math.Sqrt2/2
	case "any":
		return
	}
	half := min(wide, high) * 0.22
	x, y := wide/2, high/2
	path.Move(x-dx*half, y-dy*half).Line(x+dx*half, y+dy*half)
	path.Arrow(x+dx*half, y+dy*half, dx, dy, 1.6)
}

// foldMark is a heavier line along the fold.
func foldMark(p *garment.Piece, i int, at place) paper.Path {
	edge := p.Edges[i].Index
	path := paper.Path{Pen: paper.Pen{Weight: 0.6, Ink: paper.Faded, Dash: []float64{3, 1}}}
	x, y := at.at(p.Outline.Start(edge))
	path.Move(x, y)
	x, y = at.at(p.Outline.Edges[edge].To)
	path.Line(x, y)
	return path
}

// layDrawing draws a lay: the cloth with its cut end at the left, each piece
// with its number and name.
func layDrawing(l *cutting.Lay, scale float64, alt string) paper.Drawing {
	length, width := l.Plan.Length, l.Plan.Width
	d := paper.Drawing{Wide: length/scale + 1, High: width/scale + 1, Alt: alt}
	cloth := paper.Path{Pen: paper.Pen{Weight: sewWeight, Ink: paper.Faded}}
	cloth.Rect(0.2, 0.2, length/scale, width/scale)
	d.Marks = append(d.Marks, cloth)
	for i := range l.Chalked {
		q := &l.Chalked[i]
		path := paper.Path{Pen: paper.Pen{Weight: cutWeight, Ink: paper.Dark}, Fill: paper.Tissue}
		for k, pt := range q.Outline {
			if k == 0 {
				path.Move(pt.X/scale, pt.Y/scale)
			} else {
				path.Line(pt.X/scale, pt.Y/scale)
			}
		}
		path.Close()
		d.Marks = append(d.Marks, path)
	}
	for i := range l.Chalked {
		q := &l.Chalked[i]
		x, y := inside(q.Outline)
		name := strconv.Itoa(q.Number) + " " + q.Piece
		if float64(len(name))*1.25 > (q.EndTo-q.End)/scale {
			name = strconv.Itoa(q.Number)
		}
		d.Marks = append(d.Marks, paper.Label{At: paper.Point{X: x / scale, Y: y/scale + 1}, Text: name, Size: labelSize, Anchor: paper.Middle})
	}
	return d
}

// inside is a point well within an outline: of the stretches of a line across
// its middle, the middle of the longest.
func inside(ring []shape.Point) (x, y float64) {
	r := shape.Ring(ring)
	least, most := r.Bounds()
	bestX, bestY, best := (least.X+most.X)/2, (least.Y+most.Y)/2, -1.0
	for _, part := range []float64{0.5, 0.35, 0.65} {
		y := least.Y + (most.Y-least.Y)*part
		var xs []float64
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			if (a.Y <= y) != (b.Y <= y) {
				xs = append(xs, a.X+(y-a.Y)*(b.X-a.X)/(b.Y-a.Y))
			}
		}
		slices.Sort(xs)
		for i := 0; i+1 < len(xs); i += 2 {
			if wide := xs[i+1] - xs[i]; wide > best+1e-6 {
				best, bestX, bestY = wide, (xs[i]+xs[i+1])/2, y
			}
		}
	}
	return bestX, bestY
}
