package draw

import (
	"hembook/internal/drawing"
	"hembook/internal/sewn"
	"hembook/internal/shape"
	"iter"
)

// A MapStyle says how a map of what a garment can give is drawn.
type MapStyle struct {
	NetStyle
	Spare  func(sewn.SideID, *sewn.Join) float64 // what a side can give at a join, or in its finish where that is nil, mm
	Holds  func(sewn.SideID) string              // what lies in the seam of a side and keeps it from giving anything; "" where nothing does
	Levels []MapLevel
}

// A MapLevel is a level with what it can be let out.
type MapLevel struct {
	Words  string // "hip + 27"
	Held   bool   // something there keeps its length
	HeldBy string // what that is, in words; may be empty
	Girths []sewn.Girth
}

// Of a map.
const (
	spareWider = 4   // how much wider than its scale what seams can give is drawn
	spareLeast = 0.6 // and how wide at least, mm
	hatchEvery = 1.7 // between the lines of a hatching
)

// NetMap draws a garment laid flat with what its seams and hems can give: cloth
// kept behind each of them hatched, as wide as it can be let out; what is held at
// a level heavy; the levels themselves with what they can be let out. It is nil
// where nothing is laid.
func NetMap(s *sewn.Surface, n *sewn.Net, style MapStyle) *drawing.Drawing {
	style.Wide -= levelsWide(style.Levels)
	d := newNet(s, n, style.NetStyle)
	if d == nil {
		return nil
	}
	m := &mapDrawing{netDrawing: d, style: style}
	d.whole(m.spares, func() { m.names(); m.levels() })
	return d.Drawing
}

// levelsWide is how wide a column of the words of levels is, with what stands round it.
func levelsWide(list []MapLevel) float64 {
	wide := 0.0
	for i := range list {
		wide = max(wide, levelWide(&list[i])+2*gap)
	}
	return wide
}

func levelWide(l *MapLevel) float64 {
	return max(letters(l.Words)*textWide, letters(l.HeldBy)*netSmallWide)
}

type mapDrawing struct {
	*netDrawing
	style MapStyle
}

// spares draws what joins and hems can give, and what closes.
func (d *mapDrawing) spares() {
	for i := range d.n.Meetings {
		m := &d.n.Meetings[i]
		j := &d.s.Joins[m.Join]
		for k, sp := range []sewn.Span{j.A, j.B} {
			switch {
			case !m.Here[k]:
			case j.Kind == sewn.Closing:
				d.zigzag(d.onDrawing(sp))
			case j.Kind == sewn.Sewn && d.style.Holds(sp.Side) != "":
				d.thin(drawing.NetHeld, d.n.Line(d.s, sp))
			case j.Kind == sewn.Sewn:
				d.spare(d.onDrawing(sp), d.style.Spare(sp.Side, j)*spareWider)
			}
		}
	}
	for _, loop := range d.n.Openings {
		for _, sp := range loop.Spans {
			if len(d.s.JoinsOf(sp.Side)) == 0 {
				d.spare(d.onDrawing(sp), d.style.Spare(sp.Side, nil))
			}
		}
	}
}

// spare draws a strip outside a line, hatched, so many millimetres of the garment
// wide.
func (d *mapDrawing) spare(line []drawing.Point, wide float64) {
	if len(line) < 2 || !(wide > 0) {
		return
	}
	out := min(max(wide*d.f.K, spareLeast), 0.42*d.n.Gap*d.f.K) // never into what another side gives
	line = d.paces[0].of(line).even(hatchEvery)
	p := d.Draw(drawing.NetSpare)
	edge := make([]drawing.Point, 0, len(line))
	for i, a := range line {
		before, after := line[max(i-1, 0)], line[min(i+1, len(line)-1)]
		ux, uy, _ := toward2(before, after)
		edge = append(edge, drawing.Point{X: a.X - uy*out, Y: a.Y + ux*out})
	}
	p.Move(line[0].X, line[0].Y)
	for _, q := range drawing.ThinnedLine(edge, drawing.Eye) {
		p.Line(q.X, q.Y)
	}
	p.Line(line[len(line)-1].X, line[len(line)-1].Y)
	for i := 0; i+1 < len(line); i++ { // each line of the hatching leans on to the next
		p.Move(line[i].X, line[i].Y).Line(edge[i+1].X, edge[i+1].Y)
	}
	d.full.line(edge, false)
}

