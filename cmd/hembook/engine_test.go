package main

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"
)

// An engine is a browser other than Chromium, driven for tests as the WebDriver
// Recommendation (W3C, 2018) has it.
type engine interface {
	// ask sends a command and reads what is answered.
	ask(command string, with any) (json.RawMessage, error)
}

// A webkit is WebKitGTK, driven over HTTP.
type webkit struct{ session string }

func (w *webkit) ask(command string, with any) (json.RawMessage, error) {
	body, err := json.Marshal(with)
	if err != nil {
		return nil, err
	}
	to := map[string]string{"navigate": "/url", "run": "/execute/async", "size": "/window/rect", "patience": "/timeouts"}[command]
	resp, err := http.Post(w.session+to, "application/json", bytes.NewReader(body))
	if err != nil {
		return nil, err
	}
	defer resp.Body.Close()
	var out struct{ Value json.RawMessage }
	if err := json.NewDecoder(resp.Body).Decode(&out); err != nil {
		return nil, err
	}
	if resp.StatusCode != http.StatusOK {
		return nil, fmt.Errorf("%s: %s", command, out.Value)
	}
	return out.Value, nil
}

// A firefox is Firefox, driven over its own line, in messages of a length and JSON.
type firefox struct {
	line io.ReadWriter
	from *bufio.Reader
	said int
}

func (f *firefox) ask(command string, with any) (json.RawMessage, error) {
	name := map[string]string{"begin": "NewSession", "navigate": "Navigate", "run": "ExecuteAsyncScript", "size": "SetWindowRect", "patience": "SetTimeouts"}[command]
	f.said++
	body, err := json.Marshal([]any{0, f.said, "WebDriver:" + name, with})
	if err != nil {
		return nil, err
	}
	if _, err := fmt.Fprintf(f.line, "%d:%s", len(body), body); err != nil {
		return nil, err
	}
	answer, err := f.read()
	if err != nil {
		return nil, err
	}
	var parts [4]json.RawMessage
	if err := json.Unmarshal(answer, &parts); err != nil {
		return nil, err
	}
	if string(parts[2]) != "null" {
		return nil, fmt.Errorf("%s: %s", command, parts[2])
	}
	var out struct{ Value json.RawMessage }
	json.Unmarshal(parts[3], &out)
	return out.Value, nil
}

// read reads one message.
func (f *firefox) read() ([]byte, error) {
	long, err := f.from.ReadString(':')
	if err != nil {
		return nil, err
	}
	n, err := strconv.Atoi(strings.TrimSuffix(long, ":"))
	if err != nil {
		return nil, err
	}
	body := make([]byte, n)
	_, err = io.ReadFull(f.from, body)
	return body, err
}

// freePort is a port that nobody listens on.
func freePort(t *testing.T) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	_, port, _ := net.SplitHostPort(l.Addr().String())
	return port
}

// program starts a program that is killed when the test ends.
func program(t *testing.T, env []string, name string, args ...string) {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		t.Skip("there is no " + name + " on this machine")
	}
	c := exec.Command(path, args...)
	c.Env = append(os.Environ(), env...)
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { c.Process.Kill(); c.Wait() })
}

// patiently tries until it succeeds, for at most a minute.
func patiently(t *testing.T, try func() error) {
	t.Helper()
	var err error
	for end := time.Now().Add(time.Minute); time.Now().Before(end); time.Sleep(100 * time.Millisecond) {
		if err = try(); err == nil {
			return
		}
	}
	t.Fatal(err)
}

// startWebKit opens a window of WebKitGTK on a screen that nobody sees.
func startWebKit(t *testing.T) engine {
	t.Helper()
	screen := ":" + freePort(t)
	program(t, nil, "Xvfb", screen, "-screen", "0", "1400x1000x24", "-nolisten", "tcp")
	port := freePort(t)
	env := []string{"DISPLAY=" + screen, "GDK_BACKEND=x11", "WEBKIT_DISABLE_COMPOSITING_MODE=1", "LIBGL_ALWAYS_SOFTWARE=1",
		"WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS=1", "HOME=" + t.TempDir(), "XDG_RUNTIME_DIR=" + t.TempDir()}
	program(t, env, "WebKitWebDriver", "--port="+port)
	w := &webkit{}
	patiently(t, func() error {
		resp, err := http.Post("http://127.0.0.1:"+port+"/session", "application/json",
			strings.NewReader(`{"capabilities":{"alwaysMatch":{"webkitgtk:browserOptions":{"args":["--automation"]}}}}`))
		if err != nil {
			return err
		}
		defer resp.Body.Close()
		var out struct {
			Value struct{ SessionID, Message string }
		}
		if err := json.NewDecoder(resp.Body).Decode(&out); err != nil {
			return err
		}
		if out.Value.SessionID == "" {
			return fmt.Errorf("no session: %s", out.Value.Message)
		}
		w.session = "http://127.0.0.1:" + port + "/session/" + out.Value.SessionID
		return nil
	})
	t.Cleanup(func() {
		if end, err := http.NewRequest(http.MethodDelete, w.session, nil); err == nil {
			if resp, err := http.DefaultClient.Do(end); err == nil {
				resp.Body.Close()
			}
		}
	})
	return w
}

// startFirefox opens a window of Firefox that nobody sees.
func startFirefox(t *testing.T) engine {
	t.Helper()
	own, port := t.TempDir(), freePort(t)
	prefs := `user_pref("marionette.port", ` + port + `);` + "\n"
	if err := os.WriteFile(filepath.Join(own, "user.js"), []byte(prefs), 0o600); err != nil {
		t.Fatal(err)
	}
	program(t, []string{"HOME=" + own}, "firefox-esr", "--headless", "--marionette", "--no-remote", "--profile", own)
	f := &firefox{}
	patiently(t, func() error {
		line, err := net.Dial("tcp", "127.0.0.1:"+port)
		if err != nil {
			return err
		}
		f.line, f.from = line, bufio.NewReader(line)
		_, err = f.read() // it greets first
		return err
	})
	if _, err := f.ask("begin", map[string]any{}); err != nil {
		t.Fatal(err)
	}
	return f
}
