package garment

import (
	"math"
	"slices"
	"strconv"

	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
)

// A spreadOut is where a notion is put along an edge.
type spreadOut struct {
	piece       *Piece
	length      float64 // of the edge, or of the part of it, mm
	first, last float64 // mm along the edge as the record has it
	places      []float64
	counted     bool // how many there are follows
	everySaid   bool // they are as far apart as the record says
	drawn       bool // a pattern file draws them
}

// mostPlaces bounds how many things are set out along an edge.
const mostPlaces = 5000

// divides is how far a spacing may be off for a distance to be a whole number of
// them, mm: what chalk can show (own choice, no source).
const divides = 0.5

// setOut finds where notions are put along the edges of pieces, before these are cut into
// parts.
func (w *notionReckoner) setOut(list []*Piece) {
	if w.spreads == nil {
		w.spreads = map[*record.Notion]*spreadOut{}
	}
	for i := range w.notions {
		n := &w.notions[i]
		p := w.named[n.Along.V.Piece]
		switch {
		case !n.Along.Given() || p == nil || p.form.why != "" || !slices.Contains(list, p):
		case n.SetOut():
			if s := w.spreadOf(n, p); s != nil {
				w.spreads[n] = s
				w.chalk(n, s)
				w.chalkHoles(n, s)
			}
		case !n.Along.V.Part.Whole():
			w.faults.Wrong(n.Along.At, say.Of("garment.write-and-its-length", n.Along.V.Piece, n.Along.V.Edge), say.Of("garment.not-yet-along-a-part-of-an", n.Name.V))
		case n.Along.V.Inside != 0:
			w.faults.Wrong(n.Along.At, say.Of("garment.write-first-or-every-say-where-things", n.Along.V.Piece, n.Along.V.Edge), say.Of("garment.not-yet-sewn-along-a-line-inside", n.Name.V))
		}
	}
}

// spreadOf works out the places of a notion; nil where they cannot be told, which is
// said.
func (w *notionReckoner) spreadOf(n *record.Notion, p *Piece) *spreadOut {
	ref := n.Along.V
	f := &p.form
	length, ok := f.lengthAlong(p.formerly(ref.Edge))
	if !ok {
		return nil // told by the reader
	}
	s := &spreadOut{piece: p, last: length}
	if !ref.Part.Whole() {
		part, ok := w.spanOf(p, ref)
		if !ok {
			return nil
		}
		s.first, s.last = f.fromStart(part.from, length), f.fromStart(part.to, length)
		if s.first > s.last {
			s.first, s.last = s.last, s.first
		}
	}
	s.length = s.last - s.first
	if len(n.Drawn) > 0 {
		w.drawnPlaces(n, s)
		return s
	}
	place := func(at record.Where, into *float64) bool {
		if !at.Given() {
			return true
		}
		along := n.Along.V.Edge
		l := record.Length{V: at.V.By, At: at.At}
		if !at.V.Plain() {
			l = w.alongOf(p, along, at, true)
		} else if l.V.MM() > length+touches {
			w.faults.Wrong(at.At, say.Of("garment.measure-less"), say.Of("garment.is-past-the-end-is-long-2", w.tape().Exact(l.V.MM()), p.Name+"."+along, w.tape().About(length)))
			return false
		}
		*into = l.V.MM()
		return l.Given()
	}
	if n.Place.Given() {
		s.last = s.first
		if !place(n.Place, &s.first) {
			return nil
		}
		s.last, s.places = s.first, []float64{s.first}
		return s
	}
	begin, end := s.first, s.last
	if !place(n.First, &s.first) || !place(n.Last, &s.last) {
		return nil
	}
	if n.First.Given() && !n.Last.Given() && wayFrom(n, s, n.First, s.first, length) < 0 {
		s.last = begin
	}
	if n.Last.Given() && !n.First.Given() && wayFrom(n, s, n.Last, s.last, length) > 0 {
		s.first = end
	}
	if !w.stepOut(n, s, length) {
		return nil
	}
	return s
}

// stepOut counts and places what lies between the first and the last: two of first
// and last, how many and how far apart tell the third. An end that is not named where
// it follows is where the edge has it.
func (w *notionReckoner) stepOut(n *record.Notion, s *spreadOut, length float64) bool {
	every, count := n.Every.V.MM(), n.Count.V
	oneEnd := n.First.Given() != n.Last.Given()
	switch {
	case n.Count.Given() && n.Every.Given() && oneEnd:
		return w.fromOneEnd(n, s, length)
	case !n.Count.Given() && n.Every.Given():
		s.counted = true
		gaps := math.Abs(s.last-s.first) / every
		near := min(max(math.Round(gaps+1e-8), 1), mostPlaces) // as figures round
		if (n.First.Given() || n.Last.Given()) && math.Abs(near*every-math.Abs(s.last-s.first)) > divides {
			w.undivided(n, s)
			return false
		}
		count = int(near) + 1
	case !n.Count.Given():
		count = 2
		if n.First.Given() != n.Last.Given() {
			count = 1
			if n.Last.Given() {
				s.first = s.last
			}
			s.last = s.first
		}
	case n.Every.Given() && count > 1 && math.Abs(every*float64(count-1)-math.Abs(s.last-s.first)) > divides:
		w.undivided(n, s)
		return false
	}
	if count == 1 && !n.First.Given() && !n.Last.Given() {
		s.places = []float64{(s.first + s.last) / 2}
		return true
	}
	for k := range min(count, mostPlaces) {
		at := s.first
		if count > 1 {
			at += (s.last - s.first) * float64(k) / float64(count-1)
		}
		s.places = append(s.places, at)
	}
	return true
}

