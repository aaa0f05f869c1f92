// Package search turns the public pages of a notebook into an index that a
// browser can ask without a server: documents in, small files out, each a
// classic script that hands over its contents by one call, because a page
// opened from a folder may load scripts and nothing else.
//
// It promises that the same documents give the same bytes on any machine, that
// every number a ranking depends on is a whole number (so that the script and
// any other reader of the index agree to the last place), and that a query
// loads only what it needs: see shards.go for the files and score.go for the
// ranking. The scripts that answer queries are the
// theme's script/search*.js; they share the rules of words.go word for word.
//
// It leaves out what a page is and which pages are public: it is handed plain
// text and believes it.
package search

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
)

// A Document is a page as the search sees it, or a part of one that has an
// address of its own.
type Document struct {
	Address string   // from the notebook's folder, slash-separated, as an URL writes it
	Kind    string   // in the words a reader sees: "build", "technique"
	Title   string   // plain text
	Names   []string // what it is also known as
	Text    string   // the page's words, plain; any white space counts as one space
	More    string   // further words that it is found by; none of them is shown
	Page    string   // the address of the page that it is a part of; "" where its own leads there
	Under   string   // the title of that page, by which it is found too; "" for a page
	Answers []Answer // the figures that it knows
	Last    bool     // it comes after others that are as good: a manual, beside what is written about
	Facets  []Facet  // what a search can be narrowed to, beside the kind
}

// An Answer is a figure that a document knows.
type Answer struct {
	To   string // the question: one of Questions
	Says string // with its unit, in a reader's words
}

// A Facet is a property of a document by which results can be narrowed.
type Facet struct {
	Name   string // one of Options.Facets
	Values []string
}

// Options say what the documents cannot.
type Options struct {
	// Synonyms are groups of words or phrases that stand for one another, as
	// trade.Synonyms gives them.
	Synonyms [][]string
	// Before is an index of earlier documents, or nil: what is as it was there is
	// not read again. The files are the same. No two indexes may be built from
	// one at once.
	Before *Index
	// Facets are the names of the facets in the order they are offered. The
	// kind comes first by itself and is not named here.
	Facets []string
}

// An Index is an archive made searchable. It never changes.
type Index struct {
	Documents int
	TextBytes int    // bytes of titles, names and texts that were read
	Stamp     string // changes whenever any file does; the page hands it to the script
	files     []File
	terms     []*term // in the order of the dictionary
	docs      []Document
	synonyms  [][]string // folded, those of which a word stands in the documents
	folded    [][]string // all
	offered   []string   // the names of the facets

	// for an index of later documents
	read     []*reading
	words    *lexicon
	segments *lexicon
	average  int                // words of a document
	byWord   []*term            // by the number of the word; nil for those of documents that are gone
	starred  map[string]*term   // beginnings
	times    []int              // how often each segment stands in the documents
	coder    *coder             // of the texts
	texted   []File             // those of texts
	titled   []File             // of titles
	faceted  []File             // of facets
	packs    map[string][]*pack // the lists of postings, by kind
	used     int                // segments that were in use when that was last counted

	// against the index before
	placed  bool  // there are as many documents as there
	changed []int // those that do not read as the one in their place did, where they are placed
}

// A File is one file of the index. Its name is slash-separated, from the
// folder the index is written to.
type File struct {
	Name string
	Data []byte
}

// Files are the files of the index, by name.
func (x *Index) Files() []File { return slices.Clone(x.files) }

// mostDocuments keeps a document's number within three characters.
const mostDocuments = 700_000

// Build makes the index. Documents keep their order: where two are equally
// good answers, the earlier one is shown first.
//
// It errs on an address that is empty, leaves the notebook's folder or stands
// there twice, on an answer to no question, and on a facet that the options do
// not name.
func Build(docs []Document, opt Options) (*Index, error) {
	if err := checkDocuments(docs, opt); err != nil {
		return nil, err
	}
	x := &Index{Documents: len(docs), docs: docs, offered: opt.Facets}
	for i := range docs {
		x.TextBytes += docs[i].bytes()
	}
	x.folded = foldGroups(opt.Synonyms)
	was := x.readAll(opt.Before)
	w := &fileSet{}
	learnt := make(chan *coder, 1)
	var wait sync.WaitGroup
	wait.Go(func() { x.coder, x.texted = x.texts(was, learnt) })
	x.gather(was)
	x.synonyms = keepKnown(slices.Clone(x.folded), x.terms)
	words := x.dictionary(w, was, learnt)
	x.facets(was)
	w.first(len(docs), x.titles(was), words, x.synonyms, x.terms)
	wait.Wait()
	w.files = slices.Concat(w.files, x.titled, x.faceted, x.texted)
	x.files, x.Stamp = w.done()
	return x, nil
}

// bytes are how much of a document is read.
func (d *Document) bytes() int {
	n := len(d.Title) + len(d.Text)
	for _, name := range d.Names {
		n += len(name)
	}
	for _, a := range d.Answers {
		n += len(a.Says)
	}
	return n
}

// standWhere reports whether documents have the addresses of those of an index, which
// may be nil, in their order.
func standWhere(docs []Document, before *Index) bool {
	if before == nil || len(before.docs) != len(docs) {
		return false
	}
	for i := range docs {
		if docs[i].Address != before.docs[i].Address {
			return false
		}
	}
	return true
}

func checkDocuments(docs []Document, opt Options) error {
	if len(docs) > mostDocuments {
		return fmt.Errorf("%d pages are more than a search can hold: %d", len(docs), mostDocuments)
	}
	var seen map[string]bool
	if !standWhere(docs, opt.Before) { // else they were looked at then
		seen = make(map[string]bool, len(docs))
	}
	for i := range docs {
		d := &docs[i]
		switch first, _, _ := strings.Cut(d.Address, "/"); {
		case d.Address == "":
			return fmt.Errorf("the page %q has no address to be found at", d.Title)
		case first == "", strings.Contains(first, ":"), strings.Contains("/"+d.Address+"/", "/../"):
			return fmt.Errorf("the address %q leads out of the notebook", d.Address)
		case seen[d.Address]:
			return fmt.Errorf("two pages have the address %q", d.Address)
		}
		if seen != nil {
			seen[d.Address] = true
		}
		for _, a := range d.Answers {
			if !slices.Contains(Questions, a.To) {
				return fmt.Errorf("the page %q answers the question %q, which nobody can ask", d.Title, a.To)
			}
		}
		for _, f := range d.Facets {
			if !slices.Contains(opt.Facets, f.Name) {
				return fmt.Errorf("the page %q is to be found by its %s, which the search does not offer", d.Title, f.Name)
			}
		}
	}
	if slices.Contains(opt.Facets, kindFacet) {
		return errors.New("the kind is offered by itself: leave it out of the facets")
	}
	return nil
}
