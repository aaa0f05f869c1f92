//go:build linux

package main

import (
	"bufio"
	"bytes"
	"context"
	"crypto/sha256"
	"crypto/tls"
	"encoding/hex"
	"fmt"
	"io"
	"mime/multipart"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"golang.org/x/sys/unix"
)

// A lan is a network of two places that nothing else is in: the bench's and
// the phones'.
type lan struct{ bench, phones string }

// The addresses in it: RFC 1918 and RFC 4193.
const (
	benchFour, benchSix = "192.168.177.1", "fd17:7::1"
)

var lanPhones = []string{"192.168.177.2", "192.168.177.3", "192.168.177.4", "fd17:7::2", "fd17:7::3", "fd17:7::4"}

// newLan makes it; the test is skipped where that may not be done.
func newLan(t *testing.T) *lan {
	t.Helper()
	if _, err := exec.LookPath("ip"); err != nil {
		t.Skip("the program ip, of iproute2, is not installed")
	}
	name := fmt.Sprintf("hembook%d", os.Getpid())
	l := &lan{name + "b", name + "p"}
	for _, ns := range []string{l.bench, l.phones} {
		if out, err := exec.Command("ip", "netns", "add", ns).CombinedOutput(); err != nil {
			t.Skipf("no network can be made here: %s", out)
		}
		t.Cleanup(func() { exec.Command("ip", "netns", "del", ns).Run() })
	}
	ip := func(words string) {
		if out, err := exec.Command("ip", strings.Fields(words)...).CombinedOutput(); err != nil {
			t.Skipf("no network can be made here: ip %s: %s", words, out)
		}
	}
	ip("link add hb0 netns " + l.bench + " type veth peer name hb0 netns " + l.phones)
	add := func(ns, address string) {
		if strings.Contains(address, ":") {
			ip("-n " + ns + " addr add " + address + "/64 dev hb0 nodad")
		} else {
			ip("-n " + ns + " addr add " + address + "/24 dev hb0")
		}
	}
	add(l.bench, benchFour)
	add(l.bench, benchSix)
	for _, a := range lanPhones {
		add(l.phones, a)
	}
	for _, ns := range []string{l.bench, l.phones} {
		ip("-n " + ns + " link set lo up")
		ip("-n " + ns + " link set hb0 up")
	}
	return l
}

// dial connects from one of the phones' addresses.
func (l *lan) dial(from, to string) (net.Conn, error) {
	runtime.LockOSThread() // a socket belongs to the network of the thread that makes it
	here, err := os.Open(fmt.Sprintf("/proc/self/task/%d/ns/net", unix.Gettid()))
	if err != nil {
		return nil, err
	}
	defer here.Close()
	there, err := os.Open("/var/run/netns/" + l.phones)
	if err != nil {
		return nil, err
	}
	defer there.Close()
	if err := unix.Setns(int(there.Fd()), unix.CLONE_NEWNET); err != nil {
		return nil, err
	}
	d := net.Dialer{LocalAddr: &net.TCPAddr{IP: net.ParseIP(from)}, Timeout: 2 * time.Minute}
	c, err := d.Dial("tcp", to)
	if back := unix.Setns(int(here.Fd()), unix.CLONE_NEWNET); back != nil {
		return nil, back // the thread stays locked, and ends with what runs on it
	}
	runtime.UnlockOSThread()
	return c, err
}

// A lanBench is `hembook bench --lan` in the bench's place of a lan.
type lanBench struct {
	*lan
	dir, host   string
	fingerprint string

	mu   sync.Mutex
	said string
}

func (b *lanBench) saying() string {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.said
}

// await waits until the terminal says it, and returns what matched.
func (b *lanBench) await(t *testing.T, words string) []string {
	t.Helper()
	find := regexp.MustCompile(words)
	for range 3000 {
		if found := find.FindStringSubmatch(b.saying()); found != nil {
			return found
		}
		time.Sleep(10 * time.Millisecond)
	}
	t.Fatalf("%s is not said in\n%s", words, b.saying())
	return nil
}

// code is the code shown last.
func (b *lanBench) code() string {
	all := regexp.MustCompile(`\b[2-9A-Z]{4}-[2-9A-Z]{4}\b`).FindAllString(b.saying(), -1)
	return all[len(all)-1]
}

