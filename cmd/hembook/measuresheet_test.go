package main

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"hembook/internal/answer"
	"hembook/internal/chromium"
)

// onPhone opens the demo's trousers' sheet for a purpose, in German, in a window so wide.
func onPhone(t *testing.T, wide int64, purpose string) (one context.Context, folder string) {
	t.Helper()
	if testing.Short() {
		t.Skip("opens a browser")
	}
	t.Parallel()
	folder, _ = packDemo(t, "boatyard-trousers", "--for", purpose, "--language", "de")
	one, stop := context.WithTimeout(chromium.Tab(t), 3*time.Minute)
	t.Cleanup(stop)
	if err := chromedp.Do(one, chromedp.EmulateViewport(wide, 800), chromedp.Navigate("file://"+filepath.Join(folder, purpose+".html"))); err != nil {
		t.Fatal(err)
	}
	return one, folder
}

// TestMeasuringSheetAnswers fills in the sheet as a wearer would on a phone: readings that
// differ are asked for a third time, what nobody is so long is asked about, nothing is
// fetched, and the text that is made is what take reads.
func TestMeasuringSheetAnswers(t *testing.T) {
	one, folder := onPhone(t, 390, "measure")
	typed := func(name string, values ...string) {
		t.Helper()
		script := `(() => { const set = document.querySelector('fieldset[data-name="` + name + `"]'); const f = set.querySelectorAll("input");` +
			`["` + strings.Join(values, `","`) + `"].forEach((v, i) => { f[i].value = v; f[i].dispatchEvent(new Event("input", {bubbles: true})) });` +
			`return set.querySelector(".say").textContent + "|" + set.querySelector(".third").hidden })()`
		got := evaluate[string](t, one, script)
		want := map[string]string{"waist": "Sie weichen um 2.5 cm ab. Bitte das Band neu anlegen.|false", "hip": "Beide stimmen überein.|true",
			"knee": "Das ist ungewöhnlich. Bitte die Einheit ansehen und noch einmal messen; wenn es so ist, stehen lassen.|true"}[name]
		if len(values) == 2 && want != "" && got != want {
			t.Errorf("%s %v: %q, want %q", name, values, got, want)
		}
	}
	typed("waist", "75,5", "78")
	typed("waist", "75,5", "78", "75")
	typed("hip", "99", "99.5")
	typed("height", "169", "169")
	evaluate[bool](t, one, `(() => { document.querySelector('[data-word="note"]').value = 'heel: "high"\n5 cm'; document.querySelector(".make").click(); return true })()`)
	text := evaluate[string](t, one, `document.querySelector(".answer pre").textContent`)
	m, faults := answer.Read("sheet", []byte(text))
	if len(faults) > 0 {
		t.Fatalf("%v\n%s", faults, text)
	}
	if m.Garment != "boatyard-trousers" || m.Note != `heel: "high" 5 cm` || len(m.Body) != 3 || m.Body[1].Name != "waist" || m.Body[1].Middle() != 755 || m.Body[2].Spread() != 5 {
		t.Errorf("%+v from\n%s", m, text)
	}
	got := evaluate[packetFacts](t, one, `({
		wide: document.documentElement.scrollWidth - document.documentElement.clientWidth,
		asked: performance.getEntriesByType('resource').filter(e => !e.name.startsWith('data:')).length, scripts: document.scripts.length })`)
	if got.Wide > 0 || got.Asked > 0 || got.Scripts != 1 {
		t.Errorf("%+v", got)
	}
	if os.Getenv("HEMBOOK_NODE") == "" {
		return
	}
	axe, err := os.ReadFile(filepath.Join(nodeFolder(t, "axe-core"), "axe.min.js"))
	if err != nil {
		t.Fatal(err)
	}
	evaluate[bool](t, one, string(axe)+";true")
	if found := evaluate[[]string](t, one, `axe.run(document, {resultTypes: ["violations"]}).then(r => r.violations.map((v) => v.id + ": " + v.nodes.map((n) => n.html.slice(0, 120)).join(" | ")))`); len(found) > 0 {
		t.Errorf("axe-core finds %q", found)
	}
	validate(t, filepath.Dir(folder), []string{filepath.Join(folder, "measure.html")})
}
