package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
	"time"

	"hembook/internal/press"
)

// TestProgressLine: on a terminal the line names the garment and counts, and is
// written over itself; it is not there before half a second is over.
func TestProgressLine(t *testing.T) {
	var out bytes.Buffer
	p := &progress{to: &out, what: "pressing", begun: time.Now()}
	if p.pressed(press.Progress{Done: 0, All: 6, Name: "Slip"}); out.Len() > 0 {
		t.Errorf("at once it says %q", out.String())
	}
	p.begun = p.begun.Add(-time.Hour)
	for _, c := range []struct {
		at   press.Progress
		want string
	}{
		{press.Progress{All: 6}, "\rpressing 0 of 6 \x1b[K"},
		{press.Progress{Done: 2, All: 6, Name: "Slip"}, "\rpressing 2 of 6, Slip \x1b[K"},
		{press.Progress{Done: 2, All: 6, Name: "Slip", Pictures: 1}, "\rpressing 2 of 6, Slip, 1 picture made \x1b[K"},
		{press.Progress{Done: 3, All: 6, Name: "Sl\x1b\nip", Pictures: 14}, "\rpressing 3 of 6, Slip, 14 pictures made \x1b[K"},
		{press.Progress{Done: 3, All: 6, Name: "A very long name of a garment that would need two lines"}, "\rpressing 3 of 6, A very long name of a garment t… \x1b[K"},
	} {
		out.Reset()
		p.last = time.Time{}
		if p.pressed(c.at); out.String() != c.want {
			t.Errorf("%+v: %q, want %q", c.at, out.String(), c.want)
		}
	}
	p.last = time.Time{}
	out.Reset()
	if p.at(7, 9); out.String() != "\rpressing 7 of 9 \x1b[K" {
		t.Errorf("of a plain count: %q", out.String())
	}
	out.Reset()
	if p.done(); out.String() != "\r\x1b[K" {
		t.Errorf("at the end: %q", out.String())
	}
}

// TestProgressInAPipe: what is no terminal is told nothing, however long it takes.
func TestProgressInAPipe(t *testing.T) {
	name := filepath.Join(t.TempDir(), "said")
	f, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	p := newProgress(f, "pressing")
	p.begun = p.begun.Add(-time.Hour)
	p.pressed(press.Progress{Done: 3, All: 6, Name: "Slip"})
	p.done()
	if said, err := os.ReadFile(name); err != nil || len(said) > 0 {
		t.Errorf("a file has %q (%v)", said, err)
	}
}
