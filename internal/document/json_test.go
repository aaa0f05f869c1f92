package document

import (
	"bytes"
	"encoding/json"
	"testing"

	"hembook/internal/figure"
	"hembook/internal/measure"
)

// TestJSON: blocks name their figures, which stand once each with their
// workings; what is private says so.
func TestJSON(t *testing.T) {
	pad := &figure.Pad{}
	hem := pad.Figure("hem", "length", "", pad.Written("width", 40, measure.UnitMM, at("content/builds/a/build.yaml", 7)).By(2), measure.UnitMM, "twice the width", figure.Derived)
	cloth := pad.Figure("cloth", "area", "", pad.Unknown("no cloth is named"), measure.UnitMM, "", figure.Derived)
	var d Draft
	d.Style.System = measure.Both
	d.Add(Turn{}, Heading{Level: 2, Words: "Hem"})
	fact, _ := d.Fact("length", &hem)
	fact.Private, fact.Below = true, []Fact{{Term: "area", Says: []Phrase{d.Phrase(Of(&cloth))}}}
	d.Add(Facts{Items: []Fact{fact}})
	d.Table("Seams", Words("seam"), Words("empty"), Figures("length")).Row("side").Words("").Figures(&hem).End()
	d.Add(Cautions{Items: []Caution{{Head: "fire", Words: "keep away", Source: "a law"}}}, Ticks{Items: []Tick{{Phrase: d.Phrase(As(Strong, "pins")), Done: true}}})
	var out bytes.Buffer
	if err := PrintJSON(&out, d.JSON()); err != nil {
		t.Fatal(err)
	}
	want := `{
 "blocks": [
  {"kind": "heading", "level": 2, "head": "Hem"},
  {"kind": "facts", "items": [{"term": "length", "private": true, "says": [[{"words": "80 mm", "other": "3 1/8 in", "figure": "hem"}]],
    "below": [{"term": "area", "says": [[{"words": "not known", "figure": "cloth"}]]}]}]},
  {"kind": "table", "head": "Seams", "columns": ["seam", "length"], "rows": [[[{"words": "side"}], [{"words": "80 mm", "other": "3 1/8 in", "figure": "hem"}]]]},
  {"kind": "cautions", "items": [{"term": "fire", "says": [[{"words": "keep away"}]], "source": "a law"}]},
  {"kind": "ticks", "items": [{"done": true, "says": [[{"words": "pins", "voice": "strong"}]]}]}
 ],
 "figures": [
  {"id": "hem", "title": "length", "of": "", "value": 80, "unit": "mm", "private": true,
   "working": {"rule": "twice the width", "sum": "40 mm × 2 = 80 mm", "source": "derived", "inputs": [{"name": "width", "value": "40 mm", "file": "content/builds/a/build.yaml", "line": 7}]}},
  {"id": "cloth", "title": "area", "of": "", "value": null, "unit": "", "why": "no cloth is named", "working": {"rule": "", "sum": "", "inputs": [], "source": "derived"}}
 ]
}`
	if got, want := plain(t, out.String()), plain(t, want); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

// plain is JSON with its keys in order and nothing between them.
func plain(t *testing.T, text string) string {
	var v any
	if err := json.Unmarshal([]byte(text), &v); err != nil {
		t.Fatal(err)
	}
	out, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}
