package main

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"hembook/internal/record"
	"hembook/internal/words"
)

// The day the demo is told on: nothing of it lies later.
var told = time.Date(2026, 11, 30, 23, 59, 0, 0, time.UTC)

// A spell is an entry of a journal, from when to when it was worked.
type spell struct {
	garment  string
	from, to time.Time
	entry    *record.Entry
}

func (s spell) String() string { return s.garment + " " + s.from.Format("Mon 2 January 15:04") }

// story opens the demo and gives its garments and the spells of all journals, in order.
func story(t *testing.T) (*record.Room, []*record.Build, []spell) {
	t.Helper()
	room, _, err := record.Open("../..")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { room.Close() })
	var builds []*record.Build
	var spells []spell
	for _, f := range room.Builds {
		b, _ := room.ReadBuild(f)
		builds = append(builds, b)
		for i := range b.Journal {
			e := &b.Journal[i]
			spells = append(spells, spell{f.Slug, e.When.V, e.When.V.Add(e.For.V), e})
		}
	}
	slices.SortStableFunc(spells, func(a, b spell) int { return a.from.Compare(b.from) })
	return room, builds, spells
}

// TestStoryHours: all that is noted in the demo lies in the working hours of its workroom, on
// no day off and not in the future, and no two garments share a minute: the workroom is of one.
func TestStoryHours(t *testing.T) {
	room, _, spells := story(t)
	open := map[string][][2]int{}
	for i := range room.Workroom.Hours {
		h := &room.Workroom.Hours[i]
		open[h.Name.V] = h.V.Spans
	}
	for i, s := range spells {
		if s.to.After(told) {
			t.Errorf("%s is not yet", s)
		}
		for j := range room.Workroom.DaysOff {
			if off := room.Workroom.DaysOff[j].V.Time(); off.Format(time.DateOnly) == s.from.Format(time.DateOnly) {
				t.Errorf("%s is a day off", s)
			}
		}
		from := s.from.Hour()*60 + s.from.Minute()
		to := from + int(s.to.Sub(s.from).Minutes())
		within := func(span [2]int) bool { return span[0] <= from && to <= span[1] }
		if day := strings.ToLower(s.from.Format("Mon")); from > 0 && !slices.ContainsFunc(open[day], within) {
			t.Errorf("%s, %v long, does not lie in the hours of a %s", s, s.to.Sub(s.from), day)
		}
		for _, other := range spells[i+1:] {
			if other.from.Before(s.to) && s.from.Before(other.to) || other.from.Equal(s.from) && other.garment != s.garment {
				t.Errorf("%s and %s lie over each other", s, other)
			}
		}
	}
}

// TestStoryDates: a garment is begun before it is worked on, its journal is in order, it is sent
// after all that is done on it, and what came by photograph, film or post was looked at that day.
func TestStoryDates(t *testing.T) {
	_, builds, _ := story(t)
	for _, b := range builds {
		var last time.Time
		for i := range b.Journal {
			e := &b.Journal[i]
			if e.When.V.Before(last) {
				t.Errorf("%s: %s comes before the entry above it", b.Slug, e.When.V.Format(time.DateTime))
			}
			if last = e.When.V; b.Begun.Given() && last.Before(b.Begun.V.Time()) {
				t.Errorf("%s: %s is before it was begun", b.Slug, last.Format(time.DateOnly))
			}
		}
		if gone := b.State.V == "sent"; gone != b.Sent.Given() {
			t.Errorf("%s is %s, and its day of sending: %v", b.Slug, b.State.V, b.Sent.Given())
		} else if gone && b.Sent.V.Time().Format(time.DateOnly) != last.Format(time.DateOnly) {
			t.Errorf("%s was sent on %s, and its journal ends on %s", b.Slug, b.Sent.V.Time().Format(time.DateOnly), last.Format(time.DateOnly))
		}
		for i := range b.Fittings {
			f := &b.Fittings[i]
			day := f.On.V.Time().Format(time.DateOnly)
			if !slices.ContainsFunc(b.Journal, func(e record.Entry) bool { return e.When.V.Format(time.DateOnly) == day }) {
				t.Errorf("%s: nothing is noted on %s, the day of a fitting", b.Slug, day)
			}
			if len(f.Change) == 0 && !f.Note.Given() {
				t.Errorf("%s: the fitting of %s led to nothing", b.Slug, day)
			}
		}
	}
}

