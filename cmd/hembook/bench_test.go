package main

import (
	"bufio"
	"io"
	"net"
	"net/http"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

// benchRoom is a workroom with one skirt.
func benchRoom(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	for _, f := range readArchive(t, filepath.Join(brokenDir, "base.txtar")).Files {
		write(t, dir, f.Name, string(f.Data))
	}
	return dir
}

// A benchProcess is the bench command as a process of its own.
type benchProcess struct {
	cmd    *exec.Cmd
	host   string // and its port
	code   string
	cookie string
}

var benchSays = regexp.MustCompile(`the bench: http://(\S+)/\ncode: (\S+)\n`)

// startBench runs `hembook bench` on any free port and reads what it says.
func startBench(t *testing.T, dir string) *benchProcess {
	t.Helper()
	program, err := exec.LookPath("hembook") // the test binary, under the name it has in scripts
	if err != nil {
		t.Skip("the program is not on the path")
	}
	b := &benchProcess{cmd: exec.Command(program, "bench", "--room", dir, "--port", "0")}
	out, err := b.cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := b.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { b.cmd.Process.Kill(); b.cmd.Wait() })
	said := readUntil(t, out, "Ctrl-C ends it")
	found := benchSays.FindStringSubmatch(said)
	if found == nil {
		t.Fatalf("says %q", said)
	}
	b.host, b.code = strings.Replace(found[1], "localhost", "127.0.0.1", 1), found[2]
	go io.Copy(io.Discard, out)
	return b
}

// readUntil reads lines to one that begins with the words.
func readUntil(t *testing.T, from io.Reader, words string) string {
	t.Helper()
	said := ""
	for one := make([]byte, 1); !strings.HasSuffix(said, words); {
		if _, err := from.Read(one); err != nil {
			t.Fatalf("%v after %q", err, said)
		}
		said += string(one)
	}
	return said
}

// pair lets the test in as a phone.
func (b *benchProcess) pair(t *testing.T) {
	t.Helper()
	r, err := http.NewRequest("POST", "http://"+b.host+"/pair", strings.NewReader(`{"code": "`+b.code+`"}`))
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Origin", "http://"+b.host)
	r.Header.Set("Content-Type", "application/json")
	res, err := http.DefaultClient.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	res.Body.Close()
	if res.StatusCode != http.StatusOK || len(res.Cookies()) != 1 {
		t.Fatalf("not let in: %s", res.Status)
	}
	b.cookie = res.Cookies()[0].Name + "=" + res.Cookies()[0].Value
}

// A caller is a connection written to by hand.
type caller struct {
	net.Conn
	in *bufio.Reader
}

// dial connects from an address of this machine.
func (b *benchProcess) dial(t *testing.T, from string) *caller {
	t.Helper()
	d := net.Dialer{LocalAddr: &net.TCPAddr{IP: net.ParseIP(from)}, Timeout: 2 * time.Minute}
	c, err := d.Dial("tcp", b.host)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { c.Close() })
	c.SetDeadline(time.Now().Add(3 * time.Minute))
	return &caller{c, bufio.NewReader(c)}
}

func (c *caller) write(t *testing.T, text string) {
	t.Helper()
	if _, err := io.WriteString(c, text); err != nil {
		t.Fatal(err)
	}
}

func (c *caller) line(t *testing.T) string {
	t.Helper()
	line, err := c.in.ReadString('\n')
	if err != nil {
		t.Fatal(err)
	}
	return line
}

// awaitClosed waits until the bench takes no connections any more.
func (b *benchProcess) awaitClosed(t *testing.T) {
	t.Helper()
	for range 30_000 { // a minute at least
		c, err := net.Dial("tcp", b.host)
		if err != nil {
			return
		}
		c.Close()
		time.Sleep(2 * time.Millisecond)
	}
	t.Fatal("it goes on")
}
