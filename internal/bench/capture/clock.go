package capture

import (
	"errors"
	"time"

	"hembook/internal/bench"
	"hembook/internal/record/amend"
	"hembook/internal/say"
)

const (
	longestWork = 24 * time.Hour // that one entry may be worked
	begunAlike  = time.Minute    // by which two clocks of one step may begin apart unheeded
)

// clock enters what a clock does. Clocks are those of the terminal.
func (e *entering) clock() (string, error) {
	clocks := bench.ClocksOf(e.room.Dir)
	all, bad := clocks.All()
	var now *bench.Clock
	for i := range all {
		if all[i].Build == e.slip.Build && all[i].Step == e.slip.Step {
			now = &all[i]
		}
	}
	if now == nil && bad != nil {
		return "", bad // it may be the one that cannot be read
	}
	if e.slip.Kind == "on" {
		return e.on(clocks, now)
	}
	if now == nil {
		return e.gone()
	}
	if e.slip.Kind != "drop" && e.slip.Spent == "" && now.Ahead(e.keeper.now()) {
		return "", refuse(say.Of("capture.its-clock-started-at-which-is-still", bench.MomentWords(now.Since, e.keeper.now())))
	}
	if !now.Paused() && now.Running.After(e.receipt.At) && !now.Running.After(e.keeper.now()) {
		return "", refuse(say.Of("capture.its-clock-was-started-again-at-after", bench.MomentWords(now.Running, e.keeper.now())))
	}
	switch e.slip.Kind {
	case "pause":
		return e.pause(clocks, now)
	case "drop":
		if err := e.mark(); err != nil {
			return "", err
		}
		return say.Of("capture.discarded-nothing-written"), gentle(clocks.Drop(*now))
	}
	return e.off(clocks, now)
}

// gone answers a slip about a clock that is there no more: well, where the
// slip itself ended it before it was broken off.
func (e *entering) gone() (string, error) {
	r := &e.receipt
	if e.again {
		if r.Entry == nil && e.slip.Kind != "off" {
			return say.Of("capture.the-clock-has-stopped"), nil
		}
		if r.Entry != nil && r.Found && e.has(*r.Entry, r.Had) {
			return offWords(*r.Entry, e.file.Name), nil
		}
	}
	return "", refuse(say.Of("capture.the-clock-for-was-stopped-on-the", e.slip.Step))
}

// has reports whether the record's journal holds more than so many of an entry.
func (e *entering) has(line bench.Entry, had int) bool {
	found := false
	e.record.Change(func(text []byte) ([]byte, error) {
		n, err := timesIn(text, amend.At("journal"), line.Value())
		found = err == nil && n > had
		return text, nil
	})
	return found
}

// on begins a clock, or lets a paused one go on.
func (e *entering) on(clocks *bench.Clocks, now *bench.Clock) (string, error) {
	r := &e.receipt
	if e.again && e.didBegin(now) {
		return say.Of("capture.the-clock-runs"), nil
	}
	if err := e.mark(); err != nil {
		return "", err
	}
	step, _ := e.step()
	c, began, err := clocks.Start(bench.Clock{Build: e.slip.Build, Step: step.ID, Words: step.Words, Note: e.slip.Note}, r.At)
	switch {
	case err != nil:
		return "", refuse(err.Error())
	case !began && !c.Running.Equal(r.At) && c.Since.After(r.At.Add(begunAlike)):
		return "", refuse(say.Of("capture.its-clock-was-started-elsewhere-at-what", bench.MomentWords(c.Since, e.keeper.now())))
	case !began:
		return say.Of("capture.already-running-since", bench.MomentWords(c.Since, e.keeper.now())), nil
	}
	return say.Of("capture.the-clock-runs"), nil
}

// didBegin reports whether the clock was begun by this slip before it was
// broken off: it runs from that moment, or its time is noted already.
func (e *entering) didBegin(now *bench.Clock) bool {
	at := e.receipt.At
	if now != nil {
		return now.Since.Equal(at) || now.Running.Equal(at)
	}
	for i := range e.build.Journal {
		j := &e.build.Journal[i]
		if j.Did.V == e.slip.Step && j.For.Given() && j.When.V.Format(minute) == at.Format(minute) {
			return true
		}
	}
	return false
}

const minute = "2006-01-02 15:04"

// pause lets a clock rest.
func (e *entering) pause(clocks *bench.Clocks, now *bench.Clock) (string, error) {
	if now.Paused() {
		return say.Of("capture.it-is-paused-at", bench.DurationWords(now.Counted)), nil
	}
	spent, err := e.spent(now)
	if err != nil {
		return "", err
	}
	if err := e.mark(); err != nil {
		return "", err
	}
	return say.Of("capture.paused-at", bench.DurationWords(spent)), gentle(clocks.Pause(*now, spent))
}

// off ends a clock and notes its time.
func (e *entering) off(clocks *bench.Clocks, now *bench.Clock) (string, error) {
	spent, err := e.spent(now)
	if err != nil {
		return "", err
	}
	line, err := clocks.Stop(*now, bench.Ending{
		Now: e.keeper.now(), Spent: spent, Note: e.slip.Note, Done: e.slip.Done,
		Noting: func(line bench.Entry, text []byte) error {
			had, err := timesIn(text, amend.At("journal"), line.Value())
			if err != nil {
				return err
			}
			e.receipt.Entry, e.receipt.Found, e.receipt.Had = &line, true, had
			return e.mark()
		},
	}, e.record)
	if err != nil {
		return "", gentle(orRefusal(err))
	}
	return offWords(line, e.file.Name), nil
}

func offWords(line bench.Entry, build string) string {
	return say.Of("capture.in-the-journal-of", line.Spent(), build)
}

// spent is how long a clock has run by the slip; a clock that was probably
// forgotten is asked about.
func (e *entering) spent(now *bench.Clock) (time.Duration, error) {
	s, at := &e.slip, e.receipt.At
	if s.Spent != "" {
		d, err := bench.Spent(s.Spent)
		if err != nil {
			return 0, refuse(err.Error())
		}
		return d, nil
	}
	d := now.Spent(at)
	if now.Paused() {
		return d, nil
	}
	doubt, forgotten := bench.Forgotten(now.Running, at, e.room.Workroom)
	ask := &clockQuestion{Ran: bench.DurationWords(d)}
	if !doubt.Closed.IsZero() {
		ask.Closed, ask.ClosedRan = doubt.Closed.UnixMilli(), bench.DurationWords(now.Spent(doubt.Closed))
	}
	switch {
	case d > longestWork:
		ask.Ran = ""
		return 0, refuseAsking(ask, say.Of("capture.was-it-forgotten-that-would-be-of", bench.DurationWords(d)))
	case forgotten && !s.Sure:
		return 0, refuseAsking(ask, say.Of("capture.was-it-forgotten", doubt.Why))
	}
	return d, nil
}

// gentle makes a refusal of a clock that was changed elsewhere meanwhile.
func gentle(err error) error {
	if errors.Is(err, bench.ErrNotRunning) {
		return refuse(say.Of("capture.its-clock-was-stopped-or-paused-elsewhere"))
	}
	return err
}
