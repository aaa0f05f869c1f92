package pattern

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"hembook/internal/document"
	"hembook/internal/drawing"
	"hembook/internal/garment"
	"hembook/internal/paper"
	"hembook/internal/say"
	"hembook/internal/words"
)

// Print is what is printed at full size.
type Print struct {
	Garment string // its name
	Pieces  []*garment.Piece
	Stock   paper.Stock
	Cover   document.Size // of the first page, with the map and the test squares
	Style   Style
	Author  string // the workroom's name
	AsOf    string // which round of fitting the outlines are as of; may be empty
}

// Tiled is a pattern set on sheets.
type Tiled struct {
	PDF     []byte
	Plan    paper.TilePlan
	Left    []string // pieces that could not be drawn, and why
	Printed int      // pieces that were
}

// Set draws pieces at full size over as many sheets as they need, with a
// first page that maps them.
func (p Print) Set() (Tiled, error) {
	var out Tiled
	var larges []paper.Large
	p.Style.Build = p.Garment
	if p.Stock.High == 0 {
		larges = append(larges, paper.Large{Name: say.Of("pattern.test-squares"), Drawing: testSquares(), Fixed: true})
	}
	for _, piece := range p.Pieces {
		if why, ok := known(piece); !ok {
			out.Left = append(out.Left, piece.Name+": "+why)
			continue
		}
		d, area := drawPiece(piece, p.Style)
		larges = append(larges, paper.Large{Name: piece.Name, Drawing: d, Area: area})
		out.Printed++
	}
	if out.Printed == 0 {
		return out, errors.New(say.Of("pattern.no-piece-has-an-outline") + because(out.Left))
	}
	plan, err := paper.PlanTiles(larges, p.Stock)
	if err != nil {
		return out, err
	}
	out.Plan = plan
	cover, err := p.oneCover(out)
	if err != nil {
		return out, err
	}
	out.PDF, err = plan.PDF(document.Alone(cover), paper.Options{})
	return out, err
}

// oneCover makes the map smaller until the cover takes one page; a build of
// many pieces has its table on a second one.
func (p Print) oneCover(s Tiled) (document.Document, error) {
	for _, high := range mapHighs {
		cover := p.cover(s, high)
		if n, err := paper.Pages(cover, paper.Options{}); err != nil || n == 1 {
			return cover, err
		}
	}
	return p.cover(s, mapHighs[0]), nil
}

func because(left []string) string {
	if len(left) == 0 {
		return ""
	}
	return ": " + strings.Join(left, "; ")
}

// cover is the first page: what to check before cutting, and the map.
func (p Print) cover(s Tiled, mapHigh float64) document.Document {
	wide, _ := p.Cover.MM()
	d := document.Document{Title: say.Of("pattern.pattern-at-full-size", p.Garment), Author: p.Author, Language: "en", Size: p.Cover}
	about := say.Of("pattern.pattern-at-full-size-on", words.Count(len(s.Plan.Tiles), "sheet"), stockWords(p.Stock))
	if p.AsOf != "" {
		about += " · " + p.AsOf
	}
	var b document.Draft
	b.Add(document.Heading{Level: 1, Words: p.Garment, Aside: about})
	b.Say(document.Say(say.Of("pattern.print-at-100-not-fit-to-page")))
	joining := document.List{Numbered: true}
	for _, words := range []string{
		say.Of("pattern.where-a-sheet-has-a-full-fine"),
		say.Of("pattern.lay-the-cut-edge-on-the-next"),
		say.Of("pattern.full-line-cut-dashed-line-seam-numbers"),
		say.Of("pattern.strokes-across-an-allowance-notches-a"),
	} {
		joining.Items = append(joining.Items, document.Item{Phrase: b.Phrase(document.Say(words))})
	}
	b.Add(document.Columns{Shares: []float64{squaresWide, wide - 36 - columnsApart - squaresWide},
		Of: [][]document.Block{{document.Sketch{Draw: testSquares, Exact: true}}, {joining}}})
	b.Add(document.Heading{Level: 2, Words: say.Of("pattern.which-sheet-shows-what")})
	b.Add(document.Sketch{Draw: func() *drawing.Drawing { return s.Plan.Map(wide-36, mapHigh) }, Caption: say.Of("pattern.the-numbers-stand-at-the-foot-of")})
	p.table(&b, s)
	if len(s.Left) > 0 {
		b.Add(document.Text{As: document.Note, Phrase: b.Phrase(document.As(document.Strong, say.Of("pattern.not-printed")), document.Say(" "+strings.Join(s.Left, "; ")+"."))})
	}
	d.Blocks = b.Blocks
	return d
}

