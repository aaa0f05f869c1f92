package press

import (
	"bytes"
	"strconv"
	"strings"

	"hembook/internal/notebook"
)

// lightPage is what a page may weigh on a first visit, photographs aside, in
// bytes; frameWeight is about what stands on it beside the parts of a build.
const (
	lightPage   = 60_000
	frameWeight = 7_600
	leastRoom   = 16_000
)

// leafRoom is how heavy the parts of a leaf may grow, in bytes, before it is
// continued on another page: with what a theme has every page load, that makes
// a light page.
func (t *Theme) leafRoom() int { return max(lightPage-frameWeight-t.weight, leastRoom) }

// A buildPart is a part of a build: where it stands and how it is written.
type buildPart struct {
	id, name string
	leaf     string // of [notebook.Leaves]; "" on the build's own page
	write    func(p *printer, w *paper, b *notebook.BuildPage)
}

// buildParts are the parts of a build in their order. One that writes nothing
// is left out, and so is a leaf without parts.
var buildParts = []buildPart{
	{"story", "Story", "", func(p *printer, w *paper, b *notebook.BuildPage) { p.textPart(w, b.Story) }},
	{"laid-out", "Laid out", "", (*printer).laidOut},
	{"dimensions", "Dimensions", "", (*printer).dimensions},
	{"cloths", "Cloth", "", (*printer).clothList},
	{"cautions", "Cautions", "", func(p *printer, w *paper, b *notebook.BuildPage) { p.cautions(w, b.Cautions) }},
	{"notes", "Notes", "", func(p *printer, w *paper, b *notebook.BuildPage) { p.textPart(w, b.Notes) }},
	{"pieces", "Pieces", "pieces", (*printer).pieces},
	{"seams", "Seams", "seams", (*printer).seams},
	{"truing", "Truing", "truing", (*printer).truing},
	{"cloth", "Cloth", "cloth", (*printer).cloth},
	{"notions", "Notions and thread", "cloth", (*printer).notions},
	{"lay", "Lay", "lay", (*printer).lays},
	{"fittings", "Fittings", "fit", (*printer).fittings},
	{"work", "Order of work", "work", func(p *printer, w *paper, b *notebook.BuildPage) { p.timing(w, b); p.work(w, b); p.hangs(w, b) }},
	{"journal", "Journal", "journal", (*printer).journal},
}

// textPart writes a passage in a column to be read.
func (p *printer) textPart(w *paper, t notebook.Passage) {
	if t.Given() {
		w.raw(`<div class="prose">`)
		p.proseTo(w, t, 3)
		w.raw("</div>")
	}
}

// A leafPage is a leaf with its parts, before it is printed.
type leafPage struct {
	leaf  notebook.Leaf
	parts []leafPart
}

// A leafPart is a part, or as much of one as stands on one page, in the
// stretches that it was written in. They still hold marks.
type leafPart struct {
	part *buildPart
	html [][]byte
}

// A stretch is a part, or as much of one as stays on one page.
type stretch struct {
	part  *buildPart
	html  []byte
	first bool // of its part
}

// stretches writes the parts of one leaf, or of the build's own page where leaf
// is "". They last until the next build is printed.
func (p *printer) stretches(b *notebook.BuildPage, leaf string, rules *ruleBook) []stretch {
	var out []stretch
	for i := range buildParts {
		c := &buildParts[i]
		if c.leaf != leaf {
			continue
		}
		w := p.paper(b.Folder)
		w.rules, w.turns = rules, w.turns[:0]
		c.write(p, w, b)
		w.rules = nil
		begun, first := 0, true
		for _, end := range append(w.turns, len(w.b)) {
			if end > begun {
				out = append(out, stretch{c, p.shelve(w.b[begun:end]), first})
				begun, first = end, false
			}
		}
	}
	return out
}

// shelve keeps what was written until the next build is printed.
func (p *printer) shelve(html []byte) []byte {
	from := len(p.shelf)
	p.shelf = append(p.shelf, html...)
	return p.shelf[from:len(p.shelf):len(p.shelf)]
}

// spread lays stretches out over as many pages as they need.
func spread(all []stretch, rules *ruleBook, room int) [][]leafPart {
	pages := [][]leafPart{nil}
	page, one := load{book: rules}, load{book: rules}
	for _, s := range all {
		one.reset()
		one.add(s.html)
		page.plus(&one)
		last := &pages[len(pages)-1]
		if len(*last) > 0 && page.bytes() > room {
			pages = append(pages, nil)
			last = &pages[len(pages)-1]
			page.reset()
			page.plus(&one)
		}
		lay(last, s, !s.first)
	}
	return pages
}

// whole lays stretches out on one page.
func whole(all []stretch) []leafPart {
	var out []leafPart
	for _, s := range all {
		lay(&out, s, !s.first)
	}
	return out
}

