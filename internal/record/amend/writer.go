package amend

import (
	"bytes"
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io/fs"
	"os"
	"runtime"
	"slices"
	"strings"
	"time"

	"hembook/internal/disk"
	"hembook/internal/say"
)

// A writer changes one record while it holds the folder's lock.
//
// The new text is written to a hidden file beside the record and confirmed by
// the disk. The two then exchange their names in one step, after which the
// hidden name stands for what the record was: whatever another program has
// saved meanwhile is there to be looked at. Where it is not the text that the
// change was made on, the names are exchanged back and the change is made anew.
type writer struct {
	file   File
	folder *disk.Root
	base   string
	path   string // for messages
	passed func(point string)
	plain  bool // the file system exchanges no names

	errand *disk.Errand // noted before anything is written; see EndErrand

	placed *change // what was in place for a moment, and may be put back there by another program

	kept string // what another program saved, beside the record, where it could not be put back
}

// A change is a record's text as it was, and as it was to be.
type change struct{ old, next []byte }

var (
	errChanged = say.Error("amend.another-program-keeps-saving-it")
	errTwice   = say.Error("amend.it-was-saved-twice-in-that-moment")
)

// notConfirmed is an error after the record was replaced.
type notConfirmed struct {
	path string
	err  error
}

func (n *notConfirmed) Error() string {
	return say.Of("amend.is-changed-but-the-disk-did-not", n.path, n.err)
}

func (n *notConfirmed) Unwrap() error { return n.err }

func (w *writer) pass(point string) {
	if w.passed != nil {
		w.passed(point)
	}
}

// change calls edit on the record's text until the result could be put in place.
func (w *writer) change(edit func([]byte) ([]byte, error)) error {
	err := w.attempts(edit)
	if err == nil && w.kept != "" {
		return &Conflict{Path: w.path, Kept: w.kept, Ours: true, Err: errTwice}
	}
	return err
}

func (w *writer) attempts(edit func([]byte) ([]byte, error)) error {
	var ours []byte // made on a text that has been replaced since
	var why error = errChanged
	for range mostAttempts {
		old, info, _, err := readSettled(w.folder, w.base)
		if errors.Is(err, fs.ErrNotExist) { // some editors move the record aside before they save
			why = plain(err)
			time.Sleep(pause)
			continue
		}
		if err != nil {
			return plain(err)
		}
		if p := w.placed; p != nil && changed(old, p.old, p.next) {
			return w.confirm() // another program put it back
		}
		w.pass("read")
		next, err := edit(bytes.Clone(old))
		if err != nil {
			if !w.untouched(w.base, old) { // it was read half saved
				why = err
				continue
			}
			return w.keepOurs(ours, err)
		}
		if bytes.Equal(next, old) {
			return nil
		}
		if len(next) > most {
			return errors.New(say.Of("amend.it-would-be-larger-than-mb", most>>20))
		}
		ours, why = next, errChanged
		if err := w.put(old, next, info); !errors.Is(err, errChanged) {
			return err
		}
	}
	return w.keepOurs(ours, why)
}

// put replaces the record by next if it still holds old.
func (w *writer) put(old, next []byte, info fs.FileInfo) error {
	temp, err := w.write(next, info)
	if err != nil {
		return plain(err)
	}
	aside := w.hidden(swapping + brief(old) + "-" + brief(next))
	if err := w.folder.Rename(temp, aside); err != nil {
		w.folder.Remove(temp)
		return plain(err)
	}
	w.pass("ready")
	if !holds(w.folder, w.base, old) {
		w.folder.Remove(aside)
		return errChanged
	}
	w.pass("compared")
	switch err := w.exchange(aside); {
	case errors.Is(err, disk.ErrNoExchange):
		return w.replace(aside, old, next)
	case errors.Is(err, fs.ErrNotExist):
		w.folder.Remove(aside)
		return errChanged
	case err != nil:
		w.folder.Remove(aside)
		return plain(err)
	}
	w.placed = &change{old, next}
	w.pass("exchanged")
	if !w.untouched(aside, old) {
		return w.putBack(aside, old, next)
	}
	w.folder.Remove(aside)
	w.pass("removed")
	return w.confirm()
}

func (w *writer) exchange(aside string) error {
	if w.plain {
		return disk.ErrNoExchange
	}
	return w.folder.Exchange(aside, w.base)
}

// look reads what the hidden name stands for. settled is false where a program
// is at work in it yet.
func (w *writer) look(aside string) (text []byte, settled bool) {
	text, _, settled, err := readSettled(w.folder, aside)
	return text, settled && err == nil
}

// untouched reports whether a name stands for a file that holds just
// the text, and into which no program is writing. It does not wait: the sooner
// another program's file is back in its place, the better.
func (w *writer) untouched(name string, text []byte) bool {
	file, err := w.folder.Open(name)
	if err != nil {
		return false
	}
	defer file.Close()
	return !disk.BeingWritten(file) && holds(w.folder, name, text)
}

// putBack puts in place again what another program saved, which the hidden name
// stands for, and takes the change out. Where a program has saved the record
// once more in that moment, that is put in place, and the other is kept in sight.
func (w *writer) putBack(aside string, old, next []byte) error {
	if err := w.exchange(aside); err != nil {
		w.keepTheirs(aside)
		return plain(err)
	}
	w.pass(say.Of("amend.put-back"))
	newest, settled := w.look(aside)
	if settled && bytes.Equal(newest, next) {
		w.folder.Remove(aside)
		return errChanged
	}
	if err := w.exchange(aside); err != nil {
		w.keepTheirs(aside)
		return plain(err)
	}
	w.keepTheirs(aside)
	if changed(newest, old, next) {
		return w.confirm() // it was saved from a text that has the change
	}
	return errChanged
}

