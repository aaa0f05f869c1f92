package disk

import (
	"crypto/rand"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// A Filling is a folder that is filled beside the place it is for. Its owner
// holds the lock of a hidden file beside it, so that a stage whose owner was
// stopped can be told from one that is being filled.
type Filling struct {
	Dir  string
	lock *os.File
}

func lockName(dir string) string {
	return filepath.Join(filepath.Dir(dir), "."+filepath.Base(dir)+".lock")
}

// NewStage makes an empty folder whose name begins with prefix.
func NewStage(prefix string, mode fs.FileMode) (*Filling, error) {
	for {
		s := &Filling{Dir: prefix + strings.ToLower(rand.Text()[:10])}
		name := lockName(s.Dir)
		step("make", name)
		file, err := os.OpenFile(name, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o600)
		if err != nil {
			return nil, err
		}
		s.lock = file
		tryLock(file) // where there are no locks nobody else has it either
		if !s.ours() {
			file.Close()
			continue // one that swept was quicker
		}
		if err := Mkdir(s.Dir, mode); err != nil {
			s.Close()
			return nil, err
		}
		return s, os.Chmod(s.Dir, mode)
	}
}

// ours reports whether the locked file is still the one that has the name.
func (s *Filling) ours() bool {
	a, err := s.lock.Stat()
	b, err2 := os.Lstat(s.lock.Name())
	return err == nil && err2 == nil && os.SameFile(a, b)
}

// Abandoned takes over the stages of a prefix whose owners were stopped.
func Abandoned(prefix string) []*Filling {
	dir, base := filepath.Split(prefix)
	list, _ := os.ReadDir(filepath.Clean(dir + "."))
	var out []*Filling
	for _, e := range list {
		name, ok := strings.CutSuffix(strings.TrimPrefix(e.Name(), "."), ".lock")
		if !ok || !strings.HasPrefix(e.Name(), "."+base) || !e.Type().IsRegular() {
			continue
		}
		file, err := os.OpenFile(filepath.Join(dir, e.Name()), os.O_RDWR, 0)
		if err != nil {
			continue
		}
		s := &Filling{Dir: filepath.Join(dir, name), lock: file}
		if info, err := os.Lstat(s.Dir); !tryLock(file) || !s.ours() || err == nil && !info.IsDir() {
			file.Close()
			continue
		}
		out = append(out, s)
	}
	slices.SortFunc(out, func(a, b *Filling) int { return strings.Compare(a.Dir, b.Dir) })
	return out
}

// Leave lets go of a stage that was taken over, for a later program.
func (s *Filling) Leave() { s.lock.Close() }

// Close gives the stage up. Its folder must be gone by then, or be in its place.
func (s *Filling) Close() error {
	err := Remove(s.lock.Name())
	closed := s.lock.Close()
	if err != nil { // some systems remove no file that is open
		err = Remove(s.lock.Name())
	}
	return errors.Join(err, closed)
}

// Remove removes the stage with all that is in it. It is safe on nil.
func (s *Filling) Remove() error {
	if s == nil {
		return nil
	}
	if err := RemoveAll(s.Dir); err != nil {
		s.lock.Close()
		return err
	}
	return s.Close()
}
