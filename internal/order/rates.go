package order

import (
	"cmp"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/schedule"
	"hembook/internal/words"
)

// EnoughObservations is how many observations a rate needs before it is known.
const EnoughObservations = schedule.EnoughObservations

// An Observation is a step that was clocked, measured and finished.
type Observation struct {
	Technique string // its slug
	Build     string // the garment's name
	Step      string // the step's words
	Amount    float64
	Minutes   float64
	Rate      figure.Figure // minutes per metre or per piece; its working stands on the build's own page
}

// Observe lists what a build tells of the maker's rates, in the order of its
// work. Steps that name no technique, or that are not finished, tell nothing.
// What it returns keeps nothing else of the garment in memory.
func Observe(o *Order) []Observation {
	var out []Observation
	for _, s := range o.Steps {
		if !s.Record.Technique.Given() || s.Rate.ID == "" || !s.Rate.Value.Known() {
			continue
		}
		seen := Observation{
			Technique: strings.Clone(s.Record.Technique.V), Build: strings.Clone(o.build.Name.V), Step: strings.Clone(s.Record.Do.V),
			Minutes: s.Spent.Value.Number, Amount: s.Metres.Value.Number,
			Rate: figure.Figure{ID: strings.Clone(s.Rate.ID), Title: s.Rate.Title, Of: strings.Clone(s.Rate.Of), Value: s.Rate.Value},
		}
		if s.Rate.Value.Unit == measure.UnitMinPerPiece {
			seen.Amount = float64(s.Record.Pieces.V)
		}
		out = append(out, seen)
	}
	return out
}

// Rates gathers the maker's own rates over many builds. The zero value holds
// none. It is filled by one goroutine; after that many may ask it.
type Rates struct {
	Style measure.Style // the workings are printed in; set before anything is added

	byTechnique map[string]map[measure.Unit]*TechniqueRate
}

// A TechniqueRate is how long a technique takes, for each metre or each piece.
type TechniqueRate struct {
	Technique    string // its slug
	Unit         measure.Unit
	Observations []Observation // in the order they were added
	Sum          schedule.Rate
	Known        bool // there are enough observations for an estimate
	summed       sync.Once
	style        measure.Style

	Count, Least, Lower, Median, Upper, Most figure.Figure
}

// Add adds what a build tells.
func (r *Rates) Add(o *Order) { r.AddObserved(Observe(o)...) }

// AddObserved adds observations that were kept from builds read before.
func (r *Rates) AddObserved(list ...Observation) {
	if r.byTechnique == nil {
		r.byTechnique = map[string]map[measure.Unit]*TechniqueRate{}
	}
	for _, o := range list {
		units := r.byTechnique[o.Technique]
		if units == nil {
			units = map[measure.Unit]*TechniqueRate{}
			r.byTechnique[o.Technique] = units
		}
		t := units[o.Rate.Value.Unit]
		if t == nil {
			t = &TechniqueRate{Technique: o.Technique, Unit: o.Rate.Value.Unit, style: r.Style}
			units[o.Rate.Value.Unit] = t
		}
		t.Observations = append(t.Observations, o)
		t.summed = sync.Once{}
	}
}

// Of gives the rates of a technique: for the metre, then for the piece, those
// that were observed. It is safe to ask a nil Rates.
func (r *Rates) Of(technique string) []*TechniqueRate {
	var out []*TechniqueRate
	for _, u := range []measure.Unit{measure.UnitMinPerM, measure.UnitMinPerPiece} {
		if t := r.one(technique, u); t != nil {
			out = append(out, t)
		}
	}
	return out
}

// one works out one rate; nil where nothing was observed.
func (r *Rates) one(technique string, unit measure.Unit) *TechniqueRate {
	if r == nil || r.byTechnique[technique][unit] == nil {
		return nil
	}
	t := r.byTechnique[technique][unit]
	t.summed.Do(t.figures)
	return t
}

// SameOf reports whether other rates know the same of a technique. It is safe
// to ask a nil Rates.
func (r *Rates) SameOf(other *Rates, technique string) bool {
	return reflect.DeepEqual(r.observations(technique), other.observations(technique))
}

func (r *Rates) observations(technique string) map[measure.Unit][]Observation {
	if r == nil {
		return nil
	}
	out := map[measure.Unit][]Observation{}
	for unit, t := range r.byTechnique[technique] {
		out[unit] = t.Observations
	}
	return out
}

