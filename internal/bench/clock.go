package bench

import (
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"time"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/record/amend"
	"hembook/internal/say"
)

// A Clock counts the time that goes into a step.
type Clock struct {
	Build   string        // the name of its folder
	Step    string        // the step's short name
	Words   string        // what the step is called
	Since   time.Time     // when it was begun
	Counted time.Duration // what it counted before its last pause
	Running time.Time     // when it last went on; zero while it is paused
	Note    string        // goes with its time into the journal

	noting *Entry // what is being written into the record
	had    int    // how many entries like it the record held before
}

// Paused reports whether it counts nothing at present.
func (c *Clock) Paused() bool { return c.Running.IsZero() }

// Ahead reports whether it was begun, or last went on, at a time that has not
// come yet: its file was copied from elsewhere, or the machine's clock was set.
func (c *Clock) Ahead(now time.Time) bool { return c.Since.After(now) || c.Running.After(now) }

// Spent is what it has counted up to a moment.
func (c *Clock) Spent(end time.Time) time.Duration {
	if c.Paused() || end.Before(c.Running) {
		return c.Counted
	}
	return c.Counted + end.Sub(c.Running)
}

// Named is the clock by its step, for [Named.Fit].
func (c *Clock) Named() Named { return Named{c.Step, c.Words} }

// name is the name of its file: to be read by people, and one for each step.
func (c *Clock) name() string {
	return fileWords(c.Build) + "." + fileWords(c.Step) + "." + shortSum(c.Build+"\x00"+c.Step) + ".yaml"
}

// kept is a clock as its file has it.
type kept struct {
	Build   string      `yaml:"build"`
	Step    string      `yaml:"step"`
	Words   string      `yaml:"words"`
	Since   string      `yaml:"since"`
	Counted string      `yaml:"counted"`
	Running string      `yaml:"running"`
	Note    string      `yaml:"note"`
	Noting  *keptNoting `yaml:"noting"`
}

type keptNoting struct {
	At  string `yaml:"at"`
	For string `yaml:"for"`
	Had int    `yaml:"had"`
}

// text is the clock's file. A JSON string is a YAML string too.
func (c *Clock) text() []byte {
	var b strings.Builder
	b.WriteString("# " + say.Of("bench.a-clock-of-hembook-shows-it-notes") + "\n")
	line := func(name, value string) {
		if value != "" {
			quoted, _ := json.Marshal(value)
			fmt.Fprintf(&b, "%s: %s\n", name, quoted)
		}
	}
	line("build", c.Build)
	line("step", c.Step)
	line("words", c.Words)
	line("since", c.Since.Format(time.RFC3339))
	if c.Counted > 0 {
		line("counted", c.Counted.Round(time.Second).String())
	}
	if !c.Paused() {
		line("running", c.Running.Format(time.RFC3339))
	}
	line("note", c.Note)
	if e := c.noting; e != nil {
		fmt.Fprintf(&b, "noting: {at: %q, for: %q, had: %d}\n", e.When(), e.Spent(), c.had)
	}
	return []byte(b.String())
}

// readClock reads a clock's file.
func readClock(text []byte) (Clock, error) {
	var k kept
	dec := yaml.NewDecoder(strings.NewReader(string(text)))
	dec.KnownFields(true)
	if err := dec.Decode(&k); err != nil {
		return Clock{}, errors.New(say.Of("bench.it-cannot-be-read-as-a-clock"))
	}
	c := Clock{Build: k.Build, Step: k.Step, Words: k.Words, Note: k.Note}
	var bad [4]error
	c.Since, bad[0] = time.Parse(time.RFC3339, k.Since)
	if k.Running != "" {
		c.Running, bad[1] = time.Parse(time.RFC3339, k.Running)
	}
	if k.Counted != "" {
		c.Counted, bad[2] = time.ParseDuration(k.Counted)
	}
	if k.Noting != nil {
		c.noting, c.had = &Entry{Did: c.Step}, k.Noting.Had
		c.noting.At, bad[3] = time.Parse(minuteLayout, k.Noting.At)
		if d, err := time.ParseDuration(strings.ReplaceAll(k.Noting.For, " min", "m")); err == nil {
			c.noting.For = d
		}
	}
	switch {
	case errors.Join(bad[:]...) != nil:
		return Clock{}, errors.New(say.Of("bench.a-time-in-it-cannot-be-read"))
	case c.Build == "" || c.Step == "":
		return Clock{}, errors.New(say.Of("bench.it-does-not-name-a-garment-and"))
	}
	c.Since, c.Running = local(c.Since), local(c.Running)
	return c, nil
}

func local(t time.Time) time.Time {
	if t.IsZero() {
		return t
	}
	return t.Local()
}

// ErrNotRunning says that a clock was ended or paused by someone else meanwhile.
var ErrNotRunning error = notRunning{}

type notRunning struct{}

func (notRunning) Error() string { return say.Of("bench.its-clock-was-ended-or-paused-meanwhile") }

