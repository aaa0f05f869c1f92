package sheet

import (
	"hembook/internal/fitting"
	"strings"

	"hembook/internal/derive"
	"hembook/internal/draw"
	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/trade"
)

// This file is the only one that opens what is private. A sheet declares what
// it may show as a type below; it is handed a value of that type and nothing
// else.

// An opened is what a sheet may show of what is private. Its places are where
// those values are written: nothing else that is private may stand on the sheet.
type opened interface{ positions() []fault.Pos }

// A vault holds what is private of a build.
type vault struct {
	room    *record.Room
	garment *derive.Garment
	worn    []fitting.Worn
	wearer  *record.Wearer // nil where none is named
}

func newVault(f *facts) *vault {
	v := &vault{room: f.room, garment: f.garment, worn: f.worn}
	room, g := f.room, f.garment
	if name := g.Build.Wearer.Open(record.ToTheSheet); name.Given() {
		if kept, ok := room.Wearers[name.V]; ok {
			v.wearer = kept.Open(record.ToTheSheet)
		}
	}
	return v
}

// preferences are how the wearer reads.
type preferences struct{ language, units string }

func (v *vault) preferences() preferences {
	p := preferences{language: "en", units: "mm"}
	if strings.HasPrefix(v.room.Workroom.Show.V, "cm") {
		p.units = "cm"
	} else if v.room.Workroom.Show.V == "in" {
		p.units = "in"
	}
	if v.wearer != nil {
		p.language = v.wearer.Language.Or(p.language)
		p.units = v.wearer.Units.Or(p.units)
	}
	return p
}

// market is whose rules on labels hold where the wearer lives; "" where that is not
// known, or has none that are known here.
func (v *vault) market() string {
	if v.wearer == nil {
		return ""
	}
	to, _ := trade.CountryNamed(v.wearer.Country.V)
	return to.Market()
}

// An origin is where a garment was made, for labels that must say so.
type origin struct {
	Country string
	at      []fault.Pos // of the wearer's country too, whose rules are named
}

// openOrigin opens it where the rules of the United States hold, by the workroom's word
// or by where the wearer lives: 15 U.S.C. 70b(b)(3) to (5).
func openOrigin(v *vault) origin {
	out := origin{}
	market := v.market()
	if market != "" {
		out.at = append(out.at, v.wearer.Country.At)
	}
	if market == "us" || v.room.Workroom.Rules.V == "US" {
		country := v.room.Workroom.Maker.Country.Open(record.ToTheSheet)
		out.Country, out.at = country.V, append(out.at, country.At)
	}
	return out
}

// fitOpened is what the care-and-fit sheet may show: it goes to the wearer.
type fitOpened struct {
	Wearer string     // the wearer's name
	Body   []bodyLine // the wearer's body, level by level, with the ease on it
	Taken  record.Day // when it was measured
	From   origin

	at []fault.Pos
}

func (o fitOpened) positions() []fault.Pos { return o.at }

// A bodyLine is one girth of the wearer.
type bodyLine struct {
	Level      string
	Body, Ease figure.Figure
	Enough     bool // as much ease as was asked for
}

func openFit(v *vault) fitOpened {
	out := fitOpened{From: openOrigin(v)}
	out.at = append(out.at, out.From.at...)
	enough := map[string]bool{}
	for _, kept := range v.garment.Fit.OnBody {
		f := kept.Open(record.ToTheSheet)
		enough[f.Level] = f.Enough
	}
	for _, w := range v.worn {
		if on := w.Body.Open(record.ToTheSheet); on != nil {
			out.Body = append(out.Body, bodyLine{w.Name, on.Body, on.Ease, enough[w.Name]})
			out.at = append(out.at, on.Body.Working.Positions()...)
		}
	}
	if v.wearer != nil {
		out.Wearer, out.Taken = v.wearer.Name.V, v.wearer.Taken.V
		out.at = append(out.at, v.wearer.Name.At, v.wearer.Taken.At)
	}
	return out
}

// nothingOpened is what a sheet may show that shows nothing private.
type nothingOpened struct{}

func (nothingOpened) positions() []fault.Pos { return nil }

func openNothing(*vault) nothingOpened { return nothingOpened{} }

// customsOpened is what the customs sheet may show: it goes to the post.
type customsOpened struct {
	FromAddress, FromCountry      string
	ToName, ToAddress, ToCountry  string
	ToContact                     string
	Value                         measure.Money
	HasValue                      bool
	ValueAt                       fault.Pos
	Crosses, SameUnion, NotListed bool

	at []fault.Pos
}

