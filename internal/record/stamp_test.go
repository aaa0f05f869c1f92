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
	if (Stamp{}).Same(StampOf(path)) || Stamps(nil).Same(StampsOf(path)) {
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
