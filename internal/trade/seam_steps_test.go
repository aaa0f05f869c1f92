package trade

import (
	"fmt"
	"testing"
)

func TestSteps(t *testing.T) {
	s := seamNamed(t, "french")
	steps, err := s.steps(Params{"first": 6, "trim": 3, "second": 9}, nil)
	if err != nil || len(steps) != 2 {
		t.Fatalf("got %d steps, %v", len(steps), err)
	}
	first := steps[0]
	if first.Do != "stitch 6 mm from the cut edges" || first.Together != WrongTogether || first.At.Working != "first = 6" || first.Stitch != "301" ||
		first.Then != "trim both allowances to 3 mm, turn right sides together and press the seam to the very edge" {
		t.Errorf("got %+v", first)
	}
	if steps[1].Together != RightTogether || steps[1].From != "folded edge" {
		t.Errorf("got %+v", steps[1])
	}
	inches, err := s.steps(Params{"first": 6.35}, func(mm float64) string { return fmt.Sprintf("%g in", mm/25.4) })
	if err != nil || inches[0].Do != "stitch 0.25 in from the cut edges" {
		t.Errorf("got %+v %v", inches, err)
	}
	if _, err := s.steps(Params{"third": 1}, nil); err == nil {
		t.Error("a measure the seam does not have was accepted")
	}
}

func TestEveryStepReads(t *testing.T) {
	for _, s := range SeamTypes() {
		steps, err := s.steps(nil, nil)
		if err != nil || len(steps) != len(s.Passes) {
			t.Errorf("%s: %d steps of %d, %v", s.Name, len(steps), len(s.Passes), err)
		}
	}
}
