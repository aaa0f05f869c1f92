package sewn

import "math"

// A Question is what a plan leaves open: two readings stand.
type Question struct {
	Kind   QuestionKind
	Seam   int      // into the surface's Plan.Seams; −1 where it is about none
	Pieces []string // the pieces it is about
	Counts [2]int   // of lines that are sewn, on either side

	Readings [2]*Surface // of RingOrTubes: all copies as one ring, each a tube of its own; nil of others
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

// A QuestionKind says what is asked.
type QuestionKind int8

// What may be asked.
const (
	RingOrTubes    QuestionKind = iota // one ring of all copies, or each a tube of its own
	WhichMeets                         // which line meets which, where the lines are not equally many
	BesideOrBehind                     // a piece like another that is joined to nothing
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
