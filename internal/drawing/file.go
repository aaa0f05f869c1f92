package drawing

import (
	"fmt"
	"strings"
)

// SVGFile is the drawing as an SVG file that stands alone, in a look.
func (d *Drawing) SVGFile(l *Look) []byte {
	style := "<style>" + l.css(d, PageUnits) + "</style>"
	return append(d.svg(nil, PageUnits, 1, ` xmlns="http://www.w3.org/2000/svg"`, style), '\n')
}

// css is the style sheet of a look, with rules for what stands in a drawing,
// in units of so many to a millimetre.
func (l *Look) css(d *Drawing, units float64) string {
	var b strings.Builder
	b.WriteString("svg{fill:none;stroke-linecap:round;stroke-linejoin:round}text{stroke:none;font-family:sans-serif}.m{text-anchor:middle}.e{text-anchor:end}")
	var means [meanings]bool
	var said [voices]bool
	for _, m := range d.Marks {
		if m.Label != nil {
			said[m.Label.Voice] = true
			said[Small] = said[Small] || m.Label.Aside != ""
			continue
		}
		means[m.Means] = true
	}
	for m, used := range means {
		if used && classes[m] != "" {
			b.WriteString(selector("path", classes[m]) + "{" + l.rule(l.pens[m], units) + "}")
		}
	}
	for v, used := range said {
		if used {
			b.WriteString(selector("text", voiceClasses[v]) + "{" + l.voice(l.voices[v], units) + "}")
		}
	}
	if said[Small] {
		b.WriteString("tspan{" + l.voice(l.voices[Small], units) + "}")
	}
	return b.String()
}

func selector(element, class string) string {
	if class == "" {
		return element
	}
	return element + "." + strings.ReplaceAll(class, " ", ".")
}

// rule is how a pen looks, as declarations.
func (l *Look) rule(p Pen, units float64) string {
	var b strings.Builder
	if p.Ink != NoInk {
		fmt.Fprintf(&b, "stroke:#%06x", l.inks[p.Ink])
		if p.Weight > 0 { // else as thick as it is
			fmt.Fprintf(&b, ";stroke-width:%g", p.Weight*units)
		}
	} else {
		b.WriteString("stroke:none")
	}
	for i, v := range p.Dash {
		sep := " "
		if i == 0 {
			sep = ";stroke-dasharray:"
		}
		fmt.Fprintf(&b, "%s%g", sep, v*units)
	}
	if p.Butt || len(p.Dash) > 0 {
		b.WriteString(";stroke-linecap:butt")
	}
	if p.Fill != NoInk {
		fmt.Fprintf(&b, ";fill:#%06x;fill-rule:evenodd", l.inks[p.Fill])
	}
	return b.String()
}

func (l *Look) voice(t Letters, units float64) string {
	weight := ""
	if t.Strong {
		weight = ";font-weight:700"
	}
	return fmt.Sprintf("font-size:%gpx;fill:#%06x%s", t.Size*units, l.inks[t.Ink], weight)
}
