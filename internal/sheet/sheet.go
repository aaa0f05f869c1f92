// Package sheet writes what goes into the box with a garment: care and fit,
// repairs and changes, what is in the box, customs facts, and what another
// maker needs.
//
// It promises that a sheet holds only what its reader needs: each declares the
// private values it may show and is handed those, opened, and no others; that a
// sheet which would be silent or wrong on care, fibres, fire, or rests on
// faults, is refused unless the maker gives a reason, which is then printed on
// it; that fixed words come in the wearer's language, and what is lacking in it
// is marked; and that the same record gives the same bytes.
//
// It says what stands on a sheet, as blocks; how blocks look is for those who
// write them. It reads no flags and writes no files. It claims no compliance with any law.
package sheet

import (
	"errors"
	"slices"

	"hembook/internal/fitting"
	"hembook/internal/meant"
	"hembook/internal/say"

	"hembook/internal/cutting"
	"hembook/internal/derive"
	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/fault"
	"hembook/internal/label"
	"hembook/internal/measure"
	"hembook/internal/record"
)

// Options say how a packet is written.
type Options struct {
	Language string        // one of Languages; the wearer's unless said
	Size     document.Size // of the paper
	For      []string      // names of the readers wanted; nil for all that apply
	Public   string        // address of the build's page in the published notebook; empty where there is none
	Plain    bool          // care in words alone, without symbols
	Pictures *Pictures     // made for other packets of the same build; nil to make them anew
}

// A Packet is what goes into the box.
type Packet struct {
	Build    *record.Build
	Title    string // the garment's name
	Language string
	Sheets   []Sheet
	Findings []Finding // what is missing or doubtful, refusals first
	Care     *label.Care
	Content  *label.Content
}

// A Sheet is one document of a packet.
type Sheet struct {
	Name     string // care-and-fit: its name for files
	Bundle   Bundle // with what else it may lie
	Title    string // in the packet's language
	Document document.Document
	OnePage  bool        // it is meant to take one page
	MayShow  []fault.Pos // where the private values are written that it may show
}

// Refused reports whether the packet may not be sent.
func (p *Packet) Refused() bool {
	return slices.ContainsFunc(p.Findings, func(f Finding) bool { return f.Refused })
}

// A facts is what every sheet may know: the garment with its figures, none of
// what is private opened.
type facts struct {
	tailor  *derive.Tailor
	room    *record.Room
	build   *record.Build
	garment *derive.Garment
	cutting *cutting.Cutting
	worn    []fitting.Worn
	care    *label.Care
	content *label.Content
	also    *label.Content // by the rules of the workroom, where those of the wearer's country are others; else nil
	customs *label.Customs
	excused []string // what would have been refused but for the maker's reason
	papers  []string // names of the sheets that lie in the box
	opt     Options
	code    func() *drawing.Drawing // of the address of its page; nil where there is none
}

// A speaker says words, lengths and names as the reader of a sheet has them.
type speaker struct {
	t     *tongue
	style measure.Style // in the wearer's system
	si    measure.Style // metric, whatever the wearer's
	inch  bool          // inches before metric lengths
}

// A writer sets down blocks in the reader's words.
type writer struct {
	speaker
	document.Draft
	Card *document.Card // of a sheet that is folded; else nil
}

// A composer writes a sheet in one language.
type composer struct {
	*facts
	writer
}

// Make writes the packet of a build. What is missing or doubtful is in its
// findings; where one of them refuses the packet it has no sheets. The error
// says that the options cannot be meant.
func Make(room *record.Room, tailor *derive.Tailor, cut *cutting.Cutting, faults []fault.Fault, opt Options) (*Packet, error) {
	g := cut.Garment
	if opt.Pictures == nil {
		opt.Pictures = new(Pictures)
	}
	f := &facts{tailor: tailor, room: room, build: g.Build, garment: g, cutting: cut, worn: tailor.Worn(g), care: tailor.Care(g), content: tailor.Content(g), opt: opt}
	f.customs = tailor.Customs(g, f.content)
	if opt.Public != "" {
		code, err := draw.Code(opt.Public)
		if err != nil {
			return nil, err
		}
		f.code = kept(code)
	}
	v := newVault(f)
	wants := v.preferences()
	c := f.composer(opt.Language, wants)
	if c == nil {
		return nil, errors.New(say.Of("sheet.there-is-no-list-of-words-for", say.Quoted(opt.Language), meant.List(Languages, "and")))
	}
	p := &Packet{Build: g.Build, Title: c.called(), Language: c.t.code, Care: f.care, Content: f.content}
	wanted, err := wantedKinds(opt.For, v)
	if err != nil {
		return nil, err
	}
	p.Findings = f.findings(v, wanted, c.t.code, faults)
	if p.Refused() {
		return p, nil
	}
	for _, one := range p.Findings {
		if one.Reason != "" {
			f.excused = append(f.excused, one.About)
		}
	}
	for _, k := range wanted {
		if b := k.readers[0].bundle(); b != ToThePost && b != ByItself { // those are not in the box
			f.papers = append(f.papers, k.name)
		}
	}
	for _, k := range wanted {
		p.Sheets = append(p.Sheets, k.compose(c, v))
	}
	p.Findings = append(p.Findings, c.wordFindings(p.Sheets)...)
	return p, nil
}

