package paper

import (
	"math"
	"strconv"
	"strings"

	"hembook/internal/document"
	"hembook/internal/drawing"
	"hembook/internal/say"
)

// PDF writes a plan: first the cover's documents, then every sheet at full
// size. A sheet is a page of the stock's size, on a roll as long as it needs.
func (p TilePlan) PDF(cover document.Book, opt Options) ([]byte, error) {
	fs, err := newFaces(opt.MoreFont)
	if err != nil {
		return nil, err
	}
	w := newWriter(cover.Title, cover.Author, cover.Language)
	w.atFullSize()
	if err := w.book(cover, fs); err != nil {
		return nil, err
	}
	t := tiler{plan: p, setter: setter{faces: fs, look: &drawing.FullSize, size: document.DefaultText}, w: w}
	w.look = t.setter.look
	t.field()
	for i := range p.Tiles {
		t.tile(i)
	}
	return w.bytes()
}

// A tiler draws sheets.
type tiler struct {
	plan       TilePlan
	setter     setter
	w          *writer
	wide, high float64 // of the field
}

func (t *tiler) field() { t.wide, t.high = t.plan.Stock.field() }

func (t *tiler) tile(i int) {
	s := t.plan.Tiles[i]
	high := t.high
	if t.plan.Stock.High == 0 {
		high = s.High
	}
	t.w.page(t.plan.Stock.Wide, high+2*printerMargin+labelHigh)
	t.w.item(clipItem{x: printerMargin, y: printerMargin, wide: t.wide, high: high})
	for _, at := range s.Placed {
		d, _ := t.plan.lying(at)
		for _, it := range t.setter.drawing(d, 1) {
			if it = it.at(at.X, at.Y); reaches(it, t.wide, high) {
				t.put(it)
			}
		}
	}
	if s.Window {
		t.joins(s, high)
	}
	t.w.item(clipEnd{})
	t.label(s, i+1, high)
}

// reaches reports whether an item may show within a field; what lies wholly
// outside is not written at all.
func reaches(it item, wide, high float64) bool {
	left, top := math.Inf(1), math.Inf(1)
	right, bottom := math.Inf(-1), math.Inf(-1)
	add := func(x, y, about float64) {
		left, right = math.Min(left, x-about), math.Max(right, x+about)
		top, bottom = math.Min(top, y-about), math.Max(bottom, y+about)
	}
	switch it := it.(type) {
	case textItem:
		sin, cos := math.Sincos(it.turn * math.Pi / 180)
		high := it.size * mmPerPoint
		add(it.x, it.y, high)
		add(it.x+it.wide*cos, it.y-it.wide*sin, high)
	case pathItem:
		for _, q := range it.path.Points {
			add(it.x+q.X*it.scale, it.y+q.Y*it.scale, it.pen.Weight)
		}
	}
	return left <= wide && right >= 0 && top <= high && bottom >= 0
}

// joins draws where neighbours lie over this sheet or under it: a fine line
// where an upper or left edge is cut off, a dashed one where the neighbour's
// edge will lie, and crosses that two neighbours show at the same place.
func (t *tiler) joins(s Tile, high float64) {
	stepX, stepY := t.wide-overlap, high-overlap
	for _, side := range []struct {
		dx, dy int
		x, y   float64 // where the shared strip begins
	}{{-1, 0, 0, 0}, {1, 0, stepX, 0}, {0, -1, 0, 0}, {0, 1, 0, stepY}} {
		n := t.neighbour(s, side.dx, side.dy)
		if n == 0 {
			continue
		}
		mine := side.dx < 0 || side.dy < 0 // this sheet's own edge, which is cut
		pen := drawing.Pen{Weight: hairline, Ink: drawing.Faded, Butt: true}
		if !mine {
			pen = drawing.Pen{Weight: hairline, Ink: drawing.Faded, Dash: []float64{1, 1.5}, Butt: true}
		}
		if side.dx != 0 {
			t.put(stroke(side.x, 0, side.x, high, pen))
			mid := side.x + overlap/2
			t.cross(mid, high/4)
			t.cross(mid, high*3/4)
			t.word(drawing.Label{X: mid + 1, Y: high / 2, Words: say.Of("paper.to-sheet", n), Voice: drawing.Join, Anchor: drawing.Middle, Turn: 90})
			continue
		}
		t.put(stroke(0, side.y, t.wide, side.y, pen))
		mid := side.y + overlap/2
		t.cross(t.wide/4, mid)
		t.cross(t.wide*3/4, mid)
		t.word(drawing.Label{X: t.wide / 2, Y: mid + 1, Words: say.Of("paper.to-sheet", n), Voice: drawing.Join, Anchor: drawing.Middle})
	}
}

