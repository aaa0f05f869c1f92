package words

import (
	"slices"
	"strconv"

	transliterate "github.com/gosimple/slug"
)

// Slug makes a name safe for an address and an ID: small letters, digits and
// hyphens.
func Slug(name string) string {
	spaces := false
	for i := range len(name) {
		c := name[i]
		if c >= 'a' && c <= 'z' || c >= '0' && c <= '9' {
			continue
		}
		inside := i > 0 && i < len(name)-1 && name[i-1] != ' ' && name[i-1] != '-'
		if !inside || c != '-' && c != ' ' {
			return slowSlug(name)
		}
		spaces = spaces || c == ' '
	}
	switch {
	case name == "":
		return slowSlug(name)
	case spaces:
		plain := []byte(name)
		for i, c := range plain {
			if c == ' ' {
				plain[i] = '-'
			}
		}
		return string(plain)
	}
	return name
}

// slowSlug is Slug for names that need work: capitals, signs, accents.
func slowSlug(name string) string {
	if s := transliterate.Make(name); s != "" {
		return s
	}
	return "unnamed"
}

// Names hand out slugs that are unique among themselves.
type Names struct {
	list []string
	set  map[string]bool // once the list is long
}

const longList = 24

// NamesFor makes room for so many.
func NamesFor(n int) *Names { return &Names{list: make([]string, 0, n)} }

func (n *Names) has(s string) bool {
	if n.set != nil {
		return n.set[s]
	}
	return slices.Contains(n.list, s)
}

// Unique returns the name's slug, with a number where it is taken.
func (n *Names) Unique(name string) string {
	s := Slug(name)
	for k, first := 2, s; n.has(s); k++ {
		s = first + "-" + strconv.Itoa(k)
	}
	if n.set == nil && len(n.list) == longList {
		n.set = make(map[string]bool, 2*longList)
		for _, l := range n.list {
			n.set[l] = true
		}
	}
	n.list = append(n.list, s)
	if n.set != nil {
		n.set[s] = true
	}
	return s
}
