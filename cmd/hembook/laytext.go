package main

import (
	"io"
	"strconv"

	"hembook/internal/compose"
	"hembook/internal/cutting"
	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/figure"
	"hembook/internal/lay"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/words"
)

// layBlocks are the lays, each with the table to chalk by and its figures.
func layBlocks(d *document.Draft, bf record.BuildFile, cut *cutting.Cutting, round int) {
	d.Say(document.Say(bf.Name + " (" + bf.Slug + ")"))
	if round >= 0 {
		d.Say(document.Say(asAfter(round)))
	}
	for _, l := range cut.Lays {
		d.Add(document.Section{Head: l.Part + ": " + layHeading(l), Blocks: d.Within(func() {
			layOf(d, l)
			waysTable(d, l.Ways)
		})})
	}
}

// asAfter says which state of the pieces is meant.
func asAfter(round int) string {
	if round == 0 {
		return say.Of("hembook.the-draft-before-any-fitting")
	}
	return say.Of("hembook.after-the", words.Fitting(round))
}

func layOf(d *document.Draft, l *cutting.Lay) {
	for _, r := range l.Misfits {
		d.Say(document.Say(r.String()))
	}
	if l.Plan != nil {
		for _, line := range l.Doing {
			d.Say(document.Say(line))
		}
		chalkTable(d, l)
	}
	var list []shown
	for _, s := range shownOf(l) {
		if s.ID == l.Bound.ID || s.ID == l.Gain.ID { // tally and --json have them
			continue
		}
		if s.private && !s.Value.Known() { // who gave the cloth no price asks for none
			continue
		}
		if l.Plan != nil || s.ID == l.Needed.ID || s.ID == l.Width.ID { // the others for the same reason
			list = append(list, s)
		}
	}
	d.Add(facts(d, list, false))
	matchTable(d, l)
	if p := l.Problem; p != nil {
		for _, n := range p.Told() {
			d.Say(document.Say(n))
		}
	}
	for _, s := range l.Shelf {
		if s.Plan != nil {
			d.Say(document.Say(say.Of("hembook.all-of-it-fits-the-remnant", strconv.Quote(s.Name))))
		}
	}
}

// waysTable says what would help where the shelf has too little.
func waysTable(d *document.Draft, ways []cutting.WayOut) {
	if len(ways) == 0 {
		return
	}
	t := d.Table("", document.Words(say.Of("hembook.ways-to-get-by")), document.Words("takes"), document.Words(say.Of("hembook.on-the-shelf")))
	for _, w := range ways {
		length := func(mm float64) string { return d.Style.Length(measure.MM(mm).Round(measure.Millimetre)) }
		t.Row(w.What).Words(length(w.Takes), compose.ShelfWords(d.Style, w.Over))
	}
	t.End()
}

// matchTable tables what must meet in the pattern of the cloth.
func matchTable(d *document.Draft, l *cutting.Lay) {
	if len(l.Matches) == 0 {
		return
	}
	t := d.Table("", document.Words(say.Of("hembook.what-meets-in-the-pattern")), document.Words(say.Of("hembook.along-the-cloth")), document.Words(say.Of("hembook.across-it")))
	for _, m := range l.Matches {
		t.Row(draw.MatchWords(&m)).Words(m.Along, m.Across)
	}
	t.End()
}

func layHeading(l *cutting.Lay) string {
	name := l.Use()
	switch {
	case l.Plan == nil:
		return say.Of("hembook.no-lay-plan", name)
	case l.Plan.Folded():
		name += ", " + cutting.FoldWords(l.Plan.Folding)
	default:
		name += say.Of("hembook.single-layer-right-side-up")
	}
	if l.Stopped {
		name += say.Of("hembook.stopped-early")
	}
	return name
}

