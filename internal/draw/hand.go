// Package draw draws what a page shows in lines: pattern pieces to scale,
// cross-sections of seams and finishes, swatches of cloth, the spread of a
// rate. Every drawing is an SVG element to be set into a page.
//
// It promises one hand: the same arrow, the same label, the same scale bar
// and the same few kinds of line in every drawing, all measured in this file,
// their weights and inks given by class names that a theme colours. Each
// drawing says in words what it shows. Drawings carry no style of their own,
// run nothing and refer to nothing outside themselves, and all text in them is
// escaped.
//
// It knows nothing of pages or templates, and derives no figures.
package draw

import (
	"math"

	"hembook/internal/shape"
)

// One unit of a drawing is a tenth of a millimetre on paper; coordinates are
// written as whole units. What follows is in those units.
const (
	unitsPerMM = 10

	textHeight  = 29 // height of the letters' body
	textWide    = 17 // how wide a letter is taken to be
	nameHeight  = 38
	nameWide    = 21
	smallHeight = 24
	smallWide   = 14

	margin     = 14 // free space round a drawing
	gap        = 12 // between a line and its label
	arrowLong  = 22 // a barb of an arrow head, along its shaft
	arrowHalf  = 9  // half the width of an arrow head
	tick       = 14 // the end tick of a scale bar or a measured distance
	cross      = 9  // half of the cross at a dart's point
	foldInset  = 26 // how far the fold bracket stands inside the fold
	barTop     = 30 // space between a drawing and its scale bar
	straighten = 0.6
)

// A box grows about what is drawn, in units.
type box struct{ left, top, right, bottom float64 }

func (b *box) add(x, y float64) {
	b.left, b.right = min(b.left, x), max(b.right, x)
	b.top, b.bottom = min(b.top, y), max(b.bottom, y)
}

// A sheet turns millimetres of the thing into units of the drawing. y runs
// down in a drawing.
type sheet struct {
	left, top float64 // in millimetres of the thing
	k         float64 // units for each millimetre
}

func (s sheet) at(p shape.Point) (x, y float64) {
	return (p.X - s.left) * s.k, (s.top - p.Y) * s.k
}

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

// whole rounds to a whole unit; what is no number becomes 0.
func whole(v float64) int {
	v = math.Round(v)
	if !(math.Abs(v) < 1e9) {
		return 0
	}
	return int(v)
}

// A pen writes path data with whole numbers relative to the last point, so
// that rounding never adds up.
type pen struct {
	dst  []byte
	x, y int
}

func (p *pen) move(x, y float64) {
	p.x, p.y = whole(x), whole(y)
	p.dst = append(p.dst, 'M')
	p.dst = appendInt(p.dst, p.x)
	p.pair(p.y)
}

// pair adds a number after another one, with a space where one is needed.
func (p *pen) pair(v int) {
	if v >= 0 {
		p.dst = append(p.dst, ' ')
	}
	p.dst = appendInt(p.dst, v)
}

func (p *pen) line(x, y float64) {
	dx, dy := whole(x)-p.x, whole(y)-p.y
	if dx == 0 && dy == 0 {
		return
	}
	switch {
	case dy == 0:
		p.dst = appendInt(append(p.dst, 'h'), dx)
	case dx == 0:
		p.dst = appendInt(append(p.dst, 'v'), dy)
	default:
		p.dst = appendInt(append(p.dst, 'l'), dx)
		p.pair(dy)
	}
	p.x, p.y = p.x+dx, p.y+dy
}

func (p *pen) curve(x1, y1, x2, y2, x, y float64) {
	p.dst = appendInt(append(p.dst, 'c'), whole(x1)-p.x)
	p.pair(whole(y1) - p.y)
	p.pair(whole(x2) - p.x)
	p.pair(whole(y2) - p.y)
	dx, dy := whole(x)-p.x, whole(y)-p.y
	p.pair(dx)
	p.pair(dy)
	p.x, p.y = p.x+dx, p.y+dy
}

func (p *pen) close() { p.dst = append(p.dst, 'z') }

// arrow draws an arrow head at (x, y) that points along (ux, uy).
func (p *pen) arrow(x, y, ux, uy float64) {
	bx, by := x-ux*arrowLong, y-uy*arrowLong
	p.move(bx-uy*arrowHalf, by+ux*arrowHalf)
	p.line(x, y)
	p.line(bx+uy*arrowHalf, by-ux*arrowHalf)
}

// text adds a label. class may be empty; anchor is "", "m" or "e" for words
// that begin, have their middle or end at x.
func text(dst []byte, class string, anchor byte, x, y float64, words ...string) []byte {
	dst = append(dst, "<text"...)
	if class != "" || anchor != 0 {
		dst = append(dst, ` class="`...)
		dst = append(dst, class...)
		if class != "" && anchor != 0 {
			dst = append(dst, ' ')
		}
		if anchor != 0 {
			dst = append(dst, anchor)
		}
		dst = append(dst, '"')
	}
	dst = appendInt(append(dst, ` x="`...), whole(x))
	dst = appendInt(append(dst, `" y="`...), whole(y))
	dst = append(dst, `">`...)
	for _, w := range words {
		dst = Escape(dst, w)
	}
	return append(dst, "</text>"...)
}

// letters is how many letters a text has.
func letters(s string) float64 {
	n := 0
	for range s {
		n++
	}
	return float64(n)
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

// open begins an SVG element that shows the box, at its true size in
// millimetres, under a class and with its name and description in words.
func open(dst []byte, class string, b box, title, desc string) []byte {
	w, h := whole(b.right-b.left), whole(b.bottom-b.top)
	dst = append(append(dst, `<svg class="`...), class...)
	dst = appendInt(append(dst, `" role="img" viewBox="`...), whole(b.left))
	dst = appendInt(append(dst, ' '), whole(b.top))
	dst = appendInt(append(dst, ' '), w)
	dst = appendInt(append(dst, ' '), h)
	dst = shape.AppendNumber(append(dst, `" width="`...), float64(w)/unitsPerMM, 1)
	dst = shape.AppendNumber(append(dst, `mm" height="`...), float64(h)/unitsPerMM, 1)
	dst = Escape(append(dst, `mm"><title>`...), title)
	dst = append(dst, "</title>"...)
	if desc != "" {
		dst = Escape(append(dst, "<desc>"...), desc)
		dst = append(dst, "</desc>"...)
	}
	return dst
}
