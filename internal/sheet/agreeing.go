package sheet

import (
	"hembook/internal/compose"
	"hembook/internal/document"
	"hembook/internal/draw"
)

// agreeing is what is ordered, before anything is cut.
func agreeing(c *composer, own agreeOpened) {
	c.titled("sheet.agree", own.Wearer, c.t.say("agree.about"))
	drawn := func() {
		if data := c.picture(""); data != nil {
			c.Add(document.Picture{Data: data, Alt: c.pictured(), High: 90})
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
}

// afterwards asks how the garment does.
func afterwards(c *composer, own cardOpened) {
	c.titled("sheet.after", own.Wearer, c.t.say("after.about"))
	c.Add(c.answered("remarks", []document.FreeAsk{
		{Name: "fits", Title: upper(c.t.say("after.fits")), Options: []document.AskOption{
			{Name: "yes", Title: c.t.say("ask.yes")}, {Name: "nearly", Title: c.t.say("ask.nearly")}, {Name: "no", Title: c.t.say("ask.no")}}},
		{Name: "where", Title: upper(c.t.say("after.where")), Long: true},
		{Name: "washed", Title: upper(c.t.say("after.washed")), Long: true},
		{Name: "worn", Title: upper(c.t.say("after.worn")), Long: true},
	}))
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
	form := document.Asks{Begins: []string{"answer: " + kind, "garment: " + c.build.Slug}, File: kind + "-" + c.build.Slug + ".txt", Free: free, Words: document.AskWords{
		What: c.t.say("ask.what"), How: c.t.say("ask.how"), First: c.t.say("ask.first"), Again: c.t.say("ask.again"), Third: c.t.say("ask.third"),
		Differ: c.t.say("ask.differ", "much", "{much}"), Agree: c.t.say("ask.agree"), Unusual: c.t.say("ask.unusual"),
		Make: c.t.say("ask.make"), Save: c.t.say("ask.save"), Copy: c.t.say("ask.copy"), Copied: c.t.say("ask.copied"), Plain: c.t.say("ask.plain"),
	}}
	if contact := c.room.Workroom.Maker.Contact; contact.Given() {
		form.Words.Send = c.t.say("measure.back-to", "contact", contact.V)
	}
	return form
}
