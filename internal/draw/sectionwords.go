package draw

import (
	"math"
	"strconv"

	"hembook/internal/drawing"
	"hembook/internal/trade"
)

// Where the words of a cross-section stand: first the names of the layers, at
// their ends; then the measured distances, moved outward until they are clear;
// then the numbers of the rows, each beyond an end of its thread, or farther
// out on a leader. No words touch other words, a measured distance, a layer or
// a thread.

const (
	clearance = 0.35 // free space round words
	moved     = 0.8  // how far words move on, each time they are not clear
	mostMoves = 120
)

// A stroke is something drawn that words keep clear of.
type stroke struct {
	a, b drawing.Point
	half float64 // half as wide as it is drawn
	row  int     // the row of a thread; 0 for anything else
}

// A blocked place is what words of a section must keep clear of.
type blocked struct {
	strokes []stroke
	boxes   []drawing.Box
}

// clear reports whether a box touches nothing but the threads of its own row.
func (l *blocked) clear(b drawing.Box, row int) bool {
	for _, o := range l.boxes {
		if b.Left < o.Right && o.Left < b.Right && b.Top < o.Bottom && o.Top < b.Bottom {
			return false
		}
	}
	for _, s := range l.strokes {
		if (row == 0 || s.row != row) && s.meets(b) {
			return false
		}
	}
	return true
}

// meets reports whether a stroke comes into a box.
func (s stroke) meets(b drawing.Box) bool {
	b = drawing.Box{Left: b.Left - s.half, Top: b.Top - s.half, Right: b.Right + s.half, Bottom: b.Bottom + s.half}
	from, to := 0.0, 1.0
	dx, dy := s.b.X-s.a.X, s.b.Y-s.a.Y
	for _, edge := range [4][2]float64{{-dx, s.a.X - b.Left}, {dx, b.Right - s.a.X}, {-dy, s.a.Y - b.Top}, {dy, b.Bottom - s.a.Y}} {
		switch way, room := edge[0], edge[1]; {
		case way == 0 && room < 0:
			return false
		case way < 0:
			from = max(from, room/way)
		case way > 0:
			to = min(to, room/way)
		}
	}
	return from <= to
}

// boxOf is where a label stands, its letters so wide, with what must stay free
// around it.
func boxOf(l drawing.Label, letter float64) drawing.Box {
	b := wordsOf(l, letter)
	return drawing.Box{Left: b.Left - clearance, Top: b.Top - clearance, Right: b.Right + clearance, Bottom: b.Bottom + clearance}
}

// wordsOf is where the words of a label stand.
func wordsOf(l drawing.Label, letter float64) drawing.Box {
	wide := letters(l.Words) * letter
	x := l.X
	switch l.Anchor {
	case drawing.Middle:
		x -= wide / 2
	case drawing.End:
		x -= wide
	}
	return drawing.Box{Left: x, Top: l.Y - textHeight, Right: x + wide, Bottom: l.Y + textHeight*0.35}
}

// place sets words down.
func (d *section) place(l drawing.Label, letter float64) {
	d.full.boxes = append(d.full.boxes, boxOf(l, letter))
	d.grow(l, letter)
}

// drawnStrokes are the layers and the threads.
func (d *section) drawnStrokes() {
	line := func(pts []trade.Pt, half float64, row int) {
		for i := 1; i < len(pts); i++ {
			ax, ay := d.at(pts[i-1])
			bx, by := d.at(pts[i])
			d.full.strokes = append(d.full.strokes, stroke{drawing.Point{X: ax, Y: ay}, drawing.Point{X: bx, Y: by}, half, row})
		}
	}
	for _, l := range d.t.Layers {
		line(l.Path, d.ply/2, 0)
	}
	for _, off := range d.t.Trimmed {
		line(off[:], d.ply/2, 0)
	}
	for _, x := range d.t.Folds {
		line([]trade.Pt{{X: x, Y: -1.6 * d.ply / d.k}, {X: x, Y: 1.6 * d.ply / d.k}}, 0.1, 0)
	}
	for _, st := range d.t.Stitches {
		way := st.Round
		if len(way) == 0 {
			way = []trade.Pt{st.From, st.To}
		}
		line(way, 0.3, st.Row)
	}
}

// placeRows numbers the first stitch of each row.
func (d *section) placeRows() {
	d.rows, d.leaders = make([]drawing.Label, len(d.t.Stitches)), make([]stroke, len(d.t.Stitches))
	told := map[int]bool{}
	for i, st := range d.t.Stitches {
		if told[st.Row] {
			continue
		}
		told[st.Row] = true
		l, leader := d.numberAt(st)
		d.rows[i], d.leaders[i] = l, leader
		if leader != (stroke{}) {
			d.full.strokes = append(d.full.strokes, leader)
		}
		d.place(l, textWide/letters(l.Words))
	}
}

