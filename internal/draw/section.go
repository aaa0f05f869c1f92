package draw

import (
	"math"

	"hembook/internal/drawing"
	"hembook/internal/measure"
	"hembook/internal/trade"
)

// The sizes of cross-sections.
const (
	sectionWide  = 102 // what a cross-section is fitted into
	sectionHigh  = 62
	mostEnlarged = 8 // millimetres on paper for each of the cloth
	plyShare     = 0.6
	fray         = 1.3
)

// SectionWords name a cross-section.
type SectionWords struct {
	Title   string
	Desc    string // the passes and measures in words
	Measure measure.Style
}

// Section draws the cross-section of a seam or finish: its layers, the rows of
// stitching by number, and its measures.
func Section(t trade.Section, words SectionWords) *drawing.Drawing {
	return newSection(t, words.Measure, sectionScale(t, sectionWide, sectionHigh, mostEnlarged)).drawn(words)
}

// The room of one of several cross-sections that show how a seam grows.
const (
	phaseWide = 62
	phaseHigh = 34
)

// phasePly is how thick a ply is drawn there at least, so that its two faces are told apart.
const phasePly = 1.5

// Phases draws how a seam or finish grows up to where it is whole, one cross-section for
// each phase before that, all as large as each other.
func Phases(list []trade.Phase, words func(i int) SectionWords) []*drawing.Drawing {
	k := math.Inf(1)
	for i := range list {
		k = min(k, sectionScale(list[i].Section, phaseWide, phaseHigh, mostEnlarged))
	}
	var out []*drawing.Drawing
	for i := range list {
		if list[i].Whole {
			continue
		}
		w := words(i)
		d := newSection(taller(list[i].Section, k), w.Measure, k)
		d.rim = phaseRim
		out = append(out, d.drawn(w))
	}
	return out
}

const phaseRim = 0.4

// mostTaller is how much higher than wide a cross-section is drawn at most.
const mostTaller = 2

// taller is a cross-section stretched upwards, which is schematic anyway, until its plies
// are thick enough at a scale. A cord stays round.
func taller(t trade.Section, k float64) trade.Section {
	by := min(max(phasePly/(t.Ply*k*plyShare), 1), mostTaller)
	if by == 1 || t.Round() {
		return t
	}
	return t.Stretched(by)
}

// sectionScale is how large a cross-section is drawn that has so much room, in millimetres on
// paper for each of the cloth.
func sectionScale(t trade.Section, wide, high, most float64) float64 {
	return min(wide/max(t.Max.X-t.Min.X, 1), high/max(t.Max.Y-t.Min.Y, 1), most)
}

// drawn draws all of it.
func (d *section) drawn(words SectionWords) *drawing.Drawing {
	d.Title, d.Desc = words.Title, words.Desc
	for i := range d.t.Layers {
		d.layer(&d.t.Layers[i])
	}
	d.ends()
	d.trimmed()
	d.stitches()
	d.measures()
	d.labels()
	return d.Drawing
}

// trimmed draws what is about to be trimmed off, and where it will be folded.
func (d *section) trimmed() {
	for _, off := range d.t.Trimmed {
		x0, y := d.at(off[0])
		x1, _ := d.at(off[1])
		d.Draw(drawing.LeftOver).Move(x0, y-d.ply/2).Line(x1, y-d.ply/2).Line(x1, y+d.ply/2).Line(x0, y+d.ply/2)
	}
	for _, x := range d.t.Folds {
		x, y := d.at(trade.Pt{X: x})
		d.Draw(drawing.CreaseLine).Move(x, y-d.ply*1.6).Line(x, y+d.ply*1.6)
	}
}

// The room of a cross-section that stands within a table.
const (
	smallSectionWide = 36
	smallSectionHigh = 12
)

