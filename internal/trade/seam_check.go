package trade

import (
	"regexp"
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/say"
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
			c.fault("", say.Of("trade.a-second-seam-type-named", say.Quoted(t.Name)))
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

func (c *seamChecker) fault(hint, message string) {
	c.faults = append(c.faults, fault.Wrong(fault.Pos{Line: int32(c.t.line), Column: int32(c.t.column)}, hint, message))
}

func (c *seamChecker) words() {
	t := c.t
	for _, w := range []struct{ word, value string }{
		{"name", t.Name}, {"title", t.Title}, {"summary", t.Summary}, {"use", t.Use}, {"source", string(t.Source)},
	} {
		if strings.TrimSpace(w.value) == "" {
			c.fault("", say.Of("trade.lacks", c.who(), w.word))
		}
	}
	if t.Name != "" && !slugForm.MatchString(t.Name) {
		c.fault(say.Of("trade.write-it-like-flat-felled"), say.Of("trade.the-name-has-other-signs-than-small", say.Quoted(t.Name)))
	}
	if t.Kind != Seam && t.Kind != Finish {
		c.fault(meant.Hint(string(t.Kind), []string{"seam", "finish"}), say.Of("trade.is-of-kind-neither-seam-nor-finish", c.who(), say.Quoted(t.Kind)))
	}
	if t.ISO != nil && (t.ISO.Class < 1 || t.ISO.Class > 8) {
		c.fault("", say.Of("trade.iso-4916-has-classes-1-to-8", c.who(), t.ISO.Class))
	}
	for _, a := range t.Also {
		if a.Term == "" || a.Use != "" && a.Use != british && a.Use != american {
			c.fault("", say.Of("trade.also-wants-term-and-use-british-or", c.who()))
		}
	}
}

func (c *seamChecker) who() string {
	if c.t.Name == "" {
		return say.Of("trade.a-seam-type")
	}
	return c.t.Name
}

func (c *seamChecker) parameters() {
	seen := map[string]bool{"pi": true, plyName: true, runName: true, CutName: true, MarginName: true, AllName: true, AlongName: true}
	for _, p := range c.t.Parameters {
		switch {
		case !nameForm.MatchString(p.Name):
			c.fault("", say.Of("trade.a-measure-named-use-small-letters-digits", c.who(), say.Quoted(p.Name)))
		case seen[p.Name]:
			c.fault("", say.Of("trade.the-measure-is-there-twice-or-reserved", c.who(), say.Quoted(p.Name)))
		case p.Title == "":
			c.fault("", say.Of("trade.the-measure-lacks-a-title", c.who(), say.Quoted(p.Name)))
		case p.Default < 0:
			c.fault("", say.Of("trade.the-measure-has-a-negative-default", c.who(), say.Quoted(p.Name)))
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
	c.wants(say.Of("trade.gives-a"), c.t.Gives.A, known)
	if c.t.Kind == Seam {
		c.wants(say.Of("trade.gives-b"), c.t.Gives.B, known)
	} else if c.t.Gives.B.Given() || c.t.Gives.C.Given() {
		c.fault("", say.Of("trade.is-a-finish-and-has-only-side", c.who()))
	}
	c.wants("width", c.t.Width, known)
	c.band()
	if c.t.Gives.C.Given() {
		c.wants(say.Of("trade.gives-c"), c.t.Gives.C, known)
	}
	c.brings(known)
	for _, k := range c.t.Checks {
		if !k.Must.Compares() {
			c.faultAt(k.Must, "", say.Of("trade.a-check-compares-two-values-such-as", c.who()))
		}
		c.uses(k.Must, known)
		if k.Say == "" {
			c.faultAt(k.Must, "", say.Of("trade.a-check-lacks-the-words-to-say", c.who()))
		}
		c.template(k.Say, known)
	}
	c.left(known)
	c.sectionFormulas(append(known, plyName, runName))
}

func (c *seamChecker) sectionFormulas(known []string) {
	d := c.t.Drawing
	if len(d.Layers) == 0 {
		c.fault("", say.Of("trade.has-no-section", c.who()))
	}
	point := func(pts ...PointRule) {
		for _, p := range pts {
			for _, e := range p.exprs() {
				c.wants(say.Of("trade.a-point-of-the-section"), e, known)
			}
		}
	}
	for _, l := range d.Layers {
		if !slices.Contains(roleNames, string(l.Of)) {
			c.fault(meant.Hint(string(l.Of), roleNames), say.Of("trade.a-layer-of-there-are", c.who(), say.Quoted(l.Of), meant.List(roleNames, "and")))
		}
		for _, e := range []End{l.Start, l.End} {
			if !slices.Contains([]End{"", GoesOn, RawEdge, Pinked, Selvedge, Closed}, e) {
				c.fault("", say.Of("trade.a-layer-that-ends-there-are-on", c.who(), say.Quoted(e)))
			}
		}
		if len(l.Path) < 2 && (len(l.Path) == 0 || l.Path[0].Arc == nil) {
			c.fault("", say.Of("trade.a-layer-wants-at-least-two-points", c.who()))
		}
		point(l.Path...)
	}
	for _, s := range d.Stitches {
		if s.Row < 1 || s.Row > len(c.t.Passes) {
			c.fault("", say.Of("trade.a-stitch-of-pass-but-there-are", c.who(), s.Row, len(c.t.Passes)))
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
			c.fault("", say.Of("trade.pass-does-not-say-what-is-done", c.who(), i+1))
		}
		if p.At.Given() {
			c.wants("at", p.At, known)
		}
		if !slices.Contains([]Together{RightTogether, WrongTogether, LaidFlat}, p.Together) {
			c.fault("", say.Of("trade.pass-together-there-are-right-wrong-and", c.who(), i+1, say.Quoted(p.Together)))
		}
		if !typeForm.MatchString(p.Stitch) {
			c.fault("", say.Of("trade.pass-has-stitch-which-is-no-iso", c.who(), i+1, say.Quoted(p.Stitch)))
		}
		if p.Rows < 1 {
			c.fault("", say.Of("trade.pass-has-rows", c.who(), i+1, p.Rows))
		}
		c.template(p.Do, known)
		c.template(p.Then, known)
	}
}

// trial works everything out once with the defaults.
func (c *seamChecker) trial() {
	a, b, err := c.t.Allowances(nil)
	if err != nil {
		c.fault("", err.Error())
		return
	}
	if a.Value < 0 || b.Value < 0 {
		c.fault("", say.Of("trade.gives-up-less-than-nothing-with-its", c.who(), a.Working))
	}
	if _, err := c.t.FinishedWidth(nil); err != nil {
		c.fault("", err.Error())
	}
	c.tried()
	broken, err := c.t.Broken(nil, nil)
	if err != nil {
		c.fault("", err.Error())
	}
	for _, k := range broken {
		c.fault("", say.Of("trade.its-own-defaults-break-a-check", c.who(), k.Say, k.Working))
	}
	if _, err := c.t.Section(nil); err != nil {
		c.fault("", err.Error())
	}
	c.drawn()
}

// wants checks a formula that must be there and be a value.
func (c *seamChecker) wants(what string, e Expr, known []string) {
	switch {
	case !e.Given():
		c.fault("", say.Of("trade.lacks-a-formula-for", c.who(), what))
	case e.Compares():
		c.faultAt(e, "", say.Of("trade.is-a-comparison-not-a-value", c.who(), what))
	default:
		c.uses(e, known)
	}
}

func (c *seamChecker) uses(e Expr, known []string) {
	for _, n := range e.Names() {
		if !slices.Contains(known, n) {
			c.faultAt(e, meant.Hint(n, known), say.Of("trade.formula-uses-which-is-no-measure-of", say.Quoted(e.String()), say.Quoted(n), c.who()))
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
			c.fault("", say.Of("trade.lacks-a-closing-brace-2", c.who(), say.Quoted(text)))
			return
		}
		e, err := ReadExpr(formula)
		if err != nil {
			c.fault("", say.Of("trade.in", c.who(), say.Quoted(text), err))
			return
		}
		c.wants(say.Of("trade.the-words", text), e, known)
		rest = after
	}
}

func (c *seamChecker) faultAt(e Expr, hint, message string) {
	line, col := e.line, e.column
	if line == 0 {
		line, col = c.t.line, c.t.column
	}
	c.faults = append(c.faults, fault.Wrong(fault.Pos{Line: int32(line), Column: int32(col)}, hint, message))
}
