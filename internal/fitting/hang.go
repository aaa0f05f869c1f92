package fitting

import (
	"math"
	"strconv"
	"strings"

	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/words"
)

// A Hang is a hem as it hung before it was levelled (figure 11).
type Hang struct {
	Record   *record.Hang
	Name     string        // "skirt.hem"
	Anchor   string        // unique and safe in an address: "hang-skirt-hem"
	Around   figure.Figure // length of the hem, all round
	Stations []Station
	Longest  figure.Figure // drop
	Least    figure.Figure // drop: what the hem is levelled to
	Spread   figure.Figure // longest less least: the most that is cut off
	Bias     figure.Figure // angle at the longest drop between how the cloth hangs and its lengthwise grain
	OnBias   bool          // that angle is near 45°
	Lowest   int           // index of the station of the longest drop, -1 where there is none
}

// A Station is one place of a hem at which its drop was measured.
type Station struct {
	Along figure.Figure // from where the hem begins
	Drop  figure.Figure // how much lower it hung than it was cut
	Cut   figure.Figure // what levelling takes off here
	Grain figure.Figure // angle between how the cloth hangs here and its lengthwise grain: 45° is the true bias
}

// nearBias is how far from 45° cloth still counts as hanging on the bias, in
// degrees.
const nearBias = 15

var (
	dropRule    = say.Of("fitting.as-measured-after-hanging")
	cutRule     = say.Of("fitting.drop-least-drop-the-hem-is-cut")
	grainRule   = say.Of("fitting.angle-between-the-line-on-which-the")
	longestRule = say.Of("fitting.the-longest-of-the-drops")
)

