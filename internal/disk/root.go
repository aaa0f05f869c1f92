package disk

import (
	"errors"
	"io/fs"
	"os"
	"strings"
)

// A Root is an opened folder: nothing outside of it can be reached through it,
// by links neither.
type Root struct{ *os.Root }

// OpenRoot opens a folder.
func OpenRoot(name string) (*Root, error) {
	root, err := os.OpenRoot(name)
	if err != nil {
		return nil, err
	}
	return &Root{root}, nil
}

// OpenRoot opens a folder of the folder.
func (r *Root) OpenRoot(name string) (*Root, error) {
	root, err := r.Root.OpenRoot(name)
	if err != nil {
		return nil, err
	}
	return &Root{root}, nil
}

// A File is one that is being written.
type File struct{ *os.File }

// Write writes data.
func (f *File) Write(data []byte) (int, error) { return write(f.File, data) }

// Sync waits until the disk holds what was written.
func (f *File) Sync() error {
	step("sync", f.Name())
	return f.File.Sync()
}

// Create makes a file that is not there yet, to be written.
func (r *Root) Create(name string, mode fs.FileMode) (*File, error) {
	step("make", name)
	file, err := r.Root.OpenFile(name, os.O_RDWR|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return nil, err
	}
	return &File{file}, nil
}

// MkdirAll makes a folder, with those above it where need be.
func (r *Root) MkdirAll(name string, mode fs.FileMode) error {
	if info, err := r.Root.Stat(name); err == nil && info.IsDir() {
		return nil
	}
	step("make", name)
	return r.Root.MkdirAll(name, mode)
}

// Rename gives a file another name, in the place of one that has that name.
func (r *Root) Rename(from, to string) error {
	step("rename", to)
	return r.Root.Rename(from, to)
}

// Link gives a file a second name.
func (r *Root) Link(from, to string) error {
	step("link", to)
	return r.Root.Link(from, to)
}

// Remove removes a file or an empty folder.
func (r *Root) Remove(name string) error {
	step("remove", name)
	return r.Root.Remove(name)
}

// Exchange is [Exchange] for two files that lie in the folder itself.
func (r *Root) Exchange(a, b string) error {
	if strings.ContainsAny(a+b, `/\`) {
		return errors.New("only files of one folder are exchanged")
	}
	step("exchange", b)
	return r.exchange(a, b)
}

// Sync asks the disk to hold the folder itself, where it knows how.
func (r *Root) Sync() error {
	step("sync folder", r.Name())
	dir, err := r.Open(".")
	if err != nil {
		return err
	}
	defer dir.Close()
	if err := dir.Sync(); err != nil && !syncUnknown(err) {
		return err
	}
	return nil
}
