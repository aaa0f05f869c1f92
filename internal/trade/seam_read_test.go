package trade

import (
	"cmp"
	"errors"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/meant"
)

const ownSeam = `
- name: piped-lap
  title: Piped lapped seam
  kind: seam
  summary: Lapped over a flat piping.
  use: Yokes.
  parameters:
    - {name: allowance, title: allowance, default: 12}
    - {name: show, title: piping shown, default: 3}
  gives: {a: allowance, b: allowance}
  width: show
  strips:
    - {what: piping, cut: 2 * (allowance + show)}
  passes:
    - {do: "stitch {allowance} from the edges", at: allowance, from: cut edges}
  checks:
    - {must: show < allowance, say: "piping of {show} is wider than the seam"}
  section:
    layers:
      - {of: cloth a, path: [[-run, 0], [0, 0]]}
      - {of: cloth b, path: [[run, -ply], [-allowance, -ply]]}
    stitches:
      - {row: 1, from: [-2, 1], to: [-2, -2]}
  source: our own workroom
`

func TestParseOwnSeamType(t *testing.T) {
	list, err := parseSeamTypes([]byte(ownSeam))
	if err != nil || len(list) != 1 {
		t.Fatalf("got %d, %v", len(list), err)
	}
	s := list[0]
	if s.Passes[0].Stitch != "301" || s.Passes[0].Rows != 1 || s.Passes[0].Together != LaidFlat || s.Strips[0].Count != 1 {
		t.Errorf("what may be left unsaid was not filled in: %+v", s.Passes[0])
	}
	a, b, err := s.Allowances(Params{"allowance": 10})
	if err != nil || a.Value != 10 || b.Value != 10 {
		t.Errorf("got %v %v %v", a, b, err)
	}
	all := append(SeamTypes(), list...)
	if _, ok := FindSeamType(all, "piped-lap"); !ok {
		t.Error("the workroom's own type is not found beside the built-in ones")
	}
	for _, empty := range []string{"", "# only a remark\n", "[]"} {
		if list, err := parseSeamTypes([]byte(empty)); err != nil || len(list) != 0 {
			t.Errorf("%q: %v %v", empty, list, err)
		}
	}
}

