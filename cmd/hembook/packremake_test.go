package main

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hembook/internal/derive"
	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/record"
)

// restsOn reports whether a figure rests on what another workroom is not given: money,
// the wearer's body, hours of other garments.
func restsOn(f *figure.Figure) bool {
	for _, of := range []string{"cost.", "fit.", "technique."} {
		if strings.HasPrefix(f.ID, of) {
			return true
		}
	}
	return false
}

// readBack is by how much a figure may differ, in its own unit, where outlines were
// written into a pattern file and read again.
const readBack = 0.002

// TestMadeAgainIsTheSame: the workroom that goes with a packet opens elsewhere without a
// fault, and every figure of the garment made again from it equals the first.
func TestMadeAgainIsTheSame(t *testing.T) {
	for _, build := range demoBuilds(t) {
		on, err := (&options{room: "../.."}).openBuild(build)
		if err != nil || fault.HasErrors(on.faults) {
			t.Fatal(err, on.faults)
		}
		first := on.tailor.Derive(on.build)
		dir := t.TempDir()
		write := func(name string, text []byte) {
			full := filepath.Join(dir, filepath.FromSlash(name))
			if err := os.MkdirAll(filepath.Dir(full), 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(full, text, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		for _, f := range on.room.Share(on.build, redraw(on.tailor, on.build)) {
			write(f.Path, f.Text)
			if strings.Contains(string(f.Text), "address:") || strings.Contains(string(f.Text), "wearer:") || strings.Contains(string(f.Text), "price:") {
				t.Errorf("%s: %s holds what is private", build, f.Path)
			}
		}
		for _, p := range on.room.Photographs(on.build) {
			text, err := os.ReadFile(filepath.Join("../..", p))
			if err != nil {
				t.Fatal(err)
			}
			write(p, text)
		}
		on.room.Close()
		room, faults, err := record.Open(dir)
		if err != nil || fault.HasErrors(faults) || len(room.Builds) != 1 {
			t.Fatal(build, err, faults)
		}
		tailor, more := derive.NewTailor(room)
		b, own := room.ReadBuild(room.Builds[0])
		if fault.HasErrors(append(more, own...)) {
			t.Fatal(build, more, own)
		}
		again := map[string]figure.Value{}
		for _, f := range tailor.Derive(b).Figures() {
			again[f.ID] = f.Value
		}
		room.Close()
		same, held := 0, map[string]bool{}
		for _, f := range first.Figures() {
			if restsOn(&f) {
				continue
			}
			if now, ok := again[f.ID]; !ok || now.Known() != f.Value.Known() || now.Unit != f.Value.Unit || now.Known() && math.Abs(now.Number-f.Value.Number) > readBack {
				t.Errorf("%s: %s was %v and is %v", build, f.ID, f.Value, now)
			}
			same++
			held[f.ID] = f.Value.Known()
		}
		// whatever it is for, a garment has pieces, and each has its areas and the lengths of its edges;
		// only what came to be mended may have none
		if len(first.Pieces) == 0 && build != "rowers-jersey" {
			t.Errorf("%s: no pieces", build)
		}
		for _, p := range first.Pieces {
			own := []figure.Figure{p.Area, p.CutArea, p.Allowance, p.Share}
			if len(p.Edges) < 1 {
				t.Errorf("%s: %s has no edges", build, p.Name)
			}
			for i := range p.Edges {
				own = append(own, p.Edges[i].Length)
			}
			for _, f := range own {
				if !held[f.ID] {
					t.Errorf("%s: %s of %s is not held against the first", build, f.ID, p.Name)
				}
			}
		}
		t.Logf("%s: %d figures", build, same)
	}
}
