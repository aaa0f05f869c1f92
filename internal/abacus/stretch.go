package abacus

import "math"

// A give is how much wider a level becomes when its cloths are stretched by hand.
type give struct {
	more   float64 // mm
	says   bool    // a cloth there says how far it stretches
	unsaid bool    // for something there nobody can say
	stays  float64 // the most of a stretch that does not go back; NaN where a cloth does not say
}

// addGive adds what a width of a piece gives at a level.
func (g *garment) addGive(to map[string]*give, level string, p *piece, width float64) {
	at := to[level]
	if at == nil {
		at = &give{}
		to[level] = at
	}
	share, says, known := g.giveRound(p)
	stays := math.NaN()
	if back := g.cloths[p.of[0]].get("recovery"); back.there() {
		stays = 1 - back.number()/100
	}
	at.stays = math.Max(at.stays, stays) // NaN where either is
	at.more += width * share / 100
	at.says = at.says || says
	at.unsaid = at.unsaid || !known
}

// giveRound is what a piece gives from side to side, in per cent: of its cloth and the
// stiffening behind it the less.
func (g *garment) giveRound(p *piece) (share float64, says, known bool) {
	way := "across"
	if p.grain == "across" {
		way = "along"
	}
	share = math.Inf(1)
	for k, part := range p.of {
		if k > 0 && !stiffening(part) {
			continue
		}
		s := g.cloths[part].get("stretch")
		if own := numberOr(s.get(way), 0); own < share {
			share, says = own, s.there()
			known = s.get(way).there() || !s.there() && !g.mayGive(part)
		}
	}
	return share, says, known && p.grain != "bias"
}

// mayGive reports whether a cloth stretches though its file does not say how far.
func (g *garment) mayGive(part string) bool {
	f := g.cloths[part]
	if f.get("structure").there() && f.get("structure").text() == "knitted" {
		return true
	}
	return f.get("fibres").get("elastane").there()
}

// stretchFigures are those of a level of which the sewn width is known, where a cloth
// says that it stretches.
func (g *garment) stretchFigures(out Figures, name string, at *give) {
	if at == nil || !at.says || at.unsaid {
		return
	}
	id := "level." + slug(name) + "."
	finished := out[id+"finished"].Value
	out.put(id+"most", finished+at.more, "mm")
	body, drafted := out[id+"drafted"]
	if !drafted || finished >= body.Value {
		return
	}
	out.put(id+"worn", (body.Value-finished)/finished*100, "%")
	if !math.IsNaN(at.stays) {
		out.put(id+"stays", (body.Value-finished)*at.stays, "mm")
	}
}