// The first page: how wide the squares stand, and how high the map may be.
const (
	squaresWide  = 104.0
	columnsApart = 8.0
)

var mapHighs = []float64{82, 74, 66, 58, 50, 42}

// table lists the pieces with how they are cut and where they are.
func (p Print) table(b *document.Draft, s Tiled) {
	t := b.Table("", document.Words(say.Of("pattern.piece")), document.Words(say.Of("pattern.cut")), document.Words(say.Of("pattern.as-cut-across-times-along-the-grain")), document.Figures(say.Of("pattern.sheets")))
	for _, piece := range p.Pieces {
		if _, ok := known(piece); !ok {
			continue
		}
		size := ""
		if piece.Width.Value.Known() && piece.Height.Value.Known() {
			size = p.Style.length(piece.Width) + " × " + p.Style.length(piece.Height)
		}
		t.Row(piece.Name).Words(strings.TrimPrefix(piece.CutWords(), "cut "), size, s.where(piece.Name))
	}
	t.End()
}

// where are the numbers of the sheets that show a piece.
func (s Tiled) where(name string) string {
	var on []int
	for i, sheet := range s.Plan.Tiles {
		for _, at := range sheet.Placed {
			if s.Plan.Larges[at.Large].Name == name {
				on = append(on, i+1)
			}
		}
	}
	var out []string
	for i := 0; i < len(on); {
		j := i
		for j+1 < len(on) && on[j+1] == on[j]+1 {
			j++
		}
		if text := strconv.Itoa(on[i]); j > i {
			out = append(out, text+"–"+strconv.Itoa(on[j]))
		} else {
			out = append(out, text)
		}
		i = j + 1
	}
	return strings.Join(out, ", ")
}

func stockWords(s paper.Stock) string {
	switch s {
	case paper.StockOf(document.A4):
		return "A4"
	case paper.StockOf(document.Letter):
		return say.Of("pattern.letter")
	}
	if s.High == 0 {
		return say.Of("pattern.a-roll-of-mm", fmt.Sprintf("%g", s.Wide))
	}
	return say.Of("pattern.paper-of-times-mm", fmt.Sprintf("%g", s.Wide), fmt.Sprintf("%g", s.High))
}

// testSquares are squares of 100 mm and of 4 in with one corner in common, to
// be measured on paper. 1 in is 25.4 mm (international yard and pound
// agreement, 1959).
func testSquares() *drawing.Drawing {
	const inch4, mm100, edge = 101.6, 100.0, 1.0
	d := drawing.New("squares")
	d.Title, d.Box = say.Of("pattern.a-square-of-100-mm-within-a"), drawing.Box{Left: -edge, Top: -edge, Right: inch4 + edge, Bottom: inch4 + edge}
	d.Draw(drawing.SquareInch).Rect(0, 0, inch4, inch4)
	d.Draw(drawing.SquareMM).Rect(0, 0, mm100, mm100)
	d.Say(drawing.Label{X: mm100 - 3, Y: mm100 - 7.5, Words: say.Of("pattern.inner-square-100-mm"), Voice: drawing.TestMM, Anchor: drawing.End})
	d.Say(drawing.Label{X: mm100 - 3, Y: mm100 - 3, Words: say.Of("pattern.outer-square-4-in"), Voice: drawing.TestInch, Anchor: drawing.End})
	return d
}
