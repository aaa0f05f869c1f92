package record

import (
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"hembook/internal/meant"
)

// edgeMeant says which edge of which piece a word without a dot may mean: front side,
// front/side, or side alone. now is the edge where only one can be meant.
func (d *decoder) edgeMeant(word string) (hint, now string) {
	var exact, alone []string
	for _, pe := range d.pieceEdges() {
		name := pe[0] + "." + pe[1]
		switch {
		case meant.Plain(strings.Trim(strings.TrimPrefix(word, pe[0]), " /:>-_,")) == meant.Plain(pe[1]) && strings.HasPrefix(word, pe[0]):
			exact = append(exact, name)
		case meant.Plain(word) == meant.Plain(pe[1]):
			alone = append(alone, name)
		}
	}
	switch {
	case len(exact) == 1:
		return "write " + exact[0], exact[0]
	case len(alone) == 1:
		return "write " + alone[0], alone[0]
	case len(alone) > 1 && len(alone) < 6:
		return "of which piece? write " + meant.List(alone, "or"), ""
	}
	return "write piece.edge, as front.side", ""
}

// pieceEdges are the pieces of the record with their edges, as far as they are written
// there.
func (d *decoder) pieceEdges() [][2]string {
	if d.named != nil || d.root == nil {
		return d.named
	}
	d.named = [][2]string{}
	pieces := valueBehind(d.root, "pieces")
	if pieces == nil || pieces.Kind != yaml.MappingNode {
		return d.named
	}
	for i := 0; i+1 < len(pieces.Content); i += 2 {
		for _, edge := range edgesWritten(pieces, pieces.Content[i+1], 0) {
			d.named = append(d.named, [2]string{pieces.Content[i].Value, edge})
		}
	}
	return d.named
}

// edgesWritten are the edges of one piece, by way of the pieces it is like.
func edgesWritten(pieces, p *yaml.Node, deep int) []string {
	var out []string
	if o := valueBehind(p, "outline"); o != nil && o.Kind == yaml.MappingNode {
		for i := 0; i+1 < len(o.Content); i += 2 {
			if w := o.Content[i].Value; w != "from" && w != "file" && w != "units" {
				out = append(out, w)
			}
		}
	}
	for form, edges := range regularEdges {
		if valueBehind(p, form) != nil {
			out = append(out, edges...)
		}
	}
	if like := valueBehind(p, "like"); like != nil && deep < 8 {
		if from := valueBehind(pieces, like.Value); from != nil {
			out = append(out, edgesWritten(pieces, from, deep+1)...)
		}
	}
	if own := valueBehind(p, "edges"); own != nil && own.Kind == yaml.MappingNode {
		for i := 0; i+1 < len(own.Content); i += 2 {
			if name := valueBehind(own.Content[i+1], "name"); name != nil {
				out = append(out, name.Value)
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// valueBehind is the value of a word of a group; nil where it has none.
func valueBehind(n *yaml.Node, word string) *yaml.Node {
	if n == nil || n.Kind != yaml.MappingNode {
		return nil
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == word {
			return n.Content[i+1]
		}
	}
	return nil
}
