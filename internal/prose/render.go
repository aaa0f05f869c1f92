package prose

import (
	"github.com/alecthomas/chroma/v2"
	"github.com/alecthomas/chroma/v2/lexers"
	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/util"
)

// own renders what this package does in its own way.
type own struct{}

// RegisterFuncs names the nodes that are rendered here.
func (o own) RegisterFuncs(reg renderer.NodeRendererFuncRegisterer) {
	reg.Register(ast.KindLink, o.link)
	reg.Register(ast.KindAutoLink, o.autoLink)
	reg.Register(ast.KindImage, o.image)
	reg.Register(ast.KindString, o.words)
	reg.Register(ast.KindRawHTML, o.nothing)
	reg.Register(ast.KindHTMLBlock, o.nothing)
	reg.Register(ast.KindFencedCodeBlock, o.fence)
	reg.Register(east.KindTable, o.table)
	reg.Register(east.KindTableCell, o.cell)
}

const (
	pictureAttr = "picture"
	figureAttr  = "figure"
)

// nothing drops a node with all it holds.
func (own) nothing(util.BufWriter, []byte, ast.Node, bool) (ast.WalkStatus, error) {
	return ast.WalkSkipChildren, nil
}

// words writes a string; the typographer's hold entities and are written as
// they are, all others are escaped.
func (own) words(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	s := n.(*ast.String)
	if s.IsCode() || s.IsRaw() {
		_, _ = w.Write(s.Value)
		return ast.WalkContinue, nil
	}
	_, _ = w.Write(util.EscapeHTML(s.Value))
	return ast.WalkContinue, nil
}

// link writes a link that has somewhere to lead, else its words alone. One to a figure
// is what How.Figure made of it.
func (own) link(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if html, ok := n.AttributeString(figureAttr); ok {
		if entering {
			_, _ = w.Write(html.([]byte))
		}
		return ast.WalkSkipChildren, nil
	}
	dest := n.(*ast.Link).Destination
	switch {
	case len(dest) == 0:
	case entering:
		openLink(w, dest)
	default:
		_, _ = w.WriteString("</a>")
	}
	return ast.WalkContinue, nil
}

func openLink(w util.BufWriter, dest []byte) {
	_, _ = w.WriteString(`<a href="`)
	_, _ = w.Write(util.EscapeHTML(util.URLEscape(dest, true)))
	_, _ = w.WriteString(`">`)
}

// autoLink writes an address in angle brackets.
func (own) autoLink(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	a := n.(*ast.AutoLink)
	url := a.URL(source)
	if kind, _ := kindOf(string(url)); kind != ToWeb && a.AutoLinkType != ast.AutoLinkEmail {
		_, _ = w.Write(util.EscapeHTML(a.Label(source)))
		return ast.WalkContinue, nil
	}
	if a.AutoLinkType == ast.AutoLinkEmail && (len(url) < 7 || string(url[:7]) != "mailto:") {
		url = append([]byte("mailto:"), url...)
	}
	openLink(w, url)
	_, _ = w.Write(util.EscapeHTML(a.Label(source)))
	_, _ = w.WriteString("</a>")
	return ast.WalkContinue, nil
}

// image writes the picture that How.Picture made, else the words for it.
func (own) image(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	html, ok := n.AttributeString(pictureAttr)
	if !ok {
		return ast.WalkContinue, nil // the words inside follow
	}
	if entering {
		_, _ = w.Write(html.([]byte))
	}
	return ast.WalkSkipChildren, nil
}

// table puts a table into a box that scrolls by itself where it is too wide. Its foot is
// empty: it tells the style sheet that the whole table was read.
func (own) table(w util.BufWriter, _ []byte, _ ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		_, _ = w.WriteString("<div class=\"wide\" role=\"group\" tabindex=\"0\" aria-label=\"Table\"><table>\n")
	} else {
		_, _ = w.WriteString("<tfoot></tfoot></table></div>\n")
	}
	return ast.WalkContinue, nil
}

