package derive

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// quarryRoom is the workroom of a box-pleated, lined skirt of a check, whose pieces are
// drawn by hand in an SVG file.
func quarryRoom(t *testing.T) (room *testRoom, build string) {
	read := func(name string) string {
		text, err := os.ReadFile(filepath.Join("testdata", "quarry-skirt", name))
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	room = roomWith(t)
	for _, cloth := range []string{"quarry-check", "slate-lining", "band-fusible"} {
		room.file("content/cloth/"+cloth+".yaml", read(cloth+".yaml"))
	}
	room.file("content/builds/test/pattern/skirt.svg", read("skirt.svg"))
	return room, read("build.yaml")
}

// Twelve repeats of 91 are 1092, drawn in the file. Six box pleats close them to 365 and,
// 200 lower, to 515; with the back 730 and 1030. Each of 12 folds is stitched 200 down: 2.4
// m a piece. The band of 760 laps by 30. The lining, 600 wide, has three pleats (600 − 365)
// ÷ 6 = 39.17 deep.
func TestQuarrySkirt(t *testing.T) {
	room, build := quarryRoom(t)
	g, faults := room.desk().derive(t, build)
	for _, f := range append(faults, g.Faults...) {
		t.Errorf("fault: %s", f)
	}
	g.is(t, 1e-5, map[string]float64{
		"piece.front.edge.waist.length": 1092, "piece.front.edge.waist.sewn": 365, "piece.back.pleats": 2.4,
		"level.hip.finished": 1030, "level.waist.finished": 730, "piece.front-lining.edge.waist.sewn": 365,
	})
}

// Twelve slips that a maker makes in it, each answered by what is wrong.
func TestQuarrySkirtSlips(t *testing.T) {
	for old, c := range map[string][2]string{
		"every: 2 repeats":               {"every: 3 repeats", "6 pleats of 3 repeats are 1638 mm, front.waist has 1092 mm"},
		"count: 6":                       {"count: 7", "7 pleats of 2 repeats are 1274 mm, front.waist has 1092 mm"},
		"hip: 515}":                      {"hips: 515}", `"hips" is no level of front`},
		"waist: 365, hip":                {"waste: 365, hip", `"waste" is no level of front`},
		"into: {waist: 365, hip: 515}":   {"into: {waist: 300, hip: 515}", "pleats overlap behind by 16.0 mm"},
		"drawn: true, into: {waist":      {"into: {waist", "into: tells the depth only where the outline is drawn with the pleats open"},
		"stitched: to hip":               {"stitched: to thigh", `"thigh" is no level of front`},
		"kind: box":                      {"kind: boxed", `"boxed" is not a word known here`},
		"cloth: {shell: quarry-check":    {"cloth: {shell: slate-lining", "slate-lining has no repeat"},
		"skirt.svg#front":                {"skirt.svg#frunt", "frunt"},
		"rectangle: [760, 64]":           {"rectangle: [700, 64]", "is 60 mm longer than waistband.bottom after the overlap of 30 mm (730, 700)"},
		"count: 3, drawn: true, into: 3": {"count: 3, drawn: true, into: 6", "nothing is left for pleats into 665 mm"},
	} {
		room, build := quarryRoom(t)
		if strings.Count(build, old) != 1 {
			t.Fatalf("%q stands %d times in the record", old, strings.Count(build, old))
		}
		g, faults := room.desk().derive(t, strings.Replace(build, old, c[0], 1))
		all := append(faults, g.Faults...)
		told := false
		for _, f := range all {
			told = told || strings.Contains(f.Message, c[1])
		}
		if !told {
			t.Errorf("%s: want %q, told %v", c[0], c[1], all)
		}
	}
}
