package garment

import (
	"bytes"
	"math"
	"strconv"
	"strings"
	"time"

	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/trade"
)

// An ink writes the texts and inputs of workings. A garment has hundreds of
// them, so they share pages of memory and no formatting by reflection is done.
type ink struct {
	line  []byte          // the text being written
	page  strings.Builder // finished texts, one after the other
	notes []Input         // inputs of finished workings, then of the one being written
	first int             // where the one being written begins in notes
}

const inkPage, inkNotes = 16 << 10, 128

// s writes words.
func (k *ink) s(text string) *ink { k.line = append(k.line, text...); return k }

// n writes a number with up to three decimals.
func (k *ink) n(v float64) *ink { k.line = appendNumber(k.line, v, 3); return k }

// mm writes a length in millimetres.
func (k *ink) mm(v float64) *ink { k.line = append(appendNumber(k.line, v, 3), " mm"...); return k }

// q writes a quantity precisely.
func (k *ink) q(q measure.Quantity) *ink {
	decimals := 3
	if q.Unit == measure.UnitM2 {
		decimals = 4
	}
	k.line = appendNumber(k.line, q.Number, decimals)
	if u := q.Unit.Symbol(); u != "" {
		k.line = append(append(k.line, ' '), u...)
	}
	return k
}

// i writes a whole number.
func (k *ink) i(v int) *ink { k.line = strconv.AppendInt(k.line, int64(v), 10); return k }

// n4 writes a number with up to four decimals: square metres.
func (k *ink) n4(v float64) *ink { k.line = appendNumber(k.line, v, 4); return k }

// less writes a number that is taken away, in brackets where it is negative.
func (k *ink) less(v float64) *ink {
	k.s(" − ")
	if v < 0 {
		return k.s("(").n(v).s(")")
	}
	return k.n(v)
}

// end returns what was written since the last end.
func (k *ink) end() string {
	from := k.turn(len(k.line))
	k.page.Write(k.line)
	k.line = k.line[:0]
	return k.page.String()[from:]
}

// turn makes room for so many bytes, on a fresh page where need be, and
// returns where they begin.
func (k *ink) turn(n int) int {
	if k.page.Cap()-k.page.Len() < n {
		k.page = strings.Builder{}
		k.page.Grow(max(inkPage, n))
	}
	return k.page.Len()
}

// join returns the texts set end to end, whatever else is being written.
func (k *ink) join(parts ...string) string {
	n := 0
	for _, p := range parts {
		n += len(p)
	}
	from := k.turn(n)
	for _, p := range parts {
		k.page.WriteString(p)
	}
	return k.page.String()[from:]
}

// note adds an input to the working being written.
func (k *ink) note(in Input) *ink {
	if len(k.notes) == cap(k.notes) {
		fresh := make([]Input, 0, max(inkNotes, 2*(len(k.notes)-k.first)))
		k.notes, k.first = append(fresh, k.notes[k.first:]...), 0
	}
	k.notes = append(k.notes, in)
	return k
}

// lengthIn adds a length that stands in a record.
func (k *ink) lengthIn(name string, l record.Length) *ink {
	if !l.Given() {
		return k.note(Input{Name: name, Value: "not known", From: "what could not be read"})
	}
	return k.note(Input{Name: name, Value: k.mm(l.V.MM()).end(), At: l.At})
}

// figureIn adds a figure that goes into another.
func (k *ink) figureIn(name string, f *Figure) *ink {
	return k.note(Input{Name: name, Value: k.value(f.Value), From: f.ID})
}

// value prints a figure's value for a working.
func (k *ink) value(v Value) string {
	switch {
	case !v.Known():
		return "not known"
	case v.Money != nil:
		return v.Money.String()
	case v.Moment != nil:
		return v.Moment.Format(MomentForm)
	}
	return k.q(v.Quantity).end()
}

// taken returns the inputs noted since the last working.
func (k *ink) taken() []Input {
	if k.first == len(k.notes) {
		return nil
	}
	in := k.notes[k.first:len(k.notes):len(k.notes)]
	k.first = len(k.notes)
	return in
}

// figure finishes a figure: its sum is what is being written, its inputs those
// noted. A value that is no number becomes one that is not known.
func (k *ink) figure(id, title, of string, v Value, rule string, source trade.Source) Figure {
	if v.Known() && v.Money == nil && v.Moment == nil && !finite(v.Number) {
		v = Value{Why: "the numbers are beyond what can be reckoned with"}
	}
	f := Figure{ID: id, Title: title, Of: of, Value: v}
	f.Working = Working{Rule: rule, Inputs: k.taken(), Source: source}
	if v.Known() {
		f.Working.Sum = k.once().end()
	} else {
		k.line = k.line[:0]
	}
	return f
}

// once takes out a sum's left side where it only says what the right side
// says: "65 = 65 min".
func (k *ink) once() *ink {
	left, right, found := bytes.Cut(k.line, []byte(" = "))
	if found && bytes.HasPrefix(right, left) && (len(right) == len(left) || right[len(left)] == ' ') {
		k.line = k.line[:copy(k.line, right)]
	}
	return k
}

// unknown is a value that is not known, because …
func unknown(why string) Value { return Value{Why: why} }

func valueIn(number float64, unit measure.Unit) Value {
	return Value{Quantity: measure.Quantity{Number: number, Unit: unit}}
}

func inMM(mm float64) Value   { return valueIn(mm, measure.UnitMM) }
func inM(mm float64) Value    { return valueIn(mm/1e3, measure.UnitM) }
func inCM2(mm2 float64) Value { return valueIn(mm2/1e2, measure.UnitCM2) }
func inM2(mm2 float64) Value  { return valueIn(mm2/1e6, measure.UnitM2) }

// MomentForm is how moments are written in workings: the layout of package time.
const MomentForm = "2006-01-02 15:04"

func moment(t time.Time) Value { return Value{Moment: &t} }

// inMin is a time in minutes.
func inMin(d time.Duration) Value { return valueIn(d.Minutes(), measure.UnitMin) }

func counted(n int) Value {
	v := valueIn(float64(n), measure.UnitCount)
	v.Exact = true
	return v
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

var powers = [...]float64{1, 10, 100, 1000, 1e4}

// appendNumber writes v with up to so many decimals (at most 4), half away
// from zero, the way package measure prints: a true minus sign, and thin gaps
// between groups of three from five figures on.
func appendNumber(dst []byte, v float64, decimals int) []byte {
	scaled := math.Round(math.Abs(v) * powers[decimals])
	if !(scaled < 1e15) {
		return append(dst, measure.Style{}.Number(v, decimals)...)
	}
	n := int64(scaled)
	if n == 0 {
		return append(dst, '0')
	}
	if v < 0 {
		dst = append(dst, "−"...)
	}
	unit := int64(powers[decimals])
	dst = appendWhole(dst, n/unit)
	rest := n % unit
	if rest == 0 {
		return dst
	}
	dst = append(dst, '.')
	for rest > 0 {
		unit /= 10
		dst = append(dst, byte('0'+rest/unit))
		rest %= unit
	}
	return dst
}

func appendWhole(dst []byte, n int64) []byte {
	if n < 10_000 {
		return strconv.AppendInt(dst, n, 10)
	}
	var room [24]byte
	digits := strconv.AppendInt(room[:0], n, 10)
	for i, d := range digits {
		if i > 0 && (len(digits)-i)%3 == 0 {
			dst = append(dst, "\u202f"...)
		}
		dst = append(dst, d)
	}
	return dst
}
