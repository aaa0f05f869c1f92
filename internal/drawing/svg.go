package drawing

import (
	"math"

	"hembook/internal/shape"
)

// pageUnits is how many units of an SVG element a millimetre is on a page;
// coordinates are written as whole units. The weights of a theme's lines are
// in these units too.
const pageUnits = 10

// sheetUnits are the same within a sheet of HTML.
const sheetUnits = 100

// SVG adds the drawing to dst as an SVG element at its true size, to be set
// into a page. It has no look: meanings and voices are classes.
func (d *Drawing) SVG(dst []byte) []byte {
	return d.svg(dst, svgForm{units: pageUnits, knows: true})
}

// SheetSVG adds the drawing to dst as SVG does, as finely as paper shows it;
// its title is an attribute, so that it is no word of the sheet.
func (d *Drawing) SheetSVG(dst []byte) []byte {
	return d.svg(dst, svgForm{units: sheetUnits, quiet: true})
}

// An svgForm says how an element is written: its units for a millimetre,
// attributes that come first, a style of its own, whether its title is an
// attribute, and whether marks that are known stand on the same page.
type svgForm struct {
	units             int
	attributes, style string
	quiet, knows      bool
}

func (d *Drawing) svg(dst []byte, form svgForm) []byte {
	windows := d.ID != "" && form.knows
	if windows {
		dst = append(append(append(dst, `<div class="whole"><svg id="`...), d.ID...), '"')
	} else {
		dst = append(dst, "<svg"...)
		if d.shared != "" && form.knows {
			dst = append(append(append(dst, ` id="`...), d.shared...), '"')
		}
	}
	w := svgWriter{dst: append(dst, form.attributes...), units: float64(form.units), knows: form.knows}
	switch {
	case d.Title == "":
		w.put(` aria-hidden="true`)
	case form.quiet:
		w.put(` role="img" aria-label="`)
		w.dst = Escape(w.dst, d.Title)
	case d.leads && form.knows: // what leads somewhere must be reached in it
		w.put(` class="`, d.Kind, `" role="group" aria-label="`)
		w.dst = Escape(w.dst, d.Title)
	default:
		w.put(` class="`, d.Kind, `" role="img`)
	}
	wide, high := w.whole(d.Box.Right-d.Box.Left), w.whole(d.Box.Bottom-d.Box.Top)
	w.put(`" viewBox="`)
	w.int(w.whole(d.Box.Left))
	w.put(" ")
	w.int(w.whole(d.Box.Top))
	w.put(" ")
	w.int(wide)
	w.put(" ")
	w.int(high)
	digits := 1
	if form.units > pageUnits {
		digits = 3
	}
	w.dst = shape.AppendNumber(append(w.dst, `" width="`...), float64(wide)/w.units, digits)
	w.dst = shape.AppendNumber(append(w.dst, `mm" height="`...), float64(high)/w.units, digits)
	w.put(`mm">`)
	if d.Title != "" && !form.quiet {
		w.dst = append(Escape(append(w.dst, "<title>"...), d.Title), "</title>"...)
		if d.Desc != "" {
			w.dst = append(Escape(append(w.dst, "<desc>"...), d.Desc), "</desc>"...)
		}
	}
	w.put(form.style)
	if w.knows && d.repeats != nil && d.repeats.shared != "" {
		w.use(d.repeats, d.repeats.shared)
	} else {
		d.elements(&w)
	}
	w.put("</svg>")
	if windows {
		w.put("</div>")
		for i := range d.Parts {
			d.window(&w, &d.Parts[i])
		}
	}
	return w.dst
}

// use draws a drawing again that stands on the page as an svg element of that ID. It
// has a size of its own, and its lines look as they do there, since they lie in it.
func (w *svgWriter) use(d *Drawing, id string) {
	w.put(`<use href="#`, id, `" x="`)
	w.int(w.whole(d.Box.Left))
	w.put(`" y="`)
	w.int(w.whole(d.Box.Top))
	w.put(`" width="`)
	w.int(w.whole(d.Wide()))
	w.put(`" height="`)
	w.int(w.whole(d.High()))
	w.put(`"/>`)
}

// windowGrows is how much larger than the whole its parts are shown where a screen has
// the room.
const windowGrows = 1.3

