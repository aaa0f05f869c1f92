package garment

import (
	"math"
	"strings"

	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/trade"
)

// A Hang is a hem as it hung before it was levelled (figure 11).
type Hang struct {
	Record   *record.Hang
	Name     string // "skirt.hem"
	Anchor   string // unique and safe in an address: "hang-skirt-hem"
	Around   Figure // length of the hem, all round
	Stations []Station
	Longest  Figure // drop
	Least    Figure // drop: what the hem is levelled to
	Spread   Figure // longest less least: the most that is cut off
	Bias     Figure // angle at the longest drop between how the cloth hangs and its lengthwise grain
	OnBias   bool   // that angle is near 45°
	Lowest   int    // index of the station of the longest drop, -1 where there is none
}

// A Station is one place of a hem at which its drop was measured.
type Station struct {
	Along Figure // from where the hem begins
	Drop  Figure // how much lower it hung than it was cut
	Cut   Figure // what levelling takes off here
	Grain Figure // angle between how the cloth hangs here and its lengthwise grain: 45° is the true bias
}

// nearBias is how far from 45° cloth still counts as hanging on the bias, in
// degrees.
const (
	nearBias                 = 15
	ourOwn      trade.Source = "our own choice"
	dropRule                 = "as measured after hanging"
	cutRule                  = "drop − least drop: the hem is cut level with its highest station"
	grainRule                = "angle between the line on which the cloth hangs, at right angles to the hem, and its lengthwise grain"
	longestRule              = "the longest of the drops"
)

func (h *Hang) figures(out *gatherer) {
	out.add(&h.Around, &h.Longest, &h.Least, &h.Spread, &h.Bias)
	for i := range h.Stations {
		s := &h.Stations[i]
		out.add(&s.Along, &s.Drop, &s.Cut, &s.Grain)
	}
}

// hangs works out what is levelled off each hem that hung.
func (w *work) hangs() {
	slugs := namesFor(len(w.b.Hang))
	for i := range w.b.Hang {
		r := &w.b.Hang[i]
		h := &Hang{Record: r, Name: refsName(r.Of), Lowest: -1}
		anchor := slugs.unique(strings.ReplaceAll(h.Name, ".", "-"))
		h.Anchor = w.join("hang-", anchor)
		round, ok := w.roundOf(r)
		base := w.join("hang.", anchor)
		w.around(h, base, round, ok)
		w.stations(h, base, round)
		w.levelled(h, base)
		w.g.Hangs = append(w.g.Hangs, h)
	}
}

func refsName(refs []record.EdgeRef) string {
	names := make([]string, len(refs))
	for i, r := range refs {
		names[i] = r.Piece + "." + r.Edge
	}
	return strings.Join(names, ", ")
}

// A turn is one edge as it comes in the round of a hem.
type turn struct {
	edge     *PieceEdge
	backward bool // it is passed from its end to its beginning
}

// roundOf lists the edges that go once round a hem. Every other one of a
// mirrored pair, and one half of a piece cut on fold, is passed backwards.
func (w *work) roundOf(r *record.Hang) (round []turn, ok bool) {
	ok = len(r.Of) > 0
	for _, ref := range r.Of {
		use, found := w.use(ref)
		if !found || use.Edge.Fold {
			ok = false
			continue
		}
		p, e := use.Piece, use.Edge
		first := p.OnFold && p.form.fold >= 0 && (p.form.fold+1)%len(p.Outline.Edges) == e.Index
		for k := range min(e.Times, mostTurns) {
			backward := (p.OnFold || p.Mirrored) && k%2 == 1
			round = append(round, turn{e, backward != first})
		}
	}
	return round, ok && len(round) > 0
}

// mostTurns bounds how often one edge comes in a hem.
const mostTurns = 500

