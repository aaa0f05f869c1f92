package document

import (
	"html/template"
	"testing"

	"hembook/internal/drawing"
)

// TestThemedKinds: a theme restyles things to tick, a form, a picture and stages by
// one template each, and words stay escaped.
func TestThemedKinds(t *testing.T) {
	line := func() *drawing.Drawing {
		d := drawing.New("net")
		d.Box = drawing.Box{Right: 1, Bottom: 1}
		return d
	}
	dot := []byte("GIF")
	for _, c := range []struct {
		kind, template string
		block          Block
		want           string
	}{
		{"ticks", `{{range .Items}}[{{if .Done}}x{{end}}{{.Body}}]{{end}}`, Ticks{Items: []Tick{{Phrase{Say("pins <26>")}, true}, {Phrase: Phrase{Say("card")}}}}, `[xpins &lt;26&gt;][card]`},
		{"form", `{{.Head}}:{{range .Items}} {{.Head}}={{.Body}}{{end}}`, FillIn{Says: "counted", Fields: []Field{{Name: "day", Value: "3 & 4"}}}, `counted: day=3 &amp; 4`},
		{"stages", `{{.ID}} {{.Head}}{{range .Items}}|{{.Head}}{{.Body}}{{end}}`, Stages{ID: "s", Choose: "Step", Of: []Growth{{Phrase{Say("hem")}, []Sketch{{Draw: line, Caption: "8"}}}}},
			`s Step|hem<figure><svg aria-hidden="true" viewBox="0 0 10 10" width="1mm" height="1mm"></svg><figcaption>8</figcaption></figure>`},
		{"picture", `({{.Head}})`, Picture{Data: dot, Alt: "a dot", Caption: "a <dot>"}, `(a &lt;dot&gt;)`},
	} {
		h := &HTML{Theme: Templates{c.kind: template.Must(template.New(c.kind).Parse(c.template))}}
		if got := string(h.Text([]Block{c.block})); got != c.want {
			t.Errorf("%s: %s, not %s", c.kind, got, c.want)
		}
		if (c.kind == "picture") != (h.Wrong != nil) { // these bytes are no picture
			t.Errorf("%s: %v", c.kind, h.Wrong)
		}
	}
}
