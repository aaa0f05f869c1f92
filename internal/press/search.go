package press

import (
	"bytes"
	"context"
	"reflect"
	"slices"
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
	was := r.before.index
	if was == nil {
		was = &index{}
	}
	is := &index{texts: map[notebook.Address]*readText{}, pages: map[notebook.Address]*findables{}}
	told := make(map[notebook.Address]*found, len(r.builds))
	for i, l := range r.builds {
		told[r.book.BuildAddress(i)] = &l.found
	}
	for _, t := range techniques {
		told[t.Address] = is.read(was, t.Address, t.When, t.Body).withSettings(t.Head, t.Worked, compose.ClothsOf)
	}
	for _, c := range cloths {
		told[c.Address] = is.read(was, c.Address, "", c.About).withSettings(c.Head, c.Worked, compose.TechniqueOf)
	}
	for _, t := range r.book.TextPages() {
		told[t.Address] = is.read(was, t.Address, "", t.Body)
	}
	entries := shelf.Entries(techniques, cloths)
	is.order = make([]*findables, len(entries))
	for i := range entries {
		f := told[entries[i].Address]
		is.order[i] = is.find(was, &entries[i], f)
		if f != nil && !r.remembered { // the search has it now; the picture others ask for
			f.words, f.parts, f.known, f.seams = "", nil, nil, nil
		}
	}
	is, err := r.index(was, is)
	if err != nil {
		return err
	}
	page := r.book.Search()
	page.Stamp = is.made.Stamp
	return p.unless(page.Head, page, func() error { return p.printSearch(page) })
}

// An index is what is kept of a search index once it is written.
type index struct {
	texts map[notebook.Address]*readText
	pages map[notebook.Address]*findables
	order []*findables // in the order of the index
	files []notebook.Address
	made  *search.Index
}

// A readText is a text with what a search finds in it.
type readText struct {
	before string
	body   []byte
	found  found
}

// A findables is a page with its parts as the search reads them, and what they were
// made from.
type findables struct {
	entry notebook.IndexEntry
	found *found // which is kept from press to press
	docs  []search.Document
}

// read is what a search finds of a page that is one text, read again where that is
// another text than before.
func (x *index) read(was *index, page notebook.Address, before string, body notebook.Passage) *found {
	t := was.texts[page]
	if t == nil || t.before != before || !bytes.Equal(t.body, body.Text) {
		t = &readText{before, body.Text, foundInText(page, before, body)}
	}
	x.texts[page] = t
	return &t.found
}

// nothingMore is found of a page that is its entry and no more.
var nothingMore found

// find is a page with its parts, made again where it was made from something else.
// What came out the same is what there was before.
func (x *index) find(was *index, e *notebook.IndexEntry, f *found) *findables {
	if f == nil {
		f = &nothingMore
	}
	had := was.pages[e.Address]
	is := had
	if had == nil || had.found != f || !had.entry.Same(e) {
		is = &findables{*e, f, documentsOf(e, *f)}
		if had != nil && reflect.DeepEqual(had.docs, is.docs) {
			is.docs = had.docs
		}
	}
	x.pages[e.Address] = is
	return is
}

// like reports whether two pages have the same parts.
func (f *findables) like(other *findables) bool {
	return f == other || other != nil && len(f.docs) == len(other.docs) && &f.docs[0] == &other.docs[0]
}

// index writes the index of these pages; where they are those of before,
// as it was.
func (r *pressing) index(was, is *index) (*index, error) {
	if was.made != nil && slices.EqualFunc(was.order, is.order, (*findables).like) {
		is.files, is.made = was.files, was.made
		r.now.index = is
		return is, r.carryAll(is.files)
	}
	all := 0
	for _, f := range is.order {
		all += len(f.docs)
	}
	docs := make([]search.Document, 0, all)
	for _, f := range is.order {
		docs = append(docs, f.docs...)
		if !r.remembered { // else it is told by them whether they are those of before
			f.docs = docs[len(docs)-len(f.docs):]
		}
	}
	var err error
	is.made, err = search.Build(docs, search.Options{Synonyms: trade.Synonyms(), Facets: notebook.FacetNames, Before: was.made})
	if err != nil {
		return nil, err
	}
	var had []search.File // by name, as those that are written
	if was.made != nil {
		had = was.made.Files()
	}
	for _, f := range is.made.Files() {
		a := notebook.Address(notebook.SearchIndex + f.Name)
		is.files = append(is.files, a)
		for len(had) > 0 && had[0].Name < f.Name {
			had = had[1:]
		}
		if len(had) > 0 && had[0].Name == f.Name && bytes.Equal(had[0].Data, f.Data) {
			err = r.out.carry(a)
		} else {
			err = r.out.write(a, f.Data)
		}
		if err != nil {
			return nil, err
		}
	}
	r.now.index = is
	return is, nil
}

// proveIndex looks through the words of the search, which its files hold packed: of
// all pages, or of those that are other than before.
func (r *pressing) proveIndex(ctx context.Context, all bool, look func(notebook.Address, []byte)) error {
	is, was := r.now.index, r.before.index
	if is == nil || is == was && !all {
		return nil
	}
	return r.each(ctx, len(is.order), func(_ *printer, k int) error {
		f := is.order[k]
		if !all && was != nil && f.like(was.pages[f.entry.Address]) {
			return nil
		}
		for i := range f.docs {
			look(notebook.Address(f.docs[i].Address), wordsOf(&f.docs[i]))
		}
		return nil
	})
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
func (f *found) withSettings(page notebook.Head, worked []notebook.Worked, by func(*notebook.Worked) string) *found {
	if len(worked) == 0 {
		return f
	}
	more, one := *f, compose.SettingsFound(page.Heading, worked, by)
	more.parts = append(slices.Clip(f.parts), findable{one, page.Address + notebook.Address("#"+one.Anchor)})
	return &more
}

// foundInBuild is what a search finds of a build. What came to stand nowhere is
// left out.
func (p *printer) foundInBuild(b *notebook.BuildPage) found {
	f := found{words: b.Told(), seams: b.SeamTitles(), card: p.buildsCard}
	p.draft.Reset()
	for _, a := range compose.Known(p.draft, b) {
		f.known = append(f.known, search.Answer(a))
	}
	seen, all := map[string]bool{}, compose.Findables(p.draft, b)
	f.parts = make([]findable, 0, len(all))
	for _, one := range all {
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
