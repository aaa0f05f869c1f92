package abacus

import (
	"math"
	"slices"
	"strings"
)

// drawBand draws a straight strip as long as the edges that its bottom is sewn to, each as
// often as it is there, shared out among the bands; by its share where one is written, and
// its lap added. One that is folded is drawn twice as wide, with a line between.
func (g *garment) drawBand(p *piece, v node, name string) {
	p.bandRecord = v.get("band")
	band := p.bandRecord.of("width")
	wide := band.length(g.units)
	if p.bandRecord.get("folded").yes() {
		p.lines = append(p.lines, pieceLine{"fold", readYAML(name, band.text()+" inside bottom")})
		wide *= 2
	}
	p.band = p.bandRecord.get("length").lengthOr(g.units, 0)
	if p.band == 0 {
		p.band = g.alongBand(v, name)*numberOr(p.bandRecord.get("share"), 1) + p.bandRecord.get("lap").lengthOr(g.units, 0)
	}
	p.polygon([]string{"bottom", "right", "top", "left"}, point{0, 0}, point{p.band, 0}, point{p.band, wide}, point{0, wide})
}

// alongBand is how long the edges are together that one band is sewn to.
func (g *garment) alongBand(v node, name string) float64 {
	count := 1.0
	if cut := v.get("cut"); cut.there() {
		n, _ := mixed(strings.Fields(cut.text())[0])
		count = n
	}
	for _, s := range seamsOf(g.build.get("seams")) {
		join := s.node.of("join").list()
		for side := range join {
			if t := join[side].texts(); len(t) != 1 || t[0] != name+".bottom" {
				continue
			}
			sum := 0.0
			for _, t := range join[1-side].texts() {
				piece, edge, _ := strings.Cut(t, ".")
				of := g.makePiece(piece)
				g.measure(of)
				sum += of.edge(edge).sewn * of.occurs()
			}
			if f := s.node.get("gather"); f.there() {
				sum /= f.number()
			}
			return sum / count
		}
	}
	giveUp("the band %s is in no seam", name)
	return 0
}

// findBand finds a band that a seam sews on by its bottom.
func (s *seam) findBand() {
	for side, uses := range s.sides {
		if len(uses) == 1 && uses[0].p.bandRecord.there() && uses[0].e.name == "bottom" {
			s.band, s.bandOn, s.lapOn = uses[0].p.bandRecord, side, side
		}
	}
}

// bandNames are what bands are called.
var bandNames = []string{"band", "waistband", "neckband", "cuff", "collar", "stand", "belt"}

// looksLikeBand: 2 for the edge of a band, 1 for that of a piece called like one.
func looksLikeBand(uses []use) (rank int) {
	for _, u := range uses {
		if u.p.bandRecord.there() {
			return 2
		}
		for _, word := range strings.Fields(strings.ReplaceAll(u.p.name, "-", " ")) {
			if slices.Contains(bandNames, strings.TrimSuffix(word, "s")) {
				rank = 1
			}
		}
	}
	return rank
}

// settleSides finds which side is the band: what is one or is called so, else what is
// longer by the overlap. Of a type with a side for the band it is put there.
func (s *seam) settleSides(units string) {
	a, b, on := looksLikeBand(s.sides[0]), looksLikeBand(s.sides[1]), -1
	switch lap := s.record.get("overlap"); {
	case a != b && a > b:
		on = 0
	case a != b:
		on = 1
	case lap.there():
		x, y := s.apartIf(0, lap.length(units), units), s.apartIf(1, lap.length(units), units)
		if x < y-1e-6 {
			on = 0
		} else if y < x-1e-6 {
			on = 1
		}
	}
	if want := s.kind.bandOn; want >= 0 && on >= 0 && want != on {
		s.sides[0], s.sides[1] = s.sides[1], s.sides[0]
		on = want
	}
	s.lapOn = max(on, 0)
}

// apartIf is how far the sides are from what is meant if this one laps.
func (s *seam) apartIf(side int, lap float64, units string) float64 {
	var sum [2]float64
	for i, uses := range s.sides {
		for _, u := range uses {
			times := u.p.occurs()
			if len(s.sides[0]) == 1 && len(s.sides[1]) == 1 && s.sides[0][0].p.occurs() == s.sides[1][0].p.occurs() {
				times = 1
			}
			sum[i] += u.e.sewn * times
		}
	}
	long, other := sum[side]-lap, sum[1-side]
	switch {
	case s.record.get("gather").there():
		return math.Abs(other - s.record.get("gather").number()*long)
	case s.record.get("ease").there():
		return math.Abs(math.Abs(long-other) - math.Abs(s.record.get("ease").length(units)))
	}
	return math.Abs(long - other)
}

// foldBand finds the inner edge of a folded band, opposite to the one that is sewn, and
// gives a measure that is as wide as the band its width: as the band says, or half of a
// rectangle.
func (g *garment) foldBand(s *seam) {
	for side, uses := range s.sides {
		if len(uses) != 1 {
			continue
		}
		p, e := uses[0].p, uses[0].e
		folded := p.bandRecord.get("folded").yes() && e.name == "bottom"
		if !folded && (s.kind.bandWide == "" || s.kind.bandOn != side || !p.rectangle || len(p.of) > 1) {
			continue
		}
		at := slices.Index(p.edges, e)
		inner := p.edges[(at+2)%4]
		if len(inner.needs) > 0 || len(inner.finished) > 0 {
			continue
		}
		if inner.innerOf == nil {
			inner.innerOf, inner.innerOn = s, side
		}
		if name := s.kind.bandWide; name != "" && !s.record.get(name).there() {
			s.names[name] = p.edges[(at+1)%4].length / 2
		}
	}
}
