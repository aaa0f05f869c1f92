package trade

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

const inch = 25.4

func seamNamed(t *testing.T, name string) SeamType {
	t.Helper()
	s, ok := SeamTypeNamed(name)
	if !ok {
		t.Fatalf("no seam type %q", name)
	}
	return s
}

func TestAllowances(t *testing.T) {
	for _, c := range []struct {
		seam        string
		given       Params
		a, b, width float64 // b below zero: a finish
		source      string
	}{
		{"french", Params{"first": 3. / 8 * inch, "trim": inch / 8, "second": inch / 4}, 15.875, 15.875, 6.35, `sewing-tutorial page "French seams" (enleedesigns)`},
		{"french", Params{"first": inch / 4, "trim": inch / 8, "second": 3. / 8 * inch}, 15.875, 15.875, 9.525, `"What is a French seam" (public how-to page)`},
		{"french", Params{"first": 3. / 8 * inch, "trim": inch / 8, "second": 3. / 8 * inch}, 19.05, 19.05, 9.525, "USU Extension leaflet (Geer et al.)"},
		{"french", Params{"first": inch / 8, "trim": inch / 8, "second": inch / 4}, 9.525, 9.525, 6.35, "Conover, A Complete Course in Dressmaking vol. 1 (1921) p. 98"},
		{"french", Params{"first": 6, "trim": 3, "second": 9}, 15, 15, 9, "common practice, no source"},
		{"flat-felled", Params{"allowance": 5. / 8 * inch, "trim": inch / 8, "fold": inch / 4}, 15.875, 15.875, 9.525, "derived"},
		{"flat-felled", Params{"allowance": 15, "trim": 6, "fold": 6}, 15, 15, 9, "public how-to; width derived"},
		{"flat-felled-offset", Params{"width": 9, "fold": 6, "narrow": 6}, 6, 15, 9, "common practice, no source"},
		{"mock-french", Params{"allowance": 5. / 8 * inch}, 15.875, 15.875, 7.9375, "BellaOnline article (width derived)"},
		{"plain", Params{"allowance": 15}, 15, 15, 30, "derived"},
		{"hong-kong", nil, 15.875, 15.875, 31.75, `Wikipedia "Hong Kong seam"`},
		{"bound", Params{"allowance": 15}, 15, 15, 15, "common practice, no source"},
		{"lapped-turned", Params{"allowance": 15}, 15, 15, 3, "common practice, no source"},
		{"lapped-raw", Params{"overlap": 10}, 0, 10, 10, "common practice, no source"},
		{"piped", Params{"allowance": 15, "cord": 4}, 15, 15, 15, "derived"},
		{"welt", Params{"allowance": 15, "trim": 6, "width": 9}, 15, 15, 9, "common practice, no source"},
		{"bound-edge", nil, 0, -1, 8, "common practice, no source"},
		{"single-turned-hem", Params{"depth": 30}, 30, -1, 30, "derived"},
		{"double-turned-hem", Params{"depth": 20}, 40, -1, 20, "derived"},
		{"turned-in-hem", Params{"depth": 50, "turn": 6}, 56, -1, 50, "4-H bulletin (T. Johnson); derived"},
		{"turned-in-hem", Params{"depth": inch / 4, "turn": inch / 4}, 12.7, -1, 6.35, "4-H bulletin (T. Johnson): two folds of 1/4 in, total 1/2 in"},
		{"rolled-hem", Params{"roll": 4}, 10, -1, 4, "common practice, no source: 6 mm turned and 4 mm rolled"},
		{"hand-rolled-hem", nil, 6, -1, 2, "derived: one turn of a cord takes pi times its width"},
		{"bias-faced-hem", Params{"seam": 8, "cut": 40, "turn": 6}, 8, -1, 26, "derived"},
		{"raw", nil, 0, -1, 0, "common practice, no source"},
	} {
		s := seamNamed(t, c.seam)
		a, b, err := s.Allowances(c.given)
		if err != nil {
			t.Fatalf("%s: %v", c.seam, err)
		}
		near(t, c.seam+", side a ("+c.source+")", a.Value, c.a, 1e-9)
		if (c.b < 0) != (s.Kind == Finish) {
			t.Errorf("%s is a %s", c.seam, s.Kind)
		}
		if c.b >= 0 {
			near(t, c.seam+", side b ("+c.source+")", b.Value, c.b, 1e-9)
		}
		w, err := s.FinishedWidth(c.given)
		if err != nil {
			t.Fatal(err)
		}
		near(t, c.seam+", width ("+c.source+")", w.Value, c.width, 1e-9)
		if broken, err := s.Broken(c.given, nil); err != nil || len(broken) > 0 {
			t.Errorf("%s with %v: %v %v", c.seam, c.given, broken, err)
		}
	}
}

