package capture

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"hembook/internal/bench"
)

// TestWhatSlipsWrite: each kind of slip, and the lines it leaves in a record
// that was written by hand.
func TestWhatSlipsWrite(t *testing.T) {
	for _, c := range []struct {
		name  string
		slip  phoneSlip
		lines []string // that the record has now and had not
		said  string
	}{
		{"note", phoneSlip{Kind: "note", Note: "pressed *before* measuring"}, []string{"- {at: 2026-08-05 12:00, note: pressed *before* measuring}"}, "in the journal of Landing coat"},
		{"note of a step", phoneSlip{Kind: "note", Step: "sides", Note: "a: b"}, []string{"- {at: 2026-08-05 12:00, did: sides, note: \"a: b\"}"}, ""},
		{"done", phoneSlip{Kind: "done", Step: "sides"}, []string{"- {at: 2026-08-05 12:00, did: sides, done: true}"}, ""},
		{"time", phoneSlip{Kind: "time", Step: "sides", Spent: "1 h 20 min"}, []string{"- {at: 2026-08-05 10:40, did: sides, for: 80 min}"}, ""},
		{"measured", phoneSlip{Kind: "measured", Name: "hip", Value: "1004"}, []string{"measured: {waist: 702, hip: 1004}   # before the stay"}, "hip 1004, in Landing coat"},
		{"measured again", phoneSlip{Kind: "measured", Name: "waist", Value: "71.2 cm"},
			[]string{"measured: {waist: 71.2 cm}   # before the stay", "note: \"Measured again: waist 71.2 cm, before 702.\""}, "waist 71.2 cm, 702 before, in Landing coat"},
		{"measured the same", phoneSlip{Kind: "measured", Name: "waist", Value: "702"}, nil, ""},
		{"hang", phoneSlip{Kind: "hang", Of: []string{"skirt.hem"}, After: "24 h", Drops: []string{"0", "2", "-1", "0.5 cm"}},
			[]string{"hang:", "- {of: skirt.hem, day: 2026-08-05, after: 24 h, drops: [0, 2, -1, 0.5 cm]}"}, "hem drop at 4 places of skirt.hem, in Landing coat"},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := newRoom(t)
			c.slip.ID = numbered(1)
			for range 3 { // sent three times
				a := keep(t, dir, noon, c.slip)
				if a.State != kept || c.said != "" && a.Said != c.said {
					t.Fatalf("%+v", a)
				}
			}
			got := coat(t, dir)
			for _, line := range c.lines {
				if times(got, line) != 1 {
					t.Errorf("%q stands there %d times in\n%s", line, times(got, line), got)
				}
			}
			if !strings.HasPrefix(got, coatRecord[:strings.Index(coatRecord, "journal:")]) {
				t.Errorf("what stood before is changed\n%s", got)
			}
			if len(c.lines) == 0 && got != coatRecord {
				t.Errorf("changed\n%s", got)
			}
			if k := openRecord(t, dir); k != "" {
				t.Errorf("the record is at fault now: %s", k)
			}
		})
	}
}

// TestAnAfternoonOfClocks: on, pause, on and off, sent at the end all at once
// and then all at once again.
func TestAnAfternoonOfClocks(t *testing.T) {
	dir := newRoom(t)
	at := func(min int) int64 { return noon.Add(time.Duration(min) * time.Minute).UnixMilli() }
	all := []phoneSlip{
		{ID: numbered(1), Kind: "on", Step: "sides", At: at(0)},
		{ID: numbered(2), Kind: "pause", Step: "sides", At: at(20)},
		{ID: numbered(3), Kind: "on", Step: "hem", At: at(22)},
		{ID: numbered(4), Kind: "on", Step: "sides", At: at(30)},
		{ID: numbered(5), Kind: "off", Step: "hem", At: at(34), Done: true, Note: "quick"},
		{ID: numbered(6), Kind: "off", Step: "sides", At: at(58)},
	}
	for range 2 {
		for _, s := range all {
			if a := keep(t, dir, noon.Add(2*time.Hour), s); a.State != kept {
				t.Fatalf("%s of %s: %+v", s.Kind, s.Step, a)
			}
		}
	}
	got := coat(t, dir)
	for _, line := range []string{"- {at: 2026-08-05 12:22, did: hem, for: 12 min, done: true, note: quick}", "- {at: 2026-08-05 12:00, did: sides, for: 48 min}"} {
		if times(got, line) != 1 {
			t.Errorf("%q stands there %d times in\n%s", line, times(got, line), got)
		}
	}
	if left, _ := bench.ClocksOf(dir).All(); len(left) != 0 {
		t.Errorf("still running: %v", left)
	}
}

