package sheet

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
)

// declared is what each sheet may show of what is private, field by field. A
// field added to one of the types must be added here, by someone who thought
// about it. "at" holds places in files, no values: where those are written that
// the other fields show.
var declared = map[reflect.Type][]string{
	reflect.TypeFor[fitOpened]():     {"Wearer", "Body", "Taken", "From", "at"}, // where it was made, where a law asks for it
	reflect.TypeFor[nothingOpened](): {},
	reflect.TypeFor[customsOpened](): {"FromAddress", "FromCountry", "ToName", "ToAddress", "ToCountry", "ToContact", "Value", "HasValue", "ValueAt", "Crosses", "SameUnion", "NotListed", "at"},
	reflect.TypeFor[agreeOpened]():   {"Wearer", "Price", "HasPrice", "at"},
	reflect.TypeFor[cardOpened]():    {"Wearer", "at"},
	reflect.TypeFor[labelsOpened]():  {"cardOpened", "From"},
	reflect.TypeFor[measureOpened](): {"Wearer", "Asked", "at"},
	reflect.TypeFor[origin]():        {"Country", "at"},
}

func TestDeclaredFields(t *testing.T) {
	for typ, want := range declared {
		var got []string
		for i := range typ.NumField() {
			got = append(got, typ.Field(i).Name)
		}
		if strings.Join(got, " ") != strings.Join(want, " ") {
			t.Errorf("%s opens %v, declared are %v", typ, got, want)
		}
	}
}

// TestOnlyOneFileOpens: what is private reaches a sheet through opened.go or
// not at all.
func TestOnlyOneFileOpens(t *testing.T) {
	files, err := filepath.Glob("*.go")
	if err != nil || len(files) < 10 {
		t.Fatal(len(files), err)
	}
	opens := 0
	for _, f := range files {
		if strings.HasSuffix(f, "_test.go") {
			continue
		}
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		if n := strings.Count(string(text), ".Open(record."); n > 0 {
			if f != "opened.go" {
				t.Errorf("%s opens what is private", f)
			}
			opens += n
		}
	}
	if opens == 0 {
		t.Error("nothing is opened at all")
	}
}
