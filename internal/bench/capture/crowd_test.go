package capture

import (
	"bufio"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/netip"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"
)

// from is a client that calls from an address of this machine.
func (g *guest) from(address string) *guest {
	d := net.Dialer{LocalAddr: &net.TCPAddr{IP: net.ParseIP(address)}}
	g.client.Transport = &http.Transport{DialContext: d.DialContext}
	return g
}

// loopback skips where the machine answers to one loopback address only.
func loopback(t *testing.T, address string) {
	t.Helper()
	l, err := net.Listen("tcp", net.JoinHostPort(address, "0"))
	if err != nil {
		t.Skipf("this machine has no address %s: %v", address, err)
	}
	l.Close()
}

// call opens a connection to the hall from an address.
func (h *hall) call(from string) (net.Conn, error) {
	d := net.Dialer{LocalAddr: &net.TCPAddr{IP: net.ParseIP(from)}, Timeout: 2 * time.Minute}
	c, err := d.Dial("tcp", strings.TrimPrefix(h.base, "http://"))
	if err == nil {
		c.SetDeadline(time.Now().Add(30 * time.Second))
	}
	return c, err
}

// withheld is the head of a request whose body does not come.
func (h *hall) withheld(address string) string {
	return fmt.Sprintf("POST %s HTTP/1.1\r\nHost: %s\r\nOrigin: %s\r\nContent-Type: application/json\r\nContent-Length: 100\r\n\r\n",
		address, strings.TrimPrefix(h.base, "http://"), h.base)
}

// TestStrangersCannotKeepAPhoneOut: while strangers hold what connections they
// can get, and open others for those that they lose, a phone that was let in
// makes 45 requests, on new connections and on old ones, and none fails. Who
// calls from the phone's own address, which on a network nobody can, opens none
// anew: a storm of new ones from there does push out the phone's new ones.
func TestStrangersCannotKeepAPhoneOut(t *testing.T) {
	const callers, requests = 64, 45
	one := func(address string) func(int) string { return func(int) string { return address } }
	for _, c := range []struct {
		name string
		from func(i int) string
		each int // connections that each opens, one after the other
		say  func(h *hall) string
	}{
		{"bodies withheld, from another address", one("127.0.0.2"), 20, func(h *hall) string { return h.withheld("/slips") }},
		{"bodies withheld, from the phone's address", one("127.0.0.1"), 1, func(h *hall) string { return h.withheld("/slips") }},
		{"codes withheld", one("127.0.0.2"), 20, func(h *hall) string { return h.withheld("/pair") }},
		{"heads withheld", one("127.0.0.2"), 20, func(*hall) string { return "POST /pair HT" }},
		{"silence", one("127.0.0.2"), 20, func(*hall) string { return "" }},
		{"codes withheld, from 64 addresses", func(i int) string { return fmt.Sprintf("127.0.1.%d", i+1) }, 20, func(h *hall) string { return h.withheld("/pair") }},
	} {
		t.Run(c.name, func(t *testing.T) {
			loopback(t, c.from(0))
			h := openHall(t, newRoom(t), "127.0.0.1:0")
			phone := newGuest(t, h).from("127.0.0.1").comeIn()
			var all, first sync.WaitGroup
			var end atomic.Bool
			var opened, lost atomic.Int32
			first.Add(callers)
			for i := range callers {
				all.Go(func() {
					arrived := sync.OnceFunc(first.Done)
					defer arrived()
					for n := 0; n < c.each && !end.Load(); n++ {
						conn, err := h.call(c.from(i))
						if err != nil {
							continue
						}
						opened.Add(1)
						io.WriteString(conn, c.say(h))
						arrived()
						for !end.Load() { // hold it while it can be held
							conn.SetReadDeadline(time.Now().Add(50 * time.Millisecond))
							if _, err := io.Copy(io.Discard, conn); err == nil || !isTimeout(err) {
								lost.Add(1)
								break
							}
						}
						conn.Close()
					}
				})
			}
			first.Wait()
			failed := 0
			for i := range requests {
				if i%2 == 0 {
					phone.client.CloseIdleConnections()
				}
				if res, body := phone.ask("GET", "/state"); res.StatusCode != http.StatusOK {
					failed++
					t.Logf("request %d: %d %s", i, res.StatusCode, body)
				}
			}
			end.Store(true)
			all.Wait()
			t.Logf("%d of %d requests failed; strangers opened %d connections and lost %d", failed, requests, opened.Load(), lost.Load())
			if failed > 0 {
				t.Fail()
			}
		})
	}
}

func isTimeout(err error) bool {
	n, ok := err.(net.Error)
	return ok && n.Timeout()
}

