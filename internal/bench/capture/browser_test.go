package capture

import (
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"hembook/internal/chromium"
)

var shots = flag.String("shots", "", "a folder for pictures of the page")

// browser is a tab of the tests' browser. The short round, which looks for races in the
// program, has none: nothing of it runs in there.
func browser(t *testing.T) context.Context {
	t.Helper()
	if testing.Short() {
		t.Skip("opens a browser")
	}
	return chromium.Tab(t)
}

// step is one step in the browser.
type step = chromedp.Action[chromedp.Void]

// do runs steps in the browser.
func do(t *testing.T, ctx context.Context, steps ...step) {
	t.Helper()
	one, stop := context.WithTimeout(ctx, 5*time.Minute)
	defer stop()
	if err := chromedp.Do(one, steps...); err != nil {
		t.Fatal(err)
	}
}

// call gives the browser one command of its protocol.
func call[P, R any](t *testing.T, ctx context.Context, cmd cdp.Command[P, R], params P) R {
	t.Helper()
	one, stop := context.WithTimeout(ctx, 5*time.Minute)
	defer stop()
	got, err := chromedp.Call(one, cmd, params)
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// js runs a script that may wait, and returns what it says.
func js[T any](t *testing.T, ctx context.Context, script string, args ...any) T {
	t.Helper()
	one, stop := context.WithTimeout(ctx, 6*time.Minute)
	defer stop()
	got, err := chromedp.Run(one, chromedp.Evaluate[T](fmt.Sprintf("(async () => {%s})()", fmt.Sprintf(script, args...)), chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// until waits for a condition to hold in the page.
const until = `const until = async (ok, what) => { for (let i = 0; i < 9000; i++) { if (await ok()) return; await new Promise((r) => setTimeout(r, 20)); } throw new Error("waited in vain for " + (what || ok)); };`

// comeIn opens the page by the code, as the phone's camera does.
func comeIn(t *testing.T, ctx context.Context, h *hall) {
	t.Helper()
	do(t, ctx, chromedp.Navigate("about:blank"), chromedp.Navigate(h.base+"/#"+h.goodCode()), chromedp.WaitVisible("#steps .step"))
	js[bool](t, ctx, until+`await until(() => document.querySelectorAll("#steps li").length > 0 && document.getElementById("count-words").textContent === "all sent", "the steps"); return true`)
}

// hold has the browser be a phone of that size.
func hold(t *testing.T, ctx context.Context, wide, high int64, dark bool) {
	t.Helper()
	look := "light"
	if dark {
		look = "dark"
	}
	do(t, ctx, chromedp.EmulateViewport(wide, high, chromedp.EmulateMobile, chromedp.EmulateTouch, chromedp.EmulateScale(2)))
	call(t, ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: look}}})
}

// shoot keeps a picture of the page where a folder was named for it.
func shoot(t *testing.T, ctx context.Context, name string) {
	t.Helper()
	if *shots == "" {
		return
	}
	one, stop := context.WithTimeout(ctx, 5*time.Minute)
	defer stop()
	data, err := chromedp.Run(one, chromedp.CaptureScreenshot())
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(*shots, name+".png"), data, 0o666); err != nil {
		t.Fatal(err)
	}
}
