package disk

import (
	"crypto/rand"
	"errors"
	"io"
	"io/fs"
	"os"
	"path"
	"strings"
)

// errandFolder is where a workroom's errands are noted.
const errandFolder = ".hembook/errands"

// An Errand is a note of what a program is about that a kill would leave half
// done, so that the next one can clear away after it without looking through
// the whole workroom. Its owner holds its lock until it has come to an end.
type Errand struct {
	Lines []string // what it is about; only its owner knows what they mean

	root *Root
	name string
	file *os.File
}

// BeginErrand notes an errand in a workroom. Where none can be noted it is nil,
// and what has to be done is done without.
func BeginErrand(room string, lines ...string) *Errand {
	root, err := OpenRoot(room)
	if err != nil {
		return nil
	}
	e, err := root.begin(lines)
	if err != nil {
		root.Close()
		return nil
	}
	return e
}

func (r *Root) begin(lines []string) (*Errand, error) {
	if err := r.MkdirAll(errandFolder, 0o777); err != nil {
		return nil, err
	}
	for {
		e := &Errand{root: r, name: path.Join(errandFolder, strings.ToLower(rand.Text()[:12]))}
		file, err := r.Create(e.name, 0o666)
		if err != nil {
			return nil, err
		}
		e.file = file.File
		tryLock(e.file)
		if !e.ours() {
			e.file.Close()
			continue // one that looked for those left was quicker
		}
		return e, e.add(lines)
	}
}

// Add notes more lines. It is safe on nil.
func (e *Errand) Add(lines ...string) {
	if e != nil {
		_ = e.add(lines)
	}
}

func (e *Errand) add(lines []string) error {
	e.Lines = append(e.Lines, lines...)
	_, err := write(e.file, []byte(strings.Join(lines, "\n")+"\n"))
	return err
}

func (e *Errand) ours() bool {
	a, err := e.file.Stat()
	b, err2 := e.root.Lstat(e.name)
	return err == nil && err2 == nil && os.SameFile(a, b)
}

// End takes the note away: nothing is left half done. It is safe on nil.
func (e *Errand) End() {
	if e == nil {
		return
	}
	err := e.root.Remove(e.name)
	e.file.Close()
	if err != nil { // some systems remove no file that is open
		_ = e.root.Remove(e.name)
	}
	e.root.Close()
}

// Leave lets go of an errand that was taken over, for a later program to end.
func (e *Errand) Leave() {
	e.file.Close()
	e.root.Close()
}

// LeftErrands takes over the errands of a workroom whose owners were stopped.
// Of one that was stopped while it noted a line, that line is not there: it had
// not begun yet what the line is about.
func LeftErrands(room string) []*Errand {
	list, err := os.ReadDir(room + "/" + errandFolder)
	if err != nil || len(list) == 0 {
		return nil
	}
	var out []*Errand
	for _, entry := range list {
		if e := takeOver(room, entry); e != nil {
			out = append(out, e)
		}
	}
	return out
}

func takeOver(room string, entry fs.DirEntry) *Errand {
	const most = 1 << 16 // bytes; our own notes are far shorter
	if !entry.Type().IsRegular() {
		return nil
	}
	root, err := OpenRoot(room)
	if err != nil {
		return nil
	}
	e := &Errand{root: root, name: path.Join(errandFolder, entry.Name())}
	if e.file, err = root.OpenFile(e.name, os.O_RDWR, 0); err != nil {
		root.Close()
		return nil
	}
	text, err := []byte(nil), errors.New("its owner is at it")
	if tryLock(e.file) && e.ours() {
		text, err = io.ReadAll(io.LimitReader(e.file, most))
	}
	if err != nil {
		e.Leave()
		return nil
	}
	for line := range strings.Lines(string(text)) {
		if whole, ok := strings.CutSuffix(line, "\n"); ok && whole != "" {
			e.Lines = append(e.Lines, whole)
		}
	}
	return e
}
