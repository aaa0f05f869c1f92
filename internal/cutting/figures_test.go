package cutting

import (
	"math"
	"strings"
	"testing"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/lay"
	"hembook/internal/measure"
	"hembook/internal/record"
)

// TestEveryFigure has every figure of a lay worked out by hand. Cloth 1020
// wide with selvedges of 10 has 1000 of usable width; four rectangles of 500
// × 600 as cut (480 × 580 and 10 all round) fill 1200 of its length.
func TestEveryFigure(t *testing.T) {
	cut := benchWith(t, "weight: 200 g/m2\nwidth: 1020\nselvedge: 10\nshrink: {along: 4}\non-hand: 1.5 m\nprice: 20 EUR\n",
		"pieces:\n  panel: {cut: 4, allowance: 10, rectangle: [480, 580]}\n").cut()
	l := cut.Lays[0]
	if l.Plan == nil {
		t.Fatal(l.Why)
	}
	is(t, l.Width, 1000)
	is(t, l.Length, 1200)
	is(t, l.Used, 100)
	is(t, l.Share, 7.2) // 4 × (300 000 − 278 400) ÷ 1 200 000
	is(t, l.Bound, 1200)
	is(t, l.Gain, 0)
	is(t, l.Needed, 1.3) // 1200 ÷ 0.96 + 2 × 25 = 1300, which is in steps of 100 already
	is(t, l.Mass, 265.2) // 1.3 × 1.02 × 200
	is(t, l.OnHand, 0.2) // 1500 − 1300
	is(t, l.Other, 1200) // folded, two pairs one after the other in a layer of 500
	money(t, l.Bought, "26.00 EUR")
	money(t, l.ToBuy, "0.00 EUR")
	if !l.Enough || !strings.HasPrefix(l.OnHand.Title, "over") {
		t.Errorf("the cloth on hand is said not to be enough: %s", l.OnHand.Title)
	}
	if want := "1020 mm − 2 × 10 mm = 1000 mm"; l.Width.Working.Sum() != want {
		t.Errorf("width: %q, want %q", l.Width.Working.Sum(), want)
	}
	if want := "1200 mm ÷ (1 − 4 %) + 2 × 25 mm, up to the next 100 mm = 1.3 m"; l.Needed.Working.Sum() != want {
		t.Errorf("needed: %q, want %q", l.Needed.Working.Sum(), want)
	}
	if got := cut.Garment.Cloths[0].Needed; got.Value != l.Needed.Value || got.ID != "cloth.shell.needed" {
		t.Errorf("the garment's cloth still needs %+v", got)
	}
	ids := map[string]int{}
	for _, c := range cut.Garment.Costs {
		ids[c.Open(record.ToFigure).ID]++
	}
	if ids["cost.cloth-bought.shell"] != 1 || ids["cost.cloth-to-buy.shell"] != 1 {
		t.Errorf("costs: %v", ids)
	}
}

func money(t *testing.T, kept figure.Private, want string) {
	t.Helper()
	f := kept.Open(record.ToFigure)
	if f.Value.Money == nil || f.Value.Money.String() != want {
		t.Errorf("%s = %+v, want %s", f.ID, f.Value, want)
	}
}

// TestClothNeeded has what a lay takes of the cloth, with the numbers of the
// reference tables and of hand sums.
func TestClothNeeded(t *testing.T) {
	for _, c := range []struct {
		name                          string
		lay, shrink, straighten, step float64
		exact, bought                 float64
	}{
		{"2400 at 4 %", 2400, 4, 0, 100, 2500, 2500},
		{"the same, both ends straightened by 25", 2400, 4, 25, 100, 2550, 2600},
		{"2.40 m usable at 5 % (shrinkage table)", 2400, 5, 0, 1, 2526.315789, 2527},
		{"just over a step", 2400.001, 0, 0, 100, 2400.001, 2500},
		{"less than a micrometre over a step", 2400.0000001, 0, 0, 100, 2400, 2400},
		{"eighths of a yard", 1000, 0, 0, 114.3, 1000, 1028.7},
		{"cloth that grows", 1000, -2, 0, 10, 980.392157, 990},
	} {
		place := fault.Pos{Source: &fault.Source{}, Line: 1}
		mm := func(v float64) record.Length { return record.Length{V: measure.MM(v), At: place} }
		cloth := &record.Cloth{Step: mm(c.step)}
		cloth.Shrink.Along = record.Percent{V: record.Share(c.shrink), At: place}
		l := &Lay{Cloth: &garment.Cloth{Cloth: cloth}, Plan: &lay.Plan{}, pad: &figure.Pad{}}
		l.Length = l.pad.Figure("lay", "", "", l.pad.Found("lay", c.lay, millimetres), millimetres, "", engine)
		u := usual{straightening: mm(c.straighten)}
		l.needed(&u)
		exact, bought := l.straightened(&u).MM(), l.Needed.Value.Number*1e3
		if math.Abs(exact-c.exact) > 1e-5 || math.Abs(bought-c.bought) > 1e-6 {
			t.Errorf("%s: %v, %v; want %v, %v", c.name, exact, bought, c.exact, c.bought)
		}
	}
}

