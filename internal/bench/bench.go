// Package bench serves pages and captures what happens at the table: clocks
// for steps, dated notes, photographs, and the preview that presses again
// whenever a record is saved.
//
// It promises that nothing captured is lost or written twice: a clock is a
// file that outlives the program, a record is changed by [amend.File] alone,
// and a clock goes only after the record holds its time. Photographs are
// decoded and encoded anew, so that no place, date or owner is left in them.
// The preview is reached from this machine alone.
//
// It works out no figures, and the pages it shows are pressed by its caller.
package bench

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"hembook/internal/disk"
	"hembook/internal/record/amend"
)

// An Entry is one line of a build's journal, as it will be written.
type Entry struct {
	At    time.Time // by the clock on the wall; to the minute
	Day   bool      // only the day is known
	Did   string    // the step's short name; may be empty
	For   time.Duration
	Done  bool // the step is finished with it
	Note  string
	Photo string // the file beside the record
	Alt   string // what the photograph shows
}

// When is the entry's date as records write it.
func (e Entry) When() string {
	if e.Day {
		return e.At.Format(time.DateOnly)
	}
	return e.At.Format(minuteLayout)
}

// Spent is the entry's time as records write it: whole minutes, one at least;
// empty where none was given.
func (e Entry) Spent() string {
	if e.For <= 0 {
		return ""
	}
	return fmt.Sprintf("%d min", minutes(e.For))
}

// minutes are the whole minutes of a time, rounded half up, one at least.
func minutes(d time.Duration) int { return max(1, int((d+30*time.Second)/time.Minute)) }

// Value is the entry in the order of words the guide to the record uses.
func (e Entry) Value() amend.Value {
	fields := []amend.Field{{Name: "at", Value: amend.Figure(e.When())}}
	add := func(name, words string) {
		if words != "" {
			fields = append(fields, amend.Field{Name: name, Value: amend.Words(words)})
		}
	}
	add("did", e.Did)
	if s := e.Spent(); s != "" {
		fields = append(fields, amend.Field{Name: "for", Value: amend.Figure(s)})
	}
	if e.Done {
		fields = append(fields, amend.Field{Name: "done", Value: amend.Flag(true)})
	}
	add("note", e.Note)
	switch {
	case e.Photo != "" && e.Alt != "":
		fields = append(fields, amend.Field{Name: "photo", Value: amend.Group(
			amend.Field{Name: "file", Value: amend.Words(e.Photo)}, amend.Field{Name: "alt", Value: amend.Words(e.Alt)})})
	default:
		add("photo", e.Photo)
	}
	return amend.Group(fields...)
}

// Write adds the entry to the record's journal and leaves every other byte of
// the record as it is.
func (e Entry) Write(rec amend.File) error {
	return rec.Change(func(text []byte) ([]byte, error) {
		return e.addTo(text)
	})
}

// addTo adds the entry to the journal of a text, in its turn: after all that happened
// before it, at the end where nothing is later.
func (e Entry) addTo(text []byte) ([]byte, error) {
	journal, _, err := amend.Read(text, amend.At("journal"))
	if err != nil {
		return nil, err
	}
	items := journal.Items()
	before := len(items)
	for before > 0 && e.before(items[before-1]) {
		before--
	}
	if before == len(items) {
		return amend.Append(text, amend.At("journal"), e.Value())
	}
	now, err := amend.Insert(text, amend.At("journal"), before, e.Value())
	if err != nil { // at the end it is in no wrong place, only out of turn
		return amend.Append(text, amend.At("journal"), e.Value())
	}
	return now, nil
}

// before reports whether the entry was earlier than one of a journal. An entry of a day
// alone is taken for the first of its day where it stands, and for the last where it is
// to be written.
func (e Entry) before(item amend.Value) bool {
	at, _ := item.Get("at")
	own := e.When()
	if e.Day {
		own += " 24:00"
	}
	return isMoment(at.Text()) && own < at.Text()
}

// isMoment reports whether words are a day, or a day and time, as journals have them: so
// written, the earlier is the lesser.
func isMoment(s string) bool {
	for _, layout := range [...]string{time.DateOnly, minuteLayout} {
		if _, err := time.Parse(layout, s); err == nil {
			return true
		}
	}
	return false
}

// timesIn counts the entries of a journal with the entry's date, step and time.
func (e Entry) timesIn(text []byte) (int, error) {
	journal, _, err := amend.Read(text, amend.At("journal"))
	if err != nil {
		return 0, err
	}
	n := 0
	for _, item := range journal.Items() {
		at, _ := item.Get("at")
		did, _ := item.Get("did")
		spent, _ := item.Get("for")
		if at.Text() == e.When() && did.Text() == e.Did && spent.Text() == e.Spent() {
			n++
		}
	}
	return n, nil
}

// in counts what timesIn does in the record as it stands.
func (e Entry) in(rec amend.File) (int, error) {
	text, err := readIn(rec.Folder, rec.Path)
	if err != nil {
		return 0, err
	}
	return e.timesIn(text)
}

// readIn reads a file of a folder; nothing outside of it can be reached.
func readIn(folder, path string) ([]byte, error) {
	root, err := os.OpenRoot(folder)
	if err != nil {
		return nil, err
	}
	defer root.Close()
	return disk.ReadIn(root, filepath.FromSlash(path))
}

// Readable is nil where a record is YAML that can be added to, and says where
// it is not; faults of any other kind do not matter.
func Readable(rec amend.File) error {
	text, err := readIn(rec.Folder, rec.Path)
	if err == nil && len(bytes.TrimSpace(text)) > 0 {
		_, _, err = amend.Read(text, amend.At("journal"))
	}
	if err != nil {
		return fmt.Errorf("%s: %w", rec.Path, err)
	}
	return nil
}
