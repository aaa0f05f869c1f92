package sheet

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"hembook/internal/compose"
	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/order"
	"hembook/internal/sewn"
)

// The largest net on a sheet, in millimetres.
const (
	netWide  = 168
	netHigh  = 165
	mapWide  = 160 // of an alteration map of few copies, so that it stands below what comes before it
	mapHigh  = 140
	pairWide = 134 // of one of several of few copies, so that two stand on a page
	pairHigh = 110

	fewCopies = 12
)

// net shows how the garment goes together, layer by layer.
func (c *composer) net() {
	t := order.GoesTogether(c.garment.Garment, c.garment.Steps)
	if t == nil {
		return
	}
	c.choices(t)
	c.heading("together.title")
	c.aside(c.t.say("together.note"))
	striping := c.cutting.Striping()
	if striping != nil {
		c.aside(c.t.say("together.stripes"))
	}
	several := severalNets(t)
	for _, layer := range t.Layers() {
		for _, n := range t.Nets(layer) {
			style := c.netStyle(t, "together.title", n.Layer)
			if several && len(n.Laid) <= fewCopies {
				style.Wide, style.High = pairWide, pairHigh
			}
			style.Stripes = striping.OnCopy
			d := draw.Net(t.Sewn, n, style)
			if d == nil {
				continue
			}
			c.Add(document.Sketch{Draw: kept(d), Caption: c.netName(t, n)})
			var key []string
			for _, k := range t.Shown(n) {
				key = append(key, strconv.Itoa(k.Number)+gap+c.edge(k.Name))
			}
			c.aside(strings.Join(key, " · "))
			c.lineKey(t.Within(n))
		}
	}
}

// severalNets reports whether a garment is drawn in more than one net.
func severalNets(t *order.Together) bool {
	nets := 0
	for _, layer := range t.Layers() {
		nets += len(t.Nets(layer))
	}
	return nets > 1
}

// lineKey says what lines within the pieces of a net mean.
func (c *composer) lineKey(in order.Within) {
	for _, k := range []struct {
		shown bool
		word  string
	}{{in.Pleats, "together.pleats"}, {in.Gathers, "together.gathers"}, {in.Slits, "together.slits"}, {in.Rows, "together.rows"}} {
		if k.shown {
			c.aside(c.t.say(k.word))
		}
	}
}

// choices draws what the record leaves open both ways, side by side.
func (c *composer) choices(t *order.Together) {
	if len(t.Choices) == 0 {
		return
	}
	c.heading("choice.title")
	c.aside(c.t.say("choice.note"))
	style := c.netStyle(t, "choice.title", "")
	for i := range t.Choices {
		choice := &t.Choices[i]
		var both [][]document.Block
		for k := range choice.Readings {
			r := &choice.Readings[k]
			words := c.reading(choice, r, k)
			both = append(both, []document.Block{document.Sketch{Draw: compose.DrawReading(choice, r, style, words), Caption: words}})
		}
		c.Add(document.Columns{Shares: []float64{1, 1}, Of: both})
	}
}

// reading says what one of the readings of a choice is, the first or the second.
func (c *composer) reading(choice *garment.Choice, r *garment.Reading, k int) string {
	switch {
	case choice.Kind == sewn.RingOrTubes && r.Tubes == 1:
		return c.t.say("choice.tube", "length", c.oneLength(r.Round))
	case choice.Kind == sewn.RingOrTubes:
		return c.t.say("choice.tubes", "n", strconv.Itoa(r.Tubes), "length", c.oneLength(r.Round))
	case choice.Kind == sewn.WhichEnd:
		return c.t.say("choice.from", "zip", choice.Zip, "here", r.Here)
	case choice.Kind == sewn.BesideOrBehind:
		return c.t.say([]string{"choice.piece-beside", "choice.piece-behind"}[k], "piece", c.piece(choice.Piece), "other", c.piece(choice.Other))
	case r.There == "":
		return c.t.say([]string{"choice.one", "choice.other"}[k])
	}
	return c.t.say("choice.beside", "here", r.Here, "there", r.There)
}

func (c *speaker) layer(layer string) string {
	if layer == "outer" {
		layer = "shell"
	}
	return c.part(layer)
}

