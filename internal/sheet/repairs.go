package sheet

import (
	"hembook/internal/fitting"
	"slices"
	"strings"

	"hembook/internal/compose"
	"hembook/internal/document"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/order"
	"hembook/internal/record"
)

// repairs is the sheet for whoever mends, alters or cleans the garment.
func repairs(c *composer, _ nothingOpened) {
	c.title(c.t.say("sheet.repairs") + " · " + c.t.say("repairs.about"))
	c.unfinished()
	c.wishes("repairs.keep", c.build.Packet.Keep)
	c.wishes("repairs.mend", c.build.Packet.Mend)
	c.letOuts()
	c.threads() // what is matched fills the page that a map seldom fits on
	c.machine()
	c.cloths()
	c.notions()
	c.ways() // so do its seams in section
	c.alterations()
	c.seams()
	c.edges()
	c.caredFor("") // whoever mends it washes and presses it too
	c.since()
	c.despite("care", "content", "figures")
}

// since asks whoever does something to the garment to tell its maker.
func (c *composer) since() {
	c.heading("repairs.since")
	c.aside(c.t.say("repairs.since.about"))
	var asks []document.FreeAsk
	for _, name := range []string{"altered", "mended", "cleaned"} {
		asks = append(asks, document.FreeAsk{Name: name, Title: upper(c.t.say("repairs.ask." + name)), Long: true})
	}
	c.Add(c.answered("repair", append(asks, document.FreeAsk{Name: "by", Title: upper(c.t.say("ask.name"))})))
}

// wishes is a list of what the maker asks for.
func (c *writer) wishes(word string, list []record.Spoken) {
	if len(list) > 0 {
		c.heading(word)
		c.Add(c.points(list))
	}
}

// letOuts say how much each level can be let out, sewn again in its own way and as
// plain seams, and what holds it.
func (c *composer) letOuts() {
	rows := c.wornKnown()
	if len(rows) == 0 {
		return
	}
	together := order.GoesTogether(c.garment.Garment, c.garment.Steps)
	c.tabled("repairs.out", compose.Table(&c.Draft, inBoth{c}, "", rows, compose.Of(compose.LevelName, ofWorn), wornGarment,
		compose.Of(compose.LevelOwn, ofWorn), compose.Of(compose.LevelPlain, ofWorn), compose.Of(compose.LevelHeld(together), ofWorn)))
	if slices.ContainsFunc(rows, func(w *fitting.Worn) bool { return w.LetOut.Value.Known() }) {
		c.aside(c.t.say("repairs.out-note"))
	}
	if c.letOutUnknown() {
		c.Say(document.Say(c.t.say("fit.out-unknown", "head", c.t.say("head.own"))))
	}
}

func ofWorn(w *fitting.Worn) *garment.Level { return w.Level.Level }

var wornGarment = compose.FigureOf("finished", 3, func(w *fitting.Worn) *figure.Figure { return &w.Garment })

// wornKnown are the levels of the garment whose size is known.
func (c *facts) wornKnown() []*fitting.Worn {
	var out []*fitting.Worn
	for i := range c.worn {
		if c.worn[i].Garment.Value.Known() {
			out = append(out, &c.worn[i])
		}
	}
	return out
}

// letOutUnknown reports whether a level of the garment may or may not be let
// out, and nobody can say how far.
func (c *facts) letOutUnknown() bool {
	return slices.ContainsFunc(c.wornKnown(), func(w *fitting.Worn) bool { return !w.LetOut.Value.Known() })
}

// seams lists the seams, with what is sewn and in which colour.
func (c *composer) seams() {
	stitch := compose.ColumnOf[*garment.Seam]{Word: "stitch", Words: true, Share: 3, Cell: func(t *document.TableDraft, _ compose.Teller, s *garment.Seam) {
		t.Words(c.stitches(c.garment.RowsOf(garment.SeamRow, s.Name)))
	}}
	thread := compose.ColumnOf[*garment.Seam]{Word: "thread", Words: true, Share: 2, Cell: func(t *document.TableDraft, _ compose.Teller, s *garment.Seam) {
		t.Words(c.threadsOf(c.garment.RowsOf(garment.SeamRow, s.Name)))
	}}
	t := compose.Table(&c.Draft, c, "", c.garment.Seams, compose.SeamName, compose.SeamType(c.mm), stitch, compose.SeamAllowance, compose.SeamLength, compose.SeamTotal, thread)
	if !t.Empty() {
		c.tabled("repairs.seams", t)
		c.aside(c.t.say("repairs.iso"))
	}
}

// edges lists the finishes.
func (c *composer) edges() {
	stitch := compose.ColumnOf[*garment.Finish]{Word: "stitch", Words: true, Share: 3, Cell: func(t *document.TableDraft, _ compose.Teller, f *garment.Finish) {
		t.Words(c.stitches(c.garment.RowsOf(garment.FinishRow, f.Name)))
	}}
	thread := compose.ColumnOf[*garment.Finish]{Word: "thread", Words: true, Share: 2, Cell: func(t *document.TableDraft, _ compose.Teller, f *garment.Finish) {
		t.Words(c.threadsOf(c.garment.RowsOf(garment.FinishRow, f.Name)))
	}}
	c.tabled("repairs.edges", compose.Table(&c.Draft, c, "", c.garment.Finishes, compose.FinishName, compose.FinishType(c.mm), stitch, compose.FinishAllowance, compose.FinishLength, thread))
}

