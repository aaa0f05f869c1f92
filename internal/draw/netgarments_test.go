package draw

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/tools/txtar"

	"hembook/internal/derive"
	"hembook/internal/drawing"
	"hembook/internal/madeup"
	"hembook/internal/order"
	"hembook/internal/record"
	"hembook/internal/sewn"
	"hembook/internal/shape"
)

// A netted is a garment whose nets are drawn.
type netted struct {
	name string
	*derive.Garment
	*order.Together
}

// nettedIn are the garments of a workroom.
func nettedIn(t testing.TB, name, dir string) []netted {
	t.Helper()
	room, _, err := record.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { room.Close() })
	tailor, _ := derive.NewTailor(room)
	var out []netted
	for _, slug := range room.BuildSlugs() {
		bf, _ := room.BuildNamed(slug)
		b, _ := room.ReadBuild(bf)
		if b == nil {
			t.Fatalf("%s: %s cannot be read", name, bf.Slug)
		}
		g := tailor.Derive(b)
		if to := order.GoesTogether(g.Garment, g.Steps); to != nil {
			out = append(out, netted{name + "-" + bf.Slug, g, to})
		}
	}
	return out
}

// written is a folder with files in it.
func written(t testing.TB, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	if err := madeup.Write(dir, files); err != nil {
		t.Fatal(err)
	}
	return dir
}

func archived(t testing.TB, file string) map[string]string {
	t.Helper()
	ar, err := txtar.ParseFile(file)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for _, f := range ar.Files {
		out[f.Name] = string(f.Data)
	}
	return out
}

// nettedGarments are the garments whose nets are looked at: those of the demo, of other
// rooms' tests, and made-up ones.
func nettedGarments(t testing.TB, madeUp int) []netted {
	t.Helper()
	all := nettedIn(t, "demo", filepath.Join("..", ".."))
	all = append(all, nettedIn(t, "shirt", filepath.Join("..", "pattern", "testdata", "shirt"))...)
	archives, _ := filepath.Glob(filepath.Join("..", "..", "testdata", "newcomer", "*.txtar"))
	for _, file := range archives {
		all = append(all, nettedIn(t, strings.TrimSuffix(filepath.Base(file), ".txtar"), written(t, archived(t, file)))...)
	}
	const head = "name: Test\ngarment: dress\nstate: sewing\n"
	base := func() map[string]string {
		return map[string]string{
			"content/workroom.yaml":    "name: Test workroom\n",
			"content/cloth/linen.yaml": "name: Linen\nfibres: {linen: 100}\nweight: 200 g/m2\nwidth: 1400\nselvedge: 10\n",
		}
	}
	quarry, files := filepath.Join("..", "derive", "testdata", "quarry-skirt"), base()
	for from, to := range map[string]string{"build.yaml": "builds/quarry/build.yaml", "skirt.svg": "builds/quarry/pattern/skirt.svg", "quarry-check.yaml": "cloth/quarry-check.yaml", "slate-lining.yaml": "cloth/slate-lining.yaml", "band-fusible.yaml": "cloth/band-fusible.yaml"} {
		text, err := os.ReadFile(filepath.Join(quarry, from))
		if err != nil {
			t.Fatal(err)
		}
		files["content/"+to] = string(text)
	}
	all = append(all, nettedIn(t, "skirt", written(t, files))...)
	all = append(all, nettedIn(t, "workings", filepath.Join("..", "workings", "testdata", "mm"))...)
	plates, _ := filepath.Glob(filepath.Join("..", "derive", "testdata", "plates", "*.txtar"))
	for _, file := range plates {
		files := base()
		for name, text := range archived(t, file) {
			if name == "build.yaml" {
				name, text = "builds/"+strings.TrimSuffix(filepath.Base(file), ".txtar")+"/build.yaml", head+text
			}
			files["content/"+name] = text
		}
		all = append(all, nettedIn(t, "plate", written(t, files))...)
	}
	for seed := range madeUp {
		w := madeup.Wish{Seed: uint64(seed), Size: 3 + seed%9}
		all = append(all, nettedIn(t, fmt.Sprint("made-up-", seed), written(t, w.Workroom()))...)
	}
	return all
}

// drawnNet is a net, a map or a step with what it is called.
type drawnNet struct {
	name string
	*drawing.Drawing
}

// style is how its nets are drawn on pages.
func (g *netted) style() NetStyle {
	return NetStyle{
		Wide: 168, High: 190, Seam: g.NumberOfSeam, Finish: g.NumberOfFinish, Set: g.NumberOfSetOn, Left: "left", Right: "right",
		Behind: "these lie behind", Onto: "sewn onto other pieces", Apart: "no seam joins these", ID: "net", Piece: g.Piece,
	}
}

