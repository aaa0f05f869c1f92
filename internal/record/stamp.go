package record

import (
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
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

// Stamps are those of all files of a folder and the folders in it. They are
// never changed once taken.
type Stamps struct {
	files   []stamped // as the system lists them
	folders []stamped
}

// A stamped is a file or folder with its stamp.
type stamped struct {
	path string
	Stamp
}

// deepest is how deep folders are looked into: links may lead round in circles.
const deepest = 8

// FoldersTell says that the time of a folder changes when a file in it comes,
// goes or is renamed (POSIX.1-2017, "File Times Update" of open, unlink and
// rename). On Windows that depends on the file system (from memory).
const FoldersTell = runtime.GOOS != "windows"

// StampsOf takes the stamps of all files in a folder of the system.
func StampsOf(dir string) *Stamps {
	s := &Stamps{}
	s.add(dir, deepest)
	return s
}

// again takes the stamps anew. Where all is as it was, they are the same ones.
// Folders that nothing came to or went from are not listed again.
func (s *Stamps) again(dir string) *Stamps {
	if !FoldersTell || len(s.folders) == 0 || s.folders[0].path != dir {
		return StampsOf(dir)
	}
	for _, list := range [][]stamped{s.folders, s.files} {
		for i := range list {
			if !list[i].Same(StampOf(list[i].path)) {
				return StampsOf(dir)
			}
		}
	}
	return s
}

// of is the stamp of one of the files; one that was never taken where it is
// not among them.
func (s *Stamps) of(path string) Stamp {
	for i := range s.files {
		if s.files[i].path == path {
			return s.files[i].Stamp
		}
	}
	return Stamp{}
}

func (s *Stamps) add(path string, deep int) {
	st := StampOf(path)
	if st.info == nil || !st.info.IsDir() {
		s.files = append(s.files, stamped{path, st})
		return
	}
	s.folders = append(s.folders, stamped{path, st})
	if deep == 0 {
		s.files = append(s.files, stamped{path, Stamp{}}) // is never the same
		return
	}
	names, err := namesIn(path)
	if err != nil {
		s.files = append(s.files, stamped{path, Stamp{}})
	}
	for _, name := range names {
		s.add(filepath.Join(path, name), deep-1)
	}
}

func namesIn(dir string) ([]string, error) {
	f, err := os.Open(dir)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return f.Readdirnames(-1)
}

// Same reports whether stamps taken later are of the same files, unchanged. In
// doubt, and where none were taken, they are not.
func (s *Stamps) Same(later *Stamps) bool {
	if s == nil || later == nil || len(s.files) != len(later.files) {
		return false
	}
	if s == later {
		return true // Again has looked at each of them
	}
	now := make(map[string]Stamp, len(later.files))
	for _, f := range later.files {
		now[f.path] = f.Stamp
	}
	for i := range s.files {
		st, ok := now[s.files[i].path]
		if !ok || !s.files[i].Same(st) {
			return false
		}
	}
	return true
}
