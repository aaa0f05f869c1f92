package notebook

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"hembook/internal/prose"
	"hembook/internal/say"
	"hembook/internal/trade"
)

// A GlossaryPage explains the words of the trade and of the workroom.
type GlossaryPage struct {
	Head
	Letters []Letter
}

// A Letter is the terms that begin with it.
type Letter struct {
	Letter string
	Terms  []Term
}

// A Term is a word with what it means.
type Term struct {
	Anchor  string
	Term    string
	Meaning string
	Also    []string
	See     []Link
	Own     bool // the workroom's own word
	Ours    bool // the program's own
	Source  trade.Source
}

// nameTerms gathers the terms of the trade and of the workroom; where both
// explain a word, the workroom's own meaning stands.
func (b *Book) nameTerms() {
	anchors := map[string]bool{}
	own := map[string]bool{}
	for _, t := range b.room.Workroom.Terms {
		term := Term{Term: t.Term.V, Meaning: t.Meaning.V, Own: true}
		for _, a := range t.Also {
			term.Also = append(term.Also, a.V)
		}
		own[strings.ToLower(term.Term)] = true
		b.terms = append(b.terms, term)
	}
	for _, t := range trade.Glossary() {
		if own[strings.ToLower(t.Term)] {
			continue
		}
		term := Term{Term: t.Term, Meaning: t.Definition, Ours: t.Ours, Source: t.Source}
		for _, a := range t.Also {
			term.Also = append(term.Also, a.Term)
		}
		b.terms = append(b.terms, term)
	}
	slices.SortStableFunc(b.terms, func(x, y Term) int {
		return cmp.Or(strings.Compare(slugged(x.Term), slugged(y.Term)), strings.Compare(x.Term, y.Term))
	})
	for i := range b.terms {
		t := &b.terms[i]
		t.Anchor = uniqueAnchor(anchors, "term-"+slugged(t.Term))
		l := Link{GlossaryAddress + Address("#"+t.Anchor), t.Term}
		b.byKind[prose.ToTerm].put(plainName(prose.ToTerm, t.Term), l)
	}
	for _, t := range b.terms { // other words for it, where they are no terms themselves
		for _, a := range t.Also {
			b.byKind[prose.ToTerm].put(plainName(prose.ToTerm, a), Link{GlossaryAddress + Address("#"+t.Anchor), a})
		}
	}
}

func uniqueAnchor(used map[string]bool, base string) string {
	s := base
	for k := 2; used[s]; k++ {
		s = base + "-" + strconv.Itoa(k)
	}
	used[s] = true
	return s
}

// Glossary lays out the glossary.
func (b *Book) Glossary() *GlossaryPage {
	p := &GlossaryPage{Head: Head{GlossaryAddress, "glossary", say.Of("notebook.glossary"), say.Of("notebook.words-of-the-trade-and-of-this"), nil}}
	for _, t := range b.terms {
		letter := strings.ToUpper(firstLetter(t.Term))
		if n := len(p.Letters); n == 0 || p.Letters[n-1].Letter != letter {
			p.Letters = append(p.Letters, Letter{Letter: letter})
		}
		last := &p.Letters[len(p.Letters)-1]
		last.Terms = append(last.Terms, t)
	}
	return p
}

func firstLetter(s string) string {
	for _, r := range slugged(s) {
		return string(r)
	}
	return "?"
}
