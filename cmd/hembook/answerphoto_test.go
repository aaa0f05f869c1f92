package main

import (
	"bytes"
	"encoding/base64"
	"image"
	"image/jpeg"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hembook/internal/answer"
)

// taggedJPEG is a picture of a camera's shape with an Exif segment that says something
// (ITU-T T.81, B.2.4.6: APP1 follows the first marker).
func taggedJPEG(t *testing.T, wide, high int, says string) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, wide, high)), nil); err != nil {
		t.Fatal(err)
	}
	said := "Exif\x00\x00" + says
	segment := string([]byte{0xff, 0xe1, byte((len(said) + 2) >> 8), byte(len(said) + 2)}) + said
	return []byte(b.String()[:2] + segment + b.String()[2:])
}

// TestAnswerCarriesPhotographs: a photograph chosen on the wearer's page goes into the
// answer's file, 1600 dots long at most and without what the camera wrote; the text for a
// message has the words alone; nothing is fetched; and take keeps words and picture with a
// new fitting.
func TestAnswerCarriesPhotographs(t *testing.T) {
	one, _ := onPhone(t, 360, "mock-up")
	photo := base64.StdEncoding.EncodeToString(taggedJPEG(t, 3000, 2000, "taken at the lock"))
	text := evaluate[string](t, one, `(async () => {
		const data = Uint8Array.from(atob("`+photo+`"), (c) => c.charCodeAt(0));
		const chosen = new DataTransfer();
		chosen.items.add(new File([data], "front.jpg", {type: "image/jpeg"}));
		const input = document.querySelector(".photos input");
		input.files = chosen.files;
		input.dispatchEvent(new Event("change"));
		while (!document.querySelector(".photos img")) await new Promise((r) => setTimeout(r, 20));
		document.querySelector('[data-word="sitting"]').value = "hinten rutscht er";
		document.querySelector(".make").click();
		let saved;
		const make = URL.createObjectURL;
		URL.createObjectURL = (blob) => { saved = blob; return make(blob); };
		document.querySelector(".save").click();
		return saved.text();
	})()`)
	if message := evaluate[string](t, one, `document.querySelector(".answer pre").textContent`); strings.Contains(message, "photographs") || !strings.HasPrefix(text, message) {
		t.Errorf("the message is\n%s", message)
	}
	if wide := evaluate[int](t, one, `document.documentElement.scrollWidth - document.documentElement.clientWidth`); wide > 0 {
		t.Errorf("the page is %d dots too wide", wide)
	}
	if asked := evaluate[int](t, one, `performance.getEntriesByType('resource').filter((e) => !/^(data|blob):/.test(e.name)).length`); asked > 0 {
		t.Errorf("%d files are fetched", asked)
	}
	m, faults := answer.Read("mock-up.txt", []byte(text))
	if len(faults) > 0 || len(m.Photos) != 1 {
		t.Fatalf("%v, %+v", faults, m)
	}
	seen, err := jpeg.DecodeConfig(bytes.NewReader(m.Photos[0]))
	if err != nil || seen.Width != 1600 || seen.Height != 1067 {
		t.Errorf("%dx%d, %v", seen.Width, seen.Height, err)
	}
	if bytes.Contains(m.Photos[0], []byte("taken at")) {
		t.Error("the photograph says where it was taken")
	}
	room, file := t.TempDir(), filepath.Join(t.TempDir(), "mock-up.txt")
	if err := os.CopyFS(filepath.Join(room, "content"), os.DirFS("../../content")); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	var out, errs bytes.Buffer
	if code := run([]string{"take", file, "--room", room}, &out, &errs); code != exitFine {
		t.Fatalf("exit status %d: %s", code, errs.String())
	}
	build := filepath.Join(room, "content", "builds", "boatyard-trousers")
	kept, err := filepath.Glob(filepath.Join(build, "photos", "*mock-up*"))
	record, _ := os.ReadFile(filepath.Join(build, "build.yaml"))
	if err != nil || len(kept) != 1 || !strings.Contains(string(record), "hinten rutscht er") || !strings.Contains(string(record), filepath.Base(kept[0])) || strings.Count(string(record), "- day: ") != 3 {
		t.Errorf("%v, %v, %s", kept, err, out.String())
	}
}
