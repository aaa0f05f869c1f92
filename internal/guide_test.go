package internal

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// TestTheGuideSpeaksOfWhatIsThere: every room, file and test that DEVELOPERS.md
// names in full is there.
func TestTheGuideSpeaksOfWhatIsThere(t *testing.T) {
	text, err := os.ReadFile("../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	tests := map[string]bool{}
	named := regexp.MustCompile(`(?m)^func (Test\w+|Fuzz\w+|Benchmark\w+)\(`)
	err = filepath.WalkDir("..", func(file string, _ os.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(file, "_test.go") {
			return err
		}
		source, err := os.ReadFile(file)
		for _, m := range named.FindAllSubmatch(source, -1) {
			tests[string(m[1])] = true
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range regexp.MustCompile(`(?:Test|Fuzz)[A-Z]\w{5,}`).FindAllString(string(text), -1) {
		if !tests[m] {
			t.Errorf("no test is called %s", m)
		}
	}
	paths := regexp.MustCompile("`((?:internal|cmd|themes|content|testdata|\\.ci)/[\\w/.*{},-]+)`").FindAllStringSubmatch(string(text), -1)
	if len(paths) < 40 || len(tests) < 500 {
		t.Fatalf("only %d paths and %d tests were found", len(paths), len(tests))
	}
	for _, m := range paths {
		for _, one := range alternatives(m[1]) {
			if found, err := filepath.Glob(filepath.Join("..", filepath.FromSlash(one))); err != nil || len(found) == 0 {
				t.Errorf("there is no %s", one)
			}
		}
	}
}

// alternatives writes a{b,c}d out as abd and acd.
func alternatives(path string) []string {
	head, rest, ok := strings.Cut(path, "{")
	if !ok {
		return []string{path}
	}
	list, tail, _ := strings.Cut(rest, "}")
	var out []string
	for _, one := range strings.Split(list, ",") {
		out = append(out, head+one+tail)
	}
	return out
}
