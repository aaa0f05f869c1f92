package derive

import (
	"math"
	"strings"
	"testing"
)

// A rectangle with four different allowances; worked by hand: 200 + 2 × 15 =
// 230, 300 + 10 + 40 = 350, 230 × 350 − 200 × 300 = 20 500 mm².
func TestAllowanceOfRectangle(t *testing.T) {
	g := deriveClean(t, roomWith(t), `
cloth: {shell: linen}
pieces:
  panel:
    rectangle: [200, 300]
    allowance: 15
    edges: {top: 10, bottom: 40}
`)
	g.is(t, 1e-6, map[string]float64{
		"piece.panel.area":       600,
		"piece.panel.cut-area":   805,
		"piece.panel.allowance":  205,
		"piece.panel.share":      100 * 20500.0 / 80500,
		"piece.panel.width":      230,
		"piece.panel.height":     350,
		"cloth.shell.area":       0.06,
		"cloth.shell.cut-area":   0.0805,
		"cloth.shell.allowance":  0.0205,
		"total.allowance":        0.0205,
		"total.allowance-length": 1, // 200 + 300 + 200 + 300 mm
		"cloth.shell.mass":       0.0805 * 200,
		"total.mass":             16.1,
	})
}

// Ring skirts; geometry of the circle, values from the program's own table of
// checks (derived).
func TestRingSkirts(t *testing.T) {
	for _, c := range []struct {
		turns         string
		length        string
		radius, hem   float64
		area          float64 // m², 0 where the table has none
		panels        int
		panelsWritten string
	}{
		{"1", "740", 111.408, 5349.56, 0, 2, ", panels: 2"},
		{"3/4", "740", 148.545, 4187.17, 0, 2, ", panels: 2"},
		{"5/4", "740", 89.127, 6511.95, 2.6684, 2, ", panels: 2"},
		{"1", "600", 111.41, 4469.9, 1.5510, 2, ", panels: 2"},
		{"3/4", "600", 148.54, 3527.4, 1.2682, 2, ", panels: 2"},
		{"1/2", "600", 222.82, 2585.0, 0.9855, 2, ", panels: 2"},
		{"1/4", "600", 445.63, 1642.5, 0.7027, 1, ", panels: 1"},
		{"1 1/2", "600", 74.27, 6354.9, 2.1165, 2, ", panels: 2"},
	} {
		g := deriveClean(t, roomWith(t), `
cloth: {shell: linen}
pieces:
  skirt: {circle: {share: `+c.turns+`, waist: 700, length: `+c.length+c.panelsWritten+`}}
`)
		g.is(t, 0.05, map[string]float64{
			"piece.skirt.inner-radius": c.radius,
			"piece.skirt.hem":          c.hem,
			"piece.skirt.panels":       float64(c.panels),
		})
		if c.area > 0 {
			g.is(t, 1e-4, map[string]float64{"piece.skirt.ring-area": c.area})
		}
		sewn := g.find(t, "piece.skirt.edge.waist.length").Value.Number * float64(c.panels)
		if sewn < 699.99 || sewn > 700.01 {
			t.Errorf("%s turns: the panels' waists add up to %v, want 700", c.turns, sewn)
		}
	}
}

// A full circle in one piece: 2 × (111.41 + 600) = 1422.8, with a hem of 15
// 1452.8 (derived). It does not fit cloth of 1400, two halves do; and each
// half is 726.4 high.
func TestFewestPanels(t *testing.T) {
	const skirt = `
cloth: {shell: linen}
pieces:
  skirt: {allowance: 0, edges: {hem: 15}, circle: {share: 1, waist: 700, length: 600%s}}
`
	g := deriveClean(t, roomWith(t), strings.Replace(skirt, "%s", ", panels: 1", 1))
	g.is(t, 0.05, map[string]float64{"piece.skirt.width": 1452.8, "piece.skirt.panels": 1})
	// On 1500 two halves, 1452.8 wide, lie across; on 1400 three thirds of
	// 120°, 2 × 726.41 × sin 60° = 1258.2 wide.
	for width, want := range map[string][2]float64{"1500": {2, 1452.82}, "1400": {3, 1258.18}} {
		r := roomWith(t).file("content/cloth/linen.yaml", "name: Linen\nfibres: {linen: 100}\nwidth: "+width+"\n")
		g := deriveClean(t, r, strings.Replace(skirt, "%s", "", 1))
		g.is(t, 0.05, map[string]float64{"piece.skirt.panels": want[0], "piece.skirt.width": want[1]})
	}
}

