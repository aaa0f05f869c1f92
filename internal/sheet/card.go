package sheet

import (
	"slices"
	"strings"

	"hembook/internal/compose"
	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/garment"
	"hembook/internal/label"
)

// Room for a card's pictures, in millimetres.
const (
	coverHigh  = 142.0
	needleWide = document.CardText
)

// cardText is the size of a card's body text, in points.
const cardText = 11.5

// textSize is that of the sheet that is written; 0 for the usual one.
func (c *composer) textSize() float64 {
	if c.Card != nil {
		return cardText
	}
	return 0
}

// foldedCard is what the wearer opens first: the garment, the maker's words, its care,
// and whom to write to. No price and no measure stands on it.
func foldedCard(c *composer, own cardOpened) {
	c.Card = &document.Card{
		Front: document.Face{Centred: true, Top: c.Within(func() { c.cover(own.Wearer) })},
		Left:  document.Face{Top: c.Within(func() { c.letter(own.Wearer) }), Foot: c.Within(c.signedOff)},
		Right: document.Face{Top: c.Within(c.cardCare), Foot: c.Within(c.cardMarks)},
		Back:  document.Face{Centred: true, Top: c.Within(c.whomToWrite), Foot: c.Within(c.howMade)},
	}
}

// cover is the garment and its name, and nothing else.
func (c *composer) cover(wearer string) {
	if data := c.picture(c.build.Picture.Show.V); data != nil {
		c.Add(document.Picture{Data: data, Framed: true, High: coverHigh, Alt: c.pictured()})
	} else if d := draw.Table(c.outlined(), document.CardText, coverHigh); d != nil {
		c.Add(document.Sketch{Draw: kept(d), High: coverHigh})
	}
	c.Add(document.Heading{Level: 1, Words: c.called()})
	if wearer != "" {
		c.quiet(c.t.say("card.for", "wearer", wearer))
	}
}

// outlined are the pieces that have an outline.
func (c *facts) outlined() []*garment.Piece {
	return slices.DeleteFunc(slices.Clone(c.garment.Pieces), func(p *garment.Piece) bool { return len(p.Cut.Ring) < 3 })
}

// letter is what the maker says to the wearer; what the garment is in short where
// nothing was written.
func (c *composer) letter(wearer string) {
	c.unfinished()
	for _, says := range c.points(c.build.Packet.Card).Items {
		c.Add(document.Text{As: document.Spoken, Phrase: says.Phrase})
	}
	if len(c.build.Packet.Card) == 0 && c.build.Summary.Given() {
		c.Say(c.own(c.build.Summary)...)
	}
	if wearer != "" {
		c.quiet(c.t.say("card.made-for"))
		c.spoken(document.Say(wearer))
	}
}

// signedOff is the maker's name under a line of stitches.
func (c *composer) signedOff() {
	c.Add(document.Sketch{Draw: kept(draw.NeedleLine(needleWide))})
	c.aside(c.madeFor(""))
}

// cardCare is the care, a mark to a line with what it is because of.
func (c *composer) cardCare() {
	c.heading("care.title")
	var fibres document.Facts
	for _, l := range compose.FibreLines(c, c.content) {
		if l.Unknown == "" {
			fibres.Items = append(fibres.Items, c.fact(l.Term, document.Say(l.Words)))
		}
	}
	c.Add(fibres)
	if !c.careKnown() {
		c.Say(document.Say(c.t.say("card.ask-care")))
		return
	}
	marks := document.List{As: "symbols", Marks: true}
	for i := range c.care.Axes {
		axis := &c.care.Axes[i]
		for n := range axis.Options {
			item := c.symbol(&axis.Options[n])
			item.Phrase = c.Phrase(document.Say(upper(c.Care(&axis.Options[n]))))
			if why := c.becauseOf(axis); why != "" && n == 0 {
				item.Phrase = c.Phrase(document.Say(upper(c.Care(&axis.Options[n]))), document.As(document.Small, "\n"+why))
			}
			marks.Items = append(marks.Items, item)
		}
	}
	c.Add(marks)
	if c.care.Forbidden {
		c.caution(c.t.say("care.forbidden"))
	}
	c.heading("card.first")
	says := c.t.say("card.feel")
	if p := &c.build.Packet.Checked; p.By.Given() && p.Out.Given() && p.Out.V == p.In.V {
		says += " " + c.t.say("card.counted")
	}
	c.Say(document.Say(says))
}

// becauseOf says which layers decide a group of the label; "" where all do, or the
// maker chose it.
func (c *composer) becauseOf(a *label.CareAxis) string {
	if a.Chosen || len(a.SetBy) == len(c.care.Layers) {
		return ""
	}
	var what []string
	for i := range c.care.Layers {
		l := &c.care.Layers[i]
		if !slices.Contains(a.SetBy, l.Name) {
			continue
		}
		name := c.part(l.Part)
		switch {
		case l.Made != "":
			name = c.t.say("structure." + l.Made)
		case l.Part == "":
			name, _, _ = strings.Cut(l.Name, " of ")
			name = c.notion(name)
		}
		what = append(what, name)
	}
	if len(what) == 0 || len(what) > 2 { // a list of everything is no reason
		return ""
	}
	return c.t.say("card.because", "what", c.list(what))
}

// cardMarks says whose marks they are.
func (c *composer) cardMarks() {
	if c.careKnown() && !c.opt.Plain {
		c.aside(c.t.say("care.marks"))
	}
}

// whomToWrite is looked for in ten years.
func (c *composer) whomToWrite() {
	maker := &c.room.Workroom.Maker
	c.quiet(c.t.say("card.write"))
	c.spoken(document.Say(maker.Name.Or(c.room.Workroom.Name.V)))
	if maker.Name.Given() && c.room.Workroom.Name.Given() {
		c.Say(document.Say(c.room.Workroom.Name.V))
	}
	if maker.Contact.Given() {
		c.aside(maker.Contact.V)
	}
}

// howMade leads to the garment's page.
func (c *composer) howMade() {
	if c.code != nil {
		c.Add(document.List{As: "code", Items: []document.Item{{Draw: c.code, Phrase: c.Phrase(document.Say(c.t.say("contact.page")), document.Inline{Voice: document.Small, Words: "\n" + c.opt.Public, Page: c.opt.Public})}}})
	}
}

func (c *writer) spoken(words ...document.Inline) {
	c.Add(document.Text{As: document.Spoken, Phrase: c.Phrase(words...)})
}

func (c *writer) quiet(words string) {
	c.Add(document.Text{As: document.Quiet, Phrase: c.Phrase(document.Say(words))})
}
