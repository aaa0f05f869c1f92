package pattern

import "testing"

// TestLaidIsNamedOnce: what lies along an edge or in its channel is named once along its
// line, with the length it is cut to: seven tenths of 200 is 140, and 400 less 2 times 10 is
// 380 (worked by hand).
func TestLaidIsNamedOnce(t *testing.T) {
	g := derivedOne(t, `pieces: {front: {cut: 1, rectangle: [200, 400]}}
finishes: {hem: {of: [front.bottom], type: casing, elastic: 10}}
notions: {elastic: {in: hem, share: 0.7}, side tape: {along: front.left, clear: 10}}
`)
	d, _ := drawPiece(g.Pieces[0], Style{})
	said := map[string]int{}
	for _, m := range d.Marks {
		if m.Label != nil {
			said[m.Label.Words]++
		}
	}
	for _, words := range []string{"elastic · cut 140 mm", "side tape · cut 380 mm"} {
		if said[words] != 1 {
			t.Errorf("%q stands there %d times, among %v", words, said[words], said)
		}
	}
}