// TestRefusedSlips: each is answered with a reason, and nothing is written.
func TestRefusedSlips(t *testing.T) {
	ms := func(d time.Duration) int64 { return noon.Add(d).UnixMilli() }
	for _, c := range []struct {
		name string
		slip phoneSlip
		said string
	}{
		{"no build", phoneSlip{Kind: "note", Build: "cape", Note: "x"}, `there is no garment "cape" any more`},
		{"a path for a build", phoneSlip{Kind: "note", Build: "../builds/coat", Note: "x"}, "there is no garment"},
		{"no step", phoneSlip{Kind: "done", Step: "lining"}, `Landing coat has no step "lining" any more`},
		{"nothing", phoneSlip{Kind: "note", Note: "  "}, "write something first"},
		{"no photograph", phoneSlip{Kind: "note", Photo: true}, "its photograph did not come with it"},
		{"a control character", phoneSlip{Kind: "note", Note: "a\x07b"}, "control character"},
		{"no clock", phoneSlip{Kind: "off", Step: "sides"}, "the clock for sides was stopped on the computer"},
		{"no length", phoneSlip{Kind: "measured", Name: "hip", Value: "wide"}, "hip: "},
		{"nothing wide", phoneSlip{Kind: "measured", Name: "hip", Value: "0"}, "nothing measures 0"},
		{"no such edge", phoneSlip{Kind: "hang", Of: []string{"skirt.top"}, Drops: []string{"0", "1"}}, `no edge "skirt.top"`},
		{"a drop of a storey", phoneSlip{Kind: "hang", Of: []string{"skirt.hem"}, Drops: []string{"0", "3 m"}}, "place 2: 3 m is more than a hem drops"},
		{"one station", phoneSlip{Kind: "hang", Of: []string{"skirt.hem"}, Drops: []string{"0"}}, "fewer than two places"},
		{"tomorrow", phoneSlip{Kind: "note", Note: "x", At: ms(24 * time.Hour)}, "is still to come"},
		{"last winter", phoneSlip{Kind: "note", Note: "x", At: ms(-200 * 24 * time.Hour)}, "more than 60 days ago"},
		{"no time", phoneSlip{Kind: "time", Step: "sides", Spent: "soon"}, `"soon" is not how long it took`},
		{"no kind", phoneSlip{Kind: "erase", Note: "x"}, ""},
		{"no id", phoneSlip{Kind: "note", Note: "x", ID: "../../x"}, ""},
		{"two lines for a name", phoneSlip{Kind: "measured", Name: "a\nb", Value: "3"}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := newRoom(t)
			if c.slip.ID == "" {
				c.slip.ID = numbered(1)
			}
			a := keep(t, dir, noon, c.slip)
			if a.State == kept || !strings.Contains(a.Said, c.said) || c.said != "" && a.State != refused {
				t.Errorf("%+v", a)
			}
			if coat(t, dir) != coatRecord {
				t.Errorf("written\n%s", coat(t, dir))
			}
			if left, _ := filepath.Glob(filepath.Join(dir, ledgerFolder, "*.json")); len(left) > 0 {
				t.Errorf("remembered: %v", left)
			}
		})
	}
}

