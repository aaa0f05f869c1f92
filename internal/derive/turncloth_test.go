package derive

import (
	"slices"
	"strings"
	"testing"

	"hembook/internal/fault"
)

// What an outer ply needs, by geometry: rolled through an angle, two plies lie on arcs that
// are as far apart as their middles, so the outer one is longer by the angle times that.
// Two plies of 1 mm rolled by 180°: π × 1 = 3.14 mm, which is the 1/8 in (3.2 mm) by which
// an undercollar is cut smaller on its three outside edges (Judy Barlup, Understand
// Turn-of-Cloth, Threads no. 131, Taunton, pp. 71-76); of 1.5 mm by 90°: 2.36 mm.
//
// The upper collar is 220 wide on the fold and 90 high, the undercollar the same.
const collars = `
cloth: {shell: coating, fusing: canvas}
pieces:
  upper collar:
    of: shell
    outline:
      outer: [220, 0]
      end: [220, 90]
      neck: [0, 90]
      centre: fold
    turn-of-cloth: 180
  under collar: {like: upper collar}
seams:
  outer: {join: [upper collar.outer, under collar.outer], type: enclosed}
  ends: {join: [upper collar.end, under collar.end], type: enclosed}
  neck: {join: [upper collar.neck, under collar.neck]}
`

func collarRoom(t testing.TB, thick string) *testRoom {
	return roomWith(t).file("content/cloth/coating.yaml", "name: Coating\nfibres: {wool: 100}\nwidth: 1400\nthick: "+thick+"\n").
		file("content/cloth/canvas.yaml", "name: Canvas\nfibres: {linen: 100}\nwidth: 1400\nthick: 0.4\n")
}

func TestTurnOfCloth(t *testing.T) {
	for _, c := range []struct {
		name, thick, from, to string
		apart, needs, has     float64
	}{
		{"two plies of 1 mm, half a turn", "1", "", "", 1, 3.1416, 0},
		{"two plies of 2 mm, half a turn", "2", "", "", 2, 6.2832, 0},
		{"two plies of 1.5 mm, a quarter", "1.5", "turn-of-cloth: 180", "turn-of-cloth: 90", 1.5, 2.3562, 0},
		{"canvas of 0.4 mm between two of 1 mm", "1", "under collar: {like: upper collar}", "under collar: {like: upper collar, of: [shell, fusing]}", 1.4, 4.3982, 0},
		{"canvas behind the upper one as a piece of its own", "1", "under collar: {like: upper collar}", "under collar: {like: upper collar}\n  canvas: {like: upper collar, of: fusing}", 1.4, 4.3982, 0},
		{"as found by rolling samples", "1", "turn-of-cloth: 180", "turn-of-cloth: {angle: 180, more: 4}", 1, 4, 0},
		{"the under one cut smaller", "1", "under collar: {like: upper collar}", "under collar: {like: upper collar, change: {outer: -3}}", 1, 3.1416, 3},
		{"measured where it is said", "1", "turn-of-cloth: 180\n  under collar: {like: upper collar}", "turn-of-cloth: {angle: 180, across: neck at end to outer at end}\n  under collar: {like: upper collar, change: {outer: -2.5}}", 1, 3.1416, 2.5},
		{"over a piece that is named", "1", "turn-of-cloth: 180", "turn-of-cloth: {angle: 180, over: under collar}", 1, 3.1416, 0},
	} {
		g, _ := collarRoom(t, c.thick).desk().derive(t, head+strings.Replace(collars, c.from, c.to, 1))
		if c.from != "" && !strings.Contains(collars, c.from) {
			t.Fatalf("%s: nothing is replaced", c.name)
		}
		base := "piece." + g.Pieces[0].Anchor[len("piece-"):] + ".turn-of-cloth."
		g.is(t, 1e-3, map[string]float64{base + "apart": c.apart, base + "needs": c.needs, base + "has": c.has})
		if t.Failed() {
			t.Fatal(c.name, g.Faults)
		}
	}
}

// The cuff that is its own inner ply, and the folded band: both plies are cut to one outline.
func TestTurnOfClothOfOnePiece(t *testing.T) {
	const cuff = `
cloth: {shell: coating, fusing: canvas}
pieces:
  cuff: {of: [shell, fusing, shell], cut: 2, rectangle: [240, 60], turn-of-cloth: 360}
  band: {of: shell, cut: 1, band: {width: 40, folded: true, length: 700}, turn-of-cloth: 360}
`
	g, _ := collarRoom(t, "1").desk().derive(t, head+cuff)
	// half of 1 + 0.4 + half of 1 = 1.4; 2π × 1.4 = 8.80. Of the band 2π × 1 = 6.28.
	g.is(t, 1e-3, map[string]float64{
		"piece.cuff.turn-of-cloth.apart": 1.4, "piece.cuff.turn-of-cloth.needs": 8.7965, "piece.cuff.turn-of-cloth.has": 0,
		"piece.band.turn-of-cloth.needs": 6.2832,
	})
}

