package trade

import (
	"math"
	"slices"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/say"
)

// A SectionRule is the cross-section of a seam type as data. Points are pairs
// of formulas: x across the seam in true millimetres with the finished seam
// line or edge at 0, y up through the layers, right side of the garment up.
// Besides the parameters, two drawing measures may be used: ply, the schematic
// distance from one layer to the next, and run, how far the garment goes on.
type SectionRule struct {
	Layers   []LayerRule  `yaml:"layers"`
	Stitches []StitchRule `yaml:"stitches,omitempty"`
	Dims     []DimRule    `yaml:"dims,omitempty"`
	Labels   []LabelRule  `yaml:"labels,omitempty"`
}

// A LayerRule is one ply from end to end.
type LayerRule struct {
	Of     Role        `yaml:"of"`
	Called string      `yaml:"called,omitempty"` // its name in the drawing, where the role's does not fit
	Path   []PointRule `yaml:"path"`
	Start  End         `yaml:"start,omitempty"`
	End    End         `yaml:"end,omitempty"`
}

// A PointRule is a point, written [x, y], or an arc, written
// {arc: [centre x, centre y, radius, from degrees, to degrees]}.
type PointRule struct {
	X, Y Expr
	Arc  []Expr
}

// A StitchRule is a thread through the layers in the course of pass Row.
type StitchRule struct {
	Row   int         `yaml:"row"`
	From  PointRule   `yaml:"from"`
	To    PointRule   `yaml:"to"`
	Round []PointRule `yaml:"round,omitempty"`
}

// A DimRule is a measured distance to be shown.
type DimRule struct {
	From PointRule `yaml:"from"`
	To   PointRule `yaml:"to"`
	Text string    `yaml:"text"`
}

// A LabelRule is a word put at a point.
type LabelRule struct {
	At   PointRule `yaml:"at"`
	Text string    `yaml:"text"`
}

// Role says what a layer of a cross-section is.
type Role string

// The roles a layer may have.
const (
	ClothA      Role = "cloth a"     // the first piece
	ClothB      Role = "cloth b"     // the second piece
	ClothC      Role = "cloth c"     // the third piece of a seam of three
	Tape        Role = "tape"        // strip, binding, tape
	Facing      Role = "facing"      // shaped facing
	Lining      Role = "lining"      // lining or underlining
	Interfacing Role = "interfacing" // what stiffens, cut as a strip or with the piece
	Cord        Role = "cord"        // piping cord or drawstring, in section
	Braid       Role = "braid"       // stiff open braid
	Elastic     Role = "elastic"     // shorter than its edge, which it draws in
	Ribbing     Role = "ribbing"     // likewise, knitted
	Stay        Role = "stay"        // a tape that keeps a length
	Zip         Role = "zip"         // the tape of a zip with its teeth
)

// roles are all roles, with the word that a row passes each by.
var roles = []struct {
	role Role
	word string
}{
	{ClothA, "a"}, {ClothB, "b"}, {ClothC, "c"}, {Tape, "tape"}, {Facing, "facing"}, {Lining, "lining"}, {Interfacing, "interfacing"},
	{Cord, "cord"}, {Braid, "braid"}, {Elastic, "elastic"}, {Ribbing, "ribbing"}, {Stay, "stay"}, {Zip, "zip"},
}

// roleNames are the words for layers.
var roleNames = func() []string {
	out := make([]string, len(roles))
	for i, r := range roles {
		out[i] = string(r.role)
	}
	return out
}()

// sideRoles are the roles of the sides of a seam.
var sideRoles = [...]Role{ClothA, ClothB, ClothC}

// stripRoles are the roles a strip may have; the pieces of a garment are no strips.
var stripRoles = []Role{Tape, Facing, Lining, Interfacing, Cord, Braid, Elastic, Ribbing, Stay, Zip}

// DrawsIn reports whether what has this role is shorter than the edge it is sewn to,
// and draws it in.
func (r Role) DrawsIn() bool { return r == Elastic || r == Ribbing }

// End says how a layer ends.
type End string

// The ways a layer may end.
const (
	GoesOn   End = "on"       // the garment continues; drawn with a break
	RawEdge  End = "raw"      // cut
	Pinked   End = "pinked"   // cut in teeth
	Selvedge End = "selvedge" // woven or made edge
	Closed   End = "closed"   // the path joins up with itself
)

// A Pt is a point of a drawn section: x in true millimetres, y schematic.
type Pt struct{ X, Y float64 }

// A Section is a seam type drawn with given measures: geometry alone, to be
// stroked by whatever draws. Folds are already rounded.
type Section struct {
	Ply      float64 // schematic distance between neighbouring layers
	Layers   []Layer
	Stitches []SectionStitch
	Dims     []Dim
	Labels   []Label
	Folds    []float64 // where it will be folded, x, while it lies flat
	Trimmed  [][2]Pt   // what is about to be trimmed off its plies
	Min, Max Pt        // box around layers and stitches
}

