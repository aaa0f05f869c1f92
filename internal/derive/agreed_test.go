package derive

import (
	"testing"

	"hembook/internal/record"
)

// What the second calculator found: each of these came out otherwise once.
func TestFoundByTheSecondCalculator(t *testing.T) {
	g := deriveClean(t, roomWith(t), `
cloth: {shell: linen}
thread:
  one: {colour: red}
  two: {colour: red}
  three: {colour: red}
pieces:
  panel: {cut: 2, rectangle: [1000, 1000]}
  yoke: {cut: 2, rectangle: [1000, 1000]}
  tab: {rectangle: [10.5 in, 40]}
  flap: {rectangle: [266, 40]}
seams:
  centre: {join: [panel.left, panel.left], type: flat-felled-offset, width: 10, fold: 7, narrow: 5, thread: two}
  chain: {join: [panel.right, yoke.right], type: plain-overlocked, stitch: "401", thread: one}
  narrow: {join: [panel.top, yoke.top], type: overlocked, allowance: 8, stitch: "514", thread: two}
  wide: {join: [panel.top, yoke.top], type: plain, allowance: 18, thread: two}
finishes:
  hem: {of: panel.bottom, type: single-turned-hem, stitch: "304", thread: three}
notions:
  buttons: {along: tab.bottom, every: 3 in}
  hooks: {along: flap.bottom, every: 76}
`)
	g.is(t, 1e-9, map[string]float64{
		// Sewn to its own mirror image it is narrow on one copy and wide on the
		// other, 10 + 7, and both are cut by one line.
		"piece.panel.edge.left.allowance": 17,
		// Two seams go over it, and the wider must fit.
		"piece.panel.edge.top.allowance": 18,
		// 1 m twice of chain stitch, 5.5 of which a quarter is needle thread, and
		// each edge neatened in three-thread overlock, 14 of which a fifth is.
		"thread.one.needle": 2*5.5/4 + 2*2*14.0/5,
		// The cut edge of a hem of 2 m is overlocked, and the hem zigzagged.
		"thread.three.needle": 2*14.0/5 + 2*5.5/2,
		// 10.5 ÷ 3 is three and a half gaps: four, as 266 ÷ 76 is.
		"notion.buttons.count": 5,
		"notion.hooks.count":   5,
	})
}

// Cloth is paid for as it was bought, and it was longer before it was washed:
// 1 m² of a cloth that washed is 1 m wide is 1 m long, of which there were
// 1 ÷ 0.96 before.
func TestClothIsPaidForUnwashed(t *testing.T) {
	g := deriveClean(t, roomWith(t).file("content/cloth/linen.yaml",
		"name: Linen\nfibres: {linen: 100}\nwidth: 1250\nprice: 24.00 EUR\nshrink: {along: 4, across: 20}\n"), `
cloth: {shell: linen}
pieces:
  panel: {rectangle: [1000, 1000], allowance: 0}
`)
	for _, p := range g.PrivateFigures() {
		if f := p.Open(record.ToCheck); f.ID == "cost.cloth.shell" {
			if got := f.Value.Money.String(); got != "25.00 EUR" {
				t.Errorf("the cloth cost %s, want 25.00 EUR: %s", got, f.Working.Sum())
			}
			return
		}
	}
	t.Error("nothing is said of what the cloth cost")
}