// TestStoryPosted: a garment that was tried on by post has the days it was posted and came back
// in its record and in its journal's words, and nobody worked on it between the two.
func TestStoryPosted(t *testing.T) {
	_, builds, _ := story(t)
	posts := 0
	for _, b := range builds {
		for i := range b.Fittings {
			f := &b.Fittings[i]
			if f.From.V != "the garment by post" {
				continue
			}
			posts++
			noted := func(day record.Day, says string) int {
				return slices.IndexFunc(b.Journal, func(e record.Entry) bool {
					return e.When.V.Format(time.DateOnly) == day.String() && strings.Contains(e.Note.V, says)
				})
			}
			gone, back := noted(f.Posted.V, "Posted"), noted(f.Back.V, "Back by post")
			if gone < 0 || back < gone {
				t.Errorf("%s: the fitting of %s lies between no posting and no return", b.Slug, f.On.V)
				continue
			}
			for j := gone + 1; j < back; j++ {
				if e := &b.Journal[j]; e.For.Given() && !seenFromAfar(b, e) {
					t.Errorf("%s was worked on on %s, and was in the mail", b.Slug, e.When.V.Format(time.DateTime))
				}
			}
		}
	}
	if posts < 2 {
		t.Errorf("only %d fittings by post", posts)
	}
}

// seenFromAfar says whether a step is looked at and written, with no hand on the garment.
func seenFromAfar(b *record.Build, e *record.Entry) bool {
	s := stepOf(b, e)
	return s != nil && s.Technique.V == "fitting-at-a-distance" && len(s.Sews) == 0 && !s.Pieces.Given()
}

// stepOf is the step that an entry was on.
func stepOf(b *record.Build, e *record.Entry) *record.Step {
	for i := range b.Work {
		if s := &b.Work[i]; e.Did.Given() && words.Slug(s.Do.V) == e.Did.V {
			return s
		}
	}
	return nil
}

// TestStoryCloth: no cloth was cut before it came or on a day when nobody cut, what is cut
// from remnants alone fits those that say so, and no remnant is said to be left by nobody.
func TestStoryCloth(t *testing.T) {
	nothingBeside(t)
	room, builds, _ := story(t)
	slugs := map[string]*record.Build{}
	for _, b := range builds {
		slugs[b.Slug] = b
	}
	fitted := 0
	for _, c := range room.Cloths {
		for _, m := range c.Movements() {
			if m.Known && m.Left < 0 {
				t.Errorf("%s: on %v there is less than nothing", c.Slug, m.Day)
			}
			b := slugs[m.Build]
			if m.Kind != record.WasCut || b == nil {
				continue
			}
			day := m.Day.Time().Format(time.DateOnly)
			if !slices.ContainsFunc(b.Journal, func(e record.Entry) bool { return e.For.Given() && e.When.V.Format(time.DateOnly) == day }) {
				t.Errorf("%s: %s was cut on %s, and nobody worked on it", c.Slug, m.For, day)
			}
			if m.Length.V > 0 {
				continue
			}
			args := []string{"lay", m.Build, "--cloth", m.Part}
			for i := range c.Remnants {
				if r := &c.Remnants[i]; r.Used.V == m.Build {
					args = append(args, "--on", r.Name.V)
				}
			}
			fitted++
			if code, out, errs := hembook("../..", args...); code != 0 || !strings.Contains(out, "all of it goes on these remnants") {
				t.Errorf("%s: %s\n%s%s", c.Slug, strings.Join(args, " "), out, errs)
			}
		}
		for i := range c.Remnants {
			if r := &c.Remnants[i]; r.From.Given() && slugs[r.From.V] == nil {
				t.Errorf("%s: %s was left by %s, which is no garment", c.Slug, r.Name.V, r.From.V)
			}
		}
	}
	if fitted == 0 {
		t.Error("nothing is cut from remnants alone")
	}
}

