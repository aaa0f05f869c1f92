package sheet

import (
	"slices"
	"strings"

	"hembook/internal/compose"
	"hembook/internal/document"
	"hembook/internal/figure"
	"hembook/internal/fitting"
	"hembook/internal/garment"
	"hembook/internal/measure"
)

// careAndFit is the sheet that stays with the garment: one page.
func careAndFit(c *composer, own fitOpened) {
	c.title(c.madeFor(own.Wearer))
	c.unfinished()
	if data := c.picture(""); data != nil {
		alt := c.pictured()
		side := c.Within(func() { c.madeOf(own.From); c.wear() })
		c.Add(document.Columns{Shares: []float64{1, 2}, Of: [][]document.Block{{document.Picture{Data: data, Alt: alt, High: 62}}, side}})
	} else {
		c.madeOf(own.From)
		c.wear()
	}
	c.caredFor(c.careLaw())
	c.fit(own)
	c.cautions()
	c.despite("care", "content", "flame", "figures", "child")
	c.ask()
}

// madeFor says who made it, and for whom where the sheet is the wearer's.
func (c *composer) madeFor(wearer string) string {
	maker := c.room.Workroom.Maker.Name.Or(c.room.Workroom.Name.V)
	line := c.t.say("sheet.by", "maker", maker)
	if wearer != "" {
		line = c.t.say("sheet.for", "wearer", wearer, "maker", maker)
	}
	switch {
	case c.build.Sent.Given():
		line += " · " + c.day(c.build.Sent.V)
	case c.build.Packet.Packed.Given():
		line += " · " + c.day(c.build.Packet.Packed.V)
	}
	return line
}

// unfinished marks the sheets of a garment that is not finished.
func (c *composer) unfinished() {
	if !slices.Contains([]string{"finishing", "packed", "sent"}, c.build.State.V) {
		c.Add(document.Text{As: document.Note, Phrase: c.Phrase(document.As(document.Strong, c.t.say("sheet.draft")))})
	}
}

// madeOf states the fibres, component by component.
func (c *composer) madeOf(from origin) {
	var facts document.Facts
	for _, l := range compose.FibreLines(c, c.content) {
		says := document.Say(l.Words)
		if l.Unknown != "" {
			says = document.As(document.Strong, c.t.say("content.unknown"))
		}
		facts.Items = append(facts.Items, c.fact(l.Term, says))
	}
	c.heading("content.title")
	c.Add(facts)
	if len(c.content.Animal) > 0 {
		c.Say(document.Say(c.t.say("content.animal") + "."))
	}
	c.otherRules(from)
	market := "eu"
	if c.content.Market == "us" {
		market = "us"
	}
	c.aside(c.t.say("content.information." + market))
}

// wear tells how to put it on, in the maker's words.
func (c *composer) wear() {
	list := c.points(c.build.Packet.Wear)
	list.Numbered = true
	closes := c.closures()
	if len(list.Items) == 0 && closes == "" {
		return
	}
	c.heading("wear.title")
	if len(list.Items) > 0 {
		c.Add(list)
	}
	if closes != "" {
		c.aside(c.says(c.t.say("wear.closures"), closes))
	}
}

var closureWords = []string{"zip", "button", "hook", "press stud", "snap", "buckle", "tie", "lacing", "toggle", "clasp", "magnet", "frog"}

// closures names what closes the garment.
func (c *composer) closures() string {
	var out []string
	for _, n := range c.garment.Notions {
		what := strings.ToLower(n.Record.Is())
		if !slices.ContainsFunc(closureWords, func(w string) bool { return strings.Contains(what, w) }) {
			continue
		}
		out = append(out, c.counted(n))
	}
	return c.Joined(out)
}

// counted names a notion with how many there are of it.
func (c *speaker) counted(n *garment.Notion) string {
	if n.Count.ID == "" || !n.Count.Value.Known() || n.Count.Value.Number == 1 {
		return c.notion(n.Record.Name.V)
	}
	return c.t.say("notion.count", "count", c.style.Number(n.Count.Value.Number, 0), "what", c.notion(n.Record.Name.V))
}

