package paper

import (
	"bytes"
	"fmt"
	"html"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"hembook/internal/document"
	"hembook/internal/drawing"
)

// poppler finds one of its programs, or skips.
func poppler(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("%s is not installed", name)
		}
		t.Skipf("%s is not installed", name)
	}
	return path
}

// run runs one of poppler's programs on a PDF.
func run(t *testing.T, data []byte, name string, before ...string) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "it.pdf")
	if err := os.WriteFile(file, data, 0o600); err != nil {
		t.Fatal(err)
	}
	args := append(before, file)
	if name == "pdftotext" {
		args = append(args, "-")
	}
	var errs bytes.Buffer
	cmd := exec.Command(poppler(t, name), args...)
	cmd.Stderr = &errs
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%s: %v: %s", name, err, errs.String())
	}
	if errs.Len() > 0 {
		t.Errorf("%s says: %s", name, errs.String())
	}
	return string(out)
}

// squeeze leaves out every space, so that where lines break does not matter.
func squeeze(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) || r == '\f' {
			return -1
		}
		return r
	}, s)
}

var (
	tag     = regexp.MustCompile(`<[^>]*>`)
	skipped = regexp.MustCompile(`(?s)<head>.*?</head>|<nav.*?</nav>|<footer.*?</footer>`)
	listTag = regexp.MustCompile(`<ol start="(\d+)">|<ol>|<ul[^>]*>|<li>`)
)

// htmlWords is what a page says, points of numbered lists with their number.
func htmlWords(page string) string {
	page = skipped.ReplaceAllString(page, "")
	n, counts := 0, false
	page = listTag.ReplaceAllStringFunc(page, func(m string) string {
		switch {
		case strings.HasPrefix(m, "<ol"):
			counts, n = true, 0
			if sub := listTag.FindStringSubmatch(m); sub[1] != "" {
				n, _ = strconv.Atoi(sub[1])
				n--
			}
			return ""
		case strings.HasPrefix(m, "<ul"):
			counts = false
			return ""
		}
		if n++; counts {
			return strconv.Itoa(n) + "."
		}
		return ""
	})
	return html.UnescapeString(tag.ReplaceAllString(page, ""))
}

// pdfWords is the text of a PDF above its foot, in the order it stands in.
func pdfWords(t *testing.T, data []byte, d document.Document) string {
	wide, high := d.Size.MM()
	body := high - marginFoot - footHeight(d)
	dots := func(mm float64) string { return strconv.Itoa(int(math.Round(mm / mmPerPoint))) }
	return run(t, data, "pdftotext", "-raw", "-x", "0", "-y", "0", "-W", dots(wide), "-H", dots(body))
}

func TestSameWordsOnPaperAndOnTheScreen(t *testing.T) {
	for _, size := range []document.Size{document.A4, document.Letter} {
		d := everyBlock(size)
		data, err := PDF(document.Alone(d), Options{})
		if err != nil {
			t.Fatal(err)
		}
		page, err := document.OneFile(document.Alone(d))
		if err != nil {
			t.Fatal(err)
		}
		look(t, "every-"+strings.ToLower(size.String())+".html", page)
		got, want := squeeze(pdfWords(t, data, d)), squeeze(htmlWords(string(page)))
		if got != want {
			t.Errorf("%v: the PDF says\n%s\nthe HTML says\n%s", size, got, want)
		}
		if len(want) < 1000 {
			t.Errorf("only %d letters were compared", len(want))
		}
	}
}

// TestHTMLIsWholeInItself: no address is asked for anything but a link that a
// reader may follow.
func TestHTMLIsWholeInItself(t *testing.T) {
	page, err := document.OneFile(document.Book{Title: "packet", Language: "en", Documents: []document.Document{everyBlock(document.A4), everyBlock(document.A4)}})
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range regexp.MustCompile(`(?:src|href|url)\s*[=(]\s*"?([^")\s>]*)`).FindAllStringSubmatch(string(page), -1) {
		if a := m[1]; !strings.HasPrefix(a, "data:") && !strings.HasPrefix(a, "#sheet-") && !strings.HasPrefix(a, "https://example.org/") {
			t.Errorf("the page asks for %q", a)
		}
	}
	ids := map[string]bool{}
	for _, m := range regexp.MustCompile(` id="([^"]*)"`).FindAllStringSubmatch(string(page), -1) {
		if ids[m[1]] {
			t.Errorf("id %q is given twice", m[1])
		}
		ids[m[1]] = true
	}
}

