package record

import "hembook/internal/fault"

// A Packet adds the maker's words to the wearer's sheets.
type Packet struct {
	At        fault.Pos    `yaml:"-"`
	Wear      List[Spoken] `yaml:"wear" about:"how to put it on, step by step"`
	Card      List[Spoken] `yaml:"card" about:"what the folded card says to the wearer, a sentence or two to a line; three at best"`
	Box       List[Spoken] `yaml:"box" about:"what is in the box"`
	Note      Spoken       `yaml:"note" about:"a word to the wearer"`
	Mend      List[Spoken] `yaml:"mend" about:"how to mend or alter it, in the maker's words"`
	Keep      List[Spoken] `yaml:"keep" about:"what must not be undone, and why"`
	Store     List[Spoken] `yaml:"store" about:"how to put it away, beside what its cloth and its making ask for"`
	Spares    Photo        `yaml:"spares" about:"a photograph of the spare parts, printed on their card"`
	Care      CareChoice   `yaml:"care" about:"care the maker decides otherwise than the cloths say, with the reason"`
	Checked   PacketCheck  `yaml:"checked" about:"the check for pins and needles before the garment leaves"`
	Nightwear Spoken       `yaml:"nightwear" about:"for a child's nightwear: how it was tested and by whom, or that it is none; printed on the sheet"`
	Packed    Date         `yaml:"packed" about:"the day it was packed; it stands on the sheets until the garment is sent"`
	Net       Mass         `yaml:"net" min:"1" about:"the garment on your own scale, without packing; else its weight is worked out" eg:"820 g"`
	Parcel    Mass         `yaml:"parcel" min:"1" about:"the parcel as weighed, packing included" eg:"1.8 kg"`
	Customs   CustomsFacts `yaml:"customs" about:"what the customs form asks for, where the parcel crosses a border"`
	Despite   Despite      `yaml:"despite" about:"reasons for packing in spite of what stops the packet; each is printed on the sheets"`
}

// A CareChoice is care on some axes as the maker decides it.
type CareChoice struct {
	At           fault.Pos `yaml:"-"`
	Wash         Text      `yaml:"wash" one-of:"95|70|60|60 mild|50|50 mild|40|40 mild|40 very mild|30|30 mild|30 very mild|hand|none" about:"the hottest wash in °C, with mild or very mild action"`
	Bleach       Text      `yaml:"bleach" one-of:"any|oxygen|none" about:"bleaching"`
	Dry          Text      `yaml:"dry" one-of:"tumble normal|tumble low|line|drip|flat|drip flat|line shade|drip shade|flat shade|drip flat shade" about:"drying"`
	Iron         Text      `yaml:"iron" one-of:"200|150|110|110 no steam|none" about:"the hottest sole plate in °C"`
	Professional Text      `yaml:"professional" one-of:"P|P mild|P very mild|F|F mild|W|W mild|W very mild|none" about:"professional care"`
	Because      Spoken    `yaml:"because" must:"yes" about:"why; printed beside the care"`
}

// Limits are the axes decided, as a cloth's limits are written.
func (c CareChoice) Limits() CareLimits {
	return CareLimits{At: c.At, Wash: c.Wash, Bleach: c.Bleach, Dry: c.Dry, Iron: c.Iron, Professional: c.Professional}
}

// A PacketCheck says that nothing sharp is left in the garment.
type PacketCheck struct {
	At      fault.Pos `yaml:"-"`
	By      Text      `yaml:"by" short:"yes" must:"yes" about:"who looked" eg:"Maud Tarrelin"`
	On      Date      `yaml:"day" was:"on" about:"the day"`
	Out     Count     `yaml:"pins-out" min:"0" max:"10000" about:"pins taken from the tin"`
	In      Count     `yaml:"pins-in" min:"0" max:"10000" about:"pins that came back into it"`
	Needles Text      `yaml:"needles" one-of:"none broken|all pieces found|a piece is missing" about:"machine and hand needles"`
	Magnet  Flag      `yaml:"magnet" about:"a magnet went over seams and hems"`
}

// CustomsFacts are what a customs form asks for beside what the record tells.
type CustomsFacts struct {
	At       fault.Pos      `yaml:"-"`
	Category Text           `yaml:"category" one-of:"gift|sale of goods|commercial sample|returned goods|other" about:"why it is sent"`
	Value    Private[Money] `yaml:"value" about:"the real value, for a gift too (else the price asked); private"`
	Quantity Count          `yaml:"quantity" min:"1" max:"99" about:"how many garments are in the parcel; else 1"`
	Invoice  Text           `yaml:"invoice" about:"the number of the invoice, of goods that are sold"`
	Remark   Spoken         `yaml:"remark" about:"licences, certificates, quarantine: what the form has a line for"`
}

// Despite holds the maker's reasons, each for one thing that pack refuses.
type Despite struct {
	At      fault.Pos `yaml:"-"`
	Care    Spoken    `yaml:"care" about:"the care of a layer is not known, or nothing may be done to the garment"`
	Content Spoken    `yaml:"content" about:"the fibre content is not known"`
	Flame   Spoken    `yaml:"flame" about:"whether a cloth burns quickly cannot be said"`
	Figures Spoken    `yaml:"figures" about:"figures on the sheet rest on something wrong, or the garment differs from its plan"`
	Check   Spoken    `yaml:"check" about:"the check for pins and needles is not signed, or its counts differ"`
	Child   Spoken    `yaml:"child" about:"it has something that children's clothes should not have, as a cord at the neck"`
	Customs Spoken    `yaml:"customs" about:"the customs facts are not complete"`
}
