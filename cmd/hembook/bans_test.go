package main

import (
	"bufio"
	"bytes"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// A ban is a way of speaking that no sentence of the program takes.
type ban struct {
	find  *regexp.Regexp
	but   *regexp.Regexp // what is taken out of a sentence first; may be nil
	scope string         // all, or some of M T P S
	say   string         // what is said instead
}

// readBans reads testdata/bans.tsv: expression, scope, what to say, and what is
// let through.
func readBans(t *testing.T) []ban {
	t.Helper()
	text, err := os.ReadFile("testdata/bans.tsv")
	if err != nil {
		t.Fatal(err)
	}
	var out []ban
	for line := range strings.Lines(string(text)) {
		cols := append(strings.Split(strings.TrimRight(line, "\n"), "\t"), "", "", "")
		b := ban{find: regexp.MustCompile("(?i)" + cols[0]), scope: cols[1], say: cols[2]}
		if cols[3] != "" {
			b.but = regexp.MustCompile("(?i)" + cols[3])
		}
		out = append(out, b)
	}
	return out
}

// A sentence is words that a user may see, with where they stand and what they
// are: a message, a template or label, a page of the program, a sheet.
type sentence struct {
	file  string
	line  int
	words string
	kind  byte // M, T, P or S
}

// finds lists what is banned in sentences, and not let through.
func finds(bans []ban, all []sentence, through func(sentence) bool) (out []string) {
	for _, s := range all {
		for i, b := range bans {
			if b.scope != "all" && !strings.ContainsRune(b.scope, rune(s.kind)) {
				continue
			}
			words := s.words
			if b.but != nil {
				words = b.but.ReplaceAllString(words, "")
			}
			if b.find.MatchString(words) && !through(s) {
				out = append(out, fmt.Sprintf("%s:%d: ban %d (%s): %q\n    %s", s.file, s.line, i+1, b.find, s.words, b.say))
			}
		}
	}
	return out
}

// labels are the rooms whose words stand on pages, sheets and drawings.
var labels = []string{"compose", "draw", "document", "notebook", "pattern", "press"}

// quiet are rooms that say nothing to anybody who uses the program.
var quiet = []string{"abacus", "madeup", "workings", "lay/verify", "extent", "drawing", "search", "caremark"}

// spoken gathers every sentence of the source.
func spoken(t *testing.T, root string) []sentence {
	t.Helper()
	var out []sentence
	walk := func(dir string, each func(path string)) {
		err := filepath.WalkDir(filepath.Join(root, dir), func(path string, d fs.DirEntry, err error) error {
			if err == nil && !d.IsDir() && !strings.Contains(path, "testdata") {
				each(path)
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	code := func(path string) {
		if strings.HasSuffix(path, ".go") && !strings.HasSuffix(path, "_test.go") {
			out = append(out, literals(t, root, path)...)
		}
	}
	walk("internal", code)
	walk("cmd/hembook", code)
	lines := func(kind byte, take func(string) string) func(path string) {
		return func(path string) { out = append(out, linesOf(t, root, path, kind, take)...) }
	}
	walk("themes/plainweave/pages", lines('T', templateWords))
	walk("themes/plainweave/parts", lines('T', templateWords))
	walk("internal/bench/capture/page", func(path string) {
		if ext := filepath.Ext(path); ext == ".html" || ext == ".js" {
			lines('T', templateWords)(path)
		}
	})
	lines('T', templateWords)(filepath.Join(root, "themes/plainweave/frame.html"))
	lines('T', listedWords)(filepath.Join(root, "internal/say/english/pages.yaml"))
	lines('M', listedWords)(filepath.Join(root, "internal/say/english/faults.yaml"))
	lines('M', listedWords)(filepath.Join(root, "internal/say/english/terminal.yaml"))
	lines('S', sheetWords)(filepath.Join(root, "internal/sheet/words/en.yaml"))
	for _, page := range []string{"README.md", "content/pages/guide.md", "content/pages/outlines.md", "content/pages/on-a-piece.md", "content/pages/knits-and-linings.md", "content/pages/the-lay.md", "content/pages/notions-and-work.md", "content/pages/drafts.md", "content/pages/at-the-bench.md", "content/pages/fittings.md",
		"content/pages/packing.md", "content/pages/pattern-files.md", "content/pages/from-paper.md", "content/pages/publishing.md", "content/pages/commands.md",
		"content/pages/first-garment.md", "content/pages/waistcoat.md", "content/pages/ways-to-seam.md"} {
		lines('P', proseWords)(filepath.Join(root, page))
	}
	return out
}

// literals are the strings of a Go file that read like words, and what the tags
// of its fields say about them.
func literals(t *testing.T, root, path string) (out []sentence) {
	set := token.NewFileSet()
	file, err := parser.ParseFile(set, path, nil, parser.SkipObjectResolution)
	if err != nil {
		t.Fatal(err)
	}
	short, _ := filepath.Rel(root, path)
	short = filepath.ToSlash(short)
	room := strings.TrimPrefix(filepath.ToSlash(filepath.Dir(short)), "internal/")
	if slices.ContainsFunc(quiet, func(q string) bool { return strings.HasSuffix(room, q) || strings.HasPrefix(room, q) }) {
		return nil
	}
	kind := byte('M')
	if slices.Contains(labels, room) {
		kind = 'T'
	}
	say := func(at token.Pos, words string) {
		if strings.ContainsAny(words, " ") && strings.ContainsFunc(words, func(r rune) bool { return r >= 'a' && r <= 'z' }) {
			out = append(out, sentence{short, set.Position(at).Line, words, kind})
		}
	}
	tags := map[*ast.BasicLit]bool{}
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.ImportSpec:
			return false
		case *ast.Field:
			if n.Tag != nil {
				tags[n.Tag] = true
				text, _ := strconv.Unquote(n.Tag.Value)
				say(n.Tag.Pos(), reflect.StructTag(text).Get("about"))
			}
		case *ast.CallExpr: // a panic is for who builds the program
			if name, ok := n.Fun.(*ast.Ident); ok && name.Name == "panic" {
				return false
			}
		case *ast.BasicLit:
			if n.Kind == token.STRING && !tags[n] {
				text, _ := strconv.Unquote(n.Value)
				for i, line := range strings.Split(text, "\n") {
					if i == 0 || !strings.HasPrefix(line, "<") {
						say(n.Pos(), line)
					}
				}
			}
		}
		return true
	})
	return out
}

func linesOf(t *testing.T, root, path string, kind byte, take func(string) string) (out []sentence) {
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	short, _ := filepath.Rel(root, path)
	scan := bufio.NewScanner(bytes.NewReader(text))
	scan.Buffer(nil, 1<<20)
	fenced := false
	for n := 1; scan.Scan(); n++ {
		line := scan.Text()
		if strings.HasPrefix(line, "```") || strings.HasPrefix(line, "~~~") {
			fenced = !fenced
		}
		for words := range strings.SplitSeq(take(line), "\n") {
			if !fenced && words != "" {
				out = append(out, sentence{filepath.ToSlash(short), n, words, kind})
			}
		}
	}
	return out
}

var (
	tagOrAction = regexp.MustCompile(`\{\{[^}]*\}\}|<[^>]*>|//.*`)
	codeSpan    = regexp.MustCompile("`[^`]*`")
)

func templateWords(line string) string {
	return strings.TrimSpace(tagOrAction.ReplaceAllString(line, " "))
}
func proseWords(line string) string { return strings.TrimSpace(codeSpan.ReplaceAllString(line, " ")) }

// sheetWords is what an entry of the list of words says.
func sheetWords(line string) string {
	_, says, ok := strings.Cut(line, ": ")
	if !ok || strings.HasPrefix(strings.TrimSpace(line), "#") {
		return ""
	}
	return says
}

// listedWords is what a sentence of pages or faults says.
func listedWords(line string) string {
	says, err := strconv.Unquote(sheetWords(line))
	if err != nil {
		return ""
	}
	return says
}

// letThrough reads testdata/bans-through.tsv: file, words of the sentence, why;
// a star for every sentence of a file or folder.
func letThrough(t *testing.T) (func(sentence) bool, func() []string) {
	t.Helper()
	text, err := os.ReadFile("testdata/bans-through.tsv")
	if err != nil {
		t.Fatal(err)
	}
	type exception struct {
		file, words string
		used        bool
	}
	var list []*exception
	for line := range strings.Lines(string(text)) {
		if strings.HasPrefix(line, "#") || strings.TrimSpace(line) == "" {
			continue
		}
		cols := strings.Split(strings.TrimRight(line, "\n"), "\t")
		if len(cols) != 3 || cols[2] == "" {
			t.Fatalf("an exception needs file, words and a reason: %q", line)
		}
		list = append(list, &exception{file: cols[0], words: cols[1]})
	}
	through := func(s sentence) bool {
		for _, e := range list {
			if e.words == "*" && strings.HasPrefix(s.file, e.file) || e.file == s.file && strings.Contains(s.words, e.words) {
				e.used = true
				return true
			}
		}
		return false
	}
	unused := func() (out []string) {
		for _, e := range list {
			if !e.used {
				out = append(out, e.file+": "+e.words)
			}
		}
		return out
	}
	return through, unused
}

// TestBannedWords: no sentence of the source speaks as testdata/bans.tsv says
// none should, but for those let through with a reason; and none is let through
// for nothing.
func TestBannedWords(t *testing.T) {
	nothingBeside(t)
	t.Parallel()
	bans := readBans(t)
	through, unused := letThrough(t)
	all := spoken(t, "../..")
	found := finds(bans, all, through)
	for _, f := range found {
		t.Error(f)
	}
	for _, u := range unused() {
		t.Errorf("let through for nothing: %s", u)
	}
	t.Logf("%d sentences, %d finds", len(all), len(found))
}

// TestBansBite: every ban finds a sentence planted for it, and a plain sentence
// passes all of them.
func TestBansBite(t *testing.T) {
	bans := readBans(t)
	text, err := os.ReadFile("testdata/bans-planted.txt")
	if err != nil {
		t.Fatal(err)
	}
	planted := strings.Split(strings.TrimRight(string(text), "\n"), "\n")
	if len(planted) != len(bans) {
		t.Fatalf("%d planted sentences for %d bans", len(planted), len(bans))
	}
	none := func(sentence) bool { return false }
	for i, words := range planted {
		kind := byte('M')
		if b := bans[i]; b.scope != "all" && !strings.Contains(b.scope, "M") {
			kind = b.scope[0]
		}
		got := finds(bans[i:i+1], []sentence{{"planted", i + 1, words, kind}}, none)
		if len(got) != 1 {
			t.Errorf("ban %d (%s) does not find %q", i+1, bans[i].find, words)
		}
		if got := finds(bans[i:i+1], []sentence{{"plain", 1, "sides: front is 10 mm longer than back", kind}}, none); got != nil {
			t.Errorf("a plain sentence is refused: %s", got)
		}
	}
	for _, kind := range []byte("MTPS") {
		if got := finds(bans, []sentence{{"plain", 1, "make the band 720, or front and back 80 wider together", kind}}, none); got != nil {
			t.Errorf("a plain sentence is refused: %s", got)
		}
	}
}
