// Package answer reads what comes back from a sheet that was sent to a wearer: a short
// text, as a file or pasted out of a message.
//
// It promises that an answer is understood whole or refused with its line, whatever a
// mail program made of it: marks of a quotation before its lines, words above and below.
// It writes nothing.
package answer

import (
	"encoding/base64"
	"math"
	"slices"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
)

// A Kind is what was asked.
type Kind string

// The kinds there are, as the first line of an answer names them.
const (
	Measurements Kind = "measurements"
	Agreement    Kind = "agreement"
	MockUp       Kind = "mock-up"
	Proposal     Kind = "proposal"
	Remarks      Kind = "remarks"
	Repair       Kind = "repair"
)

// asked are the questions of each kind, by their names; a proposal's are its changes, by
// one letter each.
var asked = map[Kind][]string{
	Measurements: nil,
	Agreement:    {"agreed"},
	MockUp:       {"closes", "sitting", "moving", "pinned", "length", "pins"},
	Proposal:     nil,
	Remarks:      {"fits", "where", "changed", "washed", "worn", "next"},
	Repair:       {"altered", "mended", "cleaned"},
}

// asks reports whether a kind has such a question.
func (k Kind) asks(name string) bool {
	if k == Proposal {
		return len(name) == 1 && name >= "a" && name <= "z"
	}
	return slices.Contains(asked[k], name)
}

// An Answer is what somebody sent back.
type Answer struct {
	Kind    Kind
	Garment string // the folder of its record
	Day     record.Day
	Round   int    // of fitting that a proposal is about, from 1; else 0
	By      string // who measured, or answered; may be empty
	Note    string // what was said beside; may be empty
	Said    []Said // answers to questions, in the order they were asked
	Body    []Reading
	Photos  [][]byte // photographs that came in it, as they came
}

// Said is the answer to one question.
type Said struct{ Name, Words string }

// A Reading is one measurement, taken once or more often.
type Reading struct {
	Name string
	At   fault.Pos
	MM   []float64 // in the order they were taken, in millimetres
}

// Middle is the median of the readings, in millimetres: one that slipped does not move
// the rest.
func (r *Reading) Middle() float64 {
	sorted := slices.Sorted(slices.Values(r.MM))
	n := len(sorted)
	if n%2 == 1 {
		return sorted[n/2]
	}
	return (sorted[n/2-1] + sorted[n/2]) / 2
}

// Spread is how far the readings lie apart, in millimetres; of three, the nearer two.
func (r *Reading) Spread() float64 {
	sorted := slices.Sorted(slices.Values(r.MM))
	if len(sorted) < 2 {
		return 0
	}
	least := math.Inf(1)
	for i := 1; i < len(sorted); i++ {
		least = min(least, sorted[i]-sorted[i-1])
	}
	return least
}

// begins begins the first line of an answer.
var begins = say.Of("answer.answer")

// Read reads an answer. What is not understood comes as faults, each at its line of the
// file; with a fault there is no answer.
func Read(file string, text []byte) (*Answer, []fault.Fault) {
	src := &fault.Source{Path: file}
	lines, first := cut(string(text))
	var faults fault.Faults
	at := func(line int) fault.Pos { return fault.Pos{Source: src, Line: int32(first + line), Column: 1} }
	if lines == nil {
		faults.Wrong(at(1), say.Of("answer.copy-the-whole-text-that-the-sheet", begins), say.Of("answer.this-is-no-answer-to-a-sheet"))
		return nil, faults.Sorted()
	}
	var doc yaml.Node
	if err := yaml.Unmarshal([]byte(strings.Join(lines, "\n")), &doc); err != nil || len(doc.Content) == 0 || doc.Content[0].Kind != yaml.MappingNode {
		faults.Wrong(at(1), say.Of("answer.ask-for-it-as-a-file-a"), say.Of("answer.the-answer-cannot-be-read"))
		return nil, faults.Sorted()
	}
	r := reader{faults: &faults, at: at, perUnit: 10}
	m := r.read(doc.Content[0])
	if faults.HasErrors() {
		return nil, faults.Sorted()
	}
	return m, faults.Sorted()
}

// cut takes the answer out of what stands round it, without marks of a quotation; first
// is how many lines are above it.
func cut(text string) (lines []string, first int) {
	all := strings.Split(strings.ReplaceAll(text, "\r\n", "\n"), "\n")
	for i, line := range all {
		mark := quoteMark(line)
		if kind, ok := strings.CutPrefix(strings.TrimSpace(line[len(mark):]), begins); !ok || !isKind(kind) {
			continue
		}
		inBody := false
		for _, line := range all[i:] {
			if quoteMark(line) == "" && mark != "" {
				break
			}
			line = strings.TrimPrefix(line, mark)
			line = strings.ReplaceAll(strings.TrimRight(line, " \t"), "\u00a0", " ")
			if line == "" || inBody && line[0] != ' ' { // the body is its last part
				break
			}
			inBody = inBody || line == "body:"
			lines = append(lines, line)
		}
		return lines, i
	}
	return nil, 0
}

func isKind(name string) bool {
	_, ok := asked[Kind(name)]
	return ok
}

