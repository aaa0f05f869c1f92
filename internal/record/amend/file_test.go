package amend

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"hembook/internal/disk"
	"hembook/internal/fault"
)

const smallRecord = "name: Harbour coat\njournal:\n  - {at: 2026-08-04, did: draft}\n\npacket: {box: [coat]} # last\n"

// roomWith is a folder with one record in it.
func roomWith(t testing.TB, text string) (File, string) {
	t.Helper()
	dir := t.TempDir()
	file := filepath.Join(dir, "builds", "coat", "build.yaml")
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		t.Fatal(err)
	}
	writeText(t, file, text)
	return File{Folder: dir, Path: "builds/coat/build.yaml"}, file
}

func writeText(t testing.TB, file, text string) {
	t.Helper()
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

func readText(t testing.TB, file string) string {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func jot(note string) func([]byte) ([]byte, error) {
	return func(text []byte) ([]byte, error) {
		return Append(text, At("journal"), Group(Field{"at", Figure("2026-08-05")}, Field{"note", Words(note)}))
	}
}

// others are the files beside the record.
func others(t testing.TB, file string) []string {
	t.Helper()
	entries, err := os.ReadDir(filepath.Dir(file))
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, e := range entries {
		if e.Name() != filepath.Base(file) {
			out = append(out, e.Name())
		}
	}
	return out
}

func TestChangeReplacesTheFileAndNothingElse(t *testing.T) {
	f, file := roomWith(t, smallRecord)
	if err := os.Chmod(file, 0o640); err != nil {
		t.Fatal(err)
	}
	private := f.whenPassed("written", func() {
		// The record may be a wearer's: what is half written is nobody else's to read.
		for _, name := range others(t, file) {
			if info, err := os.Stat(filepath.Join(filepath.Dir(file), name)); err != nil || info.Mode().Perm()&^0o640 != 0 {
				t.Errorf("%s: %v %v", name, info.Mode(), err)
			}
		}
	})
	if err := private.Change(jot("cut")); err != nil {
		t.Fatal(err)
	}
	want := strings.Replace(smallRecord, "draft}\n", "draft}\n  - {at: 2026-08-05, note: cut}\n", 1)
	if got := readText(t, file); got != want {
		t.Errorf("got\n%s", got)
	}
	info, err := os.Stat(file)
	if err != nil {
		t.Fatal(err)
	}
	if runtime.GOOS != "windows" && info.Mode().Perm() != 0o640 {
		t.Errorf("permissions became %v", info.Mode())
	}
	if o := others(t, file); o != nil {
		t.Errorf("left behind: %v", o)
	}
	if err := f.Change(func(text []byte) ([]byte, error) { return text, nil }); err != nil {
		t.Fatal(err)
	}
	same, err := os.Stat(file)
	if err != nil || !os.SameFile(info, same) || !same.ModTime().Equal(info.ModTime()) {
		t.Error("a change to nothing wrote the file")
	}
}

func TestARefusedChangeWritesNothing(t *testing.T) {
	for _, text := range []string{"journal: [\n", "", "a: \xff\n"} {
		f, file := roomWith(t, text)
		before, _ := os.Stat(file)
		err := f.Change(jot("cut"))
		if err == nil || !strings.Contains(err.Error(), "builds/coat/build.yaml is unchanged: ") {
			t.Errorf("%q: %v", text, err)
		}
		if _, refused := errors.AsType[fault.List](err); !refused {
			t.Errorf("%q: not a refusal: %v", text, err)
		}
		after, _ := os.Stat(file)
		if readText(t, file) != text || !os.SameFile(before, after) || others(t, file) != nil {
			t.Errorf("%q was written", text)
		}
	}
}

func TestLinks(t *testing.T) {
	f, file := roomWith(t, smallRecord)
	outside := filepath.Join(t.TempDir(), "other.yaml")
	writeText(t, outside, smallRecord)
	dir := f.Folder
	if err := os.MkdirAll(filepath.Join(dir, "links"), 0o755); err != nil {
		t.Fatal(err)
	}
	for name, target := range map[string]string{
		"links/relative":  "../builds/coat/build.yaml",
		"links/absolute":  file,
		"links/twice":     "relative",
		"links/folder":    "../builds/coat",
		"links/behind":    "folder/../coat/build.yaml",
		"links/outside":   outside,
		"links/up":        "../../" + filepath.Base(filepath.Dir(outside)) + "/other.yaml",
		"links/circle":    "circle",
		"links/nowhere":   "missing.yaml",
		"links/directory": "../builds",
	} {
		if err := os.Symlink(target, filepath.Join(dir, filepath.FromSlash(name))); err != nil {
			t.Skip("no symbolic links here:", err)
		}
	}
	for _, name := range []string{"relative", "absolute", "twice", "folder/build.yaml", "behind"} {
		note := "by " + strings.ReplaceAll(name, "/", " ")
		if err := (File{Folder: dir, Path: "links/" + name}).Change(jot(note)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if !strings.Contains(readText(t, file), note) {
			t.Errorf("%s: the target was not written", name)
		}
		if info, err := os.Lstat(filepath.Join(dir, "links", filepath.FromSlash(strings.TrimSuffix(name, "/build.yaml")))); err != nil || info.Mode()&fs.ModeSymlink == 0 {
			t.Errorf("%s: the link is gone", name)
		}
	}
	for name, want := range map[string]string{"outside": "out of the workroom", "up": "out of the workroom", "circle": "circle", "nowhere": "no such file", "directory": "not a file"} {
		err := File{Folder: dir, Path: "links/" + name}.Change(jot("x"))
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", name, err, want)
		}
	}
	if err := (File{Folder: dir, Path: "../" + filepath.Base(dir) + "/builds/coat/build.yaml"}).Change(jot("x")); err == nil {
		t.Error("a path out of the folder was followed")
	}
	if readText(t, outside) != smallRecord {
		t.Error("a file outside was written")
	}
	if err := (File{Folder: dir, Path: "builds/none/build.yaml"}).Change(jot("x")); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a record that is not there: %v", err)
	}
}

// whenPassed saves another text as an editor without locks would, once, when
// the writer passes a point.
func (f File) whenPassed(point string, do func()) File {
	f.passed = func(p string) {
		if p == point {
			point = ""
			do()
		}
	}
	return f
}

func TestAnEditorSavesMeanwhile(t *testing.T) {
	theirs := strings.Replace(smallRecord, "Harbour", "Quay", 1)
	for _, row := range []struct {
		plain  bool
		points []string
	}{
		{false, []string{"read", "created", "written", "synced", "ready", "compared"}},
		{true, []string{"read", "created", "written", "synced", "ready", "compared", "linked"}},
	} {
		for _, point := range row.points {
			for _, byRename := range []bool{false, true} {
				f, file := roomWith(t, smallRecord)
				f.plain = row.plain
				err := f.whenPassed(point, func() {
					if byRename {
						writeText(t, file+"~", theirs)
						if err := os.Rename(file+"~", file); err != nil {
							t.Fatal(err)
						}
						return
					}
					writeText(t, file, theirs)
				}).Change(jot("cut"))
				if err != nil {
					t.Errorf("%s: %v", point, err)
				}
				want := strings.Replace(theirs, "draft}\n", "draft}\n  - {at: 2026-08-05, note: cut}\n", 1)
				if got := readText(t, file); got != want {
					t.Errorf("%s, by renaming %t, plainly %t: got\n%s", point, byRename, row.plain, got)
				}
				if o := others(t, file); o != nil {
					t.Errorf("%s: left behind: %v", point, o)
				}
			}
		}
	}
}

// A program that opened the record before it was replaced, and writes into it
// after, writes into a file that has no name any more. It is waited for.
func TestAnEditorThatTakesItsTime(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("the system does not tell who has a file open")
	}
	theirs := strings.Replace(smallRecord, "Harbour", "Quay", 1)
	for _, plain := range []bool{false, true} {
		f, file := roomWith(t, smallRecord)
		f.plain = plain
		err := f.whenPassed("compared", func() {
			open, err := os.OpenFile(file, os.O_WRONLY, 0)
			if err != nil {
				t.Fatal(err)
			}
			time.AfterFunc(50*time.Millisecond, func() {
				open.Truncate(0)
				open.WriteString(theirs)
				open.Close()
			})
		}).Change(jot("cut"))
		if err != nil {
			t.Error(err)
		}
		if got, want := readText(t, file), strings.Replace(theirs, "draft}\n", "draft}\n  - {at: 2026-08-05, note: cut}\n", 1); got != want {
			t.Errorf("plainly %t: got\n%s", plain, got)
		}
		if o := others(t, file); o != nil {
			t.Errorf("left behind: %v", o)
		}
	}
}