// TestWeighedWashed: a metre of cloth a metre wide, of which a washed square metre weighs
// 100 g, weighs 100 g × 0.9 × 0.8 = 72 g as it is bought, and one weighed before 100 g.
func TestWeighedWashed(t *testing.T) {
	for word, want := range map[string]float64{"washed": 72, "unwashed": 100} {
		l := benchWith(t, "width: 1000\nweight: 100 g/m2\nweighed: "+word+"\nshrink: {along: 10, across: 20}\n", rectangles("1", "[800, 800]")).lay()
		if got := l.Mass.Value.Number; math.Abs(got-want) > 1e-9 {
			t.Errorf("weighed %s: %v g, not %v", word, got, want)
		}
	}
}

// TestWidthIsLost: first what the wash takes, then the selvedges.
func TestWidthIsLost(t *testing.T) {
	l := benchWith(t, "width: 1400\nselvedge: 10\nshrink: {along: 4, across: 2}\n", rectangles("1", "[1352, 500]")).lay()
	is(t, l.Width, 1352) // 1400 × 0.98 − 20
	is(t, l.Length, 500)
}

func TestNotEnough(t *testing.T) {
	l := benchWith(t, "width: 1000\non-hand: 1.2 m\nprice: 12.50 EUR\nshop-step: 25 cm\n", rectangles("2", "[800, 700]")).lay()
	is(t, l.Length, 1400)
	is(t, l.Needed, 1.5)  // 1400 + 50 = 1450, in steps of 250
	is(t, l.OnHand, 0.25) // 1450 − 1200
	money(t, l.ToBuy, "18.75 EUR")
	if l.Enough || !strings.HasPrefix(l.OnHand.Title, "short") {
		t.Errorf("enough: %v, %s", l.Enough, l.OnHand.Title)
	}
}

// TestYards: a workroom in inches buys by the yard.
func TestYards(t *testing.T) {
	b := benchWith(t, "width: 45 in\nprice: 10 USD\nshop-step: 1/8 yd\n", "units: in\n"+rectangles("1", "[40, 34]"))
	b.file("content/workroom.yaml", "name: Test\nunits: in\ncurrency: USD\nusual: {straightening: 1}\n")
	l := b.lay()
	is(t, l.Length, 34*25.4)
	is(t, l.Needed, 0.9144) // 36 in are 1 yd, eight eighths
	money(t, l.Bought, "10.00 USD")
}

// TestShopsOfTheCountry: where nothing is said of it, cloth is cut by 10 cm, and by the
// eighth of a yard where lengths are inches; both ends are straightened by 25 mm, or 1 in.
func TestShopsOfTheCountry(t *testing.T) {
	l := benchWith(t, "width: 1000\n", rectangles("1", "[900, 860]")).lay()
	is(t, l.Needed, 1) // 860 + 50 = 910, in steps of 100
	b := benchWith(t, "width: 45 in\n", "units: in\n"+rectangles("1", "[40, 34]"))
	b.file("content/workroom.yaml", "name: Test\nunits: in\n")
	is(t, b.lay().Needed, 0.9144) // 34 + 2 = 36 in, which are eight eighths of a yard
	b = benchWith(t, "width: 45 in\n", "units: in\n"+rectangles("1", "[40, 34.25]"))
	b.file("content/workroom.yaml", "name: Test\nunits: in\n")
	is(t, b.lay().Needed, 9*4.5*0.0254) // 36.25 in are more than eight of 4.5 in
}