func TestParseFaults(t *testing.T) {
	for _, c := range []struct{ name, from, to, says string }{
		{"unknown word", "summary:", "sumary:", `line 5, column 3: unknown word "sumary"; did you mean "summary"?`},
		{"unknown measure", "width: show", "width: shwo", `line 11, column 10: formula "shwo" uses "shwo", which is no measure of piped-lap; did you mean "show"?`},
		{"broken formula", "cut: 2 *", "cut: 2 * *", `line 13, column 27: formula "2 * * (allowance + show)": character 5 is "*"`},
		{"wrong kind", "kind: seam", "kind: seem", `line 2, column 3: piped-lap is of kind "seem", neither seam nor finish; did you mean "seam"?`},
		{"not a number", "default: 12", "default: a dozen", `line 8, column 52: "a dozen" is not a number`},
		{"no source", "source: our own workroom", "", "piped-lap lacks source"},
		{"no section", "section:\n    layers:\n      - {of: cloth a, path: [[-run, 0], [0, 0]]}\n      - {of: cloth b, path: [[run, -ply], [-allowance, -ply]]}\n    stitches:\n      - {row: 1, from: [-2, 1], to: [-2, -2]}", "section: {layers: []}", "piped-lap has no section"},
		{"check is no comparison", "must: show < allowance", "must: show", `line 17, column 14: piped-lap: a check compares two values`},
		{"default breaks check", "piping shown, default: 3", "piping shown, default: 13", "its own defaults break a check: piping of 13 mm is wider than the seam (show < allowance: 13 < 12)"},
		{"bad point", "[0, 0]]", "[0]]", "line 20, column 41: a point, please"},
		{"stitch of no pass", "row: 1", "row: 2", "a stitch of pass 2, but there are 1 passes"},
		{"bad brace", "piping of {show}", "piping of {show", "lacks a closing brace"},
		{"list for a word", "title: Piped lapped seam", "title: [Piped]", "line 3, column 10: a single value, please"},
		{"twice", "use: Yokes.", "use: Yokes.\n  use: Cuffs.", `line 7, column 3: "use" is given twice`},
		{"bad slug", "name: piped-lap", "name: Piped Lap", "write it like flat-felled"},
		{"reserved name", "{name: show,", "{name: ply,", "reserved"},
		{"keeps without holds", "width: show", "keeps: {a: as_cut, b: as_cut}\n  width: show", "keeps and holds go together, and side a has one of them alone; write keeps"},
		{"draws less than is left", "width: show", "keeps: {a: as_cut, b: as_cut}\n  holds: {a: margin, b: [margin, show + 1]}\n  width: show", "the section shows 0 mm of cloth a beyond the finished line, and 12 mm are left there; without ply, the path of cloth a must come to run and 12 mm"},
		{"row through nothing", "from: cut edges}", "from: cut edges, through: a d}", `a row passes plies called a, b, c, tape, facing, lining, interfacing, cord, braid, elastic, ribbing, stay and zip, not "d"`},
		{"strip of no role", "cut: 2 *", "as: elastik, cut: 2 *", `piped-lap: a strip is no "elastik"; one of tape, facing, lining, interfacing, cord, braid, elastic, ribbing, stay or zip; did you mean "elastic"?`},
		{"strip of a piece", "cut: 2 *", "as: cloth a, cut: 2 *", `piped-lap: a strip is no "cloth a"`},
		{"length twice", "cut: 2 *", "share: 0.9, length: along, cut: 2 *", `the length of piping is said twice, by share and by length; leave one of them out`},
		{"share in per cent", "cut: 2 *", "share: 90, cut: 2 *", `a share of 90 of the edge; write share: 0.9 for nine tenths of the edge`},
		{"length of nothing", "cut: 2 *", "length: along - 2000, cut: 2 *", `piped-lap: the length of piping comes to −1000 mm with its defaults`},
		{"piece of no name", "width: show", "pieces:\n    - {what: \"\", cut: show, length: along}\n  width: show", `a piece needs what it is`},
		{"wants nowhere", "width: show", "wants: slitt\n  width: show", `piped-lap wants "slitt"; there are edge, part, slit, line, seam and place; did you mean "slit"?`},
		{"holds of no side", "width: show", "holds: {a: margin, b: margin, c: margin}\n  keeps: {a: \"0\", b: \"0\", c: \"0\"}\n  width: show", `piped-lap keeps or holds something of a side c that gives nothing`},
		{"pressed nowhere", "from: cut edges}", "from: cut edges, pressed: up}", `pass 1 is pressed "up"; write open, one side, over a, over b, flat or turned`},
		{"corner of a seam", "width: show", "corner: mirror\n  folds: [show]\n  width: show", "piped-lap is a seam; corner and folds are for finishes"},
		{"no layer like that", "of: cloth b", "of: felt", `a layer of "felt"`},
	} {
		text := strings.Replace(ownSeam, c.from, c.to, 1)
		if text == ownSeam {
			t.Fatalf("%s: nothing was changed", c.name)
		}
		_, err := parseSeamTypes([]byte(text))
		var faults fault.List
		if !errors.As(err, &faults) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: got %v, want %q", c.name, err, c.says)
		}
	}
	twice := strings.Replace(ownSeam, "sumary", "summary", 1) + strings.TrimPrefix(ownSeam, "\n")
	if _, err := parseSeamTypes([]byte(twice)); err == nil || !strings.Contains(err.Error(), `a second seam type named "piped-lap"`) {
		t.Errorf("a double name: %v", err)
	}
}

func TestAllFaultsAtOnce(t *testing.T) {
	text := strings.NewReplacer("summary:", "sumary:", "default: 3", "default: x", "kind: seam", "kind: [seam]").Replace(ownSeam)
	_, err := parseSeamTypes([]byte(text))
	var faults fault.List
	if !errors.As(err, &faults) || len(faults) != 3 {
		t.Fatalf("got %v", err)
	}
	for i := 1; i < len(faults); i++ {
		if faults[i].At.Line < faults[i-1].At.Line {
			t.Errorf("faults are not in the order of their lines: %v", faults)
		}
	}
}

