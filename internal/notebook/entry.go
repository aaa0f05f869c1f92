package notebook

import (
	"slices"

	"hembook/internal/prose"
)

// An IndexEntry is a page as a search finds it: its names first, then what it
// may be filtered by. It holds nothing that the page itself does not show.
type IndexEntry struct {
	Address    Address
	Kind       string   // garment, technique, cloth, term, page
	Title      string   // what ranks first
	Names      []string // other names for it, British and American
	Lead       string
	Garment    string
	Year       int      // 0 where it has none
	Cloths     []string // names
	Techniques []string // names
	Manual     bool     // it tells how the program is used: others come before it
}

// Same reports whether two entries say the same.
func (e *IndexEntry) Same(other *IndexEntry) bool {
	return e.Address == other.Address && e.Kind == other.Kind && e.Title == other.Title && e.Lead == other.Lead && e.Garment == other.Garment &&
		e.Year == other.Year && e.Manual == other.Manual && slices.Equal(e.Names, other.Names) && slices.Equal(e.Cloths, other.Cloths) &&
		slices.Equal(e.Techniques, other.Techniques)
}

// Entries lists every page that a search may find, builds latest first, then
// techniques, cloths, terms and the maker's other pages in their order.
func (s *Gathered) Entries(techniques []*TechniquePage, cloths []*ClothPage) []IndexEntry {
	out := make([]IndexEntry, 0, len(s.builds)+len(techniques)+len(cloths)+len(s.book.terms)+len(s.book.pages))
	for _, b := range s.builds {
		out = append(out, s.buildEntry(b))
	}
	for _, t := range techniques {
		e := IndexEntry{Address: t.Address, Kind: t.What, Title: t.Heading, Names: t.Also, Lead: t.Lead}
		for _, c := range t.Cloths {
			e.Cloths = append(e.Cloths, c.Name)
		}
		out = append(out, e)
	}
	for _, c := range cloths {
		e := IndexEntry{Address: c.Address, Kind: c.What, Title: c.Heading, Names: []string{c.Fibres}, Lead: c.Lead}
		for _, t := range c.Technique {
			e.Techniques = append(e.Techniques, t.Name)
		}
		out = append(out, e)
	}
	for _, t := range s.book.terms {
		out = append(out, IndexEntry{Address: GlossaryAddress + Address("#"+t.Anchor), Kind: "term", Title: t.Term, Names: t.Also, Lead: t.Meaning})
	}
	for _, p := range s.book.TextPages() {
		out = append(out, IndexEntry{Address: p.Address, Kind: string(prose.ToPage), Title: p.Heading, Lead: p.Lead, Manual: p.Manual})
	}
	return out
}

func (s *Gathered) buildEntry(b *BuildLine) IndexEntry {
	e := IndexEntry{Address: b.Address, Kind: "garment", Title: b.Name, Lead: b.Lead, Garment: b.Garment, Year: b.Year()}
	for _, c := range b.Cloths {
		if l, ok := s.book.Cloth(c.Slug); ok && !slices.Contains(e.Cloths, l.Name) {
			e.Cloths = append(e.Cloths, l.Name)
		}
	}
	for _, t := range b.Techniques {
		if l, ok := s.book.Technique(t.Slug); ok {
			e.Techniques = append(e.Techniques, l.Name)
		}
	}
	return e
}
