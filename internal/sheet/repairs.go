package sheet

import (
	"hembook/internal/fitting"
	"slices"
	"strings"

	"hembook/internal/garment"
	"hembook/internal/paper"
)

// repairs is the sheet for whoever mends, alters or cleans the garment.
func repairs(c *composer, _ nothingOpened) []paper.Block {
	out := []paper.Block{paper.Heading{Level: 1, Text: c.build.Name.V, About: c.t.say("sheet.repairs") + " · " + c.t.say("repairs.about")}}
	out = append(out, c.draft()...)
	out = append(out, c.wishes("repairs.keep", c.build.Packet.Keep)...)
	out = append(out, c.wishes("repairs.mend", c.build.Packet.Mend)...)
	out = append(out, c.letOuts()...)
	out = append(out, c.seamTable()...)
	out = append(out, c.edgeTable()...)
	out = append(out, c.threadTable()...)
	out = append(out, c.clothTable()...)
	out = append(out, c.partTable()...)
	return append(out, c.despite("care", "content", "figures")...)
}

// wishes is a list of what the maker asks for.
func (c *composer) wishes(title string, list []text) []paper.Block {
	if len(list) == 0 {
		return nil
	}
	points := paper.List{}
	for _, w := range list {
		points.Items = append(points.Items, paper.Say(plainWords(w.V)))
	}
	return []paper.Block{heading(2, c.t.say(title)), points}
}

// letOuts say how much each level can be let out.
func (c *composer) letOuts() []paper.Block {
	table := paper.Table{RowHead: true, Columns: []paper.Column{{Head: c.t.say("fit.level"), Share: 2}, {Head: c.t.say("fit.garment"), Align: paper.Right, Share: 3}, {Head: c.t.say("fit.out"), Align: paper.Right, Share: 3}}}
	known := false
	for _, w := range c.worn {
		if w.Garment.Value.Known() {
			table.Rows = append(table.Rows, []paper.Phrase{paper.Say(upper(c.level(w.Level))), c.both(w.Garment), c.both(w.LetOut)})
			known = known || w.LetOut.Value.Known()
		}
	}
	if len(table.Rows) == 0 {
		return nil
	}
	out := []paper.Block{heading(2, c.t.say("repairs.out")), table}
	if known {
		out = append(out, paper.Text{Phrase: paper.Aside(c.t.say("repairs.out-note"))})
	}
	if c.letOutUnknown() {
		out = append(out, paper.Text{Phrase: paper.Say(c.t.say("fit.out-unknown"))})
	}
	return out
}

// letOutUnknown reports whether a level of the garment may or may not be let
// out, and nobody can say how far.
func (c *composer) letOutUnknown() bool {
	return slices.ContainsFunc(c.worn, func(w fitting.Worn) bool { return w.Garment.Value.Known() && !w.LetOut.Value.Known() })
}

// seamTable lists the seams.
func (c *composer) seamTable() []paper.Block {
	if len(c.garment.Seams) == 0 {
		return nil
	}
	table := paper.Table{RowHead: true, Columns: []paper.Column{
		{Head: c.t.say("repairs.seam"), Share: 3}, {Head: c.t.say("repairs.type"), Share: 3}, {Head: c.t.say("repairs.stitch"), Share: 3},
		{Head: c.t.say("repairs.allowance"), Align: paper.Right, Share: 2}, {Head: c.t.say("repairs.length"), Align: paper.Right, Share: 2}, {Head: c.t.say("repairs.thread"), Share: 2},
	}}
	for _, s := range c.garment.Seams {
		table.Rows = append(table.Rows, []paper.Phrase{
			paper.Say(s.Name), paper.Say(c.seamType(s.Type.Name, s.Type.Title)), paper.Say(c.stitches(s.Thread)),
			{{Text: c.gives(s), Style: paper.Figure}}, {{Text: c.metres(s.Total), Style: paper.Figure}}, paper.Say(c.threadsOf(s.Thread)),
		})
	}
	return []paper.Block{heading(2, c.t.say("repairs.seams")), table, paper.Text{Phrase: paper.Aside(c.t.say("repairs.iso"))}}
}

// gives is what a seam takes of each side's allowance.
func (c *composer) gives(s *garment.Seam) string {
	a, b := c.one(s.Gives[0]), c.one(s.Gives[1])
	if a == b {
		return a
	}
	return a + " / " + b
}

// edgeTable lists the finishes.
func (c *composer) edgeTable() []paper.Block {
	if len(c.garment.Finishes) == 0 {
		return nil
	}
	table := paper.Table{RowHead: true, Columns: []paper.Column{
		{Head: c.t.say("repairs.edge"), Share: 3}, {Head: c.t.say("repairs.type"), Share: 3}, {Head: c.t.say("repairs.stitch"), Share: 3},
		{Head: c.t.say("repairs.allowance"), Align: paper.Right, Share: 2}, {Head: c.t.say("repairs.length"), Align: paper.Right, Share: 2}, {Head: c.t.say("repairs.thread"), Share: 2},
	}}
	for _, f := range c.garment.Finishes {
		table.Rows = append(table.Rows, []paper.Phrase{
			paper.Say(f.Name), paper.Say(c.seamType(f.Type.Name, f.Type.Title)), paper.Say(c.stitches(f.Thread)),
			{{Text: c.one(f.Takes), Style: paper.Figure}}, {{Text: c.metres(f.Total), Style: paper.Figure}}, paper.Say(c.threadsOf(f.Thread)),
		})
	}
	return []paper.Block{heading(2, c.t.say("repairs.edges")), table}
}

