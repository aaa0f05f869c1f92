package record

import (
	"bytes"
	"strings"

	"gopkg.in/yaml.v3"
)

// redact returns the record's text without its private parts, for the page
// that shows the record. A private part that begins and ends on one line loses
// its value; any other loses its lines, and so do the comments around it. nil
// is returned, and no record shown, where a part cannot be cut out surely.
func redact(text []byte, hides []*yaml.Node) []byte {
	lines := strings.SplitAfter(string(text), "\n")
	drop := make([]bool, len(lines))
	for _, n := range hides {
		if n.Line < 1 || n.Line > len(lines) {
			return nil
		}
		if !dropWhole(lines, drop, n) && !blank(lines, n) {
			return nil
		}
	}
	for _, n := range hides {
		if n.Kind != yaml.ScalarNode && !allDropped(drop, n) {
			return nil
		}
	}
	var out bytes.Buffer
	for i, l := range lines {
		if !drop[i] {
			out.WriteString(l)
		}
	}
	return out.Bytes()
}

// allDropped makes sure that no line of the part is left.
func allDropped(drop []bool, n *yaml.Node) bool {
	if n.Line < 1 || n.Line > len(drop) || !drop[n.Line-1] {
		return false
	}
	for _, c := range n.Content {
		if !allDropped(drop, c) {
			return false
		}
	}
	return true
}

// dropWhole drops the lines of a private part that is an entry of a block
// mapping: the line of its key and all that is indented deeper, with the
// comment lines above. It refuses where the key shares its line with others.
func dropWhole(lines []string, drop []bool, n *yaml.Node) bool {
	key := n.Line - 1
	head := lines[key]
	if !startsEntry(head) {
		key = keyAbove(lines, key)
		if key < 0 {
			return false
		}
		head = lines[key]
	}
	indent := len(head) - len(strings.TrimLeft(head, " "))
	drop[key] = true
	last := key
	for i := key + 1; i < len(lines); i++ {
		body := strings.TrimSpace(lines[i])
		deep := len(lines[i]) - len(strings.TrimLeft(lines[i], " "))
		if body != "" && deep <= indent && beginsAnew(body) && !(n.Kind == yaml.SequenceNode && deep == indent && strings.HasPrefix(body, "-")) {
			break
		}
		if body != "" {
			last = i
		}
	}
	for i := key; i <= last; i++ {
		drop[i] = true
	}
	for i := key - 1; i >= 0 && strings.HasPrefix(strings.TrimSpace(lines[i]), "#"); i-- {
		drop[i] = true
	}
	return true
}

// beginsAnew reports whether a line that is not indented deeper than a private
// part's key really begins something else, and is not the part running on.
func beginsAnew(body string) bool {
	key, value, found := strings.Cut(body, ":")
	return strings.HasPrefix(body, "- ") || strings.HasPrefix(body, "#") ||
		found && (value == "" || value[0] == ' ') && !strings.ContainsAny(key, "{}[],")
}

// keyAbove finds the line of the key whose value begins on a later line, past
// comments and empty lines; -1 where there is none.
func keyAbove(lines []string, from int) int {
	for i := from - 1; i >= 0; i-- {
		body := strings.TrimSpace(lines[i])
		if body == "" || strings.HasPrefix(body, "#") {
			continue
		}
		if !startsEntry(lines[i]) {
			return -1
		}
		value, _, _ := strings.Cut(lines[i][strings.Index(lines[i], ":")+1:], " #")
		if strings.TrimSpace(value) != "" {
			return -1
		}
		return i
	}
	return -1
}

// startsEntry reports whether the line holds nothing before the part but its
// own key: "  costs: …".
func startsEntry(line string) bool {
	body := strings.TrimLeft(line, " ")
	for _, key := range []string{"wearer", "costs", "private", "price", "from", "labour", "address", "country", "value"} {
		if rest, ok := strings.CutPrefix(body, key); ok && strings.HasPrefix(strings.TrimLeft(rest, " "), ":") {
			return true
		}
	}
	return false
}

// blank replaces a private value that shares its line with others, and drops
// the comment at the line's end.
func blank(lines []string, n *yaml.Node) bool {
	if n.Kind != yaml.ScalarNode || n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0 || strings.Contains(n.Value, "\n") {
		return false
	}
	line := []rune(lines[n.Line-1])
	start := n.Column - 1
	if start > len(line) {
		return false
	}
	raw, ok := rawScalar(string(line[start:]), n)
	if !ok {
		return false
	}
	rest := string(line[start:])[len(raw):]
	if i := strings.Index(rest, " #"); i >= 0 {
		rest = rest[:i] + "\n"
	}
	lines[n.Line-1] = string(line[:start]) + "private" + rest
	return true
}

// rawScalar is the scalar as it stands in the file.
func rawScalar(s string, n *yaml.Node) (string, bool) {
	if i := strings.IndexAny(s, "&!"); i == 0 {
		return "", false
	}
	switch {
	case n.Style&yaml.DoubleQuotedStyle != 0:
		for i := 1; i < len(s); i++ {
			if s[i] == '\\' {
				i++
			} else if s[i] == '"' {
				return s[:i+1], true
			}
		}
		return "", false
	case n.Style&yaml.SingleQuotedStyle != 0:
		for i := 1; i < len(s); i++ {
			if s[i] != '\'' {
				continue
			}
			if i+1 < len(s) && s[i+1] == '\'' {
				i++
				continue
			}
			return s[:i+1], true
		}
		return "", false
	}
	return n.Value, strings.HasPrefix(s, n.Value)
}