// A Layer is one ply; Path is a polyline along its middle.
type Layer struct {
	Role       Role
	Name       string // what it is called in this type: "garment", "bias strip"
	Path       []Pt
	Start, End End
	Face       Face // on which side of the path the right side of the cloth lies
}

// A Face is a side of a path, as one goes along it.
type Face int8

// The sides; the zero value is not known.
const (
	faceLeft  Face = 1
	faceRight Face = -1
)

// A SectionStitch is where a thread passes through the layers. Row counts the
// passes of the seam type from 1. Round, where given, is the way of a thread
// that goes about an edge instead of straight from From to To.
type SectionStitch struct {
	From, To  Pt
	Row       int
	Round     []Pt
	Temporary bool
}

// A Dim is a distance with its name; Value is in millimetres.
type Dim struct {
	From, To Pt
	Name     string
	Value    float64
	Text     string // name and value: "second pass 9 mm"
}

// A Label is a word at a point.
type Label struct {
	At   Pt
	Text string
}

// UnmarshalYAML reads [x, y] or {arc: […]}.
func (p *PointRule) UnmarshalYAML(n *yaml.Node) error {
	if n.Kind == yaml.SequenceNode && len(n.Content) == 2 {
		if err := p.X.UnmarshalYAML(n.Content[0]); err != nil {
			return err
		}
		return p.Y.UnmarshalYAML(n.Content[1])
	}
	if n.Kind == yaml.MappingNode && len(n.Content) == 2 && n.Content[0].Value == "arc" {
		arc := n.Content[1]
		if arc.Kind == yaml.SequenceNode && len(arc.Content) == 5 {
			p.Arc = make([]Expr, 5)
			for i, c := range arc.Content {
				if err := p.Arc[i].UnmarshalYAML(c); err != nil {
					return err
				}
			}
			return nil
		}
	}
	return valueFault(n, say.Of("trade.a-point-please-x-y-or-arc"))
}

func (p PointRule) exprs() []Expr {
	if p.Arc != nil {
		return p.Arc
	}
	return []Expr{p.X, p.Y}
}

// drawing measures a section may use besides the parameters
const (
	plyName = "ply"
	runName = "run"
)

// thinShare is how much of the smallest distance in a section the drawn
// thickness of cloth may take sideways.
const thinShare = 0.45

// drawer works out what a section is drawn with beside its measures: ply and
// run, in proportion to what is drawn, so that a narrow hem and a deep one are
// both readable. Sideways a ply is never so thick that a narrow turn is lost in
// it, or a row slips off the cloth that it holds.
func (t SeamType) drawer(p Params) (drawer, error) {
	widest := 4.0
	for name, v := range p {
		if !t.lengthAlone(name) {
			widest = math.Max(widest, v)
		}
	}
	ply := math.Min(math.Max(widest/8, 0.8), 5)
	bare := drawer{p: p.and(0, 0)}
	bare.aside = bare.p
	var at []float64 // where something is, with no thickness
	for _, l := range t.Drawing.Layers {
		for _, r := range l.Path {
			if r.Arc == nil {
				at = append(at, bare.value(r.X))
			}
		}
	}
	for _, s := range t.Drawing.Stitches {
		at = append(at, bare.value(s.From.X), bare.value(s.To.X))
	}
	for _, r := range t.beside {
		for _, side := range r.On {
			at = append(at, side.sign()*r.At)
		}
	}
	slices.Sort(at)
	thin, reach := ply, widest
	for i := range at {
		reach = math.Max(reach, math.Abs(at[i]))
		if i > 0 && at[i]-at[i-1] > 1e-6 {
			thin = math.Min(thin, thinShare*(at[i]-at[i-1]))
		}
	}
	run := 1.35*math.Max(widest, reach) + 4*ply
	return drawer{p: p.and(ply, run), aside: p.and(thin, run)}, bare.err
}

// lengthAlone reports whether a measure only says how long a strip or piece is, which no
// section across shows.
func (t SeamType) lengthAlone(name string) bool {
	long := slices.ContainsFunc(t.Strips, func(s Strip) bool { return slices.Contains(s.Length.Names(), name) }) ||
		slices.ContainsFunc(t.Pieces, func(p PieceRule) bool { return slices.Contains(p.Length.Names(), name) })
	return long && !slices.Contains(t.Width.Names(), name) && !slices.Contains(t.Gives.A.Names(), name)
}

// and are the measures with ply and run.
func (p Params) and(ply, run float64) Params {
	out := Params{plyName: ply, runName: run}
	for k, v := range p {
		out[k] = v
	}
	return out
}

