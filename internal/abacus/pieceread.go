package abacus

import (
	"slices"
	"strings"
)

func (g *garment) makePieces() {
	for _, name := range g.build.get("pieces").words() {
		for _, one := range g.handsOf(name) {
			p := g.makePiece(one)
			p.slug = slug(p.name)
			g.measure(p)
			g.pieces = append(g.pieces, p)
		}
	}
}

// makePiece draws a piece by its name, that it is like first, with all the
// changes it has seen.
func (g *garment) makePiece(name string) *piece {
	v := g.recordOf(name)
	var p *piece
	if v.get("like").there() {
		p = g.makePiece(v.get("like").text())
	} else {
		p = &piece{count: 1, levels: map[string]float64{}, panels: 0}
		g.draw(p, v, name)
	}
	p.name = name
	if of := v.get("of"); of.there() {
		if v.get("like").there() && allLining(of.texts()) && !allLining(p.of) {
			p.lines = g.linesOfLining(p.lines, name)
		}
		p.of = of.texts()
	} else if p.of == nil {
		p.of = g.parts[:1]
	}
	if cut := v.get("cut"); cut.there() {
		p.readCut(cut.text())
		p.said = true
	}
	if grain := v.get("grain"); grain.there() {
		p.grain = grain.text()
	}
	if v.get("allowance").there() {
		p.allowance = v.get("allowance")
	}
	g.say(p, v.get("edges"))
	g.readFolds(p, v)
	p.callLevels()
	p.usualCut()
	for _, c := range v.get("change").named() {
		edge, dart := edgeOrDart(c.name)
		g.change(p, c.node, edge, dart)
	}
	if _, hand := g.handOf(name); hand {
		p.count /= 2
	}
	g.fit(p)
	return p
}

func (g *garment) recordOf(name string) node {
	v := g.build.get("pieces").get(name)
	if whole, hand := g.handOf(name); hand {
		v = g.build.get("pieces").get(whole)
	}
	if !v.there() {
		giveUp("no piece %q", name)
	}
	return v
}

// readCut reads "1", "1 on fold", "2", "4 alike".
func (p *piece) readCut(text string) {
	words := strings.Fields(text)
	n, ok := mixed(words[0])
	if !ok {
		giveUp("cut: %q", text)
	}
	p.count, p.half, p.alike = n, strings.Contains(text, "fold"), strings.Contains(text, "alike")
}

// usualCut is how a piece is cut of which nothing is said: one with a fold on it;
// a rectangle, trapezoid, sector or ring with nothing on it, which is its own
// mirror image, once. Whether another is its own is not worked out here.
func (p *piece) usualCut() {
	if p.said {
		return
	}
	p.half = slices.ContainsFunc(p.edges, func(e *edge) bool { return e.fold })
	if !p.half && p.drawnFreely {
		giveUp("whether %s is its own mirror image is not worked out here", p.name)
	}
}

// readFolds reads darts, pleats and levels; what is written replaces what the
// piece it is like has.
func (g *garment) readFolds(p *piece, v node) {
	p.drawnFreely = p.drawnFreely || v.get("darts").there() || v.get("pleats").there() || v.get("gathers").there() || v.get("notches").there() || v.get("lines").there()
	if v.get("darts").there() {
		p.darts = nil
		for _, d := range v.get("darts").named() {
			one := &dart{name: d.get("name").text(), edge: d.name, at: d.get("at").length(g.units),
				width: d.get("width").length(g.units), length: d.get("length").lengthOr(g.units, 0)}
			if d.get("point").there() {
				at := d.get("point").point(g.units)
				one.point = &at
			}
			p.darts = append(p.darts, one)
		}
	}
	if v.get("gathers").there() {
		p.gathers = nil
		for _, d := range v.get("gathers").named() {
			one := gather{edge: d.name, ratio: 2, into: d.get("into").lengthOr(g.units, 0), rows: numberOr(d.get("rows"), 2)}
			if n := d.node; !n.isMap() {
				one.ratio = n.number()
			} else if r := d.get("ratio"); r.there() {
				one.ratio = r.number()
			}
			p.gathers = append(p.gathers, one)
		}
	}
	if v.get("pleats").there() {
		p.pleats = nil
		for _, d := range v.get("pleats").named() {
			if !d.get("drawn").yes() {
				g.pleatIn(p, d)
				continue
			}
			one := pleat{d.name, 0, 0, numberOr(d.get("count"), 1)}
			if into := d.get("into"); into.there() {
				one.into = into.length(g.units)
			} else {
				one.depth = d.get("depth").length(g.units)
			}
			if kind := d.get("kind"); kind.there() && (kind.text() == "box" || kind.text() == "inverted") {
				one.depth *= 2 // they take twice what a knife pleat does
			}
			p.pleats = append(p.pleats, one)
		}
	}
	if v.get("lines").there() {
		p.lines = nil
		for _, l := range v.get("lines").named() {
			p.lines = append(p.lines, pieceLine{l.name, l.node})
		}
	}
	for _, name := range v.get("levels").words() {
		if _, known := p.levels[name]; !known {
			p.names = append(p.names, name)
		}
		p.levels[name] = v.get("levels").get(name).length(g.units)
	}
}

// say applies what `edges:` says of edges.
func (g *garment) say(p *piece, edges node) {
	for _, name := range edges.words() {
		e, v := p.edge(name), edges.get(name)
		switch {
		case v.text() == "fold":
			e.fold = true
			continue
		case !v.isMap():
			e.own = v
			continue
		}
		if v.get("allowance").there() {
			e.own = v.get("allowance")
		}
		e.level = textOr(v.get("level"), e.level)
		e.corner = textOr(v.get("corner"), e.corner)
		if v.get("fold").there() {
			e.fold = v.get("fold").yes()
		}
		e.name = textOr(v.get("name"), e.name)
	}
}

// levelNames are the levels of body and limbs that an edge may be called after.
var levelNames = strings.Split("chest,bust,underbust,waist,high hip,hip,seat,hem,upper arm,biceps,elbow,wrist,sleeve hem,thigh,knee,calf,ankle,leg hem", ",")

// callLevels: an edge called as a level lies at it, if nothing else is said of it,
// it is sewn and the piece has no height for that level.
func (p *piece) callLevels() {
	for _, e := range p.edges {
		name := strings.ReplaceAll(strings.ToLower(e.name), "-", " ")
		if _, higher := p.levels[name]; e.level == "" && !e.fold && slices.Contains(levelNames, name) && !higher {
			e.level = name
		}
	}
}

// liesAt reports whether the edge lies at a level.
func (e *edge) liesAt(level string) bool { return e.level == level && level != "none" }

// measured is a side of a piece, across it or along it, which may be written in repeats
// of the cloth as it is once washed.
func (g *garment) measured(piece, n node, across bool) float64 {
	number, repeats := strings.CutSuffix(strings.TrimSuffix(n.text(), "s"), " repeat")
	if !repeats {
		return n.length(g.units)
	}
	if grain := piece.get("grain"); grain.there() && grain.text() == "across" {
		across = !across
	}
	way, part := "along", g.parts[0]
	if across {
		way = "across"
	}
	if of := piece.get("of"); of.there() {
		part = of.texts()[0]
	}
	many, ok := mixed(number)
	cloth := g.cloths[part]
	if !ok || !cloth.get("repeat").get(way).there() {
		giveUp("%q is no length", n.text())
	}
	return many * cloth.get("repeat").get(way).length(g.shop) * (1 - numberOr(cloth.get("shrink").get(way), 0)/100)
}
