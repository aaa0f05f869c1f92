package lay

import (
	"math"
	"testing"
)

// The sets of a place's column and row name every neighbour that can overlap
// there, also with more of them than one word of bits holds and with copies of
// one piece exactly on each other.
func TestSetsHoldEveryNeighbourInReach(t *testing.T) {
	p := Problem{Cloth: Cloth{Width: 20}, Pieces: []Piece{
		{Outline: hook, Quantity: 60}, {Outline: blade, Quantity: 40}, {Outline: []Point{{0, 0}, {3, 0}, {1, 2}}}}}
	m, err := newModel(&p, bed{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	b := newBoard(m, m.items, nil, 5)
	at := make([]spot, len(m.items))
	for i := range at {
		at[i] = spot{m.items[i].shapes[0], b.rng.within(-1, 9), b.rng.within(-1, 2)}
		if i%7 == 1 {
			at[i] = at[i-1]
		}
	}
	b.set(at, 8)
	without := newBoard(m, m.items, nil, 5)
	without.pairs = nil // as with very many shapes
	without.set(at, 8)
	for i := range m.items {
		for k := range b.hoods {
			b.hoods[k].ready, without.hoods[k].ready = false, false
		}
		h := b.hoodOf(i, 0)
		for range 200 {
			x, y := b.rng.within(h.domain.minX, h.domain.maxX), b.rng.within(h.domain.minY, h.domain.maxY)
			if b.rng.below(10) == 0 {
				x, y = h.domain.maxX, h.domain.maxY // the last stripes
			}
			want := 0.0
			for q := range h.list {
				nb := &h.list[q]
				if x > nb.minX && x < nb.maxX && y > nb.minY && y < nb.maxY {
					want += nb.priceAt(x, y)
				}
			}
			if got := b.priceAt(h, x, y, math.Inf(1)); got != want {
				t.Fatalf("item %d at (%g, %g): price %g, all %d neighbours asked %g", i, x, y, got, len(h.list), want)
			}
			if got := without.priceAt(without.hoodOf(i, 0), x, y, math.Inf(1)); got != want {
				t.Fatalf("item %d at (%g, %g): price %g without a table of pairings, %g with it", i, x, y, got, want)
			}
		}
	}
}

// Where a border crosses a cell, its corners stand for the exact depth only
// as far as a search may be misled.
func TestQuickPriceIsNearTheDepth(t *testing.T) {
	for _, gap := range []float64{0, 0.2} {
		f := newField(convexParts(blade), convexParts(hook), gap, 32)
		h := hood{domain: f.box}
		p := newPairing(f, squares[0])
		h.add(&p, 0, 0, 1)
		nb := &h.list[0]
		crossed, quick := 0, 0
		for k, c := range f.cell {
			if f.exact[k] == 0 {
				continue
			}
			crossed++
			if uint16(c) == exactMark {
				continue
			}
			quick++
			x0, y0 := f.box.minX+float64(k%f.nx)*f.h, f.box.minY+float64(k/f.nx)*f.h
			for ty := 0.05; ty < 1; ty += 0.15 {
				for tx := 0.05; tx < 1; tx += 0.15 {
					x, y := x0+tx*f.h, y0+ty*f.h
					if got, want := nb.priceAt(x, y), f.exactDepth(x, y); math.Abs(got-want) > 4*edgeSlack*f.h {
						t.Errorf("at (%g, %g): %g, want %g", x, y, got, want)
					}
				}
			}
		}
		if quick < crossed/2 || quick == crossed {
			t.Errorf("%d of %d crossed cells are told by their corners", quick, crossed)
		}
	}
}

// Four stripes over a span of 8, each 2 wide: a neighbour is in those it
// reaches into and in no other.
func TestStripes(t *testing.T) {
	for _, c := range []struct {
		from, to float64
		want     [4]bool
	}{
		{0.5, 1.5, [4]bool{true, false, false, false}},
		{1, 3, [4]bool{true, true, false, false}},
		{-5, 4.5, [4]bool{true, true, true, false}},
		{6.5, 20, [4]bool{false, false, false, true}},
		{-9, 99, [4]bool{true, true, true, true}},
	} {
		const words, k = 2, 70 // in the second word, beside another in the first
		var s stripes
		for range 2 { // the second time in the memory of the first
			s.lay(4, words, 8)
			s.add(words, k, c.from, c.to)
			s.add(words, 3, 0, 3)
			s.join(words)
		}
		for q, want := range c.want {
			set := s.of(2*float64(q)+1, words)
			if got := set[k>>6]>>(k&63)&1 == 1; got != want {
				t.Errorf("from %g to %g: in stripe %d is %t", c.from, c.to, q, got)
			}
			if got := set[0]>>3&1 == 1; got != (q < 2) {
				t.Errorf("the neighbour of the first word: in stripe %d is %t", q, got)
			}
		}
	}
}
