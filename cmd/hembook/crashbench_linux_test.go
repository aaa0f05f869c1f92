package main

import (
	"bytes"
	"fmt"
	"io"
	"mime/multipart"
	"net/http"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"
	"time"
)

// A phoneSlip is what a phone holds until the bench says that it is kept.
type phoneSlip struct {
	json  string
	photo []byte
	at    time.Time
}

// slipOf is a slip of a kind, of the skirt, at a moment.
func slipOf(n int, kind, more string, photo []byte) phoneSlip {
	at := time.Now().Truncate(time.Minute).Add(-time.Minute)
	if photo != nil {
		more += `, "photo": true`
	}
	return phoneSlip{fmt.Sprintf(`{"id": "%032x", "kind": %q, "build": "skirt", "at": %d%s}`, n, kind, at.UnixMilli(), more), photo, at}
}

// send sends a slip and reports whether the bench said that it is kept. It is
// not where the bench is gone.
func (b *benchProcess) send(s phoneSlip) (kept bool, said string) {
	var body bytes.Buffer
	form := multipart.NewWriter(&body)
	form.WriteField("now", strconv.FormatInt(time.Now().UnixMilli(), 10))
	form.WriteField("slip", s.json)
	if s.photo != nil {
		part, _ := form.CreateFormField("photo")
		part.Write(s.photo)
	}
	form.Close()
	r, err := http.NewRequest("POST", "http://"+b.host+"/slips", &body)
	if err != nil {
		return false, err.Error()
	}
	r.Header.Set("Origin", "http://"+b.host)
	r.Header.Set("Content-Type", form.FormDataContentType())
	r.Header.Set("Cookie", b.cookie)
	res, err := (&http.Client{Transport: &http.Transport{DisableKeepAlives: true}}).Do(r)
	if err != nil {
		return false, err.Error()
	}
	defer res.Body.Close()
	text, err := io.ReadAll(res.Body)
	return err == nil && res.StatusCode == http.StatusOK && strings.Contains(string(text), `"kept"`), string(text)
}

// tracedBench is a bench under the tracer, which counts changes once they are
// asked for.
func tracedBench(t *testing.T, program, dir string, at stop, counting *atomic.Bool) (*benchProcess, *traced) {
	t.Helper()
	p := startTraced(t, at, counting.Load, program, "bench", "--room", dir, "--port", "0")
	t.Cleanup(func() { p.kill() })
	found := benchSays.FindStringSubmatch(readUntil(t, p.out, "Ctrl-C ends it"))
	if found == nil {
		t.Fatal("it does not say where it is")
	}
	go io.Copy(io.Discard, p.out)
	b := &benchProcess{host: strings.Replace(found[1], "localhost", "127.0.0.1", 1), code: found[2]}
	b.pair(t)
	return b, p
}

// resend has a new bench keep a slip.
func resend(t *testing.T, dir string, s phoneSlip) {
	t.Helper()
	b := startBench(t, dir)
	b.pair(t)
	if kept, said := b.send(s); !kept {
		t.Errorf("sent again: %s", said)
	}
	b.cmd.Process.Kill()
	b.cmd.Wait()
}

// TestBenchKilledAtEachChange kills the bench at each change of the disk that a
// slip makes. The slip is sent again, as phones do, and is there once.
func TestBenchKilledAtEachChange(t *testing.T) {
	nothingBeside(t)
	t.Parallel()
	program := theProgram(t)
	for n, c := range []struct {
		name string
		room func(t *testing.T) string
		slip phoneSlip
	}{
		{"a note", crashRoom, slipOf(1, "note", `, "note": "pressed well"`, nil)},
		{"a photograph", crashRoom, slipOf(2, "note", `, "note": "the fell", "step": "hem"`, jpegOf(t, 5))},
		{"a clock ends", clockedRoom, slipOf(3, "off", `, "step": "hem", "spent": "48 min"`, nil)},
	} {
		t.Run(c.name, func(t *testing.T) {
			room := c.room(t)
			before, done := lyingIn(t, room), copyOf(t, room)
			var on atomic.Bool
			b, p := tracedBench(t, program, done, stop{}, &on)
			on.Store(true)
			if kept, said := b.send(c.slip); !kept {
				t.Fatal(said)
			}
			p.kill()
			whole := <-p.done
			hembook(done, "check")
			after := lyingIn(t, done)
			apart, stops := 1, 0
			if kills(t) == 0 {
				apart = 12
			}
			for k := 1 + n%apart; k <= whole.changes; k += apart {
				dir := copyOf(t, room)
				var on atomic.Bool
				b, p := tracedBench(t, program, dir, stop{n: k}, &on)
				on.Store(true)
				acknowledged, _ := b.send(c.slip)
				p.kill()
				end := <-p.done
				stops++
				left := crash{before, after, dir, fmt.Sprintf("change %d, %s", k, end.at)}
				if code, out, errs := hembook(dir, "check"); code != exitFine {
					t.Errorf("%s: then: exit status %d: %s%s", left.at, code, out, errs)
				}
				now := lyingIn(t, dir)
				for name, text := range now {
					if was, had := before[name]; !(had && was == text || after[name] == text) && !strings.HasPrefix(name, ".hembook/bench/slips/0") {
						t.Errorf("%s: litter, or half written: %s", left.at, name)
					}
				}
				if acknowledged {
					left.same(t, "acknowledged", after)
				}
				resend(t, dir, c.slip)
				hembook(dir, "check")
				left.same(t, "sent again", after)
			}
			t.Logf("%d changes of the disk, stopped at %d", whole.changes, stops)
		})
	}
}
