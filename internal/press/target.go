package press

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"hembook/internal/disk"
	"hembook/internal/fault"
	"hembook/internal/notebook"
	"hembook/internal/say"
)

// A target is the folder a notebook is pressed to. Everything is written to a
// folder beside it, which swap puts in its place.
type target struct {
	to       string // absolute, links followed
	stage    *disk.Filling
	had      bool      // there is an earlier notebook, or an empty folder
	was      list      // of the earlier notebook
	listless bool      // that has no list: what in it is whose cannot be told
	standing *standing // what was pressed before and is remembered; nil where nothing is

	mu      sync.Mutex
	dirs    map[string]bool
	files   map[notebook.Address]bool
	marks   list
	changed map[notebook.Address]bool // other bytes than before, or new

	written, kept, size atomic.Int64
	removed             int
	carried             []string // what of the maker's went over
	yours               []string // her versions of pages that she changed by hand
	before              string   // where all of a notebook without a list is kept
	swapped             bool
	waits               bool // files of hers lie beside it that can be put back once there is a notebook
}

// openTarget makes the folder beside the target, or takes the one there is
// already, and refuses a target that is not ours to replace.
func openTarget(to, room string, before *standing) (*target, error) {
	to, err := whereTo(to, room)
	if err != nil {
		return nil, err
	}
	yours, waits := Recover(to)
	t := &target{
		to: to, dirs: map[string]bool{}, files: map[notebook.Address]bool{}, changed: map[notebook.Address]bool{},
		marks: list{}, yours: yours, waits: waits != nil,
	}
	if err := t.lookAt(); err != nil {
		return nil, err
	}
	if err := disk.MkdirAll(filepath.Dir(to), 0o755); err != nil {
		return nil, fault.Wrapping(Reason(err), say.Of("press.cannot-be-made", filepath.Dir(to), Reason(err)))
	}
	if before.stands(to) {
		t.standing, t.stage = before, before.twin
	}
	if t.twinned() {
		t.was = t.standing.marks
		return t, putMarker(t.stage.Dir, "", []byte(unfinished))
	}
	t.stage, err = stageBeside(to)
	return t, err
}

// whereTo is where the notebook goes: an absolute path, links followed. What
// cannot be replaced by a rename is refused.
func whereTo(to, room string) (string, error) {
	if to == "" {
		return "", errors.New(say.Of("press.no-folder-is-named-to-press-to"))
	}
	to, err := filepath.Abs(to)
	if err != nil {
		return "", err
	}
	if to, err = Replaceable(to, "notebook"); err != nil {
		return "", err
	}
	return to, clearOfRoom(to, room)
}

// Check refuses a folder that a notebook cannot be pressed to, so that it is
// told before the work is done.
func Check(to, room string) error {
	_, err := whereTo(to, room)
	return err
}

// Replaceable follows the links of a folder's absolute path, and refuses one
// that no rename can put anything in the place of; within is the folder in it
// that is named instead.
func Replaceable(to, within string) (string, error) {
	if real, err := filepath.EvalSymlinks(to); err == nil {
		to = real
	} else if leads, err := os.Readlink(to); err == nil {
		return "", errors.New(say.Of("press.is-a-link-to-which-is-not", to, leads))
	}
	if disk.IsMount(to) {
		return "", errors.New(say.Of("press.is-a-disk-or-a-folder-of", to, filepath.Join(to, within)))
	}
	return to, nil
}

// stageBeside makes an empty folder beside the target.
func stageBeside(to string) (*disk.Filling, error) {
	stage, err := disk.NewStage(to+stageEnd, 0o755)
	if err != nil {
		return nil, fault.Wrapping(Reason(err), say.Of("press.a-folder-beside-cannot-be-made", to, Reason(err)))
	}
	if err := putMarker(stage.Dir, "", []byte(unfinished)); err != nil {
		_ = stage.Remove()
		return nil, err
	}
	return stage, nil
}

// twinned reports whether the folder beside the target is the twin of what was
// pressed before, and not an empty one.
func (t *target) twinned() bool {
	return t.standing != nil && t.stage != nil && t.stage == t.standing.twin
}

