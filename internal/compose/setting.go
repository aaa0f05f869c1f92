package compose

import (
	"strings"

	"hembook/internal/document"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/notebook"
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
	setThread = ColumnOf[*garment.MachineSet]{"thread", true, 2, func(t *document.TableDraft, _ Teller, m *garment.MachineSet) { t.Words(m.Thread) }}
	setNeedle = settingColumn("needle", 2, func(s *garment.Setting) string { return s.Needle })
	setStitch = settingColumn("stitch-length", 2, func(s *garment.Setting) string {
		if s.StitchLength == 0 {
			return ""
		}
		return measure.Style{}.Length(s.StitchLength)
	})
	setTension = settingColumn("tension", 2, func(s *garment.Setting) string { return s.Tension })
	setFoot    = settingColumn("foot", 3, func(s *garment.Setting) string { return s.Foot })
)

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

// TechniqueSettings tables how the machine was set for a technique, cloth by cloth.
func TechniqueSettings(d *Draft, t *notebook.TechniquePage) {
	if len(t.Worked) == 0 {
		return
	}
	list := make([]*notebook.Worked, min(len(t.Worked), mostBuilds))
	for i := range list {
		list[i] = &t.Worked[i]
	}
	of := func(c ColumnOf[*garment.Setting]) ColumnOf[*notebook.Worked] {
		return Of(c, func(w *notebook.Worked) *garment.Setting { return &w.Setting })
	}
	Table(&d.Draft, OnPage, "How the machine was set", list, workedOn, of(setNeedle), of(setStitch), of(setTension), of(setFoot), workedIn).End()
	d.earlier(len(t.Worked) - len(list))
}

// On which cloths a setting was used, and for which garment.
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
	workedIn = ColumnOf[*notebook.Worked]{Word: "garment", Words: true, Cell: func(t *document.TableDraft, _ Teller, w *notebook.Worked) {
		t.Cell(document.Lead(string(w.Build.Address), w.Build.Name))
	}}
)
