package main

import (
	"fmt"
	"io"
	"os"
	"sync"
	"time"

	"golang.org/x/term"
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
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.to == nil || time.Since(p.begun) < 500*time.Millisecond || time.Since(p.last) < 100*time.Millisecond {
		return
	}
	p.last, p.shown = time.Now(), true
	fmt.Fprintf(p.to, "\r%s %d of %d \x1b[K", p.what, done, all)
}

// done takes the line away.
func (p *progress) done() {
	if p.shown {
		fmt.Fprint(p.to, "\r\x1b[K")
	}
}
