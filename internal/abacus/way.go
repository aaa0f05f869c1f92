package abacus

import (
	"slices"
	"strings"
)

// wayOf is the technique of a step: the one it names, or else that it is called after,
// or else the one page that makes all it sews.
func (g *garment) wayOf(s *step) string {
	if said := s.record.get("technique"); said.there() {
		if said.text() == "none" {
			return ""
		}
		return said.text()
	}
	if page := g.wayCalled(s.id); page != "" {
		return page
	}
	if stage := s.record.get("stage").text(); stage != "sewing" && stage != "finishing" {
		return ""
	}
	var pages []string
	for _, name := range s.record.get("sews").texts() {
		kind := ""
		for _, one := range g.seams {
			if one.name == name {
				kind = one.record.get("type").text()
			}
		}
		for _, one := range g.finishes {
			if one.name == name {
				kind = one.record.get("type").text()
			}
		}
		pages = append(pages, g.wayMaking(kind))
	}
	if len(pages) == 0 || slices.ContainsFunc(pages, func(p string) bool { return p != pages[0] }) {
		return ""
	}
	return pages[0]
}

// waysOf reads the headers of the techniques' pages.
func waysOf(room Workroom) map[string]node {
	out := map[string]node{}
	for name, text := range room {
		if page, ok := strings.CutPrefix(name, "content/techniques/"); ok && strings.HasSuffix(page, ".md") {
			out[strings.TrimSuffix(page, ".md")] = readYAML(name, strings.Split(text, "---\n")[1])
		}
	}
	return out
}

// wayMaking is the only page that makes a type, or of several that called after it.
func (g *garment) wayMaking(kind string) string {
	var making, after []string
	for page, header := range g.ways {
		if slices.Contains(header.get("seam").texts(), kind) {
			making = append(making, page)
			if page == kind || strings.HasPrefix(page, kind+"-") {
				after = append(after, page)
			}
		}
	}
	switch {
	case len(after) == 1:
		return after[0]
	case len(making) == 1:
		return making[0]
	}
	return ""
}

// wayCalled is the page all of whose name's words, or those of another name of it, are
// in a step's name, whatever their endings; the longest name of several.
func (g *garment) wayCalled(id string) string {
	bare := func(name string) (out []string) {
		for _, word := range strings.Split(slug(name), "-") {
			switch word {
			case "a", "an", "and", "at", "by", "for", "from", "in", "of", "on", "the", "to", "with":
				continue
			}
			for _, end := range []string{"ing", "ed", "es", "s", "e"} {
				if strings.HasSuffix(word, end) && len(word)-len(end) >= 3 {
					word = strings.TrimSuffix(word, end)
					break
				}
			}
			if n := len(word); n > 3 && word[n-1] == word[n-2] {
				word = word[:n-1]
			}
			out = append(out, word)
		}
		return out
	}
	said := bare(id)
	found := map[int][]string{} // by how many words
	for page, header := range g.ways {
		for _, name := range append([]string{header.get("name").text()}, header.get("also").texts()...) {
			words := bare(name)
			if !slices.ContainsFunc(words, func(w string) bool { return !slices.Contains(said, w) }) && !slices.Contains(found[len(words)], page) {
				found[len(words)] = append(found[len(words)], page)
			}
		}
	}
	for n := 9; n > 0; n-- {
		if len(found[n]) == 1 {
			return found[n][0]
		}
		if len(found[n]) > 1 {
			return ""
		}
	}
	return ""
}