// fromOneEnd sets so many out from one of their ends, away from what that is measured
// from.
func (w *notionReckoner) fromOneEnd(n *record.Notion, s *spreadOut, length float64) bool {
	at, begin := n.First, s.first
	if n.Last.Given() {
		at, begin = n.Last, s.last
	}
	way := wayFrom(n, s, at, begin, length)
	end := begin + way*n.Every.V.MM()*float64(n.Count.V-1)
	if end < -touches || end > length+touches {
		w.faults.Wrong(n.Every.At, say.Of("garment.let-them-lie-nearer-or-begin-nearer"), say.Of("garment.of-apart-are-past-the-end-is", n.Count.V, n.Name.V, w.written(n.Every.V.MM()), s.piece.Name+"."+n.Along.V.Edge, w.tape().About(length)))
		return false
	}
	s.everySaid = true
	for k := range min(n.Count.V, mostPlaces) {
		s.places = append(s.places, begin+way*n.Every.V.MM()*float64(k))
	}
	if n.Last.Given() {
		slices.Reverse(s.places)
	}
	s.first, s.last = s.places[0], s.places[len(s.places)-1]
	return true
}

// wayFrom is which way along an edge things lie from one of their ends, away from
// what that is measured from: 1 as the record has the edge, −1 against it.
func wayFrom(n *record.Notion, s *spreadOut, at record.Where, is, length float64) float64 {
	from, ok := s.piece.form.spot(s.piece.formerly(n.Along.V.Edge), s.piece.formerly(at.V.From))
	if ok && !at.V.Plain() && (from >= length-touches || from > is+touches) {
		return -1
	}
	return 1
}

// undivided tells that a spacing does not divide what lies between the first and the
// last, and which would.
func (w *notionReckoner) undivided(n *record.Notion, s *spreadOut) {
	room, every := math.Abs(s.last-s.first), n.Every.V.MM()
	fewer := max(math.Floor(room/every), 1)
	offer := func(gaps float64) string {
		return say.With("garment.at-3", strconv.Itoa(int(gaps)+1), w.written(room/gaps))
	}
	said := ""
	if n.Count.Given() && n.Count.V > 1 {
		said = say.Of("garment.from-to-are-apart", strconv.Itoa(n.Count.V), w.written(s.first), w.written(s.last), w.written(room/float64(n.Count.V-1)))
	}
	hint := offer(fewer)
	if more := math.Ceil(room / every); more > fewer && more < mostPlaces {
		hint += say.Of("garment.or", offer(more))
	}
	if said == "" {
		said = say.Of("garment.from-to-it-is", w.written(s.first), w.written(s.last), w.written(room))
	}
	w.faults.Wrong(n.Every.At, hint, say.Of("garment.every-does-not-divide-it", said, w.written(every)))
}

// room notes what tells how far the first lies from the last, and is that distance.
func (w *notionReckoner) room(n *Notion, s *spreadOut) figure.Term {
	r := n.Record
	w.Remark(figure.Written, "along", figure.AsItStands, r.Along.At, "")
	w.drawnFrom(s.piece)
	first, last := w.Found("first", s.first, mm), w.Found("last", s.last, mm)
	for _, end := range []struct {
		name string
		at   record.Where
	}{{"first", r.First}, {"last", r.Last}} {
		if end.at.Given() {
			w.Remark(figure.Written, end.name, figure.AsItStands, end.at.At, "")
		}
	}
	if s.last < s.first {
		first, last = last, first
	}
	return last.Minus(first)
}

// countAlong is how many follow from how far they are apart.
func (w *notionReckoner) countAlong(n *Notion, s *spreadOut) figure.Term {
	gaps := w.room(n, s).Over(w.Length("every", n.Record.Every)).Nearest(w.Number(1))
	if gaps.Known() && (gaps.In(measure.UnitCount) < 1 || gaps.In(measure.UnitCount) > mostPlaces) {
		gaps = w.Number(float64(len(s.places) - 1))
	}
	return gaps.Plus(w.Number(1))
}

// spacing says how far apart things are set out along an edge.
func (w *notionReckoner) spacing(n *Notion, base string) {
	s := w.spreads[n.Record]
	if s == nil {
		return
	}
	r, id := n.Record, w.Join(base, ".gap")
	for _, at := range s.places {
		n.Places = append(n.Places, measure.MM(math.Abs(at-s.places[0])))
	}
	rule := say.Of("garment.from-the-first-to-the-last-by-2")
	switch {
	case s.everySaid && len(s.places) > 1:
		n.Gap = w.Figure(id, "spacing", r.Name.V, w.Length("every", r.Every), mm, say.Of("garment.as-the-record-says"), figure.Recorded)
	case len(s.places) > 1 && !s.drawn:
		many := w.Of("number", &n.Count)
		if w.onEach(r) > 1 {
			many = w.countOnOne(n, s)
		}
		n.Gap = w.Figure(id, "spacing", r.Name.V, w.room(n, s).Over(many.Minus(w.Number(1))), mm, rule, figure.Practice)
	}
}
