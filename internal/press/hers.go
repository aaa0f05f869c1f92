package press

import (
	"errors"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"hembook/internal/disk"
	"hembook/internal/fault"
	"hembook/internal/notebook"
	"hembook/internal/say"
)

// What lies in a pressed folder and is not on its list is the maker's: the
// folder that a version keeper works in, a note, a file that a host asks for.
// It goes over into the new notebook by renames, whole folders at once, just
// before the two exchange their places. Names that begin with a dot are always
// hers. What can go wrong goes wrong before the exchange, and is undone.

// hers lists what in a folder is neither listed nor the marker, as paths from
// it. A folder is looked into where it is one of ours, now or then; any other
// is hers as a whole.
func hers(dir string, was, is list) ([]string, error) {
	then, now := was.folders(), is.folders()
	var out []string
	var look func(rel string) error
	look = func(rel string) error {
		entries, err := os.ReadDir(filepath.Join(dir, rel))
		if err != nil {
			return err
		}
		for _, e := range entries {
			name := filepath.Join(rel, e.Name())
			switch {
			case name == markerName || name == markerName+".new":
			case strings.HasPrefix(e.Name(), "."):
				out = append(out, name)
			case e.IsDir() && (then[name] || now[name]):
				if err := look(name); err != nil {
					return err
				}
			default:
				if _, listed := was[notebook.Address(filepath.ToSlash(name))]; !listed || e.IsDir() {
					out = append(out, name)
				}
			}
		}
		return nil
	}
	return out, look(".")
}

// findHers notes what of the maker's is to be carried over, and refuses what
// stands where the notebook has something of its own.
func (t *target) findHers() error {
	if !t.had {
		return nil
	}
	if t.listless {
		return t.findDotted()
	}
	if t.twinned() && t.standing.foldersStand() {
		t.carried = t.standing.hers
	} else {
		var err error
		if t.carried, err = hers(t.to, t.was, t.marks); err != nil {
			return fault.Wrapping(Reason(err), say.Of("press.cannot-be-looked-through", t.to, Reason(err)))
		}
	}
	// what has the bytes of a file of ours is that file
	t.carried = slices.DeleteFunc(slices.Clone(t.carried), func(rel string) bool {
		a := notebook.Address(filepath.ToSlash(rel))
		info, err := os.Lstat(filepath.Join(t.to, rel))
		return t.files[a] && !t.changed[a] && err == nil && info.Mode().IsRegular()
	})
	var wanted []string
	folders := t.marks.folders()
	for _, rel := range t.carried {
		if t.files[notebook.Address(filepath.ToSlash(rel))] || folders[rel] {
			wanted = append(wanted, filepath.ToSlash(rel))
		}
	}
	if len(wanted) > 0 {
		return &takenError{Folder: t.to, Names: wanted}
	}
	return nil
}

// findDotted is findHers where nothing but the dot tells hers from ours.
func (t *target) findDotted() error {
	entries, err := os.ReadDir(t.to)
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), ".") && e.Name() != markerName {
			t.carried = append(t.carried, e.Name())
		}
	}
	return err
}

// A takenError says that files of the maker's stand where pages belong.
type takenError struct {
	Folder string
	Names  []string
}

// Error names them.
func (e *takenError) Error() string {
	const most = 5
	names := strings.Join(e.Names[:min(most, len(e.Names))], ", ")
	if more := len(e.Names) - most; more > 0 {
		names += say.Of("press.and-more", more)
	}
	return say.Of("press.you-put-there-where-the-notebook-has", e.Folder, names)
}

// bring renames what is hers from one folder into another. Where one of them
// cannot be renamed none is.
func bring(rels []string, from, to string) error {
	for i, rel := range rels {
		err := bringOne(rel, from, to)
		if err != nil {
			for _, back := range slices.Backward(rels[:i]) {
				_ = disk.Rename(filepath.Join(to, back), filepath.Join(from, back))
			}
			return fault.Wrapping(Reason(err), say.Of("press.which-is-yours-cannot-be-carried-over", filepath.ToSlash(rel), Reason(err)))
		}
	}
	return nil
}

