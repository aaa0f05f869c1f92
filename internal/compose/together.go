package compose

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/notebook"
	"hembook/internal/order"
	"hembook/internal/say"
	"hembook/internal/sewn"
	"hembook/internal/words"
)

// The largest net, in millimetres on paper: as wide as a sheet's text.
const (
	netWide = 168
	netHigh = 190
)

// together shows how the garment goes together, layer by layer.
func together(d *Draft, b *notebook.BuildPage) {
	if b.Together == nil {
		return
	}
	for i := range b.Together.Choices {
		d.choice(b.Together, i)
	}
	for _, layer := range b.Together.Layers() {
		nets := b.Together.Nets(layer)
		for i, n := range nets {
			d.Add(document.Turn{})
			d.net(b, n, partName(layer, i, len(nets)))
		}
	}
}

// choice shows both readings of what a record leaves open, each with the word that settles
// it.
func (d *Draft) choice(t *order.Together, i int) {
	c := &t.Choices[i]
	list := document.List{As: "laid tissue"}
	for k := range c.Readings {
		r := &c.Readings[k]
		name := d.readingWords(c, r, k)
		if r.There == "" {
			name = upperFirst(name)
		}
		list.Items = append(list.Items, document.Item{
			Draw:   DrawReading(c, r, netStyle(t), name),
			Phrase: d.Phrase(document.As(document.Strong, name), document.Say(": "+r.Settles)),
		})
	}
	d.Add(document.Turn{}, document.Section{As: "nets", ID: "readings-" + strconv.Itoa(i), Level: 3, Head: say.Of("compose.which-of-these-is-it"), Blocks: []document.Block{list}})
}

// DrawReading draws one reading of a choice small.
func DrawReading(c *garment.Choice, r *garment.Reading, style draw.NetStyle, title string) func() *drawing.Drawing {
	style.Wide, style.High, style.Title = stepWide, stepHigh, title
	number := style.Seam
	style.Finish = func(string) int { return 0 }
	style.Seam = func(seam int) int {
		if c.Sews(r, seam) {
			return number(seam)
		}
		return 0
	}
	return func() *drawing.Drawing { return draw.Net(r.Sewn, c.Net(r), style) }
}

// readingWords says what one of the readings of a choice is, the first or the second.
func (d *Draft) readingWords(c *garment.Choice, r *garment.Reading, k int) string {
	switch c.Kind {
	case sewn.RingOrTubes:
		return say.Of("compose.of", words.Count(r.Tubes, "tube"), d.Style.Length(r.Round))
	case sewn.WhichEnd:
		return say.Of("compose.opens-from-the", c.Zip, r.Here)
	case sewn.BesideOrBehind:
		return say.Of("compose.lies", c.Piece, []string{"beside", "behind"}[k], c.Other)
	}
	if r.There == "" {
		return []string{say.Of("compose.the-one-way"), say.Of("compose.the-other-way")}[k]
	}
	return say.Of("compose.lies-beside", r.Here, r.There)
}

func (d *Draft) net(b *notebook.BuildPage, n *sewn.Net, name string) {
	t := b.Together
	style := netStyle(t)
	style.Stripes = b.Striping.OnCopy
	style.ID, style.HalfWords = "net-"+netPlace(t, n), halfWords
	style.Title, style.Desc = say.Of("compose.how-the-goes-together", layerName(n.Layer)), netWords(t, n)
	key := d.Within(func() { d.netKey(b, n); d.staysOpen(t, n); d.lineKey(t.Within(n)); d.meetsOn(b, n) })
	net := document.Sketch{Draw: func() *drawing.Drawing { return draw.Net(t.Sewn, n, style) }}
	d.Add(document.Section{As: "nets", ID: "flat-" + netPlace(t, n), Level: 3, Head: upperFirst(name), Blocks: []document.Block{
		document.Columns{Of: [][]document.Block{{net}, key}},
	}})
}

// meetsOn tells what meets in the pattern of the cloth of a layer, whose stripes are drawn.
func (d *Draft) meetsOn(b *notebook.BuildPage, n *sewn.Net) {
	for i := range b.Lays {
		l := &b.Lays[i]
		if garment.LayerOf(l.Part) != n.Layer || len(l.Stripes) == 0 {
			continue
		}
		d.Note(say.Of("compose.fine-lines-of-the-cloth-as-the", draw.StripesDrawn(l.Stripes, draw.NetScale(n, netWide, netHigh))))
		d.matched(l)
		return
	}
}

