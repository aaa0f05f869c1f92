package notebook

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/prose"
	"hembook/internal/say"
)

// buildsOnAPage is how many builds one page of the list holds: about a kilobyte each.
const buildsOnAPage = 60

// A BuildList is one page of the list of builds: what is being made first, each group
// latest first.
type BuildList struct {
	Head
	Groups  []CardGroup
	Choices []Choice // what can be chosen among the garments of this page
	Count   int      // of all pages
	Number  int      // of this page, from 1
	Pages   []Link   // all pages of the list; empty where there is one
	Before  Link     // the page before this one; no address on the first
	After   Link
}

// A TechniqueList is the list of all techniques by the stage they belong to.
type TechniqueList struct {
	Head
	Stages []Stage
}

// A Stage is the techniques of a stage of work.
type Stage struct {
	Name       string
	Techniques []*TechniquePage
}

// A ClothList is the list of all cloths.
type ClothList struct {
	Head
	Cloths []*ClothPage
}

// A FrontPage is the first page.
type FrontPage struct {
	Head
	Maker      string
	Contact    string
	InWork     []*BuildLine // the latest
	Finished   []*BuildLine
	Builds     int
	Techniques []*TechniquePage // those used most
	Cloths     []*ClothPage
	Pages      []PageLink
}

// A PageLink is a further page with its sentence.
type PageLink struct {
	Link
	Lead string
}

// A TextPage is any other page.
type TextPage struct {
	Head
	Body   Passage
	Manual bool // it tells how the program is used
}

// BuildLists lays out the pages of the list of builds.
func (s *Gathered) BuildLists() []*BuildList {
	n := max(1, (len(s.builds)+buildsOnAPage-1)/buildsOnAPage)
	links := make([]Link, n)
	for i := range links {
		links[i] = Link{listAddress(i), say.Of("notebook.page-2", strconv.Itoa(i+1))}
	}
	out, builds := make([]*BuildList, n), grouped(s.builds)
	for i := range out {
		p := &BuildList{
			Head:  Head{links[i].Address, "builds", garmentsName, counted(builds), nil},
			Count: len(builds), Number: i + 1,
		}
		p.Groups, p.Choices = s.book.cards(builds[i*buildsOnAPage : min((i+1)*buildsOnAPage, len(builds))])
		if i > 0 {
			p.Heading = garmentsName + ", " + links[i].Name
			p.Up = []Link{{BuildsAddress, garmentsName}}
			p.Before = links[i-1]
		}
		if n > 1 {
			p.Pages = links
		}
		if i+1 < n {
			p.After = links[i+1]
		}
		out[i] = p
	}
	return out
}

// counted says how many garments the list has, and how long they took so far.
func counted(builds []*BuildLine) string {
	said := say.Of("notebook.garments", strconv.Itoa(len(builds)))
	if len(builds) == 1 {
		said = say.Of("notebook.one-garment")
	}
	minutes := 0.0
	for _, b := range builds {
		if b.Spent.Number > 0 {
			minutes += b.Spent.In(measure.UnitMin).Number
		}
	}
	switch hours := math.Round(minutes / 60); {
	case hours == 1:
		said += say.Of("notebook.an-hour-at-the-table-so-far")
	case hours > 1:
		said += say.Of("notebook.hours-at-the-table-so-far", strconv.FormatFloat(hours, 'f', -1, 64))
	}
	return said + "."
}

func listAddress(i int) Address {
	if i == 0 {
		return BuildsAddress
	}
	return Address("builds/all/" + strconv.Itoa(i+1) + ".html")
}

// stages in the order of work
var stages = []string{"drafting", "mock-up", "fitting", "cutting", "sewing", "pressing", "finishing", "packing", ""}

// TechniqueList lays out the list of techniques.
func (b *Book) TechniqueList(all []*TechniquePage) *TechniqueList {
	p := &TechniqueList{Head: Head{TechniquesAddress, "techniques", techniquesName, say.Of("notebook.how-i-do-it-and-how-long"), nil}}
	for _, name := range stages {
		s := Stage{Name: name}
		for _, t := range all {
			if t.Stage == name {
				s.Techniques = append(s.Techniques, t)
			}
		}
		slices.SortFunc(s.Techniques, func(x, y *TechniquePage) int { return byName(x.link(), y.link()) })
		if len(s.Techniques) > 0 {
			p.Stages = append(p.Stages, s)
		}
	}
	return p
}

func (h Head) link() Link { return Link{h.Address, h.Heading} }

// ClothList lays out the list of cloths.
func (b *Book) ClothList(all []*ClothPage) *ClothList {
	p := &ClothList{Head: Head{ClothsAddress, "cloths", say.Of("notebook.cloth"), say.Of("notebook.cloth-on-the-shelf-and-the-garments"), nil}, Cloths: slices.Clone(all)}
	slices.SortFunc(p.Cloths, func(x, y *ClothPage) int { return byName(x.link(), y.link()) })
	return p
}

// Front lays out the first page.
func (s *Gathered) Front(techniques []*TechniquePage, cloths []*ClothPage) *FrontPage {
	const latest, most = 5, 8 // as many as stand in a row
	b := s.book
	p := &FrontPage{
		Head:  Head{FrontAddress, "front", b.Name, b.Lead, nil},
		Maker: b.Maker, Contact: b.Contact, Builds: len(s.builds),
	}
	for _, g := range s.builds {
		if over := g.group() == 1; over && len(p.Finished) < latest {
			p.Finished = append(p.Finished, g)
		} else if g.group() == 0 && len(p.InWork) < latest {
			p.InWork = append(p.InWork, g)
		}
	}
	p.Techniques = slices.Clone(techniques)
	slices.SortStableFunc(p.Techniques, func(x, y *TechniquePage) int {
		if n := len(y.Builds) - len(x.Builds); n != 0 {
			return n
		}
		return byName(x.link(), y.link())
	})
	p.Techniques = p.Techniques[:min(most, len(p.Techniques))]
	p.Cloths = b.ClothList(cloths).Cloths
	p.Cloths = p.Cloths[:min(12, len(p.Cloths))]
	for _, t := range b.TextPages() {
		p.Pages = append(p.Pages, PageLink{t.link(), t.Lead})
	}
	return p
}

// TextPages lays out the maker's other pages.
func (b *Book) TextPages() []*TextPage {
	var out []*TextPage
	for _, g := range b.pages {
		link := b.byKind[prose.ToPage].pages[g.Slug]
		out = append(out, &TextPage{
			Head: Head{link.Address, "text", link.Name, g.Summary.V, nil}, Body: passageOf(g.Body, "content/pages"), Manual: g.Manual.V,
		})
	}
	return out
}

// Missing is the page shown for an address that leads nowhere. Its links are
// made from the site's own address, because nobody knows where it is shown.
func (b *Book) Missing() *TextPage {
	return &TextPage{
		Head: Head{MissingAddress, "missing", say.Of("notebook.page-not-found"), "", nil},
		Body: Passage{[]byte(say.Of("notebook.this-page-is-not-in-the-notebook")), fault.Pos{}, ""},
	}
}

// StateWords is a state with a capital, as a label.
func StateWords(s string) string {
	if s == "" {
		return ""
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
