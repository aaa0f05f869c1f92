package derive

import (
	"strings"
	"testing"
)

// TestUsualWeightsOfTrims: trims that nobody weighed count in the net weight with what
// they usually weigh. By hand, onto 1.8 m² of 203 g/m², 365.4 g: two metres of a brass zip
// at 55 g, 110; a hundred buttons of 18 mm and 3 mm thick at 1.3 g/cm³, 0.99 g each (pi/4
// of 18 squared, times 3, is 763 mm³), 99; of pearl at 2.7, 2.06 each, 206; a hundred
// hooks and eyes at 0.3, 30. All rounded up to 0.01 kg.
func TestUsualWeightsOfTrims(t *testing.T) {
	for _, c := range []struct {
		notion  string
		net     float64 // kg; 0 for not known
		weighed bool
	}{
		{"zip: {length: 2000, material: brass, count: 1}", 0.48, false},
		{"zip: {length: 2000, material: polyester, count: 1}", 0.42, false},
		{"buttons: {count: 100, size: 18, material: corozo}", 0.47, false},
		{"buttons: {count: 100, size: 18, material: mother of pearl}", 0.58, false},
		{"hook and eye: {count: 100, material: coated brass}", 0.40, false},
		{"hook and eye: {count: 100, material: coated brass, weight: 1 g}", 0.47, false},
		{"buttons: {count: 6, size: 18, material: brass}", 0, false}, // it may be hollow
		{"buckle: {count: 1, material: steel}", 0, false},
		{"buckle: {count: 1, material: steel}\npacket: {net: 512 g}", 0.52, true},
	} {
		r := roomWith(t).file("content/cloth/linen.yaml", "name: Cloth\nwidth: 1400\nweight: 203 g/m2\nfibres: {linen: 100}\n")
		d := r.desk()
		g, _ := d.derive(t, head+"for: woman\ncloth: {shell: linen}\npieces: {a: {of: shell, cut: 1, allowance: 0, rectangle: [1000, 1800]}}\nnotions:\n  "+c.notion+"\n")
		got := d.tailor.Customs(g, d.tailor.Content(g))
		if got.Net.Value.Known() != (c.net > 0) || got.Net.Value.Known() && got.Net.Value.Number != c.net || got.Weighed != c.weighed {
			t.Errorf("%s: %v, weighed %v; not %v", c.notion, got.Net.Value, got.Weighed, c.net)
		}
		if usual := strings.Contains(got.Net.Working.Rule, "usually weigh"); usual != (c.net > 0 && !c.weighed && !strings.Contains(c.notion, "weight:")) {
			t.Errorf("%s: rule %q", c.notion, got.Net.Working.Rule)
		}
	}
}
