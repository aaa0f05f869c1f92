package main

import (
	"bytes"
	"fmt"
	"image"
	"image/jpeg"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// jotRoom is a workroom with one small record.
func jotRoom(t *testing.T, text string) (dir, path string) {
	t.Helper()
	dir = t.TempDir()
	write(t, dir, "content/workroom.yaml", "name: Room\n")
	write(t, dir, "content/builds/skirt/build.yaml", text)
	return dir, filepath.Join(dir, "content/builds/skirt/build.yaml")
}

const jotRecord = "name: Skirt\ngarment: skirt\nstate: planned\nwork: {cut out, hem}\n"

// hembook runs a command line in a workroom.
func hembook(dir string, args ...string) (code int, out, errs string) {
	var o, e bytes.Buffer
	code = run(append(args, "--room", dir), &o, &e)
	return code, o.String(), e.String()
}

func contents(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func TestJotPhoto(t *testing.T) {
	dir, path := jotRoom(t, jotRecord)
	var b bytes.Buffer
	if err := jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, 32, 16)), nil); err != nil {
		t.Fatal(err)
	}
	photo := filepath.Join(t.TempDir(), "cut.jpg")
	if err := os.WriteFile(photo, b.Bytes(), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{
		{"the fell, from inside", "--photo", photo, "--alt", "Two rows of stitching"},
		{"the fell, from inside", "--photo", photo},
		{"--photo", photo},
	} {
		if code, _, errs := hembook(dir, append([]string{"jot", "skirt", "--at", "2025-03-04 15:00"}, args...)...); code != exitFine {
			t.Fatalf("exit status %d: %s", code, errs)
		}
	}
	want := jotRecord + `journal:
  - {at: 2025-03-04 15:00, note: "the fell, from inside", photo: {file: photos/2025-03-04-the-fell-from-inside.jpg, alt: Two rows of stitching}}
  - {at: 2025-03-04 15:00, note: "the fell, from inside", photo: photos/2025-03-04-the-fell-from-inside-2.jpg}
  - {at: 2025-03-04 15:00, photo: photos/2025-03-04-cut.jpg}
`
	if got := contents(t, path); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if code, out, errs := hembook(dir, "check"); code != exitFine { // the photographs are there, and pictures
		t.Errorf("exit status %d\n%s%s", code, out, errs)
	}
}

// Where the entry cannot be written the photograph is not kept.
func TestJotPhotoTakenAway(t *testing.T) {
	const listless = "name: Skirt\nwork: [cut, hem]\njournal: soon\n"
	dir, path := jotRoom(t, listless)
	photo := filepath.Join(t.TempDir(), "cut.jpg")
	var b bytes.Buffer
	if err := jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, 8, 8)), nil); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(photo, b.Bytes(), 0o666); err != nil {
		t.Fatal(err)
	}
	code, _, errs := hembook(dir, "jot", "skirt", "lost", "--photo", photo)
	if code != exitFaults || !strings.Contains(errs, "build.yaml is unchanged: line 3: journal is a single value, not a list") {
		t.Errorf("exit status %d: %s", code, errs)
	}
	if left, _ := os.ReadDir(filepath.Join(filepath.Dir(path), "photos")); len(left) > 0 {
		t.Errorf("%d files are left", len(left))
	}
	if contents(t, path) != listless {
		t.Error("the record was changed")
	}
}

// TestJotAtOnce: eight programs that jot at the same time lose nothing.
func TestJotAtOnce(t *testing.T) {
	program, err := exec.LookPath("hembook") // the test binary, under the name it has in scripts
	if err != nil {
		t.Skip("the program is not on the path")
	}
	const programs, notes = 8, 4
	dir, path := jotRoom(t, jotRecord)
	done := make(chan error, programs)
	for p := range programs {
		go func() {
			for n := range notes {
				out, err := exec.Command(program, "jot", "skirt", fmt.Sprintf("note %d of %d.", n, p), "--room", dir).CombinedOutput()
				if err != nil {
					done <- fmt.Errorf("%w: %s", err, out)
					return
				}
			}
			done <- nil
		}()
	}
	for range programs {
		if err := <-done; err != nil {
			t.Error(err)
		}
	}
	got := contents(t, path)
	for p := range programs {
		for n := range notes {
			if want := fmt.Sprintf("note %d of %d.", n, p); strings.Count(got, want) != 1 {
				t.Errorf("%q is there %d times", want, strings.Count(got, want))
			}
		}
	}
	if !strings.HasPrefix(got, jotRecord) {
		t.Errorf("got\n%s", got)
	}
}
