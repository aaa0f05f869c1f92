package prose

import (
	"regexp"
	"slices"
	"strings"
	"testing"
)

func render(source string, how How) string { return string(Read([]byte(source), "p-").HTML(nil, how)) }

var here = How{Find: func(l Link) (Target, bool) {
	if l.Name == "nowhere" {
		return Target{}, false
	}
	return Target{Address: "../" + string(l.Kind) + "s/" + l.Name + ".html", Name: "the " + l.Name}, true
}}

func TestHTML(t *testing.T) {
	for _, c := range []struct{ name, source, want string }{
		{"link by name", "See [it](technique:french-seam).", `<p>See <a href="../techniques/french-seam.html">it</a>.</p>`},
		{"takes the name", "See [](cloth:voile).", `<p>See <a href="../cloths/voile.html">the voile</a>.</p>`},
		{"no figure", "It is [](figure:level.waist.off) wide.", `<p>It is level.waist.off wide.</p>`},
		{"unknown name", "See [it](term:nowhere), [](term:nowhere).", `<p>See it, nowhere.</p>`},
		{"web", "[a](https://example.org/?a=1&b=2)", `<p><a href="https://example.org/?a=1&amp;b=2">a</a></p>`},
		{"script address", "[a](javascript:alert(1)) <javascript:alert(1)>", `<p>a javascript:alert(1)</p>`},
		{"raw HTML", "a <b onclick=x>b</b>\n\n<script>alert(1)</script>\n\nc", "<p>a b</p>\n<p>c</p>"},
		{"not struck", "~~a~~", `<p>~~a~~</p>`},
		{"typography", `"a" -- b...`, `<p>&ldquo;a&rdquo; &ndash; b&hellip;</p>`},
		{"levels", "# A\n\n### B\n\n# C\n", `<h2 id="p-a">A</h2>` + "\n" + `<h3 id="p-b">B</h3>` + "\n" + `<h2 id="p-c">C</h2>`},
		{"a place in the text", "[see](#fine-cloth) and [no](#nowhere)\n\n# Fine cloth\n", `<p><a href="#p-fine-cloth">see</a> and no</p>`},
		{"ids", "# Größe & Maß\n\n# Größe & Maß\n\n# ???", `<h2 id="p-grosse-and-mass">`},
		{"picture without a writer", "![a hem](x.jpg)", `<p>a hem</p>`},
		{"mail", "<a@example.org>", `<p><a href="mailto:a@example.org">a@example.org</a></p>`},
		{"unknown language", "```nonsense\na < b\n```", `<pre class="code" role="group" tabindex="0" aria-label="As it is written"><code>a &lt; b` + "\n</code></pre>"},
	} {
		if got := strings.TrimSpace(render(c.source, here)); !strings.HasPrefix(got, c.want) {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
	}
}

// TestNotesLedToAgain: a note that several places lead to has an id for each, none with a colon.
func TestNotesLedToAgain(t *testing.T) {
	got := render("a[^x] and b[^x]\n\n[^x]: fine\n", here)
	if ids := regexp.MustCompile(`id="p-fnref[^"]*"`).FindAllString(got, -1); len(ids) != 2 || ids[0] == ids[1] || strings.Contains(strings.Join(ids, ""), ":") {
		t.Errorf("two places lead to a note, their ids are %q in %s", ids, got)
	}
}

func TestTablesAndFootnotes(t *testing.T) {
	got := render("| a | b |\n|--:|---|\n| 1 | 2[^x] |\n\n[^x]: fine\n\nHem\n: an edge\n", here)
	for _, want := range []string{
		`<th scope="col" class="right">a</th>`, `<td class="right">1</td>`, `id="p-fn-1"`, `href="#p-fnref-1"`, `<dt>Hem</dt>`,
	} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is missing in %s", want, got)
		}
	}
	if strings.Contains(got, "style=") || strings.Count(got, "tbody") != 2 {
		t.Errorf("markup: %s", got)
	}
}

func TestFenceIsHighlighted(t *testing.T) {
	got := render("```yaml\nname: a <b>\n```\n", here)
	if !strings.Contains(got, `<span class="nt">name</span>`) || strings.Contains(got, "<b>") {
		t.Errorf("got %s", got)
	}
}

func TestPicture(t *testing.T) {
	got := render("![a *fine* hem](photos/hem.jpg \"after a day\")", How{Picture: func(dst []byte, p Picture) ([]byte, bool) {
		return append(dst, p.File+"|"+p.Alt+"|"+p.Caption...), true
	}})
	if want := "<p>photos/hem.jpg|a fine hem|after a day</p>\n"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestLinks(t *testing.T) {
	source := "Über [a](technique:a)\n\n- one\n- two [b](cloth:b%20c) and ![p](photos/p.jpg)\n\n> [c][ref] <https://x.example>\n\n[ref]: page:about\n"
	want := []Link{
		{ToTechnique, "a", 1, 6}, {ToCloth, "b c", 4, 7}, {ToPicture, "photos/p.jpg", 4, 28},
		{ToPage, "about", 6, 3}, {ToWeb, "https://x.example", 6, 12},
	}
	got := Read([]byte(source), "").Links()
	if len(got) != len(want) {
		t.Fatalf("got %v", got)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("link %d: got %v, want %v", i, got[i], want[i])
		}
	}
}

func TestRefused(t *testing.T) {
	for _, dest := range []string{"javascript:x", "JAVASCRIPT:x", "data:text/html,x", "vbscript:x", "file:///etc", "//host/x", "x.html", "ftp://a"} {
		if got := Read([]byte("[a]("+dest+")"), "").Links(); len(got) != 1 || got[0].Kind != Refused {
			t.Errorf("%s: got %v", dest, got)
		}
	}
}

