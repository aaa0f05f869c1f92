package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"hembook/internal/record"
)

// storyWarnings are what check says of the demo, each of one level of one garment. They are part
// of the story: a garment that came out otherwise than planned, and what its maker made of that.
var storyWarnings = []struct{ garment, level string }{
	{"boatyard-trousers", "hip"},
	{"harvest-supper-dress", "waist"},
}

var (
	cameOut   = regexp.MustCompile(`^(.+) came out (\d+ mm) larger than planned`)
	checkSays = "`check` has to say"
)

// TestStoryWarnings: check warns in the demo of what the story tells and of nothing else. Each
// warning is explained where a reader looks for it: in the notes, beside the figure, as the one
// thing that check has to say; in the journal on the day it was measured; and in the letter to
// the wearer, with its number. Notes that speak of check where it says nothing are found too.
func TestStoryWarnings(t *testing.T) {
	var out, errs bytes.Buffer
	if code := run([]string{"check", "--json", "--room", "../.."}, &out, &errs); code != exitFine {
		t.Fatalf("exit status %d\n%s", code, &errs)
	}
	var found []struct{ File, Severity, Message string }
	if err := json.Unmarshal(out.Bytes(), &found); err != nil {
		t.Fatal(err)
	}
	_, builds, _ := story(t)
	spoken := 0
	for _, b := range builds {
		notes, err := os.ReadFile(filepath.Join("../../content/builds", b.Slug, "notes.md"))
		if err != nil {
			t.Fatal(err)
		}
		spoken += strings.Count(string(notes), checkSays)
		for _, f := range found {
			if filepath.Base(filepath.Dir(filepath.FromSlash(f.File))) == b.Slug {
				explained(t, b, string(notes), f.Message)
			}
		}
	}
	if len(found) != len(storyWarnings) || spoken != len(storyWarnings) {
		t.Errorf("check says %d things, notes speak of %d, and the story has %d: %v", len(found), spoken, len(storyWarnings), found)
	}
}

// explained holds one warning to the places where the story explains it.
func explained(t *testing.T, b *record.Build, notes, message string) {
	t.Helper()
	said := cameOut.FindStringSubmatch(message)
	if said == nil {
		t.Errorf("%s: no story tells of %q", b.Slug, message)
		return
	}
	listed := false
	for _, w := range storyWarnings {
		listed = listed || w.garment == b.Slug && w.level == said[1]
	}
	if !listed {
		t.Errorf("%s: no story tells of %q", b.Slug, message)
	}
	figure := "(figure:level." + said[1] + "."
	inNotes, inJournal := false, false
	for _, paragraph := range strings.Split(notes, "\n\n") {
		inNotes = inNotes || strings.Contains(paragraph, checkSays) && strings.Contains(paragraph, figure+"off)")
	}
	for i := range b.Journal {
		note := b.Journal[i].Note.V
		inJournal = inJournal || strings.Contains(note, figure+"measured)") && strings.Contains(note, figure+"finished)")
	}
	if !inNotes || !inJournal || !strings.Contains(b.Packet.Note.V, said[1]) || !strings.Contains(b.Packet.Note.V, said[2]) {
		t.Errorf("%s: %q is explained in the notes: %v, in the journal: %v, in the packet: %q", b.Slug, message, inNotes, inJournal, b.Packet.Note.V)
	}
}
