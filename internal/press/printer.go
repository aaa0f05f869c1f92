package press

import (
	"bytes"
	"cmp"
	"fmt"
	"html/template"
	"net/url"
	"path"
	"slices"
	"strings"

	"hembook/internal/compose"
	"hembook/internal/document"
	"hembook/internal/fault"
	"hembook/internal/notebook"
	"hembook/internal/prose"
	"hembook/internal/say"
)

// A Frame is what every template is given, whatever the page.
type Frame struct {
	notebook.Head
	Workroom    string // the name of the workroom
	Maker       string
	Contact     string
	Description string
	Canonical   string // the page's public address; "" where the workroom names no site
	Icon        string // the way to the notebook's mark; "" where the theme has none
	Styles      []string
	Scripts     []string
	LinksHTML   template.HTML // Icon, Styles and Scripts as elements of the head
	Front       string        // the way to the front page
	Band        []Way
	BandHTML    template.HTML // the template "band" of the theme, run with Band
	Search      string        // the way to the search page; "" on that page itself
	Foot        []Way         // pages on how the notebook is kept
	FootHTML    template.HTML // Foot as a list; empty where there is none
	Trail       []Way         // the pages this one lies under
	TrailHTML   template.HTML // Trail as links with dots between
	Parts       []Part        // the parts of a long page
	Inside      []Way         // those, and what they are divided into, as one is led there; none where it is one thing
	InsideHTML  template.HTML // Inside as a list; empty where there is none
	Card        string        // the whole address of a picture that stands for the page; "" where the workroom names no site
	Feed        string        // the way to the feed of builds; "" where the workroom names no site

	about thing
}

// A Way is a link written for one page.
type Way struct {
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
	*pressing
	page    bytes.Buffer
	given   given
	imprint *imprint         // what is noted of what is being printed
	at      notebook.Address // of the page being printed
	texts   int              // Markdown texts on the page, for the prefixes of their ids

	leafPages  []leafPage // of the build that is printed
	recordText [][]byte   // its record, page by page
	buildsCard notebook.Address
	stands     map[string]notebook.Address // on which of its pages an anchor stands
	workings   map[string]notebook.Address // on which of them a figure opens its working

	draft *compose.Draft
	html  document.HTML // the parts of the build that is printed
	aside document.HTML // a part of a template
	rules document.Rules
	heads map[headKey]headParts

	maker, whole thing // of all its pages: who made what they show, and the notebook

	discard bool // print, but write nothing: for measuring
}

