package derive

import (
	"slices"
	"strings"
	"testing"

	"hembook/internal/garment"
)

// A folded band worked by hand: its seam takes 10 of each edge, the inner one too, so that
// it is cut 10 + 2 × 35 + 10 = 90 wide with its fold in the middle, and its ends 15 as is
// usual. The seam is as wide as the band, 35, whatever its type has usual.
func TestFoldedBandTakesAsMuchInside(t *testing.T) {
	allowances := func(bottom, top float64) map[string]float64 {
		return map[string]float64{"piece.waistband.edge.bottom.allowance": bottom, "piece.waistband.edge.top.allowance": top, "piece.waistband.edge.left.allowance": 15}
	}
	for _, k := range []struct {
		name, old, now string
		bottom, top    float64
	}{
		{"as its seam takes", "", "", 10, 10},
		{"a seam with an allowance of its own", "type: band", "type: band, allowance: 12", 12, 12},
		{"an allowance written at the inner edge", "waistband: {band", "waistband: {edges: {top: {allowance: 18}}, band", 10, 18},
		{"the inner edge finished by itself", "finishes:", "finishes:\n  neatening: {of: waistband.top, type: single-turned-hem, depth: 20}", 10, 20},
		{"both edges overlocked at once", "type: band", "type: overlocked", 6, 6},
		{"both edges named", "waistband.bottom], type: band", "waistband.bottom, waistband.top], type: plain, allowance: 11", 11, 11},
	} {
		t.Run(k.name, func(t *testing.T) {
			g := deriveClean(t, roomWith(t), strings.Replace(waistband, k.old, k.now, 1))
			g.is(t, 1e-6, allowances(k.bottom, k.top))
			g.is(t, 1e-6, map[string]float64{"opening.waist": 480})
			if k.old == "" || k.name == "an allowance written at the inner edge" {
				g.is(t, 1e-6, map[string]float64{"seam.waist.width": 35})
			}
			if n := slices.IndexFunc(g.Openings, func(o garment.Opening) bool { return o.Of == "waistband.fold" }); n < 0 {
				t.Errorf("the waist opens at none of %v", g.Openings)
			}
		})
	}
	wider := deriveClean(t, roomWith(t), strings.Replace(waistband, "width: 35", "width: 40", 1))
	wider.is(t, 1e-6, map[string]float64{"seam.waist.width": 40})
}

// The ends of a band that goes all round are sewn into a ring before it is sewn on, in the
// same step.
func TestEndsOfABandComeFirst(t *testing.T) {
	g := deriveClean(t, roomWith(t).file("content/cloth/rib.yaml", "name: Rib\nfibres: {cotton: 100}\nwidth: 800\nstretch: {across: 80, along: 40}\n"), neckband+"work:\n  sides: {takes: 10 min, sews: [sides, other sides]}\n  neck: 20 min\n  hem: 10 min\n")
	var sews []string
	for _, name := range g.Build.Work[1].Sews {
		sews = append(sews, name.V)
	}
	if !slices.Equal(sews, []string{"neckband ends", "neck"}) {
		t.Errorf("the step of the neck sews %v", sews)
	}
	g.is(t, 1e-6, map[string]float64{"total.hours-planned": 40})
}

// A rectangle folded over by its seam: 510 × 80 is a band of 40.
func TestFoldedRectangle(t *testing.T) {
	text := strings.Replace(waistband, "waistband: {band: {width: 35, folded: true, lap: 30}}", "waistband: {rectangle: [510, 80]}", 1)
	deriveClean(t, roomWith(t), strings.Replace(text, "type: band", "type: band, overlap: 30", 1)).is(t, 1e-6, map[string]float64{
		"seam.waist.width": 40, "piece.waistband.edge.bottom.allowance": 10, "piece.waistband.edge.top.allowance": 10, "seam.waist.difference": 0})
}

// Whichever edge stands first: the band is the one that is a band, is called like one, or
// is longer by the overlap; a waist of 480 and what laps 30.
func TestBandInEitherOrder(t *testing.T) {
	band := strings.Replace(waistband, "waistband: {band: {width: 35, folded: true, lap: 30}}", "NAME: {rectangle: [510, 80]}", 1)
	for _, k := range []struct{ name, join string }{
		{"waistband", "[[front.top, back.top], NAME.bottom], type: band, overlap: 30"},
		{"waistband", "[NAME.bottom, [front.top, back.top]], type: band, overlap: 30"},
		{"waistband", "[NAME.bottom, [front.top, back.top]], type: plain, overlap: 30"},
		{"waistband", "[[front.top, back.top], NAME.bottom], type: plain, overlap: 30"},
		{"strip", "[NAME.bottom, [front.top, back.top]], type: band, overlap: 30"},
		{"strip", "[[front.top, back.top], NAME.bottom], type: band, overlap: 30"},
	} {
		text := strings.ReplaceAll(strings.Replace(band, "[[front.top, back.top], waistband.bottom], type: band", k.join, 1), "NAME", k.name)
		g := deriveClean(t, roomWith(t), text)
		g.is(t, 1e-6, map[string]float64{"seam.waist.length": 480, "seam.waist.difference": 0})
		if s := g.Seams[2]; strings.Contains(k.join, "type: band") && s.Sides[1].Edges[0].Piece.Name != k.name {
			t.Errorf("%s: side b is %s", k.join, s.Sides[1].Edges[0].Piece.Name)
		}
	}
}
