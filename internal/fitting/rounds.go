package fitting

import (
	"math"
	"slices"
	"strconv"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/words"
)

// A Round is a round of fitting with what came of it.
type Round struct {
	Record  *record.Fitting
	Number  int
	Drawn   bool // the record's outlines have its changes in them already
	After   *garment.Garment
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
	Draft *garment.Garment // before any round
	List  []*Round
}

// Rounds works out what every round of fitting, and every change of it, did to
// the finished dimensions, to how seams meet and to the cloth that is cut. The
// garment is the build after its last round, as [garment.Tailor.Derive] gives it.
func (t *Fitter) Rounds(g *garment.Garment) *Rounds {
	b := g.Build
	list := garment.Alterations(b)
	at := func(n int) tried {
		if n == len(list) {
			return t.try(g)
		}
		return t.try(t.tailor.DeriveWith(b, n))
	}
	before, n, style := at(0), 0, t.room.Workroom.Style().One()
	out := &Rounds{Draft: before.Garment}
	for _, f := range b.InOrder() {
		r := &Round{Record: f, Number: f.Round.V, Drawn: f.Drawn.V}
		first := before
		base, title := "round."+strconv.Itoa(r.Number), RoundTitle(r.Number)
		for ; n < len(list) && list[n].Round == f; n++ {
			a := list[n]
			after := at(n + 1)
			c := RoundChange{Record: a.Change, Piece: a.Piece, Words: garment.ChangeWords(a.Change, style)}
			c.Effects = effects(style, base+".change."+strconv.Itoa(len(r.Changes)+1), say.Of("fitting.by", title, c.Piece, c.Words), before, after, a.Change.At)
			r.Changes = append(r.Changes, c)
			before = after
		}
		r.After = before.Garment
		r.Effects = effects(style, base, title, first, before, f.At)
		out.List = append(out.List, r)
	}
	return out
}

// A tried is a garment in one state, with its finished lengths.
type tried struct {
	*garment.Garment
	lengths []*Length
}

func (t *Fitter) try(g *garment.Garment) tried {
	w := t.trial(g)
	w.lengths()
	return tried{g, w.out.Lengths}
}

// leastEffect is the smallest change of a figure that is told, in its own unit: what
// is less is not seen in print.
const leastEffect = 0.05

// effects compares two states of a garment.
func effects(style measure.Style, base, title string, before, after tried, at fault.Pos) []Effect {
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
func AppendEffect(out []Effect, style measure.Style, base, title string, old, f *figure.Figure, of string, at fault.Pos) []Effect {
	known, still := old.Value.Known(), f.Value.Known()
	if !known && !still || known && still && math.Abs(f.Value.Number-old.Value.Number) < leastOf(f) {
		return out
	}
	k := figure.NewPad(style)
	k.Remark(figure.Written, "changed", figure.AsItStands, at, "")
	t := state(k, "after", f).Minus(state(k, "before", old))
	switch {
	case !known:
		t = t.Unless(say.Of("fitting.it-was-not-known-before"))
	case !still:
		t = t.Unless(say.Of("fitting.it-is-not-known-any-more"))
	}
	by := k.Figure(base+"."+f.ID, title, of, t, f.Value.Unit, say.Of("fitting.after-before"), figure.Derived)
	return append(out, Effect{of, old.Value, f.Value, by})
}

// state is a figure of the garment before or after a change. It is no figure of
// the garment as it is, so it names none.
func state(k *figure.Pad, when string, f *figure.Figure) figure.Term {
	if !f.Value.Known() {
		return k.Unknown(f.Value.Why)
	}
	return k.Told(when, f.Value.Number, f.Value.Unit, say.Of("fitting.the-garment-the-change", when))
}

// RoundTitle is what a figure is called that a round changed.
func RoundTitle(round int) string { return say.Of("fitting.changed-at-the", words.Fitting(round)) }

func leastOf(f *figure.Figure) float64 {
	if f.Value.Unit == measure.UnitM2 {
		return leastEffect / 100
	}
	return leastEffect
}

// each calls do with every figure that a fitting is judged by: finished
// dimensions, how seams meet, and the cloth that is cut.
func each(g tried, do func(f *figure.Figure, of string)) {
	for _, l := range g.Levels {
		do(&l.Finished, say.Of("fitting.finished", l.Title))
	}
	for _, l := range g.lengths {
		do(&l.Finished, say.Of("fitting.finished", l.Name))
	}
	for _, s := range g.Seams {
		do(&s.Differ, say.Of("fitting.seam-difference", s.Name))
	}
	for _, n := range g.Notions {
		do(&n.Count, say.Of("fitting.number", n.Record.Name.V))
		if n.Gap.ID != "" {
			do(&n.Gap, say.Of("fitting.spacing", n.Record.Name.V))
		}
	}
	for _, c := range g.Cloths {
		do(&c.CutArea, say.Of("fitting.cloth-cut", c.Part))
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
	add := func(round int, g *garment.Garment) {
		for _, p := range g.Pieces {
			if p.Name != piece || !p.Drawn() {
				continue
			}
			if n := len(out); n == 0 || !Alike(out[n-1].Piece, p) {
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
	Piece *garment.Piece
}

// Alike reports whether two states of a piece are drawn alike.
func Alike(a, b *garment.Piece) bool {
	if len(a.Outline.Edges) != len(b.Outline.Edges) || len(a.Darts) != len(b.Darts) || len(a.PleatFolds) != len(b.PleatFolds) || len(a.Chalked) != len(b.Chalked) || len(a.Lines) != len(b.Lines) || len(a.Gathered) != len(b.Gathered) {
		return false
	}
	const same = 1e-3
	for i := range a.Outline.Edges {
		d, e := a.Outline.Edges[i], b.Outline.Edges[i]
		if d.Curved != e.Curved || d.To.Apart(e.To) > same || d.Curved && (d.C1.Apart(e.C1) > same || d.C2.Apart(e.C2) > same) {
			return false
		}
	}
	for i := range a.Darts {
		if p, q := a.Darts[i].Plan, b.Darts[i].Plan; p.Begin.Apart(q.Begin) > same || p.End.Apart(q.End) > same || p.Point.Apart(q.Point) > same {
			return false
		}
	}
	for i := range min(len(a.Gathered), len(b.Gathered)) {
		if a.Gathered[i].Rows != b.Gathered[i].Rows {
			return false
		}
	}
	if !slices.EqualFunc(a.Beside, b.Beside, func(p, q garment.BesideLine) bool { return p.Edge == q.Edge && p.At == q.At }) {
		return false
	}
	for i := range a.Chalked {
		p, q := &a.Chalked[i], &b.Chalked[i]
		if p.At.Apart(q.At) > same || p.Hole[0].Apart(q.Hole[0]) > same || p.Hole[1].Apart(q.Hole[1]) > same {
			return false
		}
	}
	for i := range a.Lines {
		p, q := a.Lines[i].Points, b.Lines[i].Points
		if len(p) != len(q) || p[0].Apart(q[0]) > same || p[len(p)-1].Apart(q[len(q)-1]) > same {
			return false
		}
	}
	for i := range a.PleatFolds {
		p, q := &a.PleatFolds[i], &b.PleatFolds[i]
		if p.Lines.Place[0].Apart(q.Lines.Place[0]) > same || p.Lines.Outer[0].Apart(q.Lines.Outer[0]) > same || p.Lines.Place[1].Apart(q.Lines.Place[1]) > same || p.Stitched-q.Stitched > same || q.Stitched-p.Stitched > same {
			return false
		}
	}
	return true
}
