package garment

import (
	"slices"

	"hembook/internal/sewn"
)

// A goingRound is what goes round a level in one layer: the outer one, or one that
// is caught to it and must be let out with it.
type goingRound struct {
	name   string // of the layer, or of the piece that lies behind
	girths []sewn.Girth
}

// caughtRound lists what else goes round a level and is caught to what it is counted
// over: linings, overlays, and facings all round. What only hangs from a seam above
// gives way by itself; so does what does not go all the way round. why says of which
// it cannot be told.
func (w *letOuts) caughtRound(l *Level) (out []goingRound, why string) {
	counted := map[sewn.CopyID]bool{}
	for i := range l.Girths {
		for k := range l.Girths[i].Chords {
			counted[l.Girths[i].Chords[k].Copy] = true
		}
	}
	for _, layer := range w.layers() {
		at := len(out)
		for _, g := range w.walkedIn(l.Name, layer) {
			switch {
			case counted[g.Chords[0].Copy]:
			case w.unsewnRound(&g):
				return nil, w.Join(w.inLayer(&g, layer), " goes round here too, and nothing tells what it is sewn to")
			case !w.allRound(&g) || !w.caughtTo(&g, counted):
			case len(out) > at:
				out[at].girths = append(out[at].girths, g)
			default:
				out = append(out, goingRound{w.roundName(&g, layer), []sewn.Girth{g}})
			}
		}
	}
	return out, ""
}

// inLayer names the first piece of a girth, with its layer where it is cut in several.
func (w *letOuts) inLayer(g *sewn.Girth, layer string) string {
	name := w.g.Sewn.Copies[g.Chords[0].Copy].Name
	if p := w.named[name]; p != nil && p.sets() > 1 {
		return w.Join(name, " in ", layer)
	}
	return name
}

// roundName is what goes round is called: the layer, or in the outer one the piece.
func (w *letOuts) roundName(g *sewn.Girth, layer string) string {
	if layer != outerLayer {
		return layer
	}
	return w.g.Sewn.Copies[g.Chords[0].Copy].Name
}

// allRound reports whether a girth goes round as far as the garment does: it comes
// back to itself, or runs over a seam.
func (w *letOuts) allRound(g *sewn.Girth) bool {
	return g.Closed || slices.ContainsFunc(g.Crosses, func(c sewn.Crosses) bool { return w.g.Sewn.Joins[c.Join].Kind == sewn.Sewn })
}

// unsewnRound reports whether nothing is said of what the pieces of a girth are sewn to.
func (w *letOuts) unsewnRound(g *sewn.Girth) bool {
	return !slices.ContainsFunc(g.Chords, func(ch sewn.Chord) bool {
		return slices.ContainsFunc(w.g.Sewn.Copies[ch.Copy].Sides, func(id sewn.SideID) bool {
			return slices.ContainsFunc(w.g.Sewn.JoinsOf(id), func(j sewn.JoinID) bool { return w.g.Sewn.Joins[j].Kind != sewn.Fold })
		})
	})
}

// letOutToNothing is within how much of its length a seam can be let out to nothing,
// mm (common practice, no source).
const letOutToNothing = 100

// caughtTo reports whether what goes round is caught to what is counted so that both
// must give: above the level and below it, or so near to it that the seam cannot be let
// out to nothing on the way. What is caught farther up alone hangs and does not hold.
func (w *letOuts) caughtTo(g *sewn.Girth, counted map[sewn.CopyID]bool) bool {
	s := w.g.Sewn
	above, below := false, false
	for k := range g.Chords {
		ch := &g.Chords[k]
		for _, id := range s.Copies[ch.Copy].Sides {
			for _, at := range s.JoinsOf(id) {
				j := &s.Joins[at]
				if j.Kind != sewn.Caught {
					continue
				}
				own, other := j.A, j.B
				if own.Side != id {
					own, other = other, own
				}
				if c := s.Sides[other.Side].Copy; !counted[c] && !s.Together(c, counted) {
					continue
				}
				for _, end := range [...]float64{own.From, own.To} {
					switch off := s.HeightAt(id, end) - ch.Y; {
					case off > letOutToNothing:
						above = true
					case off < -letOutToNothing:
						below = true
					default:
						return true
					}
				}
			}
		}
	}
	return above && below
}
