package draw

import (
	"fmt"
	"iter"
	"math"
	"math/rand/v2"
	"testing"

	"hembook/internal/drawing"
	"hembook/internal/trade"
)

// TestSectionWordsKeepClear: at its defaults and at random measures that its
// checks allow, no words of a cross-section touch other words, a measured
// distance, a layer, or a thread that is not their own row's.
func TestSectionWordsKeepClear(t *testing.T) {
	for _, typ := range trade.SeamTypes() {
		for given := range lawful(typ, 4000, 12, 3) {
			s, err := typ.Section(given)
			if err != nil {
				t.Fatal(err)
			}
			for _, say := range touching(newSection(s, SectionWords{}.Measure, sectionScale(s, sectionWide, sectionHigh, mostEnlarged))) {
				t.Errorf("%s %v: %s", typ.Name, given, say)
			}
		}
	}
}

// lawful are measures of a type that its checks allow: its defaults, then random ones, as
// many as are wanted where that many are found among so many tries.
func lawful(typ trade.SeamType, tries, wanted int, stream uint64) iter.Seq[trade.Params] {
	return func(yield func(trade.Params) bool) {
		found := 0
		for seed := 0; seed < tries && found < wanted; seed++ {
			given := trade.Params{}
			random := rand.New(rand.NewPCG(uint64(seed), stream))
			for _, m := range typ.Parameters {
				if seed > 0 {
					given[m.Name] = math.Max(1, math.Round(m.Default*math.Pow(4, 2*random.Float64()-1)))
				}
			}
			if broken, err := typ.Broken(given, nil); err != nil || len(broken) > 0 {
				continue
			}
			found++
			if !yield(given) {
				return
			}
		}
	}
}

// touching lists what words touch.
func touching(d *section) []string {
	type word struct {
		what string
		box  drawing.Box
		row  int
	}
	var words []word
	for i, l := range d.rows {
		if l.Words != "" {
			words = append(words, word{"number " + l.Words, boxOf(l, textWide/letters(l.Words)), d.t.Stitches[i].Row})
		}
	}
	for _, m := range d.dims {
		words = append(words, word{m.words.Words, boxOf(m.words, textWide), 0})
	}
	for _, l := range d.names {
		words = append(words, word{l.Words, boxOf(l, smallWide), 0})
	}
	var out []string
	for i, a := range words {
		for _, b := range words[i+1:] {
			if a.box.Left < b.box.Right && b.box.Left < a.box.Right && a.box.Top < b.box.Bottom && b.box.Top < a.box.Bottom {
				out = append(out, fmt.Sprintf("%q touches %q", a.what, b.what))
			}
		}
		for _, s := range d.full.strokes {
			if s != (stroke{}) && (a.row == 0 || a.row != s.row) && s.meets(a.box) {
				out = append(out, fmt.Sprintf("%q touches a line from %.1f %.1f", a.what, s.a.X, s.a.Y))
			}
		}
	}
	return out
}

// TestStrokeMeetsBox: a stroke that passes a box, ends in it or runs by it at
// less than half its width meets it.
func TestStrokeMeetsBox(t *testing.T) {
	box := drawing.Box{Left: 0, Top: 0, Right: 10, Bottom: 4}
	for _, c := range []struct {
		ax, ay, bx, by, half float64
		want                 bool
	}{
		{-5, 2, 15, 2, 0, true}, {-5, 2, -1, 2, 0, false}, {5, -3, 5, 1, 0, true}, {-5, 5, 15, 5, 0.5, false}, {-5, 5, 15, 5, 1.5, true}, {-4, 3, 3, 10, 0, false},
	} {
		s := stroke{a: drawing.Point{X: c.ax, Y: c.ay}, b: drawing.Point{X: c.bx, Y: c.by}, half: c.half}
		if got := s.meets(box); got != c.want {
			t.Errorf("%v: %v", c, got)
		}
	}
}
