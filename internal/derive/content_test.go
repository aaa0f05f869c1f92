package derive

import (
	"fmt"
	"hembook/internal/label"
	"math"
	"strconv"
	"strings"
	"testing"
)

// contentText writes a content as a label would, for comparing.
func contentText(c *label.Content) string {
	var out []string
	for _, k := range c.Components {
		must := ""
		if !k.Must {
			must = " (may be left out)"
		}
		out = append(out, strings.Join(k.Parts, "+")+": "+partsText(k.Fibres)+must)
	}
	return strings.Join(out, " | ")
}

func partsText(list []label.FibrePart) string {
	var out []string
	for _, f := range list {
		out = append(out, f.Name+" "+strconv.FormatFloat(math.Round(f.Label*10)/10, 'f', -1, 64)+" %")
	}
	return strings.Join(out, ", ")
}

func TestContent(t *testing.T) {
	piece := func(name, part string, m2 float64) string {
		return fmt.Sprintf("  %s: {of: %s, cut: 1, allowance: 0, rectangle: [1000, %g]}\n", name, part, m2*1000)
	}
	cloth := func(fibres string, mass float64) string {
		return fmt.Sprintf("name: Cloth %s\nwidth: 1400\nfibres: {%s}\nweight: %g g/m2\n", strings.ReplaceAll(fibres, ":", ""), fibres, mass)
	}
	for _, c := range []struct {
		name, rules string
		cloths      map[string]string
		use, pieces string
		want, whole string
	}{
		// derived from Regulation (EU) No 1007/2011, Annex VII and art. 11(2):
		// outer 270 g, main lining 120 g, interlining left out
		{
			"wool and silk with a lining", "EU",
			map[string]string{"a": cloth("wool: 70, silk: 30", 150), "b": cloth("viscose: 100", 80), "c": cloth("cotton: 100", 50)},
			"{shell: a, lining: b, interlining: c}", piece("a", "shell", 1.8) + piece("b", "lining", 1.5) + piece("c", "interlining", 0.4),
			"shell: wool 70 %, silk 30 % | lining: viscose 100 %", "wool 48 %, viscose 31 %, silk 21 %",
		},
		{ // art. 11(2): 100 g in 500 g need not be labelled
			"a yoke of a fifth", "EU",
			map[string]string{"a": cloth("cotton: 100", 100), "b": cloth("silk: 100", 100)},
			"{shell: a, yoke: b}", piece("a", "shell", 4) + piece("b", "yoke", 1),
			"shell: cotton 100 % | yoke: silk 100 % (may be left out)", "cotton 80 %, silk 20 %",
		},
		{ // 150 g in 500 g must be
			"a yoke of three tenths", "EU",
			map[string]string{"a": cloth("cotton: 100", 100), "b": cloth("silk: 100", 100)},
			"{shell: a, yoke: b}", piece("a", "shell", 3.5) + piece("b", "yoke", 1.5),
			"shell: cotton 100 % | yoke: silk 100 %", "cotton 70 %, silk 30 %",
		},
		{ // EU names 4 % elastane; the smaller comes last
			"stretch", "EU", map[string]string{"a": cloth("elastane: 4, cotton: 96", 100)}, "{shell: a}", piece("a", "shell", 1),
			"shell: cotton 96 %, elastane 4 %", "cotton 96 %, elastane 4 %",
		},
		{ // 16 CFR 303.3: spandex has a function and is named; 3 % silk is "other fiber"
			"small fibres in the United States", "US", map[string]string{"a": cloth("viscose: 93, elastane: 4, silk: 3", 100)}, "{shell: a}", piece("a", "shell", 1),
			"shell: rayon 93 %, spandex 4 %, other fibres 3 %", "rayon 93 %, spandex 4 %, other fibres 3 %",
		},
		{ // one name for two fibres: viscose and modal are rayon in the United States
			"rayon twice", "US", map[string]string{"a": cloth("viscose: 60, modal: 40", 100)}, "{shell: a}", piece("a", "shell", 1),
			"shell: rayon 100 %", "rayon 100 %",
		},
		{ // cloths of the same fibres are one component
			"twice cotton", "EU", map[string]string{"a": cloth("cotton: 100", 100), "b": cloth("cotton: 100", 200)},
			"{shell: a, overlay: b}", piece("a", "shell", 1) + piece("b", "overlay", 1), "shell+overlay: cotton 100 %", "cotton 100 %",
		},
		{ // Regulation (EU) No 1007/2011, Annex VIII, chapter 3, IV, variant 1
			"dry masses", "EU",
			map[string]string{"a": cloth("wool: 10.3, polyamide: 50, cotton: 39.7", 100) + "dry-mass: {shares: true, form: {wool: carded, polyamide: staple}, lost: {cotton: 4}}\n"},
			"{shell: a}", piece("a", "shell", 1), "shell: polyamide 48.4 %, cotton 40.6 %, wool 11 %", "polyamide 48 %, cotton 41 %, wool 11 %",
		},
		{ // "other fibres" come last (art. 9(2))
			"other fibres", "EU", map[string]string{"a": cloth("other fibres: 12, cotton: 44, wool: 44", 100)}, "{shell: a}", piece("a", "shell", 1),
			"shell: cotton 44 %, wool 44 %, other fibres 12 %", "cotton 44 %, wool 44 %, other fibres 12 %",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := roomWith(t).file("content/workroom.yaml", "name: Test workroom\nrules: "+c.rules+"\n")
			for name, text := range c.cloths {
				r.file("content/cloth/"+name+".yaml", text)
			}
			d := r.desk()
			g, faults := d.derive(t, head+"cloth: "+c.use+"\npieces:\n"+c.pieces)
			for _, f := range append(faults, g.Faults...) {
				t.Errorf("fault: %s", f)
			}
			content := d.tailor.Content(g)
			if got := contentText(content); got != c.want {
				t.Errorf("got  %s\nwant %s", got, c.want)
			}
			if got := partsText(content.Whole); got != c.whole {
				t.Errorf("whole %s\nwant  %s (%s)", got, c.whole, content.WholeWhy)
			}
			for _, f := range content.Figures() {
				if f.ID == "" || f.Working.Rule == "" || f.Working.Source == "" {
					t.Errorf("a figure without a working: %+v", f)
				}
			}
		})
	}
}

func TestContentUnknownMass(t *testing.T) {
	r := roomWith(t).file("content/cloth/a.yaml", "name: A\nwidth: 1400\nfibres: {silk: 100}\n")
	d := r.desk()
	g, _ := d.derive(t, head+"cloth: {shell: linen, yoke: a}\npieces:\n  a: {of: shell, cut: 1, rectangle: [1000, 1800]}\n  b: {of: yoke, cut: 1, rectangle: [100, 180]}\n")
	c := d.tailor.Content(g)
	if len(c.Whole) != 0 || c.WholeWhy == "" {
		t.Errorf("the whole is known: %v", c.Whole)
	}
	for _, k := range c.Components {
		if !k.Must {
			t.Errorf("%v need not be stated, though its share is not known", k.Parts)
		}
	}
}
