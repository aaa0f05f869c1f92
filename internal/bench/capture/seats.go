package capture

import (
	"cmp"
	"context"
	"crypto/tls"
	"net"
	"net/netip"
	"sync"
	"time"
)

const (
	// mostFrom bounds the connections of one address, and of one session; a
	// phone's browser opens six. Those of an IPv6 network count as one address:
	// who is in it can take as many of its addresses as he likes.
	mostFrom = 12
	// mostStrangers bounds the connections without a session, of all addresses.
	mostStrangers = 48
	// strangerTime is how long a caller without a session has for each of
	// greeting, request and code.
	strangerTime = 5 * time.Second
)

// seats are the connections of a bench. A connection is a stranger's until a
// request on it brings a session. No caller is turned away: where there are too
// many strangers, one of those who hold the most seats must go, so that
// whoever opens many connections only pushes out his own. Sessions have seats
// of their own, and so has a new connection from where a session was last seen.
type seats struct {
	known func(netip.Addr) bool // whether a session was last seen there

	mu   sync.Mutex
	all  map[*conn]bool
	next uint64
}

// A conn is a connection that has a seat.
type conn struct {
	net.Conn
	seats   *seats
	from    netip.Addr
	network netip.Prefix
	number  uint64     // in the order of coming
	known   bool       // a session was last seen where it comes from
	heard   bool       // it has asked for something, without a session
	session sessionSum // that it brought; the zero sum of strangers
	once    sync.Once
	closed  error
}

func newSeats(known func(netip.Addr) bool) *seats {
	return &seats{known: known, all: map[*conn]bool{}}
}

// A gate is a listener whose connections have seats.
type gate struct {
	net.Listener
	seats *seats
}

// Accept never waits for a seat.
func (g *gate) Accept() (net.Conn, error) {
	c, err := g.Listener.Accept()
	if err != nil {
		return nil, err
	}
	return g.seats.admit(c), nil
}

func (p *seats) admit(c net.Conn) *conn {
	from := addressOf(c.RemoteAddr().String())
	in := &conn{Conn: c, seats: p, from: from, network: networkOf(from), known: p.known(from)}
	p.mu.Lock()
	p.next++
	in.number = p.next
	p.all[in] = true
	out := p.tooMany(in)
	p.mu.Unlock()
	if out != nil {
		out.Close()
	}
	return in
}

// tooMany is the connection that must make room for one that came; nil where
// there is room.
func (p *seats) tooMany(in *conn) *conn {
	beside := func(c *conn) bool { return c.stranger() && !c.known && c.network == in.network }
	if in.known {
		beside = func(c *conn) bool { return c.stranger() && c.known && c.from == in.from }
	}
	if out := p.over(mostFrom, beside); out != nil || in.known {
		return out
	}
	return p.over(mostStrangers, func(c *conn) bool { return c.stranger() && !c.known })
}

// over is nil where there are at most so many of some connections; else the
// oldest of the address, of the network, that has the most of them, and one that
// has shown itself to be a stranger's before one that may yet bring a session.
func (p *seats) over(most int, some func(*conn) bool) *conn {
	n, addresses, networks := 0, map[netip.Addr]int{}, map[netip.Prefix]int{}
	for c := range p.all {
		if some(c) {
			n, addresses[c.from], networks[c.network] = n+1, addresses[c.from]+1, networks[c.network]+1
		}
	}
	if n <= most {
		return nil
	}
	var out *conn
	for c := range p.all {
		if some(c) && (out == nil || cmp.Or(cmp.Compare(networks[c.network], networks[out.network]),
			cmp.Compare(addresses[c.from], addresses[out.from]), compareFlags(c.heard, out.heard), cmp.Compare(out.number, c.number)) > 0) {
			out = c
		}
	}
	return out
}

func compareFlags(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return 1
	}
	return -1
}

// hear notes that a request came without a session.
func (c *conn) hear() {
	if c != nil {
		c.seats.mu.Lock()
		defer c.seats.mu.Unlock()
		c.heard = true
	}
}

func (c *conn) stranger() bool { return c.session == sessionSum{} }

// seat gives a connection one of the seats of a session.
func (c *conn) seat(session sessionSum) {
	if c == nil {
		return
	}
	p := c.seats
	p.mu.Lock()
	var out *conn
	if c.session != session {
		c.session = session
		out = p.over(mostFrom, func(c *conn) bool { return c.session == session })
	}
	p.mu.Unlock()
	if out != nil {
		out.Close()
	}
}

// Close gives the seat back.
func (c *conn) Close() error {
	c.once.Do(func() {
		c.seats.mu.Lock()
		delete(c.seats.all, c)
		c.seats.mu.Unlock()
		c.closed = c.Conn.Close()
	})
	return c.closed
}

type connKey struct{}

// withConn remembers the connection of the requests that come on it.
func withConn(ctx context.Context, c net.Conn) context.Context {
	if t, ok := c.(*tls.Conn); ok {
		c = t.NetConn()
	}
	return context.WithValue(ctx, connKey{}, c)
}

// connOf is a request's connection; nil where it came without.
func connOf(ctx context.Context) *conn {
	c, _ := ctx.Value(connKey{}).(*conn)
	return c
}

// addressOf is the address of "address:port"; the zero one where it is none.
func addressOf(hostport string) netip.Addr {
	at, _ := netip.ParseAddrPort(hostport)
	return at.Addr().Unmap().WithZone("")
}

// networkOf is what counts as one caller's: an address of IPv4, a network of
// IPv6, whose hosts choose the last 64 bits themselves (RFC 4291, 2.5.1).
func networkOf(a netip.Addr) netip.Prefix {
	bits := a.BitLen()
	if a.Is6() {
		bits = 64
	}
	p, _ := a.Prefix(bits)
	return p
}
