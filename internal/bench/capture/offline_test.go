package capture

import (
	"bufio"
	"context"
	"fmt"
	"math/rand/v2"
	"net"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"

	"hembook/internal/bench"
	"hembook/internal/chromium"
)

// TestMain lets the tests' program be a bench of its own, to be killed.
func TestMain(m *testing.M) {
	if dir := os.Getenv("HEMBOOK_TEST_BENCH"); dir != "" {
		if err := serveForTest(dir, os.Getenv("HEMBOOK_TEST_ADDRESS")); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		return
	}
	code := m.Run()
	chromium.Stop()
	os.Exit(code)
}

func serveForTest(dir, address string) error {
	l, err := net.Listen("tcp", address)
	if err != nil {
		return err
	}
	b := &Bench{Room: dir, Origins: []string{"http://" + l.Addr().String()}, Code: func(code string) { fmt.Println(code) }}
	return b.Serve(context.Background(), l)
}

// A victim is a bench in a process of its own.
type victim struct {
	cmd   *exec.Cmd
	codes *bufio.Scanner
	code  string
}

// startVictim starts one and waits for its first code.
func startVictim(t *testing.T, dir, address string) *victim {
	t.Helper()
	v := &victim{cmd: exec.Command(os.Args[0], "-test.run=^$")}
	v.cmd.Env = append(os.Environ(), "HEMBOOK_TEST_BENCH="+dir, "HEMBOOK_TEST_ADDRESS="+address)
	v.cmd.Stderr = os.Stderr
	out, err := v.cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := v.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	v.codes = bufio.NewScanner(out)
	if !v.codes.Scan() {
		t.Fatal("the bench did not start")
	}
	v.code = v.codes.Text()
	return v
}

// kill ends it as a power cut does.
func (v *victim) kill() {
	v.cmd.Process.Kill()
	v.cmd.Wait()
}

// freeAddress is an address that nobody listens at.
func freeAddress(t *testing.T) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	return l.Addr().String()
}

// byRule is network.EmulateNetworkConditionsByRule for browsers of two kinds: up to version
// 148 they want to be told at the top whether there is a connection, later ones in each rule.
var byRule = cdp.Command[byRuleParams, network.EmulateNetworkConditionsByRuleResult]{Method: network.CommandEmulateNetworkConditionsByRule}

type byRuleParams struct {
	Offline bool                  `json:"offline"`
	Matched []*network.Conditions `json:"matchedNetworkConditions"`
}

// unplug switches the browser's connection off and on.
func unplug(t *testing.T, ctx context.Context, off bool) {
	t.Helper()
	call(t, ctx, byRule, byRuleParams{off, []*network.Conditions{{Offline: off, DownloadThroughput: -1, UploadThroughput: -1}}})
	call(t, ctx, network.OverrideNetworkState, network.OverrideNetworkStateParams{Offline: off, DownloadThroughput: -1, UploadThroughput: -1})
}

// taken makes slips number from to below to on the phone: notes for the most
// part, and among every ten a size and a clock that goes on and off.
const taken = `
	const { take, page } = await import("/bench.js");
	const made = [];
	for (let i = %d; i < %d; i++) {
		const name = "e" + String(i).padStart(4, "0"), at = %d + i * 2 * 60000;
		switch (i %% 10) {
			case 3: made.push(take("on", { step: "sides", at })); break;
			case 4: made.push(take("off", { step: "sides", at: at - 60000, sure: true, note: name })); break;
			case 7: made.push(take("measured", { name, value: String(100 + i) })); break;
			default: made.push(take("note", { note: name }));
		}
		await made[made.length - 1];
	}
	return page.slips.length;`

// counts is how many slips wait, were refused, and why.
const counts = `
	const keep = await import("/keep.js");
	const all = await keep.all();
	return {waiting: all.filter((s) => s.state === "waiting").length, refused: all.filter((s) => s.state === "refused").map((s) => JSON.stringify(s.slip) + s.said)};`

type slipCounts struct {
	Waiting int      `json:"waiting"`
	Refused []string `json:"refused"`
}