// Section is the cross-section with the given measures, ready to be stroked;
// defaults stand in for measures not given.
func (t SeamType) Section(given Params) (Section, error) {
	p, err := t.Values(given)
	if err != nil {
		return Section{}, err
	}
	d, err := t.drawer(p)
	if err != nil {
		return Section{}, fault.Wrapping(err, say.Of("trade.cross-section-of", t.Title, err))
	}
	s := Section{Ply: d.p[plyName]}
	for _, l := range t.Drawing.Layers {
		l.Of = t.roleOn(l.Of)
		layer := d.layer(l)
		layer.Name = t.layerName(l)
		layer.Face = layer.face(t.Turns && l.Of == ClothB)
		s.Layers = append(s.Layers, layer)
	}
	for _, r := range t.Drawing.Stitches {
		st := SectionStitch{From: d.point(r.From), To: d.point(r.To), Row: r.Row, Round: d.path(r.Round)}
		st.Temporary = r.Row >= 1 && r.Row <= len(t.Passes) && t.Passes[r.Row-1].Temporary
		s.Stitches = append(s.Stitches, st)
	}
	for _, r := range t.Drawing.Dims {
		s.Dims = append(s.Dims, d.dim(r))
	}
	for _, r := range t.Drawing.Labels {
		s.Labels = append(s.Labels, Label{d.point(r.At), r.Text})
	}
	if d.err != nil {
		return Section{}, fault.Wrapping(d.err, say.Of("trade.cross-section-of", t.Title, d.err))
	}
	s.faceStrips(&t)
	s.stitchBeside(&t)
	s.measure()
	return s, nil
}

// Called is the section with what its sides are called instead of what they are in
// every seam of the type; a side without a name keeps its own.
func (s Section) Called(sides [3]string) Section {
	s.Layers = slices.Clone(s.Layers)
	for i := range s.Layers {
		l := &s.Layers[i]
		if side := slices.Index(sideRoles[:], l.Role); side >= 0 && l.Name != "" && sides[side] != "" {
			l.Name = sides[side]
		}
	}
	return s
}

// Round reports whether something in it is round, as a cord is.
func (s *Section) Round() bool {
	return slices.ContainsFunc(s.Layers, func(l Layer) bool { return l.End == Closed })
}

// Stretched is the section so many times as high, which is schematic anyway.
func (s Section) Stretched(by float64) Section {
	up := func(list []Pt) []Pt {
		out := make([]Pt, len(list))
		for i, q := range list {
			out[i] = Pt{q.X, q.Y * by}
		}
		return out
	}
	s.Ply *= by
	s.Layers, s.Stitches, s.Dims, s.Labels, s.Trimmed = slices.Clone(s.Layers), slices.Clone(s.Stitches), slices.Clone(s.Dims), slices.Clone(s.Labels), slices.Clone(s.Trimmed)
	for i := range s.Layers {
		s.Layers[i].Path = up(s.Layers[i].Path)
	}
	for i := range s.Stitches {
		st := &s.Stitches[i]
		st.From.Y, st.To.Y, st.Round = st.From.Y*by, st.To.Y*by, up(st.Round)
	}
	for i := range s.Dims {
		s.Dims[i].From.Y, s.Dims[i].To.Y = s.Dims[i].From.Y*by, s.Dims[i].To.Y*by
	}
	for i := range s.Labels {
		s.Labels[i].At.Y *= by
	}
	for i := range s.Trimmed {
		s.Trimmed[i][0].Y, s.Trimmed[i][1].Y = s.Trimmed[i][0].Y*by, s.Trimmed[i][1].Y*by
	}
	s.measure()
	return s
}

// layerName is what a layer is called: by its own word, as the strip that it is,
// or by its role.
func (t SeamType) layerName(l LayerRule) string {
	switch {
	case l.Called != "":
		return l.Called
	case l.Of == ClothA && t.Kind == Finish:
		return "garment"
	case l.Of == ClothA:
		return say.Of("trade.first-piece")
	case l.Of == ClothB:
		return say.Of("trade.second-piece")
	case l.Of == ClothC:
		return say.Of("trade.third-piece")
	}
	for i := range t.Strips {
		if t.Strips[i].As == l.Of {
			return t.Strips[i].What
		}
	}
	if l.Of == Tape {
		return "strip"
	}
	return string(l.Of)
}

// measure sets the box around all layers and stitches.
func (s *Section) measure() {
	s.Min = Pt{math.Inf(1), math.Inf(1)}
	s.Max = Pt{math.Inf(-1), math.Inf(-1)}
	grow := func(pts ...Pt) {
		for _, q := range pts {
			s.Min = Pt{math.Min(s.Min.X, q.X), math.Min(s.Min.Y, q.Y)}
			s.Max = Pt{math.Max(s.Max.X, q.X), math.Max(s.Max.Y, q.Y)}
		}
	}
	for _, l := range s.Layers {
		grow(l.Path...)
	}
	for _, st := range s.Stitches {
		grow(st.From, st.To)
		grow(st.Round...)
	}
	for _, off := range s.Trimmed {
		grow(off[:]...)
	}
	if math.IsInf(s.Min.X, 0) {
		s.Min, s.Max = Pt{}, Pt{}
	}
}
