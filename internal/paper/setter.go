package paper

import (
	"math"

	"hembook/internal/document"
	"hembook/internal/drawing"
)

// A setter turns blocks into slabs.
type setter struct {
	faces   faces
	look    *drawing.Look
	size    float64 // body text, points
	room    float64 // height of a page without its margins and foot
	words   document.Wording
	printer document.Printer

	onCard  bool // a face of a folded card is set …
	centred bool // … whose lines stand in its middle

	lines  int   // more lines for a long answer than usual
	tables int   // tables set so far
	wrong  error // the first that cannot be set
}

// unit is a length that grows and shrinks with the text.
func (s *setter) unit(mm float64) float64 { return mm * s.size / document.DefaultText }

// row is the height of a line of text.
func (s *setter) row(size float64) float64 { return size * mmPerPoint * leading }

// fail notes what cannot be set.
func (s *setter) fail(err error) {
	if s.wrong == nil {
		s.wrong = err
	}
}

// atoms cuts a phrase set at a size of body text; figures says that it stands
// in a column of figures.
func (s *setter) atoms(p document.Phrase, size float64, figures bool) []atom {
	a := atomiser{faces: s.faces}
	for i := range p {
		s.run(&a, &p[i], i == 0, size, figures)
	}
	return a.atoms
}

// run cuts a run; what is said after other words stands apart from them.
func (s *setter) run(a *atomiser, r *document.Inline, first bool, size float64, figures bool) {
	voice := r.Voice
	if r.Figure != nil || figures && voice == document.Plain {
		voice = document.Measured
	}
	f, points := s.faces.of(voice, size)
	if figures && voice == document.Strong {
		f, points = sansBold(), size*figureText
	}
	set := setting{face: f, size: points, link: document.SafeLink(r.Page)}
	switch voice {
	case document.Small, document.Cited:
		set.ink = drawing.Faded
	case document.Below:
		a.add("\n", set)
	}
	if voice.Apart() && !first {
		a.add(" ", set)
	}
	words, other := s.printer.Words(r)
	a.add(words, set)
	if other != "" {
		f, points := s.faces.of(document.Small, size)
		a.add(" ("+other+")", setting{face: f, size: points, ink: drawing.Faded})
	}
}

// say cuts words set as a paragraph's.
func (s *setter) say(words string) []atom {
	return s.label(words, serif(), s.size, drawing.NoInk)
}

// quiet cuts a phrase as few words by themselves are set.
func (s *setter) quiet(p document.Phrase) []atom {
	a := atomiser{faces: s.faces}
	for i := range p {
		a.add(p[i].Words, setting{face: serifItalic(), size: s.size * quietText, ink: drawing.Faded})
	}
	return a.atoms
}

// label cuts a text in one face.
func (s *setter) label(text string, f *face, points float64, ink drawing.Ink) []atom {
	a := atomiser{faces: s.faces}
	a.add(text, setting{face: f, size: points, ink: ink})
	return a.atoms
}

// aside cuts a text as captions and labels are set.
func (s *setter) aside(text string) []atom {
	return s.label(text, sans(), s.size*smallText, drawing.Faded)
}

// paragraph sets atoms as slabs of one line each, never leaving one line of
// them alone on a page.
func (s *setter) paragraph(atoms []atom, wide, indent, row float64) []slab {
	lines := fill(atoms, wide-indent)
	slabs := make([]slab, len(lines))
	for i, l := range lines {
		slabs[i].high = row
		if s.centred {
			indent = (wide - l.wide) / 2
		}
		slabs[i].putLine(l, indent, 0, row)
		slabs[i].keep = i < len(lines)-1 && (i == 0 || i == len(lines)-2)
	}
	return slabs
}

// block sets one block to a width.
func (s *setter) block(b document.Block, wide float64) []slab {
	var out []slab
	gap := gapBlock
	switch b := b.(type) {
	case document.Heading:
		out, gap = s.heading(b, wide), gapHead
	case document.Text:
		out, gap = s.text(b, wide)
	case document.List:
		if b.Row {
			out = s.rowList(b, wide)
		} else if b.Marks {
			out = s.marks(b, wide)
		} else {
			out, gap = s.list(b, wide), gapText
		}
	case document.Table:
		out = s.table(b.Shown(), wide)
	case document.Ticks:
		out = s.ticks(b, wide)
	case document.FillIn:
		out = []slab{s.form(b, wide)}
	case document.Facts:
		out = s.facts(b, wide)
	case document.Cautions:
		out = s.cautions(b, wide)
	case document.Columns:
		return s.columns(b, wide)
	case document.Asks:
		out = s.asks(b, wide)
	case document.Picture:
		if b.Framed {
			out = s.framed(b, wide)
			break
		}
		out = s.picture(b, wide)
	case document.Sketch:
		out = s.sketch(b, wide)
	case document.Sketches:
		return s.sketches(b, wide)
	case document.Stages:
		return s.stages(b, wide)
	case document.Section:
		return s.section(b, wide)
	case document.Inset, document.Turn: // only pages have them
	}
	if len(out) > 0 {
		out[0].gap = s.unit(gap)
	}
	return out
}

