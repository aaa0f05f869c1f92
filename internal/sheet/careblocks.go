package sheet

import (
	"slices"
	"strconv"
	"strings"

	"hembook/internal/compose"
	"hembook/internal/document"
	"hembook/internal/drawing"
	"hembook/internal/label"
	"hembook/internal/paper/caremark"
	"hembook/internal/trade"
)

// caredFor is the care symbols with their words, and what stands beside, with the words
// that a law asks for where the garment is worn; "" for readers who are not to learn where.
func (c *composer) caredFor(law string) {
	c.heading("care.title")
	row := document.List{As: "symbols", Row: true}
	var unknown []string
	for _, l := range compose.CareLines(c, c.care) {
		if l.Unknown != "" {
			unknown = append(unknown, l.Term)
		}
		for i := range l.Signs {
			item := c.symbol(&l.Signs[i])
			if why := c.decidedBy(l.Signs[i].Name); why != "" {
				item.Phrase = append(item.Phrase, c.Phrase(document.As(document.Small, "\n"+why))...)
			}
			row.Items = append(row.Items, item)
		}
	}
	if !c.careKnown() {
		c.caution(c.t.say("care.unknown", "what", c.list(unknown)))
		c.careNotes(unknown, law)
		return
	}
	if len(row.Items) > 0 {
		c.Add(row)
		if !c.opt.Plain {
			c.aside(c.t.say("care.marks"))
		}
	}
	if c.care.Forbidden {
		c.caution(c.t.say("care.forbidden"))
	}
	c.careNotes(unknown, law)
}

// decidedBy says which layers decide the group of the label that begins with a symbol; ""
// where that is none.
func (c *composer) decidedBy(symbol string) string {
	for i := range c.care.Axes {
		if a := &c.care.Axes[i]; len(a.Options) > 0 && a.Options[0].Name == symbol {
			return c.becauseOf(a)
		}
	}
	return ""
}

// careLaw is the care in the words of the law where the garment is worn.
func (c *composer) careLaw() string {
	if !c.careKnown() || !c.inStates() {
		return ""
	}
	return c.t.say("care.us", "text", c.careUS())
}

// careNotes are what stands beside the symbols.
func (c *composer) careNotes(unknown []string, law string) {
	var notes []string
	for _, h := range c.hints() {
		notes = append(notes, c.t.say("hint."+h))
	}
	if c.careKnown() && len(unknown) > 0 {
		notes = append(notes, c.t.say("care.unlooked", "what", c.list(unknown))+".")
	}
	if c.careKnown() && law != "" {
		notes = append(notes, law)
	}
	if len(notes) > 0 {
		c.Say(document.Say(strings.Join(notes, " ")))
	}
	if c.care.Because != "" {
		c.Say(c.after(document.Say(strings.TrimSpace(c.t.say("care.because", "reason", ""))), c.build.Packet.Care.Because)...)
	}
}

// careKnown reports whether it can be said what the garment stands.
func (c *facts) careKnown() bool { return !c.care.Hidden() && len(c.care.Axes) > 0 }

// Care is what a care symbol means.
func (c *composer) Care(o *trade.CareOption) string {
	if o.Name == "wash-hand" {
		return c.t.say("care.wash-hand", "degrees", strconv.Itoa(c.care.Limits.Wash.Degrees))
	}
	return c.t.say("care." + o.Name)
}

// symbol is one care symbol with its words.
func (c *composer) symbol(o *trade.CareOption) document.Item {
	item := document.Item{Phrase: c.Phrase(document.Say(c.Care(o)))}
	if d, ok := caremark.Named(o.Name); ok && !c.opt.Plain {
		item.Draw = kept(d)
	}
	return item
}

// kept has one drawing drawn as often as is asked.
func kept(d *drawing.Drawing) func() *drawing.Drawing {
	d.Keep()
	return func() *drawing.Drawing { return d }
}

