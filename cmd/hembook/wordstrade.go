package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"hembook/internal/trade"
)

// partWords are words for a cloth, with the part it plays in a record.
var partWords = map[string]string{"interfacing": "fusing", "fusible interfacing": "fusing", "fusing": "fusing", "lining": "lining", "interlining": "interlining"}

// wayTo says what a seam type and a finish are ways to.
var wayTo = map[trade.Kind]string{trade.Seam: "sew edges together", trade.Finish: "finish an edge"}

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
	return fmt.Sprintf("    for example body: {%s: %.0f cm}\n", name, people.P50/10)
}

// tellTrade tells of a word of the trade what it is and where it is written: a notion,
// ways to seam, a measurement, a word of the glossary. It reports whether there was anything to tell;
// after says that something stands above.
func tellTrade(word string, after bool, out io.Writer) bool {
	var parts []string
	if part, ok := partWords[word]; ok {
		parts = append(parts, fmt.Sprintf("%s: a cloth, under cloth in a build, and at each piece that is cut in it\n    for example cloth: {shell: wool, %s: the name of its file}\n    and of: [shell, %s] at a piece\n", word, part, part))
	} else if kind, ok := trade.NotionKind(word); ok && !after && !isType(word) && slices.Contains(trade.NotionKinds(), kind) {
		parts = append(parts, fmt.Sprintf("%s: a notion, under notions in a build\n    for example notions: {%s: {count: 1}}\n", word, word))
	}
	if m, ok := trade.MeasurementNamed(word); ok && m.Unit == "mm" {
		name := strings.ReplaceAll(m.Name, "-", " ")
		parts = append(parts, fmt.Sprintf("%s: a measurement, under body in a wearer\n%s\n%s", name, wrapped("    ", m.Definition, 80), example(name, &m)))
	}
	for _, s := range trade.SeamTypes() {
		if calledSo(&s, word) {
			parts = append(parts, fmt.Sprintf("%s: a way to %s, as type: %s in a build\n%s\n", s.Name, wayTo[s.Kind], s.Name, wrapped("    ", s.Use, 80)))
		}
	}
	if also := typesNamed(word); also != "" {
		parts = append(parts, also)
	}
	for _, t := range trade.Glossary() {
		if strings.EqualFold(t.Term, word) || slices.ContainsFunc(t.Also, func(a trade.Also) bool { return strings.EqualFold(a.Term, word) }) {
			whose := "of the trade"
			if t.Ours {
				whose = "as hembook uses it"
			}
			parts = append(parts, fmt.Sprintf("%s: a word %s\n%s\n", t.Term, whose, wrapped("    ", t.Definition, 80)))
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
		return wrapped("as type: in a build: ", strings.Join(named, ", "), 80) + "\n"
	case !told && speak != nil && len(speak) <= mostTypes:
		return wrapped("types that speak of it: ", strings.Join(speak, ", "), 80) + "\n"
	}
	return ""
}

// isType reports whether a word of two or more is the name of a way to seam, whatever
// notion it ends in: a two-piece-band is no band.
func isType(word string) bool {
	return strings.Contains(word, "-") && slices.ContainsFunc(trade.SeamTypes(), func(s trade.SeamType) bool { return s.Name == word })
}
