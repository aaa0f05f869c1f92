package draw

import (
	"bytes"
	"context"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"hembook/internal/cutting"
	"hembook/internal/derive"
	"hembook/internal/drawing"
	"hembook/internal/measure"
	"hembook/internal/record"
)

// layOf lays a build of a workroom of the test's own.
func layOf(t testing.TB, cloth, build string) *cutting.Lay {
	t.Helper()
	dir := t.TempDir()
	for name, text := range map[string]string{
		"content/workroom.yaml":          "name: Test\n",
		"content/cloth/linen.yaml":       "name: Linen <fine>\nfibres: {linen: 100}\n" + cloth,
		"content/builds/test/build.yaml": "name: Test\ngarment: dress\nstate: cutting\n" + build,
	} {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	room, _, err := record.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { room.Close() })
	tailor, _ := derive.NewTailor(room)
	bf, _ := room.BuildNamed("test")
	b, _ := room.ReadBuild(bf)
	l := cutting.NewCutter(context.Background(), room, tailor, cutting.Options{Tries: 20_000}).Cut(b).Lays[0]
	if l.Plan == nil {
		t.Fatal(l.Why)
	}
	return l
}

const twoPanels = `cloth: {shell: {use: linen, fold: %s}}
pieces:
  panel & co: {cut: 2, allowance: 0, rectangle: [300, %d], notches: {right: 100}} # the notch makes a left and a right of them
`

// lays are drawings of every kind: open, folded, one-way, flawed, in rows.
func lays(t testing.TB) map[string]*cutting.Lay {
	return map[string]*cutting.Lay{
		"open":    layOf(t, "width: 700\nselvedge: 20\n", fmt.Sprintf(twoPanels, "open", 400)),
		"folded":  layOf(t, "width: 700\nselvedge: 20\n", fmt.Sprintf(twoPanels, "folded", 400)),
		"one-way": layOf(t, "width: 700\none-way: true\n", fmt.Sprintf(twoPanels, "open", 400)),
		"flawed":  layOf(t, "width: 700\nflaws: [{outline: [[310, 100], [330, 100], [330, 120]]}]\n", fmt.Sprintf(twoPanels, "open", 400)),
		"rows":    layOf(t, "width: 1400\n", fmt.Sprintf(twoPanels, "open", 6100)),
	}
}

// TestLayIsWellFormed: XML that can be read, no style and no event in it, a
// title first, every class one of the known few.
func TestLayIsWellFormed(t *testing.T) {
	known := strings.Fields("lay selvedge bar cloth grain fold level ruler left flaw strip cut laid cutline name less small tack m e")
	for name, l := range lays(t) {
		svg := Lay(l, LayStyle{}).SVG(nil)
		d := xml.NewDecoder(bytes.NewReader(svg))
		for {
			tok, err := d.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatalf("%s: %s", name, err)
			}
			start, ok := tok.(xml.StartElement)
			if !ok {
				continue
			}
			for _, a := range start.Attr {
				if a.Name.Local == "style" || strings.HasPrefix(a.Name.Local, "on") || a.Name.Local == "id" {
					t.Errorf("%s: %s has the attribute %s", name, start.Name.Local, a.Name.Local)
				}
				for _, class := range strings.Fields(a.Value) {
					if a.Name.Local == "class" && !slices.Contains(known, class) {
						t.Errorf("%s: class %q", name, class)
					}
				}
			}
		}
		if bytes.Contains(svg, []byte("NaN")) || bytes.Contains(svg, []byte("Inf")) {
			t.Errorf("%s: a number that is none", name)
		}
		if !bytes.Equal(svg, Lay(l, LayStyle{}).SVG(nil)) {
			t.Errorf("%s: drawn twice, two drawings", name)
		}
	}
}

// TestThemeKnowsTheClassesOfLays: a class without a rule would be a line in
// another hand.
func TestThemeKnowsTheClassesOfLays(t *testing.T) {
	sheet, err := os.ReadFile("../../themes/plainweave/look/5-drawings.css")
	if err != nil {
		t.Fatal(err)
	}
	for name, l := range lays(t) {
		for c := range wellFormed(t, string(Lay(l, LayStyle{}).SVG(nil))) {
			if c != "lay" && !regexp.MustCompile(`\.`+c+`\b`).Match(sheet) { // the whole drawing's name
				t.Errorf("%s: no rule for .%s", name, c)
			}
		}
	}
}