// NotCounted is a part of the garment, or a trim and what it is of, whose care nobody knows.
func (c *speaker) NotCounted(gap *label.CareGap) string {
	switch {
	case gap.Cloth:
		return c.part(gap.Of)
	case gap.Material != "":
		return c.notion(gap.Of) + " (" + gap.Material + ")"
	}
	return c.notion(gap.Of)
}

// hints are what the fibres and trims ask for beside the symbols, as keys of
// the words, in a fixed order.
func (c *facts) hints() []string {
	found := map[string]bool{}
	for _, cloth := range c.garment.Cloths {
		if cloth.Cloth == nil {
			continue
		}
		for i := range cloth.Cloth.Fibres {
			share := float64(cloth.Cloth.Fibres[i].V.V)
			if f, ok := trade.FibreNamed(cloth.Cloth.Fibres[i].Name.V); ok && share >= 20 {
				found[hintFibre(f)] = true
			}
		}
		switch strings.ToLower(cloth.Cloth.Weave.V) {
		case "velvet", "velveteen", "plush":
			found["velvet"] = true
		case "tulle", "net":
			found["net"] = true
		}
	}
	for _, n := range c.garment.Notions {
		switch material := strings.ToLower(n.Record.Material.V); {
		case strings.Contains(material, "horn"):
			found["horn"] = true
		case slices.ContainsFunc([]string{"steel", "brass", "metal"}, func(m string) bool { return strings.Contains(material, m) }):
			found["metal"] = true
		}
	}
	for i := range c.care.Layers {
		found["buttons"] = found["buttons"] || c.care.Layers[i].Point && !found["metal"]
	}
	wet := c.care.Limits.Wash.Degrees > 0
	ironed := c.care.Limits.Iron > 0
	var out []string
	for _, h := range []struct {
		name string
		when bool
	}{
		{"silk", true}, {"wool", true}, {"viscose", wet}, {"flax", wet && ironed}, {"acetate", true},
		{"velvet", true}, {"net", true}, {"horn", wet}, {"metal", true}, {"buttons", ironed},
	} {
		if found[h.name] && h.when {
			out = append(out, h.name)
		}
	}
	return out
}

func hintFibre(f trade.Fibre) string {
	switch {
	case f.Customs == "wool":
		return "wool"
	case f.Name == "modal":
		return "viscose"
	case f.Name == "triacetate":
		return "acetate"
	}
	return f.Name
}

// careUS is the care instruction of the United States, in its words. One way
// of cleaning is enough (16 CFR 423.6(b)); both are given where both work.
func (c *facts) careUS() string {
	l, en := c.care.Limits, newTongue("en")
	if l.Forbidden() {
		return en.say("us.never") + "."
	}
	var out []string
	if l.Wash.Degrees > 0 {
		out = append(out, washUS(en, l.Wash), en.say("us."+l.Bleach.Option()), dryUS(en, l), en.say("us."+l.IronOption()))
	} else {
		out = append(out, en.say("us.do-not-wash"))
	}
	out = append(out, cleanUS(en, l.Professional))
	return strings.Join(out, ". ") + "."
}

// washUS names the water as 16 CFR 423, appendix A does: cold up to 30 °C, warm
// up to 44, hot up to 63 (from memory).
func washUS(en *tongue, w trade.Wash) string {
	if w.Hand {
		return en.say("us.wash-hand")
	}
	text := en.say("us.wash-hot")
	if w.Degrees <= 30 {
		text = en.say("us.wash-cold")
	} else if w.Degrees <= 44 {
		text = en.say("us.wash-warm")
	}
	switch w.Action {
	case trade.Mild:
		return en.say("us.mild", "wash", text)
	case trade.VeryMild:
		return en.say("us.very-mild", "wash", text)
	}
	return text
}

