package capture

import (
	"context"
	"encoding/base64"
	"os"
	"regexp"
	"strings"
	"sync"
	"testing"

	"github.com/chromedp/cdproto/network"

	"hembook/internal/record"
	"hembook/internal/tabletop"
)

// bodicePhoto is a photograph of a paper bodice, its centre at the left.
var bodicePhoto = sync.OnceValue(func() []byte {
	s := &tabletop.Scene{Piece: tabletop.Ring(tabletop.Bodice()), Paper: tabletop.Colour{0.7, 0.7, 0.66}, Table: tabletop.Colour{0.1, 0.07, 0.05},
		Wide: 1400, High: 1400, Tilt: 0.15, From: 1, F: 0.9, Blur: 0.6, Noise: 1.5, Quality: 92, Seed: 3}
	for i, at := range [][2]float64{{-80, -60}, {130, -70}, {330, -50}, {350, 230}, {330, 500}, {120, 520}, {-80, 500}, {-90, 220}} {
		s.Cards = append(s.Cards, tabletop.Placed{Number: i + 1, X: at[0], Y: at[1], Turn: float64(i)})
	}
	return s.Photograph()
})

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
	named := phoneSlip{ID: numbered(2), Kind: "edges", Build: "coat", Piece: "front", Of: bodiceNames, At: noon.UnixMilli()}
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
	text := get(t, dir, "content/builds/coat/pattern/front.svg")
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
		return true`)
	bothLights(t, ctx, "edges", string(axe))
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
