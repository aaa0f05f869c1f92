package capture

import (
	"encoding/base64"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"hembook/internal/bench"
	"hembook/internal/cutting"
	"hembook/internal/derive"
	"hembook/internal/fault"
	"hembook/internal/press"
	"hembook/internal/record"
	"hembook/themes"
)

// TestAnAfternoonOnAPhone takes down with the page's own buttons what an
// afternoon brings, and finds all of it in the record.
func TestAnAfternoonOnAPhone(t *testing.T) {
	ctx := browser(t)
	dir := newRoom(t)
	put(t, dir, "content/workroom.yaml", "name: Ferry House\n") // no hours: nothing is forgotten, whenever this runs
	h := openHall(t, dir, "127.0.0.1:0")
	hold(t, ctx, 320, 640, false)
	comeIn(t, ctx, h)
	got := js[string](t, ctx, "%s", until+`
		const at = (id) => document.getElementById(id), one = (q) => document.querySelector(q);
		const open = async (name) => { one('[data-sheet="' + name + '"]').click(); await until(() => one("dialog.on-" + name + "[open]"), name); };
		const keepIt = async () => { one("dialog form .big").click(); await until(() => !one("dialog"), "the sheet to close"); };
		one('[data-step="sides"]').click();
		at("go").click();
		await until(() => at("go").textContent === "Stop", "the clock");
		at("rest").click();
		await until(() => at("go").textContent === "Go on", "the pause");
		at("go").click();
		await until(() => at("go").textContent === "Stop", "the clock again");
		await open("note");
		one("dialog textarea").value = "the flannel creeps";
		await keepIt();
		await open("photo");
		const bytes = Uint8Array.from(atob("`+base64.StdEncoding.EncodeToString(picture(t, 64, 48))+`"), (c) => c.charCodeAt(0));
		const files = new DataTransfer();
		files.items.add(new File([bytes], "IMG_1.jpg", { type: "image/jpeg" }));
		const camera = one('dialog input[capture="environment"]');
		camera.files = files.files;
		camera.dispatchEvent(new Event("change"));
		await until(() => one("dialog img").naturalWidth > 0, "the picture");
		one('dialog input[type="text"]').value = "two rows of stitching";
		await keepIt();
		await open("measure");
		one("dialog input[inputmode]").value = "71,5 cm";
		await keepIt();
		await open("hang");
		for (const d of ["0", "12", "5"]) { one("dialog .field input[inputmode]").value = d; one("dialog .next").click(); }
		one("dialog .rose").click();
		one("dialog .field input[inputmode]").value = "2";
		one("dialog .next").click();
		await keepIt();
		at("tick").click();
		await until(() => at("go").textContent === "Start", "the clock to stop");
		one('[data-step="last"]').click();
		at("go").click();
		await until(() => at("go").textContent === "Stop", "the wrong clock");
		one("#undo button").click();
		await until(() => at("go").textContent === "Start", "the wrong clock to be taken back");
		const keep = await import("/keep.js");
		await until(async () => (await keep.all()).every((s) => s.state !== "waiting"), "everything to be sent");
		return (await keep.all()).filter((s) => s.state === "refused").map((s) => s.slip.kind + ": " + s.said).join("; ");`)
	if got != "" {
		t.Errorf("refused: %s", got)
	}
	text := coat(t, dir)
	for _, want := range []string{"did: sides, for: 1 min, done: true", "did: sides, note: the flannel creeps", "alt: two rows of stitching", "drops: [0, 12, 5, -2]", "file: photos/", "waist: 71.5 cm}"} {
		if times(text, want) != 1 {
			t.Errorf("%q stands there %d times in\n%s", want, times(text, want), text)
		}
	}
	if kept, _ := filepath.Glob(filepath.Join(dir, "content/builds/coat/photos/*.jpg")); len(kept) != 1 {
		t.Errorf("photographs %v", kept)
	}
	if clocks, _ := bench.ClocksOf(dir).All(); len(clocks) != 0 {
		t.Errorf("clocks run: %v", clocks)
	}
	if fault := openRecord(t, dir); fault != "" {
		t.Error(fault)
	}
	seenOnThePage(t, dir)
}