// hangs works out what is levelled off each hem that hung.
func (w *trial) hangs() {
	slugs := words.NamesFor(len(w.b.Hang))
	for i := range w.b.Hang {
		r := &w.b.Hang[i]
		h := &Hang{Record: r, Name: refsName(r.Of), Lowest: -1}
		anchor := slugs.Unique(strings.ReplaceAll(h.Name, ".", "-"))
		h.Anchor = w.Join("hang-", anchor)
		round, ok := w.roundOf(r)
		base := w.Join("hang.", anchor)
		w.around(h, base, round, ok)
		w.stations(h, base, round)
		w.out.Hangs = append(w.out.Hangs, h)
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
	garment.EdgeUse
	backward bool // it is passed from its end to its beginning
}

// roundOf lists the edges that go once round a hem. Every other one of a
// mirrored pair, and one half of a piece cut on fold, is passed backwards.
func (w *trial) roundOf(r *record.Hang) (round []turn, ok bool) {
	ok = len(r.Of) > 0
	for _, ref := range r.Of {
		list := w.g.EdgesOf(ref)
		if len(list) == 0 || list[0].Edge.Fold {
			ok = false
			continue
		}
		p, e := list[0].Piece, list[0].Edge
		first := p.OnFold && p.Fold() >= 0 && (p.Fold()+1)%len(p.Outline.Edges) == e.Index
		for k := range min(e.Times, mostTurns) {
			backward := (p.OnFold || p.Mirrored) && k%2 == 1
			backward = backward != first
			for i := range list {
				if backward {
					i = len(list) - 1 - i
				}
				round = append(round, turn{list[i], backward})
			}
		}
	}
	return round, ok && len(round) > 0
}

// mostTurns bounds how often one edge comes in a hem.
const mostTurns = 500

func (w *trial) around(h *Hang, base string, round []turn, ok bool) {
	var terms []figure.Term
	for i := 0; i < len(round); {
		e, n := round[i].Edge, 0
		for i < len(round) && round[i].Edge == e {
			i, n = i+1, n+1
		}
		terms = append(terms, w.Number(float64(n)).Times(w.Of(e.Ref(), &e.Length)))
	}
	none := say.Of("fitting.an-edge-of-it-is-not-there")
	t := w.SumOr(none, terms)
	if !ok || !(t.MM() > 0) {
		t = t.Unless(none)
	}
	h.Around = w.Figure(w.Join(base, ".around"), say.Of("fitting.hem-all-round"), h.Name, t, mm, say.Of("fitting.of-edge-length-times-how-often-it"), figure.Derived)
}

// stations places each drop on the hem.
func (w *trial) stations(h *Hang, base string, round []turn) {
	r := h.Record
	h.Stations = make([]Station, len(r.Drops))
	of, id := make([]string, len(r.Drops)), make([]string, len(r.Drops))
	for i := range h.Stations {
		s, d, n := &h.Stations[i], r.Drops[i], strconv.Itoa(i+1)
		id[i], of[i] = w.Join(base, ".station-", n), w.Join(h.Name, ", place ", n)
		w.along(h, s, i, id[i], of[i])
		drop := w.Unknown(say.Of("fitting.it-could-not-be-read"))
		if d.Given() {
			drop = w.Length("drop", d)
		}
		s.Drop = w.Figure(w.Join(id[i], ".drop"), "drop", of[i], drop, mm, dropRule, figure.Recorded)
		s.Drop.Value.Exact = d.Given()
	}
	w.levelled(h, base)
	for i := range h.Stations {
		s := &h.Stations[i]
		s.Cut = w.Figure(w.Join(id[i], ".cut"), say.Of("fitting.levelled-off"), of[i], w.Of("drop", &s.Drop).Minus(w.Of(say.Of("fitting.least-drop"), &h.Least)), mm, cutRule, figure.Practice)
		w.grain(h, s, round, id[i], of[i])
	}
	w.hangsAt(h, base)
}

// along is where station i lies, from the beginning of the hem.
func (w *trial) along(h *Hang, s *Station, i int, id, of string) {
	r, n := h.Record, len(h.Record.Drops)
	rule, source := say.Of("fitting.as-the-record-says"), figure.Recorded
	var t figure.Term
	switch {
	case len(r.Stations) == n && r.Stations[i].Given():
		t = w.Length("place", r.Stations[i])
	case len(r.Stations) > 0:
		t = w.Unknown(say.Of("fitting.the-record-does-not-say-where-it"))
	default:
		rule, source = say.Of("fitting.first-place-number-of-those-before-it"), figure.Derived
		around := w.Of(say.Of("fitting.length-of-the-hem"), &h.Around)
		t = w.Number(float64(i)).Times(around).Part(float64(n))
		if r.First.Given() {
			t = w.Length(say.Of("fitting.first-place"), r.First).Plus(t)
		}
		if t.Known() && t.MM() >= around.MM() {
			t = t.Rest(around)
		}
	}
	s.Along = w.Figure(w.Join(id, ".along"), say.Of("fitting.from-where-the-hem-begins"), of, t, mm, rule, source)
}

// grain is how the cloth hangs at a station.
func (w *trial) grain(h *Hang, s *Station, round []turn, id, of string) {
	angle, why := 0.0, say.Of("fitting.where-it-lies-is-not-known")
	if s.Along.Value.Known() && h.Around.Value.Known() {
		angle, why = grainAt(round, math.Mod(s.Along.Value.Number, h.Around.Value.Number))
	}
	w.Note(w.Of("place", &s.Along))
	t := w.Found(say.Of("fitting.between-the-line-the-cloth-hangs-on"), angle, measure.UnitDegree).Unless(why)
	s.Grain = w.Figure(w.Join(id, ".grain"), say.Of("fitting.angle-to-the-lengthwise-grain"), of, t, measure.UnitDegree, grainRule, figure.Derived)
}

// grainAt is the angle between how cloth hangs so far along a hem and its
// lengthwise grain, in degrees from 0 to 90.
func grainAt(round []turn, at float64) (degrees float64, why string) {
	for _, t := range round {
		e, long := t.Edge, t.Edge.Length.Value.Number
		if at > long {
			at -= long
			continue
		}
		if t.backward {
			at = long - at
		}
		p := t.Piece
		_, along, ok := p.Outline.PointOn(e.Name, at)
		x, y := 0.0, 1.0 // the lengthwise grain
		switch p.Grain {
		case "across":
			x, y = 1, 0
		case "bias":
			x, y = math.Sqrt2/2, math.Sqrt2/2
		case "any":
			return 0, say.Of("fitting.its-piece-may-lie-any-way-on")
		}
		if !ok {
			break
		}
		cos := math.Abs(-along.Y*x + along.X*y) // the hem's own normal
		return math.Acos(min(cos, 1)) * 180 / math.Pi, ""
	}
	return 0, say.Of("fitting.it-lies-beyond-the-hem")
}

// levelled sums up a hem: its longest and its least drop.
func (w *trial) levelled(h *Hang, base string) {
	var drops []figure.Term
	h.Lowest = -1
	for i := range h.Stations {
		d := &h.Stations[i].Drop
		if !d.Value.Known() {
			continue
		}
		if drops = append(drops, w.Of(d.Of, d)); h.Lowest < 0 || d.Value.Number > h.Stations[h.Lowest].Drop.Value.Number {
			h.Lowest = i
		}
	}
	longest, least := w.Unknown(say.Of("fitting.no-drop-is-written")), w.Unknown(say.Of("fitting.no-drop-is-written"))
	if len(drops) > 0 {
		longest, least = w.Greatest(drops...), w.Least(drops...)
	}
	h.Longest = w.Figure(w.Join(base, ".longest"), say.Of("fitting.longest-drop"), h.Name, longest, mm, longestRule, figure.Derived)
	h.Least = w.Figure(w.Join(base, ".least"), say.Of("fitting.least-drop"), h.Name, least, mm, say.Of("fitting.the-least-of-the-drops-levelled-the"), figure.Derived)
	spread := w.Of("longest", &h.Longest).Minus(w.Of("least", &h.Least))
	h.Spread = w.Figure(w.Join(base, ".spread"), say.Of("fitting.most-levelled-off"), h.Name, spread, mm, say.Of("fitting.longest-least"), figure.Derived)
}

// hangsAt is how the cloth hangs at the longest drop.
func (w *trial) hangsAt(h *Hang, base string) {
	if h.Lowest < 0 {
		return
	}
	most := &h.Stations[h.Lowest]
	h.OnBias = most.Grain.Value.Known() && math.Abs(most.Grain.Value.Number-45) <= nearBias
	h.Bias = w.Figure(w.Join(base, ".bias"), say.Of("fitting.angle-to-the-lengthwise-grain-at-the"), h.Name, w.Of(most.Grain.Of, &most.Grain), measure.UnitDegree,
		say.Of("fitting.on-the-bias-where-it-lies-within"), figure.OurOwn)
}