// keepTheirs gives what a hidden name stands for a name in sight.
func (w *writer) keepTheirs(aside string) {
	text, _, err := readAll(w.folder, aside)
	if kept := w.beside("theirs", text); err == nil && w.folder.Rename(aside, kept) == nil {
		w.kept = kept
	}
}

// changed reports whether a text has the change that made next of old: more
// often than old has it.
func changed(text, old, next []byte) bool {
	begin := 0
	for begin < min(len(old), len(next)) && old[begin] == next[begin] {
		begin++
	}
	end := 0
	for end < min(len(old), len(next))-begin && old[len(old)-1-end] == next[len(next)-1-end] {
		end++
	}
	added := next[begin : len(next)-end]
	return len(added) > 0 && bytes.Count(text, added) > bytes.Count(old, added)
}

// keepOurs keeps a change that was made on a text replaced since, and cannot
// be made on the new one. Where nothing was replaced there is nothing to keep.
func (w *writer) keepOurs(ours []byte, why error) error {
	if ours == nil {
		return why
	}
	_, info, err := readAll(w.folder, w.base)
	if err != nil {
		return why
	}
	temp, err := w.write(ours, info)
	if err != nil {
		return why
	}
	kept := w.beside("ours", ours)
	if err := w.folder.Rename(temp, kept); err != nil {
		w.folder.Remove(temp)
		return why
	}
	return &Conflict{Path: w.path, Kept: kept, Err: why}
}

// write puts the text into a new hidden file with the record's permissions and
// waits for the disk. Until it has them nobody else may read it.
func (w *writer) write(text []byte, info fs.FileInfo) (string, error) {
	if w.errand == nil {
		w.errand = disk.BeginErrand(w.file.Folder, errandLine+w.file.Path)
	}
	var random [8]byte
	rand.Read(random[:])
	name := w.hidden("writing-" + hex.EncodeToString(random[:]))
	if err := w.mayWrite(); err != nil {
		return "", err
	}
	file, err := w.folder.Create(name, 0o600)
	if err != nil {
		return "", err
	}
	w.pass("created")
	if _, err = file.Write(text); err == nil {
		keepOwner(file.File, info)
		err = keepMode(file.File, info.Mode())
	}
	w.pass("written")
	if err == nil {
		err = file.Sync()
	}
	if err = errors.Join(err, file.Close()); err != nil {
		w.folder.Remove(name)
		return "", err
	}
	w.pass("synced")
	return name, nil
}

// mayWrite respects a record that its maker has protected: renaming would not.
func (w *writer) mayWrite() error {
	file, err := w.folder.OpenFile(w.base, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	return file.Close()
}

// keepMode gives a file the permissions of the record.
func keepMode(file *os.File, mode fs.FileMode) error {
	if runtime.GOOS == "windows" {
		return nil // a file that may be written has no others there
	}
	return file.Chmod(mode.Perm())
}

// confirm waits until the disk holds the renaming too.
func (w *writer) confirm() error {
	if runtime.GOOS == "windows" || runtime.GOOS == "plan9" {
		return nil // a folder cannot be synced there
	}
	if err := w.folder.Sync(); err != nil {
		return &notConfirmed{w.path, plain(err)}
	}
	w.pass("confirmed")
	return nil
}

// hidden is the name of a helper file: its dot keeps it from readers of the
// folder, its end keeps it from being taken for a record.
func (w *writer) hidden(end string) string { return "." + w.base + "." + end }

// beside is the name under which another version is kept in sight. The same
// text has the same name.
func (w *writer) beside(whose string, text []byte) string {
	return w.base + "." + whose + "-" + sum(text)[:8]
}

func sum(text []byte) string {
	s := sha256.Sum256(text)
	return hex.EncodeToString(s[:])
}

// brief is part of a hidden file's name.
func brief(text []byte) string { return sum(text)[:16] }

const (
	swapping = "swap-" // its name goes on with what it was to replace and with what it brings
	pause    = 5 * time.Millisecond
)

// tidy clears away what a killed writer has left. What another program saved
// and nobody has looked at yet is put back, or kept in sight.
func (w *writer) tidy() {
	dir, err := w.folder.Open(".")
	if err != nil {
		return
	}
	names, _ := dir.Readdirnames(-1)
	dir.Close()
	slices.Sort(names)
	for _, name := range names {
		if strings.HasPrefix(name, w.hidden("writing-")) {
			w.folder.Remove(name)
		}
		if said, ok := strings.CutPrefix(name, w.hidden("before-")); ok {
			w.tidyBefore(name, said)
		}
		if said, ok := strings.CutPrefix(name, w.hidden(swapping)); ok {
			old, next, _ := strings.Cut(said, "-")
			w.tidySwap(name, old, next)
		}
	}
}

// tidySwap ends an exchange that was cut off.
func (w *writer) tidySwap(name, old, next string) {
	text, settled := w.look(name)
	has := brief(text)
	if settled && has != old && has != next {
		// stopped after the exchange: the record holds a change that nobody was
		// told of, and this is what another program saved
		if now, _, err := readAll(w.folder, w.base); err == nil && brief(now) == next && w.exchange(name) == nil {
			text, settled = w.look(name)
			has = brief(text)
		}
	}
	if settled && (has == old || has == next || holds(w.folder, w.base, text)) {
		w.folder.Remove(name)
		return
	}
	w.folder.Rename(name, w.beside("theirs", text))
}
