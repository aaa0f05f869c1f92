package trade

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"
)

// everyTable is each embedded table, decoded; a new one belongs here.
func everyTable(t *testing.T) map[string]any {
	t.Helper()
	all := map[string]any{
		"stitches": stitchData(), "fibres": fibreData(), "care": careData(), "sizes": sizeData(),
		"cautions": cautionData(), "children": childData(), "customs": customsData(), "practice": practiceData(),
		"countries": countryData(), "glossary": glossaryData(), "synonyms": pairData(), "abroad": abroadData(),
		"weights": weightData(),
	}
	files, err := tables.ReadDir("tables")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		name := strings.TrimSuffix(f.Name(), ".yaml")
		if strings.HasPrefix(name, "seams-") || strings.HasPrefix(name, "finishes-") {
			list, err := table[[]SeamType](name)
			if err != nil {
				t.Fatal(err)
			}
			all[name] = list
		}
		if all[name] == nil {
			t.Errorf("table %s is in no test", name)
		}
	}
	return all
}

// TestEveryRowIsWholeAndSourced walks all tables: a field that may not be left
// out is filled, and every source field says something.
func TestEveryRowIsWholeAndSourced(t *testing.T) {
	for name, v := range everyTable(t) {
		rows := 0
		walkRows(reflect.ValueOf(v), name, func(path, field string, f reflect.Value, may bool) {
			rows++
			if f.Type() == reflect.TypeFor[Source]() && strings.TrimSpace(f.String()) == "" {
				t.Errorf("%s: no source", path)
			}
			if f.Kind() == reflect.String && !may && strings.TrimSpace(f.String()) == "" {
				t.Errorf("%s: %s is empty", path, field)
			}
		})
		if rows == 0 {
			t.Errorf("%s: nothing was looked at", name)
		}
	}
}

func walkRows(v reflect.Value, path string, see func(path, field string, f reflect.Value, may bool)) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			walkRows(v.Elem(), path, see)
		}
	case reflect.Slice:
		for i := range v.Len() {
			walkRows(v.Index(i), fmt.Sprintf("%s[%d]", path, i), see)
		}
	case reflect.Struct:
		if v.Type() == reflect.TypeFor[Expr]() || v.Type() == reflect.TypeFor[PointRule]() {
			return
		}
		for i := range v.NumField() {
			f := v.Type().Field(i)
			if !f.IsExported() {
				continue
			}
			word, rest, _ := strings.Cut(f.Tag.Get("yaml"), ",")
			may := rest == "omitempty" || v.Type() == reflect.TypeFor[Pass]()
			see(path, word, v.Field(i), may)
			walkRows(v.Field(i), path+"."+word, see)
		}
	}
}

// TestStrictReading makes sure that the reader of the tables is as strict as
// it says, for the tables' own honesty rests on it.
func TestStrictReading(t *testing.T) {
	for text, says := range map[string]string{
		"[{name: x, colour: red}]":       `unknown word "colour"`,
		"[{name: x, name: y}]":           `"name" is given twice`,
		"[{name: [x]}]":                  "a single value, please",
		"{name: x}":                      "a list, please",
		"[{name: x, kind: }]":            "a value is missing here",
		"[{parameters: [{default: 6x}]}": `did not find expected`,
	} {
		_, err := parseSeamTypes([]byte(text))
		if err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: got %v, want %q", text, err, says)
		}
	}
}

func TestSourceSure(t *testing.T) {
	for s, want := range map[Source]sureness{
		"":                                          sureUnsaid,
		"16 CFR 1610.1(d)":                          sureRead,
		"from memory (ISO 4915)":                    sureMemory,
		"Coats guide; split from memory":            sureMemory,
		"common practice":                           surePractice,
		"derived from the rows above":               sureDerived,
		"derived (rows); common practice":           surePractice,
		"our own wording; meanings common practice": sureOwn,
	} {
		if got := s.sure(); got != want {
			t.Errorf("%q: got %q, want %q", s, got, want)
		}
	}
}

