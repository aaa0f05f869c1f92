package workings

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"gopkg.in/yaml.v3"

	"hembook/internal/workings/reckon"
)

// TestTheJudgeFindsWhatIsWrong: figures with nothing wrong pass, and the same
// with one thing wrong each are found, as what they are.
func TestTheJudgeFindsWhatIsWrong(t *testing.T) {
	const file = "content/builds/b/build.yaml"
	dir := t.TempDir()
	for name, text := range map[string]string{
		file:                    "units: mm\nwaist: 700\nwidth: 5/8 in\nspan: {takes: 1 h 20 min}\nwork:\n  cut:\n  sew:\njournal:\n  - {did: cut, for: 40 min}\n",
		"content/workroom.yaml": "units: mm\n",
	} {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	mm := func(id string, v float64, sum, shown string, in ...input) entry {
		a, _ := reckon.Of(v, "mm")
		return entry{ID: id, Known: true, Number: v, Unit: "mm", Value: a, Shown: shown, Sum: sum, Inputs: in, Rule: "as it is", Source: "derived"}
	}
	waist := mm("a.waist", 700, "700 mm", "700 mm", input{Name: "waist", Value: "700 mm", File: file, Line: 2})
	half := func(change func(e *entry)) []entry {
		e := mm("a.half", 350, "700 mm ÷ 2 = 350 mm", "350 mm", input{Name: "waist", Value: "700 mm", From: "a.waist"})
		change(&e)
		return []entry{waist, e}
	}
	unknown := func(id, why string) func(e *entry) {
		return func(e *entry) { *e = entry{ID: id, Why: why} }
	}
	for name, one := range map[string]struct {
		list   []entry
		inches bool
		want   string
	}{
		"nothing":               {half(func(*entry) {}), false, ""},
		"a line in inches":      {half(func(e *entry) { e.Inputs = []input{{Name: "w", Value: "15.875 mm", File: file, Line: 3}} }), false, ""},
		"a time":                {half(func(e *entry) { e.Inputs = []input{{Name: "t", Value: "80 min", File: file, Line: 4}} }), false, ""},
		"a default":             {half(func(e *entry) { e.Inputs = []input{{Name: "step", Value: "5 mm", From: "default", Default: true}} }), false, ""},
		"told":                  {half(func(e *entry) { e.Sum, e.Told = "half 2 of the waist: 350 mm", true }), false, ""},
		"not clocked":           {half(unknown("step.sew.spent", "no time is noted for it")), false, ""},
		"a false sum":           {half(func(e *entry) { e.Sum = "700 mm ÷ 3 = 350 mm" }), false, string(reckon.False)},
		"told otherwise":        {half(func(e *entry) { e.Sum, e.Told = "half of the waist: 340 mm", true }), false, string(reckon.OtherValue)},
		"a sentence not marked": {half(func(e *entry) { e.Sum = "half of the waist: 350 mm" }), false, string(reckon.Unreadable)},
		"no sum":                {half(func(e *entry) { e.Sum = "" }), false, noSum},
		"shown otherwise":       {half(func(e *entry) { e.Shown = "352 mm" }), false, otherShown},
		"other digits":          {half(func(e *entry) { e.Sum = "699.9996 mm ÷ 2 = 350 mm"; e.Inputs[0].Value = "700.0 mm" }), false, otherDigits},
		"another value":         {half(func(e *entry) { e.Inputs[0].Value = "710 mm" }), false, inputDiffers},
		"another kind":          {half(func(e *entry) { e.Inputs[0].Value = "700 g" }), false, inputDiffers},
		"nobody":                {half(func(e *entry) { e.Inputs[0].From = "a.wrist" }), false, inputNobody},
		"itself":                {half(func(e *entry) { e.Inputs[0].Value, e.Inputs[0].From = "350 mm", "a.half" }), false, inputItself},
		"another line":          {half(func(e *entry) { e.Inputs = []input{{Name: "waist", Value: "700 mm", File: file, Line: 3}} }), false, inputLine},
		"no line":               {half(func(e *entry) { e.Inputs = []input{{Name: "waist", Value: "700 mm", File: file, Line: 99}} }), false, inputLine},
		"another word":          {half(func(e *entry) { e.Inputs = []input{{Name: "state", Value: "done", File: file, Line: 2}} }), false, inputLine},
		"a point":               {half(func(e *entry) { e.Inputs = []input{{Name: "from", Value: "(0, 700)", File: file, Line: 2}} }), false, inputLine},
		"no origin":             {half(func(e *entry) { e.Inputs[0].From = "the strips" }), false, inputNoPlace},
		"a hidden default":      {half(func(e *entry) { e.Inputs[0].From = "default of the house" }), false, hiddenDefault},
		"no default of the type": {half(func(e *entry) {
			e.Inputs[0] = input{Name: "hem depth", Value: "999 mm", From: "default of the seam type", Default: true}
		}), false, noDefault},
		"millimetres in inches":  {half(func(e *entry) { e.Title = "moved 4 mm inwards" })[1:], true, wrongUnits},
		"inches in millimetres":  {half(func(e *entry) { e.Title = "moved 1/4 in inwards" }), false, wrongUnits},
		"grams in inches":        {[]entry{{ID: "a.b", Why: "no time is noted yet", Title: "5 g"}}, true, wrongWeight},
		"clocked after all":      {half(unknown("step.cut.spent", "no time is noted for it")), false, whyUntrue},
		"a reason nobody checks": {half(unknown("a.half", "the moon is down")), false, whyUnread},
		"an ID twice":            {append(half(func(*entry) {}), mm("a.waist", 701, "701 mm", "701 mm")), false, sharedID},
		"one figure, two values": {half(func(e *entry) { e.Inputs = append(e.Inputs, input{Name: "before", Value: "690 mm", From: "a.waist"}) }), false, inputOneTwice},
		"a ratio of bare lengths": {half(func(e *entry) {
			e.Unit, e.Number, e.Value, e.Shown, e.Sum = "×", 2, reckon.Amount{Value: 2}, "2 ×", "700 ÷ 350 = 2"
		}), false, string(reckon.UnitsMissing)},
	} {
		r := &room{name: "r", inches: one.inches, dir: dir, lines: map[string][]string{}, trees: map[string]*yaml.Node{}, plain: map[string]map[string]any{}}
		b := build{slug: "b", entries: one.list, byID: map[string][]int{}}
		for i, e := range one.list {
			b.byID[e.ID] = append(b.byID[e.ID], i)
		}
		r.builds = []build{b}
		j := &judge{}
		j.look(r)
		var kinds []string
		for _, f := range j.finds {
			kinds = append(kinds, f.kind)
		}
		if one.want == "" && len(kinds) > 0 || one.want != "" && !slices.Contains(kinds, one.want) {
			t.Errorf("%s: found %v, want %q", name, j.finds, one.want)
		}
	}
}
