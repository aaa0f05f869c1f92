package search

import "slices"

// The rules by which a question is taken for what it asks. The theme's
// search-1-words.js has the same rules: whoever changes one changes both, and a
// test compares them.
//
//   - Little words (how, did, the) are not looked for, unless there is nothing
//     else; nor does a title that is typed with them differ from one without.
//   - "How long … take" asks for a time, "how long" alone for a length, "how much
//     cloth" for cloth, "ease" beside other words for ease: documents that know such a figure come first. The words
//     that ask are then not looked for.

// Questions are what can be asked for.
var Questions = []string{"time", "length", "cloth", "size", "weight", "cost", "care", "needle", "stitch", "ease"}

// asksFor is the term that stands for all documents that answer a question. No
// text has such a word.
func asksFor(question string) string { return "?" + question }

// little are the words that are not looked for.
var little = []string{
	"a", "about", "after", "an", "and", "are", "as", "at", "be", "been", "before", "but", "by", "can", "could", "did", "do", "doe", "done", "for", "from", "had",
	"has", "have", "how", "i", "in", "is", "it", "its", "made", "make", "much", "many", "must", "my", "need", "needed", "not", "of", "on", "or",
	"should", "than", "that", "the", "then", "there", "these", "they", "this", "to", "use", "used", "was", "we", "were", "what", "when", "where",
	"which", "who", "why", "will", "with", "you", "your",
	"das", "der", "die", "ein", "eine", "ist", "und", "wie", "zu",
}

// content are the words of a text that are looked for: all of them where there
// are none but little ones.
func content(words []word) []word {
	out := slices.DeleteFunc(slices.Clone(words), func(w word) bool { return slices.Contains(little, w.term) })
	if len(out) == 0 {
		return words
	}
	return out
}
