package lay

import (
	"fmt"
	"math"
	"sync"

	"hembook/internal/fault"
)

// A model is a problem made ready for the search: everything in inner units
// (a power of two times the outer ones, so that nothing is rounded and the
// cloth is one to two units wide), every allowed turn of every piece known.
type model struct {
	bed       bed
	zones     []Zone // of the bed
	stages    []int  // of the pieces
	width     float64
	maxLength float64 // where the cloth ends; +Inf for none
	scale     float64 // inner units per outer unit
	clearance float64
	bases     []base
	shapes    []shape
	items     []item
	fixed     []fixture          // flaws, the remnant's outside, stages already laid
	shared    *fieldStore        // of all models of the problem
	fields    []fieldSlot        // by pair of bases and way
	sparse    map[int]*fieldSlot // instead, when there are too many pairs
	lock      sync.Mutex         // of sparse
	cells     int
	area      float64 // of all items

	along, across *knot            // how the pattern ties items
	line          float64          // where a leading line runs along the cloth
	first         map[copyKey]spot // a first arrangement of tied items; nil where there is none
}

// A base is an outline turned by less than a quarter; quarter turns and
// mirror images of it share its fields.
type base struct {
	pts   []Point
	parts [][]Point
	cloth bool // a flaw or the like: clearance does not apply
	known int  // its number in the store of fields
}

// A shape is one way a piece may lie.
type shape struct {
	base     int
	way      square
	turn     float64
	mirrored bool
	box      box // around its place
	offX     float64
	offY     float64 // its own origin, from its place
	zone     Zone    // that it lies in; with a half, only the fold it lies on
	onFold   bool    // a half
	about    bool    // of a tied item: it lies half a turn round from how its pattern is seen
	stepX    float64 // repeat along, 0 for none; then x = phaseX + k·stepX
	stepY    float64
	phaseX   float64
	phaseY   float64
	alike    []seenAs // other ways to lie that cover the same ground
}

// An item is one copy to be laid.
type item struct {
	piece, copy int
	stage       int
	shapes      []int
	area        float64
	size        float64 // longer side of its box
	pair        bool
	half        bool // on a fold
}

// A fixture is something that stays where it is.
type fixture struct {
	base int
	way  square
	x, y float64
}

type fieldSlot struct {
	parts, grid sync.Once
	f           *field
	in          *storedField
}

// fieldOf returns the field of shape (a, ga) moving against (b, gb) and how
// the relative place must be turned before asking it.
func (m *model) fieldOf(a int, ga square, b int, gb square) (*field, square) {
	s, t := m.slotOf(a, ga, b, gb)
	s.grid.Do(func() { s.in.grid.Do(func() { s.f.fill(m.cells) }) })
	return s.f, t
}

// partsOf is fieldOf for callers that need only the parts.
func (m *model) partsOf(a int, ga square, b int, gb square) (*field, square) {
	s, t := m.slotOf(a, ga, b, gb)
	return s.f, t
}

func (m *model) slotOf(a int, ga square, b int, gb square) (*fieldSlot, square) {
	t := ga.inverse()
	h := t.after(gb)
	k := h.index()
	back := h.inverse()
	if a > b || a == b && k > back.index() {
		// the same pair seen from the other side
		t = back.after(t).negative()
		a, b, h = b, a, back
		k = h.index()
	}
	s := m.slotAt((a*len(m.bases)+b)*8 + k)
	s.parts.Do(func() {
		gap := m.clearance
		if m.bases[a].cloth || m.bases[b].cloth {
			gap = 0
		}
		s.in = m.shared.at(fieldKey{m.bases[a].known, m.bases[b].known, k, m.cells, gap})
		s.in.parts.Do(func() {
			fixed := make([][]Point, len(m.bases[b].parts))
			for i, p := range m.bases[b].parts {
				fixed[i] = h.applyAll(p)
			}
			s.in.f = partsField(m.bases[a].parts, fixed, gap)
		})
		s.f = s.in.f
	})
	return s, t
}