// A clock that ran overnight is asked about, and entered once that is answered.
func TestForgottenClockIsAskedAbout(t *testing.T) {
	for _, c := range []struct {
		name  string
		slip  phoneSlip
		noted string
	}{
		{"all the while", phoneSlip{Kind: "off", Sure: true}, "for: 1320 min"},
		{"until closing", phoneSlip{Kind: "off", Sure: true, At: noon.Add(30 * time.Minute).UnixMilli()}, "for: 30 min"},
		{"so long", phoneSlip{Kind: "off", Spent: "45m"}, "for: 45 min"},
		{"dropped", phoneSlip{Kind: "drop"}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := newRoom(t)
			keep(t, dir, noon, phoneSlip{ID: numbered(1), Kind: "on", Step: "sides"})
			next := noon.Add(22 * time.Hour)
			a := keep(t, dir, next, phoneSlip{ID: numbered(2), Kind: "off", Step: "sides"})
			want := clockQuestion{Ran: "22 h", Closed: noon.Add(30 * time.Minute).UnixMilli(), ClosedRan: "30 min"}
			if a.State != refused || a.Ask == nil || *a.Ask != want || coat(t, dir) != coatRecord {
				t.Fatalf("%+v, asked %+v", a, a.Ask)
			}
			c.slip.ID, c.slip.Step = numbered(3), "sides"
			if a := keep(t, dir, next, c.slip); a.State != kept {
				t.Fatalf("%+v", a)
			}
			if got := coat(t, dir); c.noted != "" && times(got, c.noted) != 1 || c.noted == "" && got != coatRecord {
				t.Errorf("noted\n%s", got)
			}
			if left, _ := bench.ClocksOf(dir).All(); len(left) != 0 {
				t.Errorf("still running: %v", left)
			}
		})
	}
}

// What was changed at the terminal meanwhile is answered, not overrun.
func TestTerminalAndPhone(t *testing.T) {
	dir := newRoom(t)
	clocks := bench.ClocksOf(dir)
	if _, _, err := clocks.Start(bench.Clock{Build: "coat", Step: "sides"}, noon.Add(-time.Hour)); err != nil {
		t.Fatal(err)
	}
	if a := keep(t, dir, noon, phoneSlip{ID: numbered(1), Kind: "on", Step: "sides"}); a.State != kept || a.Said != "already running since 11:00" {
		t.Errorf("begun before at the terminal: %+v", a)
	}
	if a := keep(t, dir, noon, phoneSlip{ID: numbered(2), Kind: "on", Step: "sides", At: noon.Add(-2 * time.Hour).UnixMilli()}); a.State != refused || !strings.Contains(a.Said, "started elsewhere at 11:00") {
		t.Errorf("begun later at the terminal: %+v", a)
	}
	if a := keep(t, dir, noon, phoneSlip{ID: numbered(3), Kind: "off", Step: "sides", At: noon.Add(-2 * time.Hour).UnixMilli()}); a.State != refused || !strings.Contains(a.Said, "started again") {
		t.Errorf("ended before it was begun anew: %+v", a)
	}
}

// A phone whose clock is an hour ahead notes by the workroom's.
func TestPhoneWithAWrongClock(t *testing.T) {
	dir := newRoom(t)
	phone := noon.Add(time.Hour)
	s := phoneSlip{ID: numbered(1), Kind: "note", Build: "coat", Note: "x", At: phone.Add(-10 * time.Minute).UnixMilli()}
	if a := keeperAt(dir, noon).keep(s, phone.UnixMilli(), nil); a.State != kept || times(coat(t, dir), "at: 2026-08-05 11:50") != 1 {
		t.Errorf("%+v\n%s", a, coat(t, dir))
	}
}

// An id is one slip's: another with the same id is refused.
func TestAnIDIsUsedOnce(t *testing.T) {
	dir := newRoom(t)
	keep(t, dir, noon, phoneSlip{ID: numbered(1), Kind: "note", Note: "one"})
	if a := keep(t, dir, noon, phoneSlip{ID: numbered(1), Kind: "note", Note: "two"}); a.State != refused {
		t.Errorf("%+v", a)
	}
	if a := keep(t, dir, noon, phoneSlip{ID: numbered(1), Kind: "note", Note: "one"}); a.State != kept {
		t.Errorf("the first is forgotten: %+v", a)
	}
}

