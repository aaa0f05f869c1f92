package garment

import (
	"math"
	"strings"

	"hembook/internal/shape"
	"hembook/internal/trade"
)

// leastHem is how deep a hem is at least that is to be called one, mm (common practice,
// no source).
const leastHem = 10

// A HemDepth is the depth of a hem with the allowance that it takes, mm.
type HemDepth struct {
	Depth, Takes float64
	params       trade.Params
}

// NarrowestHem is the least depth at which a finish is still a hem of its type, in whole
// millimetres: all checks of the type hold. Not ok where it is no hem with a depth, or as
// narrow already.
func (f *Finish) NarrowestHem() (now, least HemDepth, ok bool) {
	depth, has := f.Params["depth"]
	if f.kind == nil || !has || !strings.HasSuffix(f.kind.Name, "hem") || !f.Takes.Value.Known() {
		return now, least, false
	}
	now = HemDepth{depth, f.Takes.Value.Number, f.Params}
	for d := float64(leastHem); d < depth; d++ {
		params := trade.Params{}
		for name, v := range f.Params {
			params[name] = v
		}
		params["depth"] = d
		broken, err := f.kind.Broken(params, nil)
		if err != nil || len(broken) > 0 {
			continue
		}
		takes, err := f.kind.Gives.A.Value(params)
		return now, HemDepth{d, takes, params}, err == nil && takes < now.Takes
	}
	return now, least, false
}

// CutWithHem is the piece as it is cut with another depth of a hem: its edges have so much
// less allowance. Nil where it has no edge with that hem, or none that can be cut so.
func (p *Piece) CutWithHem(f *Finish, now, other HemDepth) *Piece {
	if p.form.why != "" || p.form.slit {
		return nil
	}
	found := false
	allow, corners := p.allowances(func(e *PieceEdge) (float64, shape.Corner) {
		if e.finish != f {
			return e.allow, e.finishCorner()
		}
		found = true
		return math.Max(0, e.allow-now.Takes+other.Takes), cornerOfFinish(f.kind, other.params)
	})
	if !found {
		return nil
	}
	cut, err := p.Outline.CutOutline(allow, corners)
	if err != nil {
		return nil
	}
	out := *p
	out.Cut = cut
	out.openOut()
	return &out
}
