package capture

import (
	"bytes"
	"context"
	"crypto/tls"
	"crypto/x509"
	"fmt"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
	"rsc.io/qr"
)

// TestColoursAreTheThemes: every colour of the page and of the door is the
// theme's of that name, in both schemes.
func TestColoursAreTheThemes(t *testing.T) {
	ground, err := os.ReadFile("../../../themes/plainweave/look/1-ground.css")
	if err != nil {
		t.Fatal(err)
	}
	colour := regexp.MustCompile(`--([a-z-]+): (#[0-9a-f]+);`)
	theme := map[string][]string{}
	for _, m := range colour.FindAllStringSubmatch(string(ground), -1) {
		theme[m[1]] = append(theme[m[1]], m[2])
	}
	for _, name := range []string{"bench.css", doorFile} {
		text, err := pageFiles.ReadFile("page/" + name)
		if err != nil {
			t.Fatal(err)
		}
		own := map[string][]string{}
		for _, m := range colour.FindAllStringSubmatch(string(text), -1) {
			own[m[1]] = append(own[m[1]], m[2])
		}
		if len(own) < 8 {
			t.Errorf("%s has only %d colours", name, len(own))
		}
		for c, got := range own {
			if want := theme[c]; fmt.Sprint(got) != fmt.Sprint(want) {
				t.Errorf("%s: %s is %v, the theme has %v", name, c, got, want)
			}
		}
	}
}

// The picture in the terminal is the code's own matrix, margin apart.
func TestQRIsTheCode(t *testing.T) {
	const link = "https://192.168.178.20:6159/#W38XQGUM"
	want, err := qr.Encode(link, qr.L)
	if err != nil {
		t.Fatal(err)
	}
	plain, err := QR(link, false)
	if err != nil || strings.Contains(plain, "\x1b") {
		t.Fatalf("escapes without colour, or %v", err)
	}
	for i, line := range strings.Split(strings.TrimSuffix(plain, "\n"), "\n") {
		signs := []rune(line)
		if len(signs) != want.Size+2*quiet {
			t.Fatalf("line %d has %d signs", i, len(signs))
		}
		for j, sign := range signs {
			x, y := j-quiet, 2*i-quiet
			if light := sign == '█' || sign == '▀'; light == want.Black(x, y) {
				t.Fatalf("module %d, %d is wrong", x, y)
			}
			if light := sign == '█' || sign == '▄'; y+1 < want.Size+quiet && light == want.Black(x, y+1) {
				t.Fatalf("module %d, %d is wrong", x, y+1)
			}
		}
	}
	if coloured, _ := QR(link, true); !strings.Contains(coloured, "\x1b[97;40m") {
		t.Error("no colour")
	}
}

// A certificate is kept until it is nearly over or another address is wanted,
// and a client that knows it gets through.
func TestCertificate(t *testing.T) {
	dir := t.TempDir()
	at, other := []net.IP{net.IPv4(127, 0, 0, 1)}, []net.IP{net.IPv4(192, 168, 1, 4)}
	now := time.Now()
	cert, first, err := Certificate(dir, at, now)
	if err != nil || len(first) != 95 {
		t.Fatalf("%q, %v", first, err)
	}
	made := func(at []net.IP, now time.Time) string {
		_, fingerprint, err := Certificate(dir, at, now)
		if err != nil {
			t.Fatal(err)
		}
		return fingerprint
	}
	if made(at, now.Add(24*time.Hour)) != first {
		t.Error("another the next day")
	}
	second := made(other, now)
	if second == first {
		t.Error("the same for another address")
	}
	if made(other, now.Add(certificateLasts-24*time.Hour)) == second {
		t.Error("the same though it is nearly over")
	}
	if info, err := os.Stat(filepath.Join(dir, certificateFile)); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("the key may be read by others: %v, %v", info, err)
	}
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	base := "https://" + l.Addr().String()
	codes := make(chan string, 4)
	b := &Bench{Room: newRoom(t), Origins: []string{base}, Code: func(code string) { codes <- code }}
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- b.Serve(ctx, tls.NewListener(l, &tls.Config{Certificates: []tls.Certificate{cert}})) }()
	defer func() { stop(); <-done }()
	leaf, err := x509.ParseCertificate(cert.Certificate[0])
	if err != nil {
		t.Fatal(err)
	}
	pool := x509.NewCertPool()
	pool.AddCert(leaf)
	client := &http.Client{Transport: &http.Transport{TLSClientConfig: &tls.Config{RootCAs: pool}}}
	defer client.CloseIdleConnections()
	g := &guest{t: t, hall: &hall{base: base}, client: client}
	res, body := g.ask("POST", "/pair", g.json(`{"code": "`+<-codes+`"}`))
	if res.StatusCode != http.StatusOK || len(res.Cookies()) != 1 || !res.Cookies()[0].Secure {
		t.Errorf("not let in, or by a cookie that may go unencrypted: %d %s", res.StatusCode, body)
	}
	if leaf.IsCA || leaf.KeyUsage&x509.KeyUsageCertSign != 0 {
		t.Error("it can vouch for others")
	}
}

func TestHomeAddress(t *testing.T) {
	for asked, want := range map[string]string{
		"8.8.8.8": "no address of a home network", "127.0.0.1": "no address of a home network", "0.0.0.0": "no address of a home network",
		"kitchen": "is no address of a network", "10.255.254.253": "this computer has no address",
	} {
		if ip, err := HomeAddress(asked); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, %v", asked, ip, err)
		}
	}
}

// FuzzReadSlip: whatever is sent, it is a slip within its bounds or refused.
func FuzzReadSlip(f *testing.F) {
	f.Add([]byte(`{"id":"` + numbered(1) + `","kind":"note","build":"coat","at":1,"note":"x"}`))
	f.Add([]byte(`{"id":"` + numbered(1) + `","kind":"hang","of":["a.b"],"drops":["0","-1"],"at":1}`))
	f.Add([]byte(`[{}]`))
	f.Fuzz(func(t *testing.T, text []byte) {
		s, err := readSlip(text)
		if err != nil {
			return
		}
		if !slipID.MatchString(s.ID) || len([]rune(s.Note)) > mostNote || len(s.Drops) > mostDrops || s.sum() == "" {
			t.Errorf("%+v", s)
		}
	})
}

// A code is read however it is typed, and only by its own signs.
func TestPlainCode(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		code := rapid.StringOfN(rapid.SampledFrom([]rune(codeLetters)), codeLength, codeLength, -1).Draw(t, "code")
		typed := rapid.SampledFrom([]string{code, code[:4] + "-" + code[4:], " " + strings.ToLower(code), code[:2] + " " + code[2:] + "\n"}).Draw(t, "typed")
		if got := plainCode(typed); got != code {
			t.Fatalf("%q is read as %q", typed, got)
		}
	})
}

// The worker knows the files of the page, and no other.
func TestWorkerKeepsThePageAlone(t *testing.T) {
	worker := shell["/"+workerFile].data
	if bytes.Contains(worker, []byte("VERSION")) || bytes.Contains(worker, []byte("SHELL")) {
		t.Error("it was not filled in")
	}
	for address := range shell {
		if in := bytes.Contains(worker, []byte(`"`+address+`"`)); in == (address == "/"+workerFile) {
			t.Errorf("%s: kept %v", address, in)
		}
	}
	for address := range routes {
		if bytes.Contains(worker, []byte(`"`+address+`"`)) {
			t.Errorf("it keeps %s", address)
		}
	}
}
