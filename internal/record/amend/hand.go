package amend

import (
	"regexp"
	"strings"

	"gopkg.in/yaml.v3"

	"hembook/internal/record/extent"
)

// A hand is the way a record is written, so that what is added looks like its
// neighbours.
type hand struct {
	lineEnd string
	deeper  int  // spaces by which a group's names stand deeper than its own
	dash    int  // spaces by which a list's dashes stand deeper than its name
	gap     int  // columns from a dash to what follows it
	braces  bool // groups in a list are written in braces
	quote   bool // quote every text
}

// hand looks at how the record is written around an offset.
func (d *source) hand(at int) hand {
	h := hand{lineEnd: d.lineEnd(at), gap: 2, braces: true}
	dashes := -1
	var look func(n *yaml.Node)
	look = func(n *yaml.Node) {
		for i := 1; n.Kind == yaml.MappingNode && !isFlow(n) && i < len(n.Content); i += 2 {
			v := n.Content[i]
			if isFlow(v) || len(v.Content) == 0 || v.Kind != yaml.MappingNode && v.Kind != yaml.SequenceNode {
				continue
			}
			deeper := d.startColumn(v) - d.startColumn(n)
			if v.Kind == yaml.MappingNode && h.deeper == 0 && deeper > 0 {
				h.deeper = deeper
			}
			if v.Kind == yaml.SequenceNode && dashes < 0 {
				dashes = deeper
			}
		}
		for _, c := range n.Content {
			look(c)
		}
	}
	look(d.root)
	if h.deeper == 0 || h.deeper > 12 {
		h.deeper = 2
	}
	if h.dash = dashes; dashes < 0 || dashes > 12 {
		h.dash = h.deeper
	}
	return h
}

// startColumn is how many characters stand before a list's first dash or a
// group's first name.
func (d *source) startColumn(n *yaml.Node) int {
	at, _ := d.Content(n)
	if at < 0 || at > len(d.Bytes) {
		return 0
	}
	return d.Column(at)
}

// block is a value as it is written after a name and its colon, or after a
// dash; col is the column of that name or dash.
func (h hand) block(v Value, col int) string {
	switch {
	case v.kind == words && h.fitsLiteral(v.text):
		return h.literal(v.text, col+h.deeper)
	case v.kind == list && len(v.items) > 0:
		var b strings.Builder
		for _, item := range v.items {
			b.WriteString(h.lineEnd + h.item(item, col+h.dash))
		}
		return b.String()
	case v.kind == group && len(v.fields) > 0:
		return h.lineEnd + pad(col+h.deeper) + h.names(v, col+h.deeper)
	}
	return " " + h.flow(v, false)
}

// item is one entry of a list, from the start of its line, without its end.
func (h hand) item(v Value, col int) string {
	head := pad(col) + "-"
	switch {
	case v.kind == words && h.fitsLiteral(v.text):
		return head + strings.Repeat(" ", h.gap-1) + strings.TrimPrefix(h.literal(v.text, col+2), " ")
	case v.kind == group && !h.braces && len(v.fields) > 0:
		return head + strings.Repeat(" ", h.gap-1) + h.names(v, col+h.gap)
	}
	return head + strings.Repeat(" ", h.gap-1) + h.flow(v, false)
}

// names are the names and values of a group below each other, the first one
// without its indentation.
func (h hand) names(v Value, col int) string {
	lines := make([]string, len(v.fields))
	inner := h
	inner.braces = true
	for i, f := range v.fields {
		lines[i] = inner.pair(f, col)
	}
	return strings.Join(lines, h.lineEnd+pad(col))
}

// pair is a name with its value, below other names at a column.
func (h hand) pair(f Field, col int) string {
	return h.text(f.Name, true, true) + ":" + h.block(f.Value, col)
}

