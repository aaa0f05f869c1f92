package trade

import (
	"slices"
	"strings"
)

// moreNotions are kinds of notions that no other table here speaks of (terms of the
// trade, from memory).
var moreNotions = []string{
	"separating zip", "elastic thread", "stay", "horsehair", "binding", "busk", "lacing", "frog", "belt hook", "bar", "ring", "d-ring",
	"slide", "strap slider", "stiffener", "shoulder pad", "sleeve head", "underwire", "cup", "dress shield", "weight", "veiling",
	"iron-on patch", "elbow patch", "reflector", "clip", "garter clip", "chain",
}

// notionData are the kinds of notions as their roots, each with the word it is
// known by: those that the tables of children's clothes and of cautions name, and more.
var notionData = once(func() (map[string]string, error) {
	out := map[string]string{}
	add := func(list []string) {
		for _, name := range list {
			if root := strings.Join(stems(name), " "); out[root] == "" || len(name) < len(out[root]) {
				out[root] = name // button, not buttons
			}
		}
	}
	for _, w := range Children().Words {
		add(w.Words)
	}
	for _, c := range Cautions() {
		add(c.When.Notions)
	}
	add(moreNotions)
	return out, nil
})

// beside begin what a name says of where a notion goes, not of what it is.
var beside = []string{"for", "of", "at", "on", "in", "to", "with", "above", "below", "under", "along"}

// NotionKind is the kind of notion that a name tells: the last of its words that
// are one, as many of them as belong together. "collar buttons" are a button, and
// "press studs for the cuff" a press stud; ok is false where no word is a kind.
func NotionKind(name string) (kind string, ok bool) {
	words := stems(name)
	if i := slices.IndexFunc(words, func(word string) bool { return slices.Contains(beside, word) }); i > 0 {
		if kind, ok := lastKind(words[:i]); ok {
			return kind, true
		}
	}
	return lastKind(words)
}

// lastKind is the kind of notion that stands last among words.
func lastKind(words []string) (kind string, ok bool) {
	for end := len(words); end > 0; end-- {
		for begin := max(0, end-4); begin < end; begin++ {
			if kind, ok := notionData()[strings.Join(words[begin:end], " ")]; ok {
				return kind, true
			}
		}
	}
	return "", false
}

// NotionKinds are all kinds of notions that are known, in the order of the alphabet.
func NotionKinds() []string {
	var out []string
	for _, name := range notionData() {
		out = append(out, name)
	}
	slices.Sort(out)
	return out
}
