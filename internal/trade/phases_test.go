package trade

import "testing"

// TestPhases: a French seam of 6 and 9 mm is cut with 15. It begins wrong sides together, its
// first row 9 mm beyond the finished line (15 − 6) and both allowances trimmed to 3 mm beyond
// that, so to 12; then it lies turned, is sewn again at the finished line, and is pressed.
func TestPhases(t *testing.T) {
	french, _ := SeamTypeNamed("french")
	list, err := french.Phases(nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(list) != 4 || !list[3].Whole {
		t.Fatalf("a French seam has %d phases, want 4: sewn, turned, sewn again, pressed", len(list))
	}
	first := list[0]
	if a, b := first.Layers[0], first.Layers[1]; a.Face != faceRight || b.Face != faceLeft || a.Path[1].Y >= b.Path[1].Y {
		t.Error("its first row is not sewn with wrong sides together")
	}
	near(t, "first row", first.Stitches[0].From.X, 9, 1e-9)
	near(t, "trimmed from", first.Trimmed[0][0].X, 12, 1e-9)
	near(t, "trimmed to", first.Trimmed[0][1].X, 15, 1e-9)
	if n := len(list[1].Stitches); n != 1 {
		t.Errorf("turned, it has %d rows, want 1", n)
	}
	near(t, "second row", list[2].Stitches[1].From.X, 0, 1e-9)
}

// TestPhasesOfAPlainSeam: 15 mm cut and sewn with right sides together, the row at the
// finished line.
func TestPhasesOfAPlainSeam(t *testing.T) {
	plain, _ := SeamTypeNamed("plain")
	list, err := plain.Phases(Params{"allowance": 15})
	if err != nil || len(list) != 2 {
		t.Fatalf("%d phases, %v; want 2", len(list), err)
	}
	a, b := list[0].Layers[0], list[0].Layers[1]
	if a.Face != faceLeft || b.Face != faceRight {
		t.Error("right sides do not face each other")
	}
	near(t, "edge", a.Path[1].X, 15, 1e-9)
	near(t, "row", list[0].Stitches[0].From.X, 0, 1e-9)
	near(t, "measured", list[0].Dims[0].Value, 15, 1e-9)
}

// TestPhasesOfAHem: a hem turned 20 mm twice is cut 40 mm beyond its edge and folded at 0 and
// at 20.
func TestPhasesOfAHem(t *testing.T) {
	hem, _ := SeamTypeNamed("double-turned-hem")
	list, err := hem.Phases(Params{"depth": 20})
	if err != nil || len(list) != 2 {
		t.Fatalf("%d phases, %v; want 2: as cut, and sewn", len(list), err)
	}
	near(t, "cut", list[0].Layers[0].Path[1].X, 40, 1e-9)
	near(t, "first fold", list[0].Folds[0], 0, 1e-9)
	near(t, "second fold", list[0].Folds[1], 20, 1e-9)
}

// TestPhasesOfAll: at any measures that its checks allow a type has phases that grow, of
// which the last is the whole, and no ply passes through another in any of them.
func TestPhasesOfAll(t *testing.T) {
	eachLegal(t, func(t *testing.T, s SeamType, given Params) {
		list, err := s.Phases(given)
		if err != nil {
			t.Fatal(err)
		}
		if n := len(list); n == 0 || !list[n-1].Whole {
			t.Fatalf("%v: the last of %d phases is not the whole", given, n)
		}
		rows := 0
		for i, g := range list {
			if n := len(g.Stitches); n < rows && !g.Whole {
				t.Errorf("%v: phase %d has fewer rows than the one before", given, i)
			} else {
				rows = n
			}
			for k, l := range g.Layers {
				if at, ok := selfCross(l.Path); ok {
					t.Errorf("%v: phase %d, %s crosses itself at %.2f, %.2f", given, i, l.Role, at.X, at.Y)
				}
				for _, o := range g.Layers[k+1:] {
					if at, ok := pathsCross(l.Path, o.Path); ok {
						t.Errorf("%v: phase %d, %s crosses %s at %.2f, %.2f", given, i, l.Role, o.Role, at.X, at.Y)
					}
				}
			}
		}
	})
}
