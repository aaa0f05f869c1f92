package main

import (
	"os"
	"os/exec"
	"strconv"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(tidied{m}, map[string]func(){"hembook": main})
}

// tidied runs the tests and then clears away what they shared.
type tidied struct{ *testing.M }

func (m tidied) Run() int {
	defer func() {
		os.RemoveAll(demo.dir)
		if chrome.stop != nil {
			chrome.stop()
		}
	}()
	return m.M.Run()
}

// TestScripts runs the real program as a maker would.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireExplicitExec: true,
		Cmds:                map[string]func(*testscript.TestScript, bool, []string){"exitcode": exitCode},
		Setup: func(env *testscript.Env) error {
			env.Setenv("HOME", env.WorkDir)
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
