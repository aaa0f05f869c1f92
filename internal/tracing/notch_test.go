package tracing

import (
	"bytes"
	"image/jpeg"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"hembook/internal/shape"
	"hembook/internal/tabletop"
)

// notched is a ring with a V cut into it at places along it: 5 mm deep, 5 mm wide.
func notched(ring []shape.Point, places ...float64) []shape.Point {
	line := shape.Line(append(append([]shape.Point(nil), ring...), ring[0]))
	var out []shape.Point
	along := 0.0
	for i, p := range ring {
		out = append(out, p)
		next := ring[(i+1)%len(ring)]
		far := math.Hypot(next.X-p.X, next.Y-p.Y)
		for _, at := range places {
			if at >= along && at < along+far {
				a, _ := line.At(at - 2.5)
				m, way := line.At(at)
				b, _ := line.At(at + 2.5)
				out = append(out, a, shape.Point{X: m.X - 5*way.Y, Y: m.Y + 5*way.X}, b)
			}
		}
		along += far
	}
	return out
}

// skirtWithNotches is a paper skirt on which notches are cut 150 and 400 mm along its
// lower side, and how far round it those are.
func skirtWithNotches() (s *tabletop.Scene, truth shape.Outline) {
	truth = tabletop.Skirt()
	hem := truth.EdgeLength(0)
	s = &tabletop.Scene{Piece: notched(tabletop.Ring(truth), hem+150, hem+400), Paper: tabletop.Colour{0.7, 0.7, 0.66}, Table: tabletop.Colour{0.1, 0.07, 0.05},
		Wide: 2000, High: 2000, Tilt: 0.25, From: 2, F: 0.9, K1: -0.04, Blur: 0.6, Noise: 1.5, Seed: 3}
	s.Cards = tabletop.Around(tabletop.Ring(truth), 9, rand.New(rand.NewPCG(7, 7)))
	return s, truth
}

// TestNotches: notches cut into the paper are found where they are, and are no corners
// of the outline.
func TestNotches(t *testing.T) {
	if testing.Short() {
		t.Skip("makes photographs and traces them")
	}
	t.Parallel()
	s, truth := skirtWithNotches()
	got, err := traceScene(t, s, Options{})
	if err != nil {
		t.Fatal(err)
	}
	j := judge(t, got, s, truth)
	t.Logf("mean %.3f, corners %.3f mm, lengths %.3f %%, notches %v", j.mean, j.corner, 100*j.length, got.Notches)
	if j.extra != 0 || j.missed != 0 || j.mean > 0.5 || j.length > 0.0015 {
		t.Errorf("the outline is spoiled: %+v", j)
	}
	if len(got.Notches) != 2 {
		t.Fatalf("%d notches are found, 2 are cut", len(got.Notches))
	}
	for _, n := range got.Notches {
		at, _ := got.Outline.PointAt(n.Edge, n.At)
		p, near := j.turned.at(at), math.Inf(1)
		for _, along := range []float64{150, 400} {
			q, _ := truth.PointAt(1, along)
			near = min(near, math.Hypot(p.X-q.X, p.Y-q.Y))
		}
		if near > 1 {
			t.Errorf("a notch is found %.2f mm from where one is cut", near)
		}
	}
}

// TestTwoPhotographs: a second photograph from elsewhere makes the outline no worse, and
// both are read as one table.
func TestTwoPhotographs(t *testing.T) {
	if testing.Short() {
		t.Skip("makes photographs and traces them")
	}
	t.Parallel()
	one, truth := skirtWithNotches()
	two := *one
	two.Tilt, two.From, two.Roll, two.Seed = 0.3, 5, 1.2, 9
	var pictures []Picture
	for _, s := range []*tabletop.Scene{one, &two} {
		pictures = append(pictures, Picture{"photograph " + strconv.Itoa(len(pictures)+1), s.Picture()})
	}
	got, err := Trace(pictures, Options{})
	if err != nil {
		t.Fatal(err)
	}
	j := judge(t, got, one, truth)
	t.Logf("mean %.3f, corners %.3f mm, lengths %.3f %%", j.mean, j.corner, 100*j.length)
	if len(got.views) != 2 || j.mean > 0.3 || j.corner > 1 || j.length > 0.0015 {
		t.Errorf("two photographs: %+v", j)
	}
}

// TestDrawErrors draws, where DRAW_TRACES names a folder, what was seen of some scenes
// with the outline over it and how far it is off, fifty times as long, as strokes.
func TestDrawErrors(t *testing.T) {
	dir := os.Getenv("DRAW_TRACES")
	if dir == "" {
		t.Skip("DRAW_TRACES names no folder")
	}
	for seed := *first; seed < *first+uint64(*scenes); seed++ {
		s, truth := tabletop.Random(seed, *wide)
		img, err := jpeg.Decode(bytes.NewReader(photographOf(t, s)))
		if err != nil {
			t.Fatal(err)
		}
		got, err := Trace([]Picture{{"photograph", img}}, Options{})
		if err != nil {
			t.Fatal(err)
		}
		j := judge(t, got, s, truth)
		if err := os.WriteFile(filepath.Join(dir, "errors"+strconv.Itoa(int(seed))+".png"), errorMap(got, img, j, truth), 0o600); err != nil {
			t.Fatal(err)
		}
	}
}

// TestLinesOnThePaper: a grain line and a dart drawn to the edge change nothing.
func TestLinesOnThePaper(t *testing.T) {
	if testing.Short() {
		t.Skip("makes photographs and traces them")
	}
	t.Parallel()
	s, truth := skirtWithNotches()
	s.Piece = tabletop.Ring(truth)
	s.Lines = [][]shape.Point{{{X: 120, Y: 150}, {X: 120, Y: 600}}, {{X: 90, Y: 732}, {X: 105, Y: 600}, {X: 120, Y: 734}}, {{X: 10, Y: 0}, {X: 10, Y: 730}}}
	got, err := traceScene(t, s, Options{})
	if err != nil {
		t.Fatal(err)
	}
	j := judge(t, got, s, truth)
	t.Logf("mean %.3f, 99%% %.3f, corners %.3f mm, lengths %.3f %%, notches %v", j.mean, j.p99, j.corner, 100*j.length, got.Notches)
	if j.extra != 0 || j.missed != 0 || j.mean > 0.5 || j.p99 > 1.5 || j.length > 0.0015 || len(got.Notches) > 0 {
		t.Errorf("lines on the paper spoil its outline: %+v", j)
	}
}
