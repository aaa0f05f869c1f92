package sheet

import (
	"slices"
	"strings"

	"hembook/internal/compose"
	"hembook/internal/cutting"
	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/figure"
	"hembook/internal/fitting"
	"hembook/internal/garment"
	"hembook/internal/lay"
	"hembook/internal/measure"
	"hembook/internal/order"
)

// remake is what another maker needs to make the garment again.
func remake(c *composer, _ nothingOpened) {
	c.title(c.t.say("sheet.remake") + " · " + c.t.say("remake.about"))
	c.unfinished()
	if s := c.build.Summary; s.Given() {
		c.Say(c.own(s)...)
	}
	c.draftedFor()
	c.openings()
	c.clothNeeds()
	c.pieces()
	c.pieceDrawings()
	c.rolled()
	c.net()
	c.layDrawings()
	c.orderOfWork()
	c.seams()
	c.edges()
	c.joins()
	c.crossings()
	c.machine()
	c.ways()
	c.passes()
	c.threads()
	c.notions()
	c.taken()
	c.makersNotes()
	c.fittedAs()
	given := c.t.say("remake.files")
	if c.build.CanShare() {
		given += " " + c.t.say("remake.workroom")
	}
	c.aside(given)
	c.despite("figures")
}

// crossings says how many plies lie on each other where seams cross.
func (c *composer) crossings() {
	c.tabled("remake.crossings", compose.Table(&c.Draft, c, "", compose.Crossing(c.garment.Seams), compose.CrossName, compose.CrossOver, compose.CrossPlies))
}

// machine says how the machine is set for what is sewn.
func (c *composer) machine() {
	c.tabled("repairs.machine", compose.MachineSets(&c.Draft, c, "", c.garment.Machine))
}

// draftedFor is the size the draft started from, and the finished girths.
func (c *composer) draftedFor() {
	levels := slices.DeleteFunc(slices.Clone(c.garment.Fit.Levels), func(l *fitting.Level) bool { return !l.Finished.Value.Known() })
	lengths := slices.DeleteFunc(slices.Clone(c.garment.Fit.Lengths), func(l *fitting.Length) bool { return !l.Finished.Value.Known() })
	name := compose.ColumnOf[*fitting.Length]{Cell: func(t *document.TableDraft, _ compose.Teller, l *fitting.Length) { t.Words(upper(l.Name)) }}
	none := compose.FigureOf("", 0, func(*fitting.Length) *figure.Figure { return &figure.Figure{} })
	columns := []compose.ColumnOf[*fitting.Level]{compose.FitName, compose.FitDrafted, compose.FitFinished}
	ofLengths := []compose.ColumnOf[*fitting.Length]{name, none, compose.LengthFinished}
	for _, more := range []struct {
		column compose.ColumnOf[*fitting.Level]
		of     func(*fitting.Level) *figure.Figure
	}{
		{compose.FitGap, func(l *fitting.Level) *figure.Figure { return &l.Gap }}, {compose.FitEase, func(l *fitting.Level) *figure.Figure { return &l.Ease }},
		{compose.FitMost, func(l *fitting.Level) *figure.Figure { return &l.Most }},
	} {
		if slices.ContainsFunc(levels, func(l *fitting.Level) bool { f := more.of(l); return f.ID != "" && f.Value.Known() }) { // else a column of dashes
			columns, ofLengths = append(columns, more.column), append(ofLengths, none)
		}
	}
	t := compose.Table(&c.Draft, inBoth{c}, "", levels, columns...)
	c.tabled("fit.title", compose.Rows(t, inBoth{c}, lengths, ofLengths...))
}

// openings are the ways in and out of the garment, each with its length.
func (c *composer) openings() {
	list := compose.WaysIn(c.garment.Openings, c.garment.Slits)
	c.tabled("openings.title", compose.Table(&c.Draft, c, "", list, compose.WayInName, compose.WayInLength))
}

// taken are the strips, the elastic and the zips that seams and edges take.
func (c *composer) taken() {
	list := compose.TakenBy(c.garment.Seams, c.garment.Finishes)
	c.tabled("repairs.taken", compose.Table(&c.Draft, c, "", list, compose.TakenWhat, compose.TakenFor, compose.TakenCut, compose.TakenEach, compose.TakenAll, compose.TakenFrom))
}

// tabled ends a table and sets it under its heading, unless it has no rows.
func (c *writer) tabled(word string, t *document.TableDraft) {
	if !t.Empty() {
		c.heading(word)
		t.End()
	}
}

// clothNeeds lists the cloths with how much of each is needed.
func (c *composer) clothNeeds() {
	t := c.Table("", document.Words(c.t.say("head.part")).Wide(2), document.Words(c.t.say("head.cloth")).Wide(4), document.Words(c.t.say("head.fibre")).Wide(3),
		document.Figures(c.t.say("head.width")).Wide(2), document.Figures(c.t.say("head.mass")).Wide(2), document.Figures(c.t.say("head.need")).Wide(2))
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
			if cloth.Cloth.Weighed.V == "washed" {
				mass += ", " + c.t.say("remake.washed")
			}
		}
		t.Row(upper(c.part(cloth.Part))).Words(cloth.Cloth.Name.V, c.clothFibres(cloth), c.oneLength(cloth.Cloth.Width.V), mass, need)
	}
	c.tabled("remake.cloths", t)
}

