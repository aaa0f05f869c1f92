package draft_test

import (
	"math"
	"strings"
	"testing"

	"hembook/internal/draft"
	"hembook/internal/trade"
)

// TestSizes: a size of a published table is what the table says, in millimetres; each
// table is whole, grows from size to size, and stays within what was measured of people.
func TestSizes(t *testing.T) {
	// ASTM D5585-11e1, table 1: size 12, straight, has a bust of 38 3/4 in and a waist of 32 1/4 in
	table, column, err := draft.SizeNamed("misses 12")
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]float64{"bust": 38.75 * 25.4, "waist": 32.25 * 25.4} {
		if got, ok := table.Of(name, column); !ok || math.Abs(got-want) > 0.01 {
			t.Errorf("%s %.2f, want %.2f", name, got, want)
		}
	}
	if _, ok := table.Of("hip", column); ok {
		t.Error("the table has no hip")
	}
	for _, table := range draft.SizeTables() {
		for name, list := range table.Measures {
			if len(list) != len(table.Sizes) {
				t.Errorf("%s: %s has %d of %d sizes", table.Name, name, len(list), len(table.Sizes))
			}
			before := 0.0
			for i := range list {
				mm, _ := table.Of(name, i)
				if mm < before {
					t.Errorf("%s: %s shrinks at %s", table.Name, name, table.Sizes[i])
				}
				if level, _ := trade.Plausible(name, mm, trade.Anyone); level == trade.Wrong {
					t.Errorf("%s: nobody has a %s of %.0f mm", table.Name, name, mm)
				}
				before = mm
			}
		}
	}
}

// TestSizeRefused are sizes that no table has, and what is said to them.
func TestSizeRefused(t *testing.T) {
	for said, want := range map[string]string{
		"mises 12":  `there is no size table called "mises"` + "\n    did you mean \"misses\"?",
		"misses 11": `misses has no size "11"` + "\n    as misses 10; it has 00, 0,",
		"women":     `women has no size ""`,
	} {
		if _, _, err := draft.SizeNamed(said); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%s: %v", said, err)
		}
	}
}

// TestTape: the drawing for the waist has its tape in the narrowest row of the body, between
// that of the bust and that of the hip, and a length hangs down several rows.
func TestTape(t *testing.T) {
	row := func(name string) int {
		for i, line := range strings.Split(draft.Tape(name), "\n") {
			if strings.Contains(line, "<- "+name) {
				return i
			}
		}
		t.Fatalf("no tape for %s", name)
		return 0
	}
	if !(row("head") < row("neck") && row("neck") < row("bust") && row("bust") < row("waist") && row("waist") < row("hip")) {
		t.Error("the tapes do not follow each other down the body")
	}
	if n := strings.Count(draft.Tape("inside leg"), "#"); n != 5 {
		t.Errorf("the inside leg is %d rows long", n)
	}
	if draft.Tape("length") != "" {
		t.Error("a length that is chosen has no tape")
	}
}