// chalkTable tables where each piece lies, in millimetres or inches.
func chalkTable(d *document.Draft, l *cutting.Lay) {
	side, end, unit := say.Of("hembook.from", cutting.AcrossFrom(l.Plan.Folding)), say.Of("hembook.from", cutting.AlongFrom(l.Plan.Folding)), " ("+tapeUnit(d.Style)+")"
	if d.Style.System == measure.Imperial {
		unit = ""
	}
	t := d.Table("", document.Words("no."), document.Words("piece"), document.Words(side+unit), document.Words(end+unit), document.Words("turned"))
	for i := range l.Chalked {
		q := &l.Chalked[i]
		t.Row(strconv.Itoa(q.Number)).Words(draw.CopyWords(q),
			reachText(q.Side, q.SideTo, d.Style), reachText(q.End, q.EndTo, d.Style), draw.TurnWords(q))
	}
	t.End()
}

// tapeUnit is what the numbers of a metric chalk table are in.
func tapeUnit(style measure.Style) string {
	if style.Unit == measure.UnitCM {
		return "cm"
	}
	return "mm"
}

func reachText(from, to float64, style measure.Style) string {
	one := func(mm float64) string {
		if style.System == measure.Imperial {
			text, _ := measure.Inches(measure.MM(mm))
			return text
		}
		if tapeUnit(style) == "cm" {
			return style.Number(mm/10, 1)
		}
		return style.Number(mm, 0)
	}
	return one(from) + " – " + one(to)
}

func shownOf(l *cutting.Lay) []shown {
	list := public(l.Figures())
	for _, p := range []figure.Private{l.Bought, l.ToBuy} {
		if f := p.Open(record.ToTheMaker); f.ID != "" {
			list = append(list, shown{f, true})
		}
	}
	return list
}

type (
	jsonLays struct {
		Build string    `json:"build"`
		Name  string    `json:"name"`
		Round *int      `json:"round,omitempty"` // the state laid; left out for the last
		Lays  []jsonLay `json:"lays"`
	}
	jsonLay struct {
		Part      string                `json:"part"`
		Cloth     string                `json:"cloth"`
		Laid      string                `json:"laid"`            // a word of the record's `fold`, or "" where there is no plan
		Doing     []string              `json:"doing,omitempty"` // how folded cloth is folded, chalked and cut, in order
		Why       string                `json:"why,omitempty"`
		Stopped   bool                  `json:"stopped,omitempty"`
		Enough    *bool                 `json:"enough"` // null where it is not known
		Refusals  []jsonRefusal         `json:"refusals,omitempty"`
		Notes     []string              `json:"notes,omitempty"`
		NotLaid   []string              `json:"notLaid,omitempty"`
		Figures   []document.JSONFigure `json:"figures"`
		Positions jsonPositions         `json:"positions"`
		Matches   []jsonMatch           `json:"matches,omitempty"`
		Remnants  []jsonRemnant         `json:"remnants"`
		Shelf     []jsonShelf           `json:"shelf,omitempty"`
		WaysOut   []jsonWayOut          `json:"waysOut,omitempty"` // of a shelf that has too little
	}
	jsonRefusal struct {
		Piece string   `json:"piece"`
		Text  string   `json:"text"`
		Hints []string `json:"hints"`
	}
	jsonPositions struct {
		Unit    string               `json:"unit"`
		Working document.JSONWorking `json:"working"`
		Pieces  []jsonPosition       `json:"pieces"`
	}
	jsonPosition struct {
		Number       int          `json:"number"`
		Piece        string       `json:"piece"`
		Copy         int          `json:"copy"`
		Pair         bool         `json:"pair,omitempty"`
		OnFold       bool         `json:"onFold,omitempty"`
		Alone        bool         `json:"alone,omitempty"` // folded cloth: from the upper layer alone
		Turned       float64      `json:"turned"`          // degrees clockwise, cut end towards you
		Mirrored     bool         `json:"mirrored"`
		Stage        int          `json:"stage"`
		FromSelvedge [2]float64   `json:"fromSelvedge"` // from the fold where folded
		FromCutEnd   [2]float64   `json:"fromCutEnd"`
		Outline      [][2]float64 `json:"outline"` // from the cut end, from the selvedge
	}
	jsonRemnant struct {
		Name    string       `json:"name"`
		Twice   bool         `json:"twice,omitempty"` // one from each layer
		Unit    string       `json:"unit"`
		Outline [][2]float64 `json:"outline"` // across, along the selvedge
	}
	jsonWayOut struct {
		What  string  `json:"what"`
		Lay   float64 `json:"lay"`   // its length, mm
		Takes float64 `json:"takes"` // of cloth, mm
		Over  float64 `json:"over"`  // on the shelf then, mm; below 0 it is still short
	}
	jsonMatch struct {
		What   string `json:"what"`
		Lines  string `json:"lines"`
		Along  string `json:"along,omitempty"`  // how they meet along the cloth
		Across string `json:"across,omitempty"` // and across it
	}
	jsonShelf struct {
		Name string `json:"name"`
		Fits bool   `json:"fits"`
		Why  string `json:"why,omitempty"`
	}
)

