package lay

import (
	"math"
	"slices"

	"hembook/internal/say"
)

// pairable tells whether two layers of cloth folded so give two copies of a piece as they
// are wanted. A crosswise fold turns the lower copy half round.
func (p *Problem) pairable(i int, f Fold) bool {
	q := &p.Pieces[i]
	upDown, leftRight := mirrors(q.Unfold())
	upDown = upDown || q.Mirrored || p.Cloth.Reversible
	if f == Crosswise {
		return upDown && p.turnsEach(i, 180) || leftRight && p.turnsEach(i, 0)
	}
	return upDown || leftRight && !p.Cloth.OneWay
}

// turnsEach tells whether a piece may lie at round less every turn at which it may lie.
func (p *Problem) turnsEach(i int, round float64) bool {
	turns := turnsOf(&p.Cloth, &p.Pieces[i], false)
	for _, t := range turns {
		if !slices.ContainsFunc(turns, func(o turnOfPiece) bool {
			return math.Abs(math.Remainder(o.turn-(round-t.turn), 360)) < 1e-9
		}) {
			return false
		}
	}
	return true
}

// eachWay does something with every turn that a piece may lie at, and the box of its
// outline there.
func (p *Problem) eachWay(i int, outline []Point, do func(t turnOfPiece, b box)) {
	q := &p.Pieces[i]
	for _, t := range turnsOf(&p.Cloth, q, false) {
		do(t, boxOf(turned(outline, t.turn, t.mirrored)))
	}
}

// onFold tells whether a piece on the fold lies on one of cloth folded so.
func (p *Problem) onFold(i int, f Folding) bool {
	q, found := &p.Pieces[i], false
	if !q.OnFold {
		return false
	}
	p.eachWay(i, q.Outline, func(t turnOfPiece, b box) {
		for _, z := range f.Zones(p.Cloth.Width) {
			s := shape{zone: z}
			found = found || z.Double && b.height() <= (z.Far-z.Near)*(1+1e-12) && s.putOnFold(q, t)
		}
	})
	return found
}

// pairsOn is how many pairs of a piece two layers of cloth folded so give.
func (p *Problem) pairsOn(i int, f Folding) int {
	q := &p.Pieces[i]
	if !p.pairable(i, f.Fold) {
		return 0
	}
	least, room := p.leastAcross(i, q.Unfold()), 0.0
	for _, z := range f.Zones(p.Cloth.Width) {
		if z.Double {
			room = max(room, z.Far-z.Near)
		}
	}
	if least > room*(1+1e-12) {
		return 0
	}
	return max(1, q.Quantity) / 2
}

// leastAcross is how narrow a piece may lie.
func (p *Problem) leastAcross(i int, outline []Point) float64 {
	least := math.Inf(1)
	p.eachWay(i, outline, func(_ turnOfPiece, b box) { least = min(least, b.height()) })
	return least
}

// mostAlone is how much of the area of all pieces may be cut from the upper of two layers
// alone: a pocket, and not a front. What lies under it is left over.
const mostAlone = 0.05

// A sharing is what of a problem two layers give on cloth folded so.
type sharing struct {
	gain  bool    // they give something
	alone float64 // area of what is cut once, as a share of all
	first string  // why the first of that is
}

func (p *Problem) sharing(f Folding) sharing {
	var s sharing
	all := 0.0
	for i := range p.Pieces {
		q := &p.Pieces[i]
		n := max(1, q.Quantity)
		area := math.Abs(signedArea(q.Unfold()))
		all += float64(n) * area
		single := n - 2*p.pairsOn(i, f)
		if p.onFold(i, f) {
			single = 0
		}
		s.gain = s.gain || single < n
		if single > 0 && s.first == "" {
			s.first = p.whySingle(i, f, single == n && n > 1)
		}
		s.alone += float64(single) * area
	}
	s.alone /= all
	return s
}

// whySingle says why not all copies of a piece come in pairs.
func (p *Problem) whySingle(i int, f Folding, none bool) string {
	q := &p.Pieces[i]
	switch {
	case !p.pairable(i, f.Fold):
		return say.Of("lay.piece-is-not-cut-as-a-mirrored", say.Quoted(pieceName(q, i)))
	case max(1, p.Pieces[i].Quantity) == 1:
		return say.Of("lay.piece-is-cut-once-and-folded-cloth", say.Quoted(pieceName(q, i)))
	case none:
		return say.Of("lay.piece-is-wider-than-the-folded-cloth", say.Quoted(pieceName(q, i)))
	}
	return say.Of("lay.piece-is-cut-times-and-folded-cloth", say.Quoted(pieceName(q, i)), max(1, q.Quantity))
}

