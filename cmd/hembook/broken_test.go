package main

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"
)

var update = flag.Bool("update", false, "write what was printed into the files that hold what is wanted; read the change before you keep it")

const brokenDir = "../../testdata/broken"

// TestBroken makes one slip at a time in a workroom that is in order, and
// compares what `hembook check` prints, word for word. Then it writes what each fault
// proposes, alone, and checks again: the fault is gone, and no new one is on its line; and all of them together, which must
// not contradict each other.
func TestBroken(t *testing.T) {
	nothingBeside(t)
	t.Parallel()
	base := readArchive(t, filepath.Join(brokenDir, "base.txtar"))
	t.Run("base", func(t *testing.T) {
		if got, code := checkOn(t, base); got != "" || code != exitFine {
			t.Fatalf("the workroom without a slip: exit status %d, printed\n%s", code, got)
		}
	})
	cases, err := filepath.Glob(filepath.Join(brokenDir, "*.txtar"))
	if err != nil || len(cases) < 60 {
		t.Fatalf("%d broken records, %v", len(cases), err)
	}
	written := 0
	for i, path := range cases {
		name := strings.TrimSuffix(filepath.Base(path), ".txtar")
		if name == "base" {
			continue
		}
		t.Run(name, func(t *testing.T) {
			slip := readArchive(t, path)
			room := applySlip(t, base, slip)
			found := faultsOf(t, room)
			var printed bytes.Buffer
			printFaults(&printed, found)
			got := printed.String()
			last := &slip.Files[len(slip.Files)-1]
			if *update {
				last.Data = []byte(got)
				if err := os.WriteFile(path, txtar.Format(slip), 0o666); err != nil {
					t.Fatal(err)
				}
				return
			}
			if got == "" {
				t.Fatal("the slip was not noticed")
			}
			if diff := cmp.Diff(string(last.Data), got); diff != "" {
				t.Errorf("want - got +\n%s", diff)
			}
			if i%8 == 0 { // the command prints them one like the other
				if same, code := checkOn(t, room); same != got || code != wantCode(got) {
					t.Errorf("exit status %d, want %d; printed\n%s", code, wantCode(got), same)
				}
			}
			for _, f := range found {
				if len(f.Correct) > 0 {
					written++
					holdProposal(t, room, found, f)
				} else if proposes.MatchString(f.Hint) && !asked(f.Hint) {
					t.Errorf("only words propose it:\n%s", f)
				}
			}
			holdTogether(t, room, found)
		})
	}
	t.Logf("%d proposals written", written)
	if !*update && written < 60 {
		t.Errorf("only %d proposals were written", written)
	}
}

func wantCode(printed string) int {
	if strings.Contains(printed, ": error: ") {
		return exitFaults
	}
	return exitFine
}

func readArchive(t *testing.T, path string) *txtar.Archive {
	t.Helper()
	a, err := txtar.ParseFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// applySlip returns the base with the slip made in it.
func applySlip(t *testing.T, base, slip *txtar.Archive) *txtar.Archive {
	t.Helper()
	out := &txtar.Archive{}
	for _, f := range base.Files {
		out.Files = append(out.Files, txtar.File{Name: f.Name, Data: bytes.Clone(f.Data)})
	}
	for _, s := range slip.Files {
		verb, name, _ := strings.Cut(s.Name, " ")
		if verb == "want" {
			continue
		}
		i := fileNamed(out, name)
		if i < 0 {
			out.Files = append(out.Files, txtar.File{Name: name})
			i = len(out.Files) - 1
		}
		switch verb {
		case "write":
			out.Files[i].Data = s.Data
		case "edit":
			from, to, ok := bytes.Cut(s.Data, []byte("\n=>\n"))
			if !ok || bytes.Count(out.Files[i].Data, from) == 0 {
				t.Fatalf("%q is not in %s", from, name)
			}
			out.Files[i].Data = bytes.Replace(out.Files[i].Data, from, bytes.TrimSuffix(to, []byte("\n")), 1)
		default:
			t.Fatalf("a slip is written or edited, not %q", verb)
		}
	}
	return out
}

func fileNamed(a *txtar.Archive, name string) int {
	for i := range a.Files {
		if a.Files[i].Name == name {
			return i
		}
	}
	return -1
}

// writtenOut writes a workroom to a folder of its own.
func writtenOut(t *testing.T, a *txtar.Archive) (dir string) {
	t.Helper()
	dir = t.TempDir()
	for _, f := range a.Files {
		if err := writeNew(filepath.Join(dir, filepath.FromSlash(f.Name)), f.Data); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// checkOn writes the workroom to a folder and runs `hembook check` on it.
func checkOn(t *testing.T, a *txtar.Archive) (string, int) {
	t.Helper()
	dir := writtenOut(t, a)
	var out, errs bytes.Buffer
	code := run([]string{"check", "--room", dir}, &out, &errs)
	return out.String(), code
}
