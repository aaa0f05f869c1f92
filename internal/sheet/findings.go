package sheet

import (
	"fmt"
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/label"
	"hembook/internal/meant"
	"hembook/internal/record"
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
	word := "look again"
	if f.Refused {
		word = "stops the packet"
	}
	out := fmt.Sprintf("%s: %s: %s: %s", f.At, word, f.About, f.Text)
	if f.Reason != "" {
		out += "\n    packed all the same: " + f.Reason
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
func (f *finder) refuse(about string, at fault.Pos, hint, format string, args ...any) {
	one := Finding{Refused: true, About: about, Text: fmt.Sprintf(format, args...), At: at, Hint: hint}
	if reason := f.reason(about); reason.Given() && strings.TrimSpace(reason.V) != "" {
		one.Refused, one.Reason = false, reason.V
	} else {
		one.Hint += "; or give a reason, which is printed on the sheet, under packet: despite: " + about + ":"
	}
	f.list = append(f.list, one)
}

// never adds a finding that no reason outweighs.
func (f *finder) never(about string, at fault.Pos, hint, format string, args ...any) {
	f.list = append(f.list, Finding{Refused: true, About: about, Text: fmt.Sprintf(format, args...), At: at, Hint: hint})
}

func (f *finder) doubt(about string, at fault.Pos, hint, format string, args ...any) {
	f.list = append(f.list, Finding{About: about, Text: fmt.Sprintf(format, args...), At: at, Hint: hint})
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
		find.never("fit", f.build.At, "write what you saw and what you would change under fittings:", "no fitting changes anything, so there is nothing to agree to")
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
		find.doubt("body", at, "write the size of a table; the wearer's own measurements stay in the wearer's file", "drafted-for: is nearly the wearer's own %s, and stands on what others read", meant.List(names, "and"))
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
		f.refuse("care", f.build.At, "write the cloths under cloth:, and what each stands", "nothing is known of the care of this garment")
	}
	for _, gap := range care.Unknown {
		if gap.Cloth {
			f.refuse("care", gap.At, "write care: in the cloth's record, or decide it under packet: care:", "the care of %s is not known: %s", gap.Name, gap.Why)
			continue
		}
		f.doubt("care", gap.At, "write its material:", "%s is left out of the care: %s", gap.Name, gap.Why)
	}
	for _, c := range care.Conflicts {
		if care.Forbidden {
			f.refuse("care", f.build.At, "choose layers that go together, or decide the care under packet: care:", "%s", c)
			continue
		}
		f.doubt("care", f.build.At, "", "%s", c)
	}
	for _, a := range care.Axes {
		if a.Laxer {
			f.doubt("care", care.BecauseAt, "", "the maker's choice allows more at %s than %s stand: %s", a.Name, meant.List(a.SetBy, "and"), care.Because)
		}
	}
	for _, r := range care.Remarks {
		f.doubt("care", f.build.At, "", "%s", r)
	}
}

func (f *finder) content() {
	c := f.facts.content
	for _, u := range c.Unknown {
		f.refuse("content", u.At, "write fibres: in the cloth's record", "the fibres of the %s are not known: %s", u.Part, u.Why)
	}
	if len(c.Components) == 0 && len(c.Unknown) == 0 {
		f.refuse("content", f.build.At, "write the cloths under cloth:, and the pieces cut from them", "nothing is known of the fibres of this garment")
	}
	if f.madeUnsaid {
		f.doubt("content", f.room.Workroom.At, "write maker: country: in content/workroom.yaml", "a label in the United States says where it was made")
	}
	if c.WholeWhy != "" && len(c.Unknown) == 0 {
		f.doubt("content", f.build.At, "write weight: in the records of its cloths", "which component is the largest is not known: %s", c.WholeWhy)
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
			f.refuse("flame", c.At, "write the cloth's weight: per area, and its surface: where it is raised", "whether it burns quickly cannot be said: %s", c.Why)
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
			f.never("child", m.At, hint, "%s", m)
		case label.Refused, label.Unruled:
			f.refuse("child", m.At, hint, "%s", m)
		default:
			f.doubt("child", m.At, hint, "%s", m)
		}
	}
}

