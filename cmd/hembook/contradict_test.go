package main

import (
	"fmt"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"hembook/internal/fault"
	"hembook/internal/record/amend"
)

// holdTogether looks that the proposals of one run do not contradict each other: no two
// write different words in one place, and all of those of one file, written together, leave
// none of the faults behind that proposed them.
func holdTogether(t *testing.T, room *txtar.Archive, found []fault.Fault) {
	t.Helper()
	writes := map[string]fault.Correction{}
	byFile := map[string][]fault.Correction{}
	for _, f := range found {
		for _, c := range f.Correct {
			place := fmt.Sprint(c.At, c.Way, c.Within)
			before, again := writes[place]
			switch {
			case again && (before.New != c.New || before.Old != c.Old):
				t.Errorf("two proposals for one place:\n%+v\n%+v", before, c)
			case !again:
				writes[place] = c
				byFile[c.At.File()] = append(byFile[c.At.File()], c)
			}
		}
	}
	if len(writes) < 2 {
		return // one alone is written by holdProposal
	}
	now := &txtar.Archive{Files: append([]txtar.File{}, room.Files...)}
	for file, all := range byFile {
		i := fileNamed(now, file)
		if i < 0 {
			t.Fatalf("%s is not there to be changed", file)
		}
		text, err := amend.Correct(now.Files[i].Data, all)
		if err != nil {
			t.Errorf("together they cannot be written in %s: %v", file, err)
			return
		}
		now.Files[i].Data = text
	}
	left := map[string]bool{}
	for _, g := range faultsOf(t, now) {
		left[g.At.File()+g.Message] = true
	}
	for _, f := range found {
		if len(f.Correct) > 0 && left[f.At.File()+f.Message] {
			t.Errorf("still wrong after all was written together:\n%s", f)
		}
	}
}
