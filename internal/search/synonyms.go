package search

import (
	"slices"
	"strings"
)

// foldGroups writes groups of synonyms as terms, words of a phrase with one
// space between. A group that comes down to one term is left out.
func foldGroups(groups [][]string) [][]string {
	r := newReader()
	var out [][]string
	for _, group := range groups {
		var folded []string
		for _, member := range group {
			words, _ := r.read(member)
			terms := make([]string, len(words))
			for i, w := range words {
				terms[i] = w.term
			}
			m := strings.Join(terms, " ")
			if m != "" && !slices.Contains(folded, m) {
				folded = append(folded, m)
			}
		}
		if len(folded) > 1 {
			out = append(out, folded)
		}
	}
	slices.SortFunc(out, slices.Compare)
	return slices.CompactFunc(out, slices.Equal)
}

// keepKnown leaves out groups of which no member stands in any document.
func keepKnown(groups [][]string, terms []*term) [][]string {
	known := knownOf(terms)
	return slices.DeleteFunc(groups, func(g []string) bool {
		return !slices.ContainsFunc(g, func(m string) bool { return known[m] })
	})
}

// knownOf are the texts of terms.
func knownOf(terms []*term) map[string]bool {
	known := make(map[string]bool, len(terms))
	for _, t := range terms {
		known[t.text] = true
	}
	return known
}
