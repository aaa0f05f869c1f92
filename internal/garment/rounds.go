package garment

import (
	"math"
	"strconv"

	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/shape"
)

// A Round is a round of fitting with what came of it.
type Round struct {
	Record  *record.Fitting
	Number  int
	Drawn   bool // the record's outlines have its changes in them already
	After   *Garment
	Changes []RoundChange // those that alter a line, in the order of the record
	Effects []Effect      // of the whole round
}

// A RoundChange is a change of a round with what it did.
type RoundChange struct {
	Record  *record.Change
	Piece   string
	Words   string // "side moved 4 mm outwards"
	Effects []Effect
}

// An Effect is what a round, or one of its changes, did to a figure.
type Effect struct {
	Of     string // "waist, finished width"
	Before figure.Value
	After  figure.Value
	By     figure.Figure // after − before
}

// Rounds are the rounds of fitting in order, and the garment as drafted.
type Rounds struct {
	Draft *Garment // before any round
	List  []*Round
}

// DeriveAt works out a build as it was after a round of fitting; 0 is the
// draft. A round that the record does not have is that of the last before it.
func (t *Tailor) DeriveAt(b *record.Build, round int) *Garment {
	list := alterations(b)
	n := 0
	for n < len(list) && list[n].round.Round.V <= round {
		n++
	}
	g := t.derive(b, list, n)
	g.Round = 0
	for _, f := range b.InOrder() {
		if f.Round.V <= round {
			g.Round = f.Round.V
		}
	}
	return g
}

// Rounds works out what every round of fitting, and every change of it, did to
// the finished dimensions, to how seams meet and to the cloth that is cut. The
// garment is the build after its last round, as [Tailor.Derive] gives it.
func (t *Tailor) Rounds(g *Garment) *Rounds {
	b := g.Build
	list := alterations(b)
	at := func(n int) *Garment {
		if n == len(list) {
			return g
		}
		return t.derive(b, list, n)
	}
	out, style := &Rounds{Draft: at(0)}, t.room.Workroom.Style().One()
	before, n := out.Draft, 0
	for _, f := range b.InOrder() {
		r := &Round{Record: f, Number: f.Round.V, Drawn: f.Drawn.V}
		first := before
		base, title := "round."+strconv.Itoa(r.Number), RoundTitle(r.Number)
		for ; n < len(list) && list[n].round == f; n++ {
			a := list[n]
			after := at(n + 1)
			c := RoundChange{Record: a.change, Piece: a.piece, Words: ChangeWords(a.change, style)}
			c.Effects = effects(style, base+".change."+strconv.Itoa(len(r.Changes)+1), title+" by "+c.Piece+" "+c.Words, before, after, a.change.At)
			r.Changes = append(r.Changes, c)
			before = after
		}
		r.After = before
		r.Effects = effects(style, base, title, first, before, f.At)
		out.List = append(out.List, r)
	}
	return out
}

// leastEffect is the smallest change of a figure that is told, in its own unit: what
// is less is not seen in print.
const leastEffect = 0.05

// effects compares two states of a garment.
func effects(style measure.Style, base, title string, before, after *Garment, at record.Pos) []Effect {
	was := map[string]*figure.Figure{}
	each(before, func(f *figure.Figure, _ string) { was[f.ID] = f })
	var out []Effect
	each(after, func(f *figure.Figure, of string) {
		if old, ok := was[f.ID]; ok {
			out = AppendEffect(out, style, base, title, old, f, of, at)
		}
	})
	return out
}

// AppendEffect adds what became of a figure, where anything did; its working is
// in the units given.
func AppendEffect(out []Effect, style measure.Style, base, title string, old, f *figure.Figure, of string, at record.Pos) []Effect {
	known, still := old.Value.Known(), f.Value.Known()
	if !known && !still || known && still && math.Abs(f.Value.Number-old.Value.Number) < leastOf(f) {
		return out
	}
	k := figure.NewPad(style)
	k.Remark(figure.Written, "changed", figure.AsItStands, at, "")
	t := state(k, "after", f).Minus(state(k, "before", old))
	switch {
	case !known:
		t = t.Unless("it was not known before")
	case !still:
		t = t.Unless("it is not known any more")
	}
	by := k.Figure(base+"."+f.ID, title, of, t, f.Value.Unit, "after − before", figure.Derived)
	return append(out, Effect{of, old.Value, f.Value, by})
}

