package derive

import (
	"slices"
	"strings"
	"testing"

	"hembook/internal/fault"
	"hembook/internal/label"
	"hembook/internal/trade"
)

func (g *Garment) cautioned(id string) (label.Caution, bool) {
	for _, c := range g.Cautions {
		if c.ID == id {
			return c, true
		}
	}
	return label.Caution{}, false
}

// The boundary of 16 CFR 1610.1(d)(1): plain cotton of 88.0 g/m² is flagged,
// of 88.2 not; polyester of any mass is not (16 CFR 1610.1(d)(2), read).
func TestFlammableBoundary(t *testing.T) {
	for _, c := range []struct {
		cloth string
		want  bool
	}{
		{"fibres: {cotton: 100}\nweight: 88.0 g/m2\n", true},
		{"fibres: {cotton: 100}\nweight: 88.2 g/m2\n", false},
		{"fibres: {silk: 100}\nweight: 60 g/m2\n", true},
		{"fibres: {polyester: 100}\nweight: 40 g/m2\n", false},
		{"fibres: {polyester: 95, elastane: 5}\nweight: 60 g/m2\n", true},
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

// Only the private file says that it is for a child: the maker is told, the
// packet waits, and nothing of it is in the cautions.
func TestChildInPrivateFile(t *testing.T) {
	for _, wearer := range []string{"name: Pip\nfor: {who: girl, age: 5}\n", "name: Pip\nbody: {chest: 565}\nunits: mm\n", "name: Pip\nfor: {age: 9}\n"} {
		r := roomWith(t).file("content/wearers/pip.yaml", wearer)
		g, _ := r.desk().derive(t, head+"wearer: pip\nnotions: {ties: {count: 2, where: neck}}\n")
		if len(g.Faults) != 1 || g.Faults[0].Message != "who it is for: not written, so that what hangs on it cannot be judged" {
			t.Errorf("faults: %v", g.Faults)
		}
		if len(g.Children) != 1 || g.Children[0].Verdict != label.Asked {
			t.Errorf("the packet does not wait: %v", g.Children)
		}
		if c, ok := g.cautioned("cords-young-child"); ok {
			t.Errorf("a public caution tells what only the private file says: %v", c)
		}
	}
}

// TestCautionsInMakersWords: for every caution a record in words a maker would
// use calls for it, and the same record without them does not.
func TestCautionsInMakersWords(t *testing.T) {
	const girl = "for: {who: girl, age: 5}\n"
	records := map[string]string{
		"flammable-light":       "cloth: {shell: chiffon}\n",
		"flammable-raised":      "cloth: {shell: flannel}\n",
		"flammable-unknown":     "cloth: {shell: mystery}\n",
		"net-never-washed":      "cloth: {shell: tulle}\n",
		"cords-young-child":     girl + "notions: {satin ribbon: {where: neck}}\n",
		"cords-older-child":     "for: {who: boy, age: 10}\nnotions: {drawcord and toggles: {where: hood}}\n",
		"cords-child-elsewhere": girl + "notions: {tie belt: {where: waist, length: 300}}\n",
		"drawstrings-us":        "for: {who: boy, age: 15}\nnotions: {waist cord: {kind: drawstring, where: waist, free: 120}}\n",
		"child-nightwear":       "GARMENT: nightshirt\n" + girl,
		"child-nightwear-us":    "GARMENT: pyjama trousers\n" + girl,
		"small-parts":           "for: {who: baby, age: 1}\nnotions: {pearl buttons: {count: 3}}\n",
		"nickel":                "notions: {press studs: {count: 4, material: brass}}\n",
		"boning":                "notions: {spiral boning: {count: 2}}\n",
		"braid-ends":            "notions: {horsehair braid: {length: 3000}}\n",
		"hem-weights":           "notions: {lead tape: {where: hem}}\n",
		"magnets":               "notions: {magnetic snap: {count: 2}}\n",
		"trailing":              "GARMENT: ball gown\n",
		"pins":                  "",
		"broken-needle":         "",
		"pressing":              "work: {press the seams open:}\n",
		"blades":                "work: {cut out with shears:}\n",
		"laser":                 "work: {level the hem by laser level:}\n",
		"laser-cutting":         "work: {trim the edges with a hot knife:}\n",
		"dust":                  "work: {hold it with basting spray:}\n",
		"markers":               "work: {mark the darts with chalk:}\n",
		"dyes":                  "work: {dye the lining:}\n",
		"fibre-label-eu":        "wearer: robin\n",
		"care-marks":            "wearer: robin\n",
		"fibre-label-us":        "wearer: robin\n",
		"care-label-us":         "wearer: robin\n",
		"animal-parts":          "notions: {buttons: {material: horn}}\n",
		"shipping":              "sent: 2026-08-03\n",
		"home":                  "wearer: robin\n",
		"not-tested":            "wearer: robin\n",
	}
	room := func(market string) *desk {
		return roomWith(t).
			file("content/workroom.yaml", "name: Test workroom\nrules: "+market+"\n").
			file("content/wearers/robin.yaml", "name: Robin\nfor: woman\n").
			file("content/cloth/chiffon.yaml", "name: Chiffon\nfibres: {silk: 100}\nweight: 45 g/m2\nwidth: 1400\n").
			file("content/cloth/flannel.yaml", "name: Flannel\nfibres: {cotton: 100}\nweight: 170 g/m2\nwidth: 1400\nsurface: raised\n").
			file("content/cloth/mystery.yaml", "name: Mystery\nfibres: {silk: 100}\nwidth: 1400\n").
			file("content/cloth/tulle.yaml", "name: Tulle\nfibres: {polyamide: 100}\nweight: 30 g/m2\nwidth: 1400\nweave: tulle\n").desk()
	}
	rooms := map[string]*desk{"eu": room("EU"), "us": room("US")}
	derive := func(market, build string) *Garment {
		garment := "coat"
		if name, rest, ok := strings.Cut(strings.TrimPrefix(build, "GARMENT: "), "\n"); ok && strings.HasPrefix(build, "GARMENT: ") {
			garment, build = name, rest
		}
		g, _ := rooms[market].derive(t, "name: Test\nstate: sewing\ngarment: "+garment+"\n"+build)
		return g
	}
	plain := map[string]*Garment{"eu": derive("eu", ""), "us": derive("us", "")}
	for _, c := range trade.Cautions() {
		build, ok := records[c.ID]
		if !ok {
			t.Errorf("no record calls for the caution %s", c.ID)
			continue
		}
		market := "eu"
		if strings.HasSuffix(c.ID, "-us") {
			market = "us"
		}
		if _, ok := derive(market, build).cautioned(c.ID); !ok {
			t.Errorf("%s: %q does not call for it", c.ID, build)
		}
		if _, ok := plain[market].cautioned(c.ID); ok != c.When.Always {
			t.Errorf("%s: a coat of which nothing is known: %v", c.ID, ok)
		}
	}
}

// A technique's page may name cautions of its own.
func TestTechniqueCautions(t *testing.T) {
	r := roomWith(t).file("content/techniques/level.md", "---\nname: Levelling\nsummary: Levelled by a line of light.\ncautions: [laser]\n---\n")
	g := deriveClean(t, r, "work: {hang: {technique: level}}\n")
	if c, ok := g.cautioned("laser"); !ok || c.Why != "hang: Levelling" {
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
		`there is no body measurement "elbow width"`,
		"this hip is outside everyone measured in the survey",
		`formula "allowanse" uses "allowanse", which is no measure of own`,
	}
	for _, w := range want {
		if !slices.ContainsFunc(faults, func(f fault.Fault) bool { return f.Message == w }) {
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
			if f.Message != "this waist beside this hip is outside everyone measured in the survey" || f.Severity != fault.Warning {
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
	g := deriveClean(t, r, twoPanels+"seams: {side: {join: [one.right, two.left], type: ferry, near: 5}}\n")
	g.is(t, 1e-9, map[string]float64{
		"seam.side.takes-1": 5, "seam.side.takes-2": 15, "seam.side.width": 10,
		"piece.one.edge.right.allowance": 5, "piece.two.edge.left.allowance": 15,
	})
}
