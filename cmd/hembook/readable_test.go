package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"hembook/internal/chromium"
)

// contrasts computes the contrast of every text on a page with what lies behind it, by
// WCAG 2.2, relative luminance and contrast ratio, from the colours that the browser
// computed. Words in drawings are held against every ground that they can lie on.
const contrasts = `(() => {
	const parse = (c) => { const m = c.match(/[\d.]+/g).map(Number); return {rgb: m.slice(0, 3), a: m.length > 3 ? m[3] : 1}; };
	const lum = (rgb) => { const [r, g, b] = rgb.map(v => v / 255).map(v => v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4); return 0.2126 * r + 0.7152 * g + 0.0722 * b; };
	const over = (top, under) => top.rgb.map((v, i) => v * top.a + under[i] * (1 - top.a));
	const ratio = (a, b) => { const [x, y] = [lum(a), lum(b)].sort((p, q) => q - p); return (x + 0.05) / (y + 0.05); };
	const page = parse(getComputedStyle(document.body).backgroundColor).rgb;
	const ground = (e) => { const all = []; for (; e; e = e.parentElement) { const c = parse(getComputedStyle(e).backgroundColor); all.push(c); if (c.a === 1) break; } return all.reverse().reduce((under, top) => over(top, under), page); };
	const root = getComputedStyle(document.documentElement), probe = document.createElement("i");
	document.body.append(probe);
	const named = (n) => { probe.style.color = ""; probe.style.setProperty("color", "var(" + n + ")"); return parse(getComputedStyle(probe).color).rgb; };
	const lining = named("--lining");
	const seen = new Map(); let texts = 0;
	const hold = (e, colour, grounds, size, bold) => {
		const least = size >= 24 || bold && size >= 18.66 ? 3 : 4.5;
		for (const g of grounds) { const r = ratio(over(colour, g), g); if (r < least - 0.005) seen.set(e.tagName + "." + e.getAttribute("class") + " " + colour.rgb + " on " + g.map(Math.round), r.toFixed(2) + ": " + e.textContent.trim().slice(0, 40)); }
		texts++;
	};
	for (const e of document.body.querySelectorAll("*")) {
		if (![...e.childNodes].some(n => n.nodeType === 3 && n.textContent.trim()) || !e.checkVisibility({visibilityProperty: true})) continue;
		const s = getComputedStyle(e), size = parseFloat(s.fontSize), bold = parseInt(s.fontWeight) >= 700;
		if (e.closest("svg")) {
			if (e.tagName === "title" || e.tagName === "desc") continue;
			const at = ground(e.closest("svg").parentElement);
			hold(e, parse(s.fill), e.closest(".lay, .net, .piece") ? [at, lining] : [at], 11, false);
		} else hold(e, parse(s.color), [ground(e)], size, bold);
	}
	probe.remove();
	return {texts, low: [...seen].map(([k, v]) => k + ": " + v)};
})()`

// TestContrast: every text of every kind of page stands out from its ground, by day and by
// night, with all workings open.
func TestContrast(t *testing.T) {
	s := served(t)
	t.Parallel()
	ctx, sum := chromium.Tab(t), 0
	for kind, p := range s.kinds {
		for _, colours := range []string{"light", "dark"} {
			s.open(t, ctx, p, colours, 1280)
			evaluate[int](t, ctx, `document.querySelectorAll("details").forEach(d => d.open = true), 1`)
			got := evaluate[struct {
				Texts int
				Low   []string
			}](t, ctx, contrasts)
			sum += got.Texts
			for _, low := range got.Low {
				t.Errorf("%s, %s: %s", kind, colours, low)
			}
		}
	}
	if sum < 5000 {
		t.Errorf("only %d texts were looked at", sum)
	}
	t.Logf("%d texts", sum)
}

