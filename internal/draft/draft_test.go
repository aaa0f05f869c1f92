package draft_test

import (
	"context"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"hembook/internal/cutting"
	"hembook/internal/derive"
	"hembook/internal/draft"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/trade"
	"hembook/internal/words"
)

var bodies = flag.Int("bodies", 2, "how many bodies each draft is drawn for")

// room makes a workroom with one cloth and a build, and reads the build.
func room(t *testing.T, unit measure.Unit, text string) (*record.Room, *record.Build) {
	t.Helper()
	dir := t.TempDir()
	for name, content := range map[string]string{
		"content/workroom.yaml":        "name: W\nmaker: {name: M}\nunits: " + unit.String() + "\nusual: {least-ease: {waist: 0.5 in}}\n",
		"content/cloth/cotton.yaml":    "name: Cotton\nfibres: {cotton: 100}\nwidth: 150 cm\n",
		"content/builds/b/build.yaml":  text,
		"content/techniques/plain.md":  "---\nname: Plain\nsummary: Plain.\n---\n",
		"content/builds/b/.nothing.md": "",
	} {
		to := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(to), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(to, []byte(content), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	r, faults, err := record.Open(dir)
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	t.Cleanup(func() { r.Close() })
	bf, _ := r.BuildNamed("b")
	b, faults := r.ReadBuild(bf)
	for _, f := range faults {
		t.Errorf("%s\n%s", f, text)
	}
	return r, b
}

func whole(text []byte, unit measure.Unit) string {
	return "name: B\n" + strings.NewReplacer("UNITS", unit.String(), "CLOTH", "cotton").Replace(string(text))
}

// A body is measured as the survey's people are: how large all of it is, and each
// measurement somewhat its own. What the survey lacks is drawn between two lengths.
func body(rnd *rand.Rand, asks []draft.Ask) draft.Values {
	size := rnd.NormFloat64()
	between := map[string][2]float64{"head": {530, 600}, "rise": {230, 330}, "reach": {700, 860}, "length": {500, 900}, "inside leg": {690, 850}, "upper arm": {245, 385}}
	v := draft.Values{}
	for _, a := range asks {
		if !a.Must {
			continue
		}
		if b, ok := between[a.Name]; ok {
			v[a.Name] = math.Round(b[0] + rnd.Float64()*(b[1]-b[0]))
			continue
		}
		m, ok := trade.MeasurementNamed(a.Name)
		if !ok || m.Women == nil {
			panic("no body has a " + a.Name)
		}
		x := m.Women.Mean + m.Women.SD*(0.9*size+0.43*rnd.NormFloat64())
		v[a.Name] = math.Round(min(max(x, m.Women.P1), m.Women.P99))
	}
	return v
}

// TestBodies: for bodies as they were measured each draft gives a record without a
// fault, whose finished measures are body and ease within 1 mm, and that can be laid; a
// body it cannot be drawn for is refused in words.
func TestBodies(t *testing.T) {
	units := []measure.Unit{measure.UnitMM, measure.UnitCM, measure.UnitIn}
	for _, d := range draft.BuiltIn() {
		t.Run(d.Slug, func(t *testing.T) {
			rnd := rand.New(rand.NewPCG(1, 2))
			refused, held := 0, 0
			for i := range *bodies {
				v := body(rnd, draft.Asks(d))
				unit := units[i%3]
				text, err := draft.Write(d, v, unit)
				if err != nil {
					refused++
					t.Logf("%v: %s", v, err)
					continue
				}
				held += judge(t, d, v, unit, text)
				if t.Failed() {
					t.Fatalf("%v\n%s", v, text)
				}
			}
			t.Logf("%d bodies, %d refused, %d measures held", *bodies, refused, held)
			if refused*3 > *bodies {
				t.Errorf("%d of %d bodies refused", refused, *bodies)
			}
		})
	}
}

// judge holds one record against the body it was drawn for; it returns how many
// measures were held.
func judge(t *testing.T, d *record.Draft, v draft.Values, unit measure.Unit, text []byte) (held int) {
	r, b := room(t, unit, whole(text, unit))
	tailor, _ := derive.NewTailor(r)
	cut := cutting.NewCutter(context.Background(), r, tailor, cutting.Options{Tries: 20}).Cut(b)
	for _, f := range cut.Garment.Faults {
		t.Error(f)
	}
	for _, l := range cut.Garment.Levels {
		size, is := v[l.Name]
		i := slices.IndexFunc(draft.Asks(d), func(a draft.Ask) bool { return a.Name == l.Name+" ease" })
		if !is || i < 0 {
			continue
		}
		want := size + draft.Asks(d)[i].Usual
		if got := l.Finished.Value.In(measure.UnitMM).Number; math.Abs(got-want) > 1 {
			t.Errorf("%s: %.2f for %.2f", l.Name, got, want)
		}
		held++
	}
	if len(cut.Lays) == 0 || cut.Lays[0].Plan == nil {
		t.Error("no lay was found")
	}
	return held
}

// TestWorkedExamples holds what drafts draw against sums that were published, or can be
// done on paper.
func TestWorkedExamples(t *testing.T) {
	cases := []struct {
		draft, with string
		unit        measure.Unit
		want        []string
		source      string
	}{
		// 26/8 does not come into plain gores: 28/6 = 4.67 above, (40 + 3)/6 = 7.17 at the hip with half an inch a gore
		{"gored-skirt", "waist 28, hip 40, length 30, waist ease 0.001, hip ease 3, hem round 90", measure.UnitIn,
			[]string{"right: {to: [3.583, 22.126]", "cut: 6 alike"}, "How to make a gored skirt, eHow: 40/6 + 1/2 = 7.17, half of it 3.58"},
		// a quarter of the hip 40 in is 10 in; of the waist 28 + 4 in, 8 in
		{"straight-skirt", "waist 28, hip 40, length 28, waist ease 0, hip ease 0", measure.UnitIn,
			[]string{"hem: {to: [10, 0]}", "{at: middle, width: 1,", "{at: 2.833, width: 1,"}, "JSS 2 home economics, All Saints Secondary School: hip 40/4; here 10 − 7 = 3 is shared, 1.5 at the side, 1 in each dart"},
		{"half-apron", "waist 100", measure.UnitCM, []string{"rectangle: [75, 55]", "rectangle: [200, 7]"}, "60 % of 100 gathered 1.25 times; two ties of 70"},
		{"gathered-skirt", "waist 72, waist ease 2, lap 3.2, band 3, length 60", measure.UnitCM, []string{"rectangle: [77.2, 6]", "rectangle: [55.5, 60]", "gather: 1.5"}, "Waistband notes, theweebsite.com: 72 + 2 + 3.2; 74 × 1.5 ÷ 2 = 55.5"},
		{"pleated-skirt", "waist 72, length 60, depth 2", measure.UnitCM, []string{"rectangle: [65, 60]", "count: 7"}, "(72 + 2)/2 = 37, and 7 pleats of twice 2 are 28"},
		// smock: bust 100 cm and 10 cm or more of ease: 16 here, a quarter 29
		{"tunic", "bust 100, upper arm 30, head 57, reach 76, length 75", measure.UnitCM, []string{"hem: {to: [29, 0]}", "rectangle: [42, 47]"}, "(100 + 16)/4; 30 + 12; 76 − 29"},
		{"pyjama-trousers", "waist 80, hip 88, rise 27, inside leg 76", measure.UnitCM, []string{"inner leg: [28.75, 76]", "inner leg: [36.25, 76]"}, "debbyola: 25 × 0.15 = 3.75 and 25 × 0.45 = 11.25, on a quarter of 88 + 12"},
		{"circle-skirt", "waist 72, length 60, waist ease 0, quarters 4", measure.UnitCM, []string{"circle: {share: 1, waist: 72, length: 60"}, "geometry"},
		// Baldt draws the neck of a shirt a sixth of the neck wide: 15 in, 2 1/2 in
		{"shirt", "bust 36, neck 15, upper arm 12, reach 31, length 28, bust ease 8", measure.UnitIn, []string{"hem: {to: [11, 0]}", "shoulder: [2.5, 28]", "[2.5, 28]", "count: 7"}, "Baldt, Clothing for Women, 1916, To draft shirt: 15/6 = 2.5; (36 + 8)/4 = 11"},
		{"wrap-skirt", "waist 28, hip 40, length 28, hip ease 0, waist ease 0, wrap 4.5, tie 30", measure.UnitIn, []string{"side: [14.5, ", "side: [10, ", "rectangle: [97, ", "at: 30, name: first"}, "JSS 2 home economics, All Saints Secondary School: hip 40/4 = 10, and 4.5 more in front; 28 + 2 × 4.5 + 2 × 30 = 97"},
		{"a-line-skirt", "waist 74, hip 94, length 60", measure.UnitCM, []string{"side: [25, 40]"}, "(94 + 6)/4; 60 − 20"},
	}
	drawn := map[string]bool{}
	for _, c := range cases {
		d, err := draft.Named(draft.BuiltIn(), c.draft)
		if err != nil {
			t.Fatal(err)
		}
		v := draft.Values{}
		if err := v.Read(d, c.with, c.unit); err != nil {
			t.Errorf("%s: %s", c.draft, err)
			continue
		}
		text, err := draft.Write(d, v, c.unit)
		if err != nil {
			t.Errorf("%s: %s", c.draft, err)
			continue
		}
		for _, want := range c.want {
			if !strings.Contains(string(text), want) {
				t.Errorf("%s has no %q (%s):\n%s", c.draft, want, c.source, text)
			}
		}
		drawn[c.draft] = true
	}
	for _, d := range draft.BuiltIn() {
		if !drawn[d.Slug] {
			t.Errorf("%s has no worked example", d.Slug)
		}
	}
}

// TestHeadPasses: the neck of the tunic is half a hand longer than the head, measured on
// the garment.
func TestHeadPasses(t *testing.T) {
	d, _ := draft.Named(draft.BuiltIn(), "tunic")
	for _, head := range []float64{530, 570, 610} {
		v := draft.Values{"bust": 920, "upper arm": 280, "head": head, "reach": 760, "length": 750}
		text, err := draft.Write(d, v, measure.UnitMM)
		if err != nil {
			t.Fatal(err)
		}
		r, b := room(t, measure.UnitMM, whole(text, measure.UnitMM))
		tailor, _ := derive.NewTailor(r)
		var round float64
		for _, p := range tailor.Derive(b).Pieces {
			for i := range p.Edges {
				if p.Edges[i].Name == "neck" {
					round += 2 * p.Edges[i].Length.Value.In(measure.UnitMM).Number // each is half of one cut on the fold
				}
			}
		}
		if round < head+25 || round > head+35 {
			t.Errorf("head %.0f: neck %.1f, want 30 more", head, round)
		}
	}
}

// TestRefused are answers that cannot be meant, and what is said to them.
func TestRefused(t *testing.T) {
	cases := []struct{ draft, with, says string }{
		{"straight-skirt", "wiast 74", `straight skirt asks for nothing called "wiast"` + "\n    did you mean \"waist\"?"},
		{"straight-skirt", "waist 740", "nobody has a waist of 740 cm: 61.1 to 137.9 cm were measured\n    look at the unit"},
		{"straight-skirt", "length 6", "length 6 cm is not between 20 cm and 130 cm\n    look at the unit"},
		{"gored-skirt", "gores many", `gores is a number of things, not "many"`},
		{"gored-skirt", "gores 40", "gores 40 is not between 4 and 16"},
		{"straight-skirt", "waist abc", "waist: "},
		{"straight-skirt", "waist 76,5 cm, hip 98", "\"5 cm\" stands without a name\n    write a point in a number, as 76.5"},
		{"straight-skirt", "waist 76 hip 102, length 60", "\"waist 76 hip 102\" names two measurements\n    put a comma between them: waist 76, hip 102"},
	}
	for _, c := range cases {
		d, err := draft.Named(draft.BuiltIn(), c.draft)
		if err != nil {
			t.Fatal(err)
		}
		if err := (draft.Values{}).Read(d, c.with, measure.UnitCM); err == nil || !strings.HasPrefix(err.Error(), c.says) {
			t.Errorf("%s: %v, want %q", c.with, err, c.says)
		}
	}
	if _, err := draft.Named(draft.BuiltIn(), "straight-skrit"); err == nil || !strings.Contains(err.Error(), `did you mean "straight-skirt"?`) {
		t.Error(err)
	}
	d, _ := draft.Named(draft.BuiltIn(), "straight-skirt")
	if _, err := draft.Write(d, draft.Values{"waist": 900, "hip": 900, "length": 600}, measure.UnitMM); err == nil || !strings.HasPrefix(err.Error(), "the waist is hardly smaller than the hip") {
		t.Error(err)
	}
	if missing := (draft.Values{"hip": 1}).Missing(d); len(missing) != 2 {
		t.Errorf("missing: %v", missing)
	}
}

// TestOwnDraft: a workroom's draft goes before the program's of the same name, and its
// slips are placed.
func TestOwnDraft(t *testing.T) {
	own, faults := record.ReadDraft("content/drafts/half-apron.yaml", "half-apron", []byte(`name: half apron
measures: {waist: round the waist}
choices: {tie: 700}
sums:
  across: wast * 0.6
checks:
  - {must: waist, say: never}
record: |
  garment: apron
  pieces: {skirt: {rectangle: [<acros>, <tie +>]}}
source: ours
`))
	var got []string
	for _, f := range faults {
		got = append(got, fmt.Sprintf("%d:%d %s | %s", f.At.Line, f.At.Column, f.Message, f.Hint))
	}
	want := []string{
		`5:11 nothing above is called "wast" | did you mean "waist"?`,
		`7:12 "waist" compares nothing | as hip > waist`,
		`10:33 nothing above is called "acros" | did you mean "across"?`,
		`10:42 the formula "tie +": ends where a number or a name was expected | as waist / 4 + ease`,
	}
	if !slices.Equal(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	if among := draft.Among([]*record.Draft{own}); len(among) != len(draft.BuiltIn()) || among[0] != own {
		t.Error("the workroom's own half apron does not take the place of the other")
	}
}

// TestLength: what a tape can show, in each unit.
func TestLength(t *testing.T) {
	for want, got := range map[string]string{
		"12.3": words.Tape(measure.UnitMM).Written(12.3456), "1.23": words.Tape(measure.UnitCM).Written(12.3456),
		"0.486": words.Tape(measure.UnitIn).Written(12.3456), "0": words.Tape(measure.UnitMM).Written(-0.001), "10": words.Tape(measure.UnitCM).Written(100),
	} {
		if got != want {
			t.Errorf("%s for %s", got, want)
		}
	}
}
