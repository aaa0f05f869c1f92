package drawing

import (
	"fmt"
	"strings"
)

// SVGFile is the drawing as an SVG file that stands alone, in a look.
func (d *Drawing) SVGFile(l *Look) []byte {
	const always = "svg{fill:none;stroke-linecap:round;stroke-linejoin:round}text{stroke:none;font-family:sans-serif}"
	style := "<style>" + always + l.css(pageUnits, false, d) + "</style>"
	return append(d.svg(nil, svgForm{units: pageUnits, attributes: ` xmlns="http://www.w3.org/2000/svg"`, style: style}), '\n')
}

// SheetStyle is how drawings written by SheetSVG look, as rules of a style
// sheet. Inks are the style sheet's own where it has them (inkNames).
func (l *Look) SheetStyle(of ...*Drawing) string { return l.css(sheetUnits, true, of...) }

// css are rules for what stands in drawings, in units of so many to a
// millimetre.
func (l *Look) css(units float64, named bool, of ...*Drawing) string {
	w := styleWriter{look: l, units: units, named: named}
	var means [meanings]bool
	var said [voices]bool
	for _, d := range of {
		for _, m := range d.Marks {
			if m.Label != nil {
				said[m.Label.Voice] = true
				said[Small] = said[Small] || m.Label.Aside != ""
				continue
			}
			means[m.Means] = true
		}
	}
	w.WriteString(".m{text-anchor:middle}.e{text-anchor:end}")
	for m, used := range means {
		if used && classes[m] != "" {
			w.WriteString(selector("path", classes[m]) + "{" + w.rule(l.pens[m]) + "}")
		}
	}
	for v, used := range said {
		if used {
			w.WriteString(selector("text", voiceClasses[v]) + "{" + w.voice(l.voices[v]) + "}")
		}
	}
	if said[Small] {
		w.WriteString("tspan{" + w.voice(l.voices[Small]) + "}")
	}
	return w.String()
}

// A styleWriter writes rules of a style sheet.
type styleWriter struct {
	strings.Builder
	look  *Look
	units float64
	named bool
}

// ink is an ink as a colour.
func (w *styleWriter) ink(i Ink) string {
	if w.named && inkNames[i] != "" {
		return "var(" + inkNames[i] + ")"
	}
	return fmt.Sprintf("#%06x", w.look.inks[i])
}

func selector(element, class string) string {
	if class == "" {
		return element
	}
	return element + "." + strings.ReplaceAll(class, " ", ".")
}

// rule is how a pen looks, as declarations.
func (w *styleWriter) rule(p Pen) string {
	var b strings.Builder
	if p.Ink != NoInk {
		b.WriteString("stroke:" + w.ink(p.Ink))
		if p.Weight > 0 { // else as thick as it is
			fmt.Fprintf(&b, ";stroke-width:%g", p.Weight*w.units)
		}
	} else {
		b.WriteString("stroke:none")
	}
	for i, v := range p.Dash {
		sep := " "
		if i == 0 {
			sep = ";stroke-dasharray:"
		}
		fmt.Fprintf(&b, "%s%g", sep, v*w.units)
	}
	if p.Butt || len(p.Dash) > 0 {
		b.WriteString(";stroke-linecap:butt")
	}
	if p.Fill != NoInk {
		b.WriteString(";fill:" + w.ink(p.Fill) + ";fill-rule:evenodd")
	}
	return b.String()
}

func (w *styleWriter) voice(t Letters) string {
	weight := ""
	if t.Strong {
		weight = ";font-weight:700"
	}
	return fmt.Sprintf("font-size:%.4gpx;fill:%s%s", t.Size*w.units, w.ink(t.Ink), weight)
}
