package capture

import (
	"encoding/json"
	"errors"
	"io"
	"log/slog"
	"mime"
	"net/http"
	"net/netip"
	"net/url"
	"strconv"
	"strings"
	"sync"
	"time"

	"hembook/internal/bench"
	"hembook/internal/say"
)

// A server answers phones.
type server struct {
	keeper  *keeper
	door    *door
	origins map[string]string // the origin of each host that may be asked for
	now     func() time.Time
	told    func(string)
	log     *refusals

	strangers *book[netip.Addr, bucket] // how many requests without a session are answered
	guests    *bucket                   // and with one
	dark      sync.Mutex                // one photograph is decoded at a time
}

const (
	cookieName  = "hembook_bench"
	mostPairing = 256 // bytes
	slowest     = 3 * time.Minute
)

// originsOf are the allowed origins by the host that a browser names.
func originsOf(all []string) map[string]string {
	out := map[string]string{}
	for _, o := range all {
		u, err := url.Parse(o)
		if err != nil {
			continue
		}
		out[strings.ToLower(u.Host)] = u.Scheme + "://" + strings.ToLower(u.Host)
	}
	return out
}

// A route is one thing that may be asked for. There are no others: an address
// is compared whole, and none leads to a file by its name.
type route struct {
	method string
	answer func(s *server, w http.ResponseWriter, r *http.Request)
	open   bool // answered without a session
}

var routes = map[string]route{
	"/state": {http.MethodGet, (*server).state, false},
	"/slips": {http.MethodPost, (*server).slip, false},
	"/leave": {http.MethodPost, (*server).leave, false},
	"/pair":  {http.MethodPost, (*server).pair, true},
}

func (s *server) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	h := w.Header()
	bench.Guard(h)
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Content-Security-Policy", "default-src 'none'; frame-ancestors 'none'")
	status, why := s.guard(r)
	token, in := "", false
	if status == 0 {
		token, in = s.session(r)
	}
	bucket := s.guests
	if in {
		s.seat(w, r, token)
	} else {
		s.hurry(w, r)
		bucket = s.strangers.of(addressOf(r.RemoteAddr))
	}
	if status != 0 {
		s.refuse(w, r, status, why)
		return
	}
	if !bucket.take(s.now()) {
		h.Set("Retry-After", "2")
		s.refuse(w, r, http.StatusTooManyRequests, say.Of("capture.too-many-requests"))
		return
	}
	if to, ok := routes[r.URL.Path]; ok {
		switch {
		case r.Method != to.method:
			h.Set("Allow", to.method)
			s.refuse(w, r, http.StatusMethodNotAllowed, say.Of("capture.not-asked-for-this-way"))
		case !in && !to.open:
			s.stranger(w, r)
		default:
			to.answer(s, w, r.WithContext(withToken(r.Context(), token)))
		}
		return
	}
	s.page(w, r, in)
}

// seat gives a request's connection a place of its session's.
func (s *server) seat(w http.ResponseWriter, r *http.Request, token string) {
	connOf(r.Context()).seat(sumOfToken(token))
	out := http.NewResponseController(w)
	out.SetReadDeadline(time.Now().Add(slowest))
	out.SetWriteDeadline(time.Now().Add(slowest))
}

// hurry has a request without a session end soon, and its connection with it.
// Of its body only a code is read.
func (s *server) hurry(w http.ResponseWriter, r *http.Request) {
	connOf(r.Context()).hear()
	w.Header().Set("Connection", "close")
	out, now := http.NewResponseController(w), time.Now()
	out.SetWriteDeadline(now.Add(2 * strangerTime)) // once the code has come, or not
	switch {
	case r.Method == http.MethodPost && r.URL.Path == "/pair":
		out.SetReadDeadline(now.Add(strangerTime))
	case r.ContentLength != 0:
		out.SetReadDeadline(now) // else the server would wait for it before it hangs up
	}
}

// guard refuses what no page of the bench asks: another name for this machine,
// another site's page, an address that is none.
func (s *server) guard(r *http.Request) (status int, why string) {
	origin, known := s.origins[strings.ToLower(r.Host)]
	switch {
	case !known:
		return http.StatusForbidden, say.Of("capture.wrong-address")
	case !onlyOne(r.Header, "Origin"), !onlyOne(r.Header, "Cookie"), !onlyOne(r.Header, "Content-Type"):
		return http.StatusBadRequest, say.Of("capture.a-header-is-given-twice")
	case r.Header.Get("Sec-Fetch-Site") != "" && r.Header.Get("Sec-Fetch-Site") != "same-origin" && r.Header.Get("Sec-Fetch-Site") != "none":
		return http.StatusForbidden, say.Of("capture.another-sites-page-asks")
	case r.Header.Get("Origin") != "" && r.Header.Get("Origin") != origin:
		return http.StatusForbidden, say.Of("capture.another-sites-page-asks")
	case r.Method != http.MethodGet && r.Method != http.MethodHead && r.Header.Get("Origin") == "":
		return http.StatusForbidden, say.Of("capture.it-does-not-say-which-page-asks")
	case r.URL.RawQuery != "" && r.URL.Path != "/state":
		return http.StatusBadRequest, say.Of("capture.wrong-address")
	case r.Header.Get("Content-Encoding") != "":
		return http.StatusUnsupportedMediaType, say.Of("capture.compressed-bodies-are-not-read")
	}
	return 0, ""
}

func onlyOne(h http.Header, name string) bool { return len(h.Values(name)) <= 1 }