// lay adds a stretch to the parts of a page: to the last of them where it goes
// on with that one.
func lay(parts *[]leafPart, s stretch, goesOn bool) {
	if !goesOn || len(*parts) == 0 {
		*parts = append(*parts, leafPart{part: s.part})
	}
	last := &(*parts)[len(*parts)-1]
	last.html = append(last.html, s.html)
}

// mayTurn marks a place where a part may be continued on another page. No
// element that the part has begun may be open there.
func (w *paper) mayTurn() *paper {
	if w.rules != nil {
		w.turns = append(w.turns, len(w.b))
	}
	return w
}

// leaves writes the further pages of a build.
func (p *printer) leaves(b *notebook.BuildPage, rules *ruleBook) []leafPage {
	var out []leafPage
	for _, l := range notebook.Leaves {
		first := b.Leaf(l.Name, 1)
		p.begin(first.Head)
		all := p.stretches(b, l.Name, rules)
		if len(all) == 0 {
			continue
		}
		pages := spread(all, rules, p.theme.leafRoom())
		from := len(out)
		for i, parts := range pages {
			out = append(out, leafPage{b.Leaf(l.Name, i+1), parts})
		}
		if len(pages) > 1 {
			relink(out[from:])
		}
	}
	return out
}

// Where an anchor and a link to one begin, up to its name.
const (
	idStart   = ` id="`
	hereStart = ` href="#`
)

// eachName calls do for every name that stands between start and the next
// quotation mark, with where it begins.
func eachName(html []byte, start string, do func(at int, name []byte)) {
	for at := 0; ; {
		i := bytes.Index(html[at:], []byte(start))
		if i < 0 {
			return
		}
		at += i + len(start)
		if n := bytes.IndexByte(html[at:], '"'); n > 0 {
			do(at, html[at:at+n])
			at += n
		}
	}
}

// anchors are the pages that the anchors of some pages stand on.
func anchors(pages []leafPage) map[string]notebook.Address {
	where := map[string]notebook.Address{}
	for i := range pages {
		for _, part := range pages[i].parts {
			for _, html := range part.html {
				eachName(html, idStart, func(_ int, name []byte) { where[string(name)] = pages[i].leaf.Address })
			}
		}
	}
	return where
}

// relink mends the links within a leaf whose ends came to lie on two pages.
func relink(pages []leafPage) {
	where := anchors(pages)
	for i := range pages {
		here := pages[i].leaf.Address
		for _, part := range pages[i].parts {
			for k, html := range part.html {
				part.html[k] = relinked(html, here, where)
			}
		}
	}
}

// relinked is HTML of the page here with its links to anchors elsewhere mended.
func relinked(html []byte, here notebook.Address, where map[string]notebook.Address) []byte {
	var out []byte
	from := 0
	eachName(html, hereStart, func(at int, name []byte) {
		if to, ok := where[string(name)]; ok && to != here {
			out = append(out, html[from:at-1]...) // up to the #
			out = append(append(out, here.To(to)...), '#')
			from = at
		}
	})
	if from == 0 {
		return html
	}
	return append(out, html[from:]...)
}

// leafLinks are the ways between the pages of a build, from the page at here.
// Where a leaf takes several pages, only its own pages link to them all.
func (p *printer) leafLinks(b *notebook.BuildPage, leaves []leafPage, here notebook.Address) []NavLink {
	out := []NavLink{{Href: here.To(b.Address), Name: "The garment", Here: here == b.Address}}
	at := leafAt(leaves, here)
	for _, l := range leaves {
		if l.leaf.Number > 1 && l.leaf.Name != at {
			continue
		}
		name := l.leaf.Short
		if l.leaf.Number > 1 {
			name += ", " + strconv.Itoa(l.leaf.Number)
		}
		out = append(out, NavLink{Href: here.To(l.leaf.Address), Name: name, Here: here == l.leaf.Address})
	}
	for n := range p.recordText {
		if n > 0 && !strings.HasPrefix(string(here), "records/") {
			break
		}
		to, name := b.Record.Leaf(n+1).Address, "Record"
		if n > 0 {
			name += ", " + strconv.Itoa(n+1)
		}
		out = append(out, NavLink{Href: here.To(to), Name: name, Here: here == to})
	}
	return out
}

// leafAt is the name of the leaf at an address; "" where it is no leaf.
func leafAt(leaves []leafPage, here notebook.Address) string {
	for _, l := range leaves {
		if l.leaf.Address == here {
			return l.leaf.Name
		}
	}
	return ""
}

// anchorOf finds on which page of a leaf an anchor came to stand; "" where it
// stands on none.
func (p *printer) anchorOf(leaf, id string) notebook.Address {
	if p.anchors == nil {
		p.anchors = map[string]map[string]notebook.Address{}
	}
	where, ok := p.anchors[leaf]
	if !ok {
		var pages []leafPage
		for _, l := range p.leafPages {
			if l.leaf.Name == leaf {
				pages = append(pages, l)
			}
		}
		where = anchors(pages)
		p.anchors[leaf] = where
	}
	return where[id]
}
