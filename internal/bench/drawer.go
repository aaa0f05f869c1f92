package bench

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io/fs"
	"strings"
	"unicode"

	"hembook/internal/disk"
	"hembook/internal/record/amend"
	"hembook/internal/say"
)

// clockFolder is where the clocks of a workroom lie. Other folders beside it
// may be deleted at any time; this one holds what is nowhere else.
const (
	clockFolder = ".hembook/clock"
	aboutName   = "about.txt"
)

// Clocks are the clocks of one workroom. Each is a small file, replaced whole
// or not at all; programs that change them wait for each other.
type Clocks struct{ room string }

// ClocksOf are the clocks of the workroom in that folder.
func ClocksOf(room string) *Clocks { return &Clocks{room} }

// A drawer is the opened folder of the clocks.
type drawer struct{ root *disk.Root }

// in opens the folder as it is.
func (s *Clocks) in(do func(*drawer) error) error {
	room, err := disk.OpenRoot(s.room)
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
	room, err := disk.OpenRoot(s.room)
	if err != nil {
		return err
	}
	defer room.Close()
	if err := room.MkdirAll(clockFolder, 0o777); err != nil {
		return err
	}
	defer disk.BeginErrand(s.room, clockErrand).End()
	if _, err := room.Lstat(clockFolder + "/" + aboutName); errors.Is(err, fs.ErrNotExist) {
		err = room.Replace(clockFolder+"/"+aboutName, []byte(say.Of("bench.each-file-here-is-a-clock-that")+"\n"), 0o666)
		if err != nil {
			return err
		}
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
	text, err := d.root.ReadFile(name)
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
func (d *drawer) write(c *Clock) error { return d.root.Replace(c.name(), c.text(), 0o666) }

func (d *drawer) remove(name string) error {
	err := d.root.Remove(name)
	_ = d.root.Sync() // it is gone; the disk may take its time
	return err
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
