package abacus

import (
	"math"
	"slices"
	"strings"
)

// A setPlace is where a seam sets a piece on another, drawn there all round.
type setPlace struct {
	name  string
	round float64
}

func cutAt(text string) (piece, edge string, is bool) { return strings.Cut(text, ".") }

// handOf takes the word left or right off what is named, where no piece is called so:
// then one half of the occurrences is meant.
func (g *garment) handOf(text string) (rest string, hand bool) {
	for _, word := range []string{"left ", "right "} {
		if rest, is := strings.CutPrefix(text, word); is {
			if name, _, _ := cutAt(text); !slices.Contains(g.build.get("pieces").words(), name) {
				return rest, true
			}
		}
	}
	return text, false
}

// handsOf are the names of a piece as it is worked with: of one of which an edge is named
// of one hand alone, a left one and a right one.
func (g *garment) handsOf(name string) []string {
	for _, group := range []string{"seams", "finishes"} {
		for _, v := range seamsOf(g.build.get(group)) {
			for _, side := range append(v.of("join").list(), v.get("of")) {
				for _, t := range side.texts() {
					if rest, hand := g.handOf(t); hand && strings.HasPrefix(rest, name+".") {
						return []string{"left " + name, "right " + name}
					}
				}
			}
		}
	}
	return []string{name}
}

// bothHands are edges, each of those pieces as that of the left and of the right one.
func (g *garment) bothHands(edges []string) (out []string) {
	for _, t := range edges {
		name, edge, _ := cutAt(t)
		for _, one := range g.handsOf(name) {
			out = append(out, one+"."+edge)
		}
	}
	return out
}

// setsOn reports whether a seam sets a piece on another at a place.
func setsOn(v node) bool { return v.get("at").there() }

// setOn sews on a piece, of which nothing but its place is said, by all edges that are
// sewn nowhere else.
func (g *garment) setOn(s *seam) {
	names := s.record.of("join").list()
	p := g.piece(names[0].text())
	of, hand := g.handOf(names[1].text())
	ground := g.piece(of)
	if hand && p.count != 1 || p.half || ground.half {
		giveUp("pieces set on one of a pair, or on the fold")
	}
	round := 0.0
	var uses []use
	for _, e := range p.edges {
		round += e.sewn
		if len(e.needs) == 0 && len(e.finished) == 0 {
			uses = append(uses, use{p: p, e: e, n: p.occurs()})
		}
	}
	ground.places = append(ground.places, setPlace{s.name, round})
	s.kind, s.names = g.kindOf(s.record, uses)
	for _, u := range uses {
		u.e.needs = append(u.e.needs, evaluate(s.kind.gives[0], s.names))
		s.length += u.e.sewn
	}
	s.sides[0] = uses
	s.sum = [2]float64{s.length, s.length}
	s.times = math.Min(p.occurs(), ground.occurs())
	s.lines = s.times
}

// crossFigures counts what lies on each other where a seam of two and two edges runs over
// the seam of the one two and that of the others. It knows how three seams lie: pressed
// open, each side lies on its own allowance; pressed to a side that nobody says, either may lie on both;
// lapped raw, one lies on the other.
func (g *garment) crossFigures(out Figures) {
	for _, s := range g.seams {
		if setsOn(s.record) || len(s.sides[0]) != 2 || len(s.sides[1]) != 2 || len(s.behind) > 0 {
			continue
		}
		one, two := g.endsOn(s.sides[0]), g.endsOn(s.sides[1])
		if one == nil || two == nil {
			continue
		}
		a, b := one.kind.plies, two.kind.plies
		switch s.record.get("type").text() {
		case "plain":
			out.put("seam."+s.slug+".crossing", 2*math.Max(a, b), "")
		case "plain-to-one-side":
			out.put("seam."+s.slug+".crossing", a+b+math.Max(a, b), "")
		case "lapped-raw":
			out.put("seam."+s.slug+".crossing", a+b, "")
		}
	}
}

// endsOn is the seam of two rectangles that ends between two of their edges; nil where
// there is none.
func (g *garment) endsOn(line []use) *seam {
	for _, u := range line {
		if !u.p.rectangle || u.p.count != 1 || len(u.p.of) != 1 {
			return nil
		}
	}
	for _, s := range g.seams {
		if setsOn(s.record) || len(s.sides[0]) != 1 || len(s.sides[1]) != 1 || len(s.behind) > 0 {
			continue
		}
		a, b := s.sides[0][0], s.sides[1][0]
		if a.p == line[0].p && b.p == line[1].p && a.e.name == "right" && b.e.name == "left" {
			return s
		}
	}
	return nil
}
