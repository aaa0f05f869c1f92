package garment

import (
	"slices"

	"hembook/internal/record"
	"hembook/internal/words"
)

// levelsOfSide gives one of a pair that goes round a limb levels of its own, as left bicep:
// the two are measured one by one.
func (w *derivation) levelsOfSide(p *Piece) {
	f, hand := &p.form, p.Record.Hand
	if hand == "" || !p.onArmOrLeg() {
		return
	}
	own := func(level string) string {
		if _, rest, ok := record.Handed(level); ok {
			level = rest // of the one it is the mirror image of
		}
		if plain := words.Plain(level); slices.Contains(bodyOrder, plain) && !slices.Contains(limbs, plain) && plain != "hem" {
			return level
		}
		return string(hand) + " " + level
	}
	f.levels = slices.Clone(f.levels)
	corners := map[string][]string{}
	for i := range f.levels {
		l := &f.levels[i].Name
		list, bound := f.corners[l.V]
		if l.V = own(l.V); bound {
			corners[l.V] = list
		}
	}
	if f.corners != nil {
		f.corners = corners
	}
	for i := range f.notes {
		if n := &f.notes[i]; n.level.Given() {
			n.level.V = own(n.level.V)
		}
	}
}

// onArmOrLeg reports whether a piece goes round a limb by its name, or by a level.
func (p *Piece) onArmOrLeg() bool {
	return words.AnyOf(p.Name, limbPieces) || slices.ContainsFunc(p.form.levels, func(l record.Named[record.Length]) bool {
		_, rest, ok := record.Handed(l.Name.V)
		if !ok {
			rest = l.Name.V
		}
		return slices.Contains(limbs, words.Plain(rest))
	})
}

// sideless are the names that levels at one side of the body have for both.
func sideless(levels []string) (out []string) {
	for _, name := range levels {
		if _, both, ok := record.Handed(name); ok && !slices.Contains(levels, both) && !slices.Contains(out, both) {
			out = append(out, both)
		}
	}
	return out
}
