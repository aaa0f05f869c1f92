package compose

import (
	"math"
	"slices"
	"strings"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/garment"
	"hembook/internal/notebook"
	"hembook/internal/say"
	"hembook/internal/words"
)

// What is told of seams and hems on pages alone.
var (
	seamEdges  = ColumnOf[*garment.Seam]{Word: "edges", Words: true, Cell: func(t *document.TableDraft, _ Teller, s *garment.Seam) { t.Words(joins(s)) }}
	seamDiffer = ColumnOf[*garment.Seam]{Word: "difference", Cell: func(t *document.TableDraft, _ Teller, s *garment.Seam) {
		judged(t, &s.Differ, true, s.Meets, "", doesNotMeet)
	}}
	seamFullness = ColumnOf[*garment.Seam]{Word: "fullness", Cell: func(t *document.TableDraft, tell Teller, s *garment.Seam) {
		if v := s.Full.Value; v.Known() && math.Abs(v.Number-1) < 0.005 { // there is none
			t.Cell()
			return
		}
		t.Cell(tell.Figure(&s.Full))
	}}
	seamWidth   = ColumnOf[*garment.Seam]{Word: "width", Cell: func(t *document.TableDraft, tell Teller, s *garment.Seam) { t.Cell(tell.Figure(&s.Width)) }}
	finishEdges = ColumnOf[*garment.Finish]{Word: "edges", Words: true, Cell: func(t *document.TableDraft, _ Teller, f *garment.Finish) { t.Words(edgeWords(f.Edges)) }}
	finishWidth = ColumnOf[*garment.Finish]{Word: "width", Cell: func(t *document.TableDraft, tell Teller, f *garment.Finish) { t.Cell(tell.Figure(&f.Width)) }}
)

// seamNamed names a seam, which leads to where it is told of by itself; where it is not,
// others lead to it here.
func seamNamed(told map[string]bool) ColumnOf[*garment.Seam] {
	c := SeamName
	c.Cell = func(t *document.TableDraft, _ Teller, s *garment.Seam) { t.Cell(ledOrHere(told, s.Anchor, s.Name)) }
	return c
}

// finishNamed is the same of a hem or edge.
func finishNamed(told map[string]bool) ColumnOf[*garment.Finish] {
	c := FinishName
	c.Cell = func(t *document.TableDraft, _ Teller, f *garment.Finish) { t.Cell(ledOrHere(told, f.Anchor, f.Name)) }
	return c
}

func ledOrHere(told map[string]bool, anchor, name string) document.Inline {
	if told[anchor] {
		return document.Inline{Words: name, Anchor: anchor}
	}
	return document.Inline{Words: name, ID: anchor}
}

// seamWay tells the type of a seam, which leads to the page of its technique.
func seamWay(b *notebook.BuildPage, length Lengths) ColumnOf[*garment.Seam] {
	return ColumnOf[*garment.Seam]{Word: "seam-type", Words: true, Cell: func(t *document.TableDraft, tell Teller, s *garment.Seam) {
		t.Cell(document.Lead(string(b.SeamWays[slices.Index(b.Seams, s)].Address), s.Type.Title), besideSaid(tell, &s.Type, length))
	}}
}

// finishWay is the same of a hem or edge.
func finishWay(b *notebook.BuildPage, length Lengths) ColumnOf[*garment.Finish] {
	return ColumnOf[*garment.Finish]{Word: "finish-type", Words: true, Cell: func(t *document.TableDraft, tell Teller, f *garment.Finish) {
		t.Cell(document.Lead(string(b.FinishWays[slices.Index(b.Finishes, f)].Address), f.Type.Title), besideSaid(tell, &f.Type, length))
	}}
}

func seams(d *Draft, b *notebook.BuildPage) {
	made := madeThings(b)
	told := followed(made)
	if len(b.Seams) > 0 {
		Table(&d.Draft, OnPage, say.Of("compose.seams"), b.Seams, seamNamed(told), seamEdges, seamWay(b, d.length), seamSewn(b.Together, toStep(b)), SeamLength, SeamTotal, seamDiffer, seamFullness, SeamAllowance, seamWidth).Long().End()
	}
	if len(b.Finishes) > 0 {
		Table(&d.Draft, OnPage, say.Of("compose.hems-and-edges"), b.Finishes, finishNamed(told), finishEdges, finishWay(b, d.length), finishSewn(b.Together, toStep(b)), FinishLength, FinishAllowance, finishWidth).End()
	}
	if over := Crossing(b.Seams); len(over) > 0 {
		Table(&d.Draft, OnPage, say.Of("compose.where-seams-cross-how-many-plies-lie"), over, CrossName, CrossOver, CrossPlies).End()
	}
	if len(b.Machine) > 0 {
		MachineSets(&d.Draft, OnPage, say.Of("compose.how-the-machine-is-set"), b.Machine).End()
	}
	followAll(d, b, made)
	if drawsFaces(b.Sections) {
		FacesLegend(d)
	}
	ids := words.NamesFor(len(b.Sections))
	for i := range b.Sections {
		d.Add(document.Turn{})
		d.Section(&b.Sections[i], 3, "way-"+ids.Unique(b.Sections[i].Type.Title))
	}
}

// The verdict on edges that are sewn together and do not fit. Those that do are
// told of once, above the table.
var doesNotMeet = say.Of("compose.does-not-meet")

func joins(s *garment.Seam) string {
	out := say.Of("compose.to", edgeWords(s.Sides[0].Edges), edgeWords(s.Sides[1].Edges))
	for i := range s.Plies {
		out += say.Of("compose.with-2", edgeWords(s.Plies[i].Edges))
	}
	return out
}

func edgeWords(list []garment.EdgeUse) string {
	var out []byte
	for i, e := range list {
		if e.Piece == nil || e.Edge == nil {
			continue
		}
		if i > 0 {
			out = append(out, ", "...)
		}
		out = append(append(append(out, e.Piece.Name...), ' '), e.Edge.Name...)
	}
	return string(out)
}

// Section shows how a seam type grows, a drawing for each phase, under a heading of that
// level that is led to by id; under none where the level is 0.
func (d *Draft) Section(s *garment.Way, level int, id string) {
	drawn := d.sectionDrawn(s)
	if drawn == nil {
		return // what is wrong with the measures is a fault of the record
	}
	way := document.Section{As: "way", ID: id, Level: level, Head: s.Type.Title}
	if len(s.UsedBy) > 0 {
		used := strings.Join(s.UsedBy, ", ")
		if !s.Alike && (s.Sides[0] != "" || s.Sides[1] != "") {
			used += say.Of("compose.drawn", s.UsedBy[0])
		}
		way.Blocks = append(way.Blocks, document.Text{As: document.Byline, Phrase: d.Phrase(document.Say(used))})
	}
	way.Blocks = append(way.Blocks, drawn)
	d.Add(way)
}

// WaySmall draws a way of sewing without words, for a place beside its name; nil where it
// cannot be drawn: what is wrong with its measures is a fault of the record.
func WaySmall(w *garment.Way) *drawing.Drawing {
	drawn, err := w.Type.Section(w.Measures)
	if err != nil {
		return nil
	}
	return draw.SectionSmall(drawn)
}
