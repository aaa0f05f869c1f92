package measure

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"hembook/internal/fault"
)

func TestParseLength(t *testing.T) {
	rows := []struct {
		text string
		want Length // by hand
	}{
		{"15", 15 * Millimetre},
		{" 15 ", 15 * Millimetre},
		{"0", 0},
		{"0 mm", 0},
		{"007", 7 * Millimetre},
		{"1.5 cm", 15 * Millimetre},
		{"1.5cm", 15 * Millimetre},
		{"1.50000000000000000000000 cm", 15 * Millimetre},
		{".5 in", 12_700_000},
		{"+4", 4 * Millimetre},
		{"2.5 m", 2500 * Millimetre},
		{"5/8 in", 15_875_000},
		{`5/8"`, 15_875_000},
		{"5/8″", 15_875_000},
		{"5⁄8 inch", 15_875_000},
		{"⅝ in.", 15_875_000},
		{"1½ in", 38_100_000},
		{"1 ½in", 38_100_000},
		{"1 1/2 INCHES", 38_100_000},
		{"¼", 250_000},
		{"⅓ yd", 304_800_000},
		{"⅞ in", 22_225_000},
		{"1 1/4 yd", 1_143_000_000},
		{"1-1/4 yds", 1_143_000_000},
		{"1.25 yards", 1_143_000_000},
		{"3 ft 2 in", 965_200_000},
		{"3ft2in", 965_200_000},
		{`3' 2"`, 965_200_000},
		{"3′2″", 965_200_000},
		{"1 yd 2 ft 3 1/2 in", 1_612_900_000},
		{"1 m 20 cm 5 mm", 1205 * Millimetre},
		{"12\u202f500 mm", 12_500 * Millimetre},
		{"1\u00a0250", 1250 * Millimetre},
		{"1\u2009250\u202f000 mm", 1250 * Metre},
		{"1/3 in", 8_466_667},
		{"2/3 in", 16_933_333},
		{"1/128 in", 198_438}, // 198 437.5 goes up
		{"0.0000005", 1},
		{"0.00000049", 0},
		{"1000000 m", longestParsed},
		{"9/8 in", 28_575_000},
		{"3  mm", 3 * Millimetre},
	}
	for _, row := range rows {
		got, err := ParseLength(row.text, UnitMM)
		if err != nil || got != row.want {
			t.Errorf("%q: got %d nm, %v, want %d nm", row.text, got, err, row.want)
		}
	}
}

func TestParseSigned(t *testing.T) {
	for text, want := range map[string]Length{
		"-6": -6 * Millimetre, "−6 mm": -6 * Millimetre, "- 1/4 in": -6_350_000, "+6": 6 * Millimetre,
		"-1 ft 2 in": -355_600_000, "-0 ft 2 in": -50_800_000,
	} {
		if got, err := ParseSigned(text, UnitMM); err != nil || got != want {
			t.Errorf("%q: got %v, %v, want %v", text, got, err, want)
		}
	}
	if got, err := ParseLength("8", UnitCM); err != nil || got != 80*Millimetre {
		t.Errorf("8 with bare cm: got %v, %v", got, err)
	}
}

