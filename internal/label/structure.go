package label

import (
	"slices"

	"hembook/internal/fault"
	"hembook/internal/garment"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// structureLayers adds what the way a garment is made does not stand.
func (c *Care) structureLayers(g *garment.Garment) {
	for _, s := range trade.CareStructures() {
		at, made := madeSo(g, s.Name)
		if !made {
			continue
		}
		c.Layers = append(c.Layers, CareLayer{Name: s.Title, Made: s.Name, Limits: s.Care, At: at, Source: s.Care.Source})
	}
}

// Words by which a record tells how a garment is made (terms of the trade).
var (
	bones   = []string{"boning", "bone", "busk", "underwire"}
	canvas  = []string{"canvas", "hair canvas", "haircloth"}
	fusible = []string{"fusing", "fusible"}
	painted = []string{"hand-painted", "hand painted", "painted", "hand-dyed", "hand dyed", "batik"}
)

// madeSo reports whether a garment is made in a way, and where its record says so.
func madeSo(g *garment.Garment, how string) (fault.Pos, bool) {
	switch how {
	case "boned":
		for _, n := range g.Notions {
			if words.AnyOf(n.Record.Is(), bones) {
				return n.Record.At, true
			}
		}
	case "raw-edged":
		for _, f := range g.Finishes {
			if f.Type.Name == "raw" && slices.ContainsFunc(f.Edges, func(u garment.EdgeUse) bool { return frays(g, u.Piece) }) {
				return f.Record.At, true
			}
		}
	default:
		for _, cloth := range g.Cloths {
			if clothSo(cloth, how) {
				return cloth.Use.At, true
			}
		}
	}
	return fault.Pos{}, false
}

// clothSo reports whether a cloth makes a garment canvassed, fused or painted.
func clothSo(cloth *garment.Cloth, how string) bool {
	name := ""
	if cloth.Cloth != nil {
		name = cloth.Cloth.Name.V + " " + cloth.Cloth.Weave.V
	}
	_, hidden, _ := leftOut(cloth.Part)
	switch how {
	case "canvassed":
		return hidden && (words.AnyOf(cloth.Part, canvas) || words.AnyOf(name, canvas))
	case "fused":
		return words.AnyOf(cloth.Part, fusible)
	case "painted":
		return words.AnyOf(name, painted)
	}
	return false
}

// frays reports whether a raw edge of a piece comes apart: its cloth is woven.
func frays(g *garment.Garment, p *garment.Piece) bool {
	return slices.ContainsFunc(g.Cloths, func(c *garment.Cloth) bool {
		return slices.Contains(p.Of, c.Part) && c.Cloth != nil && c.Cloth.Structure.Or("woven") == "woven"
	})
}
