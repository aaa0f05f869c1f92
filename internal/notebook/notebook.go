// Package notebook decides what pages a workroom's notebook has, under which
// addresses, what stands on each and how they are linked.
//
// It promises that addresses are unique and stay the same as long as the names
// of the maker's files do, that every link is relative, so that the notebook
// works under any address and from a folder opened by double-click, and that
// no type of a page can hold what is private: a test walks them all. Builds
// pass through one at a time; of each only a short line is kept, so that
// memory stays flat however many there are.
//
// It knows nothing of templates, HTML or files written.
package notebook

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"hembook/internal/measure"
	"hembook/internal/prose"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/trade"
)

// A Book knows every page of a workroom's notebook by name before any build is
// read. It is prepared once and may then be used by many goroutines.
type Book struct {
	Name    string
	Lead    string
	Maker   string
	Contact string // public
	Site    string // the address of the published notebook, ending in a slash; may be empty
	Style   measure.Style

	room    *record.Room
	types   []trade.SeamType
	byKind  map[prose.Kind]*namedPages
	builds  []Link // in the order of Room.Builds
	records []Address
	terms   []Term
	pages   []*record.Page
	foot    []Link
	cloths  map[string]*record.Cloth
	adverse map[string]trade.Caution // cautions by ID
}

// A namedPages has the pages of one kind by the name that links use.
type namedPages struct {
	pages map[string]Link
	names []string // in order, for hints
}

func (s *namedPages) put(name string, l Link) {
	if s.pages == nil {
		s.pages = map[string]Link{}
	}
	if _, taken := s.pages[name]; taken {
		return
	}
	s.pages[name] = l
	s.names = append(s.names, name)
}

// New prepares the notebook of a room.
func New(room *record.Room) *Book {
	w := room.Workroom
	b := &Book{
		Name: w.Name.V, Lead: w.Summary.V, Maker: w.Maker.Name.V, Contact: w.Maker.Contact.V,
		Site: siteOf(w.Site.V), Style: w.Style(), room: room, types: seamTypes(room),
		byKind: map[prose.Kind]*namedPages{}, cloths: map[string]*record.Cloth{}, adverse: map[string]trade.Caution{},
	}
	for _, k := range []prose.Kind{prose.ToBuild, prose.ToTechnique, prose.ToCloth, prose.ToTerm, prose.ToPage} {
		b.byKind[k] = &namedPages{}
	}
	for _, c := range trade.Cautions() {
		b.adverse[c.ID] = c
	}
	b.nameBuilds()
	b.nameShelf()
	b.nameTerms()
	b.foot = b.makeFoot()
	return b
}

// seamTypes are the trade's seam types and the workroom's own. What is wrong
// with the workroom's own is said where figures are derived.
func seamTypes(room *record.Room) []trade.SeamType {
	types := trade.SeamTypes()
	if n := room.Workroom.SeamTypes.Node; n != nil {
		if own, err := trade.SeamTypesFromNode(n); err == nil {
			types = append(types, own...)
		}
	}
	return types
}

func siteOf(site string) string {
	if !strings.HasPrefix(site, "http://") && !strings.HasPrefix(site, "https://") {
		return ""
	}
	return strings.TrimRight(site, "/") + "/"
}

func (b *Book) nameBuilds() {
	used := namer{}
	for _, f := range b.room.Builds {
		l := Link{used.address("builds", f.Slug), f.Name}
		b.builds = append(b.builds, l)
		b.records = append(b.records, recordAddress(l.Address))
		b.byKind[prose.ToBuild].put(f.Slug, l)
	}
}

func (b *Book) nameShelf() {
	used := namer{}
	for _, t := range b.room.Techniques {
		b.byKind[prose.ToTechnique].put(t.Slug, Link{used.address("techniques", t.Slug), t.Name.Or(t.Slug)})
	}
	used = namer{}
	for _, c := range b.room.Cloths {
		b.cloths[c.Slug] = c
		b.byKind[prose.ToCloth].put(c.Slug, Link{used.address("cloth", c.Slug), c.Name.Or(c.Slug)})
	}
	used = namer{}
	b.pages = b.room.Pages
	for _, p := range b.pages {
		b.byKind[prose.ToPage].put(p.Slug, Link{used.address("pages", p.Slug), p.Title.Or(p.Slug)})
	}
}

