// Package svg reads the pieces that an SVG file draws, and writes pieces and
// lays as SVG (SVG 2, W3C; units and pixels by CSS Values and Units 3: 96
// pixels to the inch).
//
// It promises to follow every path command, every basic shape, nested
// transforms, symbols and the size the file states; to name the element, line
// and column of whatever it cannot follow; and to fetch nothing: pictures are
// passed over, references to other files and entities of the file's own are
// refused. Bad input never panics. y runs up in what it returns, down in the
// file.
//
// It leaves out text, strokes' widths, clipping, masks and animation, and all
// of CSS but what hides an element. What lines mean is the trace package's
// matter.
package svg

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"hembook/internal/fault"
	"hembook/internal/say"
	"hembook/internal/shape/trace"
)

// What a file may ask for.
const (
	MostBytes    = 32 << 20
	mostElements = 200_000
	mostDepth    = 200
	mostUses     = 10_000  // references followed
	mostNested   = 16      // references within references
	mostParts    = 500_000 // of all lines together
)

// A node is one element.
type node struct {
	name         string
	attr         []xml.Attr
	kids         []*node
	title        string
	line, column int
	hidden       bool
}

// get is the value of an attribute without a name space.
func (n *node) get(name string) string {
	for _, a := range n.attr {
		if a.Name.Local == name && a.Name.Space == "" {
			return a.Value
		}
	}
	return ""
}

// id and label are the two ways an element may be named.
func (n *node) id() string { return n.get("id") }

func (n *node) label() string {
	for _, a := range n.attr {
		if a.Name.Local == "label" || a.Name.Local == "data-name" {
			return strings.TrimSpace(a.Value)
		}
	}
	return n.title
}

// called is the name a maker gave the element; empty where a program did.
func (n *node) called() string {
	if l := n.label(); l != "" && !trace.Automatic(l) {
		return l
	}
	if id := trace.FromID(n.id()); !trace.Automatic(id) {
		return id
	}
	return ""
}

func (n *node) where() trace.Where {
	what := n.name
	if name := n.called(); name != "" {
		what += fmt.Sprintf(" %q", name)
	} else if n.id() != "" {
		what += fmt.Sprintf(" %q", n.id())
	}
	return trace.Where{Line: n.line, Column: n.column, What: what}
}

// Read reads the pieces a file draws, in the file's own units; a nil drawing
// comes with the fault.
func Read(text []byte) (*trace.Drawing, *fault.Fault) {
	root, fault := parse(text)
	if fault != nil {
		return nil, fault
	}
	return draw(root)
}

func wrong(at trace.Where, hint, message string) *fault.Fault {
	f := trace.FaultAt(at, hint, message)
	return &f
}

// otherCharset is how the letters of a file are written that are not UTF-8.
type otherCharset string

func (c otherCharset) Error() string { return say.Of("svg.its-letters-are-written-as", string(c)) }

// parse reads the elements of the file.
func parse(text []byte) (*node, *fault.Fault) {
	if f := refuse(text); f != nil {
		return nil, f
	}
	p := &parser{dec: xml.NewDecoder(bytes.NewReader(bytes.TrimPrefix(text, []byte("\xef\xbb\xbf"))))}
	p.dec.CharsetReader = func(charset string, input io.Reader) (io.Reader, error) {
		if strings.EqualFold(charset, "us-ascii") {
			return input, nil
		}
		return nil, otherCharset(charset)
	}
	for {
		line, column := p.dec.InputPos()
		token, err := p.dec.Token()
		if err != nil {
			if errors.Is(err, io.EOF) {
				break
			}
			return nil, p.syntax(err)
		}
		if f := p.take(token, line, column); f != nil {
			return nil, f
		}
	}
	if p.root == nil {
		return nil, wrong(trace.Where{}, "", say.Of("svg.it-holds-no-svg-element"))
	}
	return p.root, nil
}

// refuse finds what is no SVG file, or not one that is read, at a glance.
func refuse(text []byte) *fault.Fault {
	switch {
	case len(text) > MostBytes:
		return wrong(trace.Where{}, say.Of("svg.take-out-pictures-that-were-put-into"), say.Of("svg.it-is-mb-at-most-mb-are", len(text)>>20, MostBytes>>20))
	case bytes.HasPrefix(text, []byte("\x1f\x8b")):
		return wrong(trace.Where{}, say.Of("svg.save-it-as-plain-svg"), say.Of("svg.it-is-compressed"))
	case bytes.HasPrefix(text, []byte("\xff\xfe")), bytes.HasPrefix(text, []byte("\xfe\xff")):
		return wrong(trace.Where{}, say.Of("svg.save-it-as-utf-8"), say.Of("svg.its-letters-are-written-as-utf-16"))
	case !utf8.Valid(text):
		return wrong(trace.Where{}, say.Of("svg.save-it-as-utf-8"), say.Of("svg.it-holds-bytes-that-are-not-text"))
	}
	return nil
}

