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
