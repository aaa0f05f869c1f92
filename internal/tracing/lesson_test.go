package tracing

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// inLesson are the refusals by the names of their sentences, and the row of the lesson's table that says
// what to do.
var inLesson = map[string]string{
	"tracing.no-card-is-seen":                     "no card is seen, or only some",
	"tracing.only-seen":                           "no card is seen, or only some",
	"tracing.card-lies-there-twice":               "a card lies there twice",
	"tracing.card-is-seen-too-small-its-squares":  "a card is seen too small",
	"tracing.it-is-blurred-at-card":               "it is blurred",
	"tracing.the-cards-do-not-lie-flat-they":      "cards do not lie flat",
	"tracing.the-cards-do-not-lie-on-one":         "cards do not lie on one plane",
	"tracing.the-distance-to-cannot-be-used-card": "the distance cannot be used",
	"tracing.the-tape-and-the-cards-disagree-by":  "the tape and the cards disagree",
	"tracing.the-paper-does-not-stand-out-from":   "the paper does not stand out, or none is seen",
	"tracing.no-paper-is-seen-among-the-cards":    "the paper does not stand out, or none is seen",
	"tracing.two-pieces-of-paper-are-seen-among":  "two pieces of paper are seen, or touch",
	"tracing.two-pieces-of-paper-touch":           "two pieces of paper are seen, or touch",
	"tracing.the-paper-reaches-over-the-edge-of":  "the paper reaches over the edge of the photograph",
	"tracing.the-paper-reaches-mm-beyond-cards":   "the paper reaches beyond the cards",
	"tracing.mm-cannot-be-taken-off-at":           "an allowance cannot be taken off",
	// What lines on the paper are called is told where they are listed, not refused in a photograph.
	"tracing.is-none-of-what-may-be-drawn": "", "tracing.cannot-be-a-dart-is-two-lines": "", "tracing.has-no-name": "",
}

// TestLessonTellsEveryRefusal: whatever may be refused has its row in the lesson.
func TestLessonTellsEveryRefusal(t *testing.T) {
	lesson, err := os.ReadFile("../../content/pages/from-paper.md")
	if err != nil {
		t.Fatal(err)
	}
	said := refusals(t)
	if len(said) < 16 {
		t.Fatalf("only %d refusals are found in the source", len(said))
	}
	told := map[string]bool{}
	for _, id := range said {
		row, known := inLesson[id]
		told[id] = true
		if !known {
			t.Errorf("%s is refused, and the lesson does not say what to do", id)
		} else if row != "" && !strings.Contains(string(lesson), "\n| "+row+" | ") {
			t.Errorf("%s: the lesson has no row %q", id, row)
		}
	}
	for id := range inLesson {
		if !told[id] {
			t.Errorf("%s is refused nowhere any more", id)
		}
	}
}

// refusals are the names of the sentences of all refusals in this room's source.
func refusals(t *testing.T) (said []string) {
	t.Helper()
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok || len(call.Args) < 2 {
				return true
			}
			if f, ok := call.Fun.(*ast.SelectorExpr); !ok || f.Sel.Name != "Refusing" {
				return true
			}
			sentence, ok := call.Args[1].(*ast.CallExpr)
			if !ok {
				t.Fatalf("%s: a refusal is not said from the list", name)
			}
			id, ok := sentence.Args[0].(*ast.BasicLit)
			if !ok {
				t.Fatalf("%s: a refusal's sentence has no name", name)
			}
			words, _ := strconv.Unquote(id.Value)
			said = append(said, words)
			return true
		})
	}
	return said
}
