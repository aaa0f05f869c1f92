package garment

import (
	"math"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/sewn"
	"hembook/internal/words"
)

// A doubter looks at a garment that is all derived for what nobody would mean.
type doubter struct {
	*opener
	t      *Tailor
	b      *record.Build
	unsewn []sewn.Snag // what is told of already
}

// tellUnlikely warns of what can be cut and sewn as it is written, and would ruin the
// cloth if it was meant otherwise.
func (w *doubter) tellUnlikely() {
	w.tellUnfolded()
	w.rawSlits()
	w.placketsBehind()
	if w.b.NotUnit || w.drawnInMM() {
		return
	}
	w.zipsFit()
	w.shortZips()
	w.longTapes()
	w.shortTapes()
	w.draftedFar()
	w.finishedTwice()
	w.hemmedInSeam()
	w.holesFarInside()
	w.zipsOpen()
	w.liningsSlip()
	for _, p := range w.g.Pieces {
		if !p.sound() {
			continue
		}
		w.smallPiece(p)
		w.onItsCloth(p)
		w.stitchedWithin(p)
		w.pointsFar(p)
		w.backedAlone(p)
		w.alikeInPairs(p)
		w.offGrain(p)
	}
	w.tellSmall()
	w.stitchedShut()
	w.buttonsOnEdge()
	w.buttonsClose()
	w.passesHead()
	w.passesHips()
	w.bandsStretch()
	w.bandsLonger()
	w.unstretching()
	w.needles()
	w.buttonsByTenth()
	w.holesWithButtons()
}

// doubt warns of a length, and asks whether a tenth of it was meant where that is
// likely; else it says something else.
func (w *doubter) doubt(l record.Length, likely bool, otherwise, says string) {
	f := w.faults.LookAgain(l.At, otherwise, says)
	if likely {
		now := l.V.MM() / 10
		w.offer(f, l, now)
	}
}

// offer proposes another length in the place of one.
func (w *doubter) offer(f *fault.Fault, l record.Length, now float64) {
	f.Hint = say.Of("garment.did-you-mean-if-not-leave-it", w.tape().Exact(now))
	f.InsteadAt(l.At, "", w.written(now))
}

// zipOver is how much longer a zip may be than what it opens, mm: its ends and tapes
// (common practice, no source).
const zipOver = 15

// leastZip is how long a zip of a garment seldom is less than, mm (common practice, no source).
const leastZip = 60

// shortZips asks about zips that are so short that their length was meant in another unit.
func (w *doubter) shortZips() {
	for i := range w.notions {
		n := &w.notions[i]
		if long := n.Length.V.MM(); isZip(n) && n.Length.Given() && long < leastZip {
			w.tenfold(n.Length, say.Of("garment.is-long-little-for-a-zip", n.Name.V, w.tape().Exact(long)))
		}
	}
}

// longTimes is how many times as long as the edge it lies along a notion seldom is (common
// practice, no source).
const longTimes = 4

// longTapes asks about tapes and the like that are far longer than what they lie along.
func (w *doubter) longTapes() {
	for i := range w.notions {
		n := &w.notions[i]
		if !n.Length.Given() || !n.Along.Given() || n.SetOut() || !n.InLengths() {
			continue
		}
		u, ok := w.use(n.Along.V)
		if long := n.Length.V.MM(); ok && u.Edge.sewn > 0 && long > longTimes*u.Edge.sewn*float64(max(u.Edge.Times, 1)) {
			w.doubt(n.Length, long/10 > u.Edge.sewn/2, say.Of("garment.is-the-unit-right-if-so-leave"), say.Of("garment.is-long-and-is", n.Name.V, w.tape().Exact(long), u.Edge.ref, w.tape().About(u.Edge.sewn)))
		}
	}
}

// holesFarInside asks about buttonholes that lie ten times as far inside their edge as the
// buttons do inside theirs.
func (w *doubter) holesFarInside() {
	for i := range w.notions {
		n := &w.notions[i]
		own, on := n.Along.V.Inside.MM(), n.HolesOn.V.Inside.MM()
		if !n.HolesOn.Given() || own <= 0 || on < longTimes*own || !n.HolesOn.V.Part.Whole() {
			continue
		}
		line := w.written(own) + " inside " + n.HolesOn.V.Piece + "." + n.HolesOn.V.Edge
		w.faults.LookAgain(n.HolesOn.At, say.Of("garment.did-you-mean-if-not-leave-it", line), say.Of("garment.the-buttonholes-of-lie-inside-their", n.Name.V, w.tape().Exact(on), w.tape().Exact(own))).
			InsteadAt(n.HolesOn.At, "", line)
	}
}

