package compose

import (
	"slices"
	"strings"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/measure"
	"hembook/internal/notebook"
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
	{"made", "How it was made", "", howMade},
	{"flat", "How it goes together", "", chiefNet},
	{"story", "Story", "", func(d *Draft, b *notebook.BuildPage) { d.text(b.Story) }},
	{"change", "What I would change", "", func(d *Draft, b *notebook.BuildPage) { d.text(b.Change) }},
	{"cloths", "Cloth", "", cloths},
	{"laid-out", "Pattern pieces", "pieces", func(d *Draft, b *notebook.BuildPage) { laidOut(d, b); d.Add(document.Turn{}) }},
	{"pieces", "Pieces", "pieces", pieces},
	{"together", "How it goes together", "together", together},
	{"steps", "Step by step", "together", stepwise},
	{"alter", "Where there is cloth, and what holds it", "alter", alterations},
	{"seams", "Seams", "seams", seams},
	{"truing", "Truing", "truing", truing},
	{"cloth", "Cloth", "cloth", takenOfCloths},
	{"notions", "Notions and thread", "cloth", notions},
	{"cautions", "Cautions", "cloth", func(d *Draft, b *notebook.BuildPage) { d.Add(document.Turn{}); cautions(d, b) }},
	{"lay", "Lay plan", "lay", lays},
	{"fittings", "Fittings", "fit", func(d *Draft, b *notebook.BuildPage) { fittings(d, b); d.Add(document.Turn{}) }},
	{"measurements", "Measurements", "fit", measurements},
	{"work", "Order of work", "work", func(d *Draft, b *notebook.BuildPage) { timing(d, b); work(d, b); hangs(d, b) }},
	{"notes", "Notes", "journal", func(d *Draft, b *notebook.BuildPage) { d.text(b.Notes) }},
	{"journal", "Journal", "journal", journal},
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
		if c.At.Line > 1 { // the first line stands for the whole record
			one.At = c.At
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
	t := d.Table("Cloth", document.Words("part"), document.Figures("to buy"), document.Figures("on the shelf"), document.Figures("cut"), document.Figures("weight"))
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
		t := d.Table("Notions", document.Words("what"), document.Words("note"), document.Figures("number"), document.Figures("each"),
			document.Figures("total"), document.Figures("gap"), document.Figures("weight"), document.Words("places"))
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
		Table(&d.Draft, OnPage, "Strips, elastic and zips of the seams and edges", taken, TakenWhat, TakenFor, TakenCut, TakenEach, TakenAll, TakenFrom).End()
	}
	if len(b.Threads) > 0 {
		t := d.Table("Thread", document.Words("thread"), document.Words("colour"), document.Figures("needle"), document.Figures("under"),
			document.Figures("to have ready"), document.Figures("reels"), document.Figures("weight"))
		for _, th := range b.Threads {
			t.Row(th.Name).Words(th.Colour).Figures(&th.Needle, &th.Under, &th.Total, &th.Reels, &th.Mass)
		}
		t.End()
	}
	if len(b.Bias) > 0 {
		t := d.Table("Bias strip", document.Words("for"), document.Figures("cut width"), document.Figures("length"), document.Figures("cut from a square of"))
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
	t := d.Table("Buttons and buttonholes", document.Words("what"), document.Figures("to have, with spare ones"), document.Figures("length of a buttonhole"),
		document.Words("how they lie"), document.Figures("least stand"))
	for i := range b.Notions {
		if n := &b.Notions[i]; n.ToHave.ID != "" {
			t.Row(n.What).Figures(&n.ToHave, &n.Hole).Words(n.Lies).Figures(&n.Stand)
		}
	}
	t.End()
}
