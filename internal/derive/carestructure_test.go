package derive

import (
	"strings"
	"testing"
)

// TestCareOfStructure: layers and ways a garment is made, with what the label says and
// what sets each group of it. Where a figure is published its letter says where; what no
// table was found for is common practice.
//
//	X  GINETEX Switzerland licensing FAQ: the most fragile component decides
//	R  reinigen-lassen.com: iron 200 cotton, linen; 150 wool, polyester, viscose; 110 acrylic, polyamide, acetate
//	W  gewetex.de, Pflegehinweise; serviceok.at: fast colours 60, dark or intense colours 40
//	F  fuchserlei.de: wool 30, wool cycle or by hand
//	M  washing-machine-repair.co.uk: wool, silk, acrylic are not tumbled
//	–  common practice, no source
func TestCareOfStructure(t *testing.T) {
	cloth := func(name, fibres, more string) string {
		return "name: " + name + "\nwidth: 1400\nweight: 200 g/m2\nfibres: {" + fibres + "}\n" + more
	}
	linen, white := cloth("Linen", "linen: 100", "colour: rust\n"), cloth("Sheeting", "cotton: 100", "colour: white\n")
	wool, silk := cloth("Wool", "wool: 100", ""), cloth("Silk", "silk: 100", "")
	viscose, acetate := cloth("Lining", "viscose: 100", ""), cloth("Acetate", "acetate: 100", "")
	velvet := cloth("Velvet", "cotton: 100", "weave: velvet\nsurface: raised\ncolour: white\n")
	haircanvas := cloth("Hair canvas", "wool: 60, cotton: 40", "")
	for i, c := range []struct {
		cloths, notions, finish string // shell and a second part
		second                  string
		want                    string // wash, iron, professional, tumble
		washBy, ironBy          string
		source                  string
	}{
		{white, "", "", "", "wash-60 iron-200 clean-p tumble-low", "shell, Sheeting", "shell, Sheeting", "W R"},
		{linen, "", "", "", "wash-40 iron-200 clean-p tumble-low", "shell, Linen", "shell, Linen", "W R"},
		{cloth("Dark cotton", "cotton: 100", "colour: navy\n"), "", "", "", "wash-40 iron-200 clean-p tumble-low", "shell, Dark cotton", "shell, Dark cotton", "W R"},
		{cloth("Cotton", "cotton: 100", ""), "", "", "", "wash-40 iron-200 clean-p tumble-low", "shell, Cotton", "shell, Cotton", "W R, colour not written"},
		{wool, "", "", "", "wash-30-very-mild iron-150 clean-p tumble-none", "shell, Wool", "shell, Wool", "F R M"},
		{silk, "", "", "", "wash-30-very-mild iron-110 clean-p-mild tumble-none", "shell, Silk", "shell, Silk", "M –"},
		{linen, "", "", "lining: " + viscose, "wash-30-mild iron-150 clean-p tumble-none", "lining, Lining", "lining, Lining", "X R"},
		{linen, "", "", "lining: " + acetate, "wash-30-very-mild iron-110 clean-p-mild tumble-none", "lining, Acetate", "lining, Acetate", "X R"},
		{wool, "", "", "lining: " + viscose, "wash-30-very-mild iron-150 clean-p tumble-none", "shell, Wool", "shell, Wool; lining, Lining", "X F R"},
		{velvet, "", "", "", "wash-30-mild iron-none clean-p-mild tumble-none", "shell, Velvet", "shell, Velvet", "–"},
		{velvet, "buttons: {count: 3, material: mother of pearl}", "", "", "wash-30-mild iron-none clean-f-mild tumble-none", "shell, Velvet", "shell, Velvet", "–"},
		{linen, "buttons: {count: 3, material: mother of pearl}", "", "", "wash-40-mild iron-200 clean-f-mild tumble-none", "buttons of mother of pearl", "shell, Linen; buttons of mother of pearl", "–, a button lowers no iron"},
		{linen, "buttons: {count: 3, material: horn}", "", "", "wash-30-very-mild iron-200 clean-f-mild tumble-none", "buttons of horn", "shell, Linen; buttons of horn", "–"},
		{linen, "buttons: {count: 3, material: wood}", "", "", "wash-30-very-mild iron-200 clean-f-mild tumble-none", "buttons of wood", "shell, Linen; buttons of wood", "–"},
		{linen, "hooks: {count: 3, material: coated steel}", "", "", "wash-40-mild iron-200 clean-p-mild tumble-none", "hooks of coated steel", "shell, Linen; hooks of coated steel", "–"},
		{linen, "waist elastic: {length: 600, what: elastic}", "", "", "wash-40-mild iron-110 clean-f tumble-none", "waist elastic", "waist elastic", "–, it runs under the iron"},
		{linen, "sequins: {count: 100}", "", "", "do-not-wash iron-none clean-none tumble-none", "sequins", "sequins", "X –"},
		{linen, "rhinestones: {count: 9}", "", "", "wash-30-very-mild iron-none clean-none tumble-none", "rhinestones", "rhinestones", "–, glued"},
		{linen, "boning: {length: 900, material: coated steel}", "", "", "wash-hand iron-200 clean-p-mild tumble-none", "its boning", "shell, Linen; boning of coated steel; its boning", "–, boned"},
		{white, "busk: {count: 1, material: steel}", "", "", "wash-hand iron-200 clean-p-mild tumble-none", "its boning", "shell, Sheeting; busk of steel; its boning", "–, boned"},
		{wool, "", "", "canvas: " + haircanvas, "do-not-wash iron-150 clean-p-mild tumble-none", "its canvas", "shell, Wool; canvas, Hair canvas", "–, canvassed"},
		{white, "", "", "fusing: " + cloth("Fusing", "polyester: 100", ""), "wash-40-mild iron-150 clean-p-mild tumble-none", "fusing, Fusing; its fusible interfacing", "fusing, Fusing; its fusible interfacing", "–, fused"},
		{white, "", "raw", "", "wash-60-mild iron-200 clean-p-mild tumble-none", "its raw edges", "shell, Sheeting; its raw edges", "–, raw edges"},
		{cloth("Jersey", "cotton: 100", "structure: knitted\ncolour: white\n"), "", "raw", "", "wash-60 iron-200 clean-p tumble-low", "shell, Jersey", "shell, Jersey", "a knit does not fray"},
		{cloth("Hand-painted silk", "silk: 100", ""), "", "", "", "wash-hand iron-110 clean-none tumble-none", "its painted cloth", "shell, Hand-painted silk", "–, painted"},
		{cloth("Batik", "cotton: 100", ""), "", "", "", "wash-hand iron-150 clean-none tumble-none", "its painted cloth", "its painted cloth", "–, dyed by hand"},
		{cloth("Fleece", "polyester: 100", "surface: raised\n"), "zip: {length: 600, material: polyester}", "", "", "wash-40-mild iron-150 clean-p tumble-low", "shell, Fleece; zip of polyester", "shell, Fleece; zip of polyester", "R"},
	} {
		r := roomWith(t).file("content/cloth/a.yaml", c.cloths)
		cloths := "cloth: {shell: a}\n"
		pieces := "pieces:\n  a: {of: shell, cut: 1, rectangle: [1000, 1800]}\n"
		if part, text, ok := strings.Cut(c.second, ": "); ok {
			r.file("content/cloth/b.yaml", text)
			cloths = "cloth: {shell: a, " + part + ": b}\n"
			pieces += "  b: {of: " + part + ", cut: 1, rectangle: [400, 600]}\n"
		}
		if c.finish != "" {
			pieces += "finishes:\n  hem: {of: a.bottom, type: " + c.finish + "}\n"
		}
		if c.notions != "" {
			pieces += "notions: {" + c.notions + "}\n"
		}
		d := r.desk()
		g, _ := d.derive(t, head+cloths+pieces)
		care := d.tailor.Care(g)
		named := map[string]string{}
		for _, a := range care.Axes {
			named[a.Name] = a.Options[0].Name
		}
		got := strings.Join([]string{named["wash"], named["iron"], named["professional"], named["dry"]}, " ")
		if got != c.want || setBy(care, "wash") != c.washBy || setBy(care, "iron") != c.ironBy {
			t.Errorf("%d: %s %s %s (%s):\n%s, wash by %q, iron by %q; want\n%s, wash by %q, iron by %q", i+1, strings.SplitN(c.cloths, "\n", 2)[0], c.second, c.notions+c.finish, c.source,
				got, setBy(care, "wash"), setBy(care, "iron"), c.want, c.washBy, c.ironBy)
		}
	}
}
