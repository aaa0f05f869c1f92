package garment

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// seams walks every seam (figures 1 and 5).
func (w *derivation) seams() {
	for _, s := range w.g.Seams {
		base := w.Join("seam.", s.anchor)
		w.meet(s, base)
		w.seamTakes(s, base)
		if s.kind != nil {
			w.wanted(s.kind, s.Name, s.Record.Join...)
			w.thirdSide(s)
			w.broken(s.kind, s.Name, s.Params, s.Record.With, s.Record.Type.At)
			s.Strips = w.seamStrips(s, base)
			w.rows.gathered(s, base)
			w.rows.knownStitch(s.Record.Stitch)
			w.rows.rowsOf(s.kind, Row{Kind: SeamRow, Of: s.Name, Thread: w.rows.threadName(s.Record.Thread.V), Length: &s.Total, what: s.Name}, s.Record.Stitch.V, s.Params, s.firstPieces())
			w.besideSeam(s)
			w.rows.rowsBeside(&s.Type, s.kind, Row{Kind: SeamRow, Of: s.Name, Thread: w.rows.threadName(s.Record.Thread.V), Length: &s.Total, what: s.Name}, s.besides, s.Params, s.firstPieces())
		} else {
			w.rows.sewsRow(Row{Kind: SeamRow, Of: s.Name, Length: &s.Total, what: s.Name, Lasting: true})
		}
	}
}

// firstPieces are the pieces that lie on each side of a seam where it begins: that of
// the side itself, and those caught in behind it.
func (s *Seam) firstPieces() (out [2][]*Piece) {
	for i := range s.Sides {
		if len(s.Sides[i].Edges) > 0 {
			out[i] = append(out[i], s.Sides[i].Edges[0].Piece)
		}
	}
	for i := range s.Plies {
		p := &s.Plies[i]
		out[p.With] = append(out[p.With], p.Edges[0].Piece)
	}
	return out
}

// ordinal numbers the sides of a seam in IDs.
var ordinal = [2]string{"1", "2"}

// A tally is one side of a seam, counted.
type tally struct {
	length float64 // of one occurrence
	times  int
	why    string // why the length is not known
}

// meet compares the two sides of a seam.
func (w *derivation) meet(s *Seam, base string) {
	run := s.isRun() && !s.set
	why := ""
	if s.broken {
		why = say.Of("garment.it-does-not-join-two-edges-that")
	}
	var sides [2]tally
	s.Times = 1
	if run {
		s.Times = runTimes(s)
	}
	for i := range sides {
		sides[i] = w.side(s, i, run, base)
		if why == "" {
			why = sides[i].why
		}
	}
	switch {
	case why != "" || run:
	case s.set:
		why = w.setTimes(s)
	default:
		why = w.singleTimes(s)
	}
	times := s.Times
	w.compare(s, base, sides, why)
	if !s.broken {
		w.pliesMeet(s, base, times)
	}
}

// isRun reports whether a seam joins edges that are sewn end to end: several on a
// side, or one that occurs more often than the other.
func (s *Seam) isRun() bool {
	if len(s.Sides[0].Edges) != 1 || len(s.Sides[1].Edges) != 1 {
		return true
	}
	a, b := s.Sides[0].Edges[0].Times(), s.Sides[1].Edges[0].Times()
	return a != b && a > 0 && b > 0
}

// singleTimes counts how often a seam of single edges is sewn, and faults
// edges that occur unequally often.
func (w *desk) singleTimes(s *Seam) (why string) {
	one, two := s.Sides[0].Edges[0], s.Sides[1].Edges[0]
	a, b := one.Edge, two.Edge
	if a == b {
		if a.Times%2 != 0 {
			w.faults.Wrong(s.Record.At, say.Of("garment.write-cut-2-or-name-another-edge"), say.Of("garment.is-cut-so-it-has-no-partner", s.Name, a.ref, times(a.Times))).
				Set(a.piece.Record.At, "", "cut: 2")
			return say.Of("garment.has-no-partner", a.ref)
		}
		s.Times = a.Times / 2
		return ""
	}
	if one.Times() != two.Times() {
		w.faults.Wrong(s.Record.At, say.Of("garment.an-edge-on-the-fold-is-not"), say.Of("garment.is-cut-but", s.Name, one.ref(), times(one.Times()), two.ref(), times(two.Times())))
		return say.Of("garment.its-edges-are-not-cut-equally-often")
	}
	s.Times = one.Times()
	return ""
}

