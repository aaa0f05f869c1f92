package record

import (
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"hembook/internal/say"
)

// setOnType is how a piece is set on another where nothing is said (common practice, no
// source).
const setOnType = "lapped-turned"

// setOn reports whether what a node names stands in a seam that sets a piece on another:
// there pieces are named whole.
func (d *decoder) setOn(n *yaml.Node) bool {
	if n.Kind != yaml.ScalarNode || isNull(n) || strings.TrimSpace(n.Value) == "" || strings.Contains(n.Value, ".") {
		return false
	}
	seams := valueBehind(d.root, "seams")
	if seams == nil || seams.Kind != yaml.MappingNode {
		return false
	}
	for i := 1; i < len(seams.Content); i += 2 {
		if join := valueBehind(seams.Content[i], "join"); join != nil && valueBehind(seams.Content[i], "at") != nil && slices.Contains(join.Content, n) {
			return true
		}
	}
	return false
}

// checkSetOn checks a seam that sets a piece on another.
func (c *buildCheck) checkSetOn(s *Seam) {
	if !s.Place.Given() {
		if s.Angle.Given() {
			c.faults.Wrong(s.Angle.At, say.Of("record.add-at-and-where-it-lies-or"), say.Of("record.angle-turns-a-piece-that-is-set", s.Name.V))
		}
		return
	}
	if len(s.Join) != 2 || len(s.Join[0]) != 1 || len(s.Join[1]) != 1 {
		if len(s.Join) > 0 {
			c.faults.Wrong(s.At, say.Of("record.as-join-pocket-left-front"), say.Of("record.one-piece-is-set-on-one-other", s.Name.V))
		}
		return
	}
	for k, side := range s.Join {
		e := side[0]
		if e.Edge != "" {
			c.faults.Wrong(e.At, say.Of("record.write-alone-its-edges-that-are-sewn", e.Piece), say.Of("record.a-piece-is-set-on-another-whole", s.Name.V)).Instead(e.Piece+"."+e.Edge, e.Piece)
			continue
		}
		if _, piece, ok := Handed(e.Piece); ok && k == 1 && c.pieces[e.Piece] == nil && c.pieces[piece] != nil {
			e.Piece = piece
		}
		if e.At.Given() && c.isPiece(Text{e.Piece, e.At}, "") && k == 1 && s.Place.V.Edge != "" {
			p := c.pieces[e.Piece]
			c.edgeIn(Text{s.Place.V.Edge, s.Place.At}, p)
			c.where(s.Place.V.Edge, Where{V: s.Place.V.Where, At: s.Place.At}, p)
		}
	}
	for _, word := range givenWords([]Text{{"ease", s.Ease.At}, {"gather", s.Gather.At}, {"overlap", s.Overlap.At}}) {
		if s.Type.V != setOnType || word.V != "overlap" {
			c.faults.Wrong(word.At, say.Of("record.leave-out", word.V), say.Of("record.a-piece-that-is-set-on-another", s.Name.V)).Without(word.At)
		}
	}
}
