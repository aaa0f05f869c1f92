package press

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"hembook/internal/disk"
	"hembook/internal/notebook"
)

// put puts files of the maker's into a folder.
func put(t testing.TB, dir string, texts map[string]string) {
	t.Helper()
	for name, text := range texts {
		write(t, dir, name, text)
	}
}

// has checks that files are there with their texts.
func has(t testing.TB, dir string, texts map[string]string) {
	t.Helper()
	for name, text := range texts {
		if got, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(name))); err != nil || string(got) != text {
			t.Errorf("%s: %q, %v; want %q", name, got, err, text)
		}
	}
}

// without checks that nothing is beside the pressed folder.
func without(t testing.TB, to string) {
	t.Helper()
	entries, _ := os.ReadDir(filepath.Dir(to))
	for _, e := range entries {
		if e.Name() != filepath.Base(to) {
			t.Errorf("%s is left behind", e.Name())
		}
	}
}

var herFiles = map[string]string{
	".git/HEAD":             "ref: refs/heads/main\n",
	".git/objects/aa/bb":    "an object",
	".gitattributes":        "* -text\n",
	"CNAME":                 "dresses.example\n",
	"builds/notes.txt":      "of this folder",
	"builds/.nothing/x":     "y",
	"extra/deep/er/a.html":  "hers",
	"extra/index.html":      "hers too",
	"pictures/of/mine.jpeg": "a picture",
}

// TestWhatIsHersStays: what the maker puts into the pressed folder goes over
// into every later notebook, by renames.
func TestWhatIsHersStays(t *testing.T) {
	dir, to := room(t, small()), filepath.Join(t.TempDir(), "pressed")
	pressed(t, dir, to)
	put(t, to, herFiles)
	if err := os.Symlink("../pressed/CNAME", filepath.Join(to, "link")); err != nil {
		t.Log("no links here:", err)
	}
	was, err := os.Stat(filepath.Join(to, ".git", "objects", "aa", "bb"))
	if err != nil {
		t.Fatal(err)
	}
	for _, text := range []string{"Hello again.", "And again."} {
		write(t, dir, "content/pages/about.md", "---\ntitle: About\n---\n"+text+"\n")
		write(t, dir, "content/pages/passing.md", "---\ntitle: Passing\n---\n"+text+"\n")
		if text == "And again." {
			os.Remove(filepath.Join(dir, "content/pages/passing.md"))
		}
		r, faults, err := press(t, dir, to)
		if err != nil {
			t.Fatal(err, faults)
		}
		if len(r.Yours) != 0 || r.Before != "" || r.Carried < 6 {
			t.Errorf("report: %+v", r)
		}
		has(t, to, herFiles)
		now, err := os.Stat(filepath.Join(to, ".git", "objects", "aa", "bb"))
		if err != nil || !os.SameFile(was, now) {
			t.Errorf("it was copied, not renamed: %v", err)
		}
		if got, err := os.Readlink(filepath.Join(to, "link")); err == nil && got != "../pressed/CNAME" {
			t.Errorf("the link leads to %s", got)
		}
		if page, err := os.ReadFile(filepath.Join(to, "pages/about.html")); err != nil || !strings.Contains(string(page), text) {
			t.Errorf("the page is as it was: %v", err)
		}
		without(t, to)
	}
	if _, err := os.Stat(filepath.Join(to, "pages/passing.html")); err == nil {
		t.Error("a page that is gone is carried over")
	}
}

