package paper

import (
	"strconv"

	"hembook/internal/drawing"
)

func (s *setter) list(l List, wide float64) []slab {
	from := l.From
	if from == 0 {
		from = 1
	}
	indent := s.unit(4.2)
	if l.Numbered {
		last := sans().wide(strconv.Itoa(from+len(l.Items)-1)+".", s.size*figureText)
		indent = max(indent, last+s.unit(2))
	}
	var out []slab
	for i, item := range l.Items {
		more := s.paragraph(s.atoms(item, s.size, false), wide, indent, s.row(s.size))
		if len(more) == 0 {
			continue
		}
		if i > 0 {
			more[0].gap = s.unit(0.7)
		}
		mark := more[0]
		mark.items = nil
		if l.Numbered {
			text := strconv.Itoa(from+i) + "."
			f, size := sans(), s.size*figureText
			w := f.wide(text, size)
			mark.putLine(line{pieces: []piece{{setting: setting{face: f, size: size, ink: drawing.Faded}, text: text, wide: w}}}, indent-w-s.unit(1.6), 0, mark.high)
		} else {
			mark.put(0, 0, stroke(s.unit(1.2), mark.high*0.55, s.unit(2.9), mark.high*0.55, drawing.Pen{Weight: stitch, Ink: drawing.Red}))
		}
		more[0].items = append(mark.items, more[0].items...)
		if near := i < listEnds-1 || i >= len(l.Items)-listEnds; near && i < len(l.Items)-1 && len(more) <= shortItem {
			together(more)[len(more)-1].keep = true
		}
		out = append(out, more...)
	}
	return out
}

func (s *setter) ticks(t Ticks, wide float64) []slab {
	row := s.row(s.size)
	side := s.unit(boxSide)
	indent := side + s.unit(2.6)
	var out []slab
	for i, tick := range t.Items {
		one := s.tick(tick, wide, indent, side, row)
		if i > 0 {
			one.gap = s.unit(1.3)
		}
		one.keep = i == 0 && len(t.Items) > 1 || i == len(t.Items)-2 || i == len(t.Items)-1 && t.SignBy != nil
		out = append(out, s.partTall([]slab{one})...)
	}
	if t.SignBy != nil {
		out = append(out, s.signature(*t.SignBy, wide))
	}
	return out
}

// tick is a box, what it stands for, and a note at the right.
func (s *setter) tick(t Tick, wide, indent, side, row float64) slab {
	var note []line
	noteWide := 0.0
	if t.Note != "" {
		atoms := s.label(t.Note, sans(), s.size*figureText, drawing.Faded)
		_, most := widths(atoms)
		noteWide = min(most, wide*0.4)
		note = fill(atoms, noteWide+0.01)
		noteWide += s.unit(3)
	}
	lines := fill(s.atoms(t.Phrase, s.size, false), wide-indent-noteWide)
	one := slab{high: row * float64(max(len(lines), len(note), 1))}
	top := (row - side) / 2
	var box drawing.Path
	one.put(0, 0, pathItem{scale: 1, path: *box.Rect(0.2, top, 0.2+side, top+side), pen: drawing.Pen{Weight: rule, Ink: drawing.Dark}})
	if t.Done {
		var done drawing.Path
		done.Move(0.2+side*0.2, top+side*0.55).Line(0.2+side*0.42, top+side*0.8).Line(0.2+side*0.95, top-side*0.1)
		one.put(0, 0, pathItem{scale: 1, path: done, pen: drawing.Pen{Weight: 0.55, Ink: drawing.Dark}})
	}
	for i, l := range lines {
		one.putLine(l, indent, row*float64(i), row)
	}
	for i, l := range note {
		one.putLine(l, wide-l.wide, row*float64(i), row)
	}
	return one
}

// signature is what is signed, and a line each for name and date.
func (s *setter) signature(sign Signature, wide float64) slab {
	out := slab{gap: s.unit(4)}
	row := s.row(s.size)
	for _, l := range fill(s.atoms(Say(sign.About), s.size, false), wide) {
		out.putLine(l, 0, out.high, row)
		out.high += row
	}
	out.high += s.unit(6.5)
	small := s.row(s.size * smallText)
	x := 0.0
	for _, part := range []struct {
		share     float64
		word, own string
	}{{0.62, or(s.words.Signed, "signed"), sign.Name}, {0.30, or(s.words.Date, "date"), sign.Date}} {
		long := wide * part.share
		if part.own != "" {
			for _, l := range fill(s.atoms(Say(part.own), s.size, false), long)[:1] {
				out.putLine(l, x, out.high-row, row)
			}
		}
		out.put(0, 0, stroke(x, out.high, x+long, out.high, drawing.Pen{Weight: hairline, Ink: drawing.Dark, Butt: true}))
		for _, l := range fill(s.label(part.word, sans(), s.size*smallText, drawing.Faded), long)[:1] {
			out.putLine(l, x, out.high+0.4, small)
		}
		x += wide * 0.70
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

func (s *setter) facts(f Facts, wide float64) []slab {
	termSize := s.size * smallText
	termWide := 0.0
	terms := make([][]atom, len(f.Items))
	for i, item := range f.Items {
		terms[i] = s.label(item.Term, sans(), termSize, drawing.Faded)
		_, most := widths(terms[i])
		termWide = max(termWide, most)
	}
	termWide = min(termWide, wide*0.4)
	left := termWide + s.unit(4)
	row := s.row(s.size)
	var out []slab
	for i, item := range f.Items {
		var one slab
		for k, l := range fill(terms[i], termWide+0.01) {
			one.putLine(l, 0, row*float64(k), row)
			one.high = max(one.high, row*float64(k+1))
		}
		for k, l := range fill(s.atoms(item.Value, s.size, false), wide-left) {
			one.putLine(l, left, row*float64(k), row)
			one.high = max(one.high, row*float64(k+1))
		}
		if one.high == 0 {
			continue
		}
		one.high += s.unit(0.5)
		one.keep = i == 0 || i == len(f.Items)-2
		out = append(out, s.partTall([]slab{one})...)
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
