package press

import (
	"strings"
	"testing"
	"testing/fstest"

	"hembook/themes"
)

// ownTable is the one file with which a theme restyles every table.
const ownTable = `<table class="ours"><caption>{{.Head}}</caption>
<thead><tr>{{range .Columns}}<th scope="col">{{.Head}}</th>{{end}}</tr></thead>
<tbody>{{range .Rows}}<tr>{{range .}}{{if .Names}}<th scope="row">{{.HTML}}</th>{{else}}<td>{{.HTML}}</td>{{end}}{{end}}</tr>
{{end}}</tbody></table>
`

// TestOneFileRestylesEveryTable: every table of every page is written by the
// theme's template, with the same cells in it, and rules and links that lead to
// other places still do.
func TestOneFileRestylesEveryTable(t *testing.T) {
	dir := room(t, many(2))
	usual := pressed(t, dir, t.TempDir()+"/usual")
	to := t.TempDir() + "/own"
	if _, _, err := pressWith(t, dir, fstest.MapFS{"blocks/table.html": {Data: []byte(ownTable)}}, Options{To: to}); err != nil {
		t.Fatal(err)
	}
	own := tree(t, to)
	tables := 0
	for name, was := range usual {
		if !strings.HasSuffix(name, ".html") {
			continue
		}
		is := own[name]
		if strings.Contains(is, `class="figures"`) || strings.Contains(is, "\x01") {
			t.Errorf("%s: a table is not the theme's, or a gap was not filled", name)
		}
		n := strings.Count(was, `<table class="figures">`)
		tables += n
		if got := strings.Count(is, `<table class="ours">`); got != n {
			t.Errorf("%s: %d tables of %d", name, got, n)
		}
		for _, what := range []string{"<details>", `href="#rule-`, `href="`, `<th scope="row">`, "<td"} {
			if was, is := strings.Count(was, what), strings.Count(is, what); was != is {
				t.Errorf("%s: %d times %s, with the theme's tables %d", name, was, what, is)
			}
		}
	}
	if tables < 20 {
		t.Errorf("only %d tables were looked at", tables)
	}
}

func TestNoSuchKindOfBlock(t *testing.T) {
	_, err := LoadTheme(themes.Plainweave(), fstest.MapFS{"blocks/tables.html": {Data: []byte("x")}})
	if err == nil || !strings.Contains(err.Error(), "blocks/tables.html is of no kind of block") {
		t.Errorf("got %v", err)
	}
}
