package abacus

// contentFigures are the shares of each fibre in the whole garment, by mass
// of the cloths that the law counts: stiffening is left out.
func (g *garment) contentFigures(out Figures) {
	masses := map[string]float64{}
	sum := 0.0
	var names []string
	for _, part := range g.parts {
		if stiffening(part) || g.clothArea(part) == 0 {
			continue
		}
		mass, known := g.clothMass(part)
		if !known {
			return
		}
		fibres := g.cloths[part].get("fibres")
		for _, name := range fibres.words() {
			if _, seen := masses[name]; !seen {
				names = append(names, name)
			}
			masses[name] += mass * fibres.get(name).number() / 100
		}
		sum += mass
	}
	for _, name := range names {
		out.put("content."+slug(name), masses[name]/sum*100, "%")
	}
}
