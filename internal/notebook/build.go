package notebook

import (
	"strconv"
	"time"

	"hembook/internal/fitting"

	"hembook/internal/cutting"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/label"
	"hembook/internal/measure"
	"hembook/internal/order"
	"hembook/internal/record"
	"hembook/internal/say"
)

// A BuildPage is the page of one garment.
type BuildPage struct {
	Head
	Garment string
	For     string
	State   string
	Begun   record.Day
	Due     record.Day
	Sent    record.Day

	Picture  *Picture
	Pictures []Picture
	Story    Passage
	Change   Passage // what the maker would do otherwise, of the notes
	Notes    Passage // the others

	Pieces     []*garment.Piece
	Seams      []*garment.Seam
	Finishes   []*garment.Finish
	SeamWays   []Link        // the techniques of Seams, one for each; no address where none is known
	FinishWays []Link        // those of Finishes
	Sections   []garment.Way // one for each way of seaming or finishing, with the measures it was sewn with
	Levels     []*fitting.Level
	Lengths    []*fitting.Length
	Cloths     []BuildCloth
	Threads    []*garment.Thread
	Machine    []garment.MachineSet // how the machine is set
	Bias       []*garment.Bias
	Notions    []Notion
	Steps      []Step
	Lays       []LayPlan         // one for each cloth that is cut from; none where lays are not planned
	Striping   *cutting.Striping // where stripes and checks lie on the pieces; nil where no cloth has any
	Hangs      []*fitting.Hang   // how far hems dropped
	Lineage    *figure.Lineage   // which figures of the garment go into which
	Timing     *order.Timing     // the order of work, looked at from the record's last moment; nil where it knows none
	Totals     garment.Totals
	Spent      figure.Figure
	Hours      figure.Figure  // planned, where nothing is clocked yet; else not set
	Content    *label.Content // what the garment is made of, by fibre; nil where nobody worked it out
	Care       *label.Care    // what it stands; nil likewise
	Cautions   []label.Caution
	Fittings   []Fitting
	Rounds     []Round                // what the rounds of fitting did; none where none altered a line
	States     [][]fitting.PieceState // of each piece that rounds altered, the draft first
	Truing     []garment.Check        // whether what must meet does meet
	Round      int                    // the round whose changes are in all figures; 0 for the draft
	Together   *order.Together        // nil where nothing is joined
	Openings   []garment.Opening      // of its outer layer
	Slits      []garment.Slit         // what zips and buttons open and close
	Journal    []Entry
	Folder     string      // of the record, from the workroom's folder: places in it are given without
	Record     *RecordPage // nil where the record is not shown
}

// A RecordPage is the page of a build's record as it was written.
type RecordPage struct {
	Head
	File string // from the workroom's folder
	Text []byte // YAML, private parts cut out
}

// A BuildCloth is a cloth in one part of the garment.
type BuildCloth struct {
	Part   string
	Cloth  Link
	Colour string
	Swatch string
	Fibres string
	Pieces []string

	Area      figure.Figure
	CutArea   figure.Figure
	Allowance figure.Figure
	Share     figure.Figure
	Length    figure.Figure
	Needed    figure.Figure
	OnHand    figure.Figure // over on the shelf, or short; not set where it is not laid
	Enough    bool          // the cloth on the shelf is enough
	Mass      figure.Figure
}

// A Notion is a notion without its price.
type Notion struct {
	What     string
	Note     string
	Material string
	Count    figure.Figure
	Length   figure.Figure
	Total    figure.Figure
	Gap      figure.Figure
	Mass     figure.Figure
	Places   []measure.Length
	Hole     figure.Figure // not set where it has no buttonholes
	Stand    figure.Figure
	ToHave   figure.Figure // of buttons, with spare ones
	Lies     string        // how its buttonholes lie, who works them and on which side
}

// A Step is an operation in the order of work.
type Step struct {
	*order.Step
	Technique Link // no address where none is named
}

// A Fitting is one round.
type Fitting struct {
	Round   int
	Anchor  string // where it is led to
	On      record.Day
	From    string
	Posted  record.Day // sent off to be tried on; the zero Day where it was not
	Back    record.Day // and home again
	Saw     string
	Changes []record.Change
	Picture *Picture
}

// An Entry is one line of the journal.
type Entry struct {
	When    time.Time
	Anchor  string // where it is led to
	Step    string // ID of the step that was worked on; "" where none was
	Did     string // the step's words
	For     time.Duration
	Note    Passage
	Picture *Picture
}

