package capture

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"hembook/internal/drawing"
	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/paperpiece"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/tracing"
)

// home is where the piece of a slip is written.
func (e *entering) home() paperpiece.Home {
	return paperpiece.Home{Room: e.room, File: e.file, Piece: strings.TrimSpace(e.slip.Piece), Unit: unitOf(e.build, e.room)}
}

// trace traces a paper piece from its photograph and enters it. The photograph is not
// kept.
func (e *entering) trace() (string, error) {
	home := e.home()
	if err := paperpiece.CheckName(home.Piece); err != nil {
		return "", told(err)
	}
	if e.again {
		if done, err := home.Began(e.build); err != nil || done {
			return say.Of("capture.the-outline-of-in", home.Piece, e.file.Name), err
		}
	}
	if err := home.Free(e.build); err != nil {
		return "", told(err)
	}
	traced, err := e.seen()
	if err != nil {
		return "", err
	}
	names := paperpiece.Numbers(traced.Count())
	if k := onSide(traced, e.slip.Fold); k >= 0 {
		names[k].Fold = true
	}
	if err := e.takeOff(traced, names); err != nil {
		return "", err
	}
	if err := e.mark(); err != nil {
		return "", err
	}
	if err := home.Write(traced.SVG(home.Piece, names)); err != nil {
		return "", orRefusal(err)
	}
	wide, high := traced.Size()
	said := say.Of("capture.mm-edges-to-name-in", home.Piece, fmt.Sprintf("%.0f", wide), fmt.Sprintf("%.0f", high), traced.Count(), e.file.Name)
	for _, m := range traced.Drawn {
		if m.Word != "" {
			said += "; " + m.Said(traced.Named(names))
		}
	}
	return said, nil
}

// seen is what the slip's photograph shows of a paper piece.
func (e *entering) seen() (*tracing.Traced, error) {
	if e.photo == nil {
		return nil, refuse(say.Of("capture.its-photograph-did-not-come-with-it"))
	}
	how, err := e.traceOptions()
	if err != nil {
		return nil, err
	}
	img, err := e.photo.Image()
	if err != nil {
		return nil, refuse(say.Of("capture.the-photograph", err))
	}
	traced, err := tracing.Trace([]tracing.Picture{{Name: say.Of("capture.the-photograph-2"), Image: img}}, how)
	if err != nil {
		return nil, told(err)
	}
	return traced, nil
}

// takeOff takes the paper's allowance off, where it has one.
func (e *entering) takeOff(t *tracing.Traced, names []tracing.EdgeName) error {
	if e.slip.Allowance == "" {
		return nil
	}
	wide, err := measure.ParseLength(e.slip.Allowance, measure.UnitMM)
	if err != nil {
		return refuse(say.Of("capture.the-allowance", err))
	}
	if err := t.TakeOff(wide.MM(), names); err != nil {
		return told(err)
	}
	return nil
}

// altered makes a round of fitting of altered paper. The photograph is not kept.
func (e *entering) altered() (string, error) {
	home := e.home()
	old, err := home.Outline(e.build)
	if err != nil {
		return "", told(err)
	}
	paper, err := e.seen()
	if err != nil {
		return "", err
	}
	if err := e.takeOff(paper, paperpiece.FoldOn(paper, old)); err != nil {
		return "", err
	}
	done, err := paperpiece.Altered(old, paper)
	if err != nil {
		return "", told(err)
	}
	round := say.Of("capture.a-round-of-fitting-for-in", home.Piece, e.file.Name)
	if e.again && len(done.Changes) == 0 { // it was written before it was broken off
		return round, nil
	}
	if err := e.mark(); err != nil {
		return "", err
	}
	if err := home.WriteRound(done, e.receipt.At, cmp.Or(strings.TrimSpace(e.slip.Note), say.Of("capture.altered-on-paper"))); err != nil {
		return "", orRefusal(told(err))
	}
	for _, c := range done.Changes {
		round += "; " + c.Said()
	}
	if done.Doubt {
		round = say.Of("capture.it-is-much-alike-both-ways-round", round)
	}
	return round, nil
}

// told makes a refusal for the phone of one for the terminal.
func told(err error) error {
	var no *fault.Refusal
	if !errors.As(err, &no) {
		return err
	}
	if no.Hint == "" {
		return refuse(no.Message)
	}
	return refuse(no.Message + ": " + no.Hint)
}

var farForm = regexp.MustCompile(`^\s*(\d{1,3})\s*(?:to|-|–)\s*(\d{1,3})\s*:\s*(.+?)\s*$`)

