package main

import (
	"bufio"
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// A block is a fenced part of a page with what it says that it is:
//
//	sh            commands, each of which must do well
//	sh fails      commands, the last of which finds something wrong
//	sh stays      one command that goes on until it is stopped
//	sh elsewhere  commands for another place, which are not run here
//	text          what is printed then: its lines, in this order, among others;
//	              a line that ends in … goes on otherwise
//	text folder   files and folders there are
//	yaml FILE             the whole of a file
//	yaml seen FILE        what is in a file already
//	yaml add FILE         lines at the end of a file
//	yaml into FILE        groups in place of those that begin with the same word;
//	                      one that is new stands below the one before
//	yaml under WORD FILE  lines at the end of the group of that word
type block struct {
	says []string
	line int
	text string
}

func blocksOf(t *testing.T, page string) (out []block) {
	t.Helper()
	var b *block
	fence := ""
	for i, line := range strings.Split(contents(t, page), "\n") {
		switch mark := strings.TrimLeft(line, "~`"); {
		case b == nil && (strings.HasPrefix(line, "~~~") || strings.HasPrefix(line, "```")):
			b, fence = &block{says: strings.Fields(mark), line: i + 1}, line[:3]
		case b != nil && line == fence:
			out, b = append(out, *b), nil
		case b != nil:
			b.text += line + "\n"
		}
	}
	return out
}

// A stranger does what a page says, in a folder of their own.
type stranger struct {
	*testing.T
	page, dir, said string
	quiet           bool // check has nothing to say where the page shows nothing
}

func (s *stranger) wrong(b block, format string, args ...any) {
	s.Helper()
	s.Fatalf("%s:%d: "+format, append([]any{s.page, b.line}, args...)...)
}

var port = regexp.MustCompile(`localhost:\d+`)

// word splits a line as a shell does, as far as pages need it.
var word = regexp.MustCompile(`"[^"]*"|[^\s"]+`)

func (s *stranger) run(b block, how string) {
	s.said = ""
	lines := strings.Split(strings.TrimSpace(b.text), "\n")
	for i, line := range lines {
		line, _, _ = strings.Cut(line, "   ") // what is said beside it
		words := word.FindAllString(line, -1)
		for j := range words {
			words[j] = strings.Trim(words[j], `"`)
		}
		switch words[0] {
		case "mkdir":
			if err := os.Mkdir(filepath.Join(s.dir, words[1]), 0o777); err != nil {
				s.wrong(b, "%v", err)
			}
			continue
		case "cd":
			s.dir = filepath.Join(s.dir, words[1])
			continue
		case "hembook":
		default:
			s.wrong(b, "no reader types %q", line)
		}
		cmd := exec.Command("hembook", words[1:]...)
		cmd.Dir = s.dir
		if how == "stays" {
			s.stay(b, cmd)
			continue
		}
		out, err := cmd.CombinedOutput()
		s.said += string(out)
		if words[1] == "check" && s.quiet && bytes.Contains(out, []byte("warning:")) {
			s.wrong(b, "a first record is not so whole as the page says:\n%s", out)
		}
		if failed := err != nil; failed != (how == "fails" && i == len(lines)-1) {
			s.wrong(b, "%s: %v\n%s", line, err, out)
		}
	}
}

// stay starts a command and leaves it running until the test ends.
func (s *stranger) stay(b block, cmd *exec.Cmd) {
	out, err := cmd.StdoutPipe()
	if err == nil {
		err = cmd.Start()
	}
	if err != nil {
		s.wrong(b, "%v", err)
	}
	s.Cleanup(func() { cmd.Process.Signal(os.Interrupt); cmd.Wait() })
	first, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		s.wrong(b, "%v after %q", err, first)
	}
	s.said = first
}

// sees holds what is printed against what the page says.
func (s *stranger) sees(b block) {
	plain := func(text string) string {
		return strings.Join(strings.Fields(port.ReplaceAllString(text, "localhost:6158")), " ")
	}
	rest := plain(s.said)
	for line := range strings.Lines(b.text) {
		line, _, _ = strings.Cut(plain(line), "…")
		_, after, found := strings.Cut(rest, strings.TrimSpace(line))
		if !found {
			s.wrong(b, "%q is not printed, but\n%s", line, s.said)
		}
		rest = after
	}
}

func (s *stranger) write(b block) {
	name := b.says[len(b.says)-1]
	path := filepath.Join(s.dir, filepath.FromSlash(name))
	if len(b.says) == 2 {
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			s.wrong(b, "%v", err)
		}
		s.save(b, path, b.text)
		return
	}
	text := contents(s.T, path)
	switch b.says[1] {
	case "seen":
		if text != b.text {
			s.wrong(b, "%s holds\n%s", name, text)
		}
	case "add":
		s.save(b, path, text+b.text)
	case "into":
		last := ""
		for _, group := range yamlGroups(b.text) {
			head, _, _ := strings.Cut(group, ":")
			was := yamlGroup(text, head)
			switch {
			case was != "":
				text = strings.Replace(text, was, group, 1)
			case last != "":
				text = strings.Replace(text, last, last+group, 1)
			default:
				s.wrong(b, "%s has no %q", name, head)
			}
			last = group
		}
		s.save(b, path, text)
	case "under":
		was := yamlGroup(text, b.says[2])
		if was == "" {
			s.wrong(b, "%s has no %q", name, b.says[2])
		}
		s.save(b, path, strings.Replace(text, was, was+b.text, 1))
	default:
		s.wrong(b, "%v is no mark of a block", b.says)
	}
}

