package garment

import (
	"strconv"

	transliterate "github.com/gosimple/slug"
)

// slowSlug is slug for names that need work: capitals, spaces, accents.
func slowSlug(name string) string {
	if s := transliterate.Make(name); s != "" {
		return s
	}
	return "unnamed"
}

// names hands out slugs that are unique among themselves.
type names map[string]bool

func (n names) unique(name string) string {
	s := slug(name)
	for k := 2; n[s]; k++ {
		if t := s + "-" + strconv.Itoa(k); !n[t] {
			s = t
		}
	}
	n[s] = true
	return s
}
