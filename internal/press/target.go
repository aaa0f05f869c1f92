package press

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"hembook/internal/notebook"
)

// markerName is the file that tells a pressed folder from any other.
const markerName = ".hembook-pressed"

const markerText = "This folder was pressed by hembook and is replaced as a whole whenever the notebook is pressed again.\n"

// A target is the folder a notebook is pressed to. Everything is written to a
// folder beside it, which swap puts in its place.
type target struct {
	to    string // absolute, links followed
	stage string
	had   bool   // there is an earlier notebook
	place *place // what was pressed before and is remembered; nil where nothing is

	mu      sync.Mutex
	dirs    map[string]bool
	files   map[notebook.Address]bool
	changed map[notebook.Address]bool // other bytes than before, or new

	written, kept, size atomic.Int64
	removed             int
}

// openTarget makes the folder beside the target, or takes the one there is
// already, and refuses a target that is not ours to replace.
func openTarget(to, room string, before *place) (*target, error) {
	if to == "" {
		return nil, errors.New("no folder is named to press to")
	}
	to, err := filepath.Abs(to)
	if err != nil {
		return nil, err
	}
	if real, err := filepath.EvalSymlinks(to); err == nil {
		to = real
	}
	if err := clearOfRoom(to, room); err != nil {
		return nil, err
	}
	had, err := ours(to)
	if err != nil {
		return nil, err
	}
	if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
		return nil, fmt.Errorf("%s cannot be made: %w", filepath.Dir(to), Reason(err))
	}
	t := &target{to: to, had: had, dirs: map[string]bool{}, files: map[notebook.Address]bool{}, changed: map[notebook.Address]bool{}}
	if before.stands(to) {
		t.place, t.stage = before, before.twin
	}
	if t.stage == "" {
		sweep(to)
		if t.stage, err = folderBeside(to); err != nil {
			return nil, err
		}
	}
	if err := t.write(markerName, []byte(markerText)); err != nil {
		t.discard()
		return nil, err
	}
	return t, nil
}

// folderBeside makes an empty folder beside the target.
func folderBeside(to string) (string, error) {
	dir, err := os.MkdirTemp(filepath.Dir(to), filepath.Base(to)+".new-")
	if err != nil {
		return "", fmt.Errorf("a folder beside %s cannot be made: %w", to, Reason(err))
	}
	if err := os.Chmod(dir, 0o755); err != nil {
		_ = os.RemoveAll(dir)
		return "", Reason(err)
	}
	return dir, nil
}

// twinned reports whether the folder beside the target is the twin of what was
// pressed before, and not an empty one.
func (t *target) twinned() bool { return t.place != nil && t.stage == t.place.twin }

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
		return fmt.Errorf("%s holds the workroom: press to a folder of its own", to)
	}
	for _, own := range []string{"content", "themes", ".hembook", ".git"} {
		if within(to, filepath.Join(room, own)) {
			return fmt.Errorf("%s lies in the workroom's %s: press to a folder of its own", to, own)
		}
	}
	return nil
}

// within reports whether a path is the folder or lies in it.
func within(path, folder string) bool {
	rel, err := filepath.Rel(folder, path)
	return err == nil && rel != ".." && !strings.HasPrefix(rel, ".."+string(filepath.Separator))
}

// ours reports whether the target is there, and refuses one that was not
// pressed before and holds something.
func ours(to string) (bool, error) {
	entries, err := os.ReadDir(to)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return false, nil
	case err != nil:
		return false, fmt.Errorf("%s cannot be pressed to: %w", to, Reason(err))
	case len(entries) == 0:
		return true, nil
	}
	if info, err := os.Lstat(filepath.Join(to, markerName)); err != nil || !info.Mode().IsRegular() {
		return false, fmt.Errorf("%s holds files that were not pressed: empty it, or press to another folder", to)
	}
	return true, nil
}

// sweep removes what a press that was cut off more than a day ago left behind.
func sweep(to string) {
	left, _ := filepath.Glob(globQuote(to) + ".new-*")
	for _, dir := range left {
		info, err := os.Lstat(dir)
		if err != nil || !info.IsDir() || time.Since(info.ModTime()) < 24*time.Hour {
			continue
		}
		if _, err := os.Lstat(filepath.Join(dir, markerName)); err == nil {
			_ = os.RemoveAll(dir)
		}
	}
}

