package capture

import (
	"errors"
	"os"
	"path"
	"path/filepath"
	"sync"
	"time"

	"hembook/internal/bench"
	"hembook/internal/fault"
	"hembook/internal/record"
	"hembook/internal/record/amend"
	"hembook/internal/say"
)

// A keeper enters slips into the records of a workroom.
type keeper struct {
	room string
	now  func() time.Time

	mu     sync.Mutex               // one slip at a time; other programs wait by the ledger's lock
	passed func(point string) error // told of each step; for tests
}

// newKeeper is the keeper of the workroom in that folder.
func newKeeper(room string) *keeper { return &keeper{room: room, now: time.Now} }

// keep enters a slip, unless it is entered already. phone is what the phone's
// clock said when it was sent, in milliseconds since 1970; photo is the
// photograph that came with it, or nil.
func (k *keeper) keep(s phoneSlip, phone int64, photo *bench.Photo) slipAnswer {
	k.mu.Lock()
	defer k.mu.Unlock()
	said := ""
	err := withLedger(k.room, func(l *receipts) error {
		r, err := l.read(s.ID)
		switch {
		case err != nil:
			return err
		case r.Begun && r.Sum != s.sum():
			return refuse(say.Of("capture.another-entry-has-this-number-already"))
		case r.Kept:
			said = r.Said
			return nil
		}
		if !r.Begun {
			if r.At, err = s.moment(phone, k.now()); err != nil {
				return err
			}
			r.Sum = s.sum()
		}
		e := &entering{keeper: k, slip: s, receipt: r, again: r.Begun, ledger: l, photo: photo}
		if said, err = e.enter(); err == nil {
			if err = k.pass("entered"); err == nil {
				err = l.keep(s.ID, e.receipt, said)
			}
		}
		if _, no := errors.AsType[*refusal](err); no {
			l.forget(s.ID) // nothing is written of it
		}
		return err
	})
	return answer(said, err)
}

func (k *keeper) pass(point string) error {
	if k.passed != nil {
		return k.passed(point)
	}
	return nil
}

// answer tells what can never be entered from what may be, later.
func answer(said string, err error) slipAnswer {
	var no *refusal
	switch {
	case err == nil:
		return slipAnswer{State: kept, Said: said}
	case errors.As(err, &no):
		return slipAnswer{State: refused, Said: no.Error(), Ask: no.Ask}
	}
	return slipAnswer{State: later, Said: err.Error()}
}

// An entering is one slip on its way into a record.
type entering struct {
	keeper  *keeper
	slip    phoneSlip
	receipt receipt
	again   bool // it was begun before, and broken off
	ledger  *receipts
	photo   *bench.Photo

	room   *record.Room
	file   record.BuildFile
	build  *record.Build
	record amend.File
}

// mark remembers on the disk what is about to be written.
func (e *entering) mark() error {
	if err := e.ledger.mark(e.slip.ID, &e.receipt); err != nil {
		return err
	}
	return e.keeper.pass("marked")
}

// enter finds the build and enters the slip, and says so in words.
func (e *entering) enter() (said string, err error) {
	room, _, err := record.Open(e.keeper.room)
	if err != nil {
		return "", err
	}
	defer room.Close()
	e.room = room
	if err := e.find(); err != nil {
		return "", err
	}
	switch s := &e.slip; s.Kind {
	case "on", "pause", "off", "drop":
		return e.clock()
	case "measured":
		return e.measured()
	case "hang":
		return e.hang()
	case "trace":
		return e.trace()
	case "edges":
		return e.edges()
	case "altered":
		return e.altered()
	default:
		return e.journal()
	}
}

// find finds the build by the name of its folder, and refuses what is there no
// more. A record that cannot be read now may be mended.
func (e *entering) find() error {
	s := &e.slip
	var ok bool
	if e.file, ok = e.room.BuildNamed(s.Build); !ok {
		return refuse(say.Of("capture.there-is-no-garment-any-more", say.Quoted(s.Build)))
	}
	e.record = amend.File{Folder: e.room.Dir, Path: e.file.Path}
	if err := bench.Readable(e.record); err != nil {
		return fault.Wrapping(err, say.Of("capture.the-record-must-be-corrected-first", err))
	}
	e.build, _ = e.room.ReadBuild(e.file)
	if s.Step == "" || s.Kind == "off" || s.Kind == "drop" || s.Kind == "pause" {
		return nil // a clock that runs may end though its step is gone
	}
	if _, ok := e.step(); !ok {
		return refuse(say.Of("capture.has-no-step-any-more", e.file.Name, say.Quoted(s.Step)))
	}
	return nil
}

