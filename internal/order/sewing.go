package order

import (
	"slices"
	"strconv"

	"hembook/internal/fault"
	"hembook/internal/garment"
	"hembook/internal/meant"
	"hembook/internal/say"
	"hembook/internal/words"
)

// A SeamSewing is how a seam is sewn when its step comes.
type SeamSewing struct {
	Seam   *garment.Seam
	Step   *Step
	Round  bool     // in the round, else flat
	Closes []string // what comes to be closed by it: "armholes", for another seam, or "hem", as an opening
	Early  []*garment.Seam

	around float64
	shut   bool
}

// Sewing lists how the seams of a garment are sewn, in the turn of the steps that sew
// them; those that no step at the machine or by hand sews are left out. The list is the
// same for all who ask.
func (t *Together) Sewing() []SeamSewing {
	t.sewOnce.Do(func() { t.sewing = t.sewInTurn() })
	return t.sewing
}

// SewingOf is how a seam is sewn; nil where no step sews it.
func (t *Together) SewingOf(seam string) *SeamSewing {
	list := t.Sewing()
	if i := slices.IndexFunc(list, func(w SeamSewing) bool { return w.Seam.Name == seam }); i >= 0 {
		return &list[i]
	}
	return nil
}

// FinishingOf is the step that works a hem or edge, and whether it is worked in the
// round then, else flat; nil where no step works it.
func (t *Together) FinishingOf(finish string) (step *Step, round bool) {
	var done []int
	for _, s := range inTurn(t.steps) {
		if stage := s.Record.Stage.V; stage != "sewing" && stage != "finishing" {
			continue
		}
		for _, name := range s.Record.Sews {
			if name.V == finish {
				return s, t.Sewn.FinishedRound(finish, func(seam int) bool { return slices.Contains(done, seam) })
			}
			if i := slices.Index(t.seams, name.V); i >= 0 {
				done = append(done, i)
			}
		}
	}
	return nil, false
}

// turns lists the seams that each step sews, turn by turn, and those steps.
func (t *Together) turns() (turns [][]int, by []*Step) {
	for _, s := range inTurn(t.steps) {
		if stage := s.Record.Stage.V; stage != "sewing" && stage != "finishing" {
			continue
		}
		var seams []int
		for _, name := range s.Record.Sews {
			if i := slices.Index(t.seams, name.V); i >= 0 {
				seams = append(seams, i)
			}
		}
		if len(seams) > 0 {
			turns, by = append(turns, seams), append(by, s)
		}
	}
	return turns, by
}

func (t *Together) sewInTurn() []SeamSewing {
	turns, by := t.turns()
	var out []SeamSewing
	for _, w := range t.Sewn.InTurn(turns) {
		one := SeamSewing{Seam: t.planned[w.Seam], Step: by[w.Turn], Round: w.Round, around: w.Around, shut: w.Shut}
		if one.Seam == nil {
			continue
		}
		if long := one.Seam.StretchedTo(); one.Round && long > one.around {
			one.around = long
		}
		for _, c := range w.Closes {
			name := t.openingName(c.Loop)
			if c.Seam >= 0 {
				name = t.seams[c.Seam]
			}
			if !slices.Contains(one.Closes, name) {
				one.Closes = append(one.Closes, name)
			}
		}
		for _, e := range w.Early {
			if s := t.planned[e]; s != nil {
				one.Early = append(one.Early, s)
			}
		}
		out = append(out, one)
	}
	return out
}

// armRound is how far it is round the arm of a machine for sleeves: what is sewn in the
// round and is narrower cannot be drawn over it, mm (common practice, no source).
const armRound = 180

// SewingFaults warns of an order of work in which a seam cannot be sewn as it is said;
// tape prints lengths.
func SewingFaults(g *garment.Garment, steps []*Step, tape words.Tape) []fault.Fault {
	t := GoesTogether(g, steps)
	if t == nil {
		return nil
	}
	var faults fault.Faults
	list := t.Sewing()
	for i := range list {
		w := &list[i]
		at := w.Step.Record.At
		switch {
		case len(w.Early) > 0:
			names := make([]string, len(w.Early))
			for k, e := range w.Early {
				names[k] = strconv.Quote(e.Name)
			}
			faults.LookAgain(at, say.Of("order.sew-first", meant.List(names, "and")), say.Of("order.is-sewn-over-the-end-of-which", say.Quoted(w.Seam.Name), meant.List(names, "and")))
		case w.shut && machined(g, w.Seam):
			faults.LookAgain(at, say.Of("order.leave-an-opening-to-turn-it-by"), say.Of("order.can-no-longer-be-reached-all-else", say.Quoted(w.Seam.Name)))
		case w.Round && w.around < armRound && machined(g, w.Seam):
			hint := say.Of("order.sew-it-by-hand")
			if by := closedBy(list[:i], w.Seam.Name); by != "" {
				hint = say.Of("order.sew-it-flat-before-or-by-hand", strconv.Quote(by))
			}
			faults.LookAgain(at, hint, say.Of("order.is-sewn-in-the-round-only-round", say.Quoted(w.Seam.Name), tape.About(w.around)))
		}
	}
	t.pressingFaults(&faults)
	return faults.Sorted()
}

// pressingFaults warns of seams that a step presses before they are sewn, or when
// nothing leads to their inside any more.
func (t *Together) pressingFaults(faults *fault.Faults) {
	turns, by := t.turns()
	turnOf := func(seam int) int {
		return slices.IndexFunc(turns, func(list []int) bool { return slices.Contains(list, seam) })
	}
	done := 0
	for _, s := range inTurn(t.steps) {
		if done < len(by) && by[done] == s {
			done++
			continue
		}
		if s.Record.Stage.V != "pressing" {
			continue
		}
		for _, name := range s.Record.Sews {
			i := slices.Index(t.seams, name.V)
			if i < 0 || turnOf(i) < 0 || t.planned[i] == nil {
				continue
			}
			if first := turnOf(i); first >= done {
				faults.LookAgain(name.At, say.Of("order.press-it-after", strconv.Quote(by[first].ID)), say.Of("order.goes-under-the-iron-before-it-is", say.Quoted(t.planned[i].Name)))
			} else if shut := t.Sewn.ShutIn(turns, i); shut >= 0 && shut < done {
				faults.LookAgain(name.At, say.Of("order.press-it-before", strconv.Quote(by[shut].ID)), say.Of("order.the-iron-can-no-longer-reach-all", say.Quoted(t.planned[i].Name)))
			}
		}
	}
}

// closedBy is the seam that closed the line of another.
func closedBy(list []SeamSewing, seam string) string {
	for i := range list {
		if slices.Contains(list[i].Closes, seam) {
			return list[i].Seam.Name
		}
	}
	return ""
}

// machined reports whether a row of a seam that stays is sewn by machine.
func machined(g *garment.Garment, s *garment.Seam) bool {
	return slices.ContainsFunc(g.RowsOf(garment.SeamRow, s.Name), func(r *garment.Row) bool { return !r.Hand && !r.Temporary })
}
