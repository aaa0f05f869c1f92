package amend

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"

	"hembook/internal/record/extent"
	"hembook/internal/say"
)

// How large a record may be, in bytes, and into how many values it may unfold
// through its aliases. The reader of records has the same bounds.
const (
	most       = 4 << 20
	mostValues = 200_000
)

// A source is a record's text with its tree and where its lines begin.
type source struct {
	extent.Text
	root  *yaml.Node
	given []byte
	used  map[*yaml.Node]bool // nodes that an alias stands for
}

// led is where a path led: the node, the groups and lists around it from
// the outside in, and the names that are missing below it.
type led struct {
	node  *yaml.Node
	above []*yaml.Node
	rest  []hop
}

// parent is the list or group around the place, nil at the top.
func (p led) parent() *yaml.Node {
	if len(p.above) == 0 {
		return nil
	}
	return p.above[len(p.above)-1]
}

// inFlow reports whether the place lies inside brackets or braces.
func (p led) inFlow() bool {
	return slices.ContainsFunc(p.above, isFlow)
}

func isFlow(n *yaml.Node) bool { return n.Style&yaml.FlowStyle != 0 }

// open reads the text and follows the path. A last line that does not end is
// ended first, and [source.try] takes that end off again.
func open(text []byte, at Path) (*source, led, error) {
	d, err := parse(text)
	if err != nil {
		return nil, led{}, err
	}
	if !endsLine(text) {
		if d, err = parse(append(text[:len(text):len(text)], d.lineEnd(len(text))...)); err != nil {
			return nil, led{}, err
		}
	}
	d.given = text
	d.used = map[*yaml.Node]bool{}
	markUsed(d.root, d.used)
	if d.root.Kind != yaml.MappingNode {
		return nil, led{}, refuse(d.root.Line, say.Of("amend.a-record-is-written-as-name-value"), say.Of("amend.this-record-is", shapeOf(d.root)))
	}
	p, err := d.follow(at)
	return d, p, err
}

func markUsed(n *yaml.Node, used map[*yaml.Node]bool) {
	if n.Kind == yaml.AliasNode {
		used[n.Alias] = true
	}
	for _, c := range n.Content {
		markUsed(c, used)
	}
}

// follow walks the path as far as it exists.
func (d *source) follow(at Path) (led, error) {
	p := led{node: d.root}
	if len(at.steps) == 0 {
		return p, refuse(0, say.Of("amend.say-which-part"), say.Of("amend.the-whole-record-cannot-be-changed-at"))
	}
	for i, s := range at.steps {
		n := p.node
		if !s.entry && isEmpty(n) || n.Kind == yaml.MappingNode && !s.entry && !d.has(n, s.name) {
			p.rest = at.steps[i:]
			return p, d.mayBegin(p, at)
		}
		next, err := d.into(n, s, Path{at.steps[:i]})
		if err != nil {
			return p, err
		}
		p.above = append(p.above, n)
		p.node = next
		if d.used[next] {
			return p, refuse(next.Line, say.Of("amend.write-it-out-where-stands-then-try", next.Anchor),
				say.Of("amend.is-marked-and-used-elsewhere-a-change", Path{at.steps[:i+1]}, next.Anchor))
		}
	}
	return p, nil
}

func (d *source) has(n *yaml.Node, name string) bool {
	for i := 0; i+1 < len(n.Content); i += 2 {
		if k := follow(n.Content[i]); k.Kind == yaml.ScalarNode && k.Value == name && k.Tag != "!!merge" {
			return true
		}
	}
	return false
}

// mayBegin refuses to begin what a path cannot, or what stands there already
// by way of a merged group and would be hidden.
func (d *source) mayBegin(p led, at Path) error {
	for _, s := range p.rest {
		if s.entry {
			return refuse(p.node.Line, say.Of("amend.add-to-the-list-instead"), say.Of("amend.there-is-no", at))
		}
	}
	budget := mostValues
	if found := lookUp(p.node, p.rest[0].name, &budget); found != nil && (found.Kind != yaml.ScalarNode || len(p.rest) > 1) {
		return refuse(p.node.Line, say.Of("amend.write-it-out-in-this-record-first"), say.Of("amend.comes-from-a-group-merged-with", p.rest[0].name))
	}
	return nil
}

