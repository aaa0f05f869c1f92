package main

import (
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

var tagged = regexp.MustCompile(`<[^>]*>`)

// wordsOf is what a page says, its tags left out and each word after one space.
func wordsOf(html string) string {
	return strings.Join(strings.Fields(tagged.ReplaceAllString(html, " ")), " ")
}

// TestSettingsOnSheets: how the machine is set stands on the sheet for remaking and on that
// for repairs, with the thread and with what is sewn so, as the records say it.
func TestSettingsOnSheets(t *testing.T) {
	nothingBeside(t)
	t.Parallel()
	for _, k := range []struct {
		room, build string
		sewn        []string // among what is sewn so
		set         string   // thread, needle, stitch length and what else is said
	}{
		{"../../internal/pattern/testdata/shirt", "lockkeepers-shirt", []string{"pocket", "back yoke", "cuffs", "pleats"}, "white 70 2 mm"},
		{"../../internal/derive/testdata/quarry-skirt", "skirt", []string{"right side", "waist", "hem"}, "slate 80 universal"},
		{newcomerDir + "/knit-top.txtar", "top", []string{"shoulders", "neck", "hem"}, "brown 75 stretch 2.5 mm"},
		{"../../content", "plum-bias-slip", []string{"right side", "top edge", "darts"}, "plum 60 1.8 mm loosened by half a turn"},
	} {
		t.Run(k.build, func(t *testing.T) {
			dir := filepath.Dir(k.room)
			if k.room != "../../content" {
				dir = writtenOut(t, roomIn(t, k.room))
			}
			to := filepath.Join(t.TempDir(), "packed")
			if code := run([]string{"pack", k.build, "--room", dir, "--for", "maker,repairer", "--language", "en", "--lays", "none", "--to", to}, io.Discard, io.Discard); code != exitFine {
				t.Fatalf("exit status %d", code)
			}
			for _, sheet := range []string{"remake.html", "repairs.html"} {
				html, err := os.ReadFile(filepath.Join(to, sheet))
				if err != nil {
					t.Fatal(err)
				}
				_, after, ok := strings.Cut(wordsOf(string(html)), "How the machine is set for ")
				row, _, set := strings.Cut(after, " "+k.set+" ")
				if !ok || !set {
					t.Errorf("%s does not say %q: %.300s", sheet, k.set, after)
				}
				for _, name := range k.sewn {
					if !strings.Contains(row, name) {
						t.Errorf("%s does not say that %s is sewn so: %.300s", sheet, name, row)
					}
				}
			}
		})
	}
}
