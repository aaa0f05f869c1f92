package disk

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"syscall"
)

// A NotAFile says what lies under a file's name instead: "a pipe", "a folder".
// It comes within an [fs.PathError], as other errors of opening do.
type NotAFile string

func (n NotAFile) Error() string { return "it is " + string(n) + ", not a file" }

// Open opens a plain file for reading; a folder is none.
func Open(name string) (*os.File, error) {
	return only(name, false, os.Stat, func(flag int) (*os.File, error) { return os.OpenFile(name, flag, 0) })
}

// ReadFile reads a plain file whole.
func ReadFile(name string) ([]byte, error) { return whole(Open(name)) }

// OpenIn opens a plain file of an opened folder for reading.
func OpenIn(root *os.Root, name string) (*os.File, error) { return openIn(root, name, false) }

// ReadIn reads a plain file of an opened folder whole.
func ReadIn(root *os.Root, name string) ([]byte, error) { return whole(OpenIn(root, name)) }

func openIn(root *os.Root, name string, folders bool) (*os.File, error) {
	return only(name, folders, root.Stat, func(flag int) (*os.File, error) { return root.OpenFile(name, flag, 0) })
}

// only opens a name without waiting and keeps what it got where that is a file.
func only(name string, folders bool, stat func(string) (fs.FileInfo, error), open func(flag int) (*os.File, error)) (*os.File, error) {
	f, err := open(os.O_RDONLY | dontWait)
	if err != nil {
		info, bad := stat(name)
		switch {
		case bad != nil:
			return nil, err
		case what(info, folders) != "": // a socket cannot be opened at all
			return nil, notAFile(name, info, folders)
		case errors.Is(err, syscall.EAGAIN): // another program must let go of it first: fcntl(2), "Leases"
			f, err = open(os.O_RDONLY)
		}
		if err != nil {
			return nil, err
		}
	}
	info, err := f.Stat()
	if err == nil && what(info, folders) != "" {
		err = notAFile(name, info, folders)
	}
	if err != nil {
		f.Close()
		return nil, err
	}
	return f, nil
}

func notAFile(name string, info fs.FileInfo, folders bool) error {
	return &fs.PathError{Op: "open", Path: name, Err: NotAFile(what(info, folders))}
}

// what says what lies there; "" where it may be opened.
func what(info fs.FileInfo, folders bool) string {
	switch mode := info.Mode(); {
	case mode.IsRegular():
		return ""
	case mode.IsDir() && folders:
		return ""
	case mode.IsDir():
		return "a folder"
	case mode&fs.ModeNamedPipe != 0:
		return "a pipe"
	case mode&fs.ModeSocket != 0:
		return "a socket"
	case mode&fs.ModeDevice != 0:
		return "a device"
	}
	return "something else"
}

func whole(f *os.File, err error) ([]byte, error) {
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(f)
}

// A folder is an opened folder as a file system.
type folder struct{ root *os.Root }

// FS is an opened folder as a file system of plain files and folders. Nothing
// outside of it can be reached.
func FS(root *os.Root) fs.FS { return folder{root} }

// Open is [fs.FS].
func (d folder) Open(name string) (fs.File, error) {
	if !fs.ValidPath(name) {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrInvalid}
	}
	f, err := openIn(d.root, name, true)
	if err != nil {
		return nil, err // not f: a nil file would not be nil here
	}
	return f, nil
}

// Stat is [fs.StatFS].
func (d folder) Stat(name string) (fs.FileInfo, error) { return fs.Stat(d.root.FS(), name) }

// ReadDir is [fs.ReadDirFS]: sorted by name.
func (d folder) ReadDir(name string) ([]fs.DirEntry, error) { return fs.ReadDir(d.root.FS(), name) }

// Open opens a plain file or a folder for reading.
func (r *Root) Open(name string) (*os.File, error) { return openIn(r.Root, name, true) }

// ReadFile reads a plain file whole.
func (r *Root) ReadFile(name string) ([]byte, error) { return ReadIn(r.Root, name) }

// FS is [FS] of the folder.
func (r *Root) FS() fs.FS { return FS(r.Root) }
