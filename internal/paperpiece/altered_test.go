package paperpiece

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"hembook/internal/fault"
	"hembook/internal/shape"
	"hembook/internal/tabletop"
	"hembook/internal/tracing"
)

// seenAs is an outline as tracing tells of it, elsewhere and turned: each corner that
// turns by more than 12 degrees is one.
func seenAs(o shape.Outline, turn float64) *tracing.Traced {
	p := placing{by: shape.Point{X: 100, Y: -40}}
	p.sin, p.cos = math.Sincos(turn)
	t := &tracing.Traced{Outline: placed(o, p)}
	for i := range o.Edges {
		t.Outline.Edges[i].Name = ""
		t.Edges = append(t.Edges, tracing.Seen{Corner: turnAt(o, i) > realTurn})
	}
	return t
}

// change is the one of an edge.
func change(t *testing.T, a *Alteration, edge string) Change {
	t.Helper()
	for _, c := range a.Changes {
		if c.Edge == edge {
			return c
		}
	}
	t.Fatalf("%s did not change: %+v", edge, a.Changes)
	return Change{}
}

// TestSideLetOut: a side that is straight, let out by 6 mm at its hem and taken in by 3 at
// its waist, is told so, wherever the paper lies and whichever face is up.
func TestSideLetOut(t *testing.T) {
	old := shape.Outline{From: shape.Point{}, Edges: []shape.Edge{
		{Name: "hem", To: shape.Point{X: 300}}, {Name: "side", To: shape.Point{X: 270, Y: 500}},
		{Name: "waist", To: shape.Point{Y: 480}}, {Name: "centre", To: shape.Point{}, Fold: true}}}
	now, err := old.EndsMoved(1, 1, 6, -3)
	if err != nil {
		t.Fatal(err)
	}
	for _, turn := range []float64{0, 1, 3} {
		for _, over := range []bool{false, true} {
			seen := seenAs(now, turn)
			if over {
				seen = seenAs(now.Mirrored(), turn)
			}
			a, err := Altered(old, seen)
			if err != nil {
				t.Fatal(err)
			}
			c := change(t, a, "side")
			if len(a.Changes) != 1 || c.Start != 6 || c.End != -3 || c.Bends != nil || a.Over != over {
				t.Errorf("turned by %g, over %v: %+v", turn, over, a)
			}
			if math.Abs(c.Moved-6) > 0.3 || math.Abs(c.Was-math.Hypot(30, 500)) > 1e-6 || c.Is < 501 {
				t.Errorf("it is told that %s", c.Said())
			}
		}
	}
}

// TestAnyCornersMoved: of real pieces, whichever two corners next to each other move by up
// to 25 mm, the changes make the outline that is seen.
func TestAnyCornersMoved(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	tried := 0
	for _, piece := range tabletop.Pieces {
		old := piece()
		n := len(old.Edges)
		for range 12 {
			k := rng.IntN(n)
			now, err := old.EndsMoved(k, 1, 50*rng.Float64()-25, 50*rng.Float64()-25)
			if err != nil || now.Check() != nil {
				continue
			}
			a, err := Altered(old, seenAs(now, 6*rng.Float64()))
			var no *fault.Refusal
			if errors.As(err, &no) && no.Hint != "" { // told, never guessed
				t.Logf("%s of a piece: %v", old.Edges[k].Name, err)
				continue
			}
			if err != nil {
				t.Fatal(err)
			}
			tried++
			if a.Off > mostAstray {
				t.Errorf("%s: off by %.2f mm: %+v", old.Edges[k].Name, a.Off, a.Changes)
			}
		}
	}
	t.Logf("%d alterations are told", tried)
	if tried < 40 {
		t.Errorf("only %d alterations are told", tried)
	}
}

// TestHipLetOut: a side in two parts that is let out between its ends is drawn anew, and
// nothing else changes.
func TestHipLetOut(t *testing.T) {
	old := tabletop.Skirt()
	old.Edges[1].Name, old.Edges[2].Name = "side", "side"
	now := shape.Outline{From: old.From, Edges: append([]shape.Edge(nil), old.Edges...)}
	now.Edges[1] = shape.Edge{Name: "side", Curved: true, C1: shape.Point{X: 350, Y: 230}, C2: shape.Point{X: 318, Y: 420}, To: shape.Point{X: 300, Y: 560}}
	now.Edges[2].C1 = shape.Point{X: 288, Y: 645}
	a, err := Altered(old, seenAs(now, 0.4))
	if err != nil {
		t.Fatal(err)
	}
	c := change(t, a, "side")
	if len(a.Changes) != 1 || len(c.Bends) != 5 || c.Start != 0 || c.End != 0 {
		t.Errorf("%+v", a.Changes)
	}
	if c.Moved < 6 || c.Moved > 9 {
		t.Errorf("let out by 8 mm, and told to have moved by %.1f", c.Moved)
	}
}

// TestNotThePiece: another piece, one with a corner gone, one as it was.
func TestNotThePiece(t *testing.T) {
	if _, err := Altered(tabletop.Skirt(), seenAs(tabletop.Collar(), 0)); err == nil {
		t.Errorf("a collar for a skirt: %v", err)
	}
	old := tabletop.Bodice()
	cut := shape.Outline{From: old.From, Edges: append([]shape.Edge(nil), old.Edges...)}
	cut.Edges = append(cut.Edges[:3], cut.Edges[4:]...) // from the armhole to the neck at once
	if _, err := Altered(old, seenAs(cut, 0)); err == nil || !strings.Contains(err.Error(), "no corner") && !strings.Contains(err.Error(), "cannot be told") {
		t.Errorf("without a shoulder: %v", err)
	}
	band := shape.Outline{Edges: []shape.Edge{{Name: "bottom", To: shape.Point{X: 700}}, {Name: "right", To: shape.Point{X: 700, Y: 60}}, {Name: "top", To: shape.Point{Y: 60}}, {Name: "left"}}}
	longer, _ := band.EndsMoved(1, 1, 20, 20)
	b, err := Altered(band, seenAs(longer, 0.1))
	if err != nil || !b.Doubt || len(b.Changes) != 1 || b.Changes[0].Edge != "right" && b.Changes[0].Edge != "left" {
		t.Errorf("a longer band: %+v, %v", b, err)
	}
	a, err := Altered(old, seenAs(old, 2))
	if err != nil || len(a.Changes) != 0 || a.Doubt {
		t.Errorf("as it was: %+v, %v", a, err)
	}
}
