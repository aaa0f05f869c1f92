package garment

import (
	"math"

	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/trade"
)

// A threadUse is what one seam or finish takes of a thread.
type threadUse struct {
	thread, what  string
	stitch        string
	rows          int
	length        float64 // mm sewn
	needle, under float64 // mm, before waste
	source        trade.Source
	why           string
	total         *Figure
}

// handRatio is thread for length sewn by hand: one thread, at the upper end
// of what hems take.
const (
	handRatio  = 3
	handSource = "common practice, no source (1.5 to 3 times the length)"
)

// threadOf counts the rows of a seam type and what they take (figure 14).
func (w *work) threadOf(t *seamType, stitch record.Text, thread, what string, total *Figure) []ThreadNeed {
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
		u := threadUse{thread: thread, what: what, stitch: number, rows: r.Rows, total: total}
		need := ThreadNeed{Rows: r.Rows, Thread: thread}
		if s, ok := w.t.stitches[number]; ok {
			need.Stitch = *s
		}
		w.ratio(&u)
		need.Needle, need.Under = u.needle, u.under
		out = append(out, need)
		w.uses = append(w.uses, u)
	}
	return out
}

func (w *work) stitchHint() string {
	hint := "stitch types are numbers of ISO 4915:"
	for _, s := range trade.Stitches() {
		hint += " " + s.Type
	}
	return hint
}

// ratio works out the thread of some rows of one stitch.
func (w *work) ratio(u *threadUse) {
	s := w.t.stitches[u.stitch]
	switch {
	case s == nil:
		u.why = "stitch " + u.stitch + " is not known"
		return
	case !u.total.Value.Known():
		u.why = "the length of " + u.what + " is not known"
		return
	}
	u.length = u.total.Value.Number * 1e3
	sewn := u.length * float64(u.rows)
	switch {
	case s.Ratio != nil:
		u.needle = sewn * s.Ratio.Total * s.Ratio.Needle / 100
		u.under = sewn * s.Ratio.Total * s.Ratio.Under / 100
		u.source = s.Ratio.Source
	case s.Hand:
		u.needle, u.source = sewn*handRatio, handSource
	default:
		u.why = "no thread ratio is published for stitch " + u.stitch
	}
}

// threadName is the thread a seam is sewn with: the first unless said.
func (w *work) threadName(name string) string {
	if name == "" && len(w.b.Thread) > 0 {
		return w.b.Thread[0].Name.V
	}
	return name
}

