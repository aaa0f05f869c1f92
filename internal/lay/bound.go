package lay

import (
	"cmp"
	"math"
	"slices"
)

// A Reason says why no plan is shorter than a bound.
type Reason int

const (
	ByArea    Reason = iota // all the cloth that the pieces cover
	ByLongest               // one piece is so long
	ByPlace                 // one piece reaches so far where it may lie in the pattern
	ByWidth                 // what is wide has only so much beside it
	ByRows                  // of what is wide only so many lie beside each other, the rest in further rows
)

// A Bound is a length below which no plan can come, and why.
type Bound struct {
	Length float64
	Why    Reason
	Piece  int     // ByLongest: which
	Beside int     // ByRows, ByWidth: how many lie beside each other at most; 0 where it is not counted so
	Over   float64 // ByWidth: what is narrower is left out, and what leaves less than that beside it counts as wide as the cloth; ByRows: the width that more of them do not have
}

// Bound is a length that no plan of the problem undercuts, however the cloth is folded.
// Pieces that may lie any way count only in the area.
//
// At every place along the cloth the pieces that lie there share its width. So whatever a
// width counts, if widths that fit beside each other never count more than one, no plan is
// shorter than what all pieces count along their lengths together (the dual feasible
// functions of Fekete and Schepers, Mathematical Programming 91, 2001, applied to the
// widths of an outline along its length). And where no more than k of some pieces find room
// beside each other, they lie in k rows, one of which has its share of them.
func (p *Problem) Bound() Bound {
	width := p.Cloth.Width
	if p.Cloth.Outline != nil {
		b := boxOf(p.Cloth.Outline)
		width = b.height()
	}
	best := Bound{Length: p.area(1) / width}
	all := p.profiles(width)
	take := func(b Bound) {
		if b.Length > best.Length*(1+1e-9) {
			best = b
		}
	}
	for _, one := range all {
		take(Bound{Length: one.least(func(w *profile) float64 { return w.length }), Why: ByLongest, Piece: one.piece})
	}
	for k := 1; k <= mostBeside; k++ {
		take(inRows(all, k, width))
	}
	for _, over := range notable(all) {
		for k := 0; k <= mostBeside; k++ {
			f := counting(over, k)
			b := Bound{Why: ByWidth, Beside: k, Over: over * width}
			for _, one := range all {
				b.Length += float64(one.many) * one.least(func(w *profile) float64 { return w.counted(f) })
			}
			take(b)
		}
	}
	return best
}

// mostBeside is how many pieces beside each other are looked at.
const mostBeside = 4

// A profiled is a piece as wide as it is along its length, in every way it may lie.
type profiled struct {
	piece, many int
	ways        []profile
}

// least is the least of something over the ways a piece may lie.
func (q *profiled) least(of func(*profile) float64) float64 {
	out := math.Inf(1)
	for i := range q.ways {
		out = min(out, of(&q.ways[i]))
	}
	return out
}

// profiles are those of all pieces that may not lie any way. Pieces that no turn brings
// within the cloth are left out.
func (p *Problem) profiles(width float64) []profiled {
	var out []profiled
	for i := range p.Pieces {
		q := &p.Pieces[i]
		if q.Grain == AnyWay && q.Turns == nil {
			continue
		}
		one := profiled{piece: i, many: max(1, q.Quantity)}
		ring := tidy(q.Unfold())
		for _, turn := range p.slants(q) {
			if w := profileOf(turned(ring, turn, false), width); w.most <= 1+1e-9 {
				one.ways = append(one.ways, w)
			}
		}
		if len(one.ways) > 0 {
			out = append(out, one)
		}
	}
	return out
}

// slants are the turns at which a piece may lie, of two that give profiles alike one: half
// a turn more, or the mirror image at the opposite turn.
func (p *Problem) slants(q *Piece) []float64 {
	ways := turnsOf(&p.Cloth, q, false)
	if q.Mirrored {
		ways = append(ways, turnsOf(&p.Cloth, q, true)...)
	}
	var out []float64
	for _, t := range ways {
		if t.mirrored {
			t.turn = -t.turn
		}
		if !slices.ContainsFunc(out, func(o float64) bool { return math.Abs(math.Remainder(o-t.turn, 180)) < 1e-9 }) {
			out = append(out, t.turn)
		}
	}
	return out
}

// A profile is how wide an outline is along its length, as shares of the cloth's width.
type profile struct {
	length float64
	most   float64 // across the whole of it
	slabs  []slab
}

// A slab is a stretch of an outline between two of its corners, where it is from as wide
// to as wide.
type slab struct{ long, from, to float64 }

// shy is by how much less widths are counted, so that what just fits beside each other
// does.
const shy = 1e-9

func profileOf(ring []Point, width float64) profile {
	if signedArea(ring) < 0 {
		ring = reversed(ring)
	}
	xs := make([]float64, len(ring))
	for i, q := range ring {
		xs[i] = q.X
	}
	slices.Sort(xs)
	xs = slices.Compact(xs)
	b := boxOf(ring)
	out := profile{length: b.width(), most: b.height() / width}
	for i := range xs[:len(xs)-1] {
		s := slab{long: xs[i+1] - xs[i]}
		for k, a := range ring {
			c := ring[(k+1)%len(ring)]
			if lo, hi := min(a.X, c.X), max(a.X, c.X); lo > xs[i] || hi < xs[i+1] || lo == hi {
				continue
			}
			at := func(x float64) float64 { return a.Y + (c.Y-a.Y)*((x-a.X)/(c.X-a.X)) }
			side := 1.0 // the far side runs back
			if a.X < c.X {
				side = -1
			}
			s.from += side * at(xs[i])
			s.to += side * at(xs[i+1])
		}
		s.from, s.to = max(0, s.from)/width*(1-shy), max(0, s.to)/width*(1-shy)
		out.slabs = append(out.slabs, s)
	}
	return out
}

