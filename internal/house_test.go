// Package internal holds the rooms of hembook; this test looks at how they
// stand to each other.
package internal

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// mayImport says which rooms a room may use. What is not listed is forbidden:
// data goes one way, from records to figures to pages, and never back.
var mayImport = map[string][]string{
	"internal/disk":           {},
	"internal/fault":          {},
	"internal/meant":          {},
	"internal/say":            {},
	"internal/measure":        {"internal/fault", "internal/meant"},
	"internal/words":          {"internal/measure"},
	"internal/shape":          {"internal/fault"},
	"internal/sewn":           {"internal/shape"},
	"internal/lay":            {"internal/fault"},
	"internal/lay/verify":     {"internal/lay"},
	"internal/schedule":       {"internal/fault", "internal/meant"},
	"internal/trade":          {"internal/fault", "internal/meant", "internal/measure", "internal/words"},
	"internal/record":         {"internal/fault", "internal/words", "internal/meant", "internal/disk", "internal/record/extent", "internal/record/phrase", "internal/picture", "internal/measure", "internal/trade", "internal/shape", "internal/shape/trace", "internal/shape/svg", "internal/shape/dxf"},
	"content/pages":           {},
	"internal/draft":          {"internal/fault", "internal/meant", "internal/words", "internal/measure", "internal/trade", "internal/record"},
	"internal/figure":         {"internal/fault", "internal/measure", "internal/trade", "internal/record"},
	"internal/prose":          {},
	"internal/picture":        {"internal/fault"},
	"internal/paper":          {"internal/document", "internal/drawing", "internal/fault"},
	"internal/paper/caremark": {"internal/drawing"},
	"internal/search":         {"internal/trade"},
	"internal/record/amend":   {"internal/fault", "internal/record/extent", "internal/disk"},
	"internal/record/extent":  {},
	"internal/record/phrase":  {"internal/fault", "internal/measure"},
	"internal/cutting":        {"internal/fault", "internal/sewn", "internal/fitting", "internal/label", "internal/derive", "internal/order", "internal/figure", "internal/disk", "internal/measure", "internal/trade", "internal/record", "internal/record/amend", "internal/shape", "internal/lay", "internal/lay/verify", "internal/garment", "internal/words"},
	"internal/bench":          {"internal/fault", "internal/meant", "internal/disk", "internal/picture", "internal/measure", "internal/record", "internal/record/amend", "internal/garment"},
	"internal/garment":        {"internal/fault", "internal/sewn", "internal/meant", "internal/figure", "internal/words", "internal/measure", "internal/trade", "internal/record", "internal/record/phrase", "internal/shape", "internal/lay"},
	"internal/fitting":        {"internal/fault", "internal/meant", "internal/figure", "internal/words", "internal/measure", "internal/trade", "internal/record", "internal/garment"},
	"internal/label":          {"internal/fault", "internal/meant", "internal/figure", "internal/words", "internal/measure", "internal/trade", "internal/record", "internal/garment"},
	"internal/order":          {"internal/sewn", "internal/fault", "internal/meant", "internal/figure", "internal/words", "internal/measure", "internal/trade", "internal/record", "internal/schedule", "internal/garment"},
	"internal/derive":         {"internal/fault", "internal/fitting", "internal/figure", "internal/record", "internal/garment", "internal/label", "internal/order"},
	"internal/drawing":        {"internal/shape"},
	"internal/document":       {"internal/fault", "internal/figure", "internal/drawing", "internal/measure", "internal/trade", "internal/record"},
	"internal/compose":        {"internal/sewn", "internal/fault", "internal/words", "internal/fitting", "internal/label", "internal/order", "internal/document", "internal/figure", "internal/drawing", "internal/measure", "internal/trade", "internal/record", "internal/garment", "internal/draw", "internal/notebook"},
	"internal/draw":           {"internal/sewn", "internal/words", "internal/fitting", "internal/order", "internal/figure", "internal/drawing", "internal/measure", "internal/trade", "internal/shape", "internal/garment", "internal/lay", "internal/cutting", "internal/shape/trace"},
	"internal/card":           {"internal/photo", "internal/shape"},
	"internal/photo":          {},
	"internal/camera":         {"internal/shape"},
	"internal/tracing":        {"internal/camera", "internal/card", "internal/drawing", "internal/fault", "internal/photo", "internal/shape", "internal/shape/svg", "internal/shape/trace"},
	"internal/tabletop":       {"internal/card", "internal/shape"},
	"internal/paperpiece":     {"internal/derive", "internal/disk", "internal/fault", "internal/garment", "internal/measure", "internal/record", "internal/record/amend", "internal/shape", "internal/shape/trace", "internal/tracing", "internal/words"},
	"internal/pattern":        {"internal/card", "internal/words", "internal/document", "internal/figure", "internal/drawing", "internal/draw", "internal/measure", "internal/garment", "internal/paper"},
	"internal/notebook":       {"internal/fault", "internal/meant", "internal/fitting", "internal/label", "internal/disk", "internal/derive", "internal/order", "internal/figure", "internal/measure", "internal/trade", "internal/record", "internal/shape", "internal/prose", "internal/garment", "internal/cutting"},
	"internal/proof":          {"internal/fault", "internal/measure", "internal/record", "internal/figure", "internal/trade"},
	"internal/press":          {"internal/fault", "internal/label", "internal/derive", "internal/order", "internal/compose", "internal/document", "internal/proof", "internal/figure", "internal/disk", "internal/picture", "internal/measure", "internal/trade", "internal/record", "internal/shape", "internal/prose", "internal/garment", "internal/cutting", "internal/draw", "internal/drawing", "internal/notebook", "internal/search", "themes"},
	"internal/sheet":          {"internal/lay", "internal/sewn", "internal/order", "internal/fault", "internal/meant", "internal/compose", "internal/fitting", "internal/label", "internal/derive", "internal/figure", "internal/document", "internal/picture", "internal/measure", "internal/trade", "internal/record", "internal/shape", "internal/garment", "internal/cutting", "internal/drawing", "internal/draw", "internal/paper", "internal/paper/caremark"},
	"internal/answer":         {"internal/fault", "internal/measure", "internal/record"},
	"themes":                  {},
	"cmd/laybench":            {"internal/drawing", "internal/lay", "internal/lay/verify", "internal/shape"},
	"cmd/hembook": {"internal/picture", "internal/paperpiece", "internal/tracing", "content/pages", "internal/draft", "internal/fault", "internal/compose", "internal/meant", "internal/fitting", "internal/words", "internal/label", "internal/derive", "internal/order", "internal/proof", "internal/say", "internal/figure", "internal/disk", "internal/measure", "internal/trade", "internal/record", "internal/record/amend", "internal/garment", "internal/cutting",
		"internal/document", "internal/draw", "internal/drawing", "internal/notebook", "internal/press", "internal/prose", "internal/lay", "internal/schedule", "internal/bench", "internal/bench/capture", "internal/paper", "internal/pattern", "internal/sheet", "internal/answer", "internal/give", "themes"},

	"internal/bench/capture":         {"internal/drawing", "internal/paperpiece", "internal/shape", "internal/tracing", "internal/fault", "internal/derive", "internal/disk", "internal/bench", "internal/measure", "internal/record", "internal/record/amend", "internal/garment"},
	"internal/give":                  {"internal/figure", "internal/garment", "internal/cutting", "internal/shape/svg", "internal/shape/dxf", "internal/draw", "internal/drawing"},
	"internal/shape/trace":           {"internal/fault", "internal/shape"},
	"internal/shape/trace/tracetest": {"internal/shape", "internal/shape/trace", "internal/drawing"},
	"internal/abacus":                {}, // nothing: it is held against all the rest
	"internal/madeup":                {},
	"internal/chromium":              {}, // a browser for tests
	"internal/madeup/sown":           {"internal/madeup"},
	"internal/shape/svg":             {"internal/fault", "internal/shape", "internal/shape/trace", "internal/drawing"},
	"internal/shape/dxf":             {"internal/fault", "internal/shape", "internal/shape/trace", "internal/drawing"},
	"internal/workings":              {}, // its tests judge what all the others print …
	"internal/workings/reckon":       {}, // … with an evaluator that shares nothing with them
}