// A request without a session is answered and its connection closed before its
// body has come; whoever says nothing at all, or half of it, is let go.
func TestStrangersAreLetGo(t *testing.T) {
	h := openHall(t, newRoom(t), "127.0.0.1:0")
	for _, said := range []string{h.withheld("/slips"), h.withheld("/leave"), h.withheld("/"), h.withheld("/pair"),
		strings.Replace(h.withheld("/slips"), "Origin", "X-Origin", 1), "GET / HTTP/1.1\r\nHost: x\r\n\r\n", "GET / HTTP/1.1\r\nHost: x\r\n", ""} {
		t.Run(fmt.Sprintf("%.20q", said), func(t *testing.T) {
			t.Parallel()
			c, err := h.call("127.0.0.1")
			if err != nil {
				t.Fatal(err)
			}
			defer c.Close()
			io.WriteString(c, said)
			in := bufio.NewReader(c)
			if strings.HasSuffix(said, "\r\n\r\n") {
				res, err := http.ReadResponse(in, nil)
				if err != nil {
					t.Fatal(err)
				}
				if res.StatusCode < 400 || !res.Close {
					t.Errorf("%s, closed after it: %v", res.Status, res.Close)
				}
			}
			if _, err := io.Copy(io.Discard, in); isTimeout(err) {
				t.Error("the connection stays")
			}
		})
	}
}

// Wrong codes from one address leave the door open for another.
func TestWrongCodesHoldUpNobodyElse(t *testing.T) {
	loopback(t, "127.0.0.2")
	h := openHallBy(t, newRoom(t), "127.0.0.1:0", (&handClock{noon}).read)
	stranger, phone := newGuest(t, h).from("127.0.0.2"), newGuest(t, h).from("127.0.0.1")
	for i := range 12 {
		want := http.StatusForbidden
		if i >= 4 {
			want = http.StatusTooManyRequests
		}
		if res, body := stranger.ask("POST", "/pair", stranger.json(`{"code": "AAAA-AAAA"}`)); res.StatusCode != want {
			t.Errorf("wrong code %d: %d %s, want %d", i+1, res.StatusCode, body, want)
		}
	}
	if res, _ := stranger.ask("POST", "/pair", stranger.json(`{"code": "`+h.goodCode()+`"}`)); res.StatusCode != http.StatusTooManyRequests || res.Header.Get("Retry-After") != "61" {
		t.Errorf("the good code after wrong ones: %d, to be sent again after %s", res.StatusCode, res.Header.Get("Retry-After"))
	}
	phone.comeIn()
}

// Who must go is one of those who have most.
func TestWhoMustGo(t *testing.T) {
	p := newSeats(func(a netip.Addr) bool { return a.String() == "10.0.0.7" })
	type came struct {
		*conn
		closed *atomic.Bool
	}
	come := func(from string) came {
		var closed atomic.Bool
		return came{p.admit(&fakeConn{from: from, closed: &closed}), &closed}
	}
	gone := func(list []came) (n int) {
		for _, c := range list {
			if c.closed.Load() {
				n++
			}
		}
		return n
	}
	var flood, many, network, phone []came
	quiet := come("10.0.0.3:1")
	for range 30 {
		flood = append(flood, come("10.0.0.2:1"))
	}
	if gone(flood) != 30-12 || flood[29].closed.Load() || !flood[0].closed.Load() {
		t.Errorf("one address: %d of 30 must go", gone(flood))
	}
	for i := range 30 {
		network = append(network, come(fmt.Sprintf("[fd00::%x]:1", i+1)))
	}
	if gone(network) != 30-12 {
		t.Errorf("one network of IPv6: %d of 30 must go", gone(network))
	}
	for range 6 {
		phone = append(phone, come("10.0.0.7:1"))
	}
	for i := range 100 {
		many = append(many, come(fmt.Sprintf("10.0.1.%d:1", i+1)))
	}
	// 48 in all: the addresses that have several go down to one first
	if n := 1 + 30 - gone(flood) + 30 - gone(network) + 100 - gone(many); n-b2i(quiet.closed.Load()) != mostStrangers {
		t.Errorf("%d strangers are in", n)
	}
	if gone(phone) != 0 {
		t.Error("where a session was seen, a connection had to go for strangers")
	}
	// a session has places of its own
	guest := come("10.0.0.9:1")
	guest.seat(sumOfToken("a"))
	for i := range 100 {
		come(fmt.Sprintf("10.0.2.%d:1", i+1))
	}
	if guest.closed.Load() {
		t.Error("a session had to go for strangers")
	}
	var own []came
	for range 20 {
		c := come("10.0.0.7:1")
		c.seat(sumOfToken("b"))
		own = append(own, c)
	}
	if gone(own) != 20-12 || guest.closed.Load() {
		t.Errorf("of one session %d of 20 must go", gone(own))
	}
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

type fakeConn struct {
	net.Conn
	from   string
	closed *atomic.Bool
}

func (c *fakeConn) RemoteAddr() net.Addr { return fakeAddr(c.from) }
func (c *fakeConn) Close() error         { c.closed.Store(true); return nil }

type fakeAddr string

func (fakeAddr) Network() string  { return "tcp" }
func (a fakeAddr) String() string { return string(a) }
