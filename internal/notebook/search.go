package notebook

import (
	"slices"

	"hembook/internal/say"
)

// SearchAddress is where the search page lies; its index lies in a folder beside it.
const (
	SearchAddress Address = "search.html"
	SearchIndex   string  = "search/"
)

// A SearchPage is the page that looks things up. What it needs of the index is
// filled in when that is made.
type SearchPage struct {
	Head
	Index  string // the way from the page to the folder of the index
	Root   string // the way from the page to the notebook's folder
	Stamp  string // of the index
	Facets []SearchFacet
	Lists  []Link
}

// A SearchFacet is a way of narrowing a search.
type SearchFacet struct {
	Name  string // as the index knows it
	Label string // as a reader does
	Any   string // no choice
}

// The facets of a search beside the kind of page.
const (
	FacetGarment   = "garment"
	FacetCloth     = "cloth"
	FacetTechnique = "technique"
	FacetSeam      = "seam"
	FacetYear      = "year"
)

// FacetNames are the facets beside the kind, in the order they are offered.
var FacetNames = []string{FacetGarment, FacetCloth, FacetTechnique, FacetSeam, FacetYear}

// Search is the search page.
func (b *Book) Search() *SearchPage {
	p := &SearchPage{
		Head:  Head{Address: SearchAddress, What: "search", Heading: say.Of("notebook.search"), Lead: say.Of("notebook.garments-techniques-cloths-and-words-of")},
		Index: SearchIndex, Root: SearchAddress.Root(),
		Facets: []SearchFacet{
			{"kind", "kind", say.Of("notebook.any-kind")}, {FacetGarment, "garment", say.Of("notebook.any-garment")}, {FacetCloth, "cloth", say.Of("notebook.any-cloth")},
			{FacetTechnique, "technique", say.Of("notebook.any-technique")}, {FacetSeam, say.Of("notebook.seam-or-finish"), say.Of("notebook.any-seam-or-finish")}, {FacetYear, "year", say.Of("notebook.any-year")},
		},
	}
	for _, l := range append([]Link{{RatesAddress, ratesName}}, append(slices.Clone(b.Band()), b.foot...)...) {
		if l.Address != SearchAddress {
			p.Lists = append(p.Lists, l)
		}
	}
	return p
}

// Told is what a build's own page tells in words, plain.
func (p *BuildPage) Told() string {
	return p.Story.Plain()
}

// SeamTitles are the ways in which the build's edges are joined and made neat.
func (p *BuildPage) SeamTitles() []string {
	var out []string
	for i := range p.Sections {
		if t := p.Sections[i].Type.Title; !slices.Contains(out, t) {
			out = append(out, t)
		}
	}
	return out
}
