//go:build darwin || dragonfly || freebsd || linux || netbsd || openbsd

package disk

import (
	"errors"
	"os"
	"syscall"
)

// tryLock locks an open file, unless another program has locked it. The lock
// ends with the file, or with the program in whatever way.
func tryLock(file *os.File) bool {
	for {
		err := syscall.Flock(int(file.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
		if !errors.Is(err, syscall.EINTR) {
			return err == nil
		}
	}
}

// syncUnknown reports that a file system has no way to sync a folder.
func syncUnknown(err error) bool {
	return errors.Is(err, errors.ErrUnsupported) || errors.Is(err, syscall.EINVAL) || errors.Is(err, syscall.ENOTSUP)
}
