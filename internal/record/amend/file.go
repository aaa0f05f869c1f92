package amend

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"hembook/internal/disk"
	"hembook/internal/fault"
	"hembook/internal/say"
)

const (
	longestWait  = 30 * time.Second // for another writer; one takes milliseconds
	shortWait    = time.Second      // where it may as well be done later
	mostAttempts = 40               // when an editor keeps saving meanwhile
	mostLinks    = 40               // symbolic links followed to one file, as Linux does
)

// A File is a record on disk. Path is relative to Folder, the workroom, and
// nothing outside of Folder is ever written: a symbolic link is followed to
// its target where that lies inside, and refused elsewhere.
type File struct {
	Folder string
	Path   string

	passed func(point string) // told of each step; for tests
	plain  bool               // as on a file system that exchanges no names; for tests
}

// A Conflict says that someone else saved the record in the very moment it was
// changed, and that the two could not be made one. Nothing is lost.
type Conflict struct {
	Path string // the record
	Kept string // the other version, beside it
	Ours bool   // whether the record holds our change, and Kept what the other saved
	Err  error  // why the change could not be made on what the other saved
}

// Error says which version is where.
func (c *Conflict) Error() string {
	if c.Ours {
		return say.Of("amend.was-saved-by-another-program-while-it", c.Path, c.Kept, c.Err)
	}
	return say.Of("amend.was-saved-by-another-program-while-it-2", c.Path, c.Kept, c.Err)
}

// Unwrap is why the change could not be made on what the other saved.
func (c *Conflict) Unwrap() error { return c.Err }

// Change replaces the record by what edit makes of it: whole, or not at all.
// Writers that use Change wait for each other. Where a program that does not
// wait saves the record meanwhile, edit is called again with the new text, so
// it must depend on nothing but the text: find an entry by what it says, not
// by a number found before. An error of edit leaves the record unchanged, and
// so does the same text.
func (f File) Change(edit func(text []byte) ([]byte, error)) error {
	folder, base, err := f.locate()
	if err != nil {
		return fault.Wrapping(err, say.Of("amend.is-unchanged", f.Path, err))
	}
	defer folder.Close()
	release, err := hold(folder, base, longestWait)
	if err != nil {
		return fault.Wrapping(err, say.Of("amend.is-unchanged", f.Path, err))
	}
	defer release()
	w := &writer{file: f, folder: folder, base: base, path: f.Path, passed: f.passed, plain: f.plain}
	w.tidy()
	defer func() { w.errand.End() }()
	if err := w.change(edit); err != nil {
		var c *Conflict
		var n *notConfirmed
		if errors.As(err, &c) || errors.As(err, &n) {
			return err
		}
		return fault.Wrapping(err, say.Of("amend.is-unchanged", f.Path, err))
	}
	return nil
}

// errandLine begins the line of an errand during which a record is replaced.
var errandLine = say.Of("amend.record")

// EndErrand clears away what a writer that was stopped left beside the record
// that a line of an errand names. known is false for lines of other rooms.
func EndErrand(room, line string) (known bool, err error) {
	name, known := strings.CutPrefix(line, errandLine)
	if !known {
		return false, nil
	}
	f := File{Folder: room, Path: name}
	folder, base, err := f.locate()
	if errors.Is(err, fs.ErrNotExist) {
		return true, nil
	}
	if err != nil {
		return true, err
	}
	defer folder.Close()
	release, err := hold(folder, base, shortWait)
	if err != nil {
		return true, err
	}
	defer release()
	(&writer{folder: folder, base: base, path: name}).tidy()
	return true, nil
}

// locate finds the folder and the name of the file that a path leads to.
func (f File) locate() (*disk.Root, string, error) {
	root, err := disk.OpenRoot(f.Folder)
	if err != nil {
		return nil, "", plain(err)
	}
	defer root.Close()
	name := filepath.ToSlash(f.Path)
	for range mostLinks {
		dir, base := splitLast(name)
		info, err := root.Lstat(name)
		if err != nil {
			return nil, "", plain(err)
		}
		if info.Mode()&fs.ModeSymlink == 0 {
			if !info.Mode().IsRegular() {
				return nil, "", errors.New(say.Of("amend.it-is-not-a-file"))
			}
			folder, err := root.OpenRoot(dir)
			return folder, base, plain(err)
		}
		target, err := root.Readlink(name)
		if err != nil {
			return nil, "", plain(err)
		}
		if name, err = f.linked(dir, target); err != nil {
			return nil, "", err
		}
	}
	return nil, "", errors.New(say.Of("amend.its-links-go-round-in-a-circle"))
}

// linked is where a link in dir leads, relative to the folder. The dots in it
// are left as they are: behind a linked folder they mean another place.
func (f File) linked(dir, target string) (string, error) {
	if !filepath.IsAbs(target) {
		return dir + "/" + filepath.ToSlash(target), nil
	}
	root, err := filepath.Abs(f.Folder)
	if err == nil {
		root, err = filepath.EvalSymlinks(root)
	}
	if err != nil {
		return "", plain(err)
	}
	rel, err := filepath.Rel(root, target)
	if err != nil || !filepath.IsLocal(rel) {
		return "", errors.New(say.Of("amend.it-is-a-link-that-leads-out"))
	}
	return filepath.ToSlash(rel), nil
}

func splitLast(name string) (dir, base string) {
	if i := strings.LastIndexByte(name, '/'); i >= 0 {
		return name[:i+1], name[i+1:]
	}
	return ".", name
}

// plain says what went wrong without the path, which the message names already.
func plain(err error) error {
	var p *fs.PathError
	var l *os.LinkError
	switch {
	case err == nil:
		return nil
	case errors.Is(err, fs.ErrNotExist):
		return reason{say.Of("amend.there-is-no-such-file"), err}
	case errors.Is(err, fs.ErrPermission):
		return reason{say.Of("amend.writing-it-is-not-allowed"), err}
	case strings.Contains(err.Error(), "escapes"):
		return reason{say.Of("amend.it-leads-out-of-the-workroom"), err}
	case errors.As(err, &p):
		return p.Err
	case errors.As(err, &l):
		return l.Err
	}
	return err
}

// A reason says what went wrong in words; programs can still ask for the error.
type reason struct {
	words string
	err   error
}

func (r reason) Error() string { return r.words }
func (r reason) Unwrap() error { return r.err }

// readSettled is readAll once no program is writing into the file any more.
// settled is false where one does not come to an end.
func readSettled(folder *disk.Root, name string) (text []byte, info fs.FileInfo, settled bool, err error) {
	file, err := folder.Open(name)
	if err != nil {
		return nil, nil, false, err
	}
	defer file.Close()
	if info, err := file.Stat(); err == nil && info.Mode().IsRegular() {
		settled = disk.Settled(file)
	}
	text, info, err = readAll(folder, name)
	return text, info, settled, err
}

// readAll reads a file of the folder whole.
func readAll(folder *disk.Root, name string) ([]byte, fs.FileInfo, error) {
	file, err := folder.Open(name)
	if err != nil {
		return nil, nil, err
	}
	defer file.Close()
	info, err := file.Stat()
	if err != nil {
		return nil, nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, nil, errors.New(say.Of("amend.it-is-not-a-file"))
	}
	text, err := io.ReadAll(io.LimitReader(file, most+1))
	return text, info, err
}

// holds reports whether a file of the folder holds just this text.
func holds(folder *disk.Root, name string, text []byte) bool {
	got, _, err := readAll(folder, name)
	return err == nil && bytes.Equal(got, text)
}
