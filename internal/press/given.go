package press

import (
	"html/template"
	"reflect"
	"strings"
	"sync"

	"hembook/internal/notebook"
)

// What a template is given, by name: the fields of a view, with those of the
// frame that it holds. A template finds a name here at once; in a structure
// within a structure it looks at every field of every one.
type given map[string]any

// frameName is where the frame itself stands. No template can name it.
const frameName = "."

// Href is the way from this page to another.
func (g given) Href(a notebook.Address) string { return g[frameName].(*Frame).Href(a) }

// Data is what the page is about, as an element of the head.
func (g given) Data() (template.HTML, error) { return g[frameName].(*Frame).Data() }

// A namedField is a field of a view and the way to it.
type namedField struct {
	name  string
	index []int
}

var viewFields sync.Map // of []namedField by reflect.Type

func fieldsOf(t reflect.Type) []namedField {
	if f, ok := viewFields.Load(t); ok {
		return f.([]namedField)
	}
	var out []namedField
	for _, f := range reflect.VisibleFields(t) {
		if f.IsExported() {
			out = append(out, namedField{f.Name, f.Index})
		}
	}
	viewFields.Store(t, out)
	return out
}

// fill makes it hold the fields of a view, which is a pointer to a structure
// that has a Frame or is one.
func (g given) fill(view any) {
	clear(g)
	v := reflect.ValueOf(view).Elem()
	for _, f := range fieldsOf(v.Type()) {
		field := v.FieldByIndex(f.index)
		if f.name == "Frame" {
			g[frameName] = field.Addr().Interface()
			continue
		}
		g[f.name] = field.Interface()
	}
}

// headLinks are the elements of a head that lead to a theme's files.
var headLinks = template.Must(template.New("links").Parse(`{{with .Icon}}<link rel="icon" href="{{.}}">
{{end}}{{range .Styles}}<link rel="stylesheet" href="{{.}}">
{{end}}{{range .Scripts}}<script defer src="{{.}}"></script>
{{end}}`))

// filled runs a template for a part of a page; empty where it fails.
func filled(t *template.Template, data any) template.HTML {
	var b strings.Builder
	if t.Execute(&b, data) != nil {
		return ""
	}
	return template.HTML(b.String())
}

// trailHTML is a trail of links with dots between.
func trailHTML(trail []Way) template.HTML {
	var b []byte
	for i, l := range trail {
		if i > 0 {
			b = append(b, " · "...)
		}
		b = appendLink(b, l)
	}
	return template.HTML(b)
}

// listHTML is a list of links; empty where there are less than two.
func listHTML(links []Way) template.HTML {
	if len(links) < 2 {
		return ""
	}
	return linkList(links)
}

// linkList is a list of links; empty where there are none.
func linkList(links []Way) template.HTML {
	if len(links) == 0 {
		return ""
	}
	b := append(make([]byte, 0, 96*len(links)), "<ul>"...)
	for _, l := range links {
		b = append(appendLink(append(b, "<li>"...), l), "</li>"...)
	}
	return template.HTML(append(b, "</ul>"...))
}

// appendLink adds a link as an element, the same that a template makes of its
// fields. Pages have a dozen of them, and a template makes the words of each
// safe one by one.
func appendLink(dst []byte, l Way) []byte {
	if !plainHref(l.Href) {
		return append(dst, filled(linkTemplate, l)...)
	}
	dst = append(append(append(dst, `<a href="`...), l.Href...), '"')
	if l.Here {
		dst = append(dst, ` aria-current="page"`...)
	}
	name := template.HTMLEscapeString(l.Name)
	if strings.IndexByte(name, '+') >= 0 {
		name = strings.ReplaceAll(name, "+", "&#43;")
	}
	return append(append(append(dst, '>'), name...), "</a>"...)
}

var linkTemplate = template.Must(template.New("link").Parse(`<a href="{{.Href}}"{{if .Here}} aria-current="page"{{end}}>{{.Name}}</a>`))

// plainHref reports whether an address stands in HTML as it is.
func plainHref(href string) bool {
	for i := range len(href) {
		switch c := href[i]; {
		case 'a' <= c && c <= 'z', 'A' <= c && c <= 'Z', '0' <= c && c <= '9', c == '/', c == '.', c == '-', c == '_', c == '#':
		default:
			return false
		}
	}
	return true
}
