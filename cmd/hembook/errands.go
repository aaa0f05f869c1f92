package main

import (
	"errors"
	"io"
	"path/filepath"
	"strings"

	"hembook/internal/bench"
	"hembook/internal/disk"
	"hembook/internal/paperpiece"
	"hembook/internal/press"
	"hembook/internal/record/amend"
)

// The errands of commands, by how their lines begin.
const (
	notebookErrand = "notebook " // the folder that is pressed to
	previewErrand  = "preview "  // how the names of folders of previews begin
)

// cleanUp clears away what programs that were stopped left half done in a
// workroom; what cannot be cleared away yet is left for the next command.
// Photographs and traced outlines come last: whether a record names one is known once it
// is whole.
func cleanUp(room string, errs io.Writer) {
	if errs == nil {
		errs = io.Discard
	}
	left := disk.LeftErrands(room)
	ended := make([]bool, len(left))
	for _, photographs := range []bool{false, true} {
		for i, e := range left {
			if !photographs {
				ended[i] = true
			}
			for _, line := range e.Lines {
				if namedLast(line) == photographs && !endErrand(room, line, errs) {
					ended[i] = false
				}
			}
		}
	}
	for i, e := range left {
		if ended[i] {
			e.End()
		} else {
			e.Leave()
		}
	}
}

// namedLast reports whether a line is about what a record must name to be kept.
func namedLast(line string) bool {
	return bench.OfPhotograph(line) || paperpiece.OfOutline(line)
}

// endErrand clears away what was left of one line, and reports whether that is done.
func endErrand(room, line string, errs io.Writer) bool {
	if to, ok := strings.CutPrefix(line, notebookErrand); ok {
		yours, err := press.Recover(to)
		tellYours(errs, to, yours)
		return err == nil
	}
	if prefix, ok := strings.CutPrefix(line, previewErrand); ok {
		return removeLeft(prefix) == nil
	}
	if known, err := paperpiece.EndErrand(room, line); known {
		return err == nil
	}
	if known, err := amend.EndErrand(room, line); known {
		return err == nil
	}
	known, err := bench.EndErrand(room, line)
	return known && err == nil
}

// removeLeft removes the folders that previews which were stopped left.
func removeLeft(prefix string) (err error) {
	for _, left := range disk.Abandoned(prefix) {
		err = errors.Join(err, left.Remove())
	}
	return err
}

// pressErrand notes that a notebook is pressed to a folder. Its place is that behind all
// links, beside which it is filled.
func pressErrand(room, to string, more ...string) *disk.Errand {
	if abs, err := filepath.Abs(to); err == nil {
		to = abs
	}
	if real, err := filepath.EvalSymlinks(to); err == nil {
		to = real
	}
	return disk.BeginErrand(room, append(more, notebookErrand+to, bench.DraftsErrand(press.CardFolder))...)
}