// A record that is not YAML at present keeps the phone waiting, and takes the
// slip once it is mended.
func TestBrokenRecordKeepsThePhoneWaiting(t *testing.T) {
	dir := newRoom(t)
	put(t, dir, "content/builds/coat/build.yaml", "name: [Landing coat\n")
	s := phoneSlip{ID: numbered(1), Kind: "note", Note: "x"}
	if a := keep(t, dir, noon, s); a.State != later || !strings.Contains(a.Said, "must be corrected first") {
		t.Errorf("%+v", a)
	}
	put(t, dir, "content/builds/coat/build.yaml", coatRecord)
	if a := keep(t, dir, noon, s); a.State != kept || times(coat(t, dir), "note: x") != 1 {
		t.Errorf("%+v", a)
	}
}

var errCut = errors.New("cut off")

// cutAt enters a slip with a program that ends at the nth of its steps, as
// far as a panic ends one; it reports whether it got there.
func cutAt(dir string, now time.Time, s phoneSlip, photo *bench.Photo, n int) (cut bool) {
	k := keeperAt(dir, now)
	k.passed = func(string) error {
		if n--; n == 0 {
			panic(errCut)
		}
		return nil
	}
	defer func() {
		if r := recover(); r != nil {
			if r != errCut {
				panic(r)
			}
			cut = true
		}
	}()
	k.keep(s, now.UnixMilli(), photo)
	return false
}

// TestCutOffAnywhere: a program that ends at any of its steps, twice over,
// leaves each slip once when it is sent again.
func TestCutOffAnywhere(t *testing.T) {
	data := picture(t, 40, 30)
	for _, c := range []struct {
		name  string
		slip  phoneSlip
		photo bool
		part  string // stands in the record once more than before
	}{
		{"note", phoneSlip{Kind: "note", Note: "just so"}, false, "note: just so"},
		{"note like another", phoneSlip{Kind: "time", Step: "cut-out", Spent: "42m", At: time.Date(2026, 8, 4, 10, 12, 0, 0, time.Local).UnixMilli()}, false, "did: cut-out, for: 42 min"},
		{"photo", phoneSlip{Kind: "note", Note: "the fell", Photo: true}, true, "photo: photos/2026-08-05-the-fell.jpg"},
		{"done", phoneSlip{Kind: "done", Step: "sides"}, false, "done: true"},
		{"measured", phoneSlip{Kind: "measured", Name: "waist", Value: "712"}, false, "waist: 712"},
		{"hang", phoneSlip{Kind: "hang", Of: []string{"skirt.hem"}, Drops: []string{"0", "4"}}, false, "drops: [0, 4]"},
		{"off", phoneSlip{Kind: "off", Step: "sides"}, false, "did: sides, for: 30 min"},
		{"on", phoneSlip{Kind: "on", Step: "hem"}, false, ""},
		{"pause", phoneSlip{Kind: "pause", Step: "sides"}, false, ""},
		{"drop", phoneSlip{Kind: "drop", Step: "sides"}, false, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.slip.Build = "coat"
			if c.slip.At == 0 {
				c.slip.At = noon.UnixMilli()
			}
			reached := 0
			for n := 1; n < 12; n++ {
				dir := newRoom(t)
				keep(t, dir, noon.Add(-30*time.Minute), phoneSlip{ID: numbered(1), Kind: "on", Step: "sides"})
				c.slip.ID = numbered(2)
				var photo *bench.Photo
				if c.photo {
					photo = photoOf(t, data)
				}
				before := times(coat(t, dir), c.part)
				if !cutAt(dir, noon, c.slip, photo, n) {
					break
				}
				reached++
				cutAt(dir, noon.Add(time.Minute), c.slip, photo, 1)
				for range 2 {
					if a := keeperAt(dir, noon.Add(2*time.Minute)).keep(c.slip, 0, photo); a.State != kept {
						t.Fatalf("cut off at step %d: %+v", n, a)
					}
				}
				if got := coat(t, dir); c.part != "" && times(got, c.part) != before+1 {
					t.Errorf("cut off at step %d: %q stands there %d times, %d before, in\n%s", n, c.part, times(got, c.part), before, got)
				}
				if kept, _ := filepath.Glob(filepath.Join(dir, "content/builds/coat/photos/*")); c.photo && len(kept) != 1 {
					t.Errorf("cut off at step %d: photographs %v", n, kept)
				}
				clocksAre(t, dir, c.slip.Kind)
			}
			if reached < 2 {
				t.Errorf("only %d steps were reached", reached)
			}
		})
	}
}

