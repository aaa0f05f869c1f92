package draw

import (
	"fmt"
	"image/color"
	"os"
	"regexp"
	"strings"
	"testing"
)

// TestPaint paints a square of 100 units and looks at its pixels. The picture is
// 300 by 200: with the tape and the free space about it there is room for
// 156 by 20 pixels, so a unit is 0.2 pixels and the square 20 by 20.
func TestPaint(t *testing.T) {
	img := Paint([]byte(`<svg viewBox="0 0 100 100"><path class="cut" d="M0 0h100v100h-100z"/></svg>`), 300, 200)
	at := func(x, y int) color.RGBA { return img.RGBAAt(x, y) }
	// its middle is at 72 + 156/2 = 150, 36 + 72 + 20/2 = 118
	if got := at(150, 118); got != liningColour {
		t.Errorf("inside: %v", got)
	}
	for _, x := range []int{140, 160} { // an edge is 1.6 pixels wide about x
		if got := at(x, 118); got == liningColour || got == tissueColour || got.R > 200 {
			t.Errorf("on the edge at %d: %v", x, got)
		}
	}
	for _, x := range []int{136, 164} {
		if got := at(x, 122); got != tissueColour {
			t.Errorf("outside at %d: %v", x, got)
		}
	}
	if at(40, 10) != tapeColour || at(10, 150) != clothColour {
		t.Error("the ground is not laid")
	}
}

func TestPaintLeavesOutWords(t *testing.T) {
	with := Paint([]byte(`<svg viewBox="0 0 100 100"><path class="level" d="M0 0h100"/><path class="grain" d="M0 9h10"/><text x="1" y="2">x</text></svg>`), 300, 200)
	without := Paint([]byte(`<svg viewBox="0 0 100 100"></svg>`), 300, 200)
	for i := range with.Pix {
		if with.Pix[i] != without.Pix[i] {
			t.Fatal("something is painted")
		}
	}
}

// TestPaintTakesAnything: path data that no drawing has is painted as far as it
// goes, without a panic.
func TestPaintTakesAnything(t *testing.T) {
	for _, d := range []string{"", "z", "h", "M", "M1", "l1 2", "M0 0l99999 99999", "M0 0c1 2 3", "M-5-5v-999999z", "M1 1x"} {
		Paint([]byte(`<svg viewBox="0 0 0 0"><path class="cut" d="`+d+`"/><path class="sew" d="`+d+`"/></svg>`), 40, 30)
	}
	Paint(nil, 1, 1)
}

func TestBend(t *testing.T) {
	for _, c := range []struct{ t, c1, c2, end, want int }{
		{0, 5, 7, 9, 0}, {bends, 5, 7, 9, 9}, // the ends of the curve
		{bends / 2, 0, 80, 80, 40}, // (0 + 0 + 3·80 + 80) / 8
		{bends / 2, -40, -40, 0, -30},
	} {
		if got := bend(c.t, c.c1, c.c2, c.end); got != c.want {
			t.Errorf("bend(%d, %d, %d, %d) = %d, want %d", c.t, c.c1, c.c2, c.end, got, c.want)
		}
	}
}

// TestPaintHasTheThemesColours: the picture of a page looks as the page does.
func TestPaintHasTheThemesColours(t *testing.T) {
	data, err := os.ReadFile("../../themes/plainweave/look/1-ground.css")
	if err != nil {
		t.Fatal(err)
	}
	light, _, _ := strings.Cut(string(data), "@media")
	for name, c := range map[string]color.RGBA{
		"cloth": clothColour, "lining": liningColour, "tissue": tissueColour, "crease": creaseColour, "chalk": chalkColour, "ink": inkColour,
		"thread": threadColour, "tape": tapeColour, "ply-one": looks["one"].stroke, "ply-two": looks["two"].stroke,
		"ply-strip": looks["strip"].stroke, "ply-cord": looks["cord"].stroke,
	} {
		if want := fmt.Sprintf("--%s: #%02x%02x%02x;", name, c.R, c.G, c.B); !strings.Contains(light, want) {
			t.Errorf("the theme does not say %s", want)
		}
	}
	sheet, err := os.ReadFile("../../themes/plainweave/look/5-drawings.css")
	if err != nil {
		t.Fatal(err)
	}
	for class, l := range looks {
		m := regexp.MustCompile(`svg \.` + class + ` \{[^}]*stroke-width: ([0-9.]+)`).FindSubmatch(sheet)
		if m != nil && fmt.Sprint(l.weight) != string(m[1]) {
			t.Errorf("%s weighs %v here, %s in the theme", class, l.weight, m[1])
		}
	}
}
