//go:build darwin || dragonfly || freebsd || netbsd || openbsd

package disk

import (
	"os"
	"path/filepath"
	"syscall"
)

// IsMount reports whether a folder is where another disk is mounted: no rename
// can put anything in its place.
func IsMount(name string) bool {
	a, err := os.Stat(name)
	b, err2 := os.Stat(filepath.Dir(name))
	if err != nil || err2 != nil {
		return false
	}
	x, ok := a.Sys().(*syscall.Stat_t)
	y, ok2 := b.Sys().(*syscall.Stat_t)
	return ok && ok2 && x.Dev != y.Dev
}