// Build lays out the page of build number i of the room. timing may be nil.
func (b *Book) Build(i int, c *cutting.Cutting, timing *order.Timing) *BuildPage {
	g := c.Garment
	r := g.Build
	p := &BuildPage{
		Head:    Head{b.builds[i].Address, "build", r.Name.Or(b.builds[i].Name), r.Summary.V, []Link{{BuildsAddress, garmentsName}}},
		Garment: r.Garment.V, For: forWhom(r.For), State: r.State.V,
		Begun: r.Begun.V, Due: r.Due.V, Sent: r.Sent.V,
		Story:  passage(r.Story, r.Folder),
		Pieces: g.Pieces, Seams: g.Seams, Finishes: g.Finishes, Sections: g.SewingWays(),
		Levels: g.Fit.Levels, Lengths: g.Fit.Lengths, Threads: g.Threads, Machine: g.Machine, Bias: g.Bias,
		Totals: g.Totals, Spent: g.Spent, Hours: g.Hours, Cautions: g.Cautions, Folder: r.Folder, Hangs: g.Fit.Hangs, Timing: timing,
		Lineage: g.Lineage(),
		Round:   g.Round, Truing: g.Compared(), Together: order.GoesTogether(g.Garment, g.Steps), Openings: g.Openings, Slits: g.Slits,
	}
	p.Change, p.Notes = passageOf(r.Notes, r.Folder).parted(changeHeads)
	p.rounds(c.Rounds)
	for _, l := range c.Lays {
		plan := layPlan(l)
		plan.fromRemnants(l, r.Slug)
		p.Lays = append(p.Lays, plan)
	}
	p.Striping = c.Striping()
	if r.Text != nil {
		p.Record = &RecordPage{Head: Head{
			b.records[i], "record", say.Of("notebook.record-of", p.Heading), say.Of("notebook.everything-i-wrote-down-for-this"),
			[]Link{{BuildsAddress, garmentsName}, p.link()},
		}, File: b.room.Builds[i].Path, Text: r.Text}
	}
	if pic, ok := picture(r.Folder, r.Picture.Photo()); ok {
		p.Picture = &pic
	}
	for _, ph := range r.Pictures {
		if pic, ok := picture(r.Folder, ph); ok {
			p.Pictures = append(p.Pictures, pic)
		}
	}
	for _, k := range g.Cloths {
		cloth := b.buildCloth(k)
		for _, l := range c.Lays {
			if l.Part == k.Part {
				cloth.OnHand, cloth.Enough = l.OnHand, l.Enough
			}
		}
		p.Cloths = append(p.Cloths, cloth)
	}
	for _, n := range g.Notions {
		p.Notions = append(p.Notions, notion(n))
	}
	for _, s := range g.Steps {
		p.Steps = append(p.Steps, b.step(s))
	}
	for _, s := range g.Seams {
		p.SeamWays = append(p.SeamWays, b.wayOf(s.Record.Technique.V))
	}
	for _, f := range g.Finishes {
		p.FinishWays = append(p.FinishWays, b.wayOf(f.Record.Technique.V))
	}
	p.Fittings = fittings(r)
	p.Journal = journal(r)
	return p
}

// wayOf is the page of the technique of that name; no address where there is none.
func (b *Book) wayOf(technique string) Link {
	l, _ := b.Technique(technique)
	return l
}

// forWhom says who a garment is for in general terms.
func forWhom(f record.ForWhom) string { return f.Who.V }

func (b *Book) buildCloth(c *garment.Cloth) BuildCloth {
	out := BuildCloth{
		Part: c.Part, Cloth: Link{Name: c.Part}, Area: c.Area, CutArea: c.CutArea, Allowance: c.Allowance,
		Share: c.Share, Length: c.Length, Needed: c.Needed, Mass: c.Mass,
	}
	for _, p := range c.Pieces {
		out.Pieces = append(out.Pieces, p.Name)
	}
	if c.Cloth == nil {
		return out
	}
	out.Cloth.Name = c.Cloth.Name.V
	if l, ok := b.Cloth(c.Cloth.Slug); ok {
		out.Cloth = l
	}
	out.Colour, out.Swatch, out.Fibres = c.Cloth.Colour.V, c.Cloth.Swatch.V, fibreWords(c.Cloth.Fibres)
	return out
}

func notion(n *garment.Notion) Notion {
	out := Notion{Count: n.Count, Length: n.Length, Total: n.Total, Gap: n.Gap, Mass: n.Mass, Places: n.Places, Hole: n.Hole, Stand: n.Stand, ToHave: n.ToHave, Lies: n.HolesLie}
	if r := n.Record; r != nil {
		out.What, out.Note, out.Material = r.Name.V, r.Note.V, r.Material.V
	}
	return out
}

func (b *Book) step(s *order.Step) Step {
	out := Step{Step: s}
	if name := s.Record.Technique; name.Given() {
		out.Technique, _ = b.Technique(name.V)
	}
	return out
}

func fittings(r *record.Build) []Fitting {
	var out []Fitting
	for _, f := range r.Fittings {
		one := Fitting{Round: f.Round.V, Anchor: "fitting-" + strconv.Itoa(f.Round.V), On: f.On.V, From: f.From.V, Posted: f.Posted.V, Back: f.Back.V, Saw: f.Saw.V, Changes: f.Change}
		if pic, ok := picture(r.Folder, f.Photo); ok {
			one.Picture = &pic
		}
		out = append(out, one)
	}
	return out
}

func journal(r *record.Build) []Entry {
	words := map[string]string{}
	for i := range r.Work {
		words[r.Work[i].StepID()] = r.Work[i].Do.V
	}
	var out []Entry
	anchors := map[string]int{}
	for _, e := range r.Journal {
		anchor := "day-" + e.When.V.Format("2006-01-02")
		if anchors[anchor]++; anchors[anchor] > 1 {
			anchor += "-" + strconv.Itoa(anchors[anchor])
		}
		one := Entry{When: e.When.V, Anchor: anchor, Step: e.Did.V, Did: words[e.Did.V], For: e.For.V, Note: passage(e.Note, r.Folder)}
		if one.Did == "" {
			one.Did = e.Did.V
		}
		if pic, ok := picture(r.Folder, e.Photo); ok {
			one.Picture = &pic
		}
		out = append(out, one)
	}
	return out
}