// window writes a part of the drawing, which stands on the page already.
func (d *Drawing) window(w *svgWriter, part *Window) {
	b := &part.Box
	wide, high := w.whole(b.Right-b.Left), w.whole(b.Bottom-b.Top)
	w.put(`<svg class="window" role="img" viewBox="`)
	w.int(w.whole(b.Left))
	w.pair(w.whole(b.Top))
	w.pair(wide)
	w.pair(high)
	w.dst = shape.AppendNumber(append(w.dst, `" width="`...), float64(wide)*windowGrows/w.units, 1)
	w.dst = shape.AppendNumber(append(w.dst, `mm" height="`...), float64(high)*windowGrows/w.units, 1)
	w.dst = append(Escape(append(w.dst, `mm"><title>`...), d.Title), "</title>"...)
	w.use(d, d.ID)
	w.put("</svg>")
	if part.Caption != "" {
		w.dst = append(Escape(append(w.dst, `<span class="window">`...), part.Caption), "</span>"...)
	}
}

// elements writes the marks. Lines of one look that follow each other are one
// element; areas are not, since one may cover another.
func (d *Drawing) elements(w *svgWriter) {
	open := ""    // the class of the element that is begun
	leading := "" // where the link leads that is begun
	shut := func() {
		if open != "" {
			w.put(`"/>`)
			open = ""
		}
	}
	for i := range d.Marks {
		m := &d.Marks[i]
		if m.Label != nil {
			shut()
			w.label(m.Label)
			if leading != "" && m.Label.Leads == leading {
				w.put("</a>")
				leading = ""
			}
			continue
		}
		if m.Leads != "" {
			if w.knows {
				shut()
				leading = m.Leads
				w.put(`<a href="#`)
				w.dst = Escape(w.dst, leading)
				w.put(`"><path class="`, classes[m.Means], `" d="`)
				w.path(d.Path(i))
				w.put(`"/>`)
			}
			continue
		}
		class := classes[m.Means]
		if m.again != nil && w.knows {
			shut()
			w.put(`<use class="`, class, `" href="#`, m.again.Marks[m.mark].ID, `"/>`)
			continue
		}
		p := d.Path(i)
		if len(p.Ops) == 0 {
			continue
		}
		if m.ID != "" && w.knows { // whoever draws it again says how it looks
			shut()
			w.put(`<g class="`, class, `"><path id="`, m.ID, `" d="`)
			w.path(p)
			w.put(`"/></g>`)
			continue
		}
		if lone := m.Thick != 0 || m.Colour != "" || isArea[m.Means] || class == ""; lone || class != open {
			shut()
			w.put("<path")
			if class != "" {
				w.put(` class="`, class, `"`)
			}
			if m.Thick != 0 {
				w.put(` stroke-width="`)
				w.int(w.whole(m.Thick))
				w.put(`"`)
			}
			if m.Colour != "" {
				w.put(` fill="`, m.Colour, `"`)
			}
			w.put(` d="`)
			if !lone {
				open = class
			} else {
				open = " " // never the class of another
			}
		}
		w.path(p)
	}
	shut()
}

// isArea are the meanings of which one mark may cover another.
var isArea = [meanings]bool{
	CutLine: true, PieceArea: true, PlannedBar: true, AheadBar: true, SpreadHalf: true, StripArea: true, Swatch: true,
	SheetArea: true, SymbolDot: true, CodeGround: true, CodeSquare: true, LayCloth: true, Table: true, Tissue: true, Tape: true,
}

// An svgWriter writes elements in whole units.
type svgWriter struct {
	dst   []byte
	units float64
	knows bool // known marks stand on the same page
	x, y  int  // where the path is
}

func (w *svgWriter) put(parts ...string) {
	for _, p := range parts {
		w.dst = append(w.dst, p...)
	}
}

// whole is millimetres in whole units; what is no number becomes 0. A half,
// which a millimetre's fraction may miss by a hair, is a half.
func (w *svgWriter) whole(mm float64) int {
	v := mm * w.units
	v = math.Round(v + math.Copysign(1e-7, v))
	if !(math.Abs(v) < 1e9) {
		return 0
	}
	return int(v)
}

func (w *svgWriter) int(v int) { w.dst = appendInt(w.dst, v) }

