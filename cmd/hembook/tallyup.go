package main

import (
	"io"
	"strconv"

	"hembook/internal/cutting"
	"hembook/internal/derive"
	"hembook/internal/document"
	"hembook/internal/figure"
	"hembook/internal/order"
	"hembook/internal/record"
	"hembook/internal/say"
)

// An upward is what changes with one thing: a figure, or what is written on
// lines of a file.
type upward struct {
	root    root
	changes []figure.Dependant
	private map[string]bool
}

// printUpward prints all that changes with the figure or the part of a record
// that a word names.
func (t *tally) printUpward(on *buildAtHand, cut *cutting.Cutting, word string) error {
	standing, err := t.standing(on.room, on.tailor, on.file, cut.Garment)
	if err != nil {
		return err
	}
	up := &upward{private: map[string]bool{}}
	lineage := up.lineage(on.tailor, cut, standing)
	if up.root, err = findRoot(on.room, on.file, lineage, word); err != nil {
		return err
	}
	up.changes = up.root.changes(lineage, on.room)
	d := newDraft(on.room.Workroom.Style())
	up.blocks(d, on.file)
	if t.json {
		return up.printJSON(t.out, reportOf(on.file, d))
	}
	tell(t.out, d, t.working)
	return nil
}

// lineage is that of all figures of a build, the maker's own ones included.
func (up *upward) lineage(tailor *derive.Tailor, cut *cutting.Cutting, standing order.Standing) *figure.Lineage {
	late, own := tailor.LateFigures(cut.Garment, standing)
	var private []figure.Figure
	for _, kept := range append(cut.Garment.PrivateFigures(), own...) {
		f := kept.Open(record.ToTheMaker)
		private = append(private, f)
		up.private[f.ID] = true
	}
	return figure.NewLineage(cut.Figures(), late, private)
}

// blocks are a tree: below each figure those that go on from it.
func (up *upward) blocks(d *document.Draft, bf record.BuildFile) {
	d.Say(document.Say(bf.Name + " (" + bf.Slug + ")"))
	from := ""
	root := document.Fact{Term: up.root.name, Says: []document.Phrase{d.Phrase(document.Say(up.root.where()))}}
	if f := up.root.figure; f != nil {
		root, _ = up.fact(d, f)
		from = f.ID
	}
	d.Add(document.Section{Blocks: []document.Block{document.Facts{Items: []document.Fact{root}}}})
	if len(up.changes) == 0 {
		d.Add(document.Section{Head: say.Of("hembook.no-figure-changes-with-it")})
		return
	}
	below := map[string][]*figure.Figure{}
	for _, c := range up.changes {
		below[c.Through] = append(below[c.Through], c.Figure)
	}
	d.Add(document.Section{Head: say.Of("hembook.with-it", verb(len(up.changes), say.Of("hembook.figure-changes"), say.Of("hembook.figures-change"))),
		Blocks: []document.Block{document.Facts{Items: up.tree(d, below, from)}}})
}

// tree is what goes on from a figure.
func (up *upward) tree(d *document.Draft, below map[string][]*figure.Figure, from string) []document.Fact {
	var out []document.Fact
	for _, f := range below[from] {
		if one, ok := up.fact(d, f); ok {
			one.Below = up.tree(d, below, f.ID)
			out = append(out, one)
		}
	}
	return out
}

// fact is a figure by what it is of and what it is.
func (up *upward) fact(d *document.Draft, f *figure.Figure) (document.Fact, bool) {
	fact, ok := d.Fact(nameOf(f), f)
	fact.Private = up.private[f.ID]
	return fact, ok
}

func verb(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// nameOf is what a figure is called in a list: what it is of, and what it is.
func nameOf(f *figure.Figure) string {
	if f.Of != "" && f.Title != "" {
		return f.Of + ": " + f.Title
	}
	return f.Of + f.Title
}

type (
	jsonUpward struct {
		jsonReport
		Of      jsonRoot     `json:"of"`
		Changes []jsonChange `json:"changes"`
	}
	jsonRoot struct {
		Figure string `json:"figure,omitempty"`
		Named  string `json:"named,omitempty"`
		File   string `json:"file,omitempty"`
		Line   int32  `json:"line,omitempty"`
		ToLine int32  `json:"to-line,omitempty"`
	}
	jsonChange struct {
		Far     int    `json:"far"`               // 1 for the nearest
		Through string `json:"through,omitempty"` // the figure, one step nearer, that it rests on
		Figure  string `json:"figure"`
	}
)

func (up *upward) printJSON(out io.Writer, of jsonReport) error {
	r := &up.root
	j := jsonUpward{jsonReport: of, Of: jsonRoot{Named: r.name, File: r.file, Line: r.first, ToLine: r.last}, Changes: []jsonChange{}}
	if r.figure != nil {
		j.Of = jsonRoot{Figure: j.named(r.figure, up.private[r.figure.ID])}
	}
	for _, d := range up.changes {
		j.Changes = append(j.Changes, jsonChange{d.Far, d.Through, j.named(d.Figure, up.private[d.Figure.ID])})
	}
	return document.PrintJSON(out, j)
}
