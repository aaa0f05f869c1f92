package sheet

import (
	"hembook/internal/fitting"
	"strings"

	"hembook/internal/derive"
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

// fitOpened is what the care-and-fit sheet may show: it goes to the wearer.
type fitOpened struct {
	Wearer string     // the wearer's name
	Body   []bodyLine // the wearer's body, level by level, with the ease on it
	Taken  record.Day // when it was measured

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
	var out fitOpened
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
		out.at = append(out.at, v.wearer.Name.At, v.wearer.Address.At, v.wearer.Country.At)
		out.ToName, out.ToAddress, out.ToCountry = v.wearer.Name.V, v.wearer.Address.V, v.wearer.Country.V
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
