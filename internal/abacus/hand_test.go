package abacus_test

import (
	"math"
	"testing"

	"hembook/internal/abacus"
	"hembook/internal/madeup"
)

// What can be worked out by hand comes out so in the second calculator too, or
// it would be no judge.
func TestByHand(t *testing.T) {
	room := abacus.Workroom{
		"content/workroom.yaml":    "name: Hand\nusual: {thread-waste: 10}\nlabour: 20.10 EUR\n",
		"content/cloth/linen.yaml": "name: Linen\nfibres: {linen: 75, cotton: 25}\nwidth: 150 cm\nselvedge: 10\nweight: 200 g/m2\nprice: 10 EUR\nshrink: {across: 2}\n",
		"content/builds/made-up/build.yaml": `name: Hand
garment: skirt
state: sewing
units: cm
cloth: {shell: linen}
thread: {red: {colour: red, reel: 20 m, price: 1.99 EUR, weight: 5 g}}
pieces:
  panel: {rectangle: [20, 30], edges: {left: 1.5, right: 15 mm, top: 1, bottom: 4}}
  leg:
    cut: 1
    lines: {crease: 13 inside left, slit: {from: hem at 5, length: 9, slit: true}, place: {from: [3, 20], to: [15, 25]}}
    outline:
      from: [0, 0]
      hem: {to: [26, 0], allowance: 6, corner: mirror}
      right: {to: [33, 50], allowance: 0}
      top: {to: [-7, 50], allowance: 0}
      left: {to: [0, 0], allowance: 0}
  skirt: {circle: {share: 3/4, waist: 70, length: 74, panels: 1}, allowance: 0}
  pair: {cut: 2, rectangle: [10, 100], allowance: 0, darts: {bottom: {at: 5, width: 2, length: 10}}}
  half: {cut: 1 on fold, rectangle: [10, 100], allowance: 0, edges: {left: {fold: true}}}
seams:
  sides: {join: [pair.right, half.right], type: french, first: 6 mm, second: 9 mm}
bias:
  edging: {cut: 4 cm, length: 3.2 m}
work:
  cut: {takes: 1 h, wait: 24 h}
  sew: {takes: 2 h, after: cut}
  press: 10 min
journal:
  - {at: 2026-08-03 09:00, did: press, for: 15 min}
`,
	}
	got, err := abacus.Reckon(room, tables(t), madeup.Build, -1)
	if err != nil {
		t.Fatal(err)
	}
	// The ring has r = 700 ÷ 2π0.75 and 0.75 of the area between its circles.
	r := 700 / (2 * math.Pi * 0.75)
	ring := math.Pi * 0.75 * ((r+740)*(r+740) - r*r)
	// 805 cm² of panel, the leg's 1650 cm² and a hem of 26 + 27.68 cm, half the sum 6 deep.
	legHem := (26 + 26 + 2*6*7.0/50) / 2 * 6
	whole := (80500 + (1650+legHem)*100 + ring + 2*100000 + 200000 + 40*3200) / 1e6
	darts := 2 * math.Hypot(0.01, 0.1) // m: one in either of the pair, along a leg
	for id, want := range map[string]float64{
		// The leg's left side leans 7 in 50, and a line beside it is as long, between level edges.
		"piece.leg.line.crease.length": 10 * math.Hypot(50, 7), "piece.leg.line.slit.length": 90, "piece.leg.line.place.length": 130,
		"piece.panel.area":            600, // a published example: 230 × 350 mm cut, 20 500 mm² of it allowance
		"piece.panel.cut-area":        805,
		"piece.panel.allowance":       205,
		"piece.panel.width":           230,
		"piece.panel.height":          350,
		"piece.leg.allowance":         legHem,
		"piece.skirt.inner-radius":    148.545,
		"piece.skirt.hem":             4187.17,
		"piece.skirt.area":            ring / 100,
		"piece.pair.edge.bottom.sewn": 80,
		"piece.half.area":             2000,
		"piece.half.width":            200,
		"seam.sides.takes-1":          15,
		"seam.sides.total":            2,
		"bias.edging.square":          357.771,
		"cloth.shell.cut-area":        whole,
		"cloth.shell.mass":            200 * whole / 0.98, // weighed before it lost 2 % along
		"thread.red.needle":           (2*2 + darts) * 1.25,
		"thread.red.total":            (2*2 + darts) * 2.5 * 1.1,
		"thread.red.reels":            1,
		"thread.red.mass":             (2*2 + darts) * 2.5 / 20 * 5,
		"total.spent":                 15,
		"order.left":                  180,
		"order.critical-path":         180 + 24*60,
		"content.linen":               75,
	} {
		f, known := got[id]
		if !known || math.Abs(f.Value-want) > 0.0005+2e-5*want {
			t.Errorf("%s = %v %s, want %v", id, f.Value, f.Unit, want)
		}
	}
	if chain := got["order.chain"].Words; chain != "cut → sew" {
		t.Errorf("the longest chain is %s", chain)
	}
	// 15 min at 20.10 an hour, to the cent; 1.99 for the one reel.
	for id, want := range map[string]string{"cost.labour": "5.03", "cost.thread.1": "1.99"} {
		if money := got[id].Money; money == nil || money.FloatString(2) != want {
			t.Errorf("%s = %v, want %s", id, money, want)
		}
	}
}