// neighbour is the number of the sheet beside a window; 0 where there is none.
func (t *tiler) neighbour(s Tile, dx, dy int) int {
	for i, o := range t.plan.Tiles {
		if o.Window && o.Placed[0].Large == s.Placed[0].Large && o.Row == s.Row+dy && o.Col == s.Col+dx {
			return i + 1
		}
	}
	return 0
}

// cross is a register mark: a cross in a ring.
func (t *tiler) cross(x, y float64) {
	var p drawing.Path
	p.Move(x-3.5, y).Line(x+3.5, y).Move(x, y-3.5).Line(x, y+3.5).Circle(x, y, 1.8)
	t.put(pathItem{scale: 1, path: p, pen: drawing.Pen{Weight: hairline, Ink: drawing.Dark, Butt: true}})
}

func (t *tiler) put(it item) { t.w.item(it.at(printerMargin, printerMargin)) }

func (t *tiler) word(l drawing.Label) {
	for _, it := range t.setter.labelItems(l, 1) {
		t.put(it)
	}
}

// label says under the field what a sheet shows.
func (t *tiler) label(s Tile, n int, high float64) {
	var names []string
	for _, at := range s.Placed {
		names = append(names, t.plan.Larges[at.Large].Name)
	}
	text := strings.Join(names, ", ")
	if s.Window {
		text += " · " + say.Of("paper.row-column", s.Row+1, s.Col+1)
	}
	number := say.Of("paper.sheet-of", n, len(t.plan.Tiles))
	y := high + labelHigh - 1
	room := t.wide - sans().wide(number, footText) - 6
	if lines := fill(t.setter.label(text, sans(), footText, drawing.Faded), room); len(lines) > 0 {
		text = plainLine(lines[0])
		if len(lines) > 1 {
			text += " …"
		}
	}
	t.word(drawing.Label{Y: y, Words: text, Voice: drawing.Foot})
	t.word(drawing.Label{X: t.wide, Y: y, Words: number, Voice: drawing.Foot, Anchor: drawing.End})
}

func plainLine(l textLine) string {
	var b strings.Builder
	for _, p := range l.pieces {
		b.WriteString(p.text)
	}
	return b.String()
}

// Map draws the plan small, within a width and height: every drawing with
// the sheets that show it and their numbers.
func (p TilePlan) Map(wide, high float64) *drawing.Drawing {
	var out *drawing.Drawing
	for _, scale := range []float64{8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100, 150, 200, 300} {
		m := mapper{plan: p, scale: scale, wide: wide, d: drawing.New("map")}
		m.all()
		out = m.d
		out.Box = drawing.Box{Right: wide, Bottom: max(m.y+m.rowHigh, 1)}
		if out.High() <= high && m.widest <= wide {
			break
		}
	}
	out.Title = say.Of("paper.which-sheet-shows-which-part")
	out.Box.Bottom = min(out.Box.Bottom, high) // a plan beyond any scale: what fits is shown
	return out
}

// A mapper draws parts of a map in rows.
type mapper struct {
	plan    TilePlan
	scale   float64
	wide    float64
	x, y    float64
	rowHigh float64
	widest  float64
	d       *drawing.Drawing
}

