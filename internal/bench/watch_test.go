package bench

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/fsnotify/fsnotify"
)

func TestMatters(t *testing.T) {
	w := &watcher{room: "/room", watched: []string{"/room/content", "/room/themes"}, except: "/room/content/out"}
	for path, want := range map[string]bool{
		"/room/content/builds/coat/build.yaml":                   true,
		"/room/content/builds/coat/photos/cut.jpg":               true,
		"/room/content/builds/coat":                              true,
		"/room/content":                                          true,
		"/room/themes/plainweave/look/1-ground.css":              true,
		"/room/content/builds/coat/.build.yaml.writing-0a1b":     false,
		"/room/content/builds/coat/.build.yaml.before-0a1b":      false,
		"/room/content/builds/coat/.build.yaml.lock":             false,
		"/room/content/builds/coat/.build.yaml.swp":              false,
		"/room/content/builds/coat/build.yaml~":                  false,
		"/room/content/builds/coat/#build.yaml#":                 false,
		"/room/content/builds/coat/4913":                         false,
		"/room/content/.hidden/build.yaml":                       false,
		"/room/.hembook/clock/coat.sides.yaml":                   false,
		"/room/content/out":                                      false,
		"/room/content/out/index.html":                           false,
		"/room/pressed/index.html":                               false,
		"/room/pressed.new-1/index.html":                         false,
		"/room/contents/x":                                       false,
		"/elsewhere/content/builds/coat/build.yaml":              false,
		"/room/content/builds/coat/build.yaml.theirs-0a1b2c3d":   true,
		"/room/content/builds/coat/photos/.photo.writing-ABCDEF": false,
	} {
		if got := w.matters(filepath.FromSlash(path)); got != want {
			t.Errorf("%s: got %v", path, got)
		}
	}
	record := "/room/content/builds/coat/build.yaml"
	for op, want := range map[fsnotify.Op]bool{
		fsnotify.Chmod: false, fsnotify.Write: true, fsnotify.Write | fsnotify.Chmod: true, fsnotify.Remove: true, fsnotify.Rename: true, fsnotify.Create: true,
	} {
		if got := w.counts(fsnotify.Event{Name: record, Op: op}); got != want {
			t.Errorf("%v: got %v", op, got)
		}
	}
}

// TestHalfSaved: an editor that empties a record, or moves it away, before it
// writes it anew is waited for longer than one that is done.
func TestHalfSaved(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{"emptied.yaml": "", "written.yaml": "name: Coat"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Mkdir(filepath.Join(dir, "folder"), 0o777); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]bool{"emptied.yaml": true, "moved.yaml": true, "written.yaml": false, "folder": false} {
		if got := halfSaved(fsnotify.Event{Name: filepath.Join(dir, name), Op: fsnotify.Write}); got != want {
			t.Errorf("%s: got %v", name, got)
		}
	}
}
