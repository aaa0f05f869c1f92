package capture

import (
	"context"
	"encoding/base64"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/network"

	"hembook/internal/record"
	"hembook/internal/shape"
	"hembook/internal/tabletop"
)

// bodicePhoto is a photograph of a paper bodice, its centre at the left.
var bodicePhoto = sync.OnceValue(func() []byte { return photographed(tabletop.Bodice(), 3) })

// letOutPhoto is one of the same paper, its side let out by 8 mm at the armhole.
var letOutPhoto = sync.OnceValue(func() []byte {
	let, err := tabletop.Bodice().EndsMoved(1, 1, 0, 8)
	if err != nil {
		panic(err)
	}
	return photographed(let, 5)
})

func photographed(piece shape.Outline, seed uint64) []byte {
	s := &tabletop.Scene{Piece: tabletop.Ring(piece), Paper: tabletop.Colour{0.7, 0.7, 0.66}, Table: tabletop.Colour{0.1, 0.07, 0.05},
		Wide: 1400, High: 1400, Tilt: 0.15, From: 1, F: 0.9, Blur: 0.6, Noise: 1.5, Quality: 92, Seed: seed}
	for i, at := range [][2]float64{{-80, -60}, {130, -70}, {330, -50}, {350, 230}, {330, 500}, {120, 520}, {-80, 500}, {-90, 220}} {
		s.Cards = append(s.Cards, tabletop.Placed{Number: i + 1, X: at[0], Y: at[1], Turn: float64(i)})
	}
	return s.Photograph()
}

var bodiceNames = []string{"waist", "side", "armhole", "shoulder", "neck", "centre: fold"}

// sides are the edges of the coat's piece front.
func sides(t *testing.T, dir string) (out []string) {
	t.Helper()
	room, _, err := record.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer room.Close()
	bf, _ := room.BuildNamed("coat")
	b, _ := room.ReadBuild(bf)
	for i := range b.Pieces {
		if p := &b.Pieces[i]; p.Name.V == "front" && p.Outline != nil {
			last := ""
			for _, e := range p.Outline.Edges {
				name := e.Name.V
				if e.Fold.V {
					name += ": fold"
				}
				if name != last {
					out = append(out, name)
				}
				last = name
			}
		}
	}
	return out
}

