package sheet

import (
	"slices"
	"strings"

	"hembook/internal/document"
	"hembook/internal/label"
)

// putAway is how the garment is kept between two wearings: what its cloths and its making
// ask for (common practice, no source), then the maker's own words.
func (c *composer) putAway() {
	c.heading("keep.title")
	words := []string{"keep.clean"}
	for word, holds := range map[string]bool{"keep.knit": c.customs.Knit, "keep.pile": c.customs.Pile, "keep.bones": c.madeSo("boned"), "keep.moth": c.eatenByMoths()} {
		if holds {
			words = append(words, word)
		}
	}
	slices.Sort(words[1:])
	var list document.List
	for _, word := range words {
		list.Items = append(list.Items, document.Item{Phrase: c.Phrase(document.Say(c.t.say(word)))})
	}
	list.Items = append(list.Items, c.points(c.build.Packet.Store).Items...)
	c.Add(list)
}

// madeSo reports whether the way it is made counts for its care, by its name there.
func (c *facts) madeSo(how string) bool {
	return slices.ContainsFunc(c.care.Layers, func(l label.CareLayer) bool { return l.Made == how })
}

// eatenByMoths reports whether a cloth is of wool, hair or silk.
func (c *facts) eatenByMoths() bool {
	return slices.ContainsFunc(c.content.Whole, func(f label.FibrePart) bool {
		return slices.Contains([]string{"wool", "hair", "silk"}, f.Fibre.Customs)
	})
}

// happens is what to do when something happens, as far as the record tells.
func (c *composer) happens() {
	c.heading("happens.title")
	var facts document.Facts
	tell := func(what string, how string) {
		facts.Items = append(facts.Items, c.fact(c.t.say(what), document.Say(how)))
	}
	if len(c.build.Thread) > 0 {
		tell("happens.seam", c.t.say("happens.seam.how", "thread", c.build.Thread[0].V.Colour.V))
	}
	for _, n := range c.garment.Notions {
		if strings.Contains(strings.ToLower(n.Record.Is()), "button") {
			tell("happens.button", c.t.say("happens.button.how"))
			break
		}
	}
	if how := c.grows(); how != "" {
		tell("happens.tight", how)
	}
	tell("happens.torn", c.t.say("happens.torn.how", "sheet", c.t.say("sheet.repairs")))
	c.Add(facts)
}

// grows says by how much the garment can be let out; "" where that is not known.
func (c *composer) grows() string {
	var out []string
	known := false
	for _, w := range c.wornKnown() {
		if w.LetOut.ID == "" || !w.LetOut.Value.Known() {
			continue
		}
		known = true
		if w.LetOut.Value.Number >= leastSeen {
			out = append(out, c.level(w.Name)+" "+c.one(w.LetOut))
		}
	}
	switch {
	case len(out) > 0:
		return c.t.say("happens.tight.how", "lengths", c.Joined(out))
	case known:
		return c.t.say("happens.tight.none")
	}
	return ""
}
