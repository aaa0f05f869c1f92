package sheet

import (
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/label"
	"hembook/internal/meant"
	"hembook/internal/record"
	"hembook/internal/say"
)

// A Finding is something missing or doubtful about a packet. A refused one
// keeps the packet from being written until it is mended, or the maker gives a
// reason under packet: despite:, where one is taken.
type Finding struct {
	Refused bool
	About   string // care, content, flame, figures, check, child, customs, words …
	Text    string
	Hint    string
	At      fault.Pos
	Reason  string // the maker's, where it was refused but for that
}

// String prints it on one line, with what helps on a second.
func (f Finding) String() string {
	out := say.Of("sheet.look-again", f.At, f.About, f.Text)
	if f.Refused {
		out = say.Of("sheet.stops-the-packet", f.At, f.About, f.Text)
	}
	if f.Reason != "" {
		out += "\n    " + say.Of("sheet.packed-all-the-same", f.Reason)
	} else if f.Hint != "" {
		out += "\n    " + f.Hint
	}
	return out
}

// A finder collects findings.
type finder struct {
	*facts
	list       []Finding
	madeUnsaid bool // a label must say where the garment was made, and the record does not
}

// refuse adds a finding that keeps the packet back, unless the maker gives a
// reason for it.
func (f *finder) refuse(about string, at fault.Pos, hint, text string) {
	one := Finding{Refused: true, About: about, Text: text, At: at, Hint: hint}
	if reason := f.reason(about); reason.Given() && strings.TrimSpace(reason.V) != "" {
		one.Refused, one.Reason = false, reason.V
	} else {
		one.Hint = say.Of("sheet.or-give-a-reason-which-is-printed", one.Hint, about)
	}
	f.list = append(f.list, one)
}

// never adds a finding that no reason outweighs.
func (f *finder) never(about string, at fault.Pos, hint, text string) {
	f.list = append(f.list, Finding{Refused: true, About: about, Text: text, At: at, Hint: hint})
}

func (f *finder) doubt(about string, at fault.Pos, hint, text string) {
	f.list = append(f.list, Finding{About: about, Text: text, At: at, Hint: hint})
}

// reason is the maker's reason for packing in spite of something.
func (f *facts) reason(about string) record.Spoken {
	d := &f.build.Packet.Despite
	switch about {
	case "care":
		return d.Care
	case "content":
		return d.Content
	case "flame":
		return d.Flame
	case "figures":
		return d.Figures
	case "check":
		return d.Check
	case "child":
		return d.Child
	case "customs":
		return d.Customs
	}
	return record.Spoken{}
}

// findings looks at everything that the sheets wanted rest on.
func (f *facts) findings(v *vault, wanted []kind, code string, faults []fault.Fault) []Finding {
	has := func(name string) bool {
		return slices.ContainsFunc(wanted, func(k kind) bool { return k.name == name })
	}
	find := &finder{facts: f, madeUnsaid: openOrigin(v).Country == "" && (v.market() == "us" || f.content.Market == "us")}
	if _, round := f.newestRound(); has("fit") && round == nil {
		find.never("fit", f.build.At, say.Of("sheet.write-what-you-saw-and-what-you"), say.Of("sheet.no-fitting-changes-anything-so-there-is"))
		return find.list
	}
	if !slices.ContainsFunc(wanted, func(k kind) bool { return k.readers[0].bundle() != ByItself || k.readers[0] == Labelled }) {
		return nil // what is asked rests on nothing that is sewn
	}
	if has("care-and-fit") || has("labels") {
		find.care()
	}
	if has("care-and-fit") {
		find.fit(v)
		find.wearing()
	}
	if has("care-and-fit") || has("customs") || has("labels") {
		find.content()
	}
	if has("care-and-fit") || has("box") {
		find.dangers()
	}
	find.figures(faults)
	if names, at := v.draftedLikeBody(); has("remake") && len(names) > 0 {
		find.doubt("body", at, say.Of("sheet.write-the-size-of-a-table-the"), say.Of("sheet.drafted-for-is-nearly-the-wearers-own", meant.List(names, "and")))
	}
	if has("box") {
		find.box()
	}
	if has("customs") {
		find.customs(openCustoms(v))
	}
	find.unsaid(code, has)
	slices.SortStableFunc(find.list, func(a, b Finding) int {
		switch {
		case a.Refused == b.Refused:
			return 0
		case a.Refused:
			return -1
		}
		return 1
	})
	return find.list
}

