package capture

import (
	"net/http"
	"net/netip"
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

// home is where a test's phone is.
var home = netip.MustParseAddr("192.168.1.7")

func last(codes *[]string) string { return (*codes)[len(*codes)-1] }

func TestCodeLetsOneIn(t *testing.T) {
	d, _, codes := newTestDoor()
	code := last(codes)
	token, how, _ := d.knock(home, " "+strings.ToLower(code)+" ")
	if how != letIn || len(token) != 43 || !d.knows(home, token) {
		t.Fatalf("%v, %q", how, token)
	}
	if _, how, _ := d.knock(home, code); how != wrongCode {
		t.Error("the code is good a second time")
	}
	if last(codes) == code || len(*codes) != 2 {
		t.Errorf("codes told: %v", *codes)
	}
	for _, made := range []string{"", token[:42], token + "A", strings.Repeat("A", 43)} {
		if d.knows(home, made) {
			t.Errorf("%q is known", made)
		}
	}
	d.end(token)
	if d.knows(home, token) {
		t.Error("an ended session goes on")
	}
}

// Five wrong codes from one address, and that address waits, for longer each
// time; the good code does not help it meanwhile. Nobody else is held up, and
// the code stays what it is.
func TestGuessingHoldsUpWhoGuesses(t *testing.T) {
	d, clock, codes := newTestDoor()
	guesser, other := netip.MustParseAddr("192.168.1.66"), netip.MustParseAddr("192.168.1.7")
	good := last(codes)
	// one minute, doubled to at most an hour
	for _, minutes := range []int{1, 2, 4, 8, 16, 32, 60, 60} {
		closed := time.Duration(minutes) * time.Minute
		for i := range 5 {
			want := wrongCode
			if i == 4 {
				want = callerWaits
			}
			if _, how, _ := d.knock(guesser, "AAAA-AAAA"); how != want {
				t.Fatalf("guess %d: %v", i+1, how)
			}
		}
		if _, how, wait := d.knock(guesser, good); how != callerWaits || wait != closed {
			t.Fatalf("waits for %s, want %s", wait, closed)
		}
		if last(codes) != good {
			t.Fatal("the code was changed by who guesses")
		}
		clock.now = clock.now.Add(closed)
	}
	for range 4 {
		d.knock(guesser, "AAAA-AAAA")
	}
	if _, how, _ := d.knock(other, good); how != letIn {
		t.Error("another is held up")
	}
	if _, how, _ := d.knock(guesser, last(codes)); how != letIn {
		t.Error("it is not let in again")
	}
}

// Whoever has many addresses is bounded too, so that no code can be guessed.
func TestGuessesOfManyAddresses(t *testing.T) {
	v4 := func(i int) netip.Addr { return netip.AddrFrom4([4]byte{10, byte(i >> 16), byte(i >> 8), byte(i)}) }
	v6 := func(network, i int) netip.Addr {
		return netip.AddrFrom16([16]byte{0xfd, 6: byte(network >> 8), 7: byte(network), 13: byte(i >> 16), 14: byte(i >> 8), 15: byte(i)})
	}
	for _, c := range []struct {
		name string
		from func(i int) netip.Addr
		most int // guesses tried in ten minutes, of a hundred a second
	}{
		// 60 at once and 4 a second
		{"addresses of IPv4", v4, 60 + 4*600},
		{"networks of IPv6", func(i int) netip.Addr { return v6(i%5000, i) }, 60 + 4*600},
		// 30 at once and 2 a second
		{"addresses of one IPv6 network", func(i int) netip.Addr { return v6(1, i) }, 30 + 2*600},
		// five each, and five more after one, two and four minutes
		{"the 254 of a home network", func(i int) netip.Addr { return v4(1 + i%254) }, 4 * 5 * 254},
		{"one", func(int) netip.Addr { return v4(1) }, 4 * 5},
	} {
		t.Run(c.name, func(t *testing.T) {
			d, clock, codes := newTestDoor()
			tried := 0
			for i := range 100 * 600 {
				clock.now = clock.now.Add(10 * time.Millisecond)
				before := d.guesses.callers.of(c.from(i)).until
				_, how, _ := d.knock(c.from(i), "AAAA-AAAA")
				if how == wrongCode || how == callerWaits && !before.After(clock.now) {
					tried++
				}
			}
			if tried > c.most || tried == 0 {
				t.Errorf("%d guesses were tried, want %d at most", tried, c.most)
			}
			t.Logf("%d guesses of 60000 were tried, bound %d", tried, c.most)
			if n := len(d.guesses.callers.all); n > mostCallers {
				t.Errorf("%d addresses are remembered", n)
			}
			// one who comes anew is let in by the good code once guesses rest for a second
			clock.now = clock.now.Add(time.Second)
			if _, how, _ := d.knock(netip.MustParseAddr("fd00:0:0:7777::7"), last(codes)); how != letIn {
				t.Errorf("a phone that is new: %v", how)
			}
		})
	}
}

func TestSessionsEnd(t *testing.T) {
	d, clock, codes := newTestDoor()
	idle, _, _ := d.knock(home, last(codes))
	busy, _, _ := d.knock(home, last(codes))
	for range 3 {
		clock.now = clock.now.Add(sessionIdle - time.Minute)
		if !d.knows(home, busy) {
			t.Fatal("a session in use has ended")
		}
	}
	if d.knows(home, idle) {
		t.Error("a session out of use goes on")
	}
	clock.now = noon.Add(sessionLasts)
	if d.knows(home, busy) {
		t.Error("a session outlasts its day")
	}
	var first string
	for i := range mostSessions + 1 {
		clock.now = clock.now.Add(time.Second)
		token, _, _ := d.knock(home, last(codes))
		if i == 0 {
			first = token
		}
	}
	if d.knows(home, first) || len(d.sessions) != mostSessions {
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
