package main

import (
	"context"
	"crypto/tls"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net"
	"os"
	"strconv"
	"strings"
	"sync"
	"time"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"hembook/internal/bench"
	"hembook/internal/bench/capture"
	"hembook/internal/say"
)

// benchPort is tried where none is named, so that the phone finds the page
// where it was the last time.
const benchPort = 6159

// A benching is one run of the bench command.
type benching struct {
	opt       *options
	out, errs io.Writer

	port, lan string // flags
	plain     bool

	mu       sync.Mutex
	page     string // where the page is
	codes    int    // shown so far
	pictures bool   // the terminal shows the code as a picture
	colour   bool
}

// anyAddress is what --lan is where it names no address.
const anyAddress = "home"

func newBench(opt *options) *cobra.Command {
	b := &benching{opt: opt}
	cmd := &cobra.Command{
		Use:   "bench",
		Short: say.Of("hembook.bench-short"),
		Long:  say.Of("hembook.bench-long"),
		Example: `  hembook bench
  hembook bench --lan
  hembook bench --lan=192.168.178.20 --port 7001`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			b.out, b.errs = cmd.OutOrStdout(), cmd.ErrOrStderr()
			return b.run(cmd.Context())
		},
	}
	cmd.Flags().StringVar(&b.lan, "lan", "", say.Of("hembook.for-phones-on-your-home-network-at"))
	cmd.Flags().Lookup("lan").NoOptDefVal = anyAddress
	cmd.Flags().BoolVar(&b.plain, "plain", false, say.Of("hembook.with-lan-do-not-encrypt"))
	cmd.Flags().StringVar(&b.port, "port", "", say.Of("hembook.the-number-of-the-port-0-for"))
	return cmd
}

func (b *benching) run(ctx context.Context) error {
	if b.plain && b.lan == "" {
		return misused(say.Of("hembook.plain-belongs-to-lan-what-stays-on"))
	}
	port, named := benchPort, b.port != ""
	if named {
		n, err := strconv.ParseUint(b.port, 10, 16)
		if err != nil {
			return misused(say.Of("hembook.is-no-port-write-a-number-from", say.Quoted(b.port)))
		}
		port = int(n)
	}
	room, _, err := b.opt.openRoom()
	if err != nil {
		return err
	}
	dir := room.Dir
	room.Close()
	b.look()
	var listeners []net.Listener
	var origins []string
	var encrypt *tls.Config
	if b.lan == "" {
		listeners, origins, err = b.onThisMachine(port, named)
	} else {
		listeners, origins, encrypt, err = b.onTheNetwork(dir, port, named)
	}
	if err != nil {
		return err
	}
	b.page = origins[0] + "/"
	serve := &capture.Bench{
		Room: dir, Origins: origins, TLS: encrypt, Code: b.showCode,
		Told: func(said string) { b.say(time.Now().Format(time.TimeOnly) + " " + said + "\n") },
		Log:  slog.New(slog.NewTextHandler(b.errs, nil)),
	}
	return serve.Serve(ctx, listeners...)
}

// look finds out whether the terminal shows pictures, and in colour.
func (b *benching) look() {
	out, ok := b.out.(*os.File)
	b.pictures = ok && term.IsTerminal(int(out.Fd()))
	b.colour = b.pictures && os.Getenv("NO_COLOR") == ""
}

func (b *benching) onThisMachine(port int, named bool) ([]net.Listener, []string, error) {
	list, err := listen(port, named)
	if err != nil {
		return nil, nil, err
	}
	at := strconv.Itoa(bench.PortOf(list[0]))
	return list, []string{"http://localhost:" + at, "http://127.0.0.1:" + at, "http://[::1]:" + at}, nil
}

// onTheNetwork opens the port on one address of the home network, encrypted
// unless it was asked for otherwise.
func (b *benching) onTheNetwork(room string, port int, named bool) ([]net.Listener, []string, *tls.Config, error) {
	asked := b.lan
	if asked == anyAddress {
		asked = ""
	}
	ip, err := capture.HomeAddress(asked)
	if err != nil {
		return nil, nil, nil, misused(err.Error())
	}
	l, err := net.Listen("tcp", net.JoinHostPort(ip.String(), strconv.Itoa(port)))
	if err != nil && !named {
		l, err = net.Listen("tcp", net.JoinHostPort(ip.String(), "0"))
	}
	if err != nil {
		return nil, nil, nil, errors.New(say.Of("hembook.port-cannot-be-opened-on-port-0", port, ip))
	}
	at := net.JoinHostPort(ip.String(), strconv.Itoa(bench.PortOf(l)))
	if b.plain {
		b.say(say.Of("hembook.not-encrypted-anyone-on-this-network-could"))
		return []net.Listener{l}, []string{"http://" + at}, nil, nil
	}
	cert, fingerprint, err := capture.Certificate(room, []net.IP{ip}, time.Now())
	if err != nil {
		l.Close()
		return nil, nil, nil, errors.Join(errors.New(say.Of("hembook.the-workrooms-certificate-cannot-be-made-plain")), err)
	}
	b.say(say.Of("hembook.the-phone-will-warn-you-once-compare", fingerprint[:48], fingerprint[48:]))
	config := &tls.Config{Certificates: []tls.Certificate{cert}, MinVersion: tls.VersionTLS12, NextProtos: []string{"http/1.1"}}
	return []net.Listener{l}, []string{"https://" + at}, config, nil
}

// showCode prints a new code, the first one with its picture.
func (b *benching) showCode(code string) {
	if b.codes++; b.codes > 1 {
		b.say(say.Of("hembook.the-next-code-for-another-phone", code))
		return
	}
	link := b.page + "#" + strings.ReplaceAll(code, "-", "")
	text := say.Of("hembook.the-bench-code", b.page, code)
	if picture, err := capture.QR(link, b.colour); b.pictures && err == nil {
		text += say.Of("hembook.or-with-the-phones-camera", picture)
	}
	b.say(say.Of("hembook.ctrl-c-ends-it", text))
}

// say prints one thing at a time.
func (b *benching) say(text string) {
	b.mu.Lock()
	defer b.mu.Unlock()
	fmt.Fprint(b.out, text)
}
