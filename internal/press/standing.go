package press

import (
	"context"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"sync/atomic"

	"hembook/internal/disk"
	"hembook/internal/notebook"
	"hembook/internal/record"
	"hembook/internal/say"
)

// errGone says that a file of the earlier notebook is not there any more.
var errGone = say.Error("press.a-file-of-the-earlier-notebook-is")

// A standing is a notebook that was put in place and is remembered: its files,
// and its twin. The twin is a folder beside it with the same files under
// second names. The next press changes in the twin what is other, and then the
// two folders exchange their places in one step: so even a press that changes
// a single page appears all at once, and costs what that page costs.
type standing struct {
	to    string
	stood fs.FileInfo // the folder itself
	files map[notebook.Address]fs.FileInfo
	in    map[string]fs.FileInfo    // its folders, whose time tells of files added
	twin  *disk.Filling             // nil where none could be made
	off   map[notebook.Address]bool // where the twin may be other
	marks list
	names []notebook.Address // of marks, sorted
	hers  []string           // what in it is the maker's

	looked bool // all of its files were found whole when they were last looked at
}

// stands reports whether the notebook is still as it was put in place, and
// nobody removed or changed a file of it. It is safe to ask a nil standing.
func (p *standing) stands(to string) bool {
	if p == nil || p.to != to {
		return false
	}
	now, err := os.Stat(to)
	if err != nil || !os.SameFile(p.stood, now) {
		return false
	}
	if p.looked && record.FoldersTell {
		return p.foldersStand()
	}
	p.looked = p.whole(context.Background())
	return p.looked
}

// whole reports whether every file and folder is as it was, as far as it came before
// its context ended.
func (p *standing) whole(ctx context.Context) bool {
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
				if other.Load() || ctx.Err() != nil {
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

func (p *standing) file(name notebook.Address) (fs.FileInfo, bool) {
	if p == nil {
		return nil, false
	}
	info, ok := p.files[name]
	return info, ok
}

// had reports whether the file was there, and so is its folder in the twin.
func (p *standing) had(name notebook.Address) bool {
	_, ok := p.files[name]
	return ok && !p.off[name]
}

// strayed notes files of the twin that may be other.
func (p *standing) strayed(names map[notebook.Address]bool) { maps.Copy(p.off, names) }

// foldersStand reports whether nothing was put into its folders or taken out.
func (p *standing) foldersStand() bool {
	for name, was := range p.in {
		if !untouched(filepath.Join(p.to, name), was) {
			return false
		}
	}
	return true
}

// forget removes the twin.
func (p *standing) forget() {
	if p == nil || p.twin == nil {
		return
	}
	was := maps.Clone(p.marks)
	for name := range p.off { // of which versions, nobody knows; they were looked at when they went there
		delete(was, name)
		_ = disk.Remove(filepath.Join(p.twin.Dir, filepath.FromSlash(string(name))))
	}
	if _, err := clearOld(p.twin.Dir, p.to, was, p.marks, func(notebook.Address) bool { return true }); err == nil {
		_ = p.twin.Close()
	}
	p.twin = nil
}

// stamps are those of the twin's folders and of the notebook's.
func (t *target) stamps() map[string]fs.FileInfo {
	out := map[string]fs.FileInfo{}
	if t.twinned() {
		for dir := range t.standing.in {
			out[dir], _ = os.Lstat(filepath.Join(t.to, dir))
		}
	}
	return out
}

// lookBack looks through the folder that was exchanged for its twin: for what
// came into it in that very moment, and for pages that were changed by hand.
func (t *target) lookBack(stood map[string]fs.FileInfo) {
	dir := t.stage.Dir
	var changed []string
	for name := range t.changed {
		was, known := t.standing.files[name]
		if now, err := os.Lstat(filepath.Join(dir, filepath.FromSlash(string(name)))); known && err == nil &&
			!(os.SameFile(was, now) && was.Size() == now.Size() && was.ModTime().Equal(now.ModTime())) {
			changed = append(changed, filepath.FromSlash(string(name)))
		}
	}
	for name, was := range stood {
		if now, err := os.Lstat(filepath.Join(dir, name)); err == nil && was != nil && now.ModTime().Equal(was.ModTime()) {
			continue
		}
		more, _ := hers(dir, t.was, t.marks)
		t.came(rescue(more, false, dir, t.to))
		break
	}
	slices.Sort(changed)
	t.came(rescue(changed, true, dir, t.to))
}

// removeGone removes from the twin what the notebook has no more.
func (t *target) removeGone() {
	p := t.standing
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
	path := filepath.Join(t.stage.Dir, filepath.FromSlash(string(name)))
	_ = disk.Remove(path)
	for dir := filepath.Dir(path); dir != t.stage.Dir && disk.Remove(dir) == nil; {
		dir = filepath.Dir(dir)
	}
}

// remember returns the notebook that swap has just put in place, for the next
// press; nil where it cannot be.
func (t *target) remember() *standing {
	stood, err := os.Stat(t.to)
	if err != nil {
		return nil
	}
	p := t.standing
	if p == nil {
		p = &standing{to: t.to, files: map[notebook.Address]fs.FileInfo{}}
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
	p.marks, p.names, p.hers = t.marks, t.names(), t.carried
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

// came notes what of the maker's came over after the exchange.
func (t *target) came(all, renamed []string, _ error) {
	t.yours = append(t.yours, renamed...)
	t.carried = append(t.carried, all...)
}

// twinOf makes a twin of a notebook; nil where the file system
// gives no file a second name.
func twinOf(p *standing) *disk.Filling {
	twin, err := stageBeside(p.to)
	if err != nil {
		return nil
	}
	made := map[string]bool{".": true}
	for name := range p.files {
		rel := filepath.FromSlash(string(name))
		if dir := filepath.Dir(rel); !made[dir] {
			made[dir] = true
			err = disk.MkdirAll(filepath.Join(twin.Dir, dir), 0o755)
		}
		if err == nil {
			err = disk.Link(filepath.Join(p.to, rel), filepath.Join(twin.Dir, rel))
		}
		if err != nil {
			_ = twin.Remove()
			return nil
		}
	}
	return twin
}
