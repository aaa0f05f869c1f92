package garment

import (
	"math"
	"slices"

	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// usualBeyond is how far a block reaches beyond what it lies behind, all round, mm (own
// choice, no source).
const usualBeyond = 10

// A blockSpot is one place of a block on a piece: a rectangle, and how often it is there.
type blockSpot struct {
	on    *Piece
	at    shape.Line // its corners, closed
	hand  string     // left or right, where it lies on one of a pair alone
	times int
}

// size is how wide the rectangle is across the grain, and how long along it.
func (s *blockSpot) size() (across, along float64) {
	a, b := far(s.at[0], s.at[1]), far(s.at[1], s.at[2])
	if way := s.at[1].Sub(s.at[0]); math.Abs(way.Y) > math.Abs(way.X) {
		return b, a
	}
	return a, b
}

// drawBlock draws a block as large as what it lies behind and beyond, one for each place.
func (w *derivation) drawBlock(p *Piece) {
	f, r := &p.form, p.Record.Block
	spots := w.blockSpots(r)
	if len(spots) == 0 {
		f.why = say.Of("garment.what-it-lies-behind-has-no-place")
		return // told by the reader, or where that is set out
	}
	across, along := spots[0].size()
	o, err := shape.Rectangle(across, along)
	w.regular(p, r.At, o, err)
	n := 0
	for i := range spots {
		n += spots[i].times
	}
	f.cut = record.Val[record.Cut]{V: record.Cut{N: n, Alike: true}, At: r.At}
	f.grain = record.Text{V: spots[0].on.form.grain.Or("along"), At: r.At}
	f.allowance = record.Length{At: r.At}
}

// blockWaits reports whether a block lies behind what is not drawn yet.
func (w *derivation) blockWaits(p *Piece) bool {
	return p.Record.Block != nil && slices.ContainsFunc(w.blockOn(p.Record.Block), func(q *Piece) bool { return q.form.state != done })
}

// blockOn are the pieces that the size and the place of a block rest on.
func (w *derivation) blockOn(r *record.BlockSpec) (out []*Piece) {
	b := w.b.Behind(r)
	var names []string
	switch {
	case b.Notion != nil:
		names = []string{b.Notion.Along.V.Piece, b.Notion.HolesOn.V.Piece}
	case b.Seam != nil:
		for _, side := range b.Seam.Join {
			for _, e := range side {
				_, of, _ := record.Handed(e.Piece)
				names = append(names, e.Piece, of)
			}
		}
	default:
		names = []string{b.Piece}
	}
	for _, name := range names {
		if q := w.named[name]; q != nil && q.Record.Block == nil && !slices.Contains(out, q) {
			out = append(out, q)
		}
	}
	return out
}

// blockSpots are the places of a block.
func (w *derivation) blockSpots(r *record.BlockSpec) []blockSpot {
	by := beyondOf(r).MM()
	switch b := w.b.Behind(r); {
	case b.Notion != nil:
		return w.spotsOfNotion(b.Notion, w.blockOn(r), by)
	case b.Seam != nil:
		return w.spotOfSetOn(b.Seam, by)
	default:
		return w.spotOfLine(w.named[b.Piece], b.Line, by)
	}
}

// copies is how often what lies at one place of a piece is there.
func (p *Piece) copies() int {
	if p.OnFold {
		return 2 * p.Count
	}
	return p.Count
}

// spotsOfNotion are the places behind each button and buttonhole. All are as large as both
// together, so that one block fits everywhere.
func (w *derivation) spotsOfNotion(n *record.Notion, on []*Piece, by float64) (out []blockSpot) {
	way := shape.Point{X: 1}
	lo, hi, ring := 0.0, 0.0, 0.0
	for _, p := range on {
		for i := range p.Chalked {
			c := &p.Chalked[i]
			if c.Notion != n.Name.V {
				continue
			}
			ring = max(ring, c.Size/2)
			if !c.Open {
				continue
			}
			d := c.Hole[1].Sub(c.Hole[0])
			long := math.Hypot(d.X, d.Y)
			way = shape.Point{X: d.X / long, Y: d.Y / long}
			lo, hi = -far(c.Hole[0], c.At), long-far(c.Hole[0], c.At)
		}
	}
	lo, hi = min(lo, -ring), max(hi, ring)
	for _, p := range on {
		for i := range p.Chalked {
			if c := &p.Chalked[i]; c.Notion == n.Name.V {
				out = append(out, blockSpot{p, rectangleAt(c.At, way, lo-by, hi+by, -ring-by, ring+by), "", p.copies()})
			}
		}
	}
	return out
}

// spotOfSetOn is the place behind a piece that is set on another.
func (w *derivation) spotOfSetOn(s *record.Seam, by float64) []blockSpot {
	if len(s.Join) != 2 || len(s.Join[0]) != 1 || len(s.Join[1]) != 1 {
		return nil // told by the reader
	}
	on, under := w.named[s.Join[0][0].Piece], w.named[s.Join[1][0].Piece]
	share, hand := 1, ""
	if h, piece, ok := record.Handed(s.Join[1][0].Piece); ok && under == nil {
		under, share, hand = w.named[piece], 2, string(h)
	}
	if on == nil || under == nil || on.form.why != "" || under.form.why != "" {
		return nil
	}
	at, _, ok := w.spotOn(under, s.Place, false)
	if !ok {
		return nil
	}
	least, most := shape.Ring(on.wholeLine()).Bounds()
	sin, cos := math.Sincos(s.Angle.V * math.Pi / 180)
	line := rectangleAt(at, shape.Point{X: cos, Y: sin}, -by, most.X-least.X+by, least.Y-most.Y-by, by)
	return []blockSpot{{under, line, hand, max(under.copies()/share, 1)}}
}

// spotOfLine is the place behind a line of a piece; at an end that lies on its edge the block
// ends too.
func (w *derivation) spotOfLine(p *Piece, name string, by float64) []blockSpot {
	if p == nil || p.form.why != "" {
		return nil
	}
	l := p.form.laidLine(name)
	if len(l) < 2 {
		return nil
	}
	d := l[len(l)-1].Sub(l[0])
	long := math.Hypot(d.X, d.Y)
	if long < leastPart {
		return nil
	}
	way := shape.Point{X: d.X / long, Y: d.Y / long}
	lo, hi, left, right := 0.0, long, 0.0, 0.0
	for _, q := range l { // a curved line lies beside its chord
		v := q.Sub(l[0])
		t := float64(v.Y*way.X) - float64(v.X*way.Y)
		left, right = min(left, t), max(right, t)
	}
	round := p.form.outline.Round(false)
	if _, beside := round.Nearest(l[0]); beside > touches {
		lo -= by
	}
	if _, beside := round.Nearest(l[len(l)-1]); beside > touches {
		hi += by
	}
	return []blockSpot{{p, rectangleAt(l[0], way, lo, hi, left-by, right+by), "", p.copies()}}
}

// rectangleAt is a rectangle about a place, so far along a way and beside it.
func rectangleAt(at, way shape.Point, from, to, right, left float64) shape.Line {
	corner := func(s, t float64) shape.Point {
		return shape.Point{X: at.X + float64(way.X*s) - float64(way.Y*t), Y: at.Y + float64(way.Y*s) + float64(way.X*t)}
	}
	return shape.Line{corner(from, right), corner(to, right), corner(to, left), corner(from, left), corner(from, right)}
}

// beyondOf is how far a block reaches beyond what it lies behind.
func beyondOf(r *record.BlockSpec) measure.Length {
	if r.Beyond.Given() {
		return r.Beyond.V
	}
	return measure.MM(usualBeyond)
}
