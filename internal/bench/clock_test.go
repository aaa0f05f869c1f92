package bench

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"hembook/internal/record/amend"
)

const plainRecord = "name: Coat   # autumn\nstate:   sewing\nwork:\n  sides:\n"

// roomWith is a workroom's folder with one record.
func roomWith(t *testing.T, text string) (dir string, rec amend.File) {
	t.Helper()
	dir = t.TempDir()
	rec = amend.File{Folder: dir, Path: "content/builds/coat/build.yaml"}
	put(t, filepath.Join(dir, rec.Path), text)
	return dir, rec
}

func put(t *testing.T, path, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
}

func get(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// start begins the clock of the coat's sides.
func start(t *testing.T, s *Clocks, at time.Time) Clock {
	t.Helper()
	c, began, err := s.Start(Clock{Build: "coat", Step: "sides", Words: "sew sides"}, at)
	if err != nil || !began {
		t.Fatalf("began %v, %v", began, err)
	}
	return c
}

// only is the one clock there is, as another program would find it.
func only(t *testing.T, s *Clocks) Clock {
	t.Helper()
	all, err := s.All()
	if err != nil || len(all) != 1 {
		t.Fatalf("%d clocks, %v", len(all), err)
	}
	return all[0]
}

func TestClockOnAndOff(t *testing.T) {
	dir, rec := roomWith(t, plainRecord)
	s := ClocksOf(dir)
	if all, err := s.All(); len(all) != 0 || err != nil {
		t.Fatalf("before the first: %v, %v", all, err)
	}
	start(t, s, noon)
	if c, began, err := s.Start(Clock{Build: "coat", Step: "sides"}, noon.Add(time.Hour)); began || err != nil || !c.Since.Equal(noon) {
		t.Errorf("a second start: began %v, since %v, %v", began, c.Since, err)
	}
	c := only(t, s)
	e, err := s.Stop(c, Ending{Spent: c.Spent(noon.Add(48 * time.Minute)), Note: "it: *creeps*"}, rec)
	if err != nil {
		t.Fatal(err)
	}
	if e.Spent() != "48 min" {
		t.Errorf("noted %s", e.Spent())
	}
	want := plainRecord + "journal:\n  - {at: " + c.Since.Format(minuteLayout) + ", did: sides, for: 48 min, note: 'it: *creeps*'}\n"
	if got := get(t, filepath.Join(dir, rec.Path)); strings.ReplaceAll(got, `"`, "'") != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if all, _ := s.All(); len(all) != 0 {
		t.Errorf("still running: %v", all)
	}
	if _, err := s.Stop(c, Ending{Spent: time.Hour}, rec); !errors.Is(err, ErrNotRunning) {
		t.Errorf("ended twice: %v", err)
	}
}

func TestClockPause(t *testing.T) {
	dir, rec := roomWith(t, plainRecord)
	s := ClocksOf(dir)
	c := start(t, s, noon)
	if err := s.Pause(c, c.Spent(noon.Add(20*time.Minute))); err != nil {
		t.Fatal(err)
	}
	if c = only(t, s); !c.Paused() || c.Spent(noon.Add(5*time.Hour)) != 20*time.Minute {
		t.Errorf("paused %v at %v", c.Paused(), c.Spent(noon.Add(5*time.Hour)))
	}
	if _, _, err := s.Start(c, noon.Add(10*time.Minute)); err == nil || !strings.Contains(err.Error(), "it was not paused yet") {
		t.Errorf("going on before the pause: %v", err)
	}
	c = start(t, s, noon.Add(time.Hour))
	e, err := s.Stop(c, Ending{Spent: c.Spent(noon.Add(90 * time.Minute))}, rec)
	if err != nil || e.Spent() != "50 min" || !e.At.Equal(noon) {
		t.Errorf("%s from %v, %v", e.Spent(), e.At, err)
	}
}

// A record that cannot be added to keeps its clock, and the error has the line.
func TestClockKeptWhereTheRecordIsNotYAML(t *testing.T) {
	broken := "name: Coat\nstate: sewing\npieces: [front, back\nwork: []\n"
	dir, rec := roomWith(t, broken)
	s := ClocksOf(dir)
	c := start(t, s, noon)
	_, err := s.Stop(c, Ending{Spent: time.Hour}, rec)
	if err == nil || !strings.Contains(err.Error(), "build.yaml is unchanged: line ") {
		t.Fatalf("got %v", err)
	}
	if get(t, filepath.Join(dir, rec.Path)) != broken {
		t.Error("the record was changed")
	}
	put(t, filepath.Join(dir, rec.Path), plainRecord)
	if e, err := s.Stop(only(t, s), Ending{Spent: 61 * time.Minute}, rec); err != nil || e.Spent() != "61 min" {
		t.Errorf("once it is mended: %s, %v", e.Spent(), err)
	}
	if got := get(t, filepath.Join(dir, rec.Path)); strings.Count(got, "did: sides") != 1 || !strings.Contains(got, "61 min") {
		t.Errorf("got\n%s", got)
	}
}

// A program that ended after the record was written and before the clock was
// taken away: the time is not noted again.
func TestClockCutShort(t *testing.T) {
	dir, rec := roomWith(t, plainRecord)
	s := ClocksOf(dir)
	c := start(t, s, noon)
	file := filepath.Join(dir, clockFolder, c.name())
	c = only(t, s)
	c.noting = &Entry{At: c.Since, Did: c.Step, For: 48 * time.Minute}
	if err := c.noting.Write(rec); err != nil {
		t.Fatal(err)
	}
	put(t, file, string(c.text()))
	e, err := s.Stop(only(t, s), Ending{Spent: 55 * time.Minute}, rec)
	if err != nil || e.Spent() != "48 min" {
		t.Errorf("%s, %v", e.Spent(), err)
	}
	if got := get(t, filepath.Join(dir, rec.Path)); strings.Count(got, "did: sides") != 1 {
		t.Errorf("got\n%s", got)
	}
	if all, _ := s.All(); len(all) != 0 {
		t.Errorf("still running: %v", all)
	}
}

// The same, but cut off before the record was written: it is noted now.
func TestClockCutShorter(t *testing.T) {
	dir, rec := roomWith(t, plainRecord)
	s := ClocksOf(dir)
	start(t, s, noon)
	c := only(t, s)
	c.noting = &Entry{At: c.Since, Did: c.Step, For: 48 * time.Minute}
	put(t, filepath.Join(dir, clockFolder, c.name()), string(c.text()))
	if e, err := s.Stop(only(t, s), Ending{Spent: 55 * time.Minute}, rec); err != nil || e.Spent() != "55 min" || mustCount(t, e, rec) != 1 {
		t.Errorf("%s, %v", e.Spent(), err)
	}
}

// Cut off before the record was written, in the minute of an entry that says
// the same already: that one is not taken for it.
func TestClockCutShortBesideItsLike(t *testing.T) {
	dir, rec := roomWith(t, plainRecord)
	s := ClocksOf(dir)
	start(t, s, noon)
	c := only(t, s)
	c.noting, c.had = &Entry{At: c.Since, Did: c.Step, For: time.Minute}, 1
	if err := c.noting.Write(rec); err != nil {
		t.Fatal(err)
	}
	put(t, filepath.Join(dir, clockFolder, c.name()), string(c.text()))
	told := -1
	end := Ending{Spent: time.Minute, Done: true, Noting: func(e Entry, text []byte) (err error) { told, err = e.timesIn(text); return err }}
	if e, err := s.Stop(only(t, s), end, rec); err != nil || mustCount(t, e, rec) != 2 || told != 1 {
		t.Errorf("%d of it in the record, told of %d: %v", mustCount(t, e, rec), told, err)
	}
	if got := get(t, filepath.Join(dir, rec.Path)); strings.Count(got, "done: true") != 1 {
		t.Errorf("got\n%s", got)
	}
}

// A caller that cannot remember what is about to be noted leaves it unnoted.
func TestClockNotNotedUnremembered(t *testing.T) {
	dir, rec := roomWith(t, plainRecord)
	s := ClocksOf(dir)
	start(t, s, noon)
	full := errors.New("the disk is full")
	_, err := s.Stop(only(t, s), Ending{Spent: time.Hour, Noting: func(Entry, []byte) error { return full }}, rec)
	if !errors.Is(err, full) || only(t, s).noting != nil {
		t.Errorf("%v", err)
	}
	if got := get(t, filepath.Join(dir, rec.Path)); got != plainRecord {
		t.Errorf("got\n%s", got)
	}
}

// Of many who end one clock at once, one does; of many who begin one, one does.
func TestClockRaces(t *testing.T) {
	dir, rec := roomWith(t, plainRecord)
	const many = 8
	var began, ended [many]bool
	each := func(do func(i int, s *Clocks)) {
		var all sync.WaitGroup
		for i := range many {
			all.Go(func() { do(i, ClocksOf(dir)) })
		}
		all.Wait()
	}
	each(func(i int, s *Clocks) {
		var err error
		if _, began[i], err = s.Start(Clock{Build: "coat", Step: "sides"}, noon); err != nil {
			t.Error(err)
		}
	})
	c := only(t, ClocksOf(dir))
	each(func(i int, s *Clocks) {
		_, err := s.Stop(c, Ending{Spent: time.Hour}, rec)
		if ended[i] = err == nil; !ended[i] && !errors.Is(err, ErrNotRunning) {
			t.Error(err)
		}
	})
	if count(began[:]) != 1 || count(ended[:]) != 1 {
		t.Errorf("%d began it, %d ended it", count(began[:]), count(ended[:]))
	}
	if got := get(t, filepath.Join(dir, rec.Path)); strings.Count(got, "did: sides") != 1 {
		t.Errorf("got\n%s", got)
	}
}

func count(list []bool) (n int) {
	for _, b := range list {
		if b {
			n++
		}
	}
	return n
}

// A clock's file that somebody spoiled is named, left alone, and hides no other.
func TestClockSpoiled(t *testing.T) {
	dir, _ := roomWith(t, plainRecord)
	s := ClocksOf(dir)
	start(t, s, noon)
	put(t, filepath.Join(dir, clockFolder, "odd.yaml"), "build: coat\nstep: [")
	all, err := s.All()
	if len(all) != 1 || err == nil || !strings.Contains(err.Error(), ".hembook/clock/odd.yaml: it cannot be read as a clock") {
		t.Errorf("%d clocks, %v", len(all), err)
	}
}

// Steps may be called anything; each has a file of its own in the folder.
func TestClockNames(t *testing.T) {
	seen := map[string]bool{}
	for _, step := range []string{"sides", "../sides", "a/b", "a-b", "a b", ".", "..", "con", strings.Repeat("ö", 300), "sides\x00", ""} {
		c := Clock{Build: "coat", Step: step}
		name := c.name()
		if !filepath.IsLocal(name) || strings.ContainsAny(name, "/\\\x00 ") || len(name) > 200 || seen[name] || strings.HasPrefix(name, ".") {
			t.Errorf("%q: %q", step, name)
		}
		seen[name] = true
	}
}

func FuzzReadClock(f *testing.F) {
	c := Clock{Build: "coat", Step: "side: \"seams\"\n", Words: "sew", Since: noon, Counted: 3 * time.Minute, Running: noon.Add(time.Hour), Note: "a\nb"}
	f.Add(c.text())
	c.noting, c.Running = &Entry{At: noon, Did: c.Step, For: time.Hour}, time.Time{}
	f.Add(c.text())
	f.Add([]byte("build: a\nstep: b\nsince: 2026-08-05\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		c, err := readClock(text)
		if err != nil {
			return
		}
		again, err := readClock(c.text())
		if err != nil || again.Step != c.Step || !again.Since.Equal(c.Since.Truncate(time.Second)) || again.Note != c.Note {
			t.Errorf("%+v\nthen %+v, %v", c, again, err)
		}
	})
}

// What one program decided about a clock holds only while the clock is as it
// saw it: another may have paused it, or ended it and begun it anew.
func TestClockChangedMeanwhile(t *testing.T) {
	dir, rec := roomWith(t, plainRecord)
	s := ClocksOf(dir)
	start(t, s, noon)
	seen := only(t, s)
	if err := s.Pause(seen, 20*time.Minute); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Stop(seen, Ending{Spent: time.Hour}, rec); !errors.Is(err, ErrNotRunning) {
		t.Errorf("ended though it was paused: %v", err)
	}
	if err := s.Drop(only(t, s)); err != nil {
		t.Fatal(err)
	}
	start(t, s, noon.Add(time.Hour))
	if err := s.Drop(seen); !errors.Is(err, ErrNotRunning) {
		t.Errorf("another clock was dropped: %v", err)
	}
	if get(t, filepath.Join(dir, rec.Path)) != plainRecord || !only(t, s).Since.Equal(noon.Add(time.Hour)) {
		t.Error("something was noted, or the new clock changed")
	}
}

func mustCount(t *testing.T, e Entry, rec amend.File) int {
	t.Helper()
	n, err := e.in(rec)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// Cut off after the record was written; then the record cannot be read for a
// while. Neither ending the clock again nor clearing away forgets meanwhile that
// the time is noted.
func TestClockCutShortAndRecordBroken(t *testing.T) {
	dir, rec := roomWith(t, plainRecord)
	s := ClocksOf(dir)
	start(t, s, noon)
	c := only(t, s)
	c.noting = &Entry{At: c.Since, Did: c.Step, For: 48 * time.Minute}
	if err := c.noting.Write(rec); err != nil {
		t.Fatal(err)
	}
	put(t, filepath.Join(dir, clockFolder, c.name()), string(c.text()))
	whole := get(t, filepath.Join(dir, rec.Path))
	put(t, filepath.Join(dir, rec.Path), whole+"half: [a\n")
	if _, err := s.Stop(only(t, s), Ending{Spent: 55 * time.Minute}, rec); err == nil {
		t.Error("a record that cannot be read was written")
	}
	if known, err := EndErrand(dir, clockErrand); !known || err != nil {
		t.Error(known, err)
	}
	put(t, filepath.Join(dir, rec.Path), whole)
	if e, err := s.Stop(only(t, s), Ending{Spent: 55 * time.Minute}, rec); err != nil || e.Spent() != "48 min" || mustCount(t, e, rec) != 1 {
		t.Errorf("%s, %v\n%s", e.Spent(), err, get(t, filepath.Join(dir, rec.Path)))
	}
}

// TestClockErrand: a clock that was being noted when the program was stopped is
// taken away where the record has its time, and goes on where it has not.
func TestClockErrand(t *testing.T) {
	for _, noted := range []bool{false, true} {
		dir, rec := roomWith(t, plainRecord)
		s := ClocksOf(dir)
		start(t, s, noon)
		c := only(t, s)
		was := get(t, filepath.Join(dir, clockFolder, c.name()))
		c.noting = &Entry{At: c.Since, Did: c.Step, For: 48 * time.Minute}
		put(t, filepath.Join(dir, clockFolder, c.name()), string(c.text()))
		put(t, filepath.Join(dir, clockFolder, "."+c.name()+".writing-ABCD"), "half")
		if noted {
			if err := c.noting.Write(rec); err != nil {
				t.Fatal(err)
			}
		}
		record := get(t, filepath.Join(dir, rec.Path))
		if known, err := EndErrand(dir, clockErrand); !known || err != nil {
			t.Error(known, err)
		}
		all, err := s.All()
		if err != nil || (len(all) == 0) != noted {
			t.Errorf("noted %v: %v, %v", noted, all, err)
		}
		if !noted && get(t, filepath.Join(dir, clockFolder, c.name())) != was {
			t.Error("the clock does not go on as it was")
		}
		list, _ := filepath.Glob(filepath.Join(dir, clockFolder, ".*"))
		if len(list) > 0 || get(t, filepath.Join(dir, rec.Path)) != record {
			t.Errorf("noted %v: left %v, the record\n%s", noted, list, get(t, filepath.Join(dir, rec.Path)))
		}
	}
}
