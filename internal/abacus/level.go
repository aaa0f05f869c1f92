package abacus

import (
	"math"
	"slices"
)

// girth is the width of one whole piece at a height, darts that are sewn
// there closed. It is not told where a dart leans so that folding it shut
// would turn the line.
func (p *piece) girth(y float64) (float64, bool) {
	width := widthAt(p.outline(), y)
	for _, d := range p.darts {
		if d.dropped {
			continue
		}
		left, right, tip := p.dartCorners(d)
		way := tip.sub(between(left, right, 0.5))
		lean := math.Abs(math.Atan2(way.x, way.y)) * 180 / math.Pi // from the vertical
		lean = math.Min(lean, 180-lean)
		taken := widthAt([]point{left, right, tip}, y)
		switch {
		case taken == 0:
		case lean < 30:
			width -= taken
		case lean > 60:
			// a dart that lies level takes length, not width
		default:
			return 0, false
		}
	}
	if p.half {
		width *= 2
	}
	return width, true
}

func (p *piece) dartCorners(d *dart) (left, right, tip point) {
	e := p.edge(d.edge)
	mid, way := along(e.path, d.at)
	left, _ = along(e.path, d.at-d.width/2)
	right, _ = along(e.path, d.at+d.width/2)
	tip = mid.sub(way.right().times(d.length))
	if d.point != nil {
		tip = *d.point
	}
	return left, right, tip
}

// shellPart is the cloth whose pieces go round the body outside.
func (g *garment) shellPart() string {
	if slices.Contains(g.parts, "shell") {
		return "shell"
	}
	return g.parts[0]
}

func (g *garment) levelFigures(out Figures) {
	sums := map[string]float64{}
	doubtful := map[string]bool{}
	var names []string
	note := func(name string) {
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	for _, p := range g.pieces {
		for _, name := range p.names {
			width, sure := p.girth(p.levels[name])
			if sure && width > 0 {
				out.put("piece."+p.slug+".level."+slug(name), width, "mm")
			}
			if p.in(g.shellPart()) {
				note(name)
				sums[name] += width * p.count
				doubtful[name] = doubtful[name] || !sure
			}
		}
		for i, d := range p.darts {
			if d.point == nil && !d.dropped {
				out.put("piece."+p.slug+".dart-"+itoa(i+1)+".leg", math.Hypot(d.width/2, d.length), "mm")
			}
		}
		for _, e := range p.edges {
			if e.level != "" && p.in(g.shellPart()) {
				note(e.level)
				sums[e.level] += e.sewn * p.occurs()
			}
		}
	}
	for _, name := range g.build.get("levels").words() { // those that no outline marks, and the record declares
		if width := g.build.get("levels").get(name).get("width"); width.there() && !slices.Contains(names, name) {
			note(name)
			sums[name] = width.length(g.units)
		}
	}
	for _, name := range names {
		if doubtful[name] {
			continue
		}
		g.girthFigures(out, name, sums[name])
	}
	lengths := g.build.get("lengths")
	for _, name := range lengths.words() {
		sum := 0.0
		for _, t := range lengths.get(name).of("along").texts() {
			_, e := g.edgeOf(t)
			sum += e.sewn
		}
		out.put("length."+slug(name)+".finished", sum, "mm")
	}
}

// girthFigures are the figures of a level of which the sewn width is known.
func (g *garment) girthFigures(out Figures, name string, sewn float64) {
	finished := sewn - g.build.get("levels").get(name).get("overlap").lengthOr(g.units, 0)
	id := "level." + slug(name) + "."
	out.put(id+"finished", finished, "mm")
	if body := g.build.get("drafted-for").get(name); body.there() {
		b := body.length(g.units)
		out.put(id+"drafted", b, "mm")
		out.put(id+"ease", finished-b, "mm")
		out.put(id+"ease-part", (finished-b)/b*100, "%")
	}
	if m := g.build.get("measured").get(name); m.there() {
		out.put(id+"measured", m.length(g.units), "mm")
		out.put(id+"off", m.length(g.units)-finished, "mm")
	}
}
