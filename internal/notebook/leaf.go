package notebook

import (
	"fmt"
	"strconv"
	"strings"
)

// A Leaf is a further page of a build, for what would weigh its own page down:
// the drawings and tables that are looked things up in rather than read.
type Leaf struct {
	Head
	Name   string // "pieces": the last part of its address
	Short  string // "Pieces": as a build's other pages name it
	Number int    // 1, or more where one page would not hold it all
}

// Leaves are the further pages of a build in their order.
var Leaves = []struct{ Name, Short, Title, Summary string }{
	{"pieces", "Pieces", "Pieces of %s", "Every piece drawn to scale, with its edges and what is added to each."},
	{"seams", "Seams", "Seams of %s", "What is joined to what and how each edge is made neat, with cross-sections."},
	{"truing", "Truing", "Truing of %s", "Whether what must meet does meet, seam by seam, and what would mend it."},
	{"cloth", "Cloth and notions", "Cloth and notions of %s", "How much cloth, thread and what else it takes."},
	{"lay", "Lay", "Lay of %s", "How the pieces lie on the cloth, and where to chalk them."},
	{"fit", "Fittings", "Fittings of %s", "What each round showed and what was changed."},
	{"work", "Order of work", "Order of work of %s", "Every step with the time that was planned and the time it took."},
	{"journal", "Journal", "Journal of %s", "What was done, seen and thought, day by day."},
}

// Leaf is the further page of that name and number; it must be one of [Leaves].
func (p *BuildPage) Leaf(name string, number int) Leaf {
	for _, l := range Leaves {
		if l.Name != name {
			continue
		}
		address, title := name, fmt.Sprintf(l.Title, p.Title)
		if number > 1 {
			address += "-" + strconv.Itoa(number)
			title += ", page " + strconv.Itoa(number)
		}
		return Leaf{Name: name, Short: l.Short, Number: number, Head: Head{
			Address: Address(strings.TrimSuffix(string(p.Address), ".html") + "/" + address + ".html"),
			Kind:    "leaf", Title: title, Summary: l.Summary, Up: []Link{{BuildsAddress, "Builds"}, p.link()},
		}}
	}
	panic("a build has no page of the name " + name)
}

// Leaf is the head of page number n of the record, from 1.
func (r *RecordPage) Leaf(n int) Head {
	h := r.Head
	if n > 1 {
		number := strconv.Itoa(n)
		h.Address = Address(strings.TrimSuffix(string(h.Address), ".html") + "/" + number + ".html")
		h.Title += ", page " + number
	}
	return h
}
