package label

import (
	"slices"
	"strings"

	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// componentShares works out what part of the garment's textile mass each
// component is: what the law leaves out is left out.
func (w *reading) componentShares(c *Content) {
	var masses []*figure.Figure
	for i := range c.Components {
		masses = append(masses, &c.Components[i].Mass)
	}
	c.Mass = w.sum("content.mass", say.Of("label.weight-of-the-textile-parts"), measure.UnitG, masses, say.Of("label.nothing-textile-is-in-it"), say.Of("label.of-its-components-what-the-law-leaves"))
	all := &c.Mass
	for _, u := range c.Unknown {
		all.Value = figure.Value{Why: say.Of("label.the-fibres-of-the-are-not-known", u.Part)}
	}
	for i := range c.Components {
		k := &c.Components[i]
		t := w.Of("component", &k.Mass).Over(w.Of(say.Of("label.all-components"), all))
		switch {
		case len(c.Components) == 1 && len(c.Unknown) == 0:
			w.Note(t)
			t = w.Found(say.Of("label.it-is-the-only-component"), 100, measure.UnitPercent)
		case !all.Value.Known():
			w.Note(t)
			t = t.Unless(all.Value.Why)
		case k.Mass.Value.Known() && !t.Known():
			t = t.Unless(say.Of("label.it-weighs-nothing"))
		}
		id := strings.TrimSuffix(k.Mass.ID, ".mass") + ".share"
		k.Share = w.Figure(id, say.Of("label.share-of-the-garment"), strings.Join(k.Parts, " and "), t, measure.UnitPercent, say.Of("label.weight-of-the-component-by-weight-of"), figure.Derived)
	}
}

// decide says whether the law would have a component on a label.
func (k *Component) decide(market string) {
	if market == "us" {
		k.Must = !k.Lining
		k.Why = say.Of("label.outer-cloth")
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
		k.Why = say.Of("label.its-share-is-not-known-so-it")
	case k.Must:
		k.Why = "30 % of the garment or more (art. 11(2))"
	default:
		k.Why = "under 30 % of the garment and no main lining: need not be stated (art. 11(2)); stated for information"
	}
}

// wholeContent adds the fibres up over all components, by mass.
func (w *reading) wholeContent(c *Content) {
	if len(c.Unknown) > 0 {
		c.WholeWhy = say.Of("label.the-fibres-of-the-are-not-known", c.Unknown[0].Part)
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
			t := w.Of(strings.Join(k.Parts, " and "), &k.Share).Times(w.Of(f.Name, &f.Percent))
			part := f
			part.terms = []figure.Term{t}
			part.Percent = w.Figure("content.whole."+plainID(f.Name), say.Of("label.share-of", f.Name), w.b.Name.V, t, measure.UnitPercent, say.Of("label.share-of-the-component-times-share-of"), figure.Derived)
			out = append(out, part)
		}
	}
	out = w.foldNames(out)
	if c.Market == "us" {
		out = w.foldSmall(out)
	}
	c.Whole = labelled(out, 0)
}

// The words for parts of animal origin that are no textile: Regulation (EU) No
// 1007/2011, art. 12.
var animalWords = []string{"leather", "suede", "fur", "horn", "feather", "feathers", "bone", "down", "mother of pearl", "shell", "antler"}

// Of these no sort is held up at borders that garments have: cattle's horn and bone.
// Common practice, no source.
var passedWords = []string{"horn", "bone"}

// animalParts names what in a garment is of animal origin and no textile, and whether
// borders ask for papers of some of that kind.
func animalParts(g *garment.Garment) (out []string, held bool) {
	add := func(what, material string) {
		for _, word := range animalWords {
			if holdsWord(material, word) {
				out = append(out, what+" ("+word+")")
				held = held || !slices.Contains(passedWords, word)
				return
			}
		}
	}
	for _, n := range g.Notions {
		add(n.Record.Name.V, words.Plain(n.Record.Material.V))
	}
	for _, c := range g.Cloths {
		if c.Cloth != nil && c.Cloth.Structure.V == "leather" {
			out, held = append(out, say.Of("label.leather", c.Part)), true
		}
	}
	return out, held
}

// holdsWord reports whether a text holds a word, or words, whole.
func holdsWord(text, word string) bool {
	return strings.Contains(" "+text+" ", " "+word+" ")
}

// Figures are the figures of a content, in order.
func (c *Content) Figures() []figure.Figure {
	out := figure.NewGatherer(16)
	out.Add(&c.Mass)
	for i := range c.Components {
		k := &c.Components[i]
		out.Add(&k.Mass, &k.Share)
		for j := range k.Fibres {
			out.Add(&k.Fibres[j].Percent)
		}
	}
	for i := range c.Whole {
		out.Add(&c.Whole[i].Percent)
	}
	return out.Figures()
}