// fingers finds what is tapped by itself and lower than a finger is wide: 44 pixels, WCAG
// 2.2, 2.5.5. Links within sentences, tables and lists of words are not by themselves.
const fingers = `[...document.querySelectorAll("nav a, .house a, button, input:not([type=radio], [type=checkbox], [type=hidden]), select, label:has(input)")]
	.filter(e => e.checkVisibility({visibilityProperty: true}) && !e.closest(".stages, .skip") && e.getBoundingClientRect().height < 43.5)
	.map(e => e.outerHTML.slice(0, 90) + " is " + e.getBoundingClientRect().height)`

// TestFingersFind: on a phone, ways, fields and buttons are high enough to be tapped.
func TestFingersFind(t *testing.T) {
	s := served(t)
	t.Parallel()
	ctx := chromium.Tab(t)
	for kind, p := range s.kinds {
		s.open(t, ctx, p, "light", 360)
		for _, low := range evaluate[[]string](t, ctx, fingers) {
			t.Errorf("%s: %s", kind, low)
		}
	}
}

// smallWords finds words in drawings that are lower than eleven pixels as they are shown.
const smallWords = `[...document.querySelectorAll("svg text, svg tspan")].filter(e => e.checkVisibility({visibilityProperty: true}))
	.map(e => ({e, high: parseFloat(getComputedStyle(e).fontSize) * Math.hypot(e.getScreenCTM().a, e.getScreenCTM().b)})).filter(f => f.high < 10.95)
	.map(f => f.e.closest("svg").getAttribute("class") + ": " + f.e.textContent + " is " + f.high.toFixed(1))`

// TestBoxesThatScroll: a box that scrolls has a name and is reached by the keyboard; on a
// garment's pages one in which nothing scrolls is no stop.
func TestBoxesThatScroll(t *testing.T) {
	s := served(t)
	t.Parallel()
	ctx := chromium.Tab(t)
	for kind, p := range s.kinds {
		for _, width := range []int64{360, 1280} {
			one, stop := context.WithTimeout(ctx, time.Minute)
			s.open(t, one, p, "light", width)
			for _, wrong := range evaluate[[]string](t, one, fmt.Sprintf(`(() => { const out = [], own = %t;
				for (const e of document.querySelectorAll("main *")) {
					const scrolls = ["auto", "scroll"].includes(getComputedStyle(e).overflowX) && e.scrollWidth > e.clientWidth + 1;
					const stop = e.getAttribute("tabindex") === "0";
					if (scrolls && !stop && !e.querySelector("a, input, button, summary")) out.push("is not reached: " + e.outerHTML.slice(0, 90));
					if (stop && !e.getAttribute("aria-label")) out.push("has no name: " + e.outerHTML.slice(0, 90));
					if (own && stop && !scrolls && e.scrollHeight <= e.clientHeight + 1) out.push("scrolls nowhere: " + e.outerHTML.slice(0, 90));
				}
				return out; })()`, kind == "build" || strings.HasPrefix(kind, "leaf"))) {
				t.Errorf("%s at %d px: a box %s", kind, width, wrong)
			}
			stop()
		}
	}
}

// TestMarkupIsPlain: no head of a table is empty, no alternative text ends its line, and no
// id of a footnote has a colon, on any page.
func TestMarkupIsPlain(t *testing.T) {
	nothingBeside(t)
	for what, wrong := range map[string]*regexp.Regexp{
		"an empty head of a table":                regexp.MustCompile(`<th[^>]*>\s*</th>`),
		"an alternative text with an end of line": regexp.MustCompile(`alt="[^"]*\n[^"]*"`),
		"an id with a colon":                      regexp.MustCompile(`\sid="[^"]*:[^"]*"`),
	} {
		for _, p := range pages(t, pressedDemo(t)) {
			text, err := os.ReadFile(p)
			if err != nil {
				t.Fatal(err)
			}
			if m := wrong.Find(text); m != nil {
				t.Errorf("%s has %s: %.80s", filepath.Base(p), what, m)
			}
		}
	}
}
