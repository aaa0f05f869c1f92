package amend

import (
	"errors"
	"io/fs"
	"time"

	"hembook/internal/disk"
	"hembook/internal/fault"
	"hembook/internal/say"
)

// Writers wait for each other by a lock of the operating system on the folder
// that holds the record. The record itself cannot be locked, as each change
// puts a new file in its place; a lock file beside it would lie about among
// the maker's files. The system lets go of the lock when a writer ends in
// whatever way, so nothing is ever left locked. Network file systems that lock
// no folders lock a hidden file beside the record instead, and where the system
// has no such locks a hidden file is the lock by being there.

// errNoLocks is returned where the file system cannot lock.
var errNoLocks = say.Error("amend.this-file-system-has-no-locks")

func busy(wait time.Duration) error {
	return errors.New(say.Of("amend.another-program-has-been-writing-in-its", wait))
}

// holdByName makes a hidden file and takes it away again. Of a writer that was
// killed it stays behind, and only the maker can know that.
func holdByName(folder *disk.Root, base string, wait time.Duration) (release func(), err error) {
	const pause = 5 * time.Millisecond
	name := "." + base + ".lock"
	for waited := time.Duration(0); ; waited += pause {
		file, err := folder.Create(name, 0o666)
		if err == nil {
			file.Close()
			return func() { folder.Remove(name) }, nil
		}
		if !errors.Is(err, fs.ErrExist) {
			return nil, plain(err)
		}
		if waited >= wait {
			return nil, fault.Wrapping(busy(wait), say.Of("amend.if-none-is-running-remove-the-file", busy(wait), name))
		}
		time.Sleep(pause)
	}
}