// state is a figure of the garment before or after a change. It is no figure of
// the garment as it is, so it names none.
func state(k *figure.Pad, when string, f *figure.Figure) figure.Term {
	if !f.Value.Known() {
		return k.Unknown(f.Value.Why)
	}
	return k.Told(when, f.Value.Number, f.Value.Unit, "the garment "+when+" the change")
}

// RoundTitle is what a figure is called that a round changed.
func RoundTitle(round int) string { return "changed in round " + strconv.Itoa(round) }

func leastOf(f *figure.Figure) float64 {
	if f.Value.Unit == measure.UnitM2 {
		return leastEffect / 100
	}
	return leastEffect
}

// each calls do with every figure that a fitting is judged by: finished
// dimensions, how seams meet, and the cloth that is cut.
func each(g *Garment, do func(f *figure.Figure, of string)) {
	for _, l := range g.Levels {
		do(&l.Finished, l.Title+", finished")
	}
	for _, l := range g.Lengths {
		do(&l.Finished, l.Name+", finished")
	}
	for _, s := range g.Seams {
		do(&s.Differ, "seam "+s.Name+", sides apart")
	}
	for _, c := range g.Cloths {
		do(&c.CutArea, c.Part+", cloth cut")
	}
}

// Figures returns every figure of the rounds in order.
func (r *Rounds) Figures() []figure.Figure {
	var out []figure.Figure
	for _, round := range r.List {
		for _, c := range round.Changes {
			for _, e := range c.Effects {
				out = append(out, e.By)
			}
		}
		for _, e := range round.Effects {
			out = append(out, e.By)
		}
	}
	return out
}

// Any reports whether any round altered a line.
func (r *Rounds) Any() bool {
	for _, round := range r.List {
		if len(round.Changes) > 0 {
			return true
		}
	}
	return false
}

// Of lists the states of one piece, the draft first, leaving out rounds after
// which its sewing line is as it was. What cannot be known is left out too.
func (r *Rounds) Of(piece string) []PieceState {
	var out []PieceState
	add := func(round int, g *Garment) {
		for _, p := range g.Pieces {
			if p.Name != piece || p.form.why != "" {
				continue
			}
			if n := len(out); n == 0 || !alike(out[n-1].Piece, p) {
				out = append(out, PieceState{round, p})
			}
			return
		}
	}
	add(0, r.Draft)
	for _, round := range r.List {
		add(round.Number, round.After)
	}
	return out
}

// A PieceState is a piece as it was after a round; 0 is the draft.
type PieceState struct {
	Round int
	Piece *Piece
}

// alike reports whether two states of a piece are drawn alike.
func alike(a, b *Piece) bool {
	if len(a.Outline.Edges) != len(b.Outline.Edges) || len(a.Darts) != len(b.Darts) {
		return false
	}
	const same = 1e-3
	for i := range a.Outline.Edges {
		d, e := a.Outline.Edges[i], b.Outline.Edges[i]
		if d.Curved != e.Curved || apart(d.To, e.To) > same || d.Curved && (apart(d.C1, e.C1) > same || apart(d.C2, e.C2) > same) {
			return false
		}
	}
	for i := range a.Darts {
		if p, q := a.Darts[i].Plan, b.Darts[i].Plan; apart(p.Begin, q.Begin) > same || apart(p.End, q.End) > same || apart(p.Point, q.Point) > same {
			return false
		}
	}
	return true
}

func apart(a, b shape.Point) float64 {
	d := a.Sub(b)
	return math.Max(math.Abs(d.X), math.Abs(d.Y))
}