// session is the token a request brings, and whether it is good. A request
// that brings two is refused both.
func (s *server) session(r *http.Request) (token string, in bool) {
	all := r.CookiesNamed(cookieName)
	if len(all) != 1 || len(all[0].Value) != 43 {
		return "", false
	}
	return all[0].Value, s.door.knows(addressOf(r.RemoteAddr), all[0].Value)
}

// stranger answers a request that only a session may ask.
func (s *server) stranger(w http.ResponseWriter, r *http.Request) {
	s.log.write(s.now(), r, http.StatusForbidden, say.Of("capture.no-session"))
	answerJSON(w, http.StatusForbidden, slipAnswer{State: "door", Said: say.Of("capture.type-the-code-shown-on-the-computer")})
}

// refuse answers and logs a request that no page of the bench makes.
func (s *server) refuse(w http.ResponseWriter, r *http.Request, status int, why string) {
	s.log.write(s.now(), r, status, why)
	w.Header().Set("Connection", "close") // what else is on its way is not read
	state := refused
	if status == http.StatusTooManyRequests {
		state = later
	}
	answerJSON(w, status, slipAnswer{State: state, Said: why})
}

func answerJSON(w http.ResponseWriter, status int, v any) {
	text, err := json.Marshal(v)
	if err != nil {
		panic(err) // plain words alone
	}
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	w.Write(text)
}

// pair exchanges the code for a session.
func (s *server) pair(w http.ResponseWriter, r *http.Request) {
	if kind, _, _ := mime.ParseMediaType(r.Header.Get("Content-Type")); kind != "application/json" {
		s.refuse(w, r, http.StatusUnsupportedMediaType, say.Of("capture.a-code-comes-as-json"))
		return
	}
	var asked struct {
		Code string `json:"code"`
	}
	text, err := io.ReadAll(http.MaxBytesReader(w, r.Body, mostPairing))
	if err != nil || json.Unmarshal(text, &asked) != nil {
		s.refuse(w, r, http.StatusBadRequest, say.Of("capture.that-is-no-code"))
		return
	}
	token, how, wait := s.door.knock(addressOf(r.RemoteAddr), asked.Code)
	switch how {
	case wrongCode:
		s.refuse(w, r, http.StatusForbidden, say.Of("capture.wrong-code"))
	case callerWaits:
		w.Header().Set("Retry-After", strconv.Itoa(int(wait/time.Second)+1))
		s.refuse(w, r, http.StatusTooManyRequests, say.Of("capture.too-many-tries-wait-and-use-the", bench.DurationWords(wait)))
	case doorBusy:
		w.Header().Set("Retry-After", strconv.Itoa(int(wait/time.Second)+1))
		s.refuse(w, r, http.StatusTooManyRequests, say.Of("capture.too-many-tries-from-other-phones-wait"))
	case letIn:
		if old, in := s.session(r); in {
			s.door.end(old)
		}
		http.SetCookie(w, s.cookie(r, token, int(sessionLasts/time.Second)))
		s.told(say.Of("capture.a-phone-is-connected"))
		answerJSON(w, http.StatusOK, slipAnswer{State: kept})
	}
}

func (s *server) cookie(r *http.Request, token string, age int) *http.Cookie {
	return &http.Cookie{Name: cookieName, Value: token, Path: "/", MaxAge: age, HttpOnly: true,
		SameSite: http.SameSiteStrictMode, Secure: strings.HasPrefix(s.origins[strings.ToLower(r.Host)], "https:")}
}

// leave ends the session.
func (s *server) leave(w http.ResponseWriter, r *http.Request) {
	s.door.end(tokenOf(r.Context()))
	http.SetCookie(w, s.cookie(r, "", -1))
	answerJSON(w, http.StatusOK, slipAnswer{State: kept})
}

// state shows what there is to do.
func (s *server) state(w http.ResponseWriter, r *http.Request) {
	v, err := look(s.keeper.room, r.URL.Query().Get("build"), s.now())
	if err != nil {
		answerJSON(w, http.StatusServiceUnavailable, slipAnswer{State: later, Said: say.Of("capture.the-workroom-cannot-be-read-just-now")})
		return
	}
	answerJSON(w, http.StatusOK, v)
}

// slip enters what was taken down.
func (s *server) slip(w http.ResponseWriter, r *http.Request) {
	slip, phone, photo, err := s.readSlip(w, r)
	if err != nil {
		status := http.StatusUnprocessableEntity
		var b *badBody
		if errors.As(err, &b) {
			status = b.status
		}
		s.refuse(w, r, status, err.Error())
		return
	}
	a := s.keeper.keep(slip, phone, photo)
	switch a.State {
	case kept:
		s.told(a.Said)
		answerJSON(w, http.StatusOK, a)
	case refused:
		s.log.write(s.now(), r, http.StatusUnprocessableEntity, a.Said)
		answerJSON(w, http.StatusUnprocessableEntity, a)
	default:
		s.log.write(s.now(), r, http.StatusServiceUnavailable, a.Said)
		answerJSON(w, http.StatusServiceUnavailable, a)
	}
}

// refusals logs what was refused; of a flood it counts what it leaves out.
type refusals struct {
	to   *slog.Logger
	room *bucket

	mu   sync.Mutex
	left int
}

func (l *refusals) write(now time.Time, r *http.Request, status int, why string) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if !l.room.take(now) {
		l.left++
		return
	}
	l.to.Warn("refused", "from", r.RemoteAddr, "method", cut(r.Method), "host", cut(r.Host), "address", cut(r.URL.EscapedPath()),
		"status", status, "why", cut(why), "unlogged", l.left)
	l.left = 0
}

// cut keeps what a stranger wrote short.
func cut(s string) string {
	const most = 120
	if len(s) > most {
		return strings.ToValidUTF8(s[:most], "") + "…"
	}
	return s
}
