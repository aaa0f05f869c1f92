package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"hembook/internal/say"
	"hembook/internal/trade"
)

// partWords are words for a cloth, with the part it plays in a record.
var partWords = map[string]string{"interfacing": "fusing", "fusible interfacing": "fusing", "fusing": "fusing", "lining": "lining", "interlining": "interlining"}

// example is how a measurement is written, with what half the women of the survey, or
// else of the men, have more of; nothing where the survey did not take it.
func example(name string, m *trade.Measurement) string {
	people := m.Women
	if people == nil {
		people = m.Men
	}
	if people == nil {
		return ""
	}
	return say.Of("hembook.for-example-body", name, fmt.Sprintf("%.0f", people.P50/10))
}

// tellTrade tells of a word of the trade what it is and where it is written: a notion,
// ways to seam, a measurement, a word of the glossary. It reports whether there was anything to tell;
// after says that something stands above.
func tellTrade(word string, after bool, out io.Writer) bool {
	var parts []string
	if part, ok := partWords[word]; ok {
		parts = append(parts, say.Of("hembook.a-cloth-under-cloth-in-a-build", word, part))
	} else if kind, ok := trade.NotionKind(word); ok && !after && !isType(word) && slices.Contains(trade.NotionKinds(), kind) {
		parts = append(parts, say.Of("hembook.a-notion-under-notions-in-a-build", word))
	}
	if m, ok := trade.MeasurementNamed(word); ok && m.Unit == "mm" {
		name := strings.ReplaceAll(m.Name, "-", " ")
		parts = append(parts, say.Of("hembook.a-measurement-under-body-in-a-wearer", name, wrapped("    ", m.Definition, 80), example(name, &m)))
	}
	for _, s := range trade.SeamTypes() {
		if calledSo(&s, word) {
			use := wrapped("    ", s.Use, 80)
			if s.Kind == trade.Finish {
				parts = append(parts, say.Of("hembook.a-way-to-finish-an-edge", s.Name, use))
			} else {
				parts = append(parts, say.Of("hembook.a-way-to-sew-edges-together", s.Name, use))
			}
		}
	}
	if also := typesNamed(word); also != "" {
		parts = append(parts, also)
	}
	for _, t := range trade.Glossary() {
		if strings.EqualFold(t.Term, word) || slices.ContainsFunc(t.Also, func(a trade.Also) bool { return strings.EqualFold(a.Term, word) }) {
			whose := say.Of("hembook.of-the-trade")
			if t.Ours {
				whose = say.Of("hembook.as-hembook-uses-it")
			}
			parts = append(parts, say.Of("hembook.a-word", t.Term, whose, wrapped("    ", t.Definition, 80)))
		}
	}
	if len(parts) > 0 && after {
		fmt.Fprintln(out)
	}
	fmt.Fprint(out, strings.Join(parts, "\n"))
	return len(parts) > 0
}

// calledSo reports whether a way to seam is called a word, or after it: zip-lapped is a zip.
func calledSo(s *trade.SeamType, word string) bool {
	named := strings.ReplaceAll(word, " ", "-")
	return s.Name == named || strings.HasPrefix(s.Name, named+"-") || strings.EqualFold(s.Title, word) ||
		slices.ContainsFunc(s.Also, func(a trade.Also) bool { return strings.EqualFold(a.Term, word) })
}

// mostTypes is how many ways to seam are named because they speak of a word.
const mostTypes = 6

// typesNamed lists the ways to seam that have a word in their names and are not called
// after it, as pocket in in-seam-pocket; else the few that speak of it; "" for none.
func typesNamed(word string) string {
	sought := stemsIn(word)
	var named, speak []string
	told := false
	for _, s := range trade.SeamTypes() {
		switch {
		case calledSo(&s, word):
			told = true
		case timesIn(stemsIn(s.Name), sought) > 0:
			named = append(named, s.Name)
		case timesIn(stemsIn(s.Title+" "+s.Summary+" "+s.Use), sought) > 0:
			speak = append(speak, s.Name)
		}
	}
	switch {
	case named != nil:
		return wrapped(say.Of("hembook.as-type-in-a-build"), strings.Join(named, ", "), 80) + "\n"
	case !told && speak != nil && len(speak) <= mostTypes:
		return wrapped(say.Of("hembook.types-that-speak-of-it"), strings.Join(speak, ", "), 80) + "\n"
	}
	return ""
}

// isType reports whether a word of two or more is the name of a way to seam, whatever
// notion it ends in: a two-piece-band is no band.
func isType(word string) bool {
	return strings.Contains(word, "-") && slices.ContainsFunc(trade.SeamTypes(), func(s trade.SeamType) bool { return s.Name == word })
}
