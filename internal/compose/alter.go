package compose

import (
	"math"
	"strings"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/figure"
	"hembook/internal/fitting"
	"hembook/internal/measure"
	"hembook/internal/notebook"
	"hembook/internal/order"
	"hembook/internal/say"
)

// alterations shows where there is cloth to let out, and what holds it.
func alterations(d *Draft, b *notebook.BuildPage) {
	t := b.Together
	if t == nil {
		return
	}
	for _, layer := range t.Layers() {
		d.giving(b, t, layer)
	}
}

// heldWords says below a level what holds it.
func heldWords(l *fitting.Level) string {
	if !l.Fast() || l.HeldBy == "" {
		return ""
	}
	return say.Of("compose.held-by", l.HeldBy)
}

// spentOf is the time that each step took, by its ID.
func spentOf(b *notebook.BuildPage) map[string]*figure.Figure {
	out := map[string]*figure.Figure{}
	for i := range b.Steps {
		out[b.Steps[i].ID] = &b.Steps[i].Spent
	}
	return out
}

// giving maps what a layer can give.
func (d *Draft) giving(b *notebook.BuildPage, t *order.Together, layer string) {
	list := t.Giving(t.Net(layer))
	var alters []order.Alter
	var levels []draw.MapLevel
	for _, l := range b.Levels {
		if len(l.Girths) == 0 || l.Girths[0].Layer != layer {
			continue
		}
		alters = append(alters, t.Alter(l.Level))
		levels = append(levels, draw.MapLevel{Words: strings.ToLower(l.Title) + " " + d.more(&l.LetOut, &l.LetOutPlain), Held: l.Fast(), HeldBy: heldWords(l), Girths: l.Girths})
	}
	if len(list) == 0 && len(alters) == 0 {
		return
	}
	nets := t.Nets(layer)
	for i, n := range nets {
		style := draw.MapStyle{NetStyle: netStyle(t), Spare: t.Spare, Holds: t.Holds, Levels: levels}
		style.ID, style.HalfWords = "map-"+netPlace(t, n), halfWords
		style.Title = say.Of("compose.what-the-can-give", layerName(layer))
		style.Desc = givingWords(t.Giving(n))
		sketch := document.Sketch{Draw: func() *drawing.Drawing { return draw.NetMap(t.Sewn, n, style) }}
		d.Add(document.Turn{}, document.Section{As: "nets", ID: "give-" + netPlace(t, n), Level: 3, Head: upperFirst(partName(layer, i, len(nets))), Blocks: []document.Block{sketch}})
	}
	d.Note(say.Of("compose.hatched-cloth-kept-behind-the-seam"))
	if len(alters) > 0 {
		Table(&d.Draft, OnPage, say.Of("compose.to-let-a-level-out"), alters, AlterLevel, alterNow, AlterOwn, AlterPlain, AlterGives, AlterHeld(t), AlterOpen, AlterGrows).Long().End()
		d.Add(document.Turn{})
	}
	Table(&d.Draft, OnPage, say.Of("compose.to-unpick-what-was-sewn-last-first"), Unpicking(t, b.Seams, b.Finishes, spentOf(b), alters, list), UnpickName, UnpickType(d.length), UnpickStitch, UnpickThread(b.Threads), UnpickLength, UnpickTook).Long().End()
	d.Add(document.Turn{})
	d.givingTable(list)
}

// more is what a level can be let out, as a drawing shows it.
func (d *Draft) more(own, plain *figure.Figure) string {
	f := own
	if plain.ID != "" && plain.Value.Known() {
		f = plain
	}
	if f == nil || f.ID == "" || !f.Value.Known() {
		return "?"
	}
	style := d.Style
	if style.System == measure.Both {
		style.System = measure.Metric
	}
	if f.Value.Number == 0 {
		return "0"
	}
	return "+ " + style.Length(measure.MM(math.Floor(f.Value.Number+1e-9)))
}

func (d *Draft) givingTable(list []order.Giving) {
	t := d.Table(say.Of("compose.what-each-edge-can-give"), document.Words(say.Of("compose.seam-or-hem")), document.Words(say.Of("compose.edge")), document.Figures(say.Of("compose.can-give")), document.Figures(say.Of("compose.as-a-plain-seam"))).Long()
	last := 0
	for i := range list {
		g := &list[i]
		if g.Number == last {
			t.Below()
		} else {
			t.RowOf(numbered(OnPage, g.Numbered)...)
		}
		t.Words(g.Edge).Figures(g.Own, g.Plain)
		last = g.Number
	}
	t.End()
}

func givingWords(list []order.Giving) string {
	var out []string
	for i := range list {
		out = append(out, say.Of("compose.at", list[i].Edge, list[i].Name))
	}
	if len(out) == 0 {
		return say.Of("compose.no-edge-can-give-anything")
	}
	return say.Of("compose.these-can-give", strings.Join(out, ", "))
}