// zigzag draws what a zip or buttons close.
func (d *mapDrawing) zigzag(line []drawing.Point) {
	if len(line) < 2 {
		return
	}
	line = d.paces[0].of(line).even(1)
	p := d.Draw(drawing.NetHeld)
	for i, a := range line {
		before, after := line[max(i-1, 0)], line[min(i+1, len(line)-1)]
		ux, uy, _ := toward2(before, after)
		off := 0.6
		if i%2 == 0 {
			off = -0.6
		}
		if x, y := a.X-uy*off, a.Y+ux*off; i == 0 {
			p.Move(x, y)
		} else {
			p.Line(x, y)
		}
	}
}

// levels draws each level over the pieces it crosses, heavy where it is held.
func (d *mapDrawing) levels() {
	for i := range d.style.Levels {
		l := &d.style.Levels[i]
		means := drawing.LevelLine
		if l.Held {
			means = drawing.NetHeld
		}
		for chord := range d.chords(l) {
			line := make([]drawing.Point, len(chord))
			for i, p := range chord {
				line[i].X, line[i].Y = d.f.At(p)
			}
			d.broken(d.Draw(means), line)
		}
	}
}

// chords are the lines of a level on the copies that are drawn.
func (d *mapDrawing) chords(l *MapLevel) iter.Seq[[]shape.Point] {
	return func(yield func([]shape.Point) bool) {
		for g := range l.Girths {
			for k := range l.Girths[g].Chords {
				c := &l.Girths[g].Chords[k]
				if at := d.at(c.Copy); at >= 0 && c.Arc <= 0 && !yield(d.chord(at, c)) {
					return
				}
			}
		}
	}
}

// chord is where a part of a level lies: along its edge, or straight across.
func (d *mapDrawing) chord(at int, c *sewn.Chord) []shape.Point {
	l := &d.n.Laid[at]
	if c.Edge == "" {
		return []shape.Point{l.At(c.From), l.At(c.To)}
	}
	for _, id := range d.s.Copies[c.Copy].Sides {
		if side := &d.s.Sides[id]; side.Edge == c.Edge {
			line := d.n.Line(d.s, sewn.Span{Side: id, To: side.Closed})
			return drawing.ThinnedLine(line, drawing.Eye/d.f.K)
		}
	}
	return nil
}

// names writes beside the net what each level can be let out, as high as it lies
// on the piece farthest to the left: nothing lies aside from the body there.
func (d *mapDrawing) names() {
	x := d.Box.Left
	for _, b := range d.full.boxes {
		x = min(x, b.Left)
	}
	for i := range d.style.Levels {
		l := &d.style.Levels[i]
		best, found := d.leftmost(l)
		if !found {
			continue
		}
		y := best.Y
		wide := levelWide(l)
		deep := textHeight / 2
		if l.HeldBy != "" {
			deep += netSmall * 1.2
		}
		for range 20 { // below the words of another level
			box := drawing.Box{Left: x - 2*gap - wide, Top: y - textHeight/2, Right: x - gap, Bottom: y + deep}
			if d.full.clearBox(box, true) {
				d.full.boxes = append(d.full.boxes, box)
				break
			}
			y += textHeight * 0.6
		}
		d.broken(d.Draw(drawing.NetTie), []drawing.Point{{X: best.X - 0.6, Y: best.Y}, {X: x - gap/2, Y: y}})
		write(d.Drawing, drawing.Plain, drawing.End, x-gap, y+textHeight*0.36, l.Words)
		write(d.Drawing, drawing.NetSmall, drawing.End, x-gap, y+textHeight*0.36+netSmall*1.2, l.HeldBy)
	}
}

// leftmost is the place of a level that lies farthest to the left.
func (d *mapDrawing) leftmost(l *MapLevel) (best drawing.Point, found bool) {
	for chord := range d.chords(l) {
		for _, p := range chord {
			if px, py := d.f.At(p); !found || px < best.X {
				best, found = drawing.Point{X: px, Y: py}, true
			}
		}
	}
	return best, found
}
