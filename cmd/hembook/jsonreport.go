package main

import (
	"hembook/internal/document"
	"hembook/internal/figure"
	"hembook/internal/record"
)

// A jsonReport is what --json gives for other programs: the blocks that the terminal
// shows, and every figure once with its working. What a program could only read out of
// the words of blocks, as which step comes next, stands beside them under names of its
// own, and names figures by their IDs there. tally and pack --missing have all this one
// shape.
type jsonReport struct {
	Build string `json:"build,omitempty"`
	Cloth string `json:"cloth,omitempty"`
	Name  string `json:"name,omitempty"` // of the garment or the cloth
	document.JSONDocument

	met map[string]bool // the IDs of its figures, from the first that was named on
}

// reportOf is what a draft says of a build.
func reportOf(bf record.BuildFile, d *document.Draft) jsonReport {
	return jsonReport{Build: bf.Slug, Name: bf.Name, JSONDocument: d.JSON()}
}

// names gives the IDs of figures, and sees to it that the report has each of them.
func (r *jsonReport) names(list ...*figure.Figure) []string {
	ids := make([]string, len(list))
	for i, f := range list {
		ids[i] = r.named(f, false)
	}
	return ids
}

// namesOf is names of figures that hold nothing private.
func (r *jsonReport) namesOf(list []figure.Figure) []string {
	all := make([]*figure.Figure, len(list))
	for i := range list {
		all[i] = &list[i]
	}
	return r.names(all...)
}

// named gives the ID of a figure, and sees to it that the report has it; one that is
// not set has none.
func (r *jsonReport) named(f *figure.Figure, private bool) string {
	if r.met == nil {
		r.met = map[string]bool{"": true}
		for i := range r.Figures {
			r.met[r.Figures[i].ID] = true
		}
	}
	if !r.met[f.ID] {
		r.met[f.ID] = true
		r.Figures = append(r.Figures, document.FigureJSON(f, private))
	}
	return f.ID
}
