package disk

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"
)

func TestFilesAreRead(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{"a.yaml": "name: a\n", "in/b.yaml": "", "in/deep/c.md": "---\n"} {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	if err := fstest.TestFS(FS(root), "a.yaml", "in/b.yaml", "in/deep/c.md"); err != nil {
		t.Error(err)
	}
	if text, err := ReadIn(root, "a.yaml"); err != nil || string(text) != "name: a\n" {
		t.Errorf("%q, %v", text, err)
	}
	if text, err := ReadFile(filepath.Join(dir, "a.yaml")); err != nil || string(text) != "name: a\n" {
		t.Errorf("%q, %v", text, err)
	}
	if _, err := ReadIn(root, "none.yaml"); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a file that is not there: %v", err)
	}
	if _, err := ReadIn(root, "../"+filepath.Base(dir)+"/a.yaml"); err == nil {
		t.Error("a file outside was read")
	}
	var no NotAFile
	if _, err := ReadIn(root, "in"); !errors.As(err, &no) || no.Error() != "it is a folder, not a file" {
		t.Errorf("a folder: %v", err)
	}
	if _, err := FS(root).Open("../a.yaml"); !errors.Is(err, fs.ErrInvalid) {
		t.Errorf("an address that is none: %v", err)
	}
}
