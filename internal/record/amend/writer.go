package amend

import (
	"bytes"
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"runtime"
	"slices"
	"strings"
)

// A writer changes one record while it holds the folder's lock.
//
// The new text is written to a hidden file beside the record, confirmed by the
// disk, and renamed over it. Just before, the record is compared with the text
// the change was made on. Between that look and the renaming another program
// may still write into the old file, so a second name is given to the old file
// first, and looked at after: what was written there is not lost. A program
// that renames its own file over the record within those microseconds is the
// one case that cannot be seen; no file system call of every platform can.
type writer struct {
	folder *os.Root
	base   string
	path   string // for messages
	passed func(point string)
}

var errChanged = errors.New("another program keeps saving it")

// notConfirmed is an error after the record was replaced.
type notConfirmed struct {
	path string
	err  error
}

func (n *notConfirmed) Error() string {
	return fmt.Sprintf("%s is changed, but the disk did not confirm it: %s", n.path, n.err)
}

func (n *notConfirmed) Unwrap() error { return n.err }

func (w *writer) pass(point string) {
	if w.passed != nil {
		w.passed(point)
	}
}

// change calls edit on the record's text until the result could be put in place.
func (w *writer) change(edit func([]byte) ([]byte, error)) error {
	var ours []byte // made on a text that has been replaced since
	for range mostAttempts {
		old, info, err := readAll(w.folder, w.base)
		if err != nil {
			return plain(err)
		}
		w.pass("read")
		next, err := edit(bytes.Clone(old))
		if err != nil {
			return w.keepOurs(ours, err)
		}
		if bytes.Equal(next, old) {
			return nil
		}
		if len(next) > most {
			return fmt.Errorf("it would be larger than %d MB", most>>20)
		}
		ours = next
		backup, err := w.put(old, next, info)
		switch {
		case errors.Is(err, errChanged):
			continue
		case err == nil && backup != "":
			return w.settle(next, backup, edit)
		}
		return err
	}
	return w.keepOurs(ours, errChanged)
}

// put replaces the record by next if it still holds old. backup names the old
// file where another program has written into it since.
func (w *writer) put(old, next []byte, info fs.FileInfo) (backup string, err error) {
	temp, err := w.write(next, info)
	if err != nil {
		return "", plain(err)
	}
	defer w.folder.Remove(temp)
	before := w.hidden("before-" + sum(old))
	w.folder.Remove(before)
	linked := w.folder.Link(w.base, before) == nil // not on every file system
	w.pass("linked")
	if !holds(w.folder, w.base, old) || linked && !holds(w.folder, before, old) {
		w.folder.Remove(before)
		return "", errChanged
	}
	w.pass("compared")
	if err := w.folder.Rename(temp, w.base); err != nil {
		w.folder.Remove(before)
		return "", plain(err)
	}
	w.pass("renamed")
	if linked && !holds(w.folder, before, old) {
		return before, nil
	}
	w.folder.Remove(before)
	w.pass("removed")
	return "", w.confirm()
}

// settle makes the change on what another program wrote into the old file
// after it was compared, and keeps both where that cannot be done.
func (w *writer) settle(ours []byte, backup string, edit func([]byte) ([]byte, error)) error {
	theirs, info, err := readAll(w.folder, backup)
	if err != nil {
		return &notConfirmed{w.path, plain(err)}
	}
	kept := w.beside("theirs", theirs)
	if err := w.folder.Rename(backup, kept); err != nil {
		return &notConfirmed{w.path, plain(err)}
	}
	merged, err := edit(bytes.Clone(theirs))
	if err == nil {
		var again string
		if again, err = w.put(ours, merged, info); again != "" {
			w.tidy() // gives what was written yet again a name in sight
			err = errChanged
		}
		if err == nil {
			w.folder.Remove(kept)
		}
	}
	if err != nil {
		return &Conflict{Path: w.path, Kept: kept, Ours: true, Err: errors.Join(err, w.confirm())}
	}
	return nil
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
	var random [8]byte
	rand.Read(random[:])
	name := w.hidden("writing-" + hex.EncodeToString(random[:]))
	if err := w.mayWrite(); err != nil {
		return "", err
	}
	file, err := w.folder.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return "", err
	}
	w.pass("created")
	if _, err = file.Write(text); err == nil {
		keepOwner(file, info)
		err = keepMode(file, info.Mode())
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
	dir, err := w.folder.Open(".")
	if err != nil {
		return &notConfirmed{w.path, plain(err)}
	}
	defer dir.Close()
	if err := dir.Sync(); err != nil && !errors.Is(err, errors.ErrUnsupported) && !syncUnknown(err) {
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

// tidy clears away what a killed writer has left. An old file that holds what
// nobody has looked at yet is kept in sight.
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
		said, ok := strings.CutPrefix(name, w.hidden("before-"))
		if !ok {
			continue
		}
		text, _, err := readAll(w.folder, name)
		switch {
		case err != nil:
		case sum(text) == said || holds(w.folder, w.base, text):
			w.folder.Remove(name)
		default:
			w.folder.Rename(name, w.beside("theirs", text))
		}
	}
}
