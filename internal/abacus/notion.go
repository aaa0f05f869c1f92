package abacus

import (
	"math"
	"math/big"
)

// A notion is worked out only where the record counts it, or gives one length.
type notion struct {
	slug          string
	record        node
	over          float64 // the edge they are set out along, from end to end; 0 where they are not
	count, length float64 // length of one, mm; 0 where none
	byLength      bool    // sold by length: mass is of a metre, the price of what the shop measures by
}

func (g *garment) notions() []notion {
	var list []notion
	for _, v := range g.build.get("notions").named() {
		n := notion{slug: slug(v.name), record: v.node, count: 1, length: v.get("length").lengthOr(g.units, 0)}
		switch {
		case v.get("in").there():
			giveUp("what lies in channels is not worked out here")
		case v.get("count").there():
			n.count = v.get("count").number()
		case v.get("every").there():
			if v.get("first").there() || v.get("last").there() {
				giveUp("what is set out from places is not worked out here")
			}
			_, e := g.edgeOf(v.get("along").text())
			n.over = e.length
			n.count = math.Max(1, math.Floor(n.over/v.get("every").length(g.units)+0.5+1e-9)) + 1
		default:
			n.byLength = n.length > 0 && !isZip(v) // which is bought whole
		}
		list = append(list, n)
	}
	return list
}

func (n notion) mass() (float64, bool) {
	m := n.record.get("weight")
	if !m.there() {
		return 0, false
	}
	if n.byLength {
		return n.length / 1000 * m.grams(), true
	}
	return n.count * m.grams(), true
}

func (g *garment) notionPrice(n notion) (*big.Rat, bool) {
	p := n.record.get("price")
	if !p.there() {
		return nil, false
	}
	many := exact(n.count)
	if n.byLength {
		many = exact(n.length / g.priceLength())
	}
	return many.Mul(many, p.money()), true
}

func (g *garment) notionFigures(out Figures) {
	for _, n := range g.notions() {
		id := "notion." + n.slug + "."
		out.put(id+"count", n.count, "")
		if n.length > 0 {
			out.put(id+"length", n.length, "mm")
			out.put(id+"total", n.length*n.count/1000, "m")
		}
		if n.over > 0 {
			out.put(id+"gap", n.over/(n.count-1), "mm")
		}
		g.buttonFigures(out, id, n)
		if m, known := n.mass(); known {
			out.put(id+"mass", m, "g")
		}
	}
}
