// Package press renders the notebook of a workroom to a folder of HTML pages,
// pictures and the files of a theme.
//
// It promises that output appears all at once or not at all: pages are written
// to a folder beside the target, which then takes its place by a rename; that
// files that did not change keep their time stamps; that the same workroom
// gives the same bytes on every run; that nothing is written while a record has
// errors; that only a folder that was pressed before, or an empty one, is
// replaced; and that every figure opens its working where it stands, without
// any script. Pages ask nothing of any other host.
//
// It does not know how figures come about, nor what pages there are.
package press

import (
	"context"
	"errors"
	"runtime"

	"hembook/internal/cutting"
	"hembook/internal/derive"
	"hembook/internal/fault"
	"hembook/internal/label"
	"hembook/internal/notebook"
	"hembook/internal/order"
	"hembook/internal/record"
	"hembook/internal/say"
)

// A Tailor derives a garment from its record, with the lays of its cloths, and
// looks at its order of work. It must be safe for use by many goroutines at once.
type Tailor interface {
	Cut(*record.Build) *cutting.Cutting
	Timing(*derive.Garment, order.Standing) *order.Timing
	Content(*derive.Garment) *label.Content
	Care(*derive.Garment) *label.Care
}

// Options say where and how to press.
type Options struct {
	To      string // the folder that the notebook is written to
	Workers int    // builds rendered at once; as many as there are processors where 0
	// Memory is what the last press of the workroom to this folder left behind,
	// so that only what changed is pressed again; nil to press everything. What
	// is written is the same.
	Memory *Memory
	// Progress is told whenever a build is begun or done or a picture is made. It may
	// be called from several goroutines; nil where nobody asks.
	Progress func(Progress)

	around func(proof func() error) error // for tests: does the proof, or leaves it out
}

// A Progress is how far a press is.
type Progress struct {
	Done, All int    // builds
	Name      string // of the build that was begun last; "" before the first
	Pictures  int    // that were made so far; those that were kept do not count
}

// A Report says what a press did.
type Report struct {
	Pages    int // pages of the notebook
	Made     int // pages that were made anew: all of them without a memory
	Pictures int // picture files
	Files    int // all files
	Written  int // files that are new or changed
	Kept     int // files that did not change
	Removed  int // files of the earlier notebook that are gone
	Bytes    int64

	Carried int      // files and folders of the maker's in the pressed folder, which stay
	Yours   []string // her files that have another name there now: pages that she changed by hand
	Before  string   // where an earlier notebook is kept in which ours and hers cannot be told apart
}

// ErrRecords says that nothing was written because records have errors, which
// are among the faults.
var ErrRecords = say.Error("press.nothing-was-written-records-have-errors")

// Press renders the notebook of a room into opts.To. The faults are those that
// reading the builds, deriving their figures and following links found; those
// of opening the room are the caller's, who should not press where they hold
// errors. Where there are errors nothing is written and the error is
// [ErrRecords].
func Press(ctx context.Context, room *record.Room, tailor Tailor, theme *Theme, opts Options) (Report, []fault.Fault, error) {
	if opts.Workers <= 0 {
		opts.Workers = runtime.GOMAXPROCS(0)
	}
	rep, faults, err := pressOnce(ctx, room, tailor, theme, opts)
	if errors.Is(err, errGone) { // somebody else was at the pressed folder
		opts.Memory.forget()
		return pressOnce(ctx, room, tailor, theme, opts)
	}
	return rep, faults, err
}

func pressOnce(ctx context.Context, room *record.Room, tailor Tailor, theme *Theme, opts Options) (Report, []fault.Fault, error) {
	out, err := openTarget(opts.To, room.Dir, opts.Memory.placed())
	if err != nil {
		return Report{}, nil, err
	}
	defer out.settle()
	r := &pressing{room: room, tailor: tailor, theme: theme, book: notebook.New(room), out: out, workers: opts.Workers, progress: opts.Progress, remembered: opts.Memory != nil}
	r.begin(opts.Memory)
	if err := r.all(ctx); err != nil {
		return Report{}, r.faults.Sorted(), err
	}
	if !fault.HasErrors(r.faults.Sorted()) {
		around := opts.around
		if around == nil {
			around = func(proof func() error) error { return proof() }
		}
		if err := around(func() error { return r.prove(ctx) }); err != nil {
			return Report{}, r.faults.Sorted(), err
		}
	}
	faults := r.faults.Sorted()
	if fault.HasErrors(faults) {
		return Report{}, faults, ErrRecords
	}
	if err := out.swap(); err != nil {
		return Report{}, faults, fault.Wrapping(err, say.Of("press.the-notebook-could-not-be-put-in", err))
	}
	rep := r.report()
	opts.Memory.learn(r)
	out.settle()
	if out.waits {
		more, _ := Recover(out.to)
		out.yours = append(out.yours, more...)
	}
	rep.Yours, rep.Before = out.yours, out.before
	return rep, faults, nil
}