func bringOne(rel, from, to string) error {
	if err := makeFolder(filepath.Dir(filepath.Join(to, rel))); err != nil {
		return err
	}
	if there(filepath.Join(to, rel)) {
		return errors.New(say.Of("press.there-is-something-of-that-name"))
	}
	return disk.Rename(filepath.Join(from, rel), filepath.Join(to, rel))
}

// rescue renames what is hers into a folder in which something of that name may
// be: then, and where it is a page that she changed, it has another name there.
// It returns the names it has, and those of them that are other ones.
func rescue(rels []string, changed bool, from, to string) (all, renamed []string, err error) {
	for _, rel := range rels {
		name, n := rel, 1
		if changed {
			name, n = yours(rel, 1), 2
		}
		for ; there(filepath.Join(to, name)); n++ {
			name = yours(rel, n)
		}
		e := makeFolder(filepath.Dir(filepath.Join(to, name)))
		if e == nil {
			e = disk.Rename(filepath.Join(from, rel), filepath.Join(to, name))
		}
		if e != nil {
			err = e
			continue
		}
		all = append(all, name)
		if name != rel {
			renamed = append(renamed, filepath.ToSlash(name))
		}
	}
	return all, renamed, err
}

func there(path string) bool {
	_, err := os.Lstat(path)
	return !errors.Is(err, fs.ErrNotExist)
}

// yours is the name of her version of a file: index.yours.html, then
// index.yours-2.html.
func yours(rel string, n int) string {
	ext := path.Ext(filepath.ToSlash(rel))
	if ext == filepath.Base(rel) {
		ext = ""
	}
	more := ".yours"
	if n > 1 {
		more += "-" + strconv.Itoa(n)
	}
	return strings.TrimSuffix(rel, ext) + more + ext
}

// clearOld removes an earlier notebook, or what was to be one: what is listed, as
// far as nobody changed it since, and the folders that are empty then. All else
// is put into to, whose list is now. same says which files to has too; nil where
// that is not known. It returns the other names that hers has there.
func clearOld(dir, to string, was, now list, same func(notebook.Address) bool) (renamed []string, err error) {
	var changed []string
	for name, m := range was {
		path := filepath.Join(dir, filepath.FromSlash(string(name)))
		info, err := os.Lstat(path)
		switch {
		case err != nil:
			continue
		case info.Mode()&fs.ModeSymlink != 0 || info.Mode().IsRegular() && !unchanged(path, info, m, same != nil && same(name), filepath.Join(to, filepath.FromSlash(string(name)))):
			changed = append(changed, filepath.FromSlash(string(name)))
		case info.Mode().IsRegular():
			_ = disk.Remove(path)
		}
	}
	slices.Sort(changed)
	_, renamed, err = rescue(changed, true, dir, to)
	left, err2 := hers(dir, was, now)
	_, more, err3 := rescue(left, false, dir, to)
	renamed = append(renamed, more...)
	if err := errors.Join(err, err2, err3); err != nil {
		return renamed, err
	}
	_ = disk.Remove(filepath.Join(dir, markerName))
	folders := was.folders()
	maps.Copy(folders, now.folders())
	sorted := slices.Sorted(maps.Keys(folders))
	for _, f := range slices.Backward(sorted) { // what lies in a folder before it
		_ = disk.Remove(filepath.Join(dir, f))
	}
	return renamed, disk.Remove(dir)
}

// unchanged reports whether a file is as it was written. One that the new
// notebook has too is so by being the same file.
func unchanged(path string, info fs.FileInfo, m seal, same bool, now string) bool {
	if same {
		if other, err := os.Lstat(now); err == nil && os.SameFile(info, other) {
			return true
		}
	}
	data, err := os.ReadFile(path)
	return err == nil && m.is(data)
}