// ways draws how each is sewn, in cross-section.
func (c *composer) ways() {
	var all document.Sketches
	for _, w := range c.garment.SewingWays() {
		if d := compose.WaySmall(&w); d != nil {
			d.Title = c.says(c.Joined(append([]string{c.Called("seam."+w.Type.Name, w.Type.Title)}, compose.BesideSaid(c, &w.Type, c.mm)...)), c.Joined(compose.EdgesCalled(c, w.UsedBy)))
			all.Of = append(all.Of, document.Sketch{Draw: kept(d), Caption: d.Title})
		}
	}
	if len(all.Of) > 0 {
		c.heading("ways.title")
		c.aside(c.t.say("ways.drawn"))
		c.Add(all)
	}
}

// Head is what a column is called in the sheet's language.
func (c *speaker) Head(word string) string {
	switch word {
	case "seam-type", "finish-type":
		word = "type"
	}
	return c.t.say("head." + word)
}

// Called is what a thing is called there; the workroom's own keep the name that
// the workroom gives them.
func (c *speaker) Called(word, own string) string {
	if c.t.code == "en" && strings.HasPrefix(word, "part.") && word != "part.shell" && word != "part.fusing" {
		return own
	}
	if name, way := strings.CutPrefix(word, "opening."); way && !c.t.has(word) {
		word = "edge." + name
	}
	name, ofEdge := strings.CutPrefix(word, "edge.")
	if c.t.code == "en" && (ofEdge || strings.HasPrefix(word, "work.") || strings.HasPrefix(word, "parameter.")) {
		return own
	}
	if ofEdge && !c.t.has(word) { // of a layer, as lining sides
		for _, layer := range []string{"lining", "facing", "interlining"} {
			if rest, ok := strings.CutPrefix(name, layer+"-"); ok && c.t.has("edge."+rest) {
				return c.t.say("edge."+rest) + " (" + c.part(layer) + ")"
			}
		}
	}
	return c.t.sayOr(word, own)
}

// Filled is a text of the sheet's language with what stands in its braces.
func (c *speaker) Filled(word, _ string, with ...any) string { return c.t.say(word, with...) }

// Figure is a figure in the wearer's unit.
func (c *speaker) Figure(f *figure.Figure) document.Inline {
	return document.Quantity(c.metres(*f), "")
}

// inBoth tells lengths in both systems, the wearer's first.
type inBoth struct{ *composer }

func (c inBoth) Figure(f *figure.Figure) document.Inline { return c.both(*f) }

// stitches names the stitch types of rows by their numbers.
func (c *composer) stitches(rows []*garment.Row) string {
	return c.Joined(compose.Stitches(c, rows))
}

// threadsOf names the colours of the threads of rows.
func (c *composer) threadsOf(rows []*garment.Row) string {
	return c.Joined(compose.Colours(c.garment.Threads, rows))
}

// threads lists the threads to match.
func (c *composer) threads() {
	var facts document.Facts
	for i := range c.build.Thread {
		t := &c.build.Thread[i]
		words := []string{t.V.Colour.V}
		if t.V.Fibre.Given() {
			words = append(words, c.material(t.V.Fibre.V))
		}
		facts.Items = append(facts.Items, c.fact(t.Name.V, document.Say(c.Joined(words))))
	}
	if len(facts.Items) > 0 {
		c.heading("repairs.threads")
		c.Add(facts)
	}
}

// cloths lists the cloths to match.
func (c *composer) cloths() {
	t := c.Table("", document.Words(c.t.say("head.part")).Wide(2), document.Words(c.t.say("head.cloth")).Wide(4),
		document.Words(c.t.say("head.colour")).Wide(2), document.Words(c.t.say("head.fibre")).Wide(4))
	for _, cloth := range c.garment.Cloths {
		if cloth.Cloth != nil {
			t.Row(upper(c.part(cloth.Part))).Words(cloth.Cloth.Name.V, cloth.Cloth.Colour.V, c.clothFibres(cloth))
		}
	}
	c.tabled("repairs.cloths", t)
}

// clothFibres are a cloth's fibres as its record gives them.
func (c *composer) clothFibres(cloth *garment.Cloth) string {
	var out []string
	for i := range cloth.Cloth.Fibres {
		f := &cloth.Cloth.Fibres[i]
		share := c.percent(float64(f.V.V))
		out = append(out, c.t.say("content.fibre", "share", share, "fibre", c.material(f.Name.V)))
	}
	return c.Joined(out)
}

// notions lists notions to match.
func (c *composer) notions() {
	t := c.Table("", document.Words(c.t.say("head.what")).Wide(3), document.Figures(c.t.say("head.many")).Wide(1),
		document.Figures(c.t.say("head.length")).Wide(2), document.Words(c.t.say("head.material")).Wide(5))
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
		t.Row(upper(c.notion(n.Record.Name.V))).Words(many, c.one(n.Length), strings.Join(of, "; "))
	}
	c.tabled("repairs.parts", t)
}
