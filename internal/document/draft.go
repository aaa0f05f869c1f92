package document

import "hembook/internal/figure"

// A Draft is a document while it is put together. It is used again for one
// document after the other: what was taken from it before Reset is gone then.
type Draft struct {
	Printer
	Blocks []Block

	runs    []Inline
	phrases []Phrase
	rows    []TableRow
	table   TableDraft
}

// Reset empties the draft, and keeps its room.
func (d *Draft) Reset() {
	clear(d.Blocks)
	clear(d.runs)
	clear(d.phrases)
	d.Blocks, d.runs, d.phrases, d.rows = d.Blocks[:0], d.runs[:0], d.phrases[:0], d.rows[:0]
}

// Add adds blocks.
func (d *Draft) Add(blocks ...Block) { d.Blocks = append(d.Blocks, blocks...) }

// Phrase is inlines as a phrase; empty ones are left out.
func (d *Draft) Phrase(runs ...Inline) Phrase {
	from := len(d.runs)
	for i := range runs {
		if !runs[i].empty() {
			d.runs = append(d.runs, runs[i])
		}
	}
	return d.runs[from:len(d.runs):len(d.runs)]
}

func (r *Inline) empty() bool {
	return r.Words == "" && !r.Above && (r.Figure == nil || r.Figure.ID == "") && r.When == nil && r.Draw == nil
}

// Say adds a paragraph.
func (d *Draft) Say(runs ...Inline) { d.Add(Text{Phrase: d.Phrase(runs...)}) }

// Note adds how to read what follows.
func (d *Draft) Note(words string) { d.Add(Text{Phrase: d.Phrase(Inline{Words: words}), As: Note}) }

// Within is the blocks that are added by do, taken out of the draft to be set
// within another one.
func (d *Draft) Within(do func()) []Block {
	from := len(d.Blocks)
	do()
	inner := append([]Block{}, d.Blocks[from:]...)
	d.Blocks = d.Blocks[:from]
	return inner
}

// Fact is a term with a figure; ok is false where there is no figure.
func (d *Draft) Fact(term string, f *figure.Figure) (fact Fact, ok bool) {
	if f.ID == "" {
		return fact, false
	}
	at := len(d.phrases)
	d.phrases = append(d.phrases, d.Phrase(Inline{Figure: f}))
	return Fact{Term: term, Says: d.phrases[at:len(d.phrases):len(d.phrases)]}, true
}

// Facts adds figures by their titles.
func (d *Draft) Facts(list ...*figure.Figure) {
	var facts Facts
	for _, f := range list {
		if fact, ok := d.Fact(f.Title, f); ok {
			facts.Items = append(facts.Items, fact)
		}
	}
	d.Add(facts)
}

// A TableDraft is a table that is put together cell by cell.
type TableDraft struct {
	draft *Draft
	table Table
	rows  int // where its rows begin
	cells int // where those of the row do
}

// Table begins a table. It is in the draft once it ends; only one can be open.
func (d *Draft) Table(caption string, columns ...Column) *TableDraft {
	d.table = TableDraft{draft: d, table: Table{Caption: caption, Columns: columns}, rows: len(d.rows), cells: -1}
	return &d.table
}

// Long says that the table may be continued on another page. It must not stand
// within another block then.
func (t *TableDraft) Long() *TableDraft {
	t.table.Long = true
	return t
}

// Headed says that the heading above says its caption.
func (t *TableDraft) Headed() *TableDraft {
	t.table.Headed = true
	return t
}

// Row begins a row with the words that name it.
func (t *TableDraft) Row(name string) *TableDraft { return t.RowOf(Inline{Words: name}) }

// RowOf begins a row with what names it.
func (t *TableDraft) RowOf(runs ...Inline) *TableDraft {
	return t.Next().Cell(runs...)
}

// Next begins a row; its first cell names it.
func (t *TableDraft) Next() *TableDraft {
	t.shut()
	t.cells = len(t.draft.phrases)
	return t
}

// Below begins a row that has its name in common with the row above.
func (t *TableDraft) Below() *TableDraft { return t.RowOf(Inline{Above: true}) }

func (t *TableDraft) shut() {
	if d := t.draft; t.cells >= 0 {
		d.rows = append(d.rows, d.phrases[t.cells:len(d.phrases):len(d.phrases)])
		t.cells = -1
	}
}

// Cell adds a cell.
func (t *TableDraft) Cell(runs ...Inline) *TableDraft {
	t.draft.phrases = append(t.draft.phrases, t.draft.Phrase(runs...))
	return t
}

// Words adds cells of words.
func (t *TableDraft) Words(words ...string) *TableDraft {
	for _, w := range words {
		t.Cell(Inline{Words: w})
	}
	return t
}

// Figures adds a cell for each figure.
func (t *TableDraft) Figures(list ...*figure.Figure) *TableDraft {
	for _, f := range list {
		t.Cell(Inline{Figure: f})
	}
	return t
}

// Empty reports whether the table has no rows yet.
func (t *TableDraft) Empty() bool { return t.cells < 0 && len(t.draft.rows) == t.rows }

// End adds the table to the draft.
func (t *TableDraft) End() {
	t.shut()
	d := t.draft
	t.table.Rows = d.rows[t.rows:len(d.rows):len(d.rows)]
	d.Add(t.table)
}
