package extent

import (
	"strings"
	"testing"

	"gopkg.in/yaml.v3"
)

// FuzzMarks compares the marks of a text with the tree that is made of it.
func FuzzMarks(f *testing.F) {
	for _, text := range []string{"name: A\ngarment: skirt\nstate: planned\n", "- - a\n", "{a, b: [c: d]}", "? a\n? b\n: c\n", `{"a":b}`, "a:\n- b\n-\n", "[a, [b], {c}]", "&a [*a]", "---\na\n...\n"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		var doc yaml.Node
		if yaml.NewDecoder(strings.NewReader(text)).Decode(&doc) != nil {
			return
		}
		nodes := countNodes(&doc)
		if marks, _ := countMarks([]byte(text), len(text)+1); nodes > 3*marks+2 {
			t.Errorf("%q: %d nodes of %d marks", text, nodes, marks)
		}
	})
}

func countNodes(n *yaml.Node) int {
	sum := 1
	for _, c := range n.Content {
		sum += countNodes(c)
	}
	return sum
}
