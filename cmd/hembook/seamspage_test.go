package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// TestSeamsSayHowTheyAreSewn: beside each seam stands whether it is sewn flat or in the
// round and what it closes, and it leads to its step, which has a place of its own.
func TestSeamsSayHowTheyAreSewn(t *testing.T) {
	nothingBeside(t)
	builds := filepath.Join(pressedDemo(t), "builds")
	for _, c := range []struct{ build, seam, how, closes string }{
		{"boatyard-trousers", "seam-back-rise", "flat", ""},
		{"boatyard-trousers", "seam-outside-legs", "flat", "closes hems"},
		{"winter-ferry-coat", "seam-sleeve-seams", "flat", "closes cuffs, armholes"},
		{"winter-ferry-coat", "seam-armholes", "in the round", ""},
		{"harvest-supper-dress", "seam-lining-waist", "in the round", ""},
	} {
		page, err := os.ReadFile(filepath.Join(builds, c.build, "seams.html"))
		if err != nil {
			t.Fatal(err)
		}
		row := regexp.MustCompile(`(?s)<th scope="row"><a href="#` + c.seam + `">.*?</tr>`).FindString(string(page))
		cell := regexp.MustCompile(`<td class="w">(flat|in the round),\x{a0}<a href="([^"#]+)#([^"]+)">step\x{a0}\d+</a>(?:<div class="below">([^<]*)</div>)?</td>`).FindStringSubmatch(row)
		if cell == nil {
			t.Errorf("%s, %s: how it is sewn is not said in %q", c.build, c.seam, row)
			continue
		}
		if cell[1] != c.how || cell[4] != c.closes {
			t.Errorf("%s, %s: sewn %q and %q, not %q and %q", c.build, c.seam, cell[1], cell[4], c.how, c.closes)
		}
		work, err := os.ReadFile(filepath.Join(builds, c.build, cell[2]))
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(string(work), `<a class="here" id="`+cell[3]+`" href="#`+cell[3]+`">`) {
			t.Errorf("%s: %s has no place %s", c.build, cell[2], cell[3])
		}
		net, err := os.ReadFile(filepath.Join(builds, c.build, "together.html"))
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(string(net), `#`+c.seam+`">`) {
			t.Errorf("%s: the key to the net does not lead to %s", c.build, c.seam)
		}
	}
}