// SectionSmall draws a cross-section without words, to be told from others by: what
// it is of stands beside it.
func SectionSmall(t trade.Section) *drawing.Drawing {
	d := &section{Drawing: drawing.New("section"), t: t, rim: 0.4}
	d.k = sectionScale(t, smallSectionWide, smallSectionHigh, mostEnlarged*0.7)
	d.ply = max(t.Ply*d.k*plyShare, 1.1)
	x0, y0 := d.at(t.Min)
	x1, y1 := d.at(t.Max)
	d.Box = drawing.Box{Left: x0 - d.ply - fray, Top: y1 - d.ply - fray, Right: x1 + d.ply + fray, Bottom: y0 + d.ply + fray}
	for i := range t.Layers {
		d.layer(&t.Layers[i])
	}
	d.ends()
	d.rows = make([]drawing.Label, len(t.Stitches)) // without numbers
	d.stitches()
	return d.Drawing
}

type section struct {
	*drawing.Drawing
	t     trade.Section
	k     float64
	ply   float64 // how thick a layer is drawn
	rim   float64 // how much of that its edges take
	style measure.Style
	rows  []drawing.Label // the numbers of the rows; "" for one that is said already

	leaders []stroke // from a row to its number, where that stands farther out
	dims    []measured
	names   []drawing.Label // of layers
	full    blocked         // what words keep clear of
}

func newSection(t trade.Section, style measure.Style, k float64) *section {
	d := &section{Drawing: drawing.New("section"), t: t, style: style, rim: 0.6, k: k}
	d.ply = max(t.Ply*d.k*plyShare, 1)
	x0, y0 := d.at(t.Min)
	x1, y1 := d.at(t.Max)
	d.Box = drawing.Box{Left: x0, Top: y1, Right: x1, Bottom: y0}
	d.Box.Add(x0-d.ply, y0+d.ply)
	d.Box.Add(x1+d.ply, y1-d.ply)
	d.drawnStrokes()
	d.placeNames()
	d.placeDims()
	d.placeRows()
	d.Box.Left -= margin
	d.Box.Right += margin
	d.Box.Top -= margin
	d.Box.Bottom += margin
	return d
}

func (d *section) at(p trade.Pt) (x, y float64) { return p.X * d.k, -p.Y * d.k }

// grow widens the box until it holds a label whose letters are so wide.
func (d *section) grow(l drawing.Label, letter float64) {
	b := wordsOf(l, letter)
	d.Box.Add(b.Left, b.Top)
	d.Box.Add(b.Right, b.Bottom)
}

func plyOf(r trade.Role) drawing.Meaning {
	switch r {
	case trade.ClothA:
		return drawing.PlyOne
	case trade.ClothB:
		return drawing.PlyTwo
	case trade.Cord, trade.Braid, trade.Elastic, trade.Zip:
		return drawing.PlyCord
	}
	return drawing.PlyStrip
}

// layer draws a ply as a ribbon: its edge, and inside it its body.
func (d *section) layer(l *trade.Layer) {
	if len(l.Path) == 0 {
		return
	}
	line := make([]drawing.Point, len(l.Path))
	for i, q := range l.Path {
		line[i] = drawing.Point{X: q.X, Y: q.Y}
	}
	line = drawing.ThinnedLine(line, drawing.Eye/d.k)
	ribbon := func(m drawing.Meaning, thick float64) {
		if p := d.Thick(m, thick).Lines(drawing.Frame{K: d.k}, line); l.End == trade.Closed {
			p.Close()
		}
	}
	ribbon(drawing.PlyEdge, d.ply)
	ribbon(plyOf(l.Role), d.ply-d.rim)
	if l.Face != 0 {
		d.Thick(drawing.PlyEdge, d.rim).Lines(drawing.Frame{K: d.k}, d.beyond(line, float64(l.Face)*(d.ply-d.rim)/2/d.k))
	}
}

// beyond is a line so far to the left of another.
func (d *section) beyond(line []drawing.Point, by float64) []drawing.Point {
	out := make([]drawing.Point, len(line))
	for i, q := range line {
		before, after := line[max(i-1, 0)], line[min(i+1, len(line)-1)]
		x, y := after.X-before.X, after.Y-before.Y
		l := math.Hypot(x, y)
		if l == 0 {
			l = 1
		}
		out[i] = drawing.Point{X: q.X - y/l*by, Y: q.Y + x/l*by}
	}
	return out
}

