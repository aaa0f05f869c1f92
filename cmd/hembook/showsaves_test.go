package main

import (
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"go.uber.org/goleak"
)

// A save is one thing done to the workroom while its preview is open, and what
// the maker sees of it afterwards.
type save struct {
	what string
	do   func(t *testing.T, dir string)
	// what an open page is told: the heading and the faults, in order
	heading string
	faults  []string
	// pages as they are then: words that stand there, or "" where there is none
	pages map[string]string
}

const (
	practice = "content/builds/practice-skirt/build.yaml"
	second   = "content/builds/second/build.yaml"
	oneSlip  = "1 thing wrong in the records; this page is as it was before"
	gone     = "content/workroom.yaml:1: this file cannot be read: there is no such file (is the name spelt the same, capitals too?)"
	wordSlip = practice + `:3: unknown word "sumary" (did you mean "summary"?)`
)

// TestShowSaves: whatever comes, goes, is renamed, broken or mended is on the
// pages without anything else being done; where it is wrong, the pages stay and
// say so.
func TestShowSaves(t *testing.T) {
	defer goleak.VerifyNone(t, goleak.IgnoreCurrent(), endsByItself)
	dir := begunRoom(t)
	good := contents(t, filepath.Join(dir, practice))
	other := strings.Replace(good, "name: Practice skirt", "name: Second skirt", 1)
	broken := strings.Replace(good, "summary:", "sumary:", 1)
	if other == good || broken == good {
		t.Fatal("the starter is not what this test takes it for")
	}
	away := t.TempDir()
	write := func(name, text string) func(*testing.T, string) {
		return func(t *testing.T, dir string) { replace(t, dir, name, text) }
	}
	s := showRoom(t, dir)
	s.follow([]save{
		{what: "as it is begun", pages: map[string]string{"builds/practice-skirt.html": "Practice skirt", "builds/second.html": ""}},
		{what: "a new folder with a record in it", do: func(t *testing.T, dir string) {
			makeFolder(t, dir, "content/builds/second")
			replace(t, dir, second, other)
		}, pages: map[string]string{"builds/second.html": "Second skirt", "builds/index.html": "Second skirt"}},
		{what: "a record saved by renaming", do: saveByRename(second, strings.Replace(other, "Two panels gathered", "Four panels gathered", 1)),
			pages: map[string]string{"builds/second.html": "Four panels gathered"}},
		{what: "and once more, where no watch may rest on the old file", do: saveByRename(second, strings.Replace(other, "Two panels gathered", "Six panels gathered", 1)),
			pages: map[string]string{"builds/second.html": "Six panels gathered"}},
		{what: "a folder renamed", do: rename("content/builds/second", "content/builds/third"),
			pages: map[string]string{"builds/second.html": "", "builds/third.html": "Six panels gathered"}},
		{what: "a save in the renamed folder", do: write("content/builds/third/build.yaml", other),
			pages: map[string]string{"builds/third.html": "Two panels gathered"}},
		{what: "a folder moved away", do: func(t *testing.T, dir string) {
			if err := os.Rename(filepath.Join(dir, "content/builds/third"), filepath.Join(away, "second")); err != nil {
				t.Fatal(err)
			}
		}, pages: map[string]string{"builds/third.html": "", "builds/practice-skirt.html": "Practice skirt"}},
		{what: "a full folder moved in", do: func(t *testing.T, dir string) {
			if err := os.Rename(filepath.Join(away, "second"), filepath.Join(dir, "content/builds/second")); err != nil {
				t.Fatal(err)
			}
		}, pages: map[string]string{"builds/second.html": "Two panels gathered"}},
		{what: "a slip", do: write(practice, broken), heading: oneSlip, faults: []string{wordSlip},
			pages: map[string]string{"builds/practice-skirt.html": "Practice skirt"}},
		{what: "good work while the slip stands", do: write(second, strings.Replace(other, "Two panels gathered", "Nine panels gathered", 1)),
			heading: oneSlip, faults: []string{wordSlip}, pages: map[string]string{"builds/second.html": "Two panels gathered"}},
		{what: "another slip, in a new folder", do: func(t *testing.T, dir string) {
			makeFolder(t, dir, "content/builds/slipped")
			replace(t, dir, "content/builds/slipped/build.yaml", strings.NewReplacer("Practice skirt", "Slipped", "\nnotions:", "\nnotons:").Replace(good))
		}, heading: "2 things wrong in the records; this page is as it was before",
			faults: []string{wordSlip, `content/builds/slipped/build.yaml:31: unknown word "notons" (did you mean "notions"?)`},
			pages:  map[string]string{"builds/slipped.html": ""}},
		{what: "the folder with a slip deleted", do: removeAll("content/builds/slipped"), heading: oneSlip, faults: []string{wordSlip}},
		{what: "the first slip mended", do: write(practice, good),
			pages: map[string]string{"builds/second.html": "Nine panels gathered", "builds/slipped.html": ""}},
		{what: "a record deleted, its folder left", do: removeAll(second), pages: map[string]string{"builds/second.html": ""}},
		{what: "a record in the folder that was left", do: write(second, other), pages: map[string]string{"builds/second.html": "Two panels gathered"}},
		{what: "all builds deleted", do: removeAll("content/builds"),
			heading: oneSlip, faults: []string{`content/pages/about.md:6: there is no garment "practice-skirt" to link to (there is none yet)`},
			pages: map[string]string{"builds/second.html": "Two panels gathered"}},
		{what: "builds made anew", do: func(t *testing.T, dir string) {
			makeFolder(t, dir, "content/builds/practice-skirt")
			replace(t, dir, practice, good)
		}, pages: map[string]string{"builds/practice-skirt.html": "Practice skirt", "builds/second.html": ""}},
	})
	s.end()
	for words, times := range map[string]int{`unknown word "sumary"`: 1, `unknown word "notons"`: 1, "that is right now": 2} {
		if printed := s.errs.String(); strings.Count(printed, words) != times {
			t.Errorf("%q is not printed %d times but\n%s", words, times, printed)
		}
	}
}