// clocksAre looks whether the clock of sides is as a slip leaves it.
func clocksAre(t *testing.T, dir, kind string) {
	t.Helper()
	all, err := bench.ClocksOf(dir).All()
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]int{"off": 0, "drop": 0, "on": 2}
	n, ok := want[kind]
	if !ok {
		n = 1
	}
	if len(all) != n || kind == "pause" && (!all[0].Paused() || all[0].Counted != 30*time.Minute) {
		t.Errorf("clocks: %v", all)
	}
}

// A value that the maker changed between the cut and the next sending stays.
func TestCutOffThenChangedByHand(t *testing.T) {
	dir := newRoom(t)
	s := phoneSlip{ID: numbered(1), Kind: "measured", Build: "coat", Name: "waist", Value: "712", At: noon.UnixMilli()}
	if !cutAt(dir, noon, s, nil, 2) {
		t.Fatal("not cut off")
	}
	put(t, dir, "content/builds/coat/build.yaml", strings.Replace(coat(t, dir), "waist: 712", "waist: 715", 1))
	if a := keep(t, dir, noon, s); a.State != refused || !strings.Contains(a.Said, "changed meanwhile, to 715") || times(coat(t, dir), "waist: 715") != 1 {
		t.Errorf("%+v\n%s", a, coat(t, dir))
	}
}

// Two programs enter the same hundred slips at once: each is there once.
func TestTwoBenchesOfOneWorkroom(t *testing.T) {
	dir := newRoom(t)
	const many = 100
	done := make(chan slipAnswer, 2*many)
	for range 2 {
		go func() {
			k := keeperAt(dir, noon)
			for i := range many {
				done <- k.keep(phoneSlip{ID: numbered(i), Kind: "note", Build: "coat", Note: "n" + numbered(i)[24:], At: noon.UnixMilli()}, 0, nil)
			}
		}()
	}
	for range 2 * many {
		if a := <-done; a.State != kept {
			t.Errorf("%+v", a)
		}
	}
	got := coat(t, dir)
	for i := range many {
		if n := times(got, "note: n"+numbered(i)[24:]); n != 1 {
			t.Errorf("slip %d stands there %d times", i, n)
		}
	}
}

// A ledger that cannot be written keeps everything as it is.
func TestNothingIsWrittenUnremembered(t *testing.T) {
	dir := newRoom(t)
	put(t, dir, ".hembook/bench", "a file where the folder should be")
	if a := keep(t, dir, noon, phoneSlip{ID: numbered(1), Kind: "note", Note: "x"}); a.State != later || coat(t, dir) != coatRecord {
		t.Errorf("%+v\n%s", a, coat(t, dir))
	}
	if err := os.Remove(filepath.Join(dir, ".hembook/bench")); err != nil {
		t.Fatal(err)
	}
	put(t, dir, ledgerFolder+"/"+numbered(2)+".json", "{half a rec")
	if a := keep(t, dir, noon, phoneSlip{ID: numbered(2), Kind: "note", Note: "x"}); a.State != later || !strings.Contains(a.Said, "cannot be read") || coat(t, dir) != coatRecord {
		t.Errorf("%+v", a)
	}
}
