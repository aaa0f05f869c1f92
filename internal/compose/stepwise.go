package compose

import (
	"strconv"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/notebook"
	"hembook/internal/order"
	"hembook/internal/sewn"
)

// The largest picture of a step, in millimetres on paper: two beside each other
// on a sheet, one on a phone.
const (
	stepWide = 82
	stepHigh = 76
)

// mostStills is how many pictures stand together before a page may end.
const mostStills = 4

// stepwise shows step by step which seams and hems are sewn by then.
func stepwise(d *Draft, b *notebook.BuildPage) {
	t := b.Together
	if t == nil {
		return
	}
	list := document.List{As: "laid tissue"}
	for _, k := range t.StepsThatSew() {
		words := k.ID
		for i := range b.Steps {
			if b.Steps[i].ID == k.ID {
				words = b.Steps[i].Do
			}
		}
		for _, layer := range t.Layers() {
			for _, n := range t.Nets(layer) {
				if !t.SewsIn(n, k.Step) {
					continue
				}
				if len(list.Items) == mostStills {
					d.Add(document.Turn{}, list)
					list.Items = nil
				}
				list.Items = append(list.Items, d.still(t, n, k, words, layer))
			}
		}
	}
	if len(list.Items) > 0 {
		d.Add(document.Turn{}, list)
		d.Note("Heavy: sewn in this step. Thin: sewn before.")
	}
}

func (d *Draft) still(t *order.Together, n *sewn.Net, k order.StepSewing, words, layer string) document.Item {
	style := draw.StepStyle{NetStyle: netStyle(t, n)}
	style.Wide, style.High = stepWide, stepHigh
	style.Title = "Step " + strconv.Itoa(k.Step) + ": " + words
	at := func(step int) draw.Stage {
		switch {
		case step == k.Step:
			return draw.Now
		case step > 0 && step < k.Step:
			return draw.Done
		}
		return draw.NotYet
	}
	style.SeamAt = func(seam int) draw.Stage { return at(t.StepOfSeam(seam)) }
	style.FinishAt = func(name string) draw.Stage { return at(t.StepOfFinish(name)) }
	return document.Item{
		Draw:   func() *drawing.Drawing { return draw.NetStep(t.Sewn, n, style) },
		Phrase: d.Phrase(document.As(document.Strong, strconv.Itoa(k.Step)), document.Say(" "+words), document.As(document.Small, layerName(layer))),
	}
}
