package derive

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
)

var idForm = regexp.MustCompile(`^[a-z]+(\.[a-z0-9_-]+)+$`)

// sound checks what must hold of the figures of any garment at all.
func sound(t interface{ Errorf(string, ...any) }, g *Garment) {
	seen := map[string]bool{}
	check := func(f figure.Figure) {
		switch {
		case seen[f.ID]:
			t.Errorf("two figures are called %s", f.ID)
		case !idForm.MatchString(f.ID):
			t.Errorf("%q is no name for a figure", f.ID)
		case f.Title == "" || f.Working.Rule == "" || f.Working.Source == "":
			t.Errorf("%s lacks a title, a rule or a source: %+v", f.ID, f)
		case f.Value.Known() == (f.Working.Sum() == ""):
			t.Errorf("%s: known %v, but its sum is %q", f.ID, f.Value.Known(), f.Working.Sum())
		case f.Value.Known() && f.Value.Money == nil && (!finite(f.Value.Number) || f.Value.Unit == measure.NoUnit):
			t.Errorf("%s has the value %v", f.ID, f.Value)
		case strings.HasPrefix(strings.TrimSpace(f.Working.Sum()), "="):
			t.Errorf("%s has the sum %q", f.ID, f.Working.Sum())
		}
		for _, in := range f.Working.Inputs() {
			if in.Value == "" || strings.Contains(in.Value, "=") || !in.At.Given() && in.From == "" {
				t.Errorf("%s has the input %+v", f.ID, in)
			}
		}
		seen[f.ID] = true
	}
	for _, f := range g.Figures() {
		check(f)
	}
	for _, kept := range g.PrivateFigures() {
		check(kept.Open(record.ToCheck))
	}
	for _, f := range g.Faults {
		if f.Message == "" || strings.HasSuffix(f.Message, ".") || strings.ContainsAny(f.Message, "\n") {
			t.Errorf("a fault reads %q", f.Message)
		}
	}
	for _, c := range g.Cautions {
		if c.ID == "" || c.Title == "" || c.Text == "" || c.Why == "" || c.Source == "" {
			t.Errorf("the caution %+v lacks something", c)
		}
	}
}

func TestFiguresAreSound(t *testing.T) {
	sound(t, deriveClean(t, supperRoom(t), supper))
	sound(t, deriveClean(t, roomWith(t), synthetic()))
}

// A sketch is a random record whose every length is written times a scale,
// its outlines mirrored where asked.
type sketch struct {
	waist, flare, height, neck, dart, length float64
	turns                                    string
}

func drawSketch(t *rapid.T) sketch {
	mm := func(name string, least, most int) float64 {
		return float64(rapid.IntRange(least*8, most*8).Draw(t, name)) / 8
	}
	s := sketch{
		waist: mm("waist", 120, 260), flare: mm("flare", -30, 80), height: mm("height", 80, 400), neck: mm("neck", 40, 80),
		dart: mm("dart", 5, 30), length: mm("length", 300, 900),
		turns: rapid.SampledFrom([]string{"1/4", "1/2", "3/4", "1", "5/4"}).Draw(t, "turns"),
	}
	if math.Abs(s.height/2-s.neck) <= 4 { // a level within 2 mm of a corner belongs to it, at any scale
		s.neck += 9
	}
	return s
}

