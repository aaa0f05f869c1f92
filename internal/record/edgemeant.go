package record

import (
	"regexp"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/record/phrase"
	"hembook/internal/say"
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
	if own := d.edgesOf(word); len(own) > 0 && len(exact)+len(alone) == 0 {
		return say.Of("record.which-edge-of-it-has", word, meant.List(own, "and")), ""
	}
	switch {
	case len(exact) == 1:
		return say.Of("record.write", exact[0]), exact[0]
	case len(alone) == 1:
		return say.Of("record.write", alone[0]), alone[0]
	case len(alone) > 1 && len(alone) < 6:
		return say.Of("record.of-which-piece-write", meant.List(alone, "or")), ""
	}
	return say.Of("record.write-piece-edge-as-front-side"), ""
}

// edgesOf are the edges of a piece, as far as they are written there.
func (d *decoder) edgesOf(piece string) (out []string) {
	for _, pe := range d.pieceEdges() {
		if pe[0] == piece {
			out = append(out, pe[1])
		}
	}
	return out
}

// inFrom is a line beside an edge as some say it: 18 in from the edge.
var inFrom = regexp.MustCompile(`^(\S*\d)(?: ?(mm|cm))?(?: in)?$`)

// lineMeant answers a line beside an edge that lacks its piece, or that is said with
// "in from".
func (d *decoder) lineMeant(n *yaml.Node, l phrase.Line, at fault.Pos) bool {
	if m := inFrom.FindStringSubmatch(l.Name); m != nil && l.Part.Open() && l.Inside == 0 {
		by := m[1]
		if m[2] != "" {
			by += " " + m[2]
		} else if strings.Contains(by, "/") {
			by += " in"
		}
		now := say.Of("record.inside", by, strings.TrimPrefix(l.Part.From, "the "))
		d.faults.Wrong(at, say.Of("record.write", now), say.Of("record.a-line-beside-an-edge-is-said")).InsteadAt(at, n.Value, now)
		return true
	}
	for _, group := range []string{"seams", "finishes"} {
		if valueBehind(valueBehind(d.root, group), l.Name) != nil {
			return false
		}
	}
	hint, now := d.edgeMeant(l.Name)
	if now == "" && !strings.HasPrefix(hint, "of which") {
		return false
	}
	at.Column += int32(l.At)
	d.faults.Wrong(at, hint, say.Of("record.does-not-name-an-edge-of-a", say.Quoted(fault.Shorten(l.Name)))).InsteadAt(at, l.Name, now)
	return true
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
			name := own.Content[i+1]
			if name.Kind != yaml.ScalarNode {
				name = valueBehind(name, "name")
			}
			if name != nil && name.Value != "" && !isNumber(name.Value) && name.Value != "fold" {
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

// wholeYet answers a seam or finish along which something is to be worked, and one of a
// pair that is to be sewn whole.
func (d *decoder) wholeYet(name string, at fault.Pos) bool {
	hint, now := d.edgeMeant(name)
	for _, group := range []string{"seams", "finishes"} {
		if now == "" && !strings.HasPrefix(hint, "of which") && valueBehind(valueBehind(d.root, group), name) != nil {
			d.faults.Wrong(at, say.Of("record.name-its-edges-as-front-side"), say.Of("record.not-yet-along-a-seam-or-finish", fault.Shorten(name)))
			return true
		}
	}
	hand, piece, _ := strings.Cut(name, " ")
	if pieces := valueBehind(d.root, "pieces"); (hand == "left" || hand == "right") && valueBehind(pieces, piece) != nil && valueBehind(pieces, name) == nil {
		d.faults.Wrong(at, say.Of("record.name-an-edge-of-it-as-side", name), say.Of("record.is-a-piece-and-an-edge-must", fault.Shorten(name)))
		return true
	}
	return false
}
