package garment

import (
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// handRatio is thread for length sewn by hand: one thread, at the upper end
// of what hems take.
const (
	handRatio  = 3
	handSource = "common practice, no source (1.5 to 3 times the length)"
)

// knownStitch faults a stitch type that the record names and no table has.
func (w *stitching) knownStitch(stitch record.Text) {
	if stitch.Given() && w.stitches[stitch.V] == nil {
		w.faults.Wrong(stitch.At, stitchHint(), say.Of("garment.there-is-no-stitch-type", say.Quoted(stitch.V)))
	}
}

func stitchHint() string {
	hint := say.Of("garment.stitch-types-are-numbers-of-iso-4915")
	for _, s := range trade.Stitches() {
		hint += " " + s.Type
	}
	return hint
}

// ratio works out the thread of some rows of one stitch: how many times the
// length sewn the needle and the threads below it take.
func (w *stitching) ratio(r *Row) {
	s := w.stitches[r.Stitch]
	switch {
	case s == nil:
		r.why = say.Of("garment.stitch-is-not-known", r.Stitch)
	case !r.Length.Value.Known():
		r.why = say.Of("garment.the-length-of-is-not-known", r.what)
	case r.source != "": // of a buttonhole, which no table of stitches tells
	case s.Ratio != nil:
		r.ratios = [2]float64{s.Ratio.Total * s.Ratio.Needle / 100, s.Ratio.Total * s.Ratio.Under / 100}
		r.source = s.Ratio.Source
	case s.Hand:
		r.ratios, r.source = [2]float64{handRatio, 0}, handSource
	default:
		r.why = say.Of("garment.no-thread-ratio-is-published-for-stitch", r.Stitch)
	}
}

// threadName is the thread a seam is sewn with: the first unless said.
func (w *stitching) threadName(name string) string {
	if name == "" && len(w.threads) > 0 {
		return w.threads[0].Name.V
	}
	return name
}

// A threadReckoner works out how much of each thread the rows of stitching take.
type threadReckoner struct {
	*desk
	rows        []Row
	named       record.Dict[record.ThreadUse]
	waste, reel figure.Setting
}

// threads adds up what each thread of the build must be.
func (w *threadReckoner) threads() []*Thread {
	list := w.named.Names()
	for i := range w.rows {
		if name := w.rows[i].Thread; w.rows[i].Rows > 0 && !has(list, name) {
			list = append(list, name)
		}
	}
	slugs, out := words.NamesFor(len(list)), make([]*Thread, 0, len(list))
	for _, name := range list {
		t := &Thread{Name: name}
		if name == "" {
			t.Name = "thread"
		}
		spec, _ := w.named.Get(name)
		t.Colour = spec.Colour.V
		w.threadSums(t, name, &spec, w.Join("thread.", slugs.Unique(t.Name)))
		out = append(out, t)
	}
	return out
}

func has(list []string, s string) bool {
	for _, l := range list {
		if l == s {
			return true
		}
	}
	return false
}

func (w *threadReckoner) threadSums(t *Thread, name string, spec *record.ThreadUse, base string) {
	t.Needle = w.threadSum(w.Join(base, ".needle"), say.Of("garment.needle-thread-before-waste"), name, t.Name, 0)
	t.Under = w.threadSum(w.Join(base, ".under"), say.Of("garment.under-and-cover-thread-before-waste"), name, t.Name, 1)
	waste := w.waste
	both := w.Of("needle", &t.Needle).Plus(w.Of("under", &t.Under))
	more := w.Number(1).Plus(waste.Term(w.Pad, "waste", measure.UnitPercent))
	t.Total = w.Figure(w.Join(base, ".total"), say.Of("garment.thread-to-have-ready"), t.Name, both.Times(more), measure.UnitM, say.Of("garment.needle-under-times-1-waste"), waste.Source)
	w.reels(t, name, spec, base)
}

// threadSum adds up one kind of thread over all that is sewn with it. Rows of one
// stitch along one line are one term.
func (w *threadReckoner) threadSum(id, title, name, of string, part int) figure.Figure {
	rule := say.Of("garment.length-sewn-times-rows-times-ratio-of")
	var terms []figure.Term
	used, why := false, ""
	for i := range w.rows {
		r := &w.rows[i]
		if r.Thread != name || r.Rows == 0 {
			continue
		}
		used = true
		rows, again := w.alikeRows(i)
		switch {
		case again:
		case r.why != "":
			why = r.why
			w.Note(w.Of(r.what, r.Length))
		case r.ratios[part] > 0:
			ratio := w.Row(r.ratioName(), r.ratios[part], measure.UnitCount, r.source)
			terms = append(terms, w.Of(r.what, r.Length).By(float64(rows)).Times(ratio))
		default:
			w.Note(w.Of(r.what, r.Length))
		}
	}
	t := w.Constant(0, measure.UnitM)
	switch {
	case !used:
		t = w.Unknown(say.Of("garment.nothing-is-sewn-with-it"))
	case why != "":
		t = w.Sum(append(terms, t)...).Unless(why)
	case len(terms) > 0:
		t = w.Sum(terms...)
	}
	return w.Figure(id, title, of, t, measure.UnitM, rule, figure.Derived)
}

func (r *Row) ratioName() string {
	switch r.Kind {
	case HoleRow:
		return say.Of("garment.ratio-of-a-buttonhole")
	case ButtonRow:
		return say.Of("garment.stitches-through-a-button")
	}
	return say.With("garment.ratio-of-stitch", r.Stitch)
}

// alikeRows is how many rows of one stitch there are along the line of a row in
// all, those that are taken out again apart; again where an earlier one of them was
// met before.
func (w *threadReckoner) alikeRows(i int) (rows int, again bool) {
	r := &w.rows[i]
	same := func(o *Row) bool {
		return o.Length == r.Length && o.Stitch == r.Stitch && o.Thread == r.Thread && o.Temporary == r.Temporary
	}
	for k := i - 1; k >= 0 && w.rows[k].Length == r.Length; k-- {
		if same(&w.rows[k]) {
			return 0, true
		}
	}
	for k := i; k < len(w.rows) && w.rows[k].Length == r.Length; k++ {
		if same(&w.rows[k]) {
			rows += w.rows[k].Rows
		}
	}
	return rows, false
}

// reels rounds up to whole reels and weighs the thread.
func (w *threadReckoner) reels(t *Thread, name string, spec *record.ThreadUse, base string) {
	reel := w.reel
	if spec.Reel.Given() {
		reel = figure.Setting{V: spec.Reel.V.MM(), At: spec.Reel.At, Source: figure.Recorded}
	}
	one := func() figure.Term {
		m := figure.Setting{V: reel.V / 1e3, At: reel.At, Source: reel.Source}
		t := m.Term(w.Pad, say.Of("garment.on-a-reel"), measure.UnitM)
		if !(reel.V > 0) {
			t = t.Unless(say.Of("garment.nothing-is-said-to-be-on-a"))
		}
		return t
	}
	t.Reels = w.Figure(w.Join(base, ".reels"), "reels", t.Name, w.Of("thread", &t.Total).Over(one()).Up(w.Number(1)), measure.UnitCount,
		say.Of("garment.thread-by-length-on-a-reel-rounded"), figure.Derived)
	mass := w.Written(say.Of("garment.weight-of-a-reels-thread"), float64(spec.Mass.V), measure.UnitG, spec.Mass.At)
	if !spec.Mass.Given() {
		mass = w.Unknown(say.Of("garment.the-weight-of-a-reels-thread-is"))
	}
	sewn := w.Of("needle", &t.Needle).Plus(w.Of("under", &t.Under))
	if t.Needle.Value.Known() && t.Under.Value.Known() {
		for i := range w.rows {
			rows, again := w.alikeRows(i)
			if r := &w.rows[i]; r.Temporary && r.Thread == name && !again {
				ratio := w.Row(r.ratioName(), r.ratios[0]+r.ratios[1], measure.UnitCount, r.source)
				sewn = sewn.Minus(w.Of(r.what, r.Length).By(float64(rows)).Times(ratio))
			}
		}
	}
	t.Mass = w.Figure(w.Join(base, ".mass"), say.Of("garment.weight-in-the-garment"), t.Name, sewn.Over(one()).Times(mass), measure.UnitG,
		say.Of("garment.thread-that-stays-in-by-length-on"), figure.Derived)
}
