package trade

import (
	"regexp"
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/meant"
)

var (
	slugForm = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)
	nameForm = regexp.MustCompile(`^[a-z][a-z0-9_]*$`)
	typeForm = regexp.MustCompile(`^[1-6][0-9]{2}$`)
)

// checkSeamTypes finds what is wrong with seam types that read well: missing
// words, unknown names in formulas, measures whose defaults break the checks,
// sections that cannot be drawn.
func checkSeamTypes(list []SeamType) fault.List {
	var out fault.List
	seen := map[string]bool{}
	for _, t := range list {
		c := seamChecker{t: t}
		c.words()
		c.parameters()
		c.formulas()
		c.passes()
		if len(c.faults) == 0 {
			c.trial()
		}
		if t.Name != "" && seen[t.Name] {
			c.fault("", "a second seam type named %q", t.Name)
		}
		seen[t.Name] = true
		out = append(out, c.faults...)
	}
	return out
}

type seamChecker struct {
	t      SeamType
	faults fault.List
}

func (c *seamChecker) fault(hint, format string, args ...any) {
	c.faults = append(c.faults, fault.Errorf(fault.Pos{Line: int32(c.t.line), Column: int32(c.t.column)}, hint, format, args...))
}

func (c *seamChecker) words() {
	t := c.t
	for _, w := range []struct{ word, value string }{
		{"name", t.Name}, {"title", t.Title}, {"summary", t.Summary}, {"use", t.Use}, {"source", string(t.Source)},
	} {
		if strings.TrimSpace(w.value) == "" {
			c.fault("", "%s lacks %s", c.who(), w.word)
		}
	}
	if t.Name != "" && !slugForm.MatchString(t.Name) {
		c.fault("write it like flat-felled", "the name %q has other signs than small letters, digits and hyphens", t.Name)
	}
	if t.Kind != Seam && t.Kind != Finish {
		c.fault(meant.Hint(string(t.Kind), []string{"seam", "finish"}), "%s is of kind %q, neither seam nor finish", c.who(), t.Kind)
	}
	if t.ISO != nil && (t.ISO.Class < 1 || t.ISO.Class > 8) {
		c.fault("", "%s: ISO 4916 has classes 1 to 8, not %d", c.who(), t.ISO.Class)
	}
	for _, a := range t.Also {
		if a.Term == "" || a.Use != "" && a.Use != british && a.Use != american {
			c.fault("", "%s: also wants term, and use british or american", c.who())
		}
	}
}

func (c *seamChecker) who() string {
	if c.t.Name == "" {
		return "a seam type"
	}
	return c.t.Name
}

func (c *seamChecker) parameters() {
	seen := map[string]bool{"pi": true, plyName: true, runName: true, CutName: true, MarginName: true, AllName: true, AlongName: true}
	for _, p := range c.t.Parameters {
		switch {
		case !nameForm.MatchString(p.Name):
			c.fault("", "%s: a measure named %q; use small letters, digits and _", c.who(), p.Name)
		case seen[p.Name]:
			c.fault("", "%s: the measure %q is there twice or reserved", c.who(), p.Name)
		case p.Title == "":
			c.fault("", "%s: the measure %q lacks a title", c.who(), p.Name)
		case p.Default < 0:
			c.fault("", "%s: the measure %q has a negative default", c.who(), p.Name)
		}
		seen[p.Name] = true
	}
}

// formulas checks that every formula is there, is of the right sort and uses
// only names that have a value.
func (c *seamChecker) formulas() {
	known := []string{"pi"}
	for _, p := range c.t.Parameters {
		known = append(known, p.Name)
	}
	c.wants("gives, a", c.t.Gives.A, known)
	if c.t.Kind == Seam {
		c.wants("gives, b", c.t.Gives.B, known)
	} else if c.t.Gives.B.Given() || c.t.Gives.C.Given() {
		c.fault("", "%s is a finish and has only side a", c.who())
	}
	c.wants("width", c.t.Width, known)
	c.band()
	if c.t.Gives.C.Given() {
		c.wants("gives, c", c.t.Gives.C, known)
	}
	c.brings(known)
	for _, k := range c.t.Checks {
		if !k.Must.Compares() {
			c.faultAt(k.Must, "", "%s: a check compares two values, such as trim < second", c.who())
		}
		c.uses(k.Must, known)
		if k.Say == "" {
			c.faultAt(k.Must, "", "%s: a check lacks the words to say", c.who())
		}
		c.template(k.Say, known)
	}
	c.left(known)
	c.sectionFormulas(append(known, plyName, runName))
}

