package reckon

import (
	"math"
	"slices"
	"testing"
)

// A trial is a sum beside the value that its figure has.
type trial struct {
	sum    string
	number float64
	unit   string
	kinds  []Kind // what is to be found; none for a true sum
}

// trueSums are reckoned by hand.
var trueSums = []trial{
	{"212 mm × 2 + 240 mm × 2 = 0.904 m", 0.904, "m", nil},
	{"front.hem 212 mm × 2 + back.hem 240 mm × 2 = 904 mm = 0.904 m", 0.904, "m", nil},
	{"waist 700 mm ÷ (2π × 1) = 111.408 mm", 700 / (2 * math.Pi), "mm", nil},
	{"700 mm ÷ 2π = 111.408 mm", 700 / (2 * math.Pi), "mm", nil},
	{"2π × 0.75 × (148.545 mm + 740 mm) = 4187.17 mm", 4187.17, "mm", nil},
	{"√((16 mm ÷ 2)² + (95 mm)²) = 95.336 mm", 95.33624704, "mm", nil},
	{"√(940 mm × 30 mm) = 167.929 mm", 167.92855623, "mm", nil},
	{"640 mm × 900 mm − 600 mm × 800 mm = 960 cm²", 960, "cm²", nil},
	{"640 mm × 900 mm − 600 mm × 800 mm = 96\u202f000 mm² = 0.096 m²", 0.096, "m²", nil},
	{"496.16 cm² ÷ 3041.09 cm² = 16.315 %", 16.315180157, "%", nil},
	{"1450 mm × (1 − 2 %) − 2 × 12 mm = 1397 mm", 1397, "mm", nil},
	{"1.5118 m² × 290 g/m² = 438.42 g", 438.42, "g", nil},
	{"30.083 m ÷ 150 m × 6.8 g = 1.364 g", 1.36376, "g", nil},
	{"34.595 m ÷ 150 m = 0.231, rounded up to 1", 1, "", nil},
	{"1046 min × 28.00 EUR/h = 488.13 EUR", 488.13, "EUR", nil},
	{"17 h 26 min × 28.00 EUR/h = 488.13 EUR", 488.13, "EUR", nil},
	{"45.03 EUR + 14.81 EUR + 0.16 EUR = 60.00 EUR", 60, "EUR", nil},
	{"420.00 EUR − 535.66 EUR = −115.66 EUR", -115.66, "EUR", nil},
	{"min(765.979 mm, 765.972 mm) = 765.972 mm", 765.97237, "mm", nil},
	{"max(0 mm, 15 mm − 9 mm) = 6 mm", 6, "mm", nil},
	{"5 1/16 in + 3 1/2 in = 8 9/16 in", 8.5625, "in", nil},
	{"2 yd 13 1/16 in − 1 yd = 1 yd 13 1/16 in", 49.0625, "in", nil},
	{"75 min ÷ 9 pieces = 8.333 min/piece", 75.0 / 9, "min/piece", nil},
	{"80 min ÷ 0.15 m = 533.333 min/m", 533.3333333, "min/m", nil},
	{"200 mm × sin(30°) = 100 mm", 100, "mm", nil},
	{"skirt 2 hem (lower) 212 mm × 3 = 636 mm", 636, "mm", nil},
	{"91.4° + 91.7° − 180° = 3.1°", 3.1, "°", nil},
	{"|40.3 mm − 41.1 mm| = 0.8 mm", 0.8, "mm", nil},
	{"6 mm ≤ 9 mm", 6, "mm", nil},
	{"160 mm", 160, "mm", nil},
	{"12\u202f500 mm + 500 mm = 13 m", 13, "m", nil},
	{"min(20 min, 1 h) + 10 min = 30 min", 30, "min", nil},
	{"2400 mm + 25 mm × 2, up to the next 100 mm = 2500 mm", 2500, "mm", nil},
	{"(130 mm ÷ 20 mm, to the nearest 1) + 1 = 8", 8, "", nil},
	{"696 mm + 13 × 4176.92 mm ÷ 15, less whole turns of 4176.92 mm = 139.08 mm", 139.0773, "mm", nil},
	{"least of (765.979 mm, 765.972 mm) = 765.972 mm", 765.97237, "mm", nil},
	{"greatest of (0 mm, 15 mm − 9 mm) = 6 mm", 6, "mm", nil},
	// a quarter of a circle of 100 mm is 157.080 mm; the cubic that is usually
	// drawn for it (0.55228, from memory) lies up to 0.03 % outside
	{"along the curve (100, 0) (100, 55.228) (55.228, 100) (0, 100) mm = 157.101 mm", 157.1011, "mm", nil},
	{"along the curve (0, 0) (1, 0) (2, 0) (3, 0) in = 3 in", 3, "in", nil},
	{"(15.04 m + 15.04 m) × (1 + 15 %) = 34.59 m", 34.592, "m", nil},
	{"front.bone 1: 2 + front.bone 2: 3 = 5", 5, "", nil},
	{"along apron.bib, further on 25 mm − along apron.bib 15 mm = 10 mm", 10, "mm", nil},
	{"along a.bib, further on and on 25 mm − along a.bib 15 mm = 10 mm", 10, "mm", nil},
}

