package derive

import (
	"slices"
	"strings"
	"testing"

	"hembook/internal/label"
	"hembook/internal/trade"
)

const twoRectangles = "pieces:\n  a: {of: shell, cut: 1, rectangle: [1000, 1800]}\n  b: {of: lining, cut: 1, rectangle: [1000, 1500]}\n"

func optionNames(c *label.Care) []string {
	var out []string
	for _, a := range c.Axes {
		for _, o := range a.Options {
			out = append(out, o.Name)
		}
	}
	return out
}

func setBy(c *label.Care, axis string) string {
	for _, a := range c.Axes {
		if a.Name == axis {
			return strings.Join(a.SetBy, "; ")
		}
	}
	return "no such axis"
}

// TestCareOfLayers: the check case of silk over cotton, and others worked by
// hand. The rule is GINETEX's (the most fragile component decides); what each
// fibre stands is common practice, no source.
func TestCareOfLayers(t *testing.T) {
	const (
		silk   = "name: Silk\nwidth: 1400\nfibres: {silk: 100}\nweight: 60 g/m2\n"
		cotton = "name: Cotton\nwidth: 1400\nfibres: {cotton: 100}\nweight: 100 g/m2\ncare: {wash: '60', bleach: any, dry: tumble normal, iron: '200', professional: P}\n"
		wool   = "name: Wool\nwidth: 1400\nfibres: {wool: 100}\nweight: 300 g/m2\ncare: {wash: none, bleach: none, dry: flat, iron: '150', professional: P}\n"
		never  = "name: Never\nwidth: 1400\nfibres: {cotton: 100}\nweight: 300 g/m2\ncare: {wash: '40', bleach: none, dry: line shade, iron: 110 no steam, professional: none}\n"
		wet    = "name: Wet\nwidth: 1400\nfibres: {wool: 100}\nweight: 300 g/m2\ncare: {wash: none, bleach: none, dry: flat shade, iron: '150', professional: W mild}\n"
	)
	for _, c := range []struct {
		name, shell, lining, more string
		want                      []string
		wash, iron                string
		forbidden                 bool
		conflict                  string
	}{
		{"silk over cotton", silk, cotton, "", []string{"wash-30-very-mild", "bleach-none", "tumble-none", "iron-110", "clean-p-mild"}, "shell, Silk", "shell, Silk", false, ""},
		{"cotton over silk", cotton, silk, "", []string{"wash-30-very-mild", "bleach-none", "tumble-none", "iron-110", "clean-p-mild"}, "lining, Silk", "lining, Silk", false, ""},
		{"a horn button decides all but the iron", cotton, cotton, "notions: {button: {count: 3, material: horn}}\n", []string{"wash-30-very-mild", "bleach-none", "tumble-none", "iron-200", "clean-f-mild"}, "button of horn", "shell, Cotton; lining, Cotton; button of horn", false, ""},
		{"rubber sets the iron, horn the wash", cotton, cotton, "notions: {button: {count: 3, material: horn}, elastic: {length: 300, count: 1}}\n", []string{"wash-30-very-mild", "bleach-none", "tumble-none", "iron-110", "clean-f-mild"}, "button of horn", "elastic", false, ""},
		{"do not wash with do not clean", wool, never, "", []string{"do-not-wash", "bleach-none", "tumble-none", "dry-flat-shade", "iron-no-steam", "clean-none"}, "shell, Wool", "lining, Never", true, "neither washed nor cleaned: shell, Wool may not be washed, lining, Never may not be cleaned"}, // 16 CFR 423.6(b)
		{"dry clean with wet clean", wool, wet, "", []string{"do-not-wash", "bleach-none", "tumble-none", "dry-flat-shade", "iron-150", "clean-none"}, "shell, Wool; lining, Wet", "shell, Wool; lining, Wet", true, "neither washed nor cleaned"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := roomWith(t).file("content/cloth/a.yaml", c.shell).file("content/cloth/b.yaml", c.lining)
			d := r.desk()
			g, _ := d.derive(t, head+"cloth: {shell: a, lining: b}\n"+twoRectangles+c.more)
			care := d.tailor.Care(g)
			if got := optionNames(care); !slices.Equal(got, c.want) {
				t.Errorf("symbols %v, want %v", got, c.want)
			}
			if got := setBy(care, "wash"); got != c.wash {
				t.Errorf("washing is set by %q, want %q", got, c.wash)
			}
			if got := setBy(care, "iron"); got != c.iron {
				t.Errorf("ironing is set by %q, want %q", got, c.iron)
			}
			if care.Forbidden != c.forbidden || !strings.Contains(strings.Join(care.Conflicts, "\n"), c.conflict) {
				t.Errorf("forbidden %v, conflicts %q", care.Forbidden, care.Conflicts)
			}
			for _, a := range care.Axes {
				if len(a.Working.Inputs()) != len(care.Layers) || a.Working.Source == "" || !strings.Contains(a.Working.Sum(), "set by") {
					t.Errorf("%s has no whole working: %+v", a.Name, a.Working)
				}
			}
		})
	}
}

