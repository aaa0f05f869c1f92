package record

import (
	"os"
	"path/filepath"
	"testing"
	"time"
)

// TestStamps: a stamp is relied on only where the file is the same one, of the
// same size and time, and was settled when it was first looked at.
func TestStamps(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "in", "a.yaml")
	save := func(text string, ago time.Duration) {
		t.Helper()
		os.MkdirAll(filepath.Dir(path), 0o755)
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		at := time.Now().Add(-ago)
		if err := os.Chtimes(path, at, at); err != nil {
			t.Fatal(err)
		}
	}
	if StampOf(path).Same(StampOf(path)) != true {
		t.Error("where nothing is, nothing changed")
	}
	if (Stamp{}).Same(StampOf(path)) || (*Stamps)(nil).Same(StampsOf(path)) {
		t.Error("a stamp that was never taken is relied on")
	}
	save("name: a", time.Hour)
	old, all := StampOf(path), StampsOf(dir)
	if !old.Same(StampOf(path)) || !all.Same(StampsOf(dir)) {
		t.Error("an untouched file is taken for changed")
	}
	for _, c := range []struct {
		what string
		do   func()
	}{
		{"other words of the same length", func() { save("name: b", time.Minute) }},
		{"more words", func() { save("name: bb", time.Minute) }},
		{"another file in its place", func() {
			info, _ := os.Stat(path)
			os.WriteFile(path+"~", []byte("name: cc"), 0o644)
			os.Chtimes(path+"~", info.ModTime(), info.ModTime())
			os.Rename(path+"~", path)
		}},
		{"gone", func() { os.Remove(path) }},
	} {
		old, all := StampOf(path), StampsOf(dir)
		c.do()
		if old.Same(StampOf(path)) || all.Same(StampsOf(dir)) {
			t.Errorf("%s: taken for unchanged", c.what)
		}
	}
	save("name: d", 0)
	if young := StampOf(path); young.Same(StampOf(path)) {
		t.Error("a file saved this moment is relied on")
	}
	all = StampsOf(dir)
	os.WriteFile(filepath.Join(dir, "new"), nil, 0o644)
	if all.Same(StampsOf(dir)) {
		t.Error("a new file is not noticed")
	}
}

// TestStampsAgain: stamps that are taken again are the same ones while nothing
// changed, and notice all that stamps taken from the start do.
func TestStampsAgain(t *testing.T) {
	dir := t.TempDir()
	in := filepath.Join(dir, "photos")
	file, photo := filepath.Join(dir, "build.yaml"), filepath.Join(in, "a.jpg")
	hourAgo := func(paths ...string) {
		at := time.Now().Add(-time.Hour)
		for _, p := range paths {
			if err := os.Chtimes(p, at, at); err != nil {
				t.Fatal(err)
			}
		}
	}
	write := func(path, text string) {
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range []struct {
		what string
		do   func()
		same bool
	}{
		{"nothing", func() {}, true},
		{"a save", func() { write(file, "name: b") }, false},
		{"a photograph more", func() { write(filepath.Join(in, "b.jpg"), "b") }, false},
		{"a file more beside the record", func() { write(filepath.Join(dir, "notes.md"), "b") }, false},
		{"a photograph gone", func() { os.Remove(photo) }, false},
		{"a photograph renamed", func() { os.Rename(photo, filepath.Join(in, "c.jpg")) }, false},
		{"the photographs gone", func() { os.RemoveAll(in) }, false},
		{"a folder more with a file in it", func() {
			os.Mkdir(filepath.Join(dir, "pattern"), 0o755)
			write(filepath.Join(dir, "pattern", "a.svg"), "a")
		}, false},
	} {
		os.RemoveAll(in)
		os.RemoveAll(filepath.Join(dir, "notes.md"))
		os.Mkdir(in, 0o755)
		write(file, "name: a")
		write(photo, "a")
		hourAgo(file, photo, in, dir)
		was := StampsOf(dir)
		c.do()
		now := was.again(dir)
		if (now == was) != (c.same && FoldersTell) || was.Same(now) != c.same || was.Same(StampsOf(dir)) != c.same {
			t.Errorf("%s: the same ones %v, the same %v, from the start %v", c.what, now == was, was.Same(now), was.Same(StampsOf(dir)))
		}
		if st := now.of(file); st == (Stamp{}) || st.Same(Stamp{}) {
			t.Errorf("%s: the record has no stamp", c.what)
		}
	}
	if other := StampsOf(dir).again(in); other.of(file) != (Stamp{}) {
		t.Error("stamps of one folder are taken for those of another")
	}
}
