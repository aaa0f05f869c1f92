package press

import (
	"bytes"
	"reflect"
	"strconv"
	"strings"

	"hembook/internal/compose"
	"hembook/internal/notebook"
	"hembook/internal/prose"
	"hembook/internal/search"
	"hembook/internal/trade"
)

// A found is what is kept of a build while the others are pressed, for the
// search and for pages that show its picture. Of other pages it is what a search
// finds there.
type found struct {
	words string     // of the page itself
	parts []findable // of it and on the pages under it
	known []search.Answer
	seams []string
	card  notebook.Address // the picture of the build
}

// A findable is a part of a page with its address.
type findable struct {
	compose.Findable
	at notebook.Address
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
		texts[t.Address] = foundInText(t.Address, t.When, t.Body).withSettings(t.Head, t.Worked, compose.ClothsOf)
	}
	for _, c := range cloths {
		texts[c.Address] = foundInText(c.Address, "", c.About).withSettings(c.Head, c.Worked, compose.TechniqueOf)
	}
	for _, t := range r.book.TextPages() {
		texts[t.Address] = foundInText(t.Address, "", t.Body)
	}
	entries := shelf.Entries(techniques, cloths)
	var docs []search.Document
	for i := range entries {
		docs = append(docs, documentsOf(&entries[i], texts[entries[i].Address])...)
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

// foundInText is what a search finds of a page that is one text: what stands before
// its first heading is the page's own, the rest is under the headings. The text is the
// first of its page, which its headings are named after.
func foundInText(page notebook.Address, before string, body notebook.Passage) found {
	f := found{words: before}
	if !body.Given() {
		return f
	}
	for _, s := range prose.Read(body.Text, textPrefix(1)).Sections() {
		if s.Heading == "" {
			f.words += "\n" + s.Text
			continue
		}
		f.parts = append(f.parts, findable{compose.Findable{Kind: "section", Title: s.Heading, Text: s.Text}, page + notebook.Address("#"+s.ID)})
	}
	return f
}

// withSettings adds to what is found of a technique or cloth how the machine was set.
func (f found) withSettings(page notebook.Head, worked []notebook.Worked, by func(*notebook.Worked) string) found {
	if len(worked) > 0 {
		one := compose.SettingsFound(page.Heading, worked, by)
		f.parts = append(f.parts, findable{one, page.Address + notebook.Address("#"+one.Anchor)})
	}
	return f
}

// foundInBuild is what a search finds of a build. What came to stand nowhere is
// left out.
func (p *printer) foundInBuild(b *notebook.BuildPage) found {
	f := found{words: b.Told(), seams: b.SeamTitles(), card: p.buildsCard}
	p.draft.Reset()
	for _, a := range compose.Known(p.draft, b) {
		f.known = append(f.known, search.Answer(a))
	}
	seen := map[string]bool{}
	for _, one := range compose.Findables(p.draft, b) {
		if page, ok := p.stands[one.Anchor]; ok && !seen[one.Anchor] {
			seen[one.Anchor] = true
			f.parts = append(f.parts, findable{one, page + notebook.Address("#"+one.Anchor)})
		}
	}
	return f
}

// documentsOf are a page as the search reads it, and after it its parts.
func documentsOf(e *notebook.IndexEntry, f found) []search.Document {
	d := search.Document{Address: string(e.Address), Kind: e.Kind, Title: e.Title, Names: e.Names, Text: e.Lead + "\n" + f.words,
		Answers: f.known, Last: e.Manual}
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
	out := make([]search.Document, 1, 1+len(f.parts))
	var more strings.Builder
	for i := range f.parts {
		l := &f.parts[i]
		one := search.Document{Address: string(l.at), Kind: l.Kind, Title: l.Title, Names: l.Names, Text: l.Text, Under: e.Title,
			Last: e.Manual, Facets: d.Facets}
		if page, _, _ := strings.Cut(one.Address, "#"); page != d.Address {
			one.Page = d.Address
		}
		for _, a := range l.Answers {
			one.Answers = append(one.Answers, search.Answer(a))
		}
		more.WriteString(l.Title + "\n" + strings.Join(l.Names, "\n") + "\n" + l.Text + "\n")
		out = append(out, one)
	}
	d.More = more.String()
	out[0] = d
	return out
}
