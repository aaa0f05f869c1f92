package sheet

import (
	"strconv"
	"strings"

	"hembook/internal/document"
	"hembook/internal/draw"
)

// hanging are the cords, ties and loops on a child's garment, as they were measured, each
// beside the longest that is published for its place and age, and where.
func (c *composer) hanging() {
	t := c.Table("", document.Words(c.t.say("head.what")), document.Figures(c.t.say("head.free")), document.Figures(c.t.say("head.longest")), document.Words(c.t.say("head.published")))
	hangs := map[string]float64{}
	for i := range c.garment.Children {
		m := &c.garment.Children[i]
		if !m.Ruled {
			continue
		}
		free, most := "–", c.t.say("hanging.none")
		if m.Free > 0 {
			hangs[m.Notion] = m.Free
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
	c.hangingDrawn(hangs)
}

// hangingHigh is the room for a piece with what hangs from it, in millimetres.
const hangingHigh = 80

// hangingDrawn draws them on the pieces that they hang from, to scale.
func (c *composer) hangingDrawn(free map[string]float64) {
	var all document.Sketches
	for _, p := range c.garment.Pieces {
		if !p.Drawn() {
			continue
		}
		longest := 0.0
		for _, long := range free {
			longest = max(longest, long)
		}
		least, most := p.Bounds()
		scale := draw.ScaleFor(most.X-least.X, most.Y-least.Y+longest, pieceWide, hangingHigh)
		d := draw.Hanging(p, free, draw.PieceStyle{Scale: scale, Measure: c.style, Parts: draw.Lines | draw.Folds})
		if d == nil {
			continue
		}
		d.Title = p.Name
		all.Of = append(all.Of, document.Sketch{Draw: kept(d), Caption: p.Name + " · 1" + gap + ":" + gap + strconv.FormatFloat(scale, 'f', -1, 64)})
	}
	if len(all.Of) > 0 {
		c.Add(all)
	}
}

// englishHere is the language to mark English words with; "" on an English sheet.
func (c *composer) englishHere() string {
	if c.t.code == "en" {
		return ""
	}
	return "en"
}
