package press

import (
	"bytes"
	"flag"
	"fmt"
	"html"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the golden pages anew")

// TestGolden compares a small notebook with the pages kept in testdata. The
// checks in TestStructure say whether the pages kept are any good.
func TestGolden(t *testing.T) {
	all := pressed(t, room(t, small()), filepath.Join(t.TempDir(), "x"))
	for name, text := range all {
		if path.Ext(name) != ".html" || name == "glossary.html" { // the glossary is the trade's own table
			continue
		}
		text = regexp.MustCompile(`(plainweave|search[-a-z0-9]*)\.[0-9a-f]{16}\.`).ReplaceAllString(text, "$1.HASH.")
		text = regexp.MustCompile(`pictures/[0-9a-f]{16}\.png`).ReplaceAllString(text, "pictures/HASH.png")
		text = regexp.MustCompile(`data-stamp="[^"]*"`).ReplaceAllString(text, `data-stamp="STAMP"`)
		file := filepath.Join("testdata", "golden", filepath.FromSlash(name))
		if *update {
			if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if string(want) != text {
			t.Errorf("%s differs from the page kept; look at the difference, then run with -update:\n%s", name, firstDifference(string(want), text))
		}
	}
}

func firstDifference(a, b string) string {
	i := 0
	for i < len(a) && i < len(b) && a[i] == b[i] {
		i++
	}
	from := max(0, i-80)
	return fmt.Sprintf("want …%s…\n got …%s…", a[from:min(len(a), i+80)], b[from:min(len(b), i+80)])
}

func TestStructure(t *testing.T) {
	all := pressed(t, room(t, small()), filepath.Join(t.TempDir(), "x"))
	for name, text := range all {
		if path.Ext(name) == ".html" {
			checkPage(t, name, text, all)
		}
	}
}

// A tag is a start or end tag of a page.
type tag struct {
	name  string
	attrs map[string]string
	end   bool
}

var (
	tagPattern  = regexp.MustCompile(`<(/?)([a-zA-Z][a-zA-Z0-9]*)((?:\s+[a-zA-Z:-]+(?:="[^"<]*")?)*)\s*(/?)>`)
	attrPattern = regexp.MustCompile(`\s([a-zA-Z:-]+)(?:="([^"]*)")?`)
	void        = []string{"meta", "link", "img", "br", "hr", "input"}
	blocks      = []string{"p", "div", "ul", "ol", "dl", "table", "section", "figure", "h2", "h3", "h4", "pre", "blockquote", "details", "article"}
)

// checkPage checks what any page must keep to.
func checkPage(t *testing.T, name, text string, all map[string]string) {
	t.Helper()
	inspect(name, text, all, func(format string, args ...any) { t.Errorf("%s: %s", name, fmt.Sprintf(format, args...)) })
}

func inspect(name, text string, all map[string]string, fail func(string, ...any)) {
	tags := readTags(text, fail)
	checkNesting(tags, fail)
	ids := map[string]bool{}
	level, h1 := 0, 0
	for _, g := range tags {
		if id, ok := g.attrs["id"]; ok {
			if ids[id] {
				fail("the id %q stands twice", id)
			}
			ids[id] = true
		}
		if len(g.name) == 2 && g.name[0] == 'h' && g.name != "hr" && !g.end {
			l := int(g.name[1] - '0')
			if l > level+1 {
				fail("a heading of level %d follows one of level %d", l, level)
			}
			if level = l; l == 1 {
				h1++
			}
		}
		if _, ok := g.attrs["alt"]; g.name == "img" && !g.end && (!ok || g.attrs["width"] == "" || g.attrs["height"] == "") {
			fail("a picture without words or size: %v", g.attrs)
		}
		for a := range g.attrs {
			if a == "style" || strings.HasPrefix(a, "on") {
				fail("the attribute %s stands in <%s>", a, g.name)
			}
		}
		if g.name == "script" && g.attrs["src"] == "" && g.attrs["type"] != "application/ld+json" && !g.end || g.name == "style" {
			fail("<%s> stands in the page", g.name)
		}
	}
	if h1 != 1 {
		fail("%d headings of the first level", h1)
	}
	checkLinks(name, tags, ids, all, fail)
}

func readTags(text string, fail func(string, ...any)) []tag {
	var out []tag
	rest := regexp.MustCompile(`(?i)<!doctype html>`).ReplaceAllString(text, "")
	for _, m := range tagPattern.FindAllStringSubmatch(rest, -1) {
		g := tag{name: strings.ToLower(m[2]), end: m[1] == "/", attrs: map[string]string{}}
		for _, a := range attrPattern.FindAllStringSubmatch(m[3], -1) {
			if _, twice := g.attrs[a[1]]; twice {
				fail("<%s> has %s twice", g.name, a[1])
			}
			g.attrs[a[1]] = html.UnescapeString(a[2])
		}
		if !slices.Contains(void, g.name) && m[4] == "" || g.end {
			out = append(out, g)
			continue
		}
		out = append(out, g, tag{name: g.name, end: true})
	}
	if left := tagPattern.ReplaceAllString(rest, ""); strings.ContainsAny(left, "<>") {
		i := strings.IndexAny(left, "<>")
		fail("a stray angle bracket: …%s…", left[max(0, i-40):min(len(left), i+40)])
	}
	return out
}

func checkNesting(tags []tag, fail func(string, ...any)) {
	var open []string
	for _, g := range tags {
		if !g.end {
			if slices.Contains(blocks, g.name) && slices.Contains(open, "p") {
				fail("<%s> stands in a paragraph", g.name)
			}
			open = append(open, g.name)
			continue
		}
		if len(open) == 0 || open[len(open)-1] != g.name {
			fail("</%s> closes %v", g.name, open)
			return
		}
		open = open[:len(open)-1]
	}
	if len(open) > 0 {
		fail("not closed: %v", open)
	}
}

// checkLinks follows every link to a file of the notebook and, where it names
// one, to an id there.
func checkLinks(name string, tags []tag, ids map[string]bool, all map[string]string, fail func(string, ...any)) {
	if name == "404.html" && strings.Contains(all[name], `href="/`) {
		name = "/index.html" // shown for any address of the site: its links begin at the root
	}
	for _, g := range tags {
		refs := []string{g.attrs["href"], g.attrs["src"]}
		for part := range strings.SplitSeq(g.attrs["srcset"], ",") {
			refs = append(refs, strings.Fields(part + " x")[0])
		}
		for _, ref := range refs {
			file, anchor, _ := strings.Cut(ref, "#")
			switch {
			case ref == "" || ref == "x":
			case file == "":
				if !ids[anchor] {
					fail("no place #%s on the page", anchor)
				}
			case g.name == "link" && strings.HasPrefix(ref, "https://room.example/") || strings.HasPrefix(ref, "mailto:"):
			case strings.Contains(ref, ":") || strings.HasPrefix(ref, "/") != strings.HasPrefix(name, "/"):
				fail("the address %q leads out of the notebook", ref)
			default:
				to := path.Join(path.Dir(name), file)
				if name[0] == '/' {
					to = file[1:]
				}
				text, ok := all[to]
				if !ok {
					fail("nothing lies at %q", ref)
				}
				if anchor != "" && !strings.Contains(text, `id="`+anchor+`"`) {
					fail("no place %q", ref)
				}
			}
		}
	}
}

// TestChecksFindFaults holds the checks themselves to pages that are wrong.
func TestChecksFindFaults(t *testing.T) {
	for name, text := range map[string]string{
		"twice":    `<h1 id="a">x</h1><p id="a">y</p>`,
		"gap":      `<h1>x</h1><h3>y</h3>`,
		"link":     `<h1>x</h1><a href="none.html">y</a>`,
		"anchor":   `<h1>x</h1><a href="#none">y</a>`,
		"style":    `<h1 style="color:red">x</h1>`,
		"script":   `<h1>x</h1><script>1</script>`,
		"alt":      `<h1>x</h1><img src="a.html" width="1" height="1">`,
		"open":     `<h1>x</h1><p>y`,
		"crossed":  `<h1>x</h1><p><b>y</p></b>`,
		"in p":     `<h1>x</h1><p><div>y</div></p>`,
		"bracket":  `<h1>x</h1>a < b`,
		"out":      `<h1>x</h1><a href="https://elsewhere.example/">y</a>`,
		"headings": `<p>none</p>`,
	} {
		var found bytes.Buffer
		fail := func(format string, args ...any) { fmt.Fprintf(&found, format+"\n", args...) }
		inspect("a.html", text, map[string]string{"a.html": text}, fail)
		if found.Len() == 0 {
			t.Errorf("%s: nothing is found wrong with %s", name, text)
		}
	}
}
