package paper

import (
	"errors"
	"fmt"
	"math"

	"hembook/internal/document"
	"hembook/internal/drawing"
	"hembook/internal/say"
)

// note is an aside beside a fine upright line.
func (s *setter) note(p document.Phrase, wide float64) []slab {
	size := s.size * 0.94
	out := s.paragraph(s.atoms(p, size, false), wide, s.unit(4), s.row(size))
	for i := range out {
		out[i].put(0, 0, stroke(0.4, 0, 0.4, out[i].high, drawing.Pen{Weight: rule, Ink: drawing.Faded, Butt: true}))
	}
	return out
}

// cautions stand between two rows of basting, each on lines of its own.
func (s *setter) cautions(c document.Cautions, wide float64) []slab {
	var lines []slab
	for i := range c.Items {
		one := &c.Items[i]
		p := document.Phrase{document.Say(one.Words)}
		if one.Head != "" {
			p = document.Phrase{document.As(document.Strong, one.Head), document.Say(" " + one.Words)}
		}
		why := one.Why
		if why != "" && one.Source != "" {
			why += " · "
		}
		if why += one.Source; why != "" {
			p = append(p, document.As(document.Small, why))
		}
		lines = append(lines, s.paragraph(s.atoms(p, s.size, false), wide, s.unit(2), s.row(s.size))...)
	}
	if len(lines) == 0 {
		return nil
	}
	basting := stroke(0, 0, wide, 0, drawing.Pen{Weight: stitch, Ink: drawing.Red, Dash: bastedDash, Butt: true})
	above, below := slab{high: s.unit(1.4), keep: true}, slab{high: s.unit(0.6), gap: s.unit(1)}
	above.put(0, s.unit(0.3), basting)
	below.put(0, s.unit(0.3), basting)
	lines[len(lines)-1].keep = true
	out := append(append([]slab{above}, lines...), below)
	if c.Defers != "" {
		defers := s.note(document.Phrase{document.Say(c.Defers)}, wide)
		defers[0].gap = s.unit(gapText)
		out = append(out, defers...)
	}
	return out
}

// rowList sets points side by side, or under each other where there is little
// room.
func (s *setter) rowList(l document.List, wide float64) []slab {
	per := max(min(len(l.Items), int(wide/26)), 1)
	if rows := (len(l.Items) + per - 1) / per; rows > 1 {
		per = (len(l.Items) + rows - 1) / rows // rows as long as each other
	}
	var out []slab
	if wide < 90 {
		for i := range l.Items {
			one := s.pointBeside(&l.Items[i], wide, s.unit(rowHigh))
			one.gap = s.unit(1.6)
			out = append(out, one)
		}
	} else {
		for i := 0; i < len(l.Items); i += per {
			one := s.pointRow(l.Items[i:min(i+per, len(l.Items))], per, wide)
			one.gap = s.unit(2.5)
			out = append(out, one)
		}
	}
	return together(s.partTall(out))
}

// marks sets points under each other, a small drawing before each, the words in the
// middle of its height.
func (s *setter) marks(l document.List, wide float64) []slab {
	high := s.unit(markHigh)
	var out []slab
	for i := range l.Items {
		one := slab{high: high, gap: s.unit(1.6)}
		indent := 0.0
		if d := s.drawn(l.Items[i].Draw); d != nil {
			s.drawHigh(&one, d, 0, high)
			indent = high*1.3 + s.unit(2)
		}
		var words slab
		deep := s.pointWords(&words, &l.Items[i], 0, 0, wide-indent)
		one.high = max(high, deep)
		one.put(indent, max(0, (high-deep)/2), words.items...)
		out = append(out, one)
	}
	return together(out)
}

// pointRow sets points side by side, the words of each under its drawing.
func (s *setter) pointRow(items []document.Item, per int, wide float64) slab {
	between := s.unit(4)
	part := (wide - between*float64(per-1)) / float64(per)
	drawings := make([]*drawing.Drawing, len(items))
	top := 0.0
	for i := range items {
		if drawings[i] = s.drawn(items[i].Draw); drawings[i] != nil {
			top = s.unit(rowHigh) + s.unit(1.2)
		}
	}
	var row slab
	for i := range items { // each drawing with its words, as they are read
		x := float64(i) * (part + between)
		if drawings[i] != nil {
			s.drawHigh(&row, drawings[i], x, s.unit(rowHigh))
		}
		row.high = max(row.high, s.pointWords(&row, &items[i], x, top, part))
	}
	return row
}

// pointBeside sets a point with its words at the right of its drawing; that is
// as high as is said, or as it is where nothing is said, but takes no more than
// half the width.
func (s *setter) pointBeside(item *document.Item, wide, high float64) slab {
	var one slab
	x := 0.0
	if d := s.drawn(item.Draw); d != nil {
		k := min(1, s.room/d.High())
		if high > 0 {
			k = high / d.High()
		}
		k = min(k, wide/2/d.Wide())
		one.put(0, 0, s.drawing(d, k)...)
		one.high, x = d.High()*k, d.Wide()*k+s.unit(3)
	}
	one.high = max(one.high, s.pointWords(&one, item, x, 0, wide-x))
	if s.centred {
		_, most := widths(s.atoms(item.Phrase, s.size*tableText, false))
		return shifted([]slab{one}, max(0, (wide-x-most)/2))[0]
	}
	return one
}

