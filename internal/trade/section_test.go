package trade

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"testing"
)

// How many sets of legal measures each type is drawn with: HEMBOOK_SECTIONS=1000
// draws more.
func sectionRounds() int {
	if n, err := strconv.Atoi(os.Getenv("HEMBOOK_SECTIONS")); err == nil {
		return n
	}
	return 40
}

// eachLegal calls try with every type at its defaults and at random measures
// that none of its checks refuses.
func eachLegal(t *testing.T, try func(t *testing.T, s SeamType, given Params)) {
	t.Helper()
	for _, s := range SeamTypes() {
		t.Run(s.Name, func(t *testing.T) {
			try(t, s, Params{})
			found := 0
			for seed := range 200 * sectionRounds() {
				if given, ok := legal(s, seed); ok {
					try(t, s, given)
					if found++; found >= sectionRounds() || len(s.Parameters) == 0 || t.Failed() {
						break
					}
				}
			}
			if found < sectionRounds()/2 && len(s.Parameters) > 0 && !t.Failed() {
				t.Errorf("only %d legal sets of measures were found", found)
			}
		})
	}
}

// legal are measures from a quarter to four times the defaults, in tenths of a
// millimetre, where the type's own checks allow them.
func legal(s SeamType, seed int) (Params, bool) {
	random := rand.New(rand.NewPCG(uint64(seed), 7))
	given := Params{}
	for _, m := range s.Parameters {
		given[m.Name] = math.Max(1, math.Round(m.Default*math.Pow(4, 2*random.Float64()-1)*10)/10)
	}
	broken, err := s.Broken(given, nil)
	return given, err == nil && len(broken) == 0
}

// flat is a path with no thickness, as points along x and y; arcs keep their
// length.
func flatPath(t *testing.T, s SeamType, given Params, l LayerRule, run float64) []Pt {
	t.Helper()
	p, err := s.Values(given)
	if err != nil {
		t.Fatal(err)
	}
	p[plyName], p[runName] = 0, run
	d := drawer{p: p, aside: p}
	var out []Pt
	for _, r := range l.Path {
		if r.Arc != nil {
			out = append(out, d.arc(r)...)
			continue
		}
		out = append(out, d.point(r))
	}
	if d.err != nil {
		t.Fatal(d.err)
	}
	return out
}

func pathLength(pts []Pt) float64 {
	sum := 0.0
	for i := 1; i < len(pts); i++ {
		sum += distance(pts[i-1], pts[i])
	}
	return sum
}

// wholePieces are pieces of which the section shows both edges, so that none of it
// goes on beyond the drawing: how wide such a piece is cut.
var wholePieces = map[string]Expr{
	"band": mustExpr("2 * width + 2 * allowance"), // derived: two faces and an allowance at each edge, of which less is turned in for what lies deeper inside
}

// TestDrawnClothIsWhatIsLeft: the cloth drawn beyond the finished line, with no
// thickness, is what is given up less what the passes trim away, and that is
// what the type says that it keeps. A drawing and a formula are two hands at
// the same work.
func TestDrawnClothIsWhatIsLeft(t *testing.T) {
	const run = 1000
	eachLegal(t, func(t *testing.T, s SeamType, given Params) {
		p, err := s.Values(given)
		if err != nil {
			t.Fatal(err)
		}
		for side, role := range sideRoles[:s.Sides()] {
			for _, l := range s.Drawing.Layers {
				if l.Of != role {
					continue
				}
				gives, err := s.Gives.Of(side).Value(p)
				if err != nil {
					t.Fatal(err)
				}
				states, err := s.states(side, given, gives)
				if err != nil {
					t.Fatal(err)
				}
				left := states[len(states)-1].Left
				within := 1e-6
				if s.Name == "hand-rolled-hem" {
					within = 0.06 * left // a coil of three half circles
				}
				shown := pathLength(flatPath(t, s, given, l, run))
				if l.Start == RawEdge {
					whole, err := wholePieces[s.Name].Value(p)
					if err != nil {
						t.Fatalf("%s is drawn with both its edges, and how wide it is cut is not said: %v", role, err)
					}
					near(t, fmt.Sprintf("%v: %s drawn whole", given, role), shown, whole, within)
				} else {
					if l.End == GoesOn { // rows that lie on cloth of which no edge is drawn
						shown -= run
					}
					near(t, fmt.Sprintf("%v: %s drawn beyond the line", given, role), shown-run, left, within)
				}
				p[CutName] = gives
				keeps, err := s.Keeps.Of(side).Value(p)
				if err != nil {
					t.Fatal(err)
				}
				near(t, fmt.Sprintf("%v: %s keeps", given, role), keeps, left, 1e-6)
			}
		}
	})
}