// TestStoryTimes: what a finished garment took lies within a fifth of what was planned for it,
// and a step that is done took between a third and three times its plan.
func TestStoryTimes(t *testing.T) {
	_, builds, _ := story(t)
	for _, b := range builds {
		var planned, took time.Duration
		for i := range b.Work {
			s, spent := &b.Work[i], time.Duration(0)
			for j := range b.Journal {
				if e := &b.Journal[j]; stepOf(b, e) == s {
					spent += e.For.V
				}
			}
			planned, took = planned+s.Takes.V, took+spent
			if off := spent.Minutes() / s.Takes.V.Minutes(); b.State.V == "sent" && s.Takes.Given() && (off < 1./3 || off > 3) {
				t.Errorf("%s: %s took %v, planned %v", b.Slug, s.Do.V, spent, s.Takes.V)
			}
		}
		if off := took.Minutes() / planned.Minutes(); b.State.V == "sent" && math.Abs(off-1) > 0.2 {
			t.Errorf("%s took %v, planned %v", b.Slug, took, planned)
		}
		for j := range b.Journal {
			if e := &b.Journal[j]; e.Did.Given() && stepOf(b, e) == nil {
				t.Errorf("%s: there is no step %q", b.Slug, e.Did.V)
			}
		}
	}
}

// told numbers: where the prose of a garment cannot name a figure, as on its sheets, what it says in
// numbers, as a pattern with one group to a number, and the figures those are. What is printed in m, mm and minutes is held to its last place.
var toldNumbers = []struct {
	file, says string
	figures    []string
}{
	{"harvest-supper-dress/build.yaml", `The finished waist is (\d+) mm wider`, []string{"level.waist.off"}},
	{"harvest-supper-dress/build.yaml", `waist: (784), length: (720), panels: 3`, []string{"level.waist.finished", "length.waist-to-hem.finished"}},
	{"boatyard-trousers/build.yaml", `The hip came out (\d+) mm wider`, []string{"level.hip.off"}},
}

// TestStoryNumbers: where the prose of the demo says a number that the program works out,
// it is that number.
func TestStoryNumbers(t *testing.T) {
	nothingBeside(t)
	figures := map[string]map[string]float64{}
	for _, c := range toldNumbers {
		build := filepath.Dir(c.file)
		if figures[build] == nil {
			figures[build] = map[string]float64{}
			for _, f := range reportOn(t, []string{"tally", build, "all"})["figures"].([]any) {
				f := f.(map[string]any)
				if v, ok := f["value"].(float64); ok {
					figures[build][f["id"].(string)] = v
				}
			}
		}
		text, err := os.ReadFile(filepath.Join("../../content/builds", filepath.FromSlash(c.file)))
		if err != nil {
			t.Fatal(err)
		}
		found := regexp.MustCompile(c.says).FindStringSubmatch(string(text))
		if found == nil {
			t.Errorf("%s no longer says %q", c.file, c.says)
			continue
		}
		found = slices.DeleteFunc(found[1:], func(s string) bool { return s == "" })
		if len(found) != len(c.figures) {
			t.Errorf("%s: %q has %d numbers, and %d figures are named", c.file, c.says, len(found), len(c.figures))
			continue
		}
		for i, id := range c.figures {
			v, known := figures[build][id]
			_, places, _ := strings.Cut(found[i], ".")
			if said := strconv.FormatFloat(v, 'f', len(places), 64); !known || said != found[i] {
				t.Errorf("%s says %s, and %s is %s", c.file, found[i], id, fmt.Sprint(said, " ", known))
			}
		}
	}
}
