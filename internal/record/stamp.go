package record

import (
	"io/fs"
	"os"
	"path/filepath"
	"time"
)

// A Stamp tells whether a file or folder is still what it was. It is taken
// before the file is read, so that what is saved meanwhile is noticed the next
// time.
type Stamp struct {
	info fs.FileInfo // nil where there was nothing
	at   time.Time   // when it was looked at
}

// settled is how old a change must be before a stamp is relied on: file
// systems tell the time of a change in steps of up to two seconds (FAT; from
// memory), so that two changes may bear one time.
const settled = 2 * time.Second

// StampOf takes the stamp of what lies at a path of the system, links followed.
func StampOf(path string) Stamp {
	s := Stamp{at: time.Now()}
	if info, err := os.Stat(path); err == nil {
		s.info = info
	}
	return s
}

// Same reports whether a stamp taken later is of the same file, unchanged. In
// doubt it is not.
func (s Stamp) Same(later Stamp) bool {
	if s.at.IsZero() {
		return false // never taken
	}
	a, b := s.info, later.info
	if a == nil || b == nil {
		return a == nil && b == nil
	}
	return os.SameFile(a, b) && a.Size() == b.Size() && a.ModTime().Equal(b.ModTime()) &&
		a.ModTime().Before(s.at.Add(-settled))
}

// Stamps are those of all files of a folder and the folders in it.
type Stamps map[string]Stamp

// deepest is how deep folders are looked into: links may lead round in circles.
const deepest = 8

// StampsOf takes the stamps of all files in a folder of the system.
func StampsOf(dir string) Stamps {
	s := Stamps{}
	s.add(dir, deepest)
	return s
}

func (s Stamps) add(path string, deep int) {
	st := StampOf(path)
	if st.info == nil || !st.info.IsDir() {
		s[path] = st
		return
	}
	if deep == 0 {
		s[path] = Stamp{} // is never the same
		return
	}
	f, err := os.Open(path)
	if err != nil {
		s[path] = Stamp{}
		return
	}
	names, err := f.Readdirnames(-1)
	f.Close()
	if err != nil {
		s[path] = Stamp{}
	}
	for _, name := range names {
		s.add(filepath.Join(path, name), deep-1)
	}
}

// Same reports whether stamps taken later are of the same files, unchanged.
func (s Stamps) Same(later Stamps) bool {
	if s == nil || len(s) != len(later) {
		return false
	}
	for path, st := range s {
		now, ok := later[path]
		if !ok || !st.Same(now) {
			return false
		}
	}
	return true
}
