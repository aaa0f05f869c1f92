package paper

import (
	"strconv"

	"hembook/internal/document"
	"hembook/internal/drawing"
)

func (s *setter) list(l document.List, wide float64) []slab {
	indent := s.unit(4.2)
	if l.Numbered {
		last := sans().wide(strconv.Itoa(len(l.Items))+".", s.size*figureText)
		indent = max(indent, last+s.unit(2))
	}
	var out []slab
	for i := range l.Items {
		more := s.point(&l.Items[i], wide, indent)
		if len(more) == 0 {
			continue
		}
		if i > 0 {
			more[0].gap = s.unit(0.7)
		}
		if l.Items[i].Draw == nil {
			s.mark(&more[0], l.Numbered, i+1, indent)
		}
		if near := i < listEnds-1 || i >= len(l.Items)-listEnds; near && i < len(l.Items)-1 && len(more) <= shortItem {
			together(more)[len(more)-1].keep = true
		}
		out = append(out, more...)
	}
	return out
}

// point sets a point of a list: words beside a mark, or beside a drawing.
func (s *setter) point(it *document.Item, wide, indent float64) []slab {
	if it.Draw != nil {
		return s.partTall([]slab{s.pointBeside(it, wide, 0)})
	}
	out := s.paragraph(s.atoms(it.Phrase, s.size, false), wide, indent, s.row(s.size))
	return append(out, shifted(s.blocks(it.Blocks, wide-indent), indent)...)
}

// mark sets the number of a point before its words, or a stitch.
func (s *setter) mark(to *slab, numbered bool, n int, indent float64) {
	mark := slab{high: s.row(s.size)}
	if numbered {
		text := strconv.Itoa(n) + "."
		f, size := sans(), s.size*figureText
		w := f.wide(text, size)
		mark.putLine(textLine{pieces: []fragment{{setting: setting{face: f, size: size, ink: drawing.Faded}, text: text, wide: w}}}, indent-w-s.unit(1.6), 0, mark.high)
	} else {
		mark.put(0, 0, stroke(s.unit(1.2), mark.high*0.55, s.unit(2.9), mark.high*0.55, drawing.Pen{Weight: stitch, Ink: drawing.Red}))
	}
	to.items = append(mark.items, to.items...)
}

func (s *setter) ticks(t document.Ticks, wide float64) []slab {
	row := s.row(s.size)
	side := s.unit(boxSide)
	indent := side + s.unit(2.6)
	var out []slab
	for i := range t.Items {
		one := s.tick(&t.Items[i], wide, indent, side, row)
		if i > 0 {
			one.gap = s.unit(1.3)
		}
		one.keep = i == 0 && len(t.Items) > 1 || i == len(t.Items)-2
		out = append(out, s.partTall([]slab{one})...)
	}
	return out
}

// tick is a box and what it stands for.
func (s *setter) tick(t *document.Tick, wide, indent, side, row float64) slab {
	lines := fill(s.atoms(t.Phrase, s.size, false), wide-indent)
	one := slab{high: row * float64(max(len(lines), 1))}
	top := (row - side) / 2
	one.put(0, 0, box(0.2, top, side, side))
	if t.Done {
		var done drawing.Path
		done.Move(0.2+side*0.2, top+side*0.55).Line(0.2+side*0.42, top+side*0.8).Line(0.2+side*0.95, top-side*0.1)
		one.put(0, 0, pathItem{scale: 1, path: done, pen: drawing.Pen{Weight: 0.55, Ink: drawing.Dark}})
	}
	for i, l := range lines {
		one.putLine(l, indent, row*float64(i), row)
	}
	return one
}

