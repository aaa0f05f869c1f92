package compose

import (
	"hembook/internal/fitting"
	"strconv"
	"strings"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/garment"
	"hembook/internal/notebook"
	"hembook/internal/record"
)

// fittings tells of the rounds of fitting: what was seen, what was changed and
// what that did; then the pieces with the lines of all rounds.
func fittings(d *Draft, b *notebook.BuildPage) {
	for i := range b.Fittings {
		f := &b.Fittings[i]
		round := document.Section{As: "round", Level: 3, Head: "Round " + strconv.Itoa(f.Round)}
		round.Blocks = d.Within(func() {
			when := notebook.DayWords(f.On)
			if f.From != "" {
				when += ", " + f.From
			}
			d.Add(document.Text{As: document.Byline, Phrase: d.Phrase(document.Say(when))})
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
	d.overlays(b)
}

// change says one change in words.
func (d *Draft) change(c *record.Change) document.Phrase {
	piece, words := "", ""
	if ref, ok := c.Part(); ok {
		piece, words = ref.Piece, " "
		if c.Does() {
			words += garment.ChangeWords(c, d.Style)
		} else {
			words += ref.Edge
		}
		if c.Alone.V {
			words += ", this piece alone"
		}
		if c.Note.Given() {
			words += ": "
		}
	}
	agreed := ""
	if c.Agreed.Given() {
		agreed = "agreed by " + c.Agreed.V
	}
	return d.Phrase(document.As(document.Strong, piece), document.Say(words+c.Note.V), document.As(document.Small, agreed))
}

// effects lists what a round did, and each of its changes where there are
// several.
func (d *Draft) effects(rounds []notebook.Round, number int) {
	for _, r := range rounds {
		if r.Number != number || len(r.Changes) == 0 {
			continue
		}
		t := d.Table("What round "+strconv.Itoa(number)+" did", document.Words("change"), document.Words("to"),
			document.Figures("before"), document.Figures("after"), document.Figures("changed by"))
		if len(r.Changes) > 1 {
			for i := range r.Changes {
				c := &r.Changes[i]
				d.effectRows(t, c.Piece+" "+c.Words, c.Effects)
			}
		}
		d.effectRows(t, "the whole round", r.Effects)
		t.End()
		if r.Drawn {
			d.Note("The outlines of the record were drawn anew with this round; the line before it is worked back from them.")
		}
	}
}

func (d *Draft) effectRows(t *document.TableDraft, name string, list []fitting.Effect) {
	if len(list) == 0 {
		t.Row(name).Words("nothing that is measured")
		return
	}
	for i := range list {
		e := &list[i]
		if i == 0 {
			t.Row(name)
		} else { // a row without a name says nothing to who cannot see the one above
			t.RowOf(document.As(document.Small, "the same"))
		}
		t.Words(e.Of).Cell(d.value(e.Before)).Cell(d.value(e.After)).Figures(&e.By)
	}
}

// overlays draws every piece that a round altered with the lines of all rounds.
func (d *Draft) overlays(b *notebook.BuildPage) {
	if len(b.States) == 0 {
		return
	}
	d.Add(document.Turn{}, document.Heading{Level: 3, Words: "Line over line"})
	d.Note("The sewing lines of the draft and of each round, each with a dash of its own; pieces that are like another follow it.")
	var all document.Sketches
	for _, states := range b.States {
		piece := states[len(states)-1].Piece
		scale := scaleOf(piece)
		all.Of = append(all.Of, document.Sketch{Caption: piece.Name + ", " + scaleWords(scale), Draw: func() *drawing.Drawing {
			return draw.Rounds(states, draw.PieceStyle{Scale: scale, Measure: d.Style, Numbers: d.numbers})
		}})
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
			drawn = append(drawn, strconv.Itoa(r.Number))
		}
	}
	s := "Pieces and figures are as of round " + strconv.Itoa(b.Round) + " of the fittings"
	if len(drawn) > 0 && len(drawn) < len(b.Rounds) {
		s += "; the record's own outlines show round " + strings.Join(drawn, ", ")
	}
	return s + "."
}
