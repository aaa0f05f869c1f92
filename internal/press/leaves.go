package press

import (
	"cmp"
	"html"
	"html/template"
	"regexp"
	"strconv"
	"strings"

	"hembook/internal/compose"
	"hembook/internal/document"
	"hembook/internal/notebook"
	"hembook/internal/say"
)

// leafRoom is how heavy the parts of a leaf may grow, in bytes, before it is continued on
// another page. It is far above what a garment comes to, so that what stands on a leaf
// keeps its address when more is written down: a page of that weight is some 75 KB on its
// way to the reader, as servers send it.
const leafRoom = 500_000

// A leafPage is a leaf with its parts, before it is printed.
type leafPage struct {
	leaf  notebook.Leaf
	parts []leafPart
}

// A leafPart is a part, or as much of one as stands on one page, in the
// stretches that it was written in.
type leafPart struct {
	part *compose.Part
	text []document.Chunk
}

// A chunk is a part, or as much of one as stays on one page.
type chunk struct {
	part  *compose.Part
	text  document.Chunk
	first bool // of its part
}

// stretches writes the parts of one leaf, or of the build's own page where leaf
// is "". They last until the next build is printed.
func (p *printer) stretches(b *notebook.BuildPage, leaf string) []chunk {
	var out []chunk
	for i := range compose.BuildParts {
		c := &compose.BuildParts[i]
		if c.Leaf != leaf {
			continue
		}
		p.draft.Reset()
		c.Compose(p.draft, b)
		for k, s := range p.html.Write(p.draft.Blocks) {
			out = append(out, chunk{c, s, k == 0})
		}
	}
	return out
}

// spread lays stretches out over as many pages as they need.
func spread(all []chunk, rules *document.Rules, room int) [][]leafPart {
	pages := [][]leafPart{nil}
	page, one := document.Load{Rules: rules}, document.Load{Rules: rules}
	for _, s := range all {
		one.Reset()
		one.Add(&s.text)
		page.Plus(&one)
		last := &pages[len(pages)-1]
		if len(*last) > 0 && page.Bytes() > room {
			pages = append(pages, nil)
			last = &pages[len(pages)-1]
			page.Reset()
			page.Plus(&one)
		}
		lay(last, s, !s.first)
	}
	return pages
}

var headed = regexp.MustCompile(`<(?:h[2-6]|caption)[^>]*>(?:<a [^>]*>)?([^<]+)`)

// beginsWith is the first heading of what stands on a page; "" where there is none.
func beginsWith(parts []leafPart) string {
	for _, p := range parts {
		for _, c := range p.text {
			if m := headed.FindSubmatch(c.HTML); m != nil {
				return strings.TrimSpace(html.UnescapeString(string(m[1])))
			}
		}
	}
	return ""
}

// whole lays stretches out on one page.
func whole(all []chunk) []leafPart {
	var out []leafPart
	for _, s := range all {
		lay(&out, s, !s.first)
	}
	return out
}

// lay adds a stretch to the parts of a page: to the last of them where it goes
// on with that one.
func lay(parts *[]leafPart, s chunk, goesOn bool) {
	if !goesOn || len(*parts) == 0 {
		*parts = append(*parts, leafPart{part: s.part})
	}
	last := &(*parts)[len(*parts)-1]
	last.text = append(last.text, s.text)
}

// quotesOthers is the leaf of what a garment can give. Its figures are those of
// seams and fit, whose own leaves say more of them.
const quotesOthers = "alter"

// leaves writes the further pages of a build.
func (p *printer) leaves(b *notebook.BuildPage) []leafPage {
	var out, quoting []leafPage
	for _, l := range notebook.Leaves {
		first := b.Leaf(l.Name, 1)
		p.begin(first.Head)
		all := p.stretches(b, l.Name)
		if len(all) == 0 {
			continue
		}
		for i, parts := range spread(all, &p.rules, leafRoom) {
			page := leafPage{b.Leaf(l.Name, i+1).From(beginsWith(parts)), parts}
			p.note(page.parts, page.leaf.Address)
			if out = append(out, page); l.Name == quotesOthers {
				quoting = append(quoting, page)
			} else {
				p.noteWorkings(page.parts, page.leaf.Address)
			}
		}
	}
	for _, page := range quoting {
		p.noteWorkings(page.parts, page.leaf.Address)
	}
	return out
}

// note notes on which page parts and anchors came to stand.
func (p *printer) note(parts []leafPart, page notebook.Address) {
	for _, part := range parts {
		if _, begun := p.stands[part.part.ID]; !begun {
			p.stands[part.part.ID] = page
		}
		for i := range part.text {
			for _, anchor := range part.text[i].Anchors {
				p.stands[anchor] = page
			}
		}
	}
}

// noteWorkings notes on which page the workings of figures are opened: on the first that has them.
func (p *printer) noteWorkings(parts []leafPart, page notebook.Address) {
	for _, part := range parts {
		for i := range part.text {
			for _, id := range part.text[i].Figures {
				if _, noted := p.workings[id]; !noted {
					p.workings[id] = page
				}
			}
		}
	}
}

// fill makes the parts of a page whole: with their rules, of which it returns
// those that are written out once, and with the ways to anchors on other pages.
// opens is whether a figure of the page opens its working.
func (p *printer) fill(parts []leafPart) (out []Part, rules template.HTML, opens bool) {
	text := make([][]document.Chunk, len(parts))
	for i, part := range parts {
		text[i] = part.text
		for k := range part.text {
			opens = opens || part.text[k].Opens
		}
	}
	made, rules := p.rules.Fill(text, func(anchor string) (string, bool) {
		to, ok := p.stands[anchor]
		if !ok {
			to, ok = p.workings[anchor]
		}
		if ok && to != p.at {
			return p.href(to), true
		}
		return "", ok
	})
	for i, part := range parts {
		out = append(out, Part{ID: part.part.ID, Name: part.part.Name, HTML: made[i]})
	}
	return out, rules, opens
}

// inside are the ways to the parts of a page and to what they are divided into.
func inside(parts []leafPart) []Way {
	var out []Way
	for _, part := range parts {
		if len(parts) > 1 {
			out = append(out, Way{Href: "#" + part.part.ID, Name: part.part.Name})
		}
		for i := range part.text {
			for _, place := range part.text[i].Landmarks {
				out = append(out, Way{Href: "#" + place.ID, Name: place.Words})
			}
		}
	}
	if len(out) < 2 {
		return nil
	}
	return out
}

// leafLinks are the ways between the pages of a build, from the page at here.
// Where a leaf takes several pages, only its own pages link to them all.
func (p *printer) leafLinks(b *notebook.BuildPage, leaves []leafPage, here notebook.Address) []Way {
	out := []Way{{Href: here.To(b.Address), Name: say.Of("press.at-a-glance"), Here: here == b.Address}}
	at := leafAt(leaves, here)
	for _, l := range leaves {
		if l.leaf.Number > 1 && l.leaf.Name != at {
			continue
		}
		name := l.leaf.Short
		if l.leaf.Number > 1 {
			name += ", " + cmp.Or(l.leaf.Begins, strconv.Itoa(l.leaf.Number))
		}
		out = append(out, Way{Href: here.To(l.leaf.Address), Name: name, Here: here == l.leaf.Address})
	}
	for n := range p.recordText {
		if n > 0 && !strings.HasPrefix(string(here), "records/") {
			break
		}
		to, name := b.Record.Leaf(n+1).Address, "Record"
		if n > 0 {
			name += ", " + strconv.Itoa(n+1)
		}
		out = append(out, Way{Href: here.To(to), Name: name, Here: here == to})
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
