package derive

import (
	"slices"
	"strings"
	"testing"

	"hembook/internal/fault"
	"hembook/internal/garment"
)

// A waistband worked by hand (geometry, exact). A skirt of a front whose waist is 240 and a
// back of 260 with a dart of 20 is 240 + 260 − 20 = 480 round, sewn at one side and open at
// the other. The band laps 30: 480 + 30 = 510. Folded it is drawn 2 × 35 = 70 wide:
// 510 × 70 = 35 700 mm² = 357 cm². Its ends are turned in, each folded onto itself, half of
// 70 each: 2 × 35 = 70 mm. It is notched where the side seam meets it, 240 from its end, and
// where its lap begins, at 480.
const waistband = `
cloth: {shell: linen}
thread: {white: white}
pieces:
  front: {cut: 1, rectangle: [240, 500]}
  back: {cut: 1, rectangle: [260, 500], darts: {top: {at: 130, width: 20, length: 100}}}
  waistband: {band: {width: 35, folded: true, lap: 30}}
seams:
  side: {join: [front.right, back.left]}
  opening: {join: [front.left, back.right], type: zip-lapped}
  waist: {join: [[front.top, back.top], waistband.bottom], type: band}
finishes:
  hem: {of: [front.bottom, back.bottom], type: double-turned-hem}
`

func TestBandWithLap(t *testing.T) {
	g := deriveClean(t, roomWith(t), waistband)
	g.is(t, 1e-6, map[string]float64{
		"piece.waistband.band-length": 510, "piece.waistband.edge.bottom.length": 510, "piece.waistband.area": 357,
		"seam.waist.difference": 0, "seam.waist.length": 480, "piece.waistband.turned": 0.07, "piece.waistband.line.fold.length": 510,
	})
	if g.Seams[2].Name != "waist" || !g.Seams[2].Meets {
		t.Errorf("%s does not meet", g.Seams[2].Name)
	}
	marks := g.Pieces[2].NotchesAlong()
	if len(marks) != 2 || marks[0].Along != 240 || marks[1].Along != 480 {
		t.Errorf("notches of the band: %v", marks)
	}
	if slices.ContainsFunc(g.Seams, func(s *garment.Seam) bool { return strings.HasSuffix(s.Name, "ends") }) {
		t.Error("the ends of a band that laps are sewn to each other")
	}
	turned := deriveClean(t, roomWith(t), strings.Replace(waistband, "[[front.top, back.top], waistband.bottom]", "[waistband.bottom, [front.top, back.top]]", 1))
	turned.is(t, 1e-6, map[string]float64{"piece.waistband.band-length": 510, "seam.waist.difference": 0, "seam.waist.length": 480})
}

// Cuffs and their rounds: two sleeves of 240 at the wrist, drawn in to 240 − 30 = 210 by a
// pleat of 15 (twice its depth); each cuff is 210 + 20 = 230 long. Moved out by 6 at the
// underarm a sleeve is 6 wider at its wrist, and each cuff is 236.
const cuffs = `
cloth: {shell: linen}
thread: {white: white}
pieces:
  sleeve: {cut: 2, rectangle: [240, 400], pleats: {bottom: {depth: 15, at: 60, drawn: true}}}
  cuff: {cut: 2, of: [shell, shell], band: {width: 60, lap: 20}}
seams:
  underarms: [sleeve.left, sleeve.right]
  cuffs: {join: [sleeve.bottom, cuff.bottom]}
finishes:
  heads: {of: sleeve.top, type: overlocked-edge}
`

func TestCuffsFollowRounds(t *testing.T) {
	deriveClean(t, roomWith(t), cuffs).is(t, 1e-6, map[string]float64{"piece.cuff.band-length": 230, "seam.cuffs.length": 210, "seam.cuffs.total": 0.42})
	later := deriveClean(t, roomWith(t), cuffs+"fittings:\n  - {day: 2027-01-04, saw: tight, agreed: maker, change: {sleeve.right: 6}}\n")
	later.is(t, 1e-6, map[string]float64{"piece.cuff.band-length": 236, "seam.cuffs.difference": 0})
	eased := deriveClean(t, roomWith(t), strings.Replace(cuffs, "cuff.bottom]", "cuff.bottom], gather: 1.5", 1))
	eased.is(t, 1e-6, map[string]float64{"piece.cuff.band-length": 210/1.5 + 20})
}