// Godets of height 300; arcs and chords from the table of checks (derived).
func TestGodets(t *testing.T) {
	for angle, want := range map[string][2]float64{
		"angle: 30": {157.08, 155.29}, "angle: 45": {235.62, 229.61}, "angle: 60": {314.16, 300}, "angle: 90": {471.24, 424.26},
	} {
		g := deriveClean(t, roomWith(t), "cloth: {shell: linen}\npieces:\n  godet: {godet: {height: 300, "+angle+"}}\n")
		g.is(t, 0.005, map[string]float64{"piece.godet.adds": want[0], "piece.godet.chord": want[1], "piece.godet.edge.hem.length": want[0], "piece.godet.edge.left.length": 300})
	}
	g := deriveClean(t, roomWith(t), "cloth: {shell: linen}\npieces:\n  godet: {godet: {height: 300, hem: 300}}\n")
	g.is(t, 1e-4, map[string]float64{"piece.godet.angle": 57.2958, "piece.godet.adds": 300})
}

// Bias strips. 3200 mm of 40 mm: a square of 357.8 mm (derived). 250 in of
// 2 in: √500 = 22.36 in; a 20 in square yields 200 in of it (public
// soft-furnishing Q&A page). Single binding 4 ×: 1/2 in wants 2 in = 50.8 mm
// (M. Lewis article). A join of 6 mm takes 16.97 mm (derived).
func TestBias(t *testing.T) {
	r := roomWith(t).file("content/cloth/lawn.yaml", `
name: Lawn
fibres: {cotton: 100}
width: 1400
remnants: {corner: [[0, 0], [508, 0], [508, 508], [0, 508]]}
`)
	g := deriveClean(t, r, `
cloth: {shell: linen, trim: lawn}
bias:
  neck: {cut: 40, length: 3200}
  cushion: {cut: 2 in, length: 250 in, from: trim}
  single: {binding: single, finished: 1/2 in, length: 1000, joins: 2, overlap: 20}
  double: {binding: double, finished: 6, length: 1000}
`)
	g.is(t, 0.05, map[string]float64{
		"bias.neck.square":            357.8,
		"bias.cushion.square":         22.3607 * 25.4,
		"bias.cushion.remnant.corner": 200 * 0.0254,
		"bias.single.cut":             50.8,
		"bias.single.length":          1000 + 2*16.97 + 20,
		"bias.double.cut":             36,
		"bias.double.length":          1000,
	})
	// what is cut counts it: 3200 × 40 + 1053.94 × 50.8 + 1000 × 36 mm²; 250 × 2 in²
	g.is(t, 1e-5, map[string]float64{"cloth.shell.cut-area": 0.21754, "cloth.trim.cut-area": 0.32258})
}

// What seams and finishes take; published cases named beside each row.
func TestSeamTakes(t *testing.T) {
	for _, c := range []struct {
		name, with   string
		takes, width float64
		strip        float64
	}{
		// sewing-tutorial page "French seams": 3/8 + 2/8 = 5/8 in
		{"french", "first: 3/8 in, second: 1/4 in, trim: 1/8 in", 15.875, 6.35, 0},
		// common practice, no source
		{"french", "first: 6, second: 9, trim: 3", 15, 9, 0},
		// derived
		{"flat-felled", "allowance: 5/8 in, fold: 1/4 in, trim: 1/8 in", 15.875, 9.525, 0},
		// BellaOnline article "Mock French and flat felled"
		{"mock-french", "allowance: 5/8 in", 15.875, 7.9375, 0},
		// Wikipedia "Hong Kong seam", citing Schaeffer
		{"hong-kong", "allowance: 5/8 in", 15.875, 31.75, 22.225},
		// derived: π × 4 + 2 × 15
		{"piped", "allowance: 15, cord: 4", 15, 15, 42.566},
		// derived
		{"plain", "allowance: 15", 15, 30, 0},
	} {
		g := deriveClean(t, roomWith(t), `
cloth: {shell: linen}
pieces:
  one: {rectangle: [200, 300]}
  two: {rectangle: [200, 300]}
seams:
  side: {join: [one.right, two.left], type: `+c.name+`, `+c.with+`}
`)
		g.is(t, 1e-3, map[string]float64{"seam.side.takes-1": c.takes, "seam.side.takes-2": c.takes, "seam.side.width": c.width})
		// the edges get what the seam needs: the panels are 200 + takes + 15 wide
		g.is(t, 1e-3, map[string]float64{"piece.one.width": 215 + c.takes})
		if c.strip > 0 {
			g.is(t, 1e-3, map[string]float64{"seam.side.strip-1.cut": c.strip})
		}
	}
}