// The addresses of the pages that every notebook has.
const (
	FrontAddress      Address = "index.html"
	BuildsAddress     Address = "builds/index.html"
	TechniquesAddress Address = "techniques/index.html"
	ClothsAddress     Address = "cloth/index.html"
	RatesAddress      Address = "rates.html"
	GlossaryAddress   Address = "glossary.html"
	MissingAddress    Address = "404.html"
)

// Band lists the ways into the notebook, in one order on every page. The front
// page is not among them: the name of the house leads there. Nor is the search, which
// is asked from every page.
func (b *Book) Band() []Link { return mainMenu }

var mainMenu = []Link{
	{BuildsAddress, garmentsName}, {TechniquesAddress, techniquesName}, {ClothsAddress, say.Of("notebook.cloth")},
	{GlossaryAddress, say.Of("notebook.glossary")},
}

// What lists are called wherever a page leads to them.
var (
	garmentsName   = say.Of("notebook.garments-2")
	techniquesName = say.Of("notebook.techniques")
	ratesName      = say.Of("notebook.how-long-it-takes")
)

// Foot lists the pages that tell how the notebook is kept, for the foot of every
// page.
func (b *Book) Foot() []Link { return b.foot }

func (b *Book) makeFoot() (foot []Link) {
	for _, p := range b.pages {
		if p.Menu.Or(true) {
			foot = append(foot, b.byKind[prose.ToPage].pages[p.Slug])
		}
	}
	return foot
}

// BuildAddress is where the page of build number i lies.
func (b *Book) BuildAddress(i int) Address { return b.builds[i].Address }

// BuildLink is the page of build number i.
func (b *Book) BuildLink(i int) Link { return b.builds[i] }

// Technique is the page of a technique; false where there is none.
func (b *Book) Technique(slug string) (Link, bool) { return b.link(prose.ToTechnique, slug) }

// Cloth is the page of a cloth; false where there is none.
func (b *Book) Cloth(slug string) (Link, bool) { return b.link(prose.ToCloth, slug) }

func (b *Book) link(kind prose.Kind, name string) (Link, bool) {
	s := b.byKind[kind]
	if s == nil {
		return Link{}, false
	}
	l, ok := s.pages[plainName(kind, name)]
	if !ok && kind == prose.ToBuild {
		if file, there := b.room.BuildNamed(name); there { // of a room that was opened for another
			return Link{namer{}.address("builds", file.Slug), file.Name}, true
		}
	}
	return l, ok
}

// Leads says where a link by name leads; false where it leads nowhere.
func (b *Book) Leads(l prose.Link) (Link, bool) { return b.link(l.Kind, l.Name) }

// SameNames reports whether every link by name leads to the same page, under
// the same name, as in another book.
func (b *Book) SameNames(other *Book) bool {
	for kind, s := range b.byKind {
		o := other.byKind[kind]
		if !slices.Equal(s.names, o.names) || !maps.Equal(s.pages, o.pages) {
			return false
		}
	}
	return true
}

// plainName is a name as the shelf has it: terms are found whatever their
// capitals.
func plainName(kind prose.Kind, name string) string {
	if kind == prose.ToTerm {
		return strings.ToLower(strings.Join(strings.Fields(name), " "))
	}
	return name
}

// Find says where a link by name leads from a page.
func (b *Book) Find(from Address) func(prose.Link) (prose.Target, bool) {
	return func(l prose.Link) (prose.Target, bool) {
		to, ok := b.link(l.Kind, l.Name)
		if !ok {
			return prose.Target{}, false
		}
		return prose.Target{Address: from.To(to.Address), Name: to.Name}, true
	}
}

// byName orders links as people look things up.
func byName(a, b Link) int {
	return cmp.Or(cmp.Compare(strings.ToLower(a.Name), strings.ToLower(b.Name)), cmp.Compare(a.Address, b.Address))
}

func sortedLinks(m map[string]Link) []Link {
	out := make([]Link, 0, len(m))
	for _, l := range m {
		out = append(out, l)
	}
	slices.SortFunc(out, byName)
	return out
}
