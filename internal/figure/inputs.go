package figure

import (
	"hembook/internal/fault"
	"hembook/internal/measure"
)

// Inputs lists what went into a figure: words of the record, then what its sum
// shows in the order of the sum, then what decided something and stands in no
// sum.
func (w Working) Inputs() []Input { return w.AppendInputs(nil) }

// AppendInputs lists the inputs in the room of a list that is not needed any more.
func (w Working) AppendInputs(room []Input) []Input {
	out := room[:0]
	pr := w.pad.printer()
	defer pr.done()
	var few [8]int
	ends := few[:0] // of the values, which stand behind each other in one piece of memory
	if w.root > 0 && w.pad.nodes.at(w.root-1).why == 0 {
		pr.settle(w.root-1, w.resultUnit(w.pad.nodes.at(w.root-1))) // as many decimals as the sum shows
	}
	w.each(func(n *node, inSum bool) {
		l := w.pad.origins.at(n.a)
		from := len(pr.b)
		pr.value(n, measure.NoUnit)
		in := Input{Kind: l.kind, Name: l.name, At: l.at, From: l.from, InSum: inSum || l.shown}
		for i := range out {
			if out[i].Name == in.Name && out[i].At == in.At && out[i].From == in.From && string(pr.b[start(ends, i):ends[i]]) == string(pr.b[from:]) {
				out[i].InSum = out[i].InSum || inSum
				pr.b = pr.b[:from]
				return
			}
		}
		out, ends = append(out, in), append(ends, len(pr.b))
	})
	words := string(pr.b)
	for i := range out {
		out[i].Value = words[start(ends, i):ends[i]]
	}
	return out
}

// start is where a value begins: where the one before it ends.
func start(ends []int, i int) int {
	if i == 0 {
		return 0
	}
	return ends[i-1]
}

// Positions lists where what went into a figure is written, in the order of its
// inputs.
func (w Working) Positions() []fault.Pos {
	var out []fault.Pos
	w.AnyPlace(func(at fault.Pos) bool {
		out = append(out, at)
		return false
	})
	return out
}

// AnyPlace reports whether one of the places where what went into a figure is
// written is such a one.
func (w Working) AnyPlace(is func(at fault.Pos) bool) bool {
	found := false
	w.each(func(n *node, _ bool) {
		if at := w.pad.origins.at(n.a).at; !found && at.Given() {
			found = is(at)
		}
	})
	return found
}

// each visits the origins that are inputs: remarks, then those of the sum, then
// numbers that decided something. What was found by search or geometry is told
// by the sum alone.
func (w Working) each(visit func(n *node, inSum bool)) {
	if w.root == 0 {
		return
	}
	extras := w.extras.of(w.pad.extras)
	for _, at := range extras {
		if w.pad.nodes.at(at).op == opRemark {
			w.pad.walk(at, false, visit)
		}
	}
	w.pad.walk(w.root-1, true, visit)
	for _, at := range extras {
		if w.pad.nodes.at(at).op != opRemark {
			w.pad.walk(at, false, visit)
		}
	}
}

func (p *Pad) walk(at int32, inSum bool, visit func(*node, bool)) {
	n := p.nodes.at(at)
	switch {
	case n.op == opInput, n.op == opRemark && p.origins.at(n.a).name != "":
		visit(n, inSum)
	case n.op.folds():
		for _, k := range (span{n.a, n.b}).of(p.kids) {
			p.walk(k, inSum, visit)
		}
	case n.op == opNumber || n.op == opFound || n.op == opRemark || n.op == opCurve:
	default:
		p.walk(n.a, inSum, visit)
		if n.op.pairs() {
			p.walk(n.b, inSum, visit)
		}
	}
}
