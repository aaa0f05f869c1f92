package main

import (
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
)

var (
	barePoint  = regexp.MustCompile(`\[(-?\d+(?:\.\d+)?), (-?\d+(?:\.\d+)?)\]`)
	bareLength = regexp.MustCompile(`\b(allowance|depth|width|length|at|move|overlap|ease|tolerance|selvedge|bust|waist|hip|hem|first|second|trim|free|step|notches|legs|cut|clear|lower|raise|waistband|[a-z]+\.[a-z]+|[a-z]+ at): (-?\d+(?:\.\d+)?)([,}\n])`)
	bareFrom   = regexp.MustCompile(`\b(\d+(?:\.\d+)?) (from|for) `)
)

// inUnit writes the records of a workroom of millimetres in another unit, as far as
// lengths are known by the word before them.
func inUnit(room *txtar.Archive, unit string, perUnit float64) *txtar.Archive {
	out := &txtar.Archive{Files: slices.Clone(room.Files)}
	number := func(mm string) string {
		f, _ := strconv.ParseFloat(mm, 64)
		return strconv.FormatFloat(f/perUnit, 'f', -1, 64)
	}
	for i := range out.Files {
		f := &out.Files[i]
		if !strings.HasSuffix(f.Name, ".yaml") {
			continue
		}
		text := strings.Replace(string(f.Data), "units: mm", "units: "+unit, 1)
		text = barePoint.ReplaceAllStringFunc(text, func(s string) string {
			m := barePoint.FindStringSubmatch(s)
			return "[" + number(m[1]) + ", " + number(m[2]) + "]"
		})
		text = bareLength.ReplaceAllStringFunc(text, func(s string) string {
			m := bareLength.FindStringSubmatch(s)
			if m[1] == "cut" {
				return s
			}
			return m[1] + ": " + number(m[2]) + m[3]
		})
		text = bareFrom.ReplaceAllStringFunc(text, func(s string) string {
			m := bareFrom.FindStringSubmatch(s)
			return number(m[1]) + " " + m[2] + " "
		})
		f.Data = []byte(text)
	}
	return out
}

// inMM are answers that may say mm in a record of other units, with why.
var inMM = map[string]string{
	"write it in mm, cm, m":                "names the units there are",
	"one of: mm, cm":                       "names the units there are",
	"units: mm":                            "is about the unit of a drawing",
	"\\.(svg|dxf)":                         "is about a drawing, in its own millimetres",
	"ends within 0.5 mm":                   "is about a drawing, in its own millimetres",
	"free ends at|cords|drawstring|ribbon": "quotes a standard for children's clothes, as published",
	"the comma cuts|did you mean":          "quotes what the maker wrote",
	"a colon inside the words":             "quotes what the maker wrote",
	"misses a hem":                         "is a seam type of the workroom, whose sentence has its millimetres written in",
	"finished: 10 mm with":                 "shows how a strip is written, which has its own unit",
}

// TestAnswersInTheRecordsUnits makes each slip of testdata/broken in a workroom of
// centimetres and in one of inches: no answer speaks of millimetres.
func TestAnswersInTheRecordsUnits(t *testing.T) {
	nothingBeside(t)
	t.Parallel()
	base := readArchive(t, filepath.Join(brokenDir, "base.txtar"))
	cases, err := filepath.Glob(filepath.Join(brokenDir, "*.txtar"))
	if err != nil {
		t.Fatal(err)
	}
	for unit, perUnit := range map[string]float64{"cm": 10, "in": 25.4} {
		lengths := 0
		t.Run(unit, func(t *testing.T) {
			if found := faultsOf(t, inUnit(base, unit, perUnit)); len(found) > 0 {
				t.Fatalf("the workroom without a slip: %v", found)
			}
			said := regexp.MustCompile(`\d ` + unit + `\b`)
			for _, path := range cases {
				if strings.HasSuffix(path, "base.txtar") {
					continue
				}
				room := applySlip(t, base, readArchive(t, path))
				if strings.Contains(string(path), "units") {
					continue // they have units of their own, or none
				}
				for _, f := range faultsOf(t, inUnit(room, unit, perUnit)) {
					text := f.String()
					lengths += len(said.FindAllString(text, -1))
					if regexp.MustCompile(`\d mm\b`).MatchString(text) && !letMM(text) {
						t.Errorf("%s: %s", filepath.Base(path), text)
					}
				}
			}
		})
		if lengths < 20 {
			t.Errorf("only %d lengths were told in %s", lengths, unit)
		}
		t.Logf("%s: %d lengths told", unit, lengths)
	}
}

// letMM reports whether an answer may speak of millimetres.
func letMM(text string) bool {
	for form := range inMM {
		if regexp.MustCompile(form).MatchString(text) {
			return true
		}
	}
	return false
}
