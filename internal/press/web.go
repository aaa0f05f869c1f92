package press

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"net/url"
	"path"
	"slices"
	"strings"
	"time"

	"hembook/internal/notebook"
)

// webFiles writes what programs that read the web look for: a feed, a list of
// all pages, and a note of where that list is. All of them hold whole
// addresses, so a workroom that names no site has none.
func (r *pressing) webFiles(shelf *notebook.Gathered) error {
	if r.book.Site == "" || r.failed.Load() {
		return nil
	}
	if err := r.feed(shelf); err != nil {
		return err
	}
	if err := r.sitemap(shelf); err != nil {
		return err
	}
	if err := r.offline(); err != nil {
		return err
	}
	if at, err := url.Parse(r.book.Site); err != nil || at.Path != "/" {
		return nil // such a note is read at the root of a host only (RFC 9309, 2.3)
	}
	return r.writeWeb(notebook.RobotsAddress, []byte("User-agent: *\nAllow: /\nSitemap: "+r.book.Site+string(notebook.SitemapAddress)+"\n"))
}

// latestCard is the picture of the build that was begun last.
func (r *pressing) latestCard(shelf *notebook.Gathered) notebook.Address {
	if i := shelf.Newest(); i >= 0 {
		return r.builds[i].found.card
	}
	return ""
}

// An atomFeed is a feed as RFC 4287 has it.
type atomFeed struct {
	XMLName  xml.Name    `xml:"http://www.w3.org/2005/Atom feed"`
	ID       string      `xml:"id"`
	Title    string      `xml:"title"`
	Subtitle string      `xml:"subtitle,omitempty"`
	Updated  string      `xml:"updated"`
	Links    []atomLink  `xml:"link"`
	Author   atomPerson  `xml:"author"`
	Entries  []atomEntry `xml:"entry"`
}

type atomLink struct {
	Rel  string `xml:"rel,attr"`
	Type string `xml:"type,attr,omitempty"`
	Href string `xml:"href,attr"`
}

type atomPerson struct {
	Name string `xml:"name"`
}

type atomEntry struct {
	ID        string         `xml:"id"`
	Title     string         `xml:"title"`
	Updated   string         `xml:"updated"`
	Published string         `xml:"published,omitempty"`
	Link      atomLink       `xml:"link"`
	Category  []atomCategory `xml:"category"`
	Summary   string         `xml:"summary,omitempty"`
}

type atomCategory struct {
	Term string `xml:"term,attr"`
}

// feed tells of the builds that were worked on last. Its times are those of the
// records, never of the clock, so that it is the same on every press.
func (r *pressing) feed(shelf *notebook.Gathered) error {
	b := r.book
	f := atomFeed{
		ID: b.Site, Title: b.Name, Subtitle: b.Lead, Updated: atomTime(time.Unix(0, 0)), Author: atomPerson{b.Maker},
		Links: []atomLink{
			{"self", "application/atom+xml", b.Site + string(notebook.FeedAddress)},
			{"alternate", "text/html", b.Site + string(notebook.FrontAddress)},
		},
	}
	if f.Author.Name == "" {
		f.Author.Name = b.Name // a feed must name who it is by
	}
	for i, s := range shelf.News() {
		at := b.Site + string(s.Address)
		e := atomEntry{ID: at, Title: s.Name, Updated: atomTime(s.Touched), Link: atomLink{"alternate", "text/html", at}, Summary: s.Lead}
		if i == 0 {
			f.Updated = e.Updated
		}
		if s.Begun.Year > 0 {
			e.Published = atomTime(s.Begun.Time())
		}
		if s.Garment != "" {
			e.Category = []atomCategory{{s.Garment}}
		}
		f.Entries = append(f.Entries, e)
	}
	return r.writeXML(notebook.FeedAddress, f)
}

func atomTime(t time.Time) string { return t.UTC().Format(time.RFC3339) }

// A siteMap is a list of pages as https://www.sitemaps.org/protocol.html has
// it; a siteIndex is a list of such lists.
type siteMap struct {
	XMLName xml.Name   `xml:"http://www.sitemaps.org/schemas/sitemap/0.9 urlset"`
	URLs    []sitePage `xml:"url"`
}

type siteIndex struct {
	XMLName xml.Name   `xml:"http://www.sitemaps.org/schemas/sitemap/0.9 sitemapindex"`
	Maps    []sitePage `xml:"sitemap"`
}

type sitePage struct {
	Loc     string `xml:"loc"`
	LastMod string `xml:"lastmod,omitempty"`
}

// mostMapped is how many pages one list may hold (sitemaps.org, "Sitemap file
// location" allows 50 000).
const mostMapped = 50_000

// sitemap lists every page that was pressed.
func (r *pressing) sitemap(shelf *notebook.Gathered) error {
	touched := shelf.Touched()
	var all []sitePage
	for _, a := range r.out.pages() {
		if a != notebook.MissingAddress {
			all = append(all, sitePage{r.book.Site + string(a), touched[a]})
		}
	}
	if len(all) <= mostMapped {
		return r.writeXML(notebook.SitemapAddress, siteMap{URLs: all})
	}
	var index siteIndex
	for i, some := range slices.Collect(slices.Chunk(all, mostMapped)) {
		name := notebook.Address(fmt.Sprintf("sitemap-%d.xml", i+1))
		if err := r.writeXML(name, siteMap{URLs: some}); err != nil {
			return err
		}
		index.Maps = append(index.Maps, sitePage{Loc: r.book.Site + string(name)})
	}
	return r.writeXML(notebook.SitemapAddress, index)
}

func (r *pressing) writeXML(a notebook.Address, v any) error {
	var buf bytes.Buffer
	buf.WriteString(xml.Header)
	e := xml.NewEncoder(&buf)
	e.Indent("", " ")
	if err := e.Encode(v); err != nil {
		return err
	}
	buf.WriteByte('\n')
	return r.writeWeb(a, buf.Bytes())
}

// writeWeb writes a file that is no page's own and notes it.
func (r *pressing) writeWeb(a notebook.Address, data []byte) error {
	r.now.web = append(r.now.web, a)
	return r.out.write(a, data)
}

// pages lists the pages that were written, in order.
func (t *target) pages() []notebook.Address {
	t.mu.Lock()
	defer t.mu.Unlock()
	var out []notebook.Address
	for a := range t.files {
		if path.Ext(string(a)) == ".html" {
			out = append(out, a)
		}
	}
	slices.SortFunc(out, func(a, b notebook.Address) int { return strings.Compare(string(a), string(b)) })
	return out
}
