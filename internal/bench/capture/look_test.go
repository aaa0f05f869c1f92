package capture

import (
	"context"
	"fmt"
	"os"
	"testing"

	"github.com/chromedp/chromedp"
)

// scenes are what a maker sees, and how it is come by.
var scenes = []struct{ name, script string }{
	{"idle", ``},
	{"running", `document.querySelector('[data-step="hem"]').click(); document.getElementById("go").click(); await until(() => document.getElementById("go").textContent === "Stop");
		document.querySelector('[data-step="sides"]').click(); document.getElementById("go").click(); await until(() => document.getElementById("others").children.length === 1 && document.getElementById("go").textContent === "Stop");`},
	{"note", `document.querySelector('[data-sheet="note"]').click(); await until(() => document.querySelector("dialog[open]")); document.querySelector("dialog textarea").value = "Pressed before measuring; the flannel *creeps* under the foot, so basted it first.";`},
	{"photo", `document.querySelector('[data-sheet="photo"]').click(); await until(() => document.querySelector("dialog.on-photo[open]"));`},
	{"measure", `document.querySelector('[data-sheet="measure"]').click(); await until(() => document.querySelector("dialog.on-measure[open]"));`},
	{"hang", `document.querySelector('[data-sheet="hang"]').click(); await until(() => document.querySelector("dialog.on-hang[open]"));
		for (const d of ["0", "2", "5", "12", "8", "3"]) { document.querySelector('dialog .field input[inputmode]').value = d; document.querySelector("dialog .next").click(); }`},
	// the browser offers to install a page only where storage is its own, so the test offers it
	{"entries", `dispatchEvent(Object.assign(new Event("beforeinstallprompt"), { prompt() {} })); document.getElementById("count").click(); await until(() => document.querySelector("dialog.on-entries[open]"));`},
}

const sizes = `
	const all = [...document.querySelectorAll("button, select, input:not(.unseen), textarea, .pick span, .choice, a")].filter((n) => n.getClientRects().length && getComputedStyle(n).visibility !== "hidden");
	const open = document.querySelector("dialog[open]");
	const seen = all.filter((n) => !open || open.contains(n));
	return {
		wide: document.documentElement.scrollWidth - document.documentElement.clientWidth,
		small: seen.map((n) => { let r = n.getBoundingClientRect(); if (n.matches(".choice input")) r = n.parentElement.getBoundingClientRect(); return [n.tagName + "." + n.className + " " + n.textContent.slice(0, 20), Math.round(r.width), Math.round(r.height)]; }).filter(([, w, h]) => w < 44 || h < 44).map(String),
		cut: seen.filter((n) => { const r = n.getBoundingClientRect(); return r.left < -0.5 || r.right > innerWidth + 0.5; }).filter((n) => !n.closest(".others")).map((n) => n.outerHTML.slice(0, 80)),
		count: seen.length,
	};`

type sizeFacts struct {
	Wide  int      `json:"wide"`
	Small []string `json:"small"`
	Cut   []string `json:"cut"`
	Count int      `json:"count"`
}

// TestEverySceneFitsAThumb: at the width of a small phone nothing scrolls
// sideways and everything that is touched is 44 px wide and high at the least
// (WCAG 2.2, success criterion 2.5.5), in both colour schemes; axe-core finds
// nothing.
func TestEverySceneFitsAThumb(t *testing.T) {
	ctx := browser(t)
	axe, axeErr := os.ReadFile(os.Getenv("HEMBOOK_AXE"))
	if axeErr != nil {
		t.Log("HEMBOOK_AXE names no axe.min.js: accessibility is not looked at")
	}
	for _, form := range [][2]int64{{320, 640}, {390, 844}} {
		for _, scene := range scenes {
			h := openHall(t, newRoom(t), "127.0.0.1:0")
			hold(t, ctx, form[0], form[1], false)
			comeIn(t, ctx, h)
			js[bool](t, ctx, "%s", until+scene.script+"return true")
			for _, dark := range []bool{false, true} {
				hold(t, ctx, form[0], form[1], dark)
				fits(t, ctx, fmt.Sprintf("%s-%d-%v", scene.name, form[0], dark), string(axe))
			}
			h.stop()
		}
	}
	do(t, ctx, chromedp.Navigate("about:blank"))
}

// fits looks at what the browser shows, with axe-core where that is given.
func fits(t *testing.T, ctx context.Context, name, axe string) {
	t.Helper()
	got := js[sizeFacts](t, ctx, "%s", `await new Promise((r) => requestAnimationFrame(() => requestAnimationFrame(r))); await Promise.allSettled(document.getAnimations().map((a) => a.finished));`+sizes)
	if got.Wide > 0 || len(got.Small) > 0 || len(got.Cut) > 0 || got.Count < 3 {
		t.Errorf("%s: %d px too wide, %d targets, too small %q, cut off %q", name, got.Wide, got.Count, got.Small, got.Cut)
	}
	shoot(t, ctx, name)
	if axe == "" {
		return
	}
	found := js[[]string](t, ctx, "%s", axe+`; const r = await axe.run(document, {resultTypes: ["violations"]}); return r.violations.map((v) => v.id + ": " + v.nodes.map((n) => n.html.slice(0, 120)).join(" | "));`)
	if len(found) > 0 {
		t.Errorf("%s: axe-core finds %q", name, found)
	}
}
