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
	"hembook/internal/say"
)

// A view is what a phone is shown of the workroom, and all of it: names of
// builds and steps, how far these are, the clocks, what was measured.
type view struct {
	Now    int64       `json:"now"` // milliseconds since 1970
	Name   string      `json:"name"`
	Builds []buildName `json:"builds"` // the one changed last comes first
	Clocks []clockView `json:"clocks"`
	Build  *buildView  `json:"build,omitempty"` // the one asked for
	Fault  string      `json:"fault,omitempty"` // a clock that cannot be read
}

// A buildName names a build.
type buildName struct {
	Slug string `json:"slug"`
	Name string `json:"name"`
}

// A clockView is a clock that runs or is paused.
type clockView struct {
	Build   string `json:"build"`
	Step    string `json:"step"`
	Words   string `json:"words"`
	Since   int64  `json:"since"`             // milliseconds since 1970
	Counted int64  `json:"counted"`           // seconds counted before the last pause
	Running int64  `json:"running,omitempty"` // since when it runs; none while it is paused
}

// A buildView is what there is to do for a build.
type buildView struct {
	Slug   string      `json:"slug"`
	Name   string      `json:"name"`
	Why    string      `json:"why,omitempty"` // why its record cannot be added to
	Unit   string      `json:"unit"`          // of bare lengths
	Steps  []stepView  `json:"steps"`
	Levels []levelView `json:"levels"`
	Hems   [][]string  `json:"hems"` // edges, piece.edge each

	Traced    []tracedView `json:"traced,omitempty"`    // pieces whose edges want names
	EdgeNames []string     `json:"edgeNames,omitempty"` // that edges of its pieces have
	Shaped    []string     `json:"shaped,omitempty"`    // pieces with an outline, whose paper may be altered
}

// A stepView is a step and how far it is: "to do", "begun" or "done".
type stepView struct {
	ID    string `json:"id"`
	Words string `json:"words"`
	State string `json:"state"`
}

// A levelView is a dimension that is measured on the finished garment.
type levelView struct {
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
	v := view{Now: now.UnixMilli(), Name: room.Workroom.Name.Or(say.Of("capture.the-workroom")), Builds: names(room), Clocks: []clockView{}}
	clocks, err := bench.ClocksOf(dir).All()
	if err != nil {
		v.Fault = say.Of("capture.a-clock-of-the-workroom-cannot-be")
	}
	for _, c := range clocks {
		cv := clockView{Build: c.Build, Step: c.Step, Words: c.Named().Words, Since: c.Since.UnixMilli(), Counted: int64(c.Counted / time.Second)}
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
func names(room *record.Room) []buildName {
	type dated struct {
		buildName
		at time.Time
	}
	all := make([]dated, len(room.Builds))
	for i, bf := range room.Builds {
		all[i].buildName = buildName{bf.Slug, bf.Name}
		if info, err := fs.Stat(room.FS, bf.Path); err == nil {
			all[i].at = info.ModTime()
		}
	}
	slices.SortStableFunc(all, func(a, b dated) int { return cmp.Or(b.at.Compare(a.at), cmp.Compare(a.Slug, b.Slug)) })
	out := make([]buildName, len(all))
	for i, d := range all {
		out[i] = d.buildName
	}
	return out
}

// viewOf is what there is to do for a build. Faults of its record matter only
// where nothing can be added to it.
func viewOf(room *record.Room, bf record.BuildFile) buildView {
	b, _ := room.ReadBuild(bf)
	v := buildView{Slug: bf.Slug, Name: bf.Name, Unit: unitOf(b, room).Symbol(), Steps: []stepView{}, Levels: []levelView{}, Hems: hemsOf(b)}
	text, err := fs.ReadFile(room.FS, bf.Path)
	measured, _, bad := amend.Read(text, amend.At("measured"))
	if err != nil || bad != nil {
		v.Why = say.Of("capture.its-record-cannot-be-read-just-now")
	}
	tailor, _ := derive.NewTailor(room)
	g := tailor.Derive(b)
	for _, s := range g.Steps {
		if s.ID != "" {
			v.Steps = append(v.Steps, stepView{s.ID, s.Record.Do.V, s.State.String()})
		}
	}
	level := func(name string) {
		if name == "" || slices.ContainsFunc(v.Levels, func(l levelView) bool { return l.Name == name }) {
			return
		}
		was, _ := measured.Get(name)
		v.Levels = append(v.Levels, levelView{name, was.Text()})
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
	v.Traced, v.EdgeNames = tracedOf(room, bf, b)
	v.Shaped = shapedOf(b, v.Traced)
	if v.Hems == nil {
		v.Hems = [][]string{}
	}
	return v
}