// appendInt adds a whole number.
func appendInt(dst []byte, v int) []byte {
	if v < 0 {
		dst, v = append(dst, '-'), -v
	}
	if v < 10 {
		return append(dst, byte('0'+v))
	}
	var room [20]byte
	k := len(room)
	for v > 0 {
		k--
		room[k] = byte('0' + v%10)
		v /= 10
	}
	return append(dst, room[k:]...)
}

// pair adds a number after another one, with a space where one is needed.
func (w *svgWriter) pair(v int) {
	if v >= 0 {
		w.dst = append(w.dst, ' ')
	}
	w.int(v)
}

// path writes path data relative to the last point, which is a rounded one, so
// that rounding never adds up.
func (w *svgWriter) path(p Path) {
	k := 0
	for _, op := range p.Ops {
		switch op {
		case MoveTo:
			w.x, w.y = w.whole(p.Points[k].X), w.whole(p.Points[k].Y)
			w.dst = append(w.dst, 'M')
			w.int(w.x)
			w.pair(w.y)
			k++
		case LineTo:
			w.line(w.whole(p.Points[k].X), w.whole(p.Points[k].Y))
			k++
		case CurveTo:
			w.curve(p.Points[k], p.Points[k+1], p.Points[k+2])
			k += 3
		case ClosePath:
			w.dst = append(w.dst, 'z')
		}
	}
}

func (w *svgWriter) line(x, y int) {
	dx, dy := x-w.x, y-w.y
	switch {
	case dx == 0 && dy == 0:
		return
	case dy == 0:
		w.dst = appendInt(append(w.dst, 'h'), dx)
	case dx == 0:
		w.dst = appendInt(append(w.dst, 'v'), dy)
	default:
		w.dst = appendInt(append(w.dst, 'l'), dx)
		w.pair(dy)
	}
	w.x, w.y = x, y
}

func (w *svgWriter) curve(c1, c2, to Point) {
	w.dst = appendInt(append(w.dst, 'c'), w.whole(c1.X)-w.x)
	w.pair(w.whole(c1.Y) - w.y)
	w.pair(w.whole(c2.X) - w.x)
	w.pair(w.whole(c2.Y) - w.y)
	x, y := w.whole(to.X), w.whole(to.Y)
	w.pair(x - w.x)
	w.pair(y - w.y)
	w.x, w.y = x, y
}

var anchorClasses = [...]string{Middle: "m", End: "e"}

func (w *svgWriter) label(l *Label) {
	voice, anchor := voiceClasses[l.Voice], anchorClasses[l.Anchor]
	w.put("<text")
	if voice != "" || anchor != "" {
		w.put(` class="`, voice)
		if voice != "" && anchor != "" {
			w.put(" ")
		}
		w.put(anchor, `"`)
	}
	w.put(` x="`)
	w.int(w.whole(l.X))
	w.put(`" y="`)
	w.int(w.whole(l.Y))
	if l.Turn != 0 {
		w.dst = shape.AppendNumber(append(w.dst, `" transform="rotate(`...), -l.Turn, 2)
		w.pair(w.whole(l.X))
		w.pair(w.whole(l.Y))
		w.put(")")
	}
	if l.Size != 0 {
		w.put(`" style="font-size:`)
		w.int(w.whole(l.Size))
		w.put("px")
	}
	w.dst = Escape(append(w.dst, `">`...), l.Words)
	if l.Aside != "" {
		w.dst = append(Escape(append(w.dst, " <tspan>"...), l.Aside), "</tspan>"...)
	}
	w.put("</text>")
}

// Escape adds text to dst with what HTML and SVG would misread replaced, and
// what they cannot hold left out.
func Escape(dst []byte, s string) []byte {
	from := 0
	for i := 0; i < len(s); i++ {
		var with string
		switch c := s[i]; {
		case c == '<':
			with = "&lt;"
		case c == '>':
			with = "&gt;"
		case c == '&':
			with = "&amp;"
		case c == '"':
			with = "&#34;"
		case c < ' ' && c != '\n' && c != '\t':
		default:
			continue
		}
		dst = append(append(dst, s[from:i]...), with...)
		from = i + 1
	}
	return append(dst, s[from:]...)
}
