package pattern

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"hembook/internal/derive"
	"hembook/internal/document"
	"hembook/internal/fault"
	"hembook/internal/garment"
	"hembook/internal/paper"
	"hembook/internal/record"
	"hembook/internal/shape"
)

// A wanted is a line that must be printed: two places of the piece, worked by hand.
type wanted struct {
	what     string
	from, to shape.Point
}

func line(what string, x0, y0, x1, y1 float64) wanted {
	return wanted{what, shape.Point{X: x0, Y: y0}, shape.Point{X: x1, Y: y1}}
}

// TestThreeGarmentsMeasureWhatTheySay prints pieces of a shirt, a skirt and a top on a roll
// and measures, at 300 dots to the inch, where their lines lie.
//
// The shirt's front: its centre lies 18 inside the front edge, at 0, and its seven buttons
// from 65 below the neck, 690, to 150: 79.17 apart; a hole of 11 + 3 begins 3.175 above. The
// pocket was moved to (56, 438) and is 115 by 130. Its back's pleat is 25 deep after the
// second round: folded at 25, 50 under, laid on 75, stitched 30 down from 680. The sleeve's
// underarms, which lean 58 in 436, were moved out by 5: the wrist begins 5.04 farther out, at
// −155.04, the slit lies 75 from there and is 120 long; its pleats are laid on 110 and 155,
// 30 from their folds, and run out 120 above.
//
// The skirt's front is 1092 wide, its six box pleats 182 apart: (1092 − 365) ÷ 24 = 30.29
// deep at the waist and (1092 − 515) ÷ 24 = 24.04 from the hip on, 200 lower. Three depths
// each side of 91 is 0.125 from where the first begins, and on that they are laid. It is 560 long.
//
// The top's cuff is 0.8 of a wrist of 190 that rises by 5, an arc of 190.35, is folded
// at 50, and overlocked into a ring 6 from its cut edges.
func TestThreeGarmentsMeasureWhatTheySay(t *testing.T) {
	shirt, skirt, top := measuredRooms(t)
	front := []wanted{line("its front edge", -18, 100, -18, 600), line("its cut edge", -60, 100, -60, 600),
		line("the pocket's left", 56, 310, 56, 436), line("the pocket's right", 171, 310, 171, 436), line("the pocket's top", 58, 438, 169, 438), line("the pocket's bottom", 58, 308, 169, 308)}
	for k := range 7 {
		y := 625 - float64(k)*(625-150)/6
		front = append(front, line(fmt.Sprint("hole ", k+1), 0, y+2.5, 0, y-10.2), line(fmt.Sprint("the upper end of hole ", k+1), -0.5, y+3.175, 0.5, y+3.175), line(fmt.Sprint("the lower end of hole ", k+1), -0.5, y-10.825, 0.5, y-10.825))
	}
	corner := -150 - 5*math.Hypot(436, 58)/436
	slit, pleat := corner+75, corner+110
	deep, hip := (1092-365)/24.0, (1092-515)/24.0
	var folds []wanted
	for k := range 6 {
		for _, side := range []float64{-1, 1} {
			at := func(depths, d float64) float64 { // from the place, towards the middle
				return 91 + 182*float64(k) + side*(3*deep-depths*d)
			}
			folds = append(folds, line(fmt.Sprint("place ", k+1), at(0, 0), 540, at(0, 0), 380),
				line(fmt.Sprint("fold ", k+1), at(2, deep), 560, at(2, hip), 360), line(fmt.Sprint("fold behind ", k+1), at(1, deep), 560, at(1, hip), 360),
				line(fmt.Sprint("fold below the hip ", k+1), at(2, hip), 340, at(2, hip), 20))
		}
	}
	wrist := 190 + 8*5*5/(3*190.0)
	cuff := []wanted{line("its fold", 5, 50, 0.8*wrist-5, 50), line("its right", 0.8*wrist, 5, 0.8*wrist, 95), line("its cut right", 0.8*wrist+6, 5, 0.8*wrist+6, 95)}
	for _, c := range []struct {
		g     *derive.Garment
		piece string
		want  []wanted
	}{
		{shirt, "front", front},
		{shirt, "back", []wanted{line("its fold", 25, 50, 25, 670), line("the fold behind", 50, 50, 50, 640), line("its place", 75, 50, 75, 670), line("the end of its stitching", 26, 650, 74, 650)}},
		{shirt, "sleeve", []wanted{line("its slit", slit, 2, slit, 118), line("the end of its slit", slit-0.8, 120, slit+0.8, 120),
			line("its first place", pleat, 0, pleat, 100), line("its first fold", pleat+30, 0, pleat, 120), line("its second fold behind", pleat+45+15, 0, pleat+45, 120)}},
		{skirt, "front", folds},
		{top, "cuff", cuff},
	} {
		p := onPaper(t, c.g, c.piece)
		worst := 0.0
		for _, w := range c.want {
			off, met := p.off(w)
			if worst = max(worst, off); off > 0.3 || met < 12 {
				t.Errorf("%s, %s: met %d times, %.3f mm off", c.piece, w.what, met, off)
			}
		}
		t.Logf("%s: %d lines lie within %.3f mm", c.piece, len(c.want), worst)
	}
}