func TestAllowanceShowsItsWorking(t *testing.T) {
	a, _, err := seamNamed(t, "french").Allowances(Params{"first": 6, "second": 9})
	if err != nil || a.Working != "first + second = 6 + 9 = 15" {
		t.Errorf("got %q %v", a.Working, err)
	}
}

func TestBrokenChecks(t *testing.T) {
	for _, c := range []struct {
		seam         string
		given        Params
		says, works  string
		howManyFault int
	}{
		{"french", Params{"first": 6, "trim": 6, "second": 5}, "trimmed to 6 mm, the first pass is not hidden by a second pass of 5 mm", "trim < second: 6 < 5", 1},
		{"french", Params{"first": 6, "trim": 9, "second": 9}, "whiskers", "trim < second: 9 < 9", 2},
		{"flat-felled", Params{"allowance": 12, "trim": 8, "fold": 6}, "an edge trimmed to 8 mm does not fit inside a fell 6 mm wide", "trim < allowance − fold: 8 < 6", 1},
		{"flat-felled", Params{"allowance": 15, "trim": 9, "fold": 6}, "does not fit inside a fell 9 mm wide", "trim < allowance − fold: 9 < 9", 1},
		// printed in home-sewing articles (BellaOnline, "Mock French and flat felled"), and it cannot be folded
		{"flat-felled", Params{"allowance": 5. / 8 * inch, "trim": inch / 8, "fold": 3. / 8 * inch}, "reaches past the seam of a fell 6.35 mm wide", "fold ≤ allowance − fold: 9.525 ≤ 6.35", 1},
		{"flat-felled-inside", Params{"fold": 8}, "reaches past the seam of a fell 7 mm wide", "fold ≤ allowance − fold: 8 ≤ 7", 1},
		{"mock-french", Params{"allowance": 10}, "too narrow to be folded in half", "allowance ≥ 12: 10 ≥ 12", 1},
		{"overlocked", Params{"allowance": 12}, "", "", 0},
		{"overlocked", Params{"allowance": 12, "bite": 12}, "no usual overedge machine sews a stitch 12 mm wide", "bite ≤ 9: 12 ≤ 9", 1},
		{"hong-kong", Params{"allowance": 25, "sew": 5, "extra": 20, "left": 21}, "reaches the seam", "sew + left < allowance: 26 < 25", 1},
		{"bias-faced-hem", Params{"cut": 20}, "does not cover its own seam", "2 × seam + turn < cut: 22 < 20", 2},
	} {
		got, err := seamNamed(t, c.seam).Broken(c.given, nil)
		if err != nil || len(got) != c.howManyFault {
			t.Errorf("%s %v: %d faults %v, want %d", c.seam, c.given, len(got), err, c.howManyFault)
			continue
		}
		if len(got) > 0 && (!strings.Contains(got[0].Say, c.says) || got[0].Working != c.works) {
			t.Errorf("%s: got %+v", c.seam, got[0])
		}
	}
}

