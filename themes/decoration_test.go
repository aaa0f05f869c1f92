package themes

import (
	"os"
	"path/filepath"
	"regexp"
	"testing"
)

// TestDecorationsInFull: a line under words is given value by value. WebKit reads
// text-decoration with one value alone, and passes over it else: figures would show no
// sign there that they open.
func TestDecorationsInFull(t *testing.T) {
	several := regexp.MustCompile(`text-decoration:\s*[^;}\s]+\s+[^;}\s][^;}]*`)
	if !several.MatchString("a { text-decoration: underline dotted 2px }") || several.MatchString("a{text-decoration:none}") {
		t.Fatal("what is looked for is not found")
	}
	read := 0
	for _, folder := range []string{"plainweave/look", "../internal/document/look", "../internal/bench/capture/page"} {
		files, err := filepath.Glob(filepath.Join(folder, "*.css"))
		if err != nil {
			t.Fatal(err)
		}
		for _, file := range files {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			read++
			for _, at := range several.FindAll(text, -1) {
				t.Errorf("%s: %s", file, at)
			}
		}
	}
	if read < 10 {
		t.Errorf("only %d style sheets were read", read)
	}
}
