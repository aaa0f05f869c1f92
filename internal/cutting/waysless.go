package cutting

import (
	"math"
	"slices"
	"strings"

	"hembook/internal/garment"
	"hembook/internal/lay"
	"hembook/internal/say"
)

// isHidden reports whether a piece's name says that it is not seen on the finished garment.
func isHidden(name string) bool {
	return slices.ContainsFunc(hidden, func(word string) bool { return strings.Contains(name, word) })
}

// quarterTurn lets what is not seen lie across the grain as well.
func (w *wayFinder) quarterTurn() {
	p := w.l.Problem.Lay
	if len(p.Ties) > 0 || p.Cloth.OneWay {
		return
	}
	p.Pieces = slices.Clone(p.Pieces)
	var names []string
	for i := range p.Pieces {
		if q := &p.Pieces[i]; isHidden(q.Name) && q.Grain == lay.Along && q.Turns == nil && !q.OnFold {
			q.Turns = []float64{0, 90, 180, 270}
			names = append(names, q.Name)
		}
	}
	if len(names) > 0 {
		w.try(say.Of("cutting.let-lie-across-the-grain", joined(names)), &p)
	}
}

// narrowerHems makes each hem as narrow as a hem of its kind may be, and then all of them.
func (w *wayFinder) narrowerHems() {
	var all []*garment.Finish
	for _, f := range w.l.worn.Finishes {
		if _, _, ok := f.NarrowestHem(); ok && w.narrower(f) {
			all = append(all, f)
		}
	}
	if len(all) > 1 {
		w.narrower(all...)
	}
}

// narrower lays the pieces with narrower hems; false where none of them is of this cloth.
func (w *wayFinder) narrower(hems ...*garment.Finish) bool {
	p := w.l.Problem.Lay
	p.Pieces = slices.Clone(p.Pieces)
	cut := slices.Clone(w.l.Problem.Pieces)
	found := false
	var words []string
	for _, f := range hems {
		now, least, _ := f.NarrowestHem()
		tape := w.l.Problem.tape
		words = append(words, say.Of("cutting.deep-in-place-of", f.Name, tape.about(least.Depth), tape.about(now.Depth)))
		for i, piece := range cut {
			if piece == nil {
				continue
			}
			narrow := piece.CutWithHem(f, now, least)
			if narrow == nil {
				continue
			}
			ring, fold, err := ringOf(narrow)
			if err != nil || fold >= 0 != p.Pieces[i].OnFold {
				continue
			}
			cut[i], found = narrow, true
			p.Pieces[i].Outline, p.Pieces[i].FoldEdge = onCloth(ring), max(fold, 0)
		}
	}
	if found {
		w.try(say.Of("cutting.make", strings.Join(words, ", ")), &p)
	}
	return found
}

// leastPart is how narrow a part of a piece may be that is joined from two, in allowances.
const leastPart = 4

// pieced joins each piece that is not seen from two parts, along its grain through its
// middle, with the usual allowance at the join.
func (w *wayFinder) pieced() {
	allowance := w.c.usual.allowance.V.MM()
	for i := range w.l.Problem.Lay.Pieces {
		q := &w.l.Problem.Lay.Pieces[i]
		if len(w.l.Problem.Lay.Ties) > 0 || !isHidden(q.Name) {
			continue
		}
		if parts := partsOf(q, allowance); parts != nil {
			p := w.l.Problem.Lay
			p.Pieces = slices.Concat(p.Pieces[:i:i], parts, p.Pieces[i+1:])
			w.try(say.Of("cutting.join-from-two-parts-along-its-grain", q.Name), &p)
		}
	}
}

// partsOf are the two parts of a piece with an allowance each where they are joined, or
// one half that is cut twice as often where the piece lies on the fold; nil where it
// would be too narrow.
func partsOf(q *lay.Piece, allowance float64) []lay.Piece {
	along := q.Grain == lay.Along && q.Turns == nil
	if across := slices.Equal(q.Turns, []float64{90, 270}); !along && !across {
		return nil
	}
	side := func(v lay.Point) float64 { return v.Y } // across the grain
	if !along {
		side = func(v lay.Point) float64 { return v.X }
	}
	ring := q.Unfold()
	least, most := math.Inf(1), math.Inf(-1)
	for _, v := range ring {
		least, most = min(least, side(v)), max(most, side(v))
	}
	if most-least < 2*leastPart*allowance {
		return nil
	}
	middle := (least + most) / 2
	one, two := *q, *q
	one.Outline = clipped(ring, side, middle+allowance, 1)
	two.Outline = clipped(ring, side, middle-allowance, -1)
	one.OnFold, two.OnFold, one.FoldEdge, two.FoldEdge = false, false, 0, 0
	one.Quantity = max(1, q.Quantity)
	two.Quantity = one.Quantity
	if q.OnFold {
		one.Quantity, one.Mirrored = 2*one.Quantity, true
		return []lay.Piece{one}
	}
	return []lay.Piece{one, two}
}

// clipped is the part of a ring on one side of a line (the method of Sutherland and
// Hodgman, 1974): where side is below a level for sign 1, above it for −1.
func clipped(ring []lay.Point, side func(lay.Point) float64, level, sign float64) []lay.Point {
	var out []lay.Point
	beyond := func(v lay.Point) float64 { return sign * (side(v) - level) }
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		da, db := beyond(a), beyond(b)
		if da <= 0 {
			out = append(out, a)
		}
		if da < 0 && db > 0 || da > 0 && db < 0 {
			t := da / (da - db)
			out = append(out, lay.Point{X: a.X + float64(t*(b.X-a.X)), Y: a.Y + float64(t*(b.Y-a.Y))})
		}
	}
	return out
}

// more says how much more to buy, in the steps that the shop cuts.
func (w *wayFinder) more() {
	takes := w.l.straightened(&w.c.usual).MM()
	step := w.c.usual.step.V.MM()
	if step <= 0 {
		return
	}
	buy := math.Ceil((takes-w.have)/step-1e-9) * step
	w.found = append(w.found, WayOut{What: say.Of("cutting.buy-more-if-there-is-some-of", w.l.Problem.tape.about(buy)), Lay: w.l.Plan.Length, Takes: takes, Over: w.have + buy - takes})
}