// TestShowWithoutItsWorkroom: the last pages stay where the workroom's own
// record is gone, and go on where it is back.
func TestShowWithoutItsWorkroom(t *testing.T) {
	defer goleak.VerifyNone(t, goleak.IgnoreCurrent(), endsByItself)
	dir := begunRoom(t)
	s := showRoom(t, dir)
	page := map[string]string{"builds/practice-skirt.html": "Practice skirt"}
	s.follow([]save{
		{what: "as it is begun", pages: page},
		{what: "the workroom's record gone", do: rename("content/workroom.yaml", "content/workroom.yml"), heading: oneSlip, faults: []string{gone}, pages: page},
		{what: "and back", do: rename("content/workroom.yml", "content/workroom.yaml"), pages: page},
		{what: "all gone", do: rename("content", "elsewhere"), heading: oneSlip, faults: []string{gone}, pages: page},
		{what: "all back", do: rename("elsewhere", "content"), pages: page},
		{what: "a save then", do: func(t *testing.T, dir string) {
			replace(t, dir, practice, strings.Replace(contents(t, filepath.Join(dir, practice)), "Two panels gathered", "Ten panels gathered", 1))
		}, pages: map[string]string{"builds/practice-skirt.html": "Ten panels gathered"}},
	})
	s.end()
	if printed := s.errs.String(); strings.Count(printed, "there is no such file") != 2 || strings.Count(printed, "that is right now") != 2 {
		t.Errorf("printed\n%s", printed)
	}
}

// follow does one thing after another and waits each time until an open page
// is told of it. A press may come between the halves of a save: what is told
// then is passed over, and a state that never comes ends the test.
func (s *shownRoom) follow(saves []save) {
	s.t.Helper()
	next, end := s.listen()
	defer end()
	for _, c := range saves {
		if c.do != nil {
			c.do(s.t.(*testing.T), s.dir)
		}
		for {
			st := next()
			if strings.HasSuffix(st.Version, "-0") {
				continue
			}
			if s.shows(c, st) {
				break
			}
			s.t.Logf("%s: not yet, but %+v", c.what, st)
		}
	}
}

func (s *shownRoom) shows(c save, st toldState) bool {
	if st.Heading != c.heading {
		return false
	}
	var faults []string
	for _, f := range st.Faults {
		line := f.File
		if f.Line > 0 {
			line += ":" + strconv.Itoa(f.Line)
		}
		line += ": " + f.Message
		if f.Hint != "" {
			line += " (" + f.Hint + ")"
		}
		faults = append(faults, line)
	}
	if strings.Join(faults, "\n") != strings.Join(c.faults, "\n") {
		return false
	}
	for page, words := range c.pages {
		text, there := s.page(page)
		if there != (words != "") || !strings.Contains(text, words) {
			return false
		}
	}
	return true
}

func (s *shownRoom) page(name string) (string, bool) {
	s.t.Helper()
	res, err := http.Get(s.base + name)
	if err != nil {
		s.t.Fatal(err)
	}
	defer res.Body.Close()
	defer http.DefaultClient.CloseIdleConnections()
	text, err := io.ReadAll(res.Body)
	if err != nil {
		s.t.Fatal(err)
	}
	return string(text), res.StatusCode == http.StatusOK
}

func makeFolder(t *testing.T, dir, name string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Join(dir, name), 0o777); err != nil {
		t.Fatal(err)
	}
}

// saveByRename saves as editors do that put a new file in the old one's place.
func saveByRename(name, text string) func(*testing.T, string) {
	return func(t *testing.T, dir string) {
		replace(t, dir, name+".tmp", text)
		rename(name+".tmp", name)(t, dir)
	}
}

func rename(from, to string) func(*testing.T, string) {
	return func(t *testing.T, dir string) {
		if err := os.Rename(filepath.Join(dir, from), filepath.Join(dir, to)); err != nil {
			t.Fatal(err)
		}
	}
}

func removeAll(name string) func(*testing.T, string) {
	return func(t *testing.T, dir string) {
		if err := os.RemoveAll(filepath.Join(dir, name)); err != nil {
			t.Fatal(err)
		}
	}
}
