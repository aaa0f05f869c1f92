package sheet

import (
	"math"
	"slices"
	"strings"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/measure"
	"hembook/internal/trade"
)

// askedOrder is in what order a body is measured: whatever lies on the string at the
// waist after the waist, sitting last.
var askedOrder = []string{"height", "head", "neck", "bust", "chest", "underbust", "waist", "hip", "shoulder length", "back waist length",
	"arm length", "upper arm", "wrist", "thigh", "knee", "outside leg", "inside leg", "rise"}

// belowWaist are the measurements a garment below the waist is made by; by any other the
// whole body is measured.
var belowWaist = map[string][]string{
	"skirt":    {"waist", "hip"},
	"trousers": {"waist", "hip", "thigh", "knee", "outside leg", "inside leg", "rise"},
	"shorts":   {"waist", "hip", "thigh", "rise"},
}

// askedOnOne is how many measurements stand on one page below their figures; of more the
// figures fill a page of their own.
const askedOnOne = 9

// measuring is the sheet by which a wearer is measured far away, and what is sent back.
func measuring(c *composer, own measureOpened) {
	maker := c.room.Workroom.Maker
	c.titled("sheet.measure", own.Wearer, c.t.say("measure.about", "maker", maker.Name.Or(c.room.Workroom.Name.V)))
	apart, much := 1.0, c.oneLength(measure.MM(10))
	unit := "cm"
	if c.inch {
		apart, much, unit = 0.5, c.oneLength(measure.MM(12.7)), "in"
	}
	rule := func(words string) []document.Block {
		return []document.Block{document.Text{Phrase: c.Phrase(document.Say(words))}}
	}
	c.Add(document.Columns{Of: [][]document.Block{rule(c.t.say("measure.need")), rule(c.t.say("measure.twice", "much", much)), rule(c.t.say("measure.over"))}})
	figure := draw.Taped(own.Asked, len(own.Asked) > askedOnOne, [4]string{c.t.say("measure.front"), c.t.say("measure.side"), c.t.say("measure.back"), c.t.say("measure.sitting")})
	figure.Title = c.t.say("sheet.measure")
	c.Add(document.Sketch{Draw: kept(figure)})
	form := c.answered("measurements", []document.FreeAsk{{Name: "by", Title: c.t.say("measure.by")}, {Name: "note", Title: c.t.say("measure.note"), Long: true}})
	form.Unit, form.Apart = unit, apart
	for _, name := range own.Asked {
		key := "tape." + strings.ReplaceAll(name, " ", "-")
		one := document.Ask{Name: name, Title: c.t.say(key), How: c.t.say(key + ".how")}
		one.Least, one.Most = usualReach(name, c.build.For.Who.V, unit)
		form.Items = append(form.Items, one)
	}
	c.Add(form)
}

// usualReach is beyond which a measurement of a grown body is asked about once more: a
// tenth beyond anybody of the survey. A child's is never asked about.
func usualReach(name, who, unit string) (least, most float64) {
	m, ok := trade.MeasurementNamed(name)
	if !ok || !slices.Contains([]string{"woman", "man", "anyone", ""}, who) {
		return 0, 0
	}
	for _, r := range []*trade.Range{m.Women, m.Men} {
		if r == nil {
			continue
		}
		if least == 0 || r.Min < least {
			least = r.Min
		}
		most = max(most, r.Max)
	}
	per := 10.0
	if unit == "in" {
		per = 25.4
	}
	return math.Floor(least * 0.9 / per), math.Ceil(most * 1.1 / per)
}
