package search

import (
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
func (s *fileSet) texts(docs []Document, read []*reading, segments *lexicon, learnt chan<- *coder) {
	size := 0
	for i := range docs {
		size += len(docs[i].Text)
	}
	c := newCoder(min(max(500+size/600, 300), 3500), segments)
	for _, r := range read {
		c.count(r.written)
	}
	c.learn()
	learnt <- c
	for i := 0; i < len(docs); i += textsInFile {
		var list []string
		for _, r := range read[i:min(i+textsInFile, len(docs))] {
			c.encode(r.written)
			list = append(list, c.bits.take())
		}
		s.add("t/"+strconv.Itoa(i/textsInFile), `"`+strings.Join(list, " ")+`"`)
	}
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
