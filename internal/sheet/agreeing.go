package sheet

import (
	"hembook/internal/compose"
	"hembook/internal/document"
	"hembook/internal/draw"
)

// agreeHigh is the room for the picture of what is ordered, in millimetres.
const agreeHigh = 76

// agreeing is what is ordered, before anything is cut.
func agreeing(c *composer, own agreeOpened) {
	c.titled("sheet.agree", own.Wearer, c.t.say("agree.about"))
	drawn := func() {
		if data := c.picture(""); data != nil {
			c.Add(document.Picture{Data: data, Alt: c.pictured(), High: agreeHigh})
		} else if d := draw.Table(c.outlined(), 80, 80); d != nil {
			c.Add(document.Sketch{Draw: kept(d), High: 80})
		}
	}
	c.Add(document.Columns{Of: [][]document.Block{c.Within(drawn), c.Within(func() { c.ordered(own) })}})
	c.heading("agree.open")
	c.Say(document.Say(c.t.say("agree.fit")))
	form := c.answered("agreement", []document.FreeAsk{
		{Name: "agreed", Title: upper(c.t.say("agree.question")), Options: []document.AskOption{{Name: "yes", Title: c.t.say("ask.yes")}, {Name: "no", Title: c.t.say("ask.no")}}},
		{Name: "by", Title: upper(c.t.say("ask.name"))},
		{Name: "note", Title: upper(c.t.say("agree.otherwise")), Long: true},
	})
	c.Add(form)
	c.Add(document.Text{As: document.Note, Phrase: c.Phrase(document.Say(c.t.say("agree.no-yes")))})
	c.toFeel()
}

// toFeel are the places where a piece of each cloth is sewn on, for whoever orders it.
func (c *composer) toFeel() {
	card := c.swatchCard()
	if card.Threads = nil; len(card.Cloths) == 0 {
		return
	}
	c.heading("agree.swatches")
	c.aside(c.t.say("agree.sewn-on"))
	d := draw.Swatches(card)
	d.Title = c.t.say("agree.swatches")
	c.Add(document.Sketch{Draw: kept(d), Exact: true})
}

// ordered is what it is to be, of what, by when, and at what price.
func (c *composer) ordered(own agreeOpened) {
	c.heading("agree.what")
	if c.build.Summary.Given() {
		c.Say(c.own(c.build.Summary)...)
	}
	var facts document.Facts
	for _, cloth := range c.garment.Cloths {
		if cloth.Cloth == nil {
			continue
		}
		says := compose.PlainWords(cloth.Cloth.Name.Or(cloth.Cloth.Slug))
		facts.Items = append(facts.Items, c.fact(c.part(cloth.Part), document.Say(says)))
	}
	if c.build.Due.Given() {
		facts.Items = append(facts.Items, c.fact(c.t.say("agree.ready"), document.Say(c.day(c.build.Due.V))))
	}
	if own.HasPrice {
		facts.Items = append(facts.Items, c.fact(c.t.say("agree.price"), document.Say(c.style.Money(own.Price))))
	}
	c.Add(facts)
	c.sized("agree.size", c.plannedSizes())
}

// sized are measures of the garment under a heading.
func (c *composer) sized(word string, sizes []document.Fact) {
	if len(sizes) > 0 {
		c.heading(word)
		c.Add(document.Facts{Items: sizes})
	}
}

// plannedSizes are the finished measures as planned: its girths, then its lengths.
func (c *composer) plannedSizes() (out []document.Fact) {
	for _, l := range c.garment.Fit.Levels {
		if l.Finished.Value.Known() {
			out = append(out, c.fact(upper(c.level(l.Name)), c.both(l.Finished)))
		}
	}
	for _, l := range c.garment.Fit.Lengths {
		if l.Finished.Value.Known() {
			out = append(out, c.fact(upper(l.Name), c.both(l.Finished)))
		}
	}
	return out
}

// titled begins a sheet that is sent by itself.
func (c *composer) titled(sheet, wearer, about string) {
	line := c.t.say(sheet) + " · " + about
	if wearer != "" {
		line = c.t.say("card.for", "wearer", wearer) + " · " + line
	}
	c.title(line)
}

// answered is a form whose answers come back as that kind of answer.
func (c *composer) answered(kind string, free []document.FreeAsk) document.Asks {
	form := document.Asks{Begins: []string{"answer: " + kind, "garment: " + c.build.Slug}, File: kind + "-" + c.build.Slug + ".txt", Free: free, Photos: true, Words: document.AskWords{
		Photos: c.t.say("ask.photographs"),
		What:   c.t.say("ask.what"), How: c.t.say("ask.how"), First: c.t.say("ask.first"), Again: c.t.say("ask.again"), Third: c.t.say("ask.third"),
		Differ: c.t.say("ask.differ", "much", "{much}"), Agree: c.t.say("ask.agree"), Unusual: c.t.say("ask.unusual"),
		Make: c.t.say("ask.make"), Save: c.t.say("ask.save"), Copy: c.t.say("ask.copy"), Copied: c.t.say("ask.copied"), Plain: c.t.say("ask.plain"),
	}}
	if contact := c.room.Workroom.Maker.Contact; contact.Given() {
		form.Words.Send = c.t.say("measure.back-to", "contact", contact.V)
	}
	return form
}
