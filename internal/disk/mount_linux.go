package disk

import "golang.org/x/sys/unix"

// IsMount reports whether a folder is where another disk, or another folder, is
// mounted: no rename can put anything in its place.
func IsMount(name string) bool {
	var s unix.Statx_t
	err := unix.Statx(unix.AT_FDCWD, name, 0, unix.STATX_INO, &s)
	return err == nil && s.Attributes_mask&unix.STATX_ATTR_MOUNT_ROOT != 0 && s.Attributes&unix.STATX_ATTR_MOUNT_ROOT != 0
}
