package main

import (
	"os"
	"path/filepath"
	"testing"
	"time"
)

func namesIn(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}

// TestPacketFolder: a packet is exchanged as a whole, also through a link;
// what a run that was cut off left behind goes with the next one, and nothing
// else does.
func TestPacketFolder(t *testing.T) {
	nothingBeside(t)
	dir, room := t.TempDir(), t.TempDir()
	to := filepath.Join(dir, "coat")
	long := time.Now().Add(-time.Hour)
	leave := func(name string, old, marked bool) {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(path, 0o755); err != nil {
			t.Fatal(err)
		}
		if marked {
			if err := os.WriteFile(filepath.Join(path, packMarker), nil, 0o600); err != nil {
				t.Fatal(err)
			}
		}
		if old {
			if err := os.Chtimes(path, long, long); err != nil {
				t.Fatal(err)
			}
		}
	}
	leave(".coat.new-1", true, true)
	leave(".coat.new-2.old", true, true)
	leave(".coat.new-3", false, true) // another run is at it
	leave(".coat.new-4", true, false) // not ours
	leave(".coats.new-5", true, true) // of another packet
	if err := os.Symlink(to, filepath.Join(dir, "link")); err != nil {
		t.Fatal(err)
	}
	for i, at := range []string{to, to, filepath.Join(dir, "link")} {
		name := string(rune('a'+i)) + ".html"
		if err := writeFolder(at, room, []packFile{{name: name, data: []byte(name)}}); err != nil {
			t.Fatal(err)
		}
		if got := namesIn(t, to); len(got) != 2 || got[0] != packMarker || got[1] != name {
			t.Errorf("run %d left %q", i+1, got)
		}
	}
	want := []string{".coat.new-3", ".coat.new-4", ".coats.new-5", "coat", "link"}
	got := namesIn(t, dir)
	if len(got) != len(want) {
		t.Fatalf("beside the packet stand %q", got)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("beside the packet stand %q", got)
		}
	}
	if err := os.WriteFile(filepath.Join(to, "own.txt"), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Remove(filepath.Join(to, packMarker)); err != nil {
		t.Fatal(err)
	}
	if err := writeFolder(to, room, nil); err == nil {
		t.Error("a folder of other files was replaced")
	}
}
