package prose

import (
	"bytes"
	"strings"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"
)

// A Kind is what a link leads to.
type Kind string

// The kinds of link. The first five are by name.
const (
	ToTechnique Kind = "technique"
	ToCloth     Kind = "cloth"
	ToBuild     Kind = "build"
	ToTerm      Kind = "term"
	ToPage      Kind = "page"
	ToPicture   Kind = "picture" // a picture beside the text
	ToFigure    Kind = "figure"  // a figure of the garment that the text is of, by its name
	ToDrawing   Kind = "drawing" // a drawing that the program has, by its name, in a paragraph of its own
	ToWeb       Kind = "web"     // an http, https or mailto address
	ToHere      Kind = "here"    // a place in the same text: #fine-cloth
	Refused     Kind = "refused" // any other address
	Markup      Kind = "markup"  // HTML, which is dropped; no link, but listed with them so that the maker hears of it
)

// ByName reports whether links of this kind name a page of the notebook.
func (k Kind) ByName() bool {
	switch k {
	case ToTechnique, ToCloth, ToBuild, ToTerm, ToPage:
		return true
	}
	return false
}

// A Link is a link or picture of a text with the place where it stands in it.
type Link struct {
	Kind   Kind
	Name   string // what is named; the whole address where it is not by name
	Line   int    // in the text, from 1
	Column int    // in characters, from 1
}

// found is a link with its node.
type found struct {
	Link
	node ast.Node
}

// Links lists the links and pictures of the text in order.
func (t *Text) Links() []Link {
	out := make([]Link, len(t.links))
	for i, l := range t.links {
		out[i] = l.Link
	}
	return out
}

func (t *Text) findLinks() []found {
	if !bytes.ContainsAny(t.source, "[<") {
		return nil // neither a link nor a picture nor an address in brackets
	}
	var out []found
	_ = ast.Walk(t.root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		var l Link
		switch n := n.(type) {
		case *ast.Link:
			l.Kind, l.Name = kindOf(string(n.Destination))
		case *ast.Image:
			l.Kind, l.Name = pictureKind(string(n.Destination))
			if l.Kind == ToDrawing && !alone(n) {
				l.Kind, l.Name = Refused, string(n.Destination)
			}
		case *ast.AutoLink:
			l.Kind, l.Name = kindOf(string(n.URL(t.source)))
			if n.AutoLinkType == ast.AutoLinkEmail {
				l.Kind = ToWeb
			}
		case *ast.RawHTML, *ast.HTMLBlock:
			if l.Name = t.markup(n); l.Name == "" {
				return ast.WalkContinue, nil
			}
			l.Kind = Markup
		default:
			return ast.WalkContinue, nil
		}
		l.Line, l.Column = t.place(n)
		out = append(out, found{l, n})
		return ast.WalkContinue, nil
	})
	return out
}

// markup is the HTML of a node as it was written; "" for a remark and for the
// end of something.
func (t *Text) markup(n ast.Node) string {
	var first []byte
	switch n := n.(type) {
	case *ast.RawHTML:
		if n.Segments.Len() > 0 {
			s := n.Segments.At(0)
			first = s.Value(t.source)
		}
	default:
		if n.Lines().Len() > 0 {
			s := n.Lines().At(0)
			first = s.Value(t.source)
		}
	}
	text := strings.TrimSpace(string(first))
	if strings.HasPrefix(text, "<!--") || strings.HasPrefix(text, "</") {
		return ""
	}
	return text
}

// kindOf sorts an address by its scheme.
func kindOf(dest string) (Kind, string) {
	scheme, rest, ok := strings.Cut(dest, ":")
	switch {
	case strings.HasPrefix(dest, "#") && len(dest) > 1:
		return ToHere, dest[1:]
	case !ok:
		return Refused, dest
	}
	switch strings.ToLower(scheme) {
	case "technique", "cloth", "build", "term", "page", "figure":
		return Kind(strings.ToLower(scheme)), unescape(rest)
	case "http", "https", "mailto":
		return ToWeb, dest
	}
	return Refused, dest
}

// alone reports whether a picture has a paragraph to itself.
func alone(n *ast.Image) bool {
	p := n.Parent()
	return p.Kind() == ast.KindParagraph && p.ChildCount() == 1
}

