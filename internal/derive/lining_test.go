package derive

import "testing"

// A back lining is cut half an inch wider than its pattern at the middle, for a plait: a
// half back of 200 mm lies 2 × 200 + 2 × 12.7 = 425.4 mm wide (The Dressmaker, c. 1911).
// With 5 mm more at the side and a hem 20 mm shorter it is 2 × (200 + 12.7 + 5) = 435.4
// wide and 580 long.
func TestLiningFromTheShell(t *testing.T) {
	const shell = `cloth: {shell: linen, lining: linen}
pieces:
  back: {of: shell, cut: 1 on fold, outline: {hem: {to: [200, 0], level: none}, side: [200, 600], top: [0, 600], centre: fold}, levels: {chest: 300}}
  lining: {like: back, of: lining, change: `
	deriveClean(t, roomWith(t), shell+"{centre: 12.7}}\n").is(t, 1e-9, map[string]float64{"piece.lining.level.chest": 425.4})
	deriveClean(t, roomWith(t), shell+"{hem: -20, side: 5, centre: 12.7}}\n").is(t, 1e-9, map[string]float64{
		"piece.lining.level.chest": 435.4, "piece.lining.edge.side.length": 580,
	})
}