func TestNearestSeamType(t *testing.T) {
	for word, want := range map[string]string{
		"frensh": "french", "run-and-fell seam": "flat-felled", "baby hem": "rolled-hem", "bias-faced": "bias-faced-edge",
		"felled": "flat-felled", "Jeans seam": "flat-felled", "pressed open": "plain", "shirt hem": "double-turned-hem", "zzzzzzzz": "",
	} {
		if got := NearestSeamType(SeamTypes(), word); got != want {
			t.Errorf("%s: got %q, want %q", word, got, want)
		}
	}
}

// What makers say is asked of the kind it is said of: serging makes a seam or an
// edge; and of a word that several types have all are named.
func TestSaidOtherwise(t *testing.T) {
	for _, c := range []struct {
		kind       Kind
		word, want string
	}{
		{Seam, "serged", `did you mean "overlocked"?`},
		{Finish, "serged", `did you mean "overlocked-edge"?`},
		{Seam, "lapped", "one of: lapped-turned, lapped-raw, lace-lapped or zip-lapped"},
		{Finish, "binding", `did you mean "bound-edge"?`},
	} {
		of := OfKind(SeamTypes(), c.kind)
		if got := cmp.Or(meant.Ask(NearestSeamType(of, c.word)), SeamTypesLike(of, c.word)); got != c.want {
			t.Errorf("%s %s: got %q, want %q", c.kind, c.word, got, c.want)
		}
	}
	stages := []string{"drafting", "mock-up", "fitting", "cutting", "sewing"}
	for word, want := range map[string]string{
		"toile": `did you mean "mock-up"?`, "Cutting out": `did you mean "cutting"?`, "sewin": `did you mean "sewing"?`, "crosswise": "one of: drafting, mock-up, fitting, cutting or sewing",
	} {
		if got := Meant(word, stages, "one of: "); got != want {
			t.Errorf("%s: got %q, want %q", word, got, want)
		}
	}
	for name := range said { // a type must be there; other words are of records
		if _, ok := FindSeamType(SeamTypes(), name); !ok && strings.Contains(name, "-") && name != "mock-up" && name != "on-hand" {
			t.Errorf("no type is called %q", name)
		}
	}
}

func FuzzSeamTypes(f *testing.F) {
	f.Add([]byte(ownSeam))
	for _, file := range []string{"seams-open", "seams-enclosed", "seams-lapped", "seams-zips", "seams-pockets", "finishes-edges", "finishes-hems", "finishes-elastic", "finishes-lines", "finishes-slits"} {
		data, err := tables.ReadFile("tables/" + file + ".yaml")
		if err != nil {
			f.Fatal(err)
		}
		for _, entry := range strings.Split(string(data), "\n- name:")[1:] {
			f.Add([]byte("- name:" + entry))
		}
	}
	f.Add([]byte("- &a [*a]"))
	f.Add([]byte("? {}\n: - {name: [}"))
	f.Fuzz(func(t *testing.T, data []byte) {
		list, err := parseSeamTypes(data)
		if err != nil {
			var faults fault.List
			if !errors.As(err, &faults) || len(faults) == 0 {
				t.Fatalf("an error that is no list of faults: %v", err)
			}
			return
		}
		for _, s := range list { // what reads without fault can be used
			if _, _, err := s.Allowances(nil); err != nil {
				t.Error(err)
			}
			if _, err := s.Section(nil); err != nil {
				t.Error(err)
			}
			if broken, err := s.Broken(nil, nil); err != nil || len(broken) > 0 {
				t.Error(broken, err)
			}
		}
	})
}

// parseSeamTypes reads a workroom's own seam types and finishes: a YAML list
// in the form of the built-in ones. The error is of type Faults and names
// every fault with its line and column.
func parseSeamTypes(data []byte) ([]SeamType, error) {
	var doc yaml.Node
	if err := yaml.Unmarshal(data, &doc); err != nil {
		return nil, faultsOf(err)
	}
	return SeamTypesFromNode(&doc)
}
