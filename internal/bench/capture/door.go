package capture

import (
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base64"
	"strings"
	"sync"
	"time"
)

const (
	codeLetters  = "23456789ABCDEFGHJKMNPQRSTUVWXYZ" // none that is taken for another
	codeLength   = 8                                 // 30^8, some 2^39: five guesses are as good as none
	mostGuesses  = 5                                 // at one code
	firstClosed  = time.Minute                       // after that many wrong guesses; doubled each time
	longClosed   = time.Hour
	sessionLasts = 12 * time.Hour // a long day at the bench, own choice
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
	wrong    int               // guesses at it
	closed   time.Time         // until when nobody is let in
	closing  time.Duration     // how long it is closed the next time
	sessions map[[sha256.Size]byte]*session
}

// A session is one phone that was let in.
type session struct{ begun, seen time.Time }

func newDoor(now func() time.Time, told func(code string)) *door {
	if told == nil {
		told = func(string) {}
	}
	d := &door{now: now, told: told, closing: firstClosed, sessions: map[[sha256.Size]byte]*session{}}
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
	d.code, d.wrong = sha256.Sum256([]byte(code)), 0
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

// An entry is what the door answers to a code.
type entry uint8

const (
	letIn entry = iota
	wrongCode
	doorClosed
)

// knock tries a code. Where it is good the token of a new session is returned
// and the code is void; wait is how long the door stays closed.
func (d *door) knock(code string) (token string, how entry, wait time.Duration) {
	d.mu.Lock()
	defer d.mu.Unlock()
	now := d.now()
	if wait := d.closed.Sub(now); wait > 0 {
		return "", doorClosed, wait
	}
	sum := sha256.Sum256([]byte(plainCode(code)))
	if len(code) > 64 || subtle.ConstantTimeCompare(sum[:], d.code[:]) != 1 {
		if d.wrong++; d.wrong < mostGuesses {
			return "", wrongCode, 0
		}
		d.closed = now.Add(d.closing)
		wait, d.closing = d.closing, min(2*d.closing, longClosed)
		d.newCode()
		return "", doorClosed, wait
	}
	d.closing = firstClosed
	token = d.begin(now)
	d.newCode()
	return token, letIn, 0
}

// begin makes a session; where there are too many the one longest unseen ends.
func (d *door) begin(now time.Time) string {
	d.tidy(now)
	for len(d.sessions) >= mostSessions {
		var oldest [sha256.Size]byte
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
	d.sessions[sha256.Sum256([]byte(token))] = &session{now, now}
	return token
}

// knows reports whether a token is that of a session that goes on.
func (d *door) knows(token string) bool {
	d.mu.Lock()
	defer d.mu.Unlock()
	now := d.now()
	d.tidy(now)
	s, ok := d.sessions[sha256.Sum256([]byte(token))]
	if ok {
		s.seen = now
	}
	return ok
}

// end ends a session.
func (d *door) end(token string) {
	d.mu.Lock()
	defer d.mu.Unlock()
	delete(d.sessions, sha256.Sum256([]byte(token)))
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
