package abacus

import (
	"math"
	"slices"
	"strconv"
)

func itoa(n int) string { return strconv.Itoa(n) }

// A strip is what a seam, a finish or the record itself wants cut on the bias.
type strip struct {
	part        string
	cut, length float64 // mm
}

func (g *garment) strips() []strip {
	var out []strip
	for _, s := range g.seams {
		for _, k := range s.kind.strips {
			if !k.bought() {
				out = append(out, strip{s.strip, evaluate(k.cut, s.names), s.sewn() * k.count * shareOf(s.record, k)})
			}
		}
	}
	for _, f := range g.finishes {
		for _, k := range f.kind.strips {
			if !k.bought() {
				if length, _, known := g.stripOf(f, k); known {
					out = append(out, strip{f.strip, evaluate(k.cut, f.names), length})
				}
			}
		}
	}
	for _, b := range g.build.get("bias").named() {
		cut, length := g.bias(b.node)
		out = append(out, strip{textOr(b.get("from"), g.parts[0]), cut, length})
	}
	return out
}

// shareOf is how long a strip is for one of its edge: as the record says, else as its
// type does.
func shareOf(record node, k stripOf) float64 { return numberOr(record.get("share"), k.share) }

// drawnBy is how long an edge is, for one of its length, when its elastic or ribbing has
// drawn it in.
func (g *garment) drawnBy(f *finish) float64 {
	for _, k := range f.kind.strips {
		if k.drawsIn() {
			length, _, known := g.stripOf(f, k)
			if !known {
				return math.NaN()
			}
			return length / f.total
		}
	}
	return 1
}

// stripOf is how long the strips of a finish are in all, and one of them: as long as the
// record says, or as its type does of the line that it runs along, or a share of it. The
// second is not told where it follows from the first alone.
func (g *garment) stripOf(f *finish, k stripOf) (all, each float64, known bool) {
	lines, counted := g.linesOf(f)
	own := f.record.get("length")
	switch {
	case own.there() && k.drawsIn():
		each = own.length(g.units)
	case k.each != "":
		names := map[string]float64{"along": f.total / lines}
		for n, v := range f.names {
			names[n] = v
		}
		each = evaluate(k.each, names)
	default:
		share := shareOf(f.record, k)
		if counted && share != 1 {
			each = f.total / lines * share
		}
		return f.total * k.count * share, each, true
	}
	return each * lines * k.count, each, counted
}

// linesOf is how many lines the edges of a finish make end to end: the two halves at a
// fold are one, and so are edges side by side of one piece. Where something is sewn or
// buttoned to the edges beside them they may go on there, which is not followed here.
func (g *garment) linesOf(f *finish) (n float64, known bool) {
	mine := func(e *edge) bool { return slices.ContainsFunc(f.uses, func(u use) bool { return u.e == e }) }
	for _, u := range f.uses {
		if u.p.line(u.e.name) != nil || stiffening(u.p.sewnIn()[0]) { // what is stiffening alone is sewn to nothing
			return 0, false
		}
		before, _, after := u.p.neighbours(u.e.name)
		switch {
		case g.sewnOver(u.p) || g.goesOn(u.p, before) || g.goesOn(u.p, after) || g.goesOn(u.p, u.e) || mine(before) && mine(after):
			return 0, false
		case mine(before) && !before.fold: // counted with that one
			continue
		}
		last := after // at the end of the line that begins here
		for mine(last) {
			_, _, last = u.p.neighbours(last.name)
		}
		if lines := u.n; u.p.half && (before.fold || last.fold) {
			n += lines / 2
		} else {
			n += lines
		}
	}
	return n, n > 0
}

// sewnOver reports whether an edge of a piece stands on both sides of a seam of several: it
// would lie under itself, and how its piece goes on beside it nobody can say.
func (g *garment) sewnOver(p *piece) bool {
	return slices.ContainsFunc(g.seams, func(s *seam) bool {
		return len(s.sides[0])+len(s.sides[1]) > 2 && slices.ContainsFunc(s.sides[0], func(u use) bool {
			return u.p == p && slices.ContainsFunc(s.sides[1], func(o use) bool { return o.e == u.e })
		})
	})
}

// goesOn reports whether something is sewn or buttoned to an edge.
func (g *garment) goesOn(p *piece, e *edge) bool {
	return g.isJoined(e) || slices.ContainsFunc(g.build.get("notions").named(), func(v named) bool {
		return v.get("along").text() == p.name+"."+e.name
	})
}