// falseSums are the true ones with one thing wrong each.
var falseSums = []trial{
	{"212 × 2 + 240 × 2 = 0.904 m", 0.904, "m", []Kind{UnitsMissing}},
	{"212 mm × 2 + 240 mm × 2 = 0.94 m", 0.904, "m", []Kind{False, OtherValue}},
	{"212 mm × 2 + 240 mm = 0.904 m", 0.904, "m", []Kind{False}},
	{"212 mm × 2 + 240 mm × 2 = 904 m", 0.904, "m", []Kind{False, OtherValue}},
	{"700 mm ÷ (2π × 0.75) = 111.408 mm", 700 / (2 * math.Pi), "mm", []Kind{False}},
	{"2π × 0.75 × 148.545 mm + 740 mm = 4187.17 mm", 4187.17, "mm", []Kind{False}},
	{"√(16 mm ÷ 2)² + (95 mm)² = 95.336 mm", 95.33624704, "mm", []Kind{UnitsMixed}},
	{"√(940 mm × 30 mm) = 167.929 mm²", 167.92855623, "mm", []Kind{UnitsMixed}},
	{"640 mm × 900 mm + 600 mm × 800 mm = 960 cm²", 960, "cm²", []Kind{False}},
	{"640 mm × 900 mm − 600 mm × 800 mm = 960 mm²", 960, "cm²", []Kind{False, OtherValue}},
	{"496.16 cm² ÷ 3041.09 cm² = 0.163 %", 16.315180157, "%", []Kind{False, OtherValue}},
	{"1450 mm × (1 − 2) − 2 × 12 mm = 1397 mm", 1397, "mm", []Kind{False}},
	{"1450 mm × (1 − 2 %) − 2 × 12 = 1397 mm", 1397, "mm", []Kind{UnitsMissing}},
	{"1.5118 m² × 290 g = 438.42 g", 438.42, "g", []Kind{UnitsMixed}},
	{"1.5118 m² + 290 g = 438.42 g", 438.42, "g", []Kind{UnitsMixed}},
	{"30.083 m ÷ 150 m × 6.8 g = 1.346 g", 1.36376, "g", []Kind{False, OtherValue}},
	{"34.595 m ÷ 150 m = 0.213, rounded up to 1", 1, "", []Kind{False}},
	{"340.595 m ÷ 150 m = 2.271, rounded up to 2", 2, "", []Kind{False}},
	{"1046 min ÷ 60 × 28.00 EUR = 488.13 EUR", 488.13, "EUR", []Kind{UnitsMixed}},
	{"45.03 EUR + 14.81 EUR + 0.17 EUR = 60.00 EUR", 60, "EUR", []Kind{False}},
	{"45.03 EUR + 14.81 GBP + 0.16 EUR = 60.00 EUR", 60, "EUR", []Kind{UnitsMixed}},
	{"420.00 EUR − 535.66 EUR = 115.66 EUR", -115.66, "EUR", []Kind{False, OtherValue}},
	{"max(765.979 mm, 765.972 mm) = 765.972 mm", 765.97237, "mm", []Kind{False}},
	{"min(761.979 mm, 765.972 mm) = 765.972 mm", 765.97237, "mm", []Kind{False}},
	{"5 1/16 in + 3 1/2 in = 8 7/16 in", 8.5625, "in", []Kind{LastDigit, OtherValue}},
	{"100 mm + 49.6 mm = 150 mm", 150, "mm", []Kind{False}},
	{"200 mm + 3 mm = 204 mm", 204, "mm", []Kind{False}},
	{" + 75 = 95 min", 95, "min", []Kind{Unreadable}},
	{"20 + 75 = 1570 min", 95, "min", []Kind{UnitsMissing, False, OtherValue}},
	{"sides = sides40 min", 40, "min", []Kind{Unreadable}},
	{"308.6 mm × 2 + 368.1 mm × 2, ÷ 2 = 676.7 mm", 676.7, "mm", []Kind{Unreadable}},
	{"200 mm × 3 = 650 mm = 600 mm", 600, "mm", []Kind{False}},
	{"9 mm ≤ 6 mm", 9, "mm", []Kind{False}},
	{"sin 30°", 0.5, "", []Kind{UnitsMixed}}, // a function needs brackets: this is a name and 30°
	{"200 mm × sin(30) = 100 mm", 100, "mm", []Kind{UnitsMissing}},
	{"0.083 m + 0.083 m + 0.083 m = 0.250 m", 0.25, "m", []Kind{LastDigit}},
	{"½∮(x dy − y dx) = 4800 cm²", 4800, "cm²", []Kind{Unreadable}},
	{"2400 mm + 75 mm × 2, up to the next 100 mm = 2500 mm", 2500, "mm", []Kind{False}},
	{"2400 mm + 25 mm × 2, up to the next 100 = 2500 mm", 2500, "mm", []Kind{UnitsMissing}},
	{"(130 mm ÷ 20 mm, to the nearest 1) + 1 = 9", 8, "", []Kind{False, OtherValue}},
	{"greatest of (765.979 mm, 761.972 mm) = 761.972 mm", 761.972, "mm", []Kind{False}},
	{"along the curve (100, 0) (100, 55.228) (55.228, 100) (0, 100) mm = 141 mm", 157.1011, "mm", []Kind{False, OtherValue}},
	{"along the curve (0, 0) (1, 0) (2, 0) (3, 0) = 3 in", 3, "in", []Kind{UnitsMissing}},
	{"front.bone 1: 2 + front.bone 2: 3 = 6", 5, "", []Kind{False, OtherValue}},
	{"front.bone 1 2 + front.bone 2 3 = 5", 5, "", []Kind{Unreadable}},
	{"1: 2 + 3 = 5", 5, "", []Kind{Unreadable}},
	{"along apron.bib, further on 25 mm − along apron.bib 15 mm = 15 mm", 10, "mm", []Kind{False, OtherValue}},
	{"212 mm 3 × 2 = 424 mm", 424, "mm", []Kind{Unreadable}},
	{"5 mm = 5 mm × 2", 5, "mm", []Kind{False, OtherValue}},
}

