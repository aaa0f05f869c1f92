package notebook

import (
	"path"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/prose"
	"hembook/internal/record"
)

// CheckRoom finds the links that lead nowhere in every text of the workroom,
// builds apart.
func (b *Book) CheckRoom() []fault.Fault {
	var faults fault.Faults
	for _, t := range b.room.Techniques {
		b.checkProse(t.Body, nil, &faults)
	}
	for _, p := range b.room.Pages {
		b.checkProse(p.Body, nil, &faults)
	}
	for _, c := range b.room.Cloths {
		b.checkText(c.About, path.Dir(c.At.File()), nil, &faults)
	}
	return faults.Sorted()
}

// CheckBuild finds the links that lead nowhere in a build's texts, of which figures are its
// figures.
func (b *Book) CheckBuild(build *record.Build, figures func() []*figure.Figure) []fault.Fault {
	var faults fault.Faults
	b.checkText(build.Story, build.Folder, figures, &faults)
	b.checkProse(build.Notes, figures, &faults)
	for i := range build.Journal {
		b.checkText(build.Journal[i].Note, build.Folder, figures, &faults)
	}
	return faults.Sorted()
}

func (b *Book) checkProse(p *record.Prose, figures func() []*figure.Figure, faults *fault.Faults) {
	if p != nil {
		b.CheckLinks(prose.Read(p.Text, ""), p.At, path.Dir(p.At.File()), figures, faults)
	}
}

func (b *Book) checkText(t record.Text, folder string, figures func() []*figure.Figure, faults *fault.Faults) {
	if t.Given() {
		b.CheckLinks(prose.Read([]byte(t.V), ""), t.At, folder, figures, faults)
	}
}
