package main

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"hembook/internal/press"
	"hembook/internal/record"
)

// TestThemeIsKept: the theme is read once while its files are as they were, and
// again where one comes, changes or goes, or the workroom names another.
func TestThemeIsKept(t *testing.T) {
	nothingBeside(t)
	dir := t.TempDir()
	put := func(name, text string) {
		t.Helper()
		path := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
		old := time.Now().Add(-time.Duration(10+len(text)) * time.Second) // changes of this moment are in doubt
		if err := os.Chtimes(path, old, old); err != nil {
			t.Fatal(err)
		}
	}
	put("content/workroom.yaml", "name: A room\n")
	var kept keptTheme
	look := func() *press.Theme {
		t.Helper()
		room, _, err := record.Open(dir)
		if err != nil {
			t.Fatal(err)
		}
		defer room.Close()
		theme, err := kept.of(room)
		if err != nil {
			t.Fatal(err)
		}
		return theme
	}
	same := func(what string, last *press.Theme, want bool) *press.Theme {
		t.Helper()
		now := look()
		if (now == last) != want {
			t.Errorf("%s: the theme is kept: %v", what, now == last)
		}
		return now
	}
	last := same("nothing changed", look(), true)
	put("themes/plainweave/look/9-own.css", "p{}")
	last = same("a file came", last, false)
	last = same("nothing changed", last, true)
	put("themes/plainweave/look/9-own.css", "p{top:0}")
	last = same("a file changed", last, false)
	put("themes/own/look/9-own.css", "p{}")
	last = same("another theme is there", last, true)
	put("content/workroom.yaml", "name: A room\ntheme: own\n")
	last = same("another theme is named", last, false)
	if err := os.Remove(filepath.Join(dir, "themes/own/look/9-own.css")); err != nil {
		t.Fatal(err)
	}
	same("a file went", last, false)
}
