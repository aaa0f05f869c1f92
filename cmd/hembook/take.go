package main

import (
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"hembook/internal/answer"
	"hembook/internal/disk"
	"hembook/internal/document"
	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/record/amend"
	"hembook/internal/say"
	"hembook/internal/trade"
	"hembook/internal/words"
)

func newTake(opt *options) *cobra.Command {
	return &cobra.Command{
		Use:     "take FILE [PHOTOGRAPH…]",
		Short:   say.Of("hembook.take-short"),
		Long:    say.Of("hembook.take-long"),
		Example: say.Of("hembook.take-example"),
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return misused(say.Of("hembook.which-file-hembook-take-file"))
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			text, err := answerText(args[0], cmd.InOrStdin())
			if err != nil {
				return err
			}
			m, faults := answer.Read(filepath.ToSlash(args[0]), text)
			if fault.HasErrors(faults) {
				printFaults(cmd.ErrOrStderr(), faults)
				return errFaults
			}
			photos := args[1:]
			switch m.Kind {
			case answer.Measurements:
				if len(photos) > 0 {
					return misused(say.Of("hembook.photographs-are-kept-with-a-garment-not"))
				}
				return takeMeasurements(opt, m, time.Now(), cmd.OutOrStdout(), cmd.ErrOrStderr())
			case answer.MockUp:
				return takeMockUp(opt, m, photos, cmd.OutOrStdout())
			case answer.Proposal:
				return takeProposal(opt, m, photos, cmd.OutOrStdout())
			}
			return takeWords(opt, m, photos, cmd.OutOrStdout())
		},
	}
}

// mostAnswer is longer than any answer is, with its photographs and the message round it.
const mostAnswer = 32 << 20

func answerText(file string, in io.Reader) ([]byte, error) {
	if file == "-" {
		return io.ReadAll(io.LimitReader(in, mostAnswer))
	}
	text, err := disk.ReadFile(file)
	if err != nil {
		return nil, misused(say.Of("hembook.cannot-be-read-2", file, plainError(err)))
	}
	if len(text) > mostAnswer {
		return nil, misused(say.Of("hembook.is-larger-than-any-answer", file))
	}
	return text, nil
}

// takeMeasurements writes measurements into the file of the wearer the garment is for.
func takeMeasurements(opt *options, m *answer.Answer, now time.Time, out, errs io.Writer) error {
	on, err := opt.openBuild(m.Garment)
	if err != nil {
		return err
	}
	defer on.room.Close()
	name := on.build.Wearer.Open(record.ToTheMaker)
	kept, ok := on.room.Wearers[name.V]
	if !ok {
		return misused(say.Of("hembook.names-no-wearer-write-wearer-in-its", m.Garment))
	}
	wearer := kept.Open(record.ToTheMaker)
	if wrong := againstFile(m, wearer, now); wrong != nil {
		printFaults(errs, wrong)
		return errFaults
	}
	tape := words.Tape(wearerUnit(wearer, on.room))
	rows := takenRows(m, wearer, tape)
	file := amend.File{Folder: on.room.Dir, Path: wearer.At.File()}
	if err := file.Change(func(text []byte) ([]byte, error) { return writeBody(text, m, wearer, tape) }); err != nil {
		return err
	}
	d := newDraft(on.room.Workroom.Style())
	table := d.Table("", document.Words("measurement"), document.Figures("was"), document.Figures("is"), document.Figures("apart"), document.Words(""))
	for _, r := range rows {
		table.Row(r[0]).Words(r[1:]...)
	}
	table.End()
	tell(out, d, false)
	fmt.Fprintln(out, say.Of("hembook.written-into-taken-on", wearer.At.File(), m.Day))
	if stays := notTaken(m, wearer); len(stays) > 0 {
		fmt.Fprintln(out, say.Of("hembook.not-measured-this-time-and-as-before", strings.Join(stays, ", ")))
	}
	if m.Note != "" {
		fmt.Fprintln(out, say.Of("hembook.they-write", m.Note))
	}
	return nil
}

// wearerUnit is what a bare length of the wearer's file is in.
func wearerUnit(w *record.Wearer, room *record.Room) measure.Unit {
	for _, word := range []string{w.Units.V, room.Workroom.Units.V} {
		if u, ok := measure.ParseUnit(word); ok {
			return u
		}
	}
	return measure.UnitMM
}

