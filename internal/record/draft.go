package record

import (
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/say"
	"hembook/internal/trade"
)

// A Draft tells how a record is written from measurements:
// content/drafts/<slug>.yaml. Its formulas are over the names of its measures,
// its choices and the sums above them, in millimetres.
type Draft struct {
	Slug string    `yaml:"-"`
	At   fault.Pos `yaml:"-"`

	Name     Text           `yaml:"name" must:"yes" about:"what it is called" eg:"straight skirt"`
	Summary  Text           `yaml:"summary" about:"what it draws, in one sentence"`
	Units    Text           `yaml:"units" one-of:"mm|cm|in" about:"what a bare length is in, in this file; formulas are always in millimetres"`
	Measures []DraftMeasure `yaml:"measures" must:"yes" about:"what it asks for"`
	Choices  []DraftChoice  `yaml:"choices" about:"what the maker may decide otherwise: ease, widths, depths"`
	Counts   []DraftCount   `yaml:"counts" about:"how many of something, as gores"`
	Sums     []DraftSum     `yaml:"sums" about:"formulas that others use, in order"`
	Checks   []DraftCheck   `yaml:"checks" about:"what must hold, else the draft is not drawn"`
	Record   Text           `yaml:"record" must:"yes" about:"the record: a formula between < and > is worked out as a length, one between <# and > as a number"`
	Source   Text           `yaml:"source" must:"yes" about:"where the draft is published, or whose it is"`

	indent int `yaml:"-"` // how far the record stands in, in its file
}

// A DraftMeasure is a measurement a draft asks for.
type DraftMeasure struct {
	At    fault.Pos `yaml:"-"`
	Name  Text      `yaml:",key" many:"measures"`
	About Text      `yaml:"about" short:"yes" must:"yes" about:"where the tape goes"`
	Least Length    `yaml:"least" min:"1" about:"the least it may be"`
	Most  Length    `yaml:"most" min:"1" about:"the most it may be"`
}

// A DraftChoice is a length that a draft has a usual value for.
type DraftChoice struct {
	At     fault.Pos `yaml:"-"`
	Name   Text      `yaml:",key" many:"choices"`
	Usual  Length    `yaml:"usual" must:"yes" short:"yes" about:"what it is where nothing is said"`
	About  Text      `yaml:"about" about:"what it is"`
	Least  Length    `yaml:"least" about:"the least it may be"`
	Most   Length    `yaml:"most" about:"the most it may be"`
	Source Text      `yaml:"source" about:"where the usual value is published"`
}

// A DraftCount is a number of things that a draft has a usual value for.
type DraftCount struct {
	At    fault.Pos `yaml:"-"`
	Name  Text      `yaml:",key" many:"counts"`
	Usual Count     `yaml:"usual" must:"yes" short:"yes" min:"1" about:"how many where nothing is said"`
	About Text      `yaml:"about" about:"of what"`
	Least Count     `yaml:"least" min:"1" about:"the fewest"`
	Most  Count     `yaml:"most" min:"1" about:"the most"`
}

// A DraftSum is a value that is worked out once and has a name.
type DraftSum struct {
	At     fault.Pos `yaml:"-"`
	Name   Text      `yaml:",key" many:"sums"`
	Is     Text      `yaml:"is" short:"yes" must:"yes" about:"the formula" eg:"waist / 4 + dart"`
	Source Text      `yaml:"source" about:"where the rule is published"`
}

// A DraftCheck is what must hold for the draft to be drawn.
type DraftCheck struct {
	At   fault.Pos `yaml:"-"`
	Must Text      `yaml:"must" must:"yes" about:"a comparison" eg:"hip > waist"`
	Say  Text      `yaml:"say" must:"yes" about:"what is wrong where it does not hold"`
}

// FormulaName is a name as formulas write it: inside leg is inside_leg.
func FormulaName(name string) string {
	return strings.ReplaceAll(strings.ReplaceAll(name, " ", "_"), "-", "_")
}