// mostSlots bounds the memory that the table of fields takes before any is
// made: about 160 MB.
const mostSlots = 1 << 22

func (m *model) slotAt(key int) *fieldSlot {
	if m.sparse == nil {
		return &m.fields[key]
	}
	m.lock.Lock()
	defer m.lock.Unlock()
	s := m.sparse[key]
	if s == nil {
		s = new(fieldSlot)
		m.sparse[key] = s
	}
	return s
}

func (m *model) makeSlots() {
	if n := len(m.bases) * len(m.bases) * 8; n <= mostSlots {
		m.fields = make([]fieldSlot, n)
	} else {
		m.sparse = map[int]*fieldSlot{}
	}
	switch n := len(m.bases); {
	case n > 150:
		m.cells = 18
	case n > 40:
		m.cells = 26
	default:
		m.cells = 32
	}
}

// addBase keeps an outline once; the same points again give the same base.
func (m *model) addBase(pts []Point, cloth bool) int {
	for i := range m.bases {
		if m.bases[i].cloth == cloth && samePoints(m.bases[i].pts, pts) {
			return i
		}
	}
	known, parts := m.shared.base(pts)
	m.bases = append(m.bases, base{pts: pts, parts: parts, cloth: cloth, known: known})
	return len(m.bases) - 1
}

func samePoints(a, b []Point) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// addShape makes one way to lie: the outline (centred on its box, in inner
// units) mirrored when asked, then turned.
func (m *model) addShape(pts []Point, centre Point, turn float64, mirrored bool) shape {
	turn = normalTurn(turn)
	quarter := math.Floor(turn / 90)
	rest := turn - quarter*90
	way := squares[int(quarter)&3]
	if mirrored {
		// mirror first, then turn by rest: the same as turning by -rest, then mirroring
		way = way.after(squares[4])
		if rest != 0 {
			rest = 90 - rest
			way = way.after(squares[3])
		}
	}
	own := pts
	if rest != 0 {
		own = snapped(turned(pts, rest, false))
	}
	s := shape{base: m.addBase(own, false), way: way, turn: turn, mirrored: mirrored}
	s.box = boxOf(way.applyAll(own))
	c := turned([]Point{centre}, turn, mirrored)[0]
	s.offX, s.offY = -c.X, -c.Y
	return s
}

// snapped rounds to 2^-44 so that turned outlines do not depend on the last
// bit of a sine.
func snapped(pts []Point) []Point {
	const k = 1 << 44
	out := make([]Point, len(pts))
	for i, p := range pts {
		out[i] = Point{math.Round(p.X*k) / k, math.Round(p.Y*k) / k}
	}
	return out
}

// fits tells whether the shape fits across its part of the cloth.
func (m *model) fits(s *shape) bool {
	return s.box.height() <= (s.zone.Far-s.zone.Near)+m.width*1e-12 && s.box.width() <= m.maxLength*(1+1e-12)
}

// tooWide names what would let a piece fit.
func tooWide(name string, outline []Point, width float64, allowed []turnOfPiece) fault.Fault {
	least, at := math.Inf(1), 0.0
	for _, t := range allowed {
		if h := boxOf(turned(outline, t.turn, t.mirrored)).height(); h < least {
			least, at = h, t.turn
		}
	}
	f := fault.Fault{Of: name, Severity: fault.Error, Message: fmt.Sprintf("too wide for the cloth: it needs %.6g across, the cloth has %.6g", least, width)}
	best, turn := least, at
	for deg := 0; deg < 180; deg++ {
		if h := boxOf(turned(outline, float64(deg), false)).height(); h < best*(1-1e-9) {
			best, turn = h, float64(deg)
		}
	}
	f.Hint = fmt.Sprintf("cloth at least %.6g wide would hold it", least)
	if best <= width {
		f.Hint += fmt.Sprintf(", or a turn of %g degrees", turn)
	}
	return f
}

type turnOfPiece struct {
	turn     float64
	mirrored bool
}