func TestFibreAllowances(t *testing.T) {
	// Source: Regulation (EU) No 1007/2011, Annex IX.
	for _, c := range []struct {
		word, form string
		want       float64
	}{
		{"silk", "", 11},
		{"cotton", "", 8.5},
		{"cotton", "mercerised", 10.5},
		{"flax", "", 12},
		{"linen", "", 12},
		{"viscose", "", 13},
		{"rayon", "", 13},
		{"polyester", "", 1.5},
		{"elastane", "", 1.5},
		{"spandex", "", 1.5},
		{"wool", "", 17},
		{"wool", "combed", 18.25},
		{"Nylon", "", 6.25},
		{"polyamide", "filament", 5.75},
		{"horsehair", "combed", 16},
		{"acetate", "", 9},
		{"triacetate", "", 7},
		{"alginate", "", 20},
		{"paper yarn", "", 13.75},
		{"polyurethane", "filament", 3},
		{"fluorofibre", "", 0},
		{"melamine", "", 7},
		{"kapok", "", 10.9},
	} {
		f, ok := FibreNamed(c.word)
		if !ok {
			t.Fatalf("no fibre %q", c.word)
		}
		a, ok := f.Allowance(c.form)
		if !ok || a.Percent != c.want {
			t.Errorf("%s %s: got %+v %v, want %v", c.word, c.form, a, ok, c.want)
		}
	}
	if _, ok := FibreNamed("moss"); ok {
		t.Error("moss is no textile fibre")
	}
	if got := NearestFibre("visose"); got != "viscose" {
		t.Errorf("visose: %q", got)
	}
}

func TestFibreTable(t *testing.T) {
	annex, words := map[string]bool{}, map[string]string{}
	groups := customsGroups()
	for _, f := range fibreData() {
		annex[f.Annex] = true
		if len(f.Allowances) == 0 || !slices.Contains(groups, f.Customs) {
			t.Errorf("%s: %d allowances, customs %q", f.Name, len(f.Allowances), f.Customs)
		}
		if !slices.Contains([]FibreClass{animal, plant, artificial, synthetic, mineral, paperYarn}, f.Class) {
			t.Errorf("%s is of class %q", f.Name, f.Class)
		}
		for _, w := range append([]string{f.Name}, also(f.Also)...) {
			if words[slug(w)] != "" {
				t.Errorf("%q is both %s and %s", w, words[slug(w)], f.Name)
			}
			words[slug(w)] = f.Name
		}
		if c := f.Care; c != nil && (!slices.Contains([]int{0, 30, 40, 50, 60, 70, 95}, c.Wash.Degrees) || !slices.Contains([]int{0, 110, 150, 200}, c.Iron)) {
			t.Errorf("%s: care %+v", f.Name, *c)
		}
	}
	for n := 1; n <= 50; n++ {
		if !annex[fmt.Sprint(n)] {
			t.Errorf("row %d of Annex IX is missing", n)
		}
	}
	var exempt []string
	for _, f := range fibreData() {
		if f.Exempt1610 {
			exempt = append(exempt, f.Name)
		}
	}
	// Source: 16 CFR 1610.1(d)(2); nylon is polyamide, olefin polyethylene and polypropylene.
	if want := []string{"wool", "acrylic", "modacrylic", "polyamide", "polyester", "polyethylene", "polypropylene"}; !slices.Equal(exempt, want) {
		t.Errorf("exempt fibres: %v", exempt)
	}
}

func also(list []Also) []string {
	var out []string
	for _, a := range list {
		out = append(out, a.Term)
	}
	return out
}

// TestIronOrder is the order test of the care table: tender fibres never get a
// hotter iron than robust ones. Common practice, no source.
func TestIronOrder(t *testing.T) {
	iron := func(name string) int {
		f, ok := FibreNamed(name)
		if !ok || f.Care == nil {
			t.Fatalf("no care for %s", name)
		}
		return f.Care.Iron
	}
	for _, low := range []string{"acetate", "polyamide", "acrylic"} {
		for _, mid := range []string{"silk", "polyester", "viscose", "wool"} {
			for _, high := range []string{"cotton", "linen"} {
				if iron(low) > iron(mid) || iron(mid) > iron(high) {
					t.Errorf("iron: %s %d, %s %d, %s %d", low, iron(low), mid, iron(mid), high, iron(high))
				}
			}
		}
	}
}

func TestCareTableRanks(t *testing.T) {
	next := map[string]int{}
	for _, o := range careData().Options {
		if o.Rank != next[o.Axis] {
			t.Errorf("%s, %s: rank %d, want %d", o.Axis, o.Name, o.Rank, next[o.Axis])
		}
		next[o.Axis]++
	}
	if next["natural"] != 8 || len(CareAxes()) != 5 || len(careData().Materials) < 3 {
		t.Errorf("care table: %v", next)
	}
}

func TestEaseWarnings(t *testing.T) {
	want := map[string]float64{"bust": 38, "waist": 13, "hip": 38} // derived from the published rows
	for _, w := range EaseWarnings() {
		if w.Least != want[w.At] {
			t.Errorf("ease warning at %s: %v mm", w.At, w.Least)
		}
		delete(want, w.At)
	}
	if len(want) > 0 {
		t.Errorf("no ease warning for %v", want)
	}
}
