package garment

import (
	"slices"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// A Check is one thing that must meet, run smooth or agree, with how far it is
// off.
type Check struct {
	Kind   string             // one of CheckKinds
	What   string             // "front.neck to back.neck at shoulders"
	Off    figure.Figure      // how far off, or how much there is
	Judged bool               // there is a limit to hold it against
	Good   bool               // it is within its limit; true where it is not judged
	Limit  string             // "at most 5°"; empty where it is not judged
	Most   float64            // of the unit of Off, either way, where that is all the limit there is; else 0
	Mend   string             // what would mend it; empty where nothing must be mended
	write  []fault.Correction // the same to be written by a program, where it can be
	At     fault.Pos
	Join   *LineAcross // of a line across a join: the two pieces laid edge to edge

	taken  bool // both pieces are like others, which are told of it
	halves bool // of a left and a right half
	slack  bool // of a stretch: how far the edges differ beyond the ease of the whole seam
}

// limits are how far what must meet may be off: millimetres and degrees.
type limits struct {
	angle, step, notches, legs, grain, headLeast, headMost, lining, corner, dart figure.Setting
}

// limitsOf takes a build's limits, else the workroom's, else the trade's.
func (t *Tailor) limitsOf(b *record.Build) limits {
	own, room := &b.Usual.Truing, &t.room.Workroom.Usual.Truing
	usual := map[string]figure.Setting{}
	for _, l := range trade.TruingLimits() {
		usual[l.Name] = figure.Setting{V: l.Value, Source: l.Source}
	}
	length := func(name string, own, room record.Length) figure.Setting {
		switch {
		case own.Given():
			return figure.Setting{V: own.V.MM(), At: own.At, Source: figure.Recorded}
		case room.Given():
			return figure.Setting{V: room.V.MM(), At: room.At, Source: "the workroom's usual"}
		}
		return usual[name]
	}
	number := func(name string, own, room record.Number) figure.Setting {
		switch {
		case own.Given():
			return figure.Setting{V: own.V, At: own.At, Source: figure.Recorded}
		case room.Given():
			return figure.Setting{V: room.V, At: room.At, Source: "the workroom's usual"}
		}
		return usual[name]
	}
	return limits{
		angle: number("angle", own.Angle, room.Angle), step: length("step", own.Step, room.Step),
		notches: length("notches", own.Notches, room.Notches), legs: length("legs", own.Legs, room.Legs),
		grain:     number("grain", own.Grain, room.Grain),
		headLeast: length("head-least", own.HeadLeast, room.HeadLeast), headMost: length("head-most", own.HeadMost, room.HeadMost),
		lining: length("lining", own.Lining, room.Lining), corner: usual["corner"],
		dart: number("dart", own.Dart, room.Dart),
	}
}

// A truer holds against their limits the lines that run over seams and folds, the legs
// of darts, the grains of halves and what lies behind or beside what.
type truer struct {
	*girthWalk
	lim       *limits
	tolerance figure.Setting // by how much the edges of a seam may differ
}

// trueUp checks that what must meet does meet.
func (w *truer) trueUp() {
	walk := &walker{w.index, w.lim}
	walk.checkNotches()
	ids := words.NamesFor(len(w.g.Seams))
	for _, s := range w.g.Seams {
		id := ids.Unique(s.Name)
		if s.broken || s.set {
			continue
		}
		walk.walk(s, id)
		w.lines(s, id)
		w.sleeveHead(s, id)
	}
	w.folds()
	w.dartLegs()
	w.dartLines()
	w.grains()
	w.grainsBeside()
	w.halves()
	w.linings()
	w.likes()
	w.tellChecks()
}

// tellChecks warns of every check that is not good. A line that must be drawn anew at both
// its ends is drawn at one of them first: each way of drawing it would undo the other.
func (w *truer) tellChecks() {
	drawn := map[fault.Pos]*Check{}
	for i := range w.g.Truing {
		c := &w.g.Truing[i]
		if c.Good || c.taken {
			continue
		}
		var before *Check
		for _, each := range c.write {
			if o := drawn[each.At]; o != nil && !slices.ContainsFunc(o.write, func(p fault.Correction) bool { return p.At == each.At && p.New == each.New }) {
				before = o
			}
		}
		if before != nil {
			c.Mend, c.write = say.Of("garment.draw-it-anew-at-its-other-end-first", before.What), nil
		}
		for _, each := range c.write {
			drawn[each.At] = c
		}
		f := w.faults.LookAgain(c.At, c.Mend, c.told(w.tape()))
		f.Correct = c.write
	}
}

// told says in a fault what is off.
func (c *Check) told(tape words.Tape) string {
	v := c.Off.Value.Number
	switch c.Kind {
	case "line":
		side := say.Of("garment.a-hollow")
		if v < 0 {
			side = say.Of("garment.a-point")
		}
		return say.Of("garment.comes-to-of", c.What, side, degrees(max(v, -v)))
	case "step":
		return say.Of("garment.the-ends-are-apart-at-the-seam", c.What, tape.About(max(v, -v)))
	case "notches":
		return say.Of("garment.the-notches-are-apart", c.What, tape.About(max(v, -v)))
	case "stretch":
		if c.slack {
			return say.Of("garment.the-edges-differ-by-more-than-the", c.What, tape.About(v))
		}
		return say.Of("garment.the-edges-differ-by", c.What, tape.About(max(v, -v)))
	case "sleeve head":
		return say.Of("garment.of-ease-allowed-are", c.What, tape.About(v), c.Limit)
	case "dart legs":
		return say.Of("garment.differ-by", c.What, tape.About(max(v, -v)))
	case "grain":
		if c.halves {
			return say.Of("garment.are-cut-on-different-grains-apart", c.What, degrees(v))
		}
		return say.Of("garment.leans-from-the-grain", c.What, degrees(v))
	}
	return say.Of("garment.is-narrower-than-the-shell-and-will", c.What, tape.About(-v))
}

func degrees(v float64) string { return string(words.AppendNumber(nil, v, 0)) + "°" }

// atMost says what an angle of a check is held against.
func atMost(s figure.Setting) string {
	return say.With("garment.at-most", string(words.AppendNumber(nil, s.V, 1)))
}

// lengthAtMost says what a length of a check is held against.
func (w *desk) lengthAtMost(s figure.Setting) string {
	return say.With("garment.at-most-2", w.tape().Exact(s.V))
}

// hold keeps a check.
func (g *Garment) hold(c Check) {
	if !c.Judged {
		c.Good, c.Limit, c.Mend = true, "", ""
	}
	if c.Good {
		c.Mend = ""
	}
	g.Truing = append(g.Truing, c)
}