func (o customsOpened) positions() []fault.Pos { return o.at }

func openCustoms(v *vault) customsOpened {
	maker, b := v.room.Workroom.Maker, v.garment.Build
	address, country := maker.Address.Open(record.ToTheSheet), maker.Country.Open(record.ToTheSheet)
	out := customsOpened{FromAddress: address.V, FromCountry: country.V, at: []fault.Pos{address.At, country.At}}
	if v.wearer != nil {
		out.at = append(out.at, v.wearer.Name.At, v.wearer.Address.At, v.wearer.Country.At, v.wearer.Contact.At)
		out.ToName, out.ToAddress, out.ToCountry, out.ToContact = v.wearer.Name.V, v.wearer.Address.V, v.wearer.Country.V, v.wearer.Contact.V
	}
	value := b.Packet.Customs.Value.Open(record.ToTheSheet)
	if !value.Given() {
		value = b.Costs.Open(record.ToTheSheet).Price
	}
	out.Value, out.HasValue, out.ValueAt = value.V, value.Given(), value.At
	out.at = append(out.at, value.At)
	from, fromKnown := trade.CountryNamed(out.FromCountry)
	to, toKnown := trade.CountryNamed(out.ToCountry)
	if out.FromCountry == "" || out.ToCountry == "" {
		return out
	}
	out.NotListed = !fromKnown || !toKnown
	same := fromKnown && toKnown && from.Code == to.Code || strings.EqualFold(out.FromCountry, out.ToCountry)
	out.SameUnion = fromKnown && toKnown && from.Union && to.Union
	out.Crosses = !same && !out.SameUnion
	return out
}

// crosses reports whether the parcel crosses a customs border, as far as is
// known.
func (v *vault) crosses() bool { return openCustoms(v).Crosses }

// closeToBody is how near a size that a garment is drafted for may come to the wearer's
// own measure before it is asked about, mm: closer than two sizes lie apart (own choice).
const closeToBody = 10

// draftedLikeBody names the sizes a garment is drafted for that are nearly the wearer's
// own. One may be chance.
func (v *vault) draftedLikeBody() (names []string, at fault.Pos) {
	if v.wearer == nil {
		return nil, at
	}
	for _, d := range v.garment.Build.DraftedFor {
		own, ok := v.wearer.Body.Get(d.Name.V)
		if ok && own.Given() && (own.V-d.V.V).Abs().MM() <= closeToBody {
			names = append(names, d.Name.V)
			if !at.Given() {
				at = d.V.At
			}
		}
	}
	if len(names) < 2 {
		return nil, at
	}
	return names, at
}

// agreeOpened is what the sheet of an order may show: whom it is for, and the price.
type agreeOpened struct {
	Wearer   string
	Price    measure.Money
	HasPrice bool

	at []fault.Pos
}

func (o agreeOpened) positions() []fault.Pos { return o.at }

func openAgree(v *vault) agreeOpened {
	out := agreeOpened{}
	if v.wearer != nil {
		out.Wearer, out.at = v.wearer.Name.V, append(out.at, v.wearer.Name.At)
	}
	if price := v.garment.Build.Costs.Open(record.ToTheSheet).Price; price.Given() && v.garment.Build.Packet.Customs.Category.V != "gift" { // whoever is given it reads no price
		out.Price, out.HasPrice, out.at = price.V, true, append(out.at, price.At)
	}
	return out
}

// cardOpened is what the card may show, and other sheets that name the wearer alone.
type cardOpened struct {
	Wearer string // the wearer's name

	at []fault.Pos
}

func (o cardOpened) positions() []fault.Pos { return o.at }

func openCard(v *vault) cardOpened {
	if v.wearer == nil {
		return cardOpened{}
	}
	return cardOpened{v.wearer.Name.V, []fault.Pos{v.wearer.Name.At}}
}

// labelsOpened is what the labels may show: whom it is for, and where it was made.
type labelsOpened struct {
	cardOpened
	From origin
}

func openLabels(v *vault) labelsOpened {
	out := labelsOpened{openCard(v), openOrigin(v)}
	out.at = append(out.at, out.From.at...)
	return out
}

// measureOpened is what the measuring sheet may show: whom it is for. What it asks for
// are names of measurements, never what they were.
type measureOpened struct {
	Wearer string
	Asked  []string

	at []fault.Pos
}

func (o measureOpened) positions() []fault.Pos { return o.at }

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
