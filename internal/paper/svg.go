package paper

import (
	"html"
	"strconv"
	"strings"
)

// AppendSVG adds a drawing as an SVG element at its true size, under a class.
// Inks are classes that a style sheet colours. Its alternative is its name; a
// drawing without one is for the eye only.
func AppendSVG(dst []byte, d Drawing, class string) []byte {
	dst = append(dst, `<svg class="`...)
	dst = append(append(dst, html.EscapeString(class)...), `"`...)
	if d.Alt != "" {
		dst = append(dst, ` role="img" aria-label="`...)
		dst = append(append(dst, escape(d.Alt)...), '"')
	} else {
		dst = append(dst, ` aria-hidden="true"`...)
	}
	dst = append(dst, ` viewBox="0 0 `...)
	dst = appendMM(dst, d.Wide)
	dst = appendMM(append(dst, ' '), d.High)
	dst = appendMM(append(dst, `" width="`...), d.Wide)
	dst = appendMM(append(dst, `mm" height="`...), d.High)
	dst = append(dst, `mm">`...)
	for _, m := range d.Marks {
		switch m := m.(type) {
		case Path:
			dst = m.appendSVG(dst)
		case Label:
			dst = m.appendSVG(dst)
		}
	}
	return append(dst, "</svg>"...)
}

// appendMM adds a length with four decimals at most: a ten-thousandth of a
// millimetre.
func appendMM(dst []byte, v float64) []byte {
	s := strconv.FormatFloat(v, 'f', 4, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" || s == "" {
		s = "0"
	}
	return append(dst, s...)
}

func (p Path) appendSVG(dst []byte) []byte {
	dst = append(dst, `<path d="`...)
	for _, s := range p.Steps {
		switch s.Kind {
		case MoveTo:
			dst = appendPoint(append(dst, 'M'), s.To)
		case LineTo:
			dst = appendPoint(append(dst, 'L'), s.To)
		case CurveTo:
			dst = appendPoint(append(dst, 'C'), s.C1)
			dst = appendPoint(append(dst, ' '), s.C2)
			dst = appendPoint(append(dst, ' '), s.To)
		case ClosePath:
			dst = append(dst, 'Z')
		}
	}
	dst = append(append(dst, `" class="`...), p.Pen.Ink.line()...)
	dst = append(append(dst, ' '), p.Fill.area()...)
	dst = append(dst, '"')
	if p.Pen.Ink != NoInk {
		dst = append(appendMM(append(dst, ` stroke-width="`...), p.Pen.Weight), '"')
		for i, d := range p.Pen.Dash {
			if i == 0 {
				dst = append(dst, ` stroke-dasharray="`...)
			} else {
				dst = append(dst, ' ')
			}
			dst = appendMM(dst, d)
		}
		if len(p.Pen.Dash) > 0 {
			dst = append(dst, '"')
		}
		if p.Pen.Butt || len(p.Pen.Dash) > 0 {
			dst = append(dst, ` stroke-linecap="butt"`...)
		}
	}
	return append(dst, "/>"...)
}

func appendPoint(dst []byte, p Point) []byte {
	return appendMM(append(appendMM(dst, p.X), ' '), p.Y)
}

func (l Label) appendSVG(dst []byte) []byte {
	ink := l.Ink
	if ink == NoInk {
		ink = Dark
	}
	dst = append(append(dst, `<text class="`...), ink.area()...)
	if l.Strong {
		dst = append(dst, " strong"...)
	}
	switch l.Anchor {
	case Middle:
		dst = append(dst, " middle"...)
	case End:
		dst = append(dst, " end"...)
	}
	dst = appendMM(append(dst, `" x="`...), l.At.X)
	dst = appendMM(append(dst, `" y="`...), l.At.Y)
	dst = append(appendMM(append(dst, `" font-size="`...), l.Size*mmPerPoint), '"')
	if l.Turn != 0 {
		dst = appendMM(append(dst, ` transform="rotate(`...), -l.Turn)
		dst = appendPoint(append(dst, ' '), l.At)
		dst = append(dst, `)"`...)
	}
	dst = append(dst, '>')
	return append(append(dst, escape(l.Text)...), "</text>"...)
}

// escape makes a text safe within HTML, cleaned as it is for paper.
func escape(text string) string { return html.EscapeString(clean(text)) }

var inkNames = map[Ink]string{
	Dark: "dark", Faded: "faded", Thread: "thread", Ground: "ground", Tissue: "tissue",
	RoundOne: "one", RoundTwo: "two", RoundThree: "three", Chalk: "chalk",
}

// line and area are the classes of an ink as a line and as an area.
func (i Ink) line() string {
	if i == NoInk {
		return "l-none"
	}
	return "l-" + inkNames[i]
}

func (i Ink) area() string {
	if i == NoInk {
		return "a-none"
	}
	return "a-" + inkNames[i]
}