// threads adds up what each thread of the build must be.
func (w *work) threads() {
	var list []string
	for i := range w.b.Thread {
		list = append(list, w.b.Thread[i].Name.V)
	}
	for i := range w.uses {
		if name := w.uses[i].thread; !has(list, name) {
			list = append(list, name)
		}
	}
	slugs := namesFor(len(list))
	for _, name := range list {
		t := &Thread{Name: name}
		if name == "" {
			t.Name = "thread"
		}
		spec, _ := w.b.Thread.Get(name)
		t.Colour = spec.Colour.V
		w.threadSums(t, name, &spec, w.join("thread.", slugs.unique(t.Name)))
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

func (w *work) threadSums(t *Thread, name string, spec *record.ThreadUse, base string) {
	t.Needle = w.threadSum(w.join(base, ".needle"), "needle thread, before waste", name, t.Name, func(u *threadUse) float64 { return u.needle })
	t.Under = w.threadSum(w.join(base, ".under"), "under and cover thread, before waste", name, t.Name, func(u *threadUse) float64 { return u.under })
	waste := w.t.usual.waste
	w.figureIn("needle", &t.Needle).figureIn("under", &t.Under)
	waste.input(&w.ink, "waste", measure.UnitPercent)
	v := t.Needle.Value
	if v.Known() {
		v = valueIn((t.Needle.Value.Number+t.Under.Value.Number)*(1+waste.v/100), measure.UnitM)
		w.s("(").n(t.Needle.Value.Number).s(" + ").n(t.Under.Value.Number).s(") × (1 + ").n(waste.v).s(" %) = ").n(v.Number).s(" m")
	}
	t.Total = w.figure(w.join(base, ".total"), "thread in all, with waste", t.Name, v, "(needle + under) × (1 + waste)", waste.source)
	w.reels(t, spec, base)
}

// threadSum adds up one kind of thread over all that is sewn with it.
func (w *work) threadSum(id, title, name, of string, part func(*threadUse) float64) Figure {
	const rule = "Σ length sewn × rows × ratio × share of the stitch type"
	n, why, source := 0, "", derived
	for i := range w.uses {
		u := &w.uses[i]
		if u.thread != name {
			continue
		}
		n++
		if u.why != "" {
			why = u.why
		} else if part(u) > 0 {
			source = u.source
		}
		w.note(Input{Name: u.what, Value: w.q(u.total.Value.Quantity).s(", ").i(u.rows).s(" of ").s(u.stitch).end(), From: u.total.ID})
	}
	sum := w.threadTerms(name, part)
	v := inM(sum)
	w.s(" = ").n(v.Number).s(" m")
	switch {
	case n == 0:
		v = unknown("nothing is sewn with it")
	case why != "":
		v = unknown(why)
	}
	return w.figure(id, title, of, v, rule, source)
}

// threadTerms writes the terms of a thread's sum and adds them up, in mm.
func (w *work) threadTerms(name string, part func(*threadUse) float64) float64 {
	sum, first := 0.0, true
	for i := range w.uses {
		u := &w.uses[i]
		if u.thread != name || part(u) == 0 {
			continue
		}
		if !first {
			w.s(" + ")
		}
		first = false
		w.n(u.length / 1e3).s(" × ").i(u.rows).s(" × ").n(part(u) / u.length / float64(u.rows))
		sum += part(u)
	}
	if first {
		w.s("none of its stitches takes any: 0")
	}
	return sum
}

// reels rounds up to whole reels and weighs the thread.
func (w *work) reels(t *Thread, spec *record.ThreadUse, base string) {
	reel := w.t.usual.reel
	if spec.Reel.Given() {
		reel = setting{spec.Reel.V.MM(), spec.Reel.At, recorded}
	}
	id, massID := w.join(base, ".reels"), w.join(base, ".mass")
	w.figureIn("thread", &t.Total)
	setting{reel.v / 1e3, reel.at, reel.source}.input(&w.ink, "on a reel", measure.UnitM)
	v := t.Total.Value
	if v.Known() && reel.v > 0 {
		v = counted(int(math.Ceil(t.Total.Value.Number*1e3/reel.v - 1e-9)))
		w.n(t.Total.Value.Number).s(" ÷ ").n(reel.v / 1e3).s(" = ").n(t.Total.Value.Number * 1e3 / reel.v).s(", rounded up to ").n(v.Number)
	} else if v.Known() {
		v = unknown("nothing is said to be on a reel")
	}
	t.Reels = w.figure(id, "reels to have", t.Name, v, "thread ÷ length on a reel, rounded up", derived)
	w.figureIn("needle", &t.Needle).figureIn("under", &t.Under)
	const rule = "thread sewn in ÷ length on a reel × mass of a full reel's thread"
	switch {
	case !t.Needle.Value.Known():
		t.Mass = w.figure(massID, "mass in the garment", t.Name, unknown(t.Needle.Value.Why), rule, derived)
	case !spec.Mass.Given():
		t.Mass = w.figure(massID, "mass in the garment", t.Name, unknown("the mass of a reel's thread is not written"), rule, derived)
	default:
		w.note(Input{Name: "mass of a reel's thread", Value: w.n(float64(spec.Mass.V)).s(" g").end(), At: spec.Mass.At})
		sewn := (t.Needle.Value.Number + t.Under.Value.Number) * 1e3
		g := sewn / reel.v * float64(spec.Mass.V)
		w.n(sewn / 1e3).s(" ÷ ").n(reel.v / 1e3).s(" × ").n(float64(spec.Mass.V)).s(" = ").n(g).s(" g")
		t.Mass = w.figure(massID, "mass in the garment", t.Name, valueIn(g, measure.UnitG), rule, derived)
	}
}