// TestRefusals holds, for each slip, where it is (characters before it, and
// its length), what is wrong and what was probably meant.
func TestRefusals(t *testing.T) {
	length := func(text string) error { _, err := ParseLength(text, UnitMM); return err }
	rows := []struct {
		text          string
		offset        int
		message, hint string
	}{
		{"", 0, "no length given", ""},
		{" \t", 0, "no length given", ""},
		{"5/8 inhc", 4, `unknown unit "inhc"`, "did you mean 5/8 in?"},
		{"½ inhc", 2, `unknown unit "inhc"`, "did you mean ½ in?"},
		{"15 mn", 3, `unknown unit "mn"`, "did you mean 15 mm?"},
		{"15 zorble", 3, `unknown unit "zorble"`, "write it in mm, cm, m, in, ft or yd"},
		{"1,5 cm", 0, "a comma inside a number", "write 1.5 cm"},
		{"1,250", 0, "a comma inside a number", "write 1.250, or 1250 if the comma parts thousands"},
		{",5 cm", 0, "a comma inside a number", "write 0.5 cm"},
		{"15 kg", 3, "kg is a unit of weight, not of length", "write it in mm, cm, m, in, ft or yd"},
		{"5 m2", 2, "m² is a unit of area, not of length", "write it in mm, cm, m, in, ft or yd"},
		{"20 min", 3, "min is a unit of time, not of length", "for metres write 20 m"},
		{"15 x 20 cm", 3, "× is a unit of ratio, not of length", "write each length on its own"},
		{"1/0 in", 2, "a fraction with 0 below its line is no length", ""},
		{"5/ in", 0, "a fraction with nothing below its line", "write it like 5/8"},
		{"1.5/2", 0, "a fraction is made of two whole numbers", "write it like 5/8, or as a decimal number"},
		{"1/2.5", 0, "a fraction is made of whole numbers", "write it like 5/8, or as a decimal number"},
		{"1 9/8 in", 2, "the fraction of a mixed number must be less than 1", "was a figure mistyped?"},
		{"1234567/8 in", 0, "a fraction of too many figures", "write a decimal number"},
		{"1½½", 0, "two fractions in a row", ""},
		{"99999999999 m", 0, "the length is too large to be one", "is the unit right?"},
		{"1000000 m 1 mm", 10, "the length is too large to be one", "is the unit right?"},
		{"999999999999999999 yd", 0, "the length is too large to be one", "is the unit right?"},
		{"1234567890123456789", 0, "the number has too many figures", "round it to what can be measured"},
		{"0.1234567890123456789", 0, "the number has too many figures", "round it to what can be measured"},
		{"NaN", 0, `"NaN" is not a number a tape shows`, "write it in figures, as 12.5"},
		{".inf", 0, `".inf" is not a number a tape shows`, "write it in figures, as 12.5"},
		{"Infinity mm", 0, `"Infinity" is not a number a tape shows`, "write it in figures, as 12.5"},
		{"1e308", 0, `"1e308" is not a number a tape shows`, "write it in figures, as 12.5"},
		{"1E-3 mm", 0, `"1E-3" is not a number a tape shows`, "write it in figures, as 12.5"},
		{"0x10", 0, `"0x10" is not a number a tape shows`, "write it in figures, as 12.5"},
		{"1_000", 0, `"1_000" is not a number a tape shows`, "write 1000"},
		{"1_000.5 mm", 0, `"1_000.5" is not a number a tape shows`, "write 1000.5"},
		{"-0", 0, `"-0" is not a number a tape shows`, "write 0 without the minus"},
		{"−0.0 mm", 0, `"−0.0 mm" is not a number a tape shows`, "write 0 without the minus"},
		{"١٥ cm", 0, "figures other than 0 to 9", `write "15 cm"`},
		{"𝟙𝟝", 0, "figures other than 0 to 9", `write "15"`},
		{"10-12 cm", 0, "a range where one value belongs", "write one number"},
		{"10 – 12 cm", 0, "a range where one value belongs", "write one number"},
		{"1 250 mm", 0, "two numbers in a row", "write 1250 mm without the space"},
		{"1234\u202f567", 0, "two numbers in a row", "give the first a unit, or write a fraction like 1 1/4"},
		{"12 3 in", 0, "two numbers in a row", "give the first a unit, or write a fraction like 1 1/4"},
		{"1e3", 0, `"1e3" is not a number a tape shows`, "write it in figures, as 12.5"},
		{"5. cm", 1, "a decimal point with nothing after it", "write 5 cm"},
		{"1..5", 1, "two decimal points in one number", ""},
		{"1.2.3", 3, "two decimal points in one number", ""},
		{"-5", 0, "a length here cannot be negative", "leave out the minus"},
		{"3 ft -2 in", 5, "a sign cannot stand here", ""},
		{"cm 15", 0, `a number should stand where "cm" does`, `write the number first: "15 cm"`},
		{"about 5 cm", 0, `a number should stand where "about" does`, "write 5 cm"},
		{"5 cm wide", 5, `"wide" stands after the unit`, "leave it out"},
		{"3 in 2 ft", 7, "ft cannot follow in", "write the larger unit first, each once"},
		{"3 in 2 in", 7, "in cannot follow in", "write the larger unit first, each once"},
		{"1 m 3 in", 0, "metric and imperial units in one length", "write it in one of them"},
		{"5' 4", 3, "the number has no unit", "write 4 in"},
		{"1 m 20", 4, "the number has no unit", "write 20 cm"},
		{"1-2-3", 0, "a range where one value belongs", "write one number"},
		{".", 0, "a point without figures", ""},
		{"5 abcdefghijklmnopqrstuvwxyzabcdefgh", 2, `unknown unit "abcdefghijklmnopqrstuvwxyzabcdef…"`, "write it in mm, cm, m, in, ft or yd"},
		{"5 \"\"", 2, `unknown unit '""'`, "did you mean 5 in?"},
		{"5 \x80", 2, `unknown unit "` + "\ufffd" + `"`, "write it in mm, cm, m, in, ft or yd"},
	}
	for _, row := range rows {
		checkRefusal(t, row.text, length(row.text), row.offset, row.message, row.hint)
	}
	_, err := ParseLength("4", NoUnit)
	checkRefusal(t, "4", err, 0, "the number has no unit", "write 4 mm, or 4 in")
}

