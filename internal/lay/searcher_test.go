package lay

import "testing"

// searching is a searcher on hooks and blades, from their first arrangement.
func searching(t *testing.T, work int) *searcher {
	t.Helper()
	p := Problem{Cloth: Cloth{Width: 20}, Pieces: []Piece{{Outline: hook, Quantity: 12}, {Outline: blade, Quantity: 12}}}
	m, err := newModel(&p, false)
	if err != nil {
		t.Fatal(err)
	}
	at := start(m, m.items, nil)
	from := arrangement{at, usedBy(m, at)}
	return newSearcher(m, m.items, nil, 1, from, &budget{work: work}, func() bool { return false })
}

// However long its separations are, a searcher looks round after every round
// of places, so that those it shares the work with need not wait.
func TestSearcherLooksRoundAmidSeparations(t *testing.T) {
	const work, round = 400_000, 10_000
	s := searching(t, work)
	first := s.best.length
	looks, late := 0, 0
	s.explore(round, func() {
		looks++
		late = max(late, s.b.tried-looks*round)
	})
	if explored := int(exploreShare * work); looks < explored/round-1 {
		t.Errorf("looked %d times in %d places", looks, explored)
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
	other.explore(work, func() {})
	s := searching(t, work)
	looks := 0
	s.explore(1000, func() {
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

// A disturbance swaps two items of different kinds, more often than not near
// each other, and leaves the others alone.
func TestSwapsOfDifferentKindsMostlyNear(t *testing.T) {
	s := searching(t, 1)
	for i := range s.current { // the kinds by turns, one step apart
		s.current[i].x, s.current[i].y = float64(i%12*2+i/12), 0
	}
	line := append([]spot(nil), s.current...)
	const tries = 3000
	near, same := 0, 0
	for range tries {
		copy(s.current, line)
		s.swap()
		var moved []int
		for i := range line {
			if s.current[i].x != line[i].x {
				moved = append(moved, i)
			}
		}
		if len(moved) != 2 {
			same++ // an item was swapped with itself
			continue
		}
		i, j := moved[0], moved[1]
		if s.b.items[i].piece == s.b.items[j].piece {
			same++
		}
		if s.current[i].x != line[j].x || s.current[j].x != line[i].x {
			t.Fatalf("items %d and %d did not change places", i, j)
		}
		if d := line[i].x - line[j].x; -5 <= d && d <= 5 {
			near++
		}
	}
	// of two chosen by chance among 24 in a line, three in eight are so near
	if near < tries*6/10 {
		t.Errorf("%d of %d swaps are between items near each other", near, tries)
	}
	// a large item seeks a large one of another kind nine times, in vain once in three
	if same > tries/8 {
		t.Errorf("%d of %d swaps change nothing", same, tries)
	}
	for i := range line {
		if j := s.near(i); j >= 0 && s.b.items[j].piece == s.b.items[i].piece {
			t.Errorf("item %d is to change places with one of its kind", i)
		}
	}
}

// Where all items are of one kind there is nobody near to change places with.
func TestNearNeedsAnotherKind(t *testing.T) {
	s := searching(t, 1)
	s.b.items = s.b.items[:12]
	if j := s.near(0); j >= 0 {
		t.Errorf("item 0 may change places with item %d of its kind", j)
	}
}
