package paper

import (
	"hembook/internal/document"
	"hembook/internal/drawing"
)

// A slab is the smallest part of a document that is not parted over pages,
// with what stands on it. Lengths in millimetres.
type slab struct {
	high  float64
	gap   float64 // space above it, where it does not begin a page
	keep  bool    // it stays with the next one
	items []item
	again *slab // stands above it again where it begins a page: a table's head
	opens opens // what begins with it
	table int   // rows of one table share a number, counted from 1; 0 for what is no row
}

// opens says what begins with a slab.
type opens int

const (
	opensNothing opens = iota
	opensBlock
	opensHeading
)

// An item is one thing set on a slab or a page, by its upper left corner.
type item interface {
	at(dx, dy float64) item // the same, further right and down
}

// textItem is words of one setting; y is their base line.
type textItem struct {
	setting
	x, y float64
	text string
	wide float64
	turn float64 // degrees against the clock
	echo bool    // said before: a table's head on a further page, the foot
}

// pathItem is a path drawn at (x, y) and scale.
type pathItem struct {
	x, y, scale float64
	path        drawing.Path
	pen         drawing.Pen
}

// pictureItem is a picture of dots.
type pictureItem struct {
	x, y, wide, high float64
	picture          document.Picture
}

// clipItem is where what follows is shown and nowhere else, until clipEnd.
type clipItem struct{ x, y, wide, high float64 }

type clipEnd struct{}

func (t textItem) at(dx, dy float64) item    { t.x, t.y = t.x+dx, t.y+dy; return t }
func (p pathItem) at(dx, dy float64) item    { p.x, p.y = p.x+dx, p.y+dy; return p }
func (p pictureItem) at(dx, dy float64) item { p.x, p.y = p.x+dx, p.y+dy; return p }

func (c clipItem) at(dx, dy float64) item { c.x, c.y = c.x+dx, c.y+dy; return c }
func (c clipEnd) at(_, _ float64) item    { return c }

// put sets items on a slab.
func (s *slab) put(dx, dy float64, items ...item) {
	for _, it := range items {
		s.items = append(s.items, it.at(dx, dy))
	}
}

// put a line of text, its upper edge at y in a row of that height.
func (s *slab) putLine(l textLine, x, y, high float64) {
	for _, p := range l.pieces {
		s.items = append(s.items, textItem{setting: p.setting, x: x + p.x, y: y + baseline(l, high), text: p.text, wide: p.wide})
	}
}

// baseline is how far under the upper edge of a row a line's letters stand.
func baseline(l textLine, high float64) float64 {
	top, low := 0.0, 0.0
	for _, p := range l.pieces {
		top = max(top, p.face.high*p.size*mmPerPoint)
		low = max(low, p.face.low*p.size*mmPerPoint)
	}
	return (high-top-low)/2 + top
}

// stroke is a straight line as an item.
func stroke(x1, y1, x2, y2 float64, pen drawing.Pen) item {
	var p drawing.Path
	return pathItem{scale: 1, path: *p.Move(x1, y1).Line(x2, y2), pen: pen}
}

// stack puts slabs under each other as one.
func stack(slabs []slab) slab {
	var all slab
	for i, s := range slabs {
		if i > 0 {
			all.high += s.gap
		} else {
			all.gap = s.gap
		}
		all.put(0, all.high, s.items...)
		all.high += s.high
	}
	return all
}

// together makes slabs stay with each other.
func together(slabs []slab) []slab {
	for i := range slabs {
		if i < len(slabs)-1 {
			slabs[i].keep = true
		}
	}
	return slabs
}

// shifted moves slabs to the right.
func shifted(slabs []slab, right float64) []slab {
	for i := range slabs {
		items := slabs[i].items
		slabs[i].items = nil
		slabs[i].put(right, 0, items...)
	}
	return slabs
}
