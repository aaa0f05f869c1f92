package press

import (
	"path/filepath"
	"strings"
	"testing"
)

// TestOrderOfWorkInWords: a page says what to take up and whether the due date
// holds, and gives the days of what is still to do in a table. By hand: of two steps
// of an hour the first was done on Thursday 5 March 2026 from 10:00 to 11:00
// and the second needs it, so that with work from 9:00 to 12:00 it is over at
// 12:00 the same day: in time for the 6th, too late for the 4th. The plan
// begins on 1 January, a Thursday, when the build was begun.
func TestOrderOfWorkInWords(t *testing.T) {
	if testing.Short() {
		t.Skip("presses with the workers of the other tests")
	}
	const build = "content/builds/skirt-0/build.yaml"
	again := "journal:\n"
	for _, c := range []struct {
		what, due, journal string
		want, not          []string
	}{
		{"in time", "2026-03-06", again, []string{"As it stood on 5 March 2026, 11:00. Start now: again.", "In time, with 3 h to spare.",
			"Still to do, 2026", "again | yes | 1 Jan | to do 5 Mar |"}, []string{"Late by"}},
		{"too late", "2026-03-04", again, []string{"Start now: again.", "Late by 3 h."}, []string{"In time"}},
		{"done", "2026-03-06", again + "  - {at: 2026-03-05 12:00, did: again, for: 1 h, done: true}\n",
			[]string{"Finished in time.", "finished"}, []string{"Start now", "critical", "labour left", "if all goes"}},
		{"done too late", "2026-03-04", again + "  - {at: 2026-03-05 12:00, did: again, for: 1 h, done: true}\n",
			[]string{"Finished late."}, []string{"Start now"}},
		{"nothing due", "", again, []string{"Start now: again."}, []string{"In time", "Late by"}},
	} {
		f := several()
		f["content/workroom.yaml"] += "hours: {mon: \"09:00-12:00\", tue: \"09:00-12:00\", wed: \"09:00-12:00\", thu: \"09:00-12:00\", fri: \"09:00-12:00\"}\n"
		text := strings.NewReplacer("sews: [side], technique: plain-way", "sews: [side], takes: 1 h",
			"for: 20 min", "for: 1 h", again, c.journal).Replace(skirt(0))
		if c.due != "" {
			text = strings.Replace(text, "state: sewing", "due: "+c.due+"\nstate: sewing", 1)
		}
		f[build] = text
		got := pressed(t, room(t, f), filepath.Join(t.TempDir(), "pressed"))["builds/skirt-0/work.html"]
		got = tags.ReplaceAllString(strings.NewReplacer("</th>", " | ", "</td>", " | ").Replace(got), "")
		for _, want := range c.want {
			if !strings.Contains(got, want) {
				t.Errorf("%s: the page does not say %q:\n%s", c.what, want, got)
			}
		}
		for _, not := range c.not {
			if strings.Contains(got, not) {
				t.Errorf("%s: the page says %q", c.what, not)
			}
		}
	}
}
