package abacus

import (
	"math"
	"strings"
)

// draw draws a piece's first outline.
func (g *garment) draw(p *piece, v node, name string) {
	switch {
	case v.get("outline").there():
		g.drawOutline(p, v.get("outline"))
		p.drawnFreely = true
	case v.get("rectangle").there():
		sides := v.get("rectangle").list()
		if len(sides) != 2 {
			giveUp("a rectangle has two sides, not %d", len(sides))
		}
		s := point{g.measured(v, sides[0], true), g.measured(v, sides[1], false)}
		p.rectangle = true
		p.polygon([]string{"bottom", "right", "top", "left"}, point{0, 0}, point{s.x, 0}, s, point{0, s.y})
	case v.get("trapezoid").there():
		t := v.get("trapezoid")
		b, top, h := t.get("bottom").length(g.units), t.get("top").length(g.units), t.get("height").length(g.units)
		in := (b - top) / 2
		p.polygon([]string{"bottom", "right", "top", "left"}, point{0, 0}, point{b, 0}, point{b - in, h}, point{in, h})
	case v.get("band").there():
		g.drawBand(p, v, name)
	case v.get("border").there():
		g.drawBorder(p, v.get("border"))
	case v.get("circle").there():
		g.drawRing(p, v)
	case v.get("godet").there():
		p.godet = v.get("godet")
		h := p.godet.get("height").length(g.units)
		a := g.godetAngle(p)
		p.sector(0, h, a)
	default:
		giveUp("a piece is drawn in no way that is known here")
	}
}

func (g *garment) godetAngle(p *piece) float64 {
	if p.godet.get("angle").there() {
		n, _ := splitUnit(strings.TrimSuffix(p.godet.get("angle").text(), "°"))
		f, _ := mixed(n)
		return f * math.Pi / 180
	}
	return p.godet.get("hem").length(g.units) / p.godet.get("height").length(g.units)
}

func (g *garment) drawOutline(p *piece, v node) {
	var at point
	if v.get("from").there() {
		at = v.get("from").point(g.units)
	}
	first := at
	for _, name := range v.words() {
		if name == "from" {
			continue
		}
		e, to := v.get(name), first // the last edge ends where the first began
		if end := e.of("to"); end.isList() {
			to = end.point(g.units)
		}
		one := &edge{name: name, path: []point{at, to}, straight: true, fold: e.get("fold").yes() || e.text() == "fold",
			level: e.get("level").text(), corner: e.get("corner").text(), own: e.get("allowance")}
		if c := e.get("curve"); c.there() {
			one.path, one.straight = bezier(at, c.list()[0].point(g.units), c.list()[1].point(g.units), to), false
		}
		p.edges = append(p.edges, one)
		at = to
	}
}

func (p *piece) polygon(names []string, corners ...point) {
	for i, name := range names {
		p.edges = append(p.edges, &edge{name: name, path: []point{corners[i], corners[(i+1)%len(corners)]}, straight: true})
	}
}

// A ring skirt of k turns has the inner radius r = W ÷ 2πk; its panels are
// equal, each with the grain down its middle.
func (g *garment) drawRing(p *piece, v node) {
	p.ring = v.get("circle")
	turns := p.ring.get("share").number()
	waist, length := p.ring.get("waist").length(g.units), p.ring.get("length").length(g.units)
	if !p.ring.get("panels").there() {
		giveUp("how many panels a ring needs is not worked out here")
	}
	p.panels = p.ring.get("panels").number()
	p.count = p.panels
	r := waist / (2 * math.Pi * turns)
	p.sector(r, r+length, 2*math.Pi*turns/p.panels)
}

// sector is a part of a ring that hangs down from the origin; with no inner
// radius it is a godet.
func (p *piece) sector(inner, outer, angle float64) {
	from, to := -math.Pi/2-angle/2, -math.Pi/2+angle/2
	hem := arc(outer, from, to)
	in := arc(inner, to, from)
	right := []point{hem[len(hem)-1], in[0]}
	left := []point{in[len(in)-1], hem[0]}
	if inner > 0 {
		p.edges = append(p.edges, &edge{name: "waist", path: in})
	}
	p.edges = append(p.edges, &edge{name: "left", path: left, straight: true},
		&edge{name: "hem", path: hem}, &edge{name: "right", path: right, straight: true})
}

// measure measures the edges of a piece, darts and pleats closed.
func (g *garment) measure(p *piece) {
	for _, e := range p.edges {
		e.length = pathLength(e.path)
		for _, d := range p.darts {
			if d.edge == e.name && !d.dropped {
				e.intake += d.width
			}
		}
		for _, d := range p.pleats {
			if d.edge != e.name {
				continue
			}
			if d.into > 0 && p.half {
				e.intake += e.length - d.into/2
			} else if d.into > 0 {
				into := d.into
				before, _, after := p.neighbours(e.name)
				if p.half && (before.fold || after.fold) { // both halves of it
					into /= 2
				}
				e.intake += e.length - into
			}
			e.intake += 2 * d.depth * d.count
		}
		for _, in := range p.letIn {
			if in.closes(e.name) {
				e.intake += in.takes
			}
		}
		for _, d := range p.gathers {
			if d.edge == e.name && d.into > 0 {
				into := d.into
				before, _, after := p.neighbours(e.name)
				if p.half && (before.fold || after.fold) { // both halves of it
					into /= 2
				}
				e.intake += e.length - into
			} else if d.edge == e.name {
				e.intake += e.length - e.length/d.ratio
			}
		}
		e.sewn = e.length - e.intake
		if by, any := g.widened(p, e); any {
			e.sewn += by
			e.placketed = true
		}
	}
}
