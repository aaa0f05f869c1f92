package garment

import (
	"math"
	"slices"
	"strconv"

	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/sewn"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// SoldByLength reports whether a notion is cut to length: it is of such a kind
// and the record gives no count, so that its length comes from where it goes.
func SoldByLength(n *record.Notion) bool { return n.InLengths() && !n.Count.Given() }

// A channel is one place a notion goes into.
type channel struct {
	name   string
	length *figure.Figure
	parts  int // length is of so many of them together; 0 or 1 where it is of one
	times  int
	loop   bool // it comes back to itself: nothing stays clear at its ends
}

// A notionReckoner sets notions out along edges, and works out how many and how long
// they are.
type notionReckoner struct {
	*index
	b       *record.Build                 // whose kind says how buttonholes lie
	spreads map[*record.Notion]*spreadOut // those that are set out along an edge
}

// reckon works out boning, tapes, closures (figure 15).
func (w *notionReckoner) reckon() {
	slugs := words.NamesFor(len(w.notions))
	for i := range w.notions {
		r := &w.notions[i]
		n := &Notion{Record: r}
		n.Slug = slugs.Unique(r.Name.V)
		base := w.Join("notion.", n.Slug)
		channels := w.channels(r)
		w.notionLength(n, base, channels)
		w.notionCount(n, base, channels)
		w.spacing(n, base)
		w.notionTotal(n, base)
		w.notionMass(n, base)
		w.lieOnPieces(n)
		if r.NeedsHoles() {
			n.HolesLie = w.holesLie(r)
		}
		w.g.Notions = append(w.g.Notions, n)
	}
}

// channels lists where a notion goes.
func (w *notionReckoner) channels(r *record.Notion) []channel {
	var out []channel
	if r.Along.Given() && !r.SetOut() {
		if use, ok := w.use(r.Along.V); ok {
			c := channel{name: use.Edge.ref, length: &use.Edge.Sewn, times: use.Times()}
			if isZip(r) { // it joins a right and a left, and opens one of several seams
				c.times = w.closedAlong(r)
			}
			out = append(out, c)
		}
	}
	for _, ref := range r.Laid {
		if use, ok := w.use(ref); ok {
			out = append(out, channel{name: use.Edge.ref, length: &use.Edge.Sewn, times: use.Times()})
		}
	}
	for _, in := range r.In {
		for _, s := range w.g.Seams {
			if s.Name == in.V {
				out = append(out, channel{name: s.Name, length: &s.Length, times: s.Times / max(s.layers, 1)})
			}
		}
		for _, f := range w.g.Finishes {
			if f.Name != in.V {
				continue
			}
			if n, closed, alike := w.linesAlong(f); n > 0 && alike && !f.onLines() {
				out = append(out, channel{name: f.Name, length: &f.Total, parts: n, times: n, loop: closed})
				continue
			}
			for _, u := range f.Edges {
				out = append(out, channel{name: u.Edge.ref, length: &u.Edge.Sewn, times: u.Times()})
			}
		}
	}
	return out
}

// closedAlong is how often a notion closes the edge that it lies along; once at least.
func (w *notionReckoner) closedAlong(r *record.Notion) int {
	n := 0
	for i := range w.g.Sewn.Joins {
		if j := &w.g.Sewn.Joins[i]; j.Kind == sewn.Closing && w.g.Sewn.Plan.Closures[j.By].Name == r.Name.V {
			n++
		}
	}
	return max(n, 1)
}

// linesAlong is how many lines the edges of a finish make: a casing round the waist is one
// channel, however many panels it runs over, and so is one across a piece that is cut on
// the fold. closed is whether all come back to themselves, alike whether all are of one
// length. Edges that a seam takes too make lines of their own.
func (w *index) linesAlong(f *Finish) (n int, closed, alike bool) {
	s := w.g.Sewn
	in := map[sewn.SideID]bool{}
	for id := range s.Sides {
		if f.uses(w.edgeAt(sewn.SideID(id))) {
			in[sewn.SideID(id)] = true
		}
	}
	left := 0
	for _, u := range f.Edges {
		left += u.Times() * u.Piece.sets()
	}
	var lines []sewn.Loop
	closed = true
	for _, layer := range s.Layers() {
		open, rings := s.LinesOf(layer, in)
		lines = append(append(lines, open...), rings...)
		closed = closed && len(open) == 0
	}
	for _, line := range lines {
		for _, sp := range line.Spans {
			if sp.Length() <= s.Sides[sp.Side].Closed-0.01 {
				return 0, false, false
			}
			left--
		}
	}
	if left < 0 {
		return 0, false, false
	}
	alike = left == 0 && !slices.ContainsFunc(lines, func(l sewn.Loop) bool { return math.Abs(l.Length-lines[0].Length) > 0.05 })
	return len(lines) + left, closed && left == 0, alike
}

// notionLength is the length of one: as written, or that of its channel less
// what stays clear at both ends. Where its channels differ it is the longest.
func (w *notionReckoner) notionLength(n *Notion, base string, channels []channel) {
	r := n.Record
	id, title := w.Join(base, ".length"), "each"
	if r.Length.Given() {
		n.Length = w.Figure(id, title, r.Name.V, w.Length("length", r.Length), mm, say.Of("garment.as-the-record-says"), figure.Recorded)
		n.Length.Value.Exact = true
		return
	}
	if len(channels) == 0 {
		return
	}
	if words.AnyOf(r.Is(), []string{"elastic"}) && len(r.In) > 0 && !r.Share.Given() {
		w.faults.LookAgain(r.At, say.Of("garment.write-share-0-9-or-its-length"), say.Of("garment.is-as-long-as-its-channel-and", say.Quoted(r.Name.V)))
	}
	n.Each = make([]NotionCut, len(channels))
	terms := make([]figure.Term, len(channels))
	for i, c := range channels {
		n.Each[i] = NotionCut{c.name, w.channelCut(n, c, w.Join(base, ".cut-", strconv.Itoa(i+1))), c.times}
	}
	for i, c := range channels {
		terms[i] = w.Of(c.name, &n.Each[i].Length)
	}
	if len(channels) == 1 {
		n.Length = w.Figure(id, title, r.Name.V, terms[0], mm, say.Of("garment.length-of-its-channel-2-times-clear"), figure.Practice)
		return
	}
	n.Length = w.Figure(id, say.Of("garment.the-longest"), r.Name.V, w.Greatest(terms...), mm,
		say.Of("garment.the-longest-of-its-lengths-length-of"), figure.Practice)
}

// channelCut is the length that goes into one channel.
func (w *notionReckoner) channelCut(n *Notion, c channel, id string) figure.Figure {
	r := n.Record
	t := w.Of(c.name, c.length)
	rule := say.Of("garment.length-of-the-channel-2-times-clear")
	if c.parts > 1 {
		t = t.Part(float64(c.parts))
	}
	if c.loop {
		rule = say.Of("garment.length-of-the-channel-all-round-it")
	} else if r.Clear.Given() {
		t = t.Minus(w.Number(2).Times(w.Length("clear", r.Clear)))
	}
	if r.Share.Given() {
		t, rule = t.Times(w.Written("share", float64(r.Share.V), measure.UnitRatio, r.Share.At)), say.Of("garment.times-its-share", rule)
	}
	if t.Known() && t.MM() <= 0 {
		w.faults.Wrong(r.At, say.Of("garment.leave-less-clear"), say.Of("garment.leaves-nothing-is-long-clear-at-each", say.Quoted(r.Name.V), c.name, w.tape().Tenth(c.length.Value.Number), w.tape().Exact(r.Clear.V.MM())))
		t = t.Unless(say.Of("garment.what-stays-clear-is-more-than-the"))
	}
	return w.Figure(id, say.Of("garment.length-in-one-channel"), c.name, t, mm, rule, figure.Practice)
}

func (w *notionReckoner) notionCount(n *Notion, base string, channels []channel) {
	r := n.Record
	done := func(t figure.Term, rule string, source trade.Source) {
		n.Count = w.Figure(w.Join(base, ".count"), "number", r.Name.V, t, measure.UnitCount, rule, source)
	}
	switch s, each := w.spreads[r], w.onEach(r); {
	case s != nil && each > 1 && r.Count.Given():
		done(w.countOnOne(n, s).By(float64(each)), say.Of("garment.so-many-on-each-piece-that-has-them"), figure.Recorded)
	case r.Count.Given():
		done(w.Written("count", float64(r.Count.V), measure.UnitCount, r.Count.At), say.Of("garment.as-the-record-says"), figure.Recorded)
	case s != nil && s.drawn:
		w.drawnFrom(s.piece)
		done(w.Found(say.Of("garment.places-drawn"), float64(len(s.places)), measure.UnitCount), say.Of("garment.as-many-as-the-pattern-file-draws"), figure.Derived)
	case s != nil && s.counted && each > 1:
		done(w.countOnOne(n, s).By(float64(each)), say.Of("garment.from-the-first-to-the-last-by-on-each"), figure.Practice)
	case s != nil && s.counted:
		done(w.countAlong(n, s), say.Of("garment.from-the-first-to-the-last-by"), figure.Practice)
	case len(n.Each) > 0:
		var terms []figure.Term
		for _, c := range n.Each {
			terms = append(terms, w.Found(c.In, float64(c.Count), measure.UnitCount))
		}
		done(w.Sum(terms...), say.Of("garment.times-each-channel-is-cut"), figure.Derived)
	case each > 1:
		done(w.Usual(r.Name.V, 1, measure.UnitCount).By(float64(each)), say.Of("garment.one-on-each-piece-that-has-it"), figure.Practice)
	default:
		done(w.Usual(r.Name.V, 1, measure.UnitCount), say.Of("garment.one-as-nothing-else-is-written"), figure.Practice)
	}
}

// countOnOne is how many lie on one piece, of what is set out on each of several.
func (w *notionReckoner) countOnOne(n *Notion, s *spreadOut) figure.Term {
	if r := n.Record; r.Count.Given() {
		return w.Written("count", float64(r.Count.V), measure.UnitCount, r.Count.At)
	}
	return w.countAlong(n, s)
}

// onEach is how many pieces have buttons with their holes at their other end, as both cuffs
// have where the places are said for the pair; 0 where buttons and holes lie on two pieces,
// and where the place of one is said with how many there are in all.
func (w *notionReckoner) onEach(r *record.Notion) int {
	if !r.SetOut() || r.Place.Given() && r.Count.Given() || len(r.Drawn) > 0 || !r.HolesOn.Given() || r.HolesOn.V.Piece != r.Along.V.Piece {
		return 0
	}
	u, ok := w.use(r.Along.V)
	if !ok || u.Piece.OnFold {
		return 0
	}
	return u.Times()
}

// notionTotal is the length of all, where there is a length of one.
func (w *notionReckoner) notionTotal(n *Notion, base string) {
	r := n.Record
	if n.Length.ID == "" {
		return
	}
	id := w.Join(base, ".total")
	if len(n.Each) > 1 && !r.Count.Given() {
		terms := make([]figure.Term, len(n.Each))
		for i := range n.Each {
			c := &n.Each[i]
			terms[i] = w.Of(c.In, &c.Length).By(float64(c.Count))
		}
		n.Total = w.Figure(id, say.Of("garment.length-of-all"), r.Name.V, w.Sum(terms...), measure.UnitM, say.Of("garment.length-times-times"), figure.Derived)
		return
	}
	t := w.Of(say.Of("garment.length-of-one"), &n.Length).Times(w.Of("number", &n.Count))
	n.Total = w.Figure(id, say.Of("garment.length-of-all"), r.Name.V, t, measure.UnitM, say.Of("garment.length-of-one-times-how-many"), figure.Derived)
}

// notionMass is the mass of all of a notion.
func (w *notionReckoner) notionMass(n *Notion, base string) {
	r := n.Record
	id, title := w.Join(base, ".mass"), "weight"
	weighs := func(name string) figure.Term {
		if !r.Mass.Given() {
			return w.Unknown(say.Of("garment.its-weight-is-not-written"))
		}
		return w.Written(name, float64(r.Mass.V), measure.UnitG, r.Mass.At)
	}
	if SoldByLength(r) && n.Total.ID != "" {
		metre := weighs(say.Of("garment.weight-of-a-metre")).Over(w.Constant(1, measure.UnitM))
		n.Mass = w.Figure(id, title, r.Name.V, w.Of(say.Of("garment.length-of-all"), &n.Total).Times(metre), measure.UnitG, say.Of("garment.length-of-all-times-weight-of-a"), figure.Derived)
		return
	}
	n.Mass = w.Figure(id, title, r.Name.V, w.Of("number", &n.Count).Times(weighs(say.Of("garment.weight-of-one"))), measure.UnitG, say.Of("garment.number-times-weight-of-one"), figure.Derived)
}
