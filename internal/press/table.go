package press

import "hembook/internal/figure"

// A column of a table of figures.
type column struct {
	title string
	words bool // holds words, not figures
}

func words(title string) column { return column{title, true} }
func fig(title string) column   { return column{title, false} }

// A table is written cell by cell; every table of figures on every page is.
// Columns that are empty in all rows are left out.
type table struct {
	w       *paper
	caption string
	columns []column
	cells   []byte // contents of all cells, one after the other
	ends    []int  // where each cell ends
	heads   []int  // for each row, the number of its first cell
	used    uint32 // columns that hold something
	turns   bool   // the table may be continued on another page
}

// longTable is how many rows a table has before it is continued in another.
const longTable = 32

// table begins a table. It is written when it ends.
func (w *paper) table(caption string, columns ...column) *table {
	t := &w.tables
	*t = table{w: w, caption: caption, columns: columns, used: 1, cells: t.cells[:0], ends: t.ends[:0], heads: t.heads[:0]}
	return t
}

// long says that the table may be continued on another page where it has many
// rows: it must not stand within an element that its part has begun.
func (t *table) long() *table {
	t.turns = t.w.rules != nil
	return t
}

// row begins a row with the words that name it.
func (t *table) row(name string) *table {
	return t.head(func(w *paper) { w.say(name) })
}

// rowLink begins a row with a link that names it.
func (t *table) rowLink(href, name string) *table {
	return t.head(func(w *paper) { w.link(href, name) })
}

func (t *table) head(do func(w *paper)) *table {
	t.heads = append(t.heads, len(t.ends))
	return t.html(do)
}

// html adds a cell that is written by do.
func (t *table) html(do func(w *paper)) *table {
	before := len(t.w.b)
	do(t.w)
	return t.move(before)
}

// move takes what was written since then off the paper and keeps it as a cell.
func (t *table) move(before int) *table {
	at := len(t.ends) - t.heads[len(t.heads)-1]
	if len(t.w.b) > before && at < len(t.columns) {
		t.used |= 1 << at
	}
	t.cells = append(t.cells, t.w.b[before:]...)
	t.w.b = t.w.b[:before]
	t.ends = append(t.ends, len(t.cells))
	return t
}

// words adds a cell of words.
func (t *table) words(words string) *table {
	before := len(t.w.b)
	t.w.say(words)
	return t.move(before)
}

// fig adds a cell with a figure.
func (t *table) fig(f *figure.Figure) *table {
	before := len(t.w.b)
	t.w.figure(f)
	return t.move(before)
}

// end writes the table, in a box that scrolls by itself where it is too wide.
func (t *table) end() {
	first := 0
	for t.turns && len(t.heads)-first > longTable {
		t.rows(first, first+longTable)
		t.w.mayTurn()
		first += longTable
	}
	t.rows(first, len(t.heads))
}

// rows writes the rows from one number up to another, as a table.
func (t *table) rows(from, to int) {
	w := t.w
	w.raw(`<div class="wide" tabindex="0"><table class="figures"><caption>`).say(t.caption)
	if from > 0 {
		w.raw(", continued")
	}
	w.raw("</caption><thead><tr>")
	for i, c := range t.columns {
		switch {
		case t.used&(1<<i) == 0:
		case (c.words || i == 0) && t.hasLong(i):
			w.raw(`<th scope="col" class="w long">`).say(c.title).raw("</th>")
		case c.words:
			w.raw(`<th scope="col" class="w">`).say(c.title).raw("</th>")
		default:
			w.raw(`<th scope="col">`).say(c.title).raw("</th>")
		}
	}
	w.raw("</tr></thead><tbody>")
	for r := from; r < to; r++ {
		last := len(t.ends)
		if r+1 < len(t.heads) {
			last = t.heads[r+1]
		}
		w.raw("\n<tr>")
		for i := range t.columns {
			if t.used&(1<<i) != 0 {
				t.cell(i, t.heads[r]+i, last)
			}
		}
		w.raw("</tr>")
	}
	w.raw("</tbody></table></div>\n")
}

// longWords is from how many bytes on, those of its tags apart, a cell makes its
// column one that stays wide on a phone, so that its words do not stand one
// below another.
const longWords = 30

// hasLong reports whether a column has a cell of many words.
func (t *table) hasLong(column int) bool {
	for r, head := range t.heads {
		n, last := head+column, len(t.ends)
		if r+1 < len(t.heads) {
			last = t.heads[r+1]
		}
		if n >= last {
			continue
		}
		from := 0
		if n > 0 {
			from = t.ends[n-1]
		}
		if lettersOf(t.cells[from:t.ends[n]]) >= longWords {
			return true
		}
	}
	return false
}

// lettersOf counts the bytes of HTML that stand outside its tags.
func lettersOf(html []byte) int {
	n, inTag := 0, false
	for _, c := range html {
		switch {
		case c == '<':
			inTag = true
		case c == '>':
			inTag = false
		case !inTag:
			n++
		}
	}
	return n
}

// cell writes cell number n of the table, in column i; a row may stop early.
func (t *table) cell(i, n, last int) {
	w := t.w
	var body []byte
	if n < last {
		from := 0
		if n > 0 {
			from = t.ends[n-1]
		}
		body = t.cells[from:t.ends[n]]
	}
	switch {
	case i == 0:
		w.raw(`<th scope="row">`)
		w.b = append(w.b, body...)
		w.raw("</th>")
		return
	case t.columns[i].words && len(body) > 0:
		w.raw(`<td class="w">`)
	default:
		w.raw("<td>")
	}
	w.b = append(w.b, body...)
	w.raw("</td>")
}
