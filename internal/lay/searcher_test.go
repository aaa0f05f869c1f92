package lay

import (
	"math"
	"testing"
)

// searching is a searcher on hooks and blades, a dozen each, from their first
// arrangement.
func searching(t *testing.T, work int) *searcher {
	t.Helper()
	return searchingAmong(t, 12, work)
}

func searchingAmong(t *testing.T, each, work int) *searcher {
	t.Helper()
	p := Problem{Cloth: Cloth{Width: 20}, Pieces: []Piece{{Outline: hook, Quantity: each}, {Outline: blade, Quantity: each}}}
	m, err := newModel(&p, bed{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	at := start(m, m.items, nil, -1)
	from := arrangement{at, usedBy(m, at)}
	return newSearcher(m, m.items, nil, 1, from, &budget{tries: work}, func() bool { return false })
}

// However long its untanglings are, a searcher looks round after every round
// of places, so that those it shares the work with need not wait.
func TestSearcherLooksRoundAmidUntanglings(t *testing.T) {
	const work, round = 400_000, 10_000
	s := searching(t, work)
	first := s.best.length
	looks, late := 0, 0
	s.searchWide(round, func() {
		looks++
		late = max(late, s.b.tried-looks*round)
	})
	if tried := int(wideShare * work); looks < tried/round-1 {
		t.Errorf("looked %d times in %d places", looks, tried)
	}
	if late > round/2 {
		t.Errorf("looked %d places late", late)
	}
	if s.look != nil || s.best.length >= first {
		t.Errorf("ended with length %g, begun with %g", s.best.length, first)
	}
}

// What another has found meanwhile replaces what a searcher was after.
func TestSearcherTakesUpWhatAnotherFound(t *testing.T) {
	const work = 400_000
	other := searching(t, work)
	other.searchWide(work, func() {})
	s := searching(t, work)
	looks := 0
	s.searchWide(1000, func() {
		looks++
		if looks == 3 && s.b.length >= other.best.length {
			t.Errorf("still at work on length %g, where %g was found", s.b.length, other.best.length)
		}
		if looks == 1 {
			s.best = other.best.clone()
		}
	})
	if s.best.length > other.best.length {
		t.Errorf("ended with length %g, was given %g", s.best.length, other.best.length)
	}
	s.b.set(s.best.at, s.best.length)
	if s.b.overlap() > 0 || !s.b.inside() {
		t.Errorf("the best lay has an overlap of %g", s.b.overlap())
	}
}

// A shake swaps two items and leaves the others alone. Among many, the
// two are of different kinds and more often than not near each other.
func TestSwapsAmongManyAreMostlyNear(t *testing.T) {
	for _, c := range []struct{ each, least, most int }{
		{12, 0, 45}, {50, 60, 80}, // percent of the swaps that are of near ones
	} {
		s := searchingAmong(t, c.each, 1)
		for i := range s.current { // the kinds by turns, one step apart
			s.current[i].x, s.current[i].y = float64(i%c.each*2+i/c.each), 0
		}
		line := append([]spot(nil), s.current...)
		const tries = 3000
		near := 0
		for range tries {
			copy(s.current, line)
			s.swap()
			moved := movedBetween(line, s.current)
			if len(moved) == 0 {
				continue // large ones of the same kind, or one with itself
			}
			i, j := moved[0], moved[len(moved)-1]
			if len(moved) != 2 || s.current[i].x != line[j].x || s.current[j].x != line[i].x {
				t.Fatalf("of %d items a swap moved %v", 2*c.each, moved)
			}
			if d := math.Abs(line[i].x - line[j].x); d <= float64(c.each)/2 && s.b.items[i].piece != s.b.items[j].piece {
				near++
			}
		}
		if share := 100 * near / tries; share < c.least || share > c.most {
			t.Errorf("of %d items, %d %% of the swaps are between near ones of two kinds", 2*c.each, share)
		}
	}
}

func movedBetween(a, b []spot) (moved []int) {
	for i := range a {
		if a[i].x != b[i].x {
			moved = append(moved, i)
		}
	}
	return moved
}

// Where all items are of one kind there is nobody near to change places with.
func TestNearIsOfAnotherKind(t *testing.T) {
	s := searching(t, 1)
	for i := range s.b.items {
		if j := s.near(i); j >= 0 && s.b.items[j].piece == s.b.items[i].piece {
			t.Errorf("item %d is to change places with item %d of its kind", i, j)
		}
	}
	s.b.items = s.b.items[:12]
	if j := s.near(0); j >= 0 {
		t.Errorf("among its own kind alone, item 0 is to change places with item %d", j)
	}
}

// TestPatience: of a few items the search ends when three rounds of eight found
// nothing shorter, with as much of the fine search as ever; of many it goes on.
func TestPatience(t *testing.T) {
	const tries = 400_000
	for _, c := range []struct {
		each        int
		least, most float64 // shares of the places tried
	}{{4, 0.35, 0.6}, {16, 1, 1.1}} {
		p := Problem{Cloth: Cloth{Width: 20}, Pieces: []Piece{{Outline: hook, Quantity: c.each}, {Outline: blade, Quantity: c.each}}}
		plan, err := Make(t.Context(), p, Options{Tries: tries, Seed: 1})
		if err != nil {
			t.Fatal(err)
		}
		if share := float64(plan.Tried) / tries; share < c.least || share > c.most {
			t.Errorf("%d items: %.3f of the places tried, of a lay %g long (at least %g)", 2*c.each, share, plan.Length, plan.Bound.Length)
		}
	}
}