func (s *stranger) save(b block, path, text string) {
	if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
		s.wrong(b, "%v", err)
	}
}

// yamlGroups parts lines into groups: a line that is indented least begins one.
func yamlGroups(text string) (out []string) {
	least := indent(text)
	for line := range strings.Lines(text) {
		if n := len(out); n > 0 && (indent(line) > least || strings.TrimSpace(line) == "") {
			out[n-1] += line
		} else {
			out = append(out, line)
		}
	}
	return out
}

// yamlGroup is the group that begins with a word, as indented as it is; without
// the empty lines at its end.
func yamlGroup(text, head string) (group string) {
	for line := range strings.Lines(text) {
		switch {
		case group == "" && strings.HasPrefix(line, head+":"):
			group = line
		case group != "" && strings.TrimSpace(line) != "" && indent(line) <= indent(head+":"):
			return strings.TrimRight(group, "\n") + "\n"
		case group != "":
			group += line
		}
	}
	if group == "" {
		return ""
	}
	return strings.TrimRight(group, "\n") + "\n"
}

func indent(line string) int { return len(line) - len(strings.TrimLeft(line, " ")) }

// folder looks for the files and folders of a workroom that a page draws as a
// tree; what is in them is the reader's own.
func (s *stranger) folder(b block) {
	for line := range strings.Lines(b.text) {
		if indent(line) != 2 {
			continue
		}
		name, _, _ := strings.Cut(strings.Fields(line)[0], "/")
		if _, err := os.Stat(filepath.Join("../../content", name)); err != nil {
			s.wrong(b, "a workroom has none: %v", err)
		}
	}
}

func (s *stranger) follow(page string) {
	s.page = page
	blocks := blocksOf(s.T, page)
	for i, b := range blocks {
		s.quiet = i+1 == len(blocks) || !strings.Contains(blocks[i+1].text, "warning:")
		mark := strings.Join(b.says, " ") + " "
		switch {
		case mark == "sh elsewhere ":
		case strings.HasPrefix(mark, "sh "):
			s.run(b, strings.TrimSpace(mark[3:]))
		case mark == "text folder ":
			s.folder(b)
		case mark == "text ":
			s.sees(b)
		case strings.HasPrefix(mark, "yaml ") && len(b.says) > 1:
			s.write(b)
		default:
			s.wrong(b, "a block must say what it is, not %q", mark)
		}
	}
}

// TestGuide does all that the guide says, block by block, in an empty folder,
// with the real program.
func TestGuide(t *testing.T) {
	nothingBeside(t)
	t.Parallel()
	if _, err := exec.LookPath("hembook"); err != nil {
		t.Skip("the program is not on the path")
	}
	s := &stranger{T: t, dir: t.TempDir()}
	for _, page := range []string{"first-garment", "waistcoat", "guide", "outlines", "on-a-piece", "knits-and-linings", "the-lay", "notions-and-work", "drafts", "fittings", "at-the-bench", "pattern-files", "from-paper", "packing", "publishing", "commands"} {
		s.follow("../../content/pages/" + page + ".md")
	}
	if code, out, errs := hembook(s.dir, "check"); code != exitFine {
		t.Errorf("what the guide leaves behind is wrong:\n%s%s", out, errs)
	}
}

// TestReadme does all that the README says.
func TestReadme(t *testing.T) {
	nothingBeside(t)
	t.Parallel()
	if _, err := exec.LookPath("hembook"); err != nil {
		t.Skip("the program is not on the path")
	}
	s := &stranger{T: t, dir: t.TempDir()}
	s.follow("../../README.md")
}

// TestGroups: what a page puts into a file goes where it says.
func TestGroups(t *testing.T) {
	text := "name: a\npieces:\n  front:\n    cut: 2\n\n  back:\n    cut: 1\nseams:\n  sides: x\n"
	if got := yamlGroup(text, "  front"); got != "  front:\n    cut: 2\n" {
		t.Errorf("%q", got)
	}
	if got := yamlGroup(text, "pieces"); !strings.HasSuffix(got, "    cut: 1\n") {
		t.Errorf("%q", got)
	}
	if got := yamlGroups("a: 1\nb:\n  c: 2\n"); len(got) != 2 || !bytes.Equal([]byte(got[1]), []byte("b:\n  c: 2\n")) {
		t.Errorf("%q", got)
	}
}
