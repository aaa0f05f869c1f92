package garment

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"hembook/internal/figure"
	"hembook/internal/meant"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/sewn"
	"hembook/internal/words"
)

// An Opening is one way into the garment or out of it: its neck, an armhole, a hem.
type Opening struct {
	Name   string        // "armhole"
	Of     string        // what lies round it: "back.armhole + front.armhole"
	Length figure.Figure // all round, zips and buttons closed
}

// A Slit is what a zip or buttons open and close, or what the end of a seam leaves open.
type Slit struct {
	Name   string // "centre back"
	By     string // "zip"; "" where nothing closes it
	Of     string // the edges along it
	Length figure.Figure
}

// A LooseSide is an edge that is joined to nothing and made neat by nothing.
type LooseSide struct {
	Edge   string // "back.neck"
	Part   bool   // a part of it only
	Behind bool   // it lies behind another part of its layer
}

// openingWords say what an opening is called by the words in the names of its edges
// and pieces (terms of the trade).
var openingWords = []struct{ word, called string }{
	{"neck", "neck"}, {"neckline", "neck"}, {"neckband", "neck"}, {"collar", "neck"}, {"lapel", "neck"},
	{"armhole", "armhole"}, {"armscye", "armhole"}, {"scye", "armhole"},
	{"wrist", "wrist"}, {"cuff", "wrist"}, {"waist", "waist"}, {"waistband", "waist"}, {"hem", "hem"},
}

// An opener names the ways in and out of the outer layer.
type opener struct {
	*index
	opens []sewn.Opening
	slits []sewn.Slit // what closures open and close
	// planned says that the record has an order of work
	planned bool
}

// openings lists the ways in and out, and what is closed and loose.
func (w *opener) openings() {
	s := w.g.Sewn
	ids := words.NamesFor(8)
	w.opens, w.slits = s.Openings(outerLayer), s.Slits()
	for _, o := range w.opens {
		name := w.openingName(o.Spans)
		of, t := w.roundOpening(&o)
		rule := say.Of("garment.sewn-length-of-the-edges-round-it")
		if o.Lap > 0 || len(w.lapsBeyond(o.Shut)) > 0 {
			rule += say.Of("garment.less-what-the-closure-laps")
		}
		w.lapsAs(o.Lap)
		w.g.Openings = append(w.g.Openings, Opening{name, of,
			w.Figure(w.Join("opening.", ids.Unique(name)), say.Of("garment.opening-all-round"), name, t, mm, rule, figure.Derived)})
	}
	slices.SortStableFunc(w.g.Openings, func(a, b Opening) int { return openingRank(a.Name) - openingRank(b.Name) })
	for _, c := range w.slits {
		if c.Layer == outerLayer {
			w.slit(&c, ids)
		}
	}
	w.g.Apart = append(w.g.Apart, w.apartUnset(s.Apart())...)
	w.tellFacings()
	w.loose()
}

// openingRank orders openings from the top down.
func openingRank(name string) int {
	order := []string{"neck", "armhole", "wrist", "waist", "hem"}
	if i := slices.Index(order, name); i >= 0 {
		return i
	}
	return len(order)
}

// openingName is what an opening is called: what most of it is.
func (w *opener) openingName(spans []sewn.Span) string {
	var names []string
	length := map[string]float64{}
	for _, sp := range spans {
		name := w.spanName(sp)
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
		length[name] += sp.Length()
	}
	slices.SortStableFunc(names, func(a, b string) int {
		switch {
		case length[a] > length[b]+1e-6:
			return -1
		case length[b] > length[a]+1e-6:
			return 1
		}
		return strings.Compare(a, b)
	})
	return names[0]
}

// spanName is what a stretch of an edge is called: what it, its level or its piece
// is named after, or the edges that its piece is sewn to, as a waist is of a band.
func (w *opener) spanName(sp sewn.Span) string { return w.edgeAt(sp.Side).Opens() }

// opensAt is where an edge bounds an opening: itself, or the fold of the band whose inner
// edge it is.
func (e *PieceEdge) opensAt() string {
	if e.AtFold() {
		return e.piece.Name + ".fold"
	}
	return e.ref
}

