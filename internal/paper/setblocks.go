package paper

import (
	"math"

	"hembook/internal/drawing"
)

// note is an aside beside a fine upright line.
func (s *setter) note(n Note, wide float64) []slab {
	indent := s.unit(4)
	size := s.size * 0.94
	phrase := n.Phrase
	if n.Head != "" {
		phrase = append(Stress(n.Head+" "), phrase...)
	}
	out := s.paragraph(s.atoms(phrase, size, false), wide, indent, s.row(size))
	for i := range out {
		out[i].put(0, 0, stroke(0.4, 0, 0.4, out[i].high, drawing.Pen{Weight: rule, Ink: drawing.Faded, Butt: true}))
	}
	return out
}

// caution stands between two rows of basting.
func (s *setter) caution(c Caution, wide float64) []slab {
	phrase := c.Phrase
	if c.Head != "" {
		phrase = append(Stress(c.Head+" "), phrase...)
	}
	lines := s.paragraph(s.atoms(phrase, s.size, false), wide, s.unit(2), s.row(s.size))
	if len(lines) == 0 {
		return nil
	}
	basting := stroke(0, 0, wide, 0, drawing.Pen{Weight: stitch, Ink: drawing.Red, Dash: bastedDash, Butt: true})
	above, below := slab{high: s.unit(1.4), keep: true}, slab{high: s.unit(0.6), gap: s.unit(1)}
	above.put(0, s.unit(0.3), basting)
	below.put(0, s.unit(0.3), basting)
	lines[len(lines)-1].keep = true
	return append(append([]slab{above}, lines...), below)
}

// symbols stand in a row, or under each other where the row is narrow.
func (s *setter) symbols(y Symbols, wide float64) []slab {
	per := max(min(len(y.Items), int(wide/26)), 1)
	if rows := (len(y.Items) + per - 1) / per; rows > 1 {
		per = (len(y.Items) + rows - 1) / rows // rows as long as each other
	}
	var out []slab
	if wide < 90 {
		for _, item := range y.Items {
			one := s.symbolBeside(item, wide)
			one.gap = s.unit(1.6)
			out = append(out, one)
		}
	} else {
		for i := 0; i < len(y.Items); i += per {
			one := s.symbolRow(y.Items[i:min(i+per, len(y.Items))], per, wide)
			one.gap = s.unit(2.5)
			out = append(out, one)
		}
	}
	out = together(s.partTall(out))
	if y.Note != "" {
		note := s.paragraph(s.label(y.Note, sans(), s.size*smallText*0.9, drawing.Faded), wide, 0, s.row(s.size*smallText*0.9))
		if len(note) > 0 && len(out) > 0 {
			note[0].gap = s.unit(1.2)
			out[len(out)-1].keep = true
		}
		out = append(out, note...)
	}
	return out
}

// symbolRow sets symbols side by side, their words under them.
func (s *setter) symbolRow(items []Symbol, per int, wide float64) slab {
	between := s.unit(4)
	part := (wide - between*float64(per-1)) / float64(per)
	var row slab
	drawn := s.symbolsHigh(items)
	for i, item := range items {
		x := float64(i) * (part + between)
		high := s.symbolDrawing(&row, item.Drawing, x, 0, drawn)
		y := 0.0
		if high > 0 || drawn > 0 {
			y = drawn + s.unit(1.2)
		}
		row.high = max(row.high, s.symbolWords(&row, item, x, y, part))
	}
	return row
}

// symbolBeside sets a symbol with its words at its right.
func (s *setter) symbolBeside(item Symbol, wide float64) slab {
	var one slab
	drawn := s.symbolsHigh([]Symbol{item})
	x := 0.0
	if drawn > 0 {
		s.symbolDrawing(&one, item.Drawing, 0, 0, drawn)
		x = s.unit(symbolHigh) * 1.15
	}
	one.high = max(drawn, s.symbolWords(&one, item, x, 0, wide-x))
	return one
}

// symbolsHigh is how high a row of symbols is drawn; 0 where none is drawn.
func (s *setter) symbolsHigh(items []Symbol) float64 {
	for _, item := range items {
		if item.Drawing != nil {
			return s.unit(symbolHigh)
		}
	}
	return 0
}

func (s *setter) symbolDrawing(to *slab, d *drawing.Drawing, x, y, high float64) float64 {
	if d == nil {
		return 0
	}
	k := min(high/d.High(), high*1.3/d.Wide())
	to.put(x, y+high-d.High()*k, s.drawing(d, k)...)
	return high
}

// symbolWords sets the words of a symbol and says where they end.
func (s *setter) symbolWords(to *slab, item Symbol, x, y, wide float64) float64 {
	row := s.row(s.size * tableText)
	f := serif()
	for _, l := range fill(s.label(item.Words, f, s.size*tableText, drawing.NoInk), wide) {
		to.putLine(l, x, y, row)
		y += row
	}
	row = s.row(s.size * smallText)
	for _, l := range fill(s.label(item.About, sans(), s.size*smallText, drawing.Faded), wide) {
		to.putLine(l, x, y, row)
		y += row
	}
	return y
}

