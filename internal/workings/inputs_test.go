package workings

import (
	"regexp"
	"strings"

	"gopkg.in/yaml.v3"

	"hembook/internal/trade"
	"hembook/internal/workings/reckon"
)

var (
	idForm    = regexp.MustCompile(`^[a-z]+(\.[a-z0-9_-]+)+$`)
	pointForm = regexp.MustCompile(`^\(([^,]+), ([^,]+)\)$`)
	dateForm  = regexp.MustCompile(`^\d{4}-\d{2}-\d{2}( \d{2}:\d{2})?$`)
	countForm = regexp.MustCompile(`^(\d+)( [a-z]+)?$`)
)

// input looks whether an input is what it names.
func (j *judge) input(r *room, b *build, e *entry, in *input) {
	switch {
	case in.File == "" && idForm.MatchString(in.From):
		j.ofFigure(r, b, e, in)
	case in.File != "":
		j.ofLine(r, in)
	case in.From == "":
		j.add(inputNoPlace, "%s %s", in.Name, in.Value)
	case strings.Contains(in.From, "default"):
		j.ofDefault(in)
	case origins[in.From] || in.Table: // what it names is no figure and no line
	case in.From != theMoment && !strings.Contains(e.Source, in.From): // no table that is cited
		j.add(inputNoPlace, "%s %s, %s", in.Name, in.Value, in.From)
	}
}

// origins are what an input may come from that is neither written nor a figure
// of the garment as it is.
var origins = map[string]bool{
	"the lay plan": true, "the running clock": true, "the part of it that is still to come": true, "the other garments": true,
	"the garment before the change": true, "the garment after the change": true,
}

// theMoment is what the maker asks with: the time of day.
const theMoment = "the moment asked about"

// ofFigure compares an input with the figure that it names.
func (j *judge) ofFigure(r *room, b *build, e *entry, in *input) {
	if in.From == e.ID && !b.shared {
		j.add(inputItself, "%s %s", in.Name, in.Value)
	}
	found, same := false, false
	for i := range r.builds {
		one := &r.builds[i]
		if one != b && !b.shared && !one.shared {
			continue
		}
		for _, k := range one.byID[in.From] {
			found = true
			same = same || isValue(in.Value, &one.entries[k])
		}
	}
	switch {
	case !found:
		j.add(inputNobody, "%s %s, from %s", in.Name, in.Value, in.From)
	case !same:
		j.add(inputDiffers, "%s %s, from %s", in.Name, in.Value, in.From)
	}
}

// isValue reports whether a printed value is a figure's.
func isValue(text string, e *entry) bool {
	if !e.Known {
		return strings.HasPrefix(text, "not known")
	}
	if e.Moment != "" {
		return text == e.Moment
	}
	head, _, _ := strings.Cut(text, ", ") // "1.532 m, 2 of 301"
	s, finds := reckon.Read(head)
	if s == nil || len(finds) > 0 {
		return false
	}
	a := s.Links[0].Amount
	off := a.Value - e.Value.Value
	return a.Dim == e.Value.Dim && max(off, -off) <= a.Half+1e-9*(1+max(a.Value, -a.Value))
}

// twice looks for two inputs that name one figure with different values.
func (j *judge) twice(e *entry) {
	seen := map[string]string{}
	for _, in := range e.Inputs {
		if in.File != "" || !idForm.MatchString(in.From) {
			continue
		}
		head, _, _ := strings.Cut(in.Value, ", ")
		if was, ok := seen[in.From]; ok && was != head {
			j.add(inputOneTwice, "%s is %s and %s", in.From, was, head)
			return
		}
		seen[in.From] = head
	}
}

