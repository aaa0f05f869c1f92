package main

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"hembook/internal/cutting"
	"hembook/internal/derive"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/order"
	"hembook/internal/record"
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
func (t *tally) printUpward(on *workOn, cut *cutting.Cutting, word string) error {
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
	if t.json {
		return up.printJSON(t.out, on.file)
	}
	up.print(t.out, on.file, t.working, on.room.Workroom.Style())
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

// print prints a tree: below each figure those that go on from it.
func (up *upward) print(out io.Writer, bf record.BuildFile, working bool, style measure.Style) {
	fmt.Fprintf(out, "%s (%s)\n", bf.Name, bf.Slug)
	if f := up.root.figure; f != nil {
		up.line(out, f, 0, working, style)
	} else {
		fmt.Fprintf(out, "  %s   %s\n", up.root.name, up.root.where())
	}
	if len(up.changes) == 0 {
		fmt.Fprint(out, "\nno figure changes with it\n")
		return
	}
	fmt.Fprintf(out, "\n%s with it\n", verb(len(up.changes), "figure changes", "figures change"))
	below := map[string][]*figure.Figure{}
	for _, d := range up.changes {
		below[d.Through] = append(below[d.Through], d.Figure)
	}
	var tree func(from string, deep int)
	tree = func(from string, deep int) {
		for _, f := range below[from] {
			up.line(out, f, deep, working, style)
			tree(f.ID, deep+1)
		}
	}
	from := ""
	if up.root.figure != nil {
		from = up.root.figure.ID
	}
	tree(from, 0)
}

func verb(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprint(n, " ", many)
}

// line prints a figure, so deep in the tree.
func (up *upward) line(out io.Writer, f *figure.Figure, deep int, working bool, style measure.Style) {
	var b strings.Builder
	name := nameOf(f)
	if up.private[f.ID] {
		name += " (private)"
	}
	if n := nameWidth - utf8.RuneCountInString(name); n > 0 {
		name += strings.Repeat(" ", n)
	}
	fmt.Fprintf(&b, "  %s %s\n", name, saidOf(style, f.Value))
	if working {
		workingLines(&b, f.Working)
	}
	for line := range strings.Lines(b.String()) {
		fmt.Fprint(out, strings.Repeat("  ", deep), line)
	}
}

// nameWidth is how wide the names of figures are set.
const nameWidth = 52

// nameOf is what a figure is called in a list: what it is of, and what it is.
func nameOf(f *figure.Figure) string {
	if f.Of != "" && f.Title != "" {
		return f.Of + ": " + f.Title
	}
	return f.Of + f.Title
}

// saidOf is a value as the workroom shows figures.
func saidOf(style measure.Style, v figure.Value) string {
	switch {
	case !v.Known():
		return "not known, because " + v.Why
	case v.Money != nil:
		return style.Money(v.Money.Round())
	case v.Moment != nil:
		return v.Moment.Format(momentForm)
	case v.Exact:
		return style.PreciseQuantity(v.Quantity)
	}
	return style.Quantity(v.Quantity)
}

// workingLines prints how a figure was reached.
func workingLines(out io.Writer, w figure.Working) {
	say := func(what, words string) {
		if words != "" {
			fmt.Fprintf(out, "      %-8s%s\n", what, words)
		}
	}
	say("rule:", w.Rule)
	say("sum:", w.Sum())
	for _, in := range w.Inputs() {
		from := in.From
		if in.At.Given() {
			from = fmt.Sprintf("%s:%d", in.At.File(), in.At.Line)
		}
		say("from:", in.Name+" = "+in.Value+"   "+from)
	}
	say("source:", w.Source.Shown())
}

type (
	jsonUpward struct {
		Build   string       `json:"build"`
		Name    string       `json:"name"`
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
		jsonFigure
	}
)

func (up *upward) printJSON(out io.Writer, bf record.BuildFile) error {
	r := &up.root
	j := jsonUpward{Build: bf.Slug, Name: bf.Name, Of: jsonRoot{Named: r.name, File: r.file, Line: r.first, ToLine: r.last}, Changes: []jsonChange{}}
	if r.figure != nil {
		j.Of = jsonRoot{Figure: r.figure.ID}
	}
	for _, d := range up.changes {
		j.Changes = append(j.Changes, jsonChange{d.Far, d.Through, figureJSON(shown{*d.Figure, up.private[d.Figure.ID]})})
	}
	return printJSON(out, j)
}