func TestTurnOfClothTold(t *testing.T) {
	for _, c := range []struct{ thick, from, to, want, hint string }{
		{"1.5", "", "", "upper collar: it is cut as large as under collar; rolled over by 180° it needs 4.7 mm more", "make under collar 4.7 mm smaller at its outer edge"},
		{"1.5", "turn-of-cloth: 180", "turn-of-cloth: {angle: 180, across: neck at end to outer at end}", "upper collar: it is cut as large as under collar; rolled over by 180° it needs 4.7 mm more", "make under collar smaller, as change: {outer: -4.7}"},
		{"1.5", "like: upper collar", "like: upper collar, change: {outer: 3}", "upper collar: it is 3 mm smaller than under collar; rolled over by 180° it needs 4.7 mm more", "make under collar 7.7 mm smaller at its outer edge"},
		{"1.5", "like: upper collar", "like: upper collar, change: {outer: -12}", "upper collar: it is 12 mm larger than under collar; rolled over by 180° it needs 4.7 mm more", "take 7.3 mm off it at its outer edge"},
		{"1.5", "like: upper collar", "like: upper collar, change: {outer: -4}", "", ""},
		{"0.2", "", "", "", ""}, // lawn: 0.6 mm is less than shears cut exactly
		{"1.5", "turn-of-cloth: 180", "turn-of-cloth: {angle: 180, over: undercolar}", `there is no piece "undercolar" in this garment`, `did you mean "under collar"?`},
		{"1.5", "turn-of-cloth: 180", "turn-of-cloth: {angle: 180, across: neck at middle to outr at middle}", `there is no edge "outr" on the piece "upper collar"`, `did you mean "outer"?`},
	} {
		g, faults := collarRoom(t, c.thick).desk().derive(t, head+strings.Replace(collars, c.from, c.to, 1))
		all := slices.Concat(faults, g.Faults)
		k := slices.IndexFunc(all, func(f fault.Fault) bool {
			return f.Message == c.want || c.want == "" && strings.Contains(f.Message, "rolled")
		})
		switch {
		case c.want == "" && k >= 0:
			t.Errorf("%s: told %s", c.to, all[k])
		case c.want == "":
		case k < 0:
			t.Errorf("%s: nothing says %q, but %v", c.to, c.want, all)
		case all[k].Hint != c.hint:
			t.Errorf("%s: %q, want %q", c.to, all[k].Hint, c.hint)
		}
	}
}

// An under collar that is cut 4.7 mm smaller is told so at the ends, whose upper one is
// longer by that: what is rolled over is eased in, and not cut shorter. Half a turn over two
// cloths of 1.5 mm is π × 1.5 = 4.7 mm. The other way round it is shortened as ever.
func TestTurnOfClothIsEasedIn(t *testing.T) {
	for change, hint := range map[string]string{
		"-4.7": "it is rolled over the other and needs more, so ease it in: ease: 4.7",
		"4.7":  "shorten the longer edge by 4.7, or ease it in: ease: 4.7",
	} {
		g, _ := collarRoom(t, "1.5").desk().derive(t, head+strings.Replace(collars, "like: upper collar", "like: upper collar, change: {outer: "+change+"}", 1))
		k := slices.IndexFunc(g.Faults, func(f fault.Fault) bool { return strings.HasPrefix(f.Message, "ends: ") })
		if k < 0 || g.Faults[k].Hint != hint || g.Faults[k].Correct == nil {
			t.Errorf("%s: %v", change, g.Faults)
		}
	}
}

func TestTurnOfClothUnknown(t *testing.T) {
	g, _ := collarRoom(t, "1").file("content/cloth/coating.yaml", "name: Coating\nfibres: {wool: 100}\nwidth: 1400\n").desk().derive(t, head+collars)
	want := "upper collar: what it needs for its turn of cloth is not known, because the thickness of the shell is not written"
	if !slices.ContainsFunc(g.Faults, func(f fault.Fault) bool { return f.Message == want }) {
		t.Errorf("nothing says %q: %v", want, g.Faults)
	}
}
