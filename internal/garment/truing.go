package garment

import (
	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/record"
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

// tellChecks warns of every check that is not good.
func (w *truer) tellChecks() {
	for i := range w.g.Truing {
		if c := &w.g.Truing[i]; !c.Good && !c.taken {
			f := w.faults.Warnf(c.At, c.Mend, "%s", c.told(w.tape()))
			f.Correct = c.write
		}
	}
}

// told says in a fault what is off.
func (c *Check) told(tape words.Tape) string {
	v := c.Off.Value.Number
	switch c.Kind {
	case "line":
		side := "a hollow"
		if v < 0 {
			side = "a point"
		}
		return c.What + ": comes to " + side + " of " + degrees(max(v, -v))
	case "step":
		return c.What + ": the ends are " + tape.About(max(v, -v)) + " apart at the seam"
	case "notches":
		return c.What + ": the notches are " + tape.About(max(v, -v)) + " apart"
	case "stretch":
		if c.slack {
			return c.What + ": the edges differ by " + tape.About(v) + " more than the ease allows, or the other way"
		}
		return c.What + ": the edges differ by " + tape.About(max(v, -v))
	case "sleeve head":
		return c.What + ": " + tape.About(v) + " of ease, allowed are " + c.Limit
	case "dart legs":
		return c.What + " differ by " + tape.About(max(v, -v))
	case "grain":
		if c.halves {
			return c.What + " are cut on different grains, " + degrees(v) + " apart"
		}
		return c.What + " leans " + degrees(v) + " from the grain"
	}
	return c.What + " is " + tape.About(-v) + " narrower than the shell and will pull"
}

func degrees(v float64) string { return string(words.AppendNumber(nil, v, 0)) + "°" }

// atMost says what an angle of a check is held against.
func atMost(s figure.Setting) string {
	return "at most " + string(words.AppendNumber(nil, s.V, 1)) + "°"
}

// lengthAtMost says what a length of a check is held against.
func (w *desk) lengthAtMost(s figure.Setting) string { return "at most " + w.tape().Exact(s.V) }

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
