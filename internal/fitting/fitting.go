// Package fitting works out how a garment fits: the ease on the body it was
// drafted for and on its wearer's own, what was measured on it against the plan,
// how its hems hung, and what each round of fitting did.
package fitting

import (
	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/trade"
	"hembook/internal/words"
)

const mm = measure.UnitMM

// A Fitter knows what holds for the fit of all builds of a workroom. It does not
// change, and many goroutines may use it at once.
type Fitter struct {
	room   *record.Room
	tailor *garment.Tailor
	ease   []trade.EaseWarning
	within figure.Setting // how far a measured garment may be from its plan
}

// A Fit is how a garment fits.
type Fit struct {
	Levels  []*Level  // top to bottom, as those of the garment
	Lengths []*Length // finished lengths
	Hangs   []*Hang   // how far hems dropped
	OnBody  []record.Private[BodyFit]
}

// A Level is a finished dimension round the body with what it is held against.
type Level struct {
	*garment.Level
	Drafted  figure.Figure // the public body measurement drafted for; not set where none
	Ease     figure.Figure // Finished − Drafted; not set where none
	EasePart figure.Figure // the same in %
	Worn     figure.Figure // how much it is stretched on that body, in %; not set where it is not, or no cloth there says that it stretches
	Stays    figure.Figure // how much wider it stays after it was worn; not set where nobody says what goes back
	Least    figure.Figure // the least ease asked, with where it comes from
	Enough   bool          // ease is at least the least; true too where there is none to compare
	Judged   Judgement     // what is said of the ease
	Measured figure.Figure // as measured on the garment; not set where not measured
	Off      figure.Figure // measured − finished
	Within   bool          // within tolerance
}

// A Length is a finished length along named edges.
type Length struct {
	Name     string
	Finished figure.Figure
	Measured figure.Figure
	Off      figure.Figure
	Within   bool
}

// A BodyFit is ease on the wearer's own body.
type BodyFit struct {
	Level    string
	Body     figure.Figure
	Finished figure.Figure
	Ease     figure.Figure
	EasePart figure.Figure
	Enough   bool
}

// A trial is one garment being tried.
type trial struct {
	*figure.Pad
	t      *Fitter
	b      *record.Build
	g      *garment.Garment
	out    *Fit
	faults fault.Faults
}

// tape prints lengths in the record's unit.
func (w *trial) tape() words.Tape { return words.Tape(w.t.room.UnitOf(w.b)) }

// New prepares a workroom's fitter and checks the bodies of its wearers. Faults
// never quote a body measurement.
func New(room *record.Room, tailor *garment.Tailor) (*Fitter, []fault.Fault) {
	t := &Fitter{room: room, tailor: tailor, ease: trade.EaseWarnings(), within: tailor.MeasuredWithin()}
	var faults fault.Faults
	for _, kept := range room.Wearers {
		checkWearer(kept.Open(record.ToCheck), &faults)
	}
	return t, faults.Sorted()
}

func (t *Fitter) trial(g *garment.Garment) *trial {
	return &trial{Pad: figure.NewPad(t.room.Workroom.Style()), t: t, b: g.Build, g: g, out: &Fit{}}
}

// Derive works out how a garment fits, and says what is wrong.
func (t *Fitter) Derive(g *garment.Garment) (*Fit, []fault.Fault) {
	w := t.trial(g)
	w.levels()
	w.lengths()
	w.hangs()
	return w.out, w.faults.Sorted()
}

// levels holds every finished dimension against the bodies and what was measured.
func (w *trial) levels() {
	var wearer *record.Wearer
	if who := w.b.Wearer.Open(record.ToFigure); who.Given() {
		if kept, ok := w.t.room.Wearers[who.V]; ok {
			wearer = kept.Open(record.ToFigure)
		}
	}
	list := make([]Level, len(w.g.Levels))
	for i, l := range w.g.Levels {
		level := &list[i]
		level.Level = l
		base := w.Join("level.", l.Slug)
		w.eased(level, base)
		w.measured(level, base)
		w.onBody(level, wearer)
		w.out.Levels = append(w.out.Levels, level)
	}
}
