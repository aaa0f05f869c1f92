package disk

import "golang.org/x/sys/unix"

func exchange(a, b string) error { return known(swapIn(unix.AT_FDCWD, a, b)) }

// swapIn exchanges two names below an open folder.
func swapIn(dir int, a, b string) error {
	return unix.Renameat2(dir, a, dir, b, unix.RENAME_EXCHANGE)
}
