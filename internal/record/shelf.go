package record

import (
	"reflect"

	"hembook/internal/fault"
	"hembook/internal/words"
)

// A Cloth is a fabric on the shelf or to be bought: content/cloth/<slug>.yaml.
type Cloth struct {
	Slug string    `yaml:"-"`
	At   fault.Pos `yaml:"-"`

	Name      Text           `yaml:"name" must:"yes" about:"what it is called in the notebook" eg:"Rust linen twill"`
	Summary   Text           `yaml:"summary" about:"one sentence on how it behaves"`
	About     Text           `yaml:"about" about:"how it cuts, sews, presses and wears, in Markdown"`
	Colour    Text           `yaml:"colour" about:"its colour in words"`
	Swatch    Text           `yaml:"swatch" about:"its colour as #rrggbb, for the drawings"`
	Picture   Photo          `yaml:"picture" about:"a picture of it"`
	Fibres    Dict[Percent]  `yaml:"fibres" must:"yes" about:"what it is made of, in % by weight, adding up to 100" eg:"{linen: 100}"`
	DryMass   DryMass        `yaml:"dry-mass" about:"per cent of dry weight, as a laboratory gives it"`
	Weave     Text           `yaml:"weave" about:"plain, twill, satin, crepe, velvet, jersey, tulle …"`
	Structure Text           `yaml:"structure" one-of:"woven|knitted|net|nonwoven|leather" about:"how it is made; else woven"`
	Surface   Text           `yaml:"surface" one-of:"plain|raised" about:"raised: pile, brushed, fleece; else plain"`
	Sheer     Flag           `yaml:"sheer" about:"whether one sees through it"`
	Mass      Areal          `yaml:"weight" was:"mass" min:"1" max:"3000" about:"what a square metre weighs" eg:"190 g/m2"`
	Weighed   Text           `yaml:"weighed" one-of:"unwashed|washed" about:"whether that is what it weighs before or after its first wash; else unwashed"`
	Thick     Length         `yaml:"thick" min:"0" max:"30" about:"thickness"`
	Width     Length         `yaml:"width" must:"yes" min:"10" max:"6000" about:"full width, selvedge to selvedge" eg:"140 cm"`
	Selvedge  Length         `yaml:"selvedge" min:"0" max:"200" about:"what is unusable at each selvedge"`
	OnHand    Counted        `yaml:"on-hand" about:"how much was on the shelf when it was counted; what came and was cut since is added and taken off" eg:"3.2 m"`
	Came      []Arrival      `yaml:"came" about:"what came in, each length by its day" eg:"{2026-07-20: 6 m}"`
	Cut       []CutOff       `yaml:"cut" about:"what was cut off, by what it was for: a build and its part, or any words" eg:"{supper-dress shell: {length: 2.6 m, day: 2026-08-14}}"`
	Step      Length         `yaml:"shop-step" min:"1" about:"cloth is bought in multiples of this" eg:"10 cm"`
	Price     Private[Money] `yaml:"price" about:"the price of one metre, or of one yard where units are inches; private"`
	From      Private[Text]  `yaml:"from" about:"where it was bought; private"`
	Shrink    Shrinkage      `yaml:"shrink" about:"how much it shrinks at the first wash, in %"`
	Stretch   StretchOf      `yaml:"stretch" about:"how much further it goes when it is stretched by hand, in %" eg:"{across: 55, along: 30}"`
	Recovery  Percent        `yaml:"recovery" min:"0" max:"100" about:"how much of that goes back afterwards, in %" eg:"95"`
	OneWay    Flag           `yaml:"one-way" about:"pile, sheen or print: all pieces must point the same way"`
	Faces     Text           `yaml:"faces" one-of:"one|two" about:"two: both faces may be the right side, so any piece may be turned over"`
	Repeat    RepeatSpec     `yaml:"repeat" about:"a stripe or check, as it measures before the first wash"`
	Uneven    Flag           `yaml:"uneven" about:"the repeat is not the same to both sides of its leading line: all pieces point one way"`
	Care      CareLimits     `yaml:"care" about:"what the supplier allows; the fibres' usual limits where nothing is said"`
	Remnants  []Remnant      `yaml:"remnants" about:"pieces of it left over from earlier garments"`
	Flaws     []Flaw         `yaml:"flaws" about:"places no piece may cover"`
}