// seamType is what a seam type or finish is called; the workroom's own keep
// the name the workroom gives them.
func (c *composer) seamType(name, title string) string {
	return c.t.sayOr("seam."+name, title)
}

// stitches names the stitch types of a seam by their numbers.
func (c *composer) stitches(needs []garment.ThreadNeed) string {
	var out []string
	for _, n := range needs {
		text := n.Stitch.Type
		if c.t.has("stitch." + n.Stitch.Type) {
			text += " " + c.t.say("stitch."+n.Stitch.Type)
		}
		if text != "" && !slices.Contains(out, text) {
			out = append(out, text)
		}
	}
	return strings.Join(out, c.t.say("list.comma"))
}

// threadsOf names the colours of a seam's threads.
func (c *composer) threadsOf(needs []garment.ThreadNeed) string {
	var out []string
	for _, n := range needs {
		colour := n.Thread
		for _, t := range c.garment.Threads {
			if t.Name == n.Thread && t.Colour != "" {
				colour = t.Colour
			}
		}
		if colour != "" && !slices.Contains(out, colour) {
			out = append(out, colour)
		}
	}
	return strings.Join(out, c.t.say("list.comma"))
}

// threadTable lists the threads to match.
func (c *composer) threadTable() []paper.Block {
	if len(c.build.Thread) == 0 {
		return nil
	}
	facts := paper.Facts{}
	for i := range c.build.Thread {
		t := &c.build.Thread[i]
		words := []string{t.V.Colour.V}
		if t.V.Fibre.Given() {
			words = append(words, c.material(t.V.Fibre.V))
		}
		facts.Items = append(facts.Items, paper.Fact{Term: upper(t.Name.V), Value: paper.Say(strings.Join(words, c.t.say("list.comma")))})
	}
	return []paper.Block{heading(2, c.t.say("repairs.threads")), facts}
}

// clothTable lists the cloths to match.
func (c *composer) clothTable() []paper.Block {
	table := paper.Table{RowHead: true, Columns: []paper.Column{
		{Head: c.t.say("repairs.part"), Share: 2}, {Head: c.t.say("repairs.cloth"), Share: 4}, {Head: c.t.say("repairs.colour"), Share: 2}, {Head: c.t.say("repairs.fibre"), Share: 4},
	}}
	for _, cloth := range c.garment.Cloths {
		if cloth.Cloth == nil {
			continue
		}
		table.Rows = append(table.Rows, []paper.Phrase{
			paper.Say(upper(c.part(cloth.Part))), paper.Say(cloth.Cloth.Name.V), paper.Say(cloth.Cloth.Colour.V), paper.Say(c.clothFibres(cloth)),
		})
	}
	if len(table.Rows) == 0 {
		return nil
	}
	return []paper.Block{heading(2, c.t.say("repairs.cloths")), table}
}

// clothFibres are a cloth's fibres as its record gives them.
func (c *composer) clothFibres(cloth *garment.Cloth) string {
	var out []string
	for i := range cloth.Cloth.Fibres {
		f := &cloth.Cloth.Fibres[i]
		share := c.style.Number(float64(f.V.V), 1) + gap + "%"
		out = append(out, c.t.say("content.fibre", "share", share, "fibre", c.material(f.Name.V)))
	}
	return strings.Join(out, c.t.say("list.comma"))
}

// partTable lists notions to match.
func (c *composer) partTable() []paper.Block {
	if len(c.garment.Notions) == 0 {
		return nil
	}
	table := paper.Table{RowHead: true, Columns: []paper.Column{
		{Head: c.t.say("repairs.what"), Share: 3}, {Head: c.t.say("repairs.many"), Align: paper.Number, Share: 1}, {Head: c.t.say("repairs.length"), Align: paper.Right, Share: 2}, {Head: c.t.say("repairs.material"), Share: 5},
	}}
	for _, n := range c.garment.Notions {
		many := "1"
		if n.Count.ID != "" {
			many = c.quantity(n.Count)
		}
		var of []string
		for _, s := range []string{c.material(n.Record.Material.V), n.Record.Note.V} {
			if s != "" {
				of = append(of, s)
			}
		}
		table.Rows = append(table.Rows, []paper.Phrase{
			paper.Say(upper(c.notion(n.Record.What.V))), paper.Say(many), {{Text: c.one(n.Length), Style: paper.Figure}}, paper.Say(strings.Join(of, "; ")),
		})
	}
	return []paper.Block{heading(2, c.t.say("repairs.parts")), table}
}
