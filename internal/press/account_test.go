package press

import (
	"maps"
	"os"
	"path/filepath"
	"testing"
	"time"

	"hembook/internal/fault"
)

// accounted presses unless its account says that nothing changed.
func accounted(t *testing.T, dir, to, how string) (made bool, rep Report, faults []fault.Fault) {
	t.Helper()
	g := GroundsOf(dir, how)
	if rep, faults, same := g.Unchanged(to); same {
		return false, rep, faults
	}
	rep, faults, err := press(t, dir, to)
	if err != nil {
		t.Fatal(err)
	}
	g.Account(how, to, rep, faults)
	return true, rep, faults
}

// TestAccountsAreRelied presses once and then not again, and the notebook and what is
// said are those of a press; whatever changes, it is pressed again.
func TestAccountsAreRelied(t *testing.T) {
	if testing.Short() {
		t.Skip("presses with the workers of the other tests")
	}
	f := small()
	f["content/builds/apron/build.yaml"] += "  - {at: 2026-03-07 10:00}\n" // an empty entry, which is warned of
	f["themes/plainweave/look/9-own.css"] = ".own { color: red }\n"
	f[".hembook/lays/a/b.json"] = "{}"
	dir := room(t, f)
	to := filepath.Join(t.TempDir(), "pressed")
	if made, _, _ := accounted(t, dir, to, "a"); !made {
		t.Fatal("a first press was left out")
	}
	want, wantSaid, err := press(t, dir, to) // as one without an account does
	if err != nil {
		t.Fatal(err)
	}
	was := tree(t, to)
	same := func(what string) {
		t.Helper()
		made, rep, said := accounted(t, dir, to, "a")
		want.Carried, want.Made = rep.Carried, 0
		switch {
		case made:
			t.Errorf("%s: pressed again", what)
		case rep.Pages != want.Pages || rep.Files != want.Files || rep.Kept != want.Kept || rep.Written != 0 || rep.Bytes != want.Bytes || rep.Pictures != want.Pictures || rep.Removed != 0:
			t.Errorf("%s: reported %+v, want %+v", what, rep, want)
		case len(said) != len(wantSaid):
			t.Errorf("%s: said %v, want %v", what, said, wantSaid)
		}
		for i := range said {
			if said[i].String() != wantSaid[i].String() {
				t.Errorf("%s: said %q, want %q", what, said[i], wantSaid[i])
			}
		}
		if got := tree(t, to); !maps.Equal(got, was) {
			t.Errorf("%s: the notebook is another one", what)
		}
	}
	if len(wantSaid) == 0 {
		t.Fatal("nothing is warned of, so that no warning can be lost")
	}
	same("nothing changed")
	put := func(name, text string) func(*testing.T) {
		return func(t *testing.T) {
			os.MkdirAll(filepath.Dir(filepath.Join(dir, name)), 0o755)
			if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
	out := func(name string) string { return filepath.Join(to, name) }
	for _, c := range []struct {
		what string
		do   func(*testing.T)
	}{
		{"a record says more", put("content/builds/apron/build.yaml", f["content/builds/apron/build.yaml"]+"\n# more\n")},
		{"a file more", put("content/pages/more.md", "---\ntitle: More\n---\nMore.\n")},
		{"a file less", func(t *testing.T) { os.Remove(filepath.Join(dir, "content/pages/more.md")) }},
		{"another name", func(t *testing.T) {
			os.Rename(filepath.Join(dir, "content/builds/apron/notes.md"), filepath.Join(dir, "content/builds/apron/thoughts.md"))
		}},
		{"the theme", put("themes/plainweave/look/9-own.css", ".own { color: tan }\n")},
		{"a plan of a lay", put(".hembook/lays/a/b.json", "{ }")},
		{"the account is gone", func(t *testing.T) { os.RemoveAll(filepath.Join(dir, accountName)) }},
		{"the account is spoilt", put(accountName, "0000000000000000\n{}")},
		{"a page changed by hand", func(t *testing.T) { os.WriteFile(out("index.html"), []byte("<p>mine"), 0o644) }},
		{"a page deleted", func(t *testing.T) { os.Remove(out("glossary.html")) }},
		{"the list deleted, and all with it", func(t *testing.T) { os.RemoveAll(to) }},
	} {
		c.do(t)
		if made, _, _ := accounted(t, dir, to, "a"); !made {
			t.Errorf("%s: it was not pressed again", c.what)
		}
		if made, _, _ := accounted(t, dir, to, "a"); made {
			t.Errorf("%s: pressed a third time, with nothing changed", c.what)
		}
	}
	if made, _, _ := accounted(t, dir, to, "b"); !made {
		t.Error("asked for otherwise, it was not pressed again")
	}
	if made, _, _ := accounted(t, dir, filepath.Join(t.TempDir(), "elsewhere"), "b"); !made {
		t.Error("to another folder it was not pressed")
	}
}

// TestHersStandsBesideAnAccount: a file that the maker put into the notebook changes
// nothing of it, and is counted.
func TestHersStandsBesideAnAccount(t *testing.T) {
	if testing.Short() {
		t.Skip("presses with the workers of the other tests")
	}
	dir, to := room(t, small()), filepath.Join(t.TempDir(), "pressed")
	accounted(t, dir, to, "")
	if err := os.WriteFile(filepath.Join(to, "CNAME"), []byte("room.example"), 0o644); err != nil {
		t.Fatal(err)
	}
	if made, rep, _ := accounted(t, dir, to, ""); made || rep.Carried != 1 {
		t.Errorf("pressed again %v, %d of hers", made, rep.Carried)
	}
}

// TestSavedMeanwhile: where a record is saved while the notebook is made there is no
// account of it, even where it says the same afterwards; and none where a link leads
// somewhere that is not looked at.
func TestSavedMeanwhile(t *testing.T) {
	if testing.Short() {
		t.Skip("presses with the workers of the other tests")
	}
	f := small()
	dir, to := room(t, f), filepath.Join(t.TempDir(), "pressed")
	g := GroundsOf(dir, "")
	rep, faults, err := press(t, dir, to)
	if err != nil {
		t.Fatal(err)
	}
	later := time.Now().Add(time.Minute)
	if err := os.Chtimes(filepath.Join(dir, "content/builds/apron/build.yaml"), later, later); err != nil {
		t.Fatal(err)
	}
	g.Account("", to, rep, faults)
	if _, _, same := GroundsOf(dir, "").Unchanged(to); same {
		t.Error("a notebook is relied on whose record was saved meanwhile")
	}
	if err := os.Symlink(t.TempDir(), filepath.Join(dir, "content", "away")); err != nil {
		t.Skip(err)
	}
	if made, _, _ := accounted(t, dir, to, ""); !made {
		t.Fatal("not pressed")
	}
	if made, _, _ := accounted(t, dir, to, ""); !made {
		t.Error("what a link leads to may have changed, and it was not pressed again")
	}
}