// All are the clocks of the workroom, the oldest first. Files that cannot be
// read as clocks are left alone, and the error names them; the others are
// returned all the same.
func (s *Clocks) All() ([]Clock, error) {
	var out []Clock
	var bad []error
	err := s.in(func(d *drawer) error {
		names, err := d.names()
		if err != nil {
			return err
		}
		for _, name := range names {
			c, err := d.read(name)
			switch {
			case errors.Is(err, fs.ErrNotExist): // ended since
			case err != nil:
				bad = append(bad, fault.Wrapping(err, say.Of("bench.correct-or-delete-it", clockFolder, name, err)))
			default:
				out = append(out, c)
			}
		}
		return nil
	})
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil // no clock was ever begun here
	}
	slices.SortStableFunc(out, func(a, b Clock) int {
		return cmp.Or(a.Since.Compare(b.Since), cmp.Compare(a.Build, b.Build), cmp.Compare(a.Step, b.Step))
	})
	return out, errors.Join(append(bad, err)...)
}

// Start begins a clock, or lets a paused one go on. began is false where it
// runs already; the clock returned is the one that runs.
func (s *Clocks) Start(c Clock, at time.Time) (now Clock, began bool, err error) {
	at = at.Truncate(time.Second) // as its file has it
	err = s.change(func(d *drawer) error {
		old, err := d.read(c.name())
		switch {
		case errors.Is(err, fs.ErrNotExist):
			now, began = c, true
			now.Since, now.Running = at, at
		case err != nil:
			return fault.Wrapping(err, say.Of("bench.correct-or-delete-it", clockFolder, c.name(), err))
		case old.Paused() && at.Before(old.Since.Add(old.Counted)):
			return errors.New(say.Of("bench.it-was-begun-at-and-has-counted", old.Since.Format(minuteLayout), DurationWords(old.Counted)))
		case old.Paused():
			now, began = old, true
			now.Running = at
		default:
			now = old
			return nil
		}
		now.Note = joinNotes(old.Note, c.Note)
		return d.write(&now)
	})
	return now, began, err
}

// Pause lets a clock rest; spent is what it has counted then.
func (s *Clocks) Pause(c Clock, spent time.Duration) error {
	return s.change(func(d *drawer) error {
		old, err := d.same(c)
		if err != nil {
			return err
		}
		old.Counted, old.Running = spent, time.Time{}
		return d.write(&old)
	})
}

// Drop takes a clock away; nothing is noted.
func (s *Clocks) Drop(c Clock) error {
	return s.change(func(d *drawer) error {
		if _, err := d.same(c); err != nil {
			return err
		}
		return d.remove(c.name())
	})
}

// An Ending says how a clock's time goes into the record.
type Ending struct {
	Now   time.Time // no entry is dated later, whatever the clock's file says; zero where that is not asked
	Spent time.Duration
	Note  string
	Done  bool // the step is finished with it
	// Noting, where it is given, hears of the entry just before it is written,
	// and of the record's text as it is then. Its error leaves clock and record
	// as they are.
	Noting func(e Entry, text []byte) error
}

// Stop writes a clock's time into the record's journal, then takes the clock
// away; it returns the entry written. Where the record cannot be written the
// clock stays as it is. What is about to be written is kept in the clock's
// file first, so that a program that ends between the two notes nothing twice.
func (s *Clocks) Stop(c Clock, end Ending, rec amend.File) (Entry, error) {
	began := c.Since
	if !end.Now.IsZero() && began.After(end.Now) {
		began = end.Now.Add(-end.Spent)
	}
	e := Entry{At: began, Did: c.Step, For: max(end.Spent, time.Second), Done: end.Done, Note: joinNotes(c.Note, end.Note)}
	err := s.change(func(d *drawer) error {
		old, err := d.same(c)
		if err != nil {
			return err
		}
		if was := old.noting; was != nil {
			n, err := was.in(rec)
			if err != nil {
				return fmt.Errorf("%s: %w", rec.Path, err) // whether it is noted cannot be told yet
			}
			if n > old.had {
				e = *was
				return d.remove(c.name())
			}
		}
		old.noting = &e
		err = rec.Change(func(text []byte) ([]byte, error) {
			n, err := e.timesIn(text)
			if err != nil {
				return nil, err
			}
			old.had = n
			if err := d.write(&old); err != nil {
				return nil, err
			}
			if end.Noting != nil {
				if err := end.Noting(e, text); err != nil {
					return nil, err
				}
			}
			return e.addTo(text)
		})
		var conflict *amend.Conflict
		if err != nil && (errors.As(err, &conflict) && !conflict.Ours || !e.moreIn(rec, old.had)) {
			old.noting, old.had = nil, 0
			return errors.Join(err, d.write(&old))
		}
		return errors.Join(err, d.remove(c.name()))
	})
	return e, err
}

// moreIn reports whether the record holds more than so many of an entry.
func (e Entry) moreIn(rec amend.File, had int) bool {
	n, err := e.in(rec)
	return err == nil && n > had
}

func joinNotes(a, b string) string { return strings.TrimSpace(strings.TrimSpace(a) + "\n" + b) }
