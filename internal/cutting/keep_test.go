package cutting

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/record"
)

var cutDay = record.Day{Year: 2026, Month: 8, Day: 14}

const clothFile = "content/cloth/linen.yaml"

func (b *bench) text(name string) string {
	b.t.Helper()
	text, err := os.ReadFile(filepath.Join(b.dir, filepath.FromSlash(name)))
	if err != nil {
		b.t.Fatal(err)
	}
	return string(text)
}

// TestKeep: remnants are added to the cloth's record, which otherwise stays
// as it was, byte for byte, and can be read; the second time adds nothing.
func TestKeep(t *testing.T) {
	for _, c := range []struct{ name, cloth string }{
		{"none yet", "width: 1000   # measured twice\n"},
		{"one already", "width: 1000\nremnants:\n  # from the coat\n  corner: [[0, 0], [100, 0], [0, 90]]\n"},
		{"one in another style", "width: 1000\nremnants:\n    \"corner\":\n        outline: [[0, 0], [100, 0], [0, 90]]\n"},
	} {
		b := benchWith(t, c.cloth, rectangles("1", "[600, 1000]"))
		before := b.text(clothFile)
		cut := b.cut()
		kept, err := Keep(b.room, cut.Garment.Build, cut.Lays[0], cutDay)
		if err != nil || len(kept.Remnants) != 1 || kept.Remnants[0] != "test shell 1" || kept.Cut != "1050" {
			t.Fatalf("%s: %v %v", c.name, kept, err)
		}
		after := b.text(clothFile)
		if !strings.HasPrefix(after, before) {
			t.Errorf("%s: more was changed:\n%s", c.name, after)
		}
		cut = b.cut() // the reader faults nothing
		cloth := cut.Lays[0].Cloth.Cloth
		last := cloth.Remnants[len(cloth.Remnants)-1]
		if last.Name.V != "test shell 1" || len(last.Outline) != len(cut.Lays[0].Left[0].Outline) {
			t.Errorf("%s: read back: %+v", c.name, last)
		}
		for i, q := range cut.Lays[0].Left[0].Outline {
			if got := last.Outline[i].V; got != (record.XY{X: q.X, Y: q.Y}) {
				t.Errorf("%s: corner %d is %v, want %v", c.name, i, got, q)
			}
		}
		if kept, err = Keep(b.room, cut.Garment.Build, cut.Lays[0], cutDay); err != nil || len(kept.Remnants) != 0 || kept.Cut != "" {
			t.Errorf("%s: the second time: %v %v", c.name, kept, err)
		}
		if b.text(clothFile) != after {
			t.Errorf("%s: the second time changes the file", c.name)
		}
	}
}

// TestNoughtHasNoSign: a corner a hair before the edge of the cloth lies on it.
func TestNoughtHasNoSign(t *testing.T) {
	if got := written(tenth(-0.01), measure.UnitMM); got != "0" {
		t.Errorf("written as %s", got)
	}
}

// TestKeepInInches: where a bare length is an inch, millimetres are named.
func TestKeepInInches(t *testing.T) {
	b := benchWith(t, "width: 1000 mm\n", "units: mm\n"+rectangles("1", "[600, 1000]"))
	b.file("content/workroom.yaml", "name: Test\nunits: in\n")
	cut := b.cut()
	if _, err := Keep(b.room, cut.Garment.Build, cut.Lays[0], cutDay); err != nil {
		t.Fatal(err)
	}
	want := cut.Lays[0].Left[0].Outline
	got := b.cut().Lays[0].Cloth.Cloth.Remnants[0].Outline
	for i := range want {
		if got[i].V != (record.XY{X: want[i].X, Y: want[i].Y}) {
			t.Errorf("corner %d is %v, want %v", i, got[i].V, want[i])
		}
	}
}

// TestKeepNothing: what was not cut leaves nothing.
func TestKeepNothing(t *testing.T) {
	b := benchWith(t, "width: 500\n", rectangles("1", "[600, 1000]"))
	before := b.text(clothFile)
	cut := b.cut()
	if kept, err := Keep(b.room, cut.Garment.Build, cut.Lays[0], cutDay); err == nil || len(kept.Remnants) > 0 {
		t.Errorf("%v %v", kept, err)
	}
	cut.Lays[0].Stopped = true
	if b.text(clothFile) != before {
		t.Error("the file was changed")
	}
}

