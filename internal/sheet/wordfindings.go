package sheet

import (
	"slices"
	"strings"

	"hembook/internal/paper"
	"hembook/internal/record"
	"hembook/internal/say"
)

// wordFindings say what the sheet's language lacks.
func (c *composer) wordFindings(sheets []Sheet) []Finding {
	on := func(names ...string) bool {
		return slices.ContainsFunc(sheets, func(s Sheet) bool { return slices.Contains(names, s.Name) })
	}
	var out []Finding
	if lacks := c.t.missing(); len(lacks) > 0 {
		out = append(out, Finding{About: "words", At: c.build.At, Text: say.Of("sheet.these-fixed-words-are-not-in-the", c.t.code, strings.Join(lacks, ", "))})
	}
	var own []string
	for _, o := range c.ownOnSheets() {
		if on(o.on...) && o.lacks(c.t.code) {
			own = append(own, o.of)
		}
	}
	hint := say.Of("sheet.tell-the-wearer-what-they-mean")
	if len(own) > 0 {
		hint = say.Of("sheet.names-stay-as-they-are-write-the", c.t.code)
	}
	if c.t.code != record.Tongues[0] && on("fit", "repairs", "remake") {
		own = append(own, say.Of("sheet.names-of-pieces-and-seams"))
	}
	if len(own) > 0 {
		out = append(out, Finding{About: "words", At: c.build.At, Text: say.Of("sheet.not-in-language", inLanguage(c.t.code), strings.Join(own, ", ")), Hint: hint})
	}
	return out
}

// inLanguage says in which language something is: in German.
func inLanguage(code string) string { return newTongue("en").say("tongue." + code) }

// needsReason reports whether a reason the maker gave was needed: what it is
// about would have been refused without it.
func (f *facts) needsReason(about string) bool { return slices.Contains(f.excused, about) }

// PageFindings say where sheets do not print as they should: more pages than
// one, or letters the faces lack.
func PageFindings(p *Packet, opt paper.Options) ([]Finding, error) {
	var out []Finding
	for i := range p.Sheets {
		s := &p.Sheets[i]
		if s.OnePage {
			fitted, ok, err := paper.Fit(s.Document, 1, opt)
			if err != nil {
				return nil, err
			}
			s.Document = fitted
			if !ok {
				out = append(out, Finding{About: "pages", At: p.Build.At, Text: say.Of("sheet.fills-more-than-one-page", s.Name), Hint: say.Of("sheet.shorten-packet-wear-and-note")})
			}
		}
		lacks, err := paper.Unset(s.Document, opt)
		if err != nil {
			return nil, err
		}
		if len(lacks) > 0 {
			s.Document.NoPDF = true
			out = append(out, Finding{About: "words", At: p.Build.At, Text: say.Of("sheet.no-pdf-of-no-font-here-has", s.Name, someLetters(lacks)),
				Hint: say.Of("sheet.print-from-a-browser-or-name-a", s.Name)})
		}
	}
	return out, nil
}

// someLetters lists letters, not more than a line of them.
func someLetters(list []rune) string {
	const most = 20
	if len(list) <= most {
		return string(list)
	}
	return string(list[:most]) + " …"
}
