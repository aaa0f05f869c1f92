package workings

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"hembook/internal/say"
)

// A site is a place in the program that makes a figure.
type site struct {
	at     string
	titles []string // literal parts of its title, one group for each way it can read
	rules  []string // and of its rule
}

// TestEveryKindIsJudged: a figure whose working nothing here reads cannot be
// added. Each place in the source that makes a figure must have made one of
// those that TestWorkings judges: one with its title, and with its rule where
// the source says it beside.
func TestEveryKindIsJudged(t *testing.T) {
	met := map[[2]string]bool{}
	for _, r := range rooms(t) {
		for _, b := range r.builds {
			for _, e := range b.entries {
				met[[2]string{e.Title, e.Rule}] = true
			}
		}
	}
	sites, unread := 0, 0
	for _, room := range []string{"garment", "fitting", "label", "order", "cutting", "notebook"} {
		dir := filepath.Join("..", room)
		if _, err := os.Stat(dir); err != nil {
			continue
		}
		for _, s := range sitesOf(t, dir) {
			sites++
			if len(s.titles) == 0 && len(s.rules) == 0 {
				unread++
				t.Errorf("%s: neither the title nor the rule of this figure is written where it is made, so nobody can tell whether it is judged", s.at)
				continue
			}
			if !s.metBy(met) {
				t.Errorf("%s: no figure that is judged is made here (title %q, rule %q): let a garment of testdata have one", s.at, s.titles, s.rules)
			}
		}
	}
	t.Logf("%d places make figures, %d could not be read; %d kinds met", sites, unread, len(met))
	if sites < 100 {
		t.Errorf("only %d places were found that make figures", sites)
	}
}

func (s *site) metBy(met map[[2]string]bool) bool {
	for kind := range met {
		if fits(kind[0], s.titles) && fits(kind[1], s.rules) {
			return true
		}
	}
	return false
}

// fits reports whether a text can be one of these; any is, where there are none.
func fits(text string, of []string) bool {
	for _, o := range of {
		if parts := strings.Split(o, "\x00"); len(parts) == 1 && text == o || len(parts) > 1 && inOrder(text, parts) {
			return true
		}
	}
	return len(of) == 0
}

// inOrder reports whether a text is these parts with something between them.
func inOrder(text string, parts []string) bool {
	if !strings.HasPrefix(text, parts[0]) || !strings.HasSuffix(text, parts[len(parts)-1]) {
		return false
	}
	for _, p := range parts {
		_, rest, found := strings.Cut(text, p)
		if !found {
			return false
		}
		text = rest
	}
	return true
}

// sitesOf finds the places of a room that make figures: calls of Figure or
// Moment with an ID, a title and a rule.
func sitesOf(t *testing.T, dir string) []site {
	files, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		t.Fatal(err)
	}
	set := token.NewFileSet()
	var parsed []*ast.File
	known := map[string][]string{} // what the room's constants and variables read
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(set, name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		parsed = append(parsed, f)
		for _, d := range f.Decls {
			ast.Inspect(d, func(n ast.Node) bool {
				if _, body := n.(*ast.FuncDecl); body {
					return false
				}
				learn(n, known)
				return true
			})
		}
	}
	var out []site
	passes := map[string][2]int{"Figure": {1, 5}, "Moment": {1, 5}} // where a call has its title and its rule
	for again := true; again; {
		out, again = nil, false
		for _, f := range parsed {
			for _, d := range f.Decls {
				fn, ok := d.(*ast.FuncDecl)
				if !ok || fn.Body == nil {
					continue
				}
				local := map[string][]string{}
				ast.Inspect(fn.Body, func(n ast.Node) bool { learn(n, local); return true })
				inside := []maker{{fn.Name.Name, fn.Type, fn.Body}}
				ast.Inspect(fn.Body, func(n ast.Node) bool {
					if m, ok := namedFunc(n); ok {
						inside = append(inside, m)
					}
					call, ok := n.(*ast.CallExpr)
					if !ok {
						return true
					}
					at, makes := passes[called(call)]
					if !makes || len(call.Args) <= max(at[0], at[1]) || called(call) == "Figure" && len(call.Args) < 7 || onlyUnknown(call) {
						return true
					}
					s := site{at: set.Position(call.Pos()).String()}
					if at[0] >= 0 {
						s.titles = read(call.Args[at[0]], local, known)
					}
					if at[1] >= 0 {
						s.rules = read(call.Args[at[1]], local, known)
					}
					if len(s.titles)+len(s.rules) == 0 {
						if sameAgain(call, at) {
							return true
						}
						for _, m := range slices.Backward(inside) {
							to, ok := m.passesOn(call, at)
							if !ok {
								continue
							}
							if _, listed := passes[m.name]; !listed { // its callers have the words
								passes[m.name], again = to, true
							}
							return true
						}
					}
					out = append(out, s)
					return true
				})
			}
		}
	}
	return out
}

