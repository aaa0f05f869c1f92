package record

import (
	"slices"
	"strconv"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/say"
)

// anyTime is what a step comes after that may be done first of all.
const anyTime = "nothing"

// settleWork says of every step what its place and its name say: it comes after
// the one above it, it sews the seam or finish it is called like, and it belongs to
// the stage its words tell.
func (b *Build) settleWork() {
	sewn := map[string]string{}
	for _, name := range append(b.sewn(), b.sewnBeside()...) {
		if name != "" {
			sewn[AsStep(name)] = name
		}
	}
	sets := map[string]string{}
	for name := range b.like.seams {
		sets[AsStep(name)] = name
	}
	for i := range b.Work {
		s := &b.Work[i]
		s.Sews = b.writtenOut(s.Sews)
		if all, like := sets[s.StepID()]; like && len(s.Sews) == 0 {
			s.Sews = b.writtenOut(List[Text]{{all, s.Do.At}})
		}
		if name, like := sewn[s.StepID()]; like && len(s.Sews) == 0 {
			s.Sews = List[Text]{{name, s.Do.At}}
		}
		if !s.Stage.Given() {
			s.Stage = Text{stageOf(s), s.Do.At}
		}
		switch {
		case len(s.After) == 1 && s.After[0].V == anyTime:
			s.After = List[Text]{}
		case s.After == nil && i > 0 && s.Do.Given() && b.Work[i-1].Do.Given():
			s.After = List[Text]{{b.Work[i-1].Do.V, s.Do.At}}
		}
	}
}

// Words for what a step may sew beside seams and finishes.
const (
	SewsDarts  = "darts"
	SewsPleats = "pleats"
	SewsHoles  = "buttonholes"
)

// sewnBeside lists what there is to be sewn beside seams and finishes.
func (b *Build) sewnBeside() []string {
	var out []string
	if slices.ContainsFunc(b.Pieces, func(p Piece) bool { return len(p.Darts) > 0 }) {
		out = append(out, SewsDarts)
	}
	if slices.ContainsFunc(b.Pieces, func(p Piece) bool {
		return slices.ContainsFunc(p.Pleats, func(q PleatSpec) bool { return q.Stitched.Given() || q.Tuck() })
	}) {
		out = append(out, SewsPleats)
	}
	if slices.ContainsFunc(b.Notions, func(n Notion) bool { return n.NeedsHoles() }) {
		out = append(out, SewsHoles)
	}
	return out
}

// stageWords tell by a word of a step's name to which stage it belongs, the surest
// first; first says that only the step's first word tells (common practice, no source).
var stageWords = []struct {
	stage string
	first bool
	words []string
}{
	{"packing", false, strings.Fields("pin pins pack parcel")},
	{"fitting", true, strings.Fields("fit try")},
	{"mock-up", false, strings.Fields("mock toile")},
	{"fitting", false, strings.Fields("fitting photographs")},
	{"finishing", false, strings.Fields("buttonhole buttonholes button buttons")},
	{"drafting", true, strings.Fields("draft draw drafting")},
	{"cutting", true, strings.Fields("cut chalk lay wash straighten thread cutting")},
	{"pressing", true, strings.Fields("fuse press steam iron pressing")},
	{"finishing", false, strings.Fields("hem hems hang")},
	{"finishing", true, strings.Fields("level")},
}

// stageOf is the stage a step belongs to by its words; sewing, where none tells.
func stageOf(s *Step) string {
	said := strings.Split(s.StepID(), "-")
	for _, w := range stageWords {
		if slices.ContainsFunc(said, func(word string) bool { return slices.Contains(w.words, word) && (!w.first || word == said[0]) }) {
			return w.stage
		}
	}
	return "sewing"
}

func (c *buildCheck) checkWork() {
	b := c.b
	ids := make([]string, len(b.Work))
	names := make([]Text, len(b.Work))
	for i := range b.Work {
		ids[i] = b.Work[i].StepID()
		names[i] = Text{ids[i], b.Work[i].At}
	}
	twice(names, "step", c.faults)
	sewn := c.sewn
	sewn.names = append(slices.Clone(sewn.names), b.sewnBeside()...)
	for i := range b.Work {
		s := &b.Work[i]
		for j := range s.After {
			c.step(&s.After[j])
		}
		for _, w := range s.Sews {
			if !c.ofLost(w.V) {
				known(w, sewn, c.faults)
			}
		}
		c.technique(s.Technique)
	}
	c.circles(ids)
	c.sewnOnce()
	c.checkJournal()
}