func TestMarkupIsNoticed(t *testing.T) {
	got := Read([]byte("a <b>c</b> <!-- d -->\n\n<table>\n<tr>\n</table>\n\n<!-- e -->\n"), "").Links()
	want := []Link{{Markup, "<b>", 1, 3}, {Markup, "<table>", 3, 1}}
	if len(got) != len(want) || got[0] != want[0] || got[1] != want[1] {
		t.Errorf("got %v, want %v", got, want)
	}
}

func TestPlain(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"# A\n\nb *c*\nd [e](term:e) -- \"f\"\n\n- g\n", "A · b c d e – “f”\ng\n"},
		{"see [](term:bias-strip), 3 \\* 4 and `\\*`", "see bias strip, 3 * 4 and \\*\n"},
		{"| a | b |\n|---|---|\n| c | d |\n", "a · b\nc · d\n"},
	} {
		if got := string(Read([]byte(c.text), "").Plain(nil)); got != c.want {
			t.Errorf("%q is plainly %q, want %q", c.text, got, c.want)
		}
	}
}

func TestSections(t *testing.T) {
	got := Read([]byte("before\n\n## One *thing*\n\nfirst\n\n### Deeper\n\n## Two\n\n- second\n"), "ta-").Sections()
	want := []Section{{"", "", "before\n"}, {"ta-one-thing", "One thing", "first\n"}, {"ta-deeper", "Deeper", ""}, {"ta-two", "Two", "second\n"}}
	if !slices.Equal(got, want) {
		t.Errorf("got %+v, want %+v", got, want)
	}
}

var tagOrEntity = regexp.MustCompile(`<[^>]*>`)

var allowedTag = regexp.MustCompile(`^</?(p|a|em|strong|code|pre|ul|ol|li|h[2-6]|blockquote|hr|br|table|thead|tbody|tfoot|tr|th|td|dl|dt|dd|sup|div|span)( [a-z-]+="[^"<>]*")*>$`)

func FuzzHTML(f *testing.F) {
	f.Add("# A\n\n[a](technique:b) <b onclick=x> ![x](y.jpg) [j](javascript:1)\n\n| a |\n|---|\n| b |\n\n[^1]\n\n[^1]: x\n\n```go\nfunc\n```\n")
	f.Add("[a](<javascript:x\ny>) [](term:a\"b) <x:\"onload=>")
	f.Fuzz(func(t *testing.T, source string) {
		out := render(source, here)
		for _, tag := range tagOrEntity.FindAllString(out, -1) {
			if !allowedTag.MatchString(tag) {
				t.Fatalf("%q makes the tag %q", source, tag)
			}
			if strings.Contains(tag, `href="`) && !regexp.MustCompile(`(?i)href="(#|\.\./|https?:|mailto:)`).MatchString(tag) {
				t.Fatalf("%q makes the address %q", source, tag)
			}
		}
		Read([]byte(source), "").Plain(nil)
	})
}

func BenchmarkHTML(b *testing.B) {
	source := []byte(strings.Repeat("A supper dress in *rust* linen, with a [French seam](technique:french-seam) at the sides -- and a lining.\n\n", 5))
	dst := make([]byte, 0, 1<<14)
	for b.Loop() {
		dst = Read(source, "s-").HTML(dst[:0], here)
	}
}

// TestFigures: a figure of the garment stands in its sentence as it was written for it.
func TestFigures(t *testing.T) {
	how := How{Figure: func(dst []byte, name string) ([]byte, bool) {
		return append(dst, "<b>"+name+"</b>"...), name == "hem.total"
	}}
	for source, want := range map[string]string{
		"Of [](figure:hem.total), hemmed.": "<p>Of <b>hem.total</b>, hemmed.</p>\n",
		"[the hem](figure:hem.total)":      "<p><b>hem.total</b></p>\n",
		"[the hem](figure:hem.totl)":       "<p>the hem</p>\n",
	} {
		if got := string(Read([]byte(source), "").HTML(nil, how)); got != want {
			t.Errorf("%q: got %q, want %q", source, got, want)
		}
	}
	if got := string(Read([]byte("Of [](figure:hem.total)."), "").Plain(nil)); got != "Of hem total.\n" {
		t.Errorf("in plain words %q", got)
	}
}

// TestDrawings: a drawing that the program has stands as a block, in a paragraph of its own.
func TestDrawings(t *testing.T) {
	how := How{Drawing: func(dst []byte, name, words string) ([]byte, bool) {
		return append(dst, "<figure>"+name+": "+words+"</figure>"...), name == "tape"
	}}
	for source, want := range map[string]string{
		"![the tape](drawing:tape)\n\nBelow.":  "<figure>tape: the tape</figure>\n<p>Below.</p>\n",
		"![the tape](drawing:nothing)":         "<p>the tape</p>\n",
		"Here ![the tape](drawing:tape) it is": "<p>Here the tape it is</p>\n",
	} {
		if got := string(Read([]byte(source), "").HTML(nil, how)); got != want {
			t.Errorf("%q: got %q, want %q", source, got, want)
		}
	}
	for source, want := range map[string]Kind{"![x](drawing:tape)": ToDrawing, "y ![x](drawing:tape)": Refused, "[x](drawing:tape)": Refused} {
		if got := Read([]byte(source), "").Links()[0].Kind; got != want {
			t.Errorf("%q: %s, want %s", source, got, want)
		}
	}
}