func TestHostileWordsStayWords(t *testing.T) {
	bad := `</style><script>alert(1)</script>"'&` + "\x00\u202e"
	d := document.Document{Title: bad, Author: bad, Language: `en"><script>`, Footer: []string{bad}, Words: document.Wording{PageOf: bad + "{n}{of}", Contents: bad},
		Blocks: []document.Block{document.Heading{Level: 1, Words: bad, Aside: bad}, document.Text{Phrase: document.Phrase{{Words: bad, Page: "javascript:alert(1)"}, {Words: bad, Page: `https://x"onclick="`}, document.Quantity(bad, bad)}},
			document.Table{Caption: bad, Columns: []document.Column{{Head: bad}}, Rows: []document.TableRow{row(bad)}}, document.FillIn{Says: bad, Fields: []document.Field{{Name: bad, Value: bad}}},
			document.Picture{Data: swatch(), Alt: bad, Caption: bad}, document.Ticks{Items: []document.Tick{{Phrase: spoken(bad)}}},
			document.Sketch{Draw: func() *drawing.Drawing { return wordsOf(9, 9, bad) }, Caption: bad}}}
	page, err := document.OneFile(document.Book{Title: bad, Author: bad, Language: bad, Documents: []document.Document{d, d}})
	if err != nil {
		t.Fatal(err)
	}
	if s := string(page); strings.Contains(s, "<script") || strings.Contains(s, "javascript:") || strings.Contains(s, `"onclick`) ||
		strings.Count(s, "</style") != 1 || strings.ContainsAny(s, "\x00\u202e") {
		t.Error("words became markup")
	}
	data, err := PDF(document.Alone(d), Options{})
	if err != nil {
		t.Fatal(err)
	}
	if text := run(t, data, "pdftotext", "-raw"); !strings.Contains(squeeze(text), `<script>alert(1)</script>"'&`) {
		t.Errorf("the PDF lost words: %q", text)
	}
	if info := run(t, data, "pdfinfo"); !strings.Contains(info, "JavaScript:      no") {
		t.Error(info)
	}
}

func TestPDFSaysWhatItIs(t *testing.T) {
	d := everyBlock(document.Letter)
	d.Title, d.Author, d.Language = "Mantel „Obstgarten“ – Pflege", "Ännchen", "de-AT"
	data, err := PDF(document.Alone(d), Options{})
	if err != nil {
		t.Fatal(err)
	}
	info := run(t, data, "pdfinfo")
	for _, want := range []string{"Title:           Mantel „Obstgarten“ – Pflege\n", "Author:          Ännchen\n", "Page size:       612 x 792 pts (letter)\n", "Pages:           2\n"} {
		if !strings.Contains(info, want) {
			t.Errorf("pdfinfo does not say %q:\n%s", want, info)
		}
	}
	if !bytes.Contains(data, []byte("/Lang (de-AT)")) {
		t.Error("the language is not said")
	}
	text := run(t, data, "pdftotext", "-raw")
	for _, want := range []string{"page 1 of 2", "page 2 of 2"} {
		if strings.Count(text, want) != 1 {
			t.Errorf("%q stands %d times", want, strings.Count(text, want))
		}
	}
	fonts := strings.Split(strings.TrimSpace(run(t, data, "pdffonts")), "\n")[2:]
	for _, f := range fonts {
		if cols := strings.Fields(f); len(cols) < 5 || cols[len(cols)-5] != "yes" || cols[len(cols)-3] != "yes" {
			t.Errorf("not embedded, or without its letters' meaning: %s", f)
		}
	}
	if len(fonts) < 3 {
		t.Errorf("only %d fonts were looked at", len(fonts))
	}
}

// TestHundredMillimetres renders a line of 100 mm at 300 dots to the inch and
// counts dots: one is 0.085 mm.
func TestHundredMillimetres(t *testing.T) {
	for _, size := range []document.Size{document.A4, document.Letter} {
		bare := sized(110, 12, "")
		bare.Draw(drawing.SquareMM).Move(5, 5).Line(105, 5)
		d := document.Document{Title: "line", Language: "en", Size: size, Blocks: []document.Block{document.Sketch{Draw: func() *drawing.Drawing { return bare }, Exact: true}}}
		data, err := PDF(document.Alone(d), Options{})
		if err != nil {
			t.Fatal(err)
		}
		m := render(t, data, 1, 300)
		row := m.darkRun(marginSide+5, marginTop+5, marginSide+105, marginTop+5)
		if long := row * 25.4 / 300; math.Abs(long-100) > 0.1 {
			t.Errorf("%v: the line measures %.3f mm", size, long)
		}
	}
}

// A bitmap is a rendered page.
type bitmap struct {
	wide, high int
	grey       []byte
	dpi        float64
}

// render draws one page of a PDF in greys.
func render(t *testing.T, data []byte, page, dpi int) bitmap {
	t.Helper()
	n := strconv.Itoa(page)
	out := run(t, data, "pdftoppm", "-gray", "-r", strconv.Itoa(dpi), "-f", n, "-l", n)
	var b bitmap
	var most int
	if _, err := fmt.Sscanf(out, "P5\n%d %d\n%d", &b.wide, &b.high, &most); err != nil {
		t.Fatal(err)
	}
	b.grey, b.dpi = []byte(out)[len(out)-b.wide*b.high:], float64(dpi)
	return b
}

// darkRun is how many dots of a level line are dark, from a dot before its
// beginning to its end and beyond, ends weighed by how dark they are.
func (b bitmap) darkRun(x1, y, x2, _ float64) float64 {
	row := int(y * b.dpi / 25.4)
	from, to := int((x1-3)*b.dpi/25.4), int((x2+3)*b.dpi/25.4)
	best, now := 0.0, 0.0
	for x := from; x < to; x++ {
		v := float64(255-b.grey[row*b.wide+x]) / 255
		if v < 0.02 {
			best, now = max(best, now), 0
			continue
		}
		now += v
	}
	return max(best, now)
}
