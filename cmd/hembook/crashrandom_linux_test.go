package main

import (
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

// A killing kills the program at random moments, again and again in one
// workroom, and counts what came of it.
type killing struct {
	t       *testing.T
	r       *rand.Rand
	program string
	photo   string
	dir     string
	usual   map[string]time.Duration // how long each command takes when it is let go

	n                            int // of the deed, for its words
	kills, lost, doubled, litter int
	runs, halves                 int
}

// run runs a command that is killed after a random time, and reports what it
// said. Of what is killed too late it sees the end.
func (k *killing) run(args ...string) (said string, killed bool) {
	k.t.Helper()
	var out strings.Builder
	cmd := exec.Command(k.program, append(args, "--room", k.dir)...)
	cmd.Stdout, cmd.Stderr = &out, &out
	begun := time.Now()
	if err := cmd.Start(); err != nil {
		k.t.Fatal(err)
	}
	usual := k.usual[args[0]]
	if usual > 0 {
		stop := time.AfterFunc(time.Duration(k.r.Int64N(int64(usual)*5/4)), func() { cmd.Process.Kill() })
		defer stop.Stop()
	}
	err := cmd.Wait()
	k.runs++
	if killed = err != nil && cmd.ProcessState.ExitCode() == -1; killed {
		k.kills++
	} else if err != nil {
		k.t.Fatalf("%v: %v: %s", args, err, out.String())
	} else {
		k.usual[args[0]] = (3*k.usual[args[0]] + time.Since(begun)) / 4
	}
	return out.String(), killed
}

// times counts a word in the record, and makes sure of the rest of it.
func (k *killing) times(word string) int {
	text := contents(k.t, filepath.Join(k.dir, "content/builds/skirt/build.yaml"))
	if !strings.HasPrefix(text, crashRecord) {
		k.halves++
		k.t.Errorf("the record is not what it was:\n%s", text)
	}
	return strings.Count(text, word)
}

// once holds an entry to being there: once where it was acknowledged, else at
// most once.
func (k *killing) once(word string, acknowledged bool) {
	switch n := k.times(word); {
	case n > 1:
		k.doubled++
		k.t.Errorf("%q is there %d times", word, n)
	case n == 0 && acknowledged:
		k.lost++
		k.t.Errorf("%q was acknowledged and is lost", word)
	}
}

// clean has another command run and looks for litter.
func (k *killing) clean() {
	if code, out, errs := hembook(k.dir, "check"); code != exitFine {
		k.halves++
		k.t.Errorf("exit status %d: %s%s", code, out, errs)
	}
	record := contents(k.t, filepath.Join(k.dir, "content/builds/skirt/build.yaml"))
	for name := range lyingIn(k.t, k.dir) {
		base := filepath.Base(name)
		photo := strings.Contains(name, "/photos/") && strings.HasPrefix(name, "content/") && !strings.Contains(record, "photos/"+base)
		if photo || unfinishedName(strings.TrimPrefix(name, ".hembook/")) || strings.HasPrefix(name, ".hembook/errands/") {
			k.litter++
			k.t.Errorf("litter: %s", name)
		}
	}
}

var photoName = regexp.MustCompile(`photo: (photos/[^}\s]+)`)

func (k *killing) jot(photo bool) {
	word := fmt.Sprintf("word-%d.", k.n)
	args := []string{"jot", "skirt", word, "--at", "2025-03-04 15:00"}
	if photo {
		args = append(args, "--photo", k.photo)
	}
	said, _ := k.run(args...)
	k.clean()
	k.once("note: "+word, strings.Contains(said, "written in the journal"))
	for _, named := range photoName.FindAllStringSubmatch(contents(k.t, filepath.Join(k.dir, "content/builds/skirt/build.yaml")), -1) {
		if info, err := os.Stat(filepath.Join(k.dir, "content/builds/skirt", named[1])); err != nil || info.Size() == 0 {
			k.lost++
			k.t.Errorf("%s is named and is not there: %v", named[1], err)
		}
	}
}

func (k *killing) clock() {
	begun := time.Date(2025, 3, 5, 0, 0, 0, 0, time.UTC).Add(time.Duration(k.n) * time.Hour)
	at := func(t time.Time) string { return t.Format("2006-01-02 15:04") }
	running := func() bool {
		_, out, _ := hembook(k.dir, "clock")
		return strings.Contains(out, "hem")
	}
	said, _ := k.run("clock", "on", "skirt", "hem", "--at", at(begun))
	k.clean()
	if !running() {
		if strings.Contains(said, "clock on: hem") {
			k.lost++
			k.t.Errorf("an acknowledged clock is lost")
		}
		hembook(k.dir, "clock", "on", "skirt", "hem", "--at", at(begun))
	}
	said, _ = k.run("clock", "off", "--at", at(begun.Add(20*time.Minute)))
	k.clean()
	word := fmt.Sprintf("at: %s, did: hem", at(begun))
	k.once(word, strings.Contains(said, "20 min, written"))
	if !running() && k.times(word) == 0 {
		k.lost++
		k.t.Errorf("neither clock nor entry of %s", at(begun))
	}
	hembook(k.dir, "clock", "off", "--at", at(begun.Add(20*time.Minute)))
	k.once(word, true)
}

// press presses the notebook: it is the earlier one or the new one, as a whole,
// and the maker's own files in it are there.
func (k *killing) press() {
	pressed := func(dir string) map[string]string {
		all := map[string]string{}
		for name, text := range lyingIn(k.t, dir) {
			if strings.HasPrefix(name, "pressed/") && hers[name] == "" {
				all[name] = text
			}
		}
		return all
	}
	before := pressed(k.dir)
	aside := k.t.TempDir()
	hembook(k.dir, "press", "--to", filepath.Join(aside, "pressed"))
	after := pressed(aside)
	said, _ := k.run("press")
	k.clean()
	now := pressed(k.dir)
	switch isNew := alike(now, after); {
	case !isNew && strings.Contains(said, " files, "):
		k.lost++
		k.t.Error("an acknowledged notebook is lost")
	case !isNew && !alike(now, before):
		k.halves++
		k.t.Error("the notebook is neither the earlier one nor the new one")
	}
	for name, text := range hers {
		if name == "pressed/glossary.html" {
			continue
		}
		if has, err := os.ReadFile(filepath.Join(k.dir, name)); err != nil || string(has) != text {
			k.lost++
			k.t.Errorf("%s, which is the maker's: %q, %v", name, has, err)
		}
	}
	os.RemoveAll(aside)
}

// slip sends a slip to a bench that is killed meanwhile, and again.
func (k *killing) slip() {
	b := startBench(k.t, k.dir)
	b.pair(k.t)
	word := fmt.Sprintf("word-%d.", k.n)
	s := slipOf(k.n, "note", fmt.Sprintf(`, "note": %q`, word), jpegOf(k.t, 5))
	stop := time.AfterFunc(time.Duration(k.r.Int64N(int64(60*time.Millisecond))), func() { b.cmd.Process.Kill() })
	kept, _ := b.send(s)
	if stop.Stop() {
		b.cmd.Process.Kill()
	}
	b.cmd.Wait()
	k.kills++
	k.clean()
	k.once("note: "+word, kept)
	resend(k.t, k.dir, s)
	k.clean()
	k.once("note: "+word, true)
}

// newRoom begins another workroom, with a notebook in which lie files of the
// maker's.
func (k *killing) newRoom() {
	k.dir = pressRoom(k.t)
	if code, _, errs := hembook(k.dir, "press"); code != exitFine {
		k.t.Fatal(errs)
	}
	for name, text := range hers {
		if name != "pressed/glossary.html" {
			overwrite(k.t, filepath.Join(k.dir, name), text)
		}
	}
}

// TestKilledAtRandom kills recording and pressing at random moments.
func TestKilledAtRandom(t *testing.T) {
	nothingBeside(t)
	t.Parallel()
	const seed = 1
	want := kills(t)
	if want == 0 {
		want = 8
	}
	k := &killing{t: t, r: rand.New(rand.NewPCG(seed, 11)), program: theProgram(t), photo: photoFile(t), usual: map[string]time.Duration{}}
	for k.kills < want {
		if k.n%40 == 0 {
			k.newRoom()
		}
		k.n++
		switch k.r.IntN(8) {
		case 0, 1:
			k.jot(false)
		case 2, 3:
			k.jot(true)
		case 4:
			k.clock()
		case 5, 6:
			k.press()
		case 7:
			k.slip()
		}
		if k.kills%100 == 0 {
			t.Logf("so far: %d kills", k.kills)
		}
	}
	t.Logf("seed %d: %d kills in %d runs: %d lost, %d doubled, %d litter, %d half changed", seed, k.kills, k.runs, k.lost, k.doubled, k.litter, k.halves)
}
