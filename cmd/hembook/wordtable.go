package main

import (
	"fmt"
	"strings"

	"hembook/internal/record"
)

// wordTables lists the words of a kind of file as tables, group by group. A word
// marked with a star must be there.
func wordTables(kind record.FileKind) string {
	var b strings.Builder
	fmt.Fprintf(&b, "\n## %s\n\nIn `%s`.\n", strings.ToUpper(kind.Name[:1])+kind.Name[1:], kind.Where)
	group := ""
	for _, w := range record.Words(kind.Name) {
		if w.Group != group {
			group = w.Group
			if group != kind.Name {
				fmt.Fprintf(&b, "\n### %s: under `%s`\n", kind.Name, group)
			}
			b.WriteString("\n| word | meaning | as |\n|---|---|---|\n")
		}
		b.WriteString(wordRow(w))
	}
	return b.String()
}

func wordRow(w record.Word) string {
	star := ""
	if w.Must {
		star = " \\*"
	}
	about := w.About
	if len(w.OneOf) > 0 {
		about += ": " + strings.Join(w.OneOf, ", ")
	}
	eg := ""
	if w.Example != "" {
		eg = "`" + w.Example + "`"
	}
	return fmt.Sprintf("| `%s`%s | %s | %s |\n", w.Key, star, strings.ReplaceAll(about, "|", "\\|"), eg)
}