func (f *finder) care() {
	care := f.facts.care
	if len(care.Layers) == 0 {
		f.refuse("care", f.build.At, say.Of("sheet.write-the-cloths-under-cloth-and-what"), say.Of("sheet.nothing-is-known-of-the-care-of"))
	}
	for _, gap := range care.Unknown {
		if gap.Cloth {
			f.refuse("care", gap.At, say.Of("sheet.write-care-in-the-cloths-record-or"), say.Of("sheet.the-care-of-is-not-known", gap.Name, gap.Why))
			continue
		}
		f.doubt("care", gap.At, say.Of("sheet.write-its-material"), say.Of("sheet.is-left-out-of-the-care", gap.Name, gap.Why))
	}
	for _, c := range care.Conflicts {
		if care.Forbidden {
			f.refuse("care", f.build.At, say.Of("sheet.choose-layers-that-go-together-or-decide"), c)
			continue
		}
		f.doubt("care", f.build.At, "", c)
	}
	for _, a := range care.Axes {
		if a.Laxer {
			f.doubt("care", care.BecauseAt, "", say.Of("sheet.the-makers-choice-allows-more-at-than", a.Name, meant.List(a.SetBy, "and"), care.Because))
		}
	}
	for _, r := range care.Remarks {
		f.doubt("care", f.build.At, "", r)
	}
}

func (f *finder) content() {
	c := f.facts.content
	for _, u := range c.Unknown {
		f.refuse("content", u.At, say.Of("sheet.write-fibres-in-the-cloths-record"), say.Of("sheet.the-fibres-of-the-are-not-known", u.Part, u.Why))
	}
	if len(c.Components) == 0 && len(c.Unknown) == 0 {
		hint := say.Of("sheet.write-the-cloths-under-cloth-and-the")
		if len(f.build.Pieces) == 0 { // it came to be mended
			hint = say.Of("sheet.write-what-it-came-in")
		}
		f.refuse("content", f.build.At, hint, say.Of("sheet.nothing-is-known-of-the-fibres-of"))
	}
	if f.madeUnsaid {
		f.doubt("content", f.room.Workroom.At, say.Of("sheet.write-maker-country-in-content-workroom-yaml"), say.Of("sheet.a-label-in-the-united-states-says"))
	}
	if c.WholeWhy != "" && len(c.Unknown) == 0 {
		hint := say.Of("sheet.write-weight-in-the-records-of-its")
		if slices.ContainsFunc(f.garment.Cloths, func(c *garment.Cloth) bool { return !c.IsCut() }) {
			hint = "" // no record weighs what the garment came in
		}
		f.doubt("content", f.build.At, hint, say.Of("sheet.which-component-is-the-largest-is-not", c.WholeWhy))
	}
}

// dangers looks at fire and at children.
func (f *finder) dangers() {
	f.children()
	for _, c := range f.garment.Cautions {
		if c.Making {
			continue
		}
		switch c.ID {
		case "flammable-unknown":
			if len(f.flagged(c.ID)) == 0 {
				continue
			}
			f.refuse("flame", c.At, say.Of("sheet.write-the-cloths-weight-per-area-and"), say.Of("sheet.whether-it-burns-quickly-cannot-be-said", c.Why))
		}
	}
}

// children looks at what hangs on a child's garment. What is not classed is
// never packed; what is beyond what is published, with a reason.
func (f *finder) children() {
	for _, m := range f.garment.Children {
		hint := m.Hint
		if m.Source != "" && m.Verdict != label.Asked {
			hint = strings.TrimPrefix(hint+"; "+m.Source.Shown(), "; ")
		}
		switch m.Verdict {
		case label.Asked:
			f.never("child", m.At, hint, m.String())
		case label.Refused, label.Unruled:
			f.refuse("child", m.At, hint, m.String())
		default:
			f.doubt("child", m.At, hint, m.String())
		}
	}
}