func checkRefusal(t *testing.T, text string, err error, offset int, message, hint string) {
	t.Helper()
	list, ok := errors.AsType[fault.List](err)
	if !ok || len(list) != 1 {
		t.Errorf("%q: got %v, want one fault: %s", text, err, message)
		return
	}
	if got := list[0]; got.Offset() != offset || got.Message != message || got.Hint != hint {
		t.Errorf("%q: got %d, %s\n    %s\nwant %d, %s\n    %s", text, got.Offset(), got.Message, got.Hint, offset, message, hint)
	}
}

// What was probably meant is the whole text with the slip put right, so that it can
// be written in its place; it reads.
func TestMeant(t *testing.T) {
	length := func(s string) error { _, err := ParseLength(s, UnitMM); return err }
	areal := func(s string) error { _, err := ParseAreal(s); return err }
	time := func(s string) error { _, err := ParseDuration(s); return err }
	money := func(s string) error { _, err := ParseMoney(s, ""); return err }
	ratio := func(s string) error { _, err := ParseRatio(s); return err }
	for _, row := range []struct {
		read        func(string) error
		text, meant string
	}{
		{length, "5/8 inhc", "5/8 in"},
		{length, "1 yd 3 ihn", "1 yd 3 in"},
		{length, "1,5 cm", "1.5 cm"},
		{length, "1_000", "1000"},
		{length, "-4 cm", "4 cm"},
		{length, "cm 4", "4 cm"},
		{length, "4 cm wide", "4 cm"},
		{length, "٤ cm", "4 cm"},
		{length, "wide", ""},
		{areal, "190 g", "190 g/m²"},
		{time, "50", "50 min"},
		{time, "1 h 20", "1 h 20 min"},
		{time, "50 m", "50 min"},
		{money, "18.50 EURO", "18.50 EUR"},
		{ratio, "50 %", "0.5"},
	} {
		err := row.read(row.text)
		list, ok := errors.AsType[fault.List](err)
		if !ok {
			t.Errorf("%q: %v", row.text, err)
			continue
		}
		if got := list[0].Meant(); got != row.meant {
			t.Errorf("%q: meant %q, want %q", row.text, got, row.meant)
		}
		if row.meant != "" && row.read(row.meant) != nil {
			t.Errorf("%q: %q is not read: %v", row.text, row.meant, row.read(row.meant))
		}
	}
}

