package prose

import (
	"strconv"

	"github.com/gosimple/slug"
	"github.com/yuin/goldmark/ast"
)

// ids makes the ids of headings: words of any script in plain letters, the
// text's prefix before them, a number behind those that come again.
type ids struct {
	prefix string
	used   map[string]int
}

func newIDs(prefix string) *ids { return &ids{prefix: prefix} }

// Generate makes a new id from the words of a heading.
func (s *ids) Generate(value []byte, _ ast.NodeKind) []byte {
	if s.used == nil {
		s.used = map[string]int{}
	}
	base := slug.Make(string(value))
	if base == "" {
		base = "part"
	}
	base = s.prefix + base
	id := base
	for n := 2; s.used[id] > 0; n++ {
		id = base + "-" + strconv.Itoa(n)
	}
	s.used[id]++
	return []byte(id)
}

// Put marks an id as used.
func (s *ids) Put(value []byte) {
	if s.used == nil {
		s.used = map[string]int{}
	}
	s.used[string(value)]++
}
