package main

import (
	"hembook/internal/cutting"
	"hembook/internal/derive"
	"hembook/internal/document"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/label"
)

// A jsonTally is the figures of a build for other programs, in the blocks that
// the terminal shows; where no words asked for some of them, with what follows from
// them too. A name of a figure is that of one in the document's list.
type jsonTally struct {
	Build string `json:"build"`
	Name  string `json:"name"`
	document.JSONDocument
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
	jsonCareAxis struct {
		Name string `json:"name"`
		jsonCareSet
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
	met := map[string]bool{}
	for _, f := range t.Figures {
		met[f.ID] = true
	}
	also := func(list []figure.Figure) {
		for i := range list {
			if !met[list[i].ID] {
				met[list[i].ID] = true
				t.Figures = append(t.Figures, document.FigureJSON(&list[i], false))
			}
		}
	}
	content := tailor.Content(cut.Garment)
	also(content.Figures())
	t.jsonWhole = &jsonWhole{Compared: comparedJSON(cut.Garment.Compared()), Openings: openingsJSON(cut.Garment.Garment), Content: contentJSON(content), Care: careJSON(tailor.Care(cut.Garment)), Lay: []jsonClothLay{}}
	rows := tailor.Through(cut.Garment.Garment)
	for i := range rows {
		also([]figure.Figure{rows[i].Plies, rows[i].Thickness})
	}
	t.Rows = rowsJSON(cut.Garment.Garment, rows)
	t.Sewing = sewingJSON(cut.Garment)
	for _, l := range cut.Lays {
		also(l.Figures())
		one := jsonClothLay{Part: l.Part, Planned: l.Plan != nil, Why: l.Why, Figures: []string{}}
		for _, f := range l.Figures() {
			one.Figures = append(one.Figures, f.ID)
		}
		t.Lay = append(t.Lay, one)
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
		out.Axes = append(out.Axes, jsonCareAxis{a.Name, careSetJSON(a)})
	}
	for _, u := range c.Unknown {
		out.Unknown = append(out.Unknown, u.Name)
	}
	return out
}

// all is a list that other programs find empty rather than missing.
func all(list []string) []string { return append([]string{}, list...) }
