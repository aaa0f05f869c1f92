package record

import (
	"math"
	"strings"
	"testing"

	"hembook/internal/fault"
)

// twoHalves draws a front, 240 by 600, in the ways a pattern file may: a fold
// to the left, a dart of 20 in the waist, a notch, a level, bias grain; and a
// plain back beside it.
const twoHalves = `<svg xmlns="http://www.w3.org/2000/svg" width="600mm" height="700mm" viewBox="0 0 600 700">
<g id="front">
<path id="front-hem" d="M10 610H250"/>
<path id="front-side" d="M250 610V10"/>
<path id="front-waist" d="M250 10H10"/>
<path id="front-fold-centre" d="M10 10V610"/>
<path id="front-dart-waist" d="M140 10L130 100L120 10"/>
<path id="front-notch-hip" d="M245 210H255"/>
<path id="front-level-hip" d="M10 210H250"/>
</g>
<g id="back">
<path id="back-hem" d="M310 610H550"/>
<path id="back-side" d="M550 610C560 400 560 200 550 10"/>
<path id="back-waist" d="M550 10H310"/>
<path id="back-fold-centre" d="M310 10V610"/>
</g>
</svg>
`

const patternBuild = "name: Skirt\ngarment: skirt\nstate: sewing\ncloth: {shell: rust-linen}\npieces:\n  front:\n    of: shell\n    cut: 1 on fold\n"

// readSkirt reads the skirt with a build and pattern files of the test's own.
func readSkirt(t *testing.T, build string, files map[string]string) (*Build, []fault.Fault) {
	t.Helper()
	changed := map[string]string{"content/builds/skirt/build.yaml": patternBuild + build}
	for name, text := range files {
		changed["content/builds/skirt/"+name] = text
	}
	room := baseRoom(t, changed)
	return room.ReadBuild(room.Builds[0])
}

func TestOutlineFromFile(t *testing.T) {
	b, faults := readSkirt(t, "    outline: pattern/skirt.svg#front\n", map[string]string{"pattern/skirt.svg": twoHalves})
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	p := &b.Pieces[0]
	if n := len(p.Outline.Edges); n != 4 {
		t.Fatalf("%d edges", n)
	}
	corners := map[string]XY{"hem": {240, 0}, "side": {240, 600}, "waist": {0, 600}, "centre": {0, 0}}
	for _, e := range p.Outline.Edges {
		want := corners[e.Name.V]
		if math.Hypot(e.To.V.X-want.X, e.To.V.Y-want.Y) > 0.01 || e.Fold.V != (e.Name.V == "centre") {
			t.Errorf("the edge %q runs to %v, fold %t", e.Name.V, e.To.V, e.Fold.V)
		}
		if e.At != p.Outline.File.At || !e.At.Given() {
			t.Errorf("the edge %q is told of at %v, the file is named at %v", e.Name.V, e.At, p.Outline.File.At)
		}
	}
	if d := p.Darts; len(d) != 1 || d[0].Edge.V != "waist" || math.Abs(d[0].Along.V.MM()-120) > 0.01 || math.Abs(d[0].Width.V.MM()-20) > 0.01 || math.Abs(d[0].Length.V.MM()-90) > 0.01 {
		t.Errorf("darts %+v", d)
	}
	if n := p.Notches; len(n) != 1 || n[0].Edge.V != "side" || math.Abs(n[0].Along.V.MM()-400) > 0.01 {
		t.Errorf("notches %+v", n)
	}
	if l, ok := p.Levels.Get("hip"); !ok || math.Abs(l.V.MM()-400) > 0.01 {
		t.Errorf("levels %+v", p.Levels)
	}
	if got := p.DrawnIn(); got != " (pattern/skirt.svg#front)" {
		t.Errorf("it is drawn in %q", got)
	}
}

// TestOutlineSaidAndDrawn: what the record says of an edge, of darts, notches,
// levels and grain stands before what the file draws.
func TestOutlineSaidAndDrawn(t *testing.T) {
	b, faults := readSkirt(t, `    grain: across
    levels: {hip: 420}
    darts: {waist: {at: 100, width: 12, length: 80}}
    notches: {hem: 50}
    outline: {file: pattern/skirt.svg#front, side: {allowance: 25}}
`, map[string]string{"pattern/skirt.svg": twoHalves})
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	p := &b.Pieces[0]
	if l, _ := p.Levels.Get("hip"); p.Grain.V != "across" || l.V.MM() != 420 || len(p.Darts) != 1 || p.Darts[0].Width.V.MM() != 12 || len(p.Notches) != 1 || p.Notches[0].Edge.V != "hem" {
		t.Errorf("%q, levels %+v, darts %+v, notches %+v", p.Grain.V, p.Levels, p.Darts, p.Notches)
	}
	for _, e := range p.Outline.Edges {
		if given := e.Allowance.Given(); given != (e.Name.V == "side") || given && e.Allowance.V.MM() != 25 {
			t.Errorf("the edge %q has allowance %v", e.Name.V, e.Allowance)
		}
	}
}

