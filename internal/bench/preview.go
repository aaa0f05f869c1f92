package bench

import (
	"context"
	"errors"
	"io"
	"log"
	"net"
	"net/http"
	"strconv"
	"sync"
	"time"

	"hembook/internal/fault"
	"hembook/internal/say"
)

// A Preview shows a pressed notebook in browsers on this machine, presses it
// again when a file of the workroom is saved, and has open pages reload.
type Preview struct {
	Room    string   // the workroom's folder
	Watched []string // folders in it whose files matter, as "content"
	Pressed string   // the folder that Press writes to
	Gather  time.Duration

	// Press renders the notebook. It is never called twice at once.
	Press func(context.Context) Pressed
	// Told, where it is given, hears of every press after the pages did.
	Told func(Pressed)
	// Rest, where it is given, is called once a press was told of, for what can wait
	// until nobody waits. Its context ends when a file begins to be saved, and the
	// next press waits for it to return.
	Rest func(context.Context)
}

// Pressed says how a press went.
type Pressed struct {
	Changed bool          // pages or files are new, changed or gone
	Faults  []fault.Fault // of the records; where one is an error nothing was pressed
	Err     error         // why nothing was pressed, besides
}

func (p Pressed) good() bool { return p.Err == nil && !fault.HasErrors(p.Faults) }

// Listen opens a port on both loopback addresses, or on the one there is. Port
// 0 is any that is free on both.
func Listen(port int) ([]net.Listener, error) {
	const tries = 20
	for range tries {
		four, err4 := net.Listen("tcp4", net.JoinHostPort("127.0.0.1", strconv.Itoa(port)))
		at := port
		if err4 == nil {
			at = PortOf(four)
		}
		six, err6 := net.Listen("tcp6", net.JoinHostPort("::1", strconv.Itoa(at)))
		switch {
		case err4 == nil && err6 == nil:
			return []net.Listener{four, six}, nil
		case err4 == nil && !taken(err6):
			return []net.Listener{four}, nil
		case err6 == nil && !taken(err4):
			return []net.Listener{six}, nil
		case err4 == nil:
			four.Close()
		case err6 == nil:
			six.Close()
		}
		if port != 0 {
			if taken(err4) || taken(err6) {
				return nil, ErrTaken
			}
			return nil, fault.Wrapping(errors.Join(err4, err6), say.Of("bench.port-cannot-be-opened", port, errors.Join(err4, err6)))
		}
	}
	return nil, errors.New(say.Of("bench.no-port-could-be-opened-on-this"))
}

// ErrTaken says that another program listens at the port.
var ErrTaken error = portTaken{}

type portTaken struct{}

func (portTaken) Error() string { return say.Of("bench.another-program-listens-at-that-port") }

// PortOf is the port a listener listens at.
func PortOf(l net.Listener) int { return l.Addr().(*net.TCPAddr).Port }

// Serve presses and serves until the context ends, and returns when all that
// it began has ended. It closes the listeners.
func (p *Preview) Serve(ctx context.Context, listeners ...net.Listener) error {
	defer func() {
		for _, l := range listeners {
			l.Close()
		}
	}()
	ctx, stop := context.WithCancelCause(ctx)
	defer stop(nil)
	watch, err := newWatcher(p.Room, p.Watched, p.Pressed)
	if err != nil {
		return err
	}
	b := newBoard()
	stirred, saved := make(chan struct{}, 1), make(chan struct{}, 1)
	saved <- struct{}{} // the first press
	srv := &http.Server{
		Handler:           &server{preview: p, board: b, hosts: hosts(listeners)},
		BaseContext:       func(net.Listener) context.Context { return ctx },
		ReadHeaderTimeout: 10 * time.Second,
		IdleTimeout:       time.Minute,
		MaxHeaderBytes:    32 << 10,
		ErrorLog:          log.New(io.Discard, "", 0),
	}
	var all sync.WaitGroup
	all.Go(func() { watch.run(ctx, p.Gather, stirred, saved) })
	all.Go(func() { p.pressing(ctx, b, stirred, saved) })
	for _, l := range listeners {
		all.Go(func() {
			if err := srv.Serve(l); !errors.Is(err, http.ErrServerClosed) {
				stop(err)
			}
		})
	}
	<-ctx.Done()
	cause := context.Cause(ctx)
	shutdown(srv)
	all.Wait()
	if errors.Is(cause, context.Canceled) || errors.Is(cause, context.DeadlineExceeded) {
		return nil
	}
	return cause
}

// shutdown lets pages that are being sent arrive; streams end by their context.
func shutdown(srv *http.Server) {
	ctx, done := context.WithTimeout(context.Background(), 2*time.Second)
	defer done()
	if srv.Shutdown(ctx) != nil {
		srv.Close()
	}
}

// pressing presses whenever something was saved; what is saved during a press
// is pressed after it.
func (p *Preview) pressing(ctx context.Context, b *board, stirred, saved <-chan struct{}) {
	wake := func() {}
	defer func() { wake() }()
	for {
		select {
		case <-ctx.Done():
			return
		case <-stirred:
			wake()
			continue
		case <-saved:
			select {
			case <-stirred: // when this was begun to be saved
			default:
			}
			wake()
		}
		how := p.Press(ctx)
		if ctx.Err() != nil {
			return
		}
		b.post(how)
		if p.Told != nil {
			p.Told(how)
		}
		wake = p.rest(ctx)
	}
}

// rest begins what can wait, and returns what ends it.
func (p *Preview) rest(ctx context.Context) (wake func()) {
	if p.Rest == nil {
		return func() {}
	}
	ctx, stop := context.WithCancel(ctx)
	var all sync.WaitGroup
	all.Go(func() { p.Rest(ctx) })
	return func() {
		stop()
		all.Wait()
	}
}