func TestRefusalsOfOtherMeasures(t *testing.T) {
	areal := func(s string) error { _, err := ParseAreal(s); return err }
	mass := func(s string) error { _, err := ParseMass(s); return err }
	ratio := func(s string) error { _, err := ParseRatio(s); return err }
	percent := func(s string) error { _, err := ParsePercent(s); return err }
	angle := func(s string) error { _, err := parseAngle(s); return err }
	time := func(s string) error { _, err := ParseDuration(s); return err }
	rows := []struct {
		read          func(string) error
		text          string
		offset        int
		message, hint string
	}{
		{mass, "NaN g", 0, `"NaN" is not a number a scale shows`, "write it in figures, as 12.5"},
		{mass, "1_000 g", 0, `"1_000" is not a number a scale shows`, "write 1000"},
		{mass, "-0 g", 0, `"-0 g" is not a number a scale shows`, "write 0 without the minus"},
		{areal, "1e308 g/m2", 0, `"1e308" is not a number a scale shows`, "write it in figures, as 12.5"},
		{time, "0x10 min", 0, `"0x10" is not a time a clock shows`, "write it in figures, as 12.5"},
		{time, "Inf h", 0, `"Inf" is not a time a clock shows`, "write it in figures, as 12.5"},
		{percent, ".nan", 0, `".nan" is not a plain number`, "write it in figures, as 12.5"},
		{percent, "1e308 %", 0, `"1e308" is not a plain number`, "write it in figures, as 12.5"},
		{percent, "-0", 0, `"-0" is not a plain number`, "write 0 without the minus"},
		{ratio, "0x10", 0, `"0x10" is not a plain number`, "write it in figures, as 12.5"},
		{areal, "19 mm", 3, "mm is a unit of length, not of weight by area", "for the weight of silk write 19 momme"},
		{areal, "5 oz", 2, "oz is a unit of weight, not of weight by area", "write 5 oz/yd²"},
		{areal, "180 g", 4, "g is a unit of weight, not of weight by area", "write 180 g/m²"},
		{areal, "180", 0, "the number has no unit", "write 180 g/m², or 180 oz/yd²"},
		{areal, "180 g/m² 2 momme", 9, "one weight by area is one value, and here are two", ""},
		{areal, "9999999999999 g/m²", 0, "the number is too large to be a weight by area", "is the unit right?"},
		{mass, "2", 0, "the number has no unit", "write 2 g, or 2 oz"},
		{mass, "1 lb 4", 5, "the number has no unit", "write 4 oz"},
		{time, "1 min 4", 6, "the number has no unit", "write 4 s"},
		{time, "1 h 5 mim", 6, `unknown unit "mim"`, "did you mean 5 min?"},
		{ratio, "2 widgets", 2, `unknown unit "widgets"`, "write the number alone"},
		{mass, "2 kg 3", 5, "the number has no unit", "write 3 g"},
		{mass, "-2 g", 0, "a weight here cannot be negative", "leave out the minus"},
		{ratio, "150 %", 4, "% is a unit of percentage, not of ratio", "write 1.5"},
		{ratio, "3:0", 2, "a ratio to 0", ""},
		{ratio, "3:x", 2, `a number should stand where "x" does`, ""},
		{ratio, "½:", 2, "no ratio given", ""},
		{percent, "4 mm", 2, "mm is a unit of length, not of percentage", "write it in %"},
		{angle, "45 mm", 3, "mm is a unit of length, not of angle", "write it in °"},
		{time, "90", 0, "the number has no unit", "write 90 min, or 90 h"},
		{time, "1h20", 2, "the number has no unit", "write 1 h 20 min"},
		{time, "20 m", 3, "m is a unit of length, not of time", "for minutes write 20 min"},
		{time, "1:75", 2, "more than 59 minutes after the colon", "write it like 1 h 20 min"},
		{time, "1:2", 0, "a colon in a time parts hours and two figures of minutes", "write 1:20, or 1 h 20 min"},
		{time, "1:20:30", 0, "a colon in a time parts hours and two figures of minutes", "write 1:20, or 1 h 20 min"},
		{time, "900000000 h", 0, "the time is longer than 100 years", "is the unit right?"},
		{time, "-5 min", 0, "a time here cannot be negative", "leave out the minus"},
		{time, "", 0, "no time given", ""},
	}
	for _, row := range rows {
		checkRefusal(t, row.text, row.read(row.text), row.offset, row.message, row.hint)
	}
}