// againstFile holds an answer against the wearer's file: one that was taken in already,
// or is older than what stands there, or of another time, is refused.
func againstFile(m *answer.Answer, w *record.Wearer, now time.Time) []fault.Fault {
	var faults fault.Faults
	at := m.Body[0].At
	at.Line, at.Column = 1, 1
	today := record.Day{Year: now.Year(), Month: now.Month(), Day: now.Day()}
	switch {
	case today.String() < m.Day.String():
		faults.Wrong(at, say.Of("hembook.correct-its-day"), say.Of("hembook.the-answer-is-of-a-day-to", m.Day))
	case !w.Taken.Given() && len(w.Body) > 0:
		faults.Wrong(at, say.Of("hembook.write-taken-with-the-day-it-was", w.At.File()), say.Of("hembook.what-was-measured-before-stands-there-without"))
	case w.Taken.Given() && m.Day.String() < w.Taken.V.String():
		faults.Wrong(at, say.Of("hembook.write-it-under-earlier-by-hand-if"), say.Of("hembook.the-answer-is-of-older-than-what", m.Day, w.At.File(), w.Taken.V))
	case w.Taken.Given() && m.Day == w.Taken.V && sameBody(m, w):
		faults.Wrong(at, "", say.Of("hembook.these-measurements-stand-in-already", w.At.File()))
	}
	for i := range m.Body {
		r := &m.Body[i]
		if _, known := trade.MeasurementNamed(r.Name); !known {
			faults.Wrong(r.At, say.Of("hembook.did-they-change-the-text", trade.NearestMeasurement(r.Name)), say.Of("hembook.there-is-no-measurement-called", r.Name))
		}
	}
	if !faults.HasErrors() {
		return nil
	}
	return faults.Sorted()
}

func sameBody(m *answer.Answer, w *record.Wearer) bool {
	return !slices.ContainsFunc(m.Body, func(r answer.Reading) bool {
		was, ok := bodyOf(w, r.Name)
		return !ok || was.MM() != r.Middle()
	})
}

func bodyOf(w *record.Wearer, name string) (measure.Length, bool) {
	for i := range w.Body {
		if w.Body[i].Name.V == name {
			return w.Body[i].V.V, true
		}
	}
	return 0, false
}

// farApart is by how much, in millimetres, two readings of a tape may differ; much is
// what a body seldom changes by between two measurings.
const (
	farApart = 10.0
	much     = 40.0
)

// takenRows tell each measurement: what it was and is, how far its readings lie apart,
// and what to ask about.
func takenRows(m *answer.Answer, w *record.Wearer, tape words.Tape) [][]string {
	var out [][]string
	for i := range m.Body {
		r := &m.Body[i]
		now := r.Middle()
		row := []string{r.Name, "–", tape.Exact(now), "–", ""}
		was, ok := bodyOf(w, r.Name)
		if ok {
			row[1] = tape.Exact(was.MM())
		}
		var ask []string
		if len(r.MM) > 1 {
			row[3] = tape.Exact(r.Spread())
		} else {
			ask = append(ask, say.Of("hembook.measured-once-only"))
		}
		if r.Spread() > farApart {
			ask = append(ask, say.Of("hembook.ask-for-a-third-time"))
		}
		if off := now - was.MM(); ok && (off > much || off < -much) {
			ask = append(ask, say.Of("hembook.from-the-last-time-ask", tape.About(max(off, -off))))
		}
		row[4] = strings.Join(ask, "; ")
		out = append(out, row)
	}
	return out
}

// writeBody writes the measurements where the old ones stood and keeps those.
func writeBody(text []byte, m *answer.Answer, w *record.Wearer, tape words.Tape) ([]byte, error) {
	var err error
	set := func(at amend.Path, v amend.Value) {
		if err == nil {
			text, err = amend.Set(text, at, v)
		}
	}
	if w.Taken.Given() && len(w.Body) > 0 && !hasEarlier(w) {
		old := []amend.Field{{Name: "day", Value: amend.Figure(w.Taken.V.String())}}
		if w.By.Given() {
			old = append(old, amend.Field{Name: "by", Value: amend.Words(w.By.V)})
		}
		var body []amend.Field
		for i := range w.Body {
			body = append(body, amend.Field{Name: w.Body[i].Name.V, Value: amend.Figure(tape.Written(w.Body[i].V.V.MM()))})
		}
		old = append(old, amend.Field{Name: "body", Value: amend.Group(body...)})
		if text, err = amend.Append(text, amend.At("earlier"), amend.Group(old...)); err != nil {
			return nil, err
		}
	}
	set(amend.At("taken"), amend.Figure(m.Day.String()))
	if by := takenBy(m, tape); by != "" {
		set(amend.At("by"), amend.Words(by))
	}
	for i := range m.Body {
		set(amend.At("body", m.Body[i].Name), amend.Figure(tape.Written(m.Body[i].Middle())))
	}
	return text, err
}

// notTaken are the measurements that stand in the file and did not come back.
func notTaken(m *answer.Answer, w *record.Wearer) []string {
	var out []string
	for i := range w.Body {
		name := w.Body[i].Name.V
		if !slices.ContainsFunc(m.Body, func(r answer.Reading) bool { return r.Name == name }) {
			out = append(out, name)
		}
	}
	return out
}

// hasEarlier reports whether the measurements that stand are kept already.
func hasEarlier(w *record.Wearer) bool {
	return slices.ContainsFunc(w.Earlier, func(e record.Measuring) bool { return e.On.V == w.Taken.V })
}

// takenBy says who measured, and how well the readings agreed.
func takenBy(m *answer.Answer, tape words.Tape) string {
	worst, twice := 0.0, true
	for i := range m.Body {
		worst = max(worst, m.Body[i].Spread())
		twice = twice && len(m.Body[i].MM) > 1
	}
	var out []string
	if m.By != "" {
		out = append(out, m.By)
	}
	if twice {
		out = append(out, say.Of("hembook.each-twice-within", tape.Exact(worst)))
	}
	return strings.Join(out, ", ")
}