// A parser builds the tree of elements.
type parser struct {
	dec   *xml.Decoder
	root  *node
	open  []*node
	skip  int // elements of other name spaces that are open
	count int
	style hiding
}

func (p *parser) syntax(err error) *fault.Fault {
	line, column := p.dec.InputPos()
	var s *xml.SyntaxError
	msg := err.Error()
	if errors.As(err, &s) {
		msg, line = s.Msg, s.Line
		if strings.Contains(msg, "invalid character entity") {
			return wrong(trace.Where{Line: line, What: "entity"}, say.Of("svg.save-it-as-plain-svg"), say.Of("svg.is-not-one-of-xmls-own", strings.TrimPrefix(msg, "invalid character entity ")))
		}
	}
	if rest, ok := strings.CutPrefix(msg, "xml: "); ok {
		msg = rest
	}
	var other otherCharset
	if errors.As(err, &other) {
		return wrong(trace.Where{Line: 1, What: "file"}, say.Of("svg.save-it-as-utf-8"), other.Error())
	}
	return wrong(trace.Where{Line: line, Column: column, What: "file"}, say.Of("svg.save-it-again-from-the-drawing-program"), say.Of("svg.it-is-not-whole-xml", msg))
}

const nameSpace = "http://www.w3.org/2000/svg"

func (p *parser) take(token xml.Token, line, column int) *fault.Fault {
	switch t := token.(type) {
	case xml.Directive:
		if bytes.Contains(bytes.ToUpper(t), []byte("<!ENTITY")) {
			return wrong(trace.Where{Line: line, Column: column, What: "DOCTYPE"}, say.Of("svg.save-it-as-plain-svg"), say.Of("svg.it-has-entities-which-are-not-read"))
		}
	case xml.StartElement:
		return p.start(t, line, column)
	case xml.EndElement:
		if p.skip > 0 {
			p.skip--
		} else {
			p.open = p.open[:len(p.open)-1]
		}
	case xml.CharData:
		if n := len(p.open); n > 0 && p.skip == 0 {
			p.words(p.open[n-1], string(t))
		}
	}
	return nil
}

func (p *parser) start(t xml.StartElement, line, column int) *fault.Fault {
	if p.skip > 0 || t.Name.Space != nameSpace && t.Name.Space != "" {
		if len(p.open) == 0 && p.skip == 0 {
			return wrong(trace.Where{Line: line, Column: column, What: t.Name.Local}, "", say.Of("svg.this-is-not-an-svg-file"))
		}
		if p.skip++; p.skip > mostDepth {
			return wrong(trace.Where{Line: line, Column: column, What: t.Name.Local}, "", say.Of("svg.elements-are-nested-more-than-deep", mostDepth))
		}
		return nil
	}
	n := &node{name: t.Name.Local, attr: t.Attr, line: line, column: column}
	at := trace.Where{Line: line, Column: column, What: n.name}
	if p.count++; p.count > mostElements {
		return wrong(at, "", say.Of("svg.there-are-more-than-elements", mostElements))
	}
	switch depth := len(p.open); {
	case depth >= mostDepth:
		return wrong(at, "", say.Of("svg.elements-are-nested-more-than-deep", mostDepth))
	case depth > 0:
		up := p.open[depth-1]
		up.kids = append(up.kids, n)
	case p.root != nil || n.name != "svg":
		return wrong(at, "", say.Of("svg.this-is-not-an-svg-file-its", say.Quoted(n.name)))
	default:
		p.root = n
	}
	n.hidden = p.style.hides(n)
	p.open = append(p.open, n)
	return nil
}

// words takes in titles and style sheets.
func (p *parser) words(n *node, text string) {
	switch n.name {
	case "title":
		if len(p.open) > 1 {
			up := p.open[len(p.open)-2]
			up.title = strings.TrimSpace(up.title + text)
		}
	case "style":
		p.style.add(text)
	}
}
