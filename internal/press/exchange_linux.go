package press

import (
	"os"

	"golang.org/x/sys/unix"
)

// Exchange puts the folder fresh in the place of old in one step, after which
// fresh names what old was. Where there is no old one it is a plain rename.
func Exchange(fresh, old string, had bool) error {
	if !had {
		return os.Rename(fresh, old)
	}
	err := unix.Renameat2(unix.AT_FDCWD, fresh, unix.AT_FDCWD, old, unix.RENAME_EXCHANGE)
	if err == unix.EINVAL || err == unix.ENOSYS || err == unix.ENOTSUP {
		return exchangeByTwo(fresh, old)
	}
	return err
}
