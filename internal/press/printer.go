package press

import (
	"bytes"
	"fmt"
	"html/template"
	"net/url"
	"path"
	"strings"

	"hembook/internal/measure"
	"hembook/internal/notebook"
	"hembook/internal/prose"
	"hembook/internal/record"
)

// A Frame is what every template is given, whatever the page.
type Frame struct {
	notebook.Head
	Site        string // the name of the workroom
	Maker       string
	Contact     string
	Description string
	Canonical   string // the page's public address; "" where the workroom names no site
	Icon        string // the way to the notebook's mark; "" where the theme has none
	Styles      []string
	Scripts     []string
	LinksHTML   template.HTML // Icon, Styles and Scripts as elements of the head
	Nav         []NavLink
	NavHTML     template.HTML // the template "nav" of the theme, run with Nav
	Trail       []NavLink     // the pages this one lies under
	TrailHTML   template.HTML // Trail as links with dots between
	Parts       []Part        // the parts of a long page
	Card        string        // the whole address of a picture that stands for the page; "" where the workroom names no site
	Feed        string        // the way to the feed of builds; "" where the workroom names no site

	about thing
}

// A NavLink is a link written for one page.
type NavLink struct {
	Href, Name string
	Here       bool // it leads to the page it stands on
	Under      bool // the page lies under it
}

// A Part is a part of a page with its anchor.
type Part struct {
	ID, Name string
	HTML     template.HTML // the part itself, where the template does not write it
}

// Href is the way from this page to another.
func (f *Frame) Href(a notebook.Address) string { return f.Address.To(a) }

// A printer prints pages one after the other; every worker has its own.
type printer struct {
	*run
	page  bytes.Buffer
	given given
	leaf  *leaf            // what is noted of what is being printed
	at    notebook.Address // of the page being printed
	texts int              // Markdown texts on the page, for the prefixes of their ids

	leafPages  []leafPage // of the build that is printed
	recordText [][]byte   // its record, page by page
	buildsCard notebook.Address
	anchors    map[string]map[string]notebook.Address // by leaf and name, of the leaves asked for

	sheet  paper  // used again for every part of every page
	shelf  []byte // the parts of the build that is printed
	filled []byte // the room of a page with its rules filled in
	heads  map[headKey]headParts
	values map[measure.Quantity]string
	// what is drawn and printed often, kept by what it is made from
	sections map[string]string
	numbers  map[measure.Quantity]string

	discard bool // print, but write nothing: for measuring
}

// begin starts a page.
func (p *printer) begin(h notebook.Head) Frame {
	p.at, p.texts = h.Address, 0
	b := p.book
	f := Frame{Head: h, Site: b.Name, Maker: b.Maker, Contact: b.Contact, Description: h.Summary}
	if f.Description == "" {
		f.Description = b.Summary
	}
	if b.Site != "" && h.Kind != "missing" {
		f.Canonical = b.Site + string(h.Address)
		f.Feed = p.href(notebook.FeedAddress)
		f.Card = p.siteAddress(p.cardFor(h.Kind))
	}
	parts := p.head(h)
	f.Icon, f.Styles, f.Scripts, f.Nav = parts.icon, parts.styles, parts.scripts, parts.nav
	f.LinksHTML, f.NavHTML = parts.linksHTML, parts.navHTML
	if s, ok := p.theme.own[h.Kind]; ok {
		f.Scripts = append(f.Scripts[:len(f.Scripts):len(f.Scripts)], p.href(s))
		f.LinksHTML = filled(headLinks, &f)
	}
	for _, l := range h.Up {
		f.Trail = append(f.Trail, NavLink{Href: p.href(l.Address), Name: l.Name})
	}
	f.TrailHTML = trailHTML(f.Trail)
	f.about = p.describe(&f)
	return f
}

// cardFor is the picture of a kind of page: of the build that is printed, else
// that of the whole notebook.
func (p *printer) cardFor(kind string) notebook.Address {
	switch kind {
	case "build", "leaf", "record":
		return p.buildsCard
	}
	return p.frontCard
}

