package compose

import (
	"slices"
	"strings"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/measure"
	"hembook/internal/notebook"
	"hembook/internal/say"
)

// A Part is a part of a build: where it stands and what stands in it.
type Part struct {
	ID, Name string
	Leaf     string // of [notebook.Leaves]; "" on the build's own page
	Compose  func(d *Draft, b *notebook.BuildPage)
}

// BuildParts are the parts of a build in their order. One without blocks is left
// out, and so is a leaf without parts.
var BuildParts = []Part{
	{"made", say.Of("compose.how-it-was-made"), "", howMade},
	{"flat", say.Of("compose.how-it-goes-together"), "", chiefNet},
	{"story", say.Of("compose.story"), "", func(d *Draft, b *notebook.BuildPage) { d.text(b.Story) }},
	{"change", say.Of("compose.what-i-would-change"), "", func(d *Draft, b *notebook.BuildPage) { d.text(b.Change) }},
	{"cloths", say.Of("compose.cloth"), "", cloths},
	{"laid-out", say.Of("compose.pattern-pieces"), "pieces", func(d *Draft, b *notebook.BuildPage) { laidOut(d, b); d.Add(document.Turn{}) }},
	{"pieces", say.Of("compose.pieces"), "pieces", pieces},
	{"together", say.Of("compose.how-it-goes-together"), "together", together},
	{"steps", say.Of("compose.step-by-step"), "together", stepwise},
	{"alter", say.Of("compose.where-there-is-cloth-and-what-holds"), "alter", alterations},
	{"seams", say.Of("compose.seams"), "seams", seams},
	{"truing", say.Of("compose.truing"), "truing", truing},
	{"cloth", say.Of("compose.cloth"), "cloth", takenOfCloths},
	{"notions", say.Of("compose.notions-and-thread"), "cloth", notions},
	{"cautions", say.Of("compose.cautions"), "cloth", func(d *Draft, b *notebook.BuildPage) { d.Add(document.Turn{}); cautions(d, b) }},
	{"lay", say.Of("compose.lay-plan"), "lay", lays},
	{"fittings", say.Of("compose.fittings"), "fit", func(d *Draft, b *notebook.BuildPage) { fittings(d, b); d.Add(document.Turn{}) }},
	{"measurements", say.Of("compose.measurements"), "fit", measurements},
	{"work", say.Of("compose.order-of-work"), "work", func(d *Draft, b *notebook.BuildPage) { timing(d, b); work(d, b); hangs(d, b) }},
	{"notes", say.Of("compose.notes"), "journal", func(d *Draft, b *notebook.BuildPage) { d.text(b.Notes) }},
	{"journal", say.Of("compose.journal"), "journal", journal},
}

// text is a passage in a column to be read.
func (d *Draft) text(p notebook.Passage) {
	if p.Given() {
		d.inset(Prose{p, 3, true})
	}
}

// cautions are what to be careful of. What all of them defer to is said once,
// below them.
func cautions(d *Draft, b *notebook.BuildPage) {
	if len(b.Cautions) == 0 {
		return
	}
	all := document.Cautions{Defers: notebook.Defers}
	for _, c := range b.Cautions {
		one := document.Caution{Head: c.Title, Words: c.Text, Why: c.Why, Source: c.Source.Shown()}
		if notebook.Defers != "" {
			one.Words = strings.TrimSpace(strings.TrimSuffix(c.Text, notebook.Defers))
		}
		all.Items = append(all.Items, one)
	}
	d.Add(all)
}

// cloths shows the cloths of a build.
func cloths(d *Draft, b *notebook.BuildPage) {
	if len(b.Cloths) == 0 {
		return
	}
	list := document.List{As: "cloths"}
	for _, c := range b.Cloths {
		list.Items = append(list.Items, document.Item{
			Draw: func() *drawing.Drawing { return draw.Swatch(c.Swatch, c.Cloth.Name) },
			Phrase: d.Phrase(document.As(document.Strong, c.Part), document.Say(" "),
				document.Lead(string(c.Cloth.Address), c.Cloth.Name), document.As(document.Small, c.Fibres)),
		})
	}
	d.Add(list)
}