func (w *work) around(h *Hang, base string, round []turn, ok bool) {
	sum := 0.0
	for i := 0; i < len(round); {
		e, n := round[i].edge, 0
		for i < len(round) && round[i].edge == e {
			i, n = i+1, n+1
		}
		w.figureIn(e.ref, &e.Length)
		if sum > 0 {
			w.s(" + ")
		}
		w.i(n).s(" × ").n(e.Length.Value.Number)
		sum += float64(n) * e.Length.Value.Number
	}
	v := inMM(sum)
	if !ok || !(sum > 0) {
		v = unknown("an edge of it is not there")
	}
	w.s(" = ").mm(sum)
	h.Around = w.figure(w.join(base, ".around"), "length of the hem, all round", h.Name, v, "Σ of edge length × how often it is cut", derived)
}

// stations places each drop on the hem.
func (w *work) stations(h *Hang, base string, round []turn) {
	r := h.Record
	least, known := math.Inf(1), false
	for _, d := range r.Drops {
		if d.Given() {
			least, known = min(least, d.V.MM()), true
		}
	}
	h.Stations = make([]Station, len(r.Drops))
	for i := range h.Stations {
		s, d := &h.Stations[i], r.Drops[i]
		id := w.join(base, ".station-", w.i(i+1).end())
		of := w.join(h.Name, ", station ", w.i(i+1).end())
		w.along(h, s, i, id, of)
		drop := unknown("it could not be read")
		if d.Given() {
			w.lengthIn("drop", d).mm(d.V.MM())
			drop = inMM(d.V.MM())
			drop.Exact = true
		}
		s.Drop = w.figure(w.join(id, ".drop"), "drop", of, drop, dropRule, recorded)
		w.figureIn("drop", &s.Drop)
		cut := drop
		if d.Given() && known {
			w.note(Input{Name: "least drop", Value: w.mm(least).end(), From: w.join(base, ".least")})
			w.n(d.V.MM()).less(least).s(" = ").mm(d.V.MM() - least)
			cut = inMM(d.V.MM() - least)
		}
		s.Cut = w.figure(w.join(id, ".cut"), "levelled off", of, cut, cutRule, practice)
		w.grain(h, s, round, id, of)
	}
}

// along is where station i lies, from the beginning of the hem.
func (w *work) along(h *Hang, s *Station, i int, id, of string) {
	r, n := h.Record, len(h.Record.Drops)
	at := w.join(id, ".along")
	const title = "from where the hem begins"
	switch {
	case len(r.Stations) == n && r.Stations[i].Given():
		w.lengthIn("station", r.Stations[i]).mm(r.Stations[i].V.MM())
		s.Along = w.figure(at, title, of, inMM(r.Stations[i].V.MM()), "as the record says", recorded)
	case len(r.Stations) > 0:
		s.Along = w.figure(at, title, of, unknown("the record does not say where it is"), "as the record says", recorded)
	case !h.Around.Value.Known():
		s.Along = w.figure(at, title, of, unknown(h.Around.Value.Why), "evenly spaced", derived)
	default:
		first, round := 0.0, h.Around.Value.Number
		w.figureIn("length of the hem", &h.Around)
		if r.First.Given() {
			w.lengthIn("first station", r.First)
			first = r.First.V.MM()
		}
		v := math.Mod(first+float64(i)*round/float64(n), round)
		w.n(first).s(" + ").i(i).s(" × ").n(round).s(" ÷ ").i(n)
		if first+float64(i)*round/float64(n) >= round {
			w.s(", once round taken off,")
		}
		w.s(" = ").mm(v)
		s.Along = w.figure(at, title, of, inMM(v), "first station + number of those before it × hem ÷ stations", derived)
	}
}

