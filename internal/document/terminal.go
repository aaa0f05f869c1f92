package document

import (
	"cmp"
	"strconv"
	"strings"
	"unicode/utf8"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/say"
)

// Terminal writes blocks as text. Drawings are told by their captions.
type Terminal struct {
	Printer
	Wide    int  // how many letters a line may have; 0 for no end
	Working bool // how each figure of a list of facts was reached stands below it

	out    []byte
	indent int
	term   int // how wide the terms of all facts are
}

// mostTerm is how wide terms are at most before what is said of them.
const mostTerm = 52

// Write is the blocks as text.
func (t *Terminal) Write(blocks []Block) []byte {
	t.out, t.indent, t.term = nil, 0, 0
	t.measure(blocks, 0)
	t.blocks(blocks)
	return t.out
}

// measure finds how wide the terms of facts are, so that all stand alike.
func (t *Terminal) measure(blocks []Block, indent int) {
	for _, b := range blocks {
		switch b := b.(type) {
		case Facts:
			t.measureTerms(b.Items, indent)
		case Section:
			t.measure(b.Blocks, indent+2)
		}
	}
	t.term = min(t.term, mostTerm)
}

func (t *Terminal) measureTerms(list []Fact, indent int) {
	for i := range list {
		t.term = max(t.term, indent+letters(list[i].term()))
		t.measureTerms(list[i].Below, indent+2)
	}
}

// term is the term, and that it is private.
func (f *Fact) term() string {
	if f.Private {
		return say.Of("document.private", f.Term)
	}
	return f.Term
}

func (t *Terminal) blocks(list []Block) {
	for _, b := range list {
		t.block(b)
	}
}

func (t *Terminal) block(b Block) {
	switch b := b.(type) {
	case Heading:
		t.head(strings.TrimSpace(b.Words + " " + b.Aside))
	case Text:
		t.line("", t.phrase(b.Phrase))
	case List:
		for i := range b.Items {
			mark := ""
			if b.Numbered {
				mark = strconv.Itoa(i+1) + ". "
			}
			t.line(mark, t.phrase(b.Items[i].Phrase))
			t.within(b.Items[i].Blocks)
		}
	case Table:
		t.table(b)
	case Facts:
		t.facts(b)
	case Cautions:
		for _, c := range b.Items {
			words := c.Words
			if c.Source != "" {
				words += " (" + c.Source + ")"
			}
			t.line(c.Head+": ", words)
		}
		t.line("", b.Defers)
	case Sketch:
		t.line(say.Of("document.drawn"), b.Caption)
	case Sketches:
		for _, s := range b.Of {
			t.block(s)
		}
	case Stages:
		for _, s := range b.Of {
			t.line("", t.phrase(s.Phrase))
			t.indent += 2
			for _, k := range s.Of {
				t.block(k)
			}
			t.indent -= 2
		}
	case Columns:
		for _, column := range b.Of {
			t.blocks(column)
		}
	case Section:
		t.head(b.Head)
		t.within(b.Blocks)
	case Ticks:
		for i := range b.Items {
			mark := "[ ] "
			if b.Items[i].Done {
				mark = "[x] "
			}
			t.line(mark, t.phrase(b.Items[i].Phrase))
		}
	case FillIn:
		t.line("", b.Says)
		for _, f := range b.Fields {
			t.line(f.Name+": ", cmp.Or(f.Value, "…"))
		}
	case Asks:
		for i := range b.Items {
			t.line(b.Items[i].Title+": ", b.Items[i].How)
		}
	case Picture:
		t.line(say.Of("document.picture"), b.Alt)
	case Inset, Turn: // only pages have them
	}
}

func (t *Terminal) within(list []Block) {
	t.indent += 2
	t.blocks(list)
	t.indent -= 2
}

func (t *Terminal) head(words string) {
	t.out = append(t.out, '\n')
	t.line("", words)
}

// line adds words after a mark, on as many lines as they need, the further ones
// below the first word; nothing where there are no words.
func (t *Terminal) line(mark, words string) {
	if words == "" {
		return
	}
	begin := strings.Repeat(" ", t.indent) + mark
	for _, part := range Wrap(words, t.room(letters(begin))) {
		t.out = append(append(append(t.out, begin...), part...), '\n')
		begin = strings.Repeat(" ", letters(begin))
	}
}

// leastRoom is how many letters a line of words has at least.
const leastRoom = 24

func (t *Terminal) room(taken int) int {
	if t.Wide == 0 {
		return 0
	}
	return max(t.Wide-taken, leastRoom)
}

