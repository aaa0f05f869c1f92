package paper

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"hembook/internal/document"
	"hembook/internal/drawing"
	"hembook/internal/say"
)

// A Large is a drawing at full size that may take several pages.
type Large struct {
	Name    string
	Drawing *drawing.Drawing
	Area    []drawing.Point // its outline, in the drawing: pages that hold none of it are left out; nil for the whole drawing
	Fixed   bool            // never turned: a test square, or what has a way up
}

// A Stock is what large drawings are printed on.
type Stock struct {
	Wide, High float64 // millimetres; High 0 for a roll
}

// Stock is a size of paper as stock.
func StockOf(s document.Size) Stock {
	wide, high := s.MM()
	return Stock{wide, high}
}

// How pages are laid together, in millimetres.
const (
	printerMargin = 10.0 // most printers leave this free: common practice, no source
	labelHigh     = 5.0  // strip under a page's drawing for its name
	overlap       = 10.0 // what two pages that are joined both show
	betweenLarge  = 4.0
	longestRoll   = 4800.0 // a page of a PDF ends at 14 400 points, 5 080 mm (ISO 32000-1, Annex C)
	narrowestRoll = 200.0
	widestRoll    = 4800.0
)

// field is the part of a sheet that is drawn on.
func (s Stock) field() (wide, high float64) {
	high = s.High
	if high == 0 {
		high = longestRoll
	}
	return s.Wide - 2*printerMargin, high - 2*printerMargin - labelHigh
}

// Check refuses stock that nothing can be printed on.
func (s Stock) Check() error {
	if !(s.Wide >= narrowestRoll && s.Wide <= widestRoll) || !(s.High == 0 || s.High >= narrowestRoll && s.High <= longestRoll) {
		return errors.New(say.Of("paper.paper-of-mm-the-width-must-lie", fmt.Sprintf("%.0f", s.Wide), fmt.Sprintf("%.0f", s.High), fmt.Sprintf("%.0f", narrowestRoll), fmt.Sprintf("%.0f", widestRoll)))
	}
	return nil
}

// A TilePlan says which part of which drawing each sheet shows. Sheets are
// numbered from 1, cover pages not counted.
type TilePlan struct {
	Stock  Stock
	Larges []Large
	Tiles  []Tile
}

// A Tile is one sheet: one window on a drawing larger than it, or
// several drawings that it holds whole.
type Tile struct {
	Placed   []Placed
	Row, Col int     // of a window, from 0
	Window   bool    // it shows part of one drawing
	High     float64 // how far down the field is used
}

// Placed is a drawing on a sheet: where the drawing's upper left corner
// stands in the sheet's field, and whether it is turned by a quarter against
// the clock first.
type Placed struct {
	Large  int
	X, Y   float64
	Turned bool
}

// PlanTiles deals drawings out to sheets. Drawings that a sheet holds whole
// share sheets; a larger one has windows of its own, laid so that it needs as
// few as can be, and those that would show nothing are left out.
func PlanTiles(larges []Large, stock Stock) (TilePlan, error) {
	p := TilePlan{Stock: stock, Larges: larges}
	if err := stock.Check(); err != nil {
		return p, err
	}
	if len(larges) == 0 {
		return p, errors.New(say.Of("paper.there-is-nothing-to-print"))
	}
	wide, high := stock.field()
	var whole []Placed
	for i, l := range larges {
		if l.Drawing == nil || !l.Drawing.Finite() {
			return p, errors.New(say.Of("paper.the-drawing-of-has-no-size-or", say.Quoted(l.Name)))
		}
		w, h := l.Drawing.Wide(), l.Drawing.High()
		switch {
		case w <= wide && h <= high && !(stock.High == 0 && !l.Fixed && w < h && h <= wide):
			whole = append(whole, Placed{Large: i})
		case !l.Fixed && h <= wide && w <= high:
			whole = append(whole, Placed{Large: i, Turned: true})
		}
	}
	fits := map[int]bool{}
	for _, w := range whole {
		fits[w.Large] = true
	}
	for i := range larges {
		if !fits[i] {
			sheets, err := p.windows(i)
			if err != nil {
				return p, err
			}
			p.Tiles = append(p.Tiles, sheets...)
		}
	}
	p.Tiles = append(p.Tiles, p.shelves(whole)...)
	if len(p.Tiles) > mostTiles {
		return p, tooMany(len(p.Tiles))
	}
	return p, nil
}

