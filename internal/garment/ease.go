package garment

import (
	"math"

	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// bodyNames maps every name of a body measurement to its standard name.
func bodyNames() map[string]string {
	out := map[string]string{}
	for _, m := range trade.Measurements() {
		for _, a := range m.Also {
			out[words.Plain(a.Term)] = m.Name
		}
		out[words.Plain(m.Title)] = m.Name
	}
	for _, m := range trade.Measurements() { // a name proper goes before another's by-name
		out[words.Plain(m.Name)] = m.Name
	}
	return out
}

// bodyOf is the body measurement a level goes round: its standard name, or
// the level's own name where it has none.
func (t *Tailor) BodyOf(level string) string {
	if m, ok := t.body[words.Plain(level)]; ok {
		return m
	}
	return words.Plain(level)
}

// bodyLength finds a measurement by any name that means the same.
func (t *Tailor) BodyLength(d record.Dict[record.Length], level string) (record.Length, bool) {
	if l, ok := d.Get(level); ok {
		return l, l.Given()
	}
	want := t.BodyOf(level)
	for i := range d {
		if t.BodyOf(d[i].Name.V) == want {
			return d[i].V, d[i].V.Given()
		}
	}
	return record.Length{}, false
}

// ease works out ease, least ease and the reserve for letting out (figure 7).
func (w *work) ease(l *Level, base string) {
	least := w.leastEase(l, base)
	l.Enough = true // until something says otherwise
	if body, ok := w.t.BodyLength(w.b.DraftedFor, l.Name); ok {
		l.Drafted = w.Figure(w.Join(base, ".drafted"), "body measurement drafted for", l.Name, w.Length("drafted for", body), mm, "as the record says", figure.Recorded)
		l.Drafted.Value.Exact = true
		l.Ease, l.EasePart, l.Enough = w.easeOver(l, base, &l.Drafted)
		if l.Ease.Value.Known() && least.soft && w.gives(l) {
			l.Enough = true
		}
		if !l.Enough && l.Ease.Value.Known() {
			w.faults.Warnf(body.At, "widen the pieces, or ask for less under least-ease:", "%q has %s of ease, less than the %s asked for", l.Name, words.Tenth(l.Ease.Value.Number), words.MM(least.V))
		}
	}
	w.letOut(l, base)
}

// A leastEase is the least ease asked for at a level.
type leastEase struct {
	figure.Setting
	known, soft bool // soft: not the build's own wish, so cloth that gives is exempt
}

func (w *work) leastEase(l *Level, base string) leastEase {
	least := w.askedEase(l.Name)
	if !least.known {
		return least
	}
	rule := "as the build asks"
	if least.soft {
		rule = "as the workroom asks"
		if !least.At.Given() {
			rule = "what the trade asks of fitted garments in woven cloth; elastic, knitted and bias-cut cloth may have less"
		}
	}
	l.Least = w.Figure(w.Join(base, ".least-ease"), "least ease asked for", l.Name, w.asked(least), mm, rule, least.Source)
	return least
}

// asked is the least ease as a term: written, or a row of the trade's table.
func (w *work) asked(least leastEase) figure.Term {
	if !least.At.Given() {
		return w.Row("least ease", least.V, mm, least.Source)
	}
	return least.Term(w.Pad, "least ease", mm)
}

func (w *work) askedEase(level string) leastEase {
	if v, ok := w.t.BodyLength(w.b.LeastEase, level); ok {
		return leastEase{figure.Setting{V: v.V.MM(), At: v.At, Source: figure.Recorded}, true, false}
	}
	if v, ok := w.t.BodyLength(w.t.usual.leastEase, level); ok {
		return leastEase{figure.Setting{V: v.V.MM(), At: v.At, Source: "the workroom's usual"}, true, true}
	}
	body := w.t.BodyOf(level)
	for i := range w.t.ease {
		if e := &w.t.ease[i]; e.At == body {
			return leastEase{figure.Setting{V: e.Least, Source: e.Source}, true, true}
		}
	}
	return leastEase{}
}

// gives reports whether the cloth at a level gives: knitted, elastic or cut on
// the bias, so that it needs no ease.
func (w *work) gives(l *Level) bool {
	if len(l.cross) == 0 {
		return false
	}
	for i := range l.cross {
		p := l.cross[i].piece
		if p.Grain == "bias" {
			continue
		}
		cloth := w.clothOf(p)
		if cloth == nil || cloth.Structure.V != "knitted" && !elastic(cloth) {
			return false
		}
	}
	return true
}

func elastic(c *record.Cloth) bool {
	for i := range c.Fibres {
		switch words.Plain(c.Fibres[i].Name.V) {
		case "elastane", "spandex", "elastodiene", "elastomultiester", "elastolefin":
			return true
		}
	}
	return false
}

// easeOver is ease over a body measurement, in millimetres and per cent.
func (w *work) easeOver(l *Level, base string, body *figure.Figure) (ease, part figure.Figure, enough bool) {
	finished, over := w.Of("finished", &l.Finished), w.Of("body", body)
	if !finished.Known() {
		finished = finished.Unless("the finished width is not known")
	}
	ease = w.Figure(w.Join(base, ".ease"), "ease", l.Name, finished.Minus(over), mm, "finished − body", figure.Derived)
	share := w.Of("ease", &ease).Over(over)
	if over.Known() && !(over.MM() > 0) {
		share = share.Unless("the body measures nothing")
	}
	part = w.Figure(w.Join(base, ".ease-part"), "ease in per cent", l.Name, share, measure.UnitPercent, "ease ÷ body", figure.Derived)
	if !ease.Value.Known() {
		return ease, part, false
	}
	d := ease.Value.Number
	enough = l.Least.ID == "" || d >= l.Least.Value.Number-1e-6
	return ease, part, enough
}

// fit sets the level beside the wearer's own body; what comes of it is private.
func (w *work) fit(l *Level, base string, wearer *record.Wearer) {
	if wearer == nil {
		return
	}
	body, ok := w.t.BodyLength(wearer.Body, l.Name)
	if !ok {
		return
	}
	base = w.Join("fit.", base[len("level."):])
	f := Fit{Level: l.Name, Finished: l.Finished}
	f.Body = w.Figure(w.Join(base, ".body"), "the wearer's own measurement", l.Name, w.Length("body", body), mm, "as the wearer's file says", figure.Recorded)
	f.Body.Value.Exact = true
	f.Ease, f.EasePart, f.Enough = w.easeOver(l, base, &f.Body)
	if f.Ease.Value.Known() && w.askedEase(l.Name).soft && w.gives(l) {
		f.Enough = true
	}
	if !f.Enough && f.Ease.Value.Known() {
		w.faults.Warnf(w.b.Wearer.Open(record.ToFigure).At, "see the private figures of the fit", "on the wearer's own body %q has less ease than asked for", l.Name)
	}
	w.g.Fit = append(w.g.Fit, record.Keep(f))
}

const letOutRule = "Σ (allowance − least margin) × times, over every sewn edge that runs through the level or from its ends: what stays of an allowance must hold the seam"

// letOut is how much a level can be let out.
func (w *work) letOut(l *Level, base string) {
	margin := w.t.usual.margin
	id := w.Join(base, ".let-out")
	const title = "can be let out by"
	if len(l.cross) == 0 {
		l.LetOut = w.Figure(id, title, l.Name, w.Unknown("no outline marks this level"), mm, letOutRule, figure.Practice)
		return
	}
	var through []*PieceEdge
	for i := range l.cross {
		through = appendThrough(through, &l.cross[i])
	}
	terms := make([]figure.Term, len(through))
	for i, e := range through {
		spare := w.Of(e.ref, &e.Allowance).Minus(margin.Term(w.Pad, "least margin", mm))
		terms[i] = w.AtLeastNothing(spare).By(float64(e.Times))
	}
	t := w.Found("no sewn edge runs through it", 0, mm)
	if len(terms) > 0 {
		t = w.Sum(terms...)
	}
	t = t.Unless(w.letOutUnsure(l, through))
	l.LetOut = w.Figure(id, title, l.Name, t, mm, letOutRule, figure.Practice)
}

// appendThrough adds the sewn edges that run through a crossing.
func appendThrough(list []*PieceEdge, c *crossing) []*PieceEdge {
	for k := range c.piece.Edges {
		if e := &c.piece.Edges[k]; e.seam != nil && !e.Fold && runsThrough(c, k) {
			list = append(list, e)
		}
	}
	return list
}

// runsThrough reports whether an edge of the crossing's piece leaves the ends
// of the edge that lies at the level, or passes the level's height.
func runsThrough(c *crossing, k int) bool {
	p := c.piece
	if c.edge == nil {
		return p.passes(k, c.y.V.MM())
	}
	n := len(p.Edges)
	return c.edge == &p.Edges[(k+1)%n] || c.edge == &p.Edges[(k+n-1)%n]
}

// passes reports whether an edge runs from below a height to above it.
func (p *Piece) passes(k int, y float64) bool {
	e := &p.Edges[k]
	next := p.Edges[(k+1)%len(p.Edges)].Index
	a, b := p.Outline.Start(e.Index).Y, p.Outline.Start(next).Y
	return math.Min(a, b) <= y && y <= math.Max(a, b)
}
