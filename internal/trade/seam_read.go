package trade

import (
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"hembook/internal/meant"
	"hembook/internal/say"
)

// SeamTypes are the built-in seam types and finishes, in the order of the
// table: seams first, plainest first. The slice is the caller's own.
func SeamTypes() []SeamType { return slices.Clone(seamTypes()) }

// The built-in types are checked by a test and not again on every run.
var seamTypes = once(func() ([]SeamType, error) {
	var all []SeamType
	for _, file := range []string{"seams-open", "seams-enclosed", "seams-lapped", "seams-zips", "seams-pockets", "finishes-edges", "finishes-hems", "finishes-elastic", "finishes-lines", "finishes-slits"} {
		list, err := table[[]SeamType](file)
		if err != nil {
			return nil, err
		}
		for i := range list {
			list[i].fillDefaults()
		}
		all = append(all, list...)
	}
	return all, nil
})

// FindSeamType finds a seam type by its name among those given; with two of
// one name the last wins, so that a workroom's own go before the built-in.
func FindSeamType(types []SeamType, name string) (SeamType, bool) {
	for i := len(types) - 1; i >= 0; i-- {
		if types[i].Name == name {
			return types[i], true
		}
	}
	return SeamType{}, false
}

// OfKind are the seams, or the finishes, of a list.
func OfKind(types []SeamType, kind Kind) []SeamType {
	return slices.DeleteFunc(slices.Clone(types), func(t SeamType) bool { return t.Kind != kind })
}

// NearestSeamType is the type that makers call by an unknown name, or whose name is
// nearest to it: its own, or that it is also known by. Empty when nothing is near.
func NearestSeamType(types []SeamType, name string) string {
	guess := meant.For(name)
	names := make([]string, len(types))
	for i, t := range types {
		names[i] = t.Name
		guess.Try(t.Name)
		for _, a := range t.Also {
			guess.TryAs(a.Term, t.Name)
		}
	}
	if k := saidFor(name, names); k != "" {
		return k
	}
	return guess.Best()
}

// SeamTypesLike lists the types that have a word of a name to which none is near, or
// else all there are.
func SeamTypesLike(types []SeamType, name string) string {
	var names, alike []string
	for _, t := range types {
		names = append(names, t.Name)
		if sharesWord(t.Name, name) {
			alike = append(alike, t.Name)
		}
	}
	if len(alike) > 0 {
		return say.Of("trade.one-of", meant.List(alike, "or"))
	}
	return meant.Among(name, names, say.Of("trade.there-are"))
}

// sharesWord reports whether a type's name has a word of another, seams and hems
// themselves apart.
func sharesWord(name, other string) bool {
	own := strings.Split(name, "-")
	return slices.ContainsFunc(strings.Split(slug(other), "-"), func(w string) bool {
		return len(w) > 2 && w != "seam" && w != "edge" && w != "hems" && slices.Contains(own, w)
	})
}

func slug(s string) string {
	return strings.ReplaceAll(strings.ToLower(strings.TrimSpace(s)), " ", "-")
}

// SeamTypesFromNode reads a workroom's own seam types and finishes: a list in
// the form of the built-in ones, part of a file already read. The error is of
// type [fault.List] and names every fault with its line and column.
func SeamTypesFromNode(node *yaml.Node) ([]SeamType, error) {
	var list []SeamType
	if faults := decodeStrict(node, &list); len(faults) > 0 {
		return nil, faults
	}
	entries := sequenceOf(node)
	for i := range list {
		list[i].fillDefaults()
		if i < len(entries) {
			list[i].line, list[i].column = entries[i].Line, entries[i].Column
		}
	}
	if faults := checkSeamTypes(list); len(faults) > 0 {
		return nil, faults.Sorted()
	}
	return list, nil
}

func sequenceOf(n *yaml.Node) []*yaml.Node {
	for n.Kind == yaml.DocumentNode && len(n.Content) > 0 {
		n = n.Content[0]
	}
	if n.Kind == yaml.AliasNode {
		n = n.Alias
	}
	if n.Kind != yaml.SequenceNode {
		return nil
	}
	return n.Content
}

// fillDefaults writes out what may be left unsaid: lockstitch, one row, plies
// laid flat, strips of tape, one of each.
func (t *SeamType) fillDefaults() {
	for i := range t.Passes {
		p := &t.Passes[i]
		if p.Stitch == "" {
			p.Stitch = "301"
		}
		if p.Rows == 0 {
			p.Rows = 1
		}
		if p.Together == "" {
			p.Together = LaidFlat
		}
	}
	for i := range t.Strips {
		s := &t.Strips[i]
		s.Count = max(s.Count, 1)
		if s.As == "" {
			s.As = Tape
		}
	}
	for i := range t.Pieces {
		t.Pieces[i].Count = max(t.Pieces[i].Count, 1)
	}
}