// TestFiveHundredSlipsOverABadConnection: 500 slips from a browser whose
// connection is switched off and on at random, to a bench that is killed and
// started again at random in between. Each is in the record once.
func TestFiveHundredSlipsOverABadConnection(t *testing.T) {
	const many, each = 500, 25
	ctx := browser(t)
	seed := uint64(time.Now().UnixNano())
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	dir := newRoom(t)
	put(t, dir, "content/workroom.yaml", "name: Ferry House\n")
	address := freeAddress(t)
	v := startVictim(t, dir, address)
	defer func() { v.kill() }()
	do(t, ctx, chromedp.Navigate("http://"+address+"/#"+v.code), chromedp.WaitVisible("#steps .step"))
	call(t, ctx, network.Enable, network.EnableParams{})
	start := time.Now().Add(-2 * (many + 10) * time.Minute).UnixMilli()
	kills, cuts := 0, 0
	for from := 0; from < many; from += each {
		off := rng.IntN(2) == 0
		if off {
			unplug(t, ctx, true)
			cuts++
		}
		js[int](t, ctx, taken, from, from+each, start)
		if off {
			unplug(t, ctx, false)
		}
		left := from + each - rng.IntN(from+each)
		some(t, ctx, rng.IntN(each))
		if rng.IntN(3) > 0 {
			v.kill()
			kills++
			v = startVictim(t, dir, address)
			js[string](t, ctx, `const send = await import("/send.js"); return await send.enter(%q)`, v.code)
		} else if left%2 == 0 {
			unplug(t, ctx, true)
			unplug(t, ctx, false)
			cuts++
		}
	}
	got := js[slipCounts](t, ctx, "%s", until+`
		const send = await import("/send.js"), held = await import("/keep.js");
		send.wake();
		await until(async () => (await held.all()).every((s) => s.state !== "waiting"), "the last slips");`+counts)
	if got.Waiting != 0 || len(got.Refused) > 0 {
		t.Errorf("%+v", got)
	}
	once := presentOnce(t, dir, many)
	t.Logf("%d of %d slips present once, over %d kills of the bench and %d cuts of the connection", once, many, kills, cuts)
	if clocks, _ := bench.ClocksOf(dir).All(); len(clocks) != 0 {
		t.Errorf("clocks run: %v", clocks)
	}
	if fault := openRecord(t, dir); fault != "" {
		t.Error(fault)
	}
}

// some waits until at least so many slips more are in the records, or none
// wait.
func some(t *testing.T, ctx context.Context, n int) {
	t.Helper()
	js[bool](t, ctx, "%s", until+fmt.Sprintf(`
		const keep = await import("/keep.js"), send = await import("/send.js");
		const waiting = async () => (await keep.all()).filter((s) => s.state === "waiting").length;
		const before = await waiting();
		send.wake();
		await until(async () => { const n = await waiting(); return n === 0 || before - n >= %d; }, "some slips");
		return true`, n))
}

// presentOnce counts the slips that are in the record just once.
func presentOnce(t *testing.T, dir string, many int) int {
	t.Helper()
	text, once := coat(t, dir), 0
	for i := range many {
		name := fmt.Sprintf("e%04d", i)
		n := times(text, name)
		if i%10 == 3 {
			name, n = fmt.Sprintf("e%04d", i+1), times(text, fmt.Sprintf("e%04d", i+1)) // its clock's time
		}
		if n == 1 {
			once++
		} else {
			t.Errorf("%s stands there %d times", name, n)
		}
	}
	if n := times(text, "did: sides, for: 1 min"); n != many/10 {
		t.Errorf("%d times of clocks, want %d", n, many/10)
	}
	return once
}

// What was taken down without a connection outlasts the page, and on an
// address the browser trusts the page itself opens without the workroom.
func TestPageOpensWithoutTheWorkroom(t *testing.T) {
	ctx := browser(t)
	dir := newRoom(t)
	h := openHall(t, dir, "127.0.0.1:0")
	comeIn(t, ctx, h)
	js[bool](t, ctx, until+`await until(() => navigator.serviceWorker.controller, "the worker"); return true`)
	address := strings.TrimPrefix(h.base, "http://")
	h.stop()
	do(t, ctx, chromedp.Navigate(h.base+"/"), chromedp.WaitVisible("#steps .step"))
	js[int](t, ctx, `const { take } = await import("/bench.js"); await take("note", { note: "without the workroom" }); return 1`)
	do(t, ctx, chromedp.Navigate("about:blank"), chromedp.Navigate(h.base+"/"), chromedp.WaitVisible("#steps .step"))
	words := js[string](t, ctx, until+`await until(() => /on this phone/.test(document.getElementById("count-words").textContent)); return document.getElementById("count-words").textContent`)
	if words != "1 on this phone, not connected" {
		t.Errorf("says %q", words)
	}
	h = openHall(t, dir, address)
	js[bool](t, ctx, until+`const send = await import("/send.js"); await send.enter(%q); await until(() => document.getElementById("count-words").textContent === "all sent"); return true`, h.goodCode())
	if times(coat(t, dir), "note: without the workroom") != 1 {
		t.Errorf("got\n%s", coat(t, dir))
	}
	kept := js[string](t, ctx, `let all = ""; for (const name of await caches.keys()) for (const r of await (await caches.open(name)).keys()) all += new URL(r.url).pathname + " "; return all`)
	if strings.Contains(kept, "state") || !strings.Contains(kept, "/bench.js") {
		t.Errorf("the browser keeps %s", kept)
	}
}