// TestNotKnown: what is missing is said, never a zero.
func TestNotKnown(t *testing.T) {
	l := benchWith(t, "width: 1000\n", rectangles("1", "[500, 500]")).lay()
	for _, c := range []struct{ got, want string }{
		{l.OnHand.Value.Why, "the cloth does not say how much is on the shelf"},
		{l.Mass.Value.Why, "the cloth has no weight"},
		{l.Bought.Open(record.ToFigure).Value.Why, "the cloth has no price"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
	if l.Enough {
		t.Error("cloth that is not known is said to be enough")
	}
}

// TestWithoutWidth: a cloth whose width could not be read.
func TestWithoutWidth(t *testing.T) {
	g := &garment.Garment{Build: &record.Build{}}
	c := &garment.Cloth{Part: "shell", Use: &record.ClothUse{}, Cloth: &record.Cloth{}, Needed: figure.Figure{ID: "cloth.shell.needed"}}
	l := (&Cutter{ctx: t.Context(), store: &store{}}).lay(g, c)
	if want := "the cloth has no width"; l.Plan != nil || l.Needed.Value.Why != want || l.Width.Value.Why != want || l.Length.Value.Why != want {
		t.Errorf("%+v", l.Needed.Value)
	}
	c.Cloth = nil
	if l = (&Cutter{ctx: t.Context(), store: &store{}}).lay(g, c); l.Needed.Value.Why != "the cloth is not known" {
		t.Errorf("%+v", l.Needed.Value)
	}
}

// TestStrip: 3200 mm of 40 mm strip want √128 000 = 357.8 mm square, which 40 × √2 = 56.57
// along an edge divides into 6.3: so seven strips side by side, 7 × 56.57 = 395.98 long and
// 3200 ÷ 7√2 = 323.25 across, and 12 more each way for the seams of the tube.
func TestStrip(t *testing.T) {
	l := benchWith(t, "width: 1000\n", "bias:\n  edges: {cut: 40, length: 3200}\n").lay()
	is(t, l.Length, 335.249)
	if notes := strings.Join(l.Problem.Notes, " "); len(l.Chalked) != 1 || math.Abs(l.Chalked[0].SideTo-407.980) > 1e-3 ||
		notes != "cloth for 40 mm strip, 335 mm × 408 mm on the grain, gives 3.2 m for edges in one round, 7 strips wide, with 12 joins; strip is taken to be bias" {
		t.Errorf("%+v %q", l.Chalked, notes)
	}
	// the lines are 40 apart at 45°, the first from the corner: 7 × 56.57 of them along 407.98
	q := &l.Chalked[0]
	if lines := q.StripCuts().Within(q.Outline); len(lines) < 12 || len(lines) > 14 {
		t.Errorf("%d lines are cut along", len(lines)) // (407.98 + 335.25) ÷ 56.57 = 13.1
	}
	// on cloth of 300, 288 without the seams, it takes 3200 ÷ 288√2 = 7.9: eight
	l = benchWith(t, "width: 300\n", "bias:\n  edges: {cut: 40, length: 3200}\n").lay()
	is(t, l.Length, 8*40*math.Sqrt2+12)
}

// TestStripOfEdges: two edges of 600 are faced with strip of 36; the join at the end of each
// takes 2 × 6 × √2 = 17 mm more, so that 1233.9 mm are cut: √(36 × 1233.9) = 210.8 is 4.1
// strips of 50.9 wide, so five: 254.6 by 174.5, and 12 each way.
func TestStripOfEdges(t *testing.T) {
	l := benchWith(t, "width: 1000\n", "pieces:\n  panel: {cut: 2, allowance: 0, rectangle: [600, 100]}\nfinishes:\n  tops: {of: panel.top, type: bias-faced-edge, strip: shell}\n").lay()
	notes := strings.Join(l.Problem.Notes, " ")
	if want := "cloth for 36 mm strip, 187 mm × 267 mm on the grain, gives 1.23 m for tops in one round, 5 strips wide, with 8 joins; 34 mm of it for the joins of the ends of 2 strips; strip is taken to be bias"; notes != want {
		t.Errorf("%q\nwant\n%q", notes, want)
	}
}

func TestFiguresAreListedOnce(t *testing.T) {
	l := benchWith(t, "width: 1000\nweight: 100 g/m2\non-hand: 2 m\n", rectangles("1", "[600, 1000]")).lay()
	seen := map[string]bool{}
	for _, f := range l.Figures() {
		if seen[f.ID] || !strings.HasPrefix(f.ID, "cloth.shell.") {
			t.Errorf("figure %q", f.ID)
		}
		seen[f.ID] = true
		if f.Value.Known() && f.Value.Unit == measure.NoUnit {
			t.Errorf("%s has no unit", f.ID)
		}
	}
	if len(seen) < 10 {
		t.Errorf("only %d figures", len(seen))
	}
}
