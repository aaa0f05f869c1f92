// Package chromium opens pages in a browser, for tests only: one browser for all
// tests of a package, and a tab with storage of its own for each.
package chromium

import (
	"context"
	"errors"
	"os"
	"os/exec"
	"sync"
	"testing"

	"github.com/chromedp/chromedp"
)

// one is the browser of this program's tests, started by the first that asks.
var one struct {
	sync.Once
	ctx  context.Context
	stop func()
	err  error
}

// Tab is an empty tab that shares no storage with others and is closed when the
// test ends. Where there is no Chromium the test is skipped with the reason; on CI
// there must be one.
func Tab(t testing.TB) context.Context {
	t.Helper()
	one.Do(func() { one.ctx, one.stop, one.err = start() })
	if errors.Is(one.err, exec.ErrNotFound) {
		if os.Getenv("CI") == "true" {
			t.Fatal("there is no Chromium, and CI must have one")
		}
		t.Skip("there is no Chromium on this machine")
	}
	if one.err != nil {
		t.Fatal(one.err)
	}
	ctx, stop := chromedp.NewContext(one.ctx, chromedp.WithNewBrowserContext())
	t.Cleanup(stop)
	if err := chromedp.Do(ctx, chromedp.Navigate("about:blank")); err != nil {
		t.Fatal(err)
	}
	return ctx
}

// Stop ends the browser, if one was started. TestMain calls it after all tests, else
// its folder is left behind.
func Stop() {
	if one.stop != nil {
		one.stop()
	}
}

// Main runs the tests of a package that shares its browser, and ends that: what its
// TestMain does.
func Main(m *testing.M) {
	code := m.Run()
	Stop()
	os.Exit(code)
}

// LongTab is a Tab for tests that the short round leaves out: it looks for races in the
// program, and nothing of the program runs in a browser.
func LongTab(t testing.TB) context.Context {
	t.Helper()
	if testing.Short() {
		t.Skip("opens a browser")
	}
	return Tab(t)
}

func start() (ctx context.Context, stop func(), err error) {
	path := ""
	// the same engine without the browser's own windows takes a third of the processor
	for _, name := range []string{"chromium-headless-shell", "chromium", "chromium-browser", "google-chrome"} {
		if path, err = exec.LookPath(name); err == nil {
			break
		}
	}
	if err != nil {
		return nil, nil, err
	}
	opts := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(path), chromedp.NoSandbox,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true))
	alloc, stopAlloc := chromedp.NewExecAllocator(context.Background(), opts...)
	ctx, stopTab := chromedp.NewContext(alloc)
	return ctx, func() { stopTab(); stopAlloc() }, chromedp.Do(ctx, chromedp.Navigate("about:blank"))
}