// blocks sets blocks under each other.
func (s *setter) blocks(list []document.Block, wide float64) []slab {
	var out []slab
	under := false // a heading stands above: what follows it stands near
	for i, b := range list {
		more := s.block(b, wide)
		if len(more) == 0 {
			continue
		}
		more[0].opens = opensBlock
		if heads(b) {
			more[0].opens = opensHeading
		}
		if under {
			more[0].gap = s.unit(gapUnder)
		}
		_, under = b.(document.Heading)
		if _, form := b.(document.FillIn); form && i > 0 && len(out) > 0 {
			if _, ticks := list[i-1].(document.Ticks); ticks { // what is signed is what was ticked
				out[len(out)-1].keep = true
			}
		}
		if draws(b) && i > 1 && len(out) > 0 {
			_, said := list[i-1].(document.Text)
			if _, headed := list[i-2].(document.Heading); said && headed { // else the heading would stand alone over the words
				out[len(out)-1].keep = true
			}
		}
		out = append(out, more...)
	}
	return out
}

// draws reports whether a block begins with drawings.
func draws(b document.Block) bool {
	switch b.(type) {
	case document.Sketch, document.Sketches:
		return true
	}
	return false
}

// heads reports whether a block begins with a heading.
func heads(b document.Block) bool {
	switch b := b.(type) {
	case document.Heading:
		return true
	case document.Section:
		return b.Level > 0
	}
	return false
}

// section sets blocks under their heading.
func (s *setter) section(b document.Section, wide float64) []slab {
	if b.Level == 0 {
		return s.blocks(b.Blocks, wide)
	}
	return s.blocks(append([]document.Block{document.Heading{Level: b.Level, Words: b.Head}}, b.Blocks...), wide)
}

// text sets a paragraph as its tone asks.
func (s *setter) text(t document.Text, wide float64) ([]slab, float64) {
	switch t.As {
	case document.Note:
		return s.note(t.Phrase, wide), gapBlock
	case document.Byline:
		return s.paragraph(s.atoms(t.Phrase, s.size*smallText, true), wide, 0, s.row(s.size*smallText)), gapUnder
	case document.Spoken:
		return s.paragraph(s.atoms(t.Phrase, s.size*spokenText, false), wide, 0, s.row(s.size*spokenText)), gapBlock
	case document.Quiet:
		part := wide
		if s.centred { // few words to a line
			part *= quietPart
		}
		return shifted(s.paragraph(s.quiet(t.Phrase), part, 0, s.row(s.size*quietText)), (wide-part)/2), gapBlock
	}
	return s.paragraph(s.atoms(t.Phrase, s.size, false), wide, 0, s.row(s.size)), gapText
}

func (s *setter) heading(h document.Heading, wide float64) []slab {
	size := s.size * [...]float64{titleText, headText, subheadText}[min(max(h.Level, 1), 3)-1]
	f := serif()
	if h.Level >= 3 {
		f = serifBold()
	}
	out := s.paragraph(s.label(h.Words, f, size, drawing.NoInk), wide, 0, size*mmPerPoint*1.2)
	if len(out) == 0 {
		return nil
	}
	if h.Level == 2 {
		above := slab{high: s.unit(1.3)}
		above.put(0, 0, stroke(0, 0, wide, 0, drawing.Pen{Weight: rule, Ink: drawing.Chalk, Dash: chalkDash, Butt: true}))
		out = append([]slab{above}, out...)
	}
	if h.Aside != "" {
		out = append(out, s.paragraph(s.aside(h.Aside), wide, 0, s.row(s.size*smallText))...)
	}
	if h.Level == 1 && !s.onCard {
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

func (s *setter) columns(c document.Columns, wide float64) []slab {
	n := float64(len(c.Of))
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
	for i, blocks := range c.Of {
		part := (wide - between*(n-1)) / n
		if len(c.Shares) == len(c.Of) {
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
func (s *setter) follow(c document.Columns, wide float64) []slab {
	var out []slab
	for _, blocks := range c.Of {
		out = append(out, s.blocks(blocks, wide)...)
	}
	return out
}
