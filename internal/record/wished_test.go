package record

import (
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

var update = flag.Bool("update", false, "write what wished records are answered with")

// TestWished: records in the language as it is to be are read as far as the program can
// mean them, and each further word is answered once, by its name and place.
func TestWished(t *testing.T) {
	ours, _ := filepath.Glob("testdata/wished/*.yaml")
	if len(ours) < 2 {
		t.Fatal("no records are there")
	}
	for _, path := range ours {
		told := answered(t, path)
		golden := strings.TrimSuffix(path, ".yaml") + ".told"
		if *update {
			if err := os.WriteFile(golden, []byte(told), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(golden)
		if err != nil {
			t.Fatal(err)
		}
		if told != string(want) {
			t.Errorf("%s: told\n%s\nwant\n%s", path, told, want)
		}
	}
}

// TestWishedElsewhere looks at the records that lie beside the project, if they do.
func TestWishedElsewhere(t *testing.T) {
	list, _ := filepath.Glob("../../../shared/design/wished/*.yaml")
	if len(list) == 0 {
		t.Skip("no wished records lie beside the project")
	}
	all := ""
	for _, path := range list {
		all += answered(t, path)
	}
	if !strings.Contains(all, "not yet: ") {
		t.Errorf("no word is answered with what is not yet:\n%s", all)
	}
}

// answered reads a record and lists what it is answered with. No two answers stand at
// one place, and what is said to be not yet stands where it is said to.
func answered(t *testing.T, path string) string {
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	room := &Room{Workroom: &Workroom{}, FS: fstest.MapFS{"build.yaml": {Data: text}}}
	_, faults := room.ReadBuild(BuildFile{Slug: "wished", Path: "build.yaml"})
	lines := strings.Split(string(text), "\n")
	var out strings.Builder
	var places []string
	for _, f := range faults {
		if strings.Contains(f.Message, "in content/cloth") || strings.Contains(f.Message, "no such wearer") {
			continue // what lies in other files is not read here
		}
		place, _, _ := strings.Cut(f.String(), ": ")
		if slices.Contains(places, place) {
			t.Errorf("%s: two answers at %s", path, place)
		}
		places = append(places, place)
		if rest, ok := strings.CutPrefix(f.Message, "not yet: "); ok {
			word, _, _ := strings.Cut(rest, ",")
			word, _, _ = strings.Cut(word, " in ")
			if at := []rune(lines[f.At.Line-1]); !strings.HasPrefix(string(at[f.At.Column-1:]), word) && !strings.Contains(string(at), word) {
				t.Errorf("%s: %q does not stand at %s", path, word, place)
			}
		}
		out.WriteString(f.String() + "\n")
	}
	return out.String()
}
