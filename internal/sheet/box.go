package sheet

import (
	"strings"

	"hembook/internal/paper"
)

// inTheBox is the list to tick while packing and unpacking.
func inTheBox(c *composer, _ nothingOpened) []paper.Block {
	out := []paper.Block{paper.Heading{Level: 1, Text: c.build.Name.V, About: c.t.say("sheet.box") + " · " + c.t.say("box.about")}}
	out = append(out, c.draft()...)
	ticks := paper.Ticks{SignBy: &paper.Signature{About: c.t.say("box.found")}}
	for _, b := range c.build.Packet.Box {
		ticks.Items = append(ticks.Items, paper.Tick{Phrase: paper.Say(upper(plainWords(b.V)))})
	}
	if len(ticks.Items) == 0 {
		ticks.Items = append(ticks.Items, paper.Tick{Phrase: paper.Say(upper(c.t.say("box.garment")))})
	}
	ticks.Items = append(ticks.Items, paper.Tick{Phrase: paper.Say(upper(c.t.say("box.sheets", "n", c.papers)))})
	out = append(out, ticks)
	out = append(out, c.checked()...)
	out = append(out, c.weights()...)
	return append(out, c.despite("check", "flame", "child")...)
}

// checked is the check for pins and needles, as signed.
func (c *composer) checked() []paper.Block {
	p := &c.build.Packet.Checked
	if !p.By.Given() {
		return []paper.Block{heading(2, c.t.say("box.checked")), paper.Caution{Head: c.t.say("caution.head"), Phrase: paper.Say(c.t.say("box.unsigned"))}}
	}
	sign := &paper.Signature{About: c.t.say("box.checked"), Name: p.By.V}
	if p.On.Given() {
		sign.Date = c.day(p.On.V)
	}
	ticks := paper.Ticks{SignBy: sign}
	tick := func(text string) {
		ticks.Items = append(ticks.Items, paper.Tick{Phrase: paper.Say(upper(text)), Done: true})
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
	return []paper.Block{heading(2, c.t.say("box.checked")), ticks}
}

// weights are what the garment and the parcel weigh.
func (c *composer) weights() []paper.Block {
	facts := paper.Facts{}
	if m := c.garment.Totals.Mass; m.Value.Known() {
		facts.Items = append(facts.Items, paper.Fact{Term: upper(c.t.say("box.mass")), Value: paper.Say(c.mass(m.Value.Number))})
	}
	if p := c.build.Packet.Parcel; p.Given() {
		facts.Items = append(facts.Items, paper.Fact{Term: upper(c.t.say("box.parcel")), Value: paper.Say(c.mass(float64(p.V)))})
	}
	if len(facts.Items) == 0 {
		return nil
	}
	return []paper.Block{heading(2, c.t.say("box.weight")), facts}
}

// material is a material in the maker's words, its fibres in the sheet's
// language.
func (c *composer) material(own string) string {
	if c.t.code == "en" || own == "" {
		return own
	}
	if f, ok := fibreOf(own); ok {
		return c.fibreWord(f, own)
	}
	words := strings.Fields(own)
	if len(words) == 1 && c.t.has("material."+key(own)) {
		return c.t.say("material." + key(own))
	}
	return own
}