// Techniques lists the slugs of the techniques of which anything was observed,
// by name.
func (r *Rates) Techniques() []string {
	out := make([]string, 0, len(r.byTechnique))
	for name := range r.byTechnique {
		out = append(out, name)
	}
	slices.Sort(out)
	return out
}

// Figures lists the figures of a rate: how many, then from the least to the
// most.
func (t *TechniqueRate) Figures() []figure.Figure {
	return set(&t.Count, &t.Least, &t.Lower, &t.Median, &t.Upper, &t.Most)
}

// observed are observations as package schedule takes them.
func observed(list []Observation) []schedule.Observation {
	out := make([]schedule.Observation, len(list))
	for i, o := range list {
		out[i] = schedule.Observation{Time: time.Duration(o.Minutes * float64(time.Minute)), Amount: o.Amount}
	}
	return out
}

// quantileSource: so far between two neighbours as the place lies between theirs
// (definition 7 of R. J. Hyndman and Y. Fan, Sample quantiles in statistical
// packages, 1996, from memory).
const quantileSource = figure.Derived

// mostNamed bounds how many observations a working lists one by one.
const mostNamed = 12

// figures sums the observations up.
func (t *TechniqueRate) figures() {
	t.Sum, _ = schedule.NewRate(observed(t.Observations))
	t.Known = t.Sum.Known()
	sorted := slices.Clone(t.Observations)
	slices.SortStableFunc(sorted, func(a, b Observation) int {
		return cmp.Compare(a.Rate.Value.Number, b.Rate.Value.Number)
	})
	k := figure.NewPad(t.style)
	per := "per-metre"
	if t.Unit == measure.UnitMinPerPiece {
		per = "per-piece"
	}
	base := k.Join("rate.", words.Slug(t.Technique), ".", per, ".")
	n := k.Found(say.Of("order.finished-steps-that-were-timed-and"), float64(t.Sum.N), measure.UnitCount)
	t.Count = k.Figure(k.Join(base, "count"), "timed", t.Technique, n, measure.UnitCount, say.Of("order.how-many-finished-steps-were-timed-and"), figure.Derived)
	for _, q := range []struct {
		at    *figure.Figure
		name  string
		title string
		p     float64
	}{
		{&t.Least, "least", "fastest", 0},
		{&t.Lower, "lower-quartile", "quick", 0.25},
		{&t.Median, "median", "usual", 0.5},
		{&t.Upper, "upper-quartile", "slow", 0.75},
		{&t.Most, "most", "slowest", 1},
	} {
		t.quantile(k, q.at, k.Join(base, q.name), q.title, q.p, sorted)
	}
}

// quantileRule says in words which of the times a figure is.
func quantileRule(p float64) string {
	switch p {
	case 0:
		return say.Of("order.the-shortest-of-all-times")
	case 1:
		return say.Of("order.the-longest-of-all-times")
	case 0.5:
		return say.Of("order.the-middle-of-all-times-in-order")
	}
	many := measure.Style{}.Number(min(p, 1-p)*100, 0)
	if p < 0.5 {
		return say.Of("order.so-many-times-are-shorter", many)
	}
	return say.Of("order.so-many-times-are-longer", many)
}

// quantile is so far through all observations in order of size: one of them,
// or so far between two neighbours.
func (t *TechniqueRate) quantile(k *figure.Pad, into *figure.Figure, id, title string, p float64, sorted []Observation) {
	rule, source := quantileRule(p), quantileSource
	one := func(i int) figure.Term {
		o := &sorted[i]
		return k.Of(k.Join(o.Build, ", ", o.Step), &o.Rate)
	}
	place := p * float64(len(sorted)-1)
	first := int(math.Floor(place))
	v := one(first)
	if part := place - float64(first); part > 0 {
		v = v.Plus(k.Number(part).Times(one(first + 1).Minus(v)))
	}
	if !t.Known {
		v, rule, source = v.Unless(reason(t.Sum.Estimate(1).Why)), say.Of("order.it-needs-to-be-timed-3-times"), figure.OurOwn
	}
	if p == 0.5 || !t.Known {
		for i := range sorted[:min(len(sorted), mostNamed)] {
			k.Note(one(i))
		}
		if more := len(sorted) - mostNamed; more > 0 {
			k.Remark(figure.Told, say.Of("order.and-more"), strconv.Itoa(more), fault.Pos{}, say.Of("order.the-other-garments"))
		}
	}
	*into = k.Figure(id, title, t.Technique, v, t.Unit, rule, source)
}