// traceOptions reads the distance that was measured between two cards, where there is one.
func (e *entering) traceOptions() (how tracing.Options, err error) {
	if e.slip.Far == "" {
		return how, nil
	}
	m := farForm.FindStringSubmatch(e.slip.Far)
	if m == nil {
		return how, refuse(say.Of("capture.the-distance-between-two-cards-is-written"))
	}
	long, err := measure.ParseLength(m[3], measure.UnitMM)
	if err != nil || long.MM() < 100 || m[1] == m[2] {
		return how, refuse(say.Of("capture.the-distance-between-two-cards-is-written"))
	}
	from, _ := strconv.Atoi(m[1])
	to, _ := strconv.Atoi(m[2])
	how.Tapes = []tracing.Tape{{From: from, To: to, MM: long.MM()}}
	return how, nil
}

// foldSides are the sides of a photograph at which the edge on the fold may lie.
var foldSides = map[string]shape.Point{"left": {X: -1}, "right": {X: 1}, "top": {Y: 1}, "bottom": {Y: -1}}

// onSide is the straight edge that lies farthest to a side; -1 where none was asked for.
func onSide(t *tracing.Traced, side string) int {
	way, ok := foldSides[side]
	if !ok {
		return -1
	}
	best, most := -1, math.Inf(-1)
	for k, e := range t.EdgeEnds() {
		if far := (e[0].X+e[1].X)/2*way.X + (e[0].Y+e[1].Y)/2*way.Y; far > most && t.Named(nil)[k].Straight {
			best, most = k, far
		}
	}
	return best
}

// edges gives the edges of a traced piece their names, and moves its corners.
func (e *entering) edges() (string, error) {
	var names []tracing.EdgeName
	for _, word := range e.slip.Of {
		name, fold, _ := strings.Cut(word, ":")
		names = append(names, tracing.EdgeName{Name: strings.TrimSpace(name), Fold: strings.TrimSpace(fold) == "fold"})
	}
	var shifts []paperpiece.Shift
	for _, said := range e.slip.Moved {
		shift, err := paperpiece.ParseShift(said)
		if err != nil {
			return "", told(err)
		}
		shifts = append(shifts, shift)
	}
	home := e.home()
	if !slices.ContainsFunc(e.build.Pieces, func(p record.Piece) bool { return p.Name.V == home.Piece }) {
		return "", refuse(say.Of("capture.has-no-piece-any-more", e.file.Name, say.Quoted(home.Piece)))
	}
	if err := e.mark(); err != nil {
		return "", err
	}
	if err := home.NameEdges(names, shifts); err != nil {
		return "", told(err)
	}
	return say.Of("capture.edges-of-in", home.Piece, e.file.Name), nil
}

// A tracedView is a traced piece whose edges have no names yet.
type tracedView struct {
	Piece string     `json:"piece"`
	Wide  float64    `json:"wide"` // mm
	High  float64    `json:"high"`
	Edges []edgeView `json:"edges"`
}

// An edgeView is one of its edges: as the d of a path, in millimetres, y down.
type edgeView struct {
	Path string  `json:"path"`
	MM   float64 `json:"mm"`
	Fold bool    `json:"fold,omitempty"`
}

// tracedOf are the traced pieces of a build that want names, and names of edges that its
// other pieces have.
func tracedOf(room *record.Room, bf record.BuildFile, b *record.Build) (out []tracedView, names []string) {
	homes, outlines := paperpiece.Unnamed(room, bf, b)
	for i, o := range outlines {
		least, most := o.Bounds()
		v := tracedView{Piece: homes[i].Piece, Wide: most.X - least.X, High: most.Y - least.Y}
		f := drawing.Frame{Left: least.X, Top: most.Y, K: 1}
		for _, s := range o.Sides() {
			var d drawing.Drawing
			path := d.Draw(drawing.SewLine).Edges(f, o, s.First, s.Count)
			v.Edges = append(v.Edges, edgeView{pathText(path), math.Round(s.Length), s.Fold})
		}
		out = append(out, v)
	}
	for i := range b.Pieces {
		if p := &b.Pieces[i]; p.Outline != nil {
			for k := range p.Outline.Edges {
				if n := p.Outline.Edges[k].Name.V; n != "" && !strings.HasPrefix(n, "edge ") && !slices.Contains(names, n) {
					names = append(names, n)
				}
			}
		}
	}
	return out, names
}

// shapedOf are the pieces of a build that have an outline of their own, but for those that
// are still to be named.
func shapedOf(b *record.Build, unnamed []tracedView) (out []string) {
	for i := range b.Pieces {
		p := &b.Pieces[i]
		if p.Outline != nil && !slices.ContainsFunc(unnamed, func(v tracedView) bool { return v.Piece == p.Name.V }) {
			out = append(out, p.Name.V)
		}
	}
	return out
}

// pathText is a path as SVG writes it, to a tenth of a millimetre.
func pathText(p *drawing.Path) string {
	var b bytes.Buffer
	letters := map[drawing.Op]string{drawing.MoveTo: "M", drawing.LineTo: "L", drawing.CurveTo: "C"}
	p.Each(func(op drawing.Op, at []drawing.Point) {
		b.WriteString(letters[op])
		for _, q := range at {
			fmt.Fprintf(&b, "%.1f %.1f ", q.X, q.Y)
		}
	})
	return b.String()
}