// Opens is what an opening at an edge is called.
func (e *PieceEdge) Opens() string {
	finish := ""
	if e.finish != nil {
		finish = e.finish.Name
	}
	for _, name := range [...]string{e.Name, e.Level, finish, e.piece.Name} {
		if called := openingCalled(name); called != "" {
			return called
		}
	}
	if e.Level != "" {
		return words.Plain(e.Level)
	}
	for _, name := range sewnTo(e.piece) {
		if called := openingCalled(name); called != "" {
			return called
		}
	}
	return e.Name
}

// openingCalled is what an opening is called by a word in a name; "" for none.
func openingCalled(name string) string {
	rank := len(openingWords)
	for word := range strings.FieldsSeq(words.Plain(name)) {
		word = words.Stem(word)
		for i := range rank {
			if openingWords[i].word == word {
				rank = i
				break
			}
		}
	}
	if rank == len(openingWords) {
		return ""
	}
	return openingWords[rank].called
}

// sewnTo names the levels of the edges that a piece is sewn to.
func sewnTo(p *Piece) []string {
	var out []string
	for k := range p.Edges {
		e := &p.Edges[k]
		if e.seam == nil {
			continue
		}
		for _, u := range e.opposite() {
			if u.Piece != p && u.Edge.Level != "" {
				out = append(out, u.Edge.Level)
			}
		}
	}
	return out
}

// roundOpening is how far it is round an opening, and what lies there.
func (w *opener) roundOpening(o *sewn.Opening) (of string, t figure.Term) {
	var terms []figure.Term
	var names []string
	for _, each := range w.whole(o.Spans) {
		e := w.edgeAt(each.Side)
		if at := e.opensAt(); !slices.Contains(names, at) {
			names = append(names, at)
		}
		terms = append(terms, each.term)
	}
	t = w.SumOr(say.Of("garment.no-edge-is-open-there"), terms)
	if o.Lap > 0 {
		t = t.Minus(w.Found("lap", o.Lap, mm))
	}
	for _, l := range w.lapsBeyond(o.Shut) {
		n := l.notion
		lap := w.Length(w.Join("beyond the ", n.Name.V), n.Inside())
		if l.times > 1 {
			lap = lap.By(float64(l.times))
		}
		t = t.Minus(lap)
	}
	return strings.Join(names, " + "), t
}

// lapsAs notes the overlaps of seams that a closure laps by.
func (w *opener) lapsAs(lap float64) {
	for i := range w.g.Sewn.Plan.Seams {
		if l := w.seamCalled(i).closure(); lap > 0 && l.Given() && math.Abs(l.V.MM()-lap) < 1e-6 {
			w.Remark(figure.Written, "overlap", figure.AsItStands, l.At, "")
		}
	}
}

// A lapBeyond is what lies beyond the line that a notion is set out on, as often as it
// laps where closures are shut.
type lapBeyond struct {
	notion *record.Notion
	times  int
}

// lapsBeyond lists what laps where closures are shut, in the order of the record.
func (w *opener) lapsBeyond(shut []sewn.JoinID) (out []lapBeyond) {
	ends := map[*record.Notion]int{}
	for _, id := range shut {
		j := &w.g.Sewn.Joins[id]
		for _, side := range [...]sewn.SideID{j.A.Side, j.B.Side} {
			if n := w.lineBeside(w.edgeAt(side)); n != nil {
				ends[n]++
			}
		}
	}
	for i := range w.notions {
		if n := &w.notions[i]; ends[n] > 0 {
			out = append(out, lapBeyond{n, ends[n]})
		}
	}
	return out
}

// A spanTerm is a stretch of an edge with its length, as often as it is there.
type spanTerm struct {
	sewn.Span
	term figure.Term
}

