package main

import (
	"flag"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"

	"hembook/internal/derive"
	"hembook/internal/paperpiece"
	"hembook/internal/record"
	"hembook/internal/shape"
	"hembook/internal/tabletop"
	"hembook/internal/tracing"
)

// printEach is how fine a print is looked at, in millimetres: 101.6 dots an inch.
const printEach = 0.25

var printedPieces = flag.Int("printed", 2, "how many pieces are printed, photographed and traced, to 5")

// halfLine is half of a printed cut line, in millimetres: it is black, and the white of the
// paper ends where it begins.
const halfLine = 0.2

// TestPrintedAndTraced: five pieces of the demo are printed at full size without
// allowances, cut out along the printed line, photographed and traced: from corner to
// corner they are as long within 0.2 %, no edge or corner has moved, and edges that were
// sewn to each other differ by as much as they did, within a millimetre.
func TestPrintedAndTraced(t *testing.T) {
	nothingBeside(t)
	t.Parallel()
	if testing.Short() {
		t.Skip("prints, photographs and traces pieces")
	}
	if _, err := exec.LookPath("pdftoppm"); err != nil {
		t.Skip("no pdftoppm: Debian's package poppler-utils is not installed")
	}
	dir := t.TempDir()
	lengths := map[string][2]float64{}
	seed := uint64(0)
	for _, of := range []struct {
		build  string
		pieces []string
	}{{"harvest-supper-dress", []string{"front", "back"}}, {"boatyard-trousers", []string{"front", "back"}}, {"quayside-pinafore", []string{"front bodice"}}} {
		for _, piece := range of.pieces {
			if seed++; int(seed) > *printedPieces {
				break
			}
			name := of.build + " " + piece
			truth, ring, print := printedPiece(t, filepath.Join(dir, fmt.Sprint(seed)), of.build, piece)
			s := &tabletop.Scene{Piece: ring, Print: print, PrintEach: printEach, Paper: tabletop.Colour{0.75, 0.74, 0.7}, Table: tabletop.Colour{0.16, 0.09, 0.05},
				Wide: 2400, High: 2400, Tilt: 0.2, From: float64(seed), F: 0.85, K1: -0.04, K2: 0.01, Blur: 0.7, Noise: 1.5, Uneven: 0.2, Quality: 92, Seed: seed}
			s.Cards = tabletop.Around(ring, 9, rand.New(rand.NewPCG(seed, 2)))
			got, err := tracing.Trace([]tracing.Picture{{Name: name, Image: s.Picture()}}, tracing.Options{})
			if err != nil {
				t.Errorf("%s: %v", name, err)
				continue
			}
			if err := got.TakeOff(-halfLine, make([]tracing.EdgeName, got.Count())); err != nil {
				t.Fatal(err)
			}
			a, err := paperpiece.Altered(truth, got)
			if err != nil || len(a.Changes) > 0 {
				t.Errorf("%s is told to be altered: %+v, %v", name, a, err)
				continue
			}
			worst := cornerLengths(truth, got)
			t.Logf("%s: off by %.2f mm at most, lengths by %.3f %%; %d lines found on it", name, a.Off, 100*worst, len(got.Drawn))
			for _, side := range truth.Sides() {
				if was, is, ok := tracedLength(a, truth, side.Name); ok {
					lengths[name+"."+side.Name] = [2]float64{was, is}
				}
			}
			if worst > 0.002 {
				t.Errorf("%s: an edge is off by %.3f %%", name, 100*worst)
			}
		}
	}
	for _, m := range met {
		a, ok := lengths[m[0]]
		b, also := lengths[m[1]]
		if !ok || !also {
			continue // not printed, or no edge of the demo any more
		}
		was, is := a[0]-b[0], a[1]-b[1]
		t.Logf("%v differ by %.2f mm on paper and by %.2f as traced", m, was, is)
		if math.Abs(was-is) > 1 {
			t.Errorf("%v no longer meet", m)
		}
	}
}

