package disk

import (
	"os"

	"golang.org/x/sys/unix"
)

// beingWritten reports whether a program has the file open to write in it. The
// system knows: it grants no lease for reading on such a file (fcntl(2),
// F_SETLEASE). known is false where it does not tell.
func beingWritten(file *os.File) (yes, known bool) {
	_, err := unix.FcntlInt(file.Fd(), unix.F_SETLEASE, unix.F_RDLCK)
	if err == nil {
		_, _ = unix.FcntlInt(file.Fd(), unix.F_SETLEASE, unix.F_UNLCK)
	}
	return err == unix.EAGAIN, err == nil || err == unix.EAGAIN
}
