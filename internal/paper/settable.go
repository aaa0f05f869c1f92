package paper

import (
	"slices"

	"hembook/internal/document"
	"hembook/internal/drawing"
)

// table sets a table: a fine line under its head and each row.
func (s *setter) table(t document.Table, wide float64) []slab {
	size := s.size * tableText
	cells := s.tableCells(t, size)
	cols := columnWidths(t, cells, wide, s.unit(cellSide))
	var out []slab
	if t.Caption != "" {
		out = s.paragraph(s.label(t.Caption, serifItalic(), s.size, drawing.NoInk), wide, 0, s.row(s.size))
		for i := range out {
			out[i].keep = true
		}
	}
	head := s.tableHead(t, cells[0], cols, wide)
	if head.high > 0 {
		head.keep = len(t.Rows) > 0
		out = append(out, head)
	}
	again := s.again(t, head, wide)
	s.tables++
	for i := range t.Rows {
		row := s.tableRow(t, cells[i+1], cols, s.row(size), wide)
		row.again, row.table = again, s.tables
		row.keep = i < len(t.Rows)-1 && (i == 0 || i == len(t.Rows)-2 || len(t.Rows) <= smallTable)
		above := 0.0
		if again != nil {
			above = again.high
		}
		out = append(out, s.partRow(row, above)...)
	}
	return out
}

// again is what stands above a table's rows on a further page: its caption,
// said to be continued, and its head; nil where that would fill the page.
func (s *setter) again(t document.Table, head slab, wide float64) *slab {
	var lines []slab
	if t.Caption != "" {
		text := t.Caption + " (" + or(s.words.Continued, "continued") + ")"
		lines = s.paragraph(s.label(text, serifItalic(), s.size, drawing.NoInk), wide, 0, s.row(s.size))
	}
	all := stack(append(lines, head))
	if all.high == 0 || all.high > s.room/3 {
		return nil
	}
	all.items = echoed(all.items)
	return &all
}

// partRow cuts a row that is taller than a page with its head.
func (s *setter) partRow(row slab, head float64) []slab {
	if row.high <= s.room-head {
		return []slab{row}
	}
	return row.cutAt((s.room - head) * 0.9)
}

func echoed(items []item) []item {
	out := make([]item, len(items))
	for i, it := range items {
		if t, ok := it.(textItem); ok {
			t.echo = true
			it = t
		}
		out[i] = it
	}
	return out
}

// tableCells cuts the words of head and rows; row 0 is the head.
func (s *setter) tableCells(t document.Table, size float64) [][][]atom {
	cells := make([][][]atom, len(t.Rows)+1)
	cells[0] = make([][]atom, len(t.Columns))
	for c, col := range t.Columns {
		cells[0][c] = s.aside(col.Head)
	}
	for r, row := range t.Rows {
		cells[r+1] = make([][]atom, len(t.Columns))
		for c := range row {
			cells[r+1][c] = s.atoms(row[c], size, c > 0 && !t.Columns[c].Words)
		}
	}
	return cells
}

// columnWidths shares out the width: by what each column says, or by its
// words, each at least as wide as its widest word where that can be had.
func columnWidths(t document.Table, cells [][][]atom, wide, side float64) []float64 {
	n := len(t.Columns)
	least, most := make([]float64, n), make([]float64, n)
	sumLeast, sumMost, sumShare := 0.0, 0.0, 0.0
	for c := range n {
		for _, row := range cells {
			l, m := widths(row[c])
			least[c], most[c] = max(least[c], l+2*side), max(most[c], m+2*side)
		}
		sumLeast, sumMost, sumShare = sumLeast+least[c], sumMost+most[c], sumShare+t.Columns[c].Share
	}
	out := make([]float64, n)
	for c := range n {
		switch {
		case sumShare > 0:
			out[c] = wide * t.Columns[c].Share / sumShare
		case sumMost <= wide:
			out[c] = most[c] + (wide-sumMost)*most[c]/sumMost
		case sumLeast < wide:
			out[c] = least[c] + (wide-sumLeast)*(most[c]-least[c])/(sumMost-sumLeast)
		default:
			out[c] = least[c]
		}
	}
	return capped(out, wide)
}

// capped makes the widest columns narrower, all to the same width, until the
// sum is no more than wide.
func capped(cols []float64, wide float64) []float64 {
	sorted := slices.Sorted(slices.Values(cols))
	left := wide
	for i, w := range sorted {
		most := left / float64(len(sorted)-i)
		if w > most {
			for c := range cols {
				cols[c] = min(cols[c], most)
			}
			return cols
		}
		left -= w
	}
	return cols
}

func (s *setter) tableHead(t document.Table, cells [][]atom, cols []float64, wide float64) slab {
	any := false
	for _, c := range cells {
		any = any || len(c) > 0
	}
	if !any {
		return slab{}
	}
	head := s.tableRow(t, cells, cols, s.row(s.size*smallText), wide)
	head.items = head.items[:len(head.items)-1] // the line under it is another
	head.put(0, 0, stroke(0, head.high, wide, head.high, drawing.Pen{Weight: rule, Ink: drawing.Dark, Butt: true}))
	return head
}

// tableRow sets one row; the line under it is its last item. Words stand
// first cell first, so that they are read in order.
func (s *setter) tableRow(t document.Table, cells [][]atom, cols []float64, row, wide float64) slab {
	side, top := s.unit(cellSide), s.unit(cellTop)
	var out slab
	x := 0.0
	for c, atoms := range cells {
		room := max(cols[c]-2*side, 1)
		for i, l := range fill(atoms, room+0.01) {
			from := x + side
			if c == 0 {
				from = x // the first column stands flush with the text
			}
			if c > 0 && !t.Columns[c].Words {
				from = x + cols[c] - side - l.wide
				if c == len(cells)-1 {
					from = x + cols[c] - l.wide
				}
			}
			out.putLine(l, from, top+row*float64(i), row)
			out.high = max(out.high, row*float64(i+1))
		}
		x += cols[c]
	}
	if out.high == 0 {
		out.high = row
	}
	out.high += 2 * top
	out.put(0, 0, stroke(0, out.high, wide, out.high, drawing.Pen{Weight: hairline, Ink: drawing.Chalk, Butt: true}))
	return out
}
