package workings

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/figure"
)

// A room is a workroom with the figures of its builds.
type room struct {
	name   string
	inches bool
	dir    string
	builds []build
	lines  map[string][]string   // of its files, by path
	trees  map[string]*yaml.Node // of its files, by path
	plain  map[string]map[string]any
}

type build struct {
	slug    string
	entries []entry
	byID    map[string][]int // their places, by ID
	lineage *figure.Lineage  // as tally has it; nil for figures over all builds
	shared  bool             // figures over all builds, whose inputs are of any of them
}

// copies are the workrooms looked at, each copied into a new folder, in which
// plans may be kept.
func copies(t *testing.T, folder func() string) []*room {
	demo := filepath.Join("..", "..", "content")
	if _, err := os.Stat(filepath.Join(demo, "workroom.yaml")); err != nil {
		t.Skip("the demo workroom is not here")
	}
	return []*room{
		{name: "demo", dir: copied(t, folder(), demo, nil)},
		{name: "demo in inches", dir: copied(t, folder(), demo, toInches), inches: true},
		{name: "made up, mm", dir: copied(t, folder(), filepath.Join("testdata", "mm"), nil)},
		{name: "made up, inches", dir: copied(t, folder(), filepath.Join("testdata", "inches"), nil), inches: true},
	}
}

// gathered are the rooms of all tests that only read them.
var gathered struct {
	sync.Once
	list []*room
	dirs []string
}

// TestMain clears away what the tests shared.
func TestMain(m *testing.M) {
	code := m.Run()
	for _, dir := range gathered.dirs {
		os.RemoveAll(dir)
	}
	os.Exit(code)
}

// rooms are the copies with their figures, which are worked out once.
func rooms(t *testing.T) []*room {
	t.Helper()
	gathered.Do(func() { gathered.list = gatherAll(t) })
	if gathered.list == nil {
		t.Fatal("the rooms could not be worked out, see the first test that asked")
	}
	return gathered.list
}

func gatherAll(t *testing.T) []*room {
	list := copies(t, func() string {
		dir, err := os.MkdirTemp("", "hembook-workings-") // a test's own folder goes when it ends
		if err != nil {
			t.Fatal(err)
		}
		gathered.dirs = append(gathered.dirs, dir)
		return dir
	})
	for _, r := range list {
		r.lines, r.trees, r.plain = map[string][]string{}, map[string]*yaml.Node{}, map[string]map[string]any{}
		r.gather(t)
		if r == list[0] { // its plans are those of the same room in inches
			if err := os.CopyFS(filepath.Join(list[1].dir, ".hembook"), os.DirFS(filepath.Join(r.dir, ".hembook"))); err != nil {
				t.Fatal(err)
			}
		}
	}
	return list
}

// copied copies a workroom's content into a folder.
func copied(t *testing.T, dir, from string, change func(path, text string) string) string {
	t.Helper()
	to := filepath.Join(dir, "content")
	if err := os.CopyFS(to, os.DirFS(from)); err != nil {
		t.Fatal(err)
	}
	if change == nil {
		return dir
	}
	path := filepath.Join(to, "workroom.yaml")
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(change(path, string(text))), 0o644); err != nil {
		t.Fatal(err)
	}
	return dir
}

var bareUsual = regexp.MustCompile(`(?m)^(  (?:allowance|least-margin|tolerance|measured-within|straightening): \d+)$`)

// toInches turns the demo's workroom to inches. What it says in bare
// millimetres gets its unit; builds and cloths say theirs.
func toInches(_, text string) string {
	text = strings.Replace(text, "\nunits: mm\n", "\nunits: in\n", 1)
	text = strings.Replace(text, "\nshow: mm and in\n", "\nshow: in\n", 1)
	text = strings.Replace(text, "{bust: 38, waist: 13, hip: 38}", "{bust: 38 mm, waist: 13 mm, hip: 38 mm}", 1)
	return bareUsual.ReplaceAllString(text, "$1 mm")
}

// noErrors fails where a record is at fault: its figures would prove nothing.
func (r *room) noErrors(t *testing.T, faults []fault.Fault) {
	t.Helper()
	for _, f := range faults {
		if fault.HasErrors([]fault.Fault{f}) {
			t.Errorf("%s: %v", r.name, f)
		}
	}
}

// line is a line of one of the room's files; "" where there is none.
func (r *room) line(file string, n int) string {
	lines, ok := r.lines[file]
	if !ok {
		text, _ := os.ReadFile(filepath.Join(r.dir, file))
		lines = strings.Split(string(text), "\n")
		r.lines[file] = lines
	}
	if n < 1 || n > len(lines) {
		return ""
	}
	return lines[n-1]
}

// tree is one of the room's YAML files.
func (r *room) tree(file string) *yaml.Node {
	if n, ok := r.trees[file]; ok {
		return n
	}
	text, _ := os.ReadFile(filepath.Join(r.dir, file))
	n := &yaml.Node{}
	if yaml.Unmarshal(text, n) != nil {
		n = &yaml.Node{}
	}
	r.trees[file] = n
	return n
}

// unit is what a bare length of a file is in.
func (r *room) unit(file string) string {
	for _, f := range []string{file, "content/workroom.yaml"} {
		for n := 1; n <= 40; n++ {
			if u, ok := strings.CutPrefix(r.line(f, n), "units: "); ok {
				return strings.TrimSpace(u)
			}
		}
	}
	return "mm"
}