func startLanBench(t *testing.T, l *lan, lanFlag string) *lanBench {
	t.Helper()
	program, err := exec.LookPath("hembook") // the test binary, under the name it has in scripts
	if err != nil {
		t.Skip("the program is not on the path")
	}
	b := &lanBench{lan: l, dir: benchRoom(t)}
	cmd := exec.Command("ip", "netns", "exec", l.bench, program, "bench", lanFlag, "--port", "0", "--room", b.dir)
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	cmd.Stderr = io.Discard
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { cmd.Process.Signal(os.Interrupt); cmd.Wait() })
	go func() {
		for lines := bufio.NewScanner(out); lines.Scan(); {
			b.mu.Lock()
			b.said += lines.Text() + "\n"
			b.mu.Unlock()
		}
	}()
	b.await(t, "Ctrl-C ends it")
	b.host = b.await(t, `the bench: https://(\S+)/`)[1]
	print := b.await(t, `then go on:\s+([0-9A-F:]+)\s+([0-9A-F:]+)`)
	b.fingerprint = strings.ReplaceAll(print[1]+print[2], ":", "")
	return b
}

// A lanPhone is a browser at one of the phones' addresses. It goes on past the
// warning only where the fingerprint is that of the terminal.
type lanPhone struct {
	t      *testing.T
	bench  *lanBench
	client *http.Client
	cookie string
}

func (b *lanBench) phone(t *testing.T, from string) *lanPhone {
	trust := &tls.Config{InsecureSkipVerify: true, VerifyConnection: func(s tls.ConnectionState) error {
		sum := sha256.Sum256(s.PeerCertificates[0].Raw)
		if got := strings.ToUpper(hex.EncodeToString(sum[:])); got != b.fingerprint {
			return fmt.Errorf("fingerprint %s, the terminal shows %s", got, b.fingerprint)
		}
		name, _, _ := net.SplitHostPort(b.host)
		return s.PeerCertificates[0].VerifyHostname(name)
	}}
	way := &http.Transport{TLSClientConfig: trust, DialContext: func(context.Context, string, string) (net.Conn, error) { return b.dial(from, b.host) }}
	t.Cleanup(way.CloseIdleConnections)
	return &lanPhone{t: t, bench: b, client: &http.Client{Transport: way, Timeout: 3 * time.Minute}}
}

// ask sends a request and returns its status and answer; status 0 where there is none.
func (p *lanPhone) ask(method, address, kind string, body []byte) (int, string, *http.Response) {
	p.t.Helper()
	r, err := http.NewRequest(method, "https://"+p.bench.host+address, bytes.NewReader(body))
	if err != nil {
		p.t.Fatal(err)
	}
	r.Header.Set("Origin", "https://"+p.bench.host)
	if kind != "" {
		r.Header.Set("Content-Type", kind)
	}
	if p.cookie != "" {
		r.Header.Set("Cookie", p.cookie)
	}
	res, err := p.client.Do(r)
	if err != nil {
		return 0, err.Error(), nil
	}
	defer res.Body.Close()
	text, _ := io.ReadAll(res.Body)
	return res.StatusCode, string(text), res
}

// pair tries a code.
func (p *lanPhone) pair(code string) (int, string) {
	p.t.Helper()
	status, said, res := p.ask("POST", "/pair", "application/json", []byte(`{"code": "`+code+`"}`))
	if status == http.StatusOK {
		c := res.Cookies()[0]
		if !c.Secure {
			p.t.Error("the session may go over a connection that is not encrypted")
		}
		p.cookie = c.Name + "=" + c.Value
	}
	return status, said
}