// laidWords are the words of a record for how cloth lies.
var laidWords = [...]string{lay.Open: "open", lay.Lengthwise: "lengthwise", lay.Crosswise: "crosswise",
	lay.BothSelvedges: "both selvedges", lay.PartWidth: "part of width", lay.PartLength: "part of length"}

func layJSON(out io.Writer, bf record.BuildFile, cut *cutting.Cutting, round int) error {
	all := jsonLays{Build: bf.Slug, Name: bf.Name, Lays: []jsonLay{}}
	if round >= 0 {
		all.Round = &round
	}
	for _, l := range cut.Lays {
		one := jsonOf(l)
		for _, w := range l.Ways {
			one.WaysOut = append(one.WaysOut, jsonWayOut{w.What, w.Lay, w.Takes, w.Over})
		}
		all.Lays = append(all.Lays, one)
	}
	return document.PrintJSON(out, all)
}

func jsonOf(l *cutting.Lay) jsonLay {
	one := jsonLay{Part: l.Part, Cloth: l.Use(), Why: l.Why, Stopped: l.Stopped, Figures: []document.JSONFigure{}, Remnants: []jsonRemnant{}}
	if l.OnHand.Value.Known() {
		one.Enough = &l.Enough
	}
	for _, r := range l.Misfits {
		one.Refusals = append(one.Refusals, jsonRefusal{r.Of, r.Message, r.Hints()})
	}
	if p := l.Problem; p != nil {
		one.Notes, one.NotLaid = p.Notes, p.NotLaid
	}
	for _, s := range shownOf(l) {
		one.Figures = append(one.Figures, document.FigureJSON(&s.Figure, s.private))
	}
	one.Positions = jsonPositions{Unit: "mm", Pieces: []jsonPosition{}, Working: document.JSONWorking{
		Rule:   say.Of("hembook.least-and-greatest-distance-of-the-cut"),
		Inputs: []document.JSONInput{}, Source: say.Of("hembook.the-lay-plan"),
	}}
	if l.Plan != nil {
		one.Laid, one.Doing = laidWords[l.Plan.Fold], l.Doing
	}
	for i := range l.Chalked {
		one.Positions.Pieces = append(one.Positions.Pieces, jsonPositionOf(&l.Chalked[i]))
	}
	for _, m := range l.Matches {
		one.Matches = append(one.Matches, jsonMatch(m))
	}
	for i := range l.Left {
		r := &l.Left[i]
		j := jsonRemnant{Name: r.Name, Twice: r.Folded, Unit: "mm"}
		for _, q := range r.Outline {
			j.Outline = append(j.Outline, [2]float64{q.X, q.Y})
		}
		one.Remnants = append(one.Remnants, j)
	}
	for _, s := range l.Shelf {
		one.Shelf = append(one.Shelf, jsonShelf{s.Name, s.Plan != nil, s.Why})
	}
	return one
}

func jsonPositionOf(q *cutting.Position) jsonPosition {
	j := jsonPosition{Number: q.Number, Piece: q.Piece, Copy: q.Copy, Pair: q.Pair, OnFold: q.OnFold, Alone: q.Alone, Turned: q.Turn, Mirrored: q.Mirrored,
		Stage: q.Stage, FromSelvedge: [2]float64{q.Side, q.SideTo}, FromCutEnd: [2]float64{q.End, q.EndTo}}
	for _, c := range q.Outline {
		j.Outline = append(j.Outline, [2]float64{c.X, c.Y})
	}
	return j
}
