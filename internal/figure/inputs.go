package figure

import (
	"hembook/internal/fault"
	"hembook/internal/measure"
)

// Inputs lists what went into a figure: words of the record, then what its sum
// shows in the order of the sum, then what decided something and stands in no
// sum.
func (w Working) Inputs() []Input {
	var out []Input
	pr := printer{pad: w.pad}
	if w.root > 0 && w.pad.nodes[w.root-1].why == 0 {
		pr.settle(w.root-1, w.resultUnit(&w.pad.nodes[w.root-1])) // as many decimals as the sum shows
	}
	w.each(func(n *node, inSum bool) {
		l := &w.pad.leaves[n.a]
		pr.b = pr.b[:0]
		in := Input{Kind: l.kind, Name: l.name, Value: string(pr.value(n, measure.NoUnit).b), At: l.at, From: l.from, InSum: inSum || l.shown}
		for i := range out {
			if out[i].Name == in.Name && out[i].Value == in.Value && out[i].At == in.At && out[i].From == in.From {
				out[i].InSum = out[i].InSum || inSum
				return
			}
		}
		out = append(out, in)
	})
	return out
}

// Places lists where what went into a figure is written, in the order of its
// inputs.
func (w Working) Places() []fault.Pos {
	var out []fault.Pos
	w.each(func(n *node, _ bool) {
		if at := w.pad.leaves[n.a].at; at.Given() {
			out = append(out, at)
		}
	})
	return out
}

// each visits the leaves that are inputs: remarks, then those of the sum, then
// numbers that decided something. What was found by search or geometry is told
// by the sum alone.
func (w Working) each(visit func(n *node, inSum bool)) {
	if w.root == 0 {
		return
	}
	extras := w.extras.of(w.pad.extras)
	for _, at := range extras {
		if w.pad.nodes[at].op == opRemark {
			w.pad.walk(at, false, visit)
		}
	}
	w.pad.walk(w.root-1, true, visit)
	for _, at := range extras {
		if w.pad.nodes[at].op != opRemark {
			w.pad.walk(at, false, visit)
		}
	}
}

func (p *Pad) walk(at int32, inSum bool, visit func(*node, bool)) {
	n := &p.nodes[at]
	switch {
	case n.op == opInput, n.op == opRemark && p.leaves[n.a].name != "":
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
