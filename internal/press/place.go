package press

import (
	"errors"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"sync/atomic"
	"time"

	"hembook/internal/notebook"
)

// errGone says that a file of the earlier notebook is not there any more.
var errGone = errors.New("a file of the earlier notebook is gone")

// A place is a notebook that was put in place and is remembered: its files,
// and its twin. The twin is a folder beside it with the same files under
// second names. The next press changes in the twin what is other, and then the
// two folders exchange their places in one step: so even a press that changes
// a single page appears all at once, and costs what that page costs.
type place struct {
	to    string
	stood fs.FileInfo // the folder itself
	files map[notebook.Address]fs.FileInfo
	in    map[string]fs.FileInfo    // its folders, whose time tells of files added
	twin  string                    // "" where none could be made
	off   map[notebook.Address]bool // where the twin may be other

	looked time.Time // when it was last found whole; zero where it was not, or that was used
}

// goodFor is how long it is relied on that a notebook was found whole.
const goodFor = time.Second / 4

// stands reports whether the notebook is still as it was put in place, and
// nobody removed or changed a file of it. It is safe to ask a nil place.
func (p *place) stands(to string) bool {
	if p == nil || p.to != to {
		return false
	}
	now, err := os.Stat(to)
	if err != nil || !os.SameFile(p.stood, now) {
		return false
	}
	looked := !p.looked.IsZero() && time.Since(p.looked) < goodFor
	p.looked = time.Time{}
	return looked || p.whole()
}

// whole reports whether every file and folder is as it was.
func (p *place) whole() bool {
	type thing struct {
		name string
		was  fs.FileInfo
	}
	all := make([]thing, 0, len(p.files)+len(p.in))
	for name, was := range p.files {
		all = append(all, thing{filepath.FromSlash(string(name)), was})
	}
	for name, was := range p.in {
		all = append(all, thing{name, was})
	}
	var wait sync.WaitGroup
	var other atomic.Bool
	for some := range slices.Chunk(all, max(1, (len(all)+1)/2)) { // the system answers two at once
		wait.Go(func() {
			for _, f := range some {
				if other.Load() {
					return
				}
				if !untouched(filepath.Join(p.to, f.name), f.was) {
					other.Store(true)
				}
			}
		})
	}
	wait.Wait()
	return !other.Load()
}

func untouched(path string, was fs.FileInfo) bool {
	now, err := os.Lstat(path)
	return err == nil && os.SameFile(was, now) && was.Size() == now.Size() && was.ModTime().Equal(now.ModTime())
}

func (p *place) file(name notebook.Address) (fs.FileInfo, bool) {
	if p == nil {
		return nil, false
	}
	info, ok := p.files[name]
	return info, ok
}

// had reports whether the file was there, and so is its folder in the twin.
func (p *place) had(name notebook.Address) bool {
	_, ok := p.files[name]
	return ok && !p.off[name]
}

// strayed notes files of the twin that may be other.
func (p *place) strayed(names map[notebook.Address]bool) { maps.Copy(p.off, names) }

// forget removes the twin.
func (p *place) forget() {
	if p != nil && p.twin != "" {
		_ = os.RemoveAll(p.twin)
	}
}

// removeGone removes from the twin what the notebook has no more.
func (t *target) removeGone() {
	p := t.place
	for name := range p.files {
		if !t.files[name] {
			t.removed++
			t.changed[name] = true
			t.remove(name)
		}
	}
	for name := range p.off {
		if _, there := p.files[name]; !there && !t.files[name] {
			t.remove(name)
		}
	}
}

// remove removes a file, and its folders where they are empty then.
func (t *target) remove(name notebook.Address) {
	path := filepath.Join(t.stage, filepath.FromSlash(string(name)))
	_ = os.Remove(path)
	for dir := filepath.Dir(path); dir != t.stage && os.Remove(dir) == nil; {
		dir = filepath.Dir(dir)
	}
}

// remember returns the notebook that swap has just put in place, for the next
// press; nil where it cannot be.
func (t *target) remember() *place {
	stood, err := os.Stat(t.to)
	if err != nil {
		return nil
	}
	p := t.place
	if p == nil {
		p = &place{to: t.to, files: map[notebook.Address]fs.FileInfo{}}
	}
	p.stood = stood
	for name := range p.files {
		if !t.files[name] {
			delete(p.files, name)
		}
	}
	for name := range t.files {
		if _, known := p.files[name]; known && t.twinned() && !t.changed[name] {
			continue
		}
		info, err := os.Lstat(filepath.Join(t.to, filepath.FromSlash(string(name))))
		if err != nil {
			p.forget()
			return nil
		}
		p.files[name] = info
	}
	p.in = map[string]fs.FileInfo{}
	for dir := range t.dirs {
		if p.in[dir], err = os.Lstat(filepath.Join(t.to, dir)); err != nil {
			p.forget()
			return nil
		}
	}
	if t.twinned() {
		p.off = maps.Clone(t.changed) // the twin is what was in place until now
	} else {
		p.twin, p.off = twinOf(p), map[notebook.Address]bool{}
	}
	return p
}

// twinOf makes a twin of a notebook; "" where the file system gives no file a
// second name.
func twinOf(p *place) string {
	twin, err := folderBeside(p.to)
	if err != nil {
		return ""
	}
	made := map[string]bool{".": true}
	for name := range p.files {
		rel := filepath.FromSlash(string(name))
		if dir := filepath.Dir(rel); !made[dir] {
			made[dir] = true
			err = os.MkdirAll(filepath.Join(twin, dir), 0o755)
		}
		if err == nil {
			err = os.Link(filepath.Join(p.to, rel), filepath.Join(twin, rel))
		}
		if err != nil {
			_ = os.RemoveAll(twin)
			return ""
		}
	}
	return twin
}
