package record

import (
	"strings"
	"testing"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/measure"
)

// formRows are the forms a value may have, and some it may not, by where it stands.
var formRows = []struct {
	where string // a part of a record, # for the value
	good  []string
	bad   []string
}{
	{"pieces: {p: {outline: {a: #, b: [1, 2], c: fold}}}",
		[]string{"[1, 2]", "[1.5, -2]", "[10 mm, 1/2 in]", "{to: [1, 2]}", "{to: [1, 2], curve: -13}", "{to: [1, 2], curve: [[1, 2], [3, 4]]}", "{to: [1, 2], level: none}", "{to: [1, 2], fold: true}", "fold"},
		[]string{"[1]", "[1, 2, 3]", "[a, b]", "{to: [1]}", "{to: [1, 2], curve: [1, 2]}", "{to: [1, 2], curve: [[1, 2]]}", "{tow: [1, 2]}", "folded", "5"}},
	{"pieces: {p: {outline: #}}", []string{"pattern/a.svg", "pattern/a.svg#front", "{file: a.dxf, units: cm}", "{from: [0, 0], a: [1, 2], b: [2, 2], c: [0, 0]}"}, []string{"[1, 2]", "{from: 0}", "{file: a.svg, units: ell}"}},
	{"pieces: {p: {cut: #, rectangle: [1, 2]}}", []string{"1", "2", "1 on fold", "2 alike", "4", "4 alike"}, []string{"two", "0", "1 on edge", "-1", "[1]"}},
	{"pieces: {p: {like: #}}", []string{"front", "[front, back]", "[front]"}, []string{"{front: 1}"}},
	{"pieces: {p: {rectangle: #}}", []string{"[1, 2]", "[10 cm, 2 in]"}, []string{"[1]", "12", "[1, 2, 3]", "{a: 1}"}},
	{"pieces: {p: {circle: {share: #, waist: 1, length: 2}}}", []string{"3/4", "0.75", "1"}, []string{"a half", "9", "0"}},
	{"pieces: {p: {rectangle: [1, 2], notches: {top: #}}}", []string{"60", "middle", "1/4 in from left", "[60, 174]", "{at: 60, name: hip}", "[{at: 60, name: hip}, middle]", "20 from hip"}, []string{"{name: hip}", "{at: 60, nam: hip}"}},
	{"pieces: {p: {rectangle: [1, 2], darts: {top: #}}}", []string{"{at: 60, width: 10, length: 100}", "[{at: middle, width: 10, length: 100}]", "{at: 3 from left, width: 10, point: [1, 2]}"}, []string{"60", "{at: 60}", "{at: 60, width: wide, length: 100}"}},
	{"pieces: {p: {rectangle: [1, 2], edges: {top: #}}}", []string{"upper", "12", "1/2 in", "{name: upper, allowance: 12}", "{fold: true}"}, []string{"[1]", "{level: 1, width: 2}"}},
	{"pieces: {p: {like: q, change: {top: #}}}", []string{"-2", "1/4 in", "{end: 2}", "[1, {end: 2}]", "{curve: [[1, 2], [3, 4]]}", "{note: held}"}, []string{"smaller", "{end: far}", "{curve: 5}", "501"}},
	{"seams: {s: #}", []string{"[a.b, c.d]", "{join: [a.b, c.d], type: french, first: 6}", "[[a.b, c.d], e.f]", "[a.b from x to y, c.d from x for 10]", "{like: [s, t]}", "{like: s}", "{join: [lining.top, c.d], technique: none}"},
		[]string{"a.b", "{type: plain}", "{join: [a.b, c.d], first: wide}"}},
	{"seams: {s: {join: [a.b, c.d], ease: #}}", []string{"8", "1/4 in", "8 from front to top", "[8 from front to top, 3 from top to end]"}, []string{"much", "[much]", "{a: 1}"}},
	{"seams: {s: {join: [a.b, c.d], gather: #}}", []string{"2", "1.5 from end", "3/2"}, []string{"much", "9", "0.5"}},
	{"finishes: {f: {of: #, type: faced}}", []string{"a.b", "[a.b, c.d]", "a.b from x to y", "lining.hem", "[lining.hem]"}, []string{"{a: b}", "hem"}},
	{"notions: {zip: {along: #}}", []string{"a.b", "12 inside a.b", "a.b from x to y", "side seam", "hem"}, []string{"[a.b]", "{a: b}", "12"}},
	{"notions: {button: {along: a.b, first: #}}", []string{"20 from hip", "middle", "hip", "20", "1/2 in from hip"}, []string{"[20]", "{a: 1}"}},
	{"lengths: {l: #}", []string{"a.b", "[a.b, c.d]", "{along: a.b}", "lining.side"}, []string{"{a: b}"}},
	{"work: {cut: #}", []string{"", "40 min", "2 h", "1 h 20 min", "{takes: 1 h, note: slowly}", "{wait: 24 h, after: nothing}", "{sews: [a, b], technique: none}", "{after: [a, b]}"}, []string{"[40 min]", "{takes: long}", "{stage: dreaming}", "{note: [a]}"}},
	{"usual: {seam: #}", []string{"french", "{type: french, first: 6}"}, []string{"{first: 6}", "[french]"}},
	{"cloth: {shell: #}", []string{"linen", "{use: linen, fold: open}"}, []string{"{fold: open}", "[linen]", "{use: linen, fold: shut}"}},
	{"thread: {t: #}", []string{"white", "{colour: white, needle: 70, stitch-length: 2 mm, tension: 4}"}, []string{"{needle: 70}", "{colour: white, stitch-length: long}", "{colour: white, stitch-length: 90}"}},
	{"for: #", []string{"woman", "{who: girl, age: 5}"}, []string{"dog", "[woman]"}},
	{"units: #", []string{"mm", "cm", "in"}, []string{"ell", "[mm]"}},
	{"begun: #", []string{"2026-08-01"}, []string{"yesterday", "2026-8-1", "[2026-08-01]"}},
	{"levels: {hip: #}", []string{"980", "{width: 980, tolerance: 5}"}, []string{"wide", "{wide: 3}"}},
	{"fittings: [{day: 2026-08-01, saw: tight, change: #}]", []string{"{a.b: 5}", "{sides: 5}", "{a.b dart: {width: 3}}", "{lining.hem: -3}"}, []string{"{a.b: big}", "5"}},
	{"journal: [{at: #}]", []string{"2026-08-01", "2026-08-01 09:10"}, []string{"morning", "[1]"}},
	{"pictures: [#]", []string{"photos/a.jpg", "{file: photos/a.jpg, alt: a}"}, []string{"{alt: a}"}},
}

