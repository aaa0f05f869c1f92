package sheet

import (
	"strconv"

	"hembook/internal/document"
	"hembook/internal/draw"
)

// mockUp is the letter that goes with a mock-up: how it is put on, pinned and
// photographed, and what only its wearer can say.
func mockUp(c *composer, own cardOpened) {
	c.titled("sheet.mock-up", own.Wearer, c.t.say("mockup.about"))
	c.Say(document.Say(c.t.say("mockup.hello")))
	steps := document.List{As: "steps"}
	for _, step := range []string{"on", "hang", "threads", "pin", "photographs", "answers"} {
		n := strconv.Itoa(len(steps.Items)+1) + gap + gap
		steps.Items = append(steps.Items, document.Item{Phrase: c.Phrase(document.As(document.Strong, n+c.t.say("mockup."+step)), document.Say(" "+c.t.say("mockup."+step+".how")))})
	}
	c.Add(steps)
	if maker := c.room.Workroom.Maker.Name; maker.Given() {
		c.Say(document.Say(maker.V))
	}
	c.heading("mockup.only-you")
	yes := []document.AskOption{{Name: "yes", Title: c.t.say("ask.yes")}, {Name: "nearly", Title: c.t.say("ask.nearly")}, {Name: "no", Title: c.t.say("ask.no")}}
	ask := func(name string, options []document.AskOption) document.FreeAsk {
		return document.FreeAsk{Name: name, Title: upper(c.t.say("mockup.ask." + name)), Options: options}
	}
	c.Add(c.answered("mock-up", []document.FreeAsk{ask("closes", yes), ask("sitting", nil), ask("moving", nil), ask("pinned", nil), ask("length", nil), ask("pins", nil),
		{Name: "note", Title: upper(c.t.say("mockup.ask.note")), Long: true}}))
	c.heading("mockup.six")
	c.aside(c.t.say("mockup.six.about"))
	var says [draw.Poses]string
	for pose, word := range []string{"front", "back", "left", "right", "sitting", "reaching"} {
		says[pose] = c.t.say("pose." + word)
	}
	posed := draw.Posed(says)
	posed.Title = c.t.say("mockup.six")
	c.Add(document.Sketch{Draw: kept(posed)})
	camera := document.List{}
	for _, rule := range []string{"camera", "whole", "plain"} {
		camera.Items = append(camera.Items, document.Item{Phrase: c.Phrase(document.Say(c.t.say("mockup." + rule)))})
	}
	c.Add(camera, document.Sketch{Draw: kept(draw.ScaleStrip(c.t.say("mockup.strip"))), Exact: true})
}
