package cutting

import (
	"math"
	"slices"

	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/lay"
	"hembook/internal/say"
	"hembook/internal/words"
)

// stripSeam is the allowance of the seams that make a tube of the cloth that bias strip is
// cut from, and of those that its ends are joined with, on the straight grain (common
// practice, no source).
const stripSeam = 6

// endLoss is what the join at an end takes of a strip: an allowance to both sides of a
// seam that crosses it at 45°, mm.
var endLoss = 2 * stripSeam * math.Sqrt2

// A stripSum is all strip of one cut width, in mm.
type stripSum struct {
	cut, length float64 // what the joins at its ends take is in the length
	ends        int     // how many strips there are, each with a join
	what        []string
}

// A strip block is a rectangle on the grain that bias strip is cut from in one round. It is
// cut through at 45° from a corner, its short ends are sewn together, and the slanting
// edges that are left hold a whole number of strips side by side; its long edges, sewn
// together one strip further on, make the tube.
type stripBlock struct {
	cut         float64 // of the strip
	short, long float64 // mm, seams included
	strips      int     // side by side
	joins       int     // that the strip has where it crosses the seams
}

// blockOf is the block for strip of a length, nearly square where it is narrow enough; ok is
// false where it cannot be.
func blockOf(s stripSum, most float64) (b stripBlock, ok bool) {
	step := s.cut * math.Sqrt2 // from strip to strip along the long edge
	n := max(1, math.Ceil(math.Sqrt(s.cut*s.length)/step-1e-9))
	if most -= 2 * stripSeam; s.length/(n*math.Sqrt2) > most {
		if most <= 2*stripSeam {
			return b, false
		}
		n = math.Ceil(s.length/(most*math.Sqrt2) - 1e-9)
	}
	short := s.length / (n * math.Sqrt2)
	return stripBlock{s.cut, short + 2*stripSeam, n*step + 2*stripSeam, int(n), int(n-1) + int(math.Ceil(short/step))}, true
}

// addStrips adds the cloth that strip is cut from and reports whether it
// added any.
func (p *Problem) addStrips(g *garment.Garment, c *garment.Cloth, stage int) bool {
	added := false
	for _, s := range p.stripsFrom(g, c.Part) {
		name := say.Of("cutting.cloth-for-strip", p.tape.exact(s.cut))
		b, ok := blockOf(s, p.Lay.Cloth.Width)
		if !ok {
			p.NotLaid = append(p.NotLaid, say.Of("cutting.the-cloth-is-too-narrow-to-cut", name))
			continue
		}
		turns := []float64{0}
		if b.long <= p.Lay.Cloth.Width {
			turns = append(turns, 90)
		}
		p.Lay.Pieces = append(p.Lay.Pieces, lay.Piece{
			Name: name, Stage: stage, Quantity: 1, Turns: turns,
			Outline: []lay.Point{{X: 0, Y: 0}, {X: b.long, Y: 0}, {X: b.long, Y: b.short}, {X: 0, Y: b.short}},
		})
		p.Pieces = append(p.Pieces, nil)
		p.blocks[len(p.Pieces)-1] = b
		p.Area += b.long * b.short
		p.Notes = append(p.Notes, p.stripWords(name, s, b))
		added = true
	}
	return added
}

// stripWords say what a block gives, and what was counted for the joins.
func (p *Problem) stripWords(name string, s stripSum, b stripBlock) string {
	out := say.Of("cutting.times-on-the-grain-gives-for-in", name, p.tape.whole(b.short), p.tape.whole(b.long), p.tape.long(s.length), joined(s.what), words.Count(b.strips, "strip"), words.Count(b.joins, "join"))
	switch {
	case s.ends == 1:
		out += say.Of("cutting.of-it-for-the-join-of-its", p.tape.whole(endLoss))
	case s.ends > 1:
		out += say.Of("cutting.of-it-for-the-joins-of-the", p.tape.whole(endLoss*float64(s.ends)), s.ends)
	}
	return say.Of("cutting.strip-is-taken-to-be-bias", out)
}

// eachNeed calls do with every strip and piece that seams and finishes take of one cloth.
func eachNeed(g *garment.Garment, part string, do func(name string, n *garment.StripNeed)) {
	of := func(name string, list []garment.StripNeed) {
		for i := range list {
			if n := &list[i]; n.Cloth == part {
				do(name, n)
			}
		}
	}
	for _, s := range g.Seams {
		of(s.Name, s.Strips)
	}
	for _, f := range g.Finishes {
		of(f.Name, f.Strips)
	}
}

// stripsFrom adds up the strip a garment wants from one cloth, by cut width,
// in the order of the record. What is not known is named as not laid.
func (p *Problem) stripsFrom(g *garment.Garment, part string) []stripSum {
	var sums []stripSum
	add := func(what string, cut, length figure.Value, ends int) {
		if !cut.Known() || !length.Known() {
			p.NotLaid = append(p.NotLaid, say.Of("cutting.strip-for-its-size-is-not-known", what))
			return
		}
		mm := cut.In(millimetres).Number
		i := slices.IndexFunc(sums, func(s stripSum) bool { return math.Abs(s.cut-mm) < 1e-6 })
		if i < 0 {
			i, sums = len(sums), append(sums, stripSum{cut: mm})
		}
		sums[i].length += length.In(millimetres).Number + endLoss*float64(ends)
		sums[i].ends += ends
		sums[i].what = append(sums[i].what, what)
	}
	eachNeed(g, part, func(name string, n *garment.StripNeed) {
		if !n.Piece() {
			add(name, n.Cut.Value, n.Length.Value, n.Times)
		}
	})
	for _, b := range g.Bias {
		from := b.Record.From.V
		if from == "" && len(g.Cloths) > 0 {
			from = g.Cloths[0].Part
		}
		if from == part {
			add(b.Record.Name.V, b.Cut.Value, b.Length.Value, 0) // its joins and overlap are in its length
		}
	}
	return sums
}
