package fitting

import (
	"math"

	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
)

// eased works out ease and least ease (figure 7).
func (w *trial) eased(l *Level, base string) {
	least := w.leastEase(l, base)
	l.Enough = true // until something says otherwise
	if body, ok := w.t.tailor.BodyLength(w.b.DraftedFor, l.Name); ok {
		l.Drafted = w.Figure(w.Join(base, ".drafted"), say.Of("fitting.size-drafted-for"), l.Name, w.Length(say.Of("fitting.drafted-for"), body), mm, say.Of("fitting.as-the-record-says"), figure.Recorded)
		l.Drafted.Value.Exact = true
		l.Ease, l.EasePart, l.Enough = w.easeOver(l, base, &l.Drafted)
		if l.Ease.Value.Known() && least.soft && w.gives(l.Level) {
			l.Enough = true
		}
		w.stretched(l, base)
		switch {
		case !l.Ease.Value.Known() || w.g.Doubtful(l.Name):
		case w.tooFar(l, body, least):
		case !w.reaches(l, body) && w.unlikely(l, body):
		case !l.Enough:
			w.tooLittle(l, body, least)
		}
		if !w.g.Doubtful(l.Name) {
			w.askedTooFar(l, body, least)
		}
		l.Judged = w.judge(l, body)
	}
}

// tooLittle tells of a level with less ease than was asked for, or than a fitted
// garment usually has where nobody asked.
func (w *trial) tooLittle(l *Level, body record.Length, least leastEase) {
	has, wants := w.tape().About(l.Ease.Value.Number), w.tape().Exact(least.V)
	if least.At.Given() {
		w.faults.LookAgain(body.At, say.Of("fitting.widen-the-pieces-or-write-less-under"), say.Of("fitting.of-ease-you-asked-for", l.Name, has, wants))
		return
	}
	hint := say.Of("fitting.widen-the-pieces")
	if ease := math.Floor(l.Ease.Value.Number); ease >= 0 {
		hint = say.Of("fitting.widen-the-pieces-or-say-how-little", l.Name, w.tape().Written(ease))
	}
	w.faults.LookAgain(body.At, hint, say.Of("fitting.of-ease-where-fitted-garments-have", l.Name, has, wants))
}

// A leastEase is the least ease asked for at a level.
type leastEase struct {
	figure.Setting
	known, soft bool // soft: not the build's own wish, so cloth that gives is exempt
}

func (w *trial) leastEase(l *Level, base string) leastEase {
	least := w.askedEase(l.Name)
	if !least.known {
		return least
	}
	rule := say.Of("fitting.as-the-garment-asks")
	if least.soft {
		rule = say.Of("fitting.as-the-workroom-asks")
		if !least.At.Given() {
			rule = say.Of("fitting.what-the-trade-asks-of-fitted-garments")
		}
	}
	l.Least = w.Figure(w.Join(base, ".least-ease"), say.Of("fitting.least-ease"), l.Name, w.asked(least), mm, rule, least.Source)
	return least
}

// asked is the least ease as a term: written, or a row of the trade's table.
func (w *trial) asked(least leastEase) figure.Term {
	if !least.At.Given() {
		return w.Row(say.Of("fitting.least-ease"), least.V, mm, least.Source)
	}
	return least.Term(w.Pad, say.Of("fitting.least-ease"), mm)
}

func (w *trial) askedEase(level string) leastEase {
	if v, ok := w.t.tailor.BodyLength(w.b.Usual.LeastEase, level); ok {
		return leastEase{figure.Setting{V: v.V.MM(), At: v.At, Source: figure.Recorded}, true, false}
	}
	if v, ok := w.t.tailor.BodyLength(w.t.room.Workroom.Usual.LeastEase, level); ok {
		return leastEase{figure.Setting{V: v.V.MM(), At: v.At, Source: "the workroom's usual"}, true, true}
	}
	body := w.t.tailor.BodyOf(level)
	for i := range w.t.ease {
		if e := &w.t.ease[i]; e.At == body {
			return leastEase{figure.Setting{V: e.Least, Source: e.Source}, true, true}
		}
	}
	return leastEase{}
}

// gives reports whether the cloth at a level gives: knitted, elastic or cut on
// the bias, so that it needs no ease.
func (w *trial) gives(l *garment.Level) bool {
	if l.Drawn {
		return true
	}
	pieces := l.Pieces()
	for _, p := range pieces {
		if p.Grain == "bias" {
			continue
		}
		cloth := w.g.ClothOf(p)
		if cloth == nil || !cloth.Gives() {
			return false
		}
	}
	return len(pieces) > 0
}

// easeOver is ease over a body measurement, in millimetres and per cent.
func (w *trial) easeOver(l *Level, base string, body *figure.Figure) (ease, part figure.Figure, enough bool) {
	finished, over := w.Of("finished", &l.Finished), w.Of("body", body)
	if !finished.Known() {
		finished = finished.Unless(say.Of("fitting.the-finished-width-is-not-known"))
	}
	rule := say.Of("fitting.finished-body")
	if l.Most.ID != "" {
		rule += say.Of("fitting.less-than-nothing-where-its-cloth-is")
	}
	ease = w.Figure(w.Join(base, ".ease"), "ease", l.Name, finished.Minus(over), mm, rule, figure.Derived)
	share := w.Of("ease", &ease).Over(over)
	if over.Known() && !(over.MM() > 0) {
		share = share.Unless(say.Of("fitting.the-body-measures-nothing"))
	}
	part = w.Figure(w.Join(base, ".ease-part"), say.Of("fitting.ease-in-per-cent"), l.Name, share, measure.UnitPercent, say.Of("fitting.ease-by-body"), figure.Derived)
	if !ease.Value.Known() {
		return ease, part, false
	}
	d := ease.Value.Number
	enough = l.Least.ID == "" || d >= l.Least.Value.Number-1e-6
	return ease, part, enough
}

// onBody sets the level beside the wearer's own body; what comes of it is private.
func (w *trial) onBody(l *Level, wearer *record.Wearer) {
	if wearer == nil {
		return
	}
	body, ok := w.t.tailor.BodyLength(wearer.Body, l.Name)
	if !ok {
		return
	}
	base := w.Join("fit.", l.Slug)
	f := BodyFit{Level: l.Name, Finished: l.Finished}
	f.Body = w.Figure(w.Join(base, ".body"), say.Of("fitting.the-wearers-own-measurement"), l.Name, w.Length("body", body), mm, say.Of("fitting.as-the-wearers-file-says"), figure.Recorded)
	f.Body.Value.Exact = true
	f.Ease, f.EasePart, f.Enough = w.easeOver(l, base, &f.Body)
	if f.Ease.Value.Known() && w.askedEase(l.Name).soft && w.gives(l.Level) {
		f.Enough = true
	}
	if !f.Enough && !w.g.Doubtful(l.Name) && f.Ease.Value.Known() {
		w.faults.LookAgain(w.b.Wearer.Open(record.ToFigure).At, say.Of("fitting.hembook-tally-fit", w.b.Slug), say.Of("fitting.tighter-on-the-wearer-than-you-asked", l.Name))
	}
	w.out.OnBody = append(w.out.OnBody, record.Keep(f))
}