// whole puts stretches of one edge together.
func (w *opener) whole(spans []sewn.Span) []spanTerm {
	type part struct {
		edge *PieceEdge
		long float64
	}
	var parts []part
	var first []sewn.Span
	var times []int
	for _, sp := range spans {
		e := w.edgeAt(sp.Side)
		k := slices.IndexFunc(parts, func(p part) bool { return p.edge == e && p.long-sp.Length() < 1e-6 && sp.Length()-p.long < 1e-6 })
		if k < 0 {
			k = len(parts)
			parts, first, times = append(parts, part{e, sp.Length()}), append(first, sp), append(times, 0)
		}
		times[k]++
	}
	out := make([]spanTerm, len(parts))
	for k, p := range parts {
		t := w.sewn(p.edge)
		if w.g.Sewn.Sides[first[k].Side].Closed-p.long > 1e-6 {
			w.Note(t)
			t = w.Found(say.Of("garment.part-of", p.edge.ref), p.long, mm)
		}
		out[k] = spanTerm{first[k], t.By(float64(times[k]))}
	}
	return out
}

func (w *opener) slit(c *sewn.Slit, ids *words.Names) {
	if c.By < 0 {
		w.leftOpen(c, ids)
		return
	}
	s := w.g.Sewn
	var spans []sewn.Span
	var edges []string
	for _, id := range c.Joins {
		spans = append(spans, s.Joins[id].A)
		if ref := w.edgeAt(s.Joins[id].A.Side).ref; !slices.Contains(edges, ref) {
			edges = append(edges, ref)
		}
	}
	var terms []figure.Term
	for _, each := range w.whole(spans) {
		terms = append(terms, each.term)
	}
	for i := range w.notions { // one longer than its edge goes on over the corner
		if n := &w.notions[i]; n.Name.V == s.Plan.Closures[c.By].Name && n.Length.Given() {
			w.Note(w.Length(n.Name.V, n.Length))
		}
	}
	e := w.edgeAt(spans[0].Side)
	if own := s.Plan.Closures[c.By].Edge; edges[0] != refName(own) && w.edgeAt(s.Joins[c.Joins[0]].B.Side).ref == refName(own) {
		e = w.edgeAt(s.Joins[c.Joins[0]].B.Side) // the one that the record names
	}
	name := slitName(e.piece.Name, e.Name)
	w.g.Slits = append(w.g.Slits, Slit{name, s.Plan.Closures[c.By].Name, strings.Join(edges, " + "),
		w.Figure(w.Join("slit.", ids.Unique(name)), say.Of("garment.opens-for"), name, w.Sum(terms...), mm, say.Of("garment.length-of-what-the-closure-joins"), figure.Derived)})
}

// leftOpen is a slit that nothing closes; where it is there twice, as at two sleeves,
// both have their figure.
func (w *opener) leftOpen(c *sewn.Slit, ids *words.Names) {
	a, b := w.edgeAt(c.Open[0].Side), w.edgeAt(c.Open[1].Side)
	of := a.ref
	if b.ref != a.ref {
		of += " + " + b.ref
	}
	name := w.seamCalled(c.Seam).Name
	w.g.Slits = append(w.g.Slits, Slit{name, "", of,
		w.Figure(w.Join("slit.", ids.Unique(name)), say.Of("garment.left-open-for"), name, w.Least(w.sewn(a), w.sewn(b)), mm, say.Of("garment.the-shorter-of-the-two-edges-beyond"), figure.Derived)})
}

// slitName says where a slit lies: "centre back" of the edge centre of a back.
func slitName(piece, edge string) string {
	plain := words.Plain(edge)
	inPiece := strings.Fields(words.Plain(piece))
	switch {
	case slices.Contains(inPiece, plain):
		return plain
	case plain == "centre" || plain == "center":
		for _, face := range []string{"front", "back"} {
			if slices.Contains(inPiece, face) {
				return plain + " " + face
			}
		}
	case strings.Contains(plain, "front") || strings.Contains(plain, "back"):
		return plain
	}
	return words.Plain(piece) + " " + plain
}

