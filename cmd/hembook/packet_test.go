package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"
)

const packetDir = "../../testdata/packet"

// TestPacketSlips makes one slip at a time in a workroom whose build packs
// without a word, and compares what pack answers, and whether it packs.
func TestPacketSlips(t *testing.T) {
	nothingBeside(t)
	t.Parallel()
	base := readArchive(t, filepath.Join(packetDir, "base.txtar"))
	t.Run("base", func(t *testing.T) {
		if got := packOn(t, base); got != "exit status 0, packed\n" {
			t.Fatalf("the workroom without a slip: %s", got)
		}
	})
	cases, err := filepath.Glob(filepath.Join(packetDir, "*.txtar"))
	if err != nil || len(cases) < 21 {
		t.Fatalf("%d cases, %v", len(cases), err)
	}
	for _, path := range cases {
		name := strings.TrimSuffix(filepath.Base(path), ".txtar")
		if name == "base" {
			continue
		}
		t.Run(name, func(t *testing.T) {
			slip := readArchive(t, path)
			got := packOn(t, applySlip(t, base, slip))
			last := &slip.Files[len(slip.Files)-1]
			if *update {
				last.Data = []byte(got)
				if err := os.WriteFile(path, txtar.Format(slip), 0o666); err != nil {
					t.Fatal(err)
				}
				return
			}
			if diff := cmp.Diff(string(last.Data), got); diff != "" {
				t.Errorf("want - got +\n%s", diff)
			}
		})
	}
}

// packOn writes the workroom to a folder, packs its build, and tells what was
// printed of findings, how it ended, and whether anything was written.
func packOn(t *testing.T, a *txtar.Archive) string {
	t.Helper()
	dir := writtenOut(t, a)
	var out, errs bytes.Buffer
	code := run([]string{"pack", "skirt", "--room", dir, "--lays", "none"}, &out, &errs)
	done := "nothing written"
	if entries, err := os.ReadDir(filepath.Join(dir, "packed")); err == nil && len(entries) > 0 {
		done = "packed"
	}
	return strings.ReplaceAll(errs.String(), dir+"/", "") + fmt.Sprintf("exit status %d, %s\n", code, done)
}
