package sheet

import "hembook/internal/document"

// afterHigh is the room for the picture above the questions, in millimetres.
const afterHigh = 84

// afterwards asks how the garment does, beside how large it was when it was sent.
func afterwards(c *composer, own cardOpened) {
	c.titled("sheet.after", own.Wearer, c.t.say("after.about"))
	was := c.Within(c.asSent)
	if data := c.picture(""); data != nil {
		seen := []document.Block{document.Picture{Data: data, Alt: c.pictured(), High: afterHigh}}
		c.Add(document.Columns{Shares: []float64{1, 2}, Of: [][]document.Block{seen, was}})
	} else {
		c.Add(was...)
	}
	c.Add(c.answered("remarks", []document.FreeAsk{
		{Name: "fits", Title: upper(c.t.say("after.fits")), Options: []document.AskOption{
			{Name: "yes", Title: c.t.say("ask.yes")}, {Name: "nearly", Title: c.t.say("ask.nearly")}, {Name: "no", Title: c.t.say("ask.no")}}},
		{Name: "where", Title: upper(c.t.say("after.where")), Long: true},
		{Name: "changed", Title: upper(c.t.say("after.changed"))},
		{Name: "washed", Title: upper(c.t.say("after.washed")), Long: true},
		{Name: "worn", Title: upper(c.t.say("after.worn"))},
		{Name: "next", Title: upper(c.t.say("after.next"))},
	}))
	c.Say(document.Say(c.t.say("after.photograph")))
	if contact := c.room.Workroom.Maker.Contact; contact.Given() {
		c.Say(document.Say(c.t.say("measure.back-to", "contact", contact.V)))
	}
}

// asSent is when it was sent and what it measured then, to be held against what it
// measures now.
func (c *composer) asSent() {
	var facts []document.Fact
	if c.build.Sent.Given() {
		facts = append(facts, c.fact(c.t.say("after.on"), document.Say(c.day(c.build.Sent.V))))
	}
	for _, w := range c.wornKnown() {
		facts = append(facts, c.fact(upper(c.level(w.Name)), c.both(w.Garment)))
	}
	for _, l := range c.garment.Fit.Lengths {
		is := l.Finished
		if l.Measured.ID != "" && l.Measured.Value.Known() {
			is = l.Measured
		}
		if is.Value.Known() {
			facts = append(facts, c.fact(upper(l.Name), c.both(is)))
		}
	}
	c.sized("after.sent", facts)
	if len(facts) > 0 {
		c.aside(c.t.say("after.same"))
	}
}
