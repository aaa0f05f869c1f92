package compose

import (
	"math"
	"strings"

	"hembook/internal/document"
	"hembook/internal/figure"
	"hembook/internal/fitting"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/notebook"
	"hembook/internal/order"
	"hembook/internal/say"
)

// What is told on pages and on sheets of a finished measurement round the body, and of
// letting it out.
var (
	LevelName = ColumnOf[*garment.Level]{"level", true, 2, func(t *document.TableDraft, tell Teller, l *garment.Level) {
		t.Words(upperFirst(tell.Called(Key("level", l.Name), l.Title)))
	}}
	levelFinished = FigureOf("finished", 3, func(l *garment.Level) *figure.Figure { return &l.Finished })
	LevelOwn      = FigureOf("own", 3, func(l *garment.Level) *figure.Figure { return &l.LetOut })
	LevelPlain    = ColumnOf[*garment.Level]{"plain", false, 3, func(t *document.TableDraft, tell Teller, l *garment.Level) {
		if l.LetOutPlain.ID == "" { // it gives no more
			t.Cell()
			return
		}
		t.Cell(tell.Figure(&l.LetOutPlain))
	}}
)

// LevelHeld tells what holds a level, which may be another layer of the garment; g may
// be nil.
func LevelHeld(g *order.Together) ColumnOf[*garment.Level] {
	return ColumnOf[*garment.Level]{"held", true, 3, func(t *document.TableDraft, tell Teller, l *garment.Level) {
		t.Words(HeldBy(g, tell, l.HeldBy))
	}}
}

// What is told of how a garment fits.
var (
	FitName     = Of(LevelName, inGarment)
	FitFinished = Of(levelFinished, inGarment)
	FitDrafted  = FigureOf("drafted", 3, func(l *fitting.Level) *figure.Figure { return &l.Drafted })
	FitEase     = FigureOf("ease", 3, func(l *fitting.Level) *figure.Figure { return &l.Ease })
	FitGap      = FigureOf("gap", 3, func(l *fitting.Level) *figure.Figure { return &l.Gap })
	FitMost     = FigureOf("most", 3, func(l *fitting.Level) *figure.Figure { return &l.Most })

	LengthFinished = FigureOf("finished", 3, func(l *fitting.Length) *figure.Figure { return &l.Finished })
)

func inGarment(l *fitting.Level) *garment.Level { return l.Level }

// measurements tables the finished measurements of a garment and holds them against
// what was asked for and what was measured.
func measurements(d *Draft, b *notebook.BuildPage) {
	if len(b.Levels) > 0 {
		ease := ColumnOf[*fitting.Level]{Word: "ease", Cell: func(t *document.TableDraft, _ Teller, l *fitting.Level) {
			if said := d.easeJudged(l); said.Words != "" {
				t.Cell(document.Of(&l.Ease), said)
				return
			}
			t.Figures(&l.Ease)
		}}
		Table(&d.Draft, OnPage, say.Of("compose.finished-measurements"), b.Levels, FitName.As("where", 0), FitFinished, FitGap, FitDrafted, ease,
			FitMost, FigureOf("worn", 0, func(l *fitting.Level) *figure.Figure { return &l.Worn }),
			FigureOf("stays", 0, func(l *fitting.Level) *figure.Figure { return &l.Stays }),
			FigureOf("least", 0, func(l *fitting.Level) *figure.Figure { return &l.Least }),
			Of(LevelOwn.As("out", 0), inGarment),
			FigureOf("measured", 0, func(l *fitting.Level) *figure.Figure { return &l.Measured }),
			asPlanned(d, func(l *fitting.Level) (*figure.Figure, bool) { return &l.Off, l.Within })).End()
	}
	if len(b.Lengths) > 0 {
		Table(&d.Draft, OnPage, say.Of("compose.finished-lengths"), b.Lengths,
			ColumnOf[*fitting.Length]{Word: "length", Words: true, Cell: func(t *document.TableDraft, _ Teller, l *fitting.Length) { t.Words(l.Name) }}, LengthFinished,
			FigureOf("measured", 0, func(l *fitting.Length) *figure.Figure { return &l.Measured }),
			asPlanned(d, func(l *fitting.Length) (*figure.Figure, bool) { return &l.Off, l.Within })).End()
	}
	d.openings(b.Openings, b.Slits)
}

// easeJudged says how the ease at a level is to be taken; without words where nothing is
// to be said.
func (d *Draft) easeJudged(l *fitting.Level) document.Inline {
	switch l.Judged {
	case fitting.Enough:
		return document.As(document.Good, say.Of("compose.enough-ease"))
	case fitting.Tight:
		return document.As(document.Bad, d.tight(l))
	case fitting.Gives:
		return document.As(document.Good, say.Of("compose.enough-as-its-cloth-gives"))
	case fitting.DrawnIn:
		return document.As(document.Good, say.Of("compose.drawn-in-to-hold"))
	case fitting.Stretches:
		return document.As(document.Good, say.Of("compose.its-cloth-stretches-to-it"))
	case fitting.TooNarrow:
		return document.As(document.Bad, say.Of("compose.its-cloth-does-not-stretch-so-far"))
	case fitting.Untold:
		return document.Say(say.Of("compose.how-far-its-cloth-stretches-is-not"))
	}
	return document.Inline{}
}

// tight says by how much a level has less ease than asked for.
func (d *Draft) tight(l *fitting.Level) string {
	lack := l.Least.Value.Number - l.Ease.Value.Number
	return say.Of("compose.tight-by", d.Style.Length(measure.MM(lack).Round(measure.Millimetre)))
}

// asPlanned is a column with how far what was measured is from the plan.
func asPlanned[T any](d *Draft, of func(T) (off *figure.Figure, within bool)) ColumnOf[T] {
	return ColumnOf[T]{Word: "difference", Cell: func(t *document.TableDraft, _ Teller, row T) {
		off, within := of(row)
		by := off.Value.Number
		words := say.Of("compose.larger-than-planned", d.Style.Length(measure.MM(math.Abs(by)).Round(measure.Millimetre)))
		if by < 0 {
			words = say.Of("compose.smaller-than-planned", strings.TrimSuffix(words, "larger than planned"))
		}
		judged(t, off, true, within, say.Of("compose.as-planned"), words)
	}}
}

// judged is a cell with a figure and, where there is something to hold it to,
// the verdict on it: none where the words for it are empty.
func judged(t *document.TableDraft, f *figure.Figure, held, good bool, yes, no string) {
	if f.ID == "" || !f.Value.Known() || !held || good && yes == "" {
		t.Figures(f)
		return
	}
	t.Cell(document.Of(f), document.Verdict(good, yes, no))
}
