package abacus

import (
	"slices"
	"strconv"
	"strings"
)

// A pieceOf is a piece that a seam type brings: its sides are formulas of its measures, and
// of how long the edge is.
type pieceOf struct {
	what, cut, length, of string
	folds                 []string
	count                 float64
}

// line is a line on a piece by its name; nil where it has none so called.
func (p *piece) line(name string) *pieceLine {
	if k := slices.IndexFunc(p.lines, func(l pieceLine) bool { return l.name == name }); k >= 0 {
		return &p.lines[k]
	}
	return nil
}

// finishedEdge is an edge or a line that a finish names; a slit has two sides.
func (g *garment) finishedEdge(text string) (*piece, *edge, float64) {
	name, word, _ := strings.Cut(text, ".")
	p := g.piece(name)
	l := p.line(word)
	if l == nil {
		return p, p.edge(word), 1
	}
	e := &edge{name: word, straight: true, length: g.lineLength(p, l.at)}
	e.sewn = e.length
	if l.at.get("slit").yes() {
		return p, e, 2
	}
	return p, e, 1
}

// widened is by how much the slits that are cut from an edge make it longer, as they are
// finished.
func (g *garment) widened(p *piece, e *edge) (by float64, any bool) {
	for _, v := range g.build.get("finishes").named() {
		kind := g.types[v.get("type").text()]
		if kind.widens == "" {
			continue
		}
		for _, t := range v.get("of").texts() {
			name, word, _ := strings.Cut(t, ".")
			l := p.line(word)
			if name != p.name || l == nil || !l.at.get("slit").yes() {
				continue
			}
			from, _, _ := strings.Cut(l.at.get("from").text(), " at ")
			if from != e.name {
				continue
			}
			_, names := g.kindOf(v.node, nil)
			by, any = by+evaluate(kind.widens, names), true
		}
	}
	return by, any
}

// bring adds the pieces that seams and finishes bring, each cut to its size.
func (g *garment) bring(out Figures) {
	for _, s := range g.seams {
		g.bringOf(out, "seam."+s.slug+".", s.name, s.strip, s.kind, s.names, s.length, s.times)
	}
	for _, f := range g.finishes {
		if f.places > 0 && len(f.kind.pieces) > 0 {
			n := 0.0
			for _, u := range f.uses {
				n += u.n
			}
			g.bringOf(out, "finish."+f.slug+".", f.name, f.strip, f.kind, f.names, f.total/n, f.places)
		}
	}
}

func (g *garment) bringOf(out Figures, id, name, strip string, kind seamType, measures map[string]float64, along, places float64) {
	for i, k := range kind.pieces {
		names := map[string]float64{"along": along}
		for n, v := range measures {
			names[n] = v
		}
		wide, long := evaluate(k.cut, names), evaluate(k.length, names)
		at := id + "piece-" + itoa(i+1) + "."
		out.put(at+"cut", wide, "mm")
		out.put(at+"each", long, "mm")
		out.put(at+"length", long*places*k.count/1000, "m")
		p := &piece{name: k.what + " of " + name, count: places * k.count, alike: true, said: true, levels: map[string]float64{}, allowance: readYAML("0", "0")}
		p.slug = slug(p.name)
		switch {
		case strip != "":
			p.of = []string{strip}
		case slices.Contains(g.parts, k.of):
			p.of = []string{k.of}
		default:
			p.of = g.parts[:1]
		}
		p.polygon([]string{"bottom", "right", "top", "left"}, point{0, 0}, point{wide, 0}, point{wide, long}, point{0, long})
		for n, fold := range k.folds {
			if v := evaluate(fold, names); v > 0 && v < wide {
				called := []string{"fold", "second fold", "fold 3", "fold 4"}[n]
				p.lines = append(p.lines, pieceLine{called, readYAML("fold", number(v)+" mm inside left")})
			}
		}
		for _, e := range p.edges {
			e.length = pathLength(e.path)
			e.sewn = e.length
		}
		g.pieces = append(g.pieces, p)
	}
}

func number(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
