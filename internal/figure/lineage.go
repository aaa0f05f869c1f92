package figure

import (
	"slices"

	"hembook/internal/fault"
)

// A Lineage knows, of a list of figures, which rest on which, and which on what
// is written where. It is only read once it is made.
type Lineage struct {
	list   []*Figure
	number map[string]int32 // of an ID: its place in the list, and beyond the list of figures that are in none
	begin  []int32          // where, in into, that begins which the figure of a number goes into
	into   []int32          // places in the list
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
	l := newLineage(n)
	for _, list := range lists {
		for i := range list {
			l.add(&list[i])
		}
	}
	l.link()
	return l
}

func newLineage(n int) *Lineage {
	return &Lineage{list: make([]*Figure, 0, n), number: make(map[string]int32, n)}
}

func (l *Lineage) add(f *Figure) {
	if _, met := l.number[f.ID]; !met && f.ID != "" {
		l.number[f.ID] = int32(len(l.list))
		l.list = append(l.list, f)
	}
}

// link notes what each figure goes into, in the order of the list.
func (l *Lineage) link() {
	type pair struct{ root, on int32 }
	pairs, last := make([]pair, 0, 2*len(l.list)), make([]int32, len(l.list))
	for at, f := range l.list {
		f.Working.each(func(n *node, _ bool) {
			o := f.Working.pad.origins.at(n.a)
			if o.kind != Figured {
				return
			}
			root, met := l.number[o.from]
			if !met {
				root = int32(len(last))
				l.number[o.from] = root
				last = append(last, 0)
			}
			if last[root] != int32(at)+1 {
				last[root] = int32(at) + 1
				pairs = append(pairs, pair{root, int32(at)})
			}
		})
	}
	l.begin, l.into = make([]int32, len(last)+1), make([]int32, len(pairs))
	for _, p := range pairs {
		l.begin[p.root+1]++
	}
	for i := range last {
		l.begin[i+1] += l.begin[i]
	}
	next := slices.Clone(l.begin)
	for _, p := range pairs {
		l.into[next[p.root]] = p.on
		next[p.root]++
	}
}

// Figures lists all figures, each once, in the order given.
func (l *Lineage) Figures() []*Figure { return l.list }

// Figure is the figure of an ID; nil where there is none.
func (l *Lineage) Figure(id string) *Figure {
	if at, ok := l.number[id]; ok && int(at) < len(l.list) {
		return l.list[at]
	}
	return nil
}

// Nearest are the places, among [Lineage.Figures], of the figures whose own
// expression a figure stands in. They must not be changed.
func (l *Lineage) Nearest(id string) []int32 {
	at, ok := l.number[id]
	if !ok {
		return nil
	}
	return l.into[l.begin[at]:l.begin[at+1]]
}

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
			o := w.pad.origins.at(n.a)
			found = found || o.at.Given() && is(o.at, o.text == AsItStands)
		})
		if found {
			near = append(near, Dependant{Figure: l.list[i], Far: 1})
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
		if at, ok := l.number[id]; ok {
			met[at] = true
		}
	}
	for len(from) > 0 {
		far++
		var ring []int32
		through := map[int32]string{}
		for _, id := range from {
			for _, at := range l.Nearest(id) {
				if !met[at] {
					met[at] = true
					ring, through[at] = append(ring, at), id
				}
			}
		}
		slices.Sort(ring)
		from = from[:0]
		for _, at := range ring {
			f := l.list[at]
			found = append(found, Dependant{f, far, through[at]})
			from = append(from, f.ID)
		}
	}
	return found
}
