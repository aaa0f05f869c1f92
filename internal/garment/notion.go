package garment

import (
	"math"
	"strconv"
	"strings"

	"hembook/internal/measure"
	"hembook/internal/record"
)

// byLength are the notions that are sold by the metre and cut to length.
var byLength = []string{"boning", "tape", "elastic", "cord", "ribbon", "braid", "lace", "webbing", "petersham", "piping", "stay", "horsehair", "binding"}

// soldByLength reports whether a notion is cut to length: it is of such a kind
// and the record gives no count, so that its length comes from where it goes.
func soldByLength(n *record.Notion) bool {
	what := strings.ToLower(n.What.V)
	for _, word := range byLength {
		if strings.Contains(what, word) {
			return !n.Count.Given()
		}
	}
	return false
}

// A channel is one place a notion goes into.
type channel struct {
	name   string
	length *Figure
	times  int
}

// notions works out boning, tapes, closures (figure 15).
func (w *work) notions() {
	slugs := namesFor(len(w.b.Notions))
	for i := range w.b.Notions {
		r := &w.b.Notions[i]
		n := &Notion{Record: r}
		n.anchor = slugs.unique(r.What.V)
		base := w.join("notion.", n.anchor)
		channels := w.channels(r)
		w.notionLength(n, base, channels)
		w.notionCount(n, base, channels)
		w.spacing(n, base)
		w.notionTotal(n, base)
		w.notionMass(n, base)
		w.g.Notions = append(w.g.Notions, n)
	}
}

// channels lists where a notion goes.
func (w *work) channels(r *record.Notion) []channel {
	var out []channel
	if r.Edge.Given() {
		if use, ok := w.use(r.Edge.V); ok {
			out = append(out, channel{use.Edge.ref, &use.Edge.Sewn, use.Edge.Times})
		}
	}
	for _, in := range r.In {
		for _, s := range w.g.Seams {
			if s.Name == in.V {
				out = append(out, channel{s.Name, &s.Length, s.Times})
			}
		}
		for _, f := range w.g.Finishes {
			if f.Name != in.V {
				continue
			}
			for _, u := range f.Edges {
				out = append(out, channel{u.Edge.ref, &u.Edge.Sewn, u.Edge.Times})
			}
		}
	}
	return out
}

// notionLength is the length of one: as written, or that of its channel less
// what stays clear at both ends. Where its channels differ it is the longest.
func (w *work) notionLength(n *Notion, base string, channels []channel) {
	r := n.Record
	id, title := w.join(base, ".length"), "length of one"
	if r.Length.Given() {
		w.lengthIn("length", r.Length)
		w.mm(r.Length.V.MM())
		n.Length = w.figure(id, title, r.What.V, inMM(r.Length.V.MM()), "as the record says", recorded)
		n.Length.Value.Exact = true
		return
	}
	if len(channels) == 0 || r.Over.Given() {
		return
	}
	longest := 0
	for i, c := range channels {
		n.Each = append(n.Each, NotionCut{c.name, w.channelCut(n, c, w.join(base, ".cut-", strconv.Itoa(i+1))), c.times})
		if best := n.Each[longest].Length.Value; !best.Known() || n.Each[i].Length.Value.Number > best.Number {
			longest = i
		}
	}
	f := &n.Each[longest].Length
	w.figureIn(channels[longest].name, f)
	w.q(f.Value.Quantity)
	rule := "length of its channel − 2 × clear"
	if len(channels) > 1 {
		title, rule = "length of the longest", "the longest of its lengths: length of the channel − 2 × clear"
	}
	n.Length = w.figure(id, title, r.What.V, f.Value, rule, practice)
}

// channelCut is the length that goes into one channel.
func (w *work) channelCut(n *Notion, c channel, id string) Figure {
	r := n.Record
	gap := r.Clear.V.MM()
	w.figureIn(c.name, c.length)
	if r.Clear.Given() {
		w.lengthIn("clear", r.Clear)
	}
	v := c.length.Value
	if v.Known() {
		v = inMM(c.length.Value.Number - 2*gap)
		w.n(c.length.Value.Number).s(" − 2 × ").n(gap).s(" = ").mm(v.Number)
		if v.Number <= 0 {
			w.faults.Errorf(r.At, "leave less clear", "%q leaves nothing: %s is %s long, %s clear at each end", r.What.V, c.name, text1(c.length.Value.Number), mmText(gap))
			v = unknown("what stays clear is more than the channel")
		}
	}
	return w.figure(id, "length in one channel", c.name, v, "length of the channel − 2 × clear", practice)
}

func (w *work) notionCount(n *Notion, base string, channels []channel) {
	r := n.Record
	id, title := w.join(base, ".count"), "how many"
	switch {
	case r.Count.Given():
		w.note(Input{Name: "count", Value: w.i(r.Count.V).end(), At: r.Count.At})
		w.i(r.Count.V)
		n.Count = w.figure(id, title, r.What.V, counted(r.Count.V), "as the record says", recorded)
	case r.Over.Given() && r.Every.Given():
		gaps := gapsOver(r.Over.V.MM(), r.Every.V.MM())
		w.lengthIn("over", r.Over).lengthIn("every", r.Every)
		w.n(r.Over.V.MM()).s(" ÷ ").n(r.Every.V.MM()).s(" = ").n(r.Over.V.MM() / r.Every.V.MM()).s(", as ").i(gaps).s(" gaps; + 1 = ").i(gaps + 1)
		n.Count = w.figure(id, title, r.What.V, counted(gaps+1), "length ÷ wished spacing, to the nearest whole number of gaps, + 1: one at each end", practice)
	case len(n.Each) > 0:
		total := 0
		for _, c := range n.Each {
			total += c.Count
			w.note(Input{Name: c.In, Value: w.i(c.Count).end(), From: c.Length.ID})
		}
		for i, c := range n.Each {
			if i > 0 {
				w.s(" + ")
			}
			w.i(c.Count)
		}
		w.s(" = ").i(total)
		n.Count = w.figure(id, title, r.What.V, counted(total), "Σ times each channel occurs", derived)
	default:
		w.note(Input{Name: r.What.V, Value: "1", At: r.At})
		w.s("1")
		n.Count = w.figure(id, title, r.What.V, counted(1), "one, as nothing else is written", practice)
	}
}

