//go:build darwin || dragonfly || freebsd || linux || netbsd || openbsd

package amend

import (
	"errors"
	"io/fs"
	"os"
	"syscall"
	"time"

	"hembook/internal/disk"
)

// hold waits for the lock of the folder.
func hold(folder *disk.Root, base string, wait time.Duration) (release func(), err error) {
	dir, err := folder.Open(".")
	if err != nil {
		return nil, plain(err)
	}
	release, err = flock(dir, wait)
	if !errors.Is(err, errNoLocks) {
		return release, err
	}
	file, err := folder.OpenFile("."+base+".lock", os.O_RDWR|os.O_CREATE, 0o666)
	if err != nil {
		return nil, plain(err)
	}
	release, err = flock(file, wait)
	if !errors.Is(err, errNoLocks) {
		return release, err
	}
	folder.Remove("." + base + ".lock")
	return holdByName(folder, base, wait)
}

// flock locks an open file, which it closes when the lock is released or not
// had. The system queues those who wait; asking again and again would let the
// busiest writer win.
func flock(file *os.File, wait time.Duration) (release func(), err error) {
	done := make(chan error, 1)
	go func() {
		for {
			err := syscall.Flock(int(file.Fd()), syscall.LOCK_EX)
			if !errors.Is(err, syscall.EINTR) {
				done <- err
				return
			}
		}
	}()
	late := time.NewTimer(wait)
	defer late.Stop()
	select {
	case err = <-done:
	case <-late.C:
		go func() { <-done; file.Close() }()
		return nil, busy(wait)
	}
	if err != nil {
		file.Close()
		return nil, errors.Join(errNoLocks, err)
	}
	return func() { file.Close() }, nil
}

// keepOwner gives a new file the record's owner and group, where it may.
func keepOwner(file *os.File, info fs.FileInfo) {
	if s, ok := info.Sys().(*syscall.Stat_t); ok && (int(s.Uid) != os.Geteuid() || int(s.Gid) != os.Getegid()) {
		if file.Chown(int(s.Uid), int(s.Gid)) != nil {
			file.Chown(-1, int(s.Gid)) // the group is kept where the owner cannot be
		}
	}
}