// trimmedStrips are strips of which less is drawn than is cut, because it is
// trimmed: how much of them is left.
var trimmedStrips = map[string]Expr{
	"hong-kong":      mustExpr("3 * sew + left"),
	"piped":          mustExpr("pi * cord + 2 * allowance - 3 * grade"),
	"bias-faced-hem": mustExpr("cut - seam / 3"),
}

// cutOf is how wide a layer is cut that is a strip or a piece that the type brings, and
// false of all else. What lies in a casing is drawn from above, and a cord round.
func cutOf(s SeamType, l LayerRule) (Expr, bool) {
	for i := range s.Pieces {
		if s.Pieces[i].What == l.Called {
			return s.Pieces[i].Cut, true
		}
	}
	for i := range s.Strips {
		if s.Strips[i].As == l.Of && l.End != Closed {
			return s.Strips[i].Cut, true
		}
	}
	return Expr{}, false
}

// TestDrawnStripsAreWhatIsCut: a strip is drawn as long as it is cut, and so is a piece
// that a type brings.
func TestDrawnStripsAreWhatIsCut(t *testing.T) {
	eachLegal(t, func(t *testing.T, s SeamType, given Params) {
		p, err := s.Values(given)
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range s.Drawing.Layers {
			want, drawn := cutOf(s, l)
			if !drawn {
				continue
			}
			within := 1e-6
			if left, ok := trimmedStrips[s.Name]; ok {
				want = left
			}
			mm, err := want.Value(p)
			if err != nil {
				t.Fatal(err)
			}
			if s.Name == "piped" || s.Name == "piped-edge" {
				within = 0.01 * mm // the strip bends away from the cord
			}
			near(t, fmt.Sprintf("%v: strip", given), pathLength(flatPath(t, s, given, l, 0)), mm, within)
		}
	})
}

// TestRowsPassTheirPlies: every row drawn passes the plies that its pass names,
// each as often, and of other things none. Rows by hand and blind rows are
// drawn as the thread runs and are not counted.
func TestRowsPassTheirPlies(t *testing.T) {
	eachLegal(t, func(t *testing.T, s SeamType, given Params) {
		section, err := s.Section(given)
		if err != nil {
			t.Fatal(err)
		}
		drawn := map[int]int{}
		for _, st := range section.Stitches {
			pass := s.Passes[st.Row-1]
			which := drawn[st.Row]
			drawn[st.Row]++
			named := pass.Through.row(which)
			if len(named) == 0 {
				t.Errorf("pass %d names no plies", st.Row)
			}
			if kind, ok := stitchOf(pass.Stitch); ok && (kind.Hand || pass.Stitch == "103") {
				continue
			}
			passed := passedBy(section, st)
			for _, r := range roles {
				role := r.role
				if count(passed, role) < count(named, role) || count(named, role) == 0 && count(passed, role) > 0 {
					t.Errorf("%v: pass %d names %v and its row %d passes %v", given, st.Row, named, which+1, passed)
					break
				}
			}
			if len(given) == 0 && s.Name != "enclosed" && len(passed) != len(named) {
				t.Errorf("pass %d names %v and its row %d passes %v", st.Row, named, which+1, passed)
			}
		}
	})
}

func count(list []Role, r Role) int {
	n := 0
	for _, x := range list {
		if x == r {
			n++
		}
	}
	return n
}

