package garment

import (
	"math"
	"slices"
	"strings"

	"hembook/internal/figure"
	"hembook/internal/say"
	"hembook/internal/sewn"
	"hembook/internal/words"
)

// girths walks a level over the outermost layer that bears it. What lies behind
// is left out, unless nothing else bears the level.
func (w *girthWalk) girths(level string) []sewn.Girth {
	for _, layer := range w.layers() {
		if list := w.girthsIn(level, layer); len(list) > 0 {
			return list
		}
	}
	return nil
}

// walkedIn walks a level over a layer, once.
func (w *girthWalk) walkedIn(level, layer string) []sewn.Girth {
	at := [2]string{level, layer}
	list, met := w.girthsAt[at]
	if !met {
		if w.girthsAt == nil {
			w.girthsAt = map[[2]string][]sewn.Girth{}
		}
		list = w.g.Sewn.Walk(level, layer)
		w.girthsAt[at] = list
	}
	return list
}

func (w *girthWalk) girthsIn(level, layer string) []sewn.Girth {
	all := w.walkedIn(level, layer)
	front := slices.DeleteFunc(slices.Clone(all), func(g sewn.Girth) bool { return g.Behind })
	if len(front) > 0 {
		return front
	}
	return all
}

// Fast reports whether nothing of a level can be let out, for something holds it.
func (l *Level) Fast() bool {
	return l.HeldBy != "" && l.LetOut.Value.Known() && l.LetOut.Value.Number < 1e-6
}

// crossings lists the pieces that go round at a level, in the order of the
// record, with how often each does.
func (w *girthWalk) crossings(level string, girths []sewn.Girth) (out []crossing, why string) {
	type part struct{ piece, edge string }
	times := map[part]int{}
	for i := range girths {
		for k := range girths[i].Chords {
			ch := &girths[i].Chords[k]
			times[part{w.g.Sewn.Copies[ch.Copy].Name, ch.Edge}]++
		}
	}
	for _, p := range w.g.Pieces {
		for k := range p.Edges {
			e := &p.Edges[k]
			if n := times[part{p.Name, e.Name}]; n > 0 && e.Level == level {
				if !e.Sewn.Value.Known() {
					why = say.Of("garment.the-length-of-is-not-known", e.ref)
				}
				out = append(out, crossing{piece: p, edge: e, width: e.sewn, times: n, fig: &e.Sewn})
			}
		}
		n := times[part{p.Name, ""}]
		if n == 0 {
			continue
		}
		if each := len(w.g.Sewn.Across(p.Name, level)); each > 0 {
			n = n / each
		}
		if p.OnFold {
			n = (n + 1) / 2 // both halves are one piece
		}
		for i := range p.AtLevels {
			if a := &p.AtLevels[i]; a.Level == level {
				if !a.Width.Value.Known() {
					why = say.Of("garment.the-width-of-is-not-known", a.Width.Of, a.Width.Value.Why)
				}
				out = append(out, crossing{piece: p, y: p.form.levels[i].V, width: a.Width.Value.Number, times: max(n, 1), fig: &a.Width})
			}
		}
	}
	return out, why
}

// undrawn says which piece should go round at a level but has no outline or no
// width there.
func (w *girthWalk) undrawn(level string) string {
	for _, p := range w.g.Pieces {
		if !p.marks(level) || len(w.g.Sewn.Across(p.Name, level)) > 0 {
			continue
		}
		for i := range p.AtLevels {
			if a := &p.AtLevels[i]; a.Level == level && !a.Width.Value.Known() {
				return say.Of("garment.the-width-of-is-not-known", a.Width.Of, a.Width.Value.Why)
			}
		}
	}
	return ""
}

// limbsOf is how many limbs a level goes round: as many as there are ways round
// that are like each other, pieces and lengths.
func limbsOf(l *Level, s *sewn.Surface) int {
	n := len(l.Girths)
	if n > 1 && alikeAll(l.Girths, s) && l.Girths[0].Closed {
		return n
	}
	if slices.Contains(limbs, words.Plain(l.Name)) && evenly(l.cross) && !(n == 1 && l.Girths[0].Closed) {
		return 2
	}
	return 1
}

func alikeAll(list []sewn.Girth, s *sewn.Surface) bool {
	for i := range list {
		g := &list[i]
		if g.Closed != list[0].Closed || math.Abs(g.Length-list[0].Length) > 0.05 || piecesOf(g, s) != piecesOf(&list[0], s) {
			return false
		}
	}
	return true
}

// piecesOf names the pieces that a girth runs over, each as often as it does.
func piecesOf(g *sewn.Girth, s *sewn.Surface) string {
	var names []string
	for k := range g.Chords {
		names = append(names, s.Copies[g.Chords[k].Copy].Name)
	}
	slices.Sort(names)
	return strings.Join(names, "\n")
}

// girthUnsure says why it cannot be told how far round a level goes; empty where
// it can.
func (w *girthWalk) girthUnsure(l *Level) string {
	for _, q := range w.g.Asked {
		for _, name := range q.Pieces[:min(1, len(q.Pieces))] {
			if !slices.ContainsFunc(l.cross, func(c crossing) bool { return c.piece.Name == name }) {
				continue
			}
			switch q.Kind {
			case sewn.BesideOrBehind:
				if slices.ContainsFunc(l.cross, func(c crossing) bool { return c.piece.Name == q.Pieces[1] }) {
					return w.Join(name, " is like ", q.Pieces[1], " and nothing tells whether it lies beside it or behind it: join its edges in seams, or measure the garment")
				}
			case sewn.RingOrTubes:
				return w.Join("two of ", name, " sewn to each other make one ring or two tubes, and nothing tells which: give it a level it goes round, as hip, or as thigh or upper arm")
			}
		}
	}
	if len(l.Girths) < 2 || alikeAll(l.Girths, w.g.Sewn) {
		return ""
	}
	closed := 0
	for i := range l.Girths {
		if l.Girths[i].Closed {
			closed++
		}
	}
	switch {
	case closed == 0:
		return ""
	case closed < len(l.Girths):
		k := slices.IndexFunc(l.Girths, func(g sewn.Girth) bool { return !g.Closed })
		return w.Join(w.g.Sewn.Copies[l.Girths[k].Chords[0].Copy].Name, " is not joined to the pieces that go round here: join its edges in seams, or take the level off it")
	}
	first, second := &l.Girths[0], &l.Girths[1]
	return w.Join("it goes round twice, once over ", w.g.Sewn.Copies[first.Chords[0].Copy].Name, " (", w.tape().Tenth(first.Length), ") and once over ",
		w.g.Sewn.Copies[second.Chords[0].Copy].Name, " (", w.tape().Tenth(second.Length), "): give one of them another name")
}

// chordTerm is how wide a piece is from one end of a level to the other.
func (w *derivation) chordTerm(ch *sewn.Chord) figure.Term {
	var t figure.Term
	switch {
	case ch.Arc > 0:
		t = w.Found("arc", ch.Length+ch.Taken, mm)
	case ch.From.Y == ch.To.Y:
		t = w.Constant(ch.To.X, mm).Minus(w.Constant(ch.From.X, mm))
	default:
		t = w.Apart(ch.From.X, ch.From.Y, ch.To.X, ch.To.Y)
	}
	for _, taken := range ch.Darts {
		t = t.Minus(w.Found("dart", taken, mm))
	}
	for _, taken := range ch.Pleats {
		t = t.Minus(w.Found("pleat", taken, mm))
	}
	return t
}
