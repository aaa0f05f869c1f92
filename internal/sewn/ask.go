package sewn

import "math"

// A Question is what a plan leaves open: two readings stand.
type Question struct {
	Kind    QuestionKind
	Seam    int      // into the surface's Plan.Seams; −1 where it is about none
	Closure int      // into Plan.Closures, of WhichEnd
	Pieces  []string // the pieces it is about
	Counts  [2]int   // of lines that are sewn, on either side

	// Both readings, the one that is taken first; of RingOrTubes all copies as one ring
	// and each a tube of its own. nil of WhichMeets, where none stands.
	Readings [2]*Surface
}

// Rounds are how far it is round a piece where nothing else is sewn to it, in
// both readings of a question of rings and tubes, and how many tubes there are;
// 0 where something is sewn to it all round, mm.
func (q *Question) Rounds() (ring, tube float64, tubes int) {
	var least [2]float64
	for k, s := range q.Readings {
		if s == nil {
			return 0, 0, 0
		}
		for _, layer := range s.Layers() {
			for _, l := range s.Loops(layer, true) {
				if of := s.Copies[s.Sides[l.Spans[0].Side].Copy].Name; of == q.Pieces[0] && (least[k] == 0 || l.Length < least[k]) {
					least[k] = l.Length
				}
			}
		}
	}
	if least[0] == 0 || least[1] == 0 {
		return 0, 0, 0
	}
	return least[0], least[1], int(math.Round(least[0] / least[1]))
}

// LayerOf is the first layer in which a piece is cut; "" where it is in none.
func (s *Surface) LayerOf(piece string) string {
	for i := range s.Copies {
		if s.Copies[i].Name == piece {
			return s.Copies[i].Layer
		}
	}
	return ""
}

// MeetsFirst is what a line of a seam lies along where it begins at the piece as it is
// drawn, and the edge of the piece beside that end, each as piece.edge; "" where no copy of
// the piece lies as it is drawn.
func (s *Surface) MeetsFirst(seam int, piece string) (here, there string) {
	for _, own := range s.seamSpans(seam, piece) {
		if at := own[0]; s.Copies[s.Sides[at.Side].Copy].Hand > 0 && at.From < touch {
			return s.edgeWords(s.step(at.Side, -1)), s.edgeWords(own[1].Side)
		}
	}
	return "", ""
}

// EndsMeet are the edges, each as piece.edge, that come together at the end of a seam
// where its edge begins on the piece as it is drawn.
func (s *Surface) EndsMeet(seam int, piece string) (here, there string) {
	for _, own := range s.seamSpans(seam, piece) {
		by := int(s.Copies[s.Sides[own[0].Side].Copy].Hand)
		return s.edgeWords(s.step(own[0].Side, -by)), s.edgeWords(s.step(own[1].Side, by))
	}
	return "", ""
}

// seamSpans are the stretches of a piece that a seam sews, each with what it meets.
func (s *Surface) seamSpans(seam int, piece string) (out [][2]Span) {
	for i := range s.Joins {
		j := &s.Joins[i]
		for _, pair := range [...][2]Span{{j.A, j.B}, {j.B, j.A}} {
			if j.Seam == seam && s.piece(pair[0].Side).Name == piece {
				out = append(out, pair)
			}
		}
	}
	return out
}

// OpensAt is the edge beside the end at which a closure begins, of the piece whose edge it
// lies along; "" where it closes nothing.
func (s *Surface) OpensAt(by int) string {
	for i := range s.Joins {
		j := &s.Joins[i]
		for _, sp := range [...]Span{j.A, j.B} {
			if j.Kind != Closing || j.By != by || s.edgeWords(sp.Side) != s.Plan.Closures[by].Edge.Piece+"."+s.Plan.Closures[by].Edge.Edge {
				continue
			}
			if sp.From < touch {
				return s.Sides[s.step(sp.Side, -1)].Edge
			}
			return s.Sides[s.next(sp.Side)].Edge
		}
	}
	return ""
}

// edgeWords is a side as piece.edge.
func (s *Surface) edgeWords(id SideID) string { return s.piece(id).Name + "." + s.Sides[id].Edge }

// A QuestionKind says what is asked.
type QuestionKind int8

// What may be asked.
const (
	RingOrTubes    QuestionKind = iota // one ring of all copies, or each a tube of its own
	WhichMeets                         // which line meets which, where the lines are not equally many
	BesideOrBehind                     // a piece like another that is joined to nothing
	WhichOfPair                        // which of a pair meets which of another, as sleeves and armholes
	WhichWayUp                         // which side up a piece drawn whole is sewn on
	WhichEnd                           // from which end of a seam a zip opens it
)

// A Snag is what cannot be sewn as it stands.
// It is asked by kind, and told in the words of the record by the garment.
type Snag struct {
	Kind   SnagKind
	Seam   int
	Edges  []EdgeRef
	Counts [2]int
}

// A SnagKind says what is wrong.
type SnagKind int8

// What may be wrong.
const (
	SameHand  SnagKind = iota // two of one hand where a right and a left are wanted
	SewnTwice                 // an edge sewn in two seams of its layer
	Twisted                   // seams that only a twisted surface could have
	NoWayIn                   // a closed bag
	Uneven                    // edges that occur unequally often
	WrongSide                 // fronts that meet backs round an opening: a sleeve in the other armhole
)

func (b *builder) snag(f Snag)    { b.snags = append(b.snags, f) }
func (b *builder) ask(q Question) { b.questions = append(b.questions, q) }
