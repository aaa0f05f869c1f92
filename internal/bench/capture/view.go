package capture

import (
	"cmp"
	"io/fs"
	"slices"
	"time"

	"hembook/internal/bench"
	"hembook/internal/derive"
	"hembook/internal/record"
	"hembook/internal/record/amend"
)

// A view is what a phone is shown of the workroom, and all of it: names of
// builds and steps, how far these are, the clocks, what was measured.
type view struct {
	Now    int64       `json:"now"` // milliseconds since 1970
	Name   string      `json:"name"`
	Builds []BuildName `json:"builds"` // the one changed last comes first
	Clocks []ClockView `json:"clocks"`
	Build  *BuildView  `json:"build,omitempty"` // the one asked for
	Fault  string      `json:"fault,omitempty"` // a clock that cannot be read
}

// A BuildName names a build.
type BuildName struct {
	Slug string `json:"slug"`
	Name string `json:"name"`
}

// A ClockView is a clock that runs or is paused.
type ClockView struct {
	Build   string `json:"build"`
	Step    string `json:"step"`
	Words   string `json:"words"`
	Since   int64  `json:"since"`             // milliseconds since 1970
	Counted int64  `json:"counted"`           // seconds counted before the last pause
	Running int64  `json:"running,omitempty"` // since when it runs; none while it is paused
}

// A BuildView is what there is to do for a build.
type BuildView struct {
	Slug   string      `json:"slug"`
	Name   string      `json:"name"`
	Why    string      `json:"why,omitempty"` // why its record cannot be added to
	Unit   string      `json:"unit"`          // of bare lengths
	Steps  []StepView  `json:"steps"`
	Levels []LevelView `json:"levels"`
	Hems   [][]string  `json:"hems"` // edges, piece.edge each
}

// A StepView is a step and how far it is: "to do", "begun" or "done".
type StepView struct {
	ID    string `json:"id"`
	Words string `json:"words"`
	State string `json:"state"`
}

// A LevelView is a dimension that is measured on the finished garment.
type LevelView struct {
	Name string `json:"name"`
	Was  string `json:"was,omitempty"` // as it was measured before
}

// look gathers what a phone is shown; slug is the build asked for.
func look(dir, slug string, now time.Time) (view, error) {
	room, _, err := record.Open(dir)
	if err != nil {
		return view{}, err
	}
	defer room.Close()
	v := view{Now: now.UnixMilli(), Name: room.Workroom.Name.Or("the workroom"), Builds: names(room), Clocks: []ClockView{}}
	clocks, err := bench.ClocksOf(dir).All()
	if err != nil {
		v.Fault = "a clock of the workroom cannot be read; the terminal says which: hembook clock"
	}
	for _, c := range clocks {
		cv := ClockView{Build: c.Build, Step: c.Step, Words: c.Named().Words, Since: c.Since.UnixMilli(), Counted: int64(c.Counted / time.Second)}
		if !c.Paused() {
			cv.Running = c.Running.UnixMilli()
		}
		v.Clocks = append(v.Clocks, cv)
	}
	if bf, ok := room.BuildNamed(slug); ok {
		b := viewOf(room, bf)
		v.Build = &b
	}
	return v, nil
}

// names lists the builds, the one whose record changed last first.
func names(room *record.Room) []BuildName {
	type dated struct {
		BuildName
		at time.Time
	}
	all := make([]dated, len(room.Builds))
	for i, bf := range room.Builds {
		all[i].BuildName = BuildName{bf.Slug, bf.Name}
		if info, err := fs.Stat(room.FS, bf.Path); err == nil {
			all[i].at = info.ModTime()
		}
	}
	slices.SortStableFunc(all, func(a, b dated) int { return cmp.Or(b.at.Compare(a.at), cmp.Compare(a.Slug, b.Slug)) })
	out := make([]BuildName, len(all))
	for i, d := range all {
		out[i] = d.BuildName
	}
	return out
}

// viewOf is what there is to do for a build. Faults of its record matter only
// where nothing can be added to it.
func viewOf(room *record.Room, bf record.BuildFile) BuildView {
	b, _ := room.ReadBuild(bf)
	v := BuildView{Slug: bf.Slug, Name: bf.Name, Unit: unitOf(b, room).Symbol(), Steps: []StepView{}, Levels: []LevelView{}, Hems: hemsOf(b)}
	text, err := fs.ReadFile(room.FS, bf.Path)
	measured, _, bad := amend.Read(text, amend.At("measured"))
	if err != nil || bad != nil {
		v.Why = "its record cannot be read just now. Entries stay on this phone until it is corrected"
	}
	tailor, _ := derive.NewTailor(room)
	g := tailor.Derive(b)
	for _, s := range g.Steps {
		if s.ID != "" {
			v.Steps = append(v.Steps, StepView{s.ID, s.Record.Do.V, s.State.String()})
		}
	}
	level := func(name string) {
		if name == "" || slices.ContainsFunc(v.Levels, func(l LevelView) bool { return l.Name == name }) {
			return
		}
		was, _ := measured.Get(name)
		v.Levels = append(v.Levels, LevelView{name, was.Text()})
	}
	for _, l := range g.Levels {
		level(l.Name)
	}
	for _, l := range g.Fit.Lengths {
		level(l.Name)
	}
	for _, f := range measured.Fields() {
		level(f.Name)
	}
	if v.Hems == nil {
		v.Hems = [][]string{}
	}
	return v
}