// numberAt finds the place of a row's number: beyond an end of the thread, or
// above and below one that lies level, as near as there is room.
func (d *section) numberAt(st trade.SectionStitch) (drawing.Label, stroke) {
	x, y := d.at(st.From)
	x2, y2 := d.at(st.To)
	dx, dy := x-x2, y-y2
	if l := math.Sqrt(dx*dx + dy*dy); l > 0 {
		dx, dy = dx/l, dy/l
	}
	type way struct{ x, y, dx, dy float64 }
	ways := []way{{x, y, dx, dy}, {x2, y2, -dx, -dy}}
	if math.Abs(dx) > math.Abs(dy) { // a thread that lies level: its number above the layer
		mid := (x + x2) / 2
		ways = []way{{mid, min(y, y2) - d.ply/2, 0, -1}, {mid, max(y, y2) + d.ply/2, 0, 1}, {x, y, dx, dy}, {x2, y2, -dx, -dy}}
	}
	for _, w := range ways { // and aslant, where words stand straight beyond
		for _, turn := range []float64{0.6, -0.6, 1.2, -1.2} {
			sin, cos := math.Sin(turn), math.Cos(turn)
			ways = append(ways, way{w.x, w.y, w.dx*cos - w.dy*sin, w.dx*sin + w.dy*cos})
		}
	}
	l := drawing.Label{Words: strconv.Itoa(st.Row), Voice: drawing.Row, Anchor: drawing.Middle}
	for step := range mostMoves {
		away := textHeight*0.8 + float64(step)*moved
		for _, w := range ways {
			l.X, l.Y = w.x+w.dx*away, w.y+w.dy*away+textHeight*0.35
			if !d.full.clear(boxOf(l, textWide/letters(l.Words)), st.Row) {
				continue
			}
			if step == 0 {
				return l, stroke{}
			}
			end := away - textHeight*0.75
			if lead := (stroke{a: drawing.Point{X: w.x, Y: w.y}, b: drawing.Point{X: w.x + w.dx*end, Y: w.y + w.dy*end}, half: 0.1, row: st.Row}); d.lineClear(lead) {
				return l, lead
			}
		}
	}
	return l, stroke{}
}

// placeDims finds the places of measured distances and their words. One that is
// not clear is moved outward, away from the layers.
func (d *section) placeDims() {
	const off = tick + clearance + 0.05 // between a measured distance and its words
	d.dims = make([]measured, len(d.t.Dims))
	for i, m := range d.t.Dims {
		x, y := d.at(m.From)
		x2, y2 := d.at(m.To)
		below := m.From.Y <= (d.t.Min.Y+d.t.Max.Y)/2
		upright := math.Abs(x-x2) < math.Abs(y-y2)
		dx, dy := 0.0, -moved
		switch {
		case upright:
			dx, dy = moved, 0
		case below:
			dy = moved
		}
		var line stroke
		var l drawing.Label
		for step := range mostMoves {
			by := float64(step)
			line = stroke{a: drawing.Point{X: x + by*dx, Y: y + by*dy}, b: drawing.Point{X: x2 + by*dx, Y: y2 + by*dy}, half: tick}
			l = drawing.Label{X: (line.a.X + line.b.X) / 2, Y: (line.a.Y+line.b.Y)/2 - off - textHeight*0.35, Words: d.dimWords(m), Anchor: drawing.Middle}
			switch {
			case upright:
				l.X, l.Y, l.Anchor = line.a.X+gap, (line.a.Y+line.b.Y)/2, drawing.Begin
			case below: // words below too
				l.Y = (line.a.Y+line.b.Y)/2 + off + textHeight
			}
			if d.full.clear(boxOf(l, textWide), 0) && d.lineClear(line) {
				break
			}
		}
		d.dims[i] = measured{line: line, words: l}
		d.full.strokes = append(d.full.strokes, line)
		d.Box.Add(line.a.X, line.a.Y+tick)
		d.Box.Add(line.b.X, line.b.Y-tick)
		d.place(l, textWide)
	}
}

// lineClear reports whether a line touches no words.
func (d *section) lineClear(s stroke) bool {
	for _, b := range d.full.boxes {
		if s.meets(b) {
			return false
		}
	}
	return true
}

// A measured distance as it is drawn.
type measured struct {
	line  stroke
	words drawing.Label
}

// placeNames names each sort of layer once, at the end where it goes on.
func (d *section) placeNames() {
	seen := map[string]bool{}
	for _, l := range d.t.Layers {
		if l.Name == "" || seen[l.Name] || len(l.Path) < 2 {
			continue
		}
		seen[l.Name] = true
		end, before := l.Path[0], l.Path[1]
		if l.Start != trade.GoesOn && l.End == trade.GoesOn {
			end, before = l.Path[len(l.Path)-1], l.Path[len(l.Path)-2]
		}
		x, y := d.at(end)
		n := drawing.Label{X: x + gap, Y: y - d.ply/2 - gap, Words: l.Name, Voice: drawing.Small}
		if end.X > before.X {
			n.X, n.Anchor = x-gap, drawing.End
		}
		if l.Start != trade.GoesOn && l.End != trade.GoesOn {
			d.beside(&n, l.Path)
		}
		d.named(n)
	}
	for _, l := range d.t.Labels {
		x, y := d.at(l.At)
		d.named(drawing.Label{X: x, Y: y, Words: l.Text, Voice: drawing.Small})
	}
}

// named sets a name down where it is clear: up or down from where it was
// wanted, as near as there is room.
func (d *section) named(n drawing.Label) {
	y := n.Y
	for step := range mostMoves {
		by := float64((step+1)/2) * moved
		if step%2 == 1 {
			by = -by
		}
		if n.Y = y + by; d.full.clear(boxOf(n, smallWide), 0) {
			break
		}
	}
	d.names = append(d.names, n)
	d.place(n, smallWide)
}

// beside puts the name of a layer that lies within the seam, as a strip does,
// to the left or the right of all of it, where nothing else lies there.
func (d *section) beside(n *drawing.Label, path []trade.Pt) {
	left, right := path[0], path[0]
	for _, q := range path {
		if q.X < left.X {
			left = q
		}
		if q.X > right.X {
			right = q
		}
	}
	at := *n
	x, y := d.at(left)
	at.X, at.Y, at.Anchor = x-d.ply/2-gap, y+textHeight*0.3, drawing.End
	if d.full.clear(boxOf(at, smallWide), 0) {
		*n = at
		return
	}
	x, y = d.at(right)
	at.X, at.Y, at.Anchor = x+d.ply/2+gap, y+textHeight*0.3, drawing.Begin
	*n = at
}
