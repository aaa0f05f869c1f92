package amend

import (
	"bytes"
	"os"

	"hembook/internal/say"
)

// replace is put for file systems that exchange no names: a rename, with looks
// before and after. fresh holds next.
//
// Just before the rename a second name is given to the record, and looked at
// after: what a program wrote into the old file is not lost. A program that
// renames its own file over the record between the last look and the rename,
// which is a matter of microseconds, is the one case that cannot be seen.
func (w *writer) replace(fresh string, old, next []byte) error {
	defer w.folder.Remove(fresh)
	before := w.hidden("before-" + sum(old))
	w.folder.Remove(before)
	linked := w.folder.Link(w.base, before) == nil // not on every file system
	w.pass("linked")
	if !holds(w.folder, w.base, old) || linked && (!holds(w.folder, before, old) || !w.same(before, w.base)) {
		w.folder.Remove(before)
		return errChanged
	}
	ours, err := w.folder.Lstat(fresh)
	if err == nil {
		err = w.folder.Rename(fresh, w.base)
	}
	if err != nil {
		w.folder.Remove(before)
		return plain(err)
	}
	w.placed = &change{old, next}
	w.pass("renamed")
	if linked {
		if out, settled := w.look(before); !settled || !bytes.Equal(out, old) {
			return w.bringBack(before, old, next)
		}
	}
	w.folder.Remove(before)
	w.pass("removed")
	if now, err := w.folder.Lstat(w.base); err != nil || !os.SameFile(now, ours) {
		if text, _, err := readAll(w.folder, w.base); err != nil || !changed(text, old, next) {
			return errChanged // saved over, from a text without the change
		}
	}
	return w.confirm()
}

// bringBack puts in place again what a program wrote into the old file, or
// keeps it in sight where the record was saved once more since. That may come
// about while it is brought back too, so ours has a second name meanwhile.
func (w *writer) bringBack(before string, old, next []byte) error {
	if !holds(w.folder, w.base, next) {
		w.keepTheirs(before)
		return errChanged
	}
	second := w.hidden("before-" + sum(next))
	w.folder.Remove(second)
	linked := w.folder.Link(w.base, second) == nil
	w.pass(say.Of("amend.bringing-back"))
	if err := w.folder.Rename(before, w.base); err != nil {
		w.folder.Remove(second)
		w.keepTheirs(before)
		return plain(err)
	}
	w.pass(say.Of("amend.brought-back"))
	if !linked {
		return errChanged
	}
	newest, settled := w.look(second)
	if settled && bytes.Equal(newest, next) {
		w.folder.Remove(second)
		return errChanged
	}
	text, _, err := readAll(w.folder, w.base)
	kept := w.beside("theirs", text)
	if err != nil || w.folder.Link(w.base, kept) != nil || w.folder.Rename(second, w.base) != nil {
		w.keepTheirs(second)
		return errChanged
	}
	w.kept = kept
	if changed(newest, old, next) {
		return w.confirm() // it was saved from a text that has the change
	}
	return errChanged
}

// same reports whether two names stand for one file.
func (w *writer) same(a, b string) bool {
	x, err := w.folder.Lstat(a)
	y, err2 := w.folder.Lstat(b)
	return err == nil && err2 == nil && os.SameFile(x, y)
}

// tidyBefore clears away the second name of an old file. Where that holds what
// nobody has looked at yet it is kept in sight.
func (w *writer) tidyBefore(name, said string) {
	text, _, err := readAll(w.folder, name)
	switch {
	case err != nil:
	case sum(text) == said || holds(w.folder, w.base, text):
		w.folder.Remove(name)
	default:
		w.folder.Rename(name, w.beside("theirs", text))
	}
}
