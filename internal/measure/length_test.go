package measure

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestFromMM(t *testing.T) {
	rows := []struct {
		mm   float64
		want Length
		ok   bool
	}{
		{15, 15 * Millimetre, true},
		{15.875, 5 * Inch / 8, true},
		{-0.1, -100 * Micrometre, true},
		{0.0000005, 1, true},
		{-0.0000005, -1, true},
		{0.0000004, 0, true},
		{math.NaN(), 0, false},
		{math.Inf(1), 0, false},
		{math.Inf(-1), 0, false},
		{1e13, 0, false},
		{-1e13, 0, false},
	}
	for _, row := range rows {
		got, ok := fromMM(row.mm)
		if got != row.want || ok != row.ok || MM(row.mm) != row.want {
			t.Errorf("%v mm: got %d nm, %v, want %d nm, %v", row.mm, got, ok, row.want, row.ok)
		}
	}
}

func TestMMThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Length(rapid.Int64Range(-1e15, 1e15).Draw(t, "nm")) // 1000 km
		if got := MM(l.MM()); got != l {
			t.Fatalf("got %d nm, want %d nm", got, l)
		}
	})
}

func TestRound(t *testing.T) {
	rows := []struct{ l, step, want Length }{
		{14, 10, 10},
		{15, 10, 20},
		{-14, 10, -10},
		{-15, 10, -20},
		{0, 10, 0},
		{7, 0, 7},
		{7, -3, 7},
		{math.MinInt64, 1, math.MinInt64},
		{math.MaxInt64, 10, math.MaxInt64},
		{math.MaxInt64, math.MaxInt64, math.MaxInt64},
	}
	for _, row := range rows {
		if got := row.l.Round(row.step); got != row.want {
			t.Errorf("%d to %d: got %d, want %d", row.l, row.step, got, row.want)
		}
	}
	if got := Length(math.MinInt64).Abs(); got != math.MaxInt64 {
		t.Errorf("lowest length without its sign: got %d", got)
	}
}

func TestInches(t *testing.T) {
	rows := []struct {
		l    Length
		text string
		off  Length
	}{
		{0, "0 in", 0},
		{5 * Inch / 8, "5/8 in", 0},
		{24*Inch + 5*Inch/8, "24 5/8 in", 0},
		{-Inch / 4, "−1/4 in", 0},
		{Inch / 32, "1/16 in", Inch / 32}, // a tie goes away from zero
		{-Inch / 32, "−1/16 in", -Inch / 32},
		{Inch/32 - 1, "0 in", -(Inch/32 - 1)},
		{15 * Millimetre, "9/16 in", -712_500}, // 14.2875 mm, by hand
		{1000 * Millimetre, "39 3/8 in", 125_000},
		{300_000 * Inch, "300\u202f000 in", 0},
	}
	for _, row := range rows {
		text, off := Inches(row.l)
		if text != row.text || off != row.off {
			t.Errorf("%v: got %q off %d nm, want %q off %d nm", row.l, text, off, row.text, row.off)
		}
	}
}

func TestInchesReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Length(rapid.Int64Range(-9e14, 9e14).Draw(t, "nm"))
		text, off := Inches(l)
		got, err := ParseSigned(text, NoUnit)
		if err != nil || got != l+off || off.Abs() > Inch/32 {
			t.Fatalf("%v printed %q, read %v, %v, off %v", l, text, got, err, off)
		}
	})
}

func TestLengthIn(t *testing.T) {
	if got := (25400 * Micrometre).In(UnitIn); got != (Quantity{1, UnitIn}) {
		t.Errorf("got %v, want 1 in", got)
	}
	if l, ok := (Quantity{2, UnitYd}).Length(); !ok || l != 2*Yard {
		t.Errorf("got %v, %v, want 2 yd", l, ok)
	}
	if _, ok := (Quantity{2, UnitG}).Length(); ok {
		t.Error("2 g is no length")
	}
}
