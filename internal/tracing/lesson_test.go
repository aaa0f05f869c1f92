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

// inLesson are the refusals by words of theirs, and the row of the lesson's table that says
// what to do.
var inLesson = map[string]string{
	"no card is seen":                          "no card is seen, or only some",
	"only %s seen":                             "no card is seen, or only some",
	"lies there twice":                         "a card lies there twice",
	"seen too small":                           "a card is seen too small",
	"it is blurred":                            "it is blurred",
	"do not lie flat":                          "cards do not lie flat",
	"do not lie on one plane":                  "cards do not lie on one plane",
	"cannot be used":                           "the distance cannot be used",
	"the tape and the cards disagree":          "the tape and the cards disagree",
	"does not stand out":                       "the paper does not stand out, or none is seen",
	"no paper is seen":                         "the paper does not stand out, or none is seen",
	"two pieces of paper are seen":             "two pieces of paper are seen, or touch",
	"two pieces of paper touch":                "two pieces of paper are seen, or touch",
	"the paper reaches over the edge":          "the paper reaches over the edge of the photograph",
	"the paper reaches %.0f mm beyond cards %": "the paper reaches beyond the cards",
	"cannot be taken off":                      "an allowance cannot be taken off",
	// What lines on the paper are called is told where they are listed, not refused in a photograph.
	"is none of what may be drawn": "", "cannot be: a dart is": "", "has no name": "",
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
	for _, words := range said {
		known := false
		for part, row := range inLesson {
			if !strings.Contains(words, part) {
				continue
			}
			known, told[part] = true, true
			if row != "" && !strings.Contains(string(lesson), "\n| "+row+" | ") {
				t.Errorf("%q: the lesson has no row %q", words, row)
			}
		}
		if !known {
			t.Errorf("%q is refused, and the lesson does not say what to do", words)
		}
	}
	for part := range inLesson {
		if !told[part] {
			t.Errorf("%q is refused nowhere any more", part)
		}
	}
}

// refusals are the messages of all refusals in this room's source.
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
			if f, ok := call.Fun.(*ast.SelectorExpr); !ok || f.Sel.Name != "Refuse" {
				return true
			}
			text, ok := call.Args[1].(*ast.BasicLit)
			if !ok {
				t.Fatalf("%s: a refusal is not written out", name)
			}
			words, _ := strconv.Unquote(text.Value)
			said = append(said, words)
			return true
		})
	}
	return said
}
