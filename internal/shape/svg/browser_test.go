package svg

import (
	"fmt"
	"math"
	"math/rand"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"hembook/internal/chromium"
	"hembook/internal/shape"
)

// TestMain ends the browser that the tests shared.
func TestMain(m *testing.M) { chromium.Main(m) }

// sampled asks the browser where each shape runs: twenty-five points of each,
// in the units of the outermost drawing.
const sampled = `Array.from(document.querySelectorAll("path,rect,circle,ellipse,line,polyline,polygon")).map(e => {
	const m = document.querySelector("svg").getScreenCTM().inverse().multiply(e.getScreenCTM());
	const all = e.getTotalLength();
	return Array.from({length: 25}, (_, i) => {
		const p = e.getPointAtLength(all * i / 24).matrixTransform(m);
		return [p.x, p.y];
	});
})`

// TestAsTheBrowserDraws holds 400 random shapes under random nested transforms
// against where Chromium says their points lie. It reckons in single
// precision, so a fiftieth of a unit in a thousand is allowed; and it draws a
// quarter of an ellipse as one cubic, which strays from it by 2.7 parts in ten
// thousand (from memory): a fifth where there are arcs.
func TestAsTheBrowserDraws(t *testing.T) {
	ctx := chromium.LongTab(t)
	r := rand.New(rand.NewSource(7))
	var b strings.Builder
	for range 400 {
		b.WriteString(nested(r, 3, randomShape(r)) + "\n")
	}
	text := `<svg xmlns="` + nameSpace + `" width="1000" height="1000" viewBox="0 0 1000 1000">` + b.String() + `</svg>`
	page := filepath.Join(t.TempDir(), "drawing.html")
	if err := os.WriteFile(page, []byte("<!DOCTYPE html><body>"+text), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := chromedp.Do(ctx, chromedp.Navigate("file://"+page)); err != nil {
		t.Fatal(err)
	}
	want, err := chromedp.Run(ctx, chromedp.Evaluate[[][][2]float64](sampled))
	if err != nil {
		t.Fatal(err)
	}
	d, fault := Read([]byte(text))
	if fault != nil {
		t.Fatal(fault)
	}
	if d.Resize(1, 0) != nil || len(d.Pieces) != 1 || len(d.Pieces[0].Strokes) != len(want) {
		t.Fatalf("%d shapes were read of %d", len(d.Pieces[0].Strokes), len(want))
	}
	shapes := strings.Split(strings.TrimSpace(b.String()), "\n")
	worst := 0.0
	for i, s := range d.Pieces[0].Strokes {
		o := shape.Outline{From: s.From, Edges: s.Parts}
		o.Edges = append([]shape.Edge(nil), s.Parts...)
		if s.Closed {
			o.Edges = append(o.Edges, shape.Edge{To: s.From})
		} else { // there and back: flattening closes what it is given
			o.Edges = append(o.Edges, back(s.From, s.Parts)...)
		}
		allowed := 0.02
		if strings.ContainsAny(shapes[i][strings.LastIndex(shapes[i], ` d="`)+1:], "Aa") || strings.Contains(shapes[i], "<ellipse") {
			allowed = 0.2
		}
		ring, _ := o.Flatten(0.001)
		for _, p := range want[i] {
			away := math.Inf(1)
			for k, a := range ring {
				away = min(away, toSegment(shape.Point{X: p[0], Y: -p[1]}, a, ring[(k+1)%len(ring)]))
			}
			worst = max(worst, away)
			if away > allowed {
				t.Errorf("a point of %s lies %.4f from what was read", shapes[i], away)
				break
			}
		}
		if end := want[i][24]; !s.Closed && math.Hypot(end[0]-o.Edges[len(s.Parts)-1].To.X, -end[1]-o.Edges[len(s.Parts)-1].To.Y) > 0.02 {
			t.Errorf("%s ends elsewhere", shapes[i])
		}
	}
	t.Logf("%d shapes, at most %.4f units apart", len(want), worst)
}

// back is a line drawn the other way round.
func back(from shape.Point, parts []shape.Edge) []shape.Edge {
	o := shape.Outline{From: from, Edges: parts}
	var out []shape.Edge
	for i := len(parts) - 1; i >= 0; i-- {
		e := parts[i]
		e.C1, e.C2, e.To = e.C2, e.C1, o.Start(i)
		out = append(out, e)
	}
	return out
}

func toSegment(p, a, b shape.Point) float64 {
	way, d := b.Sub(a), p.Sub(a)
	t := 0.0
	if size := way.X*way.X + way.Y*way.Y; size > 0 {
		t = min(max((d.X*way.X+d.Y*way.Y)/size, 0), 1)
	}
	return math.Hypot(d.X-t*way.X, d.Y-t*way.Y)
}

// nested wraps a shape in random transforms.
func nested(r *rand.Rand, deep int, inner string) string {
	n := func(from, to float64) string { return fmt.Sprintf("%.3f", from+r.Float64()*(to-from)) }
	for range r.Intn(deep + 1) {
		list := []string{
			"translate(" + n(-50, 50) + " " + n(-50, 50) + ")", "scale(" + n(0.5, 1.5) + ")", "scale(" + n(-1.5, -0.5) + "," + n(0.5, 1.5) + ")",
			"rotate(" + n(-180, 180) + ")", "rotate(" + n(-180, 180) + "," + n(0, 200) + "," + n(0, 200) + ")", "skewX(" + n(-40, 40) + ")", "skewY(" + n(-40, 40) + ")",
			"matrix(" + n(0.5, 1.2) + " " + n(-1, 1) + " " + n(-1, 1) + " " + n(0.5, 1.2) + " " + n(-9, 9) + " " + n(-9, 9) + ")",
		}
		if r.Intn(6) == 0 {
			inner = `<svg x="` + n(0, 50) + `" y="` + n(0, 50) + `" width="` + n(100, 300) + `" height="` + n(100, 300) + `" overflow="visible" viewBox="0 0 200 300" preserveAspectRatio="` +
				[]string{"none", "xMinYMax meet", "xMaxYMid slice", "xMidYMid"}[r.Intn(4)] + `">` + inner + `</svg>`
			continue
		}
		inner = `<g transform="` + list[r.Intn(len(list))] + " " + list[r.Intn(len(list))] + `">` + inner + `</g>`
	}
	return inner
}

// randomShape is a shape of one subpath about 200 units large.
func randomShape(r *rand.Rand) string {
	n := func() string { return fmt.Sprintf("%.2f", 10+r.Float64()*190) }
	switch r.Intn(10) {
	case 0:
		return `<rect x="` + n() + `" y="` + n() + `" width="` + n() + `" height="` + n() + `" rx="` + fmt.Sprint(r.Intn(20)) + `"/>`
	case 1:
		return `<ellipse cx="` + n() + `" cy="` + n() + `" rx="` + n() + `" ry="` + n() + `"/>`
	case 2:
		return `<polygon points="` + n() + "," + n() + " " + n() + "," + n() + " " + n() + " " + n() + `"/>`
	}
	d := "M" + n() + " " + n()
	for range 1 + r.Intn(5) {
		flags := fmt.Sprintf(" %d %d ", r.Intn(2), r.Intn(2))
		d += []string{
			"L" + n() + "," + n(), "l-" + n() + "-" + n(), "H" + n(), "v-" + n(), "C" + n() + " " + n() + " " + n() + " " + n() + " " + n() + " " + n(),
			"s" + n() + " " + n() + "-" + n() + " " + n(), "Q" + n() + " " + n() + " " + n() + " " + n(), "t" + n() + "-" + n(), "T" + n() + " " + n(),
			"A" + n() + " " + n() + " " + fmt.Sprint(r.Intn(360)-180) + flags + n() + " " + n(), "a" + n() + "," + n() + " 0" + flags + "-" + n() + "," + n(),
		}[r.Intn(11)]
	}
	if r.Intn(3) == 0 {
		d += "z"
	}
	return `<path d="` + d + `"/>`
}
