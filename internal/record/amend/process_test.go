package amend

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"gopkg.in/yaml.v3"
)

// The tests of this file run the test binary again as a writer that is killed
// or competes with others. A writer is told by its environment what to do and
// says each point it passes and each entry that is safely written, a line each.
const (
	writerFolder = "AMEND_TEST_FOLDER"
	writerName   = "AMEND_TEST_NAME"
	writerCount  = "AMEND_TEST_COUNT"   // entries to write
	writerFor    = "AMEND_TEST_FOR"     // or how long to write
	writerDies   = "AMEND_TEST_DIES_AT" // the point at which it kills itself
)

func TestMain(m *testing.M) {
	if os.Getenv(writerFolder) != "" {
		os.Exit(writeEntries())
	}
	os.Exit(m.Run())
}

func writeEntries() int {
	count, _ := strconv.Atoi(os.Getenv(writerCount))
	span, _ := time.ParseDuration(os.Getenv(writerFor))
	name, until := os.Getenv(writerName), time.Now().Add(span)
	f := File{Folder: os.Getenv(writerFolder), Path: "builds/coat/build.yaml", passed: func(point string) {
		fmt.Println("passed", point)
		if point == os.Getenv(writerDies) {
			self, _ := os.FindProcess(os.Getpid())
			self.Kill()
			select {}
		}
	}}
	for i := 0; i < count || span > 0 && time.Now().Before(until); i++ {
		note := fmt.Sprintf("%s-%d", name, i)
		if err := f.Change(jot(note)); err != nil {
			fmt.Fprintln(os.Stderr, err)
			return 1
		}
		fmt.Println("wrote", note)
	}
	return 0
}

// startWriter runs a writer; its lines come from the scanner.
func startWriter(t *testing.T, folder, name string, env ...string) (*exec.Cmd, *bufio.Scanner) {
	t.Helper()
	c := exec.Command(os.Args[0])
	c.Env = append(append(os.Environ(), writerFolder+"="+folder, writerName+"="+name), env...)
	c.Stderr = os.Stderr
	out, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { c.Process.Kill() })
	return c, bufio.NewScanner(out)
}

// notes are the notes of the journal, as the library alone reads them. The
// record's head and tail must be whole.
func notes(t *testing.T, file string) map[string]int {
	t.Helper()
	text := readText(t, file)
	head, tail, _ := strings.Cut(smallRecord, "\n\n")
	if !strings.HasPrefix(text, head+"\n") || !strings.HasSuffix(text, "\n\n"+tail) {
		t.Fatalf("the record is not whole:\n%s", text)
	}
	var data struct {
		Journal []struct{ Note, Did string }
	}
	if err := yaml.Unmarshal([]byte(text), &data); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	out := map[string]int{}
	for _, e := range data.Journal[1:] {
		out[e.Note]++
	}
	return out
}

// TestKilledWriters kills writers with SIGKILL at random points of their work.
// After each kill the record is whole, holds each entry that was reported
// written just once, and at most the one more that was under way.
func TestKilledWriters(t *testing.T) {
	kills := 50
	if *full {
		kills = 1000
	}
	r := rand.New(rand.NewPCG(*seed0, 2))
	var f File
	var file string
	reported, unreported := map[string]bool{}, 0
	for k := range kills {
		if k%25 == 0 {
			f, file = roomWith(t, smallRecord)
			reported, unreported = map[string]bool{}, 0
		}
		c, lines := startWriter(t, f.Folder, fmt.Sprint("k", k), writerCount+"=1000000")
		for n := 1 + r.IntN(40); lines.Scan(); n-- {
			if note, ok := strings.CutPrefix(lines.Text(), "wrote "); ok {
				reported[note] = true
			}
			if n == 0 {
				c.Process.Kill()
			}
		}
		c.Wait()
		if c.ProcessState.Success() {
			t.Fatal("the writer was not killed")
		}
		got := notes(t, file)
		for note := range reported {
			if got[note] != 1 {
				t.Fatalf("seed %d, kill %d: %s is there %d times", *seed0, k, note, got[note])
			}
		}
		if more := len(got) - len(reported); more < unreported || more > unreported+1 {
			t.Fatalf("seed %d, kill %d: %d entries beyond those reported, %d before", *seed0, k, more, unreported)
		} else {
			unreported = more
		}
		for _, o := range others(t, file) {
			if !strings.HasPrefix(o, ".") {
				t.Fatalf("seed %d, kill %d: %s was left in sight", *seed0, k, o)
			}
		}
	}
	if err := f.Change(jot("last")); err != nil {
		t.Fatal(err)
	}
	if o := others(t, file); o != nil {
		t.Errorf("left behind: %v", o)
	}
	t.Logf("%d kills", kills)
}

// TestKilledAtEachPoint kills a writer at each point it passes, one by one.
func TestKilledAtEachPoint(t *testing.T) {
	for _, row := range []struct {
		point   string
		written bool
	}{
		{"read", false},
		{"created", false},
		{"written", false},
		{"synced", false},
		{"ready", false},
		{"compared", false},
		{"exchanged", true},
		{"removed", true},
		{"confirmed", true},
	} {
		f, file := roomWith(t, smallRecord)
		c, lines := startWriter(t, f.Folder, "w", writerCount+"=1", writerDies+"="+row.point)
		last := ""
		for lines.Scan() {
			last = lines.Text()
		}
		c.Wait()
		if last != "passed "+row.point || c.ProcessState.Success() {
			t.Fatalf("%s: the writer ended after %q", row.point, last)
		}
		if got := notes(t, file); (got["w-0"] == 1) != row.written || len(got) > 1 {
			t.Errorf("%s: the journal has %v", row.point, got)
		}
		if err := f.Change(jot("next")); err != nil {
			t.Errorf("%s: %v", row.point, err)
		}
		if o := others(t, file); o != nil || notes(t, file)["next"] != 1 {
			t.Errorf("%s: left behind: %v", row.point, o)
		}
	}
}

// TestEightWritersAtOnce: every entry of eight processes is there once.
func TestEightWritersAtOnce(t *testing.T) {
	work := writerCount + "=12"
	if *full {
		work = writerFor + "=30s"
	}
	f, file := roomWith(t, smallRecord)
	wrote := make(chan []string)
	for w := range 8 {
		c, lines := startWriter(t, f.Folder, fmt.Sprint("w", w), work)
		go func() {
			var all []string
			for lines.Scan() {
				if note, ok := strings.CutPrefix(lines.Text(), "wrote "); ok {
					all = append(all, note)
				}
			}
			if c.Wait() != nil {
				all = nil
			}
			wrote <- all
		}()
	}
	total, fewest := 0, -1
	var all []string
	for range 8 {
		one := <-wrote
		if len(one) == 0 {
			t.Error("a writer failed")
		}
		if total += len(one); fewest < 0 || len(one) < fewest {
			fewest = len(one)
		}
		all = append(all, one...)
	}
	got := notes(t, file)
	for _, note := range all {
		if got[note] != 1 {
			t.Errorf("%s is there %d times", note, got[note])
		}
	}
	if len(got) != total {
		t.Errorf("%d entries, %d were written", len(got), total)
	}
	if o := others(t, file); o != nil {
		t.Errorf("left behind: %v", o)
	}
	t.Logf("%d entries, the slowest writer %d of them, record %d bytes", total, fewest, len(readText(t, filepath.Clean(file))))
}
