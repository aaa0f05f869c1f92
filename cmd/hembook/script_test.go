package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"hembook/internal/chromium"
)

func TestMain(m *testing.M) {
	testscript.Main(tidied{m}, map[string]func(){"hembook": main})
}

// tidied runs the tests and then clears away what they shared.
type tidied struct{ *testing.M }

func (m tidied) Run() int {
	defer func() {
		os.RemoveAll(demo.dir)
		chromium.Stop()
	}()
	return m.M.Run()
}

// nothingBeside leaves a test out of the short round, which the race detector
// watches: either one thing is done after another, or a press, whose workers
// internal/press runs under it. The full round runs every test.
func nothingBeside(t *testing.T) {
	t.Helper()
	if testing.Short() {
		t.Skip("nothing runs beside something else that the race detector has not seen elsewhere")
	}
}

// TestScripts runs the real program as a maker would; in the short round those
// scripts where something runs beside something else.
func TestScripts(t *testing.T) {
	scripts, err := filepath.Glob("testdata/script/*.txtar")
	if err != nil {
		t.Fatal(err)
	}
	if testing.Short() {
		scripts = []string{"testdata/script/bench.txtar", "testdata/script/jot.txtar", "testdata/script/lay.txtar"}
	}
	pictures, err := filepath.Abs("../../testdata/pictures")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Files:               scripts,
		RequireExplicitExec: true,
		Cmds:                map[string]func(*testscript.TestScript, bool, []string){"exitcode": exitCode},
		Setup: func(env *testscript.Env) error {
			env.Setenv("HOME", env.WorkDir)
			env.Setenv("PICTURES", pictures)
			return nil
		},
	})
}

// exitCode runs a program that must end with the exit status named first.
func exitCode(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exitcode STATUS PROGRAM ARGS")
	}
	want, err := strconv.Atoi(args[0])
	if err != nil {
		ts.Fatalf("exitcode %s: %v", args[0], err)
	}
	err = ts.Exec(args[1], args[2:]...)
	got := 0
	if err != nil {
		got = -1
		if x, ok := err.(*exec.ExitError); ok {
			got = x.ExitCode()
		}
	}
	if got != want {
		ts.Fatalf("exit status %d, want %d", got, want)
	}
}
