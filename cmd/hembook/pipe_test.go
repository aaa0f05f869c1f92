//go:build unix

package main

import (
	"context"
	"errors"
	"net"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// TestPipesAreRefused: a pipe, a socket or a folder that lies where a file
// belongs is named, by every command, and nobody waits for it.
func TestPipesAreRefused(t *testing.T) {
	nothingBeside(t)
	pipe := func(p string) error { return syscall.Mkfifo(p, 0o600) }
	socket := func(p string) error {
		l, err := net.Listen("unix", p)
		if err == nil {
			t.Cleanup(func() { l.Close() })
		}
		return err
	}
	folder := func(p string) error { return os.Mkdir(p, 0o777) }
	for _, c := range []struct {
		name string
		lies func(path string) error
		more string // put into the record
		args string
		want string
	}{
		{skirtRecord, pipe, "", "check", skirtRecord + ":1:1: error: this file cannot be read: it is a pipe, not a file"},
		{skirtRecord, socket, "", "check", skirtRecord + ":1:1: error: this file cannot be read: it is a socket, not a file"},
		{skirtRecord, folder, "", "check", skirtRecord + ":1:1: error: this is not a file"},
		{skirtRecord, pipe, "", "press", "it is a pipe, not a file"},
		{skirtRecord, pipe, "", "tally skirt", "it is a pipe, not a file"},
		{skirtRecord, pipe, "", "jot skirt hello", "it is a pipe, not a file"},
		{skirtRecord, pipe, "", "clock on skirt fit", "it is a pipe, not a file"},
		{"content/cloth/rust-linen.yaml", pipe, "", "check", "content/cloth/rust-linen.yaml:1:1: error: this file cannot be read: it is a pipe, not a file"},
		{"content/wearers/contralto.yaml", pipe, "", "check", "content/wearers/contralto.yaml:1:1: error: this file cannot be read: it is a pipe, not a file"},
		{"content/techniques/plain-seam.md", pipe, "", "check", "content/techniques/plain-seam.md:1:1: error: this file cannot be read: it is a pipe, not a file"},
		{"content/builds/skirt/notes.md", pipe, "", "check", "content/builds/skirt/notes.md:1:1: error: this file cannot be read: it is a pipe, not a file"},
		{"content/workroom.yaml", pipe, "", "check", "content/workroom.yaml:1:1: error: this file cannot be read: it is a pipe, not a file"},
		{"content/builds/skirt/cut.jpg", pipe, "picture: {file: cut.jpg, alt: cut out}\n", "check", `the picture "cut.jpg" cannot be read: it is a pipe, not a file`},
		{"content/builds/skirt/cut.svg", pipe, "  pocket:\n    cut: 1\n    outline: {file: cut.svg}\n", "check", `the pattern file "cut.svg" cannot be read: it is a pipe, not a file`},
		{"themes/plainweave/frame.html", pipe, "", "press", "the theme's frame.html cannot be read: it is a pipe, not a file"},
		{"themes/plainweave/look/icon.svg", pipe, "", "press", "the theme's look/icon.svg cannot be read: it is a pipe, not a file"},
		{"themes/plainweave/look/zz.css", pipe, "", "press", "the theme's look/zz.css cannot be read: it is a pipe, not a file"},
		{"cut.jpg", pipe, "", "jot skirt hello --photo cut.jpg", "it is a pipe, not a file"},
	} {
		t.Run(filepath.Base(c.name)+" "+c.args, func(t *testing.T) {
			t.Parallel()
			dir := t.TempDir()
			for _, f := range readArchive(t, filepath.Join(brokenDir, "base.txtar")).Files {
				text := string(f.Data)
				if f.Name == skirtRecord && c.more != "" {
					if text = text + c.more; strings.HasPrefix(c.more, " ") {
						text = strings.Replace(string(f.Data), "pieces:\n", "pieces:\n"+c.more, 1)
					}
				}
				write(t, dir, f.Name, text)
			}
			at := filepath.Join(dir, filepath.FromSlash(c.name))
			os.Remove(at)
			if err := os.MkdirAll(filepath.Dir(at), 0o777); err != nil {
				t.Fatal(err)
			}
			if err := c.lies(at); err != nil {
				t.Skipf("cannot be made here: %v", err)
			}
			printed, code := runAlone(t, dir, strings.Fields(c.args)...)
			if code != exitFaults && code != exitUse {
				t.Errorf("exit status %d", code)
			}
			if !strings.Contains(printed, c.want) {
				t.Errorf("does not say %s:\n%s", c.want, printed)
			}
		})
	}
}

// runAlone runs the program in a process of its own, in a folder, and ends it
// where it hangs.
func runAlone(t *testing.T, dir string, args ...string) (printed string, code int) {
	t.Helper()
	program, err := exec.LookPath("hembook") // the test binary, under the name it has in scripts
	if err != nil {
		t.Skip("the program is not on the path")
	}
	ctx, stop := context.WithTimeout(context.Background(), 3*time.Minute)
	defer stop()
	cmd := exec.CommandContext(ctx, program, args...)
	cmd.Dir = dir
	out, err := cmd.CombinedOutput()
	if ctx.Err() != nil {
		t.Fatalf("hangs; printed so far:\n%s", out)
	}
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		t.Fatal(err)
	}
	return string(out), cmd.ProcessState.ExitCode()
}

// TestSecondSignalEnds: the first signal lets the bench finish what it is
// receiving, a second ends it there and then.
func TestSecondSignalEnds(t *testing.T) {
	for _, sign := range []os.Signal{os.Interrupt, syscall.SIGTERM} {
		t.Run(sign.String(), func(t *testing.T) {
			heard := make(chan os.Signal, 1) // what the tests hear, the program does not inherit as ignored
			signal.Notify(heard, sign)
			defer signal.Stop(heard)
			b := startBench(t, benchRoom(t))
			b.pair(t)
			// a photograph whose bytes do not come
			c := b.dial(t, "127.0.0.1")
			c.write(t, "POST /slips HTTP/1.1\r\nHost: "+b.host+"\r\nOrigin: http://"+b.host+"\r\nCookie: "+b.cookie+
				"\r\nContent-Type: multipart/form-data; boundary=x\r\nContent-Length: 5000\r\nExpect: 100-continue\r\n\r\n")
			if line := c.line(t); !strings.HasPrefix(line, "HTTP/1.1 100 ") {
				t.Fatalf("answered with %q", line)
			}
			if err := b.cmd.Process.Signal(sign); err != nil {
				t.Fatal(err)
			}
			b.awaitClosed(t) // it has heard the first, and waits for the photograph
			begun := time.Now()
			if err := b.cmd.Process.Signal(sign); err != nil {
				t.Fatal(err)
			}
			b.cmd.Wait()
			t.Logf("ended %s after the second signal", time.Since(begun).Round(time.Millisecond))
			if how := b.cmd.ProcessState.Sys().(syscall.WaitStatus); !how.Signaled() || how.Signal() != sign {
				t.Errorf("ended by %v, want by the signal", b.cmd.ProcessState)
			}
		})
	}
}
