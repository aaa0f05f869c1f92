package press

import "hembook/internal/garment"

// A column of a table of figures.
type column struct {
	title string
	right bool // holds figures
}

// A table is written row by row; every table of figures on every page is.
type table struct {
	w       *paper
	columns []column
	at      int  // the cell that comes next
	open    bool // a row is open
}

// table begins a table in a box that scrolls by itself where it is too wide.
func (w *paper) table(caption string, columns ...column) *table {
	w.raw(`<div class="wide" role="group" tabindex="0" aria-label="`).say(caption)
	w.raw(`"><table class="figures"><caption>`).say(caption).raw("</caption><thead><tr>")
	for _, c := range columns {
		w.raw(`<th scope="col"`)
		if c.right {
			w.raw(` class="n"`)
		}
		w.raw(">").say(c.title).raw("</th>")
	}
	w.raw("</tr></thead><tbody>")
	return &table{w: w, columns: columns}
}

// row begins a row with the words that name it.
func (t *table) row(name string) *table {
	t.begin()
	t.w.raw(`<th scope="row">`).say(name).raw("</th>")
	return t
}

// rowLink begins a row with a link that names it.
func (t *table) rowLink(href, name string) *table {
	t.begin()
	t.w.raw(`<th scope="row">`).link(href, name).raw("</th>")
	return t
}

func (t *table) begin() {
	if t.open {
		t.w.raw("</tr>")
	}
	t.w.raw("\n<tr>")
	t.open, t.at = true, 1
}

func (t *table) cell() {
	if t.at < len(t.columns) && t.columns[t.at].right {
		t.w.raw(`<td class="n">`)
	} else {
		t.w.raw("<td>")
	}
	t.at++
}

// words adds a cell of words.
func (t *table) words(words string) *table {
	t.cell()
	t.w.say(words).raw("</td>")
	return t
}

// html adds a cell that is written by do.
func (t *table) html(do func(w *paper)) *table {
	t.cell()
	do(t.w)
	t.w.raw("</td>")
	return t
}

// fig adds a cell with a figure.
func (t *table) fig(f *garment.Figure) *table {
	t.cell()
	t.w.figure(f).raw("</td>")
	return t
}

// end closes the table.
func (t *table) end() {
	if t.open {
		t.w.raw("</tr>")
	}
	t.w.raw("</tbody></table></div>\n")
}
