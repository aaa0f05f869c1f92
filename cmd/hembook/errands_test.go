package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// TestKilledPreview: what a preview that was killed left in the folder for
// temporary files goes with the next command, and not while one is shown.
func TestKilledPreview(t *testing.T) {
	program, err := exec.LookPath("hembook")
	if err != nil {
		t.Skip("the program is not on the path")
	}
	dir, _ := jotRoom(t, jotRecord)
	temp := t.TempDir()
	left := func() []string {
		all, _ := filepath.Glob(filepath.Join(temp, "*hembook-show-*"))
		dotted, _ := filepath.Glob(filepath.Join(temp, ".hembook-show-*"))
		notes, _ := filepath.Glob(filepath.Join(dir, ".hembook/errands/*"))
		return append(append(all, dotted...), notes...)
	}
	cmd := exec.Command(program, "show", "--room", dir, "--port", "0")
	cmd.Env = append(os.Environ(), "TMPDIR="+temp, "TMP="+temp)
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { cmd.Process.Kill() })
	readUntil(t, out, "files new, in")
	for _, step := range []struct {
		when  string
		stays bool
	}{{"while it is shown", true}, {"once it was killed", false}} {
		if len(left()) == 0 {
			t.Fatalf("%s: there is nothing of it", step.when)
		}
		if code, _, errs := hembook(dir, "check"); code != exitFine {
			t.Fatal(errs)
		}
		if now := left(); (len(now) > 0) != step.stays {
			t.Errorf("%s: %v", step.when, now)
		}
		cmd.Process.Kill()
		cmd.Wait()
	}
}
