package disk

import (
	"crypto/rand"
	"errors"
	"io/fs"
	"os"
	"path"
	"strings"
)

// writing stands in the name of a file that is not in its place yet.
const writing = ".writing-"

// mostTries is how often a draft is written anew that was swept away before its
// owner had locked it.
const mostTries = 8

// A Draft is a file that is whole, and waits under a hidden name beside the
// place it is for. Its owner holds its lock, so that one whose owner was stopped
// can be told from one that is being written.
type Draft struct {
	root *Root
	name string
	file *File
}

// Draft writes a hidden file into the folder of the file it is to be, and waits
// for the disk.
func (r *Root) Draft(name string, data []byte, mode fs.FileMode) (*Draft, error) {
	return r.draft(name, data, mode, true)
}

func (r *Root) draft(name string, data []byte, mode fs.FileMode, wait bool) (*Draft, error) {
	for try := 1; ; try++ {
		d := &Draft{root: r, name: path.Join(path.Dir(name), "."+path.Base(name)+writing+rand.Text()[:8])}
		var err error
		if d.file, err = r.Create(d.name, mode); err != nil {
			return nil, err
		}
		tryLock(d.file.File) // where there are no locks nobody else has it either
		if !d.ours() && try < mostTries {
			d.file.Close()
			continue // one that swept was quicker
		}
		if _, err = d.file.Write(data); err == nil && wait {
			err = d.file.Sync()
		}
		if err != nil {
			d.Drop()
			return nil, err
		}
		return d, nil
	}
}

// ours reports whether the locked file is still the one that has the name.
func (d *Draft) ours() bool {
	a, err := d.file.Stat()
	b, err2 := d.root.Lstat(d.name)
	return err == nil && err2 == nil && os.SameFile(a, b)
}

// Link gives the draft a second name, which must be free.
func (d *Draft) Link(name string) error { return d.root.Link(d.name, name) }

// Drop removes the draft; a second name stays.
func (d *Draft) Drop() error {
	err := d.root.Remove(d.name)
	closed := d.file.Close()
	if err != nil { // some systems remove no file that is open
		err = d.root.Remove(d.name)
	}
	return errors.Join(err, closed)
}

// place gives the draft its name, in the place of a file that has it. Some
// systems rename no file that is open, so it is closed before; gone is true
// where one that sweeps came just then.
func (d *Draft) place(name string) (gone bool, err error) {
	if err := d.file.Close(); err != nil {
		d.root.Remove(d.name)
		return false, err
	}
	if err = d.root.Rename(d.name, name); err != nil {
		_, is := d.root.Lstat(d.name)
		d.root.Remove(d.name)
		return errors.Is(is, fs.ErrNotExist), err
	}
	return false, nil
}

// Replace puts a file in place, whole or not at all, and waits for the disk.
func (r *Root) Replace(name string, data []byte, mode fs.FileMode) error {
	if err := r.replace(name, data, mode, true); err != nil {
		return err
	}
	if dir, err := r.OpenRoot(path.Dir(name)); err == nil {
		_ = dir.Sync() // it is in place; the disk may take its time
		dir.Close()
	}
	return nil
}

// Keep is [Root.Replace] for what can be made again: it does not wait.
func (r *Root) Keep(name string, data []byte, mode fs.FileMode) error {
	return r.replace(name, data, mode, false)
}

func (r *Root) replace(name string, data []byte, mode fs.FileMode, wait bool) error {
	for try := 1; ; try++ {
		d, err := r.draft(name, data, mode, wait)
		if err != nil {
			return err
		}
		gone, err := d.place(name)
		if err == nil || !gone || try == mostTries {
			return err
		}
	}
}

// Sweep removes from a folder the drafts whose owners were stopped.
func (r *Root) Sweep(folder string) {
	list, _ := fs.ReadDir(r.FS(), folder)
	for _, e := range list {
		if !strings.HasPrefix(e.Name(), ".") || !strings.Contains(e.Name(), writing) || !e.Type().IsRegular() {
			continue
		}
		d := &Draft{root: r, name: path.Join(folder, e.Name())}
		file, err := r.OpenFile(d.name, os.O_RDWR, 0)
		if err != nil {
			continue
		}
		if d.file = (&File{file}); !tryLock(file) || !d.ours() {
			file.Close()
			continue
		}
		_ = d.Drop()
	}
}
