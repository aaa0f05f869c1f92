// Package capture is the bench: a page for the phone beside the machine, which
// starts and stops the clocks of steps, takes notes and photographs, ticks
// steps off and takes down what was measured.
//
// It promises that every slip made on a phone enters the records exactly once,
// however often it is sent and whenever program or connection break off: each
// has an id made on the phone, and what is about to be written is remembered
// on the disk before it is. What cannot be entered is answered with a reason
// and stays on the phone. Nobody enters without the code that the terminal
// shows, nobody can keep out who has entered, and whoever has entered can add to records and read the names of
// builds and steps, what was measured and what runs: no file and no path of
// the workroom is reached by a name that comes from outside. Photographs are
// decoded and encoded anew.
//
// It works out no figures, removes nothing from records, and keeps what comes
// over an open network secret only where it is given a certificate.
package capture

import (
	"context"
	"crypto/tls"
	"errors"
	"io"
	"log"
	"log/slog"
	"net"
	"net/http"
	"net/netip"
	"sync"
	"time"
)

// A Bench serves the capture page of one workroom.
type Bench struct {
	Room string // the workroom's folder
	// Origins are the addresses under which it may be asked for, scheme and
	// port included: "https://192.168.178.20:6159". Requests for any other
	// are refused.
	Origins []string
	// Code is told of each new one-time code, the first included.
	Code func(code string)
	// Told, where it is given, hears what was entered, in words.
	Told func(said string)
	TLS  *tls.Config      // nil: nothing is encrypted
	Log  *slog.Logger     // refusals; nil for nowhere
	Now  func() time.Time // nil for the clock on the wall
}

// Serve answers until the context ends, and returns when all that it began has
// ended. It closes the listeners.
func (b *Bench) Serve(ctx context.Context, listeners ...net.Listener) error {
	ctx, stop := context.WithCancelCause(ctx)
	defer stop(nil)
	handler := b.handler()
	places := newSeats(handler.door.seenAt)
	srv := &http.Server{
		Handler:           handler,
		BaseContext:       func(net.Listener) context.Context { return ctx },
		ConnContext:       withConn,
		ReadHeaderTimeout: strangerTime, // and for the greeting of an encrypted connection
		IdleTimeout:       time.Minute,
		MaxHeaderBytes:    16 << 10,
		ErrorLog:          log.New(io.Discard, "", 0),

		DisableGeneralOptionsHandler: true, // nothing is answered but by the bench
	}
	var all sync.WaitGroup
	for _, l := range listeners {
		l = &gate{l, places}
		if b.TLS != nil {
			l = tls.NewListener(l, b.TLS)
		}
		all.Go(func() {
			if err := srv.Serve(l); !errors.Is(err, http.ErrServerClosed) {
				stop(err)
			}
		})
	}
	<-ctx.Done()
	cause := context.Cause(ctx)
	late, done := context.WithTimeout(context.Background(), 3*time.Second)
	defer done()
	if srv.Shutdown(late) != nil {
		srv.Close()
	}
	all.Wait()
	if errors.Is(cause, context.Canceled) || errors.Is(cause, context.DeadlineExceeded) {
		return nil
	}
	return cause
}

func (b *Bench) handler() *server {
	s := &server{
		keeper: newKeeper(b.Room), origins: originsOf(b.Origins), now: b.Now, told: b.Told,
		log: &refusals{to: b.Log, room: newBucket(20, 60)},
	}
	if s.now == nil {
		s.now = time.Now
	}
	if s.told == nil {
		s.told = func(string) {}
	}
	if s.log.to == nil {
		s.log.to = slog.New(slog.DiscardHandler)
	}
	s.keeper.now = s.now
	s.door = newDoor(s.now, b.Code)
	s.guests = newBucket(60, 240)
	s.strangers = newBook[netip.Addr](mostCallers, func() *bucket { return newBucket(20, 60) })
	return s
}