// mostTiles bounds a plan: what needs more is a slip in its sizes.
const mostTiles = 2000

func tooMany(n int) error {
	return errors.New(say.Of("paper.this-would-take-sheets-more-than-look", n, mostTiles))
}

// lying is a drawing as it lies on a sheet, by a quarter against the clock if
// it is turned, and its outline in it. The corner of its box lies at (0, 0).
func (p *TilePlan) lying(at Placed) (*drawing.Drawing, []drawing.Point) {
	l := p.Larges[at.Large]
	d, box := l.Drawing, l.Drawing.Box
	area := l.Area
	if len(area) < 3 {
		area = []drawing.Point{{X: box.Left, Y: box.Top}, {X: box.Right, Y: box.Top}, {X: box.Right, Y: box.Bottom}, {X: box.Left, Y: box.Bottom}}
	}
	moved := make([]drawing.Point, len(area))
	for i, q := range area {
		if moved[i] = (drawing.Point{X: q.X - box.Left, Y: q.Y - box.Top}); at.Turned {
			moved[i] = drawing.Point{X: q.Y - box.Top, Y: box.Right - q.X}
		}
	}
	if at.Turned {
		d = d.Turned()
		d.Righted(&drawing.FullSize)
	}
	return d, moved
}

// windows lays a grid over a drawing that no sheet holds whole, upright or
// turned, and shifts it so that as few windows as can be are needed.
func (p *TilePlan) windows(large int) ([]Tile, error) {
	var best []Tile
	for _, turned := range []bool{false, true} {
		if turned && p.Larges[large].Fixed {
			break
		}
		at := Placed{Large: large, Turned: turned}
		d, area := p.lying(at)
		g := p.gridFor(d)
		if n := g.cols * g.rows; n > 4*mostTiles {
			return nil, tooMany(n)
		}
		for _, fx := range []float64{0, 0.5, 1} {
			for _, fy := range []float64{0, 0.5, 1} {
				at.X, at.Y = g.slackX*fx, g.slackY*fy
				if sheets := g.needed(at, area); best == nil || len(sheets) < len(best) {
					best = sheets
				}
			}
		}
	}
	return best, nil
}

// A grid is windows that overlap.
type grid struct {
	wide, high     float64 // of one window
	cols, rows     int
	slackX, slackY float64 // what the grid is larger than its drawing
	drawn          float64 // height of the drawing
}

func (p *TilePlan) gridFor(d *drawing.Drawing) grid {
	var g grid
	g.wide, g.high = p.Stock.field()
	g.cols = int(math.Ceil(math.Max(d.Wide()-overlap, 1) / (g.wide - overlap)))
	g.rows = int(math.Ceil(math.Max(d.High()-overlap, 1) / (g.high - overlap)))
	g.slackX = float64(g.cols)*(g.wide-overlap) + overlap - d.Wide()
	g.slackY = float64(g.rows)*(g.high-overlap) + overlap - d.High()
	g.drawn = d.High()
	if p.Stock.High == 0 {
		g.slackY = 0 // a roll is cut off where the drawing ends
	}
	return g
}

// needed are the windows that show some of the area that no earlier one
// shows: the strip it shares with the one before does not count.
func (g grid) needed(at Placed, area []drawing.Point) []Tile {
	var out []Tile
	for row := range g.rows {
		for col := range g.cols {
			left, top := g.corner(col, row)
			l, t := left, top
			if col > 0 {
				l += overlap
			}
			if row > 0 {
				t += overlap
			}
			if !touches(area, l-at.X, t-at.Y, left+g.wide-at.X, top+g.high-at.Y) {
				continue
			}
			here := at
			here.X, here.Y = at.X-left, at.Y-top
			out = append(out, Tile{Placed: []Placed{here}, Row: row, Col: col, Window: true, High: min(g.high, here.Y+g.drawn)})
		}
	}
	return out
}