// A count is what a width counts: value at the width from, and slope beyond it, up to the
// next.
type count struct{ from, value, slope float64 }

// counting is what widths count where those under a share are left out and those that
// leave less than that are as wide as the cloth; of the others at most so many lie beside
// each other, where that is counted.
func counting(over float64, beside int) []count {
	if beside == 0 {
		return []count{{}, {over, over, 1}, {1 - over, 1, 0}}
	}
	out := []count{{}}
	n := float64(beside + 1)
	for k := 0.0; k < n; k++ {
		if from := max(over, k/n); from < 1-over && (k+1)/n > over {
			out = append(out, count{from, k / float64(beside), 0})
		}
	}
	return append(out, count{1 - over, 1, 0})
}

// counted is what an outline counts along its length.
func (w *profile) counted(f []count) float64 {
	sum := 0.0
	for _, s := range w.slabs {
		sum += s.long * s.counted(f)
	}
	return sum
}

// counted is what the widths of a slab count, on average.
func (s *slab) counted(f []count) float64 {
	lo, hi := min(s.from, s.to), max(s.from, s.to)
	if hi-lo < 1e-9 {
		return valueAt(f, lo)
	}
	sum := 0.0
	for i, c := range f {
		from, to := max(lo, c.from), hi
		if i+1 < len(f) {
			to = min(hi, f[i+1].from)
		}
		if from < to {
			sum += (to - from) * (c.value + c.slope*((from+to)/2-c.from))
		}
	}
	return sum / (hi - lo)
}

func valueAt(f []count, x float64) float64 {
	for i := len(f) - 1; i >= 0; i-- {
		if x >= f[i].from {
			return f[i].value + f[i].slope*(x-f[i].from)
		}
	}
	return 0
}

// mostNotable bounds how many widths are tried.
const mostNotable = 24

// notable are the widths at which it is worth leaving out what is narrower: nothing, how
// wide pieces are, and what they leave beside them.
func notable(all []profiled) []float64 {
	out := []float64{0}
	for i := range all {
		for k := range all[i].ways {
			w := &all[i].ways[k]
			for _, s := range w.slabs {
				if s.long < w.length/8 {
					continue
				}
				for _, v := range []float64{s.from, s.to} {
					out = append(out, v, 1-v+2*shy)
				}
			}
			out = append(out, w.most*(1-2*shy), 1-w.most+2*shy)
		}
	}
	out = slices.DeleteFunc(out, func(v float64) bool { return v < 0 || v > 0.5 })
	slices.Sort(out)
	out = slices.CompactFunc(out, func(a, b float64) bool { return math.Abs(b-a) < 1e-12 })
	for len(out) > mostNotable {
		out = everySecond(out)
	}
	return out
}

func everySecond(list []float64) []float64 {
	var out []float64
	for i := 0; i < len(list); i += 2 {
		out = append(out, list[i])
	}
	return out
}

// inRows is how long the rows are where no more than so many lie beside each other: of
// m·k + 1 pieces at least m + 1 lie in one row.
func inRows(all []profiled, k int, width float64) Bound {
	over := 1 / float64(k+1)
	var cores []float64
	ends := math.Inf(1)
	for i := range all {
		core := all[i].least(func(w *profile) float64 { c, _ := w.core(over); return c })
		if core <= 0 {
			continue
		}
		ends = min(ends, all[i].least(func(w *profile) float64 { _, e := w.core(over); return e }))
		for range all[i].many {
			cores = append(cores, core)
		}
	}
	slices.SortFunc(cores, func(a, b float64) int { return cmp.Compare(b, a) })
	best := Bound{Why: ByRows, Beside: k, Over: over * width}
	for m := 0; m*k < len(cores); m++ {
		sum := 2 * ends
		for _, c := range cores[m*k-m : m*k+1] {
			sum += c
		}
		best.Length = max(best.Length, sum)
	}
	return best
}

// core is the longest stretch of an outline that is wider than a share all along, and how
// much of it lies beyond that at least at either end.
func (w *profile) core(over float64) (long, ends float64) {
	x, begun, run := 0.0, 0.0, 0.0
	close := func() {
		if run > long {
			long, ends = run, min(begun, w.length-begun-run)
		}
		run = 0
	}
	for _, s := range w.slabs {
		from, to := s.above(over)
		if from > 0 || to == 0 {
			close()
		}
		if run == 0 {
			begun = x + from
		}
		if run += to - from; to < s.long {
			close()
		}
		x += s.long
	}
	close()
	return long, max(0, ends)
}

// above is the stretch of a slab that is wider than a share; 0, 0 where none is.
func (s *slab) above(over float64) (from, to float64) {
	if s.from > over && s.to > over {
		return 0, s.long
	}
	if s.from <= over && s.to <= over {
		return 0, 0
	}
	at := s.long * (over - s.from) / (s.to - s.from)
	if s.from > over {
		return 0, at
	}
	return at, s.long
}
