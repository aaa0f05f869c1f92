package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
)

// TestOwnWordsByLanguage: of the maker's words a German wearer reads the German ones;
// those there are none of are said to be in English, and are marked so for readers aloud.
func TestOwnWordsByLanguage(t *testing.T) {
	t.Parallel()
	base := readArchive(t, filepath.Join(packetDir, "base.txtar"))
	change := func(a *txtar.Archive, file, was, now string) {
		for i := range a.Files {
			if f := &a.Files[i]; f.Name == file {
				if !bytes.Contains(f.Data, []byte(was)) {
					t.Fatalf("%s has no %q", file, was)
				}
				f.Data = bytes.Replace(f.Data, []byte(was), []byte(now), 1)
			}
		}
	}
	const build = "content/builds/skirt/build.yaml"
	change(base, "content/wearers/robin.yaml", "language: en", "language: de")
	change(base, build, "name: Green skirt", "name: {en: Green skirt, de: Grüner Rock}\nsummary: A skirt for rain.")
	change(base, build, "  box: [the skirt]", "  box: {en: [the skirt], de: [der Rock]}\n  note: {en: Keep it away from candles., de: Von Kerzen fernhalten.}")
	dir := writtenOut(t, base)
	var out, errs bytes.Buffer
	if code := run([]string{"pack", "skirt", "--room", dir, "--lays", "none", "--to", filepath.Join(dir, "out")}, &out, &errs); code != exitFine {
		t.Fatal(code, errs.String())
	}
	page := func(name string) string {
		data, err := os.ReadFile(filepath.Join(dir, "out", name+".html"))
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	for name, want := range map[string][]string{
		"care-and-fit": {"Grüner Rock", "Von Kerzen fernhalten.", `<small>(auf Englisch) </small><span lang="en">Step in.</span>`, `<li><span lang="en">Close the zip.</span>`},
		"box":          {"Der Rock"},
		"card":         {"Grüner Rock", `<span lang="en">A skirt for rain.</span>`},
	} {
		got := page(name)
		for _, w := range want {
			if !strings.Contains(got, w) {
				t.Errorf("%s has no %s", name, w)
			}
		}
		for _, not := range []string{"Green skirt", "Keep it away", "The skirt"} {
			if strings.Contains(got, not) {
				t.Errorf("%s says %s", name, not)
			}
		}
	}
}
