package bench

import (
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
