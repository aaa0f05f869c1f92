package compose

import (
	"slices"
	"strings"

	"hembook/internal/document"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/notebook"
	"hembook/internal/say"
)

// What is told of how a machine is set, on pages and on sheets.
var (
	setFor = ColumnOf[*garment.MachineSet]{"for", true, 5, func(t *document.TableDraft, tell Teller, m *garment.MachineSet) {
		names := make([]string, len(m.For))
		for i, of := range m.For {
			names[i] = tell.Called("sewn."+of.Name, of.Name)
			if of.Beside != "" {
				names[i] = tell.Filled("beside."+of.Beside+"-of", besideOf[of.Beside], "seam", of.Name)
			}
		}
		t.Words(strings.Join(names, ", "))
	}}
	setThread  = ColumnOf[*garment.MachineSet]{"thread", true, 2, func(t *document.TableDraft, _ Teller, m *garment.MachineSet) { t.Words(m.Thread) }}
	setNeedle  = settingColumn("needle", 2, func(s *garment.Setting) string { return s.Needle })
	setStitch  = settingColumn("stitch-length", 2, stitchWords)
	setTension = settingColumn("tension", 2, func(s *garment.Setting) string { return s.Tension })
	setFoot    = settingColumn("foot", 3, func(s *garment.Setting) string { return s.Foot })
)

func stitchWords(s *garment.Setting) string {
	if s.StitchLength == 0 {
		return ""
	}
	return measure.Style{}.Length(s.StitchLength)
}

func settingColumn(word string, share float64, said func(*garment.Setting) string) ColumnOf[*garment.Setting] {
	return ColumnOf[*garment.Setting]{word, true, share, func(t *document.TableDraft, _ Teller, s *garment.Setting) { t.Words(said(s)) }}
}

// MachineSets tables how the machine is set, what is set alike in one row.
func MachineSets(d *document.Draft, tell Teller, head string, sets []garment.MachineSet) *document.TableDraft {
	list := make([]*garment.MachineSet, len(sets))
	for i := range sets {
		list[i] = &sets[i]
	}
	of := func(c ColumnOf[*garment.Setting]) ColumnOf[*garment.MachineSet] {
		return Of(c, func(m *garment.MachineSet) *garment.Setting { return &m.Setting })
	}
	return Table(d, tell, head, list, setFor, setThread, of(setNeedle), of(setStitch), of(setTension), of(setFoot))
}

// settingWords say in words how a machine is set.
func settingWords(s *garment.Setting) string {
	after := func(word, said string) string {
		if said == "" || strings.Contains(said, word) {
			return said
		}
		return word + " " + said
	}
	foot := s.Foot
	if foot != "" && !strings.Contains(foot, "foot") {
		foot += say.Of("compose.foot")
	}
	return joined(after("needle", s.Needle), named(say.Of("compose.stitch-length"), stitchWords(s)), after("tension", s.Tension), foot)
}

// TechniqueSettings tables how the machine was set for a technique, cloth by cloth.
func TechniqueSettings(d *Draft, t *notebook.TechniquePage) {
	d.settings(t.Worked, workedOn, workedThread, workedSo(setNeedle), workedSo(setStitch), workedSo(setTension), workedSo(setFoot), workedIn)
}

// ClothSettings tables how the machine was set on a cloth, for what was sewn of it.
func ClothSettings(d *Draft, c *notebook.ClothPage) {
	d.settings(c.Worked, workedFor, workedThread, workedSo(setNeedle), workedSo(setStitch), workedSo(setTension), workedSo(setFoot), workedIn)
}

func (d *Draft) settings(all []notebook.Worked, columns ...ColumnOf[*notebook.Worked]) {
	if len(all) == 0 {
		return
	}
	list := make([]*notebook.Worked, min(len(all), mostBuilds))
	for i := range list {
		list[i] = &all[i]
	}
	Table(&d.Draft, OnPage, say.Of("compose.how-the-machine-was-set"), list, columns...).End()
	d.earlier(len(all) - len(list))
}