// TestLaySaysWhatItShows: the words beside the drawing hold the same facts.
func TestLaySaysWhatItShows(t *testing.T) {
	all := lays(t)
	for name, want := range map[string][]string{
		"open": {"Lay plan of shell, Linen &lt;fine&gt;, single layer, right side up, drawn 1 : 4", "400 mm of lay on 660 mm of width", "90.9 % of it used", "left selvedge on top",
			"panel &amp; co: 0 to 400 mm from the cut end", "from the inner edge of the left selvedge", "copy 2, face down", "two-way cloth", ">right selvedge<"},
		"folded":  {", folded lengthwise, drawn", "on 330 mm of width", "copies 1 and 2", "from the fold", ">fold<", ">both selvedges<", "×2"},
		"one-way": {"All pieces point away from the cut end", "one-way cloth"},
		"flawed":  {`class="flaw strip"`},
		"rows":    {"rows, one going on from the other", `class="cutline bar"`},
	} {
		svg := string(Lay(all[name], LayStyle{}).SVG(nil))
		for _, w := range want {
			if !strings.Contains(svg, w) {
				t.Errorf("%s: lacks %q in\n%.1500s", name, w, svg)
			}
		}
	}
	inches := string(Lay(all["open"], LayStyle{Measure: measure.Style{System: measure.Imperial}}).SVG(nil))
	if !strings.Contains(inches, "15 3/4 in from the cut end") {
		t.Errorf("no inches: %.600s", inches)
	}
}

var size = regexp.MustCompile(`width="([0-9.]+)mm" height="([0-9.]+)mm"`)

// TestLayFitsPaper: whatever its length, a lay fits a page of A4 and Letter
// with margins of 15 mm: 180 × 249.
func TestLayFitsPaper(t *testing.T) {
	for name, l := range lays(t) {
		m := size.FindSubmatch(Lay(l, LayStyle{}).SVG(nil))
		if m == nil {
			t.Fatalf("%s has no size", name)
		}
		w, _ := strconv.ParseFloat(string(m[1]), 64)
		h, _ := strconv.ParseFloat(string(m[2]), 64)
		if w > 180.05 || h > 249 {
			t.Errorf("%s is %v × %v mm", name, w, h)
		}
	}
}

// TestLayToScale: at 1 : 4 a panel of 400 × 300 is 1000 × 750 units.
func TestLayToScale(t *testing.T) {
	svg := string(Lay(lays(t)["open"], LayStyle{}).SVG(nil))
	if !regexp.MustCompile(`class="cut" d="M[0-9 -]+(v750h1000v-750z|h1000v750h-1000z|v-750h-1000v750z|v750h-1000v-750z|h-1000v-750h1000z|h-1000v750h1000z|v-750h1000v750z|h1000v-750h-1000z)"`).MatchString(svg) {
		t.Errorf("no panel of 1000 × 750: %.2500s", svg)
	}
}

func TestLayWithoutPlan(t *testing.T) {
	if got := Lay(&cutting.Lay{Part: "shell"}, LayStyle{}); got != nil {
		t.Errorf("%s is drawn", got.Title)
	}
	if got := Lay(nil, LayStyle{}); got != nil {
		t.Errorf("%s is drawn", got.Title)
	}
}

// TestLayFile: a drawing for a file stands alone, with a look of its own.
func TestLayFile(t *testing.T) {
	svg := Lay(lays(t)["open"], LayStyle{}).SVGFile(&drawing.Print)
	if !bytes.HasPrefix(svg, []byte(`<svg xmlns="http://www.w3.org/2000/svg" class="lay"`)) || !bytes.Contains(svg, []byte("</desc><style>")) {
		t.Errorf("%.300s", svg)
	}
	var any struct{}
	if err := xml.Unmarshal(svg, &any); err != nil {
		t.Error(err)
	}
}

// A check of 100 along and 60 across, from 30 beside the selvedge, on 300 of usable width:
// stripes at 30, 90, 150, 210 and 270 of it, whether anything is matched or not.
func TestStripesAreDrawnToScale(t *testing.T) {
	l := layOf(t, "width: 300\nrepeat: {along: 100, across: 60, line: 30}\n", fmt.Sprintf(twoPanels, "open", 400))
	d := Lay(l, LayStyle{})
	upright, level := 0, 0
	for i := range d.Marks {
		m := &d.Marks[i]
		if m.Means != drawing.Pattern {
			continue
		}
		for _, part := range d.Path(i).Parts() {
			switch a, b := part.Points[0], part.Points[1]; {
			case math.Abs(a.Y-b.Y) < 1e-9:
				level++
			case math.Abs(a.X-b.X) < 1e-9:
				upright++
			default:
				t.Errorf("a stripe leans from %v to %v", a, b)
			}
		}
	}
	if level != 5 || upright != 7 { // 100 to 700 on 800 of length
		t.Errorf("%d stripes along the cloth and %d across it, want 5 and 7", level, upright)
	}
}
