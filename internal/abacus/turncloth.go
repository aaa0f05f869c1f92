package abacus

import (
	"math"
	"slices"
	"strings"
)

// turnFigures are what a piece needs that is rolled over what lies under it: the angle, as an
// arc, times how far the middles of both cloths lie apart; and what it has, its length over
// the roll less that of what lies under it.
func (g *garment) turnFigures(out Figures, p *piece, id string) {
	v := g.build.get("pieces").get(p.name).get("turn-of-cloth")
	if !v.there() {
		return
	}
	angle := v
	if v.isMap() {
		angle = v.get("angle")
	}
	under := p
	switch over := v.get("over"); {
	case over.there():
		under = g.piece(over.text())
	case p.pliesSewn() == 1:
		giveUp("what lies under %s is not worked out here", p.name)
	}
	id += "turn-of-cloth."
	outer, behind, known := g.thickness(p)
	inner, more := outer, 0.0
	if under != p {
		var also bool
		inner, more, also = g.thickness(under)
		known = known && also
	}
	apart := outer/2 + behind + more + inner/2
	switch {
	case known:
		out.put(id+"apart", apart, "mm")
	default:
		out.unknown(id+"apart", "a cloth's thickness is not written")
	}
	switch more := v.get("more"); {
	case more.there():
		out.put(id+"needs", more.length(g.units), "mm")
	case known:
		out.put(id+"needs", angle.number()*math.Pi/180*apart, "mm")
	default:
		out.unknown(id+"needs", "a cloth's thickness is not written")
	}
	has := 0.0
	if under != p {
		has = g.overRoll(p, v) - g.overRoll(under, v)
	}
	out.put(id+"has", has, "mm")
}

// thickness is how thick the outermost cloth of a piece is, and all that lies behind it.
func (g *garment) thickness(p *piece) (outer, behind float64, known bool) {
	known = true
	add := func(part string, to *float64) {
		thick := g.cloths[part].get("thick")
		known = known && thick.there()
		if thick.there() {
			*to += thick.length(g.shop)
		}
	}
	add(p.of[0], &outer)
	for _, part := range p.of[1:] {
		if stiffening(part) {
			add(part, &behind)
		}
	}
	for _, name := range g.build.get("pieces").words() { // and what is cut like it in stiffening alone
		v := g.build.get("pieces").get(name)
		if v.get("like").text() == p.name && v.get("of").there() && !slices.ContainsFunc(v.get("of").texts(), func(o string) bool { return !stiffening(o) }) {
			for _, part := range v.get("of").texts() {
				add(part, &behind)
			}
		}
	}
	return outer, behind, known
}

// overRoll is the length of a piece over its roll: along its fold, or from place to place.
func (g *garment) overRoll(p *piece, v node) float64 {
	if across := v.get("across"); across.there() {
		from, to, _ := strings.Cut(across.text(), " to ")
		_, a := g.cutAt(p, from)
		_, b := g.cutAt(p, to)
		return b.sub(a).size()
	}
	for _, e := range p.edges {
		if e.fold {
			return e.path[len(e.path)-1].sub(e.path[0]).size()
		}
	}
	giveUp("nothing tells where %s is measured over its roll", p.name)
	return 0
}
