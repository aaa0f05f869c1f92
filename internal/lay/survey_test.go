package lay

import (
	"math"
	"testing"
)

// unitSquares is a board with squares of side 1 on a cloth 3 wide.
func unitSquares(t *testing.T, count int) *board {
	t.Helper()
	unit := []Point{{0, 0}, {1, 0}, {1, 1}, {0, 1}}
	p := Problem{Cloth: Cloth{Width: 3}, Pieces: []Piece{{Outline: unit, Quantity: count}}}
	m, err := newModel(&p, bed{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	return newBoard(m, m.items, nil, 1)
}

// surveyed is a board on which a square of side 1 is to find a place beside
// three bricks of 1 by 1 that lie at the given places of a strip 3 wide and 4
// long.
func surveyed(t *testing.T, at []spot) *board {
	t.Helper()
	b := unitSquares(t, 4)
	b.set(at, 4*b.m.scale)
	return b
}

// Every node's price is near the exact one, and the kept ones are the best.
func TestSurveyPricesAreNearTheExactOnes(t *testing.T) {
	b := surveyed(t, make([]spot, 4))
	u := b.m.scale
	for i := range b.at {
		b.at[i].x, b.at[i].y = b.at[0].x+float64(i)*0.8*u, b.at[0].y+float64(i)*0.6*u
	}
	b.refreshAll()
	h := b.hoodOf(3, 0)
	s := &b.surveyed
	s.lay(&h.domain, u/8, &b.rng)
	for q := range h.list {
		s.add(&h.list[q])
	}
	if s.nx < 20 || s.ny < 14 {
		t.Fatalf("only %d × %d nodes", s.nx, s.ny)
	}
	coarse := 0.0
	for q := range h.list {
		coarse += 2 * h.list[q].weight * h.list[q].p.f.h
	}
	least, priced := math.Inf(1), 0
	for at, rough := range s.price {
		x, y := s.x+float64(at%s.nx)*s.step, s.y+float64(at/s.nx)*s.step
		exact := b.priceAt(h, x, y, math.Inf(1))
		if math.Abs(rough-exact) > coarse {
			t.Fatalf("at (%g, %g) the survey says %g, exactly it is %g", x, y, rough, exact)
		}
		if exact > 0 {
			priced++
		}
		least = min(least, rough)
	}
	if priced < 50 {
		t.Fatalf("only %d nodes cost anything", priced)
	}
	s.choose(7)
	if len(s.best) != surveyKeeps || s.best[0].price != least {
		t.Fatalf("kept %v, the least is %g", s.best, least)
	}
	for k := 1; k < len(s.best); k++ {
		if s.best[k].price < s.best[k-1].price {
			t.Fatalf("not in order: %v", s.best)
		}
	}
}

// A grid stays within the domain and within its size, however small the step.
func TestSurveyGridStaysInBounds(t *testing.T) {
	rng := newRandom(3)
	for _, d := range []box{{0, 0, 0, 0}, {0, 0, 5, 0}, {0, 2, 0, 9}, {-1, -1, 1e4, 1}, {0, 0, 1e-3, 1e3}} {
		for _, step := range []float64{1e-9, 0.3, 7, 1e6} {
			var s survey
			for range 20 {
				s.lay(&d, step, &rng)
				if n := len(s.price); n < 1 || n != s.nx*s.ny || n > 3*mostNodes {
					t.Fatalf("%+v by %g: %d × %d nodes, %d prices", d, step, s.nx, s.ny, n)
				}
				farX, farY := s.x+float64(s.nx-1)*s.step, s.y+float64(s.ny-1)*s.step
				const hair = 1e-9
				if s.x < d.minX || s.y < d.minY || farX > d.maxX*(1+hair)+hair || farY > d.maxY*(1+hair)+hair {
					t.Fatalf("%+v by %g: nodes from (%g, %g) to (%g, %g)", d, step, s.x, s.y, farX, farY)
				}
			}
		}
	}
}
