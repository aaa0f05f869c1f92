package record

import (
	"encoding/json"
	"fmt"
	"io"
)

// Private holds what only the maker, or the one person a sheet is for, may
// see: body measurements, names and addresses of wearers, costs, everything
// under `private:`. It prints as "private" however it is printed, so that a
// template or a log that is given one by accident shows nothing. Public page
// types may not contain it; a test walks them to make sure.
type Private[T any] struct{ held T }

// Keep makes a private value.
func Keep[T any](v T) Private[T] { return Private[T]{held: v} }

// A Purpose names why a private value is opened. Every caller states one, and
// a test lists the packages that may.
type Purpose uint8

const (
	_          Purpose = iota
	ToCheck            // the checker compares it with plausible ranges; faults never quote it
	ToFigure           // a private figure is derived from it
	ToTheMaker         // the maker asked for it at the terminal
	ToTheSheet         // a sheet that declares this field shows it to its one reader
	ToProve            // what goes out is searched for it; faults name its place and never quote it
)

// Open returns what is held.
func (p Private[T]) Open(why Purpose) T {
	if why == 0 {
		panic("record: a private value was opened without a purpose")
	}
	return p.held
}

// String prints "private", whatever is held.
func (Private[T]) String() string { return "private" }

// Format prints "private" for every verb.
func (Private[T]) Format(f fmt.State, _ rune) { io.WriteString(f, "private") }

// MarshalJSON writes "private", whatever is held.
func (Private[T]) MarshalJSON() ([]byte, error) { return json.Marshal("private") }

// MarshalYAML writes "private", whatever is held.
func (Private[T]) MarshalYAML() (any, error) { return "private", nil }
