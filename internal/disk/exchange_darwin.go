package disk

import "golang.org/x/sys/unix"

func exchange(a, b string) error { return known(unix.RenamexNp(a, b, unix.RENAME_SWAP)) }

// swapIn exchanges two names below an open folder.
func swapIn(dir int, a, b string) error {
	return unix.RenameatxNp(dir, a, dir, b, unix.RENAME_SWAP)
}
