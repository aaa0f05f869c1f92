package record

import (
	"reflect"
	"sync"

	"hembook/internal/meant"
)

// wordsKnown are the words of builds and of all groups in them, each with the types of
// its values.
var wordsKnown = sync.OnceValue(func() map[string][]reflect.Type {
	out := map[string][]reflect.Type{}
	seen := map[reflect.Type]bool{}
	var see func(t reflect.Type)
	see = func(t reflect.Type) {
		if seen[t] {
			return
		}
		seen[t] = true
		switch k := kindOf(t).(type) {
		case *structKind:
			p := k.planned()
			for i := range p.fields {
				out[p.fields[i].key] = append(out[p.fields[i].key], p.fields[i].of)
				see(p.fields[i].of)
			}
			if p.rest >= 0 {
				see(p.ofRest.of)
			}
		case *keyedKind:
			see(k.elem)
		case *listKind:
			see(k.elem)
		case *pointerKind:
			see(k.elem)
		}
	}
	see(reflect.TypeFor[Build]())
	return out
})

// knownWord reports whether a word is one of a build or of a group in it.
func knownWord(word string) bool { return len(wordsKnown()[word]) > 0 }

// groupWord reports whether a word of a build has a group as its value.
func groupWord(word string) bool {
	for _, t := range wordsKnown()[word] {
		switch kindOf(t).(type) {
		case *structKind, *keyedKind, *dictKind, *pointerKind:
			return true
		}
	}
	return false
}

// freeText reports whether a word of a build takes any words, commas among them.
func freeText(word string) bool {
	switch word {
	case "note", "saw", "did", "said", "text", "story", "summary", "name", "reason", "why":
		return true
	}
	return false
}

// SewingWord is the word of a seam, or of a finish, that was probably meant by one that
// neither it nor its type has; "" where none is near.
func SewingWord(finish bool, written string) string {
	of := reflect.TypeFor[Seam]()
	if finish {
		of = reflect.TypeFor[Finish]()
	}
	return meant.Nearest(written, kindOf(of).(*structKind).planned().keys)
}