// Wrap divides words into lines of so many letters where it can; 0 for no end.
func Wrap(words string, wide int) []string {
	words = strings.ReplaceAll(words, "\u00a0", " ")
	if wide == 0 || letters(words) <= wide {
		return []string{words}
	}
	var out []string
	line := ""
	for _, word := range strings.Fields(words) {
		if line != "" && letters(line)+1+letters(word) > wide {
			out, line = append(out, line), ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	return append(out, line)
}

func letters(s string) int { return utf8.RuneCountInString(s) }

func pad(s string, wide int) string { return s + strings.Repeat(" ", max(wide-letters(s), 0)) }

// apart leaves a line empty before what stands at the margin.
func (t *Terminal) apart() {
	if t.indent == 0 && len(t.out) > 0 {
		t.out = append(t.out, '\n')
	}
}

// facts adds terms, what is said of them beside each.
func (t *Terminal) facts(b Facts) {
	t.apart()
	t.terms(b.Items)
}

// terms adds terms, what follows from each further in below it.
func (t *Terminal) terms(list []Fact) {
	for i := range list {
		f := &list[i]
		term := pad(f.term(), t.term-t.indent) + " "
		for _, p := range f.Says {
			t.line(term, t.phrase(p))
			term = strings.Repeat(" ", letters(term))
			if t.Working {
				t.workings(p)
			}
		}
		t.indent += 2
		t.terms(f.Below)
		t.indent -= 2
	}
}

func (t *Terminal) workings(p Phrase) {
	for i := range p {
		if f := p[i].Figure; f != nil {
			t.working(&f.Working)
		}
		if o := p[i].Behind; o != nil {
			for _, k := range o.Workings {
				t.working(k)
			}
		}
	}
}

// working adds how a figure was reached.
func (t *Terminal) working(k *figure.Working) {
	t.indent += 4
	defer func() { t.indent -= 4 }()
	t.line(say.Of("document.rule"), k.Rule)
	t.line(say.Of("document.sum"), k.Sum())
	for _, in := range k.Inputs() {
		t.line(say.Of("document.from"), in.Name+" = "+in.Value+"   "+from(in.At, in.From))
	}
	t.line(say.Of("document.source"), k.Source.Shown())
}

// from is where an input comes from: its place, or in words, or both.
func from(at fault.Pos, words string) string {
	if !at.Given() {
		return words
	}
	place := at.File() + ":" + strconv.Itoa(int(at.Line))
	if words == "" {
		return place
	}
	return place + ", " + words
}

// phrase is a phrase as text.
func (t *Terminal) phrase(p Phrase) string {
	var b strings.Builder
	for i := range p {
		r := &p[i]
		words := r.Words
		switch {
		case r.Other != "":
			words += " (" + r.Other + ")"
		case r.Figure != nil:
			words = t.Said(r.Figure)
		case r.When != nil:
			words = r.When.Format(dayForm)
		case r.Voice == Below:
			words = ", " + words
		case r.Voice == Good, r.Voice == Bad, r.Voice == Small && i > 0, r.Voice == Cited:
			words = " (" + words + ")"
		}
		b.WriteString(words)
	}
	return b.String()
}

// gutter is how many letters stand between two columns.
const gutter = 2

// table adds a table, its columns under each other. One that is wider than the
// terminal has its words on several lines.
func (t *Terminal) table(b Table) {
	shape := b.shape()
	var rows [][]string
	head := []string{}
	for i, c := range b.Columns {
		if shape[i] != none {
			head = append(head, c.Head)
		}
	}
	rows = append(rows, head)
	for _, row := range b.Rows {
		cells := []string{}
		for i := range b.Columns {
			if shape[i] != none {
				cells = append(cells, t.phrase(row.cell(i)))
			}
		}
		rows = append(rows, cells)
	}
	t.apart()
	t.line("", b.Caption)
	wide := t.fit(rows)
	for _, row := range rows {
		t.row(row, wide)
	}
}

// fit is how wide columns are: as their cells are, but the widest of them less
// where that is more than the terminal has.
func (t *Terminal) fit(rows [][]string) []int {
	wide := make([]int, len(rows[0]))
	sum := t.indent - gutter
	for i := range wide {
		for _, row := range rows {
			wide[i] = max(wide[i], letters(row[i]))
		}
		sum += wide[i] + gutter
	}
	for t.Wide > 0 && sum > t.Wide {
		most := 0
		for i := range wide {
			if wide[i] > wide[most] {
				most = i
			}
		}
		if wide[most] <= leastRoom/2 {
			break
		}
		wide[most]--
		sum--
	}
	return wide
}

func (t *Terminal) row(cells []string, wide []int) {
	lines, most := make([][]string, len(cells)), 1
	for i, c := range cells {
		lines[i] = Wrap(c, wide[i])
		most = max(most, len(lines[i]))
	}
	for n := range most {
		line := strings.Repeat(" ", t.indent)
		for i := range lines {
			part := ""
			if n < len(lines[i]) {
				part = lines[i][n]
			}
			line += pad(part, wide[i]+gutter)
		}
		t.out = append(append(t.out, strings.TrimRight(line, " ")...), '\n')
	}
}