// TestPaperPieceFromAPhone: a photograph becomes a piece with numbered edges, and these
// get their names; each is entered once, however often it is sent and wherever it is cut
// off.
func TestPaperPieceFromAPhone(t *testing.T) {
	if testing.Short() {
		t.Skip("makes a photograph and traces it")
	}
	dir := newRoom(t)
	photo := photoOf(t, bodicePhoto())
	traced := phoneSlip{ID: numbered(1), Kind: "trace", Build: "coat", Piece: "front", Fold: "left", Photo: true, At: noon.UnixMilli()}
	for n := 1; n < 6 && cutAt(dir, noon, traced, photo, n); n++ {
		if coat(t, dir) != coatRecord && !strings.Contains(coat(t, dir), "pattern/front.svg#front") {
			t.Fatalf("cut off at %d, the record is\n%s", n, coat(t, dir))
		}
	}
	for range 2 {
		if a := keeperAt(dir, noon).keep(traced, noon.UnixMilli(), photo); a.State != kept || !strings.Contains(a.Said, "front") {
			t.Fatalf("%+v", a)
		}
	}
	if got := strings.Replace(coat(t, dir), "  front:\n    outline: pattern/front.svg#front\n", "", 1); got != coatRecord {
		t.Errorf("the record is\n%s", coat(t, dir))
	}
	v, err := look(dir, "coat", noon)
	if err != nil || len(v.Build.Traced) != 1 || len(v.Build.Traced[0].Edges) != 6 || !v.Build.Traced[0].Edges[5].Fold {
		t.Fatalf("%+v, %v", v.Build, err)
	}
	if e := v.Build.Traced[0].Edges[0]; e.MM < 234 || e.MM > 237 || !regexp.MustCompile(`^M[\d. -]+C`).MatchString(e.Path) {
		t.Errorf("the waist is shown as %+v", e)
	}
	for _, wrong := range []string{"2: far right", "2: 40 up", "9: 1 up", "2 right", "0: 1 up", "2: 29 up, 29 right"} {
		a := keeperAt(dir, noon).keep(phoneSlip{ID: numbered(40), Kind: "edges", Build: "coat", Piece: "front", Of: bodiceNames, Moved: []string{wrong}, At: noon.UnixMilli()}, noon.UnixMilli(), nil)
		if a.State != refused || a.Said == "" {
			t.Errorf("%s: %+v", wrong, a)
		}
	}
	before := v.Build.Traced[0].Edges
	named := phoneSlip{ID: numbered(2), Kind: "edges", Build: "coat", Piece: "front", Of: bodiceNames, Moved: []string{"2: 0.5 right, 1.2 down"}, At: noon.UnixMilli()}
	cutAt(dir, noon, named, nil, 1)
	for range 2 {
		if a := keeperAt(dir, noon).keep(named, noon.UnixMilli(), nil); a.State != kept {
			t.Fatalf("%+v", a)
		}
	}
	if got := sides(t, dir); strings.Join(got, "|") != strings.Join(bodiceNames, "|") {
		t.Errorf("the edges are %q", got)
	}
	if fault := openRecord(t, dir); fault != "" {
		t.Error(fault)
	}
	if v, _ := look(dir, "coat", noon); len(v.Build.Traced) != 0 || len(v.Build.EdgeNames) < 6 {
		t.Errorf("still to name: %+v; names %q", v.Build.Traced, v.Build.EdgeNames)
	}
	// Corner 2 is where the waist ends and the side begins.
	text := get(t, dir, "content/builds/coat/pattern/front.svg")
	if was, is := cornerIn(t, before[1].Path, 0), cornerIn(t, text, 1); math.Abs(is[0]-was[0]-10-0.5) > 0.11 || math.Abs(is[1]-was[1]-10-1.2) > 0.11 {
		t.Errorf("corner 2 lay at %.1f and lies at %.1f, within a rim of 10 mm: it was to move 0.5 to the right and 1.2 down", was, is)
	}
	for i, wrong := range []phoneSlip{
		{Kind: "trace", Piece: "front", Photo: true}, {Kind: "trace", Piece: "...", Photo: true}, {Kind: "trace", Piece: "back", Photo: true, Far: "far"},
		{Kind: "trace", Piece: "back", Photo: true, Allowance: "wide"}, {Kind: "edges", Piece: "back", Of: []string{"hem"}}, {Kind: "edges", Piece: "front", Of: []string{"a", "a"}},
		{Kind: "edges", Piece: "front", Of: []string{"a", "b"}}, {Kind: "edges", Piece: "front", Of: []string{"dart 1"}}, {Kind: "edges", Piece: "skirt", Of: []string{"hem"}},
	} {
		wrong.ID, wrong.Build, wrong.At = numbered(10+i), "coat", noon.UnixMilli()
		if a := keeperAt(dir, noon).keep(wrong, noon.UnixMilli(), photo); a.State == kept {
			t.Errorf("%+v: %+v", wrong, a)
		}
	}
	plain := photoOf(t, picture(t, 300, 200))
	if a := keeperAt(dir, noon).keep(phoneSlip{ID: numbered(30), Kind: "trace", Build: "coat", Piece: "back", Photo: true, At: noon.UnixMilli()}, noon.UnixMilli(), plain); a.State != refused || !strings.Contains(a.Said, "no card is seen: ") {
		t.Errorf("a photograph without cards: %+v", a)
	}
	if get(t, dir, "content/builds/coat/pattern/front.svg") != text || sides(t, dir)[0] != "waist" {
		t.Error("what was refused changed the piece")
	}
}

// cornerIn is where the k-th path of a text begins.
func cornerIn(t *testing.T, text string, k int) (at [2]float64) {
	t.Helper()
	all := regexp.MustCompile(`(?:class="sewing"[^>]* d="|^)M(-?[\d.]+)[, ](-?[\d.]+)`).FindAllStringSubmatch(text, -1)
	if k >= len(all) {
		t.Fatalf("no path %d in %s", k, text)
	}
	for i := range at {
		at[i], _ = strconv.ParseFloat(all[k][1+i], 64)
	}
	return at
}

