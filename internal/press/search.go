package press

import (
	"bytes"
	"reflect"
	"strconv"

	"hembook/internal/notebook"
	"hembook/internal/prose"
	"hembook/internal/search"
	"hembook/internal/trade"
)

// A found is what is kept of a build while the others are pressed, for the
// search and for pages that show its picture.
type found struct {
	words string
	seams []string
	card  notebook.Address // the picture of the build
}

// A SearchView is what pages/search.html is given.
type SearchView struct {
	Frame
	Holds *notebook.SearchPage
	Lists []Way
}

// search writes the index of all pages and the page that asks it.
func (r *pressing) search(p *printer, shelf *notebook.Gathered, techniques []*notebook.TechniquePage, cloths []*notebook.ClothPage) error {
	texts := map[notebook.Address]found{}
	for i, l := range r.builds {
		texts[r.book.BuildAddress(i)] = l.found
	}
	for _, t := range techniques {
		texts[t.Address] = found{words: t.When + "\n" + plainWords(t.Body)}
	}
	for _, c := range cloths {
		texts[c.Address] = found{words: plainWords(c.About)}
	}
	for _, t := range r.book.TextPages() {
		texts[t.Address] = found{words: plainWords(t.Body)}
	}
	entries := shelf.Entries(techniques, cloths)
	docs := make([]search.Document, len(entries))
	for i := range entries {
		docs[i] = documentOf(&entries[i], texts[entries[i].Address])
	}
	index, err := r.index(docs)
	if err != nil {
		return err
	}
	page := r.book.Search()
	page.Stamp = index.stamp
	return p.unless(page.Head, page, func() error { return p.printSearch(page) })
}

// An index is what is kept of a search index once it is written.
type index struct {
	docs  []search.Document
	files []notebook.Address
	stamp string
	made  *search.Index
}

// index writes the index of these documents; where they are those of before,
// as it was.
func (r *pressing) index(docs []search.Document) (*index, error) {
	if was := r.before.index; was != nil && reflect.DeepEqual(was.docs, docs) {
		r.now.index = was
		return was, r.carryAll(was.files)
	}
	opt := search.Options{Synonyms: trade.Synonyms(), Facets: notebook.FacetNames}
	had := map[string][]byte{}
	if was := r.before.index; was != nil {
		opt.Before = was.made
		for _, f := range was.made.Files() {
			had[f.Name] = f.Data
		}
	}
	made, err := search.Build(docs, opt)
	if err != nil {
		return nil, err
	}
	kept := &index{docs: docs, stamp: made.Stamp, made: made}
	for _, f := range made.Files() {
		a := notebook.Address(notebook.SearchIndex + f.Name)
		kept.files = append(kept.files, a)
		if data, ok := had[f.Name]; ok && bytes.Equal(data, f.Data) {
			err = r.out.carry(a)
		} else {
			err = r.out.write(a, f.Data)
		}
		if err != nil {
			return nil, err
		}
	}
	r.now.index = kept
	return kept, nil
}

func (p *printer) printSearch(page *notebook.SearchPage) error {
	v := &SearchView{Frame: p.begin(page.Head), Holds: page}
	for _, l := range page.Lists {
		v.Lists = append(v.Lists, Way{Href: p.href(l.Address), Name: l.Name})
	}
	return p.print("search", v)
}

func plainWords(t notebook.Passage) string {
	if !t.Given() {
		return ""
	}
	return string(prose.Read(t.Text, "").Plain(nil))
}

// documentOf is a page as the search reads it.
func documentOf(e *notebook.IndexEntry, f found) search.Document {
	d := search.Document{Address: string(e.Address), Kind: e.Kind, Title: e.Title, Names: e.Names, Text: e.Lead + "\n" + f.words}
	facet := func(name string, values ...string) {
		if len(values) > 0 && values[0] != "" {
			d.Facets = append(d.Facets, search.Facet{Name: name, Values: values})
		}
	}
	facet(notebook.FacetGarment, e.Garment)
	facet(notebook.FacetCloth, e.Cloths...)
	facet(notebook.FacetTechnique, e.Techniques...)
	facet(notebook.FacetSeam, f.seams...)
	if e.Year > 0 {
		facet(notebook.FacetYear, strconv.Itoa(e.Year))
	}
	return d
}
