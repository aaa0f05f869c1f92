package sheet

import (
	"strconv"

	"hembook/internal/compose"
	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/paper"
	"hembook/internal/paper/caremark"
)

// sewnIn are the labels to sew into the garment, on tapes of two widths: whose work it
// is, for whom, its fibres and its care.
func sewnIn(c *composer, own labelsOpened) {
	c.titled("sheet.labels", "", c.t.say("labels.about"))
	var all document.Sketches
	for _, wide := range []float64{25, 25, 35} {
		all.Of = append(all.Of, c.label(wide, own, true))
	}
	for _, wide := range []float64{25, 35} {
		all.Of = append(all.Of, c.label(wide, labelsOpened{}, false))
	}
	c.Add(all)
	var list document.List
	list.Numbered = true
	for _, word := range []string{"labels.cut", "labels.ends", "labels.wash"} {
		list.Items = append(list.Items, document.Item{Phrase: c.Phrase(document.Say(c.t.say(word)))})
	}
	c.Add(list)
	c.aside(c.t.say("labels.law"))
	c.swatches()
	c.lid(own.Wearer)
	c.spares()
}

// lid is the card that lies on top in the parcel: seen before anything is cut open.
func (c *composer) lid(wearer string) {
	c.heading("labels.lid")
	says := c.Within(func() {
		c.spoken(document.Say(c.called()))
		if wearer != "" {
			c.quiet(c.t.say("card.for", "wearer", wearer))
		}
		c.Add(document.Sketch{Draw: kept(draw.NeedleLine(lidWords))})
		c.Say(document.Say(c.t.say("labels.open")))
	})
	if data := c.picture(c.build.Picture.Show.V); data != nil {
		seen := []document.Block{document.Picture{Data: data, Framed: true, High: lidHigh, Alt: c.pictured()}}
		c.Add(document.Columns{Of: [][]document.Block{seen, says}})
		return
	}
	c.Add(says...)
}

// Of the cards below the labels, in millimetres: the picture, and a line of stitches.
const (
	lidHigh    = 100.0
	sparesHigh = 70.0
	lidWords   = 76.0
)

// spares is the card that the spare parts are fastened to, with their photograph.
func (c *composer) spares() {
	list := c.closures()
	p := c.build.Packet.Spares
	data := c.photograph(p, "")
	if list == "" && data == nil {
		return
	}
	c.heading("labels.spares")
	says := c.Within(func() {
		if list != "" {
			c.Say(document.Say(upper(list)))
		}
	})
	if data == nil {
		c.Add(says...)
		return
	}
	alt := c.called()
	if p.Alt.Given() {
		alt = c.ownAlone(p.Alt)
	}
	seen := []document.Block{document.Picture{Data: data, High: sparesHigh, Alt: alt}}
	c.Add(document.Columns{Of: [][]document.Block{seen, says}})
}

// swatchCard is how wide that card is: the words of a sheet, in millimetres.
const swatchCard = 174.0

// swatches are the places for cloth and thread that are kept with the garment, for whoever
// mends it.
func (c *composer) swatches() {
	card := c.swatchCard()
	if len(card.Cloths)+len(card.Threads) == 0 {
		return
	}
	c.heading("labels.swatches")
	d := draw.Swatches(card)
	d.Title = c.t.say("labels.swatches")
	c.Add(document.Sketch{Draw: kept(d), Exact: true})
	c.aside(c.t.say("labels.swatches-about", "garment", c.called()))
}

// swatchCard has a place for each cloth that is cut, and for each thread.
func (c *composer) swatchCard() draw.SwatchCard {
	card := draw.SwatchCard{Wide: swatchCard, Fits: func(l drawing.Label) float64 { return paper.LabelWide(l, &drawing.Print) }}
	for _, cloth := range c.garment.Cloths {
		if cloth.Cloth != nil && cloth.IsCut() {
			card.Cloths = append(card.Cloths, upper(c.part(cloth.Part))+" · "+cloth.Cloth.Name.Or(cloth.Cloth.Slug))
		}
	}
	for i := range c.build.Thread {
		card.Threads = append(card.Threads, c.build.Thread[i].V.Colour.V)
	}
	return card
}

// label is one label, whole or with the maker's name alone.
func (c *composer) label(wide float64, own labelsOpened, whole bool) document.Sketch {
	room := c.room.Workroom
	l := draw.SewLabel{Wide: wide, Front: []string{room.Maker.Name.Or(room.Name.V)}, Fits: func(l drawing.Label) float64 { return paper.LabelWide(l, &drawing.Print) }}
	if wearer := own.Wearer; whole && wearer != "" {
		l.Front = append(l.Front, c.t.say("card.for", "wearer", wearer))
	}
	if year := c.madeOn(); year > 0 {
		l.Front = append(l.Front, strconv.Itoa(year))
	}
	if whole {
		for _, line := range compose.FibreLines(c, c.content) {
			if line.Unknown == "" {
				l.Back = append(l.Back, c.says(upper(line.Term), line.Words))
			}
		}
		if own.From.Country != "" {
			l.Back = append(l.Back, newTongue("en").say("us.made-in", "country", own.From.Country))
		}
		l.Symbols = c.labelSymbols()
	}
	d := draw.SewIn(l)
	d.Title = c.t.say("sheet.labels")
	return document.Sketch{Draw: kept(d), Exact: true, Caption: strconv.Itoa(int(wide)) + gap + "mm"}
}

// madeOn is the year it was made; 0 where that is not known.
func (c *composer) madeOn() int {
	switch {
	case c.build.Sent.Given():
		return c.build.Sent.V.Year
	case c.build.Packet.Packed.Given():
		return c.build.Packet.Packed.V.Year
	case c.build.Due.Given():
		return c.build.Due.V.Year
	}
	return 0
}

// labelSymbols are the care symbols; none where the care is not known.
func (c *composer) labelSymbols() []*drawing.Drawing {
	if !c.careKnown() || c.opt.Plain {
		return nil
	}
	var out []*drawing.Drawing
	for i := range c.care.Axes {
		for _, o := range c.care.Axes[i].Options {
			if d, ok := caremark.Named(o.Name); ok {
				out = append(out, d)
			}
		}
	}
	return out
}
