package sheet

import (
	"strings"

	"hembook/internal/compose"
)

// whereWorn are the facts with the fibres by the rules of the country where the garment is
// worn; where the workroom follows others, by both.
func (f *facts) whereWorn(v *vault) *facts {
	market := v.market()
	if market == "" || market == f.content.Market {
		return f
	}
	out := *f
	out.content = f.tailor.ContentBy(f.garment, market)
	if f.room.Workroom.Rules.Given() {
		out.also = f.content
	}
	return &out
}

// inStates reports whether the rules of the United States are followed, alone or beside
// others.
func (f *facts) inStates() bool {
	return f.content.Market == "us" || f.also != nil && f.also.Market == "us"
}

// otherRules states the fibres as the other rules have them: those of the United States in
// English, with the maker and where it was made (15 U.S.C. 70b(b)(1) to (5)).
func (c *composer) otherRules(from origin) {
	if c.inStates() {
		en := c.inEnglish()
		facts := *c.facts
		if facts.content.Market != "us" {
			facts.content = c.also
		}
		en.facts = &facts
		words := append(en.fibreSentences(), c.room.Workroom.Maker.Name.Or(c.room.Workroom.Name.V))
		if from.Country != "" {
			words = append(words, en.t.say("us.made-in", "country", from.Country))
		}
		c.aside(c.t.say("content.rules.us", "text", strings.Join(words, ". ")+"."))
	}
	if c.also != nil && c.also.Market == "eu" {
		facts := *c.facts
		facts.content = c.also
		other := *c
		other.facts = &facts
		c.aside(c.t.say("content.rules.eu", "text", strings.Join(other.fibreSentences(), ". ")+"."))
	}
}

// fibreSentences state the fibres, part by part.
func (c *composer) fibreSentences() []string {
	var out []string
	for _, l := range compose.FibreLines(c, c.content) {
		if l.Unknown == "" {
			out = append(out, c.says(upper(l.Term), l.Words))
		}
	}
	return out
}
