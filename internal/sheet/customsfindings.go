package sheet

import (
	"strings"

	"hembook/internal/say"
)

// customs looks at what a customs form asks for.
func (f *finder) customs(own customsOpened) {
	p := &f.build.Packet.Customs
	lack := func(what, hint string) {
		f.refuse("customs", f.build.At, hint, say.Of("sheet.a-customs-form-asks-for", what))
	}
	if own.FromAddress == "" || own.FromCountry == "" {
		lack(say.Of("sheet.the-senders-address-and-country"), say.Of("sheet.write-maker-address-and-country-in"))
	}
	if own.ToName == "" || own.ToAddress == "" || own.ToCountry == "" {
		lack(say.Of("sheet.the-addressees-name-address-and-country"), say.Of("sheet.name-the-wearer-under-wearer-with-address"))
	}
	if !f.room.Workroom.Maker.Contact.Given() || own.ToContact == "" {
		f.doubt("customs", f.build.At, say.Of("sheet.write-contact-under-maker-and-in-the"), say.Of("sheet.the-post-asks-how-sender-and-addressee"))
	}
	if p.Category.V == "sale of goods" && !p.Invoice.Given() {
		f.doubt("customs", p.Category.At, say.Of("sheet.write-packet-customs-invoice"), say.Of("sheet.goods-that-are-sold-have-an-invoice"))
	}
	if !p.Category.Given() {
		lack(say.Of("sheet.a-category"), say.Of("sheet.write-packet-customs-category"))
	}
	switch {
	case !own.HasValue:
		lack(say.Of("sheet.the-value"), say.Of("sheet.write-packet-customs-value-or-costs-price"))
	case !own.Value.Amount.IsPositive():
		f.never("customs", own.ValueAt, say.Of("sheet.write-packet-customs-value-with-the-real"), say.Of("sheet.the-value-of-the-garment-is-nothing"))
	}
	if !f.facts.customs.Net.Value.Known() {
		lack(say.Of("sheet.the-net-weight"), say.Of("sheet.weigh-it-and-write-packet-net-or", f.garment.Totals.Mass.Value.Why))
	}
	if !f.build.Packet.Parcel.Given() {
		f.doubt("customs", f.build.At, say.Of("sheet.weigh-the-parcel-and-write-packet-parcel"), say.Of("sheet.the-total-weight-is-not-known"))
	}
	hs := f.facts.customs
	switch {
	case hs.Why != "" && p.Category.V == "sale of goods":
		lack(say.Of("sheet.a-six-digit-heading-for-goods-that"), strings.TrimSpace(hs.Why))
	case hs.Why != "":
		f.doubt("customs", f.build.Garment.At, "", say.Of("sheet.no-customs-heading", hs.Why))
	case !hs.HS.Whole:
		f.doubt("customs", f.build.Garment.At, say.Of("sheet.look-up-its-last-two-digits"), say.Of("sheet.only-the-first-four-digits-of-the", hs.HS.Code))
	}
	if own.NotListed {
		f.doubt("customs", f.build.At, say.Of("sheet.see-whether-a-customs-border-lies-between"), say.Of("sheet.a-country-is-not-in-the-list"))
	}
	if own.SameUnion {
		f.doubt("customs", f.build.At, "", say.Of("sheet.both-countries-are-in-the-european-union"))
	}
}