// clearOfRoom refuses a target that holds the workroom, or lies where the
// maker's own files lie.
func clearOfRoom(to, room string) error {
	room, err := filepath.Abs(room)
	if err != nil {
		return err
	}
	if real, err := filepath.EvalSymlinks(room); err == nil {
		room = real
	}
	if within(room, to) {
		return errors.New(say.Of("press.holds-the-workroom-press-to-a-folder", to))
	}
	for _, own := range []string{"content", "themes", ".hembook", ".git"} {
		if within(to, filepath.Join(room, own)) {
			return errors.New(say.Of("press.lies-in-the-workrooms-press-to-a", to, own))
		}
	}
	return nil
}

// within reports whether a path is the folder or lies in it.
func within(path, folder string) bool {
	rel, err := filepath.Rel(folder, path)
	return err == nil && rel != ".." && !strings.HasPrefix(rel, ".."+string(filepath.Separator))
}

// lookAt looks at what is at the target, and refuses a folder that was not
// pressed before and holds something. A folder that holds nothing but what a
// version keeper needs is as good as an empty one.
func (t *target) lookAt() error {
	entries, err := os.ReadDir(t.to)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return fault.Wrapping(Reason(err), say.Of("press.cannot-be-pressed-to", t.to, Reason(err)))
	}
	t.had = true
	dots, keeper := 0, false
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), ".") {
			dots++
		}
		keeper = keeper || e.Name() == ".git"
	}
	if info, err := os.Lstat(filepath.Join(t.to, markerName)); err == nil && info.Mode().IsRegular() {
		var listed bool
		t.was, listed = readList(t.to)
		t.listless = !listed
		return nil
	}
	if len(entries) > 0 && !(keeper && dots == len(entries)) {
		return errors.New(say.Of("press.holds-files-that-are-no-notebooks-empty", t.to))
	}
	return nil
}

// write adds a file. One that is in the earlier notebook with the same bytes
// is taken over from there, time stamp and all.
func (t *target) write(name notebook.Address, data []byte) error {
	rel := filepath.FromSlash(string(name))
	if !filepath.IsLocal(rel) {
		return errors.New(say.Of("press.leads-out-of-the-notebooks-folder", name))
	}
	if err := t.claim(name); err != nil {
		return err
	}
	t.size.Add(int64(len(data)))
	m := markOf(data)
	t.mu.Lock()
	t.marks[name] = m
	t.mu.Unlock()
	path, old := filepath.Join(t.stage.Dir, rel), filepath.Join(t.to, rel)
	if t.had && holds(old, data) {
		t.kept.Add(1)
		if t.twinned() && !t.standing.off[name] {
			return nil
		}
		return t.take(name, old, path)
	}
	t.written.Add(1)
	t.mu.Lock()
	t.changed[name] = true
	t.mu.Unlock()
	if t.twinned() { // the file there may be one with that of the notebook in place
		if err := disk.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return fault.Wrapping(Reason(err), say.Of("press.cannot-be-written", name, Reason(err)))
		}
	}
	if err := disk.WriteFile(path, data, 0o644); err != nil {
		return fault.Wrapping(Reason(err), say.Of("press.cannot-be-written", name, Reason(err)))
	}
	return nil
}

// carry adds a file of the earlier notebook as it is. It errs with errGone
// where that is not there.
func (t *target) carry(name notebook.Address) error {
	info, ok := t.standing.file(name)
	if !ok {
		return errGone
	}
	if err := t.claim(name); err != nil {
		return err
	}
	t.mu.Lock()
	t.marks[name] = t.standing.marks[name]
	t.mu.Unlock()
	t.kept.Add(1)
	t.size.Add(info.Size())
	if t.twinned() && !t.standing.off[name] {
		return nil
	}
	rel := filepath.FromSlash(string(name))
	return t.take(name, filepath.Join(t.to, rel), filepath.Join(t.stage.Dir, rel))
}

// claim notes a file and makes its folder; two files of one name are our own
// mistake and are refused, lest one silently stand for the other.
func (t *target) claim(name notebook.Address) error {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.files[name] {
		return errors.New(say.Of("press.two-pages-have-the-address", name))
	}
	t.files[name] = true
	dir := filepath.Dir(filepath.FromSlash(string(name)))
	if t.dirs[dir] {
		return nil
	}
	t.dirs[dir] = true
	if t.twinned() && t.standing.had(name) {
		return nil
	}
	if err := makeFolder(filepath.Join(t.stage.Dir, dir)); err != nil {
		return fault.Wrapping(Reason(err), say.Of("press.cannot-be-made-2", dir, Reason(err)))
	}
	return nil
}