// Cuffs whose seams are written for each sleeve are as long as those written for both:
// 210 and the lap of 20 (240 less two depths of 15).
func TestCuffsBySide(t *testing.T) {
	const bySide = "left cuff: {join: [left sleeve.bottom, left cuff.bottom]}\n  right cuff: {join: [right sleeve.bottom, right cuff.bottom]}"
	g, faults := roomWith(t).desk().derive(t, strings.Replace(cuffs, "cuffs: {join: [sleeve.bottom, cuff.bottom]}", bySide, 1))
	g.is(t, 1e-6, map[string]float64{"piece.left-cuff.band-length": 230, "piece.right-cuff.band-length": 230, "seam.left-cuff.difference": 0})
	for _, f := range append(faults, g.Faults...) {
		if strings.Contains(f.Message, "in no seam") || strings.Contains(f.Message, "longer than") {
			t.Errorf("%v", f)
		}
	}

	one, _ := roomWith(t).desk().derive(t, strings.Replace(cuffs, "join: [sleeve.bottom,", "join: [left sleeve.bottom,", 1))
	one.is(t, 1e-6, map[string]float64{"piece.cuff.band-length": 230})
}

// A neckband of ribbing (geometry, exact; shares of 0.75 to 0.9 are common practice, no
// source): the neck is 250 + 200 = 450 round, 0.8 of it 360, sewn to a ring. What it is sewn
// to is drawn in to 0.8.
const neckband = `
cloth: {shell: linen, ribbing: rib}
thread: {white: white}
usual: {seam: overlocked}
pieces:
  front: {cut: 1, rectangle: [250, 500]}
  back: {cut: 1, rectangle: [200, 500]}
  neckband: {of: ribbing, band: {width: 20, folded: true, share: 0.8}}
seams:
  sides: {join: [front.left, back.right]}
  other sides: {join: [front.right, back.left]}
  neck: {join: [[front.top, back.top], neckband.bottom]}
finishes:
  hem: {of: [front.bottom, back.bottom], type: double-turned-hem}
`

func TestBandByShare(t *testing.T) {
	g := deriveClean(t, roomWith(t).file("content/cloth/rib.yaml", "name: Rib\nfibres: {cotton: 100}\nwidth: 800\nstretch: {across: 80, along: 40}\n"), neckband)
	g.is(t, 1e-6, map[string]float64{"piece.neckband.band-length": 360, "seam.neck.difference": 0, "seam.neck.length": 450, "seam.neckband-ends.length": 40, "piece.neckband.edge.bottom.allowance": 6, "piece.neckband.edge.top.allowance": 6,
		"piece.front.edge.top.drawn": 0.8})
	last := g.Seams[len(g.Seams)-1]
	if last.Name != "neckband ends" || !g.Seams[2].Meets {
		t.Errorf("the last seam is %s; the neck meets: %t", last.Name, g.Seams[2].Meets)
	}
	if n := len(g.Pieces[2].NotchesAlong()); n != 1 {
		t.Errorf("%d notches on the band, one for each seam it crosses but the one at its own ends", n)
	}
}

// A band on the far side of another, as a frill on a stand: 300 long at its bottom, and so
// at its top.
func TestBandOnBand(t *testing.T) {
	deriveClean(t, roomWith(t), `
cloth: {shell: linen}
thread: {white: white}
pieces:
  frill: {band: 40}
  stand: {band: {width: 30}}
  body: {cut: 1, rectangle: [300, 400]}
seams:
  neck: {join: [body.top, stand.bottom]}
  frill: {join: [stand.top, frill.bottom]}
finishes:
  edges: {of: [body.left, body.right, body.bottom, stand.left, stand.right, frill.left, frill.right, frill.top], type: overlocked-edge}
`).is(t, 1e-6, map[string]float64{"piece.stand.band-length": 300, "piece.frill.band-length": 300})
}

// One cuff for two sleeves would be as long as both wrists; it is asked about.
func TestCuffCutOnce(t *testing.T) {
	g, _ := roomWith(t).desk().derive(t, strings.Replace(cuffs, "cuff: {cut: 2, ", "cuff: {", 1))
	const want = "cuff is cut once and sewn to sleeve.bottom, which is there twice: is it one band for both?"
	if !slices.ContainsFunc(g.Faults, func(f fault.Fault) bool { return f.Message == want && f.Hint == "add cut: 2" }) {
		t.Errorf("%v", g.Faults)
	}
}
