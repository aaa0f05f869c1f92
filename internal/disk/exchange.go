//go:build linux || darwin

package disk

import "golang.org/x/sys/unix"

func (r *Root) exchange(a, b string) error {
	dir, err := r.Open(".")
	if err != nil {
		return err
	}
	defer dir.Close()
	return known(swapIn(int(dir.Fd()), a, b))
}

// known tells a file system that cannot exchange names from what went wrong.
func known(err error) error {
	if err == unix.EINVAL || err == unix.ENOSYS || err == unix.ENOTSUP {
		return ErrNoExchange
	}
	return err
}
