package press

import (
	"maps"
	"regexp"
	"slices"
	"strconv"
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

// sharedName is the name of several rows.
var sharedName = regexp.MustCompile(`<th scope="rowgroup" rowspan="(\d+)">`)

// TestOneFileRestylesEveryTable: every table of every page is written by the
// theme's template, with the same cells in it, and rules and links that lead to
// other places still do.
func TestOneFileRestylesEveryTable(t *testing.T) {
	if testing.Short() {
		t.Skip("presses with the workers of the other tests")
	}
	dir := room(t, many(2))
	usual := pressed(t, dir, t.TempDir()+"/usual")
	to := t.TempDir() + "/own"
	if _, _, err := pressWith(t, dir, fstest.MapFS{"blocks/table.html": {Data: []byte(ownTable)}}, Options{To: to}); err != nil {
		t.Fatal(err)
	}
	own := tree(t, to)
	was, is, several := leavesOf(usual), leavesOf(own), 0
	tables := 0
	for leaf, pages := range was {
		mine := strings.Join(is[leaf], "")
		if strings.Contains(mine, `class="figures"`) || strings.Contains(mine, "\x01") {
			t.Errorf("%s: a table is not the theme's, or a gap was not filled", leaf)
		}
		n := strings.Count(strings.Join(pages, ""), `<table class="figures`)
		tables += n
		if got := strings.Count(mine, `<table class="ours">`); got != n {
			t.Errorf("%s: %d tables of %d", leaf, got, n)
		}
		counted := []string{"<details>", `<th scope="row">`, "<td"}
		if len(pages) == 1 && len(is[leaf]) == 1 {
			counted = append(counted, `href="#rule-`, `href="`) // several pages lead to each other, too
		} else {
			several++
		}
		for _, what := range counted {
			was, is := strings.Count(strings.Join(pages, ""), what), strings.Count(mine, what)
			if strings.HasPrefix(what, "<th") { // a name that several rows share stands once in the usual tables
				for _, over := range sharedName.FindAllStringSubmatch(strings.Join(pages, ""), -1) {
					rows, _ := strconv.Atoi(over[1])
					was += rows
				}
			}
			if was != is {
				t.Errorf("%s: %d times %s, with the theme's tables %d", leaf, was, what, is)
			}
		}
	}
	if several > len(was)/2 {
		t.Errorf("the links of %d leaves of %d were not counted", several, len(was))
	}
	if tables < 20 {
		t.Errorf("only %d tables were looked at", tables)
	}
}

// leavesOf are pages by the leaf they belong to: pieces-2 goes on with pieces.
// How full a page is filled depends on how heavy a theme's tables are.
func leavesOf(files map[string]string) map[string][]string {
	out := map[string][]string{}
	for _, name := range slices.Sorted(maps.Keys(files)) {
		if leaf, ok := strings.CutSuffix(name, ".html"); ok {
			leaf = strings.TrimRight(leaf, "-0123456789")
			out[leaf] = append(out[leaf], files[name])
		}
	}
	return out
}

func TestNoSuchKindOfBlock(t *testing.T) {
	_, err := LoadTheme(themes.Plainweave(), fstest.MapFS{"blocks/tables.html": {Data: []byte("x")}})
	if err == nil || !strings.Contains(err.Error(), "blocks/tables.html is of no kind of block") {
		t.Errorf("got %v", err)
	}
}
