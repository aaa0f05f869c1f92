package trade

import (
	"slices"

	"gopkg.in/yaml.v3"

	"hembook/internal/meant"
	"hembook/internal/say"
)

// AlongName is, in the formulas of how long a strip or piece is, the length of the edge
// that it is sewn to, in millimetres: all of it, where edges run on as one.
const AlongName = "along"

// A Strip is cloth, tape, elastic or a zip that the construction needs besides the
// pieces: Count strips, cut Cut millimetres wide. Each is as long as the seam; or that
// times its Share, as elastic is; or as long as Length says.
type Strip struct {
	What   string  `yaml:"what"`
	As     Role    `yaml:"as,omitempty"` // what it is in the section; a tape where nothing is said
	Cut    Expr    `yaml:"cut"`
	Share  float64 `yaml:"share,omitempty"`  // its length for one of the edge
	Length Expr    `yaml:"length,omitempty"` // its length in mm, by the length of the edge
	Count  int     `yaml:"count,omitempty"`
}

// Shares is the strip's length for one of the edge: 1 where nothing is said.
func (s *Strip) Shares() float64 {
	if s.Share == 0 {
		return 1
	}
	return s.Share
}

// A PieceRule is a piece that a construction brings: a rectangle of Cut by Length,
// both in millimetres with its allowances, Count of them for every edge, or for every slit.
type PieceRule struct {
	What   string `yaml:"what"`
	Cut    Expr   `yaml:"cut"`
	Length Expr   `yaml:"length"`
	Count  int    `yaml:"count,omitempty"`
	Folds  []Expr `yaml:"folds,omitempty"` // where it is folded along its length, from its left side, mm
	Of     string `yaml:"of,omitempty"`    // the part whose cloth it is cut from, where the garment has it; else the first cloth
	Grain  string `yaml:"grain,omitempty"` // how its length lies on the cloth: along it where nothing is said, else across or bias
}

// Grains are how a piece that is brought may lie on its cloth.
var Grains = []string{"", "along", "across", "bias"}

// A SewnTo is what a construction is sewn to, or on.
type SewnTo string

// The places that a construction may want.
const (
	OnEdge SewnTo = "edge" // a whole edge
	OnPart SewnTo = "part" // a part of an edge, as front.rise from waist for 180
	OnSlit SewnTo = "slit" // a slit that is cut into a piece
	OnLine SewnTo = "line" // a line on a piece
	OnSeam SewnTo = "seam" // a seam that is sewn already
	OnSpot SewnTo = "place"
)

var places = []string{string(OnEdge), string(OnPart), string(OnSlit), string(OnLine), string(OnSeam), string(OnSpot)}

// Words is the place with its article.
func (p SewnTo) Words() string {
	switch p {
	case OnEdge:
		return say.Of("trade.an-edge")
	case OnPart:
		return say.Of("trade.a-part-of-an-edge")
	}
	return "a " + string(p)
}

// Places are the places a construction may want, of which one will do.
type Places []SewnTo

// UnmarshalYAML reads a place or a list of them.
func (p *Places) UnmarshalYAML(n *yaml.Node) error {
	for _, c := range oneOrMore(n) {
		if c.Kind != yaml.ScalarNode {
			return valueFault(c, say.Of("trade.a-place-please-such-as-slit-or"))
		}
		*p = append(*p, SewnTo(c.Value))
	}
	return nil
}

// Take reports whether a construction that wants these places goes on one; where none
// is named it goes on edges and parts of them.
func (p Places) Take(at SewnTo) bool {
	if len(p) == 0 {
		return at == OnEdge || at == OnPart
	}
	return slices.Contains(p, at)
}

// DrawnIn is the strip that draws the edge in, and false where none does.
func (t *SeamType) DrawnIn() (*Strip, bool) {
	for i := range t.Strips {
		if s := &t.Strips[i]; s.As.DrawsIn() {
			return s, true
		}
	}
	return nil, false
}

// Opens reports whether a seam of this type is closed by a zip, so that it opens.
func (t *SeamType) Opens() bool {
	return slices.ContainsFunc(t.Strips, func(s Strip) bool { return s.As == Zip })
}