// seenOnThePage presses the workroom and finds the afternoon in its notebook.
func seenOnThePage(t *testing.T, dir string) {
	t.Helper()
	room, faults, err := record.Open(dir)
	if err != nil || fault.HasErrors(faults) {
		t.Fatal(err, faults)
	}
	defer room.Close()
	tailor, faults := derive.NewTailor(room)
	if fault.HasErrors(faults) {
		t.Fatal(faults)
	}
	look, err := press.LoadTheme(themes.Plainweave(), nil)
	if err != nil {
		t.Fatal(err)
	}
	to := filepath.Join(t.TempDir(), "pressed")
	cutter := cutting.NewCutter(t.Context(), room, tailor, cutting.Options{Mode: cutting.None})
	if _, faults, err := press.Press(t.Context(), room, cutter, look, press.Options{To: to}); err != nil {
		t.Fatal(err, faults)
	}
	for page, want := range map[string][]string{
		"journal.html": {"the flannel creeps", `alt="two rows of stitching"`},
		"work.html":    {"1 min"},
	} {
		text, err := os.ReadFile(filepath.Join(to, "builds/coat", page))
		if err != nil {
			t.Error(err)
			continue
		}
		for _, w := range want {
			if !strings.Contains(string(text), w) {
				t.Errorf("%q is not on %s", w, page)
			}
		}
	}
}

// The door, and what was refused with its choices, fit a thumb and are told to
// those who cannot see them.
func TestDoorAndRefusals(t *testing.T) {
	ctx := browser(t)
	axe, axeErr := os.ReadFile(os.Getenv("HEMBOOK_AXE"))
	look := func(name string) {
		got := js[sizeFacts](t, ctx, "%s", `await new Promise((r) => requestAnimationFrame(() => requestAnimationFrame(r))); await Promise.allSettled(document.getAnimations().map((a) => a.finished));`+sizes)
		if got.Wide > 0 || len(got.Small) > 0 || len(got.Cut) > 0 || got.Count < 2 {
			t.Errorf("%s: %+v", name, got)
		}
		shoot(t, ctx, name)
		if axeErr != nil {
			return
		}
		if found := js[[]string](t, ctx, "%s", string(axe)+`; const r = await axe.run(document, {resultTypes: ["violations"]}); return r.violations.map((v) => v.id + ": " + v.nodes.map((n) => n.html.slice(0, 120)).join(" | "));`); len(found) > 0 {
			t.Errorf("%s: axe-core finds %q", name, found)
		}
	}
	for _, dark := range []bool{false, true} {
		name := map[bool]string{false: "light", true: "dark"}[dark]
		h := openHall(t, newRoom(t), "127.0.0.1:0")
		hold(t, ctx, 320, 640, dark)
		do(t, ctx, chromedp.Navigate(h.base+"/"), chromedp.WaitVisible("#code"))
		look("door-" + name)
		comeIn(t, ctx, h)
		js[bool](t, ctx, until+`
			const { take } = await import("/bench.js"), keep = await import("/keep.js");
			await take("off", { step: "sides" });
			await take("measured", { name: "hip", value: "wide" });
			await until(async () => (await keep.all()).every((s) => s.state === "refused"), "the refusals");
			const one = (await keep.all())[0];
			await keep.change(one.n, { ask: { ran: "22 h", closed: Date.now() - 6e7, closedRan: "30 min" } });
			document.getElementById("count").click();
			await until(() => document.querySelectorAll(".choices button").length >= 6, "the choices").catch((e) => { throw new Error(document.getElementById("sheets").innerText + e); });
			return true`)
		look("refused-" + name)
		h.stop()
	}
}