// TestBenchOnANetwork: `hembook bench --lan` on one machine, phones and a
// stranger on another, and between them a network of their own.
func TestBenchOnANetwork(t *testing.T) {
	l := newLan(t)
	for name, c := range map[string]struct {
		flag, at string
		phones   []string
	}{
		"IPv4": {"--lan", benchFour, lanPhones[:3]},
		"IPv6": {"--lan=" + benchSix, benchSix, lanPhones[3:]},
	} {
		t.Run(name, func(t *testing.T) {
			b := startLanBench(t, l, c.flag)
			if host, _, _ := net.SplitHostPort(b.host); host != c.at {
				t.Fatalf("the bench is at %s, want %s", host, c.at)
			}
			phone, stranger, second := b.phone(t, c.phones[0]), b.phone(t, c.phones[1]), b.phone(t, c.phones[2])
			if status, said := phone.pair(b.code()); status != http.StatusOK {
				t.Fatalf("not let in: %d %s", status, said)
			}
			b.await(t, "a phone is connected")
			b.takesANote(t, phone)
			b.keepsPlaces(t, phone, c.phones[1])
			for range 6 {
				stranger.pair("AAAA-AAAA")
			}
			if status, said := stranger.pair(b.code()); status != http.StatusTooManyRequests {
				t.Errorf("after wrong codes: %d %s", status, said)
			}
			if status, said := second.pair(b.code()); status != http.StatusOK {
				t.Errorf("a second phone, after a stranger's wrong codes: %d %s", status, said)
			}
			b.speaksOnlyTLS(t, c.phones[2])
			t.Logf("the terminal said:\n%s", b.saying())
		})
	}
}

// takesANote sends a note and finds it in the record.
func (b *lanBench) takesANote(t *testing.T, phone *lanPhone) {
	t.Helper()
	var body bytes.Buffer
	form, now := multipart.NewWriter(&body), time.Now().UnixMilli()
	form.WriteField("now", fmt.Sprint(now))
	form.WriteField("slip", fmt.Sprintf(`{"id": "%032x", "kind": "note", "build": "skirt", "note": "heard over the network", "at": %d}`, 7, now))
	form.Close()
	status, said, _ := phone.ask("POST", "/slips", form.FormDataContentType(), body.Bytes())
	text, err := os.ReadFile(filepath.Join(b.dir, filepath.FromSlash(skirtRecord)))
	if n := strings.Count(string(text), "heard over the network"); status != http.StatusOK || err != nil || n != 1 {
		t.Errorf("a note: %d %s; it is %d times in the record, %v", status, said, n, err)
	}
	t.Logf("a note from %s is in the record: %s", phone.bench.host, said)
}

// keepsPlaces has a stranger hold 64 requests whose bodies do not come, while
// the phone makes 45 requests.
func (b *lanBench) keepsPlaces(t *testing.T, phone *lanPhone, stranger string) {
	t.Helper()
	for range 64 {
		raw, err := b.dial(stranger, b.host)
		if err != nil {
			t.Fatal(err)
		}
		defer raw.Close()
		raw.SetDeadline(time.Now().Add(20 * time.Second))
		c := tls.Client(raw, &tls.Config{InsecureSkipVerify: true})
		fmt.Fprintf(c, "POST /slips HTTP/1.1\r\nHost: %s\r\nOrigin: https://%s\r\nContent-Type: text/plain\r\nContent-Length: 100\r\n\r\n", b.host, b.host)
	}
	failed := 0
	for i := range 45 {
		if i%2 == 0 {
			phone.client.CloseIdleConnections()
		}
		if status, said, _ := phone.ask("GET", "/state?build=skirt", "", nil); status != http.StatusOK {
			failed++
			t.Logf("request %d: %d %s", i, status, said)
		}
	}
	if failed > 0 {
		t.Errorf("%d of 45 requests failed", failed)
	}
	t.Logf("%d of 45 requests of the phone failed while a stranger held 64", failed)
}

// speaksOnlyTLS: what is not encrypted is not answered with anything of the
// bench's, nor is TLS older than 1.2.
func (b *lanBench) speaksOnlyTLS(t *testing.T, from string) {
	t.Helper()
	plain, err := b.dial(from, b.host)
	if err != nil {
		t.Fatal(err)
	}
	defer plain.Close()
	plain.SetDeadline(time.Now().Add(20 * time.Second))
	fmt.Fprintf(plain, "GET / HTTP/1.1\r\nHost: %s\r\n\r\n", b.host)
	if said, _ := io.ReadAll(plain); strings.Contains(string(said), "200 OK") || strings.Contains(string(said), "The bench") {
		t.Errorf("answers what is not encrypted: %s", said)
	}
	raw, err := b.dial(from, b.host)
	if err != nil {
		t.Fatal(err)
	}
	defer raw.Close()
	raw.SetDeadline(time.Now().Add(20 * time.Second))
	if tls.Client(raw, &tls.Config{InsecureSkipVerify: true, MinVersion: tls.VersionTLS10, MaxVersion: tls.VersionTLS11}).Handshake() == nil {
		t.Error("speaks TLS older than 1.2")
	}
}