// met are edges of the demo that are sewn to each other, from corner to corner.
var met = [][2]string{{"harvest-supper-dress front.side", "harvest-supper-dress back.side"}, {"harvest-supper-dress front.shoulder", "harvest-supper-dress back.shoulder"},
	{"boatyard-trousers front.side", "boatyard-trousers back.side"}, {"boatyard-trousers front.inseam", "boatyard-trousers back.inseam"}}

// tracedLength is how long an edge of the record is on the traced piece: between the places there
// that are nearest to its ends.
func tracedLength(a *paperpiece.Alteration, truth shape.Outline, edge string) (was, is float64, ok bool) {
	side, ok := truth.Side(edge)
	if !ok {
		return 0, 0, false
	}
	ring, _ := a.Now.Flatten(0.02)
	line := shape.Line(append(slices.Clone([]shape.Point(ring)), ring[0]))
	from, _ := line.Nearest(truth.Start(side.First))
	to, _ := line.Nearest(truth.Edges[(side.First+side.Count-1)%len(truth.Edges)].To)
	if to < from {
		to += line.Length()
	}
	return side.Length, to - from, true
}

// cornerLengths is by what share the worst stretch from corner to corner is longer or
// shorter than it was; one below 200 mm counts as that long. Corners that only the tracing
// sees are passed over.
func cornerLengths(truth shape.Outline, got *tracing.Traced) float64 {
	var want []float64
	for i := range truth.Edges {
		_, a := truth.Directions((i + len(truth.Edges) - 1) % len(truth.Edges))
		b, _ := truth.Directions(i)
		if len(want) == 0 || math.Abs(math.Atan2(a.X*b.Y-a.Y*b.X, a.X*b.X+a.Y*b.Y)) > 15*math.Pi/180 {
			want = append(want, 0)
		}
		want[len(want)-1] += truth.EdgeLength(i)
	}
	var is []float64
	for _, e := range got.Named(nil) {
		is = append(is, e.MM)
	}
	best := math.Inf(1)
	for range is {
		if worst, ok := alongBoth(want, is); ok {
			best = min(best, worst)
		}
		is = append(is[1:], is[0])
	}
	return best
}

// alongBoth compares lengths in their order, those that are no stretch of their own added
// to the one before.
func alongBoth(want, is []float64) (worst float64, ok bool) {
	k := 0
	for _, w := range want {
		sum := 0.0
		for k < len(is) && math.Abs(sum+is[k]-w) <= math.Abs(sum-w) {
			sum += is[k]
			k++
		}
		worst = max(worst, math.Abs(sum-w)/max(w, 200))
	}
	return worst, k == len(is)
}

// printedPiece prints a piece of the demo without allowances and cuts it out: its outline
// in the record, that of its paper, and what is printed on it.
func printedPiece(t *testing.T, dir, build, piece string) (shape.Outline, []shape.Point, *image.Gray) {
	t.Helper()
	run := func(at string, args ...string) {
		if code, _, errs := hembook(at, args...); code != exitFine {
			t.Fatalf("%v: %s", args, errs)
		}
	}
	here := filepath.Join(dir, "content/builds/print")
	if err := os.MkdirAll(here, 0o777); err != nil {
		t.Fatal(err)
	}
	run("../..", "pattern", build, "--svg", filepath.Join(here, "pattern"))
	for name, text := range map[string]string{"content/workroom.yaml": "name: A room\n",
		"content/builds/print/build.yaml": fmt.Sprintf("name: Print\ngarment: dress\nstate: planned\npieces:\n  it: {outline: 'pattern/%s.svg#%s', allowance: 0}\n", build, piece)} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	pdf := filepath.Join(dir, "print.pdf")
	run(dir, "pattern", "print", "--piece", "it", "--paper", "roll:1200", "--to", pdf)
	out, err := exec.Command("pdftoppm", "-f", "2", "-l", "2", "-r", "101.6", "-gray", "-png", "-singlefile", pdf, filepath.Join(dir, "print")).CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	file, err := os.Open(filepath.Join(dir, "print.png"))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	img, err := png.Decode(file)
	if err != nil {
		t.Fatal(err)
	}
	print := image.NewGray(img.Bounds())
	draw.Draw(print, print.Rect, img, img.Bounds().Min, draw.Src)
	room, _, err := record.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer room.Close()
	tailor, _ := derive.NewTailor(room)
	bf, _ := room.BuildNamed("print")
	b, _ := room.ReadBuild(bf)
	for _, p := range tailor.Derive(b).Pieces {
		if p.Name == "it" {
			return p.Outline, scissors(print), print
		}
	}
	t.Fatalf("%s has no piece %s", build, piece)
	return shape.Outline{}, nil, nil
}