// figures looks at what the figures found wrong.
func (f *finder) figures(faults []fault.Fault) {
	for _, one := range faults {
		if one.Severity == fault.Error {
			f.refuse("figures", one.At, one.Hint, say.Of("sheet.figures-on-the-sheets-rest-on-something", one.Message))
		}
	}
	for _, l := range f.garment.Fit.Levels {
		if l.Measured.ID != "" && l.Off.Value.Known() && !l.Within {
			f.doubt("figures", firstPlace(l.Measured), say.Of("sheet.the-sheet-says-so"), say.Of("sheet.was-measured-further-from-its-plan-than", l.Name))
		}
	}
	switch state := f.build.State.V; state {
	case "packed", "sent", "finishing":
	default:
		f.doubt("figures", f.build.State.At, say.Of("sheet.the-sheets-say-that-they-are-drafts"), say.Of("sheet.the-garment-is-not-finished-it-is", state))
	}
}

func (f *finder) fit(v *vault) {
	measured, known := 0, 0
	for _, l := range f.garment.Fit.Levels {
		if l.Finished.Value.Known() {
			known++
		}
		if l.Measured.ID != "" {
			measured++
		}
	}
	switch {
	case len(f.garment.Pieces) == 0: // it came as it is, as wide as it came
	case known == 0 && measured == 0:
		f.doubt("fit", f.build.At, say.Of("sheet.name-the-levels-that-pieces-cross-as"), say.Of("sheet.nothing-says-how-wide-the-garment-is"))
	case measured == 0:
		f.doubt("fit", f.build.At, say.Of("sheet.measure-it-and-write-measured"), say.Of("sheet.not-measured-yet-the-sheet-will-say"))
	}
	for _, one := range openFit(v).Body {
		if !one.Enough && one.Ease.Value.Known() {
			f.doubt("fit", f.build.At, "", say.Of("sheet.tighter-on-the-wearer-than-you-asked", one.Level))
		}
	}
}

func (f *finder) wearing() {
	if len(f.build.Packet.Wear) == 0 {
		f.doubt("words", f.build.At, say.Of("sheet.write-packet-wear-one-step-to-a"), say.Of("sheet.the-sheet-does-not-say-how-to"))
	}
	if !f.room.Workroom.Maker.Contact.Given() {
		f.doubt("words", f.room.Workroom.At, say.Of("sheet.write-maker-contact-in-content-workroom-yaml"), say.Of("sheet.the-sheet-does-not-say-whom-to"))
	}
}

// box looks at the check for what is sharp.
func (f *finder) box() {
	if len(f.build.Packet.Box) == 0 {
		f.doubt("words", f.build.At, say.Of("sheet.write-packet-box-one-thing-to-a"), say.Of("sheet.what-is-in-the-box-is-not"))
	}
	if state := f.build.State.V; (state == "packed" || state == "sent") && !f.build.Sent.Given() && !f.build.Packet.Packed.Given() {
		f.doubt("words", f.build.State.At, say.Of("sheet.write-packet-packed-and-the-day"), say.Of("sheet.the-sheets-do-not-say-when-it"))
	}
	c := &f.build.Packet.Checked
	sign := say.Of("sheet.look-and-count-then-write-packet-checked")
	switch {
	case c.Needles.V == "a piece is missing":
		f.never("check", c.Needles.At, say.Of("sheet.find-every-piece-hold-the-garment-back"), say.Of("sheet.a-piece-of-a-broken-needle-is"))
	case c.Out.Given() && c.In.Given() && c.In.V < c.Out.V:
		f.never("check", c.In.At, say.Of("sheet.find-every-pin-hold-the-garment-back"), say.Of("sheet.of-pins-have-not-come-back", c.Out.V-c.In.V, c.Out.V))
	case !c.By.Given():
		f.refuse("check", f.build.At, sign, say.Of("sheet.pins-and-needles-were-not-counted-yet"))
	case c.Out.Given() != c.In.Given():
		f.refuse("check", c.At, sign, say.Of("sheet.pins-were-counted-only-one-way"))
	case c.Out.Given() && c.In.V > c.Out.V:
		f.doubt("check", c.In.At, say.Of("sheet.count-again"), say.Of("sheet.pins-came-back-and-went-out", c.In.V, c.Out.V))
	}
	if c.By.Given() && !c.On.Given() {
		f.doubt("check", c.At, say.Of("sheet.write-day-under-checked"), say.Of("sheet.the-check-for-pins-and-needles-has"))
	}
}

// firstPlace is where the first written input of a figure stands.
func firstPlace(fig figure.Figure) fault.Pos {
	if list := fig.Working.Positions(); len(list) > 0 {
		return list[0]
	}
	return fault.Pos{}
}
