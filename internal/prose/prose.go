// Package prose turns what a maker writes in Markdown into HTML: stories,
// notes, journal entries, technique pages.
//
// Links to other pages are plain Markdown links by name, `technique:french-seam`,
// `cloth:rust-linen`, `build:supper-dress`, `term:ease`, `page:about`; one with
// no words of its own takes the name of what it leads to. A drawing that the program
// has is a picture by name, `![words](drawing:tape)`; a figure of the
// garment is `[](figure:level.waist.finished)`. The package promises
// that nothing but text, and markup made here, leaves it: raw HTML is dropped,
// addresses that could run something are refused, no inline style is written,
// and heading and footnote ids never clash between texts that are given
// different prefixes. It also writes a record as highlighted YAML.
//
// It does not know what pages exist: whoever renders a text says where a name
// leads.
package prose

import (
	"bytes"
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	east "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/renderer/html"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

// A Text is Markdown that has been read.
type Text struct {
	source []byte
	root   ast.Node
	links  []found
}

// How says how a text becomes HTML.
type How struct {
	// Top is the level that the text's highest headings get, 2 to 6; 2 where
	// it is not set. Lower ones follow without a gap.
	Top int
	// Find says where a link by name leads. Where it is nil or does not know
	// the name, the words stand without a link.
	Find func(Link) (Target, bool)
	// Picture writes a picture that lies beside the text. Where it is nil or
	// answers false, the words that stand in for the picture are written.
	Picture func(dst []byte, p Picture) ([]byte, bool)
	// Drawing writes a drawing that the program has, as a block; the words are what
	// is read where it is not seen. Where it is nil or answers false, they are written.
	Drawing func(dst []byte, name, words string) ([]byte, bool)
	// Figure writes a figure of the garment that the text is of. Where it is nil or answers
	// false, the link's words are written, or the figure's name.
	Figure func(dst []byte, name string) ([]byte, bool)
}

// A Target is where a link by name leads.
type Target struct {
	Address string // relative to the page that the text stands on
	Name    string // for links without words of their own
}

// A Picture is a picture named in a text.
type Picture struct{ File, Alt, Caption string }

// the parts of goldmark that are used; safe for use by many at once
var (
	markdown goldmark.Markdown
	reader   parser.Parser
	writer   renderer.Renderer
)

func init() {
	markdown = goldmark.New(
		goldmark.WithExtensions(
			extension.NewTable(extension.WithTableCellAlignMethod(extension.TableCellAlignNone)),
			extension.NewFootnote(
				extension.WithFootnoteIDPrefixFunction(prefixOf),
				extension.WithFootnoteBacklinkHTML("back to the text"),
				extension.WithFootnoteLinkClass("note-mark"),
				extension.WithFootnoteBacklinkClass("note-back"),
			),
			extension.DefinitionList,
			extension.Typographer,
		),
		goldmark.WithParserOptions(parser.WithAutoHeadingID()),
		goldmark.WithRenderer(renderer.NewRenderer(renderer.WithNodeRenderers(
			util.Prioritized(html.NewRenderer(), 1000),
		))),
		goldmark.WithRendererOptions(renderer.WithNodeRenderers(util.Prioritized(own{}, 100))),
	)
	reader, writer = markdown.Parser(), markdown.Renderer()
}

const prefixKey = "prefix"

// prefixOf is the prefix of the ids of the text that a footnote stands in.
func prefixOf(n ast.Node) []byte {
	if doc := n.OwnerDocument(); doc != nil {
		if p, ok := doc.Meta()[prefixKey].([]byte); ok {
			return p
		}
	}
	return nil
}

// Read reads Markdown. The prefix goes before the ids of its headings and
// footnotes, so that several texts can stand on one page.
func Read(source []byte, prefix string) *Text {
	ctx := parser.NewContext(parser.WithIDs(newIDs(prefix)))
	root := reader.Parse(text.NewReader(source), parser.WithContext(ctx))
	if doc, ok := root.(*ast.Document); ok && prefix != "" {
		doc.SetMeta(map[string]any{prefixKey: []byte(prefix)})
	}
	t := &Text{source: source, root: root}
	t.links = t.findLinks()
	return t
}

// HTML adds the text to dst as HTML. It may be called once for each Text.
func (t *Text) HTML(dst []byte, how How) []byte {
	for _, l := range t.links {
		l.point(t, how)
	}
	t.levelHeadings(how.Top)
	out := bytes.NewBuffer(dst)
	if err := writer.Render(out, t.source, t.root); err != nil {
		return dst // a buffer cannot fail
	}
	return tidy(out.Bytes(), len(dst))
}

// levelHeadings gives the highest headings the level top and closes gaps, so
// that no level is skipped on the way down.
func (t *Text) levelHeadings(top int) {
	if top < 2 || top > 6 {
		top = 2
	}
	var stack []int // levels as written, of the headings that are open
	_ = ast.Walk(t.root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		h, ok := n.(*ast.Heading)
		if !ok || !entering {
			return ast.WalkContinue, nil
		}
		for len(stack) > 0 && stack[len(stack)-1] >= h.Level {
			stack = stack[:len(stack)-1]
		}
		stack = append(stack, h.Level)
		h.Level = min(top+len(stack)-1, 6)
		return ast.WalkContinue, nil
	})
}

