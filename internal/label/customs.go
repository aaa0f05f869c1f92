package label

import (
	"cmp"
	"strings"

	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/trade"
)

// A Customs is what a customs form asks for and the record tells. What is
// private of it (value, addresses, countries) is not in here.
type Customs struct {
	HS      trade.HS            // six digits, or a bare heading
	Why     string              // why there is no heading; empty where there is one
	Most    *trade.Predominance // which textile the garment counts as made of; nil where not known
	Pile    bool                // the shell has a pile or a raised surface
	Outer   bool                // there is a lining, and only the outer cloth was looked at
	Knit    bool                // the shell is knitted or crocheted
	Net     figure.Figure       // net mass, kg, rounded up to 0.01
	Weighed bool                // Net was weighed, and not worked out
	Who     string              // woman, man, girl …: who it is for
	Fibres  []FibrePart
}

// Customs works out the heading and the net mass of a garment.
func (t *Labeller) Customs(g *garment.Garment, c *Content) *Customs {
	out := &Customs{Who: g.Build.For.Who.V, Fibres: c.Whole}
	for _, cloth := range g.Cloths {
		if _, _, left := leftOut(cloth.Part); !left && !isLining(cloth.Part) && cloth.Cloth != nil {
			out.Knit = cloth.Cloth.Structure.V == "knitted"
			out.Pile = cloth.Cloth.Surface.V == string(trade.RaisedSurface)
			break
		}
	}
	out.heading(g, c)
	w := t.reading(g)
	w.Pad = figure.NewPad(measure.Style{}) // forms ask for kilograms, wherever they are written
	net, rule := w.Of(say.Of("label.weight-of-the-garment"), &g.Totals.Mass), say.Of("label.weight-of-the-garment-rounded-up-to")
	if usual, ok := usualTrims(w, g); ok {
		net, rule = usual, say.Of("label.weight-of-the-garment-and-what-its")
	}
	out.Weighed = g.Build.Packet.Net.Given()
	if weighed := g.Build.Packet.Net; weighed.Given() {
		net, rule = w.Written(say.Of("label.net-on-the-scale"), float64(weighed.V), measure.UnitG, weighed.At), say.Of("label.as-weighed-rounded-up-to-0-01")
	}
	out.Net = w.Figure("customs.net", say.Of("label.net-weight"), g.Build.Name.V, net.Up(w.Constant(0.01, measure.UnitKG)), measure.UnitKG, rule, "our own rule")
	return out
}

// heading finds the heading of the Harmonized System.
func (out *Customs) heading(g *garment.Garment, c *Content) {
	shares, why := out.shares(c)
	if why != "" {
		out.Why = say.Of("label.which-fibre-predominates-is-not-known", why)
		return
	}
	most, err := trade.Predominant(shares)
	if err != nil {
		out.Why = err.Error()
		return
	}
	out.Most = most
	for _, name := range garmentNames(g.Build.Garment.V, out.Who) {
		hs, err := trade.HSHeading(name, out.Knit, most.Group)
		if err == nil {
			out.HS, out.Why = hs, ""
			return
		}
		out.Why = err.Error() // the last is the maker's own word: nobody wrote "men's top"
	}
}

// shares are the fibres of the part that decides: a lining does not. Source:
// HTSUS, Section XI, subheading note 2(B)(a) (its text as in the HS).
func (out *Customs) shares(c *Content) (shares []trade.FibreShare, why string) {
	var outer []*Component
	for i := range c.Components {
		if !c.Components[i].Lining {
			outer = append(outer, &c.Components[i])
		}
	}
	if len(outer) == 0 {
		return nil, cmp.Or(c.WholeWhy, say.Of("label.the-record-names-no-outer-cloth"))
	}
	out.Outer = len(outer) < len(c.Components)
	for _, u := range c.Unknown {
		if !isLining(u.Part) {
			return nil, say.Of("label.the-fibres-of-the-are-not-known", u.Part)
		}
	}
	sum := 0.0
	for _, k := range outer {
		if !k.Mass.Value.Known() && len(outer) > 1 {
			return nil, k.Mass.Value.Why
		}
		sum += k.Mass.Value.Number
	}
	if sum == 0 && len(outer) > 1 {
		return nil, say.Of("label.its-cloths-weigh-nothing")
	}
	for _, k := range outer {
		part := 1.0
		if len(outer) > 1 {
			part = k.Mass.Value.Number / sum
		}
		for _, f := range k.Fibres {
			if !f.Other {
				shares = append(shares, trade.FibreShare{Fibre: f.Fibre.Name, Share: part * f.Percent.Value.Number})
			}
		}
	}
	return shares, ""
}

// garmentNames are the names to look a garment up by, the narrowest first.
func garmentNames(kind, who string) []string {
	switch strings.ToLower(who) {
	case "man", "boy":
		return []string{"men's " + kind, kind}
	case "baby":
		return []string{"baby " + kind, "baby's garment"}
	}
	return []string{kind}
}
