package sewn

import (
	"slices"
	"strings"
	"testing"
)

// asked is the one question of a kind that a plan leaves open, both readings sound.
func asked(t *testing.T, p Plan, kind QuestionKind) Question {
	t.Helper()
	_, questions, snags := Build(p)
	if len(questions) != 1 || questions[0].Kind != kind || len(snags) > 0 {
		t.Fatalf("questions %+v, snags %v; want one of kind %d", questions, snags, kind)
	}
	for _, s := range questions[0].Readings {
		if s == nil {
			t.Fatal("a reading is missing")
		}
		sound(t, s)
	}
	return questions[0]
}

// settled wants nothing to be left open.
func settled(t *testing.T, p Plan) {
	t.Helper()
	if _, questions, snags := Build(p); len(questions) > 0 || len(snags) > 0 {
		t.Errorf("questions %+v, snags %v", questions, snags)
	}
}

// sleeved is a bodice of whole shoulders whose armholes are 180 of front and of back, and
// a pair of sleeves with a head of one edge, 360 long and level: that it leans forward is
// seen nowhere on its head.
func sleeved(notches ...Edge) Plan {
	p := bodice(bodiceHalf("front"), bodiceHalf("back"))
	sleeve := piece("sleeve", pt(60, -300), "wrist", pt(260, -300), "left", pt(360, 0), "head", pt(0, 0), "right", pt(60, -300)).pairs(2)
	for _, e := range notches[:min(1, len(notches))] {
		sleeve = sleeve.edge(e)
	}
	p.Pieces = append(p.Pieces, sleeve)
	for _, e := range notches[min(1, len(notches)):] {
		for i := range p.Pieces {
			if p.Pieces[i].Name == "front" {
				p.Pieces[i] = p.Pieces[i].edge(e)
			}
		}
	}
	p.Seams = append(p.Seams, seam("sleeve seams", "sleeve.left", "sleeve.right"), seam("heads", "sleeve.head", "front.armhole + back.armhole").full())
	return p
}

// frontOf is the hand of the front whose armhole the sleeve of a hand is sewn to.
func frontOf(s *Surface, hand int8) int8 {
	for i := range s.Joins {
		j := &s.Joins[i]
		for _, pair := range [...][2]Span{{j.A, j.B}, {j.B, j.A}} {
			one, two := &s.Copies[s.Sides[pair[0].Side].Copy], &s.Copies[s.Sides[pair[1].Side].Copy]
			if j.Kind == Sewn && one.Name == "sleeve" && one.Hand == hand && two.Name == "front" {
				return two.Hand
			}
		}
	}
	return 0
}

func TestWhichSleeve(t *testing.T) {
	q := asked(t, sleeved(), WhichOfPair)
	one, two := frontOf(q.Readings[0], 1), frontOf(q.Readings[1], 1)
	if one == 0 || one != -two {
		t.Errorf("the sleeve as drawn lies at the front %d and at %d: want each once", one, two)
	}
	for k, s := range q.Readings {
		here, there := s.MeetsFirst(q.Seam, "sleeve")
		if wanted := []string{"front.armhole", "back.armhole"}; here != "sleeve.left" || !slices.Contains(wanted, there) {
			t.Errorf("reading %d: %s beside %s", k, here, there)
		}
	}
	// A notch of one name on the head and on the front's armhole tells: 60 from one end.
	settled(t, sleeved(Edge{Name: "head", Notches: []Notch{{"front", 60}}}, Edge{Name: "armhole", Notches: []Notch{{"front", 60}}}))
	// What is its own mirror image may go into either.
	even := sleeved()
	for i := range even.Pieces {
		if even.Pieces[i].Name == "sleeve" {
			even.Pieces[i].Outline = piece("", pt(80, -300), "wrist", pt(280, -300), "left", pt(360, 0), "head", pt(0, 0), "right", pt(80, -300)).Outline
		}
	}
	settled(t, even)
}

// flap is a whole piece that leans, and a bag it is sewn to along its whole top.
func flap(beside string) Plan {
	return plan(
		piece("bag", pt(0, 0), "bottom", pt(240, 0), "right", pt(200, 300), "mouth", pt(0, 300), "left", pt(0, 0)),
		piece("flap", pt(0, 0), "root", pt(200, 0), beside, pt(150, 120), "tip", pt(60, 120), "end", pt(0, 0)),
		seam("flap", "flap.root", "bag.mouth"))
}

