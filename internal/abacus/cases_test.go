package abacus_test

import (
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"hembook/internal/madeup"
)

var keep = flag.String("keep", "", "a folder into which garments that come out differently are written as cases")

// TestCases works out again what once came out differently. A case is an
// archive of a workroom; above its files stands what was wrong. What still is
// wrong stands there in lines
//
//	differs: KIND: why
//
// and must differ, so that the line is taken out when it is mended, while
// nothing else may. These lines are the one list of known differences.
func TestCases(t *testing.T) {
	files, err := filepath.Glob("testdata/cases/*.txtar")
	if err != nil || len(files) == 0 {
		t.Fatalf("there are no cases: %v", err)
	}
	list := tables(t)
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txtar"), func(t *testing.T) {
			ar, err := txtar.ParseFile(file)
			if err != nil {
				t.Fatal(err)
			}
			room := map[string]string{}
			for _, f := range ar.Files {
				room[f.Name] = string(f.Data)
			}
			known := knownDifferences(string(ar.Comment))
			for _, d := range compare(t, list, room, madeup.Build, -1, counts{}) {
				kind := kindOf(d.id)
				if _, meant := known[kind]; !meant {
					t.Errorf("%s", d)
					continue
				}
				known[kind] = true
			}
			for _, kind := range slices.Sorted(maps.Keys(known)) {
				if !known[kind] {
					t.Errorf("%s agrees now: take its line out of %s", kind, file)
				}
			}
		})
	}
}

// knownDifferences lists the kinds of figures that a case says differ.
func knownDifferences(comment string) map[string]bool {
	out := map[string]bool{}
	for line := range strings.Lines(comment) {
		if rest, ok := strings.CutPrefix(line, "differs: "); ok {
			kind, _, _ := strings.Cut(rest, ": ")
			out[kind] = false
		}
	}
	return out
}

// keepCase writes a garment that came out differently, with what differed, if
// a folder is named for it.
func keepCase(t *testing.T, w madeup.Wish, diffs []difference) {
	t.Helper()
	if *keep == "" {
		return
	}
	ar := &txtar.Archive{Comment: []byte("Found among the made-up garments:\n")}
	for _, d := range diffs {
		ar.Comment = append(ar.Comment, d.String()+"\n"...)
	}
	room := w.Workroom()
	for _, name := range slices.Sorted(maps.Keys(room)) {
		ar.Files = append(ar.Files, txtar.File{Name: name, Data: []byte(room[name])})
	}
	path := filepath.Join(*keep, fmt.Sprintf("seed-%d-size-%d.txtar", w.Seed, w.Size))
	if err := os.WriteFile(path, txtar.Format(ar), 0o644); err != nil {
		t.Fatal(err)
	}
}