// zipsFit warns of zips that are longer or shorter than what they open.
func (w *doubter) zipsFit() {
	s := w.g.Sewn
	for _, slit := range w.slits {
		if slit.Layer != outerLayer || slit.By < 0 {
			continue
		}
		for i := range w.notions {
			n := &w.notions[i]
			if isZip(n) && n.Length.Given() && n.Name.V == s.Plan.Closures[slit.By].Name {
				w.zipFits(n, slit.Length)
			}
		}
	}
}

// zipFits warns of a zip that is longer or shorter than its opening, mm. One that is
// shorter than any is asked about already.
func (w *doubter) zipFits(n *record.Notion, opening float64) {
	long := n.Length.V.MM()
	fits := say.Of("garment.a-zip-of-fits", w.tape().About(opening))
	switch {
	case long > opening+zipOver:
		tenth := long / 10
		w.doubt(n.Length, tenth <= opening && tenth > opening/5, say.Of("garment.a-longer-one-needs-more-of-the", fits),
			say.Of("garment.is-long-its-opening", n.Name.V, w.tape().Exact(long), w.tape().About(opening)))
	case long < opening-zipOver && long >= leastZip:
		w.faults.LookAgain(n.Length.At, say.Of("garment.or-open-no-more-than-of-the", fits, w.tape().Exact(long)),
			say.Of("garment.is-long-its-opening-of-it-stays", n.Name.V, w.tape().Exact(long), w.tape().About(opening), w.tape().About(opening-long)))
	}
}

// A smallKind is a kind of small piece, with how wide and how long one seldom is
// beyond, mm (common practice, no source).
type smallKind struct {
	words      []string
	wide, long float64
}

var smallKinds = []smallKind{
	{[]string{"cuff"}, 250, 700},
	{[]string{"band", "waistband", "neckband", "belt"}, 250, math.Inf(1)},
	{[]string{"collar", "stand"}, 250, 900},
	{[]string{"pocket", "patch"}, 400, 500},
	{[]string{"flap", "tab", "loop", "placket", "welt", "strap", "tie"}, 200, math.Inf(1)},
}

// smallPiece warns of a side of a rectangle that is far too long for what the piece is
// called. A side that meets what it is sewn to is not doubted.
func (w *doubter) smallPiece(p *Piece) {
	r := p.Record.Rectangle
	if r == nil || len(p.Edges) != 4 {
		return
	}
	for _, kind := range smallKinds {
		if !words.AnyOf(p.Name, kind.words) {
			continue
		}
		sides := [2]record.Length{r.Across, r.Along}
		fits := func(a, b float64) bool { return min(a, b) <= kind.wide && max(a, b) <= kind.long }
		if fits(sides[0].V.MM(), sides[1].V.MM()) {
			return
		}
		longer := 0
		if sides[1].V.MM() > sides[0].V.MM() {
			longer = 1
		}
		doubted, most, tenfold := longer, kind.long, false
		if sides[1-longer].V.MM() > kind.wide {
			doubted, most = 1-longer, kind.wide
		}
		for i := range sides {
			if e := &p.Edges[i]; fits(sides[i].V.MM()/10, sides[1-i].V.MM()) && (e.seam == nil || !e.seam.Meets) {
				doubted, tenfold = i, true
			}
		}
		l := sides[doubted]
		f := w.faults.LookAgain(r.At, say.Of("garment.is-the-unit-right-if-so-leave"), say.Of("garment.is-is-a-lot-for-one-it", p.Name, say.Of("garment.by", w.tape().Exact(sides[0].V.MM()), w.tape().Exact(sides[1].V.MM())), w.tape().Exact(l.V.MM()), w.tape().About(most)))
		if tenfold {
			now := [2]float64{sides[0].V.MM(), sides[1].V.MM()}
			now[doubted] /= 10
			line := "[" + w.written(now[0]) + ", " + w.written(now[1]) + "]"
			f.Hint = say.Of("garment.did-you-mean-rectangle-if-not-leave", line)
			f.InsteadAt(r.At, "", line)
		}
		return
	}
}