// drawnNets are all nets, maps and steps of a garment, as pages have them.
func (g *netted) drawnNets() []drawnNet {
	var out []drawnNet
	style := g.style()
	for _, layer := range g.Layers() {
		var levels []MapLevel
		for _, l := range g.Levels {
			if len(l.Girths) > 0 && l.Girths[0].Layer == layer {
				held := ""
				if l.Fast() && l.HeldBy != "" {
					held = "held by " + l.HeldBy
				}
				levels = append(levels, MapLevel{Words: l.Name + " + 20 mm", Held: l.Fast(), HeldBy: held, Girths: l.Girths})
			}
		}
		for i, n := range g.Nets(layer) {
			name := g.name + "-" + layer + "-" + fmt.Sprint(i)
			if d := Net(g.Together.Sewn, n, style); d != nil {
				out = append(out, drawnNet{name + "-net", d})
			}
			if d := NetMap(g.Together.Sewn, n, MapStyle{NetStyle: style, Spare: g.Spare, Holds: g.Holds, Levels: levels}); d != nil {
				out = append(out, drawnNet{name + "-map", d})
			}
			var numbers []int
			for _, k := range g.StepsThatSew() {
				numbers = append(numbers, k.Step)
			}
			small := style
			small.Wide, small.High = 74, 84
			for k, d := range NetSteps(g.Together.Sewn, n, numbers, StepsStyle{NetStyle: small, ID: "s", Words: func(step int) string { return fmt.Sprint("Step ", step) }, SeamStep: g.StepOfSeam, FinishStep: g.StepOfFinish, FoldsStep: g.StepOfFolds}) {
				if d != nil {
					out = append(out, drawnNet{name + fmt.Sprintf("-step-%02d", numbers[k]), d})
				}
			}
		}
	}
	return out
}

// said is the box that a label's letters take at least, and whether it is a number in a
// ring; letters are taken to be half as wide as their size, and capitals seven tenths high.
func said(l *drawing.Label) (b drawing.Box, ring bool) {
	size := drawing.Print.Letters(l).Size
	if l.Voice == drawing.RingNumber {
		y, r := l.Y-size*0.36, discOf(l.Words)
		return drawing.Box{Left: l.X - r, Top: y - r, Right: l.X + r, Bottom: y + r}, true
	}
	wide, high := 0.5*size*letters(l.Words), 0.7*size
	left := map[drawing.Anchor]float64{drawing.Begin: 0, drawing.Middle: wide / 2, drawing.End: wide}[l.Anchor]
	if l.Turn != 0 { // read from the right
		return drawing.Box{Left: l.X - high, Top: l.Y - wide/2, Right: l.X, Bottom: l.Y + wide/2}, false
	}
	return drawing.Box{Left: l.X - left, Top: l.Y - high, Right: l.X - left + wide, Bottom: l.Y}, false
}

// overlap reports whether two labels stand on each other; rings as discs.
func overlap(a, b *drawing.Label) bool {
	x, one := said(a)
	y, two := said(b)
	if one && two {
		return math.Hypot((x.Left+x.Right-y.Left-y.Right)/2, (x.Top+x.Bottom-y.Top-y.Bottom)/2) < (x.Right-x.Left+y.Right-y.Left)/2-0.05
	}
	return x.Left < y.Right && y.Left < x.Right && x.Top < y.Bottom && y.Top < x.Bottom
}

// outlines are the lines round the pieces of a net, on paper.
func outlines(d *drawing.Drawing) (out []shape.Ring) {
	for i := range d.Marks {
		if m := &d.Marks[i]; m.Label == nil && m.Means == drawing.NetPiece {
			var ring shape.Ring
			var last drawing.Point
			d.Path(i).Each(func(op drawing.Op, at []drawing.Point) {
				if op == drawing.CurveTo {
					for k := 1; k < 24; k++ {
						t := float64(k) / 24
						u := 1 - t
						ring = append(ring, drawing.Point{X: u*u*u*last.X + 3*u*u*t*at[0].X + 3*u*t*t*at[1].X + t*t*t*at[2].X, Y: u*u*u*last.Y + 3*u*u*t*at[0].Y + 3*u*t*t*at[1].Y + t*t*t*at[2].Y})
					}
				}
				if len(at) > 0 {
					last = at[len(at)-1]
					ring = append(ring, last)
				}
			})
			out = append(out, ring)
		}
	}
	return out
}

// crosses reports whether a line round a piece runs through a box, or nearer to the
// middle of a ring than it is large.
func crosses(ring shape.Ring, b drawing.Box, disc bool) bool {
	for i, p := range ring {
		s := stroke{a: p, b: ring[(i+1)%len(ring)]}
		if i == len(ring)-1 { // which may be the fold of a half, and is no line then
			break
		}
		if disc && s.near(drawing.Point{X: (b.Left + b.Right) / 2, Y: (b.Top + b.Bottom) / 2}, (b.Right-b.Left)/2) || !disc && s.meets(b) {
			return true
		}
	}
	return false
}