// MassAsBought is what a square metre weighs before the first wash, in g; 0 where its
// weight is not known. Of one that shrinks there is less in it than of a washed one.
func (c *Cloth) MassAsBought() float64 {
	g := float64(c.Mass.V)
	if c.Weighed.V == "washed" {
		g *= float64(1-float64(c.Shrink.Along.V)/100) * float64(1-float64(c.Shrink.Across.V)/100)
	}
	return g
}

// A Counted is a length on the shelf with the day it was counted; without one it
// was there before all else that is written.
type Counted struct {
	At     fault.Pos `yaml:"-"`
	Length Length    `yaml:"length" short:"yes" must:"yes" min:"0" about:"how much is on the shelf" eg:"3.2 m"`
	Day    Date      `yaml:"day" about:"the day it was counted"`
}

// Given reports whether a length was counted.
func (c *Counted) Given() bool { return c.Length.Given() }

// An Arrival is a length of a cloth that came in.
type Arrival struct {
	At     fault.Pos `yaml:"-"`
	Day    Text      `yaml:",key" many:"lengths that came" by:"the day they came" eg:"2026-07-20"`
	Length Length    `yaml:"length" short:"yes" must:"yes" min:"1" about:"how much came" eg:"6 m"`
	Lot    Text      `yaml:"lot" about:"its dye lot"`
	Note   Text      `yaml:"note" about:"anything else"`
}

// A CutOff is a length that was cut off a cloth.
type CutOff struct {
	At     fault.Pos `yaml:"-"`
	For    Text      `yaml:",key" many:"cuts" by:"what they were for" eg:"pressing cloths"`
	Length Length    `yaml:"length" short:"yes" must:"yes" min:"0" about:"how much was cut off; 0 where it was cut from remnants alone" eg:"2.6 m"`
	Day    Date      `yaml:"day" about:"the day it was cut"`
	Note   Text      `yaml:"note" about:"anything else"`
}

// DryMass says that shares are of dry mass, and what the allowances need.
type DryMass struct {
	At     fault.Pos     `yaml:"-"`
	Shares Flag          `yaml:"shares" short:"yes" about:"per cent of dry weight"`
	Form   Dict[Text]    `yaml:"form" about:"which row of the agreed allowances, by fibre: carded, combed, staple, filament, normal, mercerised" eg:"{wool: combed}"`
	Lost   Dict[Percent] `yaml:"lost" about:"what each fibre lost in preparing the specimen, in %" eg:"{cotton: 4}"`
}

// Shrinkage is the loss at the first wash.
type Shrinkage struct {
	At     fault.Pos `yaml:"-"`
	Along  Percent   `yaml:"along" short:"yes" min:"-5" max:"30" about:"along the selvedge, in %"`
	Across Percent   `yaml:"across" min:"-5" max:"30" about:"from selvedge to selvedge, in %"`
}

// A StretchOf is how much a cloth gives: (stretched − relaxed) ÷ relaxed.
type StretchOf struct {
	At     fault.Pos `yaml:"-"`
	Across Percent   `yaml:"across" short:"yes" min:"0" max:"400" about:"across, from selvedge to selvedge, in %"`
	Along  Percent   `yaml:"along" min:"0" max:"400" about:"along the selvedge, in %"`
}

// Given reports whether a stretch was written, either way.
func (s *StretchOf) Given() bool { return s.Across.Given() || s.Along.Given() }

// Gives reports whether a cloth stretches: it says so, is knitted, or holds a fibre that
// does. One that says how far does not where that is nothing.
func (c *Cloth) Gives() bool {
	if c.Stretch.Given() {
		return c.Stretch.Across.V > 0 || c.Stretch.Along.V > 0
	}
	return c.Structure.V == "knitted" || c.Elastic()
}

// Elastic reports whether a cloth holds a fibre that stretches.
func (c *Cloth) Elastic() bool {
	for i := range c.Fibres {
		switch words.Plain(c.Fibres[i].Name.V) {
		case "elastane", "spandex", "elastodiene", "elastomultiester", "elastolefin":
			return true
		}
	}
	return false
}

// A RepeatSpec is the repeat of a pattern.
type RepeatSpec struct {
	At     fault.Pos `yaml:"-"`
	Along  Length    `yaml:"along" min:"1" about:"along the selvedge"`
	Across Length    `yaml:"across" min:"1" about:"across"`
	Line   Length    `yaml:"line" min:"0" about:"from the left selvedge to a leading line of the pattern, the middle of a stripe"`
}

