package draw

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hembook/internal/trade"
)

// TestDrawPhases writes how every seam and finish grows into a page in the folder that
// DRAW_SECTIONS names, to be looked at; without it there is nothing to do.
func TestDrawPhases(t *testing.T) {
	dir := os.Getenv("DRAW_SECTIONS")
	if dir == "" {
		t.Skip("DRAW_SECTIONS names no folder to draw into")
	}
	css, err := os.ReadFile("../../themes/plainweave/look/5-drawings.css")
	if err != nil {
		t.Fatal(err)
	}
	ground, err := os.ReadFile("../../themes/plainweave/look/1-ground.css")
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	fmt.Fprintf(&b, "<!doctype html><meta charset=utf-8><style>%s%s ol{display:flex;flex-wrap:wrap;gap:1rem}</style>", ground, css)
	for _, typ := range trade.SeamTypes() {
		list, err := typ.Phases(nil)
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&b, "<h3>%s</h3><ol class=passes>", typ.Title)
		for i, d := range Phases(list, func(int) SectionWords { return SectionWords{} }) {
			fmt.Fprintf(&b, "<li>%s pass %d then %v whole %v", d.SVG(nil), list[i].Pass, list[i].Then, list[i].Whole)
		}
		b.WriteString("</ol>")
	}
	if err := os.WriteFile(filepath.Join(dir, "phases.html"), []byte(b.String()), 0o644); err != nil {
		t.Fatal(err)
	}
}

// TestPhaseWordsKeepClear: no words of a phase touch other words, a measured distance, a
// ply, or a thread that is not their own row's.
func TestPhaseWordsKeepClear(t *testing.T) {
	for _, typ := range trade.SeamTypes() {
		for given := range lawful(typ, 2000, 6, 5) {
			list, err := typ.Phases(given)
			if err != nil {
				t.Fatal(err)
			}
			for i := range list[:len(list)-1] { // the last is drawn larger
				s := list[i].Section
				k := sectionScale(s, phaseWide, phaseHigh, mostEnlarged)
				for _, say := range touching(newSection(taller(s, k), SectionWords{}.Measure, k)) {
					t.Errorf("%s %v, phase %d: %s", typ.Name, given, i, say)
				}
			}
		}
	}
}
