package abacus

import (
	"math"
)

// turnedIn is the length along which the plies of a piece, of the same cloth outside and
// inside, are sewn to each other alone: all edges that nothing is said of.
func (g *garment) turnedIn(p *piece) (sum float64) {
	if p.pliesSewn() == float64(len(p.sewnIn())) {
		return 0
	}
	for _, e := range p.edges {
		if !e.fold && len(e.finishedBy) == 0 && !g.isJoined(e) {
			sum += e.sewn * p.occurs()
		}
	}
	return sum
}

// pieceFigures are the figures of every piece.
func (g *garment) pieceFigures(out Figures) {
	for _, p := range g.pieces {
		id := "piece." + p.slug + "."
		for _, e := range p.edges {
			at := id + "edge." + slug(e.name) + "."
			out.put(at+"length", e.length, "mm")
			out.put(at+"allowance", e.allowance, "mm")
			if e.intake > 0 {
				out.put(at+"intake", e.intake, "mm")
			}
			if e.intake > 0 || e.placketed {
				out.put(at+"sewn", e.sewn, "mm")
			}
		}
		g.lineFigures(out, p, id)
		g.turnFigures(out, p, id)
		if rows := p.pleatsSewn(); rows > 0 {
			out.put(id+"pleats", rows/1000, "m")
		}
		if turned := g.turnedIn(p); turned > 0 {
			out.put(id+"turned", turned/1000, "m")
		}
		area, cut := p.areas()
		out.put(id+"area", area/100, "cm²")
		out.put(id+"cut-area", cut/100, "cm²")
		out.put(id+"allowance", (cut-area)/100, "cm²")
		out.put(id+"share", (cut-area)/cut*100, "%")
		least, most := p.bounds()
		out.put(id+"width", most.x-least.x, "mm")
		out.put(id+"height", most.y-least.y, "mm")
		g.formFigures(out, p, id)
	}
}

func (g *garment) formFigures(out Figures, p *piece, id string) {
	if p.ring.there() {
		k, w, l := p.ring.get("share").number(), p.ring.get("waist").length(g.units), p.ring.get("length").length(g.units)
		r := w / (2 * math.Pi * k)
		out.put(id+"inner-radius", r, "mm")
		out.put(id+"outer-radius", r+l, "mm")
		out.put(id+"hem", 2*math.Pi*k*(r+l), "mm")
		out.put(id+"ring-area", math.Pi*k*((r+l)*(r+l)-r*r)/1e6, "m²")
		out.put(id+"panel-angle", 360*k/p.panels, "°")
		out.put(id+"panels", p.panels, "")
	}
	if p.band > 0 {
		out.put(id+"band-length", p.band, "mm")
	}
	if p.godet.there() {
		a, h := g.godetAngle(p), p.godet.get("height").length(g.units)
		out.put(id+"angle", a*180/math.Pi, "°")
		out.put(id+"adds", a*h, "mm")
		out.put(id+"chord", 2*h*math.Sin(a/2), "mm")
	}
}