func TestValuesRefuse(t *testing.T) {
	for _, c := range []struct {
		given Params
		says  string
	}{
		{Params{"frist": 6}, `French seam has no measure "frist"; did you mean "first"?`},
		{Params{"moonlight": 6}, "it has first, trim and second"},
		{Params{"first": -1}, "first cannot be −1 mm"},
		{Params{"first": math.NaN()}, "first cannot be"},
		{Params{"first": math.Inf(1)}, "first cannot be"},
	} {
		_, err := seamNamed(t, "french").Values(c.given)
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v: got %v, want %q", c.given, err, c.says)
		}
	}
}

func TestStripCuts(t *testing.T) {
	for _, c := range []struct {
		seam   string
		given  Params
		cut    float64
		count  int
		source string
	}{
		{"hong-kong", Params{"allowance": 5. / 8 * inch, "extra": inch / 4}, 22.225, 2, `Wikipedia "Hong Kong seam"`},
		{"bound-edge", Params{"width": inch / 2, "over": 0}, 50.8, 1, "M. Lewis article"},
		{"bound", Params{"width": inch / 2, "allowance": inch}, 50.8, 1, "M. Lewis article"},
		{"double-bound-edge", Params{"width": 6}, 36, 1, "common practice, no source"},
		{"piped", Params{"cord": 4, "allowance": 15}, 42.5664, 1, "derived: pi × 4 + 2 × 15"},
	} {
		s := seamNamed(t, c.seam)
		p, err := s.Values(c.given)
		if err != nil || s.Strips[0].Count != c.count {
			t.Fatalf("%s: %+v %v", c.seam, s.Strips, err)
		}
		cut, err := s.Strips[0].Cut.Value(p)
		if err != nil {
			t.Fatal(err)
		}
		near(t, c.seam+" strip ("+c.source+")", cut, c.cut, 1e-4)
	}
}

func TestRows(t *testing.T) {
	// Source: derived, as counted in the reference on thread.
	for name, want := range map[string]int{
		"plain": 1, "turned-and-stitched": 3, "french": 2, "mock-french": 2, "flat-felled": 2, "hong-kong": 5,
		"slot": 2, "butted-taped": 2, "raw": 0, "topstitched-open": 3,
	} {
		got := 0
		for _, r := range seamNamed(t, name).RowCounts() {
			if !r.Temporary {
				got += r.Rows
			}
		}
		if got != want {
			t.Errorf("%s: %d rows, want %d", name, got, want)
		}
	}
	got := seamNamed(t, "slot").RowCounts()
	if len(got) != 2 || got[0] != (RowCount{"301", 1, true}) || got[1] != (RowCount{"301", 2, false}) {
		t.Errorf("slot: %+v", got)
	}
	got = seamNamed(t, "hong-kong").RowCounts()
	if len(got) != 1 || got[0] != (RowCount{"301", 5, false}) {
		t.Errorf("hong-kong: %+v", got)
	}
}

func TestEverySeamTypeIsWhole(t *testing.T) {
	if faults := checkSeamTypes(SeamTypes()); len(faults) > 0 {
		t.Error(faults)
	}
	seams, finishes := 0, 0
	seen := map[string]bool{}
	for _, s := range SeamTypes() {
		if s.Kind == Seam {
			seams++
		} else {
			finishes++
		}
		if !s.Told() || s.Plies < 1 {
			t.Errorf("%s does not say what is left of its sides: write keeps:, holds: and plies:", s.Name)
		}
		for i, p := range s.Passes {
			if len(p.Through) == 0 {
				t.Errorf("%s: pass %d does not name the plies that it goes through: write through: a b", s.Name, i+1)
			}
		}
		if seen[s.Name] {
			t.Errorf("two types named %s", s.Name)
		}
		seen[s.Name] = true
		if s.Source.sure() == sureUnsaid || len(s.Cautions) == 0 || len(s.Also) == 0 {
			t.Errorf("%s lacks a source, a caution or another name: every built-in type has source:, and at least one line under cautions: and under also:", s.Name)
		}
		for _, c := range []*Code{s.ISO, s.US} {
			if c != nil && c.Source.sure() == sureUnsaid {
				t.Errorf("%s has a code without source", s.Name)
			}
		}
		for i, p := range s.Passes {
			if _, ok := stitchOf(p.Stitch); !ok {
				t.Errorf("%s, pass %d: stitch %s is not in the table", s.Name, i+1, p.Stitch)
			}
		}
		drawn := map[int]bool{}
		for _, st := range s.Drawing.Stitches {
			drawn[st.Row] = true
		}
		if len(drawn) != len(s.Passes) {
			t.Errorf("%s has %d passes and draws %d of them", s.Name, len(s.Passes), len(drawn))
		}
	}
	if seams < 16 || finishes < 12 {
		t.Errorf("%d seams and %d finishes", seams, finishes)
	}
}