// A headKey tells pages whose heads are the same: those of one folder that lie
// under the same pages.
type headKey struct {
	folder string
	up     notebook.Address
	own    notebook.Address // of a page that is in the nav itself
}

// headParts are the links of a head.
type headParts struct {
	icon               string
	styles, scripts    []string
	nav                []NavLink
	linksHTML, navHTML template.HTML
}

// head returns the links of a page's head, made once for all pages alike.
func (p *printer) head(h notebook.Head) headParts {
	key := headKey{folder: path.Dir(string(h.Address))}
	if first, rest, deep := strings.Cut(key.folder, "/"); deep {
		// no page of the nav lies this deep, so all folders here see them alike
		key.folder = first + strings.Repeat("/*", 1+strings.Count(rest, "/"))
	}
	if len(h.Up) > 0 {
		key.up = h.Up[0].Address
	}
	for _, l := range p.book.Nav() {
		if l.Address == h.Address {
			key.own = l.Address
		}
	}
	if h.Address == notebook.MissingAddress {
		key.own = h.Address
	}
	if made, ok := p.heads[key]; ok {
		return made
	}
	made := p.makeHead(h)
	if p.heads == nil {
		p.heads = map[headKey]headParts{}
	}
	p.heads[key] = made
	return made
}

func (p *printer) makeHead(h notebook.Head) headParts {
	var made headParts
	for _, s := range p.theme.styles {
		made.styles = append(made.styles, p.href(s))
	}
	for _, s := range p.theme.scripts {
		made.scripts = append(made.scripts, p.href(s))
	}
	for _, l := range p.book.Nav() {
		n := NavLink{Href: p.href(l.Address), Name: l.Name, Here: l.Address == h.Address}
		for _, up := range h.Up {
			n.Under = n.Under || up.Address == l.Address
		}
		made.nav = append(made.nav, n)
	}
	if p.theme.icon != "" {
		made.icon = p.href(p.theme.icon)
	}
	made.linksHTML = filled(headLinks, &Frame{Icon: made.icon, Styles: made.styles, Scripts: made.scripts})
	if t := p.theme.pages["page"].Lookup("nav"); t != nil {
		made.navHTML = filled(t, made.nav)
	}
	return made
}

// href is the way from the page being printed. A page that is shown for any
// address has no place of its own: its links begin at the root of the site.
func (p *printer) href(a notebook.Address) string {
	if p.at == notebook.MissingAddress {
		if site, err := url.Parse(p.book.Site); err == nil && site.Path != "" {
			return site.Path + string(a)
		}
	}
	return p.at.To(a)
}

// print runs a page's template and writes the page.
func (p *printer) print(name string, view any) error {
	p.leaf.pages++
	if p.leaf.err != nil {
		return p.leaf.err
	}
	if p.failed.Load() {
		return nil // nothing will be written any more
	}
	p.page.Reset()
	if p.given == nil {
		p.given = given{}
	}
	p.given.fill(view)
	if err := p.theme.pages[name].ExecuteTemplate(&p.page, "frame.html", p.given); err != nil {
		return fmt.Errorf("the theme's page %s: %w", name, err)
	}
	if p.discard {
		return nil
	}
	return p.write(p.at, p.page.Bytes())
}

// write writes a file and notes it, so that the next press keeps it where
// nothing changed. All that comes of a page is written by it.
func (p *printer) write(name notebook.Address, data []byte) error {
	p.leaf.files = append(p.leaf.files, name)
	return p.out.write(name, data)
}

// fault notes what is wrong with what is being printed.
func (p *printer) fault(list ...record.Fault) {
	p.leaf.faults = append(p.leaf.faults, list...)
	p.run.fault(list...)
}

// paper returns empty paper for a part that is written by hand. There is one
// sheet for all: what was written before must be done.
func (p *printer) paper(folder string) *paper {
	if p.values == nil {
		p.values, p.numbers = map[measure.Quantity]string{}, map[measure.Quantity]string{}
	}
	w := &p.sheet
	w.b, w.style, w.folder, w.values = w.b[:0], p.style, folder, p.values
	return w
}

// done is what was written, as a part of a template.
func (w *paper) done() template.HTML { return template.HTML(w.b) }

