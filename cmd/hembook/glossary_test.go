package main

import (
	"slices"
	"strings"
	"testing"

	"hembook/internal/record"
	"hembook/internal/trade"
)

// everyday are words of the program that mean what they mean to everybody.
var everyday = []string{"build", "page", "length", "thread", "notion", "total", "cost", "fit", "hang", "check", "begin", "jot", "man", "licences", "pack", "pattern", "schema", "show", "take", "words", "clock", "trace"}

// sayings are the words that the program says in a sense of its own: kinds of file,
// groups of figures, commands, and words of its design.
func sayings(t *testing.T) []string {
	list := append(record.KindNames(),
		"level", "round", "walk", "packet", "remnant", "working", "circle", "ledger", "workroom", "notebook", "record", "figure", "piece", "edge", "outline", "cut outline",
		"seam", "finish", "order of work", "step", "wait", "sheet", "bundle", "copy", "side", "join", "row", "band", "part", "one-way cloth", "usual", "journal", "truing", "lay", "fitting", "stage")
	for _, c := range newRoot().Commands() {
		list = append(list, c.Name())
	}
	for _, build := range []string{"boatyard-trousers", "harvest-supper-dress", "plum-bias-slip"} {
		_, out, _ := hembook("../..", "tally", build)
		_, rest, ok := strings.Cut(out, "such as ")
		groups, _, also := strings.Cut(rest, ", or all")
		if !ok || !also {
			t.Fatalf("tally names no groups of figures:\n%s", out)
		}
		list = append(list, strings.Split(groups, ", ")...)
	}
	return list
}

// TestGlossaryHasOurWords: every word that the program says in a sense of its own stands
// in the glossary, and every word that is left out is one of those.
func TestGlossaryHasOurWords(t *testing.T) {
	known := map[string]bool{}
	for _, term := range trade.Glossary() {
		known[strings.ToLower(term.Term)] = true
		for _, a := range term.Also {
			known[strings.ToLower(a.Term)] = true
		}
	}
	list := sayings(t)
	for _, word := range list {
		w := strings.ToLower(word)
		if !slices.Contains(everyday, word) && !known[w] && !known[strings.TrimSuffix(w, "s")] && !known[strings.TrimSuffix(w, " plan")] {
			t.Errorf("the glossary does not tell what %q is", word)
		}
	}
	for _, word := range everyday {
		if !slices.Contains(list, word) {
			t.Errorf("nothing says %q any more", word)
		}
	}
}
