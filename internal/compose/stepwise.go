package compose

import (
	"slices"
	"strconv"
	"strings"
	"sync"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/garment"
	"hembook/internal/notebook"
	"hembook/internal/order"
	"hembook/internal/say"
	"hembook/internal/sewn"
)

// The largest picture of a step, in millimetres: as wide as a phone's text, two
// beside each other on a sheet.
const (
	stepWide = 74
	stepHigh = 84
)

// mostStages is how many steps stand together before a page may end.
const mostStages = 24

// stepwise shows step by step which seams and hems are sewn by then.
func stepwise(d *Draft, b *notebook.BuildPage) {
	if b.Together == nil {
		return
	}
	steps := b.Together.StepsThatSew()
	for part := 0; part*mostStages < len(steps); part++ {
		some := steps[part*mostStages : min((part+1)*mostStages, len(steps))]
		d.Add(document.Turn{}, d.stages(b, some, "stage"+strings.Repeat("-", part)))
	}
	if len(steps) > 0 {
		d.Note(say.Of("compose.heavy-sewn-in-this-step-thin-sewn"))
	}
}

// stages are the drawings of some steps, each of every net of which it sews
// something.
func (d *Draft) stages(b *notebook.BuildPage, steps []order.StepSewing, id string) document.Stages {
	t := b.Together
	out := document.Stages{ID: id, Choose: say.Of("compose.step")}
	numbers := make([]int, len(steps))
	for i, k := range steps {
		numbers[i] = k.Step
		out.Of = append(out.Of, document.Growth{Phrase: d.Phrase(document.As(document.Strong, strconv.Itoa(k.Step)), document.Say(" "+did(b, k)))})
	}
	for at, layer := range t.Layers() {
		nets := t.Nets(layer)
		for part, n := range nets {
			style := stepsStyle(b, n, id+"-"+strconv.Itoa(at)+"-"+strconv.Itoa(part)+"-")
			drawn := sync.OnceValue(func() []*drawing.Drawing { return draw.NetSteps(t.Sewn, n, numbers, style) })
			shown := t.Shown(n)
			for i, k := range steps {
				if words := sewnIn(shown, t.FoldsSewn(n, k.Step), k.Step); words != "" {
					out.Of[i].Of = append(out.Of[i].Of, document.Sketch{
						Draw:    func() *drawing.Drawing { return drawn()[i] },
						Caption: upperFirst(partName(layer, part, len(nets))) + ": " + words,
					})
				}
			}
		}
	}
	out.Of = slices.DeleteFunc(out.Of, func(s document.Growth) bool { return len(s.Of) == 0 })
	return out
}

func stepsStyle(b *notebook.BuildPage, n *sewn.Net, id string) draw.StepsStyle {
	t := b.Together
	style := draw.StepsStyle{NetStyle: netStyle(t), ID: id, SeamStep: t.StepOfSeam, FinishStep: t.StepOfFinish, FoldsStep: t.StepOfFolds, SetStep: t.StepOfSetOn}
	style.Wide, style.High = stepWide, stepHigh
	style.Words = func(step int) string {
		for _, k := range t.StepsThatSew() {
			if k.Step == step {
				return say.Of("compose.step-2", strconv.Itoa(step), did(b, k))
			}
		}
		return ""
	}
	return style
}

// did is what a step does, in the maker's words.
func did(b *notebook.BuildPage, k order.StepSewing) string {
	for i := range b.Steps {
		if b.Steps[i].ID == k.ID {
			return b.Steps[i].Record.Do.V
		}
	}
	return k.ID
}

// foldWords are what rows within pieces are called.
var foldWords = map[garment.RowKind]string{garment.DartRow: "darts", garment.PleatRow: "pleats", garment.GatherRow: "gathers"}

// sewnIn names what of a net a step sews.
func sewnIn(shown []order.Shown, folds []garment.RowKind, step int) string {
	var out []string
	for _, kind := range folds {
		out = append(out, foldWords[kind])
	}
	for _, k := range shown {
		if k.Step == step {
			out = append(out, strconv.Itoa(k.Number)+" "+k.Name)
		}
	}
	return strings.Join(out, ", ")
}