// into goes one step that must exist.
func (d *source) into(n *yaml.Node, s hop, here Path) (*yaml.Node, error) {
	switch {
	case n.Kind == yaml.AliasNode:
		return nil, refuse(n.Line, say.Of("amend.write-it-out-here-first"), say.Of("amend.is-written-elsewhere", here, n.Value))
	case s.entry && n.Kind != yaml.SequenceNode:
		return nil, refuse(n.Line, "", say.Of("amend.is-not-a-list", here, shapeOf(n)))
	case s.entry:
		i, ok := s.in(n)
		if !ok {
			return nil, refuse(n.Line, "", say.Of("amend.has-entries-there-is-no", here, len(n.Content), Path{[]hop{s}}))
		}
		return n.Content[i], nil
	case n.Kind != yaml.MappingNode:
		return nil, refuse(n.Line, "", say.Of("amend.is-not-words-with-values", here, shapeOf(n)))
	}
	var found, key *yaml.Node
	for i := 0; i+1 < len(n.Content); i += 2 {
		k := follow(n.Content[i])
		if k.Kind != yaml.ScalarNode || k.Value != s.name || k.Tag == "!!merge" {
			continue
		}
		if found != nil {
			return nil, refuse(n.Content[i].Line, say.Of("amend.the-first-one-is-on-line-keep", strconv.Itoa(key.Line)), say.Of("amend.is-written-twice", say.Quoted(s.name)))
		}
		found, key = n.Content[i+1], n.Content[i]
	}
	return found, nil
}

// parse reads one document and nothing else.
func parse(text []byte) (*source, error) {
	if len(text) > most {
		return nil, refuse(0, "", say.Of("amend.this-record-is-larger-than-mb", most>>20))
	}
	d := &source{Text: extent.New(text), given: text}
	if at := notText(text); at >= 0 {
		return nil, refuse(d.LineOf(at), say.Of("amend.save-the-file-as-utf-8-text"), say.Of("amend.the-byte-0x-is-not-text", fmt.Sprintf("%02x", text[at])))
	}
	if line, found := extent.TooMany(text); found {
		return nil, refuse(int(line), say.Of("amend.keep-lists-of-something-else-in-a"), say.Of("amend.this-record-holds-more-than-values", extent.MostMarks))
	}
	dec := yaml.NewDecoder(bytes.NewReader(text))
	var doc, more yaml.Node
	err := decode(dec, &doc)
	switch {
	case errors.Is(err, io.EOF), err == nil && (len(doc.Content) == 0 || doc.Content[0].Kind == yaml.ScalarNode && isEmpty(doc.Content[0])):
		// An editor may be about to write the file it has just emptied.
		return nil, refuse(0, say.Of("amend.write-at-least-what-must-be-there"), say.Of("amend.this-record-is-empty"))
	case err != nil:
		return nil, notYAML(err)
	}
	switch err := decode(dec, &more); {
	case err == nil:
		return nil, refuse(more.Line, say.Of("amend.one-file-holds-one-record-move-the"), say.Of("amend.a-second-record-begins-here"))
	case !errors.Is(err, io.EOF):
		return nil, notYAML(err)
	}
	d.root = doc.Content[0]
	return d, nil
}

// decode keeps a slip of the YAML library on a strange text from ending the program.
func decode(dec *yaml.Decoder, into *yaml.Node) (err error) {
	defer func() {
		if recover() != nil {
			err = errors.New(say.Of("amend.it-cannot-be-read"))
		}
	}()
	return dec.Decode(into)
}

var lineOfError = regexp.MustCompile(`^line (\d+): `)

// notYAML turns the library's message into a refusal. The library leaves the
// line out where it is the first.
func notYAML(err error) error {
	msg := strings.TrimPrefix(err.Error(), "yaml: ")
	line := 1
	if m := lineOfError.FindStringSubmatch(msg); m != nil {
		line, _ = strconv.Atoi(m[1])
		msg = msg[len(m[0]):]
	}
	return refuse(line, "", say.Of("amend.this-is-not-yaml", msg))
}

// lineEnd is the line break that is usual around an offset: that of the line
// before, or else of the line itself, or else "\n".
func (d *source) lineEnd(at int) string {
	line := d.LineOf(at)
	for _, l := range []int{line - 1, line} {
		if l < 1 {
			continue
		}
		end := d.RestOfLine(d.Lines[l-1])
		switch brk := string(d.Bytes[end : end+extent.BreakAt(d.Bytes, end)]); brk {
		case "\n", "\r\n", "\r":
			return brk
		}
	}
	return "\n"
}

// notText is the offset of the first byte that is not UTF-8 text, or -1.
func notText(text []byte) int {
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRune(text[i:])
		if r == utf8.RuneError && size == 1 || r == 0 {
			return i
		}
		i += size
	}
	return -1
}

// endsLine reports whether the text's last line ends with a line break.
func endsLine(text []byte) bool {
	for n := 1; n <= 3 && n <= len(text); n++ {
		if extent.BreakAt(text, len(text)-n) == n {
			return true
		}
	}
	return false
}
