package capture

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"hembook/internal/fault"
	"hembook/internal/say"
	"io"
	"regexp"
	"slices"
	"strings"
	"time"
	"unicode/utf8"
)

// A phoneSlip is one thing taken down on a phone.
type phoneSlip struct {
	ID    string `json:"id"`   // 128 bits at random, in hex, made on the phone
	Kind  string `json:"kind"` // one of Kinds
	Build string `json:"build"`
	Step  string `json:"step,omitempty"`
	At    int64  `json:"at"` // when it was, in milliseconds since 1970 by the phone's clock

	Note  string   `json:"note,omitempty"`
	Alt   string   `json:"alt,omitempty"`   // what the photograph shows
	Photo bool     `json:"photo,omitempty"` // a photograph comes with it
	Spent string   `json:"spent,omitempty"` // how long it took, as people write it
	Sure  bool     `json:"sure,omitempty"`  // the clock did run all the while
	Done  bool     `json:"done,omitempty"`  // the step is finished with it
	Name  string   `json:"name,omitempty"`  // what was measured
	Value string   `json:"value,omitempty"` // and how much it was
	Of    []string `json:"of,omitempty"`    // the edges of a hem, piece.edge each
	After string   `json:"after,omitempty"` // how long the hem had hung
	First string   `json:"first,omitempty"` // how far along it the first station is
	Drops []string `json:"drops,omitempty"` // how much it dropped, station by station

	Piece     string `json:"piece,omitempty"`     // of a paper piece: what it is called; its edges' names are in Of
	Allowance string `json:"allowance,omitempty"` // how wide its paper's allowances are
	Fold      string `json:"fold,omitempty"`      // at which side of the photograph its fold lies: a key of foldSides
	Far       string `json:"far,omitempty"`       // what was measured between two cards

	Moved []string `json:"moved,omitempty"` // corners of a traced piece that were moved by hand, as [paperpiece.ParseShift] reads them
}

// slipKinds are the kinds of slip: on, pause, off and drop are what a clock does;
// time is a time that no clock has counted; done says that a step is finished;
// measured is a finished dimension and hang the drops of a hem that hung; trace is a
// photograph of a paper piece, edges the names of its edges, and altered a photograph of
// its paper after a fitting.
var slipKinds = []string{"on", "pause", "off", "drop", "time", "note", "done", "measured", "hang", "trace", "edges", "altered"}

// A slipAnswer says what became of a slip.
type slipAnswer struct {
	State state          `json:"state"`
	Said  string         `json:"said,omitempty"`
	Ask   *clockQuestion `json:"ask,omitempty"`
}

// A state is what became of a slip.
type state string

// The states of a slip. Refused and Later have written nothing.
const (
	kept    state = "kept"    // it is in the records, now or since it was sent before
	refused state = "refused" // it cannot be entered as it is
	later   state = "later"   // it may be sent again: what is in the way may pass
)

// A clockQuestion is the question about a clock that was probably forgotten.
type clockQuestion struct {
	Ran       string `json:"ran"`                 // how long it ran, in words
	Closed    int64  `json:"closed,omitempty"`    // when the workroom closed first, in milliseconds since 1970
	ClosedRan string `json:"closedRan,omitempty"` // how long it had run then
}

// A refusal says why a slip cannot be entered.
type refusal struct {
	*fault.Refusal
	Ask *clockQuestion
}

func refuse(text string) error { return refuseAsking(nil, text) }

func refuseAsking(ask *clockQuestion, text string) error {
	return &refusal{fault.Refusing("", text), ask}
}

const (
	mostSlip  = 64 << 10 // bytes of a slip without its photograph
	mostNote  = 20_000   // characters
	mostWords = 400      // characters of anything else
	mostDrops = 60       // stations of one hem
	mostEdges = 24       // edges of one hem
)

var slipID = regexp.MustCompile(`^[0-9a-f]{32}$`)

// readSlip reads a slip and refuses what cannot be one.
func readSlip(text []byte) (phoneSlip, error) {
	var s phoneSlip
	dec := json.NewDecoder(bytes.NewReader(text))
	dec.DisallowUnknownFields()
	if err := dec.Decode(&s); err != nil {
		return s, errors.New(say.Of("capture.this-cannot-be-read-as-an-entry"))
	}
	if _, err := dec.Token(); !errors.Is(err, io.EOF) {
		return s, errors.New(say.Of("capture.there-is-something-after-the-entry"))
	}
	return s, s.check()
}

