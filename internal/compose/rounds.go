package compose

import (
	"math"
	"slices"
	"strings"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/fitting"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/notebook"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/words"
)

// fittings tells of the rounds of fitting: what was seen, what was changed and
// what that did; first of all the pieces with the lines of all rounds.
func fittings(d *Draft, b *notebook.BuildPage) {
	d.overlays(b)
	for i := range b.Fittings {
		f := &b.Fittings[i]
		round := document.Section{ID: f.Anchor, As: "round", Level: 3, Head: fittingHead(f)}
		round.Blocks = d.Within(func() {
			if by := fittingBy(f); by != "" {
				d.Add(document.Text{As: document.Byline, Phrase: d.Phrase(document.Say(by))})
			}
			d.Say(document.Say(f.Saw))
			if len(f.Changes) > 0 {
				var list document.List
				for k := range f.Changes {
					list.Items = append(list.Items, document.Item{Phrase: d.change(&f.Changes[k])})
				}
				d.Add(list)
			}
			d.photo(f.Picture, Column)
			d.effects(b.Rounds, f.Round)
		})
		d.Add(document.Turn{}, round)
	}
}

// fittingBy says how the fit was seen, and when the garment was away for it.
func fittingBy(f *notebook.Fitting) string {
	by := []string{f.From}
	if day := f.Posted.Words(); day != "" {
		by = append(by, say.Of("compose.posted", day))
	}
	if day := f.Back.Words(); day != "" {
		by = append(by, say.Of("compose.back", day))
	}
	return strings.Join(slices.DeleteFunc(by, func(s string) bool { return s == "" }), ", ")
}

// fittingHead names a fitting with its day.
func fittingHead(f *notebook.Fitting) string {
	head := notebook.StateWords(words.Fitting(f.Round))
	if day := f.On.Words(); day != "" {
		head += ", " + day
	}
	return head
}

// change says one change in words.
func (d *Draft) change(c *record.Change) document.Phrase {
	piece, says := "", ""
	if ref, ok := c.Part(); ok {
		piece, says = ref.Piece, " "
		if c.Does() {
			says += garment.ChangeWords(c, d.Style)
		} else {
			says += ref.Edge
		}
		if c.Alone.V {
			says += say.Of("compose.this-piece-alone")
		}
		if c.Note.Given() {
			says += ": "
		}
	}
	agreed := ""
	if c.Agreed.Given() {
		agreed = say.Of("compose.agreed-by", c.Agreed.V)
	}
	return d.Phrase(document.As(document.Strong, piece), document.Say(says+c.Note.V), document.As(document.Small, agreed))
}

// effects lists what a round did; and where several of its changes were felt, what each
// did by itself.
func (d *Draft) effects(rounds []notebook.Round, number int) {
	for _, r := range rounds {
		if r.Number != number || len(r.Changes) == 0 {
			continue
		}
		all := felt(r.Effects)
		if len(all) == 0 {
			d.Note(say.Of("compose.nothing-that-is-measured"))
		} else {
			t := d.Table(say.Of("compose.what-it-changed"), append([]document.Column{document.Words(say.Of("compose.effect-on"))}, beforeAndAfter()...)...)
			for i := range all {
				d.effect(t.Row(all[i].Of), &all[i])
			}
			t.End()
		}
		d.eachAlone(r.Changes)
		if r.Drawn {
			d.Note(say.Of("compose.i-drew-the-outlines-again-after-this"))
		}
	}
}

// eachAlone lists what each of several changes did, of those that were felt.
func (d *Draft) eachAlone(list []fitting.RoundChange) {
	list = slices.DeleteFunc(slices.Clone(list), func(c fitting.RoundChange) bool { return len(felt(c.Effects)) == 0 })
	if len(list) < 2 {
		return
	}
	t := d.Table(say.Of("compose.each-change-by-itself"), append([]document.Column{document.Words(say.Of("compose.changed")), document.Words(say.Of("compose.effect-on"))}, beforeAndAfter()...)...)
	for i := range list {
		c := &list[i]
		for k, e := range felt(c.Effects) {
			if k == 0 {
				t.Row(c.Piece + " " + c.Words)
			} else {
				t.Below()
			}
			d.effect(t.Words(e.Of), &e)
		}
	}
	t.End()
}

func beforeAndAfter() []document.Column {
	return []document.Column{document.Figures(say.Of("compose.before")), document.Figures(say.Of("compose.after")), document.Figures(say.Of("compose.difference"))}
}

// effect adds the figures of one.
func (d *Draft) effect(t *document.TableDraft, e *fitting.Effect) {
	t.Cell(d.value(e.Before)).Cell(d.value(e.After)).Figures(&e.By)
}

// leastFelt is the change of an area, in mm², from which on it is told: a square
// decimetre. What changes a length by less than half a millimetre nobody sews.
const leastFelt = 10_000

// felt are the effects that one could measure.
func felt(list []fitting.Effect) (out []fitting.Effect) {
	for _, e := range list {
		by := e.By.Value
		small := by.Known() && (by.Unit == measure.UnitMM && math.Abs(by.Number) < 0.5 || by.Unit == measure.UnitM2 && math.Abs(by.Number)*1e6 < leastFelt)
		if !small {
			out = append(out, e)
		}
	}
	return out
}

// leastBeside is how many times smaller than it could be a piece may be drawn, to be at one
// scale with those beside it.
const leastBeside = 2.5

// overlays draws every piece that a round altered with the lines of all rounds.
func (d *Draft) overlays(b *notebook.BuildPage) {
	if len(b.States) == 0 {
		return
	}
	d.Add(document.Turn{}, document.Heading{Level: 3, ID: "before-and-after", Words: say.Of("compose.before-and-after")})
	d.Note(say.Of("compose.only-lines-that-moved-are-coloured-one"))
	var all document.Sketches
	last := func(states []fitting.PieceState) *garment.Piece { return states[len(states)-1].Piece }
	together := 0.0 // one scale for all, but for what would be too small in it
	for _, states := range b.States {
		together = max(together, scaleOf(last(states)))
	}
	for _, states := range b.States {
		piece := last(states)
		scale := scaleOf(piece)
		if together <= leastBeside*scale {
			scale = together
		}
		style := draw.PieceStyle{Scale: scale, Measure: d.Style, Numbers: d.numbers}
		all.Of = append(all.Of, document.Sketch{Caption: piece.Name + ", " + scaleWords(scale),
			Draw:   func() *drawing.Drawing { return draw.Rounds(states, style) },
			Beside: func() *drawing.Drawing { return draw.Lenses(states, style) }})
	}
	d.Add(all)
}

// asOf says after which round of fitting the figures of a page stand.
func asOf(b *notebook.BuildPage) string {
	if b.Round == 0 || len(b.Rounds) == 0 {
		return ""
	}
	var drawn []string
	for _, r := range b.Rounds {
		if r.Drawn {
			drawn = append(drawn, words.Fitting(r.Number))
		}
	}
	s := say.Of("compose.after-the", words.Fitting(b.Round))
	if len(drawn) > 0 && len(drawn) < len(b.Rounds) {
		s += say.Of("compose.the-outlines-in-the-record-show-the", strings.Join(drawn, ", the "))
	}
	return s
}
