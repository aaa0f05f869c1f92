package garment

import (
	"slices"
	"strings"

	"hembook/internal/measure"
	"hembook/internal/record"
)

// A Setting is how a machine is set: what is not said is empty.
type Setting struct {
	Needle, Tension, Foot string
	StitchLength          measure.Length
}

// Given reports whether anything is said of it.
func (s Setting) Given() bool { return s != Setting{} }

// Clone is a setting whose texts keep nothing else from being freed.
func (s Setting) Clone() Setting {
	return Setting{strings.Clone(s.Needle), strings.Clone(s.Tension), strings.Clone(s.Foot), s.StitchLength}
}

// SettingOf is how a record says that the machine is set.
func SettingOf(r *record.Setting) Setting {
	return Setting{r.Needle.V, r.Tension.V, r.Foot.V, r.StitchLength.V}
}

// or is a setting with what it leaves open taken from another.
func (s Setting) or(t Setting) Setting {
	say := func(own, other string) string {
		if own == "" {
			return other
		}
		return own
	}
	if s.StitchLength == 0 {
		s.StitchLength = t.StitchLength
	}
	return Setting{say(s.Needle, t.Needle), say(s.Tension, t.Tension), say(s.Foot, t.Foot), s.StitchLength}
}

// A MachineSet is how the machine is set for some of what is sewn.
type MachineSet struct {
	Setting
	Thread string   // which thread; "" of a step that sews nothing by its name
	For    []SetFor // each once; none of a thread that sews nothing yet
}

// A SetFor is what a machine is set for: a seam, a finish, "darts", "pleats" or a step.
type SetFor struct {
	Name   string
	Beside string // of rows beside a seam or finish, what is done: trade.Topstitch, trade.EdgeStitch
}

// machineSets says how the machine is set for what is sewn, what is set alike together,
// in the record's order. A seam's own words hold before those of the step that sews it,
// and these before its thread's.
func (w *stitching) machineSets() []MachineSet {
	var out []MachineSet
	add := func(s Setting, thread string, of SetFor) {
		if !s.Given() {
			return
		}
		i := slices.IndexFunc(out, func(m MachineSet) bool { return m.Setting == s && m.Thread == thread })
		if i < 0 {
			i, out = len(out), append(out, MachineSet{Setting: s, Thread: thread})
		}
		if of.Name != "" && !slices.Contains(out[i].For, of) {
			out[i].For = append(out[i].For, of)
		}
	}
	sews := make([]bool, len(w.work))
	for i := range w.g.Rows {
		r := &w.g.Rows[i]
		for _, k := range r.steps {
			sews[k] = true
		}
		if r.Rows == 0 || r.Temporary || r.Hand {
			continue
		}
		r.Set = w.settingOfRow(r)
		name := r.Of
		if r.Kind == DartRow || r.Kind == PleatRow {
			name = string(r.Kind)
		}
		add(r.Set, r.Thread, SetFor{name, r.Beside})
	}
	for i := range w.work {
		if !sews[i] {
			add(SettingOf(&w.work[i].Setting), "", SetFor{Name: w.work[i].Do.V})
		}
	}
	for _, t := range w.threads {
		if !slices.ContainsFunc(out, func(m MachineSet) bool { return m.Thread == t.Name.V }) {
			add(SettingOf(&t.V.Setting), t.Name.V, SetFor{})
		}
	}
	return out
}

// settingOfRow is how the machine is set for a row, as far as anything says it.
func (w *stitching) settingOfRow(r *Row) Setting {
	own := w.ownSetting(r)
	for _, k := range r.steps {
		own = own.or(SettingOf(&w.work[k].Setting))
	}
	thread, _ := w.threads.Get(r.Thread)
	return own.or(SettingOf(&thread.Setting))
}

// setBeside is how the machine is set for rows beside a seam or finish by what they say
// themselves, and, sewn with its thread, by what it says.
func (w *stitching) setBeside(r *Row) Setting {
	own := SettingOf(r.set)
	for i := range w.g.Rows {
		if o := &w.g.Rows[i]; o.Kind == r.Kind && o.Of == r.Of && o.set == nil && o.Thread == r.Thread {
			return own.or(w.ownSetting(o))
		}
	}
	return own
}

// ownSetting is what the seam or finish of a row says itself.
func (w *stitching) ownSetting(r *Row) Setting {
	if r.set != nil {
		return w.setBeside(r)
	}
	switch r.Kind {
	case SeamRow:
		if i := slices.IndexFunc(w.g.Seams, func(s *Seam) bool { return s.Name == r.Of }); i >= 0 {
			return SettingOf(&w.g.Seams[i].Record.Setting)
		}
	case FinishRow:
		if i := slices.IndexFunc(w.g.Finishes, func(f *Finish) bool { return f.Name == r.Of }); i >= 0 {
			return SettingOf(&w.g.Finishes[i].Record.Setting)
		}
	}
	return Setting{}
}