// Plain adds the words of the text to dst, markup left out, blocks separated
// by a line end, cells and headings by a dot: for search and descriptions. A link without words of its own is
// said by what it names.
func (t *Text) Plain(dst []byte) []byte { return t.plain(dst, t.root) }

// A Section is what stands under a heading of a text, up to the next heading of
// whatever level.
type Section struct {
	ID      string // of the heading; "" for what stands before the first
	Heading string
	Text    string // plain
}

// Sections parts the text at its headings. What stands before the first comes
// first, empty where nothing does.
func (t *Text) Sections() []Section {
	out := []Section{{}}
	var body []byte
	end := func() { out[len(out)-1].Text, body = string(body), body[:0] }
	for n := t.root.FirstChild(); n != nil; n = n.NextSibling() {
		if h, ok := n.(*ast.Heading); ok {
			end()
			id, _ := h.AttributeString("id")
			name, _ := id.([]byte)
			out = append(out, Section{ID: string(name), Heading: strings.TrimSuffix(string(t.plain(nil, h)), " · ")})
			continue
		}
		body = t.plain(body, n)
	}
	end()
	return out
}

// plain adds the words of a node.
func (t *Text) plain(dst []byte, root ast.Node) []byte {
	_ = ast.Walk(root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			_, heading := n.(*ast.Heading)
			_, cell := n.(*east.TableCell)
			if (heading || cell) && n.NextSibling() != nil {
				dst = append(dst, " · "...)
			} else if n.Type() == ast.TypeBlock && len(dst) > 0 && dst[len(dst)-1] != '\n' {
				dst = append(dst, '\n')
			}
			return ast.WalkContinue, nil
		}
		switch n := n.(type) {
		case *ast.Text:
			written := n.Segment.Value(t.source)
			if n.Parent().Kind() != ast.KindCodeSpan {
				written = util.UnescapePunctuations(written)
			}
			dst = append(dst, written...)
			if n.SoftLineBreak() || n.HardLineBreak() {
				dst = append(dst, ' ')
			}
		case *ast.String:
			dst = append(dst, plainOf(n.Value)...)
		case *ast.Link:
			if kind, name := kindOf(string(n.Destination)); !n.HasChildren() && (kind.ByName() || kind == ToFigure) {
				dst = append(dst, saidByName.Replace(name)...)
			}
		case *ast.FencedCodeBlock, *ast.CodeBlock:
			for i := range n.Lines().Len() {
				line := n.Lines().At(i)
				dst = append(dst, line.Value(t.source)...)
			}
		}
		return ast.WalkContinue, nil
	})
	return dst
}

// saidByName makes words of a name.
var saidByName = strings.NewReplacer("-", " ", ".", " ")

// plainOf undoes the entities that the typographer writes.
func plainOf(s []byte) []byte {
	if len(s) == 0 || s[0] != '&' {
		return s
	}
	return util.ResolveEntityNames(s)
}
