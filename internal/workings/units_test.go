package workings

import (
	"regexp"
	"strings"

	"hembook/internal/trade"
)

var (
	metricForm = regexp.MustCompile(`\d[\x{a0} ]?(?:mm|cm|m|mm²|cm²|m²|min/m|g/m²|[A-Z]{3}/m)(?:[^\pL\d²/]|$)`)
	gramForm   = regexp.MustCompile(`\d[\x{a0} ]?(?:g|kg|tex)(?:[^\pL\d²/]|$)`)
	inchForm   = regexp.MustCompile(`\d[\x{a0} ]?(?:in|yd|ft|in²|yd²|min/yd|oz/yd²|oz|lb|[A-Z]{3}/yd)(?:[^\pL\d²/]|$)`)
	stitchForm = regexp.MustCompile(`\b[1-6]\d\d\b`)
)

// unitsOf looks for the units of the other system.
func (j *judge) unitsOf(r *room, e *entry) {
	if e.ID == "customs.net" {
		return // customs forms ask for kilograms, wherever they are written
	}
	look := func(what, text string) {
		switch {
		case r.inches && metricForm.MatchString(text):
			j.add(wrongUnits, "%s: %s", what, short(text))
		case r.inches && gramForm.MatchString(text):
			j.add(wrongWeight, "%s: %s", what, short(text))
		case !r.inches && inchForm.MatchString(strings.ReplaceAll(text, " in order", "")): // "2 of 4 in order of size"
			j.add(wrongUnits, "%s: %s", what, short(text))
		}
	}
	look("sum", e.Sum)
	for _, in := range e.Inputs {
		look("input "+in.Name, in.Value)
		look("input", in.Name)
	}
	look("title", e.Title)
	look("of", e.Of)
	look("rule", e.Rule)
	look("because", e.Why)
	if shown, _, _ := strings.Cut(e.Shown, " ("); shown != "" {
		look("shown", shown)
	}
}

// sources looks whether a sum over several stitches cites them all.
func (j *judge) sources(e *entry) {
	under := strings.HasSuffix(e.ID, ".under")
	if !e.Known || !strings.HasPrefix(e.ID, "thread.") || !under && !strings.HasSuffix(e.ID, ".needle") {
		return
	}
	cited := e.Source
	for _, in := range e.Inputs {
		cited += " " + in.From
	}
	for _, in := range e.Inputs {
		number := stitchForm.FindString(in.Name)
		for _, s := range trade.Stitches() {
			if s.Type != number || s.Ratio == nil || under && s.Ratio.Under == 0 {
				continue
			}
			if !strings.Contains(cited, string(s.Ratio.Source)) {
				j.add(sourceMissing, "stitch %s: %s", number, s.Ratio.Source)
				return
			}
		}
	}
}

// ids looks for figures of a build that share an ID.
func (j *judge) ids(r *room, b *build) {
	if b.shared {
		return
	}
	count := map[string]int{}
	for i := range b.entries {
		e := &b.entries[i]
		if count[e.ID]++; count[e.ID] == 2 {
			j.at = find{room: r.name, build: b.slug, id: e.ID}
			first := ""
			for k := range b.entries {
				if b.entries[k].ID == e.ID {
					first = b.entries[k].Of + " " + b.entries[k].Shown + " " + b.entries[k].Why
					break
				}
			}
			j.add(sharedID, "%s | %s %s %s", first, e.Of, e.Shown, e.Why)
		}
	}
}