// SettingsFound is what a search finds of how the machine was set: what was sewn, on
// which cloths, and how. Of a cloth's page, known tells what was sewn; of a technique's,
// on what. about is the page's own name.
func SettingsFound(about string, all []notebook.Worked, known func(*notebook.Worked) string) Findable {
	f := Findable{Anchor: "settings", Kind: "section", Title: say.Of("compose.machine-settings-for", about), Names: []string{"needle", say.Of("compose.stitch-length"), "thread"}}
	var says []string
	var needles, stitches settingsBy
	for i := range all {
		w := &all[i]
		says = append(says, joined(named(w.For.Name, settingWords(&w.Setting)), w.Thread, ClothsOf(w)))
		needles.note(w.Needle, known(w))
		stitches.note(stitchWords(&w.Setting), known(w))
	}
	slices.Sort(says)
	f.Text = sentences(slices.Compact(says)...)
	f.Answers = append(needles.answer("needle"), stitches.answer("stitch")...)
	return f
}

// ClothsOf are the names of the cloths that the machine was set for.
func ClothsOf(w *notebook.Worked) string {
	names := make([]string, len(w.Cloths))
	for i := range names {
		names[i] = w.Cloths[i].Name
	}
	return strings.Join(names, " with ")
}

// TechniqueOf is what the machine was set for.
func TechniqueOf(w *notebook.Worked) string { return w.For.Name }

// settingsBy are settings, each with what it was used for, in the order they are noted.
type settingsBy []settingBy

type settingBy struct {
	set string
	by  []string
}

func (s *settingsBy) note(set, by string) {
	if set == "" {
		return
	}
	i := slices.IndexFunc(*s, func(o settingBy) bool { return o.set == set })
	if i < 0 {
		i, *s = len(*s), append(*s, settingBy{set: set})
	}
	if one := &(*s)[i]; by != "" && !slices.Contains(one.by, by) {
		one.by = append(one.by, by)
	}
}

// answer is what answers a question after them; none where nothing is noted.
func (s settingsBy) answer(to string) []Answer {
	says := make([]string, len(s))
	for i, one := range s {
		says[i] = one.set
		if len(s) > 1 && len(one.by) > 0 {
			says[i] += say.Of("compose.for-2", someOf(one.by))
		}
	}
	if len(says) == 0 {
		return nil
	}
	return []Answer{{to, strings.Join(says, "; ")}}
}

func workedSo(c ColumnOf[*garment.Setting]) ColumnOf[*notebook.Worked] {
	return Of(c, func(w *notebook.Worked) *garment.Setting { return &w.Setting })
}

// On which cloths a setting was used, for what, and in which garment.
var (
	workedOn = ColumnOf[*notebook.Worked]{Word: "cloth", Words: true, Cell: func(t *document.TableDraft, _ Teller, w *notebook.Worked) {
		var cell []document.Inline
		for i, c := range w.Cloths {
			if i > 0 {
				cell = append(cell, document.Say(", "))
			}
			cell = append(cell, document.Lead(string(c.Address), c.Name))
		}
		t.Cell(cell...)
	}}
	workedFor = ColumnOf[*notebook.Worked]{Word: "for", Words: true, Cell: func(t *document.TableDraft, _ Teller, w *notebook.Worked) {
		if w.For.Address == "" {
			t.Words(w.For.Name)
		} else {
			t.Cell(document.Lead(string(w.For.Address), w.For.Name))
		}
	}}
	workedThread = ColumnOf[*notebook.Worked]{Word: "thread", Words: true, Cell: func(t *document.TableDraft, _ Teller, w *notebook.Worked) { t.Words(w.Thread) }}
	workedIn     = ColumnOf[*notebook.Worked]{Word: "garment", Words: true, Cell: func(t *document.TableDraft, _ Teller, w *notebook.Worked) {
		t.Cell(document.Lead(string(w.Build.Address), w.Build.Name))
	}}
)
