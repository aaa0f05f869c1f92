//go:build !(darwin || dragonfly || freebsd || linux || netbsd || openbsd || windows)

package amend

import (
	"io/fs"
	"os"
	"time"

	"hembook/internal/disk"
)

func hold(folder *disk.Root, base string, wait time.Duration) (release func(), err error) {
	return holdByName(folder, base, wait)
}

func keepOwner(*os.File, fs.FileInfo) {}

func syncUnknown(error) bool { return true }
