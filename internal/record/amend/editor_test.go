//go:build linux

package amend

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"golang.org/x/sys/unix"
)

// An editor saves a record over and over while entries are written into it,
// each time with one line more. It is a careful one: it makes sure that it
// replaces nothing but what it has read, so whatever is lost is lost by us.
type editor struct {
	t    *testing.T
	file string
	r    *rand.Rand
}

func (e *editor) pause(most time.Duration) { time.Sleep(time.Duration(e.r.Int64N(int64(most)))) }

// byRename writes a file beside the record and exchanges the two, as often as
// need be until what came out is what was read.
func (e *editor) byRename(line string) {
	beside := e.file + "~"
	exchange := func() {
		if err := unix.Renameat2(unix.AT_FDCWD, beside, unix.AT_FDCWD, e.file, unix.RENAME_EXCHANGE); err != nil {
			e.t.Error(err)
		}
	}
	for {
		had := readText(e.t, e.file)
		if had == "" {
			continue
		}
		text := had + line
		e.pause(3 * time.Millisecond)
		writeText(e.t, beside, text)
		exchange()
		if readText(e.t, beside) == had {
			return
		}
		exchange()
		if newer := readText(e.t, beside); newer != text { // changed by us within these microseconds
			exchange()
			writeText(e.t, fmt.Sprintf("%s.theirs-%d", e.file, e.r.Int()), readText(e.t, beside))
			if strings.Contains(newer, line) {
				return
			}
		}
	}
}

// inPlace opens the record, empties it and writes it bit by bit.
func (e *editor) inPlace(line string) {
	file, err := os.OpenFile(e.file, os.O_RDWR, 0)
	if err != nil {
		e.t.Error(err)
		return
	}
	defer file.Close()
	text := []byte(readOpen(e.t, file) + line)
	e.pause(time.Millisecond)
	file.Truncate(0)
	e.pause(time.Millisecond)
	for at := 0; at < len(text); {
		n := min(len(text)-at, 1+e.r.IntN(len(text)))
		file.WriteAt(text[at:at+n], int64(at))
		at += n
		e.pause(time.Millisecond)
	}
}

func readOpen(t *testing.T, file *os.File) string {
	info, err := file.Stat()
	if err != nil {
		t.Error(err)
	}
	text := make([]byte, info.Size())
	file.ReadAt(text, 0)
	return string(text)
}

// TestSavesAndEntries: of an editor's saves and our entries none is lost and
// none is there twice.
func TestSavesAndEntries(t *testing.T) {
	count := 40
	if *full {
		count = 1000
	}
	for name, c := range map[string]struct {
		save  func(*editor, string)
		plain bool // on a file system that exchanges no names
		blind bool // where a rename in one moment cannot be seen
	}{
		"by rename":                   {(*editor).byRename, false, false},
		"in place":                    {(*editor).inPlace, false, false},
		"by rename, without exchange": {(*editor).byRename, true, true},
		"in place, without exchange":  {(*editor).inPlace, true, false},
	} {
		t.Run(name, func(t *testing.T) {
			f, file := roomWith(t, smallRecord)
			f.plain = c.plain
			e := &editor{t, file, rand.New(rand.NewPCG(*seed0, 7))}
			saved := make(chan bool)
			go func() {
				defer close(saved)
				for k := range count {
					e.pause(4 * time.Millisecond)
					c.save(e, fmt.Sprintf("# save %d.\n", k))
				}
			}()
			apart := 0
			for k := range count {
				switch err := f.Change(jot(fmt.Sprintf("entry %d.", k))).(type) {
				case nil:
				case *Conflict:
					apart++
				default:
					t.Errorf("entry %d: %v", k, err)
				}
			}
			<-saved
			record, all := readText(t, file), ""
			kept, _ := filepath.Glob(file + ".*")
			for _, k := range kept {
				all += readText(t, k)
			}
			lost := 0
			for k := range count {
				for _, line := range []string{fmt.Sprintf("note: entry %d.}\n", k), fmt.Sprintf("# save %d.\n", k)} {
					switch n := strings.Count(record, line); {
					case n > 1:
						t.Errorf("%q is there %d times", line, n)
					case n == 0 && !strings.Contains(all, line):
						lost++
						// the one case that replace cannot see: another program's rename within
						// the microseconds between the last look and ours
						if mostUnseen := 1 + count/500; !c.blind || lost > mostUnseen {
							t.Errorf("%q is lost", line)
						}
					}
				}
			}
			t.Logf("%d saves and %d entries: %d lost, %d conflicts told, %d versions kept beside", count, count, lost, apart, len(kept))
		})
	}
}