// TestAlteredPaperFromAPhone: a photograph of the let-out paper becomes one round of
// fitting, however often it is sent and wherever it is cut off.
func TestAlteredPaperFromAPhone(t *testing.T) {
	if testing.Short() {
		t.Skip("makes photographs and traces them")
	}
	dir := newRoom(t)
	for i, s := range []phoneSlip{{Kind: "trace", Fold: "left", Photo: true}, {Kind: "edges", Of: bodiceNames}} {
		s.ID, s.Build, s.Piece, s.At = numbered(50+i), "coat", "front", noon.UnixMilli()
		if a := keeperAt(dir, noon).keep(s, noon.UnixMilli(), photoOf(t, bodicePhoto())); a.State != kept {
			t.Fatalf("%+v", a)
		}
	}
	if v, _ := look(dir, "coat", noon); len(v.Build.Shaped) != 1 || v.Build.Shaped[0] != "front" {
		t.Errorf("paper of %q may be altered", v.Build.Shaped)
	}
	before, photo := coat(t, dir), photoOf(t, letOutPhoto())
	let := phoneSlip{ID: numbered(52), Kind: "altered", Build: "coat", Piece: "front", Note: "tight under the arm", Photo: true, At: noon.UnixMilli()}
	for n := 1; n < 5 && cutAt(dir, noon, let, photo, n); n++ {
	}
	for range 2 {
		if a := keeperAt(dir, noon).keep(let, noon.UnixMilli(), photo); a.State != kept || !strings.Contains(a.Said, "a round of fitting for front") {
			t.Fatalf("%+v", a)
		}
	}
	if round := strings.TrimPrefix(coat(t, dir), before); strings.Count(round, "saw: tight under the arm") != 1 || strings.Count(round, "front.side: {end: 8}") != 1 {
		t.Errorf("the round is written as\n%s", round)
	}
	after := coat(t, dir)
	for i, wrong := range []phoneSlip{{Piece: "front"}, {Piece: "back"}} { // altered already; not there
		wrong.ID, wrong.Kind, wrong.Build, wrong.Photo, wrong.At = numbered(60+i), "altered", "coat", true, noon.UnixMilli()
		if a := keeperAt(dir, noon).keep(wrong, noon.UnixMilli(), photo); a.State != refused || a.Said == "" {
			t.Errorf("%+v: %+v", wrong, a)
		}
	}
	if coat(t, dir) != after {
		t.Error("what was refused changed the record")
	}
}

