package garment

import (
	"maps"

	"hembook/internal/trade"
)

// A Way is a way of seaming or finishing with the measures it is sewn with.
type Way struct {
	Type     trade.SeamType
	Measures trade.Params
	UsedBy   []string // names of the seams and finishes
}

// SewingWays gathers each way of seaming or finishing once for each set of measures.
func (g *Garment) SewingWays() []Way {
	var out []Way
	add := func(t trade.SeamType, measures trade.Params, name string) {
		if t.Name == "" {
			return
		}
		for i := range out {
			if w := &out[i]; w.Type.Alike(t) && maps.Equal(w.Measures, measures) {
				w.UsedBy = append(w.UsedBy, name)
				return
			}
		}
		out = append(out, Way{t, measures, []string{name}})
	}
	for _, s := range g.Seams {
		add(s.Type, s.Params, s.Name)
	}
	for _, f := range g.Finishes {
		add(f.Type, f.Params, f.Name)
	}
	return out
}