// scissors cut along the middle of the outermost line of the largest thing on a print.
func scissors(print *image.Gray) []shape.Point {
	b := print.Rect
	wide, high := b.Dx(), b.Dy()
	of := make([]int32, wide*high) // 1: outside, from 2 on each part
	part := int32(1)
	count := []int{0, 0}
	fill := func(from int, is func(i int) bool) {
		stack := []int{from}
		of[from] = part
		for len(stack) > 0 {
			i := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			count[part]++
			for _, n := range [4]int{i - 1, i + 1, i - wide, i + wide} {
				if n >= 0 && n < len(of) && of[n] == 0 && (n/wide == i/wide || n%wide == i%wide) && is(n) {
					of[n] = part
					stack = append(stack, n)
				}
			}
		}
	}
	fill(wide-1, func(i int) bool { return print.Pix[i] > 128 })
	for i := range of {
		if of[i] == 0 {
			part++
			count = append(count, 0)
			fill(i, func(int) bool { return true })
		}
	}
	best := int32(slices.Index(count, slices.Max(count[2:])))
	next := map[[2]int][2]int{} // against the clock, y up
	at := func(x, y int) bool { return x >= 0 && y >= 0 && x < wide && y < high && of[y*wide+x] == best }
	for y := range high {
		for x := range wide {
			if !at(x, y) {
				continue
			}
			if !at(x, y-1) {
				next[[2]int{x + 1, y}] = [2]int{x, y}
			}
			if !at(x, y+1) {
				next[[2]int{x, y + 1}] = [2]int{x + 1, y + 1}
			}
			if !at(x-1, y) {
				next[[2]int{x, y}] = [2]int{x, y + 1}
			}
			if !at(x+1, y) {
				next[[2]int{x + 1, y + 1}] = [2]int{x + 1, y}
			}
		}
	}
	var stairs, long []shape.Point
	for len(next) > 0 {
		var start [2]int
		for start = range next {
			break
		}
		stairs = stairs[:0]
		for p := start; ; {
			to, ok := next[p]
			if !ok {
				break
			}
			delete(next, p)
			stairs = append(stairs, shape.Point{X: printEach * float64(p[0]), Y: -printEach * float64(p[1])})
			p = to
		}
		if len(stairs) > len(long) {
			long = slices.Clone(stairs)
		}
	}
	// The mean of some points to either side is the line's outer rim; its middle is cut.
	const about = 4
	n := len(long)
	smooth := make([]shape.Point, n)
	for i := range long {
		for k := -about; k <= about; k++ {
			p := long[(i+k+n)%n]
			smooth[i].X += p.X / (2*about + 1)
			smooth[i].Y += p.Y / (2*about + 1)
		}
	}
	cut := make([]shape.Point, 0, n)
	for i := 0; i < n; i += 2 {
		a, b := smooth[(i-8+n)%n], smooth[(i+8)%n]
		x, y := b.X-a.X, b.Y-a.Y
		far := max(math.Hypot(x, y), 1e-9)
		cut = append(cut, shape.Point{X: smooth[i].X - halfLine*y/far, Y: smooth[i].Y + halfLine*x/far})
	}
	return cut
}
