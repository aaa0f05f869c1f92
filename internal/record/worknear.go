package record

import (
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/say"
	"hembook/internal/words"
)

// nearSteps tells of steps that sew nothing and are called nearly as what no step sews:
// "button holes" for buttonholes, "sleeves" for sleeve front and sleeve back. It returns
// the names that are answered so.
func (c *buildCheck) nearSteps(must []Text, beside []string, named func(string) bool) map[string]bool {
	answered := map[string]bool{}
	for i := range c.b.Work {
		s := &c.b.Work[i]
		if len(s.Sews) > 0 || !s.Do.Given() {
			continue
		}
		var near []string
		for _, name := range beside {
			if !named(name) && closedUp(name) == closedUp(s.Do.V) {
				c.faults.LookAgain(s.Do.At, say.Of("record.did-you-mean", name), say.Of("record.sews-nothing", say.Quoted(fault.Shorten(s.Do.V)))).InsteadAt(s.Do.At, s.Do.V, name)
				answered[name] = true
			}
		}
		for _, name := range must {
			if !named(name.V) && !answered[name.V] && hasAtEnd(name.V, s.Do.V) {
				near = append(near, name.V)
			}
		}
		if near != nil {
			c.sewsNear(s, near)
			for _, name := range near {
				answered[name] = true
			}
		}
	}
	return answered
}

// sewsNear proposes what a step sews.
func (c *buildCheck) sewsNear(s *Step, near []string) {
	line := say.Of("record.sews", strings.Join(near, ", "))
	c.faults.LookAgain(s.Do.At, say.Of("record.write", line), say.Of("record.sews-nothing-does-it-sew", say.Quoted(fault.Shorten(s.Do.V)), meant.List(near, "and"))).Set(s.Do.At, "takes", line)
}

// closedUp is a name without its spaces and hyphens.
func closedUp(name string) string { return strings.ReplaceAll(words.Stem(name), " ", "") }

// hasAtEnd reports whether a name begins or ends with the words of another, one or many.
func hasAtEnd(name, with string) bool {
	all, part := strings.Fields(words.Plain(name)), strings.Fields(words.Plain(with))
	if len(part) >= len(all) {
		return false
	}
	alike := func(a, b string) bool { return words.Stem(a) == words.Stem(b) }
	return slices.EqualFunc(all[:len(part)], part, alike) || slices.EqualFunc(all[len(all)-len(part):], part, alike)
}