// ends draws how each layer ends: cut, pinked, woven, or going on.
func (d *section) ends() {
	p := d.Draw(drawing.PlyEnd)
	for _, l := range d.t.Layers {
		n := len(l.Path)
		if n < 2 || l.End == trade.Closed {
			continue
		}
		d.end(p, l.Path[0], l.Path[1], l.Start)
		d.end(p, l.Path[n-1], l.Path[n-2], l.End)
	}
}

// end draws one end of a layer that comes from the point before.
func (d *section) end(p *drawing.Path, end, before trade.Pt, how trade.End) {
	x, y := d.at(end)
	bx, by := d.at(before)
	ux, uy := x-bx, y-by
	l := math.Sqrt(ux*ux + uy*uy)
	if l == 0 {
		return
	}
	ux, uy = ux/l, uy/l
	at := func(along, aside float64) (float64, float64) { return x + ux*along - uy*aside, y + uy*along + ux*aside }
	half := d.ply / 2
	switch how {
	case trade.GoesOn: // a wave across: the cloth goes on
		p.Move(at(0, -half-0.8))
		x1, y1 := at(1.2, -half*0.4)
		x2, y2 := at(-1.2, half*0.4)
		x3, y3 := at(0, half+0.8)
		p.Curve(x1, y1, x2, y2, x3, y3)
	case trade.RawEdge: // threads stand out
		for _, aside := range []float64{-0.7, 0, 0.7} {
			p.Move(at(0, aside*half))
			p.Line(at(fray, aside*half))
		}
	case trade.Pinked:
		p.Move(at(0, -half))
		p.Line(at(fray, -half/2))
		p.Line(at(0, 0))
		p.Line(at(fray, half/2))
		p.Line(at(0, half))
	case trade.Selvedge:
		for _, along := range []float64{0, 0.6} {
			p.Move(at(along, -half))
			p.Line(at(along, half))
		}
	}
}

// stitches draws the threads and the numbers of their rows.
func (d *section) stitches() {
	for i, st := range d.t.Stitches {
		means := drawing.Thread
		if st.Temporary {
			means = drawing.Basting
		}
		p, way := d.Draw(means), st.Round
		if len(way) == 0 {
			way = []trade.Pt{st.From, st.To}
		}
		p.Move(d.at(way[0]))
		for _, q := range way[1:] {
			p.Line(d.at(q))
		}
		d.Say(d.rows[i])
	}
}

// measures draws the measured distances.
func (d *section) measures() {
	p := d.Draw(drawing.Measured)
	for _, m := range d.dims {
		x, y, x2, y2 := m.line.a.X, m.line.a.Y, m.line.b.X, m.line.b.Y
		ux, uy := x2-x, y2-y
		l := math.Sqrt(ux*ux + uy*uy)
		if l == 0 {
			continue
		}
		ux, uy = ux/l, uy/l
		p.Move(x-uy*tick, y+ux*tick).Line(x+uy*tick, y-ux*tick)
		p.Move(x2-uy*tick, y2+ux*tick).Line(x2+uy*tick, y2-ux*tick)
		p.Move(x, y).Line(x2, y2)
		if l > 3*arrowLong {
			p.Arrow(x, y, -ux, -uy, arrowLong).Arrow(x2, y2, ux, uy, arrowLong)
		}
	}
	for _, s := range d.leaders {
		if s != (stroke{}) {
			p.Move(s.a.X, s.a.Y).Line(s.b.X, s.b.Y)
		}
	}
}

// labels writes the values of measured distances and the names of layers.
func (d *section) labels() {
	for _, m := range d.dims {
		d.Say(m.words)
	}
	for _, l := range d.names {
		d.Say(l)
	}
}

// dimWords is the name of a measured distance with its value.
func (d *section) dimWords(m trade.Dim) string {
	v := d.style.Length(measure.MM(m.Value))
	if m.Name == "" {
		return v
	}
	return m.Name + " " + v
}