// TestCareChosen: the maker may decide otherwise, with a reason, and what is
// laxer than the layers is told.
func TestCareChosen(t *testing.T) {
	r := roomWith(t)
	d := r.desk()
	g, faults := d.derive(t, head+"cloth: {shell: linen}\npieces: {a: {of: shell, cut: 1, rectangle: [1000, 1800]}}\npacket: {care: {wash: 95, iron: 150, because: a swatch was boiled}}\n")
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	care := d.tailor.Care(g)
	if care.Because != "a swatch was boiled" || !slices.Equal(optionNames(care), []string{"wash-95", "bleach-oxygen", "tumble-low", "iron-150", "clean-p"}) {
		t.Errorf("%q %v", care.Because, optionNames(care))
	}
	for _, a := range care.Axes {
		if a.Chosen != (a.Name == "wash" || a.Name == "iron") || a.Laxer != (a.Name == "wash") {
			t.Errorf("%s: chosen %v, laxer %v", a.Name, a.Chosen, a.Laxer)
		}
	}
}

// TestCareUnknown: a layer nobody can speak for is named, never passed over.
func TestCareUnknown(t *testing.T) {
	r := roomWith(t).file("content/cloth/linen.yaml", "name: Strange\nfibres: {alginate: 100}\nweight: 200 g/m2\nwidth: 1400\n")
	d := r.desk()
	g, _ := d.derive(t, head+"cloth: {shell: linen}\npieces: {a: {of: shell, cut: 1, rectangle: [1000, 1800]}}\nnotions: {sliders: {count: 2}}\n")
	care := d.tailor.Care(g)
	if len(care.Unknown) != 2 || !care.Unknown[0].Cloth || care.Unknown[1].Cloth || len(care.Axes) != 0 {
		t.Errorf("%+v", care)
	}
}

// The limits that records write short say what their symbols say.
func TestLimitWords(t *testing.T) {
	for axis, rows := range map[string]map[string]string{
		"dry": {
			"tumble normal": "tumble-normal", "tumble low": "tumble-low",
			"line": "dry-line", "drip": "dry-line-drip", "flat": "dry-flat", "drip flat": "dry-flat-drip",
			"line shade": "dry-line-shade", "drip shade": "dry-line-drip-shade", "flat shade": "dry-flat-shade", "drip flat shade": "dry-flat-drip-shade",
		},
		"professional": {
			"P": "clean-p", "P mild": "clean-p-mild", "P very mild": "clean-p-very-mild", "F": "clean-f", "F mild": "clean-f-mild",
			"W": "wet", "W mild": "wet-mild", "W very mild": "wet-very-mild",
		},
	} {
		for limit, name := range rows {
			want, ok := trade.CareOptionNamed(name)
			if got := label.LimitWords(axis, limit); !ok || got != want.Words {
				t.Errorf("%s %q: %q, want %q", axis, limit, got, want.Words)
			}
		}
	}
	if got := label.LimitWords("wash", "40 mild"); got != "" {
		t.Errorf("washing reads %q", got)
	}
}