// figures looks at what the figures found wrong.
func (f *finder) figures(faults []fault.Fault) {
	for _, one := range faults {
		if one.Severity == fault.Error {
			f.refuse("figures", one.At, one.Hint, "figures on the sheets rest on something wrong: %s", one.Message)
		}
	}
	for _, l := range f.garment.Fit.Levels {
		if l.Measured.ID != "" && l.Off.Value.Known() && !l.Within {
			f.doubt("figures", firstPlace(l.Measured), "the sheet says so", "%s was measured further from its plan than the tolerance", l.Name)
		}
	}
	switch state := f.build.State.V; state {
	case "packed", "sent", "finishing":
	default:
		f.doubt("figures", f.build.State.At, "the sheets say that they are drafts", "the garment is not finished: it is %s", state)
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
	case known == 0 && measured == 0:
		f.doubt("fit", f.build.At, "name the levels that pieces cross, as levels: {waist: 0}", "nothing says how wide the garment is anywhere")
	case measured == 0:
		f.doubt("fit", f.build.At, "measure it and write measured:", "not measured yet: the sheet will say planned")
	}
	for _, one := range openFit(v).Body {
		if !one.Enough && one.Ease.Value.Known() {
			f.doubt("fit", f.build.At, "", "%s: tighter on the wearer than you asked for", one.Level)
		}
	}
}

func (f *finder) wearing() {
	if len(f.build.Packet.Wear) == 0 {
		f.doubt("words", f.build.At, "write packet: wear:, one step to a line", "the sheet does not say how to put it on")
	}
	if !f.room.Workroom.Maker.Contact.Given() {
		f.doubt("words", f.room.Workroom.At, "write maker: contact: in content/workroom.yaml", "the sheet does not say whom to ask")
	}
}

// box looks at the check for what is sharp.
func (f *finder) box() {
	if len(f.build.Packet.Box) == 0 {
		f.doubt("words", f.build.At, "write packet: box:, one thing to a line", "what is in the box is not written")
	}
	if state := f.build.State.V; (state == "packed" || state == "sent") && !f.build.Sent.Given() && !f.build.Packet.Packed.Given() {
		f.doubt("words", f.build.State.At, "write packet: packed: and the day", "the sheets do not say when it was packed")
	}
	c := &f.build.Packet.Checked
	const sign = "look and count, then write packet: checked: {by: …, day: 2026-11-29, pins-out: 60, pins-in: 60}"
	switch {
	case c.Needles.V == "a piece is missing":
		f.never("check", c.Needles.At, "find every piece; hold the garment back until then", "a piece of a broken needle is missing")
	case c.Out.Given() && c.In.Given() && c.In.V < c.Out.V:
		f.never("check", c.In.At, "find every pin; hold the garment back until then", "%d of %d pins have not come back", c.Out.V-c.In.V, c.Out.V)
	case !c.By.Given():
		f.refuse("check", f.build.At, sign, "pins and needles were not counted yet")
	case c.Out.Given() != c.In.Given():
		f.refuse("check", c.At, sign, "pins were counted only one way")
	case c.Out.Given() && c.In.V > c.Out.V:
		f.doubt("check", c.In.At, "count again", "%d pins came back and %d went out", c.In.V, c.Out.V)
	}
	if c.By.Given() && !c.On.Given() {
		f.doubt("check", c.At, "write day: under checked:", "the check for pins and needles has no date")
	}
}

// firstPlace is where the first written input of a figure stands.
func firstPlace(fig figure.Figure) fault.Pos {
	if list := fig.Working.Positions(); len(list) > 0 {
		return list[0]
	}
	return fault.Pos{}
}
