package main

import (
	"fmt"
	"io"
	"io/fs"
	"slices"
	"strings"
	"sync"
	"unicode"

	guidepages "hembook/content/pages"
	"hembook/internal/say"
	"hembook/internal/words"
)

// A guidePart is what stands under one heading of the guide.
type guidePart struct {
	page, heading string // heading "" for what stands above the first
	head, body    []string
}

// guideParts are the parts of the guide's pages that tell something, the lists of every
// word apart, which `hembook words` has itself.
var guideParts = sync.OnceValue(func() (out []guidePart) {
	names, err := fs.Glob(guidepages.Files, "*.md")
	if err != nil {
		panic(err) // only a wrong pattern
	}
	for _, name := range names {
		if name == aboutDemo || strings.HasPrefix(name, "words") {
			continue
		}
		text, err := guidepages.Files.ReadFile(name)
		if err != nil {
			panic(err) // it was listed
		}
		out = append(out, partsOf(string(text))...)
	}
	return out
})

// partsOf parts a page at its headings; blocks of a record are left out.
func partsOf(text string) (out []guidePart) {
	_, front, _ := strings.Cut(text, "---\n")
	front, body, _ := strings.Cut(front, "---\n")
	_, title, _ := strings.Cut(front, "title: ")
	title, _, _ = strings.Cut(title, "\n")
	part := guidePart{page: title, head: stemsIn(title)}
	fenced := false
	for line := range strings.Lines(body) {
		if strings.HasPrefix(line, "~~~") {
			fenced = !fenced
		}
		if heading, is := strings.CutPrefix(strings.TrimLeft(line, "#"), " "); is && strings.HasPrefix(line, "##") && !fenced {
			out = append(out, part)
			heading = strings.TrimSpace(heading)
			part = guidePart{page: title, heading: heading, head: stemsIn(heading)}
		} else if !fenced {
			part.body = append(part.body, stemsIn(line)...)
		}
	}
	return append(out, part)
}

func stemsIn(text string) (out []string) {
	for w := range strings.FieldsFuncSeq(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) }) {
		out = append(out, words.Stem(w))
	}
	return out
}

// mostGuide is how many parts of the guide are named for one word.
const mostGuide = 4

// tellGuide names the parts of the guide that speak of a word, those first that have it
// in their heading, then those that have it most often. It reports whether there were any;
// after says that something stands above.
func tellGuide(word string, after bool, out io.Writer) bool {
	type found struct {
		guidePart
		often int
	}
	var list []found
	sought := stemsIn(word)
	for _, p := range guideParts() {
		if n := 100*timesIn(p.head, sought) + timesIn(p.body, sought); n > 0 {
			list = append(list, found{p, n})
		}
	}
	if list == nil {
		return false
	}
	slices.SortStableFunc(list, func(a, b found) int { return b.often - a.often })
	if after {
		fmt.Fprintln(out)
	}
	fmt.Fprintln(out, say.Of("hembook.in-the-guide", word))
	for _, f := range list[:min(len(list), mostGuide)] {
		if f.heading == "" {
			fmt.Fprintf(out, "  %s\n", f.page)
		} else {
			fmt.Fprintf(out, "  %s: %s\n", f.page, f.heading)
		}
	}
	return true
}

// timesIn counts how often words follow each other in others; the last of them may go on,
// as understitch does in understitched.
func timesIn(all, sought []string) (n int) {
	if len(sought) == 0 {
		return 0
	}
	last := len(sought) - 1
	for i := 0; i+last < len(all); i++ {
		goesOn := len(sought[last]) >= 4 && strings.HasPrefix(all[i+last], sought[last])
		if slices.Equal(all[i:i+last], sought[:last]) && (goesOn || all[i+last] == sought[last]) {
			n++
		}
	}
	return n
}
