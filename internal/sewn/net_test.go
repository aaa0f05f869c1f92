package sewn

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"hembook/internal/shape"
)

// nets are all nets of a garment, to the last bit.
func nets(s *Surface) string {
	var b strings.Builder
	for _, layer := range s.Layers() {
		n := s.Net(layer)
		fmt.Fprintf(&b, "%s %v %v %v\n%+v\n%+v\n", layer, n.Gap, n.Low, n.High, n.Meetings, n.Openings)
		for _, l := range n.Laid {
			fmt.Fprintf(&b, "%s %d %v %v %v %d %d\n", s.Copies[l.Copy].Name, l.Copy, l.Turn, l.Shift, l.over, l.Group, l.Side)
		}
	}
	return b.String()
}

// netted are the plates a net is held against: those of the surface, one with a
// facing of its own cloth and a pocket that no seam joins, and one of which
// nothing is seen but what lies behind.
func netted() map[string]Plan {
	out := garments()
	faced := out["shirt"]
	faced.Pieces = slices.Clone(faced.Pieces)
	front := faced.Pieces[slices.IndexFunc(faced.Pieces, func(p Piece) bool { return p.Name == "front" })]
	facing := front.called("front facing")
	facing.Behind = true
	faced.Pieces = append(faced.Pieces, facing, box("pocket", 120, 140).times(2), box("tie", 30, 400).times(2))
	faced.Seams = append(slices.Clone(faced.Seams), seam("neck", "front.neck", "front facing.neck").turns())
	out["faced"] = faced
	inner := plan(facing, box("bag", 150, 200).times(4), seam("shoulders", "front facing.shoulder", "front facing.side"))
	out["behind"] = inner
	out["cuffed"] = cuffed()
	return out
}

func TestNetWhateverTheOrder(t *testing.T) {
	for name, p := range netted() {
		s, _, _ := Build(p)
		want := nets(s)
		rng := rand.New(rand.NewPCG(3, 3))
		for range 6 {
			q := Plan{Pieces: slices.Clone(p.Pieces), Seams: slices.Clone(p.Seams), Closures: slices.Clone(p.Closures)}
			rng.Shuffle(len(q.Pieces), func(i, j int) { q.Pieces[i], q.Pieces[j] = q.Pieces[j], q.Pieces[i] })
			rng.Shuffle(len(q.Seams), func(i, j int) { q.Seams[i], q.Seams[j] = q.Seams[j], q.Seams[i] })
			s, _, _ := Build(q)
			if got := nets(s); got != want {
				t.Fatalf("%s: shuffled, its net is another:\n%s\n%s", name, want, got)
			}
		}
	}
}

// TestNoTwoCopiesOverlap looks at points of each copy and at the crossings of
// all outlines, with a finer line than the net is laid by.
func TestNoTwoCopiesOverlap(t *testing.T) {
	for name, p := range netted() {
		s, _, _ := Build(p)
		for _, layer := range s.Layers() {
			n := s.Net(layer)
			rings := make([]shape.Ring, len(n.Laid))
			for i := range n.Laid {
				ring, _ := s.Plan.Pieces[s.Copies[n.Laid[i].Copy].Piece].Outline.Flatten(0.2)
				for _, q := range ring {
					rings[i] = append(rings[i], n.Laid[i].At(q))
				}
			}
			for i := range rings {
				for k := i + 1; k < len(rings); k++ {
					a, b := &s.Copies[n.Laid[i].Copy], &s.Copies[n.Laid[k].Copy]
					if a.Piece == b.Piece && a.Number == b.Number && s.Plan.Pieces[a.Piece].OnFold {
						if apart := leastApart(rings[i], rings[k]); apart > 1e-6 {
							t.Errorf("%s, %s: the halves of %s lie %.1f apart", name, layer, a.Name, apart)
						}
						continue
					}
					if apart := leastApart(rings[i], rings[k]); apart < n.Gap-5 {
						t.Errorf("%s, %s: %s %d and %s %d lie %.1f apart, the gap being %.1f", name, layer, a.Name, a.Hand, b.Name, b.Hand, apart, n.Gap)
					}
				}
			}
		}
	}
}

// leastApart is how near two rings come by their corners; 0 where one holds a
// corner of the other.
func leastApart(a, b shape.Ring) float64 {
	least := math.Inf(1)
	for _, pair := range [...][2]shape.Ring{{a, b}, {b, a}} {
		for _, p := range pair[0] {
			if holds(pair[1], p) {
				least = 0
			}
			for k := range pair[1] {
				off := fromLine(p, pair[1][k], pair[1][(k+1)%len(pair[1])])
				least = min(least, math.Hypot(off.X, off.Y))
			}
		}
	}
	return least
}

