package sheet

import (
	"math"
	"slices"
	"strings"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/trade"
)

// measureOpened is what the measuring sheet may show: whom it is for. What it asks for
// are names of measurements, never what they were.
type measureOpened struct {
	Wearer string
	Asked  []string

	at []fault.Pos
}

func (o measureOpened) positions() []fault.Pos { return o.at }

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

// openMeasure asks for the height, for what the garment is drafted for and goes round,
// and for what a garment of its kind is made by: where that is not known, for what was
// measured the last time.
func openMeasure(v *vault) measureOpened {
	wanted := map[string]bool{"height": true}
	for _, m := range v.garment.Build.DraftedFor {
		wanted[m.Name.V] = true
	}
	for i := range v.worn {
		wanted[v.worn[i].Name] = true
	}
	out := measureOpened{}
	who := v.garment.Build.For.Who.V
	if v.wearer != nil {
		out.Wearer, out.at = v.wearer.Name.V, []fault.Pos{v.wearer.Name.At}
		who = v.wearer.For.Who.Or(who)
	}
	if kind, below := belowWaist[v.garment.Build.Garment.V]; below {
		for _, name := range kind {
			wanted[name] = true
		}
	} else if v.wearer != nil {
		for _, m := range v.wearer.Body {
			wanted[m.Name.V] = true
		}
	}
	same := [2]string{"chest", "bust"}
	if strings.HasPrefix(who, "m") || strings.HasPrefix(who, "b") {
		same = [2]string{"bust", "chest"}
	}
	if wanted[same[0]] { // one measurement with two names
		delete(wanted, same[0])
		wanted[same[1]] = true
	}
	for _, name := range askedOrder {
		if wanted[name] && draw.CanTape(name) {
			out.Asked = append(out.Asked, name)
		}
	}
	return out
}

// measuring is the sheet by which a wearer is measured far away, and what is sent back.
func measuring(c *composer, own measureOpened) {
	maker := c.room.Workroom.Maker
	about := c.t.say("sheet.measure") + " · " + c.t.say("measure.about", "maker", maker.Name.Or(c.room.Workroom.Name.V))
	if own.Wearer != "" {
		about = c.t.say("card.for", "wearer", own.Wearer) + " · " + about
	}
	c.title(about)
	apart, much := 1.0, c.oneLength(measure.MM(10))
	unit := "cm"
	if c.inch {
		apart, much, unit = 0.5, c.oneLength(measure.MM(12.7)), "in"
	}
	rule := func(words string) []document.Block {
		return []document.Block{document.Text{Phrase: c.Phrase(document.Say(words))}}
	}
	c.Add(document.Columns{Of: [][]document.Block{rule(c.t.say("measure.need")), rule(c.t.say("measure.twice", "much", much)), rule(c.t.say("measure.over"))}})
	figure := draw.Taped(own.Asked, [4]string{c.t.say("measure.front"), c.t.say("measure.side"), c.t.say("measure.back"), c.t.say("measure.sitting")})
	figure.Title = c.t.say("sheet.measure")
	c.Add(document.Sketch{Draw: kept(figure)})
	form := document.Asks{Begins: []string{"answer: measurements", "garment: " + c.build.Slug}, Unit: unit, Apart: apart, File: "measurements-" + c.build.Slug + ".txt", Words: document.AskWords{
		What: c.t.say("ask.what"), How: c.t.say("ask.how"), First: c.t.say("ask.first"), Again: c.t.say("ask.again"), Third: c.t.say("ask.third"),
		Differ: c.t.say("ask.differ", "much", "{much}"), Agree: c.t.say("ask.agree"), Unusual: c.t.say("ask.unusual"),
		Make: c.t.say("ask.make"), Save: c.t.say("ask.save"), Copy: c.t.say("ask.copy"), Copied: c.t.say("ask.copied"), Plain: c.t.say("ask.plain"),
	}}
	if maker.Contact.Given() {
		form.Words.Send = c.t.say("measure.back-to", "contact", maker.Contact.V)
	}
	for _, name := range own.Asked {
		key := "tape." + strings.ReplaceAll(name, " ", "-")
		one := document.Ask{Name: name, Title: c.t.say(key), How: c.t.say(key + ".how")}
		one.Least, one.Most = usualReach(name, c.build.For.Who.V, unit)
		form.Items = append(form.Items, one)
	}
	form.Free = []document.FreeAsk{{Name: "by", Title: c.t.say("measure.by")}, {Name: "note", Title: c.t.say("measure.note"), Long: true}}
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