// checkJournal looks at what the journal says of the steps.
func (c *buildCheck) checkJournal() {
	for i := range c.b.Journal {
		e := &c.b.Journal[i]
		if e.Did.Given() {
			c.step(&e.Did)
		}
		if e.At.Given() && !e.Did.Given() && !e.Note.Given() && !e.Photo.Given() {
			c.faults.LookAgain(e.At, say.Of("record.note-what-happened"), say.Of("record.an-empty-entry"))
		}
		if e.Done.V && !e.Did.Given() {
			c.faults.LookAgain(e.Done.At, say.Of("record.add-did-and-the-step-that-is"), say.Of("record.this-entry-finishes-no-step"))
		}
		if e.For.Given() && !e.Did.Given() {
			c.faults.LookAgain(e.For.At, say.Of("record.add-did-and-the-step-as-did"), say.Of("record.time-without-a-step"))
		}
	}
}

// sewnOnce tells of seams and finishes that no step sews, and of those that two
// do, in an order of work that says of any what is sewn. A step that fits or presses
// may name them once more.
func (c *buildCheck) sewnOnce() {
	beside := c.b.sewnBeside()
	by := map[string][]*Step{}
	first := map[string]Text{}
	for i := range c.b.Work {
		s := &c.b.Work[i]
		if !s.Do.Given() {
			return // what could not be read is told already
		}
		for _, w := range s.Sews {
			if !slices.Contains(c.sewn.names, w.V) && !slices.Contains(beside, w.V) {
				return // it may be the one that is missed
			}
			if s.Stage.V == "sewing" || s.Stage.V == "finishing" {
				by[w.V] = append(by[w.V], s)
			}
			if _, again := first[w.V]; !again || len(by[w.V]) == 2 {
				first[w.V] = w
			}
		}
	}
	if len(first) == 0 {
		return
	}
	tell := func(name Text, must bool) {
		_, named := first[name.V]
		switch steps := by[name.V]; {
		case !name.Given():
		case !named && !must:
		case !named:
			c.faults.LookAgain(name.At, say.Of("record.call-a-step-so-or-add-it", name.V), say.Of("record.no-step-sews", say.Quoted(fault.Shorten(name.V))))
		case len(steps) > 1:
			names := make([]string, len(steps))
			for i, s := range steps {
				names[i] = strconv.Quote(fault.Shorten(s.Do.V))
			}
			times := "twice"
			if len(steps) > 2 {
				times = say.Of("record.times", strconv.Itoa(len(steps)))
			}
			c.faults.LookAgain(first[name.V].At, say.Of("record.leave-it-out-of-one-of-them"), say.Of("record.is-sewn-at", say.Quoted(fault.Shorten(name.V)), times, meant.List(names, "and")))
		}
	}
	var must []Text
	for i := range c.b.Seams {
		if len(c.b.Seams[i].Join) == 0 {
			continue // what it joins could not be read, which is told
		}
		must = append(must, c.b.Seams[i].Name)
	}
	for i := range c.b.Finishes {
		must = append(must, c.b.Finishes[i].Name)
	}
	near := c.nearSteps(must, beside, func(name string) bool { _, named := first[name]; return named })
	for _, name := range must {
		if !near[name.V] {
			tell(name, true)
		}
	}
	for _, name := range beside {
		tell(first[name], false)
	}
}

// circles finds steps that wait for each other.
func (c *buildCheck) circles(ids []string) {
	at := map[string]int{}
	for i, id := range ids {
		at[id] = i
	}
	const fresh, open, done = 0, 1, 2
	state := make([]int, len(ids))
	var trail []string
	var walk func(i int)
	walk = func(i int) {
		state[i] = open
		trail = append(trail, ids[i])
		for _, a := range c.b.Work[i].After {
			j, ok := at[a.V]
			switch {
			case !ok:
			case state[j] == open:
				from := slices.Index(trail, ids[j])
				c.faults.Wrong(a.At, say.Of("record.one-of-them-must-come-first"), say.Of("record.these-steps-wait-for-each-other", strings.Join(append(slices.Clone(trail[from:]), ids[j]), " → ")))
			case state[j] == fresh:
				walk(j)
			}
		}
		trail = trail[:len(trail)-1]
		state[i] = done
	}
	for i := range ids {
		if state[i] == fresh {
			walk(i)
		}
	}
}
