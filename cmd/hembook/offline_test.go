package main

import (
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"hembook/internal/chromium"
)

// TestReadWithoutALine: served from the address that the workroom names, pages that were
// read, and the lists, are shown again once the host is gone; on another address nothing
// is kept.
func TestReadWithoutALine(t *testing.T) {
	nothingBeside(t)
	at, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	write(t, dir, "content/workroom.yaml", "name: A room\nsite: http://"+at.Addr().String()+"/notes/\n")
	write(t, dir, "content/builds/apron/build.yaml", "name: Apron\nsummary: To try.\ngarment: apron\nstate: sewing\npieces:\n  skirt:\n    outline: {from: [0, 0], hem: [600, 0], right: [600, 400], top: [0, 400], left: [0, 0]}\n")
	write(t, dir, "content/builds/slip/build.yaml", "name: Slip\nsummary: Not read.\ngarment: slip\nstate: sewing\n")
	to := pressed(t, dir)
	pages := http.NewServeMux()
	pages.Handle("/notes/", http.StripPrefix("/notes/", http.FileServer(http.Dir(to))))
	host := &httptest.Server{Listener: at, Config: &http.Server{Handler: pages}}
	host.Start()
	defer host.Close()
	if text := contents(t, filepath.Join(to, "notebook.webmanifest")); !strings.Contains(text, `"name": "A room"`) || !strings.Contains(text, `"start_url": "./index.html"`) {
		t.Errorf("the manifest says %s", text)
	}

	ctx, base := chromium.Tab(t), "http://"+at.Addr().String()+"/notes/"
	visit := func(page string) string {
		t.Helper()
		if err := chromedp.Do(ctx, chromedp.Navigate(base+page)); err != nil {
			t.Fatal(err)
		}
		return evaluate[string](t, ctx, `document.querySelector("h1").textContent + " " + getComputedStyle(document.body).backgroundColor`)
	}
	shown := visit("index.html")
	if note := evaluate[string](t, ctx, `navigator.serviceWorker.ready.then(() => document.querySelector("link[rel=manifest]").href)`); note != base+"notebook.webmanifest" {
		t.Errorf("the manifest is at %q", note)
	}
	apron := visit("builds/apron/pieces.html")
	evaluate[bool](t, ctx, `new Promise(d => setTimeout(() => d(true), 300))`) // until it is kept
	host.CloseClientConnections()
	host.Close()
	if again := visit("builds/apron/pieces.html"); again != apron || !strings.Contains(again, "Pieces of Apron") {
		t.Errorf("without a line the page that was read is %q, and was %q", again, apron)
	}
	if again := visit("index.html"); again != shown {
		t.Errorf("without a line the front page is %q, and was %q", again, shown)
	}
	if list := visit("techniques/index.html"); !strings.Contains(list, "Techniques") {
		t.Errorf("without a line the list of techniques is %q", list)
	}
	if lost := visit("builds/slip.html"); strings.Contains(lost, "Slip") {
		t.Errorf("a page that was never read is shown: %q", lost)
	}

	other := httptest.NewServer(http.StripPrefix("/notes/", http.FileServer(http.Dir(to))))
	defer other.Close()
	if err := chromedp.Do(ctx, chromedp.Navigate(other.URL+"/notes/index.html")); err != nil {
		t.Fatal(err)
	}
	if n := evaluate[int](t, ctx, `navigator.serviceWorker.getRegistrations().then(all => all.length)`); n != 0 {
		t.Errorf("%d workers are kept on another address", n)
	}
	if _, err := os.Stat(filepath.Join(pressedDemo(t), "offline.js")); err != nil {
		t.Error(err)
	}
}
