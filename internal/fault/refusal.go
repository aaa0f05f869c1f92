package fault

import (
	"errors"
)

// A Refusal is a fault of what stands in no file, as an error: a picture that is
// not taken, a word on the command line.
type Refusal struct{ Fault }

// Refuse is the error of a fault without a place. The hint may be empty.
func Refuse(hint, format string, args ...any) *Refusal {
	return &Refusal{Errorf(Pos{}, hint, format, args...)}
}

// Refusing is the refusal of words that are ready, as package say has them. The hint may
// be empty.
func Refusing(hint, message string) *Refusal { return &Refusal{Wrong(Pos{}, hint, message)} }

// Error is the message, and the hint on a line of its own.
func (r *Refusal) Error() string {
	if r.Hint == "" {
		return r.Message
	}
	return r.Message + "\n    " + r.Hint
}

// Words are the message and the hint of a refusal, or what another error says.
func Words(err error) (message, hint string) {
	var r *Refusal
	if errors.As(err, &r) {
		return r.Message, r.Hint
	}
	return err.Error(), ""
}

// A wrapping tells of another error in a sentence of its own.
type wrapping struct {
	text  string
	under error
}

func (w wrapping) Error() string { return w.text }
func (w wrapping) Unwrap() error { return w.under }

// Wrapping is an error that reads as the message, which tells of the error under it.
func Wrapping(under error, message string) error { return wrapping{message, under} }
