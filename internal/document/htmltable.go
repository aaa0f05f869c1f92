package document

import (
	"slices"
	"strconv"
	"strings"

	"hembook/internal/say"
)

// longTable is how many rows a table has before it is continued in another.
const longTable = 20

// tables writes a table, in several where it may be continued elsewhere.
func (h *HTML) tables(t Table) {
	rows := t.Rows
	for h.Rules != nil && t.Long && len(rows) > longTable {
		t.Rows, rows = rows[:longTable], rows[longTable:]
		h.oneTable(t)
		h.turn()
		t.Caption = continued(t.Caption)
	}
	t.Rows = rows
	h.oneTable(t)
}

func (h *HTML) oneTable(t Table) {
	if !h.themed(t) {
		h.table(t)
	}
}

// table writes a table in a box that scrolls by itself where it is too wide.
func (h *HTML) table(t Table) {
	shape := t.shape()
	stack := h.stacks(&t, shape[:len(t.Columns)])
	labelled := stack && t.figures(shape[:len(t.Columns)]) >= labelFrom
	h.Put(`<div class="wide" role="group"`).scrolls(t.Caption, "Table").Put(`><table class="figures`)
	if stack {
		h.Put(" stack")
	}
	h.Put(`">`)
	if t.Caption != "" && !t.Headed {
		h.Put("<caption>").Say(t.Caption).Put("</caption>")
	}
	h.Put("<thead><tr>")
	for i := range t.Columns {
		c := &t.Columns[i]
		switch {
		case shape[i] == none:
			continue
		case shape[i] == long && (c.Words || i == 0):
			h.Put(`<th scope="col" class="w long">`)
		case c.Words:
			h.Put(`<th scope="col" class="w">`)
		default:
			h.Put(`<th scope="col">`)
		}
		h.Say(c.Head).Put("</th>")
	}
	h.Put("</tr></thead><tbody>")
	for n, row := range t.Rows {
		h.Put("\n<tr>")
		if over := t.over(n); over > 1 {
			h.Put(`<th scope="rowgroup" rowspan="`).Put(strconv.Itoa(over)).Put(`">`).phrase(row.cell(0)).Put("</th>")
		} else if over == 1 {
			h.Put(`<th scope="row">`).phrase(row.cell(0)).Put("</th>")
		}
		for i := range t.Columns[1:] {
			if i++; shape[i] != none {
				head := ""
				if labelled && (!t.Columns[i].Words || t.bare(i)) {
					head = t.Columns[i].Head
				}
				h.cell(row.cell(i), t.Columns[i].Words, head)
			}
		}
		h.Put("</tr>")
	}
	// The empty foot says that all rows are there: the look shows a table once it
	// has one, since until its last row is read its columns may still move.
	h.Put("</tbody><tfoot></tfoot></table></div>\n")
}

// over is how many rows from number n on bear its name: 0 where that is the name
// of a row above.
func (t *Table) over(n int) int {
	if n > 0 && t.Rows[n].named() {
		return 0
	}
	end := n + 1
	for end < len(t.Rows) && t.Rows[end].named() {
		end++
	}
	return end - n
}

// named reports whether the row bears the name of the one above.
func (r TableRow) named() bool {
	p := r.cell(0)
	return len(p) > 0 && p[0].Above
}

// stackFrom is from how many columns on a table has no room on a phone: its rows are then
// set below each other, cell by cell.
const stackFrom = 5

// stacks reports whether a table is set so on a phone. In a file by itself none is.
func (h *HTML) stacks(t *Table, shape []fill) bool {
	if h.alone != nil {
		return false
	}
	n := 0
	for _, f := range shape {
		if f != none {
			n++
		}
	}
	return n >= stackFrom
}

// labelFrom is from how many figures in a row on each needs its head beside it.
const labelFrom = 3

// bare reports whether all that a column says is numbers, which say nothing without its head.
func (t *Table) bare(column int) bool {
	return !slices.ContainsFunc(t.Rows, func(r TableRow) bool {
		return slices.ContainsFunc(r.cell(column), func(in Inline) bool { return strings.Trim(in.Words, "0123456789, ") != "" })
	})
}

// figures is how many columns hold figures.
func (t *Table) figures(shape []fill) (n int) {
	for i, f := range shape {
		if f != none && !t.Columns[i].Words {
			n++
		}
	}
	return n
}

// cell writes a cell; head names it where no head of a column stands above it.
func (h *HTML) cell(p Phrase, words bool, head string) {
	h.Put("<td")
	if words && len(p) > 0 {
		h.Put(` class="w"`)
	}
	if len(p) > 0 {
		h.attribute("data-h", head)
	}
	h.Put(">").phrase(p).Put("</td>")
}

// cell is the cell of a column; nothing where the row stops before it.
func (r TableRow) cell(column int) Phrase {
	if column < len(r) {
		return r[column]
	}
	return nil
}

// continued is the caption of a table that goes on from another page.
func continued(caption string) string { return say.Of("document.continued", caption) }

// A fill is what a column holds.
type fill uint8

const (
	none fill = iota // nothing in any row
	some
	long // words that would stand one below another in a narrow column
)

// longWords is how many bytes of words make a cell a long one.
const longWords = 30

// mostColumns is how many columns a table may have.
const mostColumns = 32

// shape says what the columns of a table hold.
func (t *Table) shape() (out [mostColumns]fill) {
	out[0] = some
	for _, row := range t.Rows {
		for i := range min(len(row), len(t.Columns)) {
			switch {
			case row[i].letters() >= longWords:
				out[i] = long
			case len(row[i]) > 0:
				out[i] = max(out[i], some)
			}
		}
	}
	return out
}

func (p Phrase) letters() int {
	n := 0
	for i := range p {
		n += len(p[i].Words)
		if p[i].Draw != nil { // which needs its room too
			n += longWords
		}
	}
	return n
}