// halfWords is said below the left half of a net, where no more has room.
var halfWords = say.Of("compose.the-left-half-the-right-mirrors-it")

// netPlace tells the nets of a garment apart.
func netPlace(t *order.Together, n *sewn.Net) string {
	return strconv.Itoa(slices.Index(t.Layers(), n.Layer)) + "-" + strconv.Itoa(slices.Index(t.Nets(n.Layer), n))
}

// netStyle is how a net is drawn on a page.
func netStyle(t *order.Together) draw.NetStyle {
	return draw.NetStyle{
		Wide: netWide, High: netHigh, Seam: t.NumberOfSeam, Finish: t.NumberOfFinish, Set: t.NumberOfSetOn, Piece: t.Piece, Left: "left", Right: "right",
		Behind: say.Of("compose.these-lie-behind"), Onto: say.Of("compose.sewn-onto-other-pieces"), Apart: say.Of("compose.no-seam-joins-these"),
	}
}

// netKey names what the numbers of a net stand for, and says how each is sewn.
func (d *Draft) netKey(b *notebook.BuildPage, n *sewn.Net) {
	anchors := sewnAnchors(b)
	table := d.Table(say.Of("compose.in-the-order-they-are-sewn"), document.Words(say.Of("compose.number-and-name")), document.Words(say.Of("compose.type")), document.Words(say.Of("compose.sewn")))
	for _, k := range b.Together.Shown(n) {
		table.RowOf(document.As(document.Strong, strconv.Itoa(k.Number)), document.Say(" "), document.Inline{Words: k.Name, Anchor: anchors[sewnThing{k.Name, k.Finish}]}).Words(k.Type)
		if k.Finish {
			table.Cell()
			continue
		}
		table.Cell(howSewn(b.Together, OnPage, k.Name, nil)...)
	}
	table.End()
}

// lineKey says what lines within the pieces of a net mean.
func (d *Draft) lineKey(in order.Within) {
	if in.Pleats {
		d.Note(say.Of("compose.arrow-from-the-fold-to-where-it"))
	}
	if in.Gathers {
		d.Note(say.Of("compose.wave-gathered"))
	}
	if in.Slits {
		d.Note(say.Of("compose.heavy-line-in-a-piece-a-slit"))
	}
	if in.Rows {
		d.Note(say.Of("compose.dashed-inside-an-edge-topstitching"))
	}
}

// staysOpen tells which lines stay open, and which a zip or buttons close.
func (d *Draft) staysOpen(t *order.Together, n *sewn.Net) {
	list := t.Openings(n)
	if len(list) == 0 {
		return
	}
	table := d.Table(say.Of("compose.what-stays-open-as-drawn"), document.Words(say.Of("compose.opening")), document.Figures(say.Of("compose.length")))
	for _, o := range list {
		if o.Times > 1 {
			o.Name += say.Of("compose.each-of", strconv.Itoa(o.Times))
		}
		words, other := d.Style.Two(measure.Quantity{Number: math.Round(o.Length), Unit: measure.UnitMM})
		table.Row(o.Name).Cell(document.Quantity(words, other))
	}
	table.End()
}

// netWords says in words what a net shows.
func netWords(t *order.Together, n *sewn.Net) string {
	var out []string
	for _, k := range t.Shown(n) {
		out = append(out, strconv.Itoa(k.Number)+" "+k.Name)
	}
	return say.Of("compose.the-pieces-laid-flat-right-side-up", strings.Join(out, ", "))
}

// partName is the name of one of the nets of a layer.
func partName(layer string, i, of int) string {
	if of == 1 {
		return layerName(layer)
	}
	return say.Of("compose.of-2", layerName(layer), strconv.Itoa(i+1), strconv.Itoa(of))
}

func layerName(layer string) string {
	if layer == "outer" {
		return "outside"
	}
	return layer
}

func upperFirst(s string) string {
	for i, r := range s {
		return strings.ToUpper(string(r)) + s[i+len(string(r)):]
	}
	return s
}
