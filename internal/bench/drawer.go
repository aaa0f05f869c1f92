package bench

import (
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io/fs"
	"os"
	"strings"
	"unicode"

	"hembook/internal/disk"
	"hembook/internal/record/amend"
)

// clockFolder is where the clocks of a workroom lie. Other folders beside it
// may be deleted at any time; this one holds what is nowhere else.
const (
	clockFolder = ".hembook/clock"
	aboutName   = "about.txt"
	aboutText   = "Each file here is a clock that runs. Its time is nowhere else: `hembook clock` shows it,\n" +
		"`hembook clock off` notes it in the record, `hembook clock off --drop` lets it go.\n"
)

// Clocks are the clocks of one workroom. Each is a small file, replaced whole
// or not at all; programs that change them wait for each other.
type Clocks struct{ room string }

// ClocksOf are the clocks of the workroom in that folder.
func ClocksOf(room string) *Clocks { return &Clocks{room} }

// A drawer is the opened folder of the clocks.
type drawer struct{ root *os.Root }

// in opens the folder as it is.
func (s *Clocks) in(do func(*drawer) error) error {
	room, err := os.OpenRoot(s.room)
	if err != nil {
		return err
	}
	defer room.Close()
	root, err := room.OpenRoot(clockFolder)
	if err != nil {
		return err
	}
	defer root.Close()
	return do(&drawer{root})
}

// change makes the folder where it is missing, and holds its lock meanwhile:
// that of changing its one file that never changes.
func (s *Clocks) change(do func(*drawer) error) error {
	room, err := os.OpenRoot(s.room)
	if err != nil {
		return err
	}
	defer room.Close()
	if err := room.MkdirAll(clockFolder, 0o777); err != nil {
		return err
	}
	about, err := room.OpenFile(clockFolder+"/"+aboutName, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err == nil {
		_, err = about.WriteString(aboutText)
		err = errors.Join(err, about.Close())
	}
	if err != nil && !errors.Is(err, fs.ErrExist) {
		return err
	}
	var done error
	held := amend.File{Folder: s.room, Path: clockFolder + "/" + aboutName}.Change(func(text []byte) ([]byte, error) {
		done = s.in(do)
		return text, nil
	})
	return errors.Join(done, held)
}

// names lists the clocks' files.
func (d *drawer) names() ([]string, error) {
	list, err := fs.ReadDir(d.root.FS(), ".")
	var out []string
	for _, e := range list {
		if n := e.Name(); strings.HasSuffix(n, ".yaml") && !strings.HasPrefix(n, ".") {
			out = append(out, n)
		}
	}
	return out, err
}

func (d *drawer) read(name string) (Clock, error) {
	text, err := disk.ReadIn(d.root, name)
	if err != nil {
		return Clock{}, err
	}
	return readClock(text)
}

// same reads a clock again and makes sure that it is the one that was meant.
func (d *drawer) same(c Clock) (Clock, error) {
	now, err := d.read(c.name())
	switch {
	case errors.Is(err, fs.ErrNotExist), err == nil && !now.Since.Equal(c.Since), err == nil && !now.Running.Equal(c.Running):
		return now, ErrNotRunning
	}
	return now, err
}

// write puts a clock's file in place, whole.
func (d *drawer) write(c *Clock) error {
	temp := "." + c.name() + ".writing-" + rand.Text()[:8]
	file, err := d.root.OpenFile(temp, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return err
	}
	_, err = file.Write(c.text())
	if err == nil {
		err = file.Sync()
	}
	if err = errors.Join(err, file.Close()); err == nil {
		err = d.root.Rename(temp, c.name())
	}
	if err != nil {
		d.root.Remove(temp)
		return err
	}
	d.sync()
	return nil
}

func (d *drawer) remove(name string) error {
	err := d.root.Remove(name)
	d.sync()
	return err
}

// sync asks the disk to hold the folder itself, where it knows how.
func (d *drawer) sync() {
	if dir, err := d.root.Open("."); err == nil {
		_ = dir.Sync()
		dir.Close()
	}
}

// fileWords makes a name safe for a file on any system; it need not be unique.
func fileWords(s string) string {
	const most = 24
	plain := []rune(strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) || r == '-' {
			return r
		}
		return '-'
	}, s))
	return string(plain[:min(most, len(plain))])
}

func shortSum(s string) string {
	sum := sha256.Sum256([]byte(s))
	return hex.EncodeToString(sum[:4])
}
