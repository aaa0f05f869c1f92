package draft

import (
	"embed"
	"path"
	"slices"
	"strconv"
	"strings"
	"sync"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/trade"
)

//go:embed sizes/*.yaml
var sizeFiles embed.FS

// A SizeTable is a published table of what bodies of a size measure.
type SizeTable struct {
	Name     string              `yaml:"name"`
	Source   string              `yaml:"source"`
	Units    string              `yaml:"units"`
	Sizes    []string            `yaml:"sizes"`
	Measures map[string][]string `yaml:"measures"` // by the name a draft asks for, one for each size
}

// SizeTables are those of the program, by name.
var SizeTables = sync.OnceValue(func() []SizeTable {
	entries, err := sizeFiles.ReadDir("sizes")
	if err != nil {
		panic(err)
	}
	var out []SizeTable
	for _, e := range entries {
		text, err := sizeFiles.ReadFile(path.Join("sizes", e.Name()))
		if err != nil {
			panic(err)
		}
		var t SizeTable
		if err := yaml.Unmarshal(text, &t); err != nil {
			panic(e.Name() + ": " + err.Error()) // a test reads them all
		}
		out = append(out, t)
	}
	return append(out, surveyed("women", func(m trade.Measurement) *trade.Range { return m.Women }), surveyed("men", func(m trade.Measurement) *trade.Range { return m.Men }))
})

// surveyNames are what drafts ask for, by what the survey's table calls it.
var surveyNames = map[string]string{"bust": "bust", "waist": "waist", "hip": "hip", "neck": "neck", "upper arm": "upper-arm",
	"head": "head", "inside leg": "inside-leg", "reach": "spine-to-wrist"}

// surveyed makes a table of what half of all people measured, and the small and the large.
func surveyed(name string, of func(trade.Measurement) *trade.Range) SizeTable {
	t := SizeTable{Name: name, Units: "mm", Sizes: []string{"small", "middle", "large"}, Measures: map[string][]string{},
		Source: say.Of("draft.ansur-ii-us-army-2012-of-17", name)}
	for asked, called := range surveyNames {
		m, ok := trade.MeasurementNamed(called)
		if !ok || of(m) == nil {
			continue
		}
		r := of(m)
		for _, x := range []float64{r.P5, r.P50, r.P95} {
			t.Measures[asked] = append(t.Measures[asked], strconv.FormatFloat(x, 'f', 0, 64))
		}
	}
	return t
}

// SizeNamed finds a table and a size in it from "misses 12".
func SizeNamed(said string) (t SizeTable, column int, err error) {
	name, size, _ := strings.Cut(strings.TrimSpace(said), " ")
	var names []string
	for _, t := range SizeTables() {
		names = append(names, t.Name)
		if t.Name != name {
			continue
		}
		if i := slices.Index(t.Sizes, strings.TrimSpace(size)); i >= 0 {
			return t, i, nil
		}
		return t, 0, fault.Refusing(say.Of("draft.as-it-has", t.Name, t.Sizes[len(t.Sizes)/2], strings.Join(t.Sizes, ", ")), say.Of("draft.has-no-size", t.Name, say.Quoted(strings.TrimSpace(size))))
	}
	return t, 0, fault.Refusing(meant.Among(name, names, say.Of("draft.there-are")), say.Of("draft.there-is-no-size-table-called", say.Quoted(name)))
}

// Of is what a body of a size measures there, in mm; false where the table does not say.
func (t *SizeTable) Of(measureName string, column int) (mm float64, ok bool) {
	list := t.Measures[measureName]
	if column >= len(list) {
		return 0, false
	}
	unit := measure.UnitMM
	if t.Units == "in" {
		unit = measure.UnitIn
	}
	l, err := measure.ParseLength(list[column], unit)
	if err != nil {
		panic(t.Name + ": " + err.Error()) // a test reads them all
	}
	return l.MM(), true
}
