package main

import (
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"hembook/internal/fault"
	"hembook/internal/record/amend"
)

// proposes tells hints that offer a text to write from those that ask or explain.
var proposes = regexp.MustCompile(`did you mean|^write |: (now|true)$|^(ease|gather|overlap|allowance): `)

// onlyHers are hints that begin like a proposal and that only the maker can carry
// out, with why.
var onlyHers = map[string]string{
	" as |such as|…|\"09:00| or .*, for|digits|one number|: write ": "shows how such a thing is written",
	"^write it (in|under)":     "names units, or another place of the record",
	"^write (its|more of its)": "asks for her words",
	"outline:, like:":          "asks which form the piece has",
	"^write a (name|length): ": "asks for a name or a length of hers",
	"for both, or give each|from a name|to and a name|the edge alone|^write \\S+\\.\\S+$": "of a part of an edge: which other part is meant, only she knows",
	"it draws: ":                  "asks which of them",
	"where it is public":          "the value is private, and no proposal holds it",
	"at least what must be there": "asks for the whole record",
	"lines, then ---":             "asks for the head of a page",
	"first: and every:, or leave|drawn: true, or depth:|drawn with them open": "of pleats: names two ways, and which she drew only she knows",
}

// asked reports whether a hint is one that only the maker can carry out.
func asked(hint string) bool {
	for form := range onlyHers {
		if regexp.MustCompile(form).MatchString(hint) {
			return true
		}
	}
	return false
}

// holdProposal writes what one fault proposes and looks at what is wrong then.
func holdProposal(t *testing.T, room *txtar.Archive, before []fault.Fault, f fault.Fault) {
	t.Helper()
	file := f.Correct[0].At.File()
	i := fileNamed(room, file)
	if i < 0 {
		t.Fatalf("%s proposes to change a file that is not there: %v", f, f.Correct)
	}
	now, err := amend.Correct(room.Files[i].Data, f.Correct)
	if err != nil {
		t.Errorf("%s\ncannot be written: %v", f, err)
		return
	}
	corrected := &txtar.Archive{Files: slices.Clone(room.Files)}
	corrected.Files[i].Data = now
	lines := changedLines(string(room.Files[i].Data), string(now))
	for _, g := range faultsOf(t, corrected) {
		same := func(b fault.Fault) bool { return b.Message == g.Message && b.At.File() == g.At.File() }
		switch {
		case same(f) && !slices.ContainsFunc(before, func(b fault.Fault) bool { return b.At != f.At && same(b) }):
			t.Errorf("still wrong after it was written:\n%s\n%s", f, now)
		case !slices.ContainsFunc(before, same) && g.At.File() == file && (g.At.Line == f.At.Line || slices.Contains(lines, g.At.Line)):
			t.Errorf("%s\nnew after it was written:\n%s\n%s", f, g, now)
		}
	}
}

// changedLines are the lines of the later text that the earlier one does not have.
func changedLines(before, after string) []int32 {
	var out []int32
	had := strings.Split(before, "\n")
	for i, l := range strings.Split(after, "\n") {
		if !slices.Contains(had, l) {
			out = append(out, int32(i+1))
		}
	}
	return out
}

// faultsOf is what is wrong with a workroom.
func faultsOf(t *testing.T, a *txtar.Archive) []fault.Fault {
	t.Helper()
	return checkedIn(t, a).faults
}

// checkedIn is what check finds in a workroom.
func checkedIn(t *testing.T, a *txtar.Archive) checked {
	t.Helper()
	dir := writtenOut(t, a)
	found, err := checkAll(&options{room: dir}, newProgress(os.Stderr, ""))
	if err != nil {
		t.Fatal(err)
	}
	return found
}
