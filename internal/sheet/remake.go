package sheet

import (
	"strconv"
	"strings"
	"time"

	"hembook/internal/draw"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/paper"
	"hembook/internal/record"
	"hembook/internal/trade"
)

type text = record.Text

// remake is what another maker needs to make the garment again.
func remake(c *composer, _ nothingOpened) []paper.Block {
	out := []paper.Block{paper.Heading{Level: 1, Text: c.build.Name.V, About: c.t.say("sheet.remake") + " · " + c.t.say("remake.about")}}
	out = append(out, c.draft()...)
	if s := c.build.Summary; s.Given() {
		out = append(out, paper.Text{Phrase: paper.Say(plainWords(s.V))})
	}
	out = append(out, c.draftedFor()...)
	out = append(out, c.clothNeeds()...)
	out = append(out, c.pieceTable()...)
	out = append(out, c.pieceDrawings()...)
	out = append(out, c.layDrawings()...)
	out = append(out, c.orderOfWork()...)
	out = append(out, c.seamTable()...)
	out = append(out, c.edgeTable()...)
	out = append(out, c.partTable()...)
	return append(out, c.despite("figures")...)
}

// draftedFor is the size the draft started from, and the finished girths.
func (c *composer) draftedFor() []paper.Block {
	table := paper.Table{RowHead: true, Columns: []paper.Column{
		{Head: c.t.say("fit.level"), Share: 2}, {Head: c.t.say("fit.drafted"), Align: paper.Right, Share: 3}, {Head: c.t.say("fit.garment"), Align: paper.Right, Share: 3}, {Head: c.t.say("fit.ease"), Align: paper.Right, Share: 3},
	}}
	for _, l := range c.garment.Fit.Levels {
		if l.Finished.Value.Known() {
			table.Rows = append(table.Rows, []paper.Phrase{paper.Say(upper(c.level(l.Name))), c.both(l.Drafted), c.both(l.Finished), c.both(l.Ease)})
		}
	}
	for _, l := range c.garment.Fit.Lengths {
		if l.Finished.Value.Known() {
			table.Rows = append(table.Rows, []paper.Phrase{paper.Say(upper(l.Name)), paper.Say("–"), c.both(l.Finished), paper.Say("–")})
		}
	}
	if len(table.Rows) == 0 {
		return nil
	}
	return []paper.Block{heading(2, c.t.say("fit.title")), table}
}

// clothNeeds lists the cloths with how much of each is needed.
func (c *composer) clothNeeds() []paper.Block {
	table := paper.Table{RowHead: true, Columns: []paper.Column{
		{Head: c.t.say("repairs.part"), Share: 2}, {Head: c.t.say("repairs.cloth"), Share: 4}, {Head: c.t.say("repairs.fibre"), Share: 3},
		{Head: c.t.say("remake.width"), Align: paper.Right, Share: 2}, {Head: c.t.say("remake.mass"), Align: paper.Right, Share: 2}, {Head: c.t.say("remake.need"), Align: paper.Right, Share: 2},
	}}
	for _, cloth := range c.garment.Cloths {
		if cloth.Cloth == nil {
			continue
		}
		need := c.t.say("remake.unlaid")
		for _, l := range c.cutting.Lays {
			if n, ok := l.Needed.Value.Length(); l.Part == cloth.Part && l.Plan != nil && ok {
				need = strings.ReplaceAll(c.style.Cloth(n), " ", gap)
			}
		}
		mass := "–"
		if cloth.Cloth.Mass.Given() {
			mass = strings.ReplaceAll(c.style.Quantity(measure.Quantity{Number: float64(cloth.Cloth.Mass.V), Unit: measure.UnitGPerM2}), " ", gap)
		}
		table.Rows = append(table.Rows, []paper.Phrase{
			paper.Say(upper(c.part(cloth.Part))), paper.Say(cloth.Cloth.Name.V), paper.Say(c.clothFibres(cloth)),
			{{Text: c.oneLength(cloth.Cloth.Width.V), Style: paper.Figure}}, {{Text: mass, Style: paper.Figure}}, {{Text: need, Style: paper.Figure}},
		})
	}
	if len(table.Rows) == 0 {
		return nil
	}
	return []paper.Block{heading(2, c.t.say("remake.cloths")), table}
}

