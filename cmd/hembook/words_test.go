package main

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"hembook/internal/record"
)

const wordsPage = "../../content/pages/words.md"

// TestWordsPageIsFresh: the page of every word a record may hold is made from
// the reader's own types, so it cannot say anything else than the reader does.
func TestWordsPageIsFresh(t *testing.T) {
	want := makeWordsPage()
	if *update {
		if err := os.WriteFile(wordsPage, []byte(want), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(wordsPage)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, string(got)); diff != "" {
		t.Errorf("%s is stale: go test ./cmd/hembook -run Words -update\n%s", wordsPage, diff)
	}
}

func makeWordsPage() string {
	var b strings.Builder
	b.WriteString(`---
title: Every word of a record
summary: All the words that builds, cloths, wearers, techniques, pages and the workroom's own file may hold.
order: 30
---
[Writing a record](page:guide) tells how to begin; this page is for looking things up. A word marked
with a star must be there. A mark under a word's meaning lists the only values it may have.
`)
	for _, kind := range record.FileKinds {
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
