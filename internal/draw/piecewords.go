package draw

import (
	"math"

	"hembook/internal/drawing"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// wide is how wide a label is set, in millimetres.
func (d *pieceDrawing) wide(l drawing.Label) float64 {
	if d.style.Wide != nil {
		return d.style.Wide(l)
	}
	switch l.Voice {
	case drawing.Name:
		return letters(l.Words) * nameWide
	case drawing.Small:
		return letters(l.Words) * smallWide
	}
	return letters(l.Words) * textWide
}

// levelNames writes the name of each level at its right end.
func (d *pieceDrawing) levelNames() {
	for _, l := range d.p.AtLevels {
		spans := d.p.Outline.WidthsAt(l.Y)
		name := drawing.Label{Words: l.Level, Voice: drawing.Small, Anchor: drawing.End}
		if len(spans) == 0 || spans[0].Width()*d.f.K < d.wide(name)+2*d.hand.levelGap {
			continue
		}
		x, y := d.f.At(shape.Point{X: spans[0].To, Y: l.Y})
		name.X, name.Y = x-d.hand.levelGap, y-d.hand.levelRise
		d.Say(name)
	}
}

// name writes the piece's name where it has room.
func (d *pieceDrawing) name() {
	if x, y, ok := d.nameAt(); ok {
		write(d.Drawing, drawing.Name, drawing.Begin, x, y, d.p.Name)
	}
}

// nameAt is where the piece's name begins, clear of levels and darts; false
// where it has no room.
func (d *pieceDrawing) nameAt() (x, y float64, ok bool) {
	m := d.mid
	wide := letters(d.p.Name) * nameWide
	x = m.left + m.wide*d.hand.grainAt + gap
	if d.p.Grain == "across" || d.p.Grain == "any" {
		x = m.left + (m.wide-wide)/2
	}
	for _, part := range []float64{0, -0.1, 0.1, -0.2, 0.2, 0.28} {
		y = m.y + part*m.high
		if d.inside(x, y, wide) && d.clear(x, y, wide) {
			return x, y, true
		}
	}
	return 0, 0, false
}

// inside reports whether words at (x, y) stay within the sewing line.
func (d *pieceDrawing) inside(x, y, wide float64) bool {
	for _, row := range [...]float64{y - nameHeight, y} {
		holds := false
		for _, span := range d.p.Outline.WidthsAt(d.f.Top - row/d.f.K) {
			left, right := (span.From-d.f.Left)*d.f.K, (span.To-d.f.Left)*d.f.K
			holds = holds || x >= left+gap/2 && x+wide <= right-gap
		}
		if !holds {
			return false
		}
	}
	return true
}

// clear reports whether words at (x, y) stay off level lines and darts.
func (d *pieceDrawing) clear(x, y, wide float64) bool {
	for _, l := range d.p.AtLevels {
		if _, ly := d.f.At(shape.Point{Y: l.Y}); ly > y-nameHeight-0.4 && ly < y+nameHeight/2 {
			return false
		}
	}
	for _, dart := range d.p.Darts {
		px, py := d.f.At(dart.Plan.Point)
		b := drawing.Box{Left: px, Top: py, Right: px, Bottom: py}
		b.Add(d.f.At(dart.Plan.Begin))
		b.Add(d.f.At(dart.Plan.End))
		if b.Left-gap < x+wide && b.Right+gap > x && b.Top-gap < y && b.Bottom+gap > y-nameHeight {
			return false
		}
	}
	return true
}

// lying reports whether the label stands upright beside the grain's arrow,
// because the piece is narrow.
func (d *pieceDrawing) lying() bool { return d.mid.wide < d.hand.narrow && d.mid.high > 1.5*d.mid.wide }

// label writes, to the right of the grain's arrow, the piece's name, how often
// it is cut and of what garment it is; smaller, or lying, where the piece is
// narrow.
func (d *pieceDrawing) label() {
	m := &d.mid
	cut := d.size(drawing.Label{Voice: drawing.NameLess})
	lines := []drawing.Label{{Words: d.p.Name, Voice: drawing.Name}, {Words: d.p.CutWords(), Voice: drawing.NameLess}}
	switch d.p.Grain {
	case "bias":
		lines = append(lines, drawing.Label{Words: say.Of("draw.on-the-bias-2"), Voice: drawing.Small, Size: cut})
	case "any":
		lines = append(lines, drawing.Label{Words: say.Of("draw.grain-any-way"), Voice: drawing.Small, Size: cut})
	}
	if d.style.Build != "" {
		lines = append(lines, drawing.Label{Words: d.style.Build, Voice: drawing.Small, Size: cut})
	}
	wide, tall := 0.0, 0.0
	for _, l := range lines {
		wide, tall = max(wide, d.wide(l)), tall+d.size(l)*lineHigh
	}
	const rim = 4.0
	if d.lying() {
		k := min(1, (m.high*0.7)/wide, (m.wide*0.5-rim)/tall)
		d.block(lines, k, m.left+m.wide*0.5+rim/2, m.y+wide*k/2, true)
		return
	}
	at := d.hand.grainAt
	k := min(1, (m.wide*(1-at)-2*rim)/wide, m.high*0.5/tall)
	d.block(lines, k, m.left+m.wide*at+rim, d.clearOf(tall*k), false)
}

const (
	lineHigh  = 1.35 // height of a line of words, of their size
	leastText = 1.75 // mm: smaller words are left out
)

// size is how large the letters of a label are.
func (d *pieceDrawing) size(l drawing.Label) float64 { return d.hand.look.Letters(&l).Size }

// block writes lines under each other from an upper left corner, or from left
// to right with their letters lying.
func (d *pieceDrawing) block(lines []drawing.Label, k, x, y float64, lying bool) {
	for _, l := range lines {
		l.Size = d.size(l) * k
		step := l.Size * lineHigh
		if lying {
			x += step
			l.X, l.Y, l.Turn = x-step*0.25, y, 90
		} else {
			y += step
			l.X, l.Y = x, y-step*0.25
		}
		if l.Size >= leastText {
			d.Say(l)
		}
	}
}

// clearOf is where a block of words begins, so high, that keeps off levels, darts and lines
// that lie across the piece, near the middle.
func (d *pieceDrawing) clearOf(tall float64) float64 {
	for _, part := range []float64{0, -0.08, 0.08, -0.16, 0.16, -0.24, 0.24, -0.32, 0.32} {
		y := d.mid.y - tall/2 + part*d.mid.high
		ok := true
		for _, l := range d.p.AtLevels {
			_, ly := d.f.At(shape.Point{Y: l.Y})
			ok = ok && (ly < y-4 || ly > y+tall+1)
		}
		for _, dart := range d.p.Darts {
			_, a := d.f.At(dart.Plan.Begin)
			_, b := d.f.At(dart.Plan.End)
			_, c := d.f.At(dart.Plan.Point)
			ok = ok && (max(a, b, c) < y-2 || min(a, b, c) > y+tall+2)
		}
		for i := range d.p.Lines {
			least, most := shape.Ring(d.p.Lines[i].Points).Bounds()
			_, low := d.f.At(least)
			_, high := d.f.At(most)
			ok = ok && (low-high > tall || low < y || high > y+tall+1)
		}
		if ok {
			return y
		}
	}
	return d.mid.y - tall/2
}

// foldWords says along a fold's bracket what it means.
func (d *pieceDrawing) foldWords(i int) {
	a, b := d.p.Outline.Start(i), d.p.Outline.Edges[i].To
	way, long := toward(a, b)
	l := drawing.Label{Words: say.Of("draw.lay-this-edge-on-the-fold"), Anchor: drawing.Middle}
	in := shape.Point{X: -way.Y, Y: way.X}
	l.X, l.Y = d.f.At(beyond(beyond(a, way, 0.5*long), in, (d.hand.foldInset+1.5)/d.f.K))
	d.along(l, way, 0.6*long)
}

// labelEvery is after how much an edge is named again, so that each sheet
// knows it.
const labelEvery = 320.0

// edgesWithin writes along each edge, inside, its name and its allowance.
func (d *pieceDrawing) edgesWithin() {
	for k := range d.p.Edges {
		e := &d.p.Edges[k]
		side, ok := d.p.Outline.Side(e.Name)
		if e.Fold || !ok {
			continue
		}
		label := drawing.Label{Words: e.Name, Voice: drawing.Small, Anchor: drawing.Middle}
		if e.Allowance.Value.Known() {
			label.Words += " · " + d.number(e.Allowance)
		}
		n := max(math.Round(side.Length*d.f.K/labelEvery), 1)
		half := d.wide(label)/d.f.K/2 + 2
		for i := range int(n) {
			s := d.clearOfLines(e.Name, side.Length/n, side.Length/n*float64(i), half)
			at, way, ok := d.p.Outline.PointOn(e.Name, s)
			if !ok {
				continue
			}
			label.X, label.Y = d.f.At(beyond(at, outward(way), -1.6/d.f.K-d.bulges(e.Name, s, half)))
			d.along(label, way, side.Length/n)
		}
	}
}

// along turns a label so that it stands along an edge that runs that way, on
// the piece's side of its point, upright to read; it is left out where it has
// no room.
func (d *pieceDrawing) along(l drawing.Label, way shape.Point, room float64) {
	if d.wide(l)+4 > room*d.f.K {
		return
	}
	turn := math.Atan2(way.Y, way.X) * 180 / math.Pi
	if turn > 90+1e-9 || turn <= -90+1e-9 {
		turn += 180
	}
	// up is the letters' upper side, in the piece's directions
	sin, cos := math.Sincos(turn * math.Pi / 180)
	up, out := shape.Point{X: -sin, Y: cos}, outward(way)
	if float64(up.X*out.X)+float64(up.Y*out.Y) > 0 { // letters would reach back over the edge
		down := d.size(l) * 0.75 // from the base line to the top of its letters
		l.X, l.Y = l.X-float64(up.X*down), l.Y+float64(up.Y*down)
	}
	if turn > 180 {
		turn -= 360
	}
	l.Turn = turn
	d.Say(l)
}

// bulges is how far an edge reaches into the piece within so far of a place on it, beside the
// way it runs there: words along it keep off that.
func (d *pieceDrawing) bulges(edge string, s, half float64) float64 {
	at, way, _ := d.p.Outline.PointOn(edge, s)
	in, most := outward(way), 0.0
	for _, part := range []float64{-1, -0.5, 0.5, 1} {
		if q, _, ok := d.p.Outline.PointOn(edge, s+float64(part*half)); ok {
			most = max(most, -float64((q.X-at.X)*in.X)-float64((q.Y-at.Y)*in.Y))
		}
	}
	return min(most, half/4)
}

// clearOfLines is where along a stretch of an edge a label keeps off the mouths of darts and
// the lines that run in from there; the middle where it cannot.
func (d *pieceDrawing) clearOfLines(edge string, long, from, half float64) float64 {
	off := d.runIn()
	for _, part := range []float64{0.5, 0.46, 0.54, 0.42, 0.58, 0.36, 0.64, 0.3, 0.7, 0.24, 0.76} {
		s := from + long*part
		at, _, ok := d.p.Outline.PointOn(edge, s)
		for _, q := range off {
			_, away := toward(at, q)
			ok = ok && away > half
		}
		if ok && s-from > half && from+long-s > half {
			return s
		}
	}
	return from + long/2
}

// runIn are the places on the outline at which darts open, and pleats, levels and lines run
// in or leave the piece.
func (d *pieceDrawing) runIn() (out []shape.Point) {
	for _, dart := range d.p.Darts {
		out = append(out, dart.Plan.Begin, dart.Plan.End)
	}
	for i := range d.p.PleatFolds {
		l := &d.p.PleatFolds[i].Lines
		for _, line := range []shape.Line{l.Place, l.Inner, l.Outer} {
			out = append(out, line[0], line[len(line)-1])
		}
	}
	for i := range d.p.Lines {
		l := d.p.Lines[i].Points
		out = append(out, l[0], l[len(l)-1])
	}
	for _, l := range d.p.AtLevels {
		for _, span := range d.p.Outline.WidthsAt(l.Y) {
			out = append(out, shape.Point{X: span.From, Y: l.Y}, shape.Point{X: span.To, Y: l.Y})
		}
	}
	return out
}
