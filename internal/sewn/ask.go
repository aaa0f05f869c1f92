package sewn

// A Question is what a plan leaves open: two readings stand.
type Question struct {
	Kind   QuestionKind
	Seam   int      // into the surface's Plan.Seams; −1 where it is about none
	Pieces []string // the pieces it is about
	Counts [2]int   // of lines that are sewn, on either side
}

// A QuestionKind says what is asked.
type QuestionKind int8

// What may be asked.
const (
	RingOrTubes    QuestionKind = iota // one ring of all copies, or each a tube of its own
	WhichMeets                         // which line meets which, where the lines are not equally many
	BesideOrBehind                     // a piece like another that is joined to nothing
)

// A Fault is what cannot be sewn as it stands.
type Fault struct {
	Kind   FaultKind
	Seam   int
	Edges  []EdgeRef
	Counts [2]int
}

// A FaultKind says what is wrong.
type FaultKind int8

// What may be wrong.
const (
	SameHand  FaultKind = iota // two of one hand where a right and a left are wanted
	SewnTwice                  // an edge sewn in two seams of its layer
	Twisted                    // seams that only a twisted surface could have
	NoWayIn                    // a closed bag
	Uneven                     // edges that occur unequally often
	WrongSide                  // fronts that meet backs round an opening: a sleeve in the other armhole
)

func (b *builder) fault(f Fault)  { b.faults = append(b.faults, f) }
func (b *builder) ask(q Question) { b.questions = append(b.questions, q) }
