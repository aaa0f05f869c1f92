package sheet

import (
	"hembook/internal/compose"
	"hembook/internal/document"
	"hembook/internal/record"
)

// makersNotes are what the record remarks of its cloths, pieces, seams, edges and steps,
// each behind its name.
func (c *composer) makersNotes() {
	var list document.List
	add := func(name string, says ...document.Inline) {
		list.Items = append(list.Items, document.Item{Phrase: c.Phrase(append([]document.Inline{document.As(document.Strong, name), document.Say(" ")}, says...)...)})
	}
	c.alongWhat(add)
	note := func(name string, n record.Spoken) {
		if n.Given() {
			add(name, c.own(n)...)
		}
	}
	for _, cloth := range c.garment.Cloths {
		if of := cloth.Cloth; of != nil && (of.Shrink.Along.V > 0 || of.Shrink.Across.V > 0) {
			add(c.part(cloth.Part), document.Say(c.t.say("remake.shrinks", "warp", c.percent(float64(of.Shrink.Along.V)), "weft", c.percent(float64(of.Shrink.Across.V)))))
		}
	}
	for _, cloth := range c.garment.Cloths {
		if of := cloth.Cloth; of != nil && of.Selvedge.Given() {
			add(c.part(cloth.Part), document.Say(c.t.say("remake.selvedge", "length", c.oneLength(of.Selvedge.V))))
		}
	}
	for _, cloth := range c.garment.Cloths {
		if of := cloth.Cloth; of != nil && of.Thick.Given() {
			add(c.part(cloth.Part), document.Say(c.t.say("remake.thick", "length", c.style.Number(of.Thick.V.MM(), 1)+gap+"mm")))
		}
	}
	for i := range c.build.Thread {
		if of := &c.build.Thread[i].V; of.Reel.Given() {
			says := c.t.say("remake.reel", "length", c.style.Number(of.Reel.V.MM()/1000, 0)+gap+"m")
			if of.Mass.Given() {
				says += ", " + c.style.Number(float64(of.Mass.V), 1) + gap + "g"
			}
			add(c.build.Thread[i].Name.V, document.Say(says))
		}
	}
	for i := range c.build.Pieces {
		note(c.piece(c.build.Pieces[i].Name.V), c.build.Pieces[i].Note)
	}
	for i := range c.build.Seams {
		note(c.edge(c.build.Seams[i].Name.V), c.build.Seams[i].Note)
	}
	for i := range c.build.Finishes {
		note(c.edge(c.build.Finishes[i].Name.V), c.build.Finishes[i].Note)
	}
	for i := range c.build.Work {
		note(c.Called(compose.Key("work", c.build.Work[i].Do.V), c.build.Work[i].Do.V), c.build.Work[i].Note)
	}
	if len(list.Items) > 0 {
		c.heading("remake.notes")
		c.Add(list)
	}
}

// fittedAs tells the rounds of fitting as they ended.
func (c *composer) fittedAs() {
	if len(c.build.Fittings) == 0 {
		return
	}
	c.heading("remake.fittings")
	for _, f := range c.build.InOrder() {
		head := upper(c.t.say("remake.fitting", "n", f.Round.V))
		if f.On.Given() {
			head += ", " + c.day(f.On.V)
		}
		c.Say(c.after(document.As(document.Strong, head+"."), f.Saw)...)
		var list document.List
		for i := range f.Change {
			change := &f.Change[i]
			says := []document.Inline{document.Say(c.changed(change))}
			if change.Note.Given() {
				says = c.after(document.Say(says[0].Words+":"), change.Note)
			}
			list.Items = append(list.Items, document.Item{Phrase: c.Phrase(says...)})
		}
		if len(list.Items) > 0 {
			c.Add(list)
		}
	}
	if c.cutting.Rounds != nil {
		c.aside(c.t.say("remake.in-it"))
	}
}