// wantedKinds picks the sheets of the readers asked for; those for the post unless
// asked for only where the parcel crosses a customs border.
func wantedKinds(names []string, v *vault) ([]kind, error) {
	readers, err := readersNamed(names)
	if err != nil {
		return nil, err
	}
	if len(readers) == 0 {
		readers = []Reader{Wearer, Repairer, Maker}
		if v.crosses() {
			readers = append(readers, Post)
		}
	}
	var out []kind
	for _, k := range kinds {
		if slices.ContainsFunc(k.readers, func(r Reader) bool { return slices.Contains(readers, r) }) {
			out = append(out, k)
		}
	}
	return out, nil
}

// composer is nil where there are no words of that language.
func (f *facts) composer(code string, wants preferences) *composer {
	if code == "" {
		code = wants.language
	}
	t := newTongue(code)
	if t == nil {
		return nil
	}
	t.speakOf(f.build)
	c := &composer{facts: f, writer: writer{speaker: speaker{t: t, inch: wants.units == "in"}}}
	c.si = measure.Style{Unit: measure.UnitCM, Language: code}
	if wants.units == "mm" {
		c.si.Unit = measure.UnitMM
	}
	c.style = c.si
	if c.inch {
		c.style.System = measure.Imperial
	}
	return c
}

// A kind is one of the sheets there are. Its open and write are joined by type
// in declare: write is handed what open opened and cannot reach anything else
// that is private.
type kind struct {
	name    string
	readers []Reader
	compose func(*composer, *vault) Sheet
}

// declare makes a kind of sheet that is handed T.
func declare[T opened](name string, onePage bool, open func(*vault) T, write func(*composer, T), readers ...Reader) kind {
	return kind{name, readers, func(c *composer, v *vault) Sheet {
		if readers[0] == Post { // its forms are in English everywhere
			c = c.inEnglish()
		}
		c.Draft, c.Card = document.Draft{Printer: document.Printer{Style: c.style}}, nil
		if b := readers[0].bundle(); b == ToTheWearer || readers[0] == Labelled { // nobody else learns where it goes
			c.facts = c.whereWorn(v)
		}
		title, may := c.t.say("sheet."+name), open(v)
		write(c, may)
		return Sheet{Name: name, Bundle: readers[0].bundle(), Title: title, OnePage: onePage, MayShow: may.positions(), Document: document.Document{
			Title: c.says(c.called(), title), Author: c.room.Workroom.Maker.Name.V, Language: c.t.code,
			Size: c.opt.Size, Blocks: c.Blocks, Card: c.Card, TextSize: c.textSize(), Footer: c.footer(title), Words: c.wording(), Printer: c.Printer,
		}}
	}}
}

// inEnglish is the composer of a sheet that is always in English.
func (c *composer) inEnglish() *composer {
	english := *c
	english.t = newTongue("en")
	english.si.Language, english.style.Language = "en", "en"
	return &english
}

// footer is what stands at the foot of each page; a folded card has none.
func (c *composer) footer(title string) []string {
	if c.Card != nil {
		return nil
	}
	line := c.called() + " · " + title
	if m := c.room.Workroom.Maker; m.Name.Given() {
		line += " · " + m.Name.V
		if m.Contact.Given() {
			line += " · " + m.Contact.V
		}
	}
	return []string{line}
}

func (c *speaker) wording() document.Wording {
	return document.Wording{PageOf: c.t.raw("paper.page"), Continued: c.t.say("paper.continued"), Contents: c.t.say("paper.contents")}
}

// picture is the build's first picture or the half of it that show names, ready for
// the page; nil where there is none or it cannot be read.
func (c *facts) picture(show string) []byte { return c.photograph(c.build.Picture.Photo(), show) }

// photograph is a photograph of the build, likewise.
func (c *facts) photograph(p record.Photo, show string) []byte {
	if !p.Given() {
		return nil
	}
	return c.opt.Pictures.of(c.room.FS, record.PhotoPath(c.build.Folder, p), show)
}
