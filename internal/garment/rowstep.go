package garment

import (
	"slices"
	"strings"

	"hembook/internal/record"
	"hembook/internal/words"
)

// sewInSteps says of every row which steps of the order of work sew it: those that
// name its seam, its finish, or its kind. Darts, pleats and buttonholes that no step
// names are sewn in the first step whose words say so; darts and pleats, else, in the
// first that sews an edge of their piece, for they are closed before that.
func (w *stitching) sewInSteps() {
	if len(w.work) == 0 {
		return
	}
	by := w.stepsOf()
	var wordy [3]int
	for k, word := range [...][]string{dartWords, pleatWords, holeWordsOfSteps} {
		wordy[k] = w.stepWithWord(word)
	}
	for i := range w.g.Rows {
		r := &w.g.Rows[i]
		switch r.Kind {
		case DartRow, PleatRow:
			k := 0
			if r.Kind == PleatRow {
				k = 1
			}
			r.steps = by[string(r.Kind)]
			if len(r.steps) == 0 {
				r.steps = one(w.stepForFolds(w.named[r.Of], wordy[k], by))
			}
		case GatherRow:
			if r.steps = by[r.Of]; len(r.steps) == 0 && w.named[r.Of] != nil {
				r.steps = one(w.stepForFolds(w.named[r.Of], w.stepWithWord(gatherWords), by))
			}
		case TurnRow:
			r.steps = one(w.firstStepOf(w.named[r.Of], by))
		case HoleRow:
			if r.steps = by[string(r.Kind)]; len(r.steps) == 0 {
				r.steps = one(wordy[2])
			}
			if len(r.steps) == 0 {
				r.steps = one(w.stepCalled(r.Of))
			}
		case ButtonRow:
			r.steps = one(w.stepCalled(r.Of))
		default:
			r.steps = by[r.Of]
		}
	}
}

// stepsOf are the steps by what they say they sew.
func (w *stitching) stepsOf() map[string][]int {
	by := make(map[string][]int, len(w.work))
	for i := range w.work {
		for _, name := range w.work[i].Sews {
			by[name.V] = append(by[name.V], i)
		}
	}
	return by
}

func one(step int) []int {
	if step < 0 {
		return nil
	}
	return []int{step}
}

// Words of a step that say what it sews (terms of the trade).
var (
	dartWords        = []string{"dart", "darts"}
	gatherWords      = []string{"gather", "gathers", "gathering", "shirr", "shirring"}
	pleatWords       = []string{"pleat", "pleats", "tuck", "tucks"}
	holeWordsOfSteps = []string{"buttonhole", "buttonholes"}
)

// stepCalled is the step that is called like a notion, as "buttons"; −1 where none is.
func (w *stitching) stepCalled(name string) int {
	return slices.IndexFunc(w.work, func(s record.Step) bool { return s.StepID() == record.AsStep(name) })
}

// stepWithWord is the first step at the machine or by hand that has one of these
// words; −1 where none has.
func (w *stitching) stepWithWord(list []string) int {
	return slices.IndexFunc(w.work, func(s record.Step) bool {
		said := strings.Split(s.StepID(), "-")
		sews := s.Stage.V == "sewing" || s.Stage.V == "finishing" || slices.Contains(said, "sew")
		return sews && slices.ContainsFunc(said, func(word string) bool { return slices.Contains(list, word) })
	})
}

// stepForFolds is the step that sews the darts or pleats of a piece. worded is the
// step whose words speak of such: where it sews seams too, it is that of the pieces
// they join, and else of all that are no lining.
func (w *stitching) stepForFolds(p *Piece, worded int, by map[string][]int) int {
	first := w.firstStepOf(p, by)
	if worded < 0 {
		return first
	}
	s := &w.work[worded]
	mine := func(q *Piece) bool {
		return slices.ContainsFunc(s.Sews, func(name record.Text) bool { return w.sewsPiece(name.V, q) })
	}
	others := slices.ContainsFunc(w.g.Pieces, func(q *Piece) bool { return len(q.Darts)+len(q.form.pleats) > 0 && mine(q) })
	lining := len(p.Of) > 0 && LayerOf(p.Of[0]) != outerLayer && !words.AnyOf(s.Do.V, []string{"lining"})
	if mine(p) || !others && !lining {
		return worded
	}
	return first
}

// firstStepOf is the first step at the machine or by hand that sews an edge of a
// piece, else the first of any stage, as one that bastes; −1 where none does.
func (w *stitching) firstStepOf(p *Piece, by map[string][]int) int {
	first, any := -1, -1
	for name, steps := range by {
		if !w.sewsPiece(name, p) {
			continue
		}
		for _, i := range steps {
			if any < 0 || i < any {
				any = i
			}
			if stage := w.work[i].Stage.V; (stage == "sewing" || stage == "finishing") && (first < 0 || i < first) {
				first = i
			}
		}
	}
	if first < 0 {
		return any
	}
	return first
}

// sewsPiece reports whether a seam or finish of this name has an edge of a piece.
func (w *stitching) sewsPiece(name string, p *Piece) bool {
	of := func(list []EdgeUse) bool {
		return slices.ContainsFunc(list, func(u EdgeUse) bool { return u.Piece == p })
	}
	return slices.ContainsFunc(w.g.Seams, func(s *Seam) bool { return s.Name == name && s.joins(p) }) ||
		slices.ContainsFunc(w.g.Finishes, func(f *Finish) bool { return f.Name == name && of(f.Edges) })
}

// Steps are the steps of the order of work that sew a row, in the record's order.
func (r *Row) Steps() []int { return r.steps }

// OwnLines reports whether each of its rows is a line of its own, sewn one after another and
// left in: topstitching, and the rows of shirring.
func (r *Row) OwnLines() bool { return r.Beside != "" || r.Kind == GatherRow && !r.Temporary }

// SewnIn are the rows that stand for their lines in the length sewn, and those that are lines
// of their own, beside them or of shirring, of all that a step of the order of work sews, in
// the order in which it names them.
func (g *Garment) SewnIn(step int) []*Row {
	var out []*Row
	add := func(is func(r *Row) bool) {
		for i := range g.Rows {
			if r := &g.Rows[i]; (r.Lasting || r.OwnLines()) && slices.Contains(r.steps, step) && is(r) && !slices.Contains(out, r) {
				out = append(out, r)
			}
		}
	}
	for _, name := range g.Build.Work[step].Sews {
		add(func(r *Row) bool { return r.Of == name.V && (r.Kind == SeamRow || r.Kind == FinishRow) })
	}
	add(func(r *Row) bool { return true })
	return out
}
