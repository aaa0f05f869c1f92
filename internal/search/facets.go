package search

import (
	"cmp"
	"iter"
	"slices"
	"strconv"
	"strings"
)

// kindFacet is the facet that every document has.
const kindFacet = "kind"

// facets writes facets.js, [[name, [value, documents, value, documents, …]], …]
// and the values (counted through all facets) that begin a new file, and the
// documents of every value.
func (x *Index) facets(was *Index) {
	if was != nil && x.placed && slices.Equal(was.offered, x.offered) && x.sameFacets(was) {
		x.faceted = was.faceted
		return
	}
	s := &fileSet{}
	lists := &packer{shelf: s, kind: "f", size: tailsSize, n: len(x.docs)}
	var out strings.Builder
	var begin []int
	value := 0
	for i, name := range append([]string{kindFacet}, x.offered...) {
		if i > 0 {
			out.WriteByte(',')
		}
		out.WriteString("[" + quote(name) + ",[")
		for j, v := range valuesOf(x.docs, name) {
			if j > 0 {
				out.WriteByte(',')
			}
			out.WriteString(quote(v.name) + "," + strconv.Itoa(len(v.found)))
			if lists.put(v.found) {
				begin = append(begin, value)
			}
			value++
		}
		out.WriteString("]]")
	}
	lists.flush()
	s.add("facets", "[["+out.String()+"],"+numbers(begin)+"]")
	x.faceted = s.files
}

// sameFacets reports whether the documents have the facets of those in their places before.
func (x *Index) sameFacets(was *Index) bool {
	for i := range x.docs {
		d, e := &x.docs[i], &was.docs[i]
		if d.Kind != e.Kind || !slices.EqualFunc(d.Facets, e.Facets, func(a, b Facet) bool { return a.Name == b.Name && slices.Equal(a.Values, b.Values) }) {
			return false
		}
	}
	return true
}

type facetValue struct {
	name  string
	found []posting
}

// valuesOf are the values of a facet with their documents, by name.
func valuesOf(docs []Document, facet string) []facetValue {
	byName := map[string][]posting{}
	for i := range docs {
		for v := range docs[i].values(facet) {
			list := byName[v]
			if v != "" && (len(list) == 0 || list[len(list)-1].doc != uint32(i)) {
				byName[v] = append(list, posting{doc: uint32(i)})
			}
		}
	}
	var out []facetValue
	for name, found := range byName {
		out = append(out, facetValue{name, found})
	}
	slices.SortFunc(out, func(a, b facetValue) int {
		return cmp.Or(cmp.Compare(strings.ToLower(a.name), strings.ToLower(b.name)), cmp.Compare(a.name, b.name))
	})
	return out
}

// values are what a document has of a facet.
func (d *Document) values(facet string) iter.Seq[string] {
	return func(yield func(string) bool) {
		if facet == kindFacet {
			yield(d.Kind)
			return
		}
		for i := range d.Facets {
			if f := &d.Facets[i]; f.Name == facet {
				for _, v := range f.Values {
					if !yield(v) {
						return
					}
				}
			}
		}
	}
}