// ReadDraft reads a draft from the text of a file.
func ReadDraft(source, slug string, text []byte) (*Draft, []fault.Fault) {
	var faults fault.Faults
	src := &fault.Source{Path: source}
	d := &Draft{}
	if text, ok := checkText(src, text, &faults); ok {
		if node, ok := parseYAML(src, text, 0, &faults); ok {
			r := Room{Workroom: &Workroom{}}
			dec := newDecoder(src, r.bareOf(node), &faults)
			dec.text, dec.root = text, node
			dec.into(node, d)
			d.stands(text)
		}
	}
	d.Slug, d.At = slug, fault.Pos{Source: src, Line: 1, Column: 1}
	d.check(&faults)
	return d, faults.Sorted()
}

// stands sees how far the record stands in, so that a fault in it has its column.
func (d *Draft) stands(text []byte) {
	lines := strings.Split(string(text), "\n")
	if i := int(d.Record.At.Line) - 1; i >= 0 && i < len(lines) {
		d.indent = len(lines[i]) - len(strings.TrimLeft(lines[i], " "))
	}
}

// check reads each formula and asks whether the names in it stand above it.
func (d *Draft) check(faults *fault.Faults) {
	var known []string
	name := func(n Text) {
		if n.V == "pi" || strings.ContainsAny(n.V, "<>+*/(){}[]") {
			faults.Wrong(n.At, say.Of("record.letters-digits-spaces-and-hyphens"), say.Of("record.cannot-be-a-name-in-formulas", say.Quoted(n.V)))
		}
		known = append(known, FormulaName(n.V))
	}
	formula := func(t Text, at fault.Pos, text string) trade.Expr {
		e, err := trade.ReadExpr(text)
		if err != nil {
			faults.Wrong(at, say.Of("record.as-waist-4-ease"), say.Of("record.the-formula", say.Quoted(text), err))
			return e
		}
		for _, n := range e.Names() {
			if h := meant.Hint(n, known); !slices.Contains(known, n) {
				faults.Wrong(at, h, say.Of("record.nothing-above-is-called", say.Quoted(n)))
			}
		}
		return e
	}
	for _, m := range d.Measures {
		name(m.Name)
	}
	for _, c := range d.Choices {
		name(c.Name)
	}
	for _, c := range d.Counts {
		name(c.Name)
	}
	for _, s := range d.Sums {
		formula(s.Is, s.Is.At, s.Is.V)
		name(s.Name)
	}
	for _, c := range d.Checks {
		if e := formula(c.Must, c.Must.At, c.Must.V); e.Given() && !e.Compares() {
			faults.Wrong(c.Must.At, "as hip > waist", say.Of("record.compares-nothing", say.Quoted(c.Must.V)))
		}
	}
	for _, part := range d.Parts() {
		if part.Formula != "" {
			formula(d.Record, part.At, part.Formula)
		}
	}
}

// A DraftPart is a stretch of a draft's record: words as they are, or a formula.
type DraftPart struct {
	Words, Formula string
	Number         bool      // the formula gives a plain number, not a length
	At             fault.Pos // of the formula
}

// Parts takes a draft's record apart into words and formulas. A formula stands
// between < and >, on one line, right after the first; where it begins with #
// it is a number.
func (d *Draft) Parts() []DraftPart {
	var out []DraftPart
	at := d.Record.At
	for i, line := range strings.SplitAfter(d.Record.V, "\n") {
		rest, column := line, 0
		for {
			open := strings.IndexByte(rest, '<')
			if open < 0 {
				break
			}
			shut := strings.IndexByte(rest[open:], '>')
			if shut < 0 {
				break
			}
			out = append(out, DraftPart{Words: rest[:open]})
			f, number := strings.CutPrefix(rest[open+1:open+shut], "#")
			pos := at
			pos.Line, pos.Column = at.Line+int32(i), int32(d.indent+column+open+2)
			out = append(out, DraftPart{Formula: f, Number: number, At: pos})
			column += open + shut + 1
			rest = rest[open+shut+1:]
		}
		out = append(out, DraftPart{Words: rest})
	}
	return out
}

// readDrafts reads the workroom's own drafts.
func (r *Room) readDrafts(faults *fault.Faults) {
	for _, p := range r.list("content/drafts", ".yaml", faults) {
		src := &fault.Source{Path: p}
		d := &Draft{}
		_, text, _ := r.decodeFile(src, d, faults)
		d.Slug, d.At = slugOf(p), fault.Pos{Source: src, Line: 1, Column: 1}
		d.stands(text)
		d.check(faults)
		r.Drafts = append(r.Drafts, d)
	}
}