// corner is where a window's upper left corner lies in the grid.
func (g grid) corner(col, row int) (x, y float64) {
	return float64(col) * (g.wide - overlap), float64(row) * (g.high - overlap)
}

// touches reports whether an area shares more than a line with a rectangle:
// what remains of it when clipped to each side in turn.
func touches(area []drawing.Point, left, top, right, bottom float64) bool {
	ring := area
	for side := range 4 {
		ring = clip(ring, func(q drawing.Point) float64 {
			switch side {
			case 0:
				return q.X - left
			case 1:
				return right - q.X
			case 2:
				return q.Y - top
			}
			return bottom - q.Y
		})
		if len(ring) < 3 {
			return false
		}
	}
	sum := 0.0
	for i, q := range ring {
		r := ring[(i+1)%len(ring)]
		sum += float64(q.X*r.Y) - float64(r.X*q.Y)
	}
	return math.Abs(sum)/2 > 0.01 // mm²
}

// clip keeps the part of a ring where inside is not negative.
func clip(ring []drawing.Point, inside func(drawing.Point) float64) []drawing.Point {
	var out []drawing.Point
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		da, db := inside(a), inside(b)
		if da >= 0 {
			out = append(out, a)
		}
		if da >= 0 != (db >= 0) {
			t := da / (da - db)
			out = append(out, drawing.Point{X: a.X + float64((b.X-a.X)*t), Y: a.Y + float64((b.Y-a.Y)*t)})
		}
	}
	return out
}

// A drawingRow is a row of drawings on a sheet.
type drawingRow struct {
	sheet      int
	x, y, high float64 // where the next one stands, and how high the row is
}

// A stacker fills sheets with shelves.
type stacker struct {
	wide, high float64 // of a field
	sheets     []Tile
	shelves    []drawingRow
}

// shelves sets drawings that sheets hold whole in rows, tallest first.
func (p *TilePlan) shelves(whole []Placed) []Tile {
	size := func(at Placed) (w, h float64) {
		d := p.Larges[at.Large].Drawing
		if at.Turned {
			return d.High(), d.Wide()
		}
		return d.Wide(), d.High()
	}
	sorted := slices.Clone(whole)
	slices.SortStableFunc(sorted, func(a, b Placed) int {
		_, ha := size(a)
		_, hb := size(b)
		return cmp.Compare(hb, ha)
	})
	var s stacker
	s.wide, s.high = p.Stock.field()
	for _, at := range sorted {
		w, h := size(at)
		if !s.beside(at, w, h) {
			s.below(at, w, h)
		}
	}
	return s.sheets
}

// beside sets a drawing on the first shelf that has room.
func (s *stacker) beside(at Placed, w, h float64) bool {
	for i := range s.shelves {
		f := &s.shelves[i]
		if f.x+w <= s.wide+1e-9 && h <= f.high {
			at.X, at.Y = f.x, f.y
			f.x += w + betweenLarge
			s.sheets[f.sheet].Placed = append(s.sheets[f.sheet].Placed, at)
			return true
		}
	}
	return false
}

// below begins a shelf with a drawing, on the first sheet that has room, or
// on a new one.
func (s *stacker) below(at Placed, w, h float64) {
	k := slices.IndexFunc(s.sheets, func(t Tile) bool { return t.High+betweenLarge+h <= s.high+1e-9 })
	y := 0.0
	if k < 0 {
		s.sheets = append(s.sheets, Tile{})
		k = len(s.sheets) - 1
	} else {
		y = s.sheets[k].High + betweenLarge
	}
	at.X, at.Y = 0, y
	s.sheets[k].High = y + h
	s.sheets[k].Placed = append(s.sheets[k].Placed, at)
	s.shelves = append(s.shelves, drawingRow{k, w + betweenLarge, y, h})
}