// A tube of 2 × (350 + 150) = 1000 mm lies in a knit that gives 40 % across and 10 %
// along: the sides cut across give the 10, so it stretches to 700 × 1.4 + 300 × 1.1 =
// 1310. A body of 1100 stretches it by a tenth, of which a quarter does not go back.
func TestStretchByHand(t *testing.T) {
	got, err := abacus.Reckon(abacus.Workroom{
		"content/workroom.yaml":     "name: Hand\n",
		"content/cloth/jersey.yaml": "name: Jersey\nfibres: {cotton: 100}\nstructure: knitted\nwidth: 150 cm\nstretch: {across: 40, along: 10}\nrecovery: 75\n",
		"content/builds/made-up/build.yaml": `name: Hand
garment: skirt
state: sewing
cloth: {shell: jersey}
drafted-for: {hip: 1100}
pieces:
  front: {cut: 2, rectangle: [350, 600], levels: {hip: 300}}
  gusset: {cut: 2, grain: across, rectangle: [150, 600], levels: {hip: 300}}
seams:
  first: {join: [front.right, gusset.left], type: plain}
  second: {join: [gusset.right, front.left], type: plain}
`,
	}, tables(t), madeup.Build, -1)
	if err != nil {
		t.Fatal(err)
	}
	for id, want := range map[string]float64{"finished": 1000, "most": 1310, "ease": -100, "worn": 10, "stays": 25} {
		if f := got["level.hip."+id]; math.Abs(f.Value-want) > 1e-6 {
			t.Errorf("level.hip.%s = %v, want %v", id, f.Value, want)
		}
	}
}

// A front of 300 on the fold, two backs of 250 and a lace that leaves 60 open go 1160 round
// a body of 1150: ten of ease.
func TestLacingByHand(t *testing.T) {
	got, err := abacus.Reckon(abacus.Workroom{
		"content/workroom.yaml":     "name: Hand\n",
		"content/cloth/canvas.yaml": "name: Canvas\nfibres: {cotton: 100}\nwidth: 150 cm\n",
		"content/builds/made-up/build.yaml": `name: Hand
garment: stays
state: sewing
cloth: {shell: canvas}
drafted-for: {waist: 1150}
pieces:
  front: {cut: 1 on fold, rectangle: [300, 400], edges: {left: fold}, levels: {waist: 100}}
  back: {cut: 2, rectangle: [250, 400], levels: {waist: 100}}
seams:
  sides: {join: [front.right, back.left], type: plain}
levels: {waist: {gap: 60}}
`,
	}, tables(t), madeup.Build, -1)
	if err != nil {
		t.Fatal(err)
	}
	for id, want := range map[string]float64{"gap": 60, "finished": 1160, "ease": 10} {
		if f := got["level.waist."+id]; math.Abs(f.Value-want) > 1e-6 {
			t.Errorf("level.waist.%s = %v, want %v", id, f.Value, want)
		}
	}
}

// A check repeats every 100 and shrinks by 9 % across, to 91. Six box pleats with two
// repeats each stand in 12 × 91 = 1092 and close to 365, on either side of a tube; a band
// cut across the cloth is 2 × 125 × 0.96 = 240 long. Three knife pleats 20 deep take 120.
func TestRepeatsByHand(t *testing.T) {
	got, err := abacus.Reckon(abacus.Workroom{
		"content/workroom.yaml":     "name: Hand\n",
		"content/cloth/checks.yaml": "name: Checks\nfibres: {wool: 100}\nwidth: 150 cm\nweight: 200 g/m2\nshrink: {along: 4, across: 9}\nrepeat: {across: 100, along: 125}\n",
		"content/builds/made-up/build.yaml": `name: Hand
garment: skirt
state: sewing
cloth: {shell: checks}
pieces:
  front: {cut: 1, rectangle: [12 repeats, 560], pleats: {top: {kind: box, count: 6, every: 2 repeats, drawn: true, into: 365}}}
  band: {cut: 1, grain: across, rectangle: [2 repeats, 1 repeat], pleats: {top: {count: 3, depth: 20, drawn: true}}}
`,
	}, tables(t), madeup.Build, -1)
	if err != nil {
		t.Fatal(err)
	}
	for id, want := range map[string]float64{
		"piece.front.edge.top.length": 1092, "piece.front.edge.top.sewn": 365, "piece.front.area": 6115.2, // 1092 × 560
		"piece.band.edge.top.length": 240, "piece.band.edge.left.length": 91, "piece.band.edge.top.sewn": 120,
	} {
		if f, known := got[id]; !known || math.Abs(f.Value-want) > 0.0005+2e-5*want {
			t.Errorf("%s = %v %s, want %v", id, f.Value, f.Unit, want)
		}
	}
}

