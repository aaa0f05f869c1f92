package bench

import (
	"crypto/rand"
	"encoding/json"
	"fmt"
	"slices"
	"sync"

	"hembook/internal/fault"
	"hembook/internal/say"
)

// A board tells every open page how the last press went. It holds the present
// state alone: whoever comes late or reads slowly is told that, and nothing
// piles up for anyone.
type board struct {
	mu      sync.Mutex
	run     string // tells this preview from one before it at the same address
	count   int
	pressed bool // there are pages to show
	state   []byte
	changed chan struct{} // closed when the state changes
}

// A state is what an open page is told.
type state struct {
	Version string        `json:"version"`
	Heading string        `json:"heading"` // empty where nothing is wrong
	Faults  []fault.Fault `json:"faults"`
	More    string        `json:"more"`
}

// mostShown bounds the faults on a page; the terminal has them all.
const mostShown = 40

func newBoard() *board {
	b := &board{run: rand.Text()[:8], changed: make(chan struct{})}
	b.state = b.stateOf(Pressed{})
	return b
}

// post tells of a press.
func (b *board) post(p Pressed) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if p.good() && (p.Changed || !b.pressed) {
		b.count++
	}
	b.pressed = b.pressed || p.good()
	b.state = b.stateOf(p)
	close(b.changed)
	b.changed = make(chan struct{})
}

// read returns the state and what is closed once it is another.
func (b *board) read() ([]byte, <-chan struct{}) {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.state, b.changed
}

// version names the pages as they are now, for the page that is loaded.
func (b *board) version() string {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.versionLocked()
}

func (b *board) versionLocked() string { return fmt.Sprintf("%s-%d", b.run, b.count) }

func (b *board) stateOf(p Pressed) []byte {
	s := state{Version: b.versionLocked(), Faults: []fault.Fault{}}
	if !p.good() {
		s.Faults = slices.DeleteFunc(slices.Clone(p.Faults), func(f fault.Fault) bool { return f.Severity != fault.Error })
		s.Heading = heading(len(s.Faults), b.pressed)
		if n := len(s.Faults) - mostShown; n > 0 {
			s.Faults, s.More = s.Faults[:mostShown], say.Of("bench.and-more-in-the-terminal", n)
		}
		if p.Err != nil {
			s.Faults = append([]fault.Fault{{Severity: fault.Error, Message: p.Err.Error()}}, s.Faults...)
		}
		if s.Faults == nil {
			s.Faults = []fault.Fault{}
		}
	}
	text, err := json.Marshal(s)
	if err != nil {
		panic(err) // plain words alone
	}
	return text
}

func heading(errors int, pressed bool) string {
	head := say.Of("bench.the-notebook-could-not-be-pressed")
	switch {
	case errors == 1:
		head = say.Of("bench.1-thing-wrong-in-the-records")
	case errors > 1:
		head = say.Of("bench.things-wrong-in-the-records", errors)
	}
	if pressed {
		return say.Of("bench.this-page-is-as-it-was-before", head)
	}
	return head
}
