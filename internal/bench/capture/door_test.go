package capture

import (
	"net/http"
	"strings"
	"testing"
	"time"
)

// A handClock is a clock that a test turns.
type handClock struct{ now time.Time }

func (c *handClock) read() time.Time { return c.now }

func newTestDoor() (*door, *handClock, *[]string) {
	clock, codes := &handClock{noon}, &[]string{}
	return newDoor(clock.read, func(code string) { *codes = append(*codes, code) }), clock, codes
}

func last(codes *[]string) string { return (*codes)[len(*codes)-1] }

func TestCodeLetsOneIn(t *testing.T) {
	d, _, codes := newTestDoor()
	code := last(codes)
	token, how, _ := d.knock(" " + strings.ToLower(code) + " ")
	if how != letIn || len(token) != 43 || !d.knows(token) {
		t.Fatalf("%v, %q", how, token)
	}
	if _, how, _ := d.knock(code); how != wrongCode {
		t.Error("the code is good a second time")
	}
	if last(codes) == code || len(*codes) != 2 {
		t.Errorf("codes told: %v", *codes)
	}
	for _, made := range []string{"", token[:42], token + "A", strings.Repeat("A", 43)} {
		if d.knows(made) {
			t.Errorf("%q is known", made)
		}
	}
	d.end(token)
	if d.knows(token) {
		t.Error("an ended session goes on")
	}
}

// Five wrong codes close the door, for longer each time, and make the code
// void; the good one does not open it meanwhile.
func TestGuessingClosesTheDoor(t *testing.T) {
	d, clock, codes := newTestDoor()
	closed := time.Minute
	for range 8 {
		good := last(codes)
		for i := range mostGuesses {
			want := wrongCode
			if i == mostGuesses-1 {
				want = doorClosed
			}
			if _, how, _ := d.knock("AAAA-AAAA"); how != want {
				t.Fatalf("guess %d: %v", i+1, how)
			}
		}
		if last(codes) == good {
			t.Fatal("the code that was guessed at is good still")
		}
		if _, how, wait := d.knock(last(codes)); how != doorClosed || wait != closed {
			t.Fatalf("closed for %s, want %s", wait, closed)
		}
		clock.now = clock.now.Add(closed)
		closed = min(2*closed, longClosed)
	}
	if _, how, _ := d.knock(last(codes)); how != letIn {
		t.Error("it does not open again")
	}
}

func TestSessionsEnd(t *testing.T) {
	d, clock, codes := newTestDoor()
	idle, _, _ := d.knock(last(codes))
	busy, _, _ := d.knock(last(codes))
	for range 3 {
		clock.now = clock.now.Add(sessionIdle - time.Minute)
		if !d.knows(busy) {
			t.Fatal("a session in use has ended")
		}
	}
	if d.knows(idle) {
		t.Error("a session out of use goes on")
	}
	clock.now = noon.Add(sessionLasts)
	if d.knows(busy) {
		t.Error("a session outlasts its day")
	}
	var first string
	for i := range mostSessions + 1 {
		clock.now = clock.now.Add(time.Second)
		token, _, _ := d.knock(last(codes))
		if i == 0 {
			first = token
		}
	}
	if d.knows(first) || len(d.sessions) != mostSessions {
		t.Errorf("%d sessions", len(d.sessions))
	}
}

// A session that was put into the browser beforehand is not taken up, and the
// cookie is kept from scripts and other sites.
func TestCookieCannotBeFixed(t *testing.T) {
	h := openHall(t, newRoom(t), "127.0.0.1:0")
	g := newGuest(t, h)
	fixed := strings.Repeat("F", 43)
	g.cookie = fixed
	res, body := g.ask("POST", "/pair", g.json(`{"code": "`+h.goodCode()+`"}`))
	if res.StatusCode != http.StatusOK {
		t.Fatal(body)
	}
	c := res.Cookies()[0]
	if c.Value == fixed || !c.HttpOnly || c.SameSite != http.SameSiteStrictMode || c.Path != "/" || c.Domain != "" || c.MaxAge != int(sessionLasts/time.Second) {
		t.Errorf("%+v", c)
	}
	if res, _ := g.ask("GET", "/state"); res.StatusCode != http.StatusForbidden {
		t.Error("the session that was put there is good")
	}
	g.cookie = c.Value
	if res, _ := g.ask("GET", "/state"); res.StatusCode != http.StatusOK {
		t.Error("the new session is not")
	}
	// pairing again ends the session before
	res, _ = g.ask("POST", "/pair", g.json(`{"code": "`+h.goodCode()+`"}`))
	old := g.cookie
	if g.cookie = res.Cookies()[0].Value; old == g.cookie {
		t.Error("the session is the same")
	}
	if (&guest{t: t, hall: h, client: g.client, cookie: old}).status("/state") != http.StatusForbidden {
		t.Error("the session before goes on")
	}
	if res, _ := g.ask("POST", "/leave"); res.StatusCode != http.StatusOK || g.status("/state") != http.StatusForbidden {
		t.Error("left, and still in")
	}
}

func (g *guest) status(address string) int {
	res, _ := g.ask("GET", address)
	return res.StatusCode
}

// Whoever asks too often is put off, and told to wait.
func TestTooManyRequests(t *testing.T) {
	clock := &handClock{noon}
	h := openHallBy(t, newRoom(t), "127.0.0.1:0", clock.read)
	g := newGuest(t, h)
	put := 0
	for range 80 {
		res, _ := g.ask("GET", "/state")
		if res.StatusCode == http.StatusTooManyRequests {
			if put++; res.Header.Get("Retry-After") == "" {
				t.Error("not told when to ask again")
			}
		}
	}
	if put != 20 {
		t.Errorf("%d of 80 put off, want 20 as the bucket holds 60", put)
	}
}
