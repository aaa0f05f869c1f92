package say

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// roomsMoved are the rooms that have every sentence in the lists. Single words that are
// shown (the head of a column, a name of a part) may still stand in their code.
var roomsMoved = []string{"cmd/hembook", "internal/answer", "internal/bench", "internal/bench/capture", "internal/compose", "internal/cutting", "internal/draft", "internal/draw", "internal/fitting", "internal/garment", "internal/label", "internal/measure", "internal/notebook", "internal/order", "internal/paper", "internal/paperpiece", "internal/pattern", "internal/picture", "internal/record", "internal/record/amend", "internal/record/phrase", "internal/schedule", "internal/shape", "internal/shape/dxf", "internal/shape/svg", "internal/shape/trace", "internal/sheet", "internal/tracing", "internal/trade"}

// names are files of those rooms that hold nothing but names: what a record is read for, in
// the words a maker may write it in.
var names = []string{"internal/measure/unit.go", "internal/trade/notion.go", "internal/trade/said.go"}

// stays are sentences of those rooms that are no words for a reader.
var stays = []string{
	"(min-width: 64rem) 42rem, 96vw", "(min-width: 64rem) 42rem, 95vw", // widths of pictures
	"(min-width: 64rem) 20rem, (min-width: 40rem) 44vw, 96vw", "(min-width: 64rem) 15rem, 44vw",
	"passes tissue", "laid tissue", // what style sheets call a list
	"sleeve head", "dart legs", // kinds of comparisons
	"upper arm", "across back", "high hip", "sleeve hem", "leg hem", "sleeve cap", "sleeve crown", "under collar", "pocket bag", "yoke lining", // names that records are read for
	"press stud", "press fastener", "hook and eye", "hook and bar", "hook and loop",
	"mother of pearl", "raw white", "hair canvas", "hand painted", "hand dyed", "baby's garment",
	"the fold",                                                                                                                                  // a name that is compared
	"sewing on",                                                                                                                                 // a kind of rows
	"2 Jan 2006", "2 Jan", "2 January 2006", "January 2 2006", "January 2, 2006", "Jan 2 2006", "Jan 2, 2006", "2. January 2006", "2. Jan 2006", // how days are written
	"m pl", "f pl", "Hose f", // nouns as they are written
	"seam line", "finished edge", "cut edge", "cut edges", "cut edge of side a", "cut edge of each side", "first row", "trimmed edges", "overlocked edges", // what the tables measure rows from
	"one side", "over a", "over b", "cloth a", "cloth b", "cloth c", "very mild", // words of the tables
	"not known", "from memory", "our own", "other fibres", // kinds that are compared
	"unknown command", "if any flags", // how the library of commands begins what it refuses
	"line %d, column %d: %s", // how the library of YAML tells where
	"default-src 'none'; connect-src 'self'; frame-ancestors 'none'", "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; connect-src 'self'; ", "manifest-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'", "default-src 'none'; style-src '%s'; script-src '%s'; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'", // headers for browsers
	"garment: dress ", "both selvedges", "part of width", "part of length", "; then: ", "Tried on in calico by its wearer; the answers came back.", "a mock-up by post", // words of a record
	"Mon 2006-01-02 15:04",                                                                                 // how moments are written
	"hembook bench",                                                                                        // whom a certificate names
	"retry: 500\ndata: %s\n\n", "data: %s\n\n", ": still here\n\n", "noting: {at: %q, for: %q, had: %d}\n", // what is read by programs
	"%d min",                                // a unit
	"on fold", ", units: mm}", ", {curve: ", // what a record says
	"one of: ",                                                                                          // what is told from other words of a schema
	"draft: %v", "record: no kind for ", "record: tag %s:%q: %v", "record: field %s.%s has no yaml tag", // for who builds the program
	"a build has no page of the name ",                                                // for who builds the program
	"other fibers",                                                                    // what the United States call what the sheets' own list has
	"shoulder length", "back waist length", "arm length", "outside leg", "inside leg", // measurements by their names
	"dart's width", "dart's length", // for who builds the program: a record is checked before
	"%.4g mm", // a unit
	"path{fill:none;stroke:#222;stroke-width:.35}.cut{stroke-width:.6}.sewing{stroke-dasharray:5 2}", ".grain,.levels{stroke-width:.25}.levels{stroke-dasharray:1 2}.origin{stroke-width:.15}text{font-family:sans-serif;fill:#222}", // how a drawing looks
	"cut line", "sewing line", "Units: METRIC", "3 Solid line", "Piece Name: ", // what pattern files are read for
	"sheet: there is no word ", " is said without its ", // for who builds the program
}