// pieceTable lists the pieces with their size and allowances.
func (c *composer) pieceTable() []paper.Block {
	if len(c.garment.Pieces) == 0 {
		return nil
	}
	table := paper.Table{RowHead: true, Columns: []paper.Column{
		{Head: c.t.say("remake.piece"), Share: 3}, {Head: c.t.say("remake.of"), Share: 3}, {Head: c.t.say("remake.cut"), Share: 2},
		{Head: c.t.say("remake.grain"), Share: 2}, {Head: c.t.say("remake.size"), Align: paper.Right, Share: 4}, {Head: c.t.say("remake.allowances"), Share: 10},
	}}
	for _, p := range c.garment.Pieces {
		var of []string
		for _, part := range p.Of {
			of = append(of, c.part(part))
		}
		size := c.one(p.Width) + " × " + c.one(p.Height)
		grain := p.Grain
		if c.t.has("remake.grain." + grain) {
			grain = c.t.say("remake.grain." + grain)
		}
		table.Rows = append(table.Rows, []paper.Phrase{
			paper.Say(p.Name), paper.Say(strings.Join(of, c.t.say("list.comma"))), paper.Say(c.cutWords(p)), paper.Say(grain),
			{{Text: size, Style: paper.Figure}}, {{Text: c.allowances(p), Style: paper.Small}},
		})
	}
	return []paper.Block{heading(2, c.t.say("remake.pieces")), table}
}

func (c *composer) cutWords(p *garment.Piece) string {
	switch {
	case p.OnFold:
		return c.t.say("remake.cut.fold", "n", strconv.Itoa(p.Count))
	case p.Mirrored:
		return c.t.say("remake.cut.mirrored", "n", strconv.Itoa(p.Count))
	}
	return strconv.Itoa(p.Count)
}

// allowances lists a piece's edges with length and allowance.
func (c *composer) allowances(p *garment.Piece) string {
	var out []string
	for i := range p.Edges {
		e := &p.Edges[i]
		if e.Fold || !e.Allowance.Value.Known() {
			continue
		}
		out = append(out, e.Name+gap+c.one(e.Length)+gap+"+"+gap+c.one(e.Allowance))
	}
	if n := len(p.Darts); n > 0 {
		out = append(out, c.t.say("remake.darts", "n", n))
	}
	return strings.Join(out, "; ")
}

// orderOfWork lists the steps.
func (c *composer) orderOfWork() []paper.Block {
	if len(c.garment.Steps) == 0 {
		return nil
	}
	list := paper.List{Numbered: true}
	for _, s := range c.garment.Steps {
		phrase := paper.Phrase{{Text: upper(plainWords(s.Record.Do.V))}}
		var more []string
		if len(s.Record.Sews) > 0 {
			var names []string
			for _, n := range s.Record.Sews {
				names = append(names, n.V)
			}
			more = append(more, c.t.say("remake.sews", "what", strings.Join(names, c.t.say("list.comma"))))
		}
		if s.Record.Takes.Given() {
			more = append(more, c.time(s.Record.Takes.V))
		}
		if s.Record.Wait.Given() {
			more = append(more, c.t.say("remake.wait", "time", c.time(s.Record.Wait.V)))
		}
		if len(more) > 0 {
			phrase = append(phrase, paper.Run{Text: " · " + strings.Join(more, " · "), Style: paper.Small})
		}
		list.Items = append(list.Items, phrase)
	}
	return []paper.Block{heading(2, c.t.say("remake.work")), list}
}

func (c *composer) time(d time.Duration) string {
	return strings.ReplaceAll(c.style.Duration(d), " ", gap)
}

func fibreOf(word string) (trade.Fibre, bool) { return trade.FibreNamed(word) }

// layDrawings are the lay plans, to scale.
func (c *composer) layDrawings() []paper.Block {
	var out []paper.Block
	scale := 0.0 // one for all lays, so that they can be compared
	for _, l := range c.cutting.Lays {
		if l.Plan != nil {
			scale = max(scale, l.Plan.Length/layWide, l.Plan.Width/layHigh)
		}
	}
	for _, l := range c.cutting.Lays {
		if l.Plan == nil {
			continue
		}
		length := c.oneLength(measure.MM(l.Plan.Length))
		width := c.oneLength(measure.MM(l.Plan.Width))
		caption := c.t.say("remake.lay", "cloth", upper(c.part(l.Part)), "length", length, "width", width)
		if l.Plan.Folded {
			caption += " (" + c.t.say("remake.folded") + ")"
		}
		d := draw.LayPlain(l, scale)
		d.Title = caption
		out = append(out, paper.Sketch{Drawing: d, Caption: caption})
	}
	if len(out) == 0 {
		return nil
	}
	return append([]paper.Block{heading(2, c.t.say("remake.lays"))}, out...)
}