// text writes the record, to the last nanometre.
func (s sketch) text(scale float64, mirror bool) string {
	side := scale
	if mirror {
		side = -scale
	}
	x := func(v float64) string { return fmt.Sprintf("%.6f", v*side) }
	l := func(v float64) string { return fmt.Sprintf("%.6f", v*scale) }
	p := func(a, b float64) string { return "[" + x(a) + ", " + l(b) + "]" }
	w, f, h, n := s.waist, s.flare, s.height, s.neck
	outline := `
    outline:
      from: ` + p(0, 0) + `
      waist: {to: ` + p(w, 0) + `, level: waist}
      side: {to: ` + p(w+f, h) + `, curve: [` + p(w+f/4, h/3) + `, ` + p(w+f/2, 2*h/3) + `]}
      shoulder: {to: ` + p(n, h+20) + `, allowance: ` + l(12) + `}
      neck: {to: ` + p(0, h-n) + `, curve: [` + p(n, h) + `, ` + p(n/2, h-n) + `], allowance: ` + l(6) + `}
      centre: {to: ` + p(0, 0) + `, fold: %s}
    darts: {waist: {at: ` + l(w/2) + `, width: ` + l(s.dart) + `, length: ` + l(h/3) + `}}
    levels: {bust: ` + l(h/2) + `}
`
	return head + "for: woman\n" + `
cloth: {shell: linen, lining: linen}
thread: {rust: {colour: rust}}
drafted-for: {bust: ` + l(2*w) + `}
usual: {least-ease: {bust: 0, waist: 0}}
pieces:
  front:
    of: shell
    cut: 1 on fold` + fmt.Sprintf(outline, "true") + `
  back:
    of: shell
    cut: 2` + fmt.Sprintf(outline, "false") + `
  lining: {like: front, of: lining, change: {neck: ` + l(-4) + `, waist: ` + l(6) + `}}
  skirt: {of: shell, circle: {share: ` + s.turns + `, waist: ` + l(4*w-4*s.dart) + `, length: ` + l(s.length) + `, panels: 2}, edges: {hem: {level: hem}}}
seams:
  sides: {join: [front.side, back.side], type: french, first: ` + l(6) + `, second: ` + l(9) + `, trim: ` + l(3) + `}
  waist: {join: [[front.waist, back.waist], [skirt.waist]], type: plain, allowance: ` + l(15) + `}
finishes:
  hem: {of: skirt.hem, type: single-turned-hem, depth: ` + l(20) + `, edge: ` + l(5) + `}
notions: {hooks: {along: skirt.left, first: ` + l(10) + `, every: ` + l(20) + `, count: 5}}
measured: {waist: ` + l(4*w) + `}
`
}

const usualOne = "name: Test workroom\nusual: {allowance: 15, least-margin: 6, tolerance: 3, measured-within: 50000, reel: 200 m, thread-waste: 10}\n"
const usualTwo = "name: Test workroom\nusual: {allowance: 30, least-margin: 12, tolerance: 6, measured-within: 100000, reel: 400 m, thread-waste: 10}\n"

// Everything twice as large: lengths double, areas and masses of cloth
// quadruple, counts, ratios and shares stay.
func TestScaledBuild(t *testing.T) {
	one := roomWith(t).file("content/workroom.yaml", usualOne).desk()
	two := roomWith(t).file("content/workroom.yaml", usualTwo).
		file("content/cloth/linen.yaml", "name: Linen\nfibres: {linen: 100}\nweight: 200 g/m2\nwidth: 2800\nselvedge: 20\n").desk()
	rapid.Check(t, func(rt *rapid.T) {
		s := drawSketch(rt)
		small, faults := one.derive(t, s.text(1, false))
		large, _ := two.derive(t, s.text(2, false))
		if fault.HasErrors(faults) {
			rt.Fatalf("the reader: %v", faults)
		}
		if len(small.Faults) != len(large.Faults) {
			rt.Fatalf("faults: %v\nand scaled: %v", small.Faults, large.Faults)
		}
		sound(rt, small)
		compare(rt, small, large, func(u measure.Unit) float64 {
			switch u.Dimension() {
			case measure.LengthDim:
				return 2
			case measure.AreaDim, measure.MassDim:
				return 4
			}
			return 1
		})
		spares(rt, small, 1)
		spares(rt, large, 2)
	})
}

// spares holds what edges can give against what follows from the lengths a sketch
// is sewn with, so many times as large: a French seam of 6, 3 and 9 keeps 9 + 3 and
// needs 2 × 3 + 1, or the margin of 6 as a plain seam; a plain one of 15 needs 6;
// a hem of 20 needs 8. The 1 and the 8 are what they are at any size.
func spares(t *rapid.T, g *Garment, size float64) {
	told := 0
	for _, f := range g.Figures() {
		_, kind, ok := strings.Cut(f.ID, ".spare")
		if !ok {
			continue
		}
		edge := f.Of[strings.Index(f.Of, ".")+1:]
		want, known := map[string]float64{
			"side": (9+3)*size - (2*3*size + 1), "side-plain": (9+3)*size - 6*size,
			"waist": 15*size - 6*size, "hem": 20*size - 8,
		}[edge+kind]
		switch {
		case !known:
			t.Fatalf("nothing tells what %s is", f.ID)
		case !f.Value.Known() || math.Abs(f.Value.Number-want) > 1e-6:
			t.Fatalf("%s = %v %s, want %v", f.ID, f.Value.Number, f.Value.Why, want)
		}
		told++
	}
	if told != 8 { // two sides, twice; three waists; a hem
		t.Fatalf("%d edges can give", told)
	}
}