// imports lists the project's own packages that each package's files, tests
// apart, import.
func imports(t *testing.T) map[string][]string {
	t.Helper()
	out := map[string][]string{}
	eachFile(t, func(file string, used []string) {
		room := path.Dir(file)
		if _, seen := out[room]; !seen {
			out[room] = nil
		}
		for _, name := range used {
			if own, ok := strings.CutPrefix(name, "hembook/"); ok {
				out[room] = append(out[room], own)
			}
		}
	})
	return out
}

// eachFile calls visit with every Go file, tests apart, and what it imports.
func eachFile(t *testing.T, visit func(file string, used []string)) {
	t.Helper()
	eachParsed(t, parser.ImportsOnly, func(file string, parsed *ast.File) {
		var used []string
		for _, im := range parsed.Imports {
			used = append(used, strings.Trim(im.Path.Value, `"`))
		}
		visit(file, used)
	})
}

// eachParsed calls visit with every Go file, tests apart, read as far as mode says.
func eachParsed(t *testing.T, mode parser.Mode, visit func(file string, parsed *ast.File)) {
	t.Helper()
	err := filepath.WalkDir("..", func(file string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go") {
			return err
		}
		parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, mode)
		if err != nil {
			return err
		}
		rel, _ := filepath.Rel("..", file)
		visit(filepath.ToSlash(rel), parsed)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// speaks reports whether a room says something to those who use the program, so that
// it may look its sentences up. What only tests use has words of its own.
func speaks(room string) bool {
	return strings.HasPrefix(room, "internal/") && !slices.Contains(forTests, room) && room != "internal/fault" && room != "internal/meant" && room != "internal/lay/verify"
}

func TestDataGoesOneWay(t *testing.T) {
	found := imports(t)
	if len(found) < 8 {
		t.Fatalf("only %d packages were found", len(found))
	}
	for room, used := range found {
		allowed, known := mayImport[room]
		if !known {
			t.Errorf("%s is a room that this test does not know: say what it may import", room)
			continue
		}
		for _, u := range used {
			if !slices.Contains(allowed, u) && !(u == "internal/say" && speaks(room)) {
				t.Errorf("%s must not import %s", room, u)
			}
		}
	}
}

// TestTopLevel keeps the house's front tidy.
func TestTopLevel(t *testing.T) {
	allowed := []string{"cmd", "content", "themes", "internal", "testdata", "go.mod", "go.sum", "README.md", "DEVELOPERS.md", "LICENSE", "CHANGELOG.md"}
	entries, err := os.ReadDir("..")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		name := e.Name()
		if strings.HasPrefix(name, ".") || slices.Contains(allowed, name) || name == "pressed" || name == "packed" {
			continue
		}
		t.Errorf("%s does not belong at the top", name)
	}
}

