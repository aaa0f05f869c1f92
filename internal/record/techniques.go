package record

import (
	"maps"
	"slices"
	"strings"
)

// noTechnique is what is written where nothing leads to a page.
const noTechnique = "none"

// The ways tell which page of techniques belongs to what is done: by the seam type
// or finish it makes, and by the words of its names.
type ways struct {
	makes map[string]string  // by type: the page; "" where several make it and none is called after it
	calls map[string][]wayOf // by the first word of a name
}

// A wayOf is one name of a technique, as the stems of its words.
type wayOf struct {
	page  string
	stems []string
}

// readWays notes what the pages of techniques make and how they are called.
func (r *Room) readWays() {
	r.ways = ways{map[string]string{}, map[string][]wayOf{}}
	after := map[string]bool{} // types whose page is called after them
	for _, t := range r.Techniques {
		for _, kind := range t.Seams {
			had, several := r.ways.makes[kind.V]
			switch named := t.Slug == kind.V || strings.HasPrefix(t.Slug, kind.V+"-"); {
			case named && !after[kind.V]:
				r.ways.makes[kind.V], after[kind.V] = t.Slug, true
			case after[kind.V] && !named, several && had == t.Slug:
			case several:
				r.ways.makes[kind.V] = ""
			default:
				r.ways.makes[kind.V] = t.Slug
			}
		}
		for _, name := range append([]Text{t.Name}, t.Also...) {
			if stems := stemsOf(name.V); len(stems) > 0 {
				r.ways.calls[stems[0]] = append(r.ways.calls[stems[0]], wayOf{t.Slug, stems})
			}
		}
	}
}

// PageMaking is the technique whose page makes a seam type or finish: the only one,
// or that which is called after it, as french-seam after french. "" where there is none.
func (r *Room) PageMaking(kind string) string { return r.ways.makes[kind] }

// PageCalled is the technique that a step is called after: all words of one of its
// names are in the step's, in any order and with whatever ending. Of several it is
// that with the longest name; "" where there is none, or two are as long.
func (r *Room) PageCalled(step string) string {
	if len(r.ways.calls) == 0 {
		return ""
	}
	said := stemsOf(step)
	page, longest := "", 0
	for _, first := range said {
		for _, w := range r.ways.calls[first] {
			n := len(w.stems)
			if n < longest || slices.ContainsFunc(w.stems, func(s string) bool { return !slices.Contains(said, s) }) {
				continue
			}
			if n == longest && page != w.page {
				page = ""
				continue
			}
			page, longest = w.page, n
		}
	}
	return page
}

// SameWays reports whether in both rooms the same pages belong to what is done.
func SameWays(a, b *Room) bool {
	return maps.Equal(a.ways.makes, b.ways.makes) &&
		maps.EqualFunc(a.ways.calls, b.ways.calls, func(x, y []wayOf) bool {
			return slices.EqualFunc(x, y, func(p, q wayOf) bool { return p.page == q.page && slices.Equal(p.stems, q.stems) })
		})
}

// smallStems are words that tell nothing of what is done.
var smallStems = []string{"a", "an", "and", "at", "by", "for", "from", "in", "of", "on", "the", "to", "with"}

// stemsOf are the words of a name without their endings, small words left out.
func stemsOf(name string) []string {
	var out []string
	for word := range strings.SplitSeq(AsStep(name), "-") {
		if word != "" && !slices.Contains(smallStems, word) {
			out = append(out, verbStem(word))
		}
	}
	return out
}

// verbStem is a word without the ending it has in "felling", "felled" or "fells". Only what
// is done is compared so: of names of things words.Stem takes the plural alone, for "binding"
// and "bind", "lining" and "line" are different things.
func verbStem(word string) string {
	for _, end := range [...]string{"ing", "ed", "es", "s", "e"} {
		if short, ok := strings.CutSuffix(word, end); ok && len(short) >= 3 {
			word = short
			break
		}
	}
	if n := len(word); n > 3 && word[n-1] == word[n-2] {
		word = word[:n-1]
	}
	return word
}

// settleTechniques says of seams, finishes and steps without a page which one tells
// how they are done, where that follows from what is done.
func (r *Room) settleTechniques(b *Build) {
	made := map[string]string{} // by seam or finish: the page that makes it
	settle := func(name, kind Text, said *Text) {
		follows := r.PageMaking(kind.V)
		switch {
		case said.V == noTechnique:
			*said = Text{}
		case !said.Given() && follows != "":
			*said = Text{follows, kind.At}
		}
		if said.Given() && (said.V == follows || r.makes(said.V, kind.V)) {
			made[name.V] = said.V
		}
	}
	for i := range b.Seams {
		s := &b.Seams[i]
		settle(s.Name, s.Type, &s.Technique)
	}
	for i := range b.Finishes {
		f := &b.Finishes[i]
		settle(f.Name, f.Type, &f.Technique)
	}
	for i := range b.Work {
		s := &b.Work[i]
		if s.Technique.V == noTechnique {
			s.Technique = Text{}
			continue
		}
		if s.Technique.Given() {
			continue
		}
		if page := r.PageCalled(s.Do.V); page != "" {
			s.Technique = Text{page, s.Do.At}
		} else if page := oneOf(s.Sews, made); page != "" && (s.Stage.V == "sewing" || s.Stage.V == "finishing") {
			s.Technique = Text{page, s.Do.At}
		}
	}
}

// makes reports whether a page says that it makes a type.
func (r *Room) makes(page, kind string) bool {
	t, ok := r.techniques[page]
	return ok && slices.ContainsFunc(t.Seams, func(s Text) bool { return s.V == kind })
}

// oneOf is the one page that makes all that is sewn; "" where there is none.
func oneOf(sewn List[Text], made map[string]string) string {
	page := ""
	for i, name := range sewn {
		if page = made[name.V]; page == "" || i > 0 && page != made[sewn[0].V] {
			return ""
		}
	}
	return page
}