// An editor that saves again while its save is put back wins with the later
// one; the earlier one is kept in sight.
func TestAnEditorSavesTwiceInThatMoment(t *testing.T) {
	first := strings.Replace(smallRecord, "Harbour", "Quay", 1)
	second := strings.Replace(smallRecord, "Harbour", "Dock", 1)
	f, file := roomWith(t, smallRecord)
	save := func(text string) {
		writeText(t, file+"~", text)
		if err := os.Rename(file+"~", file); err != nil {
			t.Fatal(err)
		}
	}
	texts := map[string]string{"compared": first, "exchanged": second}
	f.passed = func(point string) {
		if text := texts[point]; text != "" {
			texts[point] = ""
			save(text)
		}
	}
	err := f.Change(jot("cut"))
	var c *Conflict
	if !errors.As(err, &c) || !c.Ours {
		t.Fatal(err)
	}
	if got, want := readText(t, file), strings.Replace(second, "draft}\n", "draft}\n  - {at: 2026-08-05, note: cut}\n", 1); got != want {
		t.Errorf("got\n%s", got)
	}
	if o := others(t, file); len(o) != 1 || o[0] != c.Kept || readText(t, filepath.Join(filepath.Dir(file), c.Kept)) != first {
		t.Errorf("kept: %v", o)
	}
}