// pictureKind allows pictures that lie beside the text, drawings that the program has, and
// no other.
func pictureKind(dest string) (Kind, string) {
	if name, ok := strings.CutPrefix(dest, string(ToDrawing)+":"); ok {
		return ToDrawing, unescape(name)
	}
	if dest == "" || strings.ContainsAny(dest, ":\\") || strings.HasPrefix(dest, "/") || strings.HasPrefix(dest, "#") {
		return Refused, dest
	}
	return ToPicture, unescape(dest)
}

// unescape undoes %20 and the like, as names may be written with them.
func unescape(s string) string {
	if !strings.Contains(s, "%") {
		return s
	}
	var out []byte
	for i := 0; i < len(s); i++ {
		if s[i] == '%' && i+2 < len(s) && hex(s[i+1]) >= 0 && hex(s[i+2]) >= 0 {
			out = append(out, byte(hex(s[i+1])<<4|hex(s[i+2])))
			i += 2
			continue
		}
		out = append(out, s[i])
	}
	if !utf8.Valid(out) {
		return s
	}
	return string(out)
}

func hex(c byte) int {
	switch {
	case c >= '0' && c <= '9':
		return int(c - '0')
	case c >= 'a' && c <= 'f':
		return int(c-'a') + 10
	case c >= 'A' && c <= 'F':
		return int(c-'A') + 10
	}
	return -1
}

// place is the line and column where a node begins, or where the nearest node
// about it does.
func (t *Text) place(n ast.Node) (line, column int) {
	at := -1
	for ; n != nil && at < 0; n = n.Parent() {
		if at = n.Pos(); at < 0 && n.Type() == ast.TypeBlock && n.Lines() != nil && n.Lines().Len() > 0 {
			at = n.Lines().At(0).Start
		}
	}
	if at < 0 || at > len(t.source) {
		return 1, 1
	}
	before := t.source[:at]
	start := bytes.LastIndexByte(before, '\n') + 1
	return 1 + bytes.Count(before, []byte{'\n'}), 1 + utf8.RuneCount(before[start:])
}

// point writes into the link's node where it leads.
func (l found) point(t *Text, how How) {
	switch n := l.node.(type) {
	case *ast.Link:
		n.Title = nil
		n.Destination = nil
		switch {
		case l.Kind == ToWeb:
			n.Destination = []byte(l.Name)
		case l.Kind == ToHere:
			n.Destination = t.here(l.Name)
		case l.Kind == ToFigure && how.Figure != nil:
			if html, ok := how.Figure(nil, l.Name); ok {
				n.SetAttributeString(figureAttr, html)
			}
		case l.Kind.ByName() && how.Find != nil:
			if to, ok := how.Find(l.Link); ok {
				n.Destination = []byte(to.Address)
				if !n.HasChildren() {
					n.AppendChild(n, ast.NewString([]byte(to.Name)))
				}
			}
		}
		if !n.HasChildren() {
			n.AppendChild(n, ast.NewString([]byte(l.Name)))
		}
	case *ast.Image:
		n.Destination = nil
		switch alt := string(t.wordsOf(nil, n)); {
		case l.Kind == ToPicture && how.Picture != nil:
			if html, ok := how.Picture(nil, Picture{l.Name, alt, string(n.Title)}); ok {
				n.SetAttributeString(pictureAttr, html)
			}
		case l.Kind == ToDrawing && how.Drawing != nil:
			if html, ok := how.Drawing(nil, l.Name, alt); ok {
				n.SetAttributeString(pictureAttr, html)
				unwrap(n)
			}
		}
	}
}

// here is the way to a heading of the text by the words of its id, before which stands the
// text's prefix; nil where no heading has it.
func (t *Text) here(name string) (way []byte) {
	prefix := string(prefixOf(t.root))
	_ = ast.Walk(t.root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if _, heads := n.(*ast.Heading); !entering || !heads {
			return ast.WalkContinue, nil
		}
		if id, _ := n.AttributeString("id"); id != nil {
			if b, ok := id.([]byte); ok && (string(b) == prefix+name || string(b) == name) {
				way = append([]byte("#"), b...)
				return ast.WalkStop, nil
			}
		}
		return ast.WalkContinue, nil
	})
	return way
}

// unwrap takes the paragraph from about a drawing, which is a block itself.
func unwrap(n *ast.Image) {
	p := n.Parent()
	bare := ast.NewTextBlock()
	p.Parent().ReplaceChild(p.Parent(), p, bare)
	bare.AppendChild(bare, n)
}
