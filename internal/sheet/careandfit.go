package sheet

import (
	"slices"
	"strings"

	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/paper"
)

// careAndFit is the sheet that stays with the garment: one page.
func careAndFit(c *composer, own fitOpened) []paper.Block {
	out := []paper.Block{paper.Heading{Level: 1, Text: c.build.Name.V, About: c.madeFor(own.Wearer)}}
	out = append(out, c.draft()...)
	side := append(c.contentBlocks(), c.wearBlocks()...)
	if data := c.picture(); data != nil {
		out = append(out, paper.Columns{Shares: []float64{1, 2}, Blocks: [][]paper.Block{
			{paper.Picture{Data: data, Alt: plainWords(c.build.Picture.Alt.Or(c.build.Name.V)), High: 62}}, side,
		}})
	} else {
		out = append(out, side...)
	}
	out = append(out, c.careBlocks()...)
	out = append(out, c.fitBlocks(own)...)
	out = append(out, c.cautionBlocks()...)
	out = append(out, c.despite("care", "content", "flame", "figures", "child")...)
	return append(out, c.askBlocks()...)
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

// draft marks the sheets of a garment that is not finished.
func (c *composer) draft() []paper.Block {
	if slices.Contains([]string{"finishing", "packed", "sent"}, c.build.State.V) {
		return nil
	}
	return []paper.Block{paper.Note{Phrase: paper.Stress(c.t.say("sheet.draft"))}}
}

// contentBlocks state the fibres, component by component.
func (c *composer) contentBlocks() []paper.Block {
	facts := paper.Facts{}
	for _, k := range c.content.Components {
		facts.Items = append(facts.Items, paper.Fact{Term: upper(c.parts(k.Parts)), Value: paper.Say(c.contentLine(k.Fibres))})
	}
	for _, u := range c.content.Unknown {
		facts.Items = append(facts.Items, paper.Fact{Term: upper(c.part(u.Part)), Value: paper.Stress(c.t.say("content.unknown"))})
	}
	out := []paper.Block{heading(2, c.t.say("content.title")), facts}
	if len(c.content.Animal) > 0 {
		out = append(out, paper.Text{Phrase: paper.Say(c.t.say("content.animal") + ".")})
	}
	market := "eu"
	if c.content.Market == "us" {
		market = "us"
	}
	return append(out, paper.Text{Phrase: paper.Aside(c.t.say("content.information." + market))})
}

// wearBlocks tell how to put it on, in the maker's words.
func (c *composer) wearBlocks() []paper.Block {
	p := &c.build.Packet
	var out []paper.Block
	list := paper.List{Numbered: true}
	for _, w := range p.Wear {
		list.Items = append(list.Items, paper.Say(plainWords(w.V)))
	}
	closes := c.closures()
	if len(list.Items) == 0 && closes == "" {
		return nil
	}
	out = append(out, heading(2, c.t.say("wear.title")))
	if len(list.Items) > 0 {
		out = append(out, list)
	}
	if closes != "" {
		out = append(out, paper.Text{Phrase: paper.Phrase{{Text: c.t.say("wear.closures") + ": ", Style: paper.Small}, {Text: closes, Style: paper.Small}}})
	}
	return out
}

var closureWords = []string{"zip", "button", "hook", "press stud", "snap", "buckle", "tie", "lacing", "toggle", "clasp", "magnet", "frog"}

// closures names what closes the garment.
func (c *composer) closures() string {
	var out []string
	for _, n := range c.garment.Notions {
		what := strings.ToLower(n.Record.What.V)
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
		return c.notion(n.Record.What.V)
	}
	return c.t.say("notion.count", "count", c.style.Number(n.Count.Value.Number, 0), "what", c.notion(n.Record.What.V))
}

// fitBlocks are the fit table.
func (c *composer) fitBlocks(own fitOpened) []paper.Block {
	rows, onBody, planned := c.fitRows(own)
	out := []paper.Block{heading(2, c.t.say("fit.title"))}
	if len(rows) == 0 {
		return append(out, paper.Text{Phrase: paper.Say(c.t.say("fit.nothing"))})
	}
	first := c.t.say("fit.drafted")
	if onBody {
		first = c.t.say("fit.body")
	}
	out = append(out, paper.Table{RowHead: true, Rows: rows, Columns: []paper.Column{
		{Head: c.t.say("fit.level"), Share: 2}, {Head: first, Align: paper.Right, Share: 3}, {Head: c.t.say("fit.garment"), Align: paper.Right, Share: 4},
		{Head: c.t.say("fit.ease"), Align: paper.Right, Share: 3}, {Head: c.t.say("fit.out"), Align: paper.Right, Share: 3},
	}})
	notes := []string{c.t.say("fit.note")}
	if onBody && own.Taken.Year > 0 {
		notes = append(notes, c.t.say("fit.taken", "date", c.day(own.Taken)))
	}
	if c.letOutUnknown() {
		notes = append(notes, c.t.say("fit.out-unknown"))
	}
	if planned == len(rows) {
		notes = append(notes, c.t.say("fit.unmeasured"))
	}
	return append(out, paper.Text{Phrase: paper.Aside(strings.Join(append(notes, c.offPlan()...), " "))})
}

// fitRows are the rows of the fit table: whether any shows the wearer's body,
// and how many show what was planned.
func (c *composer) fitRows(own fitOpened) (rows [][]paper.Phrase, onBody bool, planned int) {
	onBody = len(own.Body) > 0
	for _, w := range c.worn {
		if !w.Garment.Value.Known() {
			continue
		}
		body, ease := w.Drafted, w.Ease
		if onBody {
			body, ease = figure.Figure{}, figure.Figure{}
			if i := slices.IndexFunc(own.Body, func(b bodyLine) bool { return b.Level == w.Level }); i >= 0 {
				body, ease = own.Body[i].Body, own.Body[i].Ease
			}
		}
		whole := c.both(w.Garment)
		if !w.Measured {
			planned++
		}
		rows = append(rows, []paper.Phrase{paper.Say(upper(c.level(w.Level))), c.both(body), whole, c.both(ease), c.both(w.LetOut)})
	}
	if planned < len(rows) { // some are measured: mark those that are not
		i := 0
		for _, w := range c.worn {
			if !w.Garment.Value.Known() {
				continue
			}
			if !w.Measured {
				rows[i][2] = paper.Phrase{{Text: c.t.say("fit.planned", "length", c.one(w.Garment)), Style: paper.Figure}}
			}
			i++
		}
	}
	return rows, onBody, planned
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

// askBlocks say whom to ask, and where to read how it was made.
func (c *composer) askBlocks() []paper.Block {
	var words []paper.Block
	if n := c.build.Packet.Note; n.Given() {
		words = append(words, paper.Note{Phrase: paper.Say(plainWords(n.V))})
	}
	if contact := c.room.Workroom.Maker.Contact; contact.Given() {
		words = append(words, paper.Text{Phrase: paper.Phrase{{Text: c.t.say("contact.title") + ": ", Style: paper.Strong}, {Text: c.t.say("contact.write", "contact", contact.V)}}})
	}
	if c.opt.Public == "" {
		return words
	}
	code := paper.QR{Address: c.opt.Public, Words: c.t.say("contact.page")}
	if len(words) == 0 {
		return []paper.Block{code}
	}
	return []paper.Block{paper.Columns{Shares: []float64{2, 1}, Blocks: [][]paper.Block{words, {code}}}}
}
