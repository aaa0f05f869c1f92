package main

import (
	"fmt"
	"io"
	"os"
	"strings"
	"sync"
	"time"
	"unicode"

	"golang.org/x/term"

	"hembook/internal/press"
	"hembook/internal/say"
	"hembook/internal/words"
)

// A progress rewrites one line on a terminal once work takes longer than half
// a second. Anywhere else it is silent.
type progress struct {
	mu    sync.Mutex
	to    io.Writer // nil where silent
	what  string
	begun time.Time
	last  time.Time
	shown bool
}

func newProgress(to io.Writer, what string) *progress {
	p := &progress{what: what, begun: time.Now()}
	if f, ok := to.(*os.File); ok && term.IsTerminal(int(f.Fd())) {
		p.to = to
	}
	return p
}

// at says how far the work is. It may be called from several goroutines.
func (p *progress) at(done, all int) {
	p.say(func() string { return say.Of("hembook.of", done, all) })
}

// pressed says how far a press is: "3 of 6, Harvest supper dress, 14 pictures made".
func (p *progress) pressed(at press.Progress) {
	p.say(func() string {
		line := say.Of("hembook.of", at.Done, at.All)
		if at.Name != "" {
			line += ", " + shortName(at.Name)
		}
		if at.Pictures > 0 {
			line += say.Of("hembook.made", words.Count(at.Pictures, "picture"))
		}
		return line
	})
}

// shortName is a name that leaves the line room on a terminal, without what would
// move its cursor.
func shortName(name string) string {
	const most = 32
	letters := []rune(strings.Map(func(r rune) rune {
		if unicode.IsPrint(r) {
			return r
		}
		return -1
	}, name))
	if len(letters) > most {
		return string(letters[:most-1]) + "…"
	}
	return string(letters)
}

// say rewrites the line where it is time for it.
func (p *progress) say(line func() string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.to == nil || time.Since(p.begun) < 500*time.Millisecond || time.Since(p.last) < 100*time.Millisecond {
		return
	}
	p.last, p.shown = time.Now(), true
	fmt.Fprintf(p.to, "\r%s %s \x1b[K", p.what, line())
}

// done takes the line away.
func (p *progress) done() {
	if p.shown {
		fmt.Fprint(p.to, "\r\x1b[K")
	}
}
