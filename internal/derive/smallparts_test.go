package derive

import (
	"fmt"
	"strings"
	"testing"
)

// TestButtonsAreNotBoundInTheStates: 16 CFR 1501.3(d) leaves children's clothing and what
// belongs to it, such as buttons, out of the small parts rule; that a button may come off
// is advice, of common practice, and never that rule's.
func TestButtonsAreNotBoundInTheStates(t *testing.T) {
	for _, market := range []string{"US", "EU"} {
		r := roomWith(t).file("content/workroom.yaml", "name: Test workroom\nrules: "+market+"\n")
		g, _ := r.desk().derive(t, "name: Test\nstate: sewing\ngarment: jacket\nfor: {who: baby, age: 1}\nnotions: {buttons: {count: 3, where: front}}\n")
		if len(g.Children) != 1 || !strings.HasPrefix(string(g.Children[0].Source), "common practice") {
			t.Errorf("%s: %+v", market, g.Children)
		}
		told := false
		for _, c := range g.Cautions {
			told = told || c.ID == "small-parts"
			if says := fmt.Sprint(c); strings.Contains(says, "1501") {
				t.Errorf("%s: a button is told the rule: %s", market, says)
			}
		}
		if !told {
			t.Errorf("%s: nothing is advised", market)
		}
	}
}