// loose lists what is joined to nothing and finished by nothing, of pieces that are
// joined somewhere, and warns of what lies outside.
func (w *opener) loose() {
	s := w.g.Sewn
	behind := s.Behind()
	free := s.Loose()
	var outer []*PieceEdge
	for _, sp := range free {
		e := w.edgeAt(sp.Side)
		if slices.Contains(w.g.Apart, e.piece.Name) || e.turnedOut() || e.AtFold() || w.turnedIn(e, sp, free, behind) {
			continue
		}
		l := LooseSide{Edge: e.ref, Part: sp.Length() < s.Sides[sp.Side].Closed-1e-6, Behind: behind[s.Sides[sp.Side].Copy]}
		if !slices.Contains(w.g.Loose, l) {
			w.g.Loose = append(w.g.Loose, l)
			if !l.Behind && !l.Part && !foldedBand(e.piece) {
				outer = append(outer, e)
			}
		}
	}
	w.tellLoose(outer)
}

// turnedIn reports whether a loose edge is one of two plies of one form, one of which
// lies behind the other, that are turned in at their loose edges together: the ends of
// a band.
func (w *opener) turnedIn(e *PieceEdge, sp sewn.Span, free []sewn.Span, behind []bool) bool {
	s := w.g.Sewn
	own := s.Sides[sp.Side].Copy
	layer := s.Copies[own].Layer
	return slices.ContainsFunc(free, func(o sewn.Span) bool {
		if math.Abs(o.Length()-sp.Length()) >= 1e-6 || s.Copies[s.Sides[o.Side].Copy].Layer != layer {
			return false
		}
		if behind[own] == behind[s.Sides[o.Side].Copy] {
			return false
		}
		other := w.edgeAt(o.Side)
		twin := other.piece.coverOf() == e.piece.Name || e.piece.coverOf() == other.piece.Name
		return twin && other.Name == e.Name
	})
}

// bandNames are words for strips that are folded along their middle and turned in at
// their ends, of which a record names the edge alone that is sewn (terms of the trade).
var bandNames = []string{"band", "waistband", "neckband", "cuff", "collar", "stand", "belt"}

// foldedBand reports whether a piece is such a strip.
func foldedBand(p *Piece) bool {
	joined := 0
	for k := range p.Edges {
		if p.Edges[k].seam != nil {
			joined++
		}
	}
	return joined == 1 && words.AnyOf(p.Name, bandNames)
}

// OpeningWords tells the openings of a garment in a sentence: "four openings: neck,
// two armholes, hem; one slit at centre back".
func (g *Garment) OpeningWords() string {
	if len(g.Openings) == 0 {
		return ""
	}
	var names []string
	for _, o := range g.Openings {
		names = append(names, o.Name)
	}
	out := many(len(g.Openings), "opening") + ": " + counted(names)
	if len(g.Slits) > 0 {
		names = nil
		for _, c := range g.Slits { // of one name once, as at two sleeves
			if !slices.Contains(names, c.Name) {
				names = append(names, c.Name)
			}
		}
		out += say.Of("garment.at-2", many(len(g.Slits), "slit"), meant.List(names, "and"))
	}
	return out
}

// LooseWords tells what is joined to nothing; "" where all is.
func (g *Garment) LooseWords() string {
	var out []string
	if len(g.Loose) > 0 {
		var names []string
		for _, l := range g.Loose {
			if l.Part {
				names = append(names, say.Of("garment.part-of", l.Edge))
			} else {
				names = append(names, l.Edge)
			}
		}
		out = append(out, strings.Join(names, ", "))
	}
	if len(g.Apart) > 0 {
		out = append(out, say.Of("garment.in-no-seam", strings.Join(g.Apart, ", ")))
	}
	return strings.Join(out, "; ")
}

// counted puts equal names that follow each other in one: "neck, two armholes".
func counted(names []string) string {
	var out []string
	for from, to := 0, 0; from < len(names); from = to {
		for to = from; to < len(names) && names[to] == names[from]; to++ {
		}
		if n := to - from; n > 1 {
			out = append(out, many(n, names[from]))
		} else {
			out = append(out, names[from])
		}
	}
	return strings.Join(out, ", ")
}

// many counts in words: "two armholes".
func many(n int, word string) string {
	small := []string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}
	count := strconv.Itoa(n)
	if n < len(small) {
		count = small[n]
	}
	if n == 1 {
		return count + " " + word
	}
	return count + " " + word + "s"
}
