package main

import (
	"math"
	"regexp"
	"testing"

	"hembook/internal/fault"
	"hembook/internal/figure"
)

// ofTheMaking is what a sheet for making again does not carry: what was done in another
// workroom and how long it took, its order of work, lays planned there, rounds of fitting
// that the outlines have in them, and what was measured on the garment it made.
var ofTheMaking = regexp.MustCompile(`^(cost|technique|fit|step|stage|round|work|order|chain|wait)\.|^total\.(spent|planned|left)|\.(spent|rate|metres|measured|off|against|needed|needed-mass|lay|lay-[a-z]+|remnant-\d+|reels)$`)

// TestRemadeFromTheSheet: a second record of the aprons, typed from the printed sheet for
// making them again and from the lines of pattern.svg beside it, by somebody who did not
// look at the first record. Its figures equal those of the first.
func TestRemadeFromTheSheet(t *testing.T) {
	figures := func(room, build string) map[string]figure.Value {
		on, err := (&options{room: room}).openBuild(build)
		if err != nil || fault.HasErrors(on.faults) {
			t.Fatal(err, on.faults)
		}
		defer on.room.Close()
		out := map[string]figure.Value{}
		for _, f := range on.tailor.Derive(on.build).Figures() {
			out[f.ID] = f.Value
		}
		return out
	}
	first, second := figures("../..", "six-choir-aprons"), figures("../../testdata/remade", "aprons")
	same := 0
	for id, was := range first {
		if ofTheMaking.MatchString(id) {
			continue
		}
		if now, ok := second[id]; !ok || now.Known() != was.Known() || now.Unit != was.Unit || now.Known() && math.Abs(now.Number-was.Number) > readBack {
			t.Errorf("%s was %v and is %v (there: %v)", id, was, now, ok)
		}
		same++
	}
	if same < 300 {
		t.Errorf("only %d figures were held", same)
	}
	t.Logf("%d figures", same)
}
