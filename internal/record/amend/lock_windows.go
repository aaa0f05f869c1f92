package amend

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"time"

	"hembook/internal/disk"
)

// hold opens a hidden file beside the record so that nobody else can, and that
// the system takes away when it is closed or its writer ends.
func hold(folder *disk.Root, base string, wait time.Duration) (release func(), err error) {
	const (
		pause           = 5 * time.Millisecond
		deleteOnClose   = 0x04000000         // FILE_FLAG_DELETE_ON_CLOSE
		hiddenFile      = 0x2                // FILE_ATTRIBUTE_HIDDEN
		sharingViolated = syscall.Errno(32)  // ERROR_SHARING_VIOLATION
		deletePending   = syscall.Errno(303) // ERROR_DELETE_PENDING
	)
	name, err := syscall.UTF16PtrFromString(filepath.Join(folder.Name(), "."+base+".lock"))
	if err != nil {
		return nil, err
	}
	for waited := time.Duration(0); ; waited += pause {
		h, err := syscall.CreateFile(name, syscall.GENERIC_READ|syscall.GENERIC_WRITE, 0, nil,
			syscall.OPEN_ALWAYS, hiddenFile|deleteOnClose, 0)
		if err == nil {
			return func() { syscall.CloseHandle(h) }, nil
		}
		taken := errors.Is(err, sharingViolated) || errors.Is(err, deletePending) || errors.Is(err, syscall.ERROR_ACCESS_DENIED)
		if !taken {
			return holdByName(folder, base, wait)
		}
		if waited >= wait {
			return nil, busy(wait)
		}
		time.Sleep(pause)
	}
}

func keepOwner(*os.File, fs.FileInfo) {}

func syncUnknown(error) bool { return false }
