package sheet

import (
	"cmp"
	"strings"

	"hembook/internal/compose"
	"hembook/internal/document"
	"hembook/internal/meant"
	"hembook/internal/measure"
	"hembook/internal/trade"
)

// customsFacts is what forms CN 22 and CN 23 ask for, to be copied onto them.
func customsFacts(c *composer, own customsOpened) {
	p := &c.build.Packet.Customs
	c.title(c.t.say("sheet.customs") + " · " + c.t.say("customs.about"))
	var facts document.Facts
	add := func(word string, lines ...string) {
		fact := document.Fact{Term: upper(c.t.say("customs." + word))}
		for _, line := range lines {
			fact.Says = append(fact.Says, c.Phrase(document.Say(cmp.Or(line, "–"))))
		}
		facts.Items = append(facts.Items, fact)
	}
	maker := c.room.Workroom.Maker
	add("sender", address(maker.Name.V, own.FromAddress, own.FromCountry, maker.Contact.V)...)
	add("addressee", address(own.ToName, own.ToAddress, own.ToCountry, own.ToContact)...)
	add("category", p.Category.V)
	add("description", c.description())
	add("quantity", c.style.Number(float64(p.Quantity.Or(1)), 0))
	add("net", c.netMass())
	gross := ""
	if c.build.Packet.Parcel.Given() {
		gross = c.kilograms(float64(c.build.Packet.Parcel.V) / gramsPerKilogram)
	}
	add("gross", gross)
	value := ""
	if own.HasValue {
		value = c.style.Money(own.Value)
	}
	add("value", value)
	add("heading", c.hsHeading())
	add("origin", own.FromCountry)
	if p.Invoice.Given() {
		add("invoice", p.Invoice.V)
	}
	if day := c.build.Packet.Packed; day.Given() {
		add("packed", c.day(day.V))
	}
	if p.Remark.Given() {
		add("remark", c.ownAlone(p.Remark))
	}
	c.Add(facts)
	c.headingFound()
	if len(c.content.Animal) > 0 {
		c.Note(c.t.say("customs.animal", "what", meant.List(c.content.Animal, "and")))
	}
	c.Say(document.As(document.Strong, c.t.say("customs.law")))
	c.aside(c.t.say("customs.form") + " " + c.t.say("customs.digits") + " " + upper(c.t.say("customs.sign")) + ".")
	c.despite("customs", "content")
}

// address is a name, an address and how to reach whoever lives there, in lines; one empty line where nothing is known.
func address(parts ...string) []string {
	var out []string
	for _, part := range parts {
		for line := range strings.Lines(part) {
			if line = strings.TrimSpace(line); line != "" {
				out = append(out, line)
			}
		}
	}
	if len(out) == 0 {
		return []string{""}
	}
	return out
}

// woven says whether the outer cloth is woven or knitted.
func (c *composer) woven() string {
	if c.customs.Knit {
		return c.t.say("customs.knitted")
	}
	return c.t.say("customs.woven")
}

// description is what the form calls a detailed description of the article.
func (c *composer) description() string {
	make := c.woven()
	list := c.customs.Fibres
	if len(list) == 0 && len(c.content.Components) > 0 {
		list = c.content.Components[0].Fibres
	}
	content := compose.Fibres(c, list)
	if who := c.customs.Who; who != "" && who != "anyone" {
		if who == "woman" {
			who = "women"
		} else if who == "man" {
			who = "men"
		}
		return c.t.say("customs.of", "who", who, "make", make, "garment", c.build.Garment.V, "content", content)
	}
	return c.t.say("customs.of-plain", "make", make, "garment", c.build.Garment.V, "content", content)
}

func (c *composer) netMass() string {
	net := c.customs.Net
	if !net.Value.Known() {
		return c.t.say("customs.unknown", "why", net.Value.Why)
	}
	how := "customs.reckoned"
	if c.customs.Weighed {
		how = "customs.weighed"
	}
	return c.kilograms(net.Value.Number) + " (" + c.t.say(how) + ")"
}

const gramsPerKilogram = 1000

// kilograms prints a mass as the forms ask for it, both on one scale.
func (c *speaker) kilograms(kg float64) string {
	return c.style.Number(kg, 2) + gap + measure.UnitKG.Symbol()
}

func (c *composer) hsHeading() string {
	if c.customs.Why != "" {
		return c.t.say("customs.unknown", "why", c.customs.Why)
	}
	return c.customs.HS.Code
}

// headingFound tells note by note how the heading was found.
func (c *composer) headingFound() {
	most, hs := c.customs.Most, &c.customs.HS
	if most == nil || c.customs.Why != "" {
		return
	}
	c.heading("customs.found")
	list := document.List{Numbered: true}
	add := func(text string) {
		list.Items = append(list.Items, document.Item{Phrase: c.Phrase(document.Say(text))})
	}
	if c.customs.Outer {
		add(c.t.say("customs.outer"))
	}
	if c.customs.Pile && len(most.Chapters) > 1 {
		add(c.t.say("customs.pile"))
	}
	add(c.t.say("customs.chapters", "shares", c.customsShares(most.Chapters)))
	if len(most.Groups) > 1 {
		add(c.t.say("customs.groups", "shares", c.customsShares(most.Groups)))
	}
	if most.Equal {
		add(c.t.say("customs.equal"))
	}
	word := "customs.bare"
	if hs.Whole {
		word = "customs.line"
	}
	add(c.t.say(word, "make", c.woven(), "garment", upper(hs.Garment), "line", c.t.say("customs.line-"+cmp.Or(hs.Line, "other")), "code", hs.Code))
	c.Add(list)
}

// customsShares lists chapters or groups of fibres with their shares.
func (c *speaker) customsShares(parts []trade.CustomsPart) string {
	sum := 0.0
	for _, p := range parts {
		sum += p.Share
	}
	var out []string
	for _, p := range parts {
		name := c.t.say("customs.chapter-" + strings.ReplaceAll(cmp.Or(p.Chapter, "none"), ", ", "-"))
		if p.Group != "" {
			name = c.t.say("customs.group-" + p.Group)
		}
		out = append(out, name+" "+c.percent(100*p.Share/sum))
	}
	return strings.Join(out, "; ")
}