func TestBothVersionsAreKeptWhereTheyCannotBeMerged(t *testing.T) {
	broken := "name: Quay coat\njournal: [\n"
	ours := strings.Replace(smallRecord, "draft}\n", "draft}\n  - {at: 2026-08-05, note: cut}\n", 1)
	kept := "build.yaml.ours-" + sum([]byte(ours))[:8]
	for _, point := range []string{"synced", "compared"} {
		for _, plain := range []bool{false, true} {
			f, file := roomWith(t, smallRecord)
			f.plain = plain
			err := f.whenPassed(point, func() { writeText(t, file, broken) }).Change(jot("cut"))
			var c *Conflict
			if !errors.As(err, &c) || c.Ours || c.Kept != kept {
				t.Fatalf("%s: %v", point, err)
			}
			if got := readText(t, file); got != broken {
				t.Errorf("%s: the record is\n%s", point, got)
			}
			if got := readText(t, filepath.Join(filepath.Dir(file), kept)); got != ours {
				t.Errorf("%s: kept is\n%s", point, got)
			}
			if o := others(t, file); len(o) != 1 {
				t.Errorf("%s: left behind: %v", point, o)
			}
		}
	}
}

func TestAnEditorThatSavesAgainAndAgain(t *testing.T) {
	f, file := roomWith(t, smallRecord)
	n := 0
	f.passed = func(point string) {
		if point == "synced" {
			n++
			writeText(t, file, smallRecord+strings.Repeat("# again\n", n))
		}
	}
	err := f.Change(jot("cut"))
	var c *Conflict
	if !errors.As(err, &c) || c.Ours || !errors.Is(err, errChanged) {
		t.Fatal(err)
	}
	// Once more to keep our version, which is written the same way.
	if n != mostAttempts+1 {
		t.Errorf("tried %d times", n)
	}
	if got := readText(t, file); got != smallRecord+strings.Repeat("# again\n", n) {
		t.Errorf("the record is\n%s", got)
	}
}

func TestLeftoversOfAKilledWriter(t *testing.T) {
	f, file := roomWith(t, smallRecord)
	dir := filepath.Dir(file)
	unseen := "name: saved by an editor\n"
	writeText(t, filepath.Join(dir, ".build.yaml.writing-0123"), "half")
	writeText(t, filepath.Join(dir, ".build.yaml.before-"+sum([]byte("old"))), "old")
	writeText(t, filepath.Join(dir, ".build.yaml.before-"+sum([]byte("older"))), unseen)
	writeText(t, filepath.Join(dir, ".other.yaml.writing-0123"), "of another record")
	if err := f.Change(jot("cut")); err != nil {
		t.Fatal(err)
	}
	kept := "build.yaml.theirs-" + sum([]byte(unseen))[:8]
	if got := strings.Join(others(t, file), " "); got != ".other.yaml.writing-0123 "+kept {
		t.Errorf("beside the record: %s", got)
	}
	if readText(t, filepath.Join(dir, kept)) != unseen {
		t.Error("what nobody has looked at was lost")
	}
}

func TestAProtectedRecordIsNotReplaced(t *testing.T) {
	if os.Geteuid() == 0 || runtime.GOOS == "windows" {
		t.Skip("this user may write every file")
	}
	f, file := roomWith(t, smallRecord)
	if err := os.Chmod(file, 0o444); err != nil {
		t.Fatal(err)
	}
	if err := f.Change(jot("cut")); err == nil || !strings.Contains(err.Error(), "not allowed") || readText(t, file) != smallRecord {
		t.Errorf("a protected record was replaced: %v", err)
	}
}

// TestWritersWaitForEachOther holds a lock twice: by the system's lock and by
// the hidden file that stands in for it.
func TestWritersWaitForEachOther(t *testing.T) {
	for name, hold := range map[string]func(*disk.Root, string, time.Duration) (func(), error){"system": hold, "by name": holdByName} {
		root, err := disk.OpenRoot(t.TempDir())
		if err != nil {
			t.Fatal(err)
		}
		release, err := hold(root, "build.yaml", longestWait)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := hold(root, "build.yaml", time.Millisecond); err == nil || !strings.Contains(err.Error(), "another program") {
			t.Errorf("%s: held twice: %v", name, err)
		}
		got := make(chan error)
		go func() {
			release, err := hold(root, "build.yaml", longestWait)
			if err == nil {
				release()
			}
			got <- err
		}()
		release()
		if err := <-got; err != nil {
			t.Errorf("%s: %v", name, err)
		}
		root.Close()
	}
}

func TestALargeRecordIsRefused(t *testing.T) {
	f, file := roomWith(t, "name: a\n"+strings.Repeat("# much\n", most/7))
	if err := f.Change(jot("cut")); err == nil || !strings.Contains(err.Error(), "larger than") {
		t.Error(err)
	}
	if !bytes.HasPrefix([]byte(readText(t, file)), []byte("name: a\n# much")) {
		t.Error("it was written")
	}
}