func (c *seamChecker) sectionFormulas(known []string) {
	d := c.t.Drawing
	if len(d.Layers) == 0 {
		c.fault("", "%s has no section", c.who())
	}
	point := func(pts ...PointRule) {
		for _, p := range pts {
			for _, e := range p.exprs() {
				c.wants("a point of the section", e, known)
			}
		}
	}
	for _, l := range d.Layers {
		if !slices.Contains(roleNames, string(l.Of)) {
			c.fault(meant.Hint(string(l.Of), roleNames), "%s: a layer of %q; there are %s", c.who(), l.Of, meant.List(roleNames, "and"))
		}
		for _, e := range []End{l.Start, l.End} {
			if !slices.Contains([]End{"", GoesOn, RawEdge, Pinked, Selvedge, Closed}, e) {
				c.fault("", "%s: a layer that ends %q; there are on, raw, pinked, selvedge and closed", c.who(), e)
			}
		}
		if len(l.Path) < 2 && (len(l.Path) == 0 || l.Path[0].Arc == nil) {
			c.fault("", "%s: a layer wants at least two points", c.who())
		}
		point(l.Path...)
	}
	for _, s := range d.Stitches {
		if s.Row < 1 || s.Row > len(c.t.Passes) {
			c.fault("", "%s: a stitch of pass %d, but there are %d passes", c.who(), s.Row, len(c.t.Passes))
		}
		point(s.From, s.To)
		point(s.Round...)
	}
	for _, m := range d.Dims {
		point(m.From, m.To)
	}
	for _, l := range d.Labels {
		point(l.At)
	}
}

func (c *seamChecker) passes() {
	known := []string{"pi"}
	for _, p := range c.t.Parameters {
		known = append(known, p.Name)
	}
	for i, p := range c.t.Passes {
		if p.Do == "" {
			c.fault("", "%s: pass %d does not say what is done", c.who(), i+1)
		}
		if p.At.Given() {
			c.wants("at", p.At, known)
		}
		if !slices.Contains([]Together{RightTogether, WrongTogether, LaidFlat}, p.Together) {
			c.fault("", "%s: pass %d together %q; there are right, wrong and flat", c.who(), i+1, p.Together)
		}
		if !typeForm.MatchString(p.Stitch) {
			c.fault("", "%s: pass %d has stitch %q, which is no ISO 4915 type", c.who(), i+1, p.Stitch)
		}
		if p.Rows < 1 {
			c.fault("", "%s: pass %d has %d rows", c.who(), i+1, p.Rows)
		}
		c.template(p.Do, known)
		c.template(p.Then, known)
	}
}

// trial works everything out once with the defaults.
func (c *seamChecker) trial() {
	a, b, err := c.t.Allowances(nil)
	if err != nil {
		c.fault("", "%v", err)
		return
	}
	if a.Value < 0 || b.Value < 0 {
		c.fault("", "%s gives up less than nothing with its defaults (%s)", c.who(), a.Working)
	}
	if _, err := c.t.FinishedWidth(nil); err != nil {
		c.fault("", "%v", err)
	}
	c.tried()
	broken, err := c.t.Broken(nil, nil)
	if err != nil {
		c.fault("", "%v", err)
	}
	for _, k := range broken {
		c.fault("", "%s: its own defaults break a check: %s (%s)", c.who(), k.Say, k.Working)
	}
	if _, err := c.t.Section(nil); err != nil {
		c.fault("", "%v", err)
	}
	c.drawn()
}

// wants checks a formula that must be there and be a value.
func (c *seamChecker) wants(what string, e Expr, known []string) {
	switch {
	case !e.Given():
		c.fault("", "%s lacks a formula for %s", c.who(), what)
	case e.Compares():
		c.faultAt(e, "", "%s: %s is a comparison, not a value", c.who(), what)
	default:
		c.uses(e, known)
	}
}

func (c *seamChecker) uses(e Expr, known []string) {
	for _, n := range e.Names() {
		if !slices.Contains(known, n) {
			c.faultAt(e, meant.Hint(n, known), "formula %q uses %q, which is no measure of %s", e.String(), n, c.who())
		}
	}
}

func (c *seamChecker) template(text string, known []string) {
	for rest := text; ; {
		_, tail, ok := strings.Cut(rest, "{")
		if !ok {
			return
		}
		formula, after, ok := strings.Cut(tail, "}")
		if !ok {
			c.fault("", "%s: %q lacks a closing brace", c.who(), text)
			return
		}
		e, err := ReadExpr(formula)
		if err != nil {
			c.fault("", "%s: in %q: %v", c.who(), text, err)
			return
		}
		c.wants("the words "+text, e, known)
		rest = after
	}
}

func (c *seamChecker) faultAt(e Expr, hint, format string, args ...any) {
	line, col := e.line, e.column
	if line == 0 {
		line, col = c.t.line, c.t.column
	}
	c.faults = append(c.faults, fault.Errorf(fault.Pos{Line: int32(line), Column: int32(col)}, hint, format, args...))
}