// called is the name of what is called.
func called(call *ast.CallExpr) string {
	switch f := call.Fun.(type) {
	case *ast.SelectorExpr:
		return f.Sel.Name
	case *ast.Ident:
		return f.Name
	}
	return ""
}

// onlyUnknown reports whether the figure made is never known: it has no sum.
func onlyUnknown(call *ast.CallExpr) bool {
	for _, arg := range call.Args {
		if c, ok := arg.(*ast.CallExpr); ok && called(c) == "Unknown" {
			return true
		}
	}
	return false
}

// sameAgain reports whether the words are those of a figure that is there
// already: it is made anew with other terms.
func sameAgain(call *ast.CallExpr, at [2]int) bool {
	title, ok := call.Args[at[0]].(*ast.SelectorExpr)
	return ok && title.Sel.Name == "Title"
}

// A maker is a function that may hand the words of a figure on.
type maker struct {
	name string
	typ  *ast.FuncType
	body *ast.BlockStmt
}

// namedFunc is a function that is given a name where it is used.
func namedFunc(n ast.Node) (maker, bool) {
	a, ok := n.(*ast.AssignStmt)
	if !ok || len(a.Lhs) != 1 || len(a.Rhs) != 1 {
		return maker{}, false
	}
	id, named := a.Lhs[0].(*ast.Ident)
	lit, is := a.Rhs[0].(*ast.FuncLit)
	if !named || !is {
		return maker{}, false
	}
	return maker{id.Name, lit.Type, lit.Body}, true
}

// passesOn says which arguments of a function are the title and the rule that
// a call in it is given; −1 for what is none of them.
func (m *maker) passesOn(call *ast.CallExpr, at [2]int) ([2]int, bool) {
	to, found := [2]int{-1, -1}, false
	if call.Pos() < m.body.Pos() || call.End() > m.body.End() {
		return to, false
	}
	for k := range at {
		if at[k] < 0 {
			continue
		}
		id, ok := call.Args[at[k]].(*ast.Ident)
		if !ok {
			continue
		}
		n := 0
		for _, field := range m.typ.Params.List {
			for _, name := range field.Names {
				if name.Name == id.Name {
					to[k], found = n, true
				}
				n++
			}
		}
	}
	return to, found
}

// learn notes what a name is said to be.
func learn(n ast.Node, names map[string][]string) {
	note := func(name ast.Expr, value ast.Expr) {
		if id, ok := name.(*ast.Ident); ok {
			names[id.Name] = append(names[id.Name], read(value, nil, nil)...)
		}
	}
	switch n := n.(type) {
	case *ast.AssignStmt:
		for i := range n.Lhs {
			if len(n.Lhs) == len(n.Rhs) {
				note(n.Lhs[i], n.Rhs[i])
			}
		}
	case *ast.ValueSpec:
		for i := range n.Names {
			if len(n.Names) == len(n.Values) {
				note(n.Names[i], n.Values[i])
			}
		}
	}
}

var filledIn = regexp.MustCompile(`\{[a-z][a-z0-9-]*\}`)

// read is what an expression can read; parts that are not known are a zero
// byte. It is nothing where nothing is known.
func read(e ast.Expr, local, known map[string][]string) []string {
	switch e := e.(type) {
	case *ast.BasicLit:
		if s, err := strconv.Unquote(e.Value); err == nil && e.Kind == token.STRING {
			return []string{s}
		}
	case *ast.CallExpr: // a sentence of the list, what is filled in not known
		if f, ok := e.Fun.(*ast.SelectorExpr); ok && (f.Sel.Name == "Of" || f.Sel.Name == "With") && len(e.Args) > 0 {
			if of, ok := f.X.(*ast.Ident); ok && of.Name == "say" {
				if id := read(e.Args[0], nil, nil); len(id) == 1 && !strings.HasSuffix(strings.TrimSuffix(id[0], "\x00"), ".") {
					return []string{filledIn.ReplaceAllString(say.Of(id[0]), "\x00")}
				}
			}
		}
	case *ast.Ident:
		if list := local[e.Name]; len(list) > 0 {
			return list
		}
		return known[e.Name]
	case *ast.IndexExpr:
		return read(e.X, local, known)
	case *ast.CompositeLit:
		var out []string
		for _, one := range e.Elts {
			out = append(out, read(one, local, known)...)
		}
		return out
	case *ast.BinaryExpr:
		a, b := read(e.X, local, known), read(e.Y, local, known)
		if len(a)+len(b) == 0 {
			return nil
		}
		var out []string
		for _, x := range orUnknown(a) {
			for _, y := range orUnknown(b) {
				out = append(out, x+y)
			}
		}
		return out
	}
	return nil
}

func orUnknown(list []string) []string {
	if len(list) == 0 {
		return []string{"\x00"}
	}
	return list
}