// TestSectionsHideRawEdges looks at the seams that promise to: straight up
// and straight down from every raw end of cloth there must be another layer.
func TestSectionsHideRawEdges(t *testing.T) {
	for _, name := range []string{"french", "flat-felled", "flat-felled-offset", "bound", "enclosed", "strap", "bound-edge", "double-bound-edge", "double-turned-hem", "turned-in-hem", "rolled-hem", "bias-faced-hem", "mock-french"} {
		s, err := seamNamed(t, name).Section(nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range s.Layers {
			if l.Role != ClothA && l.Role != ClothB || l.End != RawEdge {
				continue
			}
			end := l.Path[len(l.Path)-1]
			above, below := covered(s, end)
			if !above || !below {
				t.Errorf("%s: the raw edge of %s lies open (above %v, below %v)", name, l.Role, above, below)
			}
		}
	}
	plain, err := seamNamed(t, "plain").Section(nil)
	if err != nil {
		t.Fatal(err)
	}
	path := plain.Layers[0].Path
	if _, below := covered(plain, path[len(path)-1]); below {
		t.Error("the raw edge of a plain seam is not covered from below, yet the test says so")
	}
}

func covered(s Section, p Pt) (above, below bool) {
	for _, l := range s.Layers {
		for i := 1; i < len(l.Path); i++ {
			a, b := l.Path[i-1], l.Path[i]
			if math.Min(a.X, b.X) > p.X || math.Max(a.X, b.X) < p.X {
				continue
			}
			mid := (a.Y + b.Y) / 2
			above = above || mid > p.Y+s.Ply/2
			below = below || mid < p.Y-s.Ply/2
		}
	}
	return above, below
}

// TestSectionsAtAnySize draws every type with measures scaled up and down.
func TestSectionsAtAnySize(t *testing.T) {
	types := SeamTypes()
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom(types).Draw(t, "type")
		given := Params{}
		for _, p := range s.Parameters {
			given[p.Name] = rapid.Float64Range(0, 200).Draw(t, p.Name)
		}
		if broken, err := s.Broken(given, nil); err != nil || len(broken) > 0 {
			return
		}
		section, err := s.Section(given)
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range section.Layers {
			for _, p := range l.Path {
				if math.IsNaN(p.X+p.Y) || math.IsInf(p.X+p.Y, 0) {
					t.Fatalf("%s with %v draws %v", s.Name, given, p)
				}
			}
		}
		// A check holds when its sides are a millionth of a millimetre apart, so
		// what a side gives up may fall short of nothing by as little.
		const same = 1e-6
		a, b, err := s.Allowances(given)
		if err != nil || a.Value < -same || b.Value < -same {
			t.Fatalf("%s with %v gives up %v and %v, %v", s.Name, given, a, b, err)
		}
	})
}

// SeamTypeNamed finds a built-in seam type by its name.
func SeamTypeNamed(name string) (SeamType, bool) {
	return FindSeamType(seamTypes(), name)
}
