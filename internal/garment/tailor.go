package garment

import (
	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/record"
	"hembook/internal/sewn"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// A Tailor knows what holds for every garment of a workroom: its seam types,
// the trade's tables, its defaults. It is prepared once; what it knows never
// changes afterwards, and it may be used by many goroutines at once.
type Tailor struct {
	room         *record.Room
	types        map[string]*seamType
	list         []trade.SeamType  // the same in the order of the tables, for hints
	rules        map[string]string // formulas of the seam types as they are printed
	stitches     map[string]*trade.Stitch
	usual        usual
	body         map[string]string // body measurement by any of its names
	measurements []string          // their names
	keeper       *keeper
}

// A usual holds the workroom's defaults, in millimetres and per cent.
type usual struct {
	allowance, margin, tolerance, within, reel, waste, straightening, step figure.Setting
	currency                                                               string
}

// NewTailor prepares a workroom's tailor and checks what concerns no single
// build: the workroom's own seam types, and the seam types its techniques name.
func NewTailor(room *record.Room) (*Tailor, []fault.Fault) {
	t := &Tailor{
		room: room, types: map[string]*seamType{}, rules: map[string]string{},
		stitches: map[string]*trade.Stitch{},
	}
	var faults fault.Faults
	t.list = trade.SeamTypes()
	t.list = append(t.list, ownSeamTypes(room, &faults)...)
	for _, s := range t.list {
		t.types[s.Name] = newSeamType(s)
		t.prettify(s)
	}
	for _, s := range trade.Stitches() {
		t.stitches[s.Type] = &s
	}
	t.body = bodyNames()
	for _, m := range trade.Measurements() {
		t.measurements = append(t.measurements, words.Plain(m.Name))
	}
	t.keeper = newKeeper()
	t.usual = usualOf(room.Workroom)
	t.checkRoom(&faults)
	return t, faults.Sorted()
}

func usualOf(w *record.Workroom) usual {
	u := w.Usual
	return usual{
		allowance:     lengthOr(u.Allowance, 15),
		margin:        lengthOr(u.LeastMargin, 6),
		tolerance:     lengthOr(u.Tolerance, 3),
		within:        lengthOr(u.MeasuredWithin, 10),
		reel:          lengthOr(u.Reel, 200*1000),
		waste:         wasteOf(u.ThreadWaste),
		straightening: lengthOr(u.Straightening, 25),
		step:          lengthOr(u.ShopStep, 100),
		currency:      w.Currency.Or("EUR"),
	}
}

func lengthOr(l record.Length, mm float64) figure.Setting {
	if l.Given() {
		return figure.Setting{V: l.V.MM(), At: l.At, Source: "the workroom's usual"}
	}
	return figure.Setting{V: mm, Source: figure.Practice}
}

func wasteOf(p record.Percent) figure.Setting {
	if p.Given() {
		return figure.Setting{V: float64(p.V), At: p.At, Source: "the workroom's usual"}
	}
	return figure.Setting{V: 15, Source: `"Estimating thread consumption", a thread maker's technical bulletin no. 18 (15 to 20 %)`}
}

// Derive works out everything that follows from a build's record. It never
// fails: what cannot be known says why, and what is wrong is in the faults.
//
// The garment is as it is after the last round of fitting: see [Tailor.DeriveAt].
func (t *Tailor) Derive(b *record.Build) *Garment {
	list := Alterations(b)
	return t.derive(b, list, len(list))
}

// DeriveAt works out a build as it was after a round of fitting; 0 is the
// draft. A round that the record does not have is that of the last before it.
func (t *Tailor) DeriveAt(b *record.Build, round int) *Garment {
	list := Alterations(b)
	n := 0
	for n < len(list) && list[n].Round.Round.V <= round {
		n++
	}
	g := t.derive(b, list, n)
	g.Round = 0
	for _, f := range b.InOrder() {
		if f.Round.V <= round {
			g.Round = f.Round.V
		}
	}
	return g
}

// DeriveWith works out a build with the first so many of its [Alterations] in force.
func (t *Tailor) DeriveWith(b *record.Build, inForce int) *Garment {
	return t.derivePlain(b, Alterations(b), inForce)
}

// MeasuredWithin is how far a measured garment may be from its plan.
func (t *Tailor) MeasuredWithin() figure.Setting { return t.usual.within }

// derive works out a garment with the first so many alterations in force.
func (t *Tailor) derive(b *record.Build, list []Alteration, inForce int) *Garment {
	g := t.derivePlain(b, list, inForce)
	t.nameRounds(g, list, inForce)
	return g
}

// derivePlain is derive, its faults as they are whatever round brought them.
func (t *Tailor) derivePlain(b *record.Build, list []Alteration, inForce int) *Garment {
	w := t.derivation(withSetOn(withLines(withNotions(b, list, inForce), list, inForce), list, inForce), &Garment{Build: b})
	w.altering = alterer{w.index, list, inForce, w.lim.step.V}
	w.g.Round = roundAt(b, list, inForce)
	w.tellHands()
	w.pieces()
	w.joinEdges()
	w.putTogether()
	w.markBands()
	w.tellUnsewn()
	w.tellZips()
	w.allowances()
	w.cutPieces()
	w.joinedToItself()
	w.writtenTwice()
	w.seams()
	w.finishes()
	(&crossReckoner{w.index}).crossings()
	w.outs.spares()
	w.rows.dartRows()
	w.rows.pleatRows()
	w.rows.gatherRowsOfPieces()
	w.rows.besideOnPieces()
	w.rows.turnRows()
	(&levelReckoner{&w.walks, w.b, t.body, t.measurements, t.usual.within, &w.outs}).levels()
	w.tellChoices()
	open := &opener{index: w.index, planned: len(w.b.Work) > 0}
	open.openings()
	(&truer{&w.walks, &w.lim, w.tolerance}).trueUp()
	w.bringPieces()
	w.bias() // before the cloths, which the strips are cut from
	w.g.Cloths = (&clothReckoner{w.desk, b.Cloth, t.room, w.g.Pieces, w.strips}).cloths()
	(&roller{w.index}).reckon()
	w.trim.reckon()
	w.rows.holeRows()
	w.rows.sewInSteps()
	w.g.Machine = w.rows.machineSets()
	w.g.Threads = (&threadReckoner{w.desk, w.g.Rows, b.Thread, t.usual.waste, t.usual.reel}).threads()
	(&totaller{w.desk, b.Name.V, w.g}).totals()
	(&doubter{open, t, w.b, w.unsewn}).tellUnlikely()
	w.g.Faults = toldOnce(b, w.faults.Sorted())
	return w.g
}

// derivation begins a garment's figures on a pad of its own.
func (t *Tailor) derivation(b *record.Build, g *Garment) *derivation {
	begun := &struct {
		desk
		index
		derivation
	}{
		desk:  desk{Pad: figure.NewPad(t.room.Workroom.Style()), unit: t.room.UnitOf(b)},
		index: index{notions: b.Notions, uses: b.Cloth, shelf: t.room, g: g},
	}
	at, w := &begun.index, &begun.derivation
	at.desk = &begun.desk
	w.index, w.t, w.b = at, t, b
	w.tolerance, w.lim = ownUsual(b.Usual.Tolerance, t.usual.tolerance), t.limitsOf(b)
	w.trim = notionReckoner{index: at, b: b}
	w.rows = stitching{at, t.stitches, b.Thread, b.Work}
	w.walks = girthWalk{index: at}
	w.outs = letOuts{&w.walks, t.usual.margin}
	return w
}

// A derivation is one garment being derived.
type derivation struct {
	*index
	t           *Tailor
	b           *record.Build
	unsewn      []sewn.Snag // what cannot be sewn as it stands
	sewnAnchors *words.Names
	strips      []clothStrip   // strip cut from the build's cloths
	lim         limits         // how far what must meet may be off
	tolerance   figure.Setting // by how much the edges of a seam may differ
	trim        notionReckoner
	rows        stitching
	altering    alterer
	walks       girthWalk
	outs        letOuts
}

// prettify keeps the printed form of a seam type's formulas.
func (t *Tailor) prettify(s trade.SeamType) {
	for _, e := range []trade.Expr{s.Gives.A, s.Gives.B, s.Width, s.Widens} {
		t.rules[e.String()] = e.Pretty()
	}
	for _, strip := range s.Strips {
		t.rules[strip.Cut.String()] = strip.Cut.Pretty()
		t.rules[strip.Length.String()] = strip.Length.Pretty()
	}
	for _, piece := range s.Pieces {
		t.rules[piece.Cut.String()] = piece.Cut.Pretty()
		t.rules[piece.Length.String()] = piece.Length.Pretty()
		for _, fold := range piece.Folds {
			t.rules[fold.String()] = fold.Pretty()
		}
	}
}

func (t *Tailor) pretty(e trade.Expr) string { return t.rules[e.String()] }