// TestKeepFromFolded: beside a pair of 300 on folded cloth of 500 a strip of
// 200 is left in each layer; what lies on the fold is one remnant.
func TestKeepFromFolded(t *testing.T) {
	b := benchWith(t, "width: 1000\n", "")
	b.file("content/builds/test/build.yaml", "name: Test\ngarment: dress\nstate: cutting\ncloth: {shell: {use: linen, fold: folded}}\n"+rectangles("2", "[300, 400]"))
	cut := b.cut()
	l := cut.Lays[0]
	if len(l.Left) != 1 {
		t.Fatalf("%d remnants", len(l.Left))
	}
	want := 1
	if l.Left[0].Folded {
		want = 2
	}
	kept, err := Keep(b.room, cut.Garment.Build, l, cutDay)
	if err != nil || len(kept.Remnants) != want {
		t.Errorf("%v %v", kept, err)
	}
	if whole := l.Left[0].Area.Value.Number * float64(want); whole > 1600 || whole < 1450 {
		t.Errorf("%v cm² are left in both layers", whole) // 2 × 200 × 400 less a little
	}
}

// TestKeepDrawsDown: of 3 m a lay of 1000 that shrinks by 4 %, with 25
// straightened at both ends, takes 1041.67 + 50, in whole millimetres; once only.
// Of what was counted without a day it is taken off, and after it of what came; the
// lay itself is held against the shelf no longer.
func TestKeepDrawsDown(t *testing.T) {
	for _, c := range []struct {
		cloth string
		left  float64
	}{
		{"width: 1000\nshrink: {along: 4}\non-hand: 3 m   # measured in May\n", 1908},
		{"width: 1000\nshrink: {along: 4}\non-hand: {length: 3 m, day: 2026-08-14}\n", 3000}, // counted after the cut
		{"width: 1000\nshrink: {along: 4}\non-hand: {length: 3 m, day: 2026-08-13}\ncame: {2026-09-01: 1 m}\n", 2908},
		{"width: 1000\nshrink: {along: 4}\ncame: {2026-07-20: 2 m, 2026-09-01: 1 m}\n", 1908},
	} {
		b := benchWith(t, c.cloth, rectangles("1", "[600, 1000]"))
		for _, want := range []string{"1092", ""} {
			cut := b.cut()
			kept, err := Keep(b.room, cut.Garment.Build, cut.Lays[0], cutDay)
			if err != nil || kept.Cut != want {
				t.Errorf("%q was cut off, want %q: %v", kept.Cut, want, err)
			}
		}
		if text := b.text(clothFile); !strings.HasPrefix(text, "name: Linen") || !strings.Contains(text, c.cloth) || !strings.Contains(text, "cut:\n  test shell:\n    length: 1092\n    day: 2026-08-14\n") {
			t.Errorf("the file:\n%s", text)
		}
		l := b.cut().Lays[0]
		if got := garment.OnShelfOf(new(figure.Pad), l.Cloth.Cloth).MM(); got != c.left {
			t.Errorf("%s: %v mm are left, want %v", c.cloth, got, c.left)
		}
		if l.OnHand.ID != "" || !l.Enough {
			t.Errorf("held against the shelf: %v", l.OnHand.Value)
		}
	}
}

// TestCutLongAgo: a build that is sewn is not held against what is on the shelf today.
func TestCutLongAgo(t *testing.T) {
	b := benchWith(t, "width: 1000\non-hand: 10 cm\n", "")
	for state, cut := range map[string]bool{"cutting": false, "sewing": true, "sent": true} {
		b.file("content/builds/test/build.yaml", "name: Test\ngarment: dress\nstate: "+state+"\ncloth: {shell: linen}\n"+rectangles("2", "[300, 400]"))
		cutting := b.cut()
		short := cutting.Short() // 400 of length and 50 of straightening, of 100
		if told := len(short) == 1 && short[0].Message == "shell: the shelf has 350 mm less than the lay needs"; told == cut || len(short) > 1 {
			t.Errorf("%s: %v", state, short)
		}
		l := cutting.Lays[0]
		if (l.OnHand.ID == "") != cut || l.Enough != cut {
			t.Errorf("%s: %v, enough %v", state, l.OnHand.Value, l.Enough)
		}
	}
}