// form is what is filled in, and a line for each field with its name below.
func (s *setter) form(b document.FillIn, wide float64) slab {
	var out slab
	row, small := s.row(s.size), s.row(s.size*smallText)
	for _, l := range fill(s.say(b.Says), wide) {
		out.putLine(l, 0, out.high, row)
		out.high += row
	}
	out.high += s.unit(6.5)
	sum, x := 0.0, 0.0
	for _, f := range b.Fields {
		sum += f.Share
	}
	between := wide * 0.08
	for _, f := range b.Fields {
		long := (wide - between*float64(len(b.Fields)-1)) / float64(len(b.Fields))
		if sum > 0 {
			long = (wide - between*float64(len(b.Fields)-1)) * f.Share / sum
		}
		if value := fill(s.say(f.Value), long); len(value) > 0 {
			out.putLine(value[0], x, out.high-row, row)
		}
		out.put(0, 0, stroke(x, out.high, x+long, out.high, drawing.Pen{Weight: hairline, Ink: drawing.Dark, Butt: true}))
		if name := fill(s.aside(f.Name), long); len(name) > 0 {
			out.putLine(name[0], x, out.high+0.4, small)
		}
		x += long + between
	}
	out.high += small + 0.4
	return out
}

func or(word, otherwise string) string {
	if word == "" {
		return otherwise
	}
	return word
}

func (s *setter) facts(f document.Facts, wide float64) []slab {
	termWide := 0.0
	terms := make([][]atom, len(f.Items))
	for i := range f.Items {
		terms[i] = s.aside(f.Items[i].Term)
		_, most := widths(terms[i])
		termWide = max(termWide, most)
	}
	termWide = min(termWide, wide*0.4)
	left := termWide + s.unit(4)
	row := s.row(s.size)
	var out []slab
	for i := range f.Items {
		var one slab
		for k, l := range fill(terms[i], termWide+0.01) {
			one.putLine(l, 0, row*float64(k), row)
			one.high = max(one.high, row*float64(k+1))
		}
		y := 0.0
		for _, p := range f.Items[i].Says {
			for _, l := range fill(s.atoms(p, s.size, false), wide-left) {
				one.putLine(l, left, y, row)
				y += row
			}
		}
		if one.high = max(one.high, y); one.high > 0 {
			one.high += s.unit(0.5)
			one.keep = i == 0 || i == len(f.Items)-2
			out = append(out, s.partTall([]slab{one})...)
		}
		if below := f.Items[i].Below; len(below) > 0 {
			out = append(out, shifted(s.facts(document.Facts{Items: below}, wide-s.unit(4)), s.unit(4))...)
		}
	}
	if n := len(out); n > 0 {
		out[n-1].keep = false
	}
	return out
}

// partTall cuts a slab that is taller than a page between its rows of text.
func (s *setter) partTall(slabs []slab) []slab {
	var out []slab
	for _, one := range slabs {
		if one.high <= s.room {
			out = append(out, one)
			continue
		}
		out = append(out, one.cutAt(s.room*0.9)...)
	}
	return out
}

// cutAt cuts a slab into parts of at most that height; each item stays whole,
// on the part on which it begins.
func (one slab) cutAt(high float64) []slab {
	n := int(one.high/high) + 1
	parts := make([]slab, n)
	parts[0].gap, parts[0].again = one.gap, one.again
	for _, it := range one.items {
		k := min(max(int(topOf(it)/high), 0), n-1)
		parts[k].put(0, -float64(k)*high, it)
	}
	out := parts[:0]
	for k, p := range parts {
		p.high = min(high, one.high-float64(k)*high) + 4 // letters that begin on the last row
		p.again = one.again
		if len(p.items) > 0 {
			out = append(out, p)
		}
	}
	out[len(out)-1].keep = one.keep
	return out
}

func topOf(it item) float64 {
	switch it := it.(type) {
	case textItem:
		return it.y - it.face.high*it.size*mmPerPoint
	case pathItem:
		top := it.y
		for i, q := range it.path.Points {
			if y := it.y + q.Y*it.scale; i == 0 || y < top {
				top = y
			}
		}
		return top
	case pictureItem:
		return it.y
	}
	return 0
}
