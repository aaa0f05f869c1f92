package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"hembook/internal/chromium"
)

var picturesTo = flag.String("pictures", "", "the folder to write the README's pictures into, as testdata/pictures")

// A readmePicture is one picture of the README: what the browser opens, and how large.
type readmePicture struct {
	file, opens   string
	width, height int64
	ready         string // what must hold on the page first
}

// TestReadmePictures: each picture the README shows is there and is not too heavy. With
// -pictures it makes them anew from the demo workroom.
func TestReadmePictures(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	if *picturesTo != "" {
		for _, p := range readmePictures(t) {
			takePicture(t, p)
		}
	}
	for _, name := range []string{"garment", "lay", "bench", "sheet"} {
		file := "testdata/pictures/" + name + ".png"
		if !strings.Contains(string(readme), "("+file+")") {
			t.Errorf("the README does not show %s", file)
		}
		info, err := os.Stat("../../" + file)
		if err != nil {
			t.Errorf("the README shows no picture: %v", err)
		} else if info.Size() > 300_000 {
			t.Errorf("%s weighs %d bytes", file, info.Size())
		}
	}
}

func readmePictures(t *testing.T) []readmePicture {
	t.Helper()
	dir := t.TempDir()
	if err := os.CopyFS(filepath.Join(dir, "content"), os.DirFS("../../content")); err != nil {
		t.Fatal(err)
	}
	if code := run([]string{"lay", "winter", "--room", dir, "--drawing", filepath.Join(dir, "plan.svg")}, os.Stdout, os.Stderr); code != exitFine {
		t.Fatal("no lay was drawn")
	}
	frame := `<body style="margin:12px;background:#f1e3c6"><img src="plan-shell.svg" style="width:1000px;display:block"></body>`
	if err := os.WriteFile(filepath.Join(dir, "lay.html"), []byte(frame), 0o666); err != nil {
		t.Fatal(err)
	}
	b := startBench(t, dir)
	return []readmePicture{
		{"garment.png", "file://" + filepath.Join(pressedDemo(t), "builds/tollkeepers-waistcoat.html"), 1280, 1060, "true"},
		{"lay.png", "file://" + filepath.Join(dir, "lay.html"), 1024, 900, "document.images[0].complete"},
		{"sheet.png", "file://" + filepath.Join(packedDemo(t, "tollkeepers-waistcoat"), "care-and-fit.html"), 820, 1100, "true"},
		{"bench.png", "http://" + b.host + "/#" + strings.ReplaceAll(b.code, "-", ""), 390, 760, "document.body.innerText.includes('Sent') || document.body.innerText.includes('sent') || document.body.innerText.includes('connected')"},
	}
}

// takePicture opens a page and keeps what is seen of it.
func takePicture(t *testing.T, p readmePicture) {
	t.Helper()
	ctx := chromium.Tab(t)
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(p.width, p.height), chromedp.Navigate(p.opens)); err != nil {
		t.Fatal(err)
	}
	for range 40 {
		if evaluate[bool](t, ctx, p.ready) {
			break
		}
		time.Sleep(100 * time.Millisecond)
	}
	time.Sleep(300 * time.Millisecond)
	png, err := chromedp.Run(ctx, chromedp.CaptureScreenshot())
	if err != nil {
		t.Fatal(fmt.Errorf("%s: %w", p.file, err))
	}
	if err := os.WriteFile(filepath.Join(*picturesTo, p.file), png, 0o666); err != nil {
		t.Fatal(err)
	}
}
