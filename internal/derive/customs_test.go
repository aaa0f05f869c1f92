package derive

import (
	"strings"
	"testing"
)

// Headings by an open data set of HS descriptions; net mass by our own rule.
func TestCustoms(t *testing.T) {
	for _, c := range []struct {
		garment, who, fibres, structure, hs, why string
		net                                      float64
	}{
		{"dress", "woman", "silk: 100", "woven", "6204.49", "", 0.37},
		{"dress", "woman", "cotton: 60, polyester: 40", "woven", "6204.42", "", 0.37},
		{"dress", "girl", "wool: 100", "knitted", "6104.41", "", 0.37},
		{"skirt", "woman", "linen: 100", "woven", "6204.59", "", 0.37},
		{"blouse", "woman", "silk: 100", "woven", "6206.10", "", 0.37},
		{"shirt", "man", "cotton: 100", "woven", "6205", "", 0.37},
		{"trousers", "man", "cotton: 100", "woven", "6203", "", 0.37},
		{"dress", "baby", "cotton: 100", "woven", "6209", "", 0.37},
		{"waistcoat", "man", "cotton: 100", "woven", "6211", "", 0.37},
		{"dress", "woman", "cotton: 40, polyester: 30, viscose: 30", "woven", "6204.44", "", 0.37}, // HTSUS, Section XI, note 2(B)(c)
		{"kite", "woman", "silk: 100", "woven", "", `no customs heading is known for "kite"`, 0.37},
		{"top", "boy", "cotton: 100", "knitted", "", `no customs heading is known for "top"; there are dress, skirt`, 0.37}, // not "men's top", which is near "men's coat"
	} {
		r := roomWith(t).file("content/cloth/linen.yaml", "name: Cloth\nwidth: 1400\nweight: 203 g/m2\nfibres: {"+c.fibres+"}\nstructure: "+c.structure+"\n")
		d := r.desk()
		g, _ := d.derive(t, strings.Replace(head, "garment: dress", "garment: "+c.garment, 1)+"for: "+c.who+"\ncloth: {shell: linen}\npieces: {a: {of: shell, cut: 1, allowance: 0, rectangle: [1000, 1800]}}\n")
		got := d.tailor.Customs(g, d.tailor.Content(g))
		if got.HS.Code != c.hs || !strings.Contains(got.Why, c.why) || got.Net.Value.Number != c.net {
			t.Errorf("%s of %s for a %s: %q %q %v kg", c.garment, c.fibres, c.who, got.HS.Code, got.Why, got.Net.Value.Number)
		}
	}
}

// A lining does not decide (HTSUS, Section XI, subheading note 2(B)(a)): 203 g of
// cotton outside, 300 g of polyester inside.
func TestCustomsWithoutLining(t *testing.T) {
	r := roomWith(t).
		file("content/cloth/linen.yaml", "name: Cloth\nwidth: 1400\nweight: 203 g/m2\nfibres: {cotton: 100}\nstructure: woven\n").
		file("content/cloth/inside.yaml", "name: Inside\nwidth: 1400\nweight: 300 g/m2\nfibres: {polyester: 100}\nstructure: knitted\n")
	d := r.desk()
	g, _ := d.derive(t, head+"for: woman\ncloth: {shell: linen, lining: inside}\npieces:\n  a: {of: shell, cut: 1, allowance: 0, rectangle: [1000, 1000]}\n  b: {of: lining, cut: 1, allowance: 0, rectangle: [1000, 1000]}\n")
	got := d.tailor.Customs(g, d.tailor.Content(g))
	if got.HS.Code != "6204.42" || !got.Outer || got.Knit || got.Most == nil || got.Most.Chapter.Chapter != "52" {
		t.Errorf("%+v, %q", got.HS, got.Why)
	}
}
