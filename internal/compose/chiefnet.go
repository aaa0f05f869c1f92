package compose

import (
	"strconv"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/notebook"
	"hembook/internal/say"
	"hembook/internal/sewn"
)

// The largest net on a garment's own page, in millimetres on paper.
const chiefNetHigh = 150

// chiefNet shows how the outside of a garment goes together, with the numbers of the
// table of how it was made; its other layers, and the steps, are led to.
func chiefNet(d *Draft, b *notebook.BuildPage) {
	t := b.Together
	if t == nil || len(t.Numbered) == 0 {
		return
	}
	layers := t.Layers()
	if len(layers) == 0 || len(t.Nets(layers[0])) == 0 {
		return
	}
	n := t.Nets(layers[0])[0]
	style := netStyle(t)
	style.High, style.ID, style.HalfWords = chiefNetHigh, "net-chief", halfWords
	style.Title, style.Desc = say.Of("compose.how-it-goes-together"), netWords(t, n)
	net := document.Sketch{Draw: func() *drawing.Drawing { return draw.Net(t.Sewn, n, style) }}
	d.Add(document.Section{As: "nets", Blocks: []document.Block{
		document.Columns{Of: [][]document.Block{{net}, d.Within(func() { d.chiefKey(b, n, len(layers)) })}},
	}})
}

// chiefKey names what the numbers of the net stand for, and leads to the rest.
func (d *Draft) chiefKey(b *notebook.BuildPage, n *sewn.Net, layers int) {
	anchors := sewnAnchors(b)
	key := document.List{As: "key"}
	for _, k := range b.Together.Shown(n) {
		key.Items = append(key.Items, document.Item{Phrase: d.Phrase(document.As(document.Strong, strconv.Itoa(k.Number)),
			document.Say(" "), document.Inline{Words: k.Name, Anchor: anchors[sewnThing{k.Name, k.Finish}]})})
	}
	d.Add(key)
	d.staysOpen(b.Together, n)
	more := say.Of("compose.every-layer-and-step-by-step")
	if layers == 1 {
		more = say.Of("compose.step-by-step")
	}
	d.Add(document.Text{As: document.Note, Phrase: d.Phrase(
		document.Say(say.Of("compose.laid-flat-right-side-up-edges-with")),
		document.Lead(string(b.Leaf("together", 1).Address), more), document.Say("."))})
}
