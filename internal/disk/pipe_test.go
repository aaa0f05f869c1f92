//go:build unix

package disk

import (
	"errors"
	"io/fs"
	"net"
	"os"
	"path/filepath"
	"syscall"
	"testing"
)

// What is no file is refused at once by every way in. A test that waits here
// has found one that is not.
func TestNothingElseIsOpened(t *testing.T) {
	dir := t.TempDir()
	root, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	at := func(name string) string { return filepath.Join(dir, name) }
	for _, c := range []struct {
		name, want string
		make       func(path string) error
	}{
		{"pipe", "it is a pipe, not a file", func(p string) error { return syscall.Mkfifo(p, 0o600) }},
		{"linked", "it is a pipe, not a file", func(p string) error { return os.Symlink("pipe", p) }},
		{"socket", "it is a socket, not a file", func(p string) error {
			l, err := net.Listen("unix", p)
			if err == nil {
				t.Cleanup(func() { l.Close() })
			}
			return err
		}},
		// the device that gives zeros without end, by its numbers in Linux (devices.txt)
		{"device", "it is a device, not a file", func(p string) error { return mknod(p, syscall.S_IFCHR|0o600, 1<<8|5) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			if err := c.make(at(c.name)); err != nil {
				t.Skipf("cannot be made here: %v", err)
			}
			for way, open := range map[string]func() error{
				"by path":   func() error { _, err := ReadFile(at(c.name)); return err },
				"in folder": func() error { _, err := ReadIn(root, c.name); return err },
				"as FS":     func() error { _, err := fs.ReadFile(FS(root), c.name); return err },
				"FS, open":  func() error { _, err := FS(root).Open(c.name); return err },
			} {
				var no NotAFile
				if err := open(); !errors.As(err, &no) || no.Error() != c.want {
					t.Errorf("%s: %v, want %s", way, err, c.want)
				}
			}
		})
	}
}
