package search

import (
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// texts writes the files of addresses, titles and texts, and returns what their
// pieces are. A document is one text: address, kind, title, the page that
// it is a part of and its title, what it answers, words, each ended by a line end.
//
// Only as much of a very long text is kept as excerpts are likely to be taken
// from; all of it is found.
//
// Files of documents that are as they were, in the place and the pieces that they
// had, are those of before.
func (x *Index) texts(was *Index, learnt chan<- *coder) (c *coder, files []File) {
	size := 0
	for i := range x.docs {
		size += len(x.docs[i].Text)
	}
	c = &coder{most: min(max(500+size/60_000*100, 300), 3500), steady: true, segments: x.segments}
	x.times = x.timesOf(was)
	c.times = x.times
	same := was != nil && was.coder.knows(c)
	if same {
		c = was.coder
	} else {
		c.learn()
	}
	learnt <- c
	var w fileSet
	for i := 0; i < len(x.read); i += textsInFile {
		some := x.read[i:min(i+textsInFile, len(x.read))]
		if same && i < len(was.read) && slices.Equal(some, was.read[i:min(i+textsInFile, len(was.read))]) {
			w.files = append(w.files, was.texted[i/textsInFile])
			continue
		}
		list := make([]string, len(some))
		for k, r := range some {
			c.encode(r.written)
			list[k] = c.bits.take()
		}
		w.add("t/"+strconv.Itoa(i/textsInFile), `"`+strings.Join(list, " ")+`"`)
	}
	return c, w.files
}

// timesOf is how often each segment stands in the documents.
func (x *Index) timesOf(was *Index) []int {
	c := coder{segments: x.segments}
	if was == nil || !x.placed {
		for _, r := range x.read {
			c.count(r.written)
		}
		return c.times
	}
	c.times = slices.Clone(was.times)
	c.count(nil)
	for _, i := range x.changed {
		for _, s := range was.read[i].written {
			c.times[s]--
		}
		c.count(x.read[i].written)
	}
	return c.times
}

// linesOfText are the lines of a document in its file.
const linesOfText = 7

// longestText is how much of a text is kept for excerpts, bytes.
const longestText = 60_000

// written is a document as its file holds it.
func (d *Document) written() string {
	var b []byte
	for _, f := range [linesOfText]string{d.Address, d.Kind, d.Title, d.Page, d.Under, d.answers(), cutText(d.Text)} {
		for i, w := range strings.Fields(strings.ToValidUTF8(f, "\uFFFD")) {
			b = lower(b, w, i > 0)
		}
		b = append(b, '\n')
	}
	return string(b)
}

// answers are what a document answers, each with its question: "time: 2 h | length: 3 m".
func (d *Document) answers() string {
	var out []string
	for _, a := range d.Answers {
		out = append(out, a.To+": "+strings.ReplaceAll(a.Says, "|", "/"))
	}
	return strings.Join(out, " | ")
}

func cutText(t string) string {
	if len(t) <= longestText {
		return t
	}
	if end := strings.LastIndexByte(t[:longestText], ' '); end > 0 {
		return t[:end]
	}
	return strings.ToValidUTF8(t[:longestText], "")
}

// shift announces that the next letter is a capital, so that a word at the
// beginning of a sentence is the same piece as elsewhere. It stands before the
// space before the word.
const shift = '\x01'

// lower adds a word with shifts for its capitals, and the space before it. Other
// control characters than white space have no place in a text and are left out.
func lower(b []byte, w string, space bool) []byte {
	for i, c := range w {
		capital := c >= 'A' && c <= 'Z'
		if capital {
			b = append(b, shift)
			c += 'a' - 'A'
		}
		if i == 0 && space {
			b = append(b, ' ')
		}
		if c >= ' ' && c != 0x7f {
			b = utf8.AppendRune(b, c)
		}
	}
	return b
}