// bias is the cut width and the length of a strip that the record asks for. A
// binding is cut four times its finished width, a doubled one six times; each
// join takes two allowances of 6 mm across a slant of 45°.
func (g *garment) bias(b node) (cut, length float64) {
	if b.get("cut").there() {
		cut = b.get("cut").length(g.units)
	} else {
		times := 4.0
		if b.get("binding").text() == "double" {
			times = 6
		}
		cut = times * b.get("finished").length(g.units)
	}
	length = b.get("length").length(g.units) + numberOr(b.get("joins"), 0)*2*6*math.Sqrt2 + b.get("overlap").lengthOr(g.units, 0)
	return cut, length
}

func (g *garment) stripFigures(out Figures) {
	for _, s := range g.seams {
		for i, k := range s.kind.strips {
			at := "seam." + s.slug + ".strip-" + itoa(i+1) + "."
			out.put(at+"cut", evaluate(k.cut, s.names), "mm")
			out.put(at+"length", s.sewn()*k.count*shareOf(s.record, k)/1000, "m")
		}
	}
	for _, f := range g.finishes {
		for i, k := range f.kind.strips {
			at := "finish." + f.slug + ".strip-" + itoa(i+1) + "."
			out.put(at+"cut", evaluate(k.cut, f.names), "mm")
			all, each, known := g.stripOf(f, k)
			if known {
				out.put(at+"length", all/1000, "m")
			}
			if known && each > 0 {
				out.put(at+"each", each, "mm")
			}
		}
		if share := g.drawnBy(f); share != 1 && !math.IsNaN(share) {
			out.put("finish."+f.slug+".drawn", share, "×")
		}
	}
	for _, b := range g.build.get("bias").named() {
		id := "bias." + slug(b.name) + "."
		cut, length := g.bias(b.node)
		out.put(id+"cut", cut, "mm")
		out.put(id+"length", length, "mm")
		out.put(id+"square", math.Sqrt(cut*length), "mm")
		out.put(id+"square-sewn", math.Sqrt(cut*length)+2*6, "mm")
	}
}

// clothArea is what is cut of a cloth, strips included, in mm².
func (g *garment) clothArea(part string) float64 {
	sum := 0.0
	for _, p := range g.pieces {
		if p.in(part) {
			_, cut := p.areas()
			sum += cut * p.count * p.plies(part)
		}
	}
	for _, s := range g.strips() {
		if s.part == part {
			sum += s.cut * s.length
		}
	}
	return sum
}

// clothMass is the mass of a cloth as cut, g.
func (g *garment) clothMass(part string) (float64, bool) {
	mass := g.cloths[part].get("weight")
	if !mass.there() {
		return 0, false
	}
	if g.cloths[part].get("weighed").text() == "washed" {
		return g.clothArea(part) / 1e6 * mass.grams(), true
	}
	shrink := g.cloths[part].get("shrink")
	weight := mass.grams() / (1 - numberOr(shrink.get("along"), 0)/100) / (1 - numberOr(shrink.get("across"), 0)/100)
	return g.clothArea(part) / 1e6 * weight, true
}

func (g *garment) clothFigures(out Figures) {
	for _, part := range g.parts {
		area, cut, length := 0.0, 0.0, 0.0
		pieces := 0
		for _, p := range g.pieces {
			if !p.in(part) {
				continue
			}
			pieces++
			a, c := p.areas()
			area += a * p.count * p.plies(part)
			cut += c * p.count * p.plies(part)
			for _, e := range p.edges {
				if e.allowance > 0 {
					length += e.length * p.occurs() * p.plies(part)
				}
			}
		}
		id := "cloth." + slug(part) + "."
		if pieces > 0 {
			out.put(id+"area", area/1e6, "m²")
			out.put(id+"pieces-cut", cut/1e6, "m²")
			out.put(id+"allowance", (cut-area)/1e6, "m²")
			out.put(id+"allowance-length", length/1000, "m")
			out.put(id+"share", (cut-area)/g.clothArea(part)*100, "%")
		}
		if whole := g.clothArea(part); whole > 0 {
			out.put(id+"cut-area", whole/1e6, "m²")
			if mass, known := g.clothMass(part); known {
				out.put(id+"mass", mass, "g")
			} else {
				out.unknown(id+"mass", "its mass is not written")
			}
		}
	}
}
