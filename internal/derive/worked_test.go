package derive

import (
	"math"
	"strings"
	"testing"

	"hembook/internal/record"
)

// supper is an invented bodice with a ring skirt, drawn with whole numbers so
// that it can be worked by hand: every side runs 60 across and 80 up, 100 long.
const supper = `
cloth: {shell: linen, lining: lawn, fusing: lawn}
thread: {rust: {colour: rust}}
drafted-for: {bust: 740, waist: 620}
usual: {least-ease: {waist: 20}}
wearer: contralto
pieces:
  front:
    of: [shell, fusing]
    cut: 1 on fold
    outline:
      from: [0, 0]
      waist: {to: [180, 0], level: waist}
      side: [240, 80]
      top: {to: [0, 80], allowance: 6}
      centre: {to: [0, 0], fold: true}
    darts: {waist: {at: 90, width: 20, length: 60}}
    levels: {bust: 40}
  front lining: {like: front, of: lining, change: {top: -10}}
  back:
    of: shell
    cut: 2
    outline:
      from: [0, 0]
      waist: {to: [170, 0], level: waist}
      side: [230, 80]
      top: {to: [0, 80], allowance: 6}
      centre: [0, 0]
    levels: {bust: 40}
  skirt:
    of: shell
    circle: {share: 3/4, waist: 660, length: 740, panels: 2}
    edges: {waist: {level: waist}, hem: {level: hem}}
seams:
  sides: {join: [front.side, back.side], type: french, first: 6, second: 9, trim: 3}
  centre back: {join: [back.centre, back.centre], type: plain}
  skirt seams: {join: [skirt.right, skirt.left], type: plain}
  waist: {join: [[front.waist, back.waist], [skirt.waist]], type: plain}
finishes:
  hem: {of: skirt.hem, type: bias-faced-hem, seam: 8, cut: 40, strip: lining}
lengths: {waist to hem: [skirt.left]}
notions:
  boning: {in: [sides], clear: 10, weight: 8 g}
  hooks: {along: 10 inside back.centre, every: 20, weight: 0.5 g}
  zip: {length: 400, along: back.centre, weight: 12 g}
work:
  sides: {sews: [sides]}
  cut: {pieces: 4}
  the rest: {sews: [centre back, skirt seams, waist, hem]}
journal:
  - {at: 2026-08-05 14:10, did: sides, for: 20 min}
  - {at: 2026-08-06 09:00, did: sides, for: 10 min}
  - {at: 2026-08-07 09:00, did: cut, for: 50 min}
measured: {waist: 645, waist to hem: 738}
`

// supperRoom has the cloths and the wearer of the supper dress.
func supperRoom(t testing.TB) *testRoom {
	return roomWith(t).
		file("content/cloth/lawn.yaml", "name: Lawn\nfibres: {cotton: 100}\nweight: 90 g/m2\nwidth: 1400\n").
		file("content/wearers/contralto.yaml", "name: Somebody\nfor: woman\nbody: {bust: 730, waist: 615}\n")
}

func TestSupperDressByHand(t *testing.T) {
	g := deriveClean(t, supperRoom(t), supper)
	// 640 = 2 × (180 − 20) + 2 × 170 − 20; at a height of 40 the dart, 20 wide
	// and 60 long, still takes 20 × 20/60 = 6.667: 2 × (210 − 6.667) + 2 × 200.
	bust := 2*(210-20.0/3) + 400
	hem := 660 + 2*math.Pi*0.75*740
	g.is(t, 1e-6, map[string]float64{
		"piece.front.edge.side.length":      100,
		"piece.front.edge.waist.intake":     20,
		"piece.front.edge.waist.sewn":       160,
		"piece.front.dart-1.leg":            math.Sqrt(100 + 3600),
		"piece.front.area":                  2 * 80 * 210 / 100,
		"piece.front.edge.side.allowance":   15,
		"piece.front.edge.top.allowance":    6,
		"piece.front.edge.centre.allowance": 0,
		"piece.front.level.bust":            bust - 400,
		"piece.skirt.edge.hem.allowance":    8,
		"seam.sides.length":                 100,
		"seam.sides.total":                  0.2,
		"seam.sides.takes-1":                15,
		"seam.sides.fullness":               1,
		"seam.centre-back.total":            0,    // the zip, 400, is longer than the 80 of it …
		"seam.skirt-seams.total":            1.16, // … and goes on for 320 into one of two seams of 740
		"seam.waist.side-1":                 660,
		"level.waist.finished":              640,
		"level.waist.ease":                  20,
		"level.waist.ease-part":             100 * 20.0 / 620,
		"level.waist.least-ease":            20,
		"level.waist.off":                   5,
		"level.bust.finished":               bust - 20,
		"level.bust.ease":                   bust - 760,
		"length.waist-to-hem.finished":      740,
		"length.waist-to-hem.off":           -2,
		"notion.boning.length":              80,
		"notion.boning.count":               2,
		"notion.boning.total":               0.16,
		"notion.boning.mass":                1.28,
		"notion.hooks.count":                5,
		"notion.hooks.gap":                  20,
		"notion.zip.total":                  0.4,
		"step.sides.spent":                  30,
		"step.sides.metres":                 0.2 + 2*math.Sqrt(100+3600)/1000, // with the front's darts, which must be sewn before them
		"step.sides.rate":                   30 / (0.2 + 2*math.Sqrt(100+3600)/1000),
		"step.cut.rate":                     12.5,
		"total.spent":                       80,
		// a lining 10 mm lower: its side is cut off at 70 of 80, 87.5 long,
		// its top 180 + 60 × 70/80 wide
		"piece.front-lining.edge.side.length":   87.5,
		"piece.front-lining.edge.top.length":    232.5,
		"piece.front-lining.edge.centre.length": 70,
	})
	g.is(t, 1e-3, map[string]float64{
		"seam.waist.side-2":             660,
		"seam.waist.difference":         0,
		"level.hem.finished":            hem,
		"finish.hem.total":              hem / 1e3,
		"finish.hem.strip-1.cut":        40,
		"cloth.lining.allowance-length": (2 * (180 + 87.5 + 232.5)) / 1e3, // the hem's strip has none
	})
	if g.Levels[0].Name != "bust" || g.Levels[1].Name != "waist" || g.Levels[2].Name != "hem" {
		t.Errorf("levels are not listed from the top: %s, %s, %s", g.Levels[0].Name, g.Levels[1].Name, g.Levels[2].Name)
	}
	if l := g.Fit.Levels[1]; !l.Enough || !l.Within {
		t.Errorf("waist: enough %v, within %v, want both", l.Enough, l.Within)
	}
}

