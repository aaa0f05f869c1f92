package sheet

import (
	"cmp"
	"math"
	"strconv"
	"strings"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/fitting"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/record"
)

// newestRound is the last round of fitting that alters a line, and the garment as it was
// before; nil where none does.
func (f *facts) newestRound() (before *garment.Garment, r *fitting.Round) {
	all := f.cutting.Rounds
	if all == nil {
		return nil, nil
	}
	last := all.Draft
	for _, one := range all.List {
		if len(one.Changes) > 0 {
			before, r = last, one
		}
		last = one.After
	}
	return before, r
}

// proposal is what the last round of fitting would change, to be agreed by the wearer.
func proposal(c *composer, own cardOpened) {
	before, r := c.newestRound()
	about := c.t.say("propose.round", "n", r.Number)
	if r.Record.On.Given() {
		about += " · " + c.day(r.Record.On.V)
	}
	c.titled("sheet.fit", own.Wearer, about)
	c.heading("propose.saw")
	c.Say(c.own(r.Record.Saw)...)
	c.heading("propose.lines")
	c.proposedLines(before, r)
	c.felt(before, r.After)
	c.Say(document.Say(c.t.say("propose.rest")))
	var asks []document.FreeAsk
	for i := range r.Changes {
		change := r.Changes[i].Record
		title := strings.ToUpper(changeName(i)) + "  " + c.changed(change)
		if change.Note.Given() {
			title += " (" + c.ownAlone(change.Note) + ")"
		}
		asks = append(asks, document.FreeAsk{Name: changeName(i), Title: title,
			Options: []document.AskOption{{Name: "yes", Title: c.t.say("ask.yes")}, {Name: "no", Title: c.t.say("ask.no")}}})
	}
	asks = append(asks, document.FreeAsk{Name: "by", Title: upper(c.t.say("ask.name"))}, document.FreeAsk{Name: "note", Title: upper(c.t.say("propose.remark")), Long: true})
	form := c.answered("proposal", asks)
	form.Begins = append(form.Begins, "round: "+strconv.Itoa(r.Number))
	c.heading("propose.answer")
	c.Add(form)
}

// changeName names the changes of a round by their order: a, b, c.
func changeName(i int) string { return string(rune('a' + i%26)) }

// proposedLines draws every piece that the round alters, as it is and as it is to be.
func (c *composer) proposedLines(before *garment.Garment, r *fitting.Round) {
	says := []string{c.t.say("propose.was"), c.t.say("propose.becomes")}
	var altered [][]fitting.PieceState
	for _, now := range r.After.Pieces {
		if !now.Drawn() {
			continue
		}
		for _, was := range before.Pieces {
			if was.Name == now.Name && was.Drawn() && !fitting.Alike(was, now) {
				altered = append(altered, []fitting.PieceState{{Round: 0, Piece: was}, {Round: 1, Piece: now}})
			}
		}
	}
	wide, high := pieceWide, pieceHigh
	if len(altered) <= 2 { // then there is room for larger ones
		wide, high = 1.6*wide, 1.4*high
	}
	var all document.Sketches
	for _, states := range altered {
		now := states[1].Piece
		least, most := now.Bounds()
		scale := draw.ScaleFor(most.X-least.X, most.Y-least.Y, wide, high)
		style := draw.PieceStyle{Scale: scale, Measure: c.style, Parts: draw.OnSheet, Called: c.piece(now.Name)}
		d := draw.RoundsSaying(states, style, says)
		d.Title, d.Desc = c.piece(now.Name), strings.Join(says, "; ")
		all.Of = append(all.Of, document.Sketch{Draw: kept(d), Caption: c.piece(now.Name) + " · 1" + gap + ":" + gap + strconv.FormatFloat(scale, 'f', -1, 64)})
		if d := draw.Lenses(states, style); d != nil {
			d.Title = c.piece(now.Name)
			all.Of = append(all.Of, document.Sketch{Draw: kept(d), High: high})
		}
	}
	if len(all.Of) > 0 {
		c.Add(all)
	}
}

// changed says a change in the reader's words; one that has no words of its own is said
// to be as it is drawn.
func (c *composer) changed(change *record.Change) string {
	name := c.onPiece(cmp.Or(change.Edge.V, change.Dart.V, change.Pleat.V, change.Gather.V, change.Notion.V, change.Line.V, change.SetOn.V, change.Whole.V))
	for _, one := range []struct {
		by         record.Length
		more, less string
	}{
		{change.Move, "change.out", "change.in"}, {change.Start, "change.start-out", "change.start-in"}, {change.End, "change.end-out", "change.end-in"},
		{change.Lengthen, "change.longer", "change.shorter"}, {change.Width, "change.wide", "change.wide"}, {change.Length, "change.long", "change.long"},
	} {
		if !one.by.Given() {
			continue
		}
		word, by := one.more, one.by.V
		if by < 0 {
			word, by = one.less, -by
		}
		return c.t.say(word, "edge", name, "length", c.oneLength(by))
	}
	return c.t.say("change.drawn", "edge", name)
}

// leastSeen is from how much on, in millimetres, a finished measure is told to change.
const leastSeen = 0.5

// felt tells which finished measures change, and by how much.
func (c *composer) felt(before, after *garment.Garment) {
	t := c.Table("", document.Words(c.t.say("head.level")), document.Figures(c.t.say("propose.was")), document.Figures(c.t.say("propose.becomes")), document.Figures(c.t.say("propose.differs")))
	for _, now := range after.Levels {
		for _, was := range before.Levels {
			if was.Slug != now.Slug || !was.Finished.Value.Known() || !now.Finished.Value.Known() {
				continue
			}
			by := now.Finished.Value.Number - was.Finished.Value.Number
			if math.Abs(by) < leastSeen {
				continue
			}
			sign := "+"
			if by < 0 {
				sign = "−"
			}
			t.Row(upper(c.level(now.Name))).Words(c.one(was.Finished), c.one(now.Finished), sign+c.oneLength(measure.MM(math.Abs(by))))
		}
	}
	c.tabled("propose.felt", t)
}