// flow is a value on one line; within is true inside brackets.
func (h hand) flow(v Value, within bool) string {
	switch v.kind {
	case bare:
		return v.text
	case list:
		parts := make([]string, len(v.items))
		for i, item := range v.items {
			parts[i] = h.flow(item, true)
		}
		return "[" + strings.Join(parts, ", ") + "]"
	case group:
		parts := make([]string, len(v.fields))
		for i, f := range v.fields {
			parts[i] = h.flowPair(f)
		}
		return "{" + strings.Join(parts, ", ") + "}"
	}
	return h.text(v.text, within, false)
}

func (h hand) flowPair(f Field) string {
	return h.text(f.Name, true, true) + ": " + h.flow(f.Value, true)
}

// text is a text on one line, quoted where YAML would read it otherwise, or
// end it early.
func (h hand) text(s string, within, name bool) string {
	if !h.quote && isPlain(s, within) && !(name && isDate(s)) {
		return s
	}
	return doubleQuoted(s)
}

// fitsLiteral reports whether a text of several lines can be written line by
// line below its name.
func (h hand) fitsLiteral(s string) bool {
	first, _, several := strings.Cut(s, "\n")
	return several && !h.quote && first != "" && !extent.IsBlank(first[0]) &&
		strings.TrimRight(first, " \t") != "" && !strings.HasSuffix(s, "\n\n") &&
		!strings.Contains(s, " \n") && !strings.HasSuffix(s, " ") && !strings.Contains(s, "\t\n")
}

func (h hand) literal(s string, col int) string {
	mark := " |-"
	if strings.HasSuffix(s, "\n") {
		mark, s = " |", strings.TrimSuffix(s, "\n")
	}
	var b strings.Builder
	b.WriteString(mark)
	for line := range strings.SplitSeq(s, "\n") {
		b.WriteString(h.lineEnd)
		if line != "" {
			b.WriteString(pad(col) + line)
		}
	}
	return b.String()
}

func pad(n int) string { return strings.Repeat(" ", max(n, 0)) }

// What YAML 1.1 or 1.2 reads as something else than text: nothing, truth,
// numbers of every spelling, and 1:20, which YAML 1.1 counts in sixties
// (yaml.org/type: null, bool, int, float).
var (
	looksOther  = regexp.MustCompile(`(?i)^(~|null|y|n|yes|no|on|off|true|false|=|<<|\.nan|[-+]?\.inf)$`)
	looksNumber = regexp.MustCompile(`(?i)^[-+]?(0[xob])?[0-9a-f_.,]*[0-9_.][0-9a-f_.,]*(e[-+]?[0-9_]*)?$`)
	looksSixty  = regexp.MustCompile(`^[-+]?[0-9][0-9_]*(:[0-9_]+)+(\.[0-9_]*)?$`)
	looksTime   = regexp.MustCompile(`^[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}`)
	hasDigit    = regexp.MustCompile(`[0-9]`)
)

// isPlain reports whether a text may stand without quotes.
func isPlain(s string, within bool) bool {
	if s == "" || strings.TrimSpace(s) != s || strings.ContainsAny(s, "\n\t") {
		return false
	}
	if isDate(s) {
		return true
	}
	if looksOther.MatchString(s) || looksTime.MatchString(s) || looksSixty.MatchString(s) ||
		looksNumber.MatchString(s) && hasDigit.MatchString(s) {
		return false
	}
	if strings.IndexByte("-?:,[]{}#&*!|>'\"%@`=.~", s[0]) >= 0 && !isSignedUnit(s) {
		return false
	}
	if strings.Contains(s, ": ") || strings.HasSuffix(s, ":") || strings.Contains(s, " #") {
		return false
	}
	return !within || !strings.ContainsAny(s, ",[]{}?") && !strings.Contains(s, ":")
}

// isSignedUnit lets a negative length such as -6 mm stand plain.
func isSignedUnit(s string) bool { return len(s) > 1 && s[0] == '-' && extent.IsAlnum(s[1]) }

// doubleQuoted writes a text so that any YAML reader gives it back.
func doubleQuoted(s string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", `\n`, "\t", `\t`).Replace(s) + `"`
}

// singleQuoted is for a text on one line.
func singleQuoted(s string) string { return "'" + strings.ReplaceAll(s, "'", "''") + "'" }