// makeFolder makes a folder, with those above it where need be.
func makeFolder(dir string) error {
	if info, err := os.Lstat(dir); err == nil && info.IsDir() {
		return nil
	}
	err := disk.Mkdir(dir, 0o755)
	if errors.Is(err, fs.ErrNotExist) || errors.Is(err, fs.ErrExist) {
		return disk.MkdirAll(dir, 0o755)
	}
	return err
}

// holds reports whether a file has just these bytes.
func holds(path string, data []byte) bool {
	info, err := os.Lstat(path)
	if err != nil || !info.Mode().IsRegular() || info.Size() != int64(len(data)) {
		return false
	}
	have, err := os.ReadFile(path)
	return err == nil && bytes.Equal(have, data)
}

// take takes a file over from the earlier notebook, time stamp and all.
func (t *target) take(name notebook.Address, old, path string) error {
	if t.twinned() {
		if err := disk.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return fault.Wrapping(Reason(err), say.Of("press.cannot-be-written", name, Reason(err)))
		}
	}
	err := link(old, path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return errGone
	case err != nil:
		return fault.Wrapping(Reason(err), say.Of("press.cannot-be-written", name, Reason(err)))
	}
	return nil
}

// link gives a file a second name, or copies it where the file system knows no
// such thing.
func link(old, path string) error {
	err := disk.Link(old, path)
	if err == nil || errors.Is(err, fs.ErrNotExist) {
		return err
	}
	info, err := os.Stat(old)
	if err != nil {
		return err
	}
	data, err := os.ReadFile(old)
	if err != nil {
		return err
	}
	if err := disk.WriteFile(path, data, 0o644); err != nil {
		return err
	}
	return os.Chtimes(path, info.ModTime(), info.ModTime())
}

// swap puts what was written in the target's place, with what there is the
// maker's own. Until the two folders exchange their places all can be undone.
func (t *target) swap() error {
	if t.twinned() {
		t.removeGone()
	} else {
		t.countRemoved()
	}
	if err := t.findHers(); err != nil {
		return err
	}
	if err := putMarker(t.stage.Dir, t.to, markerWith(t.marks, t.names())); err != nil {
		return err
	}
	if err := bring(t.carried, t.to, t.stage.Dir); err != nil {
		return err
	}
	stood := t.stamps()
	if err := Exchange(t.stage.Dir, t.to, t.had); err != nil {
		_ = bring(t.carried, t.stage.Dir, t.to)
		return Reason(err)
	}
	t.swapped = true
	if t.twinned() {
		t.lookBack(stood)
	}
	return nil
}

// names are those of the notebook's files, sorted.
func (t *target) names() []notebook.Address {
	if t.twinned() && len(t.marks) == len(t.standing.names) && !slices.ContainsFunc(t.standing.names, func(a notebook.Address) bool { return !t.files[a] }) {
		return t.standing.names
	}
	return t.marks.names()
}

// countRemoved counts the earlier notebook's files that are gone.
func (t *target) countRemoved() {
	for name := range t.was {
		if !t.files[name] {
			t.removed++
		}
	}
}

// settle gives up the folder beside the target: what was written where the
// press failed, the earlier notebook where it did not. A twin stays, and what
// was written to it is noted. What the maker put there meanwhile is brought
// back, a page that she changed by hand under another name.
func (t *target) settle() {
	switch {
	case t.stage == nil:
	case t.twinned():
		if !t.swapped {
			t.standing.strayed(t.changed)
		}
	case !t.swapped:
		_ = t.stage.Remove()
	case !t.had:
		_ = t.stage.Close()
	case t.listless:
		if name, err := setAside(t.stage, t.to); err == nil {
			t.before = name
			_ = t.stage.Close()
		}
	default:
		kept, err := clearOld(t.stage.Dir, t.to, t.was, t.marks, func(a notebook.Address) bool { return t.files[a] && !t.changed[a] })
		t.yours = append(t.yours, kept...)
		if err == nil {
			_ = t.stage.Close()
		}
	}
	t.stage = nil
}

func (t *target) report() Report {
	return Report{
		Files: len(t.files), Written: int(t.written.Load()), Kept: int(t.kept.Load()),
		Removed: t.removed, Bytes: t.size.Load(), Carried: len(t.carried),
	}
}

// Reason leaves out the path and the system call of a file error: the message
// around it names the file already.
func Reason(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	var l *os.LinkError
	if errors.As(err, &l) {
		return l.Err
	}
	return err
}
