package draw

import (
	"cmp"
	"slices"
	"strconv"

	"hembook/internal/drawing"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// Drawings that explain: what is numbered in them is told in the text beside them.

// A pointer is a number with a line to what it stands for, in millimetres of the piece.
type pointer struct {
	to   shape.Point
	left bool // of the drawing; else to the right
}

// ringsApart is how far the numbers of one side stand from each other, in millimetres.
const ringsApart = 7.0

// point numbers what pointers lead to, in their order: those of a side stand below each
// other beside the drawing, at the height of what they lead to where there is room.
func point(d *drawing.Drawing, f drawing.Frame, to []pointer) {
	box := d.Box
	for _, left := range []bool{true, false} {
		x := box.Right + 6
		if left {
			x = box.Left - 6
		}
		type ring struct {
			number  int
			y, toX  float64
			exactly float64
		}
		var rings []ring
		for i, p := range to {
			if p.left == left {
				px, py := f.At(p.to)
				rings = append(rings, ring{i + 1, py, px, py})
			}
		}
		slices.SortFunc(rings, func(a, b ring) int { return cmp.Compare(a.exactly, b.exactly) })
		for k := range rings {
			if k > 0 {
				rings[k].y = max(rings[k].y, rings[k-1].y+ringsApart)
			}
		}
		for k := len(rings) - 1; k >= 0; k-- { // what was pushed below the drawing moves up again
			most := box.Bottom - discRim
			if k < len(rings)-1 {
				most = rings[k+1].y - ringsApart
			}
			rings[k].y = min(rings[k].y, most)
			d.Draw(drawing.NetTie).Move(x, rings[k].y).Line(rings[k].toX, rings[k].exactly)
			d.Draw(drawing.Origin).Disc(rings[k].toX, rings[k].exactly, 0.5)
			ringed(d, x, rings[k].y, strconv.Itoa(rings[k].number))
			d.Box.Add(x-discRim-margin, rings[k].y-discRim-margin)
			d.Box.Add(x+discRim+margin, rings[k].y+discRim+margin)
		}
	}
}

// PieceNumbered draws a piece with the number of each of the words that the drawing of a
// piece uses: 1 the line to cut, 2 the sewing line, 3 the allowance, 4 an edge, 5 the
// corner that the outline begins at, 6 a notch, 7 a level, 8 a dart, 9 the grain,
// 10 the fold. It is the front of a straight skirt.
func PieceNumbered() *drawing.Drawing {
	p := skirtFront()
	least, most := p.Bounds()
	d := newPiece(p, least, most, PieceStyle{Scale: 5, Parts: Lines | Levels | Darts | Notches | Grain | Folds | EdgesBeside})
	d.labelEdges()
	for _, part := range []func(){d.lines, d.levels, d.darts, d.notches, d.grain, d.folds, d.levelNames, d.edgesBeside} {
		part()
	}
	gx, gy := d.mid.left+d.mid.wide*d.hand.grainAt, d.mid.y
	grain := shape.Point{X: gx/d.f.K + d.f.Left, Y: d.f.Top - gy/d.f.K}
	side, _ := curvePoint(p.Outline, 1, 0.84)
	low, _ := curvePoint(p.Outline, 1, 0.2)
	point(d.Drawing, d.f, []pointer{
		{to: shape.Point{X: 281, Y: 20}}, {to: low}, {to: shape.Point{X: 200, Y: -22}}, {to: side},
		{to: shape.Point{}, left: true}, {to: shape.Point{X: p.Outline.WidthsAt(400)[0].To + 11, Y: 400}}, {to: shape.Point{X: 24, Y: 400}, left: true},
		{to: p.Darts[0].Plan.Point}, {to: grain, left: true}, {to: shape.Point{X: foldInset / d.f.K, Y: 180}, left: true},
	})
	return d.Drawing
}

// skirtFront is the front of the guide's first skirt.
func skirtFront() *garment.Piece {
	o := shape.Outline{Edges: []shape.Edge{
		{Name: "hem", To: shape.Point{X: 266}},
		{Name: "side", To: shape.Point{X: 194, Y: 608}, C1: shape.Point{X: 260, Y: 180}, C2: shape.Point{X: 268, Y: 440}, Curved: true},
		{Name: "waist", To: shape.Point{Y: 600}, C1: shape.Point{X: 133, Y: 581}, C2: shape.Point{X: 60, Y: 600}, Curved: true},
		{Name: "centre", Fold: true},
	}}
	p := &garment.Piece{Name: "front", Outline: o, OnFold: true, Grain: "along", AtLevels: []garment.LevelWidth{{Level: "hip", Y: 400}}}
	allowances := []float64{46, 15, 15, 0}
	for i, e := range o.Edges {
		p.Edges = append(p.Edges, garment.PieceEdge{Name: e.Name, Index: i, Fold: e.Fold, Allowance: figure.Figure{Value: figure.Value{Quantity: measure.Quantity{Number: allowances[i], Unit: measure.UnitMM}}}})
	}
	p.Cut, _ = o.CutOutline(allowances, []shape.Corner{shape.Folded(40, 6), shape.Mitre, shape.Mitre, shape.Mitre})
	plan, _ := shape.Dart{Edge: "waist", At: 98, Width: 20, Length: 90}.Plan(o)
	p.Darts = []garment.PieceDart{{Plan: plan}}
	return p
}

// CurvesNumbered draws two curved edges: one by two points, 1 and 4 its ends, 2 and 3 the
// points it leaves towards and arrives from; and an arc, 5 how far its middle lies inside.
func CurvesNumbered() *drawing.Drawing {
	d := drawing.New("piece")
	f := drawing.Frame{K: 0.25}
	from, c1, c2, to := shape.Point{X: 204}, shape.Point{X: 212, Y: 120}, shape.Point{X: 150, Y: 130}, shape.Point{X: 150, Y: 240}
	d.Draw(drawing.SewLine).Outline(f, shape.Outline{From: from, Edges: []shape.Edge{{To: to, C1: c1, C2: c2, Curved: true}, {To: shape.Point{Y: 240}}, {To: shape.Point{}}, {To: from}}})
	d.Draw(drawing.NetTie).Lines(f, []shape.Point{from, c1})
	d.Draw(drawing.NetTie).Lines(f, []shape.Point{to, c2})
	arc := shape.Edge{To: shape.Point{X: 320, Y: 240}, Curved: true}
	start, hollow := shape.Point{X: 470, Y: 0}, 40.0
	arc.C1, arc.C2 = bowed(start, arc.To, hollow)
	d.Draw(drawing.SewLine).Outline(f, shape.Outline{From: start, Edges: []shape.Edge{arc, {To: shape.Point{X: 270, Y: 240}}, {To: shape.Point{X: 270}}, {To: start}}})
	d.Draw(drawing.NetTie).Lines(f, []shape.Point{start, arc.To})
	middle := along(start, arc.To, 0.5)
	far := beyond(middle, inward(start, arc.To), hollow)
	d.Draw(drawing.Measured).Lines(f, []shape.Point{middle, far})
	d.Box.Left, d.Box.Top = f.At(shape.Point{Y: 250})
	d.Box.Right, d.Box.Bottom = f.At(shape.Point{X: 470, Y: -10})
	beside := func(p shape.Point, dx, dy float64, number string) {
		x, y := f.At(p)
		d.Draw(drawing.Origin).Disc(x, y, 0.5)
		ringed(d, x+dx, y+dy, number)
	}
	beside(from, 4, 2, "1")
	beside(c1, 4.5, 0, "2")
	beside(c2, -4.5, 0, "3")
	beside(to, 4, -1, "4")
	beside(far, -5, 2, "5")
	d.Box.Left, d.Box.Top, d.Box.Right, d.Box.Bottom = d.Box.Left-margin, d.Box.Top-2*margin, d.Box.Right+margin, d.Box.Bottom+2*margin
	return d
}

// bowed are the control points of an arc whose middle lies so far to the left of the way
// from a to b.
func bowed(a, b shape.Point, by float64) (c1, c2 shape.Point) {
	in := inward(a, b)
	return beyond(along(a, b, 1.0/3), in, by*4/3), beyond(along(a, b, 2.0/3), in, by*4/3)
}

// inward is to the left of the way from a to b, one long.
func inward(a, b shape.Point) shape.Point {
	way, _ := toward(a, b)
	return shape.Point{X: -way.Y, Y: way.X}
}

// CornersNamed draws a hem with each of the ways its allowance can end.
func CornersNamed() *drawing.Drawing {
	d := drawing.New("piece")
	o := shape.Outline{From: shape.Point{X: 40}, Edges: []shape.Edge{
		{Name: "hem", To: shape.Point{X: 260}}, {Name: "side", To: shape.Point{X: 300, Y: 150}}, {Name: "top", To: shape.Point{Y: 150}}, {Name: say.Of("draw.other-side"), To: shape.Point{X: 40}},
	}}
	for i, c := range []struct {
		name   string
		corner shape.Corner
	}{{"mitre", shape.Mitre}, {"square", shape.Square}, {"mirror", shape.Mirror}} {
		f := drawing.Frame{Left: -20 - 400*float64(i), Top: 170, K: 0.1}
		cut, err := o.CutOutline([]float64{60, 15, 15, 15}, []shape.Corner{c.corner, shape.Mitre, shape.Mitre, shape.Mitre})
		if err != nil {
			continue
		}
		d.Draw(drawing.CutLine).Thinned(f, cut.Ring)
		d.Draw(drawing.SewLine).Outline(f, o)
		x, y := f.At(shape.Point{X: 150, Y: -60})
		write(d, drawing.Plain, drawing.Middle, x, y+gap+textHeight, c.name)
	}
	d.Box = drawing.Box{Left: -margin, Top: -margin, Right: 118 + margin, Bottom: 29}
	return d
}

// SkirtNumbered draws the pieces of the practice skirt as the record has them: 1 its right
// side seam, 2 the left one, 3 the waist, 4 the slit, 5 the hem.
func SkirtNumbered() *drawing.Drawing {
	d := drawing.New("piece")
	const wide, high, apart, k = 525.0, 600.0, 170.0, 0.06
	f := drawing.Frame{Top: 260, K: k}
	panel := func(left float64, name string) {
		at := func(x, y float64) shape.Point { return shape.Point{X: left + x, Y: y - high} }
		corners := []shape.Point{at(0, 0), at(wide, 0), at(wide, high), at(0, high), at(0, 0)}
		d.Draw(drawing.PieceArea).Lines(f, corners)
		d.Draw(drawing.SewLine).Lines(f, corners)
		x, y := f.At(at(wide/2, high/2))
		write(d, drawing.Name, drawing.Middle, x, y, name)
	}
	label := func(x, y float64, words string) {
		px, py := f.At(shape.Point{X: x, Y: y})
		write(d, drawing.Small, drawing.Middle, px, py+0.9, words)
	}
	number := func(x, y float64, n int) {
		px, py := f.At(shape.Point{X: x, Y: y})
		ringed(d, px, py, strconv.Itoa(n))
	}
	back := wide + apart
	panel(0, "front")
	panel(back, "back")
	band := []shape.Point{{X: 200, Y: 110}, {X: 930, Y: 110}, {X: 930, Y: 170}, {X: 200, Y: 170}, {X: 200, Y: 110}}
	d.Draw(drawing.PieceArea).Lines(f, band)
	d.Draw(drawing.SewLine).Lines(f, band)
	label(565, 200, "waistband")
	label(565, 84, "waist")
	for _, left := range []float64{0, back} {
		label(left+90, -40, "top")
		label(left+90, -high+45, "hem")
		label(left+60, -high*0.62, "left")
		label(left+wide-65, -high*0.62, "right")
		number(left+wide/2, 0, 3)
		number(left+wide/2, -high, 5)
	}
	number(700, 110, 3)
	number(0, -high*0.45, 1)
	number(back+wide, -high*0.45, 1)
	number(wide, -high*0.75, 2)
	number(back, -high*0.75, 2)
	for _, x := range []float64{wide, back} {
		d.Draw(drawing.NetNow).Lines(f, []shape.Point{{X: x, Y: 0}, {X: x, Y: -180}})
		number(x, -90, 4)
	}
	d.Box.Left, d.Box.Top = f.At(shape.Point{X: -60, Y: 250})
	d.Box.Right, d.Box.Bottom = f.At(shape.Point{X: back + wide + 60, Y: -high - 60})
	return d
}
