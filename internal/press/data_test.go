package press

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"hembook/internal/notebook"
)

// views is what each template of a theme is given.
var views = []struct {
	templates string
	view      any
}{
	{"frame.html, and every page", Frame{}}, {"pages/front.html", FrontView{}}, {"pages/build.html", BuildView{}},
	{"pages/leaf.html", LeafView{}}, {"pages/record.html", RecordView{}}, {"pages/technique.html", TechniqueView{}},
	{"pages/cloth.html", ClothView{}}, {"pages/builds.html, techniques.html, cloths.html, rates.html, glossary.html", ListView{}},
	{"pages/text.html", TextView{}}, {"pages/search.html", SearchView{}},
}

const dataPage = "../../themes/plainweave/DATA.md"

// TestTemplateDataIsDocumented: what templates are given is written down from
// the types themselves, with the words that stand beside them there.
func TestTemplateDataIsDocumented(t *testing.T) {
	want := describeData(t)
	if *update {
		if err := os.WriteFile(dataPage, []byte(want), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(dataPage)
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != want {
		t.Errorf("%s is stale: go test ./internal/press -run TemplateData -update\n%s", dataPage, firstDifference(string(got), want))
	}
	for _, name := range pageNames {
		if !strings.Contains(want, name+".html") {
			t.Errorf("nothing is said of pages/%s.html", name)
		}
	}
}

// docs are the remarks of types ("Type") and fields ("Type.Field").
func docs(t *testing.T) map[string]string {
	out := map[string]string{}
	for _, dir := range []string{".", "../notebook"} {
		files, err := filepath.Glob(filepath.Join(dir, "*.go"))
		if err != nil {
			t.Fatal(err)
		}
		for _, file := range files {
			parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ParseComments)
			if err != nil {
				t.Fatal(err)
			}
			ast.Inspect(parsed, func(n ast.Node) bool {
				decl, ok := n.(*ast.GenDecl)
				if !ok {
					return true
				}
				for _, s := range decl.Specs {
					if spec, ok := s.(*ast.TypeSpec); ok {
						out[parsed.Name.Name+"."+spec.Name.Name] = decl.Doc.Text()
						if st, ok := spec.Type.(*ast.StructType); ok {
							for _, f := range st.Fields.List {
								for _, name := range f.Names {
									out[parsed.Name.Name+"."+spec.Name.Name+"."+name.Name] = f.Doc.Text() + f.Comment.Text()
								}
							}
						}
					}
				}
				return true
			})
		}
	}
	return out
}

func describeData(t *testing.T) string {
	remarks := docs(t)
	var b strings.Builder
	b.WriteString("# What templates are given\n\nMade from the program's own types. A field is reached as `{{.Name}}`, one of `Holds` as `{{.Holds.Name}}`. HTML is\nfinished and safe; everything else is words that a template makes safe by itself. Functions: `date` prints a day, `label`\na word with a capital, `list` words with commas; `.Href ADDRESS` is the way from the page to an address.\n")
	seen := map[reflect.Type]bool{}
	var later []reflect.Type
	table := func(typ reflect.Type) {
		b.WriteString("\n| field | is | |\n|---|---|---|\n")
		for _, f := range reflect.VisibleFields(typ) {
			if !f.IsExported() || f.Anonymous || len(f.Index) > 1 && f.Index[0] == 0 && typ != reflect.TypeFor[Frame]() && typ.Field(0).Name == "Frame" {
				continue
			}
			owner := typ
			for _, i := range f.Index[:len(f.Index)-1] {
				owner = owner.Field(i).Type
			}
			remark := strings.Join(strings.Fields(remarks[shortName(owner)+"."+f.Name]), " ")
			fmt.Fprintf(&b, "| `%s` | %s | %s |\n", f.Name, strings.ReplaceAll(plainType(f.Type), "|", "\\|"), strings.ReplaceAll(remark, "|", "\\|"))
			if in := inner(f.Type); in.Kind() == reflect.Struct && strings.HasSuffix(in.PkgPath(), "/notebook") && !seen[in] {
				seen[in] = true
				later = append(later, in)
			}
		}
	}
	for _, v := range views {
		typ := reflect.TypeOf(v.view)
		fmt.Fprintf(&b, "\n## %s\n\n%s", v.templates, firstSentence(remarks[shortName(typ)]))
		table(typ)
	}
	for _, p := range notebook.AllPages { // those of lists are given as any of several
		if typ := reflect.TypeOf(p); !seen[typ] {
			seen[typ] = true
			later = append(later, typ)
		}
	}
	b.WriteString("\n# Kinds of data within\n")
	for i := 0; i < len(later); i++ {
		fmt.Fprintf(&b, "\n## %s\n\n%s", later[i].Name(), firstSentence(remarks[shortName(later[i])]))
		table(later[i])
	}
	return b.String()
}

func shortName(t reflect.Type) string {
	return t.PkgPath()[strings.LastIndexByte(t.PkgPath(), '/')+1:] + "." + t.Name()
}

func firstSentence(s string) string {
	s = strings.Join(strings.Fields(s), " ")
	if i := strings.Index(s, ". "); i >= 0 {
		s = s[:i+1]
	}
	return s + "\n"
}

func inner(t reflect.Type) reflect.Type {
	for t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice || t.Kind() == reflect.Map {
		t = t.Elem()
	}
	return t
}

// plainType names a type as a maker of themes thinks of it.
func plainType(t reflect.Type) string {
	switch {
	case t.String() == "template.HTML":
		return "HTML"
	case t.Kind() == reflect.Slice:
		return "list of " + plainType(t.Elem())
	case t.Kind() == reflect.Map:
		return plainType(t.Elem()) + " by " + plainType(t.Key())
	case t.Kind() == reflect.Pointer:
		return plainType(t.Elem()) + " or nothing"
	case t.Name() == "Address":
		return "address"
	case t.Kind() == reflect.String:
		return "words"
	case t.Kind() == reflect.Bool:
		return "yes or no"
	case t.Kind() == reflect.Int || t.Kind() == reflect.Float64:
		return "number"
	case t.Kind() == reflect.Interface:
		return "the data of the page"
	}
	return t.Name()
}
