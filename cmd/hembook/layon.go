package main

import (
	"context"
	"errors"
	"io"
	"slices"
	"strconv"

	"hembook/internal/cutting"
	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
)

// onRemnants lays a build on remnants of one of its cloths.
func (o layOptions) onRemnants(ctx context.Context, on *buildAtHand, parts []string, out io.Writer) error {
	part, remnants, err := o.remnantsOf(on.room, on.build, parts)
	if err != nil {
		return err
	}
	cutter := cutting.NewCutter(ctx, on.room, on.tailor, cutting.Options{Tries: o.tries})
	laid, err := cutter.LayOn(on.build, part, remnants)
	if err != nil {
		return fault.Wrapping(err, say.Of("hembook.no-lay-of", part, err))
	}
	if o.json {
		if err := boardsJSON(out, on.file, laid); err != nil {
			return err
		}
	} else {
		d := newDraft(on.room.Workroom.Style())
		d.Say(document.Say(on.file.Name + " (" + on.file.Slug + ")"))
		boardBlocks(d, laid)
		tell(out, d, false)
	}
	if len(laid.Left) > 0 {
		return errors.New(say.Of("hembook.not-all-of-it-goes-on-these", joinWords(laid.Left)))
	}
	return nil
}

// remnantsOf finds the remnants that are named, and the part of the garment whose cloth they
// are of.
func (o layOptions) remnantsOf(room *record.Room, b *record.Build, parts []string) (string, []*record.Remnant, error) {
	if parts == nil {
		parts = b.Cloth.Names()
	}
	var there []string
	for _, part := range parts {
		use, _ := b.Cloth.Get(part)
		cloth, ok := room.Cloth(use.Use.V)
		if !ok {
			continue
		}
		var found []*record.Remnant
		for i := range cloth.Remnants {
			r := &cloth.Remnants[i]
			if r.Used.Given() && r.Used.V != b.Slug {
				continue
			}
			there = append(there, r.Name.V)
			if slices.Contains(o.on, r.Name.V) {
				found = append(found, r)
			}
		}
		if len(found) == 0 {
			continue
		}
		slices.SortFunc(found, func(x, y *record.Remnant) int {
			return slices.Index(o.on, x.Name.V) - slices.Index(o.on, y.Name.V)
		})
		if len(found) == len(o.on) {
			return part, found, nil
		}
	}
	for _, name := range o.on {
		if !slices.Contains(there, name) {
			if near := meant.Nearest(name, there); near != "" {
				return "", nil, misused(say.Of("hembook.no-remnant-called-on-the-shelf-did", say.Quoted(name), say.Quoted(near)))
			}
			if len(there) == 0 {
				return "", nil, misused(say.Of("hembook.no-remnant-called-on-the-shelf-the", say.Quoted(name)))
			}
			return "", nil, misused(say.Of("hembook.no-remnant-called-on-the-shelf-there", say.Quoted(name), joinWords(there)))
		}
	}
	return "", nil, misused(say.Of("hembook.name-remnants-of-one-cloth-each-once"))
}

// boardBlocks says what lies on each remnant, and what will not go.
func boardBlocks(d *document.Draft, laid *cutting.OnBoards) {
	for i := range laid.Boards {
		b := &laid.Boards[i]
		d.Add(document.Section{Head: say.Of("hembook.on-the-remnant", laid.Part, strconv.Quote(b.Name)), Blocks: d.Within(func() {
			if len(b.Chalked) == 0 {
				d.Say(document.Say(say.Of("hembook.nothing-goes-on-it")))
				return
			}
			boardTable(d, b)
		})})
	}
	for _, n := range laid.Notes {
		d.Say(document.Say(n))
	}
	if len(laid.Left) > 0 {
		d.Say(document.Say(say.Of("hembook.will-not-go", joinWords(laid.Left))))
	} else {
		d.Say(document.Say(say.Of("hembook.all-of-it-goes-on-these-remnants")))
	}
}

// boardTable tables where each piece lies on a remnant.
func boardTable(d *document.Draft, b *cutting.Board) {
	unit := " (" + tapeUnit(d.Style) + ")"
	if d.Style.System == measure.Imperial {
		unit = ""
	}
	t := d.Table("", document.Words("no."), document.Words("piece"), document.Words(say.Of("hembook.from-the-left", unit)), document.Words(say.Of("hembook.from-the-lower-end", unit)), document.Words("turned"))
	for i := range b.Chalked {
		q := &b.Chalked[i]
		t.Row(strconv.Itoa(q.Number)).Words(draw.CopyWords(q), reachText(q.Side, q.SideTo, d.Style), reachText(q.End, q.EndTo, d.Style), draw.TurnWords(q))
	}
	t.End()
}

type (
	jsonBoards struct {
		Build  string      `json:"build"`
		Part   string      `json:"part"`
		Boards []jsonBoard `json:"boards"`
		Left   []string    `json:"left"` // what will not go
		Notes  []string    `json:"notes,omitempty"`
	}
	jsonBoard struct {
		Remnant string         `json:"remnant"`
		Pieces  []jsonPosition `json:"pieces"` // millimetres from its left and its lower end
	}
)

func boardsJSON(out io.Writer, bf record.BuildFile, laid *cutting.OnBoards) error {
	all := jsonBoards{Build: bf.Slug, Part: laid.Part, Boards: []jsonBoard{}, Left: append([]string{}, laid.Left...), Notes: laid.Notes}
	for i := range laid.Boards {
		b := jsonBoard{Remnant: laid.Boards[i].Name, Pieces: []jsonPosition{}}
		for k := range laid.Boards[i].Chalked {
			b.Pieces = append(b.Pieces, jsonPositionOf(&laid.Boards[i].Chalked[k]))
		}
		all.Boards = append(all.Boards, b)
	}
	return document.PrintJSON(out, all)
}
