package cutting

import (
	"fmt"
	"math"
	"slices"

	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/lay"
)

// stripSeam is the allowance of the seams that make a tube of the cloth that
// bias strip is cut from (common practice, no source).
const stripSeam = 6

// A stripSum is all strip of one cut width, in mm.
type stripSum struct {
	cut, length float64
	what        []string
}

// addStrips adds the cloth that strip is cut from and reports whether it
// added any. Bias strip of one cut width is cut in one round from a square
// on the grain, or from a rectangle where the square is wider than the
// cloth: its area is length × cut width, the seams of the tube added.
func (p *Problem) addStrips(g *garment.Garment, c *garment.Cloth, stage int) bool {
	added := false
	for _, s := range p.stripsFrom(g, c.Part) {
		name := fmt.Sprintf("cloth for %s strip", p.tape.exact(s.cut))
		area, across := s.cut*s.length, math.Sqrt(s.cut*s.length)
		if most := p.Lay.Cloth.Width - 2*stripSeam; across > most {
			if most <= 2*stripSeam {
				p.NotLaid = append(p.NotLaid, name+": the cloth is too narrow to cut it from")
				continue
			}
			across = most
		}
		along := area/across + 2*stripSeam
		across += 2 * stripSeam
		p.Lay.Pieces = append(p.Lay.Pieces, lay.Piece{
			Name: name, Stage: stage, Quantity: 1,
			Outline: []lay.Point{{X: 0, Y: 0}, {X: along, Y: 0}, {X: along, Y: across}, {X: 0, Y: across}},
		})
		p.Pieces = append(p.Pieces, nil)
		p.Area += along * across
		p.Notes = append(p.Notes, fmt.Sprintf("%s, %s × %s on the grain, gives %s for %s in one round; strip is taken to be bias",
			name, p.tape.about(across), p.tape.about(along), p.tape.long(s.length), joined(s.what)))
		added = true
	}
	return added
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
	add := func(what string, cut, length figure.Value) {
		if !cut.Known() || !length.Known() {
			p.NotLaid = append(p.NotLaid, "strip for "+what+": its size is not known")
			return
		}
		mm := cut.In(millimetres).Number
		i := slices.IndexFunc(sums, func(s stripSum) bool { return math.Abs(s.cut-mm) < 1e-6 })
		if i < 0 {
			i, sums = len(sums), append(sums, stripSum{cut: mm})
		}
		sums[i].length += length.In(millimetres).Number
		sums[i].what = append(sums[i].what, what)
	}
	eachNeed(g, part, func(name string, n *garment.StripNeed) {
		if !n.Piece() {
			add(name, n.Cut.Value, n.Length.Value)
		}
	})
	for _, b := range g.Bias {
		from := b.Record.From.V
		if from == "" && len(g.Cloths) > 0 {
			from = g.Cloths[0].Part
		}
		if from == part {
			add(b.Record.Name.V, b.Cut.Value, b.Length.Value)
		}
	}
	return sums
}
