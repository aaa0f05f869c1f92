package press

import (
	_ "embed"
	"encoding/json"
	"strings"

	"hembook/internal/notebook"
)

//go:embed offline.js
var keeper string

// A manifest is what a browser needs to keep a notebook beside its programs, as
// https://www.w3.org/TR/appmanifest/ has it.
type manifest struct {
	Name       string `json:"name"`
	ShortName  string `json:"short_name"`
	StartURL   string `json:"start_url"`
	Scope      string `json:"scope"`
	Display    string `json:"display"`
	Background string `json:"background_color"`
	Theme      string `json:"theme_color"`
	Icons      []icon `json:"icons,omitempty"`
}

type icon struct {
	Src   string `json:"src"`
	Sizes string `json:"sizes"`
	Type  string `json:"type"`
}

// offline writes what lets a browser keep the notebook where it is served: a note of what
// it is, and a worker that answers with pages that were read before where there is no
// line. Its name for what it keeps changes with the theme's files, so that nothing of an
// old look is left behind.
func (r *pressing) offline() error {
	m := manifest{Name: r.book.Name, ShortName: r.book.Name, StartURL: "./" + string(notebook.FrontAddress), Scope: "./",
		Display: "minimal-ui", Background: "#f6f0e4", Theme: "#f6f0e4"}
	if r.theme.icon != "" {
		m.Icons = []icon{{string(r.theme.icon), "any", "image/svg+xml"}}
	}
	note, err := json.MarshalIndent(m, "", " ")
	if err != nil {
		return err
	}
	if err := r.writeWeb(notebook.KeptAddress, append(note, '\n')); err != nil {
		return err
	}
	lists := []string{string(notebook.FrontAddress)}
	for _, a := range r.out.pages() {
		switch a {
		case notebook.BuildsAddress, notebook.TechniquesAddress, notebook.ClothsAddress, notebook.GlossaryAddress, notebook.SearchAddress, notebook.MissingAddress:
			lists = append(lists, string(a))
		}
	}
	var names strings.Builder
	for i := range r.theme.files {
		a := string(r.theme.files[i].address)
		names.WriteString(a)
		if strings.HasPrefix(a, "look/") || strings.HasPrefix(a, "script/") {
			lists = append(lists, a)
		}
	}
	first, err := json.Marshal(lists)
	if err != nil {
		return err
	}
	text := strings.NewReplacer(`"VERSION"`, `"`+hashOf([]byte(names.String()+keeper))+`"`, `["FIRST"]`, string(first)).Replace(keeper)
	small, err := minified("text/javascript", []byte(text))
	if err != nil {
		return err
	}
	return r.writeWeb(notebook.KeeperAddress, small)
}
