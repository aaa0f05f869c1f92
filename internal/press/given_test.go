package press

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hembook/internal/notebook"
)

// TestLinkIsWhatATemplateMakes: the link written by hand is the one that
// html/template makes safe, whatever stands in it.
func TestLinkIsWhatATemplateMakes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Way{
			Href: rapid.OneOf(rapid.StringMatching(`[a-zA-Z0-9/._#-]*`), rapid.String(), rapid.SampledFrom([]string{"javascript:x", "a b", "é", "//x", "a:b"})).Draw(t, "href"),
			Name: rapid.OneOf(rapid.String(), rapid.StringMatching(`[<>&"'+\x00 a]*`)).Draw(t, "name"),
			Here: rapid.Bool().Draw(t, "here"),
		}
		var want strings.Builder
		if err := linkTemplate.Execute(&want, l); err != nil {
			t.Fatal(err)
		}
		if got := string(appendLink(nil, l)); got != want.String() {
			t.Errorf("%+v: %s, a template makes %s", l, got, want.String())
		}
	})
}

// TestGivenHoldsEveryField: every field that a view is documented with, its
// own and the frame's, stands under its name.
func TestGivenHoldsEveryField(t *testing.T) {
	view := &LeafView{Frame: Frame{Head: notebook.Head{Heading: "Pieces", Address: "builds/a/pieces.html"}, Workroom: "A room"}, Record: "record.html"}
	g := given{"Old": 1}
	g.fill(view)
	for name, want := range map[string]any{"Heading": "Pieces", "Workroom": "A room", "Record": "record.html", "Leaves": 0} {
		got := g[name]
		if list, ok := got.([]Way); ok {
			got = len(list)
		}
		if got != want {
			t.Errorf("%s is %v", name, g[name])
		}
	}
	if _, ok := g["Old"]; ok {
		t.Error("what another page was given is still there")
	}
	if got := g.Href("index.html"); got != "../../index.html" {
		t.Errorf("the way to the front is %q", got)
	}
}