// quoteMark is what a mail program put before a line: "> ", ">> ".
func quoteMark(line string) string {
	n := 0
	for n < len(line) && line[n] == '>' {
		n++
	}
	if n > 0 && n < len(line) && line[n] == ' ' {
		n++
	}
	return line[:n]
}

// A reader reads the named values of an answer.
type reader struct {
	faults  *fault.Faults
	at      func(line int) fault.Pos
	perUnit float64 // millimetres
}

func (r *reader) read(group *yaml.Node) *Answer {
	m := &Answer{}
	var body *yaml.Node
	for i := 0; i+1 < len(group.Content); i += 2 {
		name, value := group.Content[i], group.Content[i+1]
		switch name.Value {
		case "answer":
			m.Kind = Kind(value.Value)
		case "garment":
			m.Garment = value.Value
		case "by":
			m.By = value.Value
		case "note":
			m.Note = value.Value
		case "day":
			day, err := record.ReadDay(value.Value)
			if err != nil {
				r.faults.Wrong(r.at(value.Line), say.Of("answer.write-it-as-2026-11-30"), say.Of("answer.is-no-day", say.Quoted(value.Value)))
			}
			m.Day = day
		case "units":
			unit := map[string]float64{"mm": 1, "cm": 10, "in": measure.Inch.MM()}[value.Value]
			if unit == 0 {
				r.faults.Wrong(r.at(value.Line), say.Of("answer.write-cm-mm-or-in"), say.Of("answer.is-no-unit", say.Quoted(value.Value)))
			}
			r.perUnit = unit
		case "body":
			body = value
		case "round":
			n, err := strconv.Atoi(value.Value)
			if err != nil || n < 1 {
				r.faults.Wrong(r.at(value.Line), say.Of("answer.copy-the-whole-text-that-the-sheet-2"), say.Of("answer.is-no-fitting", say.Quoted(fault.Shorten(value.Value))))
			}
			m.Round = n
		default:
			if name.Value == "photographs" && m.Kind != Measurements {
				m.Photos = r.photographs(value)
				continue
			}
			if m.Kind.asks(name.Value) {
				m.Said = append(m.Said, Said{name.Value, value.Value})
				continue
			}
			r.faults.Wrong(r.at(name.Line), say.Of("answer.take-it-out-what-cannot-be-measured"), say.Of("answer.an-answer-has-no", say.Quoted(name.Value)))
		}
	}
	if m.Garment == "" {
		r.faults.Wrong(r.at(1), say.Of("answer.write-garment-and-the-folder-of-its"), say.Of("answer.the-answer-does-not-say-for-which"))
	}
	if m.Day == (record.Day{}) && !r.faults.HasErrors() {
		r.faults.Wrong(r.at(1), say.Of("answer.write-day-and-the-day-as-2026"), say.Of("answer.the-answer-does-not-say-of-which"))
	}
	if m.Kind == Proposal && m.Round == 0 && !r.faults.HasErrors() {
		r.faults.Wrong(r.at(1), say.Of("answer.copy-the-whole-text-that-the-sheet-2"), say.Of("answer.the-answer-does-not-say-which-fitting"))
	}
	if m.Kind != Measurements {
		if len(m.Said) == 0 && m.Note == "" && len(m.Photos) == 0 {
			r.faults.Wrong(r.at(1), "", say.Of("answer.nothing-was-answered"))
		}
		return m
	}
	if body == nil || body.Kind != yaml.MappingNode || len(body.Content) == 0 {
		r.faults.Wrong(r.at(1), "", say.Of("answer.nothing-was-measured"))
		return m
	}
	for i := 0; i+1 < len(body.Content); i += 2 {
		if one, ok := r.reading(body.Content[i], body.Content[i+1]); ok {
			m.Body = append(m.Body, one)
		}
	}
	return m
}

// reading reads one measurement: a number, or a list of them.
func (r *reader) reading(name, value *yaml.Node) (Reading, bool) {
	out := Reading{Name: name.Value, At: r.at(name.Line)}
	list := []*yaml.Node{value}
	if value.Kind == yaml.SequenceNode {
		list = value.Content
	}
	for _, n := range list {
		v, err := strconv.ParseFloat(strings.ReplaceAll(strings.TrimSpace(n.Value), ",", "."), 64)
		if n.Kind != yaml.ScalarNode || err != nil || math.IsNaN(v) || v <= 0 || v*r.perUnit > mostMM {
			r.faults.Wrong(r.at(n.Line), say.Of("answer.write-numbers-as-75-5-76"), say.Of("answer.is-no-length-of-a-body", name.Value, say.Quoted(fault.Shorten(n.Value))))
			return out, false
		}
		out.MM = append(out.MM, v*r.perUnit)
	}
	if len(out.MM) == 0 {
		return out, false
	}
	return out, true
}

// mostMM is longer than anybody is tall or wide.
const mostMM = 3000

// photographs are pictures written as letters (base64, RFC 4648), one after another.
func (r *reader) photographs(list *yaml.Node) (out [][]byte) {
	for _, n := range list.Content {
		data, err := base64.StdEncoding.DecodeString(n.Value)
		if err != nil || len(data) == 0 {
			r.faults.Wrong(r.at(n.Line), say.Of("answer.ask-for-the-file-again"), say.Of("answer.the-photograph-did-not-come-whole"))
			return nil
		}
		out = append(out, data)
	}
	return out
}