func TestParseQuantities(t *testing.T) {
	rows := []struct {
		read func(string) (Quantity, error)
		text string
		want Quantity
	}{
		{ParseAreal, "180 g/m²", Quantity{180, UnitGPerM2}},
		{ParseAreal, "180 g / m2", Quantity{180, UnitGPerM2}},
		{ParseAreal, "180.5gsm", Quantity{180.5, UnitGPerM2}},
		{ParseMass, "1 lb 4 oz", Quantity{566.9904625, UnitG}}, // 20 × 28.349523125
		{ParseMass, "1.2 kg", Quantity{1200, UnitG}},
		{ParsePercent, "4", Quantity{4, UnitPercent}},
		{ParsePercent, "-3.5 %", Quantity{-3.5, UnitPercent}},
		{ParsePercent, "12 per cent", Quantity{12, UnitPercent}},
		{parseAngle, "45°", Quantity{45, UnitDegree}},
		{parseAngle, "-22 1/2 deg", Quantity{-22.5, UnitDegree}},
		{ParseRatio, "3/4", Quantity{0.75, UnitRatio}},
		{ParseRatio, "1 1/2", Quantity{1.5, UnitRatio}},
		{ParseRatio, "2.5x", Quantity{2.5, UnitRatio}},
		{ParseRatio, "3:2", Quantity{1.5, UnitRatio}},
		{ParseRatio, "1 1/2 : 1", Quantity{1.5, UnitRatio}},
	}
	for _, row := range rows {
		got, err := row.read(row.text)
		if err != nil || got != row.want {
			t.Errorf("%q: got %v, %v, want %v", row.text, got, err, row.want)
		}
	}
	got, err := parseQuantity("2 sq yd", AreaDim, UnitM2, false)
	if err != nil || math.Abs(got.In(UnitYd2).Number-2) > 1e-15 {
		t.Errorf("2 sq yd: got %v, %v", got, err)
	}
}

// TestEveryUnitReads writes every unit after a number and reads it back.
func TestEveryUnitReads(t *testing.T) {
	for _, u := range AllUnits() {
		for _, name := range append([]string{u.Symbol()}, u.fact().names...) {
			text := strings.TrimSpace("12.5 " + name)
			bare := NoUnit
			if u == UnitCount {
				bare = UnitCount
			}
			got, err := parseQuantity(text, u.Dimension(), bare, false)
			if err != nil || math.Abs(got.In(u).Number-12.5) > 1e-14 {
				t.Errorf("%q: got %v, %v", text, got, err)
			}
		}
	}
}

// TestFractionsAgreeWithDecimals reads the same value written both ways.
func TestFractionsAgreeWithDecimals(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := rapid.SampledFrom([]Unit{UnitMM, UnitCM, UnitM, UnitIn, UnitFt, UnitYd}).Draw(t, "unit")
		whole := rapid.IntRange(0, 9999).Draw(t, "whole")
		n := rapid.IntRange(1, 63).Draw(t, "n")
		mixed := fmt.Sprintf("%d %d/64 %s", whole, n, u)
		decimal := fmt.Sprintf("%d.%06d%s", whole, n*15625, u) // 1/64 = 0.015625
		a, errA := ParseLength(mixed, NoUnit)
		b, errB := ParseLength(decimal, NoUnit)
		if errA != nil || errB != nil || a != b {
			t.Fatalf("%s = %v, %v; %s = %v, %v", mixed, a, errA, decimal, b, errB)
		}
	})
}

// checkError asserts what every parse error promises.
func checkError(t *testing.T, text string, err error) {
	t.Helper()
	list, ok := errors.AsType[fault.List](err)
	if !ok || len(list) != 1 {
		t.Fatalf("%q: %v is not one fault", text, err)
	}
	f := list[0]
	if n := int32(utf8.RuneCountInString(text)); f.At.Column < 1 || f.At.Column > n+1 {
		t.Fatalf("%q: column %d lies outside the text", text, f.At.Column)
	}
	if f.Message == "" || strings.HasSuffix(err.Error(), ".") && !strings.Contains(text, ".") || !utf8.ValidString(err.Error()) {
		t.Fatalf("%q: ill-written %q", text, err.Error())
	}
}

func parseAngle(text string) (Quantity, error) {
	return parseQuantity(text, AngleDim, UnitDegree, true)
}