// unitTimes is how many times as wide as its cloth a piece is, at least, that was drawn
// in another unit: our own choice, no source.
const unitTimes = 2

// drawnInMM warns of a record in another unit, several of whose pieces are far wider
// than their cloth, and would not be in millimetres.
func (w *doubter) drawnInMM() bool {
	if w.t.room.UnitOf(w.b) == measure.UnitMM {
		return false
	}
	var wide []string
	for _, p := range w.g.Pieces {
		if c := w.clothOf(p); p.sound() && c != nil && c.Width.Given() && min(p.Width.Value.Number, p.Height.Value.Number) > unitTimes*UsableWidth(c) {
			wide = append(wide, say.Of("garment.is-2", p.Name, w.tape().About(p.Width.Value.Number)))
		}
	}
	if len(wide) < 2 {
		return false
	}
	at := w.b.Units.At
	if !at.Given() {
		at = w.b.Name.At
	}
	w.faults.LookAgain(at, say.Of("garment.were-they-drawn-in-mm-write-units"), say.Of("garment.the-pieces-are-far-wider-than-their", meant.List(wide[:2], "and"))).
		InsteadAt(w.b.Units.At, w.b.Units.V, "mm")
	return true
}

// onItsCloth warns of a piece that no cloth of its own is wide enough for, however it
// is laid with its grain.
func (w *doubter) onItsCloth(p *Piece) {
	cloth := w.clothOf(p)
	if cloth == nil || cloth.Narrow() || !p.Width.Value.Known() || p.Ring != nil {
		return
	}
	across, along := p.Width.Value.Number, p.Height.Value.Number
	switch p.Grain {
	case "across":
		across, along = along, across
	case "any":
		across = min(across, along)
	case "bias":
		return
	}
	if usable := UsableWidth(cloth); across > usable+1 {
		hint := say.Of("garment.cut-it-in-parts-or-take-a")
		if along <= usable {
			hint = say.Of("garment.turn-it-with-grain-or-cut-it")
		}
		at := p.Record.At
		if r := p.Record.Rectangle; r != nil {
			at = r.Across.At
		}
		w.faults.LookAgain(at, hint, say.Of("garment.is-wide-as-cut-its-cloth-has", p.Name, w.tape().About(across), w.tape().About(usable)))
	}
}

// stitchedWithin warns of pleats that are stitched down further than their piece goes.
func (w *doubter) stitchedWithin(p *Piece) {
	least, most := p.Outline.Bounds()
	reach := max(most.X-least.X, most.Y-least.Y)
	for i := range p.Record.Pleats {
		down := p.Record.Pleats[i].Stitched
		if s := (record.Length{V: down.V.By, At: down.At}); s.V.MM() > reach {
			w.doubt(s, true, "", say.Of("garment.the-pleats-of-are-stitched-down-and", p.Name, p.Record.Pleats[i].Edge.V, w.tape().Exact(s.V.MM()), w.tape().About(reach)))
		}
	}
}

// How much farther out a point lies than all others of its outline, and how far at
// least, mm, for a digit too many to be likely: our own choice, no source.
const (
	farTimes = 8
	farLeast = 1500
)

// pointsFar warns of a corner with a digit too many.
func (w *doubter) pointsFar(p *Piece) {
	o := p.Record.Outline
	if o == nil || o.File.Given() || len(o.Edges) < 4 {
		return
	}
	points := []record.Val[record.XY]{o.From}
	for i := range o.Edges {
		if o.Edges[i].To.Given() && o.Edges[i].To.V != o.From.V {
			points = append(points, o.Edges[i].To)
		}
	}
	for i := range points {
		rest := [2]float64{}
		for k := range points {
			if k != i {
				rest[0], rest[1] = max(rest[0], math.Abs(points[k].V.X)), max(rest[1], math.Abs(points[k].V.Y))
			}
		}
		far := func(v, rest float64) bool {
			return math.Abs(v) >= farLeast && math.Abs(v) >= farTimes*rest && math.Abs(v)/10 <= 1.2*rest
		}
		now := points[i].V
		if far(now.X, rest[0]) {
			now.X /= 10
		}
		if far(now.Y, rest[1]) {
			now.Y /= 10
		}
		if now != points[i].V {
			at := "[" + w.written(now.X) + ", " + w.written(now.Y) + "]"
			w.faults.LookAgain(points[i].At, say.Of("garment.did-you-mean-2", at), say.Of("garment.this-corner-of-lies-far-from-all", p.Name)).InsteadAt(points[i].At, "", at)
		}
	}
}

