package sheet

import (
	"strings"

	"hembook/internal/compose"
	"hembook/internal/document"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/trade"
)

// joins are the edges that each seam joins and each finish takes, by the names that stand
// in the pattern, with the measures it is sewn to: what no drawing tells for certain.
func (c *composer) joins() {
	t := c.Table("", document.Words(c.t.say("head.seam")).Wide(2), document.Words(c.t.say("head.joined")).Wide(5), document.Words(c.t.say("head.measures")).Wide(4))
	for _, s := range c.garment.Seams {
		var sides []string
		for _, side := range s.Record.Join {
			sides = append(sides, c.refs(side))
		}
		t.Row(c.edgeAndName(s.Name)).Words(strings.Join(sides, " – ")+c.setAt(s.Record), c.Joined(append(c.measuresOf(s.Type, s.Params), c.eased(s)...)))
	}
	for _, f := range c.garment.Finishes {
		t.Row(c.edgeAndName(f.Name)).Words(c.refs(f.Record.Of), c.Joined(c.measuresOf(f.Type, f.Params)))
	}
	c.tabled("remake.joins", t)
}

// refs are edges as a record names them.
func (c *speaker) refs(list []record.EdgeRef) string {
	out := make([]string, len(list))
	for i, e := range list {
		out[i] = strings.TrimSuffix(e.String(), ".") // a whole piece that is set on another has no edge
	}
	return strings.Join(out, " + ")
}

// setAt is where a piece that is set on another has its upper left corner.
func (c *speaker) setAt(s *record.Seam) string {
	at := s.Place.V
	switch {
	case !s.Place.Given():
		return ""
	case at.Edge != "":
		where := c.oneLength(at.Where.By)
		if at.Where.Middle {
			where = "1/2"
		}
		return " (" + strings.TrimSpace(at.Edge+" "+at.Where.From) + " + " + where + ")"
	}
	return " (" + c.signed(at.Point.X) + "; " + c.signed(at.Point.Y) + ")"
}

// signed is a coordinate of a piece, which may lie on the other side of its fold.
func (c *speaker) signed(mm float64) string {
	if mm < 0 {
		return "−" + c.mm(-mm)
	}
	return c.mm(mm)
}

// measuresOf are the measures of a way of sewing, in the order its type has them.
func (c *speaker) measuresOf(t trade.SeamType, measures trade.Params) (out []string) {
	for _, p := range t.Parameters {
		if mm, ok := measures[p.Name]; ok {
			out = append(out, c.Called("parameter."+p.Name, p.Name)+" "+c.mm(mm))
		}
	}
	return out
}

// eased is what a seam works in, and how far it laps.
func (c *speaker) eased(s *garment.Seam) (out []string) {
	r := s.Record
	if r.Ease.Given() {
		out = append(out, c.t.say("remake.eased", "length", c.oneLength(r.Ease.V)))
	}
	if r.Gather.Given() {
		out = append(out, c.t.say("remake.gathered", "times", c.style.Number(float64(r.Gather.V), 2)))
	}
	if r.Overlap.Given() {
		out = append(out, c.t.say("remake.overlaps", "length", c.oneLength(r.Overlap.V)))
	}
	for _, part := range r.Stretches {
		from, to := part.From.Or("–"), part.To.Or("–")
		if part.Ease.Given() {
			out = append(out, c.t.say("remake.eased", "length", c.oneLength(part.Ease.V))+" ("+from+" – "+to+")")
		}
		if part.Gather.Given() {
			out = append(out, c.t.say("remake.gathered", "times", c.style.Number(float64(part.Gather.V), 2))+" ("+from+" – "+to+")")
		}
	}
	return out
}

// passes tell every way of sewing pass by pass, with its widths. They are written in
// English alone and marked so.
func (c *composer) passes() {
	ways := c.garment.SewingWays()
	style := measure.Style{Unit: c.si.Unit, System: c.style.System, Language: "en"}
	heading := false
	for i := range ways {
		w := &ways[i]
		said := compose.WayPasses(w, style)
		if len(said) == 0 {
			continue
		}
		if !heading {
			c.heading("remake.passes")
			heading = true
		}
		head := []document.Inline{document.As(document.Strong, upper(c.Called("seam."+w.Type.Name, w.Type.Title))+"."), document.Say(" " + c.Joined(compose.EdgesCalled(c, w.UsedBy)))}
		if c.t.code != "en" {
			head = append(head, document.As(document.Small, " "+c.inTongue("en")))
		}
		c.Say(head...)
		list := document.List{Numbered: true}
		for _, sentence := range said {
			list.Items = append(list.Items, document.Item{Phrase: c.Phrase(document.Inline{Words: sentence, Language: c.englishHere()})})
		}
		c.Add(list)
	}
}

// alongWhat says along which edges the named lengths are measured.
func (c *composer) alongWhat(add func(name string, says ...document.Inline)) {
	for i := range c.build.Lengths {
		l := &c.build.Lengths[i]
		add(l.Name.V, document.Say(c.refs(l.Along)))
	}
}