func (e *entering) step() (bench.Named, bool) {
	for _, n := range bench.Steps(e.build) {
		if n.ID == e.slip.Step {
			return n, true
		}
	}
	return bench.Named{ID: e.slip.Step}, false
}

// journal enters a note, a photograph, a tick or a time as one line of the
// journal.
func (e *entering) journal() (string, error) {
	s := &e.slip
	line := bench.Entry{At: e.receipt.At, Did: s.Step, Note: s.Note, Done: s.Done || s.Kind == "done"}
	if s.Spent != "" {
		var err error
		if line.For, err = bench.Spent(s.Spent); err != nil {
			return "", refuse(err.Error())
		}
		line.At = line.At.Add(-line.For) // it ended then
	}
	if s.Photo {
		if e.photo == nil {
			return "", refuse(say.Of("capture.its-photograph-did-not-come-with-it"))
		}
		line.Alt = s.Alt
		kept, err := e.keepPhoto(&line)
		if err != nil {
			return "", err
		}
		defer kept.Settled()
	}
	if err := e.append(amend.At("journal"), line.Value()); err != nil {
		return "", errors.Join(err, e.unkeepPhoto(err))
	}
	return say.Of("capture.in-the-journal-of-2", e.file.Name), nil
}

// append adds a value to a list of the record, once.
func (e *entering) append(list amend.Path, value amend.Value) error {
	r := &e.receipt
	err := e.record.Change(func(text []byte) ([]byte, error) {
		had, err := timesIn(text, list, value)
		if err != nil {
			return nil, err
		}
		if e.again && r.Found && had > r.Had {
			return text, nil // it came about before it was broken off
		}
		if err := e.stillThere(); err != nil {
			return nil, err
		}
		r.Found, r.Had = true, had
		if err := e.mark(); err != nil {
			return nil, err
		}
		return amend.Append(text, list, value)
	})
	return orRefusal(err)
}

// orRefusal makes a refusal of what the editor of records refuses for good.
func orRefusal(err error) error {
	if no, is := errors.AsType[fault.List](err); is {
		return refuse(no.Error())
	}
	return err
}

// timesIn counts the entries of a list that read just as the value.
func timesIn(text []byte, list amend.Path, value amend.Value) (int, error) {
	all, _, err := amend.Read(text, list)
	n := 0
	for _, item := range all.Items() {
		if same(item, value) {
			n++
		}
	}
	return n, err
}

// same reports whether two values read alike, names in the same order.
func same(a, b amend.Value) bool {
	if a.Text() != b.Text() || len(a.Items()) != len(b.Items()) || len(a.Fields()) != len(b.Fields()) {
		return false
	}
	for i, x := range a.Items() {
		if !same(x, b.Items()[i]) {
			return false
		}
	}
	for i, f := range a.Fields() {
		if g := b.Fields()[i]; f.Name != g.Name || !same(f.Value, g.Value) {
			return false
		}
	}
	return true
}

// keepPhoto puts the photograph beside the record before its entry is written.
func (e *entering) keepPhoto(line *bench.Entry) (*bench.KeptPhoto, error) {
	words := e.slip.Note
	for _, other := range []string{e.slip.Alt, e.slip.Step, "bench"} {
		if words == "" {
			words = other
		}
	}
	r := &e.receipt
	kept, err := e.photo.KeepAs(e.room.Dir, path.Dir(e.file.Path), r.At.Format(time.DateOnly), words, r.Photo, func(name string) error {
		r.Photo = name
		return e.mark()
	})
	if err != nil {
		return nil, fault.Wrapping(err, say.Of("capture.the-photograph-could-not-be-saved", err))
	}
	line.Photo = kept.Name
	if err := e.keeper.pass("photo"); err != nil {
		kept.Settled()
		return nil, err
	}
	return kept, nil
}

// stillThere makes sure that the photograph is there, while nobody else can
// write the record: where the slip was broken off before, another program may
// just have cleared the photograph away.
func (e *entering) stillThere() error {
	if e.receipt.Photo == "" {
		return nil
	}
	_, err := os.Lstat(filepath.Join(e.room.BuildFolder(e.file.Slug), filepath.FromSlash(e.receipt.Photo)))
	return err
}

// unkeepPhoto takes the photograph away again where its entry was refused.
func (e *entering) unkeepPhoto(why error) error {
	if _, no := errors.AsType[*refusal](why); !no || e.receipt.Photo == "" {
		return nil
	}
	return bench.RemovePhoto(e.room.Dir, path.Dir(e.file.Path), e.receipt.Photo)
}