// takenOfCloths tables what a build takes of each cloth.
func takenOfCloths(d *Draft, b *notebook.BuildPage) {
	if len(b.Cloths) == 0 {
		return
	}
	t := d.Table(say.Of("compose.cloth"), document.Words(say.Of("compose.part")), document.Figures(say.Of("compose.to-buy")), document.Figures(say.Of("compose.on-the-shelf")), document.Figures(say.Of("compose.cut")), document.Figures(say.Of("compose.weight")))
	for i := range b.Cloths {
		c := &b.Cloths[i]
		t.Row(c.Part).Figures(&c.Needed)
		judged(t, &c.OnHand, true, c.Enough, "over", "short")
		t.Figures(&c.CutArea, &c.Mass)
	}
	t.End()
}

func notions(d *Draft, b *notebook.BuildPage) {
	if len(b.Notions) > 0 {
		t := d.Table(say.Of("compose.notions"), document.Words(say.Of("compose.what")), document.Words(say.Of("compose.note")), document.Figures(say.Of("compose.number")), document.Figures(say.Of("compose.each")),
			document.Figures(say.Of("compose.total")), document.Figures(say.Of("compose.gap")), document.Figures(say.Of("compose.weight")), document.Words(say.Of("compose.places")))
		for i := range b.Notions {
			n := &b.Notions[i]
			var places []string
			for _, at := range n.Places {
				places = append(places, measure.Style{Unit: d.Style.Unit}.Length(at))
			}
			t.Row(n.What).Words(n.Note).Figures(&n.Count, &n.Length, &n.Total, &n.Gap, &n.Mass).Words(strings.Join(places, ", "))
		}
		t.End()
	}
	buttonholes(d, b)
	if taken := TakenBy(b.Seams, b.Finishes); len(taken) > 0 {
		Table(&d.Draft, OnPage, say.Of("compose.strips-elastic-and-zips-of-the-seams"), taken, TakenWhat, TakenFor, TakenCut, TakenEach, TakenAll, TakenFrom).End()
	}
	if len(b.Threads) > 0 {
		t := d.Table(say.Of("compose.thread"), document.Words(say.Of("compose.thread-2")), document.Words(say.Of("compose.colour")), document.Figures(say.Of("compose.needle")), document.Figures(say.Of("compose.under")),
			document.Figures(say.Of("compose.to-have-ready")), document.Figures(say.Of("compose.reels")), document.Figures(say.Of("compose.weight")))
		for _, th := range b.Threads {
			t.Row(th.Name).Words(th.Colour).Figures(&th.Needle, &th.Under, &th.Total, &th.Reels, &th.Mass)
		}
		t.End()
	}
	if len(b.Bias) > 0 {
		t := d.Table(say.Of("compose.bias-strip"), document.Words(say.Of("compose.for")), document.Figures(say.Of("compose.cut-width")), document.Figures(say.Of("compose.length")), document.Figures(say.Of("compose.cut-from-a-square-of")))
		for _, s := range b.Bias {
			name := ""
			if s.Record != nil {
				name = s.Record.Name.V
			}
			t.Row(name).Figures(&s.Cut, &s.Length, &s.Square)
		}
		t.End()
	}
}

// buttonholes tells of every button how its holes are and how many of it to have.
func buttonholes(d *Draft, b *notebook.BuildPage) {
	if !slices.ContainsFunc(b.Notions, func(n notebook.Notion) bool { return n.ToHave.ID != "" }) {
		return
	}
	t := d.Table(say.Of("compose.buttons-and-buttonholes"), document.Words(say.Of("compose.what")), document.Figures(say.Of("compose.to-have-with-spare-ones")), document.Figures(say.Of("compose.length-of-a-buttonhole")),
		document.Words(say.Of("compose.how-they-lie")), document.Figures(say.Of("compose.least-stand")))
	for i := range b.Notions {
		if n := &b.Notions[i]; n.ToHave.ID != "" {
			t.Row(n.What).Figures(&n.ToHave, &n.Hole).Words(n.Lies).Figures(&n.Stand)
		}
	}
	t.End()
}
