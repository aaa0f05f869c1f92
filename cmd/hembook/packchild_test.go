package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestHangingOnChildren: what hangs on a child's garment stands on the sheet as it was
// measured, beside the longest that is published for its place and age and the edition
// that says so; on a grown woman's nothing does.
func TestHangingOnChildren(t *testing.T) {
	t.Parallel()
	for who, want := range map[string]bool{"{who: girl, age: 5}": true, "woman": false} {
		a := readArchive(t, filepath.Join(packetDir, "base.txtar"))
		const build = "content/builds/skirt/build.yaml"
		swapped(t, a, build, "for: woman", "for: "+who)
		swapped(t, a, build, "notions:\n", "notions:\n  sash: {kind: sash, where: front, length: 300, material: cotton, weight: 5 g}\n  ties: {kind: tie, along: panel.top, at: 100, where: waist, length: 120, material: cotton, weight: 5 g}\n")
		dir := writtenOut(t, a)
		var out, errs bytes.Buffer
		if code := run([]string{"pack", "skirt", "--room", dir, "--lays", "none", "--for", "wearer", "--to", filepath.Join(dir, "out")}, &out, &errs); code != exitFine {
			t.Fatal(code, errs.String())
		}
		data, err := os.ReadFile(filepath.Join(dir, "out", "box.html"))
		if err != nil {
			t.Fatal(err)
		}
		for _, w := range []string{"Cords and ties on it", "Sash at the front", "30\u00a0cm", "36\u00a0cm", "Ties at the waist", "12\u00a0cm", "14\u00a0cm", "EN 14682:2007", "panel · 1"} {
			if strings.Contains(string(data), w) != want {
				t.Errorf("%s: %q is there: %v", who, w, !want)
			}
		}
	}
}