// begin starts a page.
func (p *printer) begin(h notebook.Head) Frame {
	p.at, p.texts = h.Address, 0
	b := p.book
	f := Frame{Head: h, Workroom: b.Name, Maker: b.Maker, Contact: b.Contact, Description: h.Lead}
	if f.Description == "" {
		f.Description = b.Lead
	}
	if b.Site != "" && h.What != "missing" {
		f.Canonical = b.Site + string(h.Address)
		f.Feed = p.href(notebook.FeedAddress)
		f.Card = p.siteAddress(p.cardFor(h.What))
	}
	parts := p.head(h)
	f.Icon, f.Styles, f.Scripts, f.Band = parts.icon, parts.styles, parts.scripts, parts.band
	f.LinksHTML, f.BandHTML = parts.linksHTML, parts.bandHTML
	f.Front, f.Foot, f.FootHTML = parts.front, parts.foot, parts.footHTML
	if h.What != "search" {
		f.Search = parts.search
	}
	script, scripted := p.theme.own[h.What]
	if scripted {
		f.Scripts = append(slices.Clip(f.Scripts), p.href(script))
	}
	look, looks := p.theme.ownLook[h.What]
	if looks {
		f.Styles = []string{p.href(look)}
	}
	if scripted || looks {
		f.LinksHTML = filled(headLinks, &f)
	}
	for _, l := range h.Up {
		f.Trail = append(f.Trail, Way{Href: p.href(l.Address), Name: l.Name})
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
	own    notebook.Address // of a page that is in the band or the foot itself
}

// headParts are the links of a head.
type headParts struct {
	icon                string
	styles, scripts     []string
	front, search       string
	band, foot          []Way
	linksHTML, bandHTML template.HTML
	footHTML            template.HTML
}

// head returns the links of a page's head, made once for all pages alike.
func (p *printer) head(h notebook.Head) headParts {
	key := headKey{folder: path.Dir(string(h.Address))}
	if first, rest, deep := strings.Cut(key.folder, "/"); deep {
		// no page of the band lies this deep, so all folders here see them alike
		key.folder = first + strings.Repeat("/*", 1+strings.Count(rest, "/"))
	}
	if len(h.Up) > 0 {
		key.up = h.Up[0].Address
	}
	if leadsTo(p.book.Band(), h.Address) || leadsTo(p.book.Foot(), h.Address) {
		key.own = h.Address
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

func leadsTo(list []notebook.Link, to notebook.Address) bool {
	return slices.ContainsFunc(list, func(l notebook.Link) bool { return l.Address == to })
}

func (p *printer) makeHead(h notebook.Head) headParts {
	made := headParts{search: p.href(notebook.SearchAddress)}
	for _, s := range p.theme.styles {
		made.styles = append(made.styles, p.href(s))
	}
	for _, s := range p.theme.scripts {
		made.scripts = append(made.scripts, p.href(s))
	}
	for _, l := range p.book.Band() {
		n := Way{Href: p.href(l.Address), Name: l.Name, Here: l.Address == h.Address}
		for _, up := range h.Up {
			n.Under = n.Under || up.Address == l.Address
		}
		made.band = append(made.band, n)
	}
	for _, l := range p.book.Foot() {
		made.foot = append(made.foot, Way{Href: p.href(l.Address), Name: l.Name, Here: l.Address == h.Address})
	}
	made.front, made.footHTML = p.href(notebook.FrontAddress), linkList(made.foot)
	if p.theme.icon != "" {
		made.icon = p.href(p.theme.icon)
	}
	made.linksHTML = filled(headLinks, &Frame{Icon: made.icon, Styles: made.styles, Scripts: made.scripts})
	if t := p.theme.pages["text"].Lookup("band"); t != nil {
		made.bandHTML = filled(t, made.band)
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
	p.imprint.pages++
	if p.imprint.err != nil {
		return p.imprint.err
	}
	if p.failed.Load() {
		return nil // nothing will be written any more
	}
	p.page.Reset()
	p.given.fill(view)
	if err := p.theme.pages[name].ExecuteTemplate(&p.page, "frame.html", p.given); err != nil {
		return fault.Wrapping(err, say.Of("press.the-themes-page", name, err))
	}
	if err := cmp.Or(p.html.Wrong, p.aside.Wrong); err != nil {
		return fault.Wrapping(err, say.Of("press.the-themes-blocks", err))
	}
	if p.discard {
		return nil
	}
	return p.write(p.at, p.page.Bytes())
}

// write writes a file and notes it, so that the next press keeps it where
// nothing changed. All that comes of a page is written by it.
func (p *printer) write(name notebook.Address, data []byte) error {
	p.imprint.files = append(p.imprint.files, name)
	return p.out.write(name, data)
}

// fault notes what is wrong with what is being printed.
func (p *printer) fault(list ...fault.Fault) {
	p.imprint.faults = append(p.imprint.faults, list...)
	p.pressing.fault(list...)
}

// newPrinter is a printer of a pressing.
func newPrinter(r *pressing) *printer {
	p := &printer{pressing: r, draft: compose.NewDraft(r.style), given: given{}}
	p.maker, p.whole = thing{Type: "Person", Name: r.book.Maker}, thing{Type: "WebSite", Name: r.book.Name, URL: r.book.Site}
	page := document.HTML{Set: p.set, Theme: r.theme.blocks, Href: func(page string) string { return p.href(notebook.Address(page)) }}
	page.Style = r.style
	p.html, p.aside = page, page
	p.html.Rules = &p.rules
	return p
}

// made is what do composes, as a part of a template of the page of a record in
// folder. Its rules are said in full.
func (p *printer) made(folder string, do func(d *compose.Draft)) template.HTML {
	p.draft.Reset()
	do(p.draft)
	p.aside.Reset()
	p.aside.Folder = folder
	return p.aside.Text(p.draft.Blocks)
}

// set sets what a document holds of other rooms.
func (p *printer) set(h *document.HTML, of any) {
	switch of := of.(type) {
	case compose.Prose:
		if of.Alone {
			h.Put(`<div class="prose">`)
			defer h.Put("</div>")
		}
		p.prose(h, of.Passage, of.Top)
	case compose.Photo:
		p.photo(h, of.Picture, of.Sizes)
	}
}

// text turns a passage into HTML whose highest headings have the level top.
func (p *printer) text(t notebook.Passage, top int) template.HTML {
	if !t.Given() {
		return ""
	}
	var h document.HTML
	p.prose(&h, t, top)
	return template.HTML(h.Out)
}

// textPrefix goes before the ids of the headings of a page's text number n, from 1.
func textPrefix(n int) string {
	if n > 26 {
		return fmt.Sprintf("t%d-", n)
	}
	return "t" + string(rune('a'+n-1)) + "-"
}

// prose sets a passage. Links that lead nowhere are faults of it.
func (p *printer) prose(h *document.HTML, t notebook.Passage, top int) {
	p.texts++
	text := prose.Read(t.Text, textPrefix(p.texts))
	var faults fault.Faults
	p.book.CheckLinks(text, t.At, t.Folder, figuresOf(h), &faults)
	from := len(h.Out)
	h.Insert(func(dst []byte) []byte {
		return text.HTML(dst, prose.How{
			Top: top, Find: p.find,
			Picture: func(dst []byte, pic prose.Picture) ([]byte, bool) {
				path := notebook.PicturePath(t.Folder, pic.File)
				if path == "" {
					return dst, false
				}
				inner := document.HTML{Out: dst}
				ok := p.image(&inner, notebook.Picture{Path: path, Alt: pic.Alt, At: t.At}, compose.Column)
				return inner.Out, ok
			},
			Drawing: explained,
			Figure:  func(dst []byte, name string) ([]byte, bool) { return sealed(dst, name), figureNamed(h, name) != nil },
		})
	})
	setFigures(h, from)
	p.fault(faults.Sorted()...)
}

func (p *printer) find(l prose.Link) (prose.Target, bool) {
	p.imprint.links[prose.Link{Kind: l.Kind, Name: l.Name}] = true
	return p.book.Find(p.at)(l)
}

// image adds a picture in its widths; false where it cannot be shown.
func (p *printer) image(h *document.HTML, pic notebook.Picture, sizes string) bool {
	var faults fault.Faults
	hung, err := p.pictures.show(pic, &faults)
	p.fault(faults.Sorted()...)
	p.imprint.pictures[pic.Path] = hung
	set := hung.set
	if err != nil {
		p.imprint.err = err
	}
	if err != nil || len(set) == 0 {
		return false
	}
	last := set[len(set)-1]
	h.Put(`<img src="`).Say(p.href(set[min(1, len(set)-1)].address)).Put(`"`)
	if len(set) > 1 {
		h.Put(` srcset="`)
		for i, s := range set {
			if i > 0 {
				h.Put(", ")
			}
			h.Say(p.href(s.address)).Put(" ").Int(s.wide).Put("w")
		}
		h.Put(`" sizes="`).Say(sizes).Put(`"`)
	}
	h.Put(` width="`).Int(last.wide).Put(`" height="`).Int(last.high)
	h.Put(`"`)
	if sizes != compose.Top {
		h.Put(` loading="lazy"`)
	}
	h.Put(` decoding="async" alt="`).Say(pic.Alt).Put(`">`)
	return true
}

// photo adds a picture with its caption.
func (p *printer) photo(h *document.HTML, pic notebook.Picture, sizes string) {
	at := len(h.Out)
	h.Put(`<figure class="photo">`)
	if !p.image(h, pic, sizes) {
		h.Out = h.Out[:at]
		return
	}
	if pic.Note != "" {
		h.Put("<figcaption>").Say(pic.Note).Put("</figcaption>")
	}
	h.Put("</figure>\n")
}

// photoOf is a picture as a part of a template; empty where there is none.
func (p *printer) photoOf(pic *notebook.Picture, sizes string) template.HTML {
	if pic == nil {
		return ""
	}
	var h document.HTML
	p.photo(&h, *pic, sizes)
	return template.HTML(h.Out)
}
