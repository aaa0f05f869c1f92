package amend

import (
	"gopkg.in/yaml.v3"

	"hembook/internal/record/extent"
	"hembook/internal/say"
)

// An end found wrongly cannot do harm, as every change is checked on the tree
// afterwards: it can only be refused.

// lost is the error for a text in which a node cannot be found again.
func lost(n *yaml.Node) error {
	return refuse(n.Line, say.Of("amend.write-it-more-plainly"), say.Of("amend.this-is-written-in-a-way-that"))
}

// The spans of the text, by short names.
type (
	span = extent.Span
	flow = extent.Flow
)

func (d *source) scalar(n *yaml.Node) (extent.Span, error) {
	s, ok := d.Scalar(n)
	if !ok {
		return s, lost(n)
	}
	return s, nil
}

func (d *source) end(n *yaml.Node) (int, error) {
	at, ok := d.End(n)
	if !ok {
		return at, lost(n)
	}
	return at, nil
}

func (d *source) flow(n *yaml.Node) (extent.Flow, error) {
	f, ok := d.Flow(n)
	if !ok {
		return f, lost(n)
	}
	return f, nil
}
