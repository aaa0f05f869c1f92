package capture

import (
	"container/list"
	"net/netip"
	"sync"
	"time"
)

// How wrong codes are bounded. Each address has a few guesses, then waits, for
// longer each time; what it does holds nobody else up. That alone would not
// bound a caller with many addresses, so all guesses of an IPv6 network, and all
// guesses there are, have a rate too: at most 4 a second of 31^8 codes are tried,
// 345,660 in a day, which find the code with a chance of less than one in two
// million. On a home network of 254 addresses the first bound is reached
// long before the last, so that a phone that is new can still come in.
const (
	mostGuesses  = 5           // of one address
	firstClosed  = time.Minute // after that many wrong guesses; doubled each time
	longClosed   = time.Hour
	networkRate  = 2 // guesses a second
	networkBurst = 30
	wholeRate    = 4
	wholeBurst   = 60
	mostCallers  = 4096 // addresses that are remembered; more are bounded by the rates
)

// guesses count the codes that were tried.
type guesses struct {
	whole    *bucket
	networks *book[netip.Prefix, bucket]
	callers  *book[netip.Addr, guesser]
}

// A guesser is an address from which wrong codes came.
type guesser struct {
	wrong   int
	until   time.Time     // it is not listened to
	closing time.Duration // how long it is not the next time
}

func newGuesses() *guesses {
	return &guesses{
		whole:    newBucket(wholeRate, wholeBurst),
		networks: newBook[netip.Prefix](mostCallers, func() *bucket { return newBucket(networkRate, networkBurst) }),
		callers:  newBook[netip.Addr](mostCallers, func() *guesser { return &guesser{closing: firstClosed} }),
	}
}

// may reports whether a guess from an address is tried, and if not for how
// long it must wait and whether that is for wrong codes of its own.
func (g *guesses) may(from netip.Addr, now time.Time) (ok bool, wait time.Duration, own bool) {
	if wait := g.callers.of(from).until.Sub(now); wait > 0 {
		return false, wait, true
	}
	if !g.networks.of(networkOf(from)).take(now) || !g.whole.take(now) {
		return false, time.Second, false
	}
	return true, 0, false
}

// missed counts a wrong guess, and is how long the address must wait now.
func (g *guesses) missed(from netip.Addr, now time.Time) (wait time.Duration) {
	c := g.callers.of(from)
	if c.wrong++; c.wrong < mostGuesses {
		return 0
	}
	wait = c.closing
	c.wrong, c.until, c.closing = 0, now.Add(wait), min(2*wait, longClosed)
	return wait
}

// hit forgets the wrong guesses of an address.
func (g *guesses) hit(from netip.Addr) { g.callers.forget(from) }

// A book remembers something of each caller, of so many at most: those longest
// unseen are forgotten.
type book[K comparable, V any] struct {
	most  int
	fresh func() *V

	mu    sync.Mutex
	all   map[K]*list.Element
	order *list.List // of leaf[K, V], those seen last in front
}

type remembered[K comparable, V any] struct {
	key K
	of  *V
}

func newBook[K comparable, V any](most int, fresh func() *V) *book[K, V] {
	return &book[K, V]{most: most, fresh: fresh, all: map[K]*list.Element{}, order: list.New()}
}

// of is what is remembered of a caller.
func (b *book[K, V]) of(key K) *V {
	b.mu.Lock()
	defer b.mu.Unlock()
	if e, ok := b.all[key]; ok {
		b.order.MoveToFront(e)
		return e.Value.(remembered[K, V]).of
	}
	if len(b.all) >= b.most {
		delete(b.all, b.order.Remove(b.order.Back()).(remembered[K, V]).key)
	}
	of := b.fresh()
	b.all[key] = b.order.PushFront(remembered[K, V]{key, of})
	return of
}

func (b *book[K, V]) forget(key K) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if e, ok := b.all[key]; ok {
		b.order.Remove(e)
		delete(b.all, key)
	}
}
