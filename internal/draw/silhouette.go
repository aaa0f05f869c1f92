package draw

import (
	"hembook/internal/drawing"
	"hembook/internal/garment"
	"hembook/internal/shape"
)

// silhouetteHigh is how high or wide, in millimetres on paper, the largest of
// several pieces that are shown side by side may be.
const silhouetteHigh = 42

// CommonScale is the largest scale at which each of some pieces is small enough
// to lie beside the others: millimetres of the piece for one on paper.
func CommonScale(pieces []*garment.Piece) float64 {
	wide, high := 0.0, 0.0
	for _, p := range pieces {
		least, most := p.Bounds()
		wide, high = max(wide, most.X-least.X), max(high, most.Y-least.Y)
	}
	return ScaleFor(wide, high, 1.7*silhouetteHigh, silhouetteHigh)
}

// Silhouette draws a piece as it is cut, with its sewing line and no words:
// for use beside its name, so it is hidden from those who listen.
func Silhouette(p *garment.Piece, scale float64) *drawing.Drawing {
	least, most := p.Bounds()
	f := drawing.Frame{Left: least.X, Top: most.Y, K: 1 / scale}
	w, h := f.At(shape.Point{X: most.X, Y: least.Y})
	d := drawing.New("piece")
	d.Box = drawing.Box{Left: -margin / 2, Top: -margin / 2, Right: w + margin/2, Bottom: h + margin/2}
	pieceLines(d, f, p, false)
	return d
}

// tableGap is the space between pieces that are laid out, as a share of the
// highest of them.
const tableGap = 0.06

// Table draws all pieces side by side in rows, without words, in about the
// shape of a picture of the given width and height, its longer side 200 mm.
// It is nil where no piece has an outline.
func Table(pieces []*garment.Piece, wide, high float64) *drawing.Drawing {
	rows := tableRows(pieces, wide/high)
	if len(rows) == 0 {
		return nil
	}
	long, deep := rowsExtent(rows)
	k := 200 / max(long, deep)
	d := drawing.New("table")
	d.Box = drawing.Box{Right: long * k, Bottom: deep * k}
	space := spaceOf(rows)
	y := 0.0
	for _, row := range rows {
		x, tallest := 0.0, 0.0
		for _, t := range row {
			pieceLines(d, drawing.Frame{Left: t.left - x, Top: t.top + y, K: k}, t.p, false)
			x += t.wide + space
			tallest = max(tallest, t.high)
		}
		y += tallest + space
	}
	return d
}

// A tabled is a piece with its extent, in millimetres.
type tabled struct {
	p                     *garment.Piece
	left, top, wide, high float64
}

// tableRows puts pieces into rows, in their order, with the number of rows that
// comes nearest the shape asked for.
func tableRows(pieces []*garment.Piece, shapeWanted float64) [][]tabled {
	var all []tabled
	widest, sum := 0.0, 0.0
	for _, p := range pieces {
		least, most := p.Bounds()
		t := tabled{p, least.X, most.Y, most.X - least.X, most.Y - least.Y}
		if t.wide > 0 && t.high > 0 {
			all = append(all, t)
			widest, sum = max(widest, t.wide), sum+t.wide
		}
	}
	var best [][]tabled
	off := 0.0
	for n := 1; n <= len(all); n++ {
		rows := fillRows(all, max(widest, sum/float64(n)*1.08))
		long, deep := rowsExtent(rows)
		got := (long / deep) / shapeWanted
		if got < 1 {
			got = 1 / got
		}
		if best == nil || got < off {
			best, off = rows, got
		}
	}
	return best
}

func fillRows(all []tabled, room float64) [][]tabled {
	rows := [][]tabled{nil}
	x := 0.0
	for _, t := range all {
		if x > 0 && x+t.wide > room {
			rows, x = append(rows, nil), 0
		}
		rows[len(rows)-1] = append(rows[len(rows)-1], t)
		x += t.wide
	}
	return rows
}

func spaceOf(rows [][]tabled) float64 {
	tallest := 0.0
	for _, row := range rows {
		for _, t := range row {
			tallest = max(tallest, t.high)
		}
	}
	return tallest * tableGap
}

func rowsExtent(rows [][]tabled) (long, deep float64) {
	space := spaceOf(rows)
	for _, row := range rows {
		x, tallest := -space, 0.0
		for _, t := range row {
			x += t.wide + space
			tallest = max(tallest, t.high)
		}
		long, deep = max(long, x), deep+tallest+space
	}
	return long, deep - space
}
