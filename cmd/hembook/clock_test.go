package main

import (
	"bufio"
	"bytes"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"hembook/internal/bench"
)

// TestClockAsks: what a maker at a terminal answers about a clock that was
// begun on a Wednesday at 16:00 and ended the next morning at 9:30.
func TestClockAsks(t *testing.T) {
	begun := time.Date(2026, 8, 5, 16, 0, 0, 0, time.Local)
	const hours = "hours: {wed: \"09:00-12:30, 13:30-17:00\", thu: \"09:00-12:30\"}\n"
	for _, c := range []struct {
		name, answers string
		noted         string // in the record; empty: nothing
		runs          bool   // still
		said          string // among the questions
	}{
		{"all the while", "1\n", "for: 1050 min", false, "I worked all that time: 17 h 30 min"},
		{"until closing", "2\n", "for: 60 min", false, "I stopped at closing, 17:00 yesterday: 1 h"},
		{"until another time", "3\nyesterday 18:15\n", "for: 135 min", false, "when did you stop?"},
		{"so long", "4\n1 h 20 min\n", "for: 80 min", false, "how long did it take?"},
		{"discard it", "5\n", "", false, "Discard it"},
		{"leave it", "\n", "", true, "Enter: leave it running"},
		{"nobody answers", "", "", true, "it ran overnight"},
		{"a slip first", "9\n3\nsoon\n3\nyesterday 15:00\n2\n", "for: 60 min", false, `"9" is no answer here`},
		{"nothing but slips", strings.Repeat("9\n", 20), "", true, `"9" is no answer here`},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir, path := jotRoom(t, jotRecord)
			replace(t, dir, "content/workroom.yaml", "name: Room\n"+hours)
			if _, _, err := bench.ClocksOf(dir).Start(bench.Clock{Build: "skirt", Step: "hem"}, begun); err != nil {
				t.Fatal(err)
			}
			var out, errs bytes.Buffer
			k := &clockDesk{opt: &options{room: dir}, now: func() time.Time { return begun.Add(17*time.Hour + 30*time.Minute) },
				out: &out, errs: &errs, in: bufio.NewReader(strings.NewReader(c.answers))}
			if err := k.off(nil); err != nil {
				t.Fatal(err)
			}
			text := contents(t, path)
			if got := text != jotRecord; got != (c.noted != "") || !strings.Contains(text, c.noted) {
				t.Errorf("noted\n%s", text)
			}
			if clocks, _ := bench.ClocksOf(dir).All(); (len(clocks) == 1) != c.runs {
				t.Errorf("%d clocks run", len(clocks))
			}
			if !strings.Contains(errs.String(), c.said) {
				t.Errorf("%q is not said in\n%s", c.said, &errs)
			}
		})
	}
}

// A clock whose build is gone stays until it is dropped.
func TestClockOfABuildThatIsGone(t *testing.T) {
	dir, _ := jotRoom(t, jotRecord)
	if _, _, err := bench.ClocksOf(dir).Start(bench.Clock{Build: "coat", Step: "hem"}, time.Now()); err != nil {
		t.Fatal(err)
	}
	code, _, errs := hembook(dir, "clock", "off")
	if code != exitFaults || !strings.Contains(errs, `there is no garment "coat" any more; the clock is kept`) {
		t.Errorf("exit status %d: %s", code, errs)
	}
	if code, out, errs := hembook(dir, "clock", "off", "--discard"); code != exitFine || !strings.Contains(out, "discarded") {
		t.Errorf("exit status %d: %s%s", code, out, errs)
	}
	if left, _ := filepath.Glob(filepath.Join(dir, ".hembook/clock/*.yaml")); len(left) > 0 {
		t.Errorf("left: %v", left)
	}
}