// CareLimits are the supplier's limits, one word or two an axis.
type CareLimits struct {
	At           fault.Pos `yaml:"-"`
	Wash         Text      `yaml:"wash" one-of:"95|70|60|60 mild|50|50 mild|40|40 mild|40 very mild|30|30 mild|30 very mild|hand|none" about:"the hottest wash in °C, with mild or very mild action"`
	Bleach       Text      `yaml:"bleach" one-of:"any|oxygen|none" about:"bleaching"`
	Dry          Text      `yaml:"dry" one-of:"tumble normal|tumble low|line|drip|flat|drip flat|line shade|drip shade|flat shade|drip flat shade" about:"drying"`
	Iron         Text      `yaml:"iron" one-of:"200|150|110|110 no steam|none" about:"the hottest sole plate in °C"`
	Professional Text      `yaml:"professional" one-of:"P|P mild|P very mild|F|F mild|W|W mild|W very mild|none" about:"professional care"`
}

// A Remnant is a piece of cloth left over, as a closed line of points.
type Remnant struct {
	At      fault.Pos `yaml:"-"`
	Name    Text      `yaml:",key" many:"remnants" was:"name"`
	Outline []Val[XY] `yaml:"outline" short:"list" must:"yes" about:"its corners: [[x, y], …], y along the selvedge" eg:"[[0, 0], [620, 0], [620, 310]]"`
	Holes   []Hole    `yaml:"holes" about:"places in it that no piece may cover, each by its corners in the same drawing" eg:"[[[200, 60], [260, 60], [260, 120], [200, 120]]]"`
	From    Text      `yaml:"from" about:"the garment it was left by, after its day of cutting"`
	Used    Text      `yaml:"used" about:"the garment it went into, or what else became of it; it is then no longer there"`
	Note    Text      `yaml:"note" about:"where it came from"`
}

// A Flaw is a place on a cloth that no piece may cover, as a closed line of points.
type Flaw struct {
	At      fault.Pos `yaml:"-"`
	Outline []Val[XY] `yaml:"outline" short:"list" must:"yes" about:"its corners: [[x, y], …], y along the selvedge" eg:"[[0, 0], [30, 0], [30, 20]]"`
	Note    Text      `yaml:"note" about:"what is wrong there"`
}

// A Hole is such a place in a remnant.
type Hole Flaw

// A Wearer is the person a garment is for: content/wearers/<slug>.yaml. The
// whole file is private; the workroom hands it out only inside [Private].
type Wearer struct {
	Slug string    `yaml:"-"`
	At   fault.Pos `yaml:"-"`

	Name     Text         `yaml:"name" must:"yes" about:"the wearer's name"`
	For      ForWhom      `yaml:"for" about:"woman, man, child … and age or height where a rule depends on it"`
	Language Text         `yaml:"language" one-of:"en|de|fr|es|it|nl|ja" about:"the language of the wearer's sheets"`
	Units    Text         `yaml:"units" one-of:"mm|cm|in" about:"what a bare length is in, and what the sheets print"`
	Address  Text         `yaml:"address" about:"where the parcel goes"`
	Country  Text         `yaml:"country" about:"the country it goes to"`
	Contact  Text         `yaml:"contact" about:"how to reach the wearer; the customs sheet asks for it"`
	Note     Text         `yaml:"note" about:"posture, wishes, allergies"`
	Taken    Date         `yaml:"taken" about:"the day the measurements were taken"`
	By       Text         `yaml:"by" about:"who took them"`
	Body     Dict[Length] `yaml:"body" about:"body measurements by their standard names"`
	Earlier  []Measuring  `yaml:"earlier" about:"older measurements, kept"`
}

// SameWearer reports whether a wearer, or that there is none of that name, is
// the same in both rooms.
func SameWearer(a, b *Room, name Private[Text]) bool {
	return reflect.DeepEqual(a.Wearers[name.held.V], b.Wearers[name.held.V])
}

// A Measuring is one set of body measurements.
type Measuring struct {
	At   fault.Pos    `yaml:"-"`
	On   Date         `yaml:"day" was:"on" must:"yes" about:"the day"`
	By   Text         `yaml:"by" about:"who took them"`
	Body Dict[Length] `yaml:"body" must:"yes" about:"body measurements by their standard names"`
}
