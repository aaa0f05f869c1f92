package label

import (
	"strings"

	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/trade"
)

// A Customs is what a customs form asks for and the record tells. What is
// private of it (value, addresses, countries) is not in here.
type Customs struct {
	HS     trade.HS      // six digits, or a bare heading
	Why    string        // why there is no heading; empty where there is one
	Group  string        // fibre group that predominates by mass
	Knit   bool          // the shell is knitted or crocheted
	Net    figure.Figure // net mass, kg, rounded up to 0.01
	Who    string        // woman, man, girl …: who it is for
	Fibres []FibrePart
}

// Customs works out the heading and the net mass of a garment.
func (t *Labeller) Customs(g *garment.Garment, c *Content) *Customs {
	out := &Customs{Who: g.Build.For.Who.V, Fibres: c.Whole}
	for _, cloth := range g.Cloths {
		if _, _, left := leftOut(cloth.Part); !left && !isLining(cloth.Part) && cloth.Cloth != nil {
			out.Knit = cloth.Cloth.Structure.V == "knitted"
			break
		}
	}
	out.heading(g, c)
	w := t.reading(g)
	w.Pad = figure.NewPad(measure.Style{}) // forms ask for kilograms, wherever they are written
	net := w.Of("weight of the garment", &g.Totals.Mass).Up(w.Constant(0.01, measure.UnitKG))
	out.Net = w.Figure("customs.net", "net weight", g.Build.Name.V, net, measure.UnitKG, "weight of the garment, rounded up to 0.01 kg", "our own rule")
	return out
}

// heading finds the heading of the Harmonized System.
func (out *Customs) heading(g *garment.Garment, c *Content) {
	var shares []trade.FibreShare
	for _, f := range c.Whole {
		if !f.Other {
			shares = append(shares, trade.FibreShare{Fibre: f.Fibre.Name, Share: f.Percent.Value.Number})
		}
	}
	if len(c.Whole) == 0 {
		out.Why = "which fibre predominates is not known: " + c.WholeWhy
		return
	}
	group, err := trade.PredominantGroup(shares)
	if err != nil {
		out.Why = err.Error()
		return
	}
	out.Group = group
	for _, name := range garmentNames(g.Build.Garment.V, out.Who) {
		hs, err := trade.HSHeading(name, out.Knit, group)
		if err == nil {
			out.HS, out.Why = hs, ""
			return
		}
		if out.Why == "" {
			out.Why = err.Error()
		}
	}
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