func TestWhichWayUp(t *testing.T) {
	q := asked(t, flap("slope"), WhichWayUp)
	hands := func(s *Surface) int8 { return s.Copies[0].Hand * s.Copies[1].Hand }
	if one, two := hands(q.Readings[0]), hands(q.Readings[1]); one != 1 || two != -1 {
		t.Errorf("the hands agree as %d and as %d: want as drawn, and turned over", one, two)
	}
	// The root begins at the end. As drawn it runs against the mouth, whose end lies at the
	// left: the flap's end comes to what follows the mouth, bag.left; turned over, to bag.right.
	for k, wanted := range []string{"bag.left", "bag.right"} {
		if here, there := q.Readings[k].EndsMeet(q.Seam, "flap"); here != "flap.end" || there != wanted {
			t.Errorf("reading %d: %s beside %s, not flap.end beside %s", k, here, there, wanted)
		}
	}
	settled(t, flap("right")) // what is called alike lies on the same end
	even := flap("slope")
	even.Pieces[1].Outline = box("", 200, 120).Outline
	for k, name := range []string{"root", "slope", "tip", "end"} {
		even.Pieces[1].Outline.Edges[k].Name = name
	}
	settled(t, even)
}

func TestWhichEnd(t *testing.T) {
	sleeve := piece("sleeve", pt(0, 0), "wrist", pt(240, 0), "back", pt(300, 400), "head", pt(-60, 400), "front", pt(0, 0))
	p := plan(sleeve, seam("sleeve seam", "sleeve.back", "sleeve.front"))
	p.Closures = []Closure{zip("sleeve.back", 150)}
	if at := openFrom(t, p); at != "head" {
		t.Errorf("the zip begins at the %s, not at the upper end", at)
	}
	p.Closures[0].Either = true
	q := asked(t, p, WhichEnd)
	for k, at := range []string{"head", "wrist"} {
		if got := q.Readings[k].OpensAt(0); got != at {
			t.Errorf("reading %d opens at the %s, not the %s", k, got, at)
		}
	}
	// Of a seam that lies level neither end is the upper one.
	level := piece("cover", pt(0, 0), "hem", pt(0, -300), "top", pt(400, -300), "end", pt(400, 0), "seam", pt(0, 0))
	level = level.pairs(2)
	p = plan(level, seam("seam", "cover.seam", "cover.seam"))
	p.Closures = []Closure{zip("cover.seam", 150)}
	asked(t, p, WhichEnd)
	// The names of the edges beside it tell: it begins at the one that lies above.
	for _, above := range []string{"end", "hem"} {
		p.Closures[0].Above = above
		if at := openFrom(t, p); at != above {
			t.Errorf("the zip begins at the %s, not at the %s", at, above)
		}
	}
}

func openFrom(t *testing.T, p Plan) string {
	s, questions, _ := Build(p)
	if len(questions) > 0 {
		t.Errorf("asked %+v", questions)
	}
	return s.OpensAt(0)
}

func TestHeadOfOneEdgeBeginsUnderTheArm(t *testing.T) {
	// The head rises 150 and falls again, as each armhole does from the side over the
	// shoulder: its ends come together at the side, whichever line is named first.
	for _, sides := range [][2]string{{"sleeve.head", "front.armhole + back.armhole"}, {"arm.head", "front.armhole + back.armhole"}} {
		p := bodice(bodiceHalf("front"), bodiceHalf("back"))
		name, _, _ := strings.Cut(sides[0], ".")
		p.Pieces = append(p.Pieces, piece(name, pt(60, -300), "wrist", pt(260, -300), "left", pt(300, 0), "head", curve(pt(240, 150), pt(60, 150), pt(0, 0)), "right", pt(60, -300)).pairs(2))
		p.Seams = append(p.Seams, seam("sleeve seams", name+".left", name+".right"), seam("heads", sides[0], sides[1]).full())
		_, questions, _ := Build(p)
		if len(questions) != 1 {
			t.Fatalf("questions %+v", questions)
		}
		for k, s := range questions[0].Readings {
			corners := (&builder{s: s}).corners()
			for i := range s.Sides {
				if s.Sides[i].Edge != "head" {
					continue
				}
				met := map[string]bool{}
				for o := range s.Sides {
					if corners.of(s, SideID(o), 0) == corners.of(s, SideID(i), 0) {
						met[s.Sides[o].Edge] = true
					}
				}
				if !met["side"] || met["shoulder"] {
					t.Errorf("%s, reading %d: the head begins where %v begin", name, k, met)
				}
			}
		}
	}
}