// A page that she changed by hand is made anew; hers is kept beside it.
func TestAPageChangedByHand(t *testing.T) {
	dir, to := room(t, small()), filepath.Join(t.TempDir(), "pressed")
	pressed(t, dir, to)
	put(t, to, map[string]string{"index.html": "changed by hand", "pages/about.html": "this one too"})
	page, err := os.ReadFile(filepath.Join(to, "glossary.html"))
	if err != nil {
		t.Fatal(err)
	}
	put(t, to, map[string]string{"glossary.html": strings.ReplaceAll(string(page), "\n", "\r\n")}) // as version keepers do
	os.Remove(filepath.Join(dir, "content/pages/about.md"))
	r, faults, err := press(t, dir, to)
	if err != nil {
		t.Fatal(err, faults)
	}
	if want := []string{"index.yours.html", "pages/about.yours.html"}; !slices.Equal(r.Yours, want) {
		t.Errorf("kept: %v, want %v", r.Yours, want)
	}
	kept := map[string]string{"index.yours.html": "changed by hand", "pages/about.yours.html": "this one too"}
	has(t, to, kept)
	if page, _ := os.ReadFile(filepath.Join(to, "index.html")); !strings.Contains(string(page), "Test room") {
		t.Error("the page was not made anew")
	}
	put(t, to, map[string]string{"index.html": "changed once more"})
	if r, _, err = press(t, dir, to); err != nil || !slices.Equal(r.Yours, []string{"index.yours-2.html"}) {
		t.Errorf("kept: %v, %v", r.Yours, err)
	}
	has(t, to, kept)
	has(t, to, map[string]string{"index.yours-2.html": "changed once more"})
	without(t, to)
}

// Where a page of ours needs the place of something of hers nothing is done.
func TestHersWhereAPageBelongs(t *testing.T) {
	for name, at := range map[string]string{"a file": "pages/later.html", "a folder": "pages/later.html/x", "a file where a folder belongs": "pages"} {
		f := small()
		delete(f, "content/pages/about.md")
		dir, to := room(t, f), filepath.Join(t.TempDir(), "pressed")
		before := pressed(t, dir, to)
		put(t, to, map[string]string{at: "hers", ".git/HEAD": "x"})
		write(t, dir, "content/pages/later.md", "---\ntitle: Later\n---\nHello.\n")
		_, _, err := press(t, dir, to)
		var taken *takenError
		if !errors.As(err, &taken) || !strings.Contains(err.Error(), strings.TrimSuffix(at, "/x")) {
			t.Errorf("%s: %v", name, err)
		}
		has(t, to, before)
		has(t, to, map[string]string{at: "hers", ".git/HEAD": "x"})
		without(t, to)
	}
}

// A link of hers in the place of a folder of ours is not followed.
func TestALinkWhereAFolderBelongs(t *testing.T) {
	dir, to := room(t, small()), filepath.Join(t.TempDir(), "pressed")
	pressed(t, dir, to)
	elsewhere := t.TempDir()
	if err := os.Rename(filepath.Join(to, "pages"), filepath.Join(elsewhere, "pages")); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(filepath.Join(elsewhere, "pages"), filepath.Join(to, "pages")); err != nil {
		t.Skip("no links here:", err)
	}
	before := tree(t, elsewhere)
	write(t, dir, "content/pages/about.md", "---\ntitle: About\n---\nOther.\n")
	if _, _, err := press(t, dir, to); err == nil || !strings.Contains(err.Error(), "pages") {
		t.Error(err)
	}
	same(t, before, tree(t, elsewhere))
}

// In a notebook that was pressed without a list nothing can be told apart: all
// of it is kept beside, and what begins with a dot goes over.
func TestANotebookWithoutAList(t *testing.T) {
	for _, marker := range []string{markerText, markerText + listText + "0000", "<<<<<<<\n" + markerText} {
		dir, to := room(t, small()), filepath.Join(t.TempDir(), "pressed")
		pressed(t, dir, to)
		put(t, to, map[string]string{markerName: marker, "CNAME": "x", ".git/HEAD": "y", "index.html": "z"})
		r, faults, err := press(t, dir, to)
		if err != nil {
			t.Fatal(err, faults)
		}
		if r.Before != to+".before" {
			t.Errorf("kept as %q", r.Before)
		}
		has(t, to+".before", map[string]string{"CNAME": "x", "index.html": "z"})
		has(t, to, map[string]string{".git/HEAD": "y"})
		if _, err := os.Stat(filepath.Join(to, "CNAME")); err == nil {
			t.Error("what cannot be told apart was carried over")
		}
		if r, _, err := press(t, dir, to); err != nil || r.Before != "" || r.Written != 0 {
			t.Errorf("again: %+v, %v", r, err)
		}
	}
}

