package sheet

import (
	"strings"

	"hembook/internal/document"
)

// hanging are the cords, ties and loops on a child's garment, as they were measured, each
// beside the longest that is published for its place and age, and where.
func (c *composer) hanging() {
	t := c.Table("", document.Words(c.t.say("head.what")), document.Figures(c.t.say("head.free")), document.Figures(c.t.say("head.longest")), document.Words(c.t.say("head.published")))
	for i := range c.garment.Children {
		m := &c.garment.Children[i]
		if !m.Ruled {
			continue
		}
		free, most := "–", c.t.say("hanging.none")
		if m.Free > 0 {
			free = c.mm(m.Free)
		}
		if m.Most > 0 {
			most = c.mm(m.Most)
		}
		what := m.What
		if c.t.code != "en" { // its place is told in English alone
			what = c.notion(m.Notion)
		}
		source := document.As(document.Small, strings.TrimSpace(m.Source.Shown()))
		source.Language = c.englishHere()
		t.Row(upper(what)).Words(free, most).Cell(source)
	}
	c.tabled("hanging.title", t)
}

// englishHere is the language to mark English words with; "" on an English sheet.
func (c *composer) englishHere() string {
	if c.t.code == "en" {
		return ""
	}
	return "en"
}
