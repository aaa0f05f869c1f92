package main

import (
	"math"
	"testing"

	"hembook/internal/derive"
	"hembook/internal/figure"
	"hembook/internal/notebook"
	"hembook/internal/order"
	"hembook/internal/record"
)

// TestRatesAreThoseOfThePages: the terminal and the technique pages sum up the
// same observations, each in its own way, and must come to the same.
func TestRatesAreThoseOfThePages(t *testing.T) {
	nothingBeside(t)
	room, _, err := record.Open("../..")
	if err != nil {
		t.Fatal(err)
	}
	defer room.Close()
	tailor, _ := derive.NewTailor(room)
	book := notebook.New(room)
	var rates order.Rates
	var all []*notebook.BuildLine
	for i, bf := range room.Builds {
		b, _ := room.ReadBuild(bf)
		g := tailor.Derive(b)
		rates.Add(g.Order)
		all = append(all, book.BuildLine(i, g))
	}
	seen := 0
	for i, page := range book.Gather(all).Techniques() {
		own := rates.Of(room.Techniques[i].Slug)
		if len(own) != len(page.Rates) {
			t.Errorf("%s: %d rates, its page has %d", page.Heading, len(own), len(page.Rates))
			continue
		}
		for k, r := range own {
			p := page.Rates[k]
			if r.Sum.N != p.Count || r.Known != p.Known || r.Unit != p.Unit {
				t.Errorf("%s: %d, known %v; its page has %d, known %v", page.Heading, r.Sum.N, r.Known, p.Count, p.Known)
			}
			for _, pair := range [][2]figure.Figure{{r.Lower, p.Lower}, {r.Median, p.Median}, {r.Upper, p.Upper}} {
				if seen++; math.Abs(pair[0].Value.Number-pair[1].Value.Number) > 1e-9 {
					t.Errorf("%s: %s is %v, on its page %v", page.Heading, pair[0].Title, pair[0].Value.Number, pair[1].Value.Number)
				}
			}
		}
	}
	if seen < 9 {
		t.Errorf("only %d quartiles were compared", seen)
	}
}