// An upper collar of 90 with canvas of 0.4 behind it, over an undercollar of 87 on the fold,
// both of a coating of 1.5: the middles lie 0.75 + 0.4 + 0.75 = 1.9 apart, half a turn needs
// π × 1.9 = 5.969. A cuff of two plies goes round: 2π × 1.5 = 9.425. Measured corner to
// corner, a flap of 30 by 40 over one of 27.5 by 40 has 50 − √(27.5² + 40²) = 1.459.
func TestTurnOfClothByHand(t *testing.T) {
	got, err := abacus.Reckon(abacus.Workroom{
		"content/workroom.yaml":      "name: Hand\n",
		"content/cloth/coating.yaml": "name: Coating\nfibres: {wool: 100}\nwidth: 150 cm\nweight: 400 g/m2\nthick: 1.5\n",
		"content/cloth/canvas.yaml":  "name: Canvas\nfibres: {linen: 100}\nwidth: 90 cm\nweight: 200 g/m2\nthick: 0.4\n",
		"content/builds/made-up/build.yaml": `name: Hand
garment: coat
state: sewing
cloth: {shell: coating, fusing: canvas}
pieces:
  upper collar:
    of: [shell, fusing]
    outline: {outer: [220, 0], end: [220, 90], neck: [0, 90], centre: fold}
    turn-of-cloth: {angle: 180, over: under collar}
  under collar: {of: shell, outline: {outer: [220, 0], end: [220, 87], neck: [0, 87], centre: fold}}
  cuff: {of: [shell, shell], rectangle: [240, 60], turn-of-cloth: 360}
  flap: {rectangle: [30, 40], turn-of-cloth: {angle: 180, over: under flap, across: bottom at 0 to right at 40, more: 4}}
  under flap: {rectangle: [27.5, 40]}
`,
	}, tables(t), madeup.Build, -1)
	if err != nil {
		t.Fatal(err)
	}
	for id, want := range map[string]float64{
		"upper-collar.turn-of-cloth.apart": 1.9, "upper-collar.turn-of-cloth.needs": 5.969, "upper-collar.turn-of-cloth.has": 3,
		"cuff.turn-of-cloth.needs": 9.425, "cuff.turn-of-cloth.has": 0, "flap.turn-of-cloth.needs": 4, "flap.turn-of-cloth.has": 1.459,
	} {
		if f, known := got["piece."+id]; !known || math.Abs(f.Value-want) > 0.0005 {
			t.Errorf("%s = %v %s, want %v", id, f.Value, f.Unit, want)
		}
	}
}

// A skirt front of 400 by 600, opened by 80 at the hem alone: the hem is 480, the sides stay
// 600, and its area grows by the isosceles triangle, 40 × √(600² − 40²) = 23 946.607 mm².
// Its back is slashed evenly by 30 across: 630 long at both sides.
func TestSlashByHand(t *testing.T) {
	got, err := abacus.Reckon(abacus.Workroom{
		"content/workroom.yaml":    "name: Hand\n",
		"content/cloth/linen.yaml": "name: Linen\nfibres: {linen: 100}\nwidth: 150 cm\nweight: 200 g/m2\n",
		"content/builds/made-up/build.yaml": `name: Hand
garment: skirt
state: sewing
cloth: {shell: linen}
pieces:
  front: {cut: 1, rectangle: [400, 600]}
  back: {cut: 1, rectangle: [400, 600]}
fittings:
  - day: 2026-03-01
    saw: it clings
    change:
      front: {slash: top at 250 to bottom at 150, spread: [0, 80]}
      back: {slash: right at middle to left at 30 cm, spread: 30}
`,
	}, tables(t), madeup.Build, -1)
	if err != nil {
		t.Fatal(err)
	}
	for id, want := range map[string]float64{
		"piece.front.edge.bottom.length": 480, "piece.front.edge.top.length": 400, "piece.front.edge.right.length": 600, "piece.front.area": (400*600 + 23946.6074) / 100,
		"piece.back.edge.left.length": 630, "piece.back.edge.right.length": 630, "piece.back.edge.top.length": 400, "piece.back.area": 2520,
	} {
		if f, known := got[id]; !known || math.Abs(f.Value-want) > 0.0005+2e-5*want {
			t.Errorf("%s = %v %s, want %v", id, f.Value, f.Unit, want)
		}
	}
}

// The same seed makes the same workroom, another makes another, and a larger
// wish a larger one.
func TestMadeUpIsTheSameTwice(t *testing.T) {
	text := func(w madeup.Wish) string { return w.Workroom()["content/builds/"+madeup.Build+"/build.yaml"] }
	small, large := 0, 0
	for seed := range uint64(40) {
		once, again := text(madeup.Wish{Seed: seed, Size: 3}), text(madeup.Wish{Seed: seed, Size: 3})
		if once != again {
			t.Errorf("seed %d makes two different garments", seed)
		}
		if once == text(madeup.Wish{Seed: seed + 1, Size: 3}) {
			t.Errorf("seeds %d and %d make one garment", seed, seed+1)
		}
		small += len(text(madeup.Wish{Seed: seed, Size: 1}))
		large += len(text(madeup.Wish{Seed: seed, Size: 12}))
	}
	if large < 2*small {
		t.Errorf("garments of size 12 take %d bytes, those of size 1 %d", large, small)
	}
}