// drawing turns a drawing into items at a scale, the corner of its box at (0, 0).
func (s *setter) drawing(d *drawing.Drawing, k float64) []item {
	out := make([]item, 0, len(d.Marks))
	left, top := -d.Box.Left*k, -d.Box.Top*k
	for i := range d.Marks {
		m := &d.Marks[i]
		if m.Label != nil {
			for _, it := range s.labelItems(*m.Label, k) {
				out = append(out, it.at(left, top))
			}
			continue
		}
		out = append(out, pathItem{x: left, y: top, scale: k, path: d.Path(i), pen: s.look.Pen(m)})
	}
	return out
}

// labelFace is the face letters of drawings are set in.
func labelFace(t drawing.Letters) *face {
	if t.Strong {
		return sansBold()
	}
	return sans()
}

// LabelWide is how wide a label is set in a look, in millimetres.
func LabelWide(l drawing.Label, look *drawing.Look) float64 {
	t := look.Letters(&l)
	return labelFace(t).wide(clean(l.Words), t.Size/mmPerPoint)
}

// labelItems sets a label; letters of several faces follow each other.
func (s *setter) labelItems(l drawing.Label, k float64) []item {
	t := s.look.Letters(&l)
	lines := fill(s.label(l.Words, labelFace(t), t.Size/mmPerPoint*k, t.Ink), math.Inf(1))
	if len(lines) == 0 {
		return nil
	}
	one := lines[0]
	begin := 0.0
	switch l.Anchor {
	case drawing.Middle:
		begin = -one.wide / 2
	case drawing.End:
		begin = -one.wide
	}
	sin, cos := math.Sincos(l.Turn * math.Pi / 180)
	var out []item
	for _, p := range one.pieces {
		along := begin + p.x
		out = append(out, textItem{setting: p.setting, x: l.X*k + along*cos, y: l.Y*k - along*sin, text: p.text, wide: p.wide, turn: l.Turn})
	}
	return out
}

// sketch sets a drawing at its true size, smaller where it must be.
func (s *setter) sketch(k Sketch, wide float64) []slab {
	caption := s.caption(k.Caption, wide)
	scale := 1.0
	if !k.Exact {
		scale = min(1, wide/k.Drawing.Wide(), (s.room-highOf(caption))/k.Drawing.High())
	}
	one := slab{high: k.Drawing.High() * scale, keep: len(caption) > 0}
	one.put(0, 0, s.drawing(k.Drawing, scale)...)
	return append([]slab{one}, caption...)
}

func (s *setter) caption(text string, wide float64) []slab {
	if text == "" {
		return nil
	}
	out := together(s.paragraph(s.label(text, sans(), s.size*smallText, drawing.Faded), wide, 0, s.row(s.size*smallText)))
	if len(out) > 0 {
		out[0].gap = s.unit(1)
	}
	return out
}

func highOf(slabs []slab) float64 {
	sum := 0.0
	for _, s := range slabs {
		sum += s.gap + s.high
	}
	return sum
}

// picture sets a picture of dots.
func (s *setter) picture(p Picture, wide float64) []slab {
	_, dotsWide, dotsHigh, err := p.kind()
	if err != nil {
		return nil // Check has said so
	}
	caption := s.caption(p.Caption, wide)
	w := wide
	if p.Wide > 0 {
		w = min(p.Wide, wide)
	}
	h := w * float64(dotsHigh) / float64(dotsWide)
	most := s.room - highOf(caption)
	if p.High > 0 {
		most = min(most, p.High)
	}
	if h > most {
		w, h = w*most/h, most
	}
	one := slab{high: h, keep: len(caption) > 0}
	one.put(0, 0, pictureItem{wide: w, high: h, picture: p})
	return append([]slab{one}, caption...)
}

// code sets a QR code with its address in words beside it.
func (s *setter) code(q QR, wide float64) []slab {
	d, err := q.drawing(codeSide)
	if err != nil {
		return nil // Check has said so
	}
	one := slab{high: codeSide}
	one.put(0, 0, s.drawing(d, 1)...)
	x := codeSide + s.unit(3)
	row := s.row(s.size)
	y := 1.0
	for _, l := range fill(s.atoms(Say(q.Words), s.size, false), wide-x) {
		one.putLine(l, x, y, row)
		y += row
	}
	row = s.row(s.size * smallText)
	a := atomiser{faces: s.faces}
	a.add(q.Address, setting{face: sans(), size: s.size * smallText, ink: drawing.Faded, link: safeLink(q.Address)})
	for _, l := range fill(a.atoms, wide-x) {
		one.putLine(l, x, y, row)
		y += row
	}
	one.high = max(one.high, y)
	return s.partTall([]slab{one})
}