// A sheetOf is a piece on the sheet it is printed on.
type sheetOf struct {
	scan
	at   func(shape.Point) (x, y float64) // mm from the sheet's corner
	side float64                          // how far beside a line it is looked for, mm
}

func onPaper(t *testing.T, g *derive.Garment, name string) sheetOf {
	t.Helper()
	one := *g.Garment
	one.Pieces = nil
	var piece *garment.Piece
	for _, p := range g.Pieces {
		if p.Name == name {
			piece = p
			one.Pieces = append(one.Pieces, p)
		}
	}
	s, err := printOf(&derive.Garment{Garment: &one}, paper.Stock{Wide: 914}, document.A4).Set()
	if err != nil {
		t.Fatal(err)
	}
	p := sheetOf{scan: scannedPDF(t, s.PDF), side: 1}
	least, most := piece.Bounds()
	for _, placed := range s.Plan.Tiles[0].Placed {
		large := s.Plan.Larges[placed.Large]
		if large.Name != name {
			continue
		}
		const margin = 10
		box := large.Drawing.Box
		p.at = func(q shape.Point) (x, y float64) {
			x, y = q.X-least.X, most.Y-q.Y
			if placed.Turned {
				x, y = y-box.Top, box.Right-x
			} else {
				x, y = x-box.Left, y-box.Top
			}
			return x + placed.X + margin, y + placed.Y + margin
		}
	}
	return p
}

// off is how far beside where it should lie a line is printed, in the middle of all places at
// which it is met: dashes are met at some, and where another line crosses both are one stroke.
func (p sheetOf) off(w wanted) (middle float64, met int) {
	const steps = 60
	ax, ay := p.at(w.from)
	bx, by := p.at(w.to)
	long := math.Hypot(bx-ax, by-ay)
	nx, ny := (ay-by)/long, (bx-ax)/long
	var all []float64
	for k := range steps + 1 {
		x, y := ax+(bx-ax)*float64(k)/steps, ay+(by-ay)*float64(k)/steps
		best := math.Inf(1)
		const fine = 20 // to the millimetre
		n := int(p.side * fine)
		for _, at := range strokes(func(i int) byte {
			d := float64(i)/fine - p.side
			return p.dark(x+d*nx, y+d*ny)
		}, 0, 2*n+1) {
			best = min(best, math.Abs((at-0.5)/fine-p.side))
		}
		if best < p.side/2 {
			all = append(all, best)
		}
	}
	if len(all) == 0 {
		return math.Inf(1), 0
	}
	slices.Sort(all)
	return all[len(all)/2], len(all)
}

// dark is the dot at a place, mm from the sheet's corner.
func (p sheetOf) dark(x, y float64) byte {
	i, j := int(x/dot), int(y/dot)
	if i < 0 || j < 0 || i >= p.wide || j >= p.high {
		return 255
	}
	return p.dots[j*p.wide+i]
}

// measuredRooms are the shirt, the skirt and the top, each with nothing wrong in it.
func measuredRooms(t *testing.T) (shirt, skirt, top *derive.Garment) {
	t.Helper()
	dir := t.TempDir()
	write(t, dir, "content/workroom.yaml", "name: Test room\n")
	for name, to := range map[string]string{"build.yaml": "builds/b/build.yaml", "skirt.svg": "builds/b/pattern/skirt.svg", "quarry-check.yaml": "cloth/quarry-check.yaml", "slate-lining.yaml": "cloth/slate-lining.yaml", "band-fusible.yaml": "cloth/band-fusible.yaml"} {
		text, err := os.ReadFile(filepath.Join("../derive/testdata/quarry-skirt", name))
		if err != nil {
			t.Fatal(err)
		}
		write(t, dir, "content/"+to, string(text))
	}
	knit := t.TempDir()
	a, err := txtar.ParseFile("../../testdata/newcomer/knit-top.txtar")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range a.Files {
		write(t, knit, f.Name, string(f.Data))
	}
	return derivedIn(t, "testdata/shirt"), derivedIn(t, dir), derivedIn(t, knit)
}

// derivedIn derives the one garment of a workroom, in which nothing may be wrong.
func derivedIn(t *testing.T, dir string) *derive.Garment {
	t.Helper()
	room, _, err := record.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { room.Close() })
	tailor, _ := derive.NewTailor(room)
	b, faults := room.ReadBuild(room.Builds[0])
	g := tailor.Derive(b)
	if faults = append(faults, g.Faults...); fault.HasErrors(faults) {
		t.Fatal(faults)
	}
	return g
}
