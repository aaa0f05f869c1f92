package press

import (
	"encoding/json"
	"html/template"

	"hembook/internal/notebook"
)

// A thing describes what a page is about in the words of schema.org, version
// 29: https://schema.org/docs/full.html. A field that is empty is left out.
type thing struct {
	Context     string   `json:"@context,omitempty"`
	Type        string   `json:"@type"`
	Position    int      `json:"position,omitempty"`
	URL         string   `json:"url,omitempty"`
	Name        string   `json:"name,omitempty"`
	Also        []string `json:"alternateName,omitempty"`
	Description string   `json:"description,omitempty"`
	Image       string   `json:"image,omitempty"`
	Genre       string   `json:"genre,omitempty"`
	Color       string   `json:"color,omitempty"`
	Material    []string `json:"material,omitempty"`
	Created     string   `json:"dateCreated,omitempty"`
	Published   string   `json:"datePublished,omitempty"`
	Text        string   `json:"text,omitempty"`
	Creator     *thing   `json:"creator,omitempty"`
	PartOf      *thing   `json:"isPartOf,omitempty"`
	Step        []thing  `json:"step,omitempty"`
	PageOf      *thing   `json:"mainEntityOfPage,omitempty"`
	Breadcrumb  *thing   `json:"breadcrumb,omitempty"`
	Items       []thing  `json:"itemListElement,omitempty"`
	Item        string   `json:"item,omitempty"`
	About       *thing   `json:"about,omitempty"`
}

// kinds are the types of things that kinds of pages are about.
var kinds = map[string]string{
	"front": "WebSite", "build": "CreativeWork", "technique": "TechArticle",
	"builds": "CollectionPage", "techniques": "CollectionPage", "cloths": "CollectionPage",
	"glossary": "DefinedTermSet", "search": "SearchResultsPage",
}

// describe begins the description of a page.
func (p *printer) describe(f *Frame) thing {
	t := thing{Context: "https://schema.org", Type: kinds[f.What], URL: f.Canonical, Name: f.Heading, Description: f.Lead}
	if t.Type == "" {
		t.Type = "WebPage"
	}
	if p.book.Maker != "" {
		t.Creator = &p.maker
	}
	if f.What != "front" {
		t.PartOf = &p.whole
	}
	if p.book.Site != "" && len(f.Up) > 0 {
		if way := p.breadcrumb(f); t.isPage() {
			t.Breadcrumb = way
		} else {
			t.PageOf = &thing{Type: "WebPage", URL: f.Canonical, Breadcrumb: way}
		}
	}
	return t
}

// breadcrumb is the way to a page from the front.
func (p *printer) breadcrumb(f *Frame) *thing {
	out := &thing{Type: "BreadcrumbList", Items: make([]thing, 0, len(f.Up)+1)}
	for i, l := range append(f.Up[:len(f.Up):len(f.Up)], notebook.Link{Address: f.Address, Name: f.Heading}) {
		out.Items = append(out.Items, thing{Type: "ListItem", Position: i + 1, Name: l.Name, Item: p.siteAddress(l.Address)})
	}
	return out
}

// isPage reports whether the thing is a page: schema.org gives a breadcrumb to
// no other.
func (t *thing) isPage() bool {
	return t.Type == "WebPage" || t.Type == "CollectionPage" || t.Type == "SearchResultsPage"
}

// Data is what the page is about in the words of schema.org, as an element of
// the head. It holds nothing that a browser runs.
func (f *Frame) Data() (template.HTML, error) {
	t := f.about
	t.Image = f.Card
	text, err := json.Marshal(t) // which writes <, > and & as \u003c, \u003e and \u0026
	if err != nil {
		return "", err
	}
	return dataElement(text), nil
}
