package disk

import (
	"os"
	"path/filepath"
	"slices"
	"testing"
)

// letGo ends a program's hold on a file as its end does: the lock goes, the
// file stays.
func letGo(t *testing.T, file *os.File) {
	t.Helper()
	if err := file.Close(); err != nil {
		t.Fatal(err)
	}
}

func linesOf(left []*Errand) (out [][]string) {
	for _, e := range left {
		out = append(out, e.Lines)
	}
	return out
}

// TestErrands: an errand is found by others once its owner is gone, and by one
// of them only.
func TestErrands(t *testing.T) {
	room := t.TempDir()
	if left := LeftErrands(room); left != nil {
		t.Errorf("of no errands: %v", linesOf(left))
	}
	alive, dead := BeginErrand(room, "alive"), BeginErrand(room, "one", "two")
	if alive == nil || dead == nil {
		t.Fatal("none could be noted")
	}
	dead.Add("three")
	if left := LeftErrands(room); left != nil {
		t.Errorf("of living owners: %v", linesOf(left))
	}
	if _, err := dead.file.WriteString("half a li"); err != nil {
		t.Fatal(err)
	}
	letGo(t, dead.file)
	left := LeftErrands(room)
	if len(left) != 1 || !slices.Equal(left[0].Lines, []string{"one", "two", "three"}) {
		t.Fatalf("left: %v", linesOf(left))
	}
	if again := LeftErrands(room); again != nil {
		t.Errorf("taken over twice: %v", linesOf(again))
	}
	left[0].Leave()
	if left = LeftErrands(room); len(left) != 1 {
		t.Fatalf("after it was left: %v", linesOf(left))
	}
	left[0].End()
	alive.End()
	if files, err := os.ReadDir(filepath.Join(room, errandFolder)); err != nil || len(files) > 0 {
		t.Errorf("%d notes are left: %v", len(files), err)
	}
	var none *Errand
	none.Add("nothing")
	none.End()
}

// TestSweep: a draft whose owner is gone is swept, one that is being written
// and any other file is not.
func TestSweep(t *testing.T) {
	root, err := OpenRoot(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	alive, err := root.Draft("in.yaml", []byte("alive"), 0o666)
	if err != nil {
		t.Fatal(err)
	}
	dead, err := root.Draft("in.yaml", []byte("dead"), 0o666)
	if err != nil {
		t.Fatal(err)
	}
	letGo(t, dead.file.File)
	for _, hers := range []string{".hidden", "my.writing-notes"} {
		if err := root.Replace(hers, []byte("hers"), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	root.Sweep(".")
	for name, want := range map[string]bool{alive.name: true, dead.name: false, ".hidden": true, "my.writing-notes": true} {
		if _, err := root.Lstat(name); (err == nil) != want {
			t.Errorf("%s: there %v", name, err == nil)
		}
	}
	if err := alive.Link("in.yaml"); err != nil {
		t.Fatal(err)
	}
	if err := alive.Link("in.yaml"); err == nil {
		t.Error("a name that is taken was taken")
	}
	if err := alive.Drop(); err != nil {
		t.Error(err)
	}
	if text, err := root.ReadFile("in.yaml"); err != nil || string(text) != "alive" {
		t.Errorf("%q, %v", text, err)
	}
}

// TestReplaceWhileOthersSweep: what is being put in place gets there however
// others sweep.
func TestReplaceWhileOthersSweep(t *testing.T) {
	dir := t.TempDir()
	root, err := OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	at := map[string]int{}
	see := func(s Touch) {
		at[s.Does]++
		if s.Does == "rename" && at["rename"] <= 3 || s.Does == "write" {
			root.Sweep(".") // at the rename the draft is closed
		}
	}
	Watcher.Store(&see)
	err = root.Replace("clock.yaml", []byte("one clock"), 0o666)
	Watcher.Store(nil)
	if err != nil {
		t.Fatal(err)
	}
	if text, err := root.ReadFile("clock.yaml"); err != nil || string(text) != "one clock" || at["rename"] != 4 {
		t.Errorf("%q, %v, put in place %d times", text, err, at["rename"])
	}
	if files, _ := os.ReadDir(dir); len(files) != 1 {
		t.Errorf("%d files are left", len(files))
	}
}