// prose turns a passage into HTML whose highest headings have the level top.
// Links that lead nowhere are faults of the passage.
func (p *printer) prose(t notebook.Passage, top int) template.HTML {
	if !t.Given() {
		return ""
	}
	w := p.paper("")
	p.proseTo(w, t, top)
	return w.done()
}

func (p *printer) proseTo(w *paper, t notebook.Passage, top int) {
	p.texts++
	prefix := "t" + string(rune('a'+(p.texts-1)%26)) + "-"
	if p.texts > 26 {
		prefix = fmt.Sprintf("t%d-", p.texts)
	}
	text := prose.Read(t.Text, prefix)
	var faults record.Faults
	p.book.CheckLinks(text, t.At, t.Folder, &faults)
	begun := len(w.b)
	w.b = text.HTML(w.b, prose.How{
		Top: top, Find: p.find,
		Picture: func(dst []byte, pic prose.Picture) ([]byte, bool) {
			path := notebook.PicturePath(t.Folder, pic.File)
			if path == "" {
				return dst, false
			}
			inner := paper{b: dst}
			ok := p.image(&inner, notebook.Picture{Path: path, Alt: pic.Alt, At: t.At}, columnSizes)
			return inner.b, ok
		},
	})
	if bytes.IndexByte(w.b[begun:], markByte) >= 0 { // what a text holds of it is no mark
		w.b = append(w.b[:begun], bytes.ReplaceAll(w.b[begun:], []byte{markByte}, nil)...)
	}
	p.fault(faults.Sorted()...)
}

func (p *printer) find(l prose.Link) (prose.Target, bool) {
	p.leaf.links[prose.Link{Kind: l.Kind, Name: l.Name}] = true
	return p.book.Find(p.at)(l)
}

// Where pictures stand: the widths they are shown in, for browsers to choose
// by, and in leadSizes at the top of a page, where they are wanted at once.
const (
	columnSizes = "(min-width: 64rem) 42rem, 96vw"
	leadSizes   = "(min-width: 64rem) 42rem, 95vw"
	smallSizes  = "(min-width: 64rem) 20rem, (min-width: 40rem) 44vw, 96vw"
)

// image adds a picture in its widths; false where it cannot be shown.
func (p *printer) image(w *paper, pic notebook.Picture, sizes string) bool {
	var faults record.Faults
	hung, err := p.pictures.show(pic, &faults)
	p.fault(faults.Sorted()...)
	p.leaf.pictures[pic.Path] = hung
	set := hung.set
	if err != nil {
		p.leaf.err = err
	}
	if err != nil || len(set) == 0 {
		return false
	}
	last := set[len(set)-1]
	w.raw(`<img src="`).say(p.href(set[min(1, len(set)-1)].address)).raw(`"`)
	if len(set) > 1 {
		w.raw(` srcset="`)
		for i, s := range set {
			if i > 0 {
				w.raw(", ")
			}
			w.say(p.href(s.address)).raw(" ").int(s.wide).raw("w")
		}
		w.raw(`" sizes="`).say(sizes).raw(`"`)
	}
	w.raw(` width="`).int(last.wide).raw(`" height="`).int(last.high)
	w.raw(`"`)
	if sizes != leadSizes {
		w.raw(` loading="lazy"`)
	}
	w.raw(` decoding="async" alt="`).say(pic.Alt).raw(`">`)
	return true
}

// photo adds a picture with its caption.
func (p *printer) photo(w *paper, pic notebook.Picture, sizes string) {
	at := len(w.b)
	w.raw(`<figure class="photo">`)
	if !p.image(w, pic, sizes) {
		w.b = w.b[:at]
		return
	}
	if pic.Note != "" {
		w.raw("<figcaption>").say(pic.Note).raw("</figcaption>")
	}
	w.raw("</figure>\n")
}

// photoOf is a picture as a part of a template; empty where there is none.
func (p *printer) photoOf(pic *notebook.Picture, sizes string) template.HTML {
	if pic == nil {
		return ""
	}
	w := p.paper("")
	p.photo(w, *pic, sizes)
	return w.done()
}
