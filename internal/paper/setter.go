package paper

import (
	"math"

	"hembook/internal/drawing"
)

// A setter turns blocks into slabs.
type setter struct {
	faces faces
	look  *drawing.Look
	size  float64 // body text, points
	room  float64 // height of a page without its margins and foot
	words Words

	tables int // tables set so far
}

// unit is a length that grows and shrinks with the text.
func (s *setter) unit(mm float64) float64 { return mm * s.size / DefaultText }

// row is the height of a line of text.
func (s *setter) row(size float64) float64 { return size * mmPerPoint * leading }

// atoms cuts a phrase set at a size of body text.
func (s *setter) atoms(p Phrase, size float64, figures bool) []atom {
	a := atomiser{faces: s.faces}
	for _, run := range p {
		style := run.Style
		if figures && style == Plain {
			style = Figure
		}
		f, points := s.faces.of(style, size)
		if figures && style == Strong {
			f, points = sansBold(), size*figureText
		}
		set := setting{face: f, size: points, link: safeLink(run.Link)}
		if style == Small {
			set.ink = drawing.Faded
		}
		a.add(run.Text, set)
	}
	return a.atoms
}

// label cuts a text in the face for figures and labels.
func (s *setter) label(text string, f *face, points float64, ink drawing.Ink) []atom {
	a := atomiser{faces: s.faces}
	a.add(text, setting{face: f, size: points, ink: ink})
	return a.atoms
}

// paragraph sets atoms as slabs of one line each, never leaving one line of
// them alone on a page.
func (s *setter) paragraph(atoms []atom, wide, indent, row float64) []slab {
	lines := fill(atoms, wide-indent)
	slabs := make([]slab, len(lines))
	for i, l := range lines {
		slabs[i].high = row
		slabs[i].putLine(l, indent, 0, row)
		slabs[i].keep = i < len(lines)-1 && (i == 0 || i == len(lines)-2)
	}
	return slabs
}

// block sets one block to a width.
func (s *setter) block(b Block, wide float64) []slab {
	var out []slab
	gap := gapBlock
	switch b := b.(type) {
	case Heading:
		out, gap = s.heading(b, wide), gapHead
	case Text:
		out, gap = s.paragraph(s.atoms(b.Phrase, s.size, false), wide, 0, s.row(s.size)), gapText
	case List:
		out, gap = s.list(b, wide), gapText
	case Table:
		out = s.table(b, wide)
	case Ticks:
		out = s.ticks(b, wide)
	case Symbols:
		out = s.symbols(b, wide)
	case Facts:
		out = s.facts(b, wide)
	case Note:
		out = s.note(b, wide)
	case Caution:
		out = s.caution(b, wide)
	case Columns:
		return s.columns(b, wide)
	case Picture:
		out = s.picture(b, wide)
	case QR:
		out = s.code(b, wide)
	case Sketch:
		out = s.sketch(b, wide)
	case PageBreak:
		return []slab{{brk: true}}
	}
	if len(out) > 0 {
		out[0].gap = s.unit(gap)
	}
	return out
}

// blocks sets blocks under each other.
func (s *setter) blocks(list []Block, wide float64) []slab {
	var out []slab
	under := false // a heading stands above: what follows it stands near
	for _, b := range list {
		more := s.block(b, wide)
		if len(more) == 0 {
			continue
		}
		more[0].opens = opensBlock
		if _, ok := b.(Heading); ok {
			more[0].opens = opensHeading
		}
		if under && !more[0].brk {
			more[0].gap = s.unit(gapUnder)
		}
		_, under = b.(Heading)
		out = append(out, more...)
	}
	return out
}

func (s *setter) heading(h Heading, wide float64) []slab {
	size := s.size * [...]float64{titleText, headText, subheadText}[min(max(h.Level, 1), 3)-1]
	f := serif()
	if h.Level == 3 {
		f = serifBold()
	}
	a := atomiser{faces: s.faces}
	a.add(h.Text, setting{face: f, size: size})
	out := s.paragraph(a.atoms, wide, 0, size*mmPerPoint*1.2)
	if len(out) == 0 {
		return nil
	}
	if h.Level == 2 {
		above := slab{high: s.unit(1.3)}
		above.put(0, 0, stroke(0, 0, wide, 0, drawing.Pen{Weight: rule, Ink: drawing.Chalk, Dash: chalkDash, Butt: true}))
		out = append([]slab{above}, out...)
	}
	if h.About != "" {
		out = append(out, s.paragraph(s.label(h.About, sans(), s.size*smallText, drawing.Faded), wide, 0, s.row(s.size*smallText))...)
	}
	if h.Level == 1 {
		out = append(out, tape(wide, s.unit(1.2)))
	}
	for i := range out {
		out[i].keep = true
	}
	return out
}

// tape is a rule marked off in true centimetres, with finer marks each two
// millimetres: the edge of a tape measure.
func tape(wide, above float64) slab {
	t := slab{high: above + 2.4, gap: 0}
	var fine, whole drawing.Path
	whole.Move(0, above).Line(wide, above)
	for mm := 0; float64(mm) <= wide; mm += 2 {
		x := float64(mm)
		if mm%10 == 0 {
			whole.Move(x, above).Line(x, above+1.9)
		} else {
			fine.Move(x, above).Line(x, above+1.0)
		}
	}
	t.items = []item{
		pathItem{scale: 1, path: whole, pen: drawing.Pen{Weight: rule, Ink: drawing.Dark, Butt: true}},
		pathItem{scale: 1, path: fine, pen: drawing.Pen{Weight: hairline, Ink: drawing.Faded, Butt: true}},
	}
	return t
}

func (s *setter) columns(c Columns, wide float64) []slab {
	n := float64(len(c.Blocks))
	if n == 0 {
		return nil
	}
	sum := 0.0
	for _, share := range c.Shares {
		sum += share
	}
	between := s.unit(gutter)
	var all slab
	x := 0.0
	for i, blocks := range c.Blocks {
		part := (wide - between*(n-1)) / n
		if len(c.Shares) == len(c.Blocks) {
			part = (wide - between*(n-1)) * c.Shares[i] / sum
		}
		if part < 25 {
			return s.follow(c, wide)
		}
		one := stack(s.blocks(blocks, part))
		all.put(x, 0, one.items...)
		all.high, all.gap = math.Max(all.high, one.high), math.Max(all.gap, one.gap)
		x += part + between
	}
	if all.high > s.room {
		return s.follow(c, wide)
	}
	if len(all.items) == 0 {
		return nil
	}
	return []slab{all}
}

// follow sets columns under each other.
func (s *setter) follow(c Columns, wide float64) []slab {
	var out []slab
	for _, blocks := range c.Blocks {
		out = append(out, s.blocks(blocks, wide)...)
	}
	return out
}