// Thread: 220 cm of 301 at 2.5 is 550 cm, 275 each (needlework Q&A page);
// 12.4 m with 10 % waste is 34.1 m (derived).
func TestThread(t *testing.T) {
	r := roomWith(t).file("content/workroom.yaml", "name: Test workroom\nusual: {thread-waste: 10}\n")
	for length, want := range map[string][3]float64{"2200": {2.75, 2.75, 6.05}, "12400": {15.5, 15.5, 34.1}} {
		g := deriveClean(t, r, `
cloth: {shell: linen}
thread: {rust: {colour: rust, reel: 20 m, weight: 4 g}}
pieces:
  one: {rectangle: [200, `+length+`]}
  two: {rectangle: [200, `+length+`]}
seams:
  side: {join: [one.right, two.left], type: plain}
`)
		g.is(t, 1e-9, map[string]float64{
			"thread.rust.needle": want[0], "thread.rust.under": want[1], "thread.rust.total": want[2],
			"thread.rust.mass": (want[0] + want[1]) / 20 * 4,
		})
	}
}

// Mass of cloth: 2.5 m × 1.40 m × 180 g/m² = 630 g (derived); 2.6 oz/yd² is
// 88.15 g/m² (derived from the definitions of ounce and yard).
func TestMass(t *testing.T) {
	for mass, want := range map[string]float64{"180 g/m2": 630, "2.6 oz/yd2": 3.5 * 88.1549} {
		r := roomWith(t).file("content/cloth/linen.yaml", "name: Linen\nfibres: {linen: 100}\nwidth: 1400\nweight: "+mass+"\n")
		g := deriveClean(t, r, "cloth: {shell: linen}\npieces: {all: {rectangle: [1400, 2500], allowance: 0}}\n")
		g.is(t, 0.01, map[string]float64{"total.mass": want})
	}
}

// A cloth of 0.1 × 0.1 m at 150 g/m² weighs 1.5 g; the zip, the hook and the interfacing
// have no weight, and each is named.
func TestWeightOfWhatHasOne(t *testing.T) {
	const build = "cloth: {shell: linen}\npieces: {all: {rectangle: [100, 100], allowance: 0}}\n"
	r := roomWith(t).file("content/cloth/linen.yaml", "name: Linen\nfibres: {linen: 100}\nwidth: 1400\nweight: 150 g/m2\n")
	for _, c := range []struct{ notions, beside string }{
		{"", ""},
		{"notions: {zip: {length: 200}}\n", "and the zip"},
		{"notions: {zip: {length: 200}, hook and bar: {count: 1}}\n", "and the zip and hook and bar"},
		{"notions: {zip: {length: 200}, button: {count: 1, weight: 2 g}}\n", "and the zip"},
	} {
		g := deriveClean(t, r, build+c.notions)
		f, beside := g.Totals.WeightBeside()
		want := 1.5
		if strings.Contains(c.notions, "2 g") {
			want = 3.5
		}
		if beside != c.beside || !f.Value.Known() || math.Abs(f.Value.Number-want) > 1e-9 {
			t.Errorf("%q: %v %q, want %v %q", c.notions, f.Value, beside, want, c.beside)
		}
	}
}

// A coat that came to be lined: its lining of 0.1 × 0.1 m at 150 g/m² weighs 1.5 g, and the
// coat itself, of a cloth that nothing is cut from, is not on any scale here. So the 1.5 g are
// those of the lining alone, and said to be.
func TestWeightOfWhatCameIsNotThatOfItsLining(t *testing.T) {
	r := roomWith(t).file("content/cloth/linen.yaml", "name: Linen\nfibres: {linen: 100}\nwidth: 1400\nweight: 150 g/m2\n").
		file("content/cloth/melton.yaml", "name: Melton\nfibres: {wool: 100}\nwidth: 1500\nweight: 620 g/m2\n")
	g := deriveClean(t, r, "cloth: {lining: linen, shell: melton}\npieces: {all: {of: lining, rectangle: [100, 100], allowance: 0}}\n")
	f, beside := g.Totals.WeightBeside()
	if beside != "and the shell" || !f.Value.Known() || math.Abs(f.Value.Number-1.5) > 1e-9 || g.Totals.Mass.Value.Known() {
		t.Errorf("%v %q, together %v", f.Value, beside, g.Totals.Mass.Value)
	}
	if why := g.Totals.Mass.Value.Why; why != "shell: nothing is cut from it" {
		t.Errorf("not known because %q", why)
	}
}

// A cloth without a mass leaves the mass unknown, never nothing.
func TestUnknownSaysWhy(t *testing.T) {
	r := roomWith(t).file("content/cloth/linen.yaml", "name: Linen\nfibres: {linen: 100}\nwidth: 1400\n")
	g := deriveClean(t, r, "cloth: {shell: linen}\npieces: {all: {rectangle: [100, 100]}}\n")
	for id, want := range map[string]string{
		"cloth.shell.mass":   "the cloth has no weight",
		"total.mass":         "shell: the cloth has no weight",
		"cloth.shell.needed": "no lay plan yet: hembook lay BUILD",
		"total.spent":        "no time is noted yet",
		"total.sewn":         "nothing is sewn",
	} {
		if got := g.find(t, id).Value.Why; got != want {
			t.Errorf("%s is not known because %q, want %q", id, got, want)
		}
	}
}