// The bias strip of the hem is cut from the lining and counts there.
func TestStripCountsInItsCloth(t *testing.T) {
	g := deriveClean(t, supperRoom(t), supper)
	hem := 660 + 2*math.Pi*0.75*740
	pieces := g.find(t, "cloth.lining.pieces-cut").Value.Number
	g.is(t, 1e-5, map[string]float64{"cloth.lining.cut-area": pieces + 40*hem/1e6})
}

func TestFitIsPrivate(t *testing.T) {
	g := deriveClean(t, supperRoom(t), supper)
	if len(g.Fit.OnBody) != 2 {
		t.Fatalf("there are %d private fits, want 2", len(g.Fit.OnBody))
	}
	want := map[string]float64{"bust": 730, "waist": 615}
	for _, kept := range g.Fit.OnBody {
		f := kept.Open(record.ToFigure)
		if f.Body.Value.Number != want[f.Level] {
			t.Errorf("the body at %s is %v, want %v", f.Level, f.Body.Value.Number, want[f.Level])
		}
		if d := f.Ease.Value.Number - (f.Finished.Value.Number - want[f.Level]); math.Abs(d) > 1e-9 {
			t.Errorf("ease at %s is off by %v", f.Level, d)
		}
	}
	for _, f := range g.Figures() {
		for _, in := range f.Working.Inputs() {
			if strings.Contains(in.At.File(), "wearers") {
				t.Errorf("the public figure %s rests on %s", f.ID, in.At)
			}
		}
	}
}

// Costs: prices in euros and cents, worked by hand.
func TestCosts(t *testing.T) {
	r := roomWith(t).
		file("content/workroom.yaml", "name: Test workroom\ncurrency: EUR\nlabour: 30 EUR\n").
		file("content/cloth/linen.yaml", "name: Linen\nfibres: {linen: 100}\nwidth: 1000\nprice: 20 EUR\n")
	g := deriveClean(t, r, `
cloth: {shell: linen}
thread: {rust: {colour: rust, reel: 10 m, price: 2.50 EUR}}
pieces:
  one: {rectangle: [500, 1000], allowance: 0}
  two: {rectangle: [500, 1000], allowance: 0}
seams: {side: {join: [one.right, two.left], type: plain, allowance: 0}}
notions: {buttons: {count: 3, price: 0.75 EUR}}
work: {sew:}
journal: [{at: 2026-08-05 14:10, did: sew, for: 50 min}]
costs: {post: 12.00 EUR, price: 100 EUR}
`)
	got := map[string]string{}
	for _, kept := range g.PrivateFigures() {
		f := kept.Open(record.ToTheMaker)
		if f.Value.Money != nil {
			got[f.ID] = f.Value.Money.String()
		}
	}
	for id, want := range map[string]string{
		"cost.cloth.shell":    "20.00 EUR", // 1 m² of cloth 1 m wide
		"cost.notion.buttons": "2.25 EUR",
		"cost.thread.1":       "2.50 EUR", // 1 m × 2.5 × 1.15 on one reel
		"cost.labour":         "25.00 EUR",
		"cost.post":           "12.00 EUR",
		"cost.total":          "61.75 EUR",
		"cost.left":           "38.25 EUR",
	} {
		if got[id] != want {
			t.Errorf("%s = %q, want %q", id, got[id], want)
		}
	}
}

// Cloth that gives is asked for no ease by the trade's table, only by the
// record's own word.
func TestElasticNeedsNoEase(t *testing.T) {
	for _, c := range []struct {
		cloth, more string
		warned      bool
	}{
		{"fibres: {linen: 100}\n", "", true},
		{"fibres: {linen: 100}\nstructure: knitted\n", "", false},
		{"fibres: {cotton: 98, elastane: 2}\n", "", false},
		{"fibres: {cotton: 98, elastane: 2}\n", "usual: {least-ease: {waist: 10}}\n", true},
	} {
		r := roomWith(t).file("content/cloth/linen.yaml", "name: Cloth\nwidth: 1400\n"+c.cloth)
		g, _ := r.desk().derive(t, head+half+"drafted-for: {waist: 360}\n"+c.more)
		if got := len(g.Faults) == 1; got != c.warned || g.Fit.Levels[0].Enough == c.warned {
			t.Errorf("%q %q: warned %v, enough %v, want %v (%v)", c.cloth, c.more, got, g.Fit.Levels[0].Enough, c.warned, g.Faults)
		}
	}
}
