package record

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"

	"hembook/internal/trade"
)

// TestSchemaOfSeamTypes: the schema takes every type of the trade's tables, as the reader
// does, and refuses with it a word that there is not, a role, a kind, a point and a place
// that are none, and a type without its title.
func TestSchemaOfSeamTypes(t *testing.T) {
	if testing.Short() {
		t.Skip("one thing after another: nothing for the race detector to see")
	}
	schemas := compileSchemas(t)
	agree := func(name, list string, want bool) {
		t.Helper()
		var n yaml.Node
		if err := yaml.Unmarshal([]byte(list), &n); err != nil {
			t.Fatal(err)
		}
		_, reads := trade.SeamTypesFromNode(n.Content[0])
		says := validate(schemas, "workroom", []byte("name: Test\nseam-types:\n"+list))
		if (reads == nil) != want || (says == nil) != want {
			t.Errorf("%s: the reader says %v, the schema %v", name, reads, says)
		}
	}
	files, err := filepath.Glob("../trade/tables/*s-*.yaml")
	if err != nil || len(files) < 7 {
		t.Fatal(files, err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		agree(file, string(text), true)
	}
	text, err := os.ReadFile("../trade/tables/finishes-elastic.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range [][2]string{
		{"summary:", "sumary:"}, {"as: elastic", "as: elastik"}, {"kind: finish", "kind: hem"}, {"[0, 0]", "[0]"}, {"title: Casing for elastic", ""},
		{"strips:", "wants: slitt\n  strips:"}, {"corner: mirror", "corner: miror"}, {"start: selvedge", "start: selvage"},
	} {
		changed := strings.Replace(string(text), c[0], c[1], 1)
		if changed == string(text) {
			t.Fatal(c)
		}
		agree(c[1], changed, false)
	}
}
