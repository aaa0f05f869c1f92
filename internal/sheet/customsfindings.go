package sheet

import "strings"

// customs looks at what a customs form asks for.
func (f *finder) customs(own customsOpened) {
	p := &f.build.Packet.Customs
	lack := func(what, hint string) {
		f.refuse("customs", f.build.At, hint, "a customs form asks for %s", what)
	}
	if own.FromAddress == "" || own.FromCountry == "" {
		lack("the sender's address and country", "write maker: address: and country: in content/workroom.yaml")
	}
	if own.ToName == "" || own.ToAddress == "" || own.ToCountry == "" {
		lack("the addressee's name, address and country", "name the wearer under wearer:, with address: and country: in the wearer's file")
	}
	if !f.room.Workroom.Maker.Contact.Given() || own.ToContact == "" {
		f.doubt("customs", f.build.At, "write contact: under maker:, and in the wearer's file: a telephone number and an e-mail address", "the post asks how sender and addressee can be reached")
	}
	if p.Category.V == "sale of goods" && !p.Invoice.Given() {
		f.doubt("customs", p.Category.At, "write packet: customs: invoice:", "goods that are sold have an invoice with a number")
	}
	if !p.Category.Given() {
		lack("a category", "write packet: customs: category:")
	}
	switch {
	case !own.HasValue:
		lack("the value", "write packet: customs: value:, or costs: price:")
	case !own.Value.Amount.IsPositive():
		f.never("customs", own.ValueAt, "write packet: customs: value: with the real value, for a gift too", "the value of the garment is nothing")
	}
	if !f.facts.customs.Net.Value.Known() {
		lack("the net weight", "weigh it and write packet: net:, or write weight: of every cloth and notion: "+f.garment.Totals.Mass.Value.Why)
	}
	if !f.build.Packet.Parcel.Given() {
		f.doubt("customs", f.build.At, "weigh the parcel and write packet: parcel:", "the total weight is not known")
	}
	hs := f.facts.customs
	switch {
	case hs.Why != "" && p.Category.V == "sale of goods":
		lack("a six-digit heading for goods that are sold", strings.TrimSpace(hs.Why))
	case hs.Why != "":
		f.doubt("customs", f.build.Garment.At, "", "no customs heading: %s", hs.Why)
	case !hs.HS.Whole:
		f.doubt("customs", f.build.Garment.At, "look up its last two digits", "only the first four digits of the heading are known: %s", hs.HS.Code)
	}
	if own.NotListed {
		f.doubt("customs", f.build.At, "see whether a customs border lies between them", "a country is not in the list of countries")
	}
	if own.SameUnion {
		f.doubt("customs", f.build.At, "", "both countries are in the European Union: a parcel needs no customs declaration there")
	}
}