// grain is how the cloth hangs at a station.
func (w *work) grain(h *Hang, s *Station, round []turn, id, of string) {
	name := w.join(id, ".grain")
	const title = "angle to the lengthwise grain"
	angle, why := 0.0, ""
	if s.Along.Value.Known() && h.Around.Value.Known() {
		angle, why = grainAt(round, math.Mod(s.Along.Value.Number, h.Around.Value.Number))
	} else {
		why = "where it lies is not known"
	}
	w.figureIn("station", &s.Along)
	v := valueIn(angle, measure.UnitDegree)
	if why != "" {
		v = unknown(why)
	}
	w.n(angle).s("°")
	s.Grain = w.figure(name, title, of, v, grainRule, derived)
}

// grainAt is the angle between how cloth hangs so far along a hem and its
// lengthwise grain, in degrees from 0 to 90.
func grainAt(round []turn, at float64) (degrees float64, why string) {
	for _, t := range round {
		e, long := t.edge, t.edge.Length.Value.Number
		if at > long {
			at -= long
			continue
		}
		if t.backward {
			at = long - at
		}
		p := e.piece
		_, along, ok := p.Outline.PointOn(e.Name, at)
		x, y := 0.0, 1.0 // the lengthwise grain
		switch p.Grain {
		case "across":
			x, y = 1, 0
		case "bias":
			x, y = math.Sqrt2/2, math.Sqrt2/2
		case "any":
			return 0, "its piece may lie any way on the cloth"
		}
		if !ok {
			break
		}
		cos := math.Abs(-along.Y*x + along.X*y) // the hem's own normal
		return math.Acos(min(cos, 1)) * 180 / math.Pi, ""
	}
	return 0, "it lies beyond the hem"
}

// levelled sums up a hem: its longest and least drop, and how the cloth hangs
// at the longest.
func (w *work) levelled(h *Hang, base string) {
	low, high := -1, -1
	for i := range h.Stations {
		v := h.Stations[i].Drop.Value
		if !v.Known() {
			continue
		}
		if high < 0 || v.Number > h.Stations[high].Drop.Value.Number {
			high = i
		}
		if low < 0 || v.Number < h.Stations[low].Drop.Value.Number {
			low = i
		}
	}
	h.Lowest = high
	if high < 0 {
		none := unknown("no drop is written")
		h.Longest = w.figure(w.join(base, ".longest"), "longest drop", h.Name, none, longestRule, derived)
		h.Least = w.figure(w.join(base, ".least"), "least drop", h.Name, none, "the least of the drops", derived)
		h.Spread = w.figure(w.join(base, ".spread"), "most levelled off", h.Name, none, "longest − least", derived)
		return
	}
	most, least := &h.Stations[high], &h.Stations[low]
	w.figureIn(most.Drop.Of, &most.Drop).mm(most.Drop.Value.Number)
	h.Longest = w.figure(w.join(base, ".longest"), "longest drop", h.Name, most.Drop.Value, longestRule, derived)
	w.figureIn(least.Drop.Of, &least.Drop).mm(least.Drop.Value.Number)
	h.Least = w.figure(w.join(base, ".least"), "least drop", h.Name, least.Drop.Value, "the least of the drops; levelled, the hem is so much lower than it was cut", derived)
	d := h.Longest.Value.Number - h.Least.Value.Number
	w.figureIn("longest", &h.Longest).figureIn("least", &h.Least)
	w.n(h.Longest.Value.Number).less(h.Least.Value.Number).s(" = ").mm(d)
	h.Spread = w.figure(w.join(base, ".spread"), "most levelled off", h.Name, inMM(d), "longest − least", derived)
	h.OnBias = most.Grain.Value.Known() && math.Abs(most.Grain.Value.Number-45) <= nearBias
	w.figureIn(most.Grain.Of, &most.Grain)
	v := most.Grain.Value
	if v.Known() {
		w.q(v.Quantity)
		if h.OnBias {
			w.s(": on the bias")
		} else {
			w.s(": not on the bias")
		}
	}
	h.Bias = w.figure(w.join(base, ".bias"), "angle to the lengthwise grain at the longest drop", h.Name, v,
		"on the bias where it lies within 15° of 45°", ourOwn)
}
