package abacus

import "strings"

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
			s.band, s.bandOn = uses[0].p.bandRecord, side
		}
	}
}
