package tracing

import (
	"fmt"
	"math"
	"slices"

	"hembook/internal/fault"
	"hembook/internal/photo"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// A sheetOfPaper is a piece as it was told from the table, coarsely.
type sheetOfPaper struct {
	rim   []shape.Point // against the clock, every millimetre or so
	mix   photo.Mix     // of red, green and blue, in which paper is bright and the table dark
	tell  float64       // by how much
	light float64       // that the paper has in it
	step  float64       // how coarse, in millimetres
}

// secondPiece is how large, as a share of the largest, other paper may be.
const secondPiece = 0.12

// findPiece tells the piece from the table, and refuses what cannot be measured.
func (t *Traced) findPiece(shots []*shot) (*sheetOfPaper, error) {
	s := shots[0]
	lies := liesSeen(s)
	f := fieldOf(s, lies)
	if err := f.part(lies); err != nil {
		return nil, err
	}
	parts := f.parts()
	if len(parts) == 0 {
		return nil, fault.Refusing(say.Of("tracing.lay-it-on-a-table-or-a"), say.Of("tracing.no-paper-is-seen-among-the-cards"))
	}
	slices.SortStableFunc(parts, func(a, b []int) int { return len(b) - len(a) })
	hull := hullOf(lies)
	parts = slices.DeleteFunc(parts, func(in []int) bool {
		return !slices.ContainsFunc(in, func(i int) bool { return within(hull, f.middle(i)) })
	})
	if len(parts) == 0 {
		return nil, fault.Refusing(say.Of("tracing.lay-the-cards-round-the-paper"), say.Of("tracing.no-paper-is-seen-among-the-cards"))
	}
	if len(parts) > 1 && float64(len(parts[1])) > secondPiece*float64(len(parts[0])) {
		return nil, fault.Refusing(say.Of("tracing.leave-one-piece-on-the-table-and"), say.Of("tracing.two-pieces-of-paper-are-seen-among"))
	}
	if slices.ContainsFunc(parts[0], f.atRim) {
		return nil, fault.Refusing(say.Of("tracing.go-further-away-or-turn-the-camera"), say.Of("tracing.the-paper-reaches-over-the-edge-of", s.name))
	}
	ring := f.around(parts[0])
	if err := besideCards(ring, lies, hull, s); err != nil {
		return nil, err
	}
	p := &sheetOfPaper{rim: evenly(smoothed(ring, max(2.5, 1.5*f.step)), 1), step: f.step}
	p.mix, p.light, p.tell = f.contrast(parts[0])
	return p, nil
}

// liesSeen are the cards of a photograph on the plane, as it alone sees them.
func liesSeen(s *shot) (out []lie) {
	for _, c := range s.cards {
		var on [8]shape.Point
		for i, at := range c.Corners {
			on[i], _ = s.view.OnPlane(at)
		}
		l := lie{number: c.Number}
		for _, p := range on {
			l.X, l.Y = l.X+p.X/8, l.Y+p.Y/8
		}
		left, right := middleOf(on[:4]), middleOf(on[4:])
		l.Turn = math.Atan2(right.Y-left.Y, right.X-left.X)
		out = append(out, l)
	}
	return out
}

func middleOf(at []shape.Point) (m shape.Point) {
	n := float64(len(at))
	for _, p := range at {
		m.X, m.Y = m.X+p.X/n, m.Y+p.Y/n
	}
	return m
}

// atRim reports whether a square lies beside one that is outside the photograph.
func (f *field) atRim(i int) bool {
	out := false
	f.neighbours(i, func(n int) { out = out || f.is[n] == unseen })
	return out
}

// mostBeyond is how far a piece may reach beyond the cards' middles, in millimetres and
// as a share of how large the cards' ring is.
const (
	mostBeyond      = 60.0
	mostBeyondShare = 0.14
)

// besideCards refuses a piece that reaches far beyond the cards: there nothing holds the
// lens to account.
func besideCards(ring []shape.Point, lies []lie, hull []shape.Point, s *shot) error {
	least, most := hullBox(lies)
	limit := max(mostBeyond, mostBeyondShare*math.Hypot(most.X-least.X, most.Y-least.Y))
	far, at := 0.0, shape.Point{}
	for _, p := range ring {
		if b := beyond(hull, p); b > far {
			far, at = b, p
		}
	}
	if far <= limit {
		return nil
	}
	var near []int
	for _, l := range lies {
		near = append(near, l.number)
	}
	return fault.Refusing(say.Of("tracing.put-two-of-them-beyond-the-paper"), say.Of("tracing.the-paper-reaches-mm-beyond-cards", s.name, fmt.Sprintf("%.0f", far), listed(near), whereIn(s, at)))
}

// whereIn says where in its photograph a place is seen.
func whereIn(s *shot, p shape.Point) string {
	at, ok := s.view.See(p)
	if !ok {
		return say.Of("tracing.outside-the-photograph")
	}
	b := s.img.Bounds()
	x, y := at.X/float64(b.Dx())-0.5, at.Y/float64(b.Dy())-0.5
	switch {
	case math.Abs(x) > math.Abs(y) && x < 0:
		return say.Of("tracing.at-the-left")
	case math.Abs(x) > math.Abs(y):
		return say.Of("tracing.at-the-right")
	case y < 0:
		return say.Of("tracing.at-the-top")
	}
	return say.Of("tracing.at-the-foot")
}

// contrast is the mix of colours in which paper is brighter than the table, how much light
// the paper has in it, and by how much it is brighter.
func (f *field) contrast(in []int) (mix photo.Mix, paper, tell float64) {
	var on, beside [3][]float64
	for k, i := range in {
		if k%7 != 0 {
			continue
		}
		for c := range on {
			on[c] = append(on[c], math.Exp(f.of[i][c])-faint)
		}
	}
	for i, g := range f.is {
		if g != table || i%7 != 0 {
			continue
		}
		for c := range beside {
			beside[c] = append(beside[c], math.Exp(f.of[i][c])-faint)
		}
	}
	var differ tone
	for c := range differ {
		differ[c] = median(on[c]) - median(beside[c])
	}
	mix = mixOf(differ)
	for c := range mix {
		paper += mix[c] * median(on[c])
		tell += mix[c] * differ[c]
	}
	return mix, paper, tell
}

// leastLight is by how much of the mean of what red, green and blue differ paper must be
// brighter or darker than the table to be told by that alone.
const leastLight = 0.4

// mixOf is the mix of colours that tells two tones best: brightness where that does, as
// pictures are stored with colours coarser than it.
func mixOf(differ tone) (mix photo.Mix) {
	sum, light := 0.0, 0.0
	for c, d := range differ {
		sum += math.Abs(d)
		light += d * photo.Brightness[c]
	}
	for c, d := range differ {
		if math.Abs(light) > leastLight*sum/3 {
			mix[c] = math.Copysign(photo.Brightness[c], light)
		} else {
			mix[c] = d / max(sum, 1e-9)
		}
	}
	return mix
}

// around is the line round the outermost squares of a part, against the clock.
func (f *field) around(in []int) []shape.Point {
	has := make(map[int]bool, len(in))
	for _, i := range in {
		has[i] = true
	}
	corner := func(x, y int) int { return y*(f.wide+1) + x }
	next := map[int][]int{}
	for _, i := range in {
		x, y := i%f.wide, i/f.wide
		// Each side of a square without a neighbour, so that the paper lies to its left
		// as seen on the plane: the field's rows run down.
		if !has[i-f.wide] {
			next[corner(x+1, y)] = append(next[corner(x+1, y)], corner(x, y))
		}
		if !has[i+f.wide] {
			next[corner(x, y+1)] = append(next[corner(x, y+1)], corner(x+1, y+1))
		}
		if !has[i-1] {
			next[corner(x, y)] = append(next[corner(x, y)], corner(x, y+1))
		}
		if !has[i+1] {
			next[corner(x+1, y+1)] = append(next[corner(x+1, y+1)], corner(x+1, y))
		}
	}
	var best []shape.Point
	for _, i := range in { // squares are in the order they were reached: the same every time
		start := corner(i%f.wide+1, i/f.wide)
		for len(next[start]) > 0 {
			ring := f.walk(next, start)
			if area(ring) > area(best) {
				best = ring
			}
		}
	}
	return best
}

// walk takes one closed line out of the sides that are left.
func (f *field) walk(next map[int][]int, start int) (ring []shape.Point) {
	for at := start; len(next[at]) > 0; {
		to := next[at][0]
		next[at] = next[at][1:]
		ring = append(ring, shape.Point{X: f.left + float64(at%(f.wide+1))*f.step, Y: f.top - float64(at/(f.wide+1))*f.step})
		at = to
		if at == start {
			break
		}
	}
	return ring
}

// area is positive against the clock.
func area(ring []shape.Point) (sum float64) {
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		sum += (a.X*b.Y - b.X*a.Y) / 2
	}
	return sum
}
