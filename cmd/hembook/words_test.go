package main

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"hembook/internal/record"
)

// The pages of words. Builds have more of them than all the rest together, so theirs
// stand on two: what a garment and its pieces are, and from the seams on how it is sewn.
var wordsPages = []struct {
	file  string
	holds func(kind string, worked bool) bool
	head  string
}{
	{"../../content/pages/words.md", func(kind string, worked bool) bool { return kind == "build" && !worked }, `---
title: Every word of a build
summary: All the words that the record of a build may hold.
order: 30
menu: false
---
[Writing a record](page:guide) tells how to begin; this page is for looking things up, and
others have the words [of how it is sewn](page:words-work) and [of cloths, wearers and the
rest](page:words-beside). A word marked with a star must be there. What follows a colon in a word's
meaning are the only values it may have.
`},
	{"../../content/pages/words-work.md", func(kind string, worked bool) bool { return kind == "build" && worked }, `---
title: Every word of the sewing of a build
summary: All the words for seams, finishes, notions, the order of work, fittings, the journal, the packet and costs.
order: 31
menu: false
---
[Writing a record](page:guide) tells how to begin; this page is for looking things up, as
[another](page:words) is for the words of the garment and its pieces. A word marked with a star must be there.
What follows a colon in a word's meaning are the only values it may have.
`},
	{"../../content/pages/words-beside.md", func(kind string, _ bool) bool { return kind != "build" }, `---
title: Every word beside a build
summary: All the words that cloths, wearers, techniques, pages and the workroom's own file may hold.
order: 32
menu: false
---
[Writing a record](page:guide) tells how to begin; this page is for looking things up, as
[another](page:words) is for the words of a build. A word marked with a star must be there. What
follows a colon in a word's meaning are the only values it may have.
`},
}

// TestWordsPageIsFresh: the pages of every word a record may hold are made from
// the reader's own types, so they cannot say anything else than the reader does.
func TestWordsPageIsFresh(t *testing.T) {
	for _, page := range wordsPages {
		want := page.head
		for _, kind := range record.FileKinds {
			want += wordTables(kind, page.holds)
		}
		if *update {
			if err := os.WriteFile(page.file, []byte(want), 0o666); err != nil {
				t.Fatal(err)
			}
		}
		got, err := os.ReadFile(page.file)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(want, string(got)); diff != "" {
			t.Errorf("%s is stale: go test ./cmd/hembook -run Words -update\n%s", page.file, diff)
		}
	}
}

// wordTables lists those words of a kind of file that a page holds as tables, group
// by group. A word marked with a star must be there.
func wordTables(kind record.FileKind, holds func(kind string, worked bool) bool) string {
	worked := false
	var words []record.Word
	for _, w := range record.Words(kind.Name) {
		worked = worked || w.Group == "turn-of-cloth"
		if holds(kind.Name, worked) {
			words = append(words, w)
		}
	}
	if len(words) == 0 {
		return ""
	}
	var b strings.Builder
	fmt.Fprintf(&b, "\n## %s\n\nIn `%s`.\n", strings.ToUpper(kind.Name[:1])+kind.Name[1:], kind.Where)
	group := ""
	shown := map[string]bool{} // groups that have an example
	for _, w := range words {
		shown[w.Group] = shown[w.Group] || w.Example != ""
	}
	for _, w := range words {
		if w.Group != group {
			group = w.Group
			if group != kind.Name {
				fmt.Fprintf(&b, "\n### %s: under `%s`\n", kind.Name, group)
			}
			b.WriteString("\n" + wordCells(shown[group], "word", "meaning", "as") + wordCells(shown[group], "---", "---", "---"))
		}
		b.WriteString(wordRow(w, shown[group]))
	}
	return b.String()
}

// wordCells are cells of a table: without the third where no word of it has an
// example.
func wordCells(shown bool, word, meaning, as string) string {
	if !shown {
		return fmt.Sprintf("| %s | %s |\n", word, meaning)
	}
	return fmt.Sprintf("| %s | %s | %s |\n", word, meaning, as)
}

func wordRow(w record.Word, shown bool) string {
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
	return wordCells(shown, "`"+w.Key+"`"+star, strings.ReplaceAll(about, "|", "\\|"), eg)
}