func globQuote(s string) string {
	return strings.NewReplacer(`\`, `\\`, `*`, `\*`, `?`, `\?`, `[`, `\[`).Replace(s)
}

// write adds a file. One that is in the earlier notebook with the same bytes
// is taken over from there, time stamp and all.
func (t *target) write(name notebook.Address, data []byte) error {
	rel := filepath.FromSlash(string(name))
	if !filepath.IsLocal(rel) {
		return fmt.Errorf("%s leads out of the folder that is pressed to", name)
	}
	if err := t.claim(name); err != nil {
		return err
	}
	t.size.Add(int64(len(data)))
	path, old := filepath.Join(t.stage, rel), filepath.Join(t.to, rel)
	if t.had && holds(old, data) {
		t.kept.Add(1)
		if t.twinned() && !t.place.off[name] {
			return nil
		}
		return t.take(name, old, path)
	}
	t.written.Add(1)
	t.mu.Lock()
	t.changed[name] = true
	t.mu.Unlock()
	if t.twinned() { // the file there may be one with that of the notebook in place
		if err := os.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("%s cannot be written: %w", name, Reason(err))
		}
	}
	if err := os.WriteFile(path, data, 0o644); err != nil {
		return fmt.Errorf("%s cannot be written: %w", name, Reason(err))
	}
	return nil
}

// carry adds a file of the earlier notebook as it is. It errs with errGone
// where that is not there.
func (t *target) carry(name notebook.Address) error {
	info, ok := t.place.file(name)
	if !ok {
		return errGone
	}
	if err := t.claim(name); err != nil {
		return err
	}
	t.kept.Add(1)
	t.size.Add(info.Size())
	if t.twinned() && !t.place.off[name] {
		return nil
	}
	rel := filepath.FromSlash(string(name))
	return t.take(name, filepath.Join(t.to, rel), filepath.Join(t.stage, rel))
}

// claim notes a file and makes its folder; two files of one name are our own
// mistake and are refused, lest one silently stand for the other.
func (t *target) claim(name notebook.Address) error {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.files[name] {
		return fmt.Errorf("two pages want the address %s", name)
	}
	t.files[name] = true
	dir := filepath.Dir(filepath.FromSlash(string(name)))
	if t.dirs[dir] {
		return nil
	}
	t.dirs[dir] = true
	if t.twinned() && t.place.had(name) {
		return nil
	}
	if err := makeFolder(filepath.Join(t.stage, dir)); err != nil {
		return fmt.Errorf("%s cannot be made: %w", dir, Reason(err))
	}
	return nil
}

// makeFolder makes a folder, with those above it where need be.
func makeFolder(dir string) error {
	err := os.Mkdir(dir, 0o755)
	if errors.Is(err, fs.ErrNotExist) || errors.Is(err, fs.ErrExist) {
		return os.MkdirAll(dir, 0o755)
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
		if err := os.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("%s cannot be written: %w", name, Reason(err))
		}
	}
	err := link(old, path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return errGone
	case err != nil:
		return fmt.Errorf("%s cannot be written: %w", name, Reason(err))
	}
	return nil
}

// link gives a file a second name, or copies it where the file system knows no
// such thing.
func link(old, path string) error {
	err := os.Link(old, path)
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
	if err := os.WriteFile(path, data, 0o644); err != nil {
		return err
	}
	return os.Chtimes(path, info.ModTime(), info.ModTime())
}

// swap puts what was written in the target's place.
func (t *target) swap() error {
	switch {
	case t.twinned():
		t.removeGone()
	case t.had:
		t.countRemoved()
	}
	if err := Exchange(t.stage, t.to, t.had); err != nil {
		return Reason(err)
	}
	if !t.had {
		t.stage = ""
	}
	return nil
}

// countRemoved counts the earlier notebook's files that are gone.
func (t *target) countRemoved() {
	_ = filepath.WalkDir(t.to, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return nil
		}
		if rel, err := filepath.Rel(t.to, path); err == nil && !t.files[notebook.Address(filepath.ToSlash(rel))] {
			t.removed++
		}
		return nil
	})
}

// discard removes the folder beside the target: what was written where the
// press failed, the earlier notebook where it did not. A twin stays, and what
// was written to it is noted.
func (t *target) discard() {
	switch {
	case t.twinned():
		t.place.strayed(t.changed)
	case t.stage != "":
		_ = os.RemoveAll(t.stage)
	}
}

func (t *target) report() Report {
	return Report{
		Files: len(t.files), Written: int(t.written.Load()), Kept: int(t.kept.Load()),
		Removed: t.removed, Bytes: t.size.Load(),
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
