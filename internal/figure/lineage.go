package figure

import (
	"slices"

	"hembook/internal/fault"
)

// A Lineage knows, of a list of figures, which rest on which, and which on what
// is written where. It is only read once it is made.
type Lineage struct {
	list  []Figure
	place map[string]int32   // where a figure stands in the list, by its ID
	into  map[string][]int32 // what a figure goes into, by its ID, in the order of the list
}

// A Dependant is a figure that may change when something does that it rests on.
type Dependant struct {
	Figure  *Figure
	Far     int    // how many expressions lie between: 1 for the nearest
	Through string // the ID of the figure, one step nearer, that it rests on; "" for the nearest to a place
}

// NewLineage looks through the expressions of figures. Of those that share an
// ID the first is taken; a figure that is in no list may be asked for too.
func NewLineage(lists ...[]Figure) *Lineage {
	n := 0
	for _, list := range lists {
		n += len(list)
	}
	l := &Lineage{list: make([]Figure, 0, n), place: make(map[string]int32, n), into: make(map[string][]int32, n)}
	for _, list := range lists {
		for i := range list {
			if _, met := l.place[list[i].ID]; met || list[i].ID == "" {
				continue
			}
			at := int32(len(l.list))
			l.place[list[i].ID] = at
			l.list = append(l.list, list[i])
			list[i].Working.each(func(n *node, _ bool) {
				leaf := &list[i].Working.pad.leaves[n.a]
				if leaf.kind != Figured {
					return
				}
				if far := l.into[leaf.from]; len(far) == 0 || far[len(far)-1] != at {
					l.into[leaf.from] = append(far, at)
				}
			})
		}
	}
	return l
}

// Figures lists all figures, each once, in the order given.
func (l *Lineage) Figures() []Figure { return l.list }

// Figure is the figure of an ID; nil where there is none.
func (l *Lineage) Figure(id string) *Figure {
	if at, ok := l.place[id]; ok {
		return &l.list[at]
	}
	return nil
}

// Nearest are the places, among [Lineage.Figures], of the figures whose own
// expression a figure stands in. They must not be changed.
func (l *Lineage) Nearest(id string) []int32 { return l.into[id] }

// Of lists what rests on a figure, the nearest first and those equally near in
// the order of the list.
func (l *Lineage) Of(id string) []Dependant {
	return l.spread(nil, []string{id})
}

// OfPlaces lists what rests on what is written at places, likewise. It asks of
// each place that went into a figure whether it is one of them; whole says that
// all of the group that begins there went in, as it stands.
func (l *Lineage) OfPlaces(is func(at fault.Pos, whole bool) bool) []Dependant {
	var near []Dependant
	for i := range l.list {
		w, found := &l.list[i].Working, false
		w.each(func(n *node, _ bool) {
			leaf := &w.pad.leaves[n.a]
			found = found || leaf.at.Given() && is(leaf.at, leaf.text == AsItStands)
		})
		if found {
			near = append(near, Dependant{Figure: &l.list[i], Far: 1})
		}
	}
	from := make([]string, len(near))
	for i, d := range near {
		from[i] = d.Figure.ID
	}
	return l.spread(near, from)
}

// spread adds to what was found so far all that rests on figures of these IDs,
// ring by ring.
func (l *Lineage) spread(found []Dependant, from []string) []Dependant {
	far, met := 0, make(map[int32]bool, len(found))
	for _, d := range found {
		far = d.Far
	}
	for _, id := range from {
		if at, ok := l.place[id]; ok {
			met[at] = true
		}
	}
	for len(from) > 0 {
		far++
		var ring []int32
		through := map[int32]string{}
		for _, id := range from {
			for _, at := range l.into[id] {
				if !met[at] {
					met[at] = true
					ring, through[at] = append(ring, at), id
				}
			}
		}
		slices.Sort(ring)
		from = from[:0]
		for _, at := range ring {
			f := &l.list[at]
			found = append(found, Dependant{f, far, through[at]})
			from = append(from, f.ID)
		}
	}
	return found
}
