package press

import (
	"html/template"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"hembook/internal/notebook"
)

// lightPage is what a page may weigh on a first visit, photographs aside, in
// bytes; frameWeight is about what stands on it beside the parts of a build.
const (
	lightPage   = 60_000
	frameWeight = 9_400
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
	parts []Part
}

// A stretch is a part, or as much of one as stays on one page.
type stretch struct {
	part  *buildPart
	html  []byte
	first bool // of its part
}

// stretches writes the parts of one leaf, or of the build's own page where leaf
// is "".
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
				out = append(out, stretch{c, slices.Clone(w.b[begun:end]), first})
				begun, first = end, false
			}
		}
	}
	return out
}

// spread lays stretches out over as many pages as they need.
func spread(all []stretch, rules *ruleBook, room int) [][]Part {
	pages := [][]Part{nil}
	weight := load{book: rules}
	for _, s := range all {
		last := &pages[len(pages)-1]
		more := weight.with(s.html)
		if len(*last) > 0 && more.bytes() > room {
			pages = append(pages, nil)
			last = &pages[len(pages)-1]
			more = load{book: rules}.with(s.html)
		}
		weight = more
		if n := len(*last); n > 0 && !s.first {
			(*last)[n-1].HTML += template.HTML(s.html)
		} else {
			*last = append(*last, Part{ID: s.part.id, Name: s.part.name, HTML: template.HTML(s.html)})
		}
	}
	return pages
}

// whole lays stretches out on one page.
func whole(all []stretch) []Part {
	var out []Part
	for _, s := range all {
		if s.first {
			out = append(out, Part{ID: s.part.id, Name: s.part.name})
		}
		out[len(out)-1].HTML += template.HTML(s.html)
	}
	return out
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

var (
	idPattern   = regexp.MustCompile(` id="([^"]+)"`)
	herePattern = regexp.MustCompile(` href="#([^"]+)"`)
)

// relink mends the links within a leaf whose ends came to lie on two pages.
func relink(pages []leafPage) {
	where := map[string]notebook.Address{}
	for _, page := range pages {
		for _, part := range page.parts {
			for _, m := range idPattern.FindAllStringSubmatch(string(part.HTML), -1) {
				where[m[1]] = page.leaf.Address
			}
		}
	}
	for _, page := range pages {
		for i := range page.parts {
			html := herePattern.ReplaceAllStringFunc(string(page.parts[i].HTML), func(link string) string {
				id := strings.TrimSuffix(strings.TrimPrefix(link, ` href="#`), `"`)
				if to, ok := where[id]; ok && to != page.leaf.Address {
					return ` href="` + page.leaf.Address.To(to) + "#" + id + `"`
				}
				return link
			})
			page.parts[i].HTML = template.HTML(html)
		}
	}
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

// anchorOf finds on which page of a build an anchor came to stand.
func anchorOf(leaves []leafPage, leaf, id string) notebook.Address {
	for _, l := range leaves {
		if l.leaf.Name != leaf {
			continue
		}
		for _, part := range l.parts {
			if strings.Contains(string(part.HTML), ` id="`+id+`"`) {
				return l.leaf.Address
			}
		}
	}
	return ""
}