// backedAlone warns of a piece that is sewn and cut in nothing but what backs another
// cloth.
func (w *doubter) backedAlone(p *Piece) {
	if len(p.Record.Of) == 0 || len(w.uses) == 0 || !sewnApart(w.uses[0].Name.V) {
		return
	}
	for _, of := range p.Record.Of {
		if sewnApart(of.V) {
			return
		}
	}
	for k := range p.Edges {
		if p.Edges[k].seam == nil {
			continue
		}
		both := "[" + w.uses[0].Name.V + ", " + p.Record.Of[0].V + "]"
		w.faults.LookAgain(p.Record.Of[0].At, say.Of("garment.did-you-mean-of", both), say.Of("garment.is-cut-in-alone-which-only-backs", p.Name, p.Record.Of[0].V)).
			Set(p.Record.At, "", "of: "+both)
		return
	}
}

// mostButton is how wide a button is that is not doubted already as it is read, mm.
const mostButton = 75

// buttonsOnEdge warns of buttons with buttonholes that hang over the edge they are set
// out beside.
func (w *doubter) buttonsOnEdge() {
	for i := range w.notions {
		n := &w.notions[i]
		use, ok := w.use(n.Along.V)
		if !ok || !n.NeedsHoles() || !n.SetOut() || use.Edge.line != nil || use.Edge.joinsOn() {
			continue
		}
		inside, half := n.Along.V.Inside.MM(), n.Size.V.MM()/2
		stand := half + standBeyond
		switch {
		case inside >= stand:
			w.farInside(n, use.Edge)
		case inside == 0:
			w.faults.LookAgain(n.Along.At, say.Of("garment.say-how-far-inside-as-along-inside", w.writtenUp(max(stand, 15)), use.Edge.ref), say.Of("garment.half-of-each-hangs-over", n.Name.V, use.Edge.ref))
		case half > mostButton/2: // more is told where it is written
		case inside < half:
			w.faults.LookAgain(n.Along.At, say.Of("garment.at-least-inside-or-smaller-buttons", w.writtenUp(stand)), say.Of("garment.of-on-a-line-inside-over-it", n.Name.V, w.tape().Exact(n.Size.V.MM()), w.tape().Exact(inside), use.Edge.ref, ofName(n.Name.V, "hangs", "hang")))
		default:
			w.faults.LookAgain(n.Along.At, say.Of("garment.at-least-inside-half-the-button-and", w.writtenUp(stand)), say.Of("garment.wide-only-inside", n.Name.V, w.tape().Exact(n.Size.V.MM()), ofName(n.Name.V, "lies", "lie"), w.tape().Exact(inside), use.Edge.ref))
		}
	}
}

// joinsOn reports whether an edge is sewn to what goes on beyond it, and not only to
// what lies behind it, as a facing does.
func (e *PieceEdge) joinsOn() bool {
	if e.seam == nil || e.seam.turns() {
		return false
	}
	other := e.seam.Sides[1-e.side].Edges // none where the seam could not be read whole
	return len(other) == 0 || !liesBehind(other[0].Piece.Name)
}

// seldomInside is how far inside the edge of a front buttons seldom lie beyond, mm: of
// a double-breasted front the outer row lies so far (common practice, no source).
const seldomInside = 120

func (w *doubter) farInside(n *record.Notion, e *PieceEdge) {
	inside := n.Along.V.Inside.MM()
	if inside <= seldomInside {
		return
	}
	f := w.faults.LookAgain(n.Along.At, say.Of("garment.is-the-unit-right-if-so-leave"), say.Of("garment.inside-is-a-lot-for", w.tape().Exact(inside), e.ref, n.Name.V))
	now := inside / 10
	if now > seldomInside {
		now /= 10
	}
	if n.Along.V.Part.Whole() && now <= seldomInside {
		line := w.written(now) + " inside " + n.Along.V.Piece + "." + n.Along.V.Edge
		f.Hint = say.Of("garment.did-you-mean-2", line)
		f.InsteadAt(n.Along.At, "", line)
	}
}
