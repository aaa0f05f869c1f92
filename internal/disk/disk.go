// Package disk changes files so that a program that is stopped at any moment
// leaves either what was there before or what was meant to be there, and opens
// files so that none can hold the program up.
//
// Everything the program writes of the maker's, and every notebook, goes
// through it: files that are replaced whole ([Root.Replace]), two names that
// exchange what they stand for ([Exchange]), and folders that are filled
// beside their place, whose owner can be known to be gone ([Filling]). So can the
// owner of a file that has not its name yet ([Draft]), and whoever was at work
// notes what a stop would leave half done ([Errand]), so that nothing lies about.
//
// Everything the program reads of the maker's is opened by it too: plain files
// and folders alone. A pipe, a socket or a device is a [NotAFile] at once;
// reading one could wait for ever, or never come to an end.
//
// It knows nothing of what is in the files.
package disk

import (
	"errors"
	"io/fs"
	"os"
	"sync/atomic"
)

// A Touch is one change of the disk. It is told just before it is made, a write
// a second time when half of it is done.
type Touch struct {
	Does string // "make", "write", "sync", "rename", "exchange", "link", "remove", "sync folder"
	Name string // the file or folder, as the caller named it
}

// Watcher is told every change of the disk, where there is one: tests stop the
// program there. It may be called by several goroutines at once.
var Watcher atomic.Pointer[func(Touch)]

func step(does, name string) {
	if see := Watcher.Load(); see != nil {
		(*see)(Touch{does, name})
	}
}

// write writes data, in two halves where somebody watches.
func write(file *os.File, data []byte) (int, error) {
	step("write", file.Name())
	if Watcher.Load() == nil || len(data) < 2 {
		return file.Write(data)
	}
	n, err := file.Write(data[:len(data)/2])
	if err != nil {
		return n, err
	}
	step("write", file.Name())
	m, err := file.Write(data[n:])
	return n + m, err
}

// Mkdir makes a folder.
func Mkdir(name string, mode fs.FileMode) error {
	step("make", name)
	return os.Mkdir(name, mode)
}

// MkdirAll makes a folder, with those above it where need be.
func MkdirAll(name string, mode fs.FileMode) error {
	if info, err := os.Stat(name); err == nil && info.IsDir() {
		return nil
	}
	step("make", name)
	return os.MkdirAll(name, mode)
}

// WriteFile makes a file that is not there yet. It does not wait for the disk.
func WriteFile(name string, data []byte, mode fs.FileMode) error {
	step("make", name)
	file, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return err
	}
	_, err = write(file, data)
	return errors.Join(err, file.Close())
}

// Rename gives a file or folder another name, in the place of a file that has
// that name.
func Rename(from, to string) error {
	step("rename", to)
	return os.Rename(from, to)
}

// Link gives a file a second name.
func Link(from, to string) error {
	step("link", to)
	return os.Link(from, to)
}

// Remove removes a file or an empty folder.
func Remove(name string) error {
	step("remove", name)
	return os.Remove(name)
}

// RemoveAll removes a folder with all that is in it.
func RemoveAll(name string) error {
	step("remove", name)
	return os.RemoveAll(name)
}

// ErrNoExchange says that the system, or this file system, exchanges no names.
var ErrNoExchange = errors.New("names cannot be exchanged here")

// Exchange lets two names of files or folders stand for each other's, in one
// step. The error is [ErrNoExchange] where there is no such thing.
func Exchange(a, b string) error {
	step("exchange", b)
	return exchange(a, b)
}