// gapsOver is the number of equal gaps that come nearest to a wished spacing.
func gapsOver(over, every float64) int {
	if !(every > 0) {
		return 1
	}
	return int(math.Min(math.Max(math.Round(over/every), 1), 5000))
}

// spacing sets closures out along a length, one at each end.
func (w *work) spacing(n *Notion, base string) {
	r := n.Record
	if !r.Over.Given() {
		return
	}
	gaps := int(n.Count.Value.Number) - 1
	w.lengthIn("over", r.Over).figureIn("how many", &n.Count)
	const rule = "length ÷ (count − 1): one at each end"
	if gaps < 1 {
		n.Gap = w.figure(w.join(base, ".gap"), "spacing", r.What.V, unknown("a single one has no spacing"), rule, practice)
		n.Places = []measure.Length{r.Over.V / 2}
		return
	}
	gap := r.Over.V.MM() / float64(gaps)
	w.n(r.Over.V.MM()).s(" ÷ ").i(gaps).s(" = ").mm(gap)
	n.Gap = w.figure(w.join(base, ".gap"), "spacing", r.What.V, inMM(gap), rule, practice)
	n.Places = make([]measure.Length, gaps+1)
	for i := range n.Places {
		n.Places[i] = measure.MM(gap * float64(i))
	}
}

// notionTotal is the length of all, where there is a length of one.
func (w *work) notionTotal(n *Notion, base string) {
	r := n.Record
	if n.Length.ID == "" {
		return
	}
	id := w.join(base, ".total")
	if len(n.Each) > 1 && !r.Count.Given() {
		sum, v := 0.0, Value{}
		for i := range n.Each {
			w.figureIn(n.Each[i].In, &n.Each[i].Length)
		}
		for i := range n.Each {
			c := &n.Each[i]
			if !c.Length.Value.Known() {
				v = unknown(c.Length.Value.Why)
			}
			if i > 0 {
				w.s(" + ")
			}
			w.n(c.Length.Value.Number).s(" × ").i(c.Count)
			sum += c.Length.Value.Number * float64(c.Count)
		}
		w.s(" = ").n(sum / 1e3).s(" m")
		if v.Known() {
			v = inM(sum)
		}
		n.Total = w.figure(id, "length of all", r.What.V, v, "Σ length × times", derived)
		return
	}
	w.figureIn("length of one", &n.Length).figureIn("how many", &n.Count)
	v := n.Length.Value
	if v.Known() {
		v = inM(n.Length.Value.Number * n.Count.Value.Number)
		w.n(n.Length.Value.Number).s(" × ").n(n.Count.Value.Number).s(" = ").n(v.Number).s(" m")
	}
	n.Total = w.figure(id, "length of all", r.What.V, v, "length of one × how many", derived)
}

// notionMass is the mass of all of a notion.
func (w *work) notionMass(n *Notion, base string) {
	r := n.Record
	id, title := w.join(base, ".mass"), "mass of all"
	if soldByLength(r) && n.Total.ID != "" {
		const rule = "length of all × mass of a metre"
		w.figureIn("length of all", &n.Total)
		if !r.Mass.Given() || !n.Total.Value.Known() {
			n.Mass = w.figure(id, title, r.What.V, unknown(massWhy(n, r)), rule, derived)
			return
		}
		g := n.Total.Value.Number * float64(r.Mass.V)
		w.note(Input{Name: "mass of a metre", Value: w.n(float64(r.Mass.V)).s(" g").end(), At: r.Mass.At})
		w.n(n.Total.Value.Number).s(" m × ").n(float64(r.Mass.V)).s(" g/m = ").n(g).s(" g")
		n.Mass = w.figure(id, title, r.What.V, valueIn(g, measure.UnitG), rule, derived)
		return
	}
	const rule = "how many × mass of one"
	w.figureIn("how many", &n.Count)
	if !r.Mass.Given() {
		n.Mass = w.figure(id, title, r.What.V, unknown("its mass is not written"), rule, derived)
		return
	}
	g := n.Count.Value.Number * float64(r.Mass.V)
	w.note(Input{Name: "mass of one", Value: w.n(float64(r.Mass.V)).s(" g").end(), At: r.Mass.At})
	w.n(n.Count.Value.Number).s(" × ").n(float64(r.Mass.V)).s(" g = ").n(g).s(" g")
	n.Mass = w.figure(id, title, r.What.V, valueIn(g, measure.UnitG), rule, derived)
}

func massWhy(n *Notion, r *record.Notion) string {
	if !r.Mass.Given() {
		return "its mass is not written"
	}
	return n.Total.Value.Why
}