// TestPaperPieceInTheBrowser: without a connection the photograph waits on the phone; once
// it was traced its edges are named by tapping, and all fits a thumb.
func TestPaperPieceInTheBrowser(t *testing.T) {
	ctx := browser(t)
	axe, _ := os.ReadFile(os.Getenv("HEMBOOK_AXE"))
	dir := newRoom(t)
	h := openHall(t, dir, "127.0.0.1:0")
	defer h.stop()
	hold(t, ctx, 390, 844, false)
	comeIn(t, ctx, h)
	call(t, ctx, network.Enable, network.EnableParams{})
	unplug(t, ctx, true)
	js[bool](t, ctx, "%s", until+`
		document.querySelector('[data-sheet="photo"]').click();
		await until(() => document.querySelector("dialog.on-photo[open]"));
		[...document.querySelectorAll("dialog[open] .next")].find((b) => /paper piece/.test(b.textContent)).click();
		await until(() => document.querySelector("dialog.on-piece[open]"));
		const bytes = Uint8Array.from(atob("`+base64.StdEncoding.EncodeToString(bodicePhoto())+`"), (c) => c.charCodeAt(0));
		const files = new DataTransfer();
		files.items.add(new File([bytes], "piece.jpg", { type: "image/jpeg" }));
		const input = document.querySelectorAll("dialog[open] input[type=file]")[1];
		input.files = files.files;
		input.dispatchEvent(new Event("change"));
		await until(() => !document.querySelector("dialog[open] img").hidden);
		document.querySelector("dialog[open] input[type=text]").value = "front";
		document.querySelector("dialog[open] select").value = "left";
		return true`)
	bothLights(t, ctx, "piece", string(axe))
	js[bool](t, ctx, "%s", until+`
		document.querySelector("dialog[open] .big").click();
		await until(() => !document.querySelector("dialog[open]"), "the sheet to close");
		await until(() => /1 on this phone/.test(document.getElementById("count-words").textContent), "it to wait");
		return true`)
	if coat(t, dir) != coatRecord {
		t.Fatal("it was entered without a connection")
	}
	unplug(t, ctx, false)
	js[bool](t, ctx, "%s", until+`
		const send = await import("/send.js"); send.wake();
		await until(() => document.querySelector("#pieces button"), "the piece to be traced");
		return true`)
	shoot(t, ctx, "pieces")
	js[bool](t, ctx, "%s", until+`
		document.querySelector("#pieces button").click();
		await until(() => document.querySelector("dialog.on-edges[open]"));
		const tap = (words) => [...document.querySelectorAll("dialog[open] .chips button")].find((b) => b.textContent === words).click();
		document.querySelectorAll("dialog[open] .reach")[1].dispatchEvent(new MouseEvent("click"));
		tap("side"); tap("waist"); tap("armhole"); tap("shoulder");
		document.querySelector(".corners summary").click();
		document.querySelector('[aria-label="corner 2"]').click();
		const glass = document.querySelector(".glass"), said = () => document.querySelector(".far").textContent;
		const box = glass.getBoundingClientRect();
		glass.setPointerCapture = () => {}; // there is no finger
		const touch = (type, x, y) => glass.dispatchEvent(new PointerEvent(type, { clientX: box.left + x, clientY: box.top + y, pointerId: 1, bubbles: true }));
		touch("pointerdown", 100, 100); touch("pointermove", 100 + box.width / 48, 100 + 2 * box.width / 48); touch("pointerup", 0, 0);
		if (said() !== "2: 1 right, 2 down") throw new Error("dragged: " + said());
		document.querySelector('[aria-label="left by 0.1 mm"]').click();
		glass.dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowUp" }));
		glass.dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowUp", shiftKey: true }));
		if (said() !== "2: 0.9 right, 0.9 down") throw new Error("moved: " + said());
		const wide = document.querySelector(".glass").getBoundingClientRect();
		if (wide.width / 48 < 5) throw new Error("a millimetre is enlarged to " + wide.width / 48 + " pixels only");
		return true`)
	bothLights(t, ctx, "edges", string(axe))
	js[bool](t, ctx, "%s", `document.querySelector(".corners").scrollIntoView(); return true`)
	shoot(t, ctx, "corner")
	js[bool](t, ctx, "%s", until+`
		const tap = (words) => [...document.querySelectorAll("dialog[open] .chips button")].find((b) => b.textContent === words).click();
		tap("neck"); tap("centre");
		document.querySelector("dialog[open] .big").click();
		await until(() => !document.querySelector("dialog[open]"), "the names to be saved");
		await until(() => document.getElementById("pieces").hidden && document.getElementById("count-words").textContent === "all sent", "the names to be sent");
		return true`)
	if got := sides(t, dir); strings.Join(got, "|") != strings.Join(bodiceNames, "|") {
		t.Errorf("the edges are %q", got)
	}
	if at := cornerIn(t, get(t, dir, "content/builds/coat/pattern/front.svg"), 1); math.Abs(at[0]-245.9) > 0.6 {
		t.Errorf("corner 2 lies %.1f mm from the left, not 245.9: 235 + 0.9 beside a rim of 10", at[0])
	}
	js[bool](t, ctx, "%s", until+`
		const bench = await import("/bench.js"); await bench.look();
		document.querySelector('[data-sheet="photo"]').click();
		await until(() => document.querySelector("dialog.on-photo[open]"));
		[...document.querySelectorAll("dialog[open] .next")].find((b) => /paper piece/.test(b.textContent)).click();
		await until(() => document.querySelector("dialog.on-piece[open]"));
		const which = document.querySelector("dialog[open] select");
		which.value = "front";
		which.dispatchEvent(new Event("change"));
		const shown = [...document.querySelectorAll("dialog[open] .field")].filter((f) => !f.hidden).map((f) => f.firstChild.textContent).join("|");
		if (!/saw at the fitting/.test(shown) || /what it is called/.test(shown)) throw new Error("asked for: " + shown);
		return true`)
	bothLights(t, ctx, "altered", string(axe))
	js[bool](t, ctx, "%s", until+`
		const bytes = Uint8Array.from(atob("`+base64.StdEncoding.EncodeToString(letOutPhoto())+`"), (c) => c.charCodeAt(0));
		const files = new DataTransfer();
		files.items.add(new File([bytes], "again.jpg", { type: "image/jpeg" }));
		const input = document.querySelectorAll("dialog[open] input[type=file]")[1];
		input.files = files.files;
		input.dispatchEvent(new Event("change"));
		await until(() => !document.querySelector("dialog[open] img").hidden);
		document.querySelector("dialog[open] .big").click();
		await until(() => !document.querySelector("dialog[open]"), "the sheet to close");
		return true`)
	for end := time.Now().Add(3 * time.Minute); !strings.Contains(coat(t, dir), "front.side:") && time.Now().Before(end); {
		time.Sleep(200 * time.Millisecond) // it is sent and traced
	}
	if !strings.Contains(coat(t, dir), "front.side:") {
		t.Errorf("no round of fitting was written:\n%s", coat(t, dir))
	}
}

// bothLights looks at the sheet that is open on two phones, light and dark.
func bothLights(t *testing.T, ctx context.Context, name, axe string) {
	t.Helper()
	for _, dark := range []bool{false, true} {
		for _, wide := range []int64{320, 390} {
			hold(t, ctx, wide, 844, dark)
			word := map[bool]string{false: "light", true: "dark"}[dark]
			fits(t, ctx, name+"-"+map[int64]string{320: "320", 390: "390"}[wide]+"-"+word, axe)
		}
	}
}