// compare holds the figures of two garments against each other, those of the
// second so many times those of the first.
func compare(t *rapid.T, a, b *Garment, times func(measure.Unit) float64) {
	figures, others := a.Figures(), b.Figures()
	if len(figures) != len(others) {
		t.Fatalf("there are %d figures, and %d", len(figures), len(others))
	}
	byID := map[string]figure.Figure{}
	for _, f := range others {
		byID[f.ID] = f
	}
	for _, f := range figures {
		if strings.Contains(f.ID, ".spare") && times(measure.UnitMM) != 1 {
			continue // see spares
		}
		g, ok := byID[f.ID]
		switch want := f.Value.Number * times(f.Value.Unit); {
		case !ok:
			t.Fatalf("%s is missing", f.ID)
		case f.Value.Known() != g.Value.Known():
			t.Fatalf("%s: %q, and %q", f.ID, f.Value.Why, g.Value.Why)
		case math.Abs(g.Value.Number-want) > closeness(f.Value.Unit, want):
			t.Fatalf("%s = %v, want %v\n%s\n%s", f.ID, g.Value.Number, want, f.Working.Sum(), g.Working.Sum())
		}
	}
}

// closeness is how far two figures may differ: the cut outline of a curve is
// followed within 0.05 mm, lengths and areas on the sewing line far better.
func closeness(u measure.Unit, want float64) float64 {
	switch u {
	case measure.UnitMM:
		return 0.1
	case measure.UnitCM2:
		return 0.1 + 1e-4*math.Abs(want)
	}
	return 1e-6 + 3e-4*math.Abs(want)
}

// A garment drawn as in a mirror has the figures of the one drawn, though its
// outlines run clockwise.
func TestMirroredBuild(t *testing.T) {
	d := roomWith(t).file("content/workroom.yaml", usualOne).desk()
	rapid.Check(t, func(rt *rapid.T) {
		s := drawSketch(rt)
		drawn, _ := d.derive(t, s.text(1, false))
		mirrored, _ := d.derive(t, s.text(1, true))
		compare(rt, drawn, mirrored, func(measure.Unit) float64 { return 1 })
	})
}

// FuzzDerive changes records at will: whatever the reader lets through must
// derive without panic and give sound figures.
func FuzzDerive(f *testing.F) {
	for _, seed := range []string{
		supper, synthetic(), twoPanels, half + "    pleats: {side: {depth: 3}}\n",
		"cloth: {shell: linen}\npieces: {g: {godet: {height: 300, hem: 9}}, r: {like: g}, s: {cut: 1 on fold, circle: {share: 4, waist: 1, length: 1}}}\n",
	} {
		f.Add(head + seed)
	}
	f.Add(sketch{150, 10, 200, 30, 12, 600, "5/4"}.text(1, true))
	d := supperRoom(f).desk()
	f.Fuzz(func(t *testing.T, build string) {
		g, _ := d.derive(t, build)
		sound(t, g)
	})
}

// Numbers that records go wrong with.
var oddNumbers = []string{"0", "-1", "0.0001", "1", "7", "99999", "123456789", "1/3", "400 in", "3 m", "\"\"", "[1]", "null", "true"}

var numberForm = regexp.MustCompile(`-?\b[0-9]+(\.[0-9]+)?\b`)

// mangle replaces a few numbers of a record and drops a few of its lines.
func mangle(t *rapid.T, text string) string {
	for range rapid.IntRange(1, 4).Draw(t, "numbers") {
		at := numberForm.FindAllStringIndex(text, -1)
		one := at[rapid.IntRange(0, len(at)-1).Draw(t, "which")]
		text = text[:one[0]] + rapid.SampledFrom(oddNumbers).Draw(t, "by") + text[one[1]:]
	}
	lines := strings.SplitAfter(text, "\n")
	for range rapid.IntRange(0, 2).Draw(t, "drop") {
		i := rapid.IntRange(0, len(lines)-1).Draw(t, "line")
		lines = append(lines[:i:i], lines[i+1:]...)
	}
	return strings.Join(lines, "")
}

// Records gone wrong in their numbers still derive, and soundly.
func TestMangledRecords(t *testing.T) {
	d := supperRoom(t).desk()
	rapid.Check(t, func(rt *rapid.T) {
		text := rapid.SampledFrom([]string{head + supper, head + synthetic(), sketch{150, 10, 200, 40, 12, 600, "1"}.text(1, true)}).Draw(rt, "record")
		g, _ := d.derive(t, mangle(rt, text))
		sound(rt, g)
	})
}

// The demo workroom's figures are sound.
func TestDemoIsSound(t *testing.T) {
	room, _, err := record.Open("../..")
	if err != nil {
		t.Skip("the demo workroom is not here:", err)
	}
	defer room.Close()
	tailor, _ := NewTailor(room)
	for _, bf := range room.Builds {
		b, _ := room.ReadBuild(bf)
		sound(t, tailor.Derive(b))
	}
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
