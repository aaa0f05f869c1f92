package garment

import (
	"slices"
	"strings"
	"testing"

	"hembook/internal/record"
	"hembook/internal/trade"
)

func (g *Garment) cautioned(id string) (Caution, bool) {
	for _, c := range g.Cautions {
		if c.ID == id {
			return c, true
		}
	}
	return Caution{}, false
}

// The boundary of 16 CFR 1610.1(d)(1): plain cotton of 88.0 g/m² is flagged,
// of 88.2 not; polyester of any mass is not (16 CFR 1610.1(d)(2), read).
func TestFlammableBoundary(t *testing.T) {
	for _, c := range []struct {
		cloth string
		want  bool
	}{
		{"fibres: {cotton: 100}\nmass: 88.0 g/m2\n", true},
		{"fibres: {cotton: 100}\nmass: 88.2 g/m2\n", false},
		{"fibres: {silk: 100}\nmass: 60 g/m2\n", true},
		{"fibres: {polyester: 100}\nmass: 40 g/m2\n", false},
		{"fibres: {polyester: 95, elastane: 5}\nmass: 60 g/m2\n", true},
	} {
		r := roomWith(t).file("content/cloth/linen.yaml", "name: Cloth\nwidth: 1400\n"+c.cloth)
		g := deriveClean(t, r, "cloth: {shell: linen}\n")
		found, got := g.cautioned("flammable-light")
		if got != c.want {
			t.Errorf("%q: flagged %v, want %v", c.cloth, got, c.want)
		}
		if got && (found.At.Line != 4 || !strings.HasPrefix(found.Why, "shell, Cloth: light plain cloth")) {
			t.Errorf("%q: called for by %q on line %d", c.cloth, found.Why, found.At.Line)
		}
	}
}