// cell writes a cell with its alignment as a class.
func (own) cell(w util.BufWriter, _ []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	n := node.(*east.TableCell)
	tag := "td"
	if n.Parent().Kind() == east.KindTableHeader {
		tag = "th"
	}
	if !entering {
		_, _ = w.WriteString("</" + tag + ">\n")
		return ast.WalkContinue, nil
	}
	_, _ = w.WriteString("<" + tag)
	if tag == "th" {
		_, _ = w.WriteString(` scope="col"`)
	}
	switch n.Alignment {
	case east.AlignRight:
		_, _ = w.WriteString(` class="right"`)
	case east.AlignCenter:
		_, _ = w.WriteString(` class="middle"`)
	}
	_, _ = w.WriteString(">")
	return ast.WalkContinue, nil
}

// fence writes a fenced block, highlighted where its language is known.
func (own) fence(w util.BufWriter, source []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	n := node.(*ast.FencedCodeBlock)
	var code []byte
	for i := range n.Lines().Len() {
		line := n.Lines().At(i)
		code = append(code, line.Value(source)...)
	}
	_, _ = w.WriteString(`<pre class="code" role="group" tabindex="0" aria-label="As it is written"><code>`)
	_, _ = w.Write(highlight(nil, string(n.Language(source)), code))
	_, _ = w.WriteString("</code></pre>\n")
	return ast.WalkSkipChildren, nil
}

// highlight adds code to dst, its tokens marked with chroma's class names.
func highlight(dst []byte, language string, code []byte) []byte {
	var lexer chroma.Lexer
	if language != "" {
		lexer = lexers.Get(language)
	}
	if lexer == nil {
		return escape(dst, code)
	}
	tokens, err := lexer.Tokenise(nil, string(code))
	if err != nil {
		return escape(dst, code)
	}
	for t := tokens(); t != chroma.EOF; t = tokens() {
		dst = span(dst, t.Type, []byte(t.Value))
	}
	return dst
}

// span adds text to dst as a token of that type.
func span(dst []byte, typ chroma.TokenType, text []byte) []byte {
	class := classOf(typ)
	if class == "" {
		return escape(dst, text)
	}
	dst = append(dst, `<span class="`...)
	dst = append(dst, class...)
	dst = append(dst, `">`...)
	return append(escape(dst, text), "</span>"...)
}

// classOf is chroma's short class name of a type; "" for what needs no mark.
func classOf(typ chroma.TokenType) string {
	switch typ {
	case chroma.Text, chroma.TextWhitespace, chroma.Punctuation, chroma.Literal, chroma.Other, chroma.Name:
		return ""
	}
	for typ != 0 {
		if class, ok := chroma.StandardTypes[typ]; ok {
			return class
		}
		typ = typ.Parent()
	}
	return ""
}

// escape adds text to dst with what HTML would misread replaced.
func escape(dst, text []byte) []byte {
	from := 0
	for i, c := range text {
		var with string
		switch c {
		case '<':
			with = "&lt;"
		case '>':
			with = "&gt;"
		case '&':
			with = "&amp;"
		case '"':
			with = "&#34;"
		default:
			continue
		}
		dst = append(append(dst, text[from:i]...), with...)
		from = i + 1
	}
	return append(dst, text[from:]...)
}

// wordsOf adds the words inside a node to dst, without markup.
func (t *Text) wordsOf(dst []byte, n ast.Node) []byte {
	_ = ast.Walk(n, func(c ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch c := c.(type) {
		case *ast.Text:
			dst = append(dst, c.Segment.Value(t.source)...)
			if c.SoftLineBreak() || c.HardLineBreak() {
				dst = append(dst, ' ')
			}
		case *ast.String:
			dst = append(dst, plainOf(c.Value)...)
		}
		return ast.WalkContinue, nil
	})
	return dst
}
