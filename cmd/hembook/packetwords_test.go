package main

import (
	"path/filepath"
	"strings"
	"testing"
)

// TestOwnWordsByLanguage: of the maker's words a German wearer reads the German ones;
// those there are none of are said to be in English, and are marked so for readers aloud.
func TestOwnWordsByLanguage(t *testing.T) {
	t.Parallel()
	base := readArchive(t, filepath.Join(packetDir, "base.txtar"))
	const build = "content/builds/skirt/build.yaml"
	swapped(t, base, "content/wearers/robin.yaml", "language: en", "language: de")
	swapped(t, base, build, "name: Green skirt", "name: {en: Green skirt, de: Grüner Rock}\nsummary: A skirt for rain.")
	swapped(t, base, build, "  box: [the skirt]", "  box: {en: [the skirt], de: [der Rock]}\n  note: {en: Keep it away from candles., de: Von Kerzen fernhalten.}")
	page := packedSkirt(t, base)
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