// TestOnlyTheNamedPackagesOpenWhatIsPrivate: a public page can only be given
// a private value by opening it, and only these packages do.
func TestOnlyTheNamedPackagesOpenWhatIsPrivate(t *testing.T) {
	mayOpen := []string{"internal/record", "internal/garment", "internal/fitting", "internal/label", "internal/order", "internal/derive", "internal/cutting", "internal/sheet", "cmd/hembook"}
	err := filepath.WalkDir("..", func(file string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go") {
			return err
		}
		text, err := os.ReadFile(file)
		if err != nil {
			return err
		}
		rel, _ := filepath.Rel("..", file)
		room := path.Dir(filepath.ToSlash(rel))
		for _, purpose := range []string{"record.ToCheck", "record.ToFigure", "record.ToTheMaker", "record.ToTheSheet"} {
			if strings.Contains(string(text), purpose) && !slices.Contains(mayOpen, room) {
				t.Errorf("%s opens what is private", rel)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// forTests are the rooms that only tests may use.
var forTests = []string{"internal/shape/trace/tracetest", "internal/chromium", "internal/workings", "internal/workings/reckon", "internal/tabletop", "internal/abacus", "internal/madeup", "internal/madeup/sown"}

// TestWhatOnlyTestsNeed: libraries that are listed in go.mod as needed by tests,
// and the rooms that help tests, are imported by no other file, so that the
// program is built without them.
func TestWhatOnlyTestsNeed(t *testing.T) {
	text, err := os.ReadFile("../go.mod")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, found := strings.Cut(string(text), "// What only tests need.\nrequire (\n")
	block, _, closed := strings.Cut(rest, ")")
	if !found || !closed {
		t.Fatal("go.mod does not say what only tests need")
	}
	var judges []string
	for line := range strings.Lines(block) {
		if name, _, ok := strings.Cut(strings.TrimSpace(line), " "); ok {
			judges = append(judges, name)
		}
	}
	for _, room := range forTests {
		judges = append(judges, "hembook/"+room)
	}
	eachFile(t, func(file string, used []string) {
		for _, u := range used {
			for _, j := range judges {
				if slices.Contains(forTests, path.Dir(file)) {
					continue
				}
				if u == j || strings.HasPrefix(u, j+"/") {
					t.Errorf("%s imports %s, which only tests need", file, u)
				}
			}
		}
	})
}
