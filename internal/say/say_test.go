package say

import (
	"os"
	"path/filepath"
	"testing"

	"gopkg.in/yaml.v3"
)

func TestFilledIn(t *testing.T) {
	all := map[string]*listed{}
	err := read(all, "# a remark\n\na.none: \"it is on \\\"hip\\\"\"\na.two: \"{piece} has no edge {edge}; {piece} has others\"\na.group: \"{along: {piece}.edge}, as {…}\"\n")
	if err != nil {
		t.Fatal(err)
	}
	if got := all["a.none"].sentence().text; got != `it is on "hip"` {
		t.Errorf("read %q", got)
	}
	if got := all["a.two"].sentence().names; len(got) != 2 || got[0] != "piece" || got[1] != "edge" {
		t.Errorf("names %q", got)
	}
	if got := all["a.group"].sentence().names; len(got) != 1 || got[0] != "piece" {
		t.Errorf("names %q", got)
	}
	for _, wrong := range []string{"a.none\n", "a.x: \"x\"\na.x: \"y\"\n"} {
		if read(map[string]*listed{}, wrong) == nil {
			t.Errorf("%q was read", wrong)
		}
	}
	if got, want := Of("theme.all-garments", 12), "All 12 garments"; got != want {
		t.Errorf("%q, not %q", got, want)
	}
	if got, want := Of("theme.made-by", "A. {n}"), "Made by A. {n}"; got != want {
		t.Errorf("%q, not %q", got, want)
	}
	for _, give := range []func(){func() { Of("there is none") }, func() { Of("theme.all-garments", 1, 2) }} {
		func() {
			defer func() {
				if recover() == nil {
					t.Error("a mistake of the program's builder is passed over")
				}
			}()
			give()
		}()
	}
}

// TestListsAreYAML: what our own reader finds in a list is what YAML says stands there.
func TestListsAreYAML(t *testing.T) {
	for _, file := range Files {
		text, err := os.ReadFile(filepath.Join("english", file+".yaml"))
		if err != nil {
			t.Fatal(err)
		}
		want, got := map[string]string{}, map[string]*listed{}
		if err := yaml.Unmarshal(text, &want); err != nil {
			t.Fatal(err)
		}
		if err := read(got, string(text)); err != nil {
			t.Fatal(err)
		}
		if len(got) != len(want) {
			t.Errorf("%s: %d sentences are read, YAML has %d", file, len(got), len(want))
		}
		for id, text := range want {
			if got[id].sentence().text != text {
				t.Errorf("%s: %s is read as %q, YAML has %q", file, id, got[id].sentence().text, text)
			}
		}
	}
}

func BenchmarkOf(b *testing.B) {
	b.Run("read all", func(b *testing.B) {
		text, _ := files.ReadFile("english/pages.yaml")
		for b.Loop() {
			if read(map[string]*listed{}, string(text)) != nil {
				b.Fatal("not read")
			}
		}
	})
	b.Run("as it stands", func(b *testing.B) {
		for b.Loop() {
			Of("theme.skip-to-the-text")
		}
	})
	b.Run("filled in", func(b *testing.B) {
		for b.Loop() {
			Of("theme.made-by", "somebody")
		}
	})
}