// Cords at the neck of children: EN 14682 as summarised by Tukes, under 7
// years or 134 cm.
func TestCordsOfChildren(t *testing.T) {
	const ties = "notions: [{what: ties, count: 2, length: 400, where: %s}]\n"
	for _, c := range []struct {
		who, where string
		want       []string
	}{
		{"for: {who: girl, age: 5}\n", "neck", []string{"cords-young-child"}},
		{"for: {who: girl, age: 5}\n", "back", []string{"cords-child-elsewhere"}},
		{"for: {who: boy, age: 9}\n", "neck", []string{"cords-older-child"}},
		{"for: {who: boy, height: 1250}\n", "neck", []string{"cords-young-child"}},
		{"for: girl\n", "neck", []string{"cords-young-child"}}, // unsaid: the stricter case
		{"for: {who: woman, age: 30}\n", "neck", nil},
		{"for: woman\n", "neck", nil},
		{"", "neck", nil},
	} {
		g := deriveClean(t, roomWith(t), c.who+strings.Replace(ties, "%s", c.where, 1))
		var got []string
		for _, one := range g.Cautions {
			if strings.HasPrefix(one.ID, "cords-") {
				got = append(got, one.ID)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%q at the %s: %v, want %v", c.who, c.where, got, c.want)
		}
	}
}

// Only the private file says that it is for a child: the maker is told, and
// nothing of it is in the cautions.
func TestChildInPrivateFile(t *testing.T) {
	r := roomWith(t).file("content/wearers/pip.yaml", "name: Pip\nfor: {who: girl, age: 5}\n")
	g, _ := r.desk().derive(t, head+"wearer: pip\nnotions: [{what: ties, count: 2, where: neck}]\n")
	if len(g.Faults) != 1 || g.Faults[0].Message != "the record does not say who it is for, so that some cautions cannot be looked at" {
		t.Errorf("faults: %v", g.Faults)
	}
	if c, ok := g.cautioned("cords-young-child"); ok {
		t.Errorf("a public caution tells what only the private file says: %v", c)
	}
}

// The prepared table answers as the trade's own evaluation does.
func TestCautionsAgreeWithTrade(t *testing.T) {
	r := roomWith(t).file("content/cloth/velvet.yaml", "name: Velvet\nfibres: {silk: 100}\nmass: 200 g/m2\nwidth: 1400\nsurface: raised\nweave: velvet\n")
	for _, c := range []struct {
		build string
		facts trade.Facts
	}{
		{"", trade.Facts{Garments: []string{"dress"}}},
		{"cloth: {shell: velvet}\nnotions: [{what: boning, count: 2}, {what: zip}, {what: buttons}]\n", trade.Facts{
			Garments: []string{"dress"}, Notions: []string{"boning", "zip", "buttons"}, Materials: []string{"silk", "velvet"},
			Cloths: []trade.ClothFacts{{Name: "Velvet", Fibres: []string{"silk"}, Mass: 200, Surface: trade.RaisedSurface}},
		}},
		{"for: {who: baby, age: 1}\nwork: [{do: press with a steam iron, stage: pressing}, {do: cutting}]\nsent: 2026-08-03\nnotions: [{what: buttons, material: horn}]\n", trade.Facts{
			Garments: []string{"dress"}, ChildAge: new(1.0), Notions: []string{"buttons"}, Materials: []string{"horn"},
			Tools: []string{"press", "steam iron", "pressing", "cutting", "iron", "steam"}, Ships: true,
		}},
	} {
		var got, want []string
		for _, one := range deriveClean(t, r, c.build).Cautions {
			got = append(got, one.ID)
		}
		for _, one := range trade.CautionsFor(c.facts) {
			want = append(want, one.ID)
		}
		if !slices.Equal(got, want) {
			t.Errorf("%q\n got %v\nwant %v", c.build, got, want)
		}
	}
}

// A technique's page may name cautions of its own.
func TestTechniqueCautions(t *testing.T) {
	r := roomWith(t).file("content/techniques/level.md", "---\nname: Levelling\nsummary: Levelled by a line of light.\ncautions: [laser]\n---\n")
	g := deriveClean(t, r, "work: [{do: hang it, id: hang, technique: level}]\n")
	if c, ok := g.cautioned("laser"); !ok || c.Why != "the technique Levelling, step hang" {
		t.Errorf("caution of the technique: %v %+v", ok, c)
	}
}

func TestRoomFaults(t *testing.T) {
	r := roomWith(t).
		file("content/cloth/linen.yaml", "name: Linen\nfibres: {linnen: 100}\nwidth: 1400\n").
		file("content/wearers/pip.yaml", "name: Pip\nfor: woman\nunits: mm\nbody:\n  bust: 92\n  waist: 620\n  elbow width: 70\n  hip: 790\n").
		file("content/techniques/seam.md", "---\nname: Seam\nsummary: A seam.\nseam: frnech\ncautions: [hot iron]\n---\n").
		file("content/workroom.yaml", "name: Test\nseam-types:\n  - {name: own, title: Own, kind: seam, gives: {a: allowanse, b: allowance}, width: allowance, parameters: [{name: allowance, title: allowance, default: 10}]}\n")
	_, _, faults := r.open()
	want := []string{
		`there is no fibre "linnen"`,
		`there is no seam type or finish "frnech"`,
		`there is no caution "hot iron"`,
		"this bust cannot be a body's",
		`"elbow width" is no body measurement with a standard name`,
		"this hip is outside everyone measured in the survey",
		`formula "allowanse" uses "allowanse", which is no measure of own`,
	}
	for _, w := range want {
		if !slices.ContainsFunc(faults, func(f record.Fault) bool { return f.Message == w }) {
			t.Errorf("missing: %s\nthere are: %v", w, faults)
		}
	}
	for _, f := range faults {
		if strings.Contains(f.At.File(), "wearers") && strings.ContainsAny(f.Message+f.Hint, "0123456789") {
			t.Errorf("a private value is quoted: %s", f)
		}
	}
}

// Waist ÷ hip of women was at most 1.104 (computed from the ANSUR II
// databases).
func TestBodyRatios(t *testing.T) {
	for waist, want := range map[string]int{"1100": 0, "1110": 1} {
		r := roomWith(t).file("content/wearers/ada.yaml", "name: Ada\nfor: woman\nbody: {waist: "+waist+", hip: 1000}\n")
		_, _, faults := r.open()
		if len(faults) != want {
			t.Errorf("waist %s over hip 1000: %v, want %d warnings", waist, faults, want)
		}
		for _, f := range faults {
			if f.Message != "this waist beside this hip is outside everyone measured in the survey" || f.Severity != record.Warning {
				t.Errorf("%s", f)
			}
		}
	}
}

// A workroom's own seam type is used like one of the trade's.
func TestOwnSeamType(t *testing.T) {
	r := roomWith(t).file("content/workroom.yaml", `name: Test
seam-types:
  - name: ferry
    title: Ferry seam
    kind: seam
    summary: Invented for this test.
    use: Nowhere else.
    parameters: [{name: near, title: near side, default: 4}]
    gives: {a: near, b: 3 * near}
    width: 2 * near
    passes: [{do: "stitch {near} from the edge", at: near, from: edge, together: right}]
    section: {layers: [{of: cloth a, path: [[0, 0], [near, 0]]}]}
    source: invented
`)
	g := deriveClean(t, r, twoPanels+"seams: [{name: side, join: [one.right, two.left], type: ferry, near: 5}]\n")
	g.is(t, 1e-9, map[string]float64{
		"seam.side.takes-1": 5, "seam.side.takes-2": 15, "seam.side.width": 10,
		"piece.one.edge.right.allowance": 5, "piece.two.edge.left.allowance": 15,
	})
}
