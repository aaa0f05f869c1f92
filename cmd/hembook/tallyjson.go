package main

import (
	"hembook/internal/cutting"
	"hembook/internal/derive"
	"hembook/internal/document"
	"hembook/internal/garment"
	"hembook/internal/label"
)

// A jsonTally is the figures of a build for other programs; where no words asked for
// some of them, with what follows from them too.
type jsonTally struct {
	jsonReport
	*jsonWhole
}

type (
	// A jsonWhole is what only a whole garment has.
	jsonWhole struct {
		Compared jsonCompared   `json:"compared"`
		Openings jsonOpenings   `json:"openings"`
		Content  jsonContent    `json:"content"`
		Care     jsonCare       `json:"care"`
		Lay      []jsonClothLay `json:"lay"`
		Rows     []jsonRow      `json:"rows"`
		Sewing   []jsonSewing   `json:"sewing"`
	}
	// A jsonCompared is whether what is sewn together fits together.
	jsonCompared struct {
		Words  string       `json:"words"`
		NotMet []jsonNotMet `json:"not-met"`
	}
	jsonNotMet struct {
		What    string `json:"what"`
		Allowed string `json:"allowed"`
		Mend    string `json:"to-correct,omitempty"`
		Figure  string `json:"figure"`
	}
	jsonOpenings struct {
		Words    string        `json:"words"`
		Openings []jsonOpening `json:"openings"`
		Slits    []jsonOpening `json:"slits"`
		Loose    []jsonLoose   `json:"loose"`
		Apart    []string      `json:"in-no-seam"`
	}
	jsonOpening struct {
		Name   string `json:"name"`
		Edges  string `json:"edges"`
		By     string `json:"closed-by,omitempty"`
		Figure string `json:"figure"`
	}
	jsonLoose struct {
		Edge   string `json:"edge"`
		Part   bool   `json:"part,omitempty"`
		Behind bool   `json:"behind,omitempty"`
	}
	jsonContent struct {
		Rules      string          `json:"rules"`
		Mass       string          `json:"mass"`
		Whole      []jsonFibre     `json:"whole"`
		WholeWhy   string          `json:"why,omitempty"` // why the whole is not known
		Components []jsonComponent `json:"components"`
	}
	jsonComponent struct {
		Parts  []string    `json:"parts"`
		Cloths []string    `json:"cloths"`
		Mass   string      `json:"mass"`
		Share  string      `json:"share"`
		Must   bool        `json:"on-label"`
		Fibres []jsonFibre `json:"fibres"`
	}
	jsonFibre struct {
		Name   string  `json:"name"`
		Label  float64 `json:"label"` // rounded, %
		Figure string  `json:"figure"`
	}
	jsonCare struct {
		Axes      []jsonCareAxis `json:"axes"`
		Unknown   []string       `json:"unknown"` // layers of which nobody knows what they stand
		Conflicts []string       `json:"conflicts"`
	}
	// A jsonCareAxis is what care a line of the label stands, and why.
	jsonCareAxis struct {
		Name    string               `json:"name"`
		Options []string             `json:"options"`
		Words   []string             `json:"words"`
		SetBy   []string             `json:"set-by"`
		Chosen  bool                 `json:"chosen,omitempty"`
		Working document.JSONWorking `json:"working"`
	}
	jsonClothLay struct {
		Part    string   `json:"part"`
		Planned bool     `json:"planned"`
		Why     string   `json:"why,omitempty"` // why there is no plan
		Figures []string `json:"figures"`
	}
)

// whole gathers what only a whole garment has, and the figures it names.
func (t *jsonTally) whole(tailor *derive.Tailor, cut *cutting.Cutting) {
	g := cut.Garment
	content := tailor.Content(g)
	t.namesOf(content.Figures())
	t.jsonWhole = &jsonWhole{Compared: comparedJSON(g.Compared()), Openings: openingsJSON(g.Garment), Content: contentJSON(content), Care: careJSON(tailor.Care(g)), Lay: []jsonClothLay{}}
	t.Rows = t.rows(g.Garment, tailor.Through(g.Garment))
	t.Sewing = sewingJSON(g)
	for _, l := range cut.Lays {
		t.Lay = append(t.Lay, jsonClothLay{Part: l.Part, Planned: l.Plan != nil, Why: l.Why, Figures: t.namesOf(l.Figures())})
	}
}

func comparedJSON(list []garment.Check) jsonCompared {
	out := jsonCompared{Words: garment.Outcome(list), NotMet: []jsonNotMet{}}
	for _, c := range garment.NotMet(list) {
		out.NotMet = append(out.NotMet, jsonNotMet{c.What, c.Limit, c.Mend, c.Off.ID})
	}
	return out
}

func openingsJSON(g *garment.Garment) jsonOpenings {
	out := jsonOpenings{Words: g.OpeningWords(), Openings: []jsonOpening{}, Slits: []jsonOpening{}, Loose: []jsonLoose{}, Apart: all(g.Apart)}
	for i := range g.Openings {
		o := &g.Openings[i]
		out.Openings = append(out.Openings, jsonOpening{Name: o.Name, Edges: o.Of, Figure: o.Length.ID})
	}
	for i := range g.Slits {
		s := &g.Slits[i]
		out.Slits = append(out.Slits, jsonOpening{s.Name, s.Of, s.By, s.Length.ID})
	}
	for _, l := range g.Loose {
		out.Loose = append(out.Loose, jsonLoose(l))
	}
	return out
}

func contentJSON(c *label.Content) jsonContent {
	out := jsonContent{Rules: c.Market, Mass: c.Mass.ID, Whole: fibresJSON(c.Whole), WholeWhy: c.WholeWhy, Components: []jsonComponent{}}
	for i := range c.Components {
		k := &c.Components[i]
		out.Components = append(out.Components, jsonComponent{all(k.Parts), all(k.Cloths), k.Mass.ID, k.Share.ID, k.Must, fibresJSON(k.Fibres)})
	}
	return out
}

func fibresJSON(list []label.FibrePart) []jsonFibre {
	out := []jsonFibre{}
	for i := range list {
		out = append(out, jsonFibre{list[i].Name, list[i].Label, list[i].Percent.ID})
	}
	return out
}

func careJSON(c *label.Care) jsonCare {
	out := jsonCare{Axes: []jsonCareAxis{}, Unknown: []string{}, Conflicts: all(c.Conflicts)}
	for i := range c.Axes {
		a := &c.Axes[i]
		axis := jsonCareAxis{Name: a.Name, Options: []string{}, Words: []string{}, SetBy: all(a.SetBy), Chosen: a.Chosen, Working: document.WorkingJSON(&a.Working)}
		for _, o := range a.Options {
			axis.Options, axis.Words = append(axis.Options, o.Name), append(axis.Words, o.Words)
		}
		out.Axes = append(out.Axes, axis)
	}
	for _, u := range c.Unknown {
		out.Unknown = append(out.Unknown, u.Name)
	}
	return out
}

// all is a list that other programs find empty rather than missing.
func all(list []string) []string { return append([]string{}, list...) }