// notFolded says why no cloth of the problem can be folded so; empty if it can, as far
// as can be told without laying it.
func (p *Problem) notFolded(f Folding) string {
	c := &p.Cloth
	matched := func(across bool) bool {
		return slices.ContainsFunc(p.Ties, func(t Tie) bool { return t.Across == across })
	}
	stages := slices.ContainsFunc(p.Pieces, func(q Piece) bool { return q.Stage != p.Pieces[0].Stage })
	switch {
	case c.Outline != nil:
		return "a remnant is laid open"
	case c.RepeatAcross > 0 && matched(true):
		return "its pattern is matched across it, and the lower of two layers cannot be seen"
	case f.Fold == Crosswise && c.OneWay:
		return "one-way cloth folded crosswise has its lower layer upside down"
	case f.Fold == Crosswise && c.RepeatAlong > 0 && matched(false):
		return "its pattern is matched along it, and a crosswise fold turns the lower layer round"
	case f.Fold == Crosswise && len(c.Flaws) > 0:
		return "where its flaws come to lie depends on where the fold does"
	case f.Fold == PartLength && len(p.Ties) > 0:
		return "its pattern is matched from piece to piece"
	case f.Fold == PartLength && stages:
		return "its pieces are cut in stages"
	}
	s := p.sharing(f)
	part := f.Fold == PartWidth || f.Fold == PartLength
	switch {
	case !s.gain && s.first == "":
		return "nothing is cut from it in pairs"
	case !s.gain, !part && s.alone > mostAlone:
		return s.first
	case part && s.alone == 0:
		return "every piece is cut in pairs or on the fold"
	}
	return ""
}

// mostDepths bounds how many depths of a fold are looked at.
const mostDepths = 24

// foldings are the ways to fold the cloth that one kind of fold has, each so deep that
// pieces lie flush in it; those of plans to begin from come first.
func (p *Problem) foldings(f Fold, begin []*Plan) []Folding {
	width := p.Cloth.Width
	switch f {
	case Lengthwise, PartLength:
		return []Folding{{Fold: f, Near: width / 2}}
	case Crosswise:
		return []Folding{{Fold: f}}
	}
	var out []Folding
	add := func(depth float64) {
		one := Folding{Fold: f, Near: depth}
		if f == BothSelvedges {
			one.Far = width/2 - depth
		}
		if depth > 0 && depth < width/2 && len(out) < mostDepths && !slices.Contains(out, one) {
			out = append(out, one)
		}
	}
	for _, plan := range begin {
		if plan != nil && plan.Fold == f {
			add(plan.Near)
		}
	}
	for _, h := range p.depths(f) {
		add(h)
	}
	return out
}

// depths are how deep folds may be for pieces to lie flush in them: as deep as one is
// wide or two are, or so that singles fill the rest; the deepest first.
func (p *Problem) depths(f Fold) []float64 {
	width := p.Cloth.Width
	var wide, rest []float64
	for i := range p.Pieces {
		q := &p.Pieces[i]
		note := func(_ turnOfPiece, b box) { wide = append(wide, b.height()) }
		p.eachWay(i, q.Unfold(), note)
		if q.OnFold {
			p.eachWay(i, q.Outline, note)
		} else if f == PartWidth {
			p.eachWay(i, q.Unfold(), func(_ turnOfPiece, b box) { rest = append(rest, (width-b.height())/2) })
		}
	}
	slices.Sort(wide)
	wide = slices.Compact(wide)
	gap := p.Cloth.Clearance
	out := slices.Concat(wide, rest)
	for i, a := range wide {
		for _, b := range wide[:i+1] {
			out = append(out, a+b+gap)
		}
	}
	if f == BothSelvedges { // the left one is the deeper
		for i, a := range out {
			out[i] = max(a, width/2-a)
		}
		out = append(out, width/4)
	}
	slices.Sort(out)
	slices.Reverse(out)
	out = slices.Compact(out)
	return slices.DeleteFunc(out, func(a float64) bool { return !(a > 0 && a < width/2) })
}