// TestOutlineScaled: a scale and units in the record stand for what the file
// does not say.
func TestOutlineScaled(t *testing.T) {
	plain := strings.Replace(twoHalves, ` width="600mm" height="700mm"`, "", 1)
	for said, wide := range map[string]float64{"units: mm": 240, "units: in": 240 * 25.4, "scale: 0.5": 120, "units: cm, scale: 2": 4800} {
		b, faults := readSkirt(t, "    outline: {file: pattern/skirt.svg#front, "+said+"}\n", map[string]string{"pattern/skirt.svg": plain})
		if e := b.Pieces[0].Outline.Edges; len(e) != 4 || math.Abs(e[0].To.V.X-e[3].To.V.X-wide) > 0.01 {
			t.Errorf("%s: the hem is not %g wide: %v, %v", said, wide, e, faults)
		}
	}
}

// TestOutlineFileFaults: what is wrong is told at the line that names the file,
// and the piece is left without edges.
func TestOutlineFileFaults(t *testing.T) {
	for _, c := range []struct{ outline, text, says, hint string }{
		{"pattern/skirt.svg#frnt", twoHalves, `draws no piece "frnt"`, "front"},
		{"pattern/skirt.svg", twoHalves, "draws 2 pieces, and the outline does not say which", "front and back"},
		{"pattern/shirt.svg#front", twoHalves, `the pattern file "pattern/shirt.svg" cannot be read`, "skirt.svg"},
		{"../skirt.svg#front", twoHalves, "the pattern file", "name a file beside the record"},
		{"pattern/skirt.png#front", twoHalves, "is not a pattern file that can be read", "SVG or DXF"},
		{"pattern/skirt.svg#front", "<svg", "is not whole XML", "save it again"},
		{"pattern/skirt.svg#front", `<svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="9mm"/>`, "draws no piece", ""},
		{"pattern/skirt.svg#front", strings.Replace(twoHalves, ` width="600mm" height="700mm"`, "", 1), "does not say how large", "units: mm"},
		{"pattern/skirt.svg#front", strings.Replace(twoHalves, `<g id="front">`, `<g id="front" style="display:none">`, 1), "it is hidden there", `show the layer "front"`},
		{"pattern/skirt.svg", strings.NewReplacer(`id="front"`, `id="front" display="none"`, `id="back"`, `id="back" display="none"`).Replace(twoHalves), `"front" is hidden there`, `show the layer "front"`},
		{"{file: pattern/skirt.svg#front, from: [0, 0]}", twoHalves, "drawn by a file and in the record", "leave from: out"},
		{"{file: pattern/skirt.svg#front, hem: [1, 2]}", twoHalves, "drawn by a file and in the record", "leave to: and curve: out"},
		{"pattern/skirt.svg#front", strings.Replace(twoHalves, "M250 10H10", "M250 10H60", 1), "mm", ""},
		{"{from: [0, 0], scale: 2, hem: [9, 0], side: [9, 9], back: {fold: true, to: [0, 0]}}", "", "scale: belongs to an outline from a file, and this one is drawn here", ""},
	} {
		b, faults := readSkirt(t, "    outline: "+c.outline+"\n", map[string]string{"pattern/skirt.svg": c.text})
		if len(faults) == 0 || !strings.Contains(faults[0].Message, c.says) || !strings.Contains(faults[0].Hint, c.hint) {
			t.Errorf("%s is answered with %v, want %q and %q", c.outline, faults, c.says, c.hint)
			continue
		}
		if !strings.HasPrefix(c.outline, "{") && (faults[0].At != b.Pieces[0].Outline.File.At || faults[0].At.Line != 9) {
			t.Errorf("%s is told at %v", c.outline, faults[0].At)
		}
		if c.text != "" && len(b.Pieces[0].Outline.Edges) > 0 {
			t.Errorf("%s: the piece has %d edges", c.outline, len(b.Pieces[0].Outline.Edges))
		}
	}
}

// TestOneFileReadOnce: two pieces of one file name it each, and both are drawn.
func TestOneFileReadOnce(t *testing.T) {
	b, faults := readSkirt(t, "    outline: pattern/skirt.svg#front\n  back: {of: shell, cut: 1 on fold, outline: pattern/skirt.svg#back}\n", map[string]string{"pattern/skirt.svg": twoHalves})
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	for i := range b.Pieces {
		if n := len(b.Pieces[i].Outline.Edges); n != 4 {
			t.Errorf("%s has %d edges", b.Pieces[i].Name.V, n)
		}
	}
	if e := b.Pieces[1].Outline.Edges; !e[1].Curve.Given() && !e[0].Curve.Given() && !e[2].Curve.Given() {
		t.Error("the curve of the back is lost")
	}
}
