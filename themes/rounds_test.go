package themes

import (
	"io/fs"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// A colour is light: red, green and blue, linear, 0 to 1.
type colour [3]float64

// hex reads "#rrggbb" or "#rgb" (sRGB, IEC 61966-2-1).
func hex(t *testing.T, s string) (c colour) {
	t.Helper()
	if len(s) == 4 {
		s = string([]byte{'#', s[1], s[1], s[2], s[2], s[3], s[3]})
	}
	for i := range c {
		n, err := strconv.ParseUint(s[1+2*i:3+2*i], 16, 8)
		if err != nil {
			t.Fatal(err)
		}
		v := float64(n) / 255
		if c[i] = v / 12.92; v > 0.04045 {
			c[i] = math.Pow((v+0.055)/1.055, 2.4)
		}
	}
	return c
}

// luminance and contrast as WCAG 2.2 defines them: "relative luminance",
// "contrast ratio".
func (c colour) luminance() float64 { return 0.2126*c[0] + 0.7152*c[1] + 0.0722*c[2] }

func contrast(a, b colour) float64 {
	x, y := a.luminance(), b.luminance()
	return (math.Max(x, y) + 0.05) / (math.Min(x, y) + 0.05)
}

// lab is CIE 1976 L*a*b* for the white D65 (CIE 15; the matrix of IEC 61966-2-1).
func (c colour) lab() [3]float64 {
	f := func(v float64) float64 {
		if v > 216.0/24389 {
			return math.Cbrt(v)
		}
		return (24389.0/27*v + 16) / 116
	}
	x := f((0.4124*c[0] + 0.3576*c[1] + 0.1805*c[2]) / 0.9505)
	y := f(0.2126*c[0] + 0.7152*c[1] + 0.0722*c[2])
	z := f((0.0193*c[0] + 0.1192*c[1] + 0.9505*c[2]) / 1.089)
	return [3]float64{116*y - 16, 500 * (x - y), 200 * (y - z)}
}

// distance is the CIE 1976 colour difference.
func distance(a, b colour) float64 {
	p, q := a.lab(), b.lab()
	return math.Hypot(math.Hypot(p[0]-q[0], p[1]-q[1]), p[2]-q[2])
}

// A vision is how light is seen: a matrix over linear red, green and blue.
type vision [3][3]float64

func (v vision) seen(c colour) (out colour) {
	for i := range out {
		for k := range c {
			out[i] += v[i][k] * c[k]
		}
		out[i] = min(max(out[i], 0), 1)
	}
	return out
}

// visions are those of G. M. Machado, M. M. Oliveira and L. A. F. Fernandes, "A
// Physiologically-based Model for Simulation of Color Vision Deficiency", IEEE
// Transactions on Visualization and Computer Graphics 15(6), 2009, at severity
// 1.0. The numbers are from memory; TestVisions holds them to what they must do.
var visions = []struct {
	name string
	as   vision
}{
	{"usual", vision{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}},
	{"protan", vision{{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}}},
	{"deutan", vision{{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}}},
	{"tritan", vision{{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}}},
}

// Greys stay as they are, and each kind of vision brings those colours together
// that it cannot tell apart.
func TestVisions(t *testing.T) {
	red, green := colour{0.3, 0.12, 0.02}, colour{0.1, 0.2, 0.02}
	blue, teal := colour{0.05, 0.1, 0.3}, colour{0.05, 0.25, 0.2}
	for _, v := range visions {
		for _, row := range v.as {
			if sum := row[0] + row[1] + row[2]; math.Abs(sum-1) > 1e-5 {
				t.Errorf("%s: a row sums to %v, so that grey is not seen as grey", v.name, sum)
			}
		}
		a, b := distance(v.as.seen(red), v.as.seen(green)), distance(v.as.seen(blue), v.as.seen(teal))
		if confuses := a < distance(red, green)/2; confuses != (v.name == "protan" || v.name == "deutan") {
			t.Errorf("%s: red and green are %.0f apart", v.name, a)
		}
		if confuses := b < distance(blue, teal)/2; confuses != (v.name == "tritan") {
			t.Errorf("%s: blue and teal are %.0f apart", v.name, b)
		}
	}
}

// look reads one sheet of a theme.
func look(t *testing.T, name string) string {
	t.Helper()
	text, err := fs.ReadFile(Plainweave(), name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// tokens are the colours a theme sets, by day, by night and on paper.
func tokens(t *testing.T) [3]map[string]string {
	t.Helper()
	day, night, found := strings.Cut(look(t, "look/1-ground.css"), "@media (prefers-color-scheme: dark)")
	if !found {
		t.Fatal("the ground has no colours for the night")
	}
	var out [3]map[string]string
	for i, text := range [...]string{day, night, look(t, "look/9-print.css")} {
		out[i] = map[string]string{}
		for _, m := range regexp.MustCompile(`--([a-z0-9-]+): (#[0-9a-f]{6}|#[0-9a-f]{3});`).FindAllStringSubmatch(text, -1) {
			out[i][m[1]] = m[2]
		}
	}
	return out
}

var hours = [...]string{"by day", "by night", "on paper"}

// roundNames are the lines of the draft and of the rounds.
func roundNames(from map[string]string) (out []string) {
	for k := 0; from["round-"+strconv.Itoa(k)] != ""; k++ {
		out = append(out, "round-"+strconv.Itoa(k))
	}
	return out
}

// Lines of rounds stand out from the tissue: 3 : 1, as WCAG 2.2 asks of
// graphics (success criterion 1.4.11).
func TestRoundsStandOut(t *testing.T) {
	for i, of := range tokens(t) {
		tissue := hex(t, of["tissue"])
		for _, name := range roundNames(of) {
			for _, v := range visions {
				c := contrast(v.as.seen(hex(t, of[name])), v.as.seen(tissue))
				if c < 3 {
					t.Errorf("%s, %s vision: %s on tissue is %.2f : 1, at least 3 : 1 wanted", hours[i], v.name, name, c)
				}
			}
		}
	}
}

// Lines of two rounds that may lie over each other are told apart by colour
// with any vision, and by their dash without colour.
func TestRoundsDiffer(t *testing.T) {
	// A colour difference of about 2.3 is just noticed side by side (M. Mahy,
	// L. Van Eycken and A. Oosterlinck, 1994, from memory); thin lines need
	// several times that.
	const least = 15
	for i, of := range tokens(t) {
		names := roundNames(of)
		for _, v := range visions {
			for a := range names {
				for b := range a {
					d := distance(v.as.seen(hex(t, of[names[a]])), v.as.seen(hex(t, of[names[b]])))
					if d < least {
						t.Errorf("%s, %s vision: %s and %s are %.1f apart, at least %d wanted", hours[i], v.name, names[b], names[a], d, least)
					}
				}
			}
		}
	}
	dashes := map[string]string{}
	for _, m := range regexp.MustCompile(`svg \.(round-\d) \{ stroke: var\(--(round-\d)\); stroke-dasharray: ([^;]+); \}`).FindAllStringSubmatch(look(t, "look/build+leaf.css"), -1) {
		if m[1] != m[2] {
			t.Errorf("%s is drawn in the colour of %s", m[1], m[2])
		}
		if other, twice := dashes[m[3]]; twice {
			t.Errorf("%s and %s have the same dash", other, m[1])
		}
		dashes[m[3]] = m[1]
	}
	for i, of := range tokens(t) {
		if n := len(roundNames(of)); n != len(dashes) || n < 6 {
			t.Errorf("%d rounds have a dash, %d a colour %s", len(dashes), n, hours[i])
		}
	}
}
