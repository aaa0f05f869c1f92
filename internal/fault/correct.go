package fault

import "encoding/json"

// A Way is how a correction changes a record.
type Way uint8

const (
	// Replace writes other words in the place of those that stand there.
	Replace Way = iota
	// Set writes a word with its value into a group, over the value it has there.
	Set
	// Remove takes a word out, with its value.
	Remove
)

var wayWords = [...]string{"replace", "set", "remove"}

// String prints "replace", "set" or "remove".
func (w Way) String() string { return wayWords[w] }

// MarshalText writes the way as its word.
func (w Way) MarshalText() ([]byte, error) { return []byte(w.String()), nil }

// A Correction is what a hint proposes, so that a program can write it. A hint may
// offer several; this is the one that can be written without asking more.
type Correction struct {
	Way Way
	// At is where Old begins, a value or a part of one; of Set the name of the
	// group, or where the group begins; of Remove the word or its value.
	At Pos
	// Old is what stands there, or next on the line; empty for a whole value, and
	// of Set and Remove.
	Old string
	// New is what is to stand there, if anything; of Set a word and its value, as
	// "ease: 10".
	New string
	// Within are groups below the one at the place, that Set writes into; those
	// that are missing are begun.
	Within []string
	// Short is the word of what stands there in the group's place: join where a
	// seam is a list. Of Set alone.
	Short string
}

// MarshalJSON writes a correction as editors take it: its place, and what of the rest
// is given.
func (c Correction) MarshalJSON() ([]byte, error) {
	return json.Marshal(struct {
		Way    Way      `json:"way"`
		File   string   `json:"file"`
		Line   int32    `json:"line"`
		Column int32    `json:"column"`
		Old    string   `json:"old,omitempty"`
		New    string   `json:"new,omitempty"`
		Within []string `json:"within,omitempty"`
		Short  string   `json:"short,omitempty"`
	}{c.Way, c.At.File(), c.At.Line, c.At.Column, c.Old, c.New, c.Within, c.Short})
}

// Instead proposes other words for those at the fault's place.
func (f *Fault) Instead(old, now string) { f.InsteadAt(f.At, old, now) }

// InsteadAt proposes other words for those at a place, for the whole value where
// old is empty. Without a place, or without other words, nothing is proposed.
func (f *Fault) InsteadAt(at Pos, old, now string) {
	if at.Given() && now != "" && old != now {
		f.Correct = append(f.Correct, Correction{At: at, Old: old, New: now})
	}
}

// Delete proposes to leave out what stands at the fault's place.
func (f *Fault) Delete(old string) {
	f.Correct = append(f.Correct, Correction{At: f.At, Old: old})
}

// Set proposes a word with its value for the group that is named, or begins, at a
// place, or for one within it. short is the word of what may stand there in place of
// the group, if anything may.
func (f *Fault) Set(group Pos, short, line string, within ...string) {
	if group.Given() {
		f.Correct = append(f.Correct, Correction{Way: Set, At: group, New: line, Short: short, Within: within})
	}
}

// Without proposes to take out a word.
func (f *Fault) Without(word Pos) {
	if word.Given() {
		f.Correct = append(f.Correct, Correction{Way: Remove, At: word})
	}
}