// TestNetsAreClear: on no net and no map does a word or a number stand on another, on the
// line round a piece, or is a letter smaller than eight points; no piece lies on another;
// each piece has its name.
func TestNetsAreClear(t *testing.T) {
	labels := 0
	for _, g := range nettedGarments(t, 12) {
		for _, d := range g.drawnNets() {
			if strings.Contains(d.name, "-step-") {
				continue
			}
			rings := outlines(d.Drawing)
			var list []*drawing.Label
			for i := range d.Marks {
				if l := d.Marks[i].Label; l != nil && l.Words != "" {
					list = append(list, l)
				}
			}
			for i, l := range list {
				labels++
				if size := drawing.Print.Letters(l).Size; size < 8*25.4/72 {
					t.Errorf("%s: %q is %.2f mm high", d.name, l.Words, size)
				}
				for _, o := range list[i+1:] {
					if overlap(l, o) {
						t.Errorf("%s: %q stands on %q", d.name, l.Words, o.Words)
					}
				}
				b, disc := said(l)
				for _, r := range rings {
					if crosses(r, b, disc) {
						t.Errorf("%s: a line runs through %q", d.name, l.Words)
					}
				}
			}
			for i := range rings {
				for k := i + 1; k < len(rings); k++ {
					if !halves(rings[i], rings[k]) && meet(rings[i], rings[k]) {
						t.Errorf("%s: piece %d lies on piece %d", d.name, i, k)
					}
				}
			}
		}
	}
	if labels < 1000 {
		t.Errorf("only %d labels were looked at", labels)
	}
}

// halves reports whether two lines begin and end at the same places: those round the
// halves of a piece cut on the fold.
func halves(a, b shape.Ring) bool {
	a1, a2, b1, b2 := a[0], a[len(a)-1], b[0], b[len(b)-1]
	return a1.Apart(a2) > 0.01 && (a1.Apart(b1) < 0.01 && a2.Apart(b2) < 0.01 || a1.Apart(b2) < 0.01 && a2.Apart(b1) < 0.01)
}

// meet reports whether the lines round two pieces cross, or one piece holds the other.
func meet(a, b shape.Ring) bool {
	for i, p := range a[:len(a)-1] {
		for k, q := range b[:len(b)-1] {
			if crossAt(p, a[i+1], q, b[k+1]) {
				return true
			}
		}
	}
	return holdsPoint(a, b[0]) || holdsPoint(b, a[0])
}

func crossAt(p, q, u, v drawing.Point) bool {
	side := func(a, b, c drawing.Point) float64 { return (b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X) }
	const little = 1e-6 // halves touch at their fold
	return side(p, q, u)*side(p, q, v) < -little && side(u, v, p)*side(u, v, q) < -little
}

func holdsPoint(r shape.Ring, p drawing.Point) (in bool) {
	for i := range r {
		a, b := r[i], r[(i+1)%len(r)]
		if a.Y > p.Y != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X)-1e-3 {
			in = !in
		}
	}
	return in
}

// TestNothingIsLeftOffNets: each piece has its name, each number of a join its ring.
func TestNothingIsLeftOffNets(t *testing.T) {
	for _, g := range nettedGarments(t, 12) {
		for _, layer := range g.Layers() {
			for i, n := range g.Nets(layer) {
				name := fmt.Sprint(g.name, " ", layer, " ", i)
				said := map[string]int{}
				d := Net(g.Together.Sewn, n, g.style())
				for k := range d.Marks {
					if l := d.Marks[k].Label; l != nil {
						name, _, _ := strings.Cut(l.Words, ", ")
						said[name]++
					}
				}
				want := map[string]int{}
				for k := range n.Laid {
					if c := &g.Together.Sewn.Copies[n.Laid[k].Copy]; !g.Together.Sewn.Plan.Pieces[c.Piece].OnFold || c.Hand > 0 {
						want[c.Name]++
					}
				}
				for words, times := range want {
					if said[words] != times {
						t.Errorf("%s: %s is named %d times, not %d", name, words, said[words], times)
					}
				}
				for _, m := range n.Meetings {
					j := &g.Together.Sewn.Joins[m.Join]
					if number := g.NumberOfSeam(j.Seam); number > 0 && j.Kind != sewn.Closing && said[fmt.Sprint(number, m.Pair)] == 0 {
						t.Errorf("%s: number %d%s is missing", name, number, m.Pair)
					}
				}
			}
		}
	}
}

// TestDrawNets writes the nets of all garments as SVG files into the folder that
// DRAW_NETS names, to be looked at; without it there is nothing to do.
func TestDrawNets(t *testing.T) {
	dir := os.Getenv("DRAW_NETS")
	if dir == "" {
		t.Skip("DRAW_NETS names no folder to draw into")
	}
	for _, g := range nettedGarments(t, 8) {
		for _, d := range g.drawnNets() {
			if err := os.WriteFile(filepath.Join(dir, d.name+".svg"), d.SVGFile(&drawing.Print), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}
