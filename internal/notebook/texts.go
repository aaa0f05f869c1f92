package notebook

import (
	"path"

	"hembook/internal/fault"
	"hembook/internal/prose"
	"hembook/internal/record"
)

// CheckRoom finds the links that lead nowhere in every text of the workroom,
// builds apart.
func (b *Book) CheckRoom() []fault.Fault {
	var faults fault.Faults
	for _, t := range b.room.Techniques {
		b.checkProse(t.Body, &faults)
	}
	for _, p := range b.room.Pages {
		b.checkProse(p.Body, &faults)
	}
	for _, c := range b.room.Cloths {
		b.checkText(c.About, path.Dir(c.At.File()), &faults)
	}
	return faults.Sorted()
}

// CheckBuild finds the links that lead nowhere in a build's texts.
func (b *Book) CheckBuild(build *record.Build) []fault.Fault {
	var faults fault.Faults
	b.checkText(build.Story, build.Folder, &faults)
	b.checkProse(build.Notes, &faults)
	for i := range build.Journal {
		b.checkText(build.Journal[i].Note, build.Folder, &faults)
	}
	return faults.Sorted()
}

func (b *Book) checkProse(p *record.Prose, faults *fault.Faults) {
	if p != nil {
		b.CheckLinks(prose.Read(p.Text, ""), p.At, path.Dir(p.At.File()), faults)
	}
}

func (b *Book) checkText(t record.Text, folder string, faults *fault.Faults) {
	if t.Given() {
		b.CheckLinks(prose.Read([]byte(t.V), ""), t.At, folder, faults)
	}
}
