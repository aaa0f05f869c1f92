package garment

import (
	"maps"
	"slices"

	"hembook/internal/say"
	"hembook/internal/trade"
)

// A Way is a way of seaming or finishing with the measures it is sewn with.
type Way struct {
	Type     trade.SeamType
	Measures trade.Params
	UsedBy   []string  // names of the seams and finishes
	Sides    [3]string // the pieces on each side in the first of them; "" where they are too many to name
	Alike    bool      // those are the pieces in all of them
}

// SewingWays gathers each way of seaming or finishing once for each set of measures.
func (g *Garment) SewingWays() []Way {
	var out []Way
	add := func(t trade.SeamType, measures trade.Params, name string, sides [3]string) {
		if t.Name == "" {
			return
		}
		for i := range out {
			if w := &out[i]; w.Type.Alike(t) && maps.Equal(w.Measures, measures) {
				w.UsedBy = append(w.UsedBy, name)
				w.Alike = w.Alike && w.Sides == sides
				return
			}
		}
		out = append(out, Way{t, measures, []string{name}, sides, true})
	}
	for _, s := range g.Seams {
		add(s.Type, s.Params, s.Name, s.SideNames())
	}
	for _, f := range g.Finishes {
		add(f.Type, f.Params, f.Name, [3]string{piecesNamed(f.Edges)})
	}
	return out
}

// SideNames are the pieces on each side of a seam; "" where they are too many to name.
func (s *Seam) SideNames() (out [3]string) {
	for i := range s.Sides {
		out[i] = piecesNamed(s.Sides[i].Edges)
	}
	if s.Type.Sides() > 2 && len(s.Plies) > 0 {
		out[2] = piecesNamed(s.Plies[0].Edges)
	}
	return out
}

// piecesNamed are the pieces of edges, where they are few enough to be named beside a
// drawing.
func piecesNamed(edges []EdgeUse) string {
	var names []string
	for _, e := range edges {
		if e.Piece != nil && !slices.Contains(names, e.Piece.Name) {
			names = append(names, e.Piece.Name)
		}
	}
	switch len(names) {
	case 1:
		return names[0]
	case 2:
		return say.Of("garment.and", names[0], names[1])
	}
	return ""
}