// passedBy lists the plies that a straight thread passes.
func passedBy(s Section, st SectionStitch) []Role {
	var out []Role
	for _, l := range s.Layers {
		for i := 1; i < len(l.Path); i++ {
			if cross, _ := segmentsCross(st.From, st.To, l.Path[i-1], l.Path[i]); cross {
				out = append(out, l.Role)
			}
		}
	}
	return out
}

// segmentsCross reports whether ab and cd cross: cd's beginning belongs to it,
// its end does not.
func segmentsCross(a, b, c, d Pt) (bool, Pt) {
	turn := func(p, q, r Pt) float64 { return (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X) }
	c1, d1 := turn(a, b, c), turn(a, b, d)
	a1, b1 := turn(c, d, a), turn(c, d, b)
	if (c1 >= 0) == (d1 >= 0) || (a1 >= 0) == (b1 >= 0) {
		return false, Pt{}
	}
	k := c1 / (c1 - d1)
	return true, Pt{c.X + k*(d.X-c.X), c.Y + k*(d.Y-c.Y)}
}

// TestNoPlyCrossesAnother: cloth does not pass through cloth.
func TestNoPlyCrossesAnother(t *testing.T) {
	eachLegal(t, func(t *testing.T, s SeamType, given Params) {
		section, err := s.Section(given)
		if err != nil {
			t.Fatal(err)
		}
		for i, l := range section.Layers {
			for _, o := range section.Layers[i+1:] {
				if at, ok := pathsCross(l.Path, o.Path); ok {
					t.Errorf("%v: %s crosses %s at %.2f, %.2f (ply %.2f)", given, l.Role, o.Role, at.X, at.Y, section.Ply)
				}
			}
			if at, ok := selfCross(l.Path); ok {
				t.Errorf("%v: %s crosses itself at %.2f, %.2f (ply %.2f)", given, l.Role, at.X, at.Y, section.Ply)
			}
		}
	})
}

func pathsCross(a, b []Pt) (Pt, bool) {
	for i := 1; i < len(a); i++ {
		for j := 1; j < len(b); j++ {
			if ok, at := segmentsCross(a[i-1], a[i], b[j-1], b[j]); ok {
				return at, true
			}
		}
	}
	return Pt{}, false
}

func selfCross(a []Pt) (Pt, bool) {
	a = slices.CompactFunc(slices.Clone(a), func(p, q Pt) bool { return distance(p, q) < 1e-9 })
	for i := 1; i < len(a); i++ {
		for j := i + 2; j < len(a); j++ {
			if i == 1 && j == len(a)-1 && distance(a[0], a[j]) < 1e-9 {
				continue
			}
			if ok, at := segmentsCross(a[i-1], a[i], a[j-1], a[j]); ok {
				return at, true
			}
		}
	}
	return Pt{}, false
}

// TestPliesAsDrawn: the most layers on top of each other, counted through the
// drawing, are what the type says.
func TestPliesAsDrawn(t *testing.T) {
	for _, s := range SeamTypes() {
		section, err := s.Section(nil)
		if err != nil {
			t.Fatal(err)
		}
		most := 0
		for k := range 2000 {
			x := section.Min.X + (section.Max.X-section.Min.X)*(float64(k)+0.5)/2000
			if overCord(section, x) {
				continue // a cord and what is round it stand beside the allowances when they are pressed
			}
			most = max(most, len(passedBy(section, SectionStitch{From: Pt{x, section.Max.Y + 1}, To: Pt{x, section.Min.Y - 1}})))
		}
		if most != s.Plies {
			t.Errorf("%s: %d plies drawn, and the type says %d", s.Name, most, s.Plies)
		}
	}
}

// overCord reports whether a cord lies at x, or near it.
func overCord(s Section, x float64) bool {
	for _, l := range s.Layers {
		if l.End != Closed {
			continue
		}
		for _, q := range l.Path {
			if math.Abs(q.X-x) < 1.5*s.Ply {
				return true
			}
		}
	}
	return false
}