// fit is the fit table.
func (c *composer) fit(own fitOpened) {
	c.heading("fit.title")
	rows := c.wornKnown()
	if len(rows) == 0 {
		c.Say(document.Say(c.t.say("fit.nothing")))
		return
	}
	onBody := len(own.Body) > 0
	body := compose.FigureOf("drafted", 3, func(w *fitting.Worn) *figure.Figure { return &w.Drafted })
	ease := compose.FigureOf("ease", 3, func(w *fitting.Worn) *figure.Figure { return &w.OnDraft })
	if onBody {
		line := func(w *fitting.Worn) *bodyLine {
			if i := slices.IndexFunc(own.Body, func(b bodyLine) bool { return b.Level == w.Name }); i >= 0 {
				return &own.Body[i]
			}
			return &bodyLine{}
		}
		body = compose.FigureOf("body", 3, func(w *fitting.Worn) *figure.Figure { return &line(w).Body })
		ease = compose.FigureOf("ease", 3, func(w *fitting.Worn) *figure.Figure { return &line(w).Ease })
	}
	measured := slices.ContainsFunc(rows, func(w *fitting.Worn) bool { return w.AsMeasured })
	whole := wornGarment.As("finished", 4)
	if measured { // mark those that are not
		whole.Cell = func(t *document.TableDraft, tell compose.Teller, w *fitting.Worn) {
			if !w.AsMeasured {
				t.Cell(document.Quantity(c.t.say("fit.planned", "length", c.one(w.Garment)), ""))
				return
			}
			wornGarment.Cell(t, tell, w)
		}
	}
	out := compose.FigureOf("out", 3, func(w *fitting.Worn) *figure.Figure { return &w.LetOut })
	compose.Table(&c.Draft, inBoth{c}, "", rows, compose.Of(compose.LevelName, ofWorn), body, whole, ease, out).End()
	notes := []string{c.t.say("fit.note")}
	if gaps := c.laced(rows); gaps != "" {
		notes = append(notes, c.t.say("fit.laced", "list", gaps))
	}
	if plain := c.letOutAsPlain(rows); plain != "" {
		notes = append(notes, plain)
	}
	if onBody && own.Taken.Year > 0 {
		notes = append(notes, c.t.say("fit.taken", "date", c.day(own.Taken)))
	}
	if c.letOutUnknown() {
		notes = append(notes, c.t.say("fit.out-unknown", "head", c.t.say("head.out")))
	}
	if !measured {
		notes = append(notes, c.t.say("fit.unmeasured"))
	}
	c.aside(strings.Join(append(notes, c.offPlan()...), " "))
	c.measuredAgain()
}

// laced lists what the lacing leaves open at each level; "" where nothing is laced so.
func (c *speaker) laced(rows []*fitting.Worn) string {
	var out []string
	for _, w := range rows {
		if w.Gap.ID != "" && w.Gap.Value.Known() {
			out = append(out, c.level(w.Name)+" "+c.one(w.Gap))
		}
	}
	return c.Joined(out)
}

// letOutAsPlain says of the levels that give more sewn again as plain seams how far each
// goes then; "" where none does.
func (c *speaker) letOutAsPlain(rows []*fitting.Worn) string {
	var out []string
	for _, w := range rows {
		own, plain := w.LetOut, w.LetOutPlain
		if plain.ID != "" && plain.Value.Known() && !(own.Value.Known() && plain.Value.Number <= own.Value.Number) {
			out = append(out, c.level(w.Name)+" "+c.one(plain))
		}
	}
	if out == nil {
		return ""
	}
	return c.says(upper(c.t.say("head.out"))+", "+c.t.say("head.plain"), c.Joined(out)) + "."
}

// level is what a level of the body is called.
func (c *speaker) level(name string) string {
	return c.t.sayOr(compose.Key("level", name), name)
}

// offPlan says where the garment came out otherwise than it was planned.
func (c *composer) offPlan() []string {
	var out []string
	for _, w := range c.worn {
		if w.Again != nil || !w.AsMeasured || w.Within || !w.Off.Value.Known() {
			continue
		}
		word := "fit.off-more"
		if w.Off.Value.Number < 0 {
			word = "fit.off-less"
		}
		l := measure.MM(w.Off.Value.Number).Abs()
		out = append(out, c.t.say(word, "level", upper(c.level(w.Name)), "length", c.oneLength(l)))
	}
	return out
}

// measuredAgain says which measures are later readings, and what became of the garment.
func (c *composer) measuredAgain() {
	for i := range c.build.Later {
		again := &c.build.Later[i]
		var levels []string
		for k := range c.worn {
			if c.worn[k].Again == again {
				levels = append(levels, c.level(c.worn[k].Name))
			}
		}
		if levels == nil {
			continue
		}
		says := document.Say(c.t.say("fit.again", "levels", upper(c.list(levels)), "date", c.day(again.On.V)))
		if again.Because.Given() {
			c.Say(c.after(says, again.Because)...)
			continue
		}
		c.Say(says)
	}
}

// ask says whom to ask, and where to read how it was made.
func (c *composer) ask() {
	words := c.Within(func() {
		if n := c.build.Packet.Note; n.Given() {
			c.Add(document.Text{As: document.Note, Phrase: c.Phrase(c.own(n)...)})
		}
		if contact := c.room.Workroom.Maker.Contact; contact.Given() {
			c.Say(document.As(document.Strong, strings.TrimSpace(c.says(c.t.say("contact.title"), ""))), document.Say(" "+c.t.say("contact.write", "contact", contact.V)))
		}
	})
	if c.code == nil {
		c.Add(words...)
		return
	}
	read := document.Inline{Voice: document.Small, Words: c.opt.Public, Page: c.opt.Public}
	code := document.List{As: "code", Items: []document.Item{{Draw: c.code, Phrase: c.Phrase(document.Say(c.t.say("contact.page")), read)}}}
	if len(words) == 0 {
		c.Add(code)
		return
	}
	c.Add(document.Columns{Shares: []float64{2, 1}, Of: [][]document.Block{words, {code}}})
}
