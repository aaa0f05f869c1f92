package disk

import "golang.org/x/sys/unix"

func exchange(a, b string) error { return known(unix.RenamexNp(a, b, unix.RENAME_SWAP)) }

func (r *Root) exchange(a, b string) error {
	dir, err := r.Open(".")
	if err != nil {
		return err
	}
	defer dir.Close()
	fd := int(dir.Fd())
	return known(unix.RenameatxNp(fd, a, fd, b, unix.RENAME_SWAP))
}

func known(err error) error {
	if err == unix.EINVAL || err == unix.ENOSYS || err == unix.ENOTSUP {
		return ErrNoExchange
	}
	return err
}