// room takes a place for a part and says where it begins.
func (m *mapper) room(wide, high float64) (x, y float64) {
	const between = 6
	if m.x > 0 && m.x+wide > m.wide {
		m.x, m.y, m.rowHigh = 0, m.y+m.rowHigh+between, 0
	}
	x, y = m.x, m.y
	m.x += wide + between
	m.rowHigh, m.widest = math.Max(m.rowHigh, high), math.Max(m.widest, wide)
	return x, y
}

func (m *mapper) all() {
	for i := 0; i < len(m.plan.Tiles); {
		s := m.plan.Tiles[i]
		j := i + 1
		for s.Window && j < len(m.plan.Tiles) && m.plan.Tiles[j].Window && m.plan.Tiles[j].Placed[0].Large == s.Placed[0].Large {
			j++
		}
		m.part(i, j)
		i = j
	}
}

// part draws the sheets from one to another: the windows on one drawing, or
// one sheet that holds several.
func (m *mapper) part(from, to int) {
	fw, fh := m.plan.Stock.field()
	stepX, stepY := fw-overlap, fh-overlap
	sheets := m.plan.Tiles[from:to]
	cols, rows, minCol, minRow := 0, 0, sheets[0].Col, sheets[0].Row
	for _, s := range sheets {
		cols, rows, minCol, minRow = max(cols, s.Col+1), max(rows, s.Row+1), min(minCol, s.Col), min(minRow, s.Row)
	}
	tall := fh
	if m.plan.Stock.High == 0 {
		tall = 0
		for _, s := range sheets {
			tall = max(tall, s.High)
		}
	}
	const name = 4.0
	x, y := m.room((float64(cols-minCol-1)*stepX+fw)/m.scale, (float64(rows-minRow-1)*stepY+tall)/m.scale+name)
	first := sheets[0]
	for _, at := range first.Placed {
		at.X += float64(first.Col-minCol) * stepX
		at.Y += float64(first.Row-minRow) * stepY
		m.shape(at, x, y)
	}
	for k, s := range sheets {
		left, top := x+float64(s.Col-minCol)*stepX/m.scale, y+float64(s.Row-minRow)*stepY/m.scale
		m.d.Draw(drawing.SheetEdge).Rect(left, top, left+fw/m.scale, top+tall/m.scale)
		number := drawing.Label{X: left + fw/m.scale/2, Y: top + tall/m.scale/2 + 1.2, Words: strconv.Itoa(from + k + 1), Voice: drawing.SheetNumber, Anchor: drawing.Middle}
		if !s.Window {
			number.X, number.Y, number.Anchor = left+fw/m.scale-1, top+tall/m.scale-1, drawing.End
		}
		m.d.Say(number)
	}
	if first.Window {
		m.d.Say(drawing.Label{X: x, Y: y + (float64(rows-minRow-1)*stepY+tall)/m.scale + 3.2, Words: m.plan.Larges[first.Placed[0].Large].Name, Voice: drawing.MapName})
	}
}

// shape draws the outline of what lies on a sheet.
func (m *mapper) shape(at Placed, x, y float64) {
	d, area := m.plan.lying(at)
	p := m.d.Draw(drawing.SheetArea)
	for i, q := range area {
		px, py := x+(at.X+q.X)/m.scale, y+(at.Y+q.Y)/m.scale
		if i == 0 {
			p.Move(px, py)
		} else {
			p.Line(px, py)
		}
	}
	p.Close()
	name := drawing.Label{X: x + (at.X+d.Wide()/2)/m.scale, Y: y + (at.Y+d.High()/2)/m.scale + 1, Words: m.plan.Larges[at.Large].Name, Voice: drawing.MapPiece, Anchor: drawing.Middle}
	if d.Wide()/m.scale > LabelWide(name, &drawing.Print)+1 && !m.windowed(at.Large) {
		m.d.Say(name)
	}
}

func (m *mapper) windowed(large int) bool {
	for _, s := range m.plan.Tiles {
		if s.Window && s.Placed[0].Large == large {
			return true
		}
	}
	return false
}