// ofLine looks whether the line that an input names holds it.
func (j *judge) ofLine(r *room, in *input) {
	line := r.line(in.File, in.Line)
	if in.Value == "as it stands" && strings.TrimSpace(line) != "" {
		return // it only says where
	}
	if strings.Contains(line, ".svg#") || strings.Contains(line, ".dxf#") {
		return // the line names the pattern file that holds it
	}
	bare := r.unit(in.File)
	missing := func() {
		j.add(inputLine, "%s %q, %s:%d %q", in.Name, in.Value, in.File, in.Line, short(strings.TrimSpace(line)))
	}
	if dateForm.MatchString(in.Value) {
		if !strings.Contains(line, in.Value) {
			missing()
		}
		return
	}
	if m := pointForm.FindStringSubmatch(in.Value); m != nil {
		for _, c := range m[1:] {
			if !r.holdsLength(line, bare, c) {
				missing()
				return
			}
		}
		return
	}
	if m := countForm.FindStringSubmatch(in.Value); m != nil && r.counts(in.File, in.Line, m[1]) {
		return
	}
	value := in.Value
	if head, per, ok := strings.Cut(value, "/"); ok && (per == "m" || per == "yd" || per == "h") {
		value = head // a price is written without what it is for
	}
	s, finds := reckon.Read(value)
	if s == nil || len(finds) > 0 || len(s.Links) != 1 {
		if !r.holdsWords(line, bare, in.Value) {
			missing()
		}
		return
	}
	if !holds(line, bare, s.Links[0].Amount) {
		missing()
	}
}

// holdsLength is for the coordinates of a point, which may be printed bare.
func (r *room) holdsLength(line, bare, text string) bool {
	s, _ := reckon.Read(text)
	if s == nil {
		return false
	}
	a := s.Links[0].Amount
	if a.Dim == reckon.None {
		for _, unit := range []string{bare, "mm", "in"} { // as printed, or in the units of the room
			one, _ := reckon.Of(a.Value, unit)
			one.Half = a.Half * one.Factor
			if holds(line, bare, one) {
				return true
			}
		}
		return false
	}
	return holds(line, bare, a)
}

// holdsWords is for values in words: every number in them, and else every
// word, stands in the line.
func (r *room) holdsWords(line, bare, text string) bool {
	list := writtenIn(text)
	if len(list) == 0 {
		return strings.Contains(strings.ToLower(line), strings.ToLower(text))
	}
	for _, w := range list {
		a, _ := reckon.Of(w.value, w.unit)
		a.Half = 0.5 * pow10(-w.decimals) * a.Factor
		less := a
		less.Value = -a.Value // "moved 4 mm inwards" is written −4
		if !holds(line, bare, a) && !holds(line, bare, less) {
			return false
		}
	}
	return true
}

// counts reports whether what begins in a line has so many entries.
func (r *room) counts(file string, line int, n string) bool {
	want := 0
	for _, c := range n {
		want = 10*want + int(c-'0')
	}
	found := false
	var visit func(n *yaml.Node, from int)
	visit = func(n *yaml.Node, from int) {
		at := n.Line
		if from == line {
			at = line
		}
		size := len(n.Content)
		if n.Kind == yaml.MappingNode {
			size /= 2
		}
		if at == line && n.Kind != yaml.ScalarNode && size == want {
			found = true
		}
		for i, c := range n.Content {
			key := 0
			if n.Kind == yaml.MappingNode && i%2 == 1 {
				key = n.Content[i-1].Line
			}
			if at == line && n.Kind != yaml.DocumentNode {
				key = line
			}
			visit(c, key)
		}
	}
	visit(r.tree(file), 0)
	return found
}

// defaults are the defaults of the seam types there are, by title.
var defaults = func() map[string][]float64 {
	out := map[string][]float64{
		// the demo workroom's own two
		"allowance": {6}, "understitching from the seam": {2}, "turned in": {12}, "under ply trimmed further by": {2},
	}
	for _, s := range trade.SeamTypes() {
		for _, p := range s.Parameters {
			out[p.Title] = append(out[p.Title], p.Default)
		}
		for i := range s.Strips {
			out["share"] = append(out["share"], s.Strips[i].Shares())
		}
	}
	return out
}()

// ofDefault looks at an input that is a default.
func (j *judge) ofDefault(in *input) {
	if !in.Default {
		j.add(hiddenDefault, "%s %s, %s", in.Name, in.Value, in.From)
	}
	if !strings.Contains(in.From, "seam type") {
		return
	}
	s, _ := reckon.Read(in.Value)
	if s == nil {
		j.add(inputUnread, "%s %s", in.Name, in.Value)
		return
	}
	for _, d := range defaults[in.Name] {
		a := s.Links[0].Amount
		if off := a.Value - d; max(off, -off) <= a.Half+1e-9 {
			return
		}
	}
	j.add(noDefault, "%s %s", in.Name, in.Value)
}