func dryUS(en *tongue, l trade.CareLimits) string {
	if l.Tumble != trade.NoTumble || !l.Natural.Said {
		return en.say("us." + l.Tumble.Option())
	}
	text := en.say("us.dry-line")
	if l.Natural.Flat {
		text = en.say("us.dry-flat")
	} else if l.Natural.Drip {
		text = en.say("us.drip")
	}
	if l.Natural.Shade {
		text = en.say("us.shade", "dry", text)
	}
	return text
}

func cleanUS(en *tongue, clean trade.Clean) string {
	name := clean.Options()[0]
	switch {
	case name == "clean-none":
		return en.say("us.clean-none")
	case strings.HasPrefix(name, "wet"):
		return en.say("us.wet")
	case strings.HasPrefix(name, "clean-f"):
		return en.say("us." + name)
	case clean.Action == trade.Normal || clean.Action == "":
		return en.say("us.clean")
	}
	return en.say("us.clean-mild")
}

// cautions are those that concern whoever wears the garment.
func (c *composer) cautions() {
	if texts := c.cautionTexts(); len(texts) > 0 {
		c.caution(texts...)
	}
	c.aside(c.t.say("caution.untested") + " " + c.t.say("caution.law"))
}

// cautionTexts are the cautions for the wearer: those of the trade's table that
// have a text for wearers.
func (c *composer) cautionTexts() []string {
	var out []string
	for _, one := range c.garment.Cautions {
		word := "caution." + one.ID
		if one.Making || !c.t.has(word) {
			continue // for the maker alone
		}
		switch one.ID {
		case "flammable-light", "flammable-raised", "flammable-unknown":
			if parts := c.flagged(one.ID); len(parts) > 0 {
				out = append(out, c.t.say(word, "part", upper(c.Parts(parts))))
			}
		case "child-nightwear":
			out = append(out, strings.TrimSpace(c.t.say(word)+" "+stopped(c.ownAlone(c.build.Packet.Nightwear))))
		case "animal-parts":
			if c.content.Held {
				out = append(out, c.t.say(word))
			}
		case "nickel":
			if c.metalOnSkin() {
				out = append(out, c.t.say(word))
			}
		default:
			out = append(out, c.t.say(word))
		}
	}
	return out
}

// metalOnSkin reports whether any notion is of metal, or may be: a zip of
// polyester is none.
func (c *facts) metalOnSkin() bool {
	for _, n := range c.garment.Notions {
		material := strings.ToLower(n.Record.Material.V)
		metal := slices.ContainsFunc([]string{"metal", "steel", "brass", "nickel", "iron", "silver", "copper", "zinc", "bronze"}, func(m string) bool { return strings.Contains(material, m) })
		what := strings.ToLower(n.Record.InFull())
		unsaid := material == "" && slices.ContainsFunc([]string{"zip", "hook", "snap", "stud", "popper", "rivet", "eyelet", "buckle", "boning", "chain"}, func(w string) bool { return strings.Contains(what, w) })
		if metal || unsaid {
			return true
		}
	}
	return false
}

// flagged names the parts whose cloth a caution on fire is about. What lies
// between the others is left out: interlinings are not covered by the rule (72
// FR 8844, 2007).
func (f *facts) flagged(id string) []string {
	var out []string
	for _, cloth := range f.garment.Cloths {
		hidden := slices.ContainsFunc(f.content.LeftOut, func(l label.LeftOut) bool { return l.Part == cloth.Part && l.Hidden })
		if cloth.Cloth == nil || hidden {
			continue
		}
		surface := trade.Surface(cloth.Cloth.Surface.Or("plain"))
		flag := trade.Flammability(cloth.Cloth.Fibres.Names(), cloth.Cloth.MassAsBought(), surface)
		same := flag.State == trade.FlagUnknown && id == "flammable-unknown" ||
			flag.State == trade.Flagged && (id == "flammable-raised") == (surface == trade.RaisedSurface) && id != "flammable-unknown"
		if same {
			out = append(out, cloth.Part)
		}
	}
	return out
}