// byPrefix are sentences that are asked for by a name put together as the program runs.
var byPrefix = []string{"head.", "leaf."}

// filledByName are those with names in braces that are handed on as they stand.
var filledByName = []string{"compose.edge-stitched-at", "compose.edge-stitching-of", "compose.in-pairs", "compose.on-the-fold", "compose.over-rolled-over-by-it-needs-more", "compose.over-rolled-over-by-it-needs-more-2", "compose.over-rolled-over-by-it-needs-more-3", "compose.rolled-over-by-the-outer-ply-needs", "compose.then-wait", "compose.topstitched-at", "compose.topstitching-of", "document.page-of"}

// A use is one place where a sentence is asked for.
type use struct {
	at   string
	id   string
	with int
}

func eachSource(t *testing.T, visit func(room, path string, set *token.FileSet, file *ast.File)) {
	t.Helper()
	for _, top := range []string{"internal", "cmd"} {
		err := filepath.WalkDir(filepath.Join("../..", top), func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			set := token.NewFileSet()
			file, err := parser.ParseFile(set, path, nil, parser.SkipObjectResolution)
			if err == nil {
				short, _ := filepath.Rel("../..", path)
				visit(filepath.ToSlash(filepath.Dir(short)), filepath.ToSlash(short), set, file)
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
}

// isOf reports whether a call asks for a sentence.
func isOf(c *ast.CallExpr) bool {
	f, ok := c.Fun.(*ast.SelectorExpr)
	if !ok || f.Sel.Name != "Of" && f.Sel.Name != "With" && f.Sel.Name != "Error" {
		return false
	}
	x, ok := f.X.(*ast.Ident)
	return ok && x.Name == "say"
}

func textOf(e ast.Expr) (string, bool) {
	l, ok := e.(*ast.BasicLit)
	if !ok || l.Kind != token.STRING {
		return "", false
	}
	s, err := strconv.Unquote(l.Value)
	return s, err == nil
}

var inTemplate = regexp.MustCompile(`say "([^"]+)"((?: (?:\([^)]*\)|[^ }]+))*)`)

// uses gathers where sentences are asked for, in Go and in templates.
func uses(t *testing.T) (out []use) {
	eachSource(t, func(room, path string, set *token.FileSet, file *ast.File) {
		ast.Inspect(file, func(n ast.Node) bool {
			c, ok := n.(*ast.CallExpr)
			if !ok || !isOf(c) || len(c.Args) == 0 {
				return true
			}
			at := path + ":" + strconv.Itoa(set.Position(c.Pos()).Line)
			id, ok := textOf(c.Args[0])
			if sum, put := c.Args[0].(*ast.BinaryExpr); put {
				if prefix, _ := textOf(sum.X); !slices.Contains(byPrefix, prefix) {
					t.Errorf("%s: asks for a sentence by a name that is put together: %q", at, prefix)
				}
				return true
			}
			if !ok {
				t.Errorf("%s: asks for a sentence by a name that is not written there", at)
			}
			out = append(out, use{at, id, len(c.Args) - 1})
			return true
		})
	})
	templates, err := filepath.Glob("../../themes/plainweave/*/*.html")
	if err != nil || len(templates) == 0 {
		t.Fatal("no templates", err)
	}
	for _, path := range append(templates, "../../themes/plainweave/frame.html") {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range inTemplate.FindAllStringSubmatch(string(text), -1) {
			with := 0
			if m[2] != "" {
				with = len(regexp.MustCompile(`\([^)]*\)|\S+`).FindAllString(m[2], -1))
			}
			out = append(out, use{path, m[1], with})
		}
	}
	return out
}

// TestEverySentenceIsUsed: every sentence that is asked for is there and is given as many
// values as it has names, and every sentence that is there is asked for.
func TestEverySentenceIsUsed(t *testing.T) {
	all, asked := map[string]*listed{}, map[string]bool{}
	for i, list := range lists {
		for id, e := range list() {
			if all[id] != nil {
				t.Errorf("%s stands in %s.yaml too", id, Files[i])
			}
			all[id] = e
		}
	}
	for _, u := range uses(t) {
		asked[u.id] = true
		if all[u.id] == nil {
			t.Errorf("%s: there is no sentence %s", u.at, u.id)
			continue
		}
		s := all[u.id].sentence()
		switch {
		case u.with == 0 && len(s.names) > 0 && slices.Contains(filledByName, u.id):
		case u.with != len(s.names):
			t.Errorf("%s: %s has the names %q and is given %d values", u.at, u.id, s.names, u.with)
		}
	}
	for _, id := range slices.Sorted(maps.Keys(all)) {
		if !asked[id] && !slices.ContainsFunc(byPrefix, func(p string) bool { return strings.HasPrefix(id, p) }) {
			t.Errorf("nobody says %s: %s", id, all[id].quoted)
		}
	}
	t.Logf("%d sentences", len(all))
}

// sourced is where a value or a rule is published, or that it is not: a source stays as it
// is written.
var sourced = regexp.MustCompile(`^(derived|common practice|geometry|half of the ratio|the lay plan: a search)|common practice, no source|U\.S\.C\.|\bCFR\b|Regulation \(EU\)|art\. 11|Association|Extension|GINETEX|bulletin|our own rule|supplier, as the cloth's record|EN 14878|the workroom's usual|usual in this garment|^on each axis`)

// word is one of at least two letters, told by its small ones.
var word = regexp.MustCompile(`[a-z]{2}`)

// A wordSeeker finds what reads like words for a reader among the literals of a file.
// What is compared with other text, cut from it or written into a record is none, nor what
// a mistake of who builds the program says, nor HTML.
type wordSeeker struct{ found []*ast.BasicLit }

var comparing = regexp.MustCompile(`^(Has(Pre|Suf)fix|Contains(Any)?|Cut(Pre|Suf)?(fix)?|Trim.*|Split|Fields|(Last)?Index(Any)?|MustCompile|Parse|Replace(All)?|NewReplacer|EqualFold|Format|Count|Instead(At)?|Set|Errorf|New|panic|Join)$`)

func (w *wordSeeker) Visit(n ast.Node) ast.Visitor {
	switch n := n.(type) {
	case *ast.ImportSpec:
		return nil
	case *ast.Field:
		return nil
	case *ast.CaseClause:
		w.but(n.List)
		for _, s := range n.Body {
			ast.Walk(w, s)
		}
		return nil
	case *ast.KeyValueExpr:
		if k, ok := n.Key.(*ast.Ident); ok && k.Name == "Use" {
			return nil // what is typed, not said
		}
		w.but([]ast.Expr{n.Key})
		ast.Walk(w, n.Value)
		return nil
	case *ast.IndexExpr:
		ast.Walk(w, n.X)
		w.but([]ast.Expr{n.Index})
		return nil
	case *ast.BinaryExpr:
		if n.Op == token.EQL || n.Op == token.NEQ {
			w.but([]ast.Expr{n.X, n.Y})
			return nil
		}
	case *ast.CallExpr:
		name := ""
		switch f := n.Fun.(type) {
		case *ast.Ident:
			name = f.Name
		case *ast.SelectorExpr:
			name = f.Sel.Name
		}
		if isOf(n) || comparing.MatchString(name) {
			w.but(n.Args)
			return nil
		}
	case *ast.BasicLit:
		if says, ok := textOf(n); ok && strings.Contains(strings.TrimSpace(says), " ") && word.MatchString(says) && !strings.ContainsAny(says, `<>=\`) {
			w.found = append(w.found, n)
		}
	}
	return w
}

// but looks into expressions, for what is no literal itself.
func (w *wordSeeker) but(list []ast.Expr) {
	for _, e := range list {
		if _, literal := textOf(e); !literal {
			ast.Walk(w, e)
		}
	}
}

// TestRoomsMoved: a room whose sentences are in the lists has none in its code.
func TestRoomsMoved(t *testing.T) {
	left, let := map[string]int{}, map[string]bool{}
	eachSource(t, func(room, path string, set *token.FileSet, file *ast.File) {
		var w wordSeeker
		ast.Walk(&w, file)
		if slices.Contains(names, path) && len(w.found) > 0 {
			let[path] = true
			return
		}
		for _, l := range w.found {
			says, _ := textOf(l)
			if sourced.MatchString(says) {
				continue
			}
			if slices.Contains(stays, says) {
				let[says] = true
				continue
			}
			left[room]++
			if slices.Contains(roomsMoved, room) {
				t.Errorf("%s:%d: %q belongs into a list under english, or among those that stay", path, set.Position(l.Pos()).Line, says)
			}
		}
	})
	for _, s := range slices.Concat(names, stays) {
		if !let[s] {
			t.Errorf("%q is let stay, and is not there", s)
		}
	}
	for _, room := range slices.Sorted(maps.Keys(left)) {
		t.Logf("%-24s %4d in its code", room, left[room])
	}
}

// atStart are the files whose package variables ask for sentences as the program starts,
// with how many: 3 ms of every command. They are the rules and heads that tables of a
// room hold; each that asks in a function instead is taken off here.
var atStart = map[string]int{
	"internal/answer/answer.go":      1,
	"internal/compose/beside.go":     4,
	"internal/compose/build.go":      21,
	"internal/compose/seams.go":      1,
	"internal/compose/together.go":   1,
	"internal/cutting/bound.go":      4,
	"internal/cutting/figures.go":    1,
	"internal/cutting/matchlines.go": 1,
	"internal/draw/stripes.go":       1,
	"internal/fitting/hang.go":       4,
	"internal/garment/allowance.go":  11,
	"internal/garment/backing.go":    1,
	"internal/garment/crossing.go":   2,
	"internal/garment/letout.go":     3,
	"internal/garment/level.go":      1,
	"internal/garment/piece.go":      6,
	"internal/garment/rowthick.go":   3,
	"internal/garment/runway.go":     1,
	"internal/garment/spare.go":      3,
	"internal/garment/turncloth.go":  5,
	"internal/label/children.go":     1,
	"internal/notebook/choices.go":   3,
	"internal/notebook/leaf.go":      20,
	"internal/notebook/notebook.go":  5,
	"internal/notebook/parted.go":    4,
	"internal/order/cost.go":         1,
	"internal/order/labour.go":       2,
	"internal/order/outlook.go":      4,
	"internal/order/rates.go":        1,
	"internal/paperpiece/home.go":    1,
	"internal/picture/refusal.go":    6,
	"internal/record/amend/file.go":  1,
	"internal/record/band.go":        1,
	"internal/record/checkchange.go": 1,
	"internal/record/hand.go":        12,
	"internal/record/line.go":        1,
	"internal/record/nolevel.go":     1,
	"internal/record/notyet.go":      15,
	"internal/record/scalar.go":      30,
	"internal/record/schema.go":      9,
}

// TestAskedWhenSaid: no other sentence is asked for as the program starts, when its lists
// are read for a command that says none of them: a package variable asks in a function.
func TestAskedWhenSaid(t *testing.T) {
	asked := map[string]int{}
	eachSource(t, func(room, path string, set *token.FileSet, file *ast.File) {
		for _, d := range file.Decls {
			vars, ok := d.(*ast.GenDecl)
			if !ok {
				continue
			}
			ast.Inspect(vars, func(n ast.Node) bool {
				if _, later := n.(*ast.FuncLit); later {
					return false
				}
				if c, ok := n.(*ast.CallExpr); ok && isOf(c) && c.Fun.(*ast.SelectorExpr).Sel.Name != "Error" {
					asked[path]++
				}
				return true
			})
		}
	})
	for path, n := range asked {
		if n > atStart[path] {
			t.Errorf("%s: %d sentences are asked for as the program starts, %d are listed", path, n, atStart[path])
		}
	}
	for path, n := range atStart {
		if asked[path] < n {
			t.Errorf("%s: %d sentences are asked for as the program starts: lower the %d listed", path, asked[path], n)
		}
	}
}
