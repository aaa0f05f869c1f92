package notebook

import (
	"bytes"
	"regexp"
	"slices"
	"strings"

	"hembook/internal/say"
)

// linkNamed is a line of Markdown that says where a link named elsewhere leads, as [here]: page.html.
var linkNamed = regexp.MustCompile(`(?m)^ {0,3}\[[^\]\n]+\]:`)

// changeHeads are the headings of a maker's notes under which stands what would be done
// otherwise another time.
var changeHeads = []string{say.Of("notebook.what-i-would-change"), say.Of("notebook.what-i-would-do-differently"), say.Of("notebook.next-time"), say.Of("notebook.another-time")}

// parted takes out of a passage what stands under the first heading of one of those
// names, to the next heading of its level or a higher one. Both keep their lines in the
// file. A passage whose links are named elsewhere in it is left whole.
func (p Passage) parted(heads []string) (out, rest Passage) {
	from, level := headed(p.Text, func(_ int, words string) bool { return slices.Contains(heads, words) })
	if from < 0 || linkNamed.Match(p.Text) {
		return Passage{}, p
	}
	body := from + lineLong(p.Text[from:])
	end := len(p.Text)
	if next, _ := headed(p.Text[body:], func(l int, _ string) bool { return l <= level }); next >= 0 {
		end = body + next
	}
	out, rest = p, p
	out.Text = slices.Concat(blank(p.Text[:body]), p.Text[body:end])
	rest.Text = slices.Concat(p.Text[:from], blank(p.Text[from:end]), p.Text[end:])
	if len(bytes.TrimSpace(out.Text)) == 0 {
		return Passage{}, p
	}
	if len(bytes.TrimSpace(rest.Text)) == 0 {
		rest = Passage{}
	}
	return out, rest
}

// headed finds the first heading, a line of its own with # before it, that is wanted:
// where it begins and its level; −1 where there is none. What stands between fences is
// no heading.
func headed(text []byte, wanted func(level int, words string) bool) (at, level int) {
	fenced := false
	for from := 0; from < len(text); from += lineLong(text[from:]) {
		line := strings.TrimRight(string(text[from:from+lineLong(text[from:])]), " \t\r\n")
		if strings.HasPrefix(line, "```") || strings.HasPrefix(line, "~~~") {
			fenced = !fenced
		}
		words := strings.TrimLeft(line, "#")
		if level := len(line) - len(words); !fenced && level > 0 && level < 7 && strings.HasPrefix(words, " ") {
			if wanted(level, strings.ToLower(strings.Trim(words, " #:"))) {
				return from, level
			}
		}
	}
	return -1, 0
}

// lineLong is how long the first line of a text is, its end among it.
func lineLong(text []byte) int {
	if i := bytes.IndexByte(text, '\n'); i >= 0 {
		return i + 1
	}
	return len(text)
}

// blank is as many lines as a text has, with nothing in them.
func blank(text []byte) []byte { return bytes.Repeat([]byte{'\n'}, bytes.Count(text, []byte{'\n'})) }
