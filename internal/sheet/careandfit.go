package sheet

import (
	"slices"
	"strings"

	"hembook/internal/document"
	"hembook/internal/figure"
	"hembook/internal/fitting"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/record"
)

// careAndFit is the sheet that stays with the garment: one page.
func careAndFit(c *composer, own fitOpened) {
	c.title(c.madeFor(own.Wearer))
	c.unfinished()
	if data := c.picture(); data != nil {
		alt := plainWords(c.build.Picture.Alt.Or(c.build.Name.V))
		side := c.Within(func() { c.madeOf(); c.wear() })
		c.Add(document.Columns{Shares: []float64{1, 2}, Of: [][]document.Block{{document.Picture{Data: data, Alt: alt, High: 62}}, side}})
	} else {
		c.madeOf()
		c.wear()
	}
	c.caredFor()
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
	case c.build.Due.Given() && c.build.State.V == "packed":
		line += " · " + c.day(c.build.Due.V)
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
func (c *composer) madeOf() {
	var facts document.Facts
	for _, k := range c.content.Components {
		facts.Items = append(facts.Items, c.fact(c.parts(k.Parts), document.Say(c.contentLine(k.Fibres))))
	}
	for _, u := range c.content.Unknown {
		facts.Items = append(facts.Items, c.fact(c.part(u.Part), document.As(document.Strong, c.t.say("content.unknown"))))
	}
	c.heading("content.title")
	c.Add(facts)
	if len(c.content.Animal) > 0 {
		c.Say(document.Say(c.t.say("content.animal") + "."))
	}
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
		c.aside(c.t.say("wear.closures") + ": " + closes)
	}
}

// points are the maker's own words, point by point.
func (c *composer) points(list []record.Text) document.List {
	var out document.List
	for _, w := range list {
		out.Items = append(out.Items, document.Item{Phrase: c.Phrase(document.Say(plainWords(w.V)))})
	}
	return out
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
	return strings.Join(out, c.t.say("list.comma"))
}

// counted names a notion with how many there are of it.
func (c *composer) counted(n *garment.Notion) string {
	if n.Count.ID == "" || !n.Count.Value.Known() || n.Count.Value.Number == 1 {
		return c.notion(n.Record.Name.V)
	}
	return c.t.say("notion.count", "count", c.style.Number(n.Count.Value.Number, 0), "what", c.notion(n.Record.Name.V))
}

// fit is the fit table.
func (c *composer) fit(own fitOpened) {
	c.heading("fit.title")
	rows, onBody, measured := c.fitRows(own)
	if len(rows) == 0 {
		c.Say(document.Say(c.t.say("fit.nothing")))
		return
	}
	first := c.t.say("fit.drafted")
	if onBody {
		first = c.t.say("fit.body")
	}
	t := c.Table("", document.Words(c.t.say("fit.level")).Wide(2), document.Figures(first).Wide(3), document.Figures(c.t.say("fit.garment")).Wide(4),
		document.Figures(c.t.say("fit.ease")).Wide(3), document.Figures(c.t.say("fit.out")).Wide(3))
	for _, r := range rows {
		whole := c.both(r.worn.Garment)
		if measured > 0 && !r.worn.Measured { // some are measured: mark those that are not
			whole = document.Quantity(c.t.say("fit.planned", "length", c.one(r.worn.Garment)), "")
		}
		t.Row(upper(c.level(r.worn.Level))).Cell(c.both(r.body)).Cell(whole).Cell(c.both(r.ease)).Cell(c.letOutBothWays(r.worn)...)
	}
	t.End()
	notes := []string{c.t.say("fit.note")}
	if onBody && own.Taken.Year > 0 {
		notes = append(notes, c.t.say("fit.taken", "date", c.day(own.Taken)))
	}
	if c.letOutUnknown() {
		notes = append(notes, c.t.say("fit.out-unknown", "head", c.t.say("fit.out")))
	}
	if measured == 0 {
		notes = append(notes, c.t.say("fit.unmeasured"))
	}
	c.aside(strings.Join(append(notes, c.offPlan()...), " "))
}

// letOutBothWays says how far a level can be let out sewn as it is now, and below it
// how far as plain seams, where that is farther.
func (c *composer) letOutBothWays(w *fitting.Worn) []document.Inline {
	own, plain := w.LetOut, w.LetOutPlain
	if plain.ID == "" || !plain.Value.Known() || own.Value.Known() && plain.Value.Number <= own.Value.Number {
		return []document.Inline{c.both(own)}
	}
	return []document.Inline{c.both(own), document.As(document.Below, c.one(plain)+" "+c.t.say("repairs.plain"))}
}

// A fitRow is a level of the garment with what it is worn over.
type fitRow struct {
	worn       *fitting.Worn
	body, ease figure.Figure
}

// fitRows are the rows of the fit table: whether any shows the wearer's body,
// and how many show what was measured.
func (c *composer) fitRows(own fitOpened) (rows []fitRow, onBody bool, measured int) {
	onBody = len(own.Body) > 0
	for k := range c.worn {
		w := &c.worn[k]
		if !w.Garment.Value.Known() {
			continue
		}
		row := fitRow{w, w.Drafted, w.Ease}
		if onBody {
			row.body, row.ease = figure.Figure{}, figure.Figure{}
			if i := slices.IndexFunc(own.Body, func(b bodyLine) bool { return b.Level == w.Level }); i >= 0 {
				row.body, row.ease = own.Body[i].Body, own.Body[i].Ease
			}
		}
		if w.Measured {
			measured++
		}
		rows = append(rows, row)
	}
	return rows, onBody, measured
}

// level is what a level of the body is called.
func (c *composer) level(name string) string {
	return c.t.sayOr("level."+key(name), name)
}

// offPlan says where the garment came out otherwise than it was planned.
func (c *composer) offPlan() []string {
	var out []string
	for _, w := range c.worn {
		if !w.Measured || w.Within || !w.Off.Value.Known() {
			continue
		}
		word := "fit.off-more"
		if w.Off.Value.Number < 0 {
			word = "fit.off-less"
		}
		l := measure.MM(w.Off.Value.Number).Abs()
		out = append(out, c.t.say(word, "level", upper(c.level(w.Level)), "length", c.oneLength(l)))
	}
	return out
}

// ask says whom to ask, and where to read how it was made.
func (c *composer) ask() {
	words := c.Within(func() {
		if n := c.build.Packet.Note; n.Given() {
			c.Add(document.Text{As: document.Note, Phrase: c.Phrase(document.Say(plainWords(n.V)))})
		}
		if contact := c.room.Workroom.Maker.Contact; contact.Given() {
			c.Say(document.As(document.Strong, c.t.say("contact.title")+":"), document.Say(" "+c.t.say("contact.write", "contact", contact.V)))
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
