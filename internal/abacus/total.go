package abacus

import (
	"math/big"
)

func (g *garment) totalFigures(out Figures) {
	length, allowance, area := 0.0, 0.0, 0.0
	for _, part := range g.parts {
		id := "cloth." + slug(part) + "."
		length += out[id+"allowance-length"].Value
		allowance += out[id+"allowance"].Value
		area += out[id+"cut-area"].Value
	}
	if area > 0 {
		out.put("total.allowance-length", length, "m")
		out.put("total.allowance", allowance, "m²")
		out.put("total.cut-area", area, "m²")
		out.put("total.share", allowance/area*100, "%")
	}
	sewn := 0.0
	for _, s := range g.seams {
		sewn += s.sewn() / 1000
	}
	for _, f := range g.finishes {
		if f.kind.sewn() {
			sewn += f.total / 1000
		}
	}
	for _, p := range g.pieces {
		sewn += (p.dartsSewn() + p.pleatsSewn() + g.turnedIn(p)) / 1000
	}
	if sewn > 0 {
		out.put("total.sewn", sewn, "m")
	} else {
		out.unknown("total.sewn", "nothing is sewn")
	}
	g.totalMass(out)
}

// totalMass is the mass of cloths, notions and thread; of thread where a
// reel's mass is written. Where one of them is not known it is that of the others.
func (g *garment) totalMass(out Figures) {
	sum, weighed, lacking := 0.0, 0, 0
	add := func(mass float64, known bool) {
		if !known {
			lacking++
			return
		}
		sum, weighed = sum+mass, weighed+1
	}
	for _, part := range g.parts {
		mass, known := g.clothMass(part)
		add(mass, known && g.clothArea(part) != 0) // the garment came in what nothing is cut from
	}
	for _, n := range g.notions() {
		add(n.mass())
	}
	for _, t := range g.threads() {
		if mass, known := t.mass(); known {
			add(mass, known)
		}
	}
	switch {
	case lacking == 0:
		out.put("total.mass", sum, "g")
	case weighed > 0:
		out.put("total.mass-known", sum, "g")
	}
}

// left is the share of a cloth's length that washing leaves of it.
func (g *garment) left(part string) float64 {
	return 1 - numberOr(g.cloths[part].get("shrink").get("along"), 0)/100
}

// usable is the usable width of a cloth: shrunk, then without its selvedges.
func (g *garment) usable(part string) float64 {
	c := g.cloths[part]
	across := numberOr(c.get("shrink").get("across"), 0)
	return c.get("width").length(g.shop)*(1-across/100) - 2*c.get("selvedge").lengthOr(g.shop, 0)
}

func (g *garment) costFigures(out Figures) {
	sum, known := new(big.Rat), true
	add := func(id string, r *big.Rat, ok bool) {
		if !ok {
			known = false
			return
		}
		out.set(id, Figure{Unit: "EUR", Money: r})
		sum.Add(sum, coins(r))
	}
	for _, part := range g.parts {
		area := g.clothArea(part)
		if area == 0 {
			continue
		}
		price := g.cloths[part].get("price")
		if !price.there() {
			known = false
			continue
		}
		r := exact(area / g.usable(part) / g.left(part) / g.priceLength())
		add("cost.cloth."+slug(part), r.Mul(r, price.money()), true)
	}
	for _, n := range g.notions() {
		r, ok := g.notionPrice(n)
		add("cost.notion."+n.slug, r, ok)
	}
	for i, t := range g.threads() {
		if !t.used { // for what is not counted, perhaps: buttonholes, darts
			known = false
			continue
		}
		price := t.record.get("price")
		if !price.there() || t.unknown {
			known = false
			continue
		}
		r := exact(t.reels(g.waste()))
		add("cost.thread."+itoa(i+1), r.Mul(r, price.money()), true)
	}
	if spent, any := g.spentInAll(); any && g.workroom.get("labour").there() {
		r := exact(spent)
		r.Mul(r, g.workroom.get("labour").money())
		add("cost.labour", r.Quo(r, big.NewRat(60, 1)), true)
	} else {
		known = false
	}
	costs := g.build.get("costs")
	if costs.get("post").there() {
		add("cost.post", costs.get("post").money(), true)
	}
	for _, what := range costs.get("other").words() {
		add("cost.other."+slug(what), costs.get("other").get(what).money(), true)
	}
	if known {
		out.set("cost.total", Figure{Unit: "EUR", Money: sum})
		if costs.get("price").there() {
			asked := costs.get("price").money()
			out.set("cost.price", Figure{Unit: "EUR", Money: asked})
			out.set("cost.left", Figure{Unit: "EUR", Money: new(big.Rat).Sub(asked, sum)})
		}
	}
}

// priceLength is the length, in mm, that prices by length are for: a metre, or a
// yard in a workroom of inches.
func (g *garment) priceLength() float64 {
	if g.shop == "in" {
		return 914.4
	}
	return 1000
}