func TestTrueSumsPassAndFalseSumsAreFound(t *testing.T) {
	for _, list := range [][]trial{trueSums, falseSums} {
		for _, one := range list {
			value, ok := Of(one.number, one.unit)
			if !ok {
				t.Fatalf("%q is no unit", one.unit)
			}
			var got []Kind
			finds := Judge(one.sum, value)
			for _, f := range finds {
				got = append(got, f.Kind)
			}
			slices.Sort(got)
			want := slices.Sorted(slices.Values(one.kinds))
			if !slices.Equal(got, want) {
				t.Errorf("%q beside %v %s: found %v, want %v", one.sum, one.number, one.unit, finds, want)
			}
		}
	}
}

// FuzzRead asserts that nothing that is printed makes the reader panic, and
// that what it reads has values.
func FuzzRead(f *testing.F) {
	for _, list := range [][]trial{trueSums, falseSums} {
		for _, one := range list {
			f.Add(one.sum)
		}
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, finds := Read(text)
		if s == nil && len(finds) == 0 {
			t.Fatalf("%q is neither read nor a find", text)
		}
		if s == nil {
			return
		}
		for _, l := range s.Links {
			if math.IsNaN(l.Value) || math.IsInf(l.Value, 0) {
				t.Fatalf("%q has the value %v", text, l.Value)
			}
		}
		Judge(text, Amount{Value: 1})
	})
}
