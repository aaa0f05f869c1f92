package draw

import (
	"cmp"
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
		if !d.has(Label) {
			d.Say(name)
			continue
		}
		var c choice
		for _, in := range []float64{0, 4, 8, 16, 32, 64} {
			if name.X = x - d.hand.levelGap - in; d.try(&c, name) {
				break
			}
		}
		d.sayAll(c.labels...)
	}
}

// name writes the piece's name where it has room.
func (d *pieceDrawing) name() {
	if x, y, ok := d.nameAt(); ok {
		write(d.Drawing, drawing.Name, drawing.Begin, x, y, d.called())
	}
}

// called is what the piece is called where it is shown.
func (d *pieceDrawing) called() string { return cmp.Or(d.style.Called, d.p.Name) }

// nameAt is where the piece's name begins, clear of levels and darts; false
// where it has no room.
func (d *pieceDrawing) nameAt() (x, y float64, ok bool) {
	m := d.mid
	wide := letters(d.called()) * nameWide
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
	cut := d.size(drawing.Label{Voice: drawing.NameLess})
	lines := []drawing.Label{{Words: d.called(), Voice: drawing.Name}, {Words: d.p.CutWords(), Voice: drawing.NameLess}}
	switch d.p.Grain {
	case "bias":
		lines = append(lines, drawing.Label{Words: say.Of("draw.on-the-bias-2"), Voice: drawing.Small, Size: cut})
	case "any":
		lines = append(lines, drawing.Label{Words: say.Of("draw.grain-any-way"), Voice: drawing.Small, Size: cut})
	}
	if d.style.Build != "" {
		lines = append(lines, drawing.Label{Words: d.style.Build, Voice: drawing.Small, Size: cut})
	}
	d.crowd = crowded(d.Drawing)
	c := choice{bad: math.MaxInt}
	for _, largest := range []float64{1, 0.85, 0.7, 0.6} {
		if d.blockAnywhere(&c, lines, largest) {
			break
		}
	}
	d.sayAll(c.labels...)
}

// blockAnywhere looks for a place for lines of words, their letters at most so large, that
// nothing meets: to the right of the grain's arrow near the middle, and then everywhere else;
// in a narrow piece lying first.
func (d *pieceDrawing) blockAnywhere(c *choice, lines []drawing.Label, largest float64) (clear bool) {
	m := &d.mid
	wide, tall := 0.0, 0.0
	for _, l := range lines {
		wide, tall = max(wide, d.wide(l)), tall+d.size(l)*lineHigh
	}
	const rim = 4.0
	at := d.hand.grainAt
	standing, lying := min(largest, (m.wide*(1-at)-2*rim)/wide, m.high*0.5/tall), min(largest, (m.high*0.7)/wide, (m.wide*0.5-rim)/tall)
	stand := func() bool {
		for _, x := range across(m.wide*at+rim, rim, m.wide-rim-wide*standing) {
			for _, part := range fromTheMiddle {
				if d.tryBlock(c, d.block(lines, standing, m.left+x, m.y-tall*standing/2+part*m.high, false)) {
					return true
				}
			}
		}
		return false
	}
	lie := func() bool {
		for _, part := range fromTheMiddle {
			for _, x := range across(0.5*m.wide+rim/2, 0, m.wide-rim/2-tall*lying) {
				if d.tryBlock(c, d.block(lines, lying, m.left+x, m.y+wide*lying/2+part*m.high, true)) {
					return true
				}
			}
		}
		return false
	}
	if d.lying() {
		return lie() || stand()
	}
	return stand() || m.high > 1.5*m.wide && lie()
}

// tryBlock has a choice consider words that tell of the whole piece, which are read as those
// of a line that closes round them.
func (d *pieceDrawing) tryBlock(c *choice, block []drawing.Label) (clear bool) {
	if len(block) == 0 {
		return false
	}
	for i := range d.p.Lines {
		if l := d.p.Lines[i].Points; closed(l) && shape.Ring(l).Contains(d.pieceAt(drawing.Point{X: block[0].X, Y: block[0].Y})) {
			return false
		}
	}
	return d.try(c, block...)
}

// across are places from left to right where words may begin, the one that is liked first.
func across(liked, from, to float64) []float64 {
	const steps = 12
	out := []float64{liked}
	for k := range steps + 1 {
		out = append(out, from+(to-from)*float64(k)/steps)
	}
	return out
}

// fromTheMiddle is where words are tried, up and down, of the height of the piece.
var fromTheMiddle = []float64{0, -0.08, 0.08, -0.16, 0.16, -0.24, 0.24, -0.32, 0.32}

const (
	lineHigh  = 1.35 // height of a line of words, of their size
	leastText = 1.75 // mm: smaller words are left out
)

// size is how large the letters of a label are.
func (d *pieceDrawing) size(l drawing.Label) float64 { return d.hand.look.Letters(&l).Size }

// block are lines under each other from an upper left corner, or from left
// to right with their letters lying.
func (d *pieceDrawing) block(lines []drawing.Label, k, x, y float64, lying bool) (out []drawing.Label) {
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
			out = append(out, l)
		}
	}
	return out
}

// foldWords says along a fold's bracket what it means.
func (d *pieceDrawing) foldWords(i int) {
	a, b := d.p.Outline.Start(i), d.p.Outline.Edges[i].To
	way, long := toward(a, b)
	in, c := shape.Point{X: -way.Y, Y: way.X}, choice{}
	for _, words := range []string{say.Of("draw.lay-this-edge-on-the-fold"), say.Of("draw.fold")} {
		l := drawing.Label{Words: words, Anchor: drawing.Middle}
		inset := min(d.hand.foldInset, long*d.f.K/4)
		for _, part := range []float64{0.5, 0.42, 0.58, 0.34, 0.66} {
			l.X, l.Y = d.f.At(beyond(beyond(a, way, part*long), in, (inset+1.5)/d.f.K))
			if set, ok := d.along(l, way, 0.6*long); ok && d.try(&c, set) {
				d.sayAll(c.labels...)
				return
			}
		}
	}
	d.sayAll(c.labels...)
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
			d.edgeWithin(e.Name, label, side.Length/n, side.Length/n*float64(i), half)
		}
	}
}

// edgeWithin writes a label inside a stretch of an edge, where it meets nothing.
func (d *pieceDrawing) edgeWithin(edge string, label drawing.Label, long, from, half float64) {
	var c choice
	for _, part := range []float64{0.5, 0.46, 0.54, 0.42, 0.58, 0.36, 0.64, 0.3, 0.7, 0.24, 0.76, 0.16, 0.84} {
		s := from + long*part
		at, way, ok := d.p.Outline.PointOn(edge, s)
		if !ok || part != 0.5 && (s-from < half || from+long-s < half) {
			continue
		}
		label.X, label.Y = d.f.At(beyond(at, outward(way), -1.6/d.f.K-d.bulges(edge, s, half)))
		if set, ok := d.along(label, way, long); ok && d.try(&c, set) {
			break
		}
	}
	d.sayAll(c.labels...)
}

// along turns a label so that it stands along an edge that runs that way, on
// the piece's side of its point, upright to read; false where it has no room.
func (d *pieceDrawing) along(l drawing.Label, way shape.Point, room float64) (turned drawing.Label, ok bool) {
	if d.wide(l)+4 > room*d.f.K {
		return l, false
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
	return l, true
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
