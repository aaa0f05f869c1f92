package record

import (
	"cmp"
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/measure"
	"hembook/internal/say"
)

// A Movement is what happened to the length of a cloth on one day.
type Movement struct {
	Kind   MovementKind
	Day    Day    // the zero Day where none is written
	For    string // what was cut off for, as it is written; empty otherwise
	Build  string // the first word of that: the slug of a build, where there is such a one
	Part   string // and the rest: a part of the build
	Lot    string // the dye lot of what came
	Note   string
	Length Length         // counted, come, or cut off
	Left   measure.Length // on the shelf after it
	Known  bool           // whether Left is known
	At     fault.Pos
}

// A MovementKind is what a movement of a cloth is.
type MovementKind int

// The order is that of movements on one day: what came is there before it is
// cut, and what is counted is counted last.
const (
	CameIn MovementKind = iota
	WasCut
	WasCounted
)

// Movements are what came of a cloth, was cut and counted, in the order of the
// days, with what was left after each. What was counted without a day was there
// first; what was cut without one comes last, or before the count where that has
// its day.
func (c *Cloth) Movements() []Movement {
	var list []Movement
	if c.OnHand.Given() {
		list = append(list, Movement{Kind: WasCounted, Day: c.OnHand.Day.V, Length: c.OnHand.Length, At: c.OnHand.Length.At})
	}
	for i := range c.Came {
		a := &c.Came[i]
		day, _ := a.When()
		list = append(list, Movement{Kind: CameIn, Day: day, Length: a.Length, Lot: a.Lot.V, Note: a.Note.V, At: a.Length.At})
	}
	for i := range c.Cut {
		k := &c.Cut[i]
		m := Movement{Kind: WasCut, Day: k.Day.V, For: k.For.V, Length: k.Length, Note: k.Note.V, At: k.Length.At}
		m.Build, m.Part, _ = strings.Cut(k.For.V, " ")
		list = append(list, m)
	}
	counted := c.OnHand.Day.V
	slices.SortStableFunc(list, func(a, b Movement) int {
		return cmp.Or(cmp.Compare(a.turn(counted), b.turn(counted)), a.Day.Time().Compare(b.Day.Time()), cmp.Compare(a.Kind, b.Kind))
	})
	left, known := measure.Length(0), len(c.Came) > 0 // where nothing came there is no knowing before a count
	for i := range list {
		m := &list[i]
		switch m.Kind {
		case WasCounted:
			left, known = m.Length.V, true
		case CameIn:
			left += m.Length.V
		case WasCut:
			left -= m.Length.V
		}
		m.Left, m.Known = left, known
	}
	return list
}

// turn says whether a movement comes before all that have a day, among them or
// after them.
func (m *Movement) turn(counted Day) int {
	none := Day{}
	switch {
	case m.Day != none:
		return 0
	case m.Kind == WasCut && counted == none:
		return 1
	}
	return -1
}

// SinceCounted are the movements that what is on the shelf today is reckoned from:
// the last count and all after it.
func (c *Cloth) SinceCounted() []Movement {
	list := c.Movements()
	for i := len(list) - 1; i >= 0; i-- {
		if list[i].Kind == WasCounted {
			return list[i:]
		}
	}
	return list
}

// IsOver reports whether a remnant is no longer there for a build: another has it.
func (r *Remnant) IsOver(slug string) bool { return r.Used.Given() && r.Used.V != slug }

// When is the day a length came; false where what is written is no day.
func (a *Arrival) When() (Day, bool) {
	day, bad := readDay(nil, a.Day.V, limits{})
	return day, bad == nil
}

// HasCut reports whether a part of the build is cut from a cloth: the cloth's record
// says so, or the build is past cutting.
func (b *Build) HasCut(c *Cloth, part string) bool {
	return slices.Contains([]string{"sewing", "finishing", "packed", "sent"}, b.State.V) ||
		slices.ContainsFunc(c.Cut, func(k CutOff) bool { return k.For.V == b.Slug+" "+part })
}

// Less than this on the shelf is a tape that lay a little differently.
const tapeSlack = 10 * measure.Millimetre

// checkLedger looks at what a cloth's record says of its length.
func (r *Room) checkLedger(c *Cloth, faults *fault.Faults) {
	for i := range c.Came {
		a := &c.Came[i]
		if _, ok := a.When(); !ok {
			faults.Wrong(a.Day.At, say.Of("record.write-the-day-it-came-as-2026"), say.Of("record.is-not-a-date", say.Quoted(fault.Shorten(a.Day.V))))
			return
		}
	}
	var style measure.Style
	if r.Workroom != nil {
		style = r.Workroom.Style()
	}
	before := measure.Length(0)
	for _, m := range c.Movements() {
		if m.Kind == WasCut && m.Known && m.Left < -tapeSlack {
			was := "nothing"
			if before > 0 {
				was = say.Of("record.only", style.Cloth(before))
			}
			faults.Wrong(m.At, say.Of("record.see-what-came-and-what-was-cut", c.Slug),
				say.Of("record.was-cut-off-for-and-was-left", style.Cloth(m.Length.V), m.For, was))
			break
		}
		before = m.Left
	}
	for i := range c.Cut {
		k := &c.Cut[i]
		if c.OnHand.Day.Given() && !k.Day.Given() {
			faults.LookAgain(k.For.At, say.Of("record.write-its-day"), say.Of("record.it-does-not-say-whether-was-cut", k.For.V, c.OnHand.Day.V))
		}
		r.knownBuild(k.For, faults)
	}
	for i := range c.Remnants {
		rest := &c.Remnants[i]
		if rest.From.Given() {
			r.knownBuild(rest.From, faults)
		}
		if rest.Used.Given() {
			r.knownBuild(rest.Used, faults)
		}
	}
}

// knownBuild asks about a text whose first word is nearly the slug of a build.
func (r *Room) knownBuild(text Text, faults *fault.Faults) {
	slug, _, _ := strings.Cut(text.V, " ")
	if _, known := r.BuildNamed(slug); known {
		return
	}
	if near := meant.Nearest(slug, r.BuildSlugs()); near != "" {
		faults.LookAgain(text.At, meant.Ask(near), say.Of("record.there-is-no-garment", say.Quoted(slug))).InsteadAt(text.At, slug, near)
	}
}
