package record

import (
	"strings"

	"hembook/internal/fault"
	"hembook/internal/measure"
)

// A Workroom says what holds for every garment: content/workroom.yaml.
type Workroom struct {
	At fault.Pos `yaml:"-"`

	Name      Text              `yaml:"name" must:"yes" about:"the name of the workroom" eg:"Weir Lane workroom"`
	Summary   Text              `yaml:"summary" about:"one sentence for the front page and for descriptions"`
	Maker     Maker             `yaml:"maker" about:"who works here"`
	Language  Text              `yaml:"language" one-of:"en" about:"the language of the notebook"`
	Units     Text              `yaml:"units" one-of:"mm|cm|in" about:"what a bare length is in; else mm"`
	Show      Text              `yaml:"show" one-of:"mm|cm|in|mm and in|cm and in" about:"the units figures are shown in"`
	Currency  Text              `yaml:"currency" about:"three letters of ISO 4217" eg:"EUR"`
	Paper     Text              `yaml:"paper" one-of:"A4|Letter" about:"the paper sheets are printed on"`
	Font      Text              `yaml:"font" about:"a TrueType font in the workroom for sheets in other scripts, such as Japanese; else one is looked for where fonts usually lie" eg:"fonts/mincho.ttf"`
	Rules     Text              `yaml:"rules" one-of:"EU|US" about:"whose fibre-content and care-label rules the sheets follow"`
	Site      Text              `yaml:"site" about:"the address of the published notebook" eg:"https://workroom.example/"`
	Theme     Text              `yaml:"theme" about:"the look of the notebook: a folder under themes; else plainweave" eg:"felt"`
	Hours     Dict[Hours]       `yaml:"hours" names:"mon|tue|wed|thu|fri|sat|sun" about:"working hours by weekday: mon, tue, wed, thu, fri, sat, sun" eg:"{fri: 09:00-12:30}"`
	DaysOff   List[Date]        `yaml:"days-off" about:"days without work"`
	Usual     Usual             `yaml:"usual" about:"what holds where a garment's record says nothing else"`
	Labour    Private[Money]    `yaml:"labour" about:"what an hour is worth; private"`
	SeamTypes FreeYAML          `yaml:"seam-types" about:"seam types and finishes of the workroom's own"`
	Terms     []Term            `yaml:"terms" about:"words of your own for the glossary"`
	Private   Private[FreeYAML] `yaml:"private" about:"anything for the maker's eyes only"`
}

// A Maker is who works in the workroom.
type Maker struct {
	At      fault.Pos     `yaml:"-"`
	Name    Text          `yaml:"name" short:"yes" must:"yes" about:"as it stands in the notebook"`
	Contact Text          `yaml:"contact" about:"how readers reach the maker; public"`
	Address Private[Text] `yaml:"address" about:"for sheets and customs forms; private"`
	Country Private[Text] `yaml:"country" about:"where the garments are made; private"`
}

// Hours are the working hours of a weekday, "09:00-12:30, 13:30-17:00".
type Hours struct {
	At    fault.Pos
	Spans [][2]int // minutes from midnight
}

// Usual are the workroom's defaults and margins.
type Usual struct {
	At             fault.Pos    `yaml:"-"`
	Allowance      Length       `yaml:"allowance" min:"0" max:"300" about:"seam allowance; else 15 mm"`
	LeastMargin    Length       `yaml:"least-margin" min:"0" about:"the least allowance that must stay when a seam is let out; else 6 mm"`
	Tolerance      Length       `yaml:"tolerance" min:"0" about:"how far joined edges may differ; else 3 mm"`
	MeasuredWithin Length       `yaml:"measured-within" min:"0" about:"how far the garment may differ from the plan; else 10 mm"`
	Straightening  Length       `yaml:"straightening" min:"0" about:"cloth lost in straightening each end; else 25 mm, or 1 in where units are inches"`
	ShopStep       Length       `yaml:"shop-step" min:"1" about:"cloth is bought in multiples of this; else 10 cm, or 1/8 yd where units are inches"`
	ThreadWaste    Percent      `yaml:"thread-waste" min:"0" max:"100" about:"added to computed thread; else 15 %"`
	Reel           Length       `yaml:"reel" min:"1" about:"thread on a reel; else 200 m"`
	LeastEase      Dict[Length] `yaml:"least-ease" about:"the least ease at a level"`
	Truing         Truing       `yaml:"truing" about:"how far edges that are sewn together may differ"`
}

// A Term is a word the glossary explains.
type Term struct {
	At      fault.Pos  `yaml:"-"`
	Term    Text       `yaml:",key" many:"terms" was:"term"`
	Meaning Text       `yaml:"meaning" short:"yes" must:"yes" about:"what it means, in a sentence or two"`
	Also    List[Text] `yaml:"also" about:"other words for it"`
}

// A Technique is a way of doing something: content/techniques/<slug>.md, a
// YAML header and then Markdown.
type Technique struct {
	Slug string    `yaml:"-"`
	At   fault.Pos `yaml:"-"`
	Body *Prose    `yaml:"-"`

	Name     Text         `yaml:"name" must:"yes" about:"what it is called" eg:"French seam"`
	Also     List[Text]   `yaml:"also" about:"names it is also known by"`
	Summary  Text         `yaml:"summary" must:"yes" about:"what it is, in one sentence"`
	When     Text         `yaml:"when" about:"when to use it"`
	Seams    List[Text]   `yaml:"seam" about:"the seam type or finish it makes, or several, that of the cross-section first; what is sewn so leads to this page" eg:"french"`
	Stage    Text         `yaml:"stage" one-of:"drafting|mock-up|fitting|cutting|sewing|pressing|finishing|packing" about:"the stage of work it belongs to"`
	Skill    Text         `yaml:"skill" one-of:"first week|first year|patient hand" about:"how much skill it needs"`
	Cautions List[Text]   `yaml:"cautions" about:"cautions of the trade tables that apply"`
	See      List[Text]   `yaml:"see" about:"techniques that belong beside it"`
	Picture  Photo        `yaml:"picture" about:"a drawing or photograph of it"`
	With     Dict[Length] `yaml:"with" about:"the parameters its cross-section is drawn with, as first: 6"`
}

// A Page is any other page: content/pages/<slug>.md.
type Page struct {
	Slug string    `yaml:"-"`
	At   fault.Pos `yaml:"-"`
	Body *Prose    `yaml:"-"`

	Title   Text  `yaml:"title" must:"yes" about:"its title"`
	Summary Text  `yaml:"summary" about:"one sentence for lists and descriptions"`
	Order   Count `yaml:"order" about:"where it stands among the pages"`
	Menu    Flag  `yaml:"menu" about:"false: not in the menu"`
	Manual  Flag  `yaml:"manual" about:"true: it tells how hembook is used; a search finds it last"`
}

// A Prose is Markdown with the place where it starts, so that a link that
// leads nowhere can be shown with its line.
type Prose struct {
	At   fault.Pos
	Text []byte
}

// Style is how a workroom prints figures.
func (w *Workroom) Style() measure.Style {
	s := measure.Style{Language: w.Language.V}
	show := w.Show.Or(w.Units.Or("mm"))
	if strings.HasPrefix(show, "cm") {
		s.Unit = measure.UnitCM
	}
	switch {
	case show == "in":
		s.System = measure.Imperial
	case strings.HasSuffix(show, "and in"):
		s.System = measure.Both
	}
	return s
}
