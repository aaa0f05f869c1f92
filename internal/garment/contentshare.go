package garment

import (
	"strings"

	"hembook/internal/measure"
	"hembook/internal/trade"
)

// componentShares works out what part of the garment's textile mass each
// component is: what the law leaves out is left out.
func (w *work) componentShares(c *Content) {
	var masses []*Figure
	for i := range c.Components {
		masses = append(masses, &c.Components[i].Mass)
	}
	all := w.sum("content.mass", "mass of the textile components", measure.UnitG, masses, "nothing textile is in it", "Σ of its components; what the law leaves out is left out")
	for _, u := range c.Unknown {
		all.Value = unknown("the fibres of the " + u.Part + " are not known")
	}
	for i := range c.Components {
		k := &c.Components[i]
		w.figureIn("component", &k.Mass).figureIn("all components", &all)
		v := unknown(all.Value.Why)
		if len(c.Components) == 1 && len(c.Unknown) == 0 {
			v = valueIn(100, measure.UnitPercent)
			w.s("it is the only component: 100 %")
		} else if all.Value.Known() && all.Value.Number > 0 {
			v = valueIn(100*k.Mass.Value.Number/all.Value.Number, measure.UnitPercent)
			w.s("100 × ").n(k.Mass.Value.Number).s(" ÷ ").n(all.Value.Number).s(" = ").n(v.Number).s(" %")
		} else if all.Value.Known() {
			v = unknown("it weighs nothing")
		}
		id := strings.TrimSuffix(k.Mass.ID, ".mass") + ".share"
		k.Share = w.figure(id, "share of the garment", strings.Join(k.Parts, " and "), v, "100 × mass of the component ÷ mass of all components", derived)
	}
}

// decide says whether the law would have a component on a label.
func (k *Component) decide(market string) {
	if market == "us" {
		k.Must = !k.Lining
		k.Why = "outer cloth"
		if k.Lining {
			k.Why = "a lining is left out unless it is there for warmth (15 U.S.C. 70j(a)); it is stated for information"
		}
		return
	}
	share := -1.0
	if k.Share.Value.Known() {
		share = k.Share.Value.Number
	}
	k.Must = trade.MustLabel(share, k.Main)
	switch {
	case k.Main:
		k.Why = "a main lining is stated whatever its share (art. 11(2))"
	case share < 0:
		k.Why = "its share is not known, so it is stated"
	case k.Must:
		k.Why = "30 % of the garment or more (art. 11(2))"
	default:
		k.Why = "under 30 % of the garment and no main lining: need not be stated (art. 11(2)); stated for information"
	}
}

// wholeContent adds the fibres up over all components, by mass.
func (w *work) wholeContent(c *Content) {
	if len(c.Unknown) > 0 {
		c.WholeWhy = "the fibres of the " + c.Unknown[0].Part + " are not known"
		return
	}
	for i := range c.Components {
		if k := &c.Components[i]; !k.Share.Value.Known() {
			c.WholeWhy = k.Share.Value.Why
			return
		}
	}
	var out []FibrePart
	for i := range c.Components {
		k := &c.Components[i]
		for _, f := range k.Fibres {
			share := k.Share.Value.Number * f.Percent.Value.Number / 100
			sum := w.n(k.Share.Value.Number).s(" % × ").n(f.Percent.Value.Number).s(" % = ").n(share).s(" %").end()
			w.figureIn(strings.Join(k.Parts, " and "), &k.Share).figureIn(f.Name, &f.Percent)
			w.s(sum)
			part := f
			part.Percent = w.figure("content.whole."+plainID(f.Name), "share of "+f.Name, w.b.Name.V, valueIn(share, measure.UnitPercent), "Σ share of the component × share of the fibre in it", derived)
			out = append(out, part)
		}
	}
	out = foldNames(out)
	if c.Market == "us" {
		out = foldSmall(out)
	}
	c.Whole = labelled(out, 0)
}

// The words for parts of animal origin that are no textile: Regulation (EU) No
// 1007/2011, art. 12.
var animalWords = []string{"leather", "suede", "fur", "horn", "feather", "feathers", "bone", "down", "mother of pearl", "shell", "antler"}

// animalParts names what in a garment is of animal origin and no textile.
func animalParts(g *Garment) []string {
	var out []string
	add := func(what, material string) {
		for _, word := range animalWords {
			if holdsWord(material, word) {
				out = append(out, what+" ("+word+")")
				return
			}
		}
	}
	for _, n := range g.Notions {
		add(n.Record.What.V, plainName(n.Record.Material.V))
	}
	for _, c := range g.Cloths {
		if c.Cloth != nil && c.Cloth.Structure.V == "leather" {
			out = append(out, c.Part+" (leather)")
		}
	}
	return out
}

// holdsWord reports whether a text holds a word, or words, whole.
func holdsWord(text, word string) bool {
	return strings.Contains(" "+text+" ", " "+word+" ")
}

// Figures are the figures of a content, in order.
func (c *Content) Figures() []Figure {
	out := &gatherer{seen: map[string]bool{}}
	for i := range c.Components {
		k := &c.Components[i]
		out.add(&k.Mass, &k.Share)
		for j := range k.Fibres {
			out.add(&k.Fibres[j].Percent)
		}
	}
	for i := range c.Whole {
		out.add(&c.Whole[i].Percent)
	}
	return out.list
}