// A fresh checkout is pressed into; any other folder that holds something is not.
func TestPressIntoACheckout(t *testing.T) {
	dir, out := room(t, small()), t.TempDir()
	to := filepath.Join(out, "pressed")
	put(t, to, map[string]string{".git/HEAD": "x", ".gitignore": "y"})
	if _, faults, err := press(t, dir, to); err != nil {
		t.Fatal(err, faults)
	}
	has(t, to, map[string]string{".git/HEAD": "x", ".gitignore": "y"})
	home := filepath.Join(out, "home")
	put(t, home, map[string]string{".profile": "x"})
	if _, _, err := press(t, dir, home); err == nil {
		t.Error("a folder of settings was taken for a checkout")
	}
}

// TestWhatIsHersStaysInAPreview: the same while a preview presses again and
// again, and when it ends.
func TestWhatIsHersStaysInAPreview(t *testing.T) {
	p := newPreview(t, small())
	step := func(text string) Report {
		t.Helper()
		p.save("content/pages/about.md", "---\ntitle: About\n---\n"+text+"\n", true)
		rep, faults, err := p.press()
		if err != nil {
			t.Fatal(err, faults)
		}
		has(t, p.to, map[string]string{})
		return rep
	}
	step("one")
	put(t, p.to, herFiles)
	for _, text := range []string{"two", "three", "four"} {
		step(text)
		has(t, p.to, herFiles)
	}
	put(t, p.to, map[string]string{"late.txt": "late", "pages/about.html": "by hand"})
	if rep := step("five"); !slices.Equal(rep.Yours, []string{"pages/about.yours.html"}) {
		t.Errorf("kept: %v", rep.Yours)
	}
	step("six")
	// what comes into the folder while the two are being exchanged
	see := func(s disk.Touch) {
		if s.Does == "exchange" {
			put(t, p.to, map[string]string{"last.txt": "in that moment", "pages/about.html": "in that moment"})
		}
	}
	disk.Watcher.Store(&see)
	rep := step("seven")
	disk.Watcher.Store(nil)
	if want := []string{"pages/about.yours-2.html"}; !slices.Equal(rep.Yours, want) {
		t.Errorf("kept: %v, want %v", rep.Yours, want)
	}
	step("eight")
	p.memory.Close()
	has(t, p.to, herFiles)
	has(t, p.to, map[string]string{
		"late.txt": "late", "pages/about.yours.html": "by hand", "last.txt": "in that moment", "pages/about.yours-2.html": "in that moment",
	})
	without(t, p.to)
}

// TestHersByTwoRenames: the same where no folders are exchanged in one step, and
// such an exchange is cut off in the middle.
func TestHersByTwoRenames(t *testing.T) {
	for _, cut := range []string{"before the new one", "after it"} {
		dir, to := room(t, small()), filepath.Join(t.TempDir(), "pressed")
		before := pressed(t, dir, to)
		put(t, to, herFiles)
		stage, err := stageBeside(to)
		if err != nil {
			t.Fatal(err)
		}
		was, _ := readList(to)
		list, err := hers(to, was, nil)
		if err != nil {
			t.Fatal(err)
		}
		put(t, stage.Dir, map[string]string{"new.html": "new"})
		if err := putMarker(stage.Dir, "", markerWith(listOf("new.html", "new"), listOf("new.html", "new").names())); err != nil {
			t.Fatal(err)
		}
		if err := bring(list, to, stage.Dir); err != nil {
			t.Fatal(err)
		}
		for _, names := range [][2]string{{to, stage.Dir + oldEnd}, {stage.Dir, to}} {
			if err := os.Rename(names[0], names[1]); err != nil {
				t.Fatal(err)
			}
			if cut == "before the new one" {
				break
			}
		}
		// the one that was at it is gone: its lock ends, its file stays
		name := filepath.Join(filepath.Dir(to), "."+filepath.Base(stage.Dir)+".lock")
		stage.Close()
		write(t, filepath.Dir(to), filepath.Base(name), "")
		if kept, err := Recover(to); len(kept) != 0 || err != nil {
			t.Errorf("%s: other names: %v, %v", cut, kept, err)
		}
		has(t, to, herFiles)
		if cut == "after it" {
			has(t, to, map[string]string{"new.html": "new"})
		} else {
			has(t, to, before)
		}
		without(t, to)
	}
}