// An Estimate is how long a step is likely to take, with its range.
type Estimate struct {
	Known             bool
	Guess             bool // the record's own time: no range is known
	Low, Middle, High time.Duration
	Figure            figure.Figure // the middle
	LowFigure         figure.Figure // not set for a guess
	HighFigure        figure.Figure
}

// Estimate estimates a step: by the time the record gives it, else by the
// maker's own rates for its technique.
func (r *Rates) Estimate(s *Step) Estimate {
	e, _ := r.estimate(figure.NewPad(measure.Style{}), s)
	return e
}

func (r *Rates) estimate(k *figure.Pad, s *Step) (Estimate, schedule.Estimate) {
	id := k.Join(s.base, ".planned")
	const title = "planned"
	takes := s.Record.Takes
	switch {
	case takes.Given():
		sum := schedule.Guess(takes.V)
		t := k.Written("takes", takes.V.Minutes(), measure.UnitMin, takes.At)
		return guessed(sum, k.Figure(id, title, s.ID, t, measure.UnitMin, say.Of("order.as-the-record-says-an-estimate-has"), figure.Recorded)), sum
	case s.waitsOnly():
		k.Note(k.Written("wait", s.Record.Wait.V.Minutes(), measure.UnitMin, s.Record.Wait.At))
		sum := schedule.Guess(0)
		t := k.Constant(0, measure.UnitMin)
		return guessed(sum, k.Figure(id, title, s.ID, t, measure.UnitMin, say.Of("order.a-step-with-a-wait-and-no"), figure.OurOwn)), sum
	}
	return r.fromRate(k, s, id, title)
}

// reason is why something is not known, without saying so again.
func reason(why string) string {
	for _, head := range []string{say.Of("order.not-known-yet"), say.Of("order.not-known")} {
		if rest, ok := strings.CutPrefix(why, head); ok {
			return rest
		}
	}
	return why
}

func guessed(sum schedule.Estimate, f figure.Figure) Estimate {
	return Estimate{Known: true, Guess: true, Low: sum.Low, Middle: sum.Middle, High: sum.High, Figure: f}
}

var rateRule = say.Of("order.rate-times-metres-or-pieces-half-of")

// fromRate estimates a step from the maker's own rates.
func (r *Rates) fromRate(k *figure.Pad, s *Step, id, title string) (Estimate, schedule.Estimate) {
	none := func(why string) (Estimate, schedule.Estimate) {
		return Estimate{Figure: k.Figure(id, title, s.ID, k.Unknown(why), measure.UnitMin, rateRule, figure.Derived)}, schedule.Estimate{Why: why}
	}
	if !s.Record.Technique.Given() {
		return none(say.Of("order.no-time-for-this-step-write-takes"))
	}
	unit, amount := measure.UnitMinPerM, s.Metres.Value.Number
	var in figure.Term
	switch {
	case s.Record.Pieces.Given():
		unit, amount = measure.UnitMinPerPiece, float64(s.Record.Pieces.V)
		in = k.Written("pieces", amount, measure.UnitCount, s.Record.Pieces.At)
	case s.Metres.ID != "" && s.Metres.Value.Known():
		in = k.Of("metres", &s.Metres)
	default:
		return none(say.Of("order.no-time-for-this-step-nor-what"))
	}
	t := r.one(s.Record.Technique.V, unit)
	if t == nil {
		t = &TechniqueRate{Technique: s.Record.Technique.V, Unit: unit}
	}
	sum := t.Sum.Estimate(amount)
	if !sum.Known() {
		return none(reason(sum.Why))
	}
	e := Estimate{Known: true, Low: sum.Low, Middle: sum.Middle, High: sum.High}
	for _, q := range []struct {
		into *figure.Figure
		id   string
		word string
		rate *figure.Figure
	}{
		{&e.Figure, id, title, &t.Median},
		{&e.LowFigure, k.Join(id, "-low"), say.Of("order.planned-quick"), &t.Lower},
		{&e.HighFigure, k.Join(id, "-high"), say.Of("order.planned-slow"), &t.Upper},
	} {
		*q.into = k.Figure(q.id, q.word, s.ID, k.Of("rate", q.rate).Times(in), measure.UnitMin, rateRule, figure.Derived)
	}
	return e, sum
}
