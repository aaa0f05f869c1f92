package press

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// TestKnownLinesStandOnThePage: a picture of a step that is led to the lines of another
// one finds them on its own page, before it, once.
func TestKnownLinesStandOnThePage(t *testing.T) {
	dir, to := room(t, many(1)), filepath.Join(t.TempDir(), "pressed")
	if _, _, err := press(t, dir, to); err != nil {
		t.Fatal(err)
	}
	pages, err := filepath.Glob(filepath.Join(to, "builds", "build-00000", "together*.html"))
	if err != nil || len(pages) == 0 {
		t.Fatalf("no pages: %v", err)
	}
	uses := regexp.MustCompile(`<use class="[^"]+" href="#([^"]+)"/>`)
	found := 0
	for _, page := range pages {
		data, err := os.ReadFile(page)
		if err != nil {
			t.Fatal(err)
		}
		text := string(data)
		for _, use := range uses.FindAllStringSubmatchIndex(text, -1) {
			found++
			id := ` id="` + text[use[2]:use[3]] + `"`
			if strings.Count(text, id) != 1 || !strings.Contains(text[:use[0]], id) {
				t.Errorf("%s: %s does not stand once, before the picture that needs it", page, id)
			}
		}
	}
	if found != 9+9*10/2 { // ten steps; each after the first leads to the pieces and to all steps before it
		t.Errorf("%d lines are led to", found)
	}
}

// TestNothingKeptIsStale: pages of a build are the same whichever builds the same
// printer printed before, though it keeps drawings, heads and names.
func TestNothingKeptIsStale(t *testing.T) {
	all := many(3)
	one := many(3)
	for _, gone := range []string{"build-00000", "build-00001"} {
		delete(one, "content/builds/"+gone+"/build.yaml")
	}
	var texts [2]map[string]string
	for i, f := range []files{all, one} {
		dir, to := room(t, f), filepath.Join(t.TempDir(), "pressed")
		if _, _, err := pressWith(t, dir, nil, Options{To: to, Workers: 1}); err != nil {
			t.Fatal(err)
		}
		texts[i] = map[string]string{}
		pages, err := filepath.Glob(filepath.Join(to, "builds", "build-00002", "*.html"))
		if err != nil {
			t.Fatal(err)
		}
		for _, page := range pages {
			data, err := os.ReadFile(page)
			if err != nil {
				t.Fatal(err)
			}
			texts[i][filepath.Base(page)] = string(data)
		}
	}
	if len(texts[0]) < 8 || len(texts[0]) != len(texts[1]) {
		t.Fatalf("%d and %d pages", len(texts[0]), len(texts[1]))
	}
	for name, text := range texts[0] {
		if text != texts[1][name] {
			t.Errorf("%s is another after other builds", name)
		}
	}
}