// netName is the name of one of the nets of a layer, and which of them it is.
func (c *speaker) netName(t *order.Together, n *sewn.Net) string {
	name, nets := upper(c.layer(n.Layer)), t.Nets(n.Layer)
	if len(nets) == 1 {
		return name
	}
	return c.t.say("together.part", "layer", name, "n", strconv.Itoa(slices.Index(nets, n)+1), "of", strconv.Itoa(len(nets)))
}

func (c *composer) netStyle(t *order.Together, title, layer string) draw.NetStyle {
	title = c.t.say(title)
	if layer != "" {
		title = c.says(title, c.layer(layer))
	}
	return draw.NetStyle{
		Wide: netWide, High: netHigh, Seam: t.NumberOfSeam, Finish: t.NumberOfFinish, Set: t.NumberOfSetOn, Piece: t.Piece, Words: c.piece, Left: c.t.say("together.left"), Right: c.t.say("together.right"),
		Behind: c.t.say("together.behind"), Onto: c.t.say("together.onto"), Apart: c.t.say("together.apart"), Title: title,
	}
}

// alterations maps where there is cloth to let out, and says what holds it and
// what to open first.
func (c *composer) alterations() {
	t := order.GoesTogether(c.garment.Garment, c.garment.Steps)
	if t == nil {
		return
	}
	begun, several := false, severalNets(t)
	for _, layer := range t.Layers() {
		var levels []draw.MapLevel
		var list []order.Alter
		for _, l := range c.garment.Levels {
			if len(l.Girths) > 0 && l.Girths[0].Layer == layer {
				list = append(list, t.Alter(l))
				levels = append(levels, draw.MapLevel{Words: c.level(l.Name) + " " + c.more(l.LetOut, l.LetOutPlain), Held: l.Fast(), HeldBy: c.heldWords(t, l), Girths: l.Girths})
			}
		}
		if len(list) == 0 && len(t.Giving(t.Net(layer))) == 0 {
			continue
		}
		for _, n := range t.Nets(layer) {
			style := draw.MapStyle{NetStyle: c.netStyle(t, "alter.title", n.Layer), Spare: t.Spare, Holds: t.Holds, Levels: levels}
			if len(n.Laid) <= fewCopies {
				style.Wide, style.High = mapWide, mapHigh
				if several {
					style.Wide, style.High = pairWide, pairHigh
				}
			}
			d := draw.NetMap(t.Sewn, n, style)
			if d == nil {
				continue
			}
			if !begun {
				c.heading("alter.title")
				c.aside(c.t.say("alter.note"))
				begun = true
			}
			c.Add(document.Sketch{Draw: kept(d), Caption: c.netName(t, n)})
		}
		c.alterTables(t, layer, list)
	}
}

// alterTables say how far each level can be let out, and what to unpick for it.
func (c *composer) alterTables(t *order.Together, layer string, list []order.Alter) {
	levels := compose.Table(&c.Draft, c, "", list, compose.AlterLevel, compose.AlterOwn, compose.AlterPlain, compose.AlterGives, compose.AlterHeld(t), compose.AlterOpen, compose.AlterGrows)
	if !levels.Empty() {
		levels.End()
	}
	spent := map[string]*figure.Figure{}
	for _, s := range c.garment.Steps {
		spent[s.ID] = &s.Spent
	}
	unpick := compose.Table(&c.Draft, c, c.t.say("alter.unpick"), compose.Unpicking(t, c.garment.Seams, c.garment.Finishes, spent, list, t.Giving(t.Net(layer))),
		compose.UnpickName, compose.UnpickType(c.mm), compose.UnpickStitch, compose.UnpickThread(c.garment.Threads), compose.UnpickLength, compose.UnpickTook)
	if !unpick.Empty() {
		unpick.End()
	}
}

// heldWords says below a level what holds it.
func (c *composer) heldWords(t *order.Together, l *garment.Level) string {
	if !l.Fast() || l.HeldBy == "" {
		return ""
	}
	return c.t.say("head.held") + " " + compose.HeldBy(t, c, l.HeldBy)
}

// more is what a level can be let out, as a drawing shows it.
func (c *speaker) more(own, plain figure.Figure) string {
	f := own
	if plain.ID != "" && plain.Value.Known() {
		f = plain
	}
	l, ok := f.Value.Length()
	switch {
	case f.ID == "" || !f.Value.Known() || !ok:
		return "?"
	case l == 0:
		return "0"
	}
	return "+" + gap + c.oneLength(measure.MM(math.Floor(l.MM()+1e-9)))
}