func times(n int) string {
	switch n {
	case 0:
		return "nowhere"
	case 1:
		return "once"
	case 2:
		return "twice"
	}
	return say.Of("garment.times", n)
}

// runTimes is how often a whole run is sewn: a run of edges that each occur
// twice, left and right, is sewn twice, but one whose halves join at a fold is
// sewn once. A run with an overlap is one whole.
func runTimes(s *Seam) int {
	if s.closure().Given() {
		return 1
	}
	n := 0
	for side := range s.Sides {
		for _, u := range s.Sides[side].Edges {
			n = gcd(n, u.joinedTimes())
		}
	}
	return max(n, 1)
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// joinedTimes is how often an edge occurs when halves that meet at the fold
// count as one.
func (u EdgeUse) joinedTimes() int {
	if u.Piece.OnFold && u.Edge.meetsFold() {
		return u.Times() / 2
	}
	return u.Times()
}

// meetsFold reports whether the edge is the neighbour of the edge on the fold.
func (e *PieceEdge) meetsFold() bool {
	p := e.piece
	for k := range p.Edges {
		if &p.Edges[k] == e {
			n := len(p.Edges)
			return p.Edges[(k+1)%n].Fold || p.Edges[(k+n-1)%n].Fold
		}
	}
	return false
}

// side adds up one side of a seam.
func (w *derivation) side(s *Seam, i int, run bool, base string) tally {
	side := &s.Sides[i]
	id := w.Join(base, ".side-", ordinal[i])
	t := tally{times: s.Times}
	names := make([]string, len(side.Edges))
	terms := make([]figure.Term, len(side.Edges))
	for k, u := range side.Edges {
		names[k] = u.ref()
		terms[k] = w.sewn(u.Edge)
	}
	title, rule := say.Of("garment.length-of-the-edge"), say.Of("garment.sewn-length-of-the-edge")
	name := strings.Join(names, " + ")
	done := func(sum figure.Term, rule string) tally {
		side.Length = w.Figure(id, title, name, sum, mm, rule, figure.Derived)
		t.length, t.why = side.Length.Value.Number, side.Length.Value.Why
		return t
	}
	switch {
	case len(side.Edges) == 0:
		return done(w.Unknown(say.Of("garment.no-edge-is-named")), rule)
	case s.at && i == 1:
		return done(w.Of(say.Of("garment.what-is-sewn-on"), &s.Sides[0].Length), say.Of("garment.as-long-as-the-edges-that-are"))
	case s.at:
		return done(w.Sum(terms...), say.Of("garment.the-edges-that-are-sewn-nowhere-else"))
	case !run:
		return done(terms[0], rule)
	}
	for k, u := range side.Edges {
		terms[k] = terms[k].By(float64(u.Times()))
	}
	if s.Times > 1 {
		return done(w.Sum(terms...).Part(float64(s.Times)), say.Of("garment.edges-end-to-end-sum-of-sewn"))
	}
	return done(w.Sum(terms...), say.Of("garment.all-of-them-end-to-end-sum"))
}

// compare works out length, fullness and difference of the two sides.
func (w *derivation) compare(s *Seam, base string, t [2]tally, why string) {
	lap := s.closure()
	drawnUp := s.Record.Gather.Given() && lap.Given()
	sides := func() (a, b figure.Term) {
		both := [2]figure.Term{w.Of(say.Of("garment.first-edge"), &s.Sides[0].Length), w.Of(say.Of("garment.second-edge"), &s.Sides[1].Length)}
		if drawnUp { // what laps has nothing gathered to it
			both[s.lapSide()] = both[s.lapSide()].Minus(w.Length("overlap", lap))
		}
		return both[0], both[1]
	}
	a, b := sides()
	sewn, how := w.Least(a, b), say.Of("garment.the-shorter-edge-what-is-longer-is")
	if s.stretches() {
		sewn, how = [2]figure.Term{a, b}[1-s.bandSide], say.Of("garment.the-edge-that-the-band-is-stretched")
	}
	s.Length = w.Figure(w.Join(base, ".length"), "length", s.Name, sewn.Unless(why), mm, how, figure.Derived)
	w.sets(s)
	total, rule := w.Of("length", &s.Length).By(float64(s.Times)), say.Of("garment.length-times-times-it-is-sewn")
	if open, zip := w.openFor(s); zip {
		total, rule = total.Minus(open), say.Of("garment.length-times-times-it-is-sewn-what")
	}
	s.Total = w.Figure(w.Join(base, ".total"), say.Of("garment.total-length"), s.Name, total, measure.UnitM, rule, figure.Derived)
	a, b = sides()
	bare := [2]float64{t[0].length, t[1].length}
	if drawnUp {
		bare[s.lapSide()] -= lap.V.MM()
	}
	if bare[0] < bare[1] {
		a, b = b, a
	}
	full := a.Over(b)
	switch {
	case why != "":
		full = full.Unless(why)
	case !full.Known():
		full = full.Unless(say.Of("garment.one-edge-has-no-length"))
	}
	s.Full = w.Figure(w.Join(base, ".fullness"), "fullness", s.Name, full, measure.UnitRatio, say.Of("garment.longer-by-shorter"), figure.Derived)
	w.differ(s, base, t[0].length, t[1].length, why)
}

// sets counts a seam once for every cloth that is sewn by itself: a garment
// whose pieces are all cut in shell and lining has each seam twice.
func (w *derivation) sets(s *Seam) {
	if s.broken {
		return
	}
	sets := 0
	of := s.Sides[0].Edges[0].Piece.Of
	for k, part := range of {
		if sewnApart(part) && !slices.Contains(of[:k], part) && allCutIn(s, part) {
			sets++
		}
	}
	s.layers = max(sets, 1)
	s.Times *= s.layers
}

func allCutIn(s *Seam, part string) bool {
	for side := range s.Sides {
		for _, u := range s.Sides[side].Edges {
			if !cutIn(u.Piece, part) {
				return false
			}
		}
	}
	return true
}

func cutIn(p *Piece, part string) bool {
	for _, of := range p.Of {
		if of == part {
			return true
		}
	}
	return false
}

// sewnApart reports whether a part is sewn by itself: a fusing or interlining
// is sewn in with the cloth it backs.
func sewnApart(part string) bool {
	switch part {
	case "fusing", "interlining", "interfacing", "underlining", "backing":
		return false
	}
	return true
}

// closure is the overlap of a closure: how much longer the side that laps is meant to be.
func (s *Seam) closure() record.Length {
	switch {
	case s.laps:
		return record.Length{}
	case s.band != nil:
		return s.band.Record.Band.Lap
	}
	return s.Record.Overlap
}

// lapSide is the side of a closure that is longer by its overlap: a band, else the one
// that is longer by it.
func (s *Seam) lapSide() int { return s.lapOn }

// ratioClose is how far a fullness may be from the one declared, as gathers
// are drawn up to fit (common practice, no source).
const ratioClose = 0.05

// differ compares the sides with what the record means them to differ by.
func (w *derivation) differ(s *Seam, base string, a, b float64, why string) {
	r := s.Record
	tol := s.tolerance(w.tolerance)
	m := w.meant(s, a, b)
	w.Note(tol.Term(w.Pad, "tolerance", mm))
	s.Differ = w.Figure(w.Join(base, ".difference"), "difference", s.Name, m.off.Unless(why), mm, m.rule, figure.Practice)
	d := s.Differ.Value.Number
	s.Meets = s.Differ.Value.Known() && (m.near || d <= tol.V+1e-6)
	s.met = w.metAs(&s.Differ, say.With("garment.to", s.Sides[0].Length.Of, s.Sides[1].Length.Of), s, tol, s.Meets)
	if s.Differ.Value.Known() && !s.Meets {
		if s.unfoldedSide() {
			s.met.Mend = say.Of("garment.write-cut-1-on-fold")
			return
		}
		if p, n := s.tooFew(); p != nil {
			message, hint := s.tooFewWords(p, n)
			w.faults.Wrong(p.cutAt(), hint, message).Set(p.Record.At, "", "cut: "+strconv.Itoa(n))
			s.miscounted, s.met.Mend = true, hint
			return
		}
		if s.pleatsWrong() {
			s.met.Mend = say.Of("garment.correct-the-pleats-first")
			return
		}
		if w.tellRows(s) {
			return
		}
		hint, line := w.meetHint(s, a, b, tol.V)
		s.met.Mend = hint
		if ref, other := otherEdge(s); other != nil {
			s.met.Mend = say.Of("garment.did-you-mean-2", other.ref)
			w.faults.Wrong(r.At, say.Of("garment.did-you-mean-2", other.ref), s.Name+": "+s.apart(a, b, d, m.after, w.tape())+s.inARow()).
				InsteadAt(ref.At, ref.Piece+"."+ref.Edge, other.ref)
			other.meant = true
			return
		}
		f := w.faults.Wrong(r.At, hint, s.Name+": "+s.apart(a, b, d, m.after, w.tape())+s.inARow())
		if line != "" {
			s.seamWord(f, line)
		}
		if s.band != nil && !s.stretches() {
			f.Without(s.band.Record.Band.Length.At)
		}
	}
}

// inARow says how often the edges of a seam occur, where one of each is named and
// they occur unequally often; "" for others.
func (s *Seam) inARow() string {
	if !s.isRun() || len(s.Sides[0].Edges) != 1 || len(s.Sides[1].Edges) != 1 {
		return ""
	}
	a, b := s.Sides[0].Edges[0].Edge, s.Sides[1].Edges[0].Edge
	return say.Of("garment.is-there", a.ref, times(a.Times), b.ref, times(b.Times))
}

// apart says by how much the edges of a seam do not meet.
func (s *Seam) apart(a, b, d float64, after string, tape words.Tape) string {
	long, short := 0, 1
	lengths := [2]float64{a, b}
	laps := s.lapping()
	if a-laps[0] < b-laps[1] {
		long, short = 1, 0
	}
	if s.stretches() {
		edge, share := 1-s.bandSide, float64(s.band.Record.Band.Share.V)
		return say.Of("garment.is-of-is", s.Sides[s.bandSide].Length.Of, tape.About(lengths[s.bandSide]-laps[s.bandSide]), words.AppendNumber(nil, share, 2), s.Sides[edge].Length.Of, tape.About(share*lengths[edge]))
	}
	if g := s.Record.Gather; g.Given() {
		need := float64(g.V) * (lengths[short] - laps[short])
		return say.Of("garment.is-gathered-times-it-needs", s.Sides[long].Length.Of, tape.About(lengths[long]), words.AppendNumber(nil, float64(g.V), 2), tape.About(need))
	}
	if ease := s.wholeEase(); ease.Given() {
		if head := s.headSide(); head == short {
			return say.Of("garment.is-shorter-than-you-wrote-an-ease", s.Sides[head].Length.Of, tape.About(math.Abs(a-laps[0]-b+laps[1])), s.Sides[1-head].Length.Of, tape.About(math.Abs(ease.V.MM())), tape.Number(lengths[head]), tape.Number(lengths[1-head]))
		}
		return say.Of("garment.and-differ-by-you-wrote-an-ease", s.Sides[long].Length.Of, s.Sides[short].Length.Of, tape.About(math.Abs(a-laps[0]-b+laps[1])), tape.About(math.Abs(ease.V.MM())), tape.Number(lengths[long]), tape.Number(lengths[short]))
	}
	return say.Of("garment.is-longer-than", s.Sides[long].Length.Of, tape.About(d), s.Sides[short].Length.Of, after, tape.Number(lengths[long]), tape.Number(lengths[short]))
}

// A meaning is how far the sides of a seam are from differing by what the
// record means them to.
type meaning struct {
	off         figure.Term
	rule, after string // after tells in a fault what was allowed for
	near        bool   // gathers can be drawn up to fit
}

func (w *derivation) meant(s *Seam, a, b float64) meaning {
	r, lap := s.Record, s.closure()
	first, second := w.Of(say.Of("garment.first-edge"), &s.Sides[0].Length), w.Of(say.Of("garment.second-edge"), &s.Sides[1].Length)
	m := meaning{rule: say.Of("garment.longer-shorter-it-should-be-at-most")}
	laps := s.lapping()
	switch {
	case lap.Given() && s.lapSide() == 1:
		second = second.Minus(w.Length("overlap", lap))
		m.rule = say.Of("garment.second-edge-overlap-first-edge-without")
	case lap.Given():
		first = first.Minus(w.Length("overlap", lap))
		m.rule = say.Of("garment.first-edge-second-edge-overlap-without")
	}
	if lap.Given() {
		m.after = say.Of("garment.after-the-overlap-of", w.tape().About(lap.V.MM()))
	}
	if s.stretches() {
		return w.meantBand(s, [2]figure.Term{first, second}, m)
	}
	long, short := first, second
	if a-laps[0] < b-laps[1] {
		long, short = second, first
	}
	whole := s.wholeEase()
	switch {
	case whole.Given():
		if head := s.headSide(); head >= 0 { // a head is eased into its armhole, never the other way
			long, short = [2]figure.Term{first, second}[head], [2]figure.Term{second, first}[head]
		}
		m.off = long.Minus(short).Minus(w.Length("ease", whole).Size()).Size()
		m.rule += say.Of("garment.less-the-ease-meant")
		m.after = say.Of("garment.after-the-ease-of", w.tape().About(math.Abs(whole.V.MM())))
	case r.Gather.Given():
		g := float64(r.Gather.V)
		m.near = long.Known() && short.Known() && math.Abs(long.MM()/short.MM()-g) <= ratioClose+1e-9
		m.off = long.Minus(w.Written("gather", g, measure.UnitCount, r.Gather.At).Times(short)).Size()
		m.rule = say.Of("garment.longer-fullness-times-shorter-without")
		m.after = say.Of("garment.from-a-fullness-of", string(words.AppendNumber(nil, g, 2)))
	case lap.Given():
		m.off = first.Minus(second).Size()
	default:
		m.off = long.Minus(short)
	}
	return m
}

// wholeEase is the ease meant along the whole seam: as written, or that of all
// its stretches together.
func (s *Seam) wholeEase() record.Length {
	if s.Record.Ease.Given() || s.Record.Gather.Given() {
		return s.Record.Ease
	}
	var sum record.Length
	for i := range s.Record.Stretches {
		if ease := s.Record.Stretches[i].Ease; ease.Given() {
			sum = record.Length{V: sum.V + ease.V, At: ease.At}
		}
	}
	return sum
}

// mostGathered is how many times its length an edge is gathered into at the most:
// common practice, no source. Beyond it an edge was mistaken for another.
const mostGathered = 6

// meetHint says what would make the sides meet as the record means them to, and
// what is to be written of the seam, with the figure it then needs.
func (w *derivation) meetHint(s *Seam, a, b, tolerance float64) (hint, line string) {
	overlap := s.closure()
	lap, laps := overlap.V.MM(), s.lapping()
	long, short := math.Max(a-laps[0], b-laps[1]), math.Min(a-laps[0], b-laps[1])
	if s.band != nil {
		return say.Of("garment.leave-length-of-out-and-it-follows", s.band.Name), ""
	}
	ease := "ease: " + w.written(long-short)
	fullness := short > 0 && long/short >= 1.25
	gather := "gather: " + words.PlainNumber(long/short, 2)
	if side := s.tenfoldSide(a, b, tolerance); side >= 0 {
		return say.Of("garment.would-fit-at-ten-times", s.Sides[side].Length.Of), ""
	}
	switch r := s.Record; {
	case r.Gather.Given() && fullness && long/short > mostGathered:
		return say.Of("garment.is-another-edge-meant-this-one-is"), ""
	case r.Gather.Given() && fullness:
		return say.Of("garment.cut-it-that-long-or-write", gather), gather
	case r.Gather.Given():
		return say.Of("garment.change-an-edge-or-leave-gather-out"), ""
	case len(r.Stretches) > 0:
		return say.Of("garment.change-an-edge-or-the-ease-between"), ""
	case r.Ease.Given() && s.headSide() >= 0 && [2]float64{a, b}[s.headSide()] < [2]float64{b, a}[s.headSide()]:
		return say.Of("garment.make-the-sleeve-head-longer", w.written(long-short+math.Abs(r.Ease.V.MM()))), ""
	case r.Ease.Given() && long-short > tolerance:
		return say.Of("garment.change-an-edge-or-write", ease), ease
	case r.Ease.Given():
		return say.Of("garment.change-an-edge-or-leave-ease-out"), ""
	case overlap.Given() && math.Abs(a-b) <= tolerance:
		return say.Of("garment.change-an-edge-or-leave-overlap-out"), ""
	case overlap.Given() && a > b && math.Abs(a-b-lap) < lap/2:
		line = "overlap: " + w.written(a-b)
		return say.Of("garment.change-an-edge-or-write", line), line
	case overlap.Given(): // too far off for a slip in the overlap
		return say.Of("garment.make-the-longer-one-shorter", w.written(long-short)), ""
	case s.mayOverlap(a - b):
		line = "overlap: " + w.written(a-b)
		return say.Of("garment.let-its-ends-overlap-or-shorten-it", line, w.written(a-b)), line
	case !fullness && s.rollsOver(a, b):
		return say.Of("garment.it-is-rolled-over-the-other-and", ease), ease
	case fullness && long/short > mostGathered:
		return say.Of("garment.is-another-edge-meant-this-one-is"), ""
	case fullness:
		return say.Of("garment.shorten-the-longer-edge-or-gather-it", gather), gather
	}
	return say.Of("garment.shorten-the-longer-edge-by-or-ease", w.written(long-short), ease), ease
}

// tenfoldClose is by how much of its length a side may miss and still be taken for
// one that was written in another unit.
const tenfoldClose = 0.02

// tenfoldSide is the side that would meet the other if it were ten times as long, as one
// is whose numbers lack their cm; -1 where there is none.
func (s *Seam) tenfoldSide(a, b, tolerance float64) int {
	gather := max(1, float64(s.Record.Gather.V))
	for i := range 2 {
		lengths, laps := [2]float64{a, b}, s.lapping()
		lengths[i] *= 10
		one, other := lengths[0]-laps[0], lengths[1]-laps[1]
		long, short := max(one, other), min(one, other)
		if short > 0 && math.Abs(long-gather*short) <= max(tolerance, tenfoldClose*long) {
			return i
		}
	}
	return -1
}

// seamTakes tells what a seam consumes of each side, and faults an edge that
// has less.
func (w *derivation) seamTakes(s *Seam, base string) {
	titles := [2]string{say.Of("garment.allowance-used-first-edge"), say.Of("garment.allowance-used-second-edge")}
	wide, said, none := say.Of("garment.finished-width-of-the-seam"), say.Of("garment.as-the-seam-type-says"), say.Of("garment.the-seam-type-is-not-known")
	if s.kind == nil || s.err != nil {
		for i := range s.Gives {
			s.Gives[i] = w.Figure(w.Join(base, ".takes-", ordinal[i]), titles[i], s.Name, w.Unknown(none), mm, said, figure.Derived)
		}
		s.Width = w.Figure(w.Join(base, ".width"), wide, s.Name, w.Unknown(none), mm, said, figure.Derived)
		return
	}
	m := seamMeasures(s)
	for i := range s.Gives {
		rule := s.kind.gives(i)
		s.Gives[i] = w.Figure(w.Join(base, ".takes-", ordinal[i]), titles[i], s.Name, w.formula(rule, m), mm, w.prettyRule(rule), s.kind.Source)
	}
	rule := s.kind.SeamType.Width
	s.Width = w.Figure(w.Join(base, ".width"), wide, s.Name, w.formula(rule, m), mm, w.prettyRule(rule), s.kind.Source)
	w.enough(s)
	if !s.broken && !s.set {
		w.evenPlies(s)
	}
}

// prettyRule writes a seam type's formula as a rule.
func (w *derivation) prettyRule(e trade.Expr) string { return w.t.pretty(e) }

// enough faults edges with less allowance than their seam takes.
func (w *derivation) enough(s *Seam) {
	for i := range s.Sides {
		for u := range s.edgesOn(i) {
			e := u.Edge
			if e.Fold || e.line != nil || s.gives[i] <= e.allow+1e-6 {
				continue
			}
			takes := say.Of("garment.a-side", w.tape().Exact(s.gives[i]))
			if math.Abs(s.gives[0]-s.gives[1]) > 1e-6 {
				takes = w.tape().Exact(s.gives[i]) + [2]string{say.Of("garment.of-its-first-edge"), say.Of("garment.of-its-second-edge")}[i]
			}
			hint := say.Of("garment.allowance-at-the-edge-or-a-narrower-2", w.writtenUp(s.gives[i]))
			if e.rule == slitRule {
				hint = say.Of("garment.write-panels-2-for-a-full-circle")
			}
			f := w.faults.Wrong(s.Record.At, hint, say.Of("garment.it-uses-has", s.Name, takes, e.ref, w.tape().Exact(e.allow)))
			if e.rule != slitRule {
				w.allowanceOf(f, e, s.gives[i])
			}
		}
	}
}

// pliesUneven is how far the allowances of the two sides of a seam may differ before
// it is told, mm (common practice, no source).
const pliesUneven = 1

// evenPlies warns of edges sewn to each other, of a type that takes as much of both,
// whose allowances differ: laid edge to edge their sewing lines would not meet.
func (w *derivation) evenPlies(s *Seam) {
	if w.evenOf(s, 0) || w.evenOf(s, 1) {
		return
	}
	if math.Abs(s.gives[0]-s.gives[1]) > 1e-6 || s.kind.Turns {
		return
	}
	a, b := s.Sides[0].Edges[0].Edge, s.Sides[1].Edges[0].Edge
	if a.rule == slitRule || b.rule == slitRule || a == b || math.Abs(a.allow-b.allow) <= pliesUneven ||
		min(a.allow-s.gives[0], b.allow-s.gives[1]) < -1e-6 { // too little of it has been told
		return
	}
	for side := range s.Sides {
		for _, u := range s.Sides[side].Edges {
			if u.Edge.allow != s.Sides[side].Edges[0].Edge.allow {
				return
			}
		}
	}
	w.faults.LookAgain(s.Record.At, say.Of("garment.give-both-as-much-or-pin-line"),
		say.Of("garment.has-of-allowance", s.Name, a.ref, w.tape().Exact(a.allow), b.ref, w.tape().Exact(b.allow)))
}