// TestSchemaAndReaderAgree: of each form of a value, reader and schema say the same.
func TestSchemaAndReaderAgree(t *testing.T) {
	schemas := compileSchemas(t)
	n := 0
	try := func(where, value string, good bool) {
		n++
		text := []byte("name: F\n" + strings.Replace(where, "#", value, 1) + "\n")
		if !strings.HasPrefix(where, "garment") {
			text = append(text, "garment: skirt\nstate: planned\n"...)
		}
		var doc yaml.Node
		if err := yaml.Unmarshal(text, &doc); err != nil {
			t.Fatalf("%s: %v", text, err)
		}
		var faults fault.Faults
		d := newDecoder(&fault.Source{Path: "build.yaml"}, measure.UnitMM, &faults)
		d.text, d.root = text, doc.Content[0]
		d.into(doc.Content[0], &Build{})
		told := schemas["build"].Validate(asJSON(&doc))
		if reads := !faults.HasErrors(); reads != good || (told == nil) != good {
			t.Errorf("%s: meant to be in order: %t; the reader says %v, the schema %v", strings.Replace(where, "#", value, 1), good, faults.Sorted(), told)
		}
	}
	for _, row := range formRows {
		for _, value := range row.good {
			try(row.where, value, true)
		}
		for _, value := range row.bad {
			try(row.where, value, false)
		}
	}
	t.Logf("%d forms", n)
}