// pieces lists the pieces with their size and allowances.
func (c *composer) pieces() {
	allowances := compose.ColumnOf[*garment.Piece]{Word: "allowances", Words: true, Share: 9, Cell: func(t *document.TableDraft, _ compose.Teller, p *garment.Piece) {
		t.Cell(document.As(document.Small, c.allowances(p)))
	}}
	name := compose.ColumnOf[*garment.Piece]{Word: compose.PieceName.Word, Words: true, Share: compose.PieceName.Share, Cell: func(t *document.TableDraft, _ compose.Teller, p *garment.Piece) {
		t.Words(c.pieceAndName(p.Name))
	}}
	t := compose.Table(&c.Draft, c, "", c.garment.Pieces, name, compose.PieceParts, compose.PieceCut.As("cut", 3), compose.PieceGrain.As("grain", 3), compose.PieceSize, allowances)
	c.tabled("remake.pieces", t)
}

// allowances lists a piece's edges with length and allowance.
func (c *speaker) allowances(p *garment.Piece) string {
	var out []string
	for i := range p.Edges {
		e := &p.Edges[i]
		if e.Fold || !e.Allowance.Value.Known() {
			continue
		}
		out = append(out, c.edge(e.Name)+gap+c.one(e.Length)+gap+"+"+gap+c.one(e.Allowance))
	}
	if n := len(p.Darts); n > 0 {
		out = append(out, c.t.say("remake.darts", "n", n))
	}
	if n := p.PleatCount(); n > 0 {
		out = append(out, c.t.say("remake.pleats", "n", n))
	}
	if n := len(p.Gathered); n > 0 {
		out = append(out, c.t.say("remake.gathers", "n", n))
	}
	if n := len(p.Beside); n > 0 {
		out = append(out, c.t.say("remake.beside", "n", n))
	}
	if n := p.ButtonCount(); n > 0 {
		out = append(out, c.t.say("remake.buttons", "n", n))
	}
	for i := range p.Lines {
		l, word := &p.Lines[i], "remake.line"
		switch {
		case l.Again:
			continue
		case l.Slit:
			word = "remake.slit"
		case l.Fold:
			word = "remake.crease"
		}
		out = append(out, c.t.say(word, "name", l.Name, "length", c.one(l.Length)))
	}
	return strings.Join(out, "; ")
}

// orderOfWork lists the steps.
func (c *composer) orderOfWork() {
	g := order.GoesTogether(c.garment.Garment, c.garment.Steps)
	sewn := func(name string) document.Inline { return document.Say(c.edge(name) + c.howSewn(g, name)) }
	t := compose.Table(&c.Draft, c, "", compose.WorkSteps(c.garment.Steps), compose.WorkName, compose.WorkSews(sewn), compose.WorkAfter, compose.WorkPlanned(c.style))
	c.tabled("remake.work", t)
}

// howSewn says after the name of a seam how it is sewn.
func (c *composer) howSewn(t *order.Together, seam string) string {
	how, closes := compose.HowSewn(t, c, seam)
	switch {
	case how == "":
		return ""
	case closes != "":
		how += "; " + closes
	}
	return " (" + how + ")"
}

// layDrawings are the lay plans, to scale.
func (c *composer) layDrawings() {
	scale := 0.0 // one for all lays, so that they can be compared
	for _, l := range c.cutting.Lays {
		if l.Plan != nil {
			scale = max(scale, l.Plan.Length/l.Plan.Layers()/layWide, l.Plan.Width/layHigh)
		}
	}
	if scale > 0 {
		c.heading("remake.lays")
	}
	var all document.Sketches
	for _, l := range c.cutting.Lays {
		if l.Plan == nil {
			continue
		}
		length := c.oneLength(measure.MM(l.Plan.Length))
		width := c.oneLength(measure.MM(l.Problem.Lay.Cloth.Width))
		caption := c.t.say("remake.lay", "cloth", upper(c.part(l.Part)), "length", length, "width", width)
		if said := c.folded(l); said != "" {
			caption += " (" + said + ")"
		}
		d := draw.LayPlain(l, scale, c.piece)
		d.Title = caption
		all.Of = append(all.Of, document.Sketch{Draw: kept(d), Caption: caption})
	}
	if len(all.Of) > 0 {
		c.Add(all)
	}
}

// folded says how a cloth is folded before it is chalked; nothing of a single layer.
func (c *composer) folded(l *cutting.Lay) string {
	f := l.Plan.Folding
	length := func(mm float64) string { return c.oneLength(measure.MM(mm)) }
	switch f.Fold {
	case lay.Lengthwise:
		return c.t.say("remake.lengthwise")
	case lay.Crosswise:
		return c.t.say("remake.crosswise")
	case lay.BothSelvedges:
		return c.t.say("remake.both", "left", length(f.Near), "right", length(f.Far))
	case lay.PartWidth:
		return c.t.say("remake.width", "left", length(f.Near))
	case lay.PartLength:
		return c.t.say("remake.length", "length", length(f.Long))
	}
	return ""
}
