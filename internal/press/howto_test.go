package press

import (
	"html/template"
	"reflect"
	"testing"
)

// TestWaysIn: every numbered list is a way to work, under its heading; one under "Steps" is
// all there is; notes at the foot are none.
func TestWaysIn(t *testing.T) {
	two := `<h2 id="a">By <em>hand</em></h2><p>x</p><ol><li>Roll it.</li><li>Sew &amp; pull.</li></ol>` +
		`<h2>By machine</h2><ol><li><p>Turn
 it.</p></li></ol><div class="footnotes"><hr><ol><li>A law.</li></ol></div>`
	want := []way{{"By hand", []string{"Roll it.", "Sew & pull."}}, {"By machine", []string{"Turn it."}}}
	if got := waysIn(template.HTML(two)); !reflect.DeepEqual(got, want) {
		t.Errorf("two ways: %q", got)
	}
	steps := `<h2>Which way?</h2><ol><li>Stroke it.</li></ol><h2>Steps</h2><ol><li>Cut.</li></ol><h2>After</h2><ol><li>Press.</li></ol>`
	if got := waysIn(template.HTML(steps)); !reflect.DeepEqual(got, []way{{"Steps", []string{"Cut."}}}) {
		t.Errorf("beside steps: %q", got)
	}
	made := howTo(want)
	if len(made) != 2 || made[0].Type != "HowToSection" || made[0].Name != "By hand" || len(made[0].Items) != 2 || made[0].Items[1].Text != "Sew & pull." {
		t.Errorf("sections: %+v", made)
	}
	if made := howTo(want[:1]); len(made) != 2 || made[1].Type != "HowToStep" || made[1].Position != 2 {
		t.Errorf("steps: %+v", made)
	}
}
