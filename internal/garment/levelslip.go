package garment

import (
	"slices"

	"hembook/internal/meant"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/words"
)

// checkMarks warns of levels that a piece marks in a word that is that of no body and
// of no other piece, but near to one: its width would be missing where it was meant.
func (w *levelReckoner) checkMarks() {
	type mark struct {
		piece *Piece
		name  record.Text
	}
	var marks []mark
	for _, p := range w.g.Pieces {
		r := p.Record
		add := func(name record.Text) {
			if name.Given() && name.V != "" && name.V != noLevel {
				marks = append(marks, mark{p, name})
			}
		}
		for i := range r.Levels {
			add(r.Levels[i].Name)
		}
		if r.Outline != nil {
			for i := range r.Outline.Edges {
				add(r.Outline.Edges[i].Level)
			}
		}
		for i := range r.Edges {
			add(r.Edges[i].V.Level)
		}
	}
	for _, m := range marks {
		plain := words.Plain(m.name.V)
		if _, body := w.body[plain]; body || slices.Contains(bodyOrder, plain) || slices.Contains(limbs, plain) {
			continue
		}
		known := append(slices.Clone(bodyOrder), limbs...)
		alone := true
		for _, o := range marks {
			switch {
			case o.piece == m.piece:
			case o.name.V == m.name.V:
				alone = false
			default:
				known = append(known, o.name.V)
			}
		}
		for _, list := range [...]record.Dict[record.Length]{w.b.DraftedFor, w.b.Measured} {
			for i := range list {
				alone = alone && list[i].Name.V != m.name.V
			}
		}
		for i := range w.b.Levels {
			alone = alone && w.b.Levels[i].Name.V != m.name.V
		}
		near := meant.Nearest(m.name.V, known)
		if !alone || near == "" {
			continue
		}
		w.faults.LookAgain(m.name.At, meant.Ask(near), say.Of("garment.no-body-and-no-other-piece-has", say.Quoted(m.name.V))).Instead(m.name.V, near)
		w.g.doubtful = append(w.g.doubtful, m.name.V, near)
	}
}

// Doubtful reports whether a level is probably marked under another word, or is that
// word, or a piece that crosses it has pleats that cannot be folded, so that nothing
// follows from its width.
func (g *Garment) Doubtful(level string) bool { return slices.Contains(g.doubtful, level) }