// TestEveryJoinIsDrawnOnce: within a layer in one net, between layers in both.
func TestEveryJoinIsDrawnOnce(t *testing.T) {
	for name, p := range netted() {
		s, _, _ := Build(p)
		sides := map[JoinID]int{}
		for _, layer := range s.Layers() {
			seen := map[JoinID]bool{}
			names := map[string]bool{}
			for _, m := range s.Net(layer).Meetings {
				if seen[m.Join] {
					t.Errorf("%s, %s: join %d is drawn twice", name, layer, m.Join)
				}
				seen[m.Join] = true
				for _, here := range m.Here {
					if here {
						sides[m.Join]++
					}
				}
				j := s.Joins[m.Join]
				if key := fmt.Sprint(j.Seam, m.Pair); j.Kind != Closing && names[key] {
					t.Errorf("%s, %s: two joins of seam %d are called %q", name, layer, j.Seam, m.Pair)
				} else if j.Kind != Closing {
					names[key] = true
				}
			}
		}
		for i := range s.Joins {
			if s.Joins[i].Kind != Fold && sides[JoinID(i)] != 2 {
				t.Errorf("%s: %d sides of join %d are drawn", name, sides[JoinID(i)], i)
			}
		}
	}
}

// TestMirroredGarmentHasTheMirroredNet: every point lies where its mirror image
// does.
func TestMirroredGarmentHasTheMirroredNet(t *testing.T) {
	for name, p := range netted() {
		q := p
		q.Pieces = slices.Clone(p.Pieces)
		for i := range q.Pieces {
			mirror(&q.Pieces[i])
		}
		one, _, _ := Build(p)
		two, _, _ := Build(q)
		for _, layer := range one.Layers() {
			a, b := one.Net(layer), two.Net(layer)
			off := 0.0
			for i := range a.Laid {
				if a.Laid[i].Group != b.Laid[i].Group {
					t.Fatalf("%s: %s lies in another group", name, one.Copies[a.Laid[i].Copy].Name)
				}
				if a.Laid[i].Group != Body {
					continue
				}
				o := one.Plan.Pieces[one.Copies[a.Laid[i].Copy].Piece].Outline
				for k := range o.Edges {
					at, image := a.Laid[i].At(o.Start(k)), o.Start(k)
					image.X = -image.X
					there := b.Laid[i].At(image)
					off = max(off, math.Hypot(at.X+there.X, at.Y-there.Y))
				}
			}
			if off > 1e-6 {
				t.Errorf("%s, %s: a corner lies %.3f from the mirror image of where it lay", name, layer, off)
			}
		}
	}
}

// TestNetOfTrousers: a row as one walks round the body, open at the front.
func TestNetOfTrousers(t *testing.T) {
	p := trousers()
	p.Closures = []Closure{zip("front.rise", 160)}
	s, _, _ := Build(p)
	n := s.Net(s.Layers()[0])
	slices.SortFunc(n.Laid, func(a, b Laid) int {
		if a.At(shape.Point{X: 100}).X < b.At(shape.Point{X: 100}).X {
			return -1
		}
		return 1
	})
	var got []string
	for _, l := range n.Laid {
		got = append(got, fmt.Sprint(s.Copies[l.Copy].Name, " ", l.Side, " ", l.Turn))
	}
	want(t, "from the left", got, "front 1 0", "back 1 0", "back 2 0", "front 2 0")
}

func BenchmarkNet(b *testing.B) {
	s, _, _ := Build(garments()["shirt"])
	b.ReportAllocs()
	for b.Loop() {
		s.Net(s.Layers()[0])
	}
}

// TestNetLaysRightSidesUp: all of a net is seen from its right side, so that a copy is
// turned over where it was cut mirrored, and nowhere else: the way round its outline
// is the drawn one, or the other way.
func TestNetLaysRightSidesUp(t *testing.T) {
	mirrored := 0
	for name, p := range netted() {
		s, _, _ := Build(p)
		for _, layer := range s.Layers() {
			n := s.Net(layer)
			for i := range n.Laid {
				l := &n.Laid[i]
				c := &s.Copies[l.Copy]
				drawn, _ := s.Plan.Pieces[c.Piece].Outline.Flatten(0.2)
				laid := make(shape.Ring, len(drawn))
				for k, q := range drawn {
					laid[k] = l.At(q)
				}
				if way := laid.Area() / drawn.Area(); math.Abs(way-float64(c.Hand)) > 1e-6 {
					t.Errorf("%s, %s: %s %d, of hand %d, is laid %v of its area", name, layer, c.Name, c.Number, c.Hand, way)
				}
				if c.Hand < 0 {
					mirrored++
				}
			}
		}
	}
	if mirrored < 10 {
		t.Errorf("only %d copies were mirrored", mirrored)
	}
}
