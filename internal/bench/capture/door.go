package capture

import (
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base64"
	"net/netip"
	"strings"
	"sync"
	"time"
)

const (
	codeLetters  = "23456789ABCDEFGHJKMNPQRSTUVWXYZ" // none that is taken for another
	codeLength   = 8                                 // 31^8, some 2^39
	sessionLasts = 12 * time.Hour                    // a long day at the bench, own choice
	sessionIdle  = 4 * time.Hour
	mostSessions = 8 // phones at one bench
	tokenBytes   = 32
)

// A door lets phones in: by a code that is used once, for a session that ends.
type door struct {
	now  func() time.Time
	told func(code string)

	mu       sync.Mutex
	code     [sha256.Size]byte // of the code that is good now
	guesses  *guesses
	sessions map[sessionSum]*session
}

// A session is one phone that was let in.
type session struct {
	begun, seen time.Time
	from        netip.Addr // where it was last seen
}

// A sessionSum is the hash of a session's token.
type sessionSum [sha256.Size]byte

func sumOfToken(token string) sessionSum { return sha256.Sum256([]byte(token)) }

func newDoor(now func() time.Time, told func(code string)) *door {
	if told == nil {
		told = func(string) {}
	}
	d := &door{now: now, told: told, guesses: newGuesses(), sessions: map[sessionSum]*session{}}
	d.newCode()
	return d
}

// newCode makes another code and tells it; the one before is void.
func (d *door) newCode() {
	code := ""
	var b [1]byte
	for len(code) < codeLength {
		rand.Read(b[:])
		if n := int(b[0]); n < 256/len(codeLetters)*len(codeLetters) {
			code += string(codeLetters[n%len(codeLetters)])
		}
	}
	d.code = sha256.Sum256([]byte(code))
	d.told(code[:4] + "-" + code[4:])
}

// plainCode drops what typing varies.
func plainCode(s string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(codeLetters, r) {
			return r
		}
		return -1
	}, strings.ToUpper(s))
}

// An admission is what the door answers to a code.
type admission uint8

const (
	letIn admission = iota
	wrongCode
	callerWaits // after wrong codes of its own
	doorBusy    // with wrong codes of others
)

// knock tries a code that comes from an address. Where it is good the token of
// a new session is returned and the code is void; wrong ones leave it good, for
// else whoever guesses could have it changed while it is typed. wait is how
// long the address must wait.
func (d *door) knock(from netip.Addr, code string) (token string, how admission, wait time.Duration) {
	d.mu.Lock()
	defer d.mu.Unlock()
	now := d.now()
	if ok, wait, own := d.guesses.may(from, now); !ok {
		if own {
			return "", callerWaits, wait
		}
		return "", doorBusy, wait
	}
	sum := sha256.Sum256([]byte(plainCode(code)))
	if len(code) > 64 || subtle.ConstantTimeCompare(sum[:], d.code[:]) != 1 {
		if wait := d.guesses.missed(from, now); wait > 0 {
			return "", callerWaits, wait
		}
		return "", wrongCode, 0
	}
	d.guesses.hit(from)
	token = d.begin(from, now)
	d.newCode()
	return token, letIn, 0
}

// begin makes a session; where there are too many the one longest unseen ends.
func (d *door) begin(from netip.Addr, now time.Time) string {
	d.tidy(now)
	for len(d.sessions) >= mostSessions {
		var oldest sessionSum
		var seen time.Time
		for sum, s := range d.sessions {
			if seen.IsZero() || s.seen.Before(seen) {
				oldest, seen = sum, s.seen
			}
		}
		delete(d.sessions, oldest)
	}
	var b [tokenBytes]byte
	rand.Read(b[:])
	token := base64.RawURLEncoding.EncodeToString(b[:])
	d.sessions[sumOfToken(token)] = &session{now, now, from}
	return token
}

// knows reports whether a token that comes from an address is that of a session
// that goes on.
func (d *door) knows(from netip.Addr, token string) bool {
	d.mu.Lock()
	defer d.mu.Unlock()
	now := d.now()
	d.tidy(now)
	s, ok := d.sessions[sumOfToken(token)]
	if ok {
		s.seen, s.from = now, from
	}
	return ok
}

// seenAt reports whether a session was last seen at an address.
func (d *door) seenAt(from netip.Addr) bool {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.tidy(d.now())
	for _, s := range d.sessions {
		if s.from == from {
			return true
		}
	}
	return false
}

// end ends a session.
func (d *door) end(token string) {
	d.mu.Lock()
	defer d.mu.Unlock()
	delete(d.sessions, sumOfToken(token))
}

// tidy ends the sessions whose time is over.
func (d *door) tidy(now time.Time) {
	for sum, s := range d.sessions {
		if now.Sub(s.begun) >= sessionLasts || now.Sub(s.seen) >= sessionIdle {
			delete(d.sessions, sum)
		}
	}
}

// A bucket holds so many requests and fills again by so many a second.
type bucket struct {
	mu     sync.Mutex
	rate   float64
	most   float64
	filled float64
	at     time.Time
}

func newBucket(rate, most float64) *bucket { return &bucket{rate: rate, most: most, filled: most} }

// take reports whether there was one to take.
func (b *bucket) take(now time.Time) bool {
	b.mu.Lock()
	defer b.mu.Unlock()
	if past := now.Sub(b.at).Seconds(); !b.at.IsZero() && past > 0 {
		b.filled = min(b.most, b.filled+past*b.rate)
	}
	b.at = now
	if b.filled < 1 {
		return false
	}
	b.filled--
	return true
}
