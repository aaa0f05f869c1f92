package garment

import (
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// A threadUse is what one seam or finish takes of a thread.
type threadUse struct {
	thread, what string
	stitch       string
	rows         int
	temporary    bool       // taken out again
	ratios       [2]float64 // of the length sewn: needle thread, and what lies below
	source       trade.Source
	why          string
	total        *figure.Figure
}

// handRatio is thread for length sewn by hand: one thread, at the upper end
// of what hems take.
const (
	handRatio  = 3
	handSource = "common practice, no source (1.5 to 3 times the length)"
)

// threadOf counts the rows of a seam type and what they take (figure 14).
func (w *derivation) threadOf(t *seamType, stitch record.Text, thread, what string, total *figure.Figure) []ThreadNeed {
	if stitch.Given() {
		if _, ok := w.t.stitches[stitch.V]; !ok {
			w.faults.Errorf(stitch.At, w.stitchHint(), "there is no stitch type %q", stitch.V)
		}
	}
	out := make([]ThreadNeed, 0, len(t.rows))
	thread = w.threadName(thread)
	for _, r := range t.rows {
		number := r.Stitch
		if number == t.main && stitch.Given() && !r.Temporary {
			number = stitch.V
		}
		u := threadUse{thread: thread, what: what, stitch: number, rows: r.Rows, temporary: r.Temporary, total: total}
		need := ThreadNeed{Rows: r.Rows, Thread: thread}
		if s, ok := w.t.stitches[number]; ok {
			need.Stitch = *s
		}
		w.ratio(&u)
		need.Needle, need.Under = u.mm(0), u.mm(1)
		out = append(out, need)
		w.uses = append(w.uses, u)
	}
	return out
}

func (w *derivation) stitchHint() string {
	hint := "stitch types are numbers of ISO 4915:"
	for _, s := range trade.Stitches() {
		hint += " " + s.Type
	}
	return hint
}

// ratio works out the thread of some rows of one stitch: how many times the
// length sewn the needle and the threads below it take.
func (w *derivation) ratio(u *threadUse) {
	s := w.t.stitches[u.stitch]
	switch {
	case s == nil:
		u.why = "stitch " + u.stitch + " is not known"
	case !u.total.Value.Known():
		u.why = "the length of " + u.what + " is not known"
	case s.Ratio != nil:
		u.ratios = [2]float64{s.Ratio.Total * s.Ratio.Needle / 100, s.Ratio.Total * s.Ratio.Under / 100}
		u.source = s.Ratio.Source
	case s.Hand:
		u.ratios, u.source = [2]float64{handRatio, 0}, handSource
	default:
		u.why = "no thread ratio is published for stitch " + u.stitch
	}
}

// mm is how much needle thread (0) or thread below it (1) is taken, before waste.
func (u *threadUse) mm(part int) float64 {
	if u.why != "" {
		return 0
	}
	return u.total.Value.Number * 1e3 * float64(u.rows) * u.ratios[part]
}

// threadName is the thread a seam is sewn with: the first unless said.
func (w *derivation) threadName(name string) string {
	if name == "" && len(w.b.Thread) > 0 {
		return w.b.Thread[0].Name.V
	}
	return name
}

// threads adds up what each thread of the build must be.
func (w *derivation) threads() {
	var list []string
	for i := range w.b.Thread {
		list = append(list, w.b.Thread[i].Name.V)
	}
	for i := range w.uses {
		if name := w.uses[i].thread; !has(list, name) {
			list = append(list, name)
		}
	}
	slugs := words.NamesFor(len(list))
	for _, name := range list {
		t := &Thread{Name: name}
		if name == "" {
			t.Name = "thread"
		}
		spec, _ := w.b.Thread.Get(name)
		t.Colour = spec.Colour.V
		w.threadSums(t, name, &spec, w.Join("thread.", slugs.Unique(t.Name)))
		w.g.Threads = append(w.g.Threads, t)
	}
}

func has(list []string, s string) bool {
	for _, l := range list {
		if l == s {
			return true
		}
	}
	return false
}

func (w *derivation) threadSums(t *Thread, name string, spec *record.ThreadUse, base string) {
	t.Needle = w.threadSum(w.Join(base, ".needle"), "needle thread, before waste", name, t.Name, 0)
	t.Under = w.threadSum(w.Join(base, ".under"), "under and cover thread, before waste", name, t.Name, 1)
	waste := w.t.usual.waste
	both := w.Of("needle", &t.Needle).Plus(w.Of("under", &t.Under))
	more := w.Number(1).Plus(waste.Term(w.Pad, "waste", measure.UnitPercent))
	t.Total = w.Figure(w.Join(base, ".total"), "thread to have ready", t.Name, both.Times(more), measure.UnitM, "(needle + under) × (1 + waste)", waste.Source)
	w.reels(t, name, spec, base)
}

// threadSum adds up one kind of thread over all that is sewn with it.
func (w *derivation) threadSum(id, title, name, of string, part int) figure.Figure {
	const rule = "Σ length sewn × rows × ratio of the stitch type"
	var terms []figure.Term
	used, why := false, ""
	for i := range w.uses {
		u := &w.uses[i]
		if u.thread != name {
			continue
		}
		used = true
		length := w.Of(u.what, u.total)
		switch {
		case u.why != "":
			why = u.why
			w.Note(length)
		case u.ratios[part] > 0:
			ratio := w.Row("ratio of stitch "+u.stitch, u.ratios[part], measure.UnitCount, u.source)
			terms = append(terms, length.By(float64(u.rows)).Times(ratio))
		default:
			w.Note(length)
		}
	}
	t := w.Constant(0, measure.UnitM)
	switch {
	case !used:
		t = w.Unknown("nothing is sewn with it")
	case why != "":
		t = w.Sum(append(terms, t)...).Unless(why)
	case len(terms) > 0:
		t = w.Sum(terms...)
	}
	return w.Figure(id, title, of, t, measure.UnitM, rule, figure.Derived)
}

// reels rounds up to whole reels and weighs the thread.
func (w *derivation) reels(t *Thread, name string, spec *record.ThreadUse, base string) {
	reel := w.t.usual.reel
	if spec.Reel.Given() {
		reel = figure.Setting{V: spec.Reel.V.MM(), At: spec.Reel.At, Source: figure.Recorded}
	}
	one := func() figure.Term {
		m := figure.Setting{V: reel.V / 1e3, At: reel.At, Source: reel.Source}
		t := m.Term(w.Pad, "on a reel", measure.UnitM)
		if !(reel.V > 0) {
			t = t.Unless("nothing is said to be on a reel")
		}
		return t
	}
	t.Reels = w.Figure(w.Join(base, ".reels"), "reels", t.Name, w.Of("thread", &t.Total).Over(one()).Up(w.Number(1)), measure.UnitCount,
		"thread ÷ length on a reel, rounded up", figure.Derived)
	mass := w.Written("weight of a reel's thread", float64(spec.Mass.V), measure.UnitG, spec.Mass.At)
	if !spec.Mass.Given() {
		mass = w.Unknown("the weight of a reel's thread is not written")
	}
	sewn := w.Of("needle", &t.Needle).Plus(w.Of("under", &t.Under))
	if t.Needle.Value.Known() && t.Under.Value.Known() {
		for i := range w.uses {
			if u := &w.uses[i]; u.temporary && u.thread == name {
				ratio := w.Row("ratio of stitch "+u.stitch, u.ratios[0]+u.ratios[1], measure.UnitCount, u.source)
				sewn = sewn.Minus(w.Of(u.what, u.total).By(float64(u.rows)).Times(ratio))
			}
		}
	}
	t.Mass = w.Figure(w.Join(base, ".mass"), "weight in the garment", t.Name, sewn.Over(one()).Times(mass), measure.UnitG,
		"thread that stays in ÷ length on a reel × weight of a full reel's thread", figure.Derived)
}