// drawHigh sets a drawing so high, and not much wider than that.
func (s *setter) drawHigh(to *slab, d *drawing.Drawing, x, high float64) {
	k := min(high/d.High(), high*1.3/d.Wide())
	to.put(x, high-d.High()*k, s.drawing(d, k)...)
}

// pointWords sets the words of a point and says where they end.
func (s *setter) pointWords(to *slab, item *document.Item, x, y, wide float64) float64 {
	row := s.row(s.size * tableText)
	for _, l := range fill(s.atoms(item.Phrase, s.size*tableText, false), wide) {
		to.putLine(l, x, y, row)
		y += row
	}
	return y
}

// drawn is what is drawn; nil where nothing is, or nothing that can be set.
func (s *setter) drawn(draw func() *drawing.Drawing) *drawing.Drawing {
	if draw == nil {
		return nil
	}
	d := draw()
	if d == nil {
		return nil
	}
	if !d.Finite() {
		s.fail(errors.New(say.Of("paper.the-drawing-has-no-size-or-a", say.Quoted(d.Title))))
		return nil
	}
	return d
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
	return labelFace(t).wide(document.Clean(l.Words), t.Size/mmPerPoint)
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
func (s *setter) sketch(k document.Sketch, wide float64) []slab {
	d := s.drawn(k.Draw)
	if d == nil {
		return nil
	}
	caption := s.caption(k.Caption, wide)
	scale := min(1, wide/d.Wide(), (s.room-highOf(caption))/d.High())
	if k.High > 0 {
		scale = min(scale, k.High/d.High())
	}
	if scale < 1 && k.Exact {
		s.fail(errors.New(say.Of("paper.the-drawing-is-mm-a-page-holds", say.Quoted(d.Title), fmt.Sprintf("%.0f", d.Wide()), fmt.Sprintf("%.0f", d.High()), fmt.Sprintf("%.0f", wide), fmt.Sprintf("%.0f", s.room))))
	}
	one := slab{high: d.High() * scale, keep: len(caption) > 0}
	left := 0.0
	if s.centred {
		left = (wide - d.Wide()*scale) / 2
	}
	one.put(left, 0, s.drawing(d, scale)...)
	return append([]slab{one}, caption...)
}

// leastSketch is the least room a drawing has in a row, for the words below it.
const leastSketch = 25.0

// sketches sets drawings in rows, as many side by side as there is room for. They
// stand below each other where all have as much room; where the widest fills a row by
// itself, each has what it takes.
func (s *setter) sketches(b document.Sketches, wide float64) []slab {
	parts := make([]float64, len(b.Of))
	widest := leastSketch
	for i, k := range b.Of {
		if d := s.drawn(k.Draw); d != nil {
			parts[i] = min(max(leastSketch, d.Wide()), wide)
			widest = max(widest, parts[i])
		}
	}
	per := max(int((wide+sketchGap)/(widest+sketchGap)), 1)
	part := (wide - float64(per-1)*sketchGap) / float64(per)
	if per == 1 {
		return s.sketchRows(b.Of, parts, wide)
	}
	var out []slab
	for from := 0; from < len(b.Of); from += per {
		var row slab
		for i, k := range b.Of[from:min(from+per, len(b.Of))] {
			one := stack(s.sketch(k, part))
			row.put(float64(i)*(part+sketchGap), 0, one.items...)
			row.high = max(row.high, one.high)
		}
		row.gap = s.unit(gapBlock)
		if len(row.items) > 0 {
			out = append(out, row)
		}
	}
	return out
}

// sketchRows sets drawings of very different widths side by side.
func (s *setter) sketchRows(list []document.Sketch, parts []float64, wide float64) []slab {
	var out []slab
	var row slab
	at := 0.0
	for i, k := range list {
		if parts[i] == 0 { // nothing is drawn
			continue
		}
		if at > 0 && at+parts[i] > wide {
			out, row, at = append(out, row), slab{}, 0
		}
		one := stack(s.sketch(k, parts[i]))
		row.put(at, 0, one.items...)
		row.high, row.gap = max(row.high, one.high), s.unit(gapBlock)
		at += parts[i] + sketchGap
	}
	if len(row.items) > 0 {
		out = append(out, row)
	}
	return out
}

// stages sets all stages, each with its words above its drawings.
func (s *setter) stages(b document.Stages, wide float64) []slab {
	var out []slab
	for _, k := range b.Of {
		words := s.block(document.Text{Phrase: k.Phrase}, wide)
		if len(words) > 0 {
			words[len(words)-1].keep = true
		}
		out = append(append(out, words...), s.sketches(document.Sketches{Of: k.Of}, wide)...)
	}
	return out
}

func (s *setter) caption(text string, wide float64) []slab {
	out := together(s.paragraph(s.aside(text), wide, 0, s.row(s.size*smallText)))
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
func (s *setter) picture(p document.Picture, wide float64) []slab {
	_, dotsWide, dotsHigh, err := p.Kind()
	if err != nil {
		s.fail(err)
		return nil
	}
	caption := s.caption(p.Caption, wide)
	w, h := wide, wide*float64(dotsHigh)/float64(dotsWide)
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
