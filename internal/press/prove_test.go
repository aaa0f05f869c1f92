package press

import (
	"errors"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"hembook/internal/fault"
	"hembook/themes"
)

const adela = "name: Adela Wren\naddress: Mill Yard 2\nby: Robin\nbody: {waist: 743}\n"

// worn is the small workroom with a wearer.
func worn() files {
	f := small()
	f["content/wearers/adela.yaml"] = adela
	f["content/builds/apron/build.yaml"] = strings.Replace(f["content/builds/apron/build.yaml"], "state: sewing\n", "state: sewing\nwearer: adela\n", 1)
	return f
}

// TestALeakStopsThePress: what is private and would be shown is named by its
// place, is not quoted, and the notebook from before stays.
func TestALeakStopsThePress(t *testing.T) {
	if testing.Short() {
		t.Skip("presses with the workers of the other tests")
	}
	frame, err := fs.ReadFile(themes.Plainweave(), "frame.html")
	if err != nil {
		t.Fatal(err)
	}
	leaking := func(words string) fs.FS {
		return fstest.MapFS{"frame.html": {Data: []byte(strings.Replace(string(frame), "</body>", words+"</body>", 1))}}
	}
	for name, row := range map[string]struct {
		over   fs.FS
		change func(files)
		at     string
	}{
		"a template":             {over: leaking("<p>for <b>Adela</b> Wren</p>"), at: "content/wearers/adela.yaml:1:7"},
		"a template's attribute": {over: leaking(`<p title="Mill&#32;Yard 2">x</p>`), at: "content/wearers/adela.yaml:2:10"},
		"a template's number":    {over: leaking("<p>waist 74.3 cm</p>"), at: "content/wearers/adela.yaml:4:15"},
		"a style sheet":          {over: fstest.MapFS{"look/z.css": {Data: []byte("/* Adela Wren */ p{color:red}")}}, at: ""}, // minified away
		"a remark in the record": {change: func(f files) { f["content/builds/apron/build.yaml"] += "# to Mill Yard 2\nmeasured: {waist: 610}\n" }, at: "content/wearers/adela.yaml:2:10"},
		"the address of a build": {change: func(f files) {
			f["content/builds/adela-wren/build.yaml"] = f["content/builds/apron/build.yaml"]
			delete(f, "content/builds/apron/build.yaml")
			delete(f, "content/builds/apron/notes.md")
			f["content/techniques/plain-way.md"] = strings.Replace(f["content/techniques/plain-way.md"], "[](build:apron)", "more", 1)
		}, at: "content/wearers/adela.yaml:1:7"},
		"what is public anywhere": {over: leaking("<p>Adela Wren</p>"), change: func(f files) { f["content/pages/about.md"] += "Thanks to Adela Wren.\n" }, at: ""},
	} {
		t.Run(name, func(t *testing.T) {
			f := worn()
			dir, to := room(t, f), filepath.Join(t.TempDir(), "pressed")
			before := pressed(t, dir, to)
			if row.change != nil {
				row.change(f)
				dir = room(t, f)
			}
			_, faults, err := pressWith(t, dir, row.over, Options{To: to})
			if row.at == "" {
				if err != nil {
					t.Fatal(err, faults)
				}
				return
			}
			if !errors.Is(err, ErrRecords) {
				t.Fatal(err)
			}
			told := ""
			for _, one := range faults {
				if one.Severity == fault.Error {
					told += one.String() + "\n"
				}
			}
			if !strings.HasPrefix(told, row.at+": error: this is private, and would be shown on ") || strings.Count(told, "error: ") != 1 {
				t.Errorf("told %s, want %s", told, row.at)
			}
			for _, secret := range []string{"Adela Wren", "Mill Yard", "74.3"} {
				if strings.Contains(told, secret) {
					t.Errorf("the fault quotes it: %s", told)
				}
			}
			after := tree(t, to)
			if len(after) != len(before) {
				t.Fatalf("%d files before, %d after", len(before), len(after))
			}
			for name := range before {
				if after[name] != before[name] {
					t.Errorf("%s is other than before", name)
				}
			}
		})
	}
}

// TestANewSecretIsLookedForInOldPages: a press that keeps its pages looks
// through them again where something else is private.
func TestANewSecretIsLookedForInOldPages(t *testing.T) {
	f := worn()
	f["content/builds/apron/build.yaml"] += "# for Meta Lund\nmeasured: {waist: 610}\n"
	dir, to := room(t, f), filepath.Join(t.TempDir(), "pressed")
	memory := &Memory{}
	defer memory.Close()
	if _, faults, err := pressWith(t, dir, nil, Options{To: to, Memory: memory}); err != nil {
		t.Fatal(err, faults)
	}
	write(t, dir, "content/wearers/meta.yaml", "name: Meta Lund\n")
	_, faults, err := pressWith(t, dir, nil, Options{To: to, Memory: memory})
	if !errors.Is(err, ErrRecords) || len(faults) == 0 {
		t.Fatalf("%v: %v", err, faults)
	}
	if last := faults[len(faults)-1].String(); !strings.HasPrefix(last, "content/wearers/meta.yaml:1:7: error: ") {
		t.Error(last)
	}
}
