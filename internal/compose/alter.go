package compose

import (
	"math"
	"strconv"
	"strings"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/notebook"
	"hembook/internal/order"
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
		levels = append(levels, draw.MapLevel{Words: strings.ToLower(l.Title) + " " + d.more(&l.LetOut, &l.LetOutPlain), Held: l.Fast(), Girths: l.Girths})
	}
	if len(list) == 0 && len(alters) == 0 {
		return
	}
	nets := t.Nets(layer)
	for i, n := range nets {
		style := draw.MapStyle{NetStyle: netStyle(t, n), Spare: t.Spare, Levels: levels}
		style.ID, style.HalfWords = "map-"+netPlace(t, n), halfWords
		style.Title = "What the " + layerName(layer) + " can give"
		style.Desc = givingWords(t.Giving(n))
		sketch := document.Sketch{Draw: func() *drawing.Drawing { return draw.NetMap(t.Sewn, n, style) }}
		d.Add(document.Turn{}, document.Section{As: "nets", Level: 3, Head: upperFirst(partName(layer, i, len(nets))), Blocks: []document.Block{sketch}})
	}
	d.Note("Hatched: cloth kept behind the seam, drawn up to four times as wide as it is. Heavy: held. Zigzag: a zip or buttons.")
	d.alterTable(alters)
	d.Add(document.Turn{})
	d.givingTable(b, list)
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

func (d *Draft) alterTable(list []order.Alter) {
	t := d.Table("To let a level out", document.Words("level"), document.Figures("now"), document.Figures("sewn again in its own way"), document.Figures("as plain seams"),
		document.Words("what gives"), document.Words("held by"), document.Words("open in this order"), document.Words("grows with it")).Long()
	for i := range list {
		a := &list[i]
		held := a.Level.HeldBy
		grows := numbers(a.Grows, true)
		for _, layer := range a.Other {
			grows = append(grows, "the "+layer)
		}
		t.Row(a.Level.Title).Figures(&a.Level.Finished, &a.Level.LetOut, &a.Level.LetOutPlain).
			Words(strings.Join(numbers(a.Gives, true), ", "), held, strings.Join(numbers(a.Open, false), ", "), strings.Join(grows, ", "))
	}
	t.End()
}

// numbers are seams and hems by their numbers, with their names.
func numbers(list []order.Numbered, named bool) []string {
	var out []string
	for _, n := range list {
		words := strconv.Itoa(n.Number)
		if named {
			words += " " + n.Name
		}
		out = append(out, words)
	}
	return out
}

func (d *Draft) givingTable(b *notebook.BuildPage, list []order.Giving) {
	t := d.Table("What each edge can give", document.Words("seam or hem"), document.Words("edge"), document.Figures("can give"), document.Figures("as a plain seam"),
		document.Figures("length to sew again"), document.Figures("time by my own rate")).Long()
	last := 0
	for i := range list {
		g := &list[i]
		if g.Number == last {
			t.Below()
		} else {
			t.RowOf(document.As(document.Strong, strconv.Itoa(g.Number)), document.Say(" "+g.Name))
		}
		t.Words(g.Edge).Figures(g.Own, g.Plain)
		if g.Number == last {
			t.Cell().Cell()
		} else {
			t.Figures(lengthOf(b, g.Numbered), rateOf(b, g.Numbered))
		}
		last = g.Number
	}
	t.End()
}

// lengthOf is how long a seam or finish is, all of it.
func lengthOf(b *notebook.BuildPage, k order.Numbered) *figure.Figure {
	for _, s := range b.Seams {
		if !k.Finish && s.Name == k.Name {
			return &s.Total
		}
	}
	for _, f := range b.Finishes {
		if k.Finish && f.Name == k.Name {
			return &f.Total
		}
	}
	return nil
}

// rateOf is how fast the step that sewed it went; nil where that did more than
// sew it.
func rateOf(b *notebook.BuildPage, k order.Numbered) *figure.Figure {
	if !b.Together.SewsItAlone(k) {
		return nil
	}
	for i := range b.Steps {
		if s := &b.Steps[i]; k.StepID != "" && s.ID == k.StepID && s.Rate.ID != "" && s.Rate.Value.Known() && s.Rate.Value.Unit == measure.UnitMinPerM {
			return &s.Rate
		}
	}
	return nil
}

func givingWords(list []order.Giving) string {
	var out []string
	for i := range list {
		out = append(out, list[i].Edge+" at "+list[i].Name)
	}
	if len(out) == 0 {
		return "No edge can give anything."
	}
	return "These can give: " + strings.Join(out, ", ") + "."
}
