package svg

import (
	"regexp"
	"slices"
	"strings"
)

// hiding is what the style sheets of a file hide: "*", "#id", ".class" and
// element names. Everything else of CSS is passed over.
type hiding struct{ hidden []string }

var (
	cssRemark = regexp.MustCompile(`(?s)/\*.*?\*/`)
	cssRule   = regexp.MustCompile(`([^{}]+)\{([^{}]*)\}`)
	cssHides  = regexp.MustCompile(`(?:^|[;\s])(?:display\s*:\s*none|visibility\s*:\s*(?:hidden|collapse))`)
)

func (s *hiding) add(text string) {
	for _, m := range cssRule.FindAllStringSubmatch(cssRemark.ReplaceAllString(text, " "), -1) {
		if !cssHides.MatchString(m[2]) {
			continue
		}
		for _, one := range strings.Split(m[1], ",") {
			s.hidden = append(s.hidden, strings.TrimSpace(one))
		}
	}
}

// hides reports whether an element is not shown, by its attributes or by a
// style sheet before it.
func (s *hiding) hides(n *node) bool {
	if n.get("display") == "none" || n.get("visibility") == "hidden" || cssHides.MatchString(n.get("style")) {
		return true
	}
	if len(s.hidden) == 0 {
		return false
	}
	names := []string{n.name}
	if id := n.id(); id != "" {
		names = append(names, "#"+id)
	}
	for _, c := range strings.Fields(n.get("class")) {
		names = append(names, "."+c, n.name+"."+c)
	}
	return slices.ContainsFunc(names, func(x string) bool { return slices.Contains(s.hidden, x) })
}
