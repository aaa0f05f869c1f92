package paperpiece

import (
	"bytes"
	"io/fs"
	"math"
	"slices"
	"strconv"
	"time"

	"hembook/internal/derive"
	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/record/amend"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// Outline is the piece's outline as it is after the last round of fitting. A piece that
// has none of its own is refused.
func (h Home) Outline(b *record.Build) (shape.Outline, error) {
	i := slices.IndexFunc(b.Pieces, func(p record.Piece) bool { return p.Name.V == h.Piece })
	switch {
	case i < 0:
		return shape.Outline{}, fault.Refusing(say.Of("paperpiece.a-new-piece-is-traced-with-into"), say.Of("paperpiece.has-no-piece", h.File.Path, h.Piece))
	case b.Pieces[i].Outline == nil:
		return shape.Outline{}, fault.Refusing(say.Of("paperpiece.change-the-piece-it-is-made-from"), say.Of("paperpiece.has-no-outline-of-its-own", h.Piece))
	}
	o, ok := h.outlineIn(h.Room, b)
	if !ok {
		return o, fault.Refusing(say.Of("paperpiece.hembook-check-says-why"), say.Of("paperpiece.the-outline-of-cannot-be-read", h.Piece))
	}
	return o, nil
}

func (h Home) outlineIn(room *record.Room, b *record.Build) (shape.Outline, bool) {
	tailor, _ := derive.NewTailor(room)
	for _, p := range tailor.Derive(b).Pieces {
		if p.Name == h.Piece && len(p.Outline.Edges) > 2 {
			return p.Outline, p.Outline.Check() == nil
		}
	}
	return shape.Outline{}, false
}

// WriteRound writes what was done to the piece as one more round of fitting, once it is
// certain that the record then has the outline that was seen.
func (h Home) WriteRound(a *Alteration, day time.Time, saw string) error {
	if len(a.Changes) == 0 {
		return fault.Refusing(say.Of("paperpiece.the-record-stays-as-it-is"), say.Of("paperpiece.the-paper-of-is-as-the-record", h.Piece))
	}
	return h.record().Change(func(text []byte) ([]byte, error) {
		off := math.Inf(1)
		for _, turned := range []bool{false, true} { // the record may draw it the other way round
			then, err := amend.Append(text, amend.At("fittings"), h.round(a, turned, day, saw))
			if err != nil {
				return nil, err
			}
			o, ok := h.after(then)
			if !ok {
				continue
			}
			if off = min(off, astray(o, a.Now)); off <= mostAstray+roundTo {
				return then, nil
			}
		}
		return nil, fault.Refusing(say.Of("paperpiece.look-at-its-pleats-darts-and-rounds"), say.Of("paperpiece.with-these-changes-the-record-would-not", h.Piece))
	})
}

// round is a round of fitting as it is written.
func (h Home) round(a *Alteration, turned bool, day time.Time, saw string) amend.Value {
	var changes []amend.Field
	for _, c := range a.Changes {
		start, end, bends := c.Start, c.End, slices.Clone(c.Bends)
		if turned {
			start, end = end, start
			slices.Reverse(bends)
		}
		var of []amend.Field
		if start != 0 {
			of = append(of, amend.Field{Name: "start", Value: h.length(start)})
		}
		if end != 0 {
			of = append(of, amend.Field{Name: "end", Value: h.length(end)})
		}
		if bends != nil {
			var points []amend.Value
			for _, p := range bends {
				points = append(points, amend.List(h.length(p.X), h.length(p.Y)))
			}
			of = append(of, amend.Field{Name: "curve", Value: amend.List(points...)})
		}
		changes = append(changes, amend.Field{Name: h.Piece + "." + c.Edge, Value: amend.Group(of...)})
	}
	return amend.Group(amend.Field{Name: "day", Value: amend.Figure(day.Format(time.DateOnly))},
		amend.Field{Name: "saw", Value: amend.Words(saw)}, amend.Field{Name: "change", Value: amend.Group(changes...)})
}

// length is a length as the record writes it: a bare number where that means millimetres.
func (h Home) length(mm float64) amend.Value {
	text := strconv.FormatFloat(math.Round(mm*10)/10+0, 'f', -1, 64)
	if h.Unit != measure.UnitMM {
		text += " mm"
	}
	return amend.Figure(text)
}

// after is the piece's outline as the record would have it with another text.
func (h Home) after(text []byte) (shape.Outline, bool) {
	room := *h.Room
	room.FS = written{h.Room.FS, h.File.Path, text}
	b, faults := room.ReadBuild(h.File)
	if fault.HasErrors(faults) {
		return shape.Outline{}, false
	}
	return h.outlineIn(&room, b)
}

// astray is how far one outline strays from another, both ways.
func astray(a, b shape.Outline) (most float64) {
	for _, two := range [][2]shape.Line{{closed(a), closed(b)}, {closed(b), closed(a)}} {
		for _, p := range walked(two[0], lieStep) {
			_, off := two[1].Nearest(p)
			most = max(most, off)
		}
	}
	return most
}

// A written is a workroom with another text in the place of one file's.
type written struct {
	fs.FS
	path string
	text []byte
}

// Open is [fs.FS].
func (w written) Open(name string) (fs.File, error) {
	file, err := w.FS.Open(name)
	if err != nil || name != w.path {
		return file, err
	}
	return &writtenFile{file, *bytes.NewReader(w.text)}, nil
}

type writtenFile struct {
	fs.File
	text bytes.Reader
}

func (f *writtenFile) Read(p []byte) (int, error) { return f.text.Read(p) }
