package sheet

import (
	"strings"

	"hembook/internal/compose"
	"hembook/internal/document"
	"hembook/internal/trade"
)

// inTheBox is the list to tick while packing and unpacking.
func inTheBox(c *composer, _ nothingOpened) {
	c.title(c.t.say("sheet.box") + " · " + c.t.say("box.about"))
	c.unfinished()
	var ticks document.Ticks
	tick := func(text string) {
		ticks.Items = append(ticks.Items, document.Tick{Phrase: c.Phrase(document.Say(upper(text)))})
	}
	for _, item := range c.points(c.build.Packet.Box).Items {
		last := len(item.Phrase) - 1
		item.Phrase[last].Words = upper(item.Phrase[last].Words)
		ticks.Items = append(ticks.Items, document.Tick{Phrase: item.Phrase})
	}
	if len(ticks.Items) == 0 {
		tick(c.t.say("box.garment"))
	}
	var papers []string
	for _, name := range c.papers {
		papers = append(papers, c.t.say("sheet."+name))
	}
	tick(c.says(c.t.say("box.sheets"), c.Joined(papers)))
	c.Add(ticks, c.signature(c.t.say("box.found"), "", ""))
	c.checked()
	c.hanging()
	c.weights()
	c.Add(document.Columns{Of: [][]document.Block{c.Within(c.putAway), c.Within(c.happens)}})
	c.despite("check", "flame", "child")
}

// signature is a line to sign and one to date, or who signed and when.
func (c *writer) signature(says, name, day string) document.FillIn {
	return document.FillIn{Says: says, Fields: []document.Field{
		{Name: c.t.say("paper.signed"), Value: name, Share: 62}, {Name: c.t.say("paper.date"), Value: day, Share: 30},
	}}
}

// checked is the check for pins and needles, as signed.
func (c *composer) checked() {
	c.heading("box.checked")
	p := &c.build.Packet.Checked
	if !p.By.Given() {
		c.caution(c.t.say("box.unsigned"))
		return
	}
	var ticks document.Ticks
	tick := func(text string) {
		ticks.Items = append(ticks.Items, document.Tick{Phrase: c.Phrase(document.Say(upper(text))), Done: true})
	}
	if p.Out.Given() && p.In.Given() {
		tick(c.t.say("box.pins", "n", p.Out.V, "in", p.In.V))
	}
	switch p.Needles.V {
	case "none broken":
		tick(c.t.say("box.needles"))
	case "all pieces found":
		tick(c.t.say("box.pieces"))
	}
	if p.Magnet.V {
		tick(c.t.say("box.magnet"))
	}
	day := ""
	if p.On.Given() {
		day = c.day(p.On.V)
	}
	c.Add(ticks, c.signature(c.t.say("box.checked"), p.By.V, day))
}

// weights are what the garment and the parcel weigh.
func (c *composer) weights() {
	var facts document.Facts
	mass := "box.mass"
	if c.customs.Weighed {
		mass = "box.mass-weighed"
	}
	if net := c.customs.Net; net.Value.Known() { // as on the customs form
		facts.Items = append(facts.Items, c.fact(c.t.say(mass), document.Say(c.mass(net.Value.Number*gramsPerKilogram))))
	}
	if p := c.build.Packet.Parcel; p.Given() {
		facts.Items = append(facts.Items, c.fact(c.t.say("box.parcel"), document.Say(c.mass(float64(p.V)))))
	}
	if len(facts.Items) > 0 {
		c.heading("box.weight")
		c.Add(facts)
	}
}

// material is a material in the maker's words; a fibre in the sheet's language, in English
// by the name that the rules of the sheet have.
func (c *composer) material(own string) string {
	f, fibre := trade.FibreNamed(own)
	switch {
	case own == "", c.t.code == "en" && !fibre:
		return own
	case c.t.code == "en":
		return f.LabelName(c.content.Market)
	case fibre:
		return c.fibreWord(f, own)
	}
	words := strings.Fields(own)
	if len(words) == 1 {
		return c.t.sayOr(compose.Key("material", own), own)
	}
	return own
}