// brings checks what a type brings besides the pieces, and where it wants to be sewn.
func (c *seamChecker) brings(known []string) {
	long := append(slices.Clone(known), AlongName)
	for i := range c.t.Strips {
		s := &c.t.Strips[i]
		c.wants(say.Of("trade.cut-of", s.What), s.Cut, known)
		if s.What == "" || s.Count < 1 {
			c.fault("", say.Of("trade.a-strip-wants-what-it-is-and", c.who()))
		}
		if !slices.Contains(stripRoles, s.As) {
			c.fault(meant.Hint(string(s.As), textsOf(stripRoles)), say.Of("trade.a-strip-is-no-one-of", c.who(), say.Quoted(s.As), meant.List(textsOf(stripRoles), "or")))
		}
		switch {
		case s.Share != 0 && s.Length.Given():
			c.fault(say.Of("trade.leave-one-of-them-out"), say.Of("trade.the-length-of-is-said-twice-by", c.who(), s.What))
		case s.Share < 0 || s.Share > mostShare:
			c.fault(say.Of("trade.write-share-0-9-for-nine-tenths"), say.Of("trade.a-share-of-of-the-edge", c.who(), s.Share))
		case s.Length.Given():
			c.wants(say.Of("trade.length-of", s.What), s.Length, long)
		}
	}
	for i := range c.t.Pieces {
		p := &c.t.Pieces[i]
		c.wants(say.Of("trade.cut-of", p.What), p.Cut, known)
		c.wants(say.Of("trade.length-of", p.What), p.Length, long)
		if p.What == "" || p.Count < 1 {
			c.fault("", say.Of("trade.a-piece-wants-what-it-is-and", c.who()))
		}
		if !slices.Contains(Grains, p.Grain) {
			c.fault(meant.Hint(p.Grain, Grains[1:]), say.Of("trade.the-grain-of-cannot-be-along-across", c.who(), p.What, say.Quoted(p.Grain)))
		}
		for _, fold := range p.Folds {
			c.wants(say.Of("trade.folds-of", p.What), fold, known)
		}
	}
	c.slits(known)
	for _, at := range c.t.Wants {
		if !slices.Contains(places, string(at)) {
			c.fault(meant.Hint(string(at), places), say.Of("trade.wants-there-are", c.who(), say.Quoted(at), meant.List(places, "and")))
		}
	}
}

// mostShare is the longest that a strip may be for one of the edge: a frill is.
const mostShare = 4

func textsOf[T ~string](list []T) []string {
	out := make([]string, len(list))
	for i, v := range list {
		out[i] = string(v)
	}
	return out
}

// slits checks what only a finish of slits may say.
func (c *seamChecker) slits(known []string) {
	if !c.t.Widens.Given() {
		return
	}
	c.wants("widens", c.t.Widens, known)
	if !slices.Contains(c.t.Wants, OnSlit) {
		c.fault(say.Of("trade.write-wants-slit"), say.Of("trade.widens-says-what-a-slit-adds-to", c.who()))
	}
}

// tried works out what a type brings once, with its defaults, along an edge of a metre.
func (c *seamChecker) tried() {
	p, err := c.t.Values(nil)
	if err != nil {
		return
	}
	p[AlongName] = 1000
	try := func(what string, e Expr) {
		switch v, err := e.Value(p); {
		case err != nil:
			c.fault("", err.Error())
		case !(v > 0):
			c.fault("", say.Of("trade.comes-to-mm-with-its-defaults", c.who(), what, number(v)))
		}
	}
	for i := range c.t.Strips {
		s := &c.t.Strips[i]
		try(say.Of("trade.the-width-of", s.What), s.Cut)
		if s.Length.Given() {
			try(say.Of("trade.the-length-of", s.What), s.Length)
		}
	}
	for i := range c.t.Pieces {
		try(say.Of("trade.the-width-of", c.t.Pieces[i].What), c.t.Pieces[i].Cut)
		try(say.Of("trade.the-length-of", c.t.Pieces[i].What), c.t.Pieces[i].Length)
	}
}