// check looks at a slip alone, not at what is in the workroom.
func (s *phoneSlip) check() error {
	if !slipID.MatchString(s.ID) {
		return errors.New(say.Of("capture.its-number-cannot-be-read"))
	}
	if !slices.Contains(slipKinds, s.Kind) {
		return errors.New(say.Of("capture.is-no-kind-of-entry", fmt.Sprintf("%.40q", s.Kind)))
	}
	if s.At < 0 || s.At > 1<<43 { // the year 2248
		return errors.New(say.Of("capture.its-time-cannot-be-read"))
	}
	if len(s.Drops) > mostDrops || len(s.Of) > mostEdges || len(s.Moved) > mostEdges {
		return errors.New(say.Of("capture.a-hem-has-places-and-edges-at", mostDrops, mostEdges))
	}
	words := append([]string{s.Build, s.Step, s.Alt, s.Spent, s.Name, s.Value, s.After, s.First, s.Piece, s.Allowance, s.Fold, s.Far}, slices.Concat(s.Of, s.Drops, s.Moved)...)
	for _, w := range words {
		if utf8.RuneCountInString(w) > mostWords || strings.ContainsAny(w, "\r\n\x00") {
			return errors.New(say.Of("capture.something-in-it-is-longer-than-one"))
		}
	}
	if utf8.RuneCountInString(s.Note) > mostNote {
		return errors.New(say.Of("capture.the-note-is-longer-than-characters", mostNote))
	}
	return s.fits()
}

// fits reports what a slip of its kind must say and does not.
func (s *phoneSlip) fits() error {
	need := func(ok bool, say string) error {
		if ok {
			return nil
		}
		return refuse(say)
	}
	switch s.Kind {
	case "note":
		return need(strings.TrimSpace(s.Note) != "" || s.Photo, say.Of("capture.write-something-first"))
	case "time":
		return need(s.Step != "" && s.Spent != "", say.Of("capture.it-does-not-say-which-step-or"))
	case "measured":
		return need(strings.TrimSpace(s.Name) != "" && s.Value != "", say.Of("capture.it-does-not-say-what-was-measured"))
	case "trace", "altered":
		return need(s.Photo && strings.TrimSpace(s.Piece) != "", say.Of("capture.it-has-no-photograph-or-does-not"))
	case "edges":
		return need(len(s.Of) > 0 && strings.TrimSpace(s.Piece) != "", say.Of("capture.it-does-not-say-which-piece-or"))
	case "hang":
		return need(len(s.Of) > 0 && len(s.Drops) > 1, say.Of("capture.it-does-not-say-which-hem-or"))
	}
	return need(s.Step != "", say.Of("capture.it-does-not-say-which-step"))
}

// sum tells slips apart that have one id.
func (s *phoneSlip) sum() string {
	text, err := json.Marshal(s)
	if err != nil {
		panic(err) // plain words alone
	}
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:8])
}

const (
	oldest   = 60 * 24 * time.Hour // of a slip that waited on a phone
	mostSkew = 90 * time.Second    // by which two clocks may differ unheeded
)

// moment is when a slip was by this machine's clock. phone is what the phone's
// clock said when it was sent: where the two differ the difference is taken
// off, so that a phone that is an hour ahead does not note an hour ahead.
func (s *phoneSlip) moment(phone int64, now time.Time) (time.Time, error) {
	at := time.UnixMilli(s.At)
	if off := now.Sub(time.UnixMilli(phone)); phone > 0 && off.Abs() > mostSkew {
		at = at.Add(off)
	}
	switch at = at.In(now.Location()); {
	case at.After(now.Add(mostSkew)):
		return at, refuse(say.Of("capture.is-still-to-come-is-the-phones", at.Format("2006-01-02 15:04")))
	case now.Sub(at) > oldest:
		return at, refuse(say.Of("capture.is-more-than-60-days-ago-is", at.Format("2006-01-02 15:04")))
	case at.After(now):
		at = now
	}
	return at.Truncate(time.Second), nil
}