func listOf(name, text string) list { return list{notebook.Address(name): markOf([]byte(text))} }

func TestWhereNoNotebookCanGo(t *testing.T) {
	dir, out := room(t, small()), t.TempDir()
	if err := os.Symlink(filepath.Join(out, "nowhere"), filepath.Join(out, "link")); err != nil {
		t.Skip("no links here:", err)
	}
	if _, _, err := press(t, dir, filepath.Join(out, "link")); err == nil || !strings.Contains(err.Error(), "nowhere, which is not there") {
		t.Error(err)
	}
	if disk.IsMount(out) {
		t.Error("a plain folder passes for a mounted disk")
	}
	if !disk.IsMount("/proc") {
		t.Skip("no mounted folder is known here")
	}
	if _, err := whereTo("/proc", dir); err == nil || !strings.Contains(err.Error(), "--to /proc/notebook") {
		t.Error(err)
	}
}

// TestStageWithoutNotebook: a press that was stopped just before its first
// notebook was in place leaves nothing that is the maker's, and is cleared
// away; where she put something there it waits for a notebook.
func TestStageWithoutNotebook(t *testing.T) {
	for _, half := range []string{"", markerName + ".new"} { // stopped before its marker was there
		to := filepath.Join(t.TempDir(), "pressed")
		stage, err := disk.NewStage(to+stageEnd, 0o755)
		if err != nil {
			t.Fatal(err)
		}
		if half != "" {
			put(t, stage.Dir, map[string]string{half: "Thi"})
		}
		stage.Leave()
		if kept, err := Recover(to); err != nil || kept != nil {
			t.Errorf("%q: %v, %v", half, kept, err)
		}
		without(t, to)
	}
	for _, c := range []struct {
		name, hers string
		text       string
		stays      bool
	}{{"nothing of hers", "", "", false}, {"a file of hers", "mine.txt", "mine", true}, {"a page changed by hand", "index.html", "by hand", true}} {
		dir, to := room(t, small()), filepath.Join(t.TempDir(), "pressed")
		pressed(t, dir, to)
		stage, err := stageBeside(to)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.RemoveAll(stage.Dir); err != nil {
			t.Fatal(err)
		}
		if err := os.Rename(to, stage.Dir); err != nil {
			t.Fatal(err)
		}
		if c.hers != "" {
			put(t, stage.Dir, map[string]string{c.hers: c.text})
		}
		stage.Leave() // its owner is gone
		if _, err := Recover(to); (err != nil) != c.stays {
			t.Errorf("%s: %v", c.name, err)
		}
		if there(stage.Dir) != c.stays {
			t.Errorf("%s: there %v", c.name, there(stage.Dir))
		}
		if !c.stays {
			continue
		}
		pressed(t, dir, to) // the next press finds it
		want := map[string]string{"mine.txt": "mine"}
		if c.hers == "index.html" {
			want = map[string]string{"index.yours.html": "by hand"}
		}
		has(t, to, want)
		without(t, to)
	}
}
