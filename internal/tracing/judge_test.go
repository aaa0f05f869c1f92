package tracing

import (
	"bytes"
	"flag"
	"fmt"
	"image/jpeg"
	"math"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"

	"hembook/internal/shape"
	"hembook/internal/tabletop"
)

// A judged is how far what was traced lies from what lay on the table.
type judged struct {
	mean, p99 float64 // of the boundary, both ways, mm
	corner    float64 // the worst corner, mm
	length    float64 // the worst edge, as a share; one shorter than 200 mm counts as that long
	missed    int     // corners of the piece that are none of the outline
	extra     int     // and the other way round
	edges     int
	turned    rigid // from the outline to the table
}

// A rigid moves and turns.
type rigid struct{ sin, cos, x, y float64 }

func (r rigid) at(p shape.Point) shape.Point {
	return shape.Point{X: r.cos*p.X - r.sin*p.Y + r.x, Y: r.sin*p.X + r.cos*p.Y + r.y}
}

// judge holds an outline against the truth, laid on it as well as can be: where it lies
// on the table does not matter, its shape does.
func judge(t testing.TB, got *Traced, s *tabletop.Scene, truth shape.Outline) (j judged) {
	t.Helper()
	first := slices.IndexFunc(s.Cards, func(c tabletop.Placed) bool { return c.Number == got.Cards[0] })
	card := s.Cards[first]
	sin, cos := math.Sincos(card.Turn)
	on := func(p shape.Point) shape.Point {
		p = got.still(p)
		return shape.Point{X: card.X + cos*p.X - sin*p.Y, Y: card.Y + sin*p.X + cos*p.Y}
	}
	ring, _ := truth.Flatten(0.01)
	want := shape.Line(append(slices.Clone([]shape.Point(ring)), ring[0]))
	found, _ := got.Outline.Flatten(0.02)
	points := evenly(found, 2)
	lay := settle(points, want, on)
	var laid []shape.Point
	for _, p := range found {
		laid = append(laid, lay.at(p))
	}
	line := shape.Line(append(slices.Clone(laid), laid[0]))
	var offs []float64
	for _, p := range points {
		_, d := want.Nearest(lay.at(p))
		offs = append(offs, d)
	}
	for _, p := range evenly(ring, 2) {
		_, d := line.Nearest(p)
		offs = append(offs, d)
	}
	slices.Sort(offs)
	for _, d := range offs {
		j.mean += d / float64(len(offs))
	}
	j.p99, j.edges, j.turned = offs[len(offs)*99/100], len(got.Outline.Edges), lay
	j.corners(got, truth)
	return j
}

// settle is the rigid motion that lays points on a line by least squares, from a first
// guess (P. Besl and N. McKay, "A method for registration of 3-D shapes", 1992).
func settle(points []shape.Point, want shape.Line, guess func(shape.Point) shape.Point) (r rigid) {
	at := guess
	for range 25 {
		var to []shape.Point
		for _, p := range points {
			q := at(p)
			along, _ := want.Nearest(q)
			near, _ := want.At(along)
			to = append(to, near)
		}
		a, b := middleOf(points), middleOf(to)
		c, s := 0.0, 0.0
		for i := range points {
			x, y, u, v := points[i].X-a.X, points[i].Y-a.Y, to[i].X-b.X, to[i].Y-b.Y
			c, s = c+x*u+y*v, s+x*v-y*u
		}
		k := math.Hypot(c, s)
		r = rigid{sin: s / k, cos: c / k}
		m := r.at(a)
		r.x, r.y = b.X-m.X, b.Y-m.Y
		at = r.at
	}
	return r
}

// realCorner is the least turn of a corner that must be found, in degrees.
const realCorner = 15

// corners finds the corners of the truth among those of the outline, and compares what
// lies between.
func (j *judged) corners(got *Traced, truth shape.Outline) {
	var mine []int
	for i, e := range got.Edges {
		if e.Corner {
			mine = append(mine, i)
		}
	}
	var theirs, met []int
	for i := range truth.Edges {
		_, a := truth.Directions((i + len(truth.Edges) - 1) % len(truth.Edges))
		b, _ := truth.Directions(i)
		if turn := math.Atan2(a.X*b.Y-a.Y*b.X, a.X*b.X+a.Y*b.Y) * 180 / math.Pi; math.Abs(turn) >= realCorner {
			theirs = append(theirs, i)
		}
	}
	for _, i := range theirs {
		best, least := -1, 4.0
		for _, k := range mine {
			p, q := j.turned.at(got.Outline.Start(k)), truth.Start(i)
			if d := math.Hypot(p.X-q.X, p.Y-q.Y); d < least {
				best, least = k, d
			}
		}
		if best < 0 {
			j.missed++
		} else {
			j.corner = max(j.corner, least)
		}
		met = append(met, best)
	}
	j.extra = len(mine) - (len(theirs) - j.missed)
	between := func(o shape.Outline, from, to int) (sum float64) {
		for i := from; ; {
			sum += o.EdgeLength(i)
			if i = (i + 1) % len(o.Edges); i == to {
				return sum
			}
		}
	}
	for k, i := range theirs {
		n := (k + 1) % len(theirs)
		if met[k] < 0 || met[n] < 0 {
			continue
		}
		want, is := between(truth, i, theirs[n]), between(got.Outline, met[k], met[n])
		j.length = max(j.length, math.Abs(is-want)/max(want, 200))
	}
}

func traceScene(t testing.TB, s *tabletop.Scene, opt Options) (*Traced, error) {
	t.Helper()
	img, err := jpeg.Decode(bytes.NewReader(photographOf(t, s)))
	if err != nil {
		t.Fatal(err)
	}
	return Trace([]Picture{{"photograph", img}}, opt)
}

var kept = flag.String("kept", "", "the folder where photographs are kept from one run to the next")

// taken are the photographs of this run, by their scenes.
var taken sync.Map

// photographOf is a scene's photograph, from the folder of kept ones where there is one.
func photographOf(t testing.TB, s *tabletop.Scene) []byte {
	t.Helper()
	if *kept == "" {
		once, _ := taken.LoadOrStore(s, sync.OnceValue(s.Photograph))
		return once.(func() []byte)()
	}
	name := filepath.Join(*kept, fmt.Sprintf("%d-%d-%x.jpg", s.Seed, s.Wide, len(s.Piece)))
	data, err := os.ReadFile(name)
	if err != nil {
		data = s.Photograph()
		if err := os.WriteFile(name, data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return data
}
